"""Numbers from strangers: where there is none, panels say so in words; what is no number changes nothing."""

import sys

import mistune
import numpy as np
import pytest

from shoulder_model.draw.look import projector
from shoulder_model.panels import GripPanel, Guess, RatioPanel, WorkPanel, folded
from tests.panel_walk import Page, no_number

WEAK = ("bent-over row", "one-arm row", "chest-supported row")  # with this known pulldown not even the arm is held
KNOWN_KG = "10"
NO_ARM = "Here the model cannot hold up even the arm."
JUMPS = "Above the largest load the grey bars are no answer; at that load they can jump."


@pytest.mark.parametrize("name", WEAK)
def test_where_not_even_the_arm_is_held_words_picture_and_files_say_so(name):
    panel, seen = WorkPanel(name), set()
    page = Page(panel.picture)
    panel.known_kg.value = KNOWN_KG
    for along in range(0, 101, 10):
        panel.along.value = along
        held = bool(np.isfinite(panel.state.largest[panel.state.point]))
        assert (NO_ARM in panel.words) == ("not even the arm" in panel.overlay.partition('">')[2]) == (not held)
        seen.add(held)
    assert seen == {False, True}
    texts = [*page.sent, *(panel.content(kind).decode() for kind in ("csv", "json", "svg"))]
    assert [no_number(text) for text in texts] == [None] * len(texts)
    rows = [line.split(",") for line in panel.content("csv").decode().splitlines()[1:]]
    blank = [row[1] == "" for row in rows]
    np.testing.assert_array_equal(blank, np.isnan(panel.state.largest))


def test_a_load_a_little_over_the_largest_is_not_said_to_be_the_same_number():
    panel = WorkPanel("one-arm row")
    panel.along.value = 100
    panel.sliders["load_kg"].value = 24.5
    assert "24.5 kg cannot be held here: this posture holds up to 24.2 kg." in panel.words


def test_above_the_largest_load_the_panel_says_that_the_bars_are_no_answer():
    def bars(kg):
        panel.sliders["load_kg"].value = kg
        return np.array([*panel.state.bars.values()])

    panel = WorkPanel("bent-over row")
    panel.along.value, panel.every_muscle.value = 100, True
    limit = float(panel.state.largest[panel.state.point])
    below = bars(0.99 * limit)
    assert panel.state.held and JUMPS not in panel.words
    above = bars(1.01 * limit)
    assert not panel.state.held and JUMPS in panel.picture.said["small"]
    assert np.abs(above - below).max() > 0.5  # they do jump
    np.testing.assert_allclose(bars(1.2 * limit), above, atol=1e-6)  # and then stand still


def test_kept_bars_are_outlines_of_the_same_bars_only():
    def outlines():
        return sum(kept.get_visible() for kept in panel.bars.kept)

    panel = WorkPanel()
    panel.every_muscle.value = True
    panel.every_muscle.value = False
    panel.keep()
    groups = outlines()
    assert groups == len(panel.state.bars) < len(panel.bars.kept)
    panel.every_muscle.value = True
    assert outlines() == 0
    panel.every_muscle.value = False
    assert outlines() == groups


def test_on_a_projector_too():
    with projector():
        panel = WorkPanel("bent-over row")
    panel.sliders["load_kg"].value = 200
    assert JUMPS in panel.picture.said["small"]


@pytest.mark.parametrize("typed", ["nan", "inf", "-inf", "1e400", "abc", "-", "1" * 400, "1.2.3"])
def test_what_is_no_number_is_one_short_line_and_goes_when_it_is_mended(typed):
    panel = GripPanel()
    before = panel.overlay, panel.picture.said
    panel.measures["stature"].value = typed
    trouble = panel.picture.said["trouble"]
    assert "is not a number" in trouble and len(trouble) < 130 and "\n" not in trouble
    assert (panel.overlay, panel.picture.said | {"trouble": ""}) == before
    panel.measures["stature"].value = ""
    assert (panel.overlay, panel.picture.said) == before


@pytest.mark.parametrize("typed", ["1,75", "175", "175 cm", " 175,0 ", "١٧٥"])
def test_a_number_is_read_as_people_write_it(typed):
    panel = GripPanel()
    panel.measures["stature"].value = typed
    if typed == "1,75":
        assert "Type centimetres, perhaps 175" in panel.picture.said["trouble"]
    else:
        assert panel.picture.said["trouble"] == "" and panel.state.lifter.stature == pytest.approx(1.75)


def test_beside_a_wrong_entry_what_is_kept_or_dropped_shows_on_the_page():
    panel = GripPanel()
    page = Page(panel.picture)
    panel.keep()
    panel.sliders["grip_ratio"].value = 2.0
    panel.load.value = "heavy"
    for act in (panel.drop, panel.keep):
        act()
        assert page.layer == panel.stage.attributes() and "is not a number" in page.said["trouble"]
        assert page.said["verdict"] == panel.verdict(panel.state)
    panel.load.value = ""
    assert page.layer == panel.stage.attributes() and page.said["trouble"] == ""


def test_a_waist_too_small_to_be_read_is_refused_before_anything_moves():
    panel = RatioPanel()
    before = panel.overlay, panel.words
    panel.boxes["waist_cm"].value = "10.5"  # read 1 cm short it is no waist any more
    assert "waist" in panel.picture.said["trouble"] and (panel.overlay, panel.words) == before


def test_the_table_of_a_very_large_tape_ends_where_the_model_does():
    panel = RatioPanel()
    panel.boxes["upper_cm"].value = "299"
    assert panel.picture.said["trouble"] == ""
    assert 1 < len(panel.content("csv").splitlines()) < 42


def test_no_number_is_no_guess_and_nothing_has_no_sign():
    guess = Guess("How much more?", -0.0, "It stays.", unit="N m", within=0.5)
    for typed in ("nan", "inf", "-inf", "1e400"):
        guess.guess.value = typed
        guess.judge()
        assert "Type a number first" in guess.verdict.value and "It stays" not in guess.verdict.value
    for typed, verdict in (("0", "✓ Yes"), ("-0", "✓ Yes"), ("0,5", "✓ Yes"), ("0.51", "✗ Not quite")):
        guess.guess.value = typed
        guess.judge()
        assert f"{verdict}: 0 N m. It stays." in guess.verdict.value


@pytest.mark.parametrize("blank", ["", "   ", "\t"])
def test_a_blank_line_does_not_end_a_fold(blank, monkeypatch):
    shown = []
    monkeypatch.setattr(sys.modules["shoulder_model.panels.folded"], "display", shown.append)
    with folded("Answer"):
        print(f"first\n{blank}\n# second\n{blank}\n    third *line*")
    page = mistune.create_markdown(escape=False)(shown[0].data)
    assert page.strip() == shown[0].data  # all of it is still one block of HTML
    assert "<h1>" not in page and "<em>" not in page and page.count("&nbsp;") == 2
