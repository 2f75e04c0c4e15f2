"""The log of a week: a blank one to print or fill in, and the filled-in one read back, set by set.

One line a set. A log comes back as a phone or a spreadsheet writes it (`log_file`); it ends in whole entries, or in one line
that says what to do.
"""

import re
from dataclasses import dataclass, field
from datetime import date as Date
from difflib import get_close_matches

from ..inputs import Allowed, checked_call, choice, scalar, several, text, thing, whole
from ..table_file import DELIMITERS, said
from ..tables import Inert, Number, table_text
from ..week.plan import a_plan
from ..week.words import grip_words
from .log_file import A_NUMBER, HEADS, LOG, rows

NUMBER = re.compile(r"(\d{1,4})(?:[.,](\d{1,2}))?(?: ?(kg|cm))?", re.IGNORECASE)  # no thousands, no signs, no formula
RANGES = {  # column -> lowest, highest, whether whole
    "day": (1, 7, True),
    "set": (1, 50, True),
    "grip [cm]": (0, 300, False),
    "load [kg]": (0, 500, False),
    "repetitions": (0, 100, True),
    "repetitions left": (0, 50, False),
    "pain 0-10": (0, 10, False),
    "comfort 0-10": (0, 10, False),
}
DONE = (
    "load [kg]",
    "repetitions",
    "repetitions left",
    "pain 0-10",
    "comfort 0-10",
    "note",
)  # blank: the set was not done
FIELDS = {
    "day": "day", "set": "set", "grip [cm]": "grip_cm", "load [kg]": "load_kg", "repetitions": "repetitions",
    "repetitions left": "left", "pain 0-10": "pain", "comfort 0-10": "comfort",
}  # fmt: skip
LONGEST_NOTE = 5000  # letters
DECIMALS = (".", ",")
YEARS = (2000, 2100)
DATES = (
    (re.compile(r"(\d{4})[-/.](\d{1,2})[-/.](\d{1,2})(?:[T ]\d{1,2}:\d{2}(?::\d{2})?(?:\.\d+)?Z?)?"), (0, 1, 2)),
    (re.compile(r"(\d{1,2})\. ?(\d{1,2})\. ?(\d{4})"), (2, 1, 0)),
)
SLASHED = re.compile(r"(\d{1,2})[/-](\d{1,2})[/-](\d{4})")  # day and month in either order


@checked_call
@dataclass(frozen=True)
class Entry:
    """One set of a log.

    Parameters
    ----------
    pull : str
    set : int
        1 the first of the day.
    load_kg : float or None
        [kg]; None, here and below: not written down.
    repetitions : int or None
    left : float or None
        Repetitions left.
    pain, comfort : float or None
        0 to 10.
    date : datetime.date or None
    day : int or None
        Of the week, 1 the first that has pulls.
    grip_cm : float or None
        [cm]
    note : str
    line : int
        In the file.

    Raises
    ------
    InputError
        A number outside what a log may hold (`RANGES`), a text that is none, a date that is none; names the field.
    """

    pull: str
    set: int
    load_kg: float | None = None
    repetitions: int | None = None
    left: float | None = None
    pain: float | None = None
    comfort: float | None = None
    date: Date | None = None
    day: int | None = None
    grip_cm: float | None = None
    note: str = ""
    line: int = field(default=0, compare=False)

    def __post_init__(self):
        text("pull", self.pull), text("note", self.note, LONGEST_NOTE)
        if self.date is not None:
            thing("date", self.date, Date, "datetime.date(2026, 1, 31)")
        for column, name in FIELDS.items():
            low, high, counts = RANGES[column]
            value = getattr(self, name)
            if value is not None or name == "set":
                check = whole if counts else scalar
                object.__setattr__(self, name, check(name, value, Allowed(low, high, "", "as a log may have it")))


@checked_call
def blank_rows(plan):
    """A blank log of one ``plan`` (`week.plan.Plan`) as rows of cells, a list of lists of text, one for every set; to be copied for each week."""
    a_plan(plan)
    lines = [
        ["", row.weekday, row.day, row.name, place, _grip_cell(row), *[""] * len(DONE)]
        for row in plan.rows
        for place in range(1, row.sets + 1)
    ]
    return [HEADS, *lines]


@checked_call
def blank_log(plan, delimiter=","):
    """The rows of `blank_rows` of a ``plan`` (`week.plan.Plan`) as CSV text.

    ``delimiter`` is the text between cells: "," or, where a spreadsheet wants it so, ";". `InputError` for other kinds.
    """
    a_plan(plan), choice("delimiter", delimiter, DELIMITERS)
    return table_text(blank_rows(plan), delimiter)


def _grip_cell(row):
    """The grip in whole centimetres where the page has one."""
    told = grip_words(row)
    return told.removesuffix(" cm") if told.endswith(" cm") else ""


