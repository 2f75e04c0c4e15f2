import re

import numpy as np
import pytest

import shoulder_model as sm
from shoulder_model.axes import AXES, movement
from shoulder_model.words import (
    blade_words,
    by_hand_words,
    caution_words,
    counted,
    end_words,
    lean_words,
    pull_words,
    sc_tape_words,
    set_up_change_words,
    tape_words,
    torque_change_words,
    torque_words,
    written,
)

MEN = sm.Lifter.average("men")


def test_nothing_is_said_as_nothing():
    assert torque_words([0.0, 0.1, -0.2]) == "next to no torque"
    assert torque_change_words([0.0, 0.1, -0.2], [0.2, 0.1, 0.3]) == "next to nothing in both"
    assert by_hand_words(0.0, 0.1, 0.1, 0.0) == "the line of pull runs through the shoulder"


def test_negative_parts_have_their_own_names():
    assert (
        torque_words([-12.0, -3.0, -1.0]) == "12 N m of abduction, 3 N m of flexion and 1 N m of horizontal adduction"
    )


@pytest.mark.parametrize(
    ("now", "kept", "says"),
    [
        ((1, 5, 0), (4, 2, 0.1), "extension up from 2 to 5, adduction down from 4 to 1 N m"),
        ((-12, 16, 0), (-19, 16.2, 0), "extension unchanged at 16, abduction down from 19 to 12 N m"),
        ((14, 16, 0), (-19, 16, 0), "extension unchanged at 16 N m, 14 N m of adduction instead of 19 of abduction"),
        ((0, 3, -8), (0, 3, 0), "extension unchanged at 3, horizontal adduction up from 0 to 8 N m"),
    ],
)
def test_a_change_says_from_what_to_what_and_which_side(now, kept, says):
    assert torque_change_words(now, kept) == says


@pytest.mark.parametrize("name", sorted(sm.pulls))
@pytest.mark.parametrize("grip", [0.3, 1.0, 1.7])
def test_what_is_printed_multiplies_to_the_torque_that_is_shown(name, grip):
    """Pull, length and angle as printed, multiplied again, against the model's own torque."""
    pull = sm.pulls[name].change(grip_ratio=grip, girdle_travel=0.0)
    rep = sm.rep(MEN, pull, arm_weight=False, muscles=False)
    for point in (0, 20, 40):
        w, a = (float(length[point]) for length in (rep.hand_offset, rep.line_offset))
        said = by_hand_words(float(rep.force), w, a, pull.pull_angle)
        torque = dict(zip(AXES, rep.shoulder_torque.values[point], strict=True))
        left = {axis for axis, value in torque.items() if abs(value) >= 0.5}
        for part in said.split(", ") if left else ():
            force, cm, turn, shown, side = re.fullmatch(
                r"(\d+) N × ([\d.]+) cm \([wa]\)(?: × (?:cos|sin) (−?\d+)°)? = ([\d.]+) N m of ([a-z ]+)", part
            ).groups()
            axis = next(axis for axis in AXES if side in (movement(axis, 1), movement(axis, -1)))
            assert side == movement(axis, torque[axis]) and float(shown) == pytest.approx(abs(torque[axis]), abs=0.051)
            ratio = 1.0
            if turn is not None:
                angle = np.radians(float(turn.replace("−", "-")))
                ratio = abs(np.cos(angle) if "cos" in part else np.sin(angle))
            rounding = 0.5 * float(cm) / 100 + 0.0005 * float(force) + 0.0088 * float(force) * float(cm) / 100
            assert float(force) * float(cm) / 100 * ratio == pytest.approx(float(shown), abs=rounding + 0.05)
            left.discard(axis)
        assert not left


def test_what_the_arm_adds_and_what_it_takes_is_split():
    assert torque_words([11.0, 0, 0], [14.0, 0, 0]) == "11 N m of adduction (14 from the load, 3 less by the arm)"
    assert torque_words([-11.0, 0, 0], [-9.0, 0, 0]) == "11 N m of abduction (9 from the load, 2 more by the arm)"
    assert torque_words([4.0, 0, 0], [-2.0, 0, 0]) == "4 N m of adduction (the load alone: 2 of abduction)"
    assert torque_words([4.1, 0, 0], [4.0, 0, 0]) == "4 N m of adduction"


def test_a_changed_set_up_is_named():
    front = sm.pulls["front pulldown"]
    for change, says in (
        ({"grip_ratio": 1.0}, "narrower by 21 cm"),
        ({"trunk_lean": np.radians(30)}, "leaning 15° further back"),
        ({"trunk_lean": np.radians(-30), "load_kg": 50}, "leaning 45° further forward and 10 kg heavier"),
        ({"elbow_cue": np.radians(-20)}, "elbows 20° further in"),
        ({"girdle_travel": 0.0}, "shoulder blade held"),
        ({"hand_turn": "neutral", "hold": "handles"}, "hand neutral and on separate handles"),
        ({}, ""),
    ):
        assert set_up_change_words(MEN, front.change(**change), front) == says
    assert set_up_change_words(MEN, sm.pulls["chin-up"], front) == "chin-up instead of front pulldown"


