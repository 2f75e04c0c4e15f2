"""The record as a CSV table, and back."""

import csv
import io
from datetime import UTC, datetime

from ..inputs import InputError
from ..tables import as_typed, table_text

HEADS = (
    "id", "time [s since 1970]", "item", "numbers", "answer", "score", "slip", "time taken [s]", "hint", "exam",
    "day (UTC)",
)  # fmt: skip
LARGEST = 50_000_000  # bytes of a table
MARK = b"\xef\xbb\xbf"  # of UTF-8, for spreadsheets
NUMBERS = (1, 5, 7)  # places of the cells that are numbers
LONGEST_ERROR = 300  # characters


def as_table(rows):
    """CSV, as bytes of text with a byte-order mark, of ``rows``, each a tuple of `answer.COLUMNS`."""
    table = [HEADS]
    for *cells, hint, exam in rows:
        day = datetime.fromtimestamp(cells[1], UTC).strftime("%Y-%m-%d %H:%M:%S")
        table.append((*cells, "yes" if hint else "no", exam, day))
    return MARK + table_text(table).encode("utf-8")


def read_export(content, pair):
    """What `as_table` wrote, as a list.

    Parameters
    ----------
    content : bytes
    pair : callable
        Takes a tuple of `answer.COLUMNS`, gives what the list holds; its `ValueError` refuses the table.

    Raises
    ------
    InputError
        In one line, with the row.
    """
    found = []
    for line, cells in _lines(content):
        if len(cells) != len(HEADS):
            raise _wrong(f"it has {len(cells)} cells where the first row has {len(HEADS)}", line)
        cells = [as_typed(cell) for cell in cells]
        if cells[8] not in ("yes", "no"):
            raise _wrong("the cell under “hint” is neither yes nor no", line)
        for place in NUMBERS:
            cells[place] = _number(cells[place], HEADS[place], line)
        cells[8] = cells[8] == "yes"
        try:
            found.append(pair(tuple(cells[:-1])))
        except ValueError as error:
            raise _wrong(str(error), line) from None
    return found


def _lines(content):
    """Pairs of the number of a row and its cells, without the heads and empty rows."""
    if len(content) > LARGEST:
        raise _wrong("it is too large; choose a table that was saved here")
    try:
        text = bytes(content).removeprefix(MARK).decode("utf-8")
        rows = list(csv.reader(io.StringIO(text, newline=""), strict=True))
    except (UnicodeDecodeError, csv.Error):
        raise _wrong("it is no table in UTF-8; choose a .csv file that was saved here") from None
    if not rows or tuple(rows[0]) != HEADS:
        raise _wrong(f"its first row is not {','.join(HEADS)}; choose a .csv file that was saved here")
    return [(line, cells) for line, cells in enumerate(rows[1:], 2) if cells]


def _number(cell, head, line):
    try:
        return float(cell)
    except ValueError:
        raise _wrong(f"the cell under “{head}” is no number", line) from None


def _wrong(words, line=None):
    where = f"record, row {line}" if line else "record"
    return InputError("record", f"{where}: {words}"[:LONGEST_ERROR])
