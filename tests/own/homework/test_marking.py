"""Answers as a class sends them back, and what is said to each."""

import csv
import io
from html import escape

import numpy as np
import pytest

from shoulder_model.document.html import document_html
from shoulder_model.document.parts import Picture, Table
from shoulder_model.document.pdf import document_pdf
from shoulder_model.homework.answers import UNENDED, read_answers
from shoulder_model.homework.item_analysis import analysis_of
from shoulder_model.homework.marking import details_csv, mark, marks_csv, summary
from shoulder_model.homework.report import feedback_document, report_document
from shoulder_model.homework.sheets import blank_answers
from shoulder_model.inputs import InputError
from shoulder_model.practice.asks import Number
from shoulder_model.tables import data_text, inert, table_text
from tests.own.document.papers import check_inside, pages, read, squeezed

from .invented import STUDENTS, class_answers, homework, keys_of, some_students

ASSIGNMENT, OPENED = homework()
KEYS = keys_of(ASSIGNMENT)
COUNT = len(OPENED.names)
HEADS = ["id", *(f"q{place}" for place in range(1, COUNT + 1))]


def wide(rows, heads=HEADS):
    return table_text([heads, *rows])


def refusal(content):
    with pytest.raises(InputError) as caught:
        read_answers(content, OPENED)
    said = str(caught.value)
    assert said.startswith("answers") and len(said.splitlines()) == 1 and len(said) <= 300
    return said


def rows_of(text):
    assert text.startswith("\ufeff")
    return list(csv.DictReader(io.StringIO(text.removeprefix("\ufeff"))))


def test_all_right_counts_all_on_every_sheet():
    marks = mark(wide([[one.id, *keys] for one, _, keys in KEYS]), OPENED)
    assert [one.score for one in marks.marked] == [COUNT] * len(STUDENTS) and not marks.told
    assert summary(marks).startswith(f"6 of 6 students marked, {COUNT} questions: mean {COUNT}.0")


def test_the_blank_table_filled_in_is_read():
    heads, *rows = csv.reader(io.StringIO(blank_answers(KEYS).removeprefix("\ufeff")))
    filled = [[*row[:3], *keys] for row, (_, _, keys) in zip(rows, KEYS, strict=True)]
    for delimiter in ",;\t":
        for encoding in ("utf-8-sig", "utf-16"):
            marks = mark(data_text([heads, *filled], delimiter).encode(encoding), OPENED)
            assert [one.score for one in marks.marked] == [COUNT] * len(STUDENTS) and not marks.told


def test_a_slip_is_named_with_its_own_numbers():
    for student, (_, _, keys), given in zip(STUDENTS, KEYS, OPENED.given, strict=True):
        for place, (ask, slips) in enumerate(given.questions):
            if not isinstance(ask, Number):
                continue
            answers = list(keys)
            answers[place] = ask.shown(slips[0].answer).replace(".", ",")
            (one,) = mark(wide([[student.id, *answers]]), OPENED).marked
            assert one.slips == ((place + 1, slips[0].name),) and one.score == COUNT - 1
            assert one.verdicts[place].line == slips[0].line


def test_a_decimal_comma_and_a_missing_unit_are_fine():
    place = OPENED.names.index("adduction by hand")
    ask = OPENED.given[0].questions[place][0]
    for text in (f"{ask.key:.2f}".replace(".", ","), f"{ask.key:.2f}", f"{ask.key:.2f}Nm", f"{100 * ask.key:.0f} N cm"):
        (one,) = mark(table_text([("sheet", f"q{place + 1}"), (OPENED.given[0].sheet_id, text)], ";"), OPENED).marked
        assert one.verdicts[place].score == 1, text


def test_columns_may_stand_in_any_order_and_rows_may_hold_one_answer():
    order = [3, 0, 6, 2, 5, 1, 4]
    swapped = wide(
        [[*(keys[place] for place in order), one.id] for one, _, keys in KEYS],
        [*(f"Q{place + 1}" for place in order), "ID"],
    )
    long = table_text(
        [("question", "name", "answer", "Student ID")]
        + [
            (f"q{place}", inert(one.name), key, inert(one.id))
            for one, _, keys in KEYS
            for place, key in enumerate(keys, 1)
        ]
    )
    for content in (swapped, long):
        assert [one.score for one in mark(content, OPENED).marked] == [COUNT] * len(STUDENTS)


