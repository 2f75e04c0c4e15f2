"""Every constant of the model with its source and how well it is known.

Marks: R read in the published text, D derived by arithmetic from such values,
M from memory (MH good, MM fair, ML weak), ``none`` common practice, no source.
"""

import csv
from dataclasses import dataclass
from functools import cache
from importlib.resources import files


@dataclass(frozen=True)
class Fact:
    """One number: value, the range its sources span, unit, mark and source."""

    name: str
    value: float
    low: float
    high: float
    unit: str
    mark: str
    source: str


def read_table(name):
    """Rows of ``data/name`` as a list of dicts of text; lines that start with ``#`` are notes."""
    text = files(__package__).joinpath("data", name).read_text(encoding="utf-8")
    return list(csv.DictReader(line for line in text.splitlines() if not line.startswith(("#", '"#'))))


@cache
def facts():
    """All rows of ``data/facts.csv`` as a dict from name to `Fact`."""
    found = {}
    for row in read_table("facts.csv"):
        value = float(row["value"])
        low, high = float(row["low"] or value), float(row["high"] or value)
        found[row["name"]] = Fact(row["name"], value, low, high, row["unit"], row["mark"], row["source"])
    return found


def fact(name):
    """The value of one constant, in the unit its row names.

    >>> fact("upper_arm_mass")
    0.028
    """
    return facts()[name].value
