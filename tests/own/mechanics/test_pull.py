import dataclasses

import numpy as np
import pytest

import shoulder_model as sm

NAMES = {
    "front pulldown", "behind-the-neck pulldown", "pull-up", "chin-up", "close-grip pulldown",
    "straight-arm pulldown", "seated row close", "seated row wide", "chest-supported row",
    "bent-over row", "inverted row", "one-arm row",
}  # fmt: skip
MEN = sm.Lifter.average("men")


def test_the_catalogue_is_complete():
    assert set(sm.pulls) == NAMES
    assert len(sm.pulls) == 12


@pytest.mark.parametrize(
    ("name", "lean_deg", "angle_deg"),
    [("front pulldown", 20, 20), ("seated row close", 0, 90), ("bent-over row", -60, 120), ("inverted row", 60, 60)],
)
def test_pull_angle_is_room_angle_plus_lean(name, lean_deg, angle_deg):
    pull = sm.pulls[name].change(trunk_lean=np.radians(lean_deg))
    assert np.degrees(pull.pull_angle) == pytest.approx(angle_deg)


def test_a_changed_pull_leaves_the_catalogue_alone():
    wide = sm.pulls["front pulldown"].change(grip_ratio=2.0, load_kg=60)
    assert (wide.grip_ratio, wide.load_kg) == (2.0, 60.0)
    assert sm.pulls["front pulldown"].grip_ratio == 1.5
    with pytest.raises(dataclasses.FrozenInstanceError):
        wide.grip_ratio = 1.0


def test_hand_offset_is_zero_at_shoulder_width_and_negative_inside():
    assert sm.pulls["chin-up"].hand_offset(MEN) == 0
    assert sm.pulls["seated row close"].hand_offset(MEN) == pytest.approx(-0.35 * MEN.biacromial)


def test_load_is_halved_by_two_hands_and_the_body_loads_itself():
    g = 9.80665
    assert sm.pulls["front pulldown"].force(MEN) == pytest.approx(40 * g / 2)
    assert sm.pulls["one-arm row"].force(MEN) == pytest.approx(20 * g)
    assert sm.pulls["pull-up"].force(MEN) == pytest.approx(MEN.mass * g / 2)
    assert sm.pulls["pull-up"].change(load_kg=100).force(MEN) == pytest.approx(50 * g)


def test_a_taped_touch_point_replaces_the_named_one():
    pull = sm.pulls["seated row close"].change(touch_forward=0.13, touch_up=-0.20)
    assert pull.touch_point(MEN) == (0.13, -0.20)
    assert pull.line_offset(MEN) == pytest.approx(0.20)


@pytest.mark.parametrize(
    ("fields", "says"),
    [
        (
            {"grip_ratio": 3.5},
            r"grip_ratio = 3.5 x biacromial is outside 0 x biacromial to 3 x biacromial: move the hands",
        ),
        ({"trunk_lean": 20}, r"trunk_lean = 1145.9° \(20.000 rad\) is outside -90.0° .* give radians"),
        ({"load_kg": -5}, r"load_kg = -5 kg is outside 0 kg to 500 kg"),
        ({"load_kg": np.inf}, r"load_kg = inf kg"),
        ({"touch_up": float("nan")}, r"touch_up = nan cm is outside"),
        ({"held_elbow_flexion": np.radians(150)}, r"held_elbow_flexion = 150.0° .* an elbow cannot bend that far"),
        ({"grip_ratio": "wide"}, r"grip_ratio = 'wide' is not a number"),
        ({"grip_ratio": None}, r"grip_ratio is missing"),
        ({"hand_turn": "overhand"}, r"hand_turn 'overhand' is not known; choose from|nearest"),
        ({"grip_width": 1.0}, r"field 'grip_width' is not known; nearest: grip_ratio"),
        ({"hands": 3}, r"hands = 3 is outside 1 to 2: count the hands"),
        ({"body_share": 1.4}, r"body_share = 1.4 of body mass is outside"),
    ],
)
def test_wrong_fields_are_refused_by_name(fields, says):
    with pytest.raises(ValueError, match=says):
        sm.pulls["front pulldown"].change(**fields)


def test_an_unknown_pull_gives_the_nearest_names():
    with pytest.raises(ValueError, match="pull 'front pull down' is not known; nearest: front pulldown"):
        sm.pulls["front pull down"]
    assert "front pull down" not in sm.pulls
    assert sm.pulls.get("front pull down") is None
