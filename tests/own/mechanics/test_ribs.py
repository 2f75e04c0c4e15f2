import numpy as np
import pytest

import shoulder_model as sm
from shoulder_model.mechanics.ribs import chest_outline

MEN = sm.Lifter.average("men")
CLOSE = [name for name in sm.pulls if "close" in name]


def level(lifter, one):
    return chest_outline(lifter).level(one.elbow.values)


@pytest.mark.parametrize("sex", ["men", "women"])
@pytest.mark.parametrize("name", list(sm.pulls))
def test_no_elbow_stays_inside_the_chest(name, sex):
    lifter = sm.Lifter.average(sex)
    one = sm.rep(lifter, sm.pulls[name], muscles=False)
    assert level(lifter, one).min() > 1 - 1e-6
    turned = one.elbow_past_ribs.values
    assert np.all(turned >= 0)
    assert (turned.max() > 0.1) == (name in CLOSE)
    assert np.allclose(level(lifter, one)[turned > 0], 1.0, atol=1e-6)  # just out, and no further


@pytest.mark.parametrize("name", CLOSE)
def test_the_elbow_turns_about_the_line_from_shoulder_to_hand(name):
    cue = sm.pulls[name]
    one = sm.rep(MEN, cue, muscles=False)
    k = int(one.elbow_past_ribs.values.argmax())
    by_cue = sm.rep(MEN, cue.change(elbow_cue=float(one.elbow_past_ribs[k])), muscles=False)
    np.testing.assert_allclose(by_cue.elbow[k], one.elbow[k], atol=1e-9)
    np.testing.assert_allclose(by_cue.elbow_flexion, one.elbow_flexion, atol=1e-12)
    assert np.allclose(one.hand_offset, by_cue.hand_offset)


def test_the_outline_is_the_survey_s_chest_with_half_an_elbow():
    chest = chest_outline(MEN)
    half = MEN.chest_breadth / 2 + 0.035
    side = np.array([0.0, -0.3, half - MEN.gh_breadth / 2])
    assert chest.level(side) == pytest.approx(1.0)
    outward = np.array([0.0, 0.0, 0.01])
    assert chest.level(side - outward) < 1 < chest.level(side + outward)
    assert chest.level(np.array([0.0, 0.05, -MEN.gh_breadth / 2])) > 1  # above the acromion there is no chest


def test_the_way_out_is_continuous_along_a_rep():
    one = sm.rep(MEN, sm.pulls["seated row close"], points=801, muscles=False)
    assert np.abs(np.diff(one.elbow_past_ribs)).max() < np.radians(3)


def test_a_crowd_turns_its_elbows_as_its_lifters_do():
    crowd = sm.draw_lifters(4, "women", seed=5)
    many = sm.rep(crowd, sm.pulls["seated row close"], points=9, muscles=False)
    for k in range(4):
        one = sm.rep(
            sm.Lifter(crowd.sex, **{m: getattr(crowd, m)[k] for m in sm.people.MEASURES}),
            sm.pulls["seated row close"],
            points=9,
            muscles=False,
        )
        np.testing.assert_allclose(many.elbow_past_ribs[k], one.elbow_past_ribs, atol=1e-9)
