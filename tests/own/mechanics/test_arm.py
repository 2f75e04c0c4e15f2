import numpy as np
import pytest
from numpy.testing import assert_allclose

import shoulder_model as sm
from shoulder_model.mechanics import arm_at, elbow_flexion_at, shoulder_hand_distance
from shoulder_model.people import ELBOW_LIMIT

MEN = sm.Lifter.average("men")
SAGITTAL = np.array([0.0, 0.0, -1.0])  # normal of a sagittal plane of pull


def test_links_keep_their_lengths_along_every_rep():
    for pull in sm.pulls.values():
        one = sm.rep(MEN, pull)
        upper, fore = one.elbow - one.gh_centre, one.hand - one.elbow
        assert_allclose(np.linalg.norm(upper, axis=-1), MEN.upper_arm, rtol=1e-12)
        assert_allclose(np.linalg.norm(fore, axis=-1), MEN.forearm, rtol=1e-9)


def test_elbow_angle_and_distance_undo_each_other():
    flexion = np.radians([5.0, 60.0, 143.0])
    assert_allclose(elbow_flexion_at(MEN, shoulder_hand_distance(MEN, flexion)), flexion, rtol=1e-9)


def test_right_angle_elbow_by_pythagoras():
    hand = np.array([MEN.forearm, -MEN.upper_arm, 0.0])  # upper arm hangs, forearm level ahead
    arm = arm_at(MEN, hand, SAGITTAL)
    assert_allclose(arm.elbow, [0.0, -MEN.upper_arm, 0.0], atol=1e-12)
    assert_allclose(arm.humerus, np.eye(3), atol=1e-12)
    assert arm.elbow_flexion == pytest.approx(np.pi / 2)
    assert arm.elevation == pytest.approx(0.0, abs=1e-7)


def test_a_wide_pulldown_sends_the_elbow_out_and_down():
    one = sm.rep(MEN, sm.pulls["front pulldown"].change(grip_ratio=2.0))
    last = one.elbow[-1]
    assert last.sel(space="right") > 0 and last.sel(space="up") < -0.2
    assert one.elevation[0] > 2.2 and one.elevation[-1] < 0.6  # from overhead to beside the trunk


def test_a_close_row_takes_the_elbow_behind_the_trunk():
    one = sm.rep(MEN, sm.pulls["seated row close"])
    assert one.elbow[0].sel(space="forward") > 0.2
    assert one.elbow[-1].sel(space="forward") < -0.05


def test_positive_elbow_cue_takes_the_elbow_out_and_moves_nothing_else():
    pull = sm.pulls["seated row wide"]
    plain, out = (sm.rep(MEN, p) for p in (pull, pull.change(elbow_cue=np.radians(20))))
    assert np.all(out.elbow.sel(space="right")[1:] > plain.elbow.sel(space="right")[1:])
    assert_allclose(out.hand, plain.hand)
    assert_allclose(out.elbow_flexion, plain.elbow_flexion)


def test_the_rep_says_how_it_ended():
    touched = sm.rep(MEN, sm.pulls["seated row close"])
    assert bool(touched.touched) and float(touched.short_of_touch) == 0
    forward, up = sm.pulls["seated row close"].touch_point(MEN)
    aside = sm.pulls["seated row close"].hand_offset(MEN)
    assert_allclose(touched.hand[-1], [forward, up, aside], atol=1e-12)
    stopped = sm.rep(MEN, sm.pulls["front pulldown"].change(girdle_travel=0.0))
    assert not bool(stopped.touched) and float(stopped.short_of_touch) > 0
    assert float(stopped.elbow_flexion[-1]) == pytest.approx(ELBOW_LIMIT)


def test_the_rep_starts_at_full_reach():
    assert float(sm.rep(MEN, sm.pulls["pull-up"]).elbow_flexion[0]) == pytest.approx(0.0, abs=1e-6)


def test_an_arc_keeps_the_elbow_as_it_is():
    one = sm.rep(MEN, sm.pulls["straight-arm pulldown"])
    assert_allclose(np.degrees(one.elbow_flexion), 15.0)
    assert float(one.elevation[0]) > np.radians(150) and float(one.elevation[-1]) < np.radians(30)


@pytest.mark.parametrize(
    ("fields", "says"),
    [
        ({"grip_ratio": 3.0, "touch_forward": 0.6}, "touch_up is out of reach|grip_ratio is out of reach"),
        (
            {"touch_up": -0.8},
            "touch_up is out of reach: the hand would be .* cm from the shoulder, allowed 0 to 62.2 cm",
        ),
    ],
)
def test_out_of_reach_names_the_field(fields, says):
    with pytest.raises(ValueError, match=says):
        sm.rep(MEN, sm.pulls["front pulldown"].change(**fields))


def test_a_grip_wider_than_the_arm_names_the_grip():
    short = sm.Lifter.from_measures("women", elbow_grip=0.235, acromion_radiale=0.23)
    wide = sm.pulls["front pulldown"].change(grip_ratio=3.0, touch_forward=0.12, touch_up=0.0)
    assert wide.hand_offset(short) < short.reach  # still reachable: no error
    sm.rep(short, wide)
    with pytest.raises(ValueError, match="grip_ratio is out of reach"):
        sm.rep(short, sm.pulls["straight-arm pulldown"].change(grip_ratio=3.0, held_elbow_flexion=np.radians(120)))


def test_a_hand_on_the_shoulder_would_need_too_much_elbow():
    with pytest.raises(ValueError, match=r"hand = 10.0 cm from the shoulder: the elbow would have to bend past 143.0°"):
        arm_at(MEN, np.array([0.1, 0.0, 0.0]), SAGITTAL)
    with pytest.raises(ValueError, match="hand is out of reach"):
        arm_at(MEN, np.array([0.9, 0.0, 0.0]), SAGITTAL)
