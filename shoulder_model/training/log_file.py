"""A log's file as rows of cells, as a phone or a spreadsheet writes it (`table_file`); nothing in it is worked out.

Columns in any order and any case, with others among them. What cannot be read is refused in one line.
"""

import re

from ..table_file import Kind, said

HEADS = (
    "date", "weekday", "day", "pull", "set", "grip [cm]", "load [kg]", "repetitions", "repetitions left", "pain 0-10",
    "comfort 0-10", "note",
)  # fmt: skip
NEEDED = ("pull", "set", "repetitions", "pain 0-10")  # without the last, pain would be overlooked
SHORT = {"reps": "repetitions", "reps left": "repetitions left"}
FROM_BLANK = "start from a blank log"
LOG = Kind("log", FROM_BLANK, last_may_lack=True)  # between commas only the note may be left out
UNIT = re.compile(r"[\[(]([^\[(\])]*)[\])]")
SCALE = re.compile(r"\b0 *(?:-|–|to) *10\b")
A_NUMBER = re.compile(r" *\d+([.,]\d+)? *")  # as a note it looks like one from another cell


def rows(text):
    """Pairs of line, a whole number, and row, a dict of column name -> text, of a log's ``text``.

    A row has every column of `HEADS`, "" where it is missing; rows without anything in them are passed over.

    Raises
    ------
    InputError
        In one line: no log, a column missing or there twice, cells that do not fit the columns.
    """
    columns = None
    for one in LOG.rows(text):
        if columns is None:
            columns = _columns(one.cells, one.line)
            continue
        row = dict.fromkeys(HEADS, "") | {name: one.at(place) for name, place in columns.items()}
        _check_moved(row, _at(columns.get("note"), one.typed), one.delimiter, one.line)
        yield one.line, row


def _columns(cells, line):
    """Where each known column stands: dict of name -> place."""
    known = {_bare(head): head for head in HEADS}
    columns = {}
    for place, cell in enumerate(cells):
        bare = _bare(cell)
        name = known.get(SHORT.get(bare, bare))
        if name is None:
            continue
        if name in columns:
            raise LOG.wrong("this column is there twice; take one out", line, name)
        unit, wanted = UNIT.search(cell), UNIT.search(name)
        if wanted and unit and unit[1].strip().lower() != wanted[1]:
            raise LOG.wrong(f"{said(cell)} is in another unit; write it in {wanted[1]}", line, name)
        columns[name] = place
    missing = [name for name in NEEDED if name not in columns]
    if missing:
        told = f"the column is missing; the first line has the heads of a log, or {FROM_BLANK}"
        raise LOG.wrong(told, line, missing[0])
    return columns


def _bare(head):
    """A head without unit, scale and case."""
    return " ".join(SCALE.sub("", UNIT.sub("", head.lower().replace("_", " "))).split())


def _at(place, cells):
    return cells[place] if place is not None and place < len(cells) else ""


def _check_moved(row, note, delimiter, line):
    """A decimal comma between commas moves what follows by one cell: into the ``note``, or repetitions into those left."""
    load, done, left = (row[name] for name in ("load [kg]", "repetitions", "repetitions left"))
    whole = all(cell.isascii() and cell.isdecimal() for cell in (load, done, left))
    commas = delimiter == ","
    if A_NUMBER.fullmatch(note) or (commas and whole and int(left[:9]) > int(done[:9])):
        instead = (
            "write 42.5 with a point, or put “42,5” in quotation marks" if commas else "or write words in the note"
        )
        raise LOG.wrong(f"the cells look moved by one; {instead}", line)
