"""The protocol of a class: saved, opened again, refused in one line."""

import csv
import io

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shoulder_model.inputs import InputError
from shoulder_model.lecture.protocol import HEADS, Hands, protocol_csv, read_protocol
from shoulder_model.lecture.screens import Step, answer_screen, ask_screen

STEERING = "".join(map(chr, (*range(9), *range(11, 32), 127)))  # no run sheet has them
WORDS = st.text(st.characters(codec="utf-8", exclude_characters=STEERING), min_size=1, max_size=30)


def steps(*asked):
    """One step for each (question, answers, place of the right one or None)."""
    made = []
    for place, (question, answers, right) in enumerate(asked):
        screens = [
            ask_screen(f"step {place + 1}", question, answers),
            answer_screen(f"step {place + 1}", right, [], ""),
        ]
        made.append(Step(f"Step {place + 1}", 2.0, screens=screens))
    return made


TWO = steps(("How wide?", ["narrow", "wide"], 1), ("And now?", ["up", "down", "neither"], None))
HANDS = Hands("2026-03-02", {"step 1": [4, 11], "step 2": [0, 2, 9]}, {"step 1": 5, "step 2": 12})


def test_one_row_an_answer_with_minute_question_answer_and_votes():
    rows = list(csv.DictReader(io.StringIO(protocol_csv("Rows", TWO, HANDS))))
    assert tuple(rows[0]) == HEADS and len(rows) == 5
    assert rows[1] == {
        "lecture": "Rows", "date": "2026-03-02", "minute": "5", "step": "Step 1", "question": "How wide?",
        "answer": "wide", "right": "yes", "votes": "11",
    }  # fmt: skip
    assert [row["right"] for row in rows] == ["no", "yes", "", "", ""]


def test_a_question_that_was_skipped_is_left_out():
    hands = Hands("2026-03-02", {"step 2": [1, 2, 3]}, {})
    rows = list(csv.DictReader(io.StringIO(protocol_csv("Rows", TWO, hands))))
    assert {row["question"] for row in rows} == {"And now?"} and {row["minute"] for row in rows} == {""}


@given(WORDS, WORDS, st.lists(WORDS, min_size=2, max_size=5, unique=True), st.lists(st.integers(0, 999), min_size=5))
def test_what_is_saved_opens_again(title, question, answers, votes):
    one = steps((question, answers, 0))
    hands = Hands("2026-03-02", {"step 1": votes[: len(answers)]}, {"step 1": 7})
    assert read_protocol(protocol_csv(title, one, hands), title, one) == hands


@given(WORDS)
def test_no_cell_is_a_formula_to_a_spreadsheet(words):
    one = steps((f"={words}", [f"+{words}", f"@{words}", f"-{words}"], 0))
    rows = list(csv.reader(io.StringIO(protocol_csv(f"={words}", one, Hands("2026-03-02", {"step 1": [1, 2, 3]})))))
    assert not any(cell.startswith(("=", "+", "-", "@")) for row in rows for cell in row)


GOOD = protocol_csv("Rows", TWO, HANDS)


@pytest.mark.parametrize(
    ("content", "why"),
    [
        ("", "there is nothing in it"),
        ("a,b\n1,2\n", "its first line is not"),
        (GOOD.replace("Rows", "Pulldowns"), "line 2: it is of 'Pulldowns'"),
        (GOOD.replace("wide?", "broad?"), "line 2: this lecture has no such question"),
        (GOOD.replace(",11\n", ",eleven\n"), "line 3: votes = 'eleven'"),
        (GOOD.replace(",11\n", ",-1\n"), "line 3: votes = '-1'"),
        (GOOD.replace(",11\n", ",1e3\n"), "line 3: votes = '1e3'"),
        (GOOD.replace(",11\n", ",²\n"), "line 3: votes = '²'"),
        (GOOD.replace(",11\n", ",11,\n"), "line 3: 9 cells"),
        (GOOD.replace(",5,", ",99999,"), "line 2: minute = '99999'"),
        ('"' + GOOD, "no table can be read here"),
        ("x" * 2_000_000, "too long"),
    ],
)
def test_what_is_no_protocol_of_this_lecture_is_refused_in_one_line(content, why):
    with pytest.raises(InputError, match=why) as refused:
        read_protocol(content, "Rows", TWO)
    assert "\n" not in str(refused.value) and len(str(refused.value)) < 200


def test_a_table_that_a_spreadsheet_saved_opens_too():
    assert read_protocol("\ufeff" + GOOD.replace("\n", "\r\n"), "Rows", TWO) == HANDS
    assert read_protocol(GOOD.replace(",", ";").encode("utf-16"), "Rows", TWO) == HANDS


def test_a_date_that_is_none_is_refused():
    with pytest.raises(InputError, match="is none; write it as 2026-01-31"):
        read_protocol(GOOD.replace("2026-03-02", "x" * 500, 1), "Rows", TWO)
