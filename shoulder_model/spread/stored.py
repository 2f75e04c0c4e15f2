"""Which input matters how much, as it was worked out once and kept (``data/stored_what_matters.csv``).

It takes minutes, so chapters and pictures read it. The table carries the fingerprint of the model that made it; a test fails
when the model has changed since, and `recipes.what_matters` makes it again.
"""

from dataclasses import dataclass
from functools import cache

from ..inputs import checked_call, choice
from ..people import SEXES
from ..tables import read_table, table_notes

TABLE = "stored_what_matters.csv"
MADE_WITH = "model: "  # what the note with the fingerprint begins with
NUMBERS = ("first", "first_low", "first_high", "total", "total_low", "total_high")
OF_ANSWER = ("mean", "sd", "low", "high")


@dataclass(frozen=True)
class Matter:
    """How much one ``input`` matters for an answer: ``first`` and ``total`` index and their intervals (low, high), without unit."""

    input: str
    first: float
    total: float
    first_band: tuple
    total_band: tuple

    @property
    def narrower(self):
        """By which share the answer's standard deviation would fall if the input were known, without unit."""
        return 1.0 - (1.0 - min(max(self.first, 0.0), 1.0)) ** 0.5


@dataclass(frozen=True)
class Matters:
    """What moves one ``answer`` of a pull: ``mean``, ``sd``, ``low`` and ``high`` (5th and 95th percentile) in its ``unit``, and
    ``inputs``, a dict of name -> `Matter`, the largest total index first; ``kinds`` the same for people and what is not known.
    """

    answer: str
    unit: str
    mean: float
    sd: float
    low: float
    high: float
    inputs: dict
    kinds: dict


@cache
def made_with():
    """Fingerprint of the model that the table was made with, text."""
    return next(note.removeprefix(MADE_WITH) for note in table_notes(TABLE) if note.startswith(MADE_WITH))


@cache
def _rows():
    found = {}
    for row in read_table(TABLE):
        found.setdefault((row["sex"], row["pull"], row["answer"]), []).append(row)
    return found


@cache
def stored_pulls():
    """Pulls of the table in its order, a tuple of names."""
    return tuple(dict.fromkeys(pull for _, pull, _ in _rows()))


@checked_call
def stored_matters(sex, pull, answer):
    """What moves an answer of a pull, worked out for people of one sex of whom no measure is known.

    Parameters
    ----------
    sex : "men" or "women"
    pull : str
        One of `stored_pulls`.
    answer : str
        One that the table has.

    Returns
    -------
    Matters
        In the answer's unit; indices without unit.

    Raises
    ------
    InputError
        Another sex, pull or answer, with the nearest names.
    """
    sex, pull = choice("sex", sex, SEXES), choice("pull", pull, stored_pulls())
    answer = choice("answer", answer, tuple(name for _, of, name in _rows() if of == pull))
    rows = _rows()[sex, pull, answer]
    found = sorted((_matter(row) for row in rows), key=lambda one: -one.total)
    kinds = {one.input: one for one in found if one.input in ("people", "not known")}
    inputs = {one.input: one for one in found if one.input not in kinds}
    return Matters(answer, rows[0]["unit"], *(float(rows[0][name]) for name in OF_ANSWER), inputs, kinds)


def _matter(row):
    first, first_low, first_high, total, total_low, total_high = (float(row[name]) for name in NUMBERS)
    return Matter(row["input"], first, total, (first_low, first_high), (total_low, total_high))
