"""An assignment as a file (JSON): for each student and question what is asked, the key and the slips.

Marking needs this file and neither the templates nor the model. On opening, size, depth and the kind of every value
are checked; nothing in it is executed.
"""

import json
import math
from dataclasses import dataclass
from numbers import Real

from ..json_file import JsonKind, is_same
from ..practice.asks import DIGITS, KINDS, LETTERS
from ..practice.item import as_plain, from_plain
from ..practice.slips import slip_table
from ..printed import plain
from .assignment import MOST_ITEMS
from .class_list import LONGEST_ID, LONGEST_NAME, MOST_STUDENTS, Student, same

FORMAT, VERSION = "shoulder_model homework", 1
LONGEST_TEXT, MOST_TEXTS, MOST_SLIPS, MOST_DIGITS, SIGNIFICANT = 600, 8, 40, 8, 10
AGAIN = "make the homework again, or open the file as it was made"
PICKS = "ABCDEFGH"  # letters that marks of a picture may have
HEAD = ("format", "version", "title", "seed", "names", "students")
FILE = JsonKind("assignment", f"it cannot be read, perhaps it was cut off or changed; {AGAIN}", AGAIN, 150_000_000)


@dataclass(frozen=True)
class Given:
    """What one student was given: ``student`` (`class_list.Student`), ``sheet_id`` (text), ``questions``, pairs of
    what is asked and slips.
    """

    student: Student
    sheet_id: str
    questions: tuple


@dataclass(frozen=True)
class Opened:
    """An assignment as its file has it: ``title``, ``seed``, ``names`` of the templates, all text; ``given``, a tuple
    of `Given`.
    """

    title: str
    seed: str
    names: tuple
    given: tuple


def assignment_text(assignment, sheets):
    """The file of an assignment, JSON text, one line a student.

    Parameters
    ----------
    assignment : assignment.Assignment
    sheets : sequence
        Of (student, sheet id, plain items), as `practice.item.as_plain` gives them, in the order of the class.
    """
    head = {
        "format": FORMAT,
        "version": VERSION,
        "title": assignment.title,
        "seed": assignment.seed,
        "names": assignment.names,
    }
    lines = [
        _json({"id": student.id, "name": student.name, "sheet": sheet_id, "questions": questions})
        for student, sheet_id, questions in sheets
    ]
    return _json(head)[:-1] + ',"students":[\n' + ",\n".join(lines) + "\n]}\n"


def plain_item(item):
    """An ``item`` (`practice.item.Item`) as a dict of plain values, its numbers to ten digits, so that machines agree
    on each.
    """
    return json.loads(_json(as_plain(item)), parse_float=lambda text: float(f"{float(text):.{SIGNIFICANT}g}"))


def _json(value):
    return json.dumps(value, ensure_ascii=False, separators=(",", ":"), default=lambda number: number.item())


def open_assignment(content):
    """An assignment's file as `Opened`.

    Parameters
    ----------
    content : str or bytes

    Raises
    ------
    InputError
        It is no such file: in one line where and what to do. Its text names the student and the question.
    """
    made = FILE.read(content)
    if made.get("format") != FORMAT:
        raise FILE.wrong(f"this is no file of a homework; {AGAIN}")
    if not is_same(made.get("version"), VERSION):
        raise FILE.wrong(f"another version wrote it; {AGAIN}")
    FILE.names("it", made, HEAD)
    names = tuple(_text(name, "names") for name in _list(made.get("names"), "names", MOST_ITEMS))
    students = _list(made.get("students"), "students", MOST_STUDENTS)
    given = tuple(_given(one, f"student {place}", len(names)) for place, one in enumerate(students, 1))
    for what, seen in (
        ("sheet", [one.sheet_id for one in given]),
        ("student", [same(one.student.key) for one in given]),
    ):
        if len(set(seen)) < len(seen):
            raise FILE.wrong(f"a {what} is there twice; {AGAIN}")
    return Opened(_text(made.get("title"), "title"), _text(made.get("seed"), "seed"), names, given)


def _text(value, where, most=LONGEST_TEXT, empty=False):
    if not isinstance(value, str) or len(value) > most or not (value or empty) or value != plain(value):
        raise FILE.wrong(f"{where}: no text as it should be; {AGAIN}")
    return value


def _list(value, where, most, least=1):
    if not isinstance(value, list) or not least <= len(value) <= most:
        raise FILE.wrong(f"{where}: missing, or more than {most}; {AGAIN}")
    return value


