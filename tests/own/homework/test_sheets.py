"""Sheets, keys and tables: every question with its options and a line, the answer only on the key."""

import csv
import io
import re

import pytest

from shoulder_model.document.html import document_html
from shoulder_model.document.parts import Numbered, Question, Table
from shoulder_model.document.pdf import document_pdf
from shoulder_model.homework.class_list import Student, read_class
from shoulder_model.homework.make_set import stem
from shoulder_model.homework.sheets import (
    CAUTION,
    HOW_LINES,
    blank_answers,
    key_document,
    key_table,
    marking_table,
    sheet_document,
    short_key,
)
from shoulder_model.practice.asks import Number, Order, Pick, Reasoned
from shoulder_model.week.words import NOT_MEDICAL
from tests.own.document.papers import check_inside, check_same_on_both, pages

from .invented import STUDENTS, homework, keys_of

ASSIGNMENT, _ = homework()
IDS = dict(zip(ASSIGNMENT.students, ASSIGNMENT.sheet_ids, strict=True))


def made(student, document=sheet_document):
    return document(ASSIGNMENT.title, student, IDS[student], ASSIGNMENT.items(student))


@pytest.mark.parametrize("student", STUDENTS[:2], ids=lambda one: one.id)
@pytest.mark.parametrize("document", [sheet_document, key_document])
def test_sheet_and_key_say_the_same_on_both_papers(student, document):
    page = made(student, document)
    pdf = document_pdf(page)
    check_same_on_both(page, document_html(page), pdf, page.footer)
    check_inside(pdf, (595.28, 841.89))


def test_every_question_stands_on_the_sheet_with_its_options_and_a_line():
    for student in STUDENTS:
        items = ASSIGNMENT.items(student)
        questions = [part for part in made(student).parts if isinstance(part, Question)]
        assert [one.number for one in questions] == [str(place) for place in range(1, len(items) + 1)]
        for one, item in zip(questions, items, strict=True):
            assert one.paragraphs == item.question and one.answer
            assert (one.picture and one.picture.scene) == item.picture
            told = [text for _, pairs in one.lists for _, text in pairs]
            wanted = [*item.lines, *getattr(item.ask, "things", ())]
            if not getattr(item.ask, "numbered", False):
                wanted += [*getattr(item.ask, "options", ()), *getattr(item.ask, "reasons", ())]
            assert told == wanted
            signs = [sign for _, pairs in one.lists for sign, _ in pairs]
            assert all(sign in signs for sign in str(item.ask.key)) or isinstance(item.ask, Number | Pick)
            assert one.unit == (item.ask.unit if isinstance(item.ask, Number) else "")
            assert not isinstance(item.ask, Order) or item.ask.ends in one.lists[-1][0]


def test_cautions_and_how_to_answer_stand_on_every_sheet_and_on_each_page_whose_it_is():
    page = made(STUDENTS[0])
    assert NOT_MEDICAL in CAUTION and CAUTION in page.texts and STUDENTS[0].name in page.texts
    kinds = {type(item.ask) for item in ASSIGNMENT.items(STUDENTS[0])}
    assert {line in page.texts for kind, line in HOW_LINES.items() if kind in kinds} == {True}
    assert all(IDS[STUDENTS[0]] in text for text in pages(document_pdf(page)))


def test_solutions_and_hints_stand_on_the_key_only():
    for student in STUDENTS:
        sheet, key = " ".join(made(student).texts), made(student, key_document)
        numbered = [part for part in key.parts if isinstance(part, Numbered)]
        for place, (item, part) in enumerate(zip(ASSIGNMENT.items(student), numbered, strict=True), 1):
            assert part.lines == item.solution and part.head.startswith(f"{place}: ")
            assert short_key(item) in part.head or isinstance(item.ask, Pick)
            assert item.hint not in sheet
            assert (not item.lines and item.solution[-1] not in sheet) or item.lines


def test_the_key_as_it_is_written_is_right():
    for student in STUDENTS:
        for item in ASSIGNMENT.items(student):
            assert item.judge(short_key(item)).score == 1
    kinds = {type(item.ask) for item in ASSIGNMENT.items(STUDENTS[0])}
    assert {Number, Order, Pick, Reasoned} <= kinds


def test_tables_have_a_row_for_each_student_and_are_inert():
    sheets = keys_of(ASSIGNMENT)
    for text in (blank_answers(sheets), key_table(sheets), blank_answers(sheets, ";")):
        delimiter = ";" if ";" in text.splitlines()[0] else ","
        heads, *rows = csv.reader(io.StringIO(text.removeprefix("\ufeff")), delimiter=delimiter)
        assert heads == ["id", "name", "sheet", *(f"q{place}" for place in range(1, 8))] and len(rows) == len(STUDENTS)
        assert not any(cell.startswith(("=", "+", "-", "@")) for row in rows for cell in row)
        assert text.startswith("\ufeff") and read_class(text) == STUDENTS
    assert all(cell == "" for row in list(csv.reader(io.StringIO(blank_answers(sheets))))[1:] for cell in row[3:])


def test_the_marking_table_has_every_answer_once():
    sheets = keys_of(ASSIGNMENT)
    page = marking_table("t", sheets)
    tables = [part for part in page.parts if isinstance(part, Table)]
    for place, (_, sheet, keys) in enumerate(sheets):
        assert [cell for table in tables for cell in table.rows[place][2:]] == list(keys)
        assert all(table.rows[place][1] == sheet for table in tables)
    check_inside(document_pdf(page), (595.28, 841.89))


@pytest.mark.parametrize("name", ["../../etc/passwd", "CON", "=cmd|x", "אבי", "a/b\\c:*?", ".", "x" * 500])
def test_a_name_makes_the_name_of_a_file_that_is_one_anywhere(name):
    made = stem(3, 2, Student("9", name), "ABCDEF")
    assert re.fullmatch(r"03_(?:[a-z0-9_]{1,30}_)?ABCDEF", made)
