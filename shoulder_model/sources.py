"""Every constant of the model with its source and how well it is known.

Marks: R read in the published text, D derived by arithmetic from such values,
M from memory (MH good, MM fair, ML weak), U read in a text that cannot be located from what is known of it, ``none`` common
practice, no source. What has the mark U may be a default; it decides nothing: no check, no direction, no rule, no pooled result.
"""

from dataclasses import dataclass
from functools import cache

from .inputs import checked_call, choice
from .tables import read_table

NOT_LOCATED = "U"
FROM_MEMORY = ("M", "MH", "MM", "ML")
MARKS = {  # mark -> how a number is known, in words
    "R": "read",
    "D": "derived",
    "MH": "from memory, good",
    "MM": "from memory, fair",
    "ML": "from memory, weak",
    NOT_LOCATED: "read, but the paper cannot be located",
    "none": "common practice or own choice, no source",
}


@dataclass(frozen=True)
class Constant:
    """One number: value, the range (low, high) its sources span, unit, mark and source. Numbers are in ``unit``."""

    name: str
    value: float
    low: float
    high: float
    unit: str
    mark: str
    source: str

    @property
    def half_range(self):
        """Half the distance from low to high, in ``unit``."""
        return (self.high - self.low) / 2


@cache
def _constants():
    """All rows of ``data/facts.csv`` by name."""
    rows = {}
    for row in read_table("facts.csv"):
        value = float(row["value"])
        low, high = float(row["low"] or value), float(row["high"] or value)
        rows[row["name"]] = Constant(row["name"], value, low, high, row["unit"], row["mark"], row["source"])
    return rows


@checked_call
def constant(name):
    """One constant with its range, unit, mark and source.

    Parameters
    ----------
    name : str
        A row of ``data/facts.csv``.

    Raises
    ------
    UnknownName
        With the nearest names.

    >>> constant("gh_below_acromion").mark
    'D'
    """
    return _constants()[choice("constant", name, tuple(_constants()))]


def fact(name):
    """The value of the constant ``name``, in the unit its row names; raises as `constant`.

    >>> fact("upper_arm_mass")
    0.028
    """
    try:
        return _constants()[name].value
    except (KeyError, TypeError):
        return constant(name).value
