import numpy as np
import pytest

import shoulder_model as sm
from shoulder_model.words import (
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
    assert leading_words([0.0, 0.1, -0.2]) == "no work to speak of"


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


def test_the_end_of_a_rep_says_which_limit():
    assert end_words(sm.rep(MEN, sm.pulls["seated row close"])) == "The rep ends at the touch point."
    assert "elbow fully bent (143°), 15 cm before" in end_words(sm.rep(MEN, sm.pulls["front pulldown"]))