def test_an_id_as_a_spreadsheet_shows_it_is_found():
    for shown in ("42", "42.0", "0042", "042"):
        assert read_answers(table_text([("id", "q1"), (shown, "b")]), OPENED).texts[1][0] == "b"


def test_missing_answers_count_nothing_and_are_told():
    student, _, keys = KEYS[0]
    marks = mark(wide([[student.id, *keys[:3], "", " ", *keys[5:]]]), OPENED)
    assert marks.marked[0].score == COUNT - 2 and "Zoë Müller, 1001: no answer to 4, 5; each counts 0." in marks.told
    assert sum("no answers came" in line for line in marks.told) == len(STUDENTS) - 1
    marks = mark(table_text([("id", "q1"), (student.id, keys[0])]), OPENED)
    assert "There is no column for question 2, 3, 4, 5, 6, 7: each counts 0." in marks.told


def test_unknown_students_are_told_and_not_marked():
    student, _, keys = KEYS[0]
    marks = mark(wide([["4711", *["b"] * COUNT], [student.id, *keys]]), OPENED)
    assert len(marks.marked) == 1 and any("Line 2: '4711' is not in this homework" in line for line in marks.told)
    assert len(rows_of(marks_csv(marks))) == len(marks.everybody) == len(STUDENTS), "a line for each, whoever answered"


def test_where_nothing_can_be_marked_one_line_says_so():
    for table in (wide([["4711", *["b"] * COUNT]]), wide([[KEYS[0][0].id, *[""] * COUNT]])):
        with pytest.raises(InputError, match="nothing was marked"):
            mark(table, OPENED)


def test_sheets_of_another_homework_are_not_marked():
    (student, sheet_id, keys), (other, _, answers) = KEYS[:2]
    heads = ("name", "sheet", *(f"q{place}" for place in range(1, COUNT + 1)))
    rows = [(student.name, sheet_id, *keys), (other.name, "ZZZZZZ", *answers)]
    marks = mark(table_text([heads, *rows]), OPENED)
    assert len(marks.marked) == 1 and any("sheet 'ZZZZZZ' is not of this homework" in line for line in marks.told)


def test_a_page_to_hand_back_has_each_answer_with_what_is_said_to_it():
    answers = class_answers(OPENED)
    marks = mark(wide([[one.id, *texts] for one, texts in zip(STUDENTS, answers, strict=True)]), OPENED)
    page = document_html(feedback_document(marks, marks.marked[0]))
    assert all(escape(verdict.words) in page for verdict in marks.marked[0].verdicts)
    assert all(escape(name) in page for name in marks.names) and "licensed clinician" in page


def test_a_name_helps_where_an_id_is_lost_and_that_is_told():
    found = read_answers(table_text([("id", "name", "q1"), ("9999", "zoe\u0308 MÜLLER", "b")]), OPENED)
    assert found.texts[0][0] == "b" and any("id '9999' not found" in line for line in found.told)


def test_the_same_row_twice_counts_once_and_another_is_refused():
    student, _, keys = KEYS[0]
    row, other = [student.id, *keys], [student.id, *keys[:-1], "a 1"]
    assert mark(wide([row, row]), OPENED).marked[0].score == COUNT
    assert mark(wide([[student.id, *[""] * COUNT], row]), OPENED).marked[0].score == COUNT
    said = refusal(wide([row, [KEYS[1][0].id, *KEYS[1][2]], other]))
    assert "line 4" in said and "line 2" in said
    long = [("id", "question", "answer"), (student.id, "1", "b"), (student.id, "1", "c")]
    said = refusal(table_text(long))
    assert "line 3" in said and "line 2" in said and "question 1" in said


@pytest.mark.parametrize(
    ("content", "parts"),
    [
        ("", ["there is nothing"]),
        ("q1;q2\nb;c\n", ["whose the answers are"]),
        ("id;score\n1001;4\n", ["no column of a question"]),
        ("id;q1;q1\n1001;a;b\n", ["twice"]),
        ("id;q1;1\n1001;a;b\n", ["twice"]),
        ("id;q8\n1001;a\n", ["no such question", "7 questions"]),
        ("id;sheet;sheet id;q1\n1001;a;b;c\n", ["twice"]),
        ("id,q1,q2\n1001,12,5,b\n", ["line 2", "4 cells under 3 heads", "semicolons"]),
        ("id;name;q1\n1001;Bo;b\n", ["line 2", "id and name belong to different students"]),
        ("name;q1\nBo;b\n", ["line 2", "'Bo' is the name of 2 students"]),
        ("id;question;answer\n1001;eight;b\n", ["line 2", "'eight' is no question"]),
        ("id;question;answer\n1001;0;b\n", ["line 2", "no question"]),
        ("id;q3;q2\n1001;b c\n", ["line 2", "fewer cells"]),
        (f"id;q1\n1001;{'x' * 300}\n", ["line 2", "letters"]),
        ('id;q1\n1001;"b\n', ["quotation mark"]),
        (b"PK\x03\x04\x00\x00\x00", ["no text file"]),
    ],
)  # fmt: skip
def test_what_cannot_be_told_apart_is_refused_in_one_line(content, parts):
    said = refusal(content)
    assert all(part in said for part in parts), said


