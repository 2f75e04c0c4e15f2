"""Marking a class: each answer's verdict by its own key and slips, scores, what has to be said; as tables for a
spreadsheet.
"""

from dataclasses import dataclass

import numpy as np

from ..practice.verdict import Verdict, judge
from ..table_file import said
from ..tables import BOM, DECIMALS, Number, table_text
from ..words import counted
from .answers import read_answers
from .class_list import Student, cells_of

MISSING = Verdict(0.0, "Not answered.", is_read=False)


@dataclass(frozen=True)
class Marked:
    """One student's answers with what there is to say of them.

    Parameters
    ----------
    student : class_list.Student
    sheet_id : str
    answers : tuple of str
        As typed, "" where there is none.
    verdicts : tuple of practice.verdict.Verdict
        One for each question.
    right : tuple of str
        The right answers in words.
    """

    student: Student
    sheet_id: str
    answers: tuple
    verdicts: tuple
    right: tuple = ()

    @property
    def score(self):
        """What all answers count together, in points without unit."""
        return sum(verdict.score for verdict in self.verdicts)

    @property
    def slips(self):
        """Named slips: pairs of the question's number and the slip's name."""
        return tuple((place, verdict.slip) for place, verdict in enumerate(self.verdicts, 1) if verdict.slip)


@dataclass(frozen=True)
class ClassMarks:
    """A marked class.

    Parameters
    ----------
    title : str
    names : tuple of str
        Of the templates, a question each.
    marked : tuple of Marked
        Those whose answers came.
    told : tuple of str
        What was missing, unknown or could not be read.
    everybody : tuple of Marked
        All students in the order of the class list; who sent nothing has no answers and no verdicts.
    """

    title: str
    names: tuple
    marked: tuple
    told: tuple
    everybody: tuple

    @property
    def scores(self):
        """Scores, shape (student, question), without unit."""
        return np.array([[verdict.score for verdict in one.verdicts] for one in self.marked]).reshape(
            -1, len(self.names)
        )


def mark(content, opened):
    """The `ClassMarks` of a table of answers.

    Parameters
    ----------
    content : str or bytes
        The table, see `answers.read_answers`.
    opened : assignment_file.Opened

    Raises
    ------
    InputError
        The table cannot be read: one line of words.
    """
    read = read_answers(content, opened)
    marked = tuple(
        _marked(one, texts) for one, texts in zip(opened.given, read.texts, strict=True) if texts is not None
    )
    absent = tuple(
        Marked(one.student, one.sheet_id, (), ())
        for one, texts in zip(opened.given, read.texts, strict=True)
        if texts is None
    )
    unread = [line for one in marked for line in _unread(one)]
    order = {one.sheet_id: place for place, one in enumerate(opened.given)}
    everybody = tuple(sorted((*marked, *absent), key=lambda one: order[one.sheet_id]))
    return ClassMarks(opened.title, opened.names, marked, (*read.told, *unread), everybody)


def _marked(one, texts):
    verdicts = (judge(*asked, text) if text else MISSING for asked, text in zip(one.questions, texts, strict=True))
    right = tuple(ask.shown(ask.key) for ask, _ in one.questions)
    return Marked(one.student, one.sheet_id, texts, tuple(verdicts), right)


def _unread(one):
    pairs = enumerate(zip(one.answers, one.verdicts, strict=True), 1)
    unread = [f"{place} ({said(text)})" for place, (text, verdict) in pairs if text and not verdict.is_read]
    if unread:
        yield f"{one.student.label}: could not be read and counts 0: {', '.join(unread)}."


def marks_csv(marks, delimiter=","):
    """Marks as CSV text with a byte order mark: a row a student, score by question, the sum, the slips.

    ``marks`` is a `ClassMarks`, ``delimiter`` the text between cells.
    """
    count = len(marks.names)
    heads = (
        "id",
        "name",
        "sheet",
        *(f"q{place}" for place in range(1, count + 1)),
        "score",
        "out of",
        "per cent",
        "slips",
    )
    rows = (_row(one, count) for one in marks.everybody)
    return BOM + table_text([heads, *rows], delimiter, DECIMALS[delimiter])


def _row(one, count):
    if not one.verdicts:  # nothing came: blank, so that no line moves
        return (*cells_of(one.student), one.sheet_id, *[""] * (count + 4))
    slips = "; ".join(f"q{place}: {name}" for place, name in one.slips)
    scores = (Number(f"{verdict.score:g}") for verdict in one.verdicts)
    total = Number(f"{one.score:g}"), count, Number(f"{100 * one.score / count:.0f}")
    return (*cells_of(one.student), one.sheet_id, *scores, *total, slips)


def details_csv(marks, delimiter=","):
    """Every answer as CSV text with a byte order mark: a row an answer, with its score and what there is to say of it.

    ``marks`` is a `ClassMarks`, ``delimiter`` the text between cells.
    """
    heads = ("id", "name", "sheet", "question", "item", "answer", "score", "slip", "feedback")
    rows = [heads]
    for one in marks.marked:
        for place, (name, text, verdict) in enumerate(zip(marks.names, one.answers, one.verdicts, strict=True), 1):
            last = name, text, Number(f"{verdict.score:g}"), verdict.slip, verdict.words
            rows.append((*cells_of(one.student), one.sheet_id, place, *last))
    return BOM + table_text(rows, delimiter, DECIMALS[delimiter])


def summary(marks):
    """The class in one line of words: ``marks`` is a `ClassMarks`."""
    if not marks.marked:
        return "Nobody's answers were marked."
    totals, count = marks.scores.sum(axis=1), len(marks.names)
    return (
        f"{len(totals)} of {counted(len(marks.everybody), 'student')} marked, {counted(count, 'question')}: "
        f"mean {totals.mean():.1f} of {count}, from {totals.min():g} to {totals.max():g}."
    )
