"""Tables: the package's own data in, text for spreadsheets out."""

import csv
import io
from importlib.resources import files


def read_table(name):
    """Rows of ``data/name`` as a list of dicts of text, by column head; lines that start with ``#`` are notes.

    Parameters
    ----------
    name : str
        File name.
    """
    text = files(__package__).joinpath("data", name).read_text(encoding="utf-8")
    return list(csv.DictReader(line for line in text.splitlines() if not line.startswith(("#", '"#'))))


def table_text(rows):
    r"""CSV text of ``rows``, each a sequence of cells.

    >>> table_text([("pull", "sets"), ("chin-up", 3)])
    'pull,sets\nchin-up,3\n'
    """
    store = io.StringIO()
    csv.writer(store, lineterminator="\n").writerows(rows)
    return store.getvalue()


def columns_text(columns):
    r"""CSV text of ``columns``, a dict from head to numbers (n,) of one length; numbers to four decimals.

    >>> columns_text({"load [kg]": [40.0]})
    'load [kg]\n40.0000\n'
    """
    numbers = zip(*columns.values(), strict=True)
    return table_text([tuple(columns), *([f"{value:.4f}" for value in row] for row in numbers)])
