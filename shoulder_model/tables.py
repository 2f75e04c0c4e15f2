"""Tables: the package's own data in, text for spreadsheets out.

Whatever is written for a spreadsheet goes through `table_text`, which makes each cell of words inert: no spreadsheet takes it for
a formula, and it reads back as it was typed (`as_typed`).
"""

import csv
import unicodedata
from importlib.resources import files
from math import isfinite
from types import SimpleNamespace

NOTE = ("#", '"#')  # begins a line that is no row
NOT_FIRST = ("=", "+", "-", "@", "\t", "\r", "'")  # a spreadsheet works out what begins so; the mark itself
BOM = "\ufeff"  # spreadsheets take what follows for UTF-8
DELIMITERS = {".": ",", ",": ";"}  # decimal sign -> what then parts the cells
DECIMALS = {",": ".", ";": ",", "\t": "."}  # what parts the cells -> the decimal sign beside it


class Number(str):
    """Digits of a number as they are to stand in a table, with a point."""


class Inert(str):
    """Text that no spreadsheet takes for a formula."""


def read_table(name):
    """Rows of ``data/name`` as a list of dicts of text, by column head; lines that start with ``#`` are notes.

    Parameters
    ----------
    name : str
        File name.
    """
    return list(csv.DictReader(line for line in _lines(name) if not line.startswith(NOTE)))


def table_notes(name):
    """Notes at the head of ``data/name`` (file name), texts without their sign.

    >>> table_notes("scapular_rhythm.csv")[1]
    'J Bone Joint Surg Am 2009;91:378 (R).'
    """
    return [line.strip('"').lstrip("# ") for line in _lines(name) if line.startswith(NOTE)]


def _lines(name):
    return files(__package__).joinpath("data", name).read_text(encoding="utf-8").splitlines()


def table_text(rows, delimiter=",", decimal="."):
    r"""CSV text of ``rows``, each a sequence of cells: text, which is made inert, numbers, or None for a blank.

    ``delimiter`` is the text between cells, ``decimal`` the text before decimals.

    >>> table_text([("pull", "sets"), ("chin-up", 3), ("=1+1", -0.5)], ";", ",")
    "pull;sets\nchin-up;3\n'=1+1;-0,5\n"
    """
    return data_text(((_cell(cell, decimal) for cell in row) for row in rows), delimiter)


def data_text(rows, delimiter=","):
    r"""CSV text of ``rows`` as they are, with ``delimiter`` (text) between cells: for the package's own data, not for spreadsheets.

    >>> data_text([("arm_mm", "-3.0")])
    'arm_mm,-3.0\n'
    """
    lines = []  # with both signs as its line end the writer puts cells with either of them in quotes
    csv.writer(SimpleNamespace(write=lines.append), delimiter=delimiter, lineterminator="\r\n").writerows(rows)
    return "".join(f"{line[:-2]}\n" for line in lines)


def _cell(cell, decimal):
    if cell is None:
        return ""
    if isinstance(cell, str) and not isinstance(cell, Number):
        return inert(cell)
    return str(cell).replace(".", decimal)


def spreadsheet_bytes(rows, decimal="."):
    r"""``rows`` as in `table_text` as the bytes of a file that a spreadsheet opens with all letters, ``decimal`` the text "." or ",".

    >>> spreadsheet_bytes([("load [kg]",), (40.5,)], ",").decode()
    '\ufeffload [kg]\n40,5\n'
    """
    return (BOM + table_text(rows, DELIMITERS[decimal], decimal)).encode("utf-8")


def number_rows(columns):
    """Rows of a table from ``columns``, a dict from head to numbers (n,) of one length; numbers to four decimals, none a blank cell.

    >>> number_rows({"rep [%]": [0.0, 5.0], "largest load [kg]": [40.0, float("nan")]})
    [('rep [%]', 'largest load [kg]'), ('0.0000', '40.0000'), ('5.0000', None)]
    """
    numbers = zip(*columns.values(), strict=True)
    return [
        tuple(columns),
        *(tuple(Number(f"{value:.4f}") if isfinite(value) else None for value in row) for row in numbers),
    ]


def is_worked_out(text):
    """Whether a spreadsheet would work out a cell of ``text``, or take its first letter for the mark that keeps it from that.

    Blanks and letters without a width in front do not count, and a wide letter counts as its narrow one.

    >>> is_worked_out("=1+1"), is_worked_out(" \u200b\uff1d1+1"), is_worked_out("row")
    (True, True, False)
    """
    if text.startswith(NOT_FIRST):
        return True
    for letter in text[:100]:
        if not letter.isspace() and unicodedata.category(letter) not in ("Cc", "Cf", "Cn", "Co", "Mn"):
            return unicodedata.normalize("NFKC", letter).startswith(NOT_FIRST)
    return len(text) > 100


def inert(cell):
    """A ``cell`` as text that no spreadsheet takes for a formula; it may be text or a number, and a number stays one.

    >>> inert("=1+1"), inert(-0.25), inert("row"), inert("'quoted'")
    ("'=1+1", '-0.25', 'row', "''quoted'")
    """
    if isinstance(cell, Inert) or not isinstance(cell, str):
        return Inert(cell)
    return Inert(f"'{cell}" if is_worked_out(cell) else cell)


def as_typed(cell):
    """The text of a ``cell`` that `inert` wrote.

    >>> as_typed("'=1+1")
    '=1+1'
    """
    return cell.removeprefix("'")
