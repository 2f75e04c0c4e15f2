"""The panel "my lifter": what a reading does, what a move looks up, what is saved and what is refused."""

import json
from dataclasses import replace
from math import inf

import numpy as np
import pytest

import shoulder_model as sm
from shoulder_model.inputs import InputError
from shoulder_model.panels import MyLifterPanel
from shoulder_model.repetition import first_counted
from shoulder_model.spread import GRIPS, band_of, standing
from shoulder_model.spread.by_grip import ASKED, EVERYBODY, SEED

LAT, TORQUE = ASKED.index("lat_share"), ASKED.index("most_shoulder_torque")
MEASURED = {"stature": 1.78, "mass": 82.0}


@pytest.fixture
def panel():
    return MyLifterPanel(sex="men", **MEASURED)


def test_the_bands_are_those_of_sweeps():
    """The same loads from the public calls, in one sweep each."""
    pull, found = sm.pulls["front pulldown"], standing(sm.pulls["front pulldown"], "men", **MEASURED)
    crowd = sm.draw_lifters(60, "men", SEED, **MEASURED)
    swept = sm.sweep(crowd, pull, points=11, grip_ratio=list(GRIPS), strength=sm.spread.drawn_strength(crowd, SEED))
    first = first_counted(11)
    loads = swept.largest_load_kg.transpose("lifter", "grip_ratio", "point").values[..., first:].min(axis=-1)
    band = band_of(loads)
    np.testing.assert_allclose(found.people["whole_rep_load_kg"].low, band.low, rtol=1e-6)
    np.testing.assert_allclose(found.people["whole_rep_load_kg"].high, band.high, rtol=1e-6)


def test_a_move_of_the_grip_works_nothing_out(panel, monkeypatch):
    monkeypatch.setattr("shoulder_model.spread.by_grip.ManyReps", None)
    words = {panel.picture.said["verdict"]}
    for grip in GRIPS:
        panel.sliders["grip"].value = grip
        words.add(panel.picture.said["verdict"])
        assert not panel.picture.said["trouble"] and panel.bands.stand == "there" and panel.picture.said["bands"]
    assert len(words) == len(GRIPS)


def test_a_reading_narrows_what_is_expected_and_keeps_what_is_not_known(panel):
    before = panel.state
    panel.boxes["biacromial"].value = "43"
    after = panel.state
    assert after.expected["biacromial"][1] == 0.0 < before.expected["biacromial"][1]
    assert panel.bands.stand == "awaited" and panel.picture.said["bands"] == ""
    panel.settle(inf)
    people, unknown = zip(*(panel.bands.answers(one).bands for one in (before, after)), strict=True)
    assert abs(unknown[1].width[LAT, 2] / unknown[0].width[LAT, 2] - 1) < 0.1
    assert people[1].width[TORQUE, 2] < people[0].width[TORQUE, 2]


def test_the_bands_are_those_of_the_public_call(panel):
    found, answers = standing(sm.pulls["front pulldown"], "men", **MEASURED), panel.bands.shown
    for k, name in enumerate(ASKED):
        for mine, theirs in zip(answers.bands, (found.people[name], found.unknown[name]), strict=True):
            np.testing.assert_array_equal(mine.low[k], theirs.low)
            np.testing.assert_array_equal(mine.high[k], theirs.high)


def test_a_kept_value_stays_where_it_is_on_a_scale_that_changes(panel):
    torque, strips = ASKED.index("most_shoulder_torque"), panel.answers
    panel.keep()
    was, scale = panel.state.of("most_shoulder_torque")[0], strips.most[torque]
    panel.pull_choice.value = "chest-supported row"
    assert strips.most[torque] != scale
    assert strips.kept[torque].get_xdata()[0] == pytest.approx(was / strips.most[torque])
    panel.drop()
    assert len(strips.kept[torque].get_xdata()) == 0


def test_two_grips_are_compared_person_by_person(panel):
    panel.criterion.value = "least shoulder torque"
    panel.sliders["grip"].value = 1.0
    panel.keep()
    panel.sliders["grip"].value = 2.0
    people = panel.bands.shown.people[:, TORQUE]
    low, high = np.quantile(people[:, 4] - people[:, 0], [0.05, 0.95])
    assert f"{low:.0f} to {high:.0f} N m".replace("-", "−") in panel.picture.said["bands"]


