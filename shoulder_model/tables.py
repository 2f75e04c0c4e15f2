"""Tables: the package's own data in, text for spreadsheets out."""

import csv
import io
from importlib.resources import files

NOT_FIRST = ("=", "+", "-", "@", "\t", "\r", "'")  # a spreadsheet works out what begins so; the mark itself


def read_table(name):
    """Rows of ``data/name`` as a list of dicts of text, by column head; lines that start with ``#`` are notes.

    Parameters
    ----------
    name : str
        File name.
    """
    text = files(__package__).joinpath("data", name).read_text(encoding="utf-8")
    return list(csv.DictReader(line for line in text.splitlines() if not line.startswith(("#", '"#'))))


def table_text(rows, delimiter=","):
    r"""CSV text of ``rows``, each a sequence of cells, with ``delimiter`` (text) between them.

    >>> table_text([("pull", "sets"), ("chin-up", 3)])
    'pull,sets\nchin-up,3\n'
    """
    store = io.StringIO()
    csv.writer(store, delimiter=delimiter, lineterminator="\n").writerows(rows)
    return store.getvalue()


def columns_text(columns):
    r"""CSV text of ``columns``, a dict from head to numbers (n,) of one length; numbers to four decimals.

    >>> columns_text({"load [kg]": [40.0]})
    'load [kg]\n40.0000\n'
    """
    numbers = zip(*columns.values(), strict=True)
    return table_text([tuple(columns), *([f"{value:.4f}" for value in row] for row in numbers)])


def inert(cell):
    """A ``cell`` as text that no spreadsheet takes for a formula; it may be text or a number, and a number stays one.

    >>> inert("=1+1"), inert(-0.25), inert("row"), inert("'quoted'")
    ("'=1+1", '-0.25', 'row', "''quoted'")
    """
    return f"'{cell}" if isinstance(cell, str) and cell.startswith(NOT_FIRST) else str(cell)


def as_typed(cell):
    """The text of a ``cell`` that `inert` wrote.

    >>> as_typed("'=1+1")
    '=1+1'
    """
    return cell.removeprefix("'")
