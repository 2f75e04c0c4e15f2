import numpy as np
import pytest
from numpy.testing import assert_allclose

import shoulder_model as sm
from shoulder_model.inputs import InputError
from shoulder_model.mechanics import Posture, arm_at, hand_path
from shoulder_model.mechanics.pull import HAND_TURNS
from shoulder_model.muscles import MUSCLES, beyond_forearm, drive, forearm_turn, leverage, pull_band
from shoulder_model.muscles.elbow import FLEXORS
from shoulder_model.sources import constant, fact

MEN = sm.Lifter.average("men")


def turn_of(pull, lifter=MEN):
    path = hand_path(lifter, pull, 21)
    return forearm_turn(arm_at(lifter, path.hand, path.normal, pull.elbow_cue), pull)


@pytest.mark.parametrize("turn", HAND_TURNS)
def test_drive_and_leverage_make_up_the_measured_pull(turn):
    ratio = fact(f"elbow_pull_{turn}") / fact("elbow_pull_neutral")
    assert drive(turn) * leverage(turn) == pytest.approx(ratio, rel=1e-12)
    assert pull_band(turn)[0] == pytest.approx(ratio, rel=1e-12)


def test_measured_ratios_by_hand():
    # 113.6 / 243.6 N and 213.6 / 243.6 N, drive 71, 93 and 96 %: Physiol Rep 2018;6:e13560
    assert [round(drive(turn), 3) for turn in HAND_TURNS] == [0.740, 1.0, 0.969]
    assert [round(leverage(turn), 3) for turn in HAND_TURNS] == [0.631, 1.0, 0.905]


def test_the_band_is_one_standard_error_of_both_means():
    value, low, high = pull_band("pronated")
    errors = [sd / mean / np.sqrt(11) for mean, sd in ((113.6, 21.3), (243.6, 48.0))]
    assert high / value - 1 == pytest.approx(np.hypot(*errors), rel=1e-9)
    assert low / value == pytest.approx(2 - high / value)
    assert pull_band("neutral") == (1.0, 1.0, 1.0)
    assert constant("elbow_pull_pronated").high == pytest.approx(113.6 + 21.3)


def test_an_arm_hanging_bent_holds_a_bar_palm_up_down_and_between():
    # elbow at the side, forearm ahead (sagittal): a hammer grip is neutral, palm down is pronated by 90°
    humerus = np.eye(3)[None]  # its columns: ahead, up the shaft, to the right
    level = Posture(np.array([[0.0, -0.3, 0.0]]), np.array([[0.25, -0.3, 0.0]]), np.array([np.pi / 2]), humerus)
    assert_allclose(level.hinge, [[0.0, 0.0, 1.0]])
    pull = sm.pulls["seated row close"].change(touch_up=-0.3, touch_forward=0.1)
    found = [float(forearm_turn(level, pull.change(hand_turn=turn))[0]) for turn in HAND_TURNS]
    assert_allclose(np.degrees(found), [90, 0, -90], atol=1e-9)


@pytest.mark.parametrize("name", list(sm.pulls))
def test_a_supinated_hand_is_turned_half_way_round_from_a_pronated_one(name):
    pronated, supinated = (turn_of(sm.pulls[name].change(hand_turn=turn)) for turn in ("pronated", "supinated"))
    difference = np.mod(pronated - supinated, 2 * np.pi)
    assert_allclose(difference, np.pi, atol=1e-9)
    assert np.all(np.abs(pronated) <= np.pi + 1e-12)


def test_a_wide_underhand_grip_asks_for_more_than_a_forearm_has():
    close = sm.pulls["front pulldown"].change(hand_turn="supinated")
    beyond = [np.degrees(beyond_forearm(turn_of(close.change(grip_ratio=ratio)))).max() for ratio in (0.8, 1.4, 2.0)]
    assert beyond[0] < 10 and beyond[2] > beyond[1] > beyond[0] + 5


def test_what_is_beyond_the_forearm():
    assert_allclose(np.degrees(beyond_forearm(np.radians([-100.0, -80, 0, 79, 95]))), [20, 0, 0, 0, 15], atol=1e-9)


def test_a_rep_knows_its_forearm():
    for turn in HAND_TURNS:
        pull = sm.pulls["front pulldown"].change(hand_turn=turn)
        one = sm.rep(MEN, pull, points=21)
        assert_allclose(one.forearm_turn, turn_of(pull))
        assert one.forearm_turn.units == "rad"


def test_only_the_flexors_feel_the_hand_turn():
    seen = {}
    for turn in HAND_TURNS:
        one = sm.rep(MEN, sm.pulls["chin-up"].change(hand_turn=turn), points=11)
        seen[turn] = one
        change = one.capacity / seen["pronated"].capacity
        flexes = np.isin(MUSCLES, FLEXORS)
        assert_allclose(change[:, flexes], drive(turn) / drive("pronated"))
        assert_allclose(change[:, ~flexes], 1.0, rtol=0, atol=0)
    assert set(FLEXORS) < set(MUSCLES)
    largest = [float(seen[turn].whole_rep_load_kg) for turn in ("pronated", "supinated", "neutral")]
    assert largest[0] < largest[1] < largest[2]


@pytest.mark.parametrize("call", [drive, leverage, pull_band])
def test_wrong_turns_are_refused_by_name(call):
    with pytest.raises(InputError, match="hand_turn 'prone' is not known; nearest: pronated") as caught:
        call("prone")
    assert caught.value.field == "hand_turn"