@checked_call
def log_text(entries, delimiter=",", decimal="."):
    """The ``entries`` (a sequence of `Entry`) as CSV text that `read_log` reads, and that no spreadsheet executes.

    ``delimiter`` is the text between cells, ``decimal`` the text before decimals. `InputError` for other kinds.
    """
    entries = several("entries", entries, Entry, "training.read_log(...)")
    choice("delimiter", delimiter, DELIMITERS), choice("decimal", decimal, DECIMALS)

    def cell(value):
        return None if value is None else Number(f"{value:g}")

    lines = []
    for one in entries:
        when = one.date.isoformat() if one.date else ""
        load = None if one.load_kg is None else Number(f"{one.load_kg:.2f}")  # decimals: no comma has split it
        done = (cell(value) for value in (one.repetitions, one.left, one.pain, one.comfort))
        note = Inert(f"'{one.note}") if A_NUMBER.fullmatch(one.note) else one.note
        lines.append([when, "", cell(one.day), one.pull, cell(one.set), cell(one.grip_cm), load, *done, note])
    return table_text([HEADS, *lines], delimiter, decimal)


@checked_call
def read_log(content, names):
    """Every set that was done, of a log that came back: a tuple of `Entry`, in the file's order.

    The columns pull, set, repetitions and pain have to be there. Sets without load, repetitions, marks and note were not done
    and are passed over. A date that is left out is the one above it
    on the same day.

    Parameters
    ----------
    content : str or bytes
        The file: UTF-8, UTF-16 or cp1252; commas, semicolons or tabs; decimal points or commas.
    names : sequence of str
        Of the pulls that may be in it.

    Raises
    ------
    InputError
        In one line: line, column, value, what to do.
    """
    names = several("names", names, str)
    entries, above = [], _Above()
    for line, row in rows(LOG.decoded(content)):
        values = {column: _number(column, row[column], line) for column in RANGES}
        done = any(row[column] for column in DONE)
        if not done and (not row["pull"] or values["set"] is None):
            continue
        pull = _pull(row["pull"], names, line)
        if values["set"] is None:
            raise LOG.wrong("the number of the set is missing; 1 is the first", line, "set")
        on = above.date_of(_date(row["date"], line), values["day"], (pull, values["set"]))
        if done:
            given = {name: values[column] for column, name in FIELDS.items()}
            entries.append(Entry(pull, date=on, note=row["note"], line=line, **given))
    return tuple(entries)


class _Above:
    """The date of the lines above, for those of the same day that leave it out."""

    def __init__(self):
        self.date, self.day, self.sets = None, None, set()

    def date_of(self, date, day, which):
        """The date of a line: its own, or the one above unless a new day or the same set again begins."""
        if date is not None and (date, day) != (self.date, self.day):
            self.sets = set()
        if date is None and self.date and day == self.day and which not in self.sets:
            date = self.date
        self.date, self.day = date, day
        self.sets.add(which)
        return date


def _pull(cell, names, line):
    if cell in names:
        return cell
    near = get_close_matches(cell.lower()[:60], names, n=1, cutoff=0.4)
    if not cell:
        raise LOG.wrong("the name of the pull is missing; copy it from the blank log", line, "pull")
    hint = f"is it {near[0]!r}?" if near else "copy the name from the blank log"
    raise LOG.wrong(f"{said(cell)} is not one of the pulls; {hint}", line, "pull")


def _number(column, cell, line):
    """A cell of numbers: None where it is blank."""
    if not cell:
        return None
    low, high, whole = RANGES[column]
    found = NUMBER.fullmatch(cell) if cell.isascii() else None
    unit = found and found[3]
    if not found or (unit and f"[{unit.lower()}]" not in column):
        raise LOG.wrong(f"{said(cell)} is no number; write digits only, as in {high // 2}", line, column)
    value = float(f"{found[1]}.{found[2] or 0}")
    if not low <= value <= high or (whole and value != int(value)):
        kind = "a whole number" if whole else "a number"
        raise LOG.wrong(f"{said(cell)} is not {kind} from {low} to {high}; check it", line, column)
    return int(value) if whole else value


def _date(cell, line):
    """A date, None where it is blank; one that can be read in two ways is refused."""
    if not cell:
        return None
    year, month, day = _year_month_day(cell, line) if cell.isascii() else (0, 0, 0)
    try:
        found = Date(year, month, day)
    except ValueError:
        found = None
    if found is None or not YEARS[0] <= year <= YEARS[1]:
        raise LOG.wrong(f"{said(cell)} is no date; write it as 2026-01-31", line, "date")
    return found


def _year_month_day(cell, line):
    for pattern, order in DATES:
        if found := pattern.fullmatch(cell):
            return tuple(int(found[place + 1]) for place in order)
    if not (found := SLASHED.fullmatch(cell)):
        return 0, 0, 0
    first, second, year = (int(part) for part in found.groups())
    if first != second and max(first, second) <= 12:
        raise LOG.wrong(f"{said(cell)} can be read in two ways; write it as 2026-01-31", line, "date")
    return (year, first, second) if second > 12 or first == second else (year, second, first)
