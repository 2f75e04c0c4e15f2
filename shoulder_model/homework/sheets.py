"""What is handed out: a sheet for each student, the tutor's key to each, a table to mark by hand, a table for the
answers.
"""

from ..document.parts import (
    Box,
    Document,
    Fields,
    Heading,
    Line,
    NewPage,
    Numbered,
    Picture,
    Points,
    Question,
    Table,
)
from ..practice.asks import Choice, Number, Order, Pick, Reasoned
from ..practice.bank import templates
from ..printed import plain
from ..tables import BOM, table_text
from ..week.words import NOT_MEDICAL
from .class_list import cells_of

CAUTION = (
    f"{NOT_MEDICAL} The people are invented. "
    "Pain, numbness, a past dislocation or surgery: stop, and see a licensed clinician."
)
HOW = "How to write your answers"
HOW_LINES = {  # kind of answer -> how it is written
    Number: "A number with its unit: 12.5 N m. A decimal comma is fine.",
    Choice: "Multiple choice: write the letter or the number, for example b.",
    Order: "An order: the letters from first to last, for example c a d b.",
    Pick: "Places on a picture: their letters, for example B, or B E for two.",
    Reasoned: "A choice with its reason: a letter and a number, for example b 2.",
}
GENERAL = "One answer to each question, on its line. Work it out above the line, or on paper of your own."
ROOM = 14.0  # mm, to work out a number
GROUP = 6  # questions in one table to mark by hand
MARK_WIDTHS, TABLE_WIDTH = (42, 24), 186  # of a table to mark by hand, mm
PER_SHEET = "Everyone has different numbers, so compare methods, not answers."


def sheet_document(title, student, sheet_id, items):
    """The sheet of one student.

    Parameters
    ----------
    title : str
    student : class_list.Student
    sheet_id : str
        What the sheet is called.
    items : sequence of practice.item.Item

    Returns
    -------
    document.parts.Document
        Its text names the student and the sheet on each page.
    """
    kinds = dict.fromkeys(type(item.ask) for item in items)
    how = Box(HOW, (GENERAL, *(line for kind, line in HOW_LINES.items() if kind in kinds), PER_SHEET))
    fields = [("Name", student.name), *([("Id", student.id)] if student.id else []), ("Sheet", sheet_id), ("Date", "")]
    questions = (_question(str(place), item) for place, item in enumerate(items, 1))
    parts = (Fields(tuple(fields)), how, Line(CAUTION), *questions)
    return Document(title, parts, f"{title}, sheet {sheet_id}")


def _question(number, item):
    ask = item.ask
    picture = Picture(item.picture) if item.picture else None
    lines = [("", _numbers(item.lines))] if item.lines else []
    label, lists = _ASKED[type(ask)](ask)
    unit = ask.unit if isinstance(ask, Number) else ""
    space = ROOM if isinstance(ask, Number) else 0.0
    return Question(number, tuple(item.question), (*lines, *lists), picture, label, unit, space)


def _numbers(lines):
    return tuple((str(place), line) for place, line in enumerate(lines, 1))


def _of_choice(ask):
    if ask.numbered:
        return "Number of the line", ()
    return "Letter", (("", tuple(zip(ask.signs, ask.options, strict=True))),)


def _of_order(ask):
    return "Letters in order", ((f"In order, {ask.ends}:", tuple(zip(ask.signs, ask.things, strict=True))),)


def _of_reasoned(ask):
    letters, digits = ask.signs
    choices, reasons = zip(letters, ask.options, strict=True), zip(digits, ask.reasons, strict=True)
    return "Letter and number", (("Choice", tuple(choices)), ("Reason", tuple(reasons)))


_ASKED = {
    Number: lambda ask: ("Answer", ()), Choice: _of_choice, Order: _of_order, Reasoned: _of_reasoned,
    Pick: lambda ask: ("Letter" if ask.count == 1 else "Two letters", ()),
}  # fmt: skip