def test_a_row_that_ends_early_is_read_where_its_answers_fit():
    student, _, keys = KEYS[0]
    assert read_answers(f"id;q1;q2;q3\n{student.id};{keys[0]}\n", OPENED).texts[0][:3] == (keys[0], "", "")


def test_a_table_that_may_be_cut_off_is_told():
    assert UNENDED in read_answers("id;q1\n1001;b", OPENED).told
    assert UNENDED not in read_answers("id;q1\n1001;b\n", OPENED).told


FORMULAS = ("=1+1", "=cmd|' /C calc'!A0", "+1+1", "-1+1", "@SUM(A1)", "'=1", "\t=1")


def test_answers_are_data_and_what_is_written_is_inert():
    rows = [[one.id, *FORMULAS] for one in STUDENTS]
    marks = mark(wide(rows), OPENED)
    assert all(one.score <= 1 for one in marks.marked)
    for text in (marks_csv(marks), details_csv(marks)):
        cells = [cell for row in csv.reader(io.StringIO(text.removeprefix("\ufeff"))) for cell in row]
        assert not any(cell.startswith(("=", "+", "-", "@", "\t")) for cell in cells)
    assert any("could not be read" in line for line in marks.told)


def test_tables_of_marks_add_up():
    answers = class_answers(OPENED)
    marks = mark(wide([[one.id, *texts] for one, texts in zip(STUDENTS, answers, strict=True)]), OPENED)
    rows = rows_of(marks_csv(marks))
    for row, one in zip(rows, marks.marked, strict=True):
        scores = [float(row[f"q{place}"]) for place in range(1, COUNT + 1)]
        assert sum(scores) == float(row["score"]) == one.score and int(row["out of"]) == COUNT
        assert int(row["per cent"]) == round(100 * one.score / COUNT)
        assert [part.partition(": ")[2] for part in row["slips"].split("; ") if part] == [slip for _, slip in one.slips]
    details = rows_of(details_csv(marks))
    assert len(details) == COUNT * len(marks.marked)
    assert sum(float(row["score"]) for row in details) == marks.scores.sum()
    assert {row["feedback"] for row in details if row["score"] == "1"} <= {
        row["feedback"] for row in details if row["feedback"].startswith("Right.")
    }


def test_the_report_says_the_same_on_both_papers_and_has_everybody_in_it():
    _, opened = homework(some_students(40))
    answers = class_answers(opened)
    marks = mark(wide([[one.student.id, *texts] for one, texts in zip(opened.given, answers, strict=True)]), opened)
    page = report_document(marks)
    html, pdf = document_html(page), document_pdf(page)
    assert squeezed("".join(read(html).texts)) == squeezed("".join(page.texts))
    printed = squeezed("".join(pages(pdf)))
    assert all(squeezed(one.student.name) in printed for one in marks.marked)
    check_inside(pdf, (595.28, 841.89))
    items, scores = (part for part in page.parts if isinstance(part, Table))
    assert [row[2] for row in scores.rows] == [f"{one.score:g}/{COUNT}" for one in marks.marked]
    assert [float(row[2]) for row in items.rows] == pytest.approx(marks.scores.mean(axis=0), abs=0.0051)
    (picture,) = (part for part in page.parts if isinstance(part, Picture))
    assert all(f"Question {place}:" in picture.scene.words for place in range(1, COUNT + 1))
    common = {one.number: one for one in analysis_of(marks).items}
    for place in range(COUNT):
        made = [verdicts[place].slip for verdicts in (one.verdicts for one in marks.marked)]
        slip = common[place + 1].slip
        assert common[place + 1].slip_share == pytest.approx(made.count(slip) / len(made) if slip else 0)
        assert all(made.count(slip) >= made.count(other) for other in set(made) - {""})
    assert np.ptp(marks.scores.sum(axis=1)) > 1