def test_the_comparison_names_all_that_was_other_in_the_kept_one(panel):
    panel.keep()
    assert panel.picture.said["verdict"].endswith("in the kept one (1.50 ×).")
    panel.pull_choice.value = "pull-up"
    assert panel.picture.said["verdict"].endswith("in the kept one (front pulldown, 1.50 ×).")
    panel.boxes["mass"].value = "95"
    assert panel.picture.said["verdict"].endswith("in the kept one (another person, front pulldown, 1.50 ×).")
    panel.pull_choice.value, panel.sliders["grip"].value = "front pulldown", 2.0
    assert panel.picture.said["verdict"].endswith("in the kept one (another person, 1.50 ×).")


@pytest.mark.parametrize("name", ASKED)
def test_each_of_everybody_has_one_best_grip(name):
    shares, own = standing(sm.pulls["front pulldown"], "women").best_for(name)
    assert shares.sum() == pytest.approx(1.0) and own in GRIPS
    assert np.allclose(shares * EVERYBODY, np.round(shares * EVERYBODY))


def test_a_saved_set_up_opens_again(panel):
    panel.boxes["chest_depth"].value = "24.5"
    panel.sliders["grip"].value = 1.25
    panel.criterion.value = "largest load"
    panel.settle(inf)
    saved, words = panel.content("json"), panel.words
    other = MyLifterPanel()
    other.open_text(saved, "mine.json")
    other.settle(inf)
    assert other.words == words and not other.picture.said["trouble"]


@pytest.mark.parametrize(
    ("name", "value", "told"),
    [
        ("grip", 1.3, "choose one of 1, 1.25"), ("pull", "close-grip pulldown", "pull"), ("sex", "people", "sex"),
        ("stature", 3.5, "stature"), ("mass", True, "mass"), ("criterion", "most growth", "criterion"), ("hand", "20", "hand"),
    ],
)  # fmt: skip
def test_a_set_up_gone_wrong_moves_nothing(panel, name, value, told):
    saved = json.loads(panel.content("json"))
    saved["values"][name] = value
    before = panel.overlay, panel.words
    with pytest.raises(InputError, match=told):
        panel.apply(json.dumps(saved))
    panel.open_text(json.dumps(saved))
    assert told in panel.picture.said["trouble"] and (panel.overlay, panel.picture.said["words"]) == before


def test_what_is_typed_wrong_is_one_line(panel):
    before = panel.overlay
    panel.boxes["stature"].value = "1.78"
    assert "178" in panel.picture.said["trouble"] and panel.overlay == before
    panel.boxes["stature"].value = "178"
    assert not panel.picture.said["trouble"]


def test_cautions_stand_in_the_small_print(panel):
    for words in (panel.small(panel.state), panel.brief(panel.state)):
        assert "no load to try" in words and "licensed clinician" in words


def test_the_verdict_says_how_surely_a_grip_is_the_best(panel):
    panel.criterion.value = "largest load"
    found = standing(sm.pulls["front pulldown"], "men", **MEASURED)
    assert f"in {found.sure['whole_rep_load_kg']} of 20 draws" in panel.picture.said["bands"]
    pull, person = sm.pulls["front pulldown"], sm.Lifter.from_measures("men", **MEASURED)
    same = 0
    for one in sm.spread.drawn_inputs(20, SEED):
        strength = one.strength(sm.expected_strength(person), "men")
        loads = sm.sweep(person, one.pull(pull), points=11, grip_ratio=list(GRIPS), strength=strength, **one.options)
        same += GRIPS[int(np.argmax(loads.whole_rep_load_kg.values))] == found.best_for("whole_rep_load_kg")[1]
    assert same == found.sure["whole_rep_load_kg"]


def test_grips_that_hardly_differ_have_no_best(panel):
    name, said = "lat_share", []
    for values in (0.17 + np.zeros(5), 0.17 + 0.01 * np.arange(5)):
        found = replace(panel.state.found, value=panel.state.found.value | {name: values})
        state = replace(panel.state, found=found)
        said.append((panel.verdict(state), panel.say_bands(state, panel.bands.shown, None, None)))
    assert "From 1 to 2 × it hardly changes." in said[0][0] and "stays the best" not in said[0][1]
    assert "2 × is best for this person" in said[1][0] and "2 × stays the best in" in said[1][1]
