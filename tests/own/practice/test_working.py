"""Sums as they are printed, and what is said to answers of each kind."""

import pytest

from shoulder_model.practice.asks import Choice, Number, Order, Pick, Reasoned
from shoulder_model.practice.find_slip import find_the_slip
from shoulder_model.practice.slips import Slip
from shoulder_model.practice.verdict import judge
from shoulder_model.practice.working import Working, worked_out


@pytest.mark.parametrize(
    ("printed", "value"),
    [
        ("15 kg × 9.81 N/kg", 147.15),
        ("62 cm / 2 − 38 cm / 2", 12),
        ("√(9² + 12²)", 15),
        ("147.1 N × 0.144 m × sin 30°", 10.591),
        ("cos 60° × 10 N", 5),
        ("atan(1)", 45),
        ("(36 − 30) / 8 × 0.914", 0.6855),
        ("−3.5 cm × 2", -7),
    ],
)
def test_sums_come_to_what_a_calculator_says(printed, value):
    assert worked_out(printed) == pytest.approx(value, abs=1e-3)


@pytest.mark.parametrize("printed", ["", "two kg", "__import__('os')", "open('x')", "3 +", "(1).real", "x"])
def test_what_is_no_sum_is_refused(printed):
    with pytest.raises(ValueError, match="no sum"):
        worked_out(printed)


def test_a_line_gives_what_it_prints():
    work = Working()
    force = work.line("Pull", "25 kg / 2 × 9.81 N/kg", "N", 1)
    assert force == 122.6 and work[0].text == "Pull: 25 kg / 2 × 9.81 N/kg = 122.6 N"


TORQUE = Number(20.0, "N m", 0, 100)
SLIPS = (Slip("whole load", 40.0, 1), Slip("mass for force", 2.04, 2), Slip("cm for m", 2000.0, 3))


@pytest.mark.parametrize(
    ("typed", "score", "slip", "told"),
    [
        ("20", 1, "", "Write the unit too: N m."),
        ("20.5 Nm", 1, "", "Right."),
        ("2000 N cm", 1, "", "In N m it is 20.0 N m."),
        ("40", 0, "whole load", "See line 1 of the solution."),
        ("2.04 kg m", 0, "mass for force", "9.81"),
        ("2.05", 0, "mass for force", "9.81"),
        ("2.04 kg", 0, "mass for force", "This is a mass"),
        ("1990", 0, "cm for m", "100"),
        ("27", 0, "", "It is too large."),
        ("-20", 0, "", "The sign is wrong."),
    ],
)
def test_a_number_is_right_near_the_key_and_its_slip_is_named(typed, score, slip, told):
    verdict = judge(TORQUE, SLIPS, typed)
    assert (verdict.score, verdict.slip, verdict.is_read) == (score, slip, True) and told in verdict.words


def test_the_nearest_slip_is_named():
    near = (Slip("whole load", 40.0, 1), Slip("whole grip", 41.0, 2))
    assert judge(TORQUE, near, "40.8").slip == "whole grip" and judge(TORQUE, near, "40.2").slip == "whole load"


@pytest.mark.parametrize("typed", ["", "twenty", "20 apples"])
def test_what_cannot_be_read_is_not_marked(typed):
    verdict = judge(TORQUE, SLIPS, typed)
    assert not verdict.is_read and verdict.score == 0 and verdict.words.endswith(".")
    assert "N m" in verdict.words, "letters of a unit stay as they are"


CHOICE = Choice(("Lat", "Rear deltoid", "Biceps"), "b")
ORDER = Order(("one", "two", "three"), "cab", "least first")
PICK = Pick("ABCD", "BD")
REASONED = Reasoned(("row", "pulldown"), ("it is wide", "it hurts", "it fits"), "a3")


@pytest.mark.parametrize(
    ("ask", "typed", "score"),
    [
        (CHOICE, "b", 1), (CHOICE, " B) ", 1), (CHOICE, "rear deltoid", 1), (CHOICE, "(a)", 0),
        (ORDER, "c a b", 1), (ORDER, "C,A,B", 1), (ORDER, "cab", 1), (ORDER, "c > a > b", 1), (ORDER, "a b c", 0),
        (PICK, "B D", 1), (PICK, "db", 1), (PICK, "B-D", 1), (PICK, "D and B", 1), (PICK, "A B", 0),
        (REASONED, "a3", 1), (REASONED, "3 A", 1), (REASONED, "a, 1", 0.5), (REASONED, "b3", 0),
        (Choice(("line 1", "line 2"), "2", numbered=True), "line 2", 1),
        (Choice(("line 1", "line 2"), "2", numbered=True), "2", 1),
    ],
)  # fmt: skip
def test_letters_are_read_as_people_write_them(ask, typed, score):
    assert judge(ask, (), typed).score == score


@pytest.mark.parametrize(
    ("ask", "typed"),
    [(CHOICE, ""), (CHOICE, "d"), (CHOICE, "ab"), (ORDER, "a b"), (ORDER, "a a b"), (PICK, "B"), (PICK, "BB"), (PICK, "AE"),
     (REASONED, "a"), (REASONED, "ab"), (REASONED, "12"), (CHOICE, "=1+1")],
)  # fmt: skip
def test_letters_that_make_no_answer_are_asked_for_again(ask, typed):
    verdict = judge(ask, (), typed)
    assert not verdict.is_read and verdict.words.startswith(("Give ", "Choose "))


def test_a_star_stands_for_any_choice():
    slips = (Slip("name for cause", "*2"),)
    assert judge(REASONED, slips, "a2").slip == judge(REASONED, slips, "b2").slip == "name for cause"
    assert judge(REASONED, slips, "a2").score == 0.5 and judge(REASONED, slips, "b1").slip == ""


def test_an_order_says_which_pair_is_wrong():
    assert judge(ORDER, (), "c b a").words == "No. “one” comes before “two”."


def test_find_the_slip_holds_the_author_to_the_line():
    right, wrong = Working(), Working()
    for work, half in ((right, " / 2"), (wrong, "")):
        force = work.line("Pull", f"20 kg{half} × 9.81 N/kg", "N")
        work.line("Torque", f"{force} N × 0.1 m", "N m")
    item = find_the_slip(("What is the torque?",), wrong, right, 1, "whole load")
    assert (
        item.ask.key == "1" and item.judge("1").score == 1 and item.solution[:2] == tuple(line.text for line in right)
    )
    with pytest.raises(ValueError, match="line 1, not 2"):
        find_the_slip(("What is the torque?",), wrong, right, 2, "whole load")
