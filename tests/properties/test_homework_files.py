"""Class lists and answers, whatever comes: read right, or refused in one line; nothing in them is executed."""

from collections import Counter

from hypothesis import given
from hypothesis import strategies as st

from shoulder_model.homework.answers import read_answers
from shoulder_model.homework.class_list import Student, cells_of, read_class, typed_text
from shoulder_model.homework.item_analysis import analyse
from shoulder_model.tables import inert, table_text
from tests.own.homework.mutations import (
    OPENED,
    answers_as_written,
    answers_gone_wrong,
    answers_outcome,
    class_outcome,
    classes_as_written,
    classes_gone_wrong,
    moved_answers,
    strangers,
)

MANY = 300
TEXT = st.text(st.characters(codec="utf-8", exclude_categories=("C", "Z")), min_size=1, max_size=12)


@given(st.binary(max_size=300) | st.text(max_size=300))
def test_any_bytes_are_refused_in_one_line_or_read(content):
    assert class_outcome(content) and answers_outcome(content)


@given(st.lists(TEXT.map(typed_text).filter(bool), min_size=1, max_size=6, unique=True))
def test_any_names_come_back_from_a_list(names):
    students = tuple(Student(str(place), name) for place, name in enumerate(names))
    assert read_class(table_text([("id", "name"), *map(cells_of, students)])) == students


@given(TEXT.map(typed_text).filter(bool), st.sampled_from(",;\t"))
def test_any_answer_comes_back_from_a_table(text, delimiter):
    one = OPENED.given[0]
    table = table_text([("sheet", "q2"), (one.sheet_id, inert(text))], delimiter)
    assert read_answers(table, OPENED).texts[0][:2] == ("", text)


@given(st.lists(st.lists(st.sampled_from((0.0, 0.5, 1.0)), min_size=3, max_size=3), min_size=1, max_size=12))
def test_any_scores_are_read_without_a_warning(scores):
    analysis = analyse(scores)
    assert all(one.words and 0 <= one.difficulty <= 1 for one in analysis.items) and analysis.words
    for one in analysis.items:
        for value in (one.with_rest, one.with_total, one.upper_lower):
            assert value != value or -1 - 1e-9 <= value <= 1 + 1e-9
    assert analysis.alpha != analysis.alpha or analysis.alpha <= 1 + 1e-9


def test_lists_as_programs_write_them_are_read_with_the_same_in_them():
    for students, content in classes_as_written(5, MANY):
        assert read_class(content) == students


def test_answers_as_programs_write_them_are_read_with_the_same_in_them():
    for texts, content in answers_as_written(5, MANY):
        assert read_answers(content, OPENED).texts == tuple(tuple(some) if any(some) else None for some in texts)


def test_files_gone_wrong_are_refused_in_one_line_or_read():
    for outcome, contents in ((class_outcome, classes_gone_wrong), (answers_outcome, answers_gone_wrong)):
        seen = Counter(outcome(content) for content in contents(4, MANY))
        assert MANY / 20 < seen["read"] < 0.8 * MANY and len(seen) > 8, seen


def test_what_was_moved_or_cut_off_is_not_marked_as_somebody_else_s():
    found = [strangers(texts, content) for texts, content in moved_answers(6, MANY)]
    assert sum(map(bool, found)) <= MANY / 100 and sum(one is not None for one in found) > MANY / 10