def short_key(item):
    """The right answer to an ``item`` (`practice.item.Item`) as it is written on a sheet, text."""
    ask = item.ask
    if isinstance(ask, Number):
        return item.right_answer
    return ask.key if isinstance(ask, Choice) else " ".join(ask.key)


def key_document(title, student, sheet_id, items):
    """The key to one sheet: answers, solutions, what common slips give; of the same arguments as `sheet_document`.

    ``title`` and ``sheet_id`` are text, ``student`` is a `class_list.Student`, ``items`` a sequence of
    `practice.item.Item`.
    """
    known = templates()
    fields = Fields((("Student", student.label), ("Sheet", sheet_id)))
    parts = [fields]
    for place, item in enumerate(items, 1):
        parts.append(Numbered(f"{place}: {_told(item)}", tuple(item.solution)))
        told = f"Question: {item.template}. See section {known[item.template].section}."
        parts.append(Points((*_slips_line(item), told)))
    return Document(f"Key: {title}", (*parts, Line(CAUTION)), f"Key: {title}, sheet {sheet_id}")


def _told(item):
    """The right answer with its words."""
    ask, answer = item.ask, item.right_answer
    return (
        answer
        if isinstance(ask, Number | Choice | Pick)
        else f"{' '.join(ask.key)}: {answer.removeprefix(f'{ask.key}: ')}"
    )


def _slips_line(item):
    """What common slips would give: one line, or none."""
    named = [f"{_slip_answer(item.ask, slip.answer)}: {slip.name}" for slip in item.slips]
    return (f"Slips: {'; '.join(named)}.",) if named else ()


def _slip_answer(ask, answer):
    if isinstance(ask, Number):
        return f"{ask.shown(answer)}"
    if isinstance(ask, Reasoned) and "*" in answer:
        letter, digit = answer
        return f"any choice with reason {digit}" if letter == "*" else f"{letter} with any reason"
    return " ".join(answer)


def marking_table(title, sheets):
    """The right answers of all sheets, to mark by hand.

    Parameters
    ----------
    title : str
    sheets : sequence
        Of (student, sheet id, right answers as `short_key` writes them).

    Returns
    -------
    document.parts.Document
        A table for every six questions in words and letters.
    """
    count = len(sheets[0][2])
    parts = [Line("The right answer of each sheet, question by question.")]
    for first in range(0, count, GROUP):
        places = range(first, min(first + GROUP, count))
        heads = ("student", "sheet", *(str(place + 1) for place in places))
        rows = tuple(
            (plain(student.label), sheet_id, *(keys[place] for place in places)) for student, sheet_id, keys in sheets
        )
        widths = (*MARK_WIDTHS, *[(TABLE_WIDTH - sum(MARK_WIDTHS)) / GROUP] * len(places))
        parts += [NewPage()] if first else []
        parts += [Heading(f"Questions {first + 1} to {places[-1] + 1}"), Table(heads, rows, widths)]
    return Document(f"Marking table: {title}", tuple(parts), f"Marking table: {title}")


def key_table(sheets, delimiter=","):
    """The right answers as CSV text, a row a student; ``sheets`` as in `marking_table`, ``delimiter`` text between
    cells.
    """
    return _table(sheets, delimiter, lambda keys: keys)


def blank_answers(sheets, delimiter=","):
    """A table for the answers as CSV text, a row a student, a column a question; ``sheets`` as in `marking_table`,
    ``delimiter`` text.
    """
    return _table(sheets, delimiter, lambda keys: [""] * len(keys))


def _table(sheets, delimiter, cells):
    heads = ("id", "name", "sheet", *(f"q{place}" for place in range(1, len(sheets[0][2]) + 1)))
    rows = [[*cells_of(student), sheet_id, *cells(keys)] for student, sheet_id, keys in sheets]
    return BOM + table_text([heads, *rows], delimiter)
