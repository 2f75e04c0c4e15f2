"""The ratio panel: two tapes, a layer on and a layer off, in words and in the picture. What every panel holds: test_panels."""

import json
import re

import numpy as np
import pytest

from shoulder_model.draw.look import projector
from shoulder_model.draw.outline_view import Build
from shoulder_model.panels import RatioPanel
from shoulder_model.people import means, percentile, survey_quantity


@pytest.fixture
def panel():
    return RatioPanel()


def said(panel):
    return panel.picture.said["verdict"]


@pytest.mark.parametrize("sex", ["men", "women"])
@pytest.mark.parametrize(("tape", "part"), [("shoulders", "shoulder"), ("chest", "chest")])
def test_blank_tapes_are_the_surveys_means(sex, tape, part):
    panel = RatioPanel(sex, tape)
    upper, waist = means(sex, f"{part}_circumference", "waist_circumference")
    mean, sd = survey_quantity(sex, f"{part}_to_waist_circumference")
    assert panel.state.tapes == (upper, waist)
    place = percentile(upper / waist, mean, sd)
    assert (
        said(panel) == f"The ratio is {upper / waist:.2f}, larger than that of {place:.0f} in 100 {sex} in the survey."
    )
    assert [box.placeholder for box in panel.boxes.values()] == [f"≈ {100 * each:.1f}" for each in (upper, waist)]


def test_what_is_typed_counts_and_blank_again_is_the_mean(panel):
    panel.boxes["upper_cm"].value, panel.boxes["waist_cm"].value = "120", "80,0"
    assert said(panel).startswith("The ratio is 1.50,") and panel.words.startswith("Shoulders 120.0 cm, waist 80.0 cm")
    panel.boxes["upper_cm"].value = panel.boxes["waist_cm"].value = ""
    assert said(panel).startswith("The ratio is 1.25,")


def test_the_line_by_hand_multiplies_out(panel):
    """The four tapes as printed, added and divided again."""
    for muscle, off in ((1, 0), (0, 1.5), (2.3, 4), (4, 0.1)):
        panel.sliders["muscle_cm"].value, panel.sliders["off_cm"].value = muscle, off
        line = re.search(r"By hand: ([^/]+) / (.+?) = (\d+\.\d+)\.", panel.words).groups()
        above, below, ratio = (re.findall(r"\d+\.\d+", part) for part in line)
        assert (len(above), len(below)) == (1 + bool(muscle), 1 + bool(off))
        upper, waist, (ratio,) = sum(map(float, above)), 2 * float(below[0]) - sum(map(float, below)), map(float, ratio)
        assert upper / waist == pytest.approx(ratio, abs=0.005 + 0.003)  # four tapes to half a millimetre
        assert f"becomes {ratio:.2f}," in said(panel)


def test_both_layers_are_named_apart_and_the_waist_leads(panel):
    for sex in ("men", "women"):
        for tape in ("shoulders", "chest"):
            panel.sex.value, panel.tape.value = sex, tape
            panel.sliders["muscle_cm"].value = panel.sliders["off_cm"].value = 1
            muscle, waist = map(
                float,
                re.search(r"the muscle alone adds ([\d.]+), the waist alone adds (\d+\.\d+)", said(panel)).groups(),
            )
            upper, below = panel.state.tapes
            (on, off), (more, less) = panel.state.alone, panel.state.layers
            assert more == less
            assert on == pytest.approx((upper + more) / below - upper / below)
            assert off == pytest.approx(upper / (below - less) - upper / below)
            assert (muscle, waist) == (round(on, 3), round(off, 3)) and waist > muscle


def test_with_one_layer_only_nothing_is_told_apart(panel):
    panel.sliders["off_cm"].value = 1.5
    assert said(panel).startswith("The ratio 1.25 becomes 1.32, ") and "alone" not in said(panel)


def test_the_panel_says_what_a_ratio_is_not_and_when_to_stop():
    panel = RatioPanel()
    with projector():
        large = RatioPanel()
    for words in (panel.picture.said["small"], large.picture.said["small"]):
        assert "not health, fitness or worth" in words and "upsets you" in words and "stop" in words
        assert "3.1 cm on a round outline, up to 4 cm on a flat one" in words
    assert "doctor or a dietitian" in panel.picture.said["small"]


def test_the_outline_moves_by_the_layers_on_each_side(panel):
    """Half breadths at the height of the tapes, in the drawn outline; 1 mm for its rounded corners."""
    before = np.transpose(panel.outline.before.get_data())
    for tape in ("shoulders", "chest"):
        panel.tape.value = tape
        panel.sliders["muscle_cm"].value, panel.sliders["off_cm"].value = 3, 2
        now = np.transpose(panel.outline.now.get_data())
        for line, thicker in zip(panel.outline.tapes, (0.03, -0.02), strict=True):
            half, height = np.max(line.line.get_xdata()), np.max(line.line.get_ydata())
            assert half - half_breadth(before, height) == pytest.approx(thicker, abs=0.001)
            assert half_breadth(now, height) == pytest.approx(half, abs=0.001)
        assert np.allclose(np.transpose(panel.outline.before.get_data()), before)


