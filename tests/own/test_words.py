import numpy as np

import shoulder_model as sm
from shoulder_model.words import difference_words, end_words, lean_words, main_work, pull_words, torque_words

MEN = sm.Lifter.average("men")


def test_nothing_is_said_as_nothing():
    assert torque_words([0.0, 0.1, -0.2]) == "next to no torque"
    assert main_work([0.0, 0.1, -0.2]) == "no work to speak of"


def test_negative_parts_have_their_own_names():
    assert (
        torque_words([-12.0, -3.0, -1.0]) == "12 N m of abduction, 3 N m of flexion and 1 N m of horizontal adduction"
    )


def test_differences_are_signed():
    assert difference_words([1.0, 5.0, 0.0], [4.0, 2.0, 0.1]).startswith("3 N m less adduction, 3 N m more extension")


def test_a_set_up_names_grip_lean_angle_and_cue():
    words = pull_words(MEN, sm.pulls["bent-over row"].change(elbow_cue=np.radians(-15)))
    assert words == "bent-over row, 40 kg, grip 1.30 × (54 cm), trunk 60° forward (pull angle 120°), elbows 15° in"
    assert lean_words(0.001) == "trunk upright"


def test_the_end_of_a_rep_says_which_limit():
    assert end_words(sm.rep(MEN, sm.pulls["seated row close"])) == "The rep ends at the touch point."
    assert "elbow fully bent (143°), 15 cm before" in end_words(sm.rep(MEN, sm.pulls["front pulldown"]))
