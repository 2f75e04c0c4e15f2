import numpy as np
import pytest

import shoulder_model as sm
from shoulder_model.words import (
    blade_words,
    counted,
    end_words,
    leading_words,
    lean_words,
    pull_words,
    sc_tape_words,
    tape_words,
    torque_change_words,
    torque_words,
    written,
)

MEN = sm.Lifter.average("men")


def test_nothing_is_said_as_nothing():
    assert torque_words([0.0, 0.1, -0.2]) == "next to no torque"
    assert leading_words([0.0, 0.1, -0.2]) == "next to no torque"


def test_negative_parts_have_their_own_names():
    assert (
        torque_words([-12.0, -3.0, -1.0]) == "12 N m of abduction, 3 N m of flexion and 1 N m of horizontal adduction"
    )


def test_differences_are_signed():
    assert torque_change_words([1.0, 5.0, 0.0], [4.0, 2.0, 0.1]).startswith(
        "3 N m less adduction, 3 N m more extension"
    )


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
    assert tape_words() == "tape ± 1 cm, joint centre ± 7 mm" and sc_tape_words() == "tape ± 1 cm, joint ± 5 mm"


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
    assert (f"elbow fully bent (143°), {short:.0f} cm before" in words) == (not one.touched and short >= 0.5)
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
    assert "less than 1 cm before the touch point" in end_words(one)


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