def half_breadth(outline, height):
    """Half breadth of a drawn outline at a height, its outermost crossing on the right. [m]"""
    (x0, y0), (x1, y1) = outline[:-1].T, outline[1:].T
    crosses = (y0 - height) * (y1 - height) <= 0
    with np.errstate(invalid="ignore", divide="ignore"):
        share = np.where(y1 == y0, 0.0, (height - y0) / (y1 - y0))
    return np.max((x0 + share * (x1 - x0))[crosses])


def test_a_larger_tape_is_a_broader_drawing(panel):
    mean = np.max(panel.outline.now.get_xdata())
    panel.boxes["upper_cm"].value = "129.65"  # a tenth more
    assert np.max(panel.outline.now.get_xdata()) == pytest.approx(1.1 * mean, rel=0.001)


def test_a_build_grows_in_one_place_only():
    build = Build(0.25, 0.18, 0.16, 1.75)
    assert build.grown("waist", -0.01) == Build(0.25, 0.18, 0.15, 1.75)


def test_the_filled_part_of_the_curve_is_the_share_below(panel):
    for off in (0.0, 2.0, 4.0):
        panel.sliders["off_cm"].value = off
        x, y = panel.spread.below.get_xy().T
        filled = 0.5 * abs(np.dot(x[:-1], y[1:]) - np.dot(x[1:], y[:-1]))
        everybody = np.trapezoid(*panel.spread.curve.get_data()[::-1])
        assert 100 * filled / everybody == pytest.approx(panel.state.place(panel.state.now), abs=0.3)


def test_a_ratio_beyond_the_axis_stands_at_its_end_and_is_said(panel):
    panel.boxes["upper_cm"].value, panel.boxes["waist_cm"].value = "150", "60"
    assert panel.spread.now.get_xdata()[0] == 1.7 and "2.50" in panel.spread.words[0].get_text()
    assert panel.picture.said["trouble"] == "" and "larger than that of 100 in 100" in said(panel)


def test_against_a_kept_one(panel):
    panel.keep()
    panel.sliders["muscle_cm"].value = 1
    assert said(panel) == (
        "The ratio is 1.29 against 1.25 in the kept one (+0.035), larger than that of 58 in 100 men against 46."
    )
    panel.sex.value = "women"
    assert said(panel).endswith("in 100 women against 46 men.")
    panel.tape.value = "chest"
    assert said(panel) == "Chest / waist is 1.14; the kept one is another ratio, shoulders / waist: 1.25."


@pytest.mark.parametrize(
    ("box", "typed", "says"),
    [
        ("upper_cm", "wide", "is not a number"),
        ("upper_cm", "1,18", "perhaps 118"),
        ("waist_cm", "-80", "waist = -80.0 cm is outside"),
        ("waist_cm", "9000", "waist = 9000.0 cm is outside"),
        ("waist_cm", "0", "waist = 0.0 cm is outside"),
    ],
)
def test_a_wrong_tape_is_one_line_and_the_picture_stays(panel, box, typed, says):
    before = panel.overlay, said(panel)
    panel.boxes[box].value = typed
    assert says in panel.picture.said["trouble"] and (panel.overlay, said(panel)) == before


def test_more_off_than_there_is_is_refused(panel):
    panel.boxes["waist_cm"].value = "20"
    before = panel.overlay
    panel.sliders["off_cm"].value = 4
    assert "waist, changed" in panel.picture.said["trouble"] and panel.overlay == before


@pytest.mark.parametrize(
    ("change", "says"),
    [
        ({"sex": "boys"}, "'boys' is not known"),
        ({"tape": "hips"}, "'hips' is not known"),
        ({"muscle_cm": 40}, "muscle_cm = 40 is outside 0 to 4"),
        ({"upper_cm": 5}, "upper = 5.0 cm is outside"),
        ({"waist_cm": 20, "off_cm": 4}, "waist, changed"),
        ({"waist_cm": None}, "waist_cm"),
    ],
)
def test_a_spoilt_set_up_moves_nothing(panel, change, says):
    content = json.loads(panel.content("json"))
    content["values"] |= change
    before = panel.content("json"), panel.overlay
    panel.open_text(json.dumps(content))
    assert says in panel.picture.said["trouble"] and (panel.content("json"), panel.overlay) == before


def test_a_set_up_brings_its_tapes(panel):
    panel.boxes["waist_cm"].value, panel.tape.value, panel.sex.value = "77.5", "chest", "women"
    panel.sliders["off_cm"].value = 0.7
    other = RatioPanel()
    other.open_text(panel.content("json").decode())
    assert (other.words, other.overlay) == (panel.words, panel.overlay) and other.boxes["upper_cm"].value == ""


def test_the_table_is_the_panel_at_every_step_of_its_slider(panel):
    panel.sliders["off_cm"].value = 1
    header, *rows = panel.content("csv").decode("utf-8-sig").strip().split("\n")
    assert header.split(",")[:3] == ["muscle at each side [mm]", "shoulders tape [cm]", "waist tape [cm]"]
    saved = np.array([row.split(",") for row in rows], dtype=float)
    assert len(saved) == 41
    for row in saved[::10]:
        panel.sliders["muscle_cm"].value = row[0] / 10
        upper, waist = panel.state.new_tapes
        expected = (100 * upper, 100 * waist, panel.state.now, panel.state.place(panel.state.now))
        np.testing.assert_allclose(row[1:], expected, atol=5e-4)