def test_cautions_stand_where_the_pull_needs_them():
    cautioned = {name: caution_words(pull) for name, pull in sm.pulls.items()}
    assert "not proven" in cautioned["behind-the-neck pulldown"]
    assert {name for name, words in cautioned.items() if "do not drop" in words} == {"pull-up", "chin-up"}
    wide = sm.pulls["chin-up"].change(grip_ratio=1.6)
    assert "underhand" in caution_words(wide) and "underhand" not in cautioned["chin-up"]
    assert cautioned["front pulldown"] == ""


@pytest.mark.parametrize("value", [-1234.5678, -0.05, -0.0, 0.0, 0.4, 17.25])
@pytest.mark.parametrize("digits", [0, 1, 3])
def test_a_written_number_reads_as_it_is(value, digits):
    plain, change = written(value, digits), written(value, digits, sign=True)
    assert float(plain.replace("−", "-")) == float(change.replace("−", "-")) == round(value, digits) + 0.0
    assert "-" not in plain + change and (change[0] in "+−") == (round(value, digits) != 0)


def test_one_of_a_thing_has_no_s():
    for thing in ("pull-up", "day", "weekly set", "trial", "result"):
        assert (
            counted(1, thing) == f"1 {thing}"
            and counted(2, thing) == f"2 {thing}s"
            and counted(0, thing) == f"0 {thing}s"
        )
    assert counted(0.5, "set") == "0.5 sets" and counted(1.0, "set") == "1 set"


def test_limits_in_words_are_those_of_the_constants():
    assert tape_words() == "tape ± 1 cm, joint centre about ± 7 mm" and sc_tape_words() == "tape ± 1 cm, joint ± 5 mm"


def test_a_set_up_names_grip_lean_angle_and_cue():
    words = pull_words(MEN, sm.pulls["bent-over row"].change(elbow_cue=np.radians(-15)))
    assert words == "bent-over row, 40 kg, grip 1.30 × (54 cm), trunk 60° forward (pull angle 120°), elbows 15° in"
    assert lean_words(0.001) == "trunk upright"


def test_a_negative_pull_angle_has_a_real_minus():
    words = pull_words(MEN, sm.pulls["front pulldown"].change(trunk_lean=np.radians(-10)))
    assert "pull angle −10°" in words and "-" not in words


def test_a_held_blade_is_part_of_the_set_up():
    row = sm.pulls["bent-over row"]
    assert pull_words(MEN, row.change(girdle_travel=0.0)) == f"{pull_words(MEN, row)}, shoulder blade held"


@pytest.mark.parametrize("travel", [0.0, 1.0])
@pytest.mark.parametrize("name", list(sm.pulls))
def test_the_end_of_a_rep_says_which_limit(name, travel):
    one = sm.rep(MEN, sm.pulls[name].change(girdle_travel=travel), muscles=False)
    words, short = end_words(one), 100 * float(one.short_of_touch)
    turned = float(np.degrees(one.elbow_past_ribs.values.max()))
    assert words.startswith("The rep ends at the touch point.") == bool(one.touched)
    assert (f"elbow fully bent (143°), {short:.0f} cm short of" in words) == (not one.touched and short >= 0.5)
    assert ("the shoulder blade is held here" in words) == (not one.touched and travel == 0)
    assert ("the elbow bends no further" in words) == (not one.touched and travel == 1)
    assert (f"turned out by up to {turned:.0f}° to clear the ribs" in words) == (turned > 0.5)


def test_a_blade_that_travels_does_let_the_bar_come_closer():
    """What the sentence promises where the elbow ends a rep with the blade held."""
    promised = 0
    for pull in sm.pulls.values():
        held, travels = (sm.rep(MEN, pull.change(girdle_travel=travel), muscles=False) for travel in (0.0, 1.0))
        if "lets the bar come closer" in end_words(held):
            promised += 1
            assert float(travels.short_of_touch) < float(held.short_of_touch)
    assert promised


def test_a_rep_that_all_but_touches_says_so():
    one = sm.rep(MEN, sm.pulls["front pulldown"].change(girdle_travel=0.0), muscles=False)
    one["short_of_touch"] = 0.002
    assert "less than 1 cm short of the touch point" in end_words(one)


@pytest.mark.parametrize(
    ("gh", "words"),
    [
        ([0.049, 0.0, 0.007], "5 cm forward from rest"),
        ([0.0, 0.064, -0.004], "6 cm up from rest"),
        ([-0.059, -0.016, -0.03], "6 cm back and 2 cm down from rest"),
        ([0.004, -0.004, 0.02], "where it rests"),
    ],
)
def test_where_the_shoulder_stands_is_said_in_centimetres(gh, words):
    assert blade_words(gh) == words