def _number(value, where):
    if not isinstance(value, Real) or isinstance(value, bool) or not math.isfinite(value) or abs(value) > 1e12:
        raise FILE.wrong(f"{where}: no number as it should be; {AGAIN}")
    return value


def _is_whole(value, most):
    return isinstance(value, int) and not isinstance(value, bool) and 0 <= value <= most


def _given(one, where, count):
    FILE.names(where, one, ("id", "name", "sheet", "questions"))
    student = Student(
        _text(one.get("id"), f"{where}, id", LONGEST_ID, True),
        _text(one.get("name"), f"{where}, name", LONGEST_NAME, True),
    )
    _text(student.key, f"{where}, id")
    questions = _list(one.get("questions"), f"{where}, questions", count, count)
    asked = (_asked(question, f"{where}, question {place}") for place, question in enumerate(questions, 1))
    return Given(student, _text(one.get("sheet"), f"{where}, sheet", LONGEST_ID), tuple(asked))


def _asked(question, where):
    """What is asked and the slips, after a check of each value."""
    kind = question.get("kind") if isinstance(question, dict) else None
    if not isinstance(kind, str) or kind not in KINDS:
        raise FILE.wrong(f"{where}: no kind of question; {AGAIN}")
    wanted = {"kind", "slips", *KINDS[kind].__dataclass_fields__}
    if set(question) != wanted:
        raise FILE.wrong(f"{where}: other values than a question has; {AGAIN}")
    _CHECKS[kind](question, where)
    for slip in _list(question["slips"], f"{where}, slips", MOST_SLIPS, 0):
        _check_slip(slip, kind, f"{where}, slips")
    return from_plain(question)


def _check_slip(slip, kind, where):
    if not isinstance(slip, list) or len(slip) != 4 or _text(slip[0], where) not in slip_table():
        raise FILE.wrong(f"{where}: no slip that is known here; {AGAIN}")
    _, answer, line, words = slip
    _number(answer, where) if kind == "number" else _text(answer, where)
    if not _is_whole(line, 100):
        raise FILE.wrong(f"{where}: no line of a solution; {AGAIN}")
    _text(words, where, empty=True)


def _check_number(question, where):
    for name in ("key", "low", "high", "share", "within"):
        _number(question[name], f"{where}, {name}")
    _text(question["unit"], f"{where}, unit", empty=True)
    if min(question["share"], question["within"]) < 0 or not _is_whole(question["digits"], MOST_DIGITS):
        raise FILE.wrong(f"{where}: no number as it should be; {AGAIN}")


def _check_choice(question, where):
    if not isinstance(question["numbered"], bool):
        raise FILE.wrong(f"{where}, numbered: neither yes nor no; {AGAIN}")
    signs = _signs(question, "options", where, DIGITS if question["numbered"] else LETTERS)
    _check_key(question, where, [signs])


def _check_order(question, where):
    signs = _signs(question, "things", where, LETTERS)
    _text(question["ends"], f"{where}, ends")
    _check_key(question, where, [signs] * len(signs))


def _check_pick(question, where):
    letters = _text(question["letters"], f"{where}, letters", MOST_TEXTS)
    key = _text(question["key"], f"{where}, key", 2)
    if not letters or set(letters) - set(PICKS) or list(key) != sorted(set(key)) or set(key) - set(letters):
        raise FILE.wrong(f"{where}: no places of a picture; {AGAIN}")


def _check_reasoned(question, where):
    signs = _signs(question, "options", where, LETTERS), _signs(question, "reasons", where, DIGITS)
    _check_key(question, where, signs)


def _signs(question, name, where, alphabet):
    texts = _list(question[name], f"{where}, {name}", MOST_TEXTS, 2)
    for text in texts:
        _text(text, f"{where}, {name}")
    return alphabet[: len(texts)]


def _check_key(question, where, places):
    """One sign of each place, none twice."""
    key = question["key"]
    if not isinstance(key, str) or len(key) != len(places) or len(set(key)) != len(key):
        raise FILE.wrong(f"{where}, key: it fits no option; {AGAIN}")
    if any(sign not in signs for sign, signs in zip(key, places, strict=True)):
        raise FILE.wrong(f"{where}, key: it fits no option; {AGAIN}")


_CHECKS = {
    "number": _check_number, "choice": _check_choice, "order": _check_order, "pick": _check_pick,
    "reasoned": _check_reasoned,
}  # fmt: skip
