"""The register of uncertain inputs: what a result rests on that differs from person to person, or that nobody knows well.

Two kinds, and results say which of them their spread comes from:

- **people**: bodies and strength differ, and a tape or a known lift tells for one person;
- **not known**: the model needs it for everybody, and no tape of a coach tells it. People differ in these too (nobody has
  the reference body's landmarks), but nobody has measured by how much, so both lie in one spread.

The table is ``data/uncertain_inputs.csv``; the widths stand where the values stand, in ``data/facts.csv`` and the tables of
muscles. `drawn` turns standard normal numbers into inputs.
"""

from dataclasses import dataclass
from functools import cache

from ..inputs import checked_call, choice
from ..tables import read_table

KINDS = ("people", "not known")
LEVEL = 0.9  # of a band: from the 5th to the 95th percentile


@dataclass(frozen=True)
class UncertainInput:
    """One input, or several that are drawn together.

    ``name``; ``kind`` one of `KINDS`; ``moves``, what it changes, in words; ``distribution``; ``width_from``, the table or fact
    that says how wide it is; ``range_in_sd`` (float or None) how many standard deviations that range is, None where it is the
    standard deviation; ``mark`` and ``source`` of the width.
    """

    name: str
    kind: str
    moves: str
    distribution: str
    width_from: str
    range_in_sd: float | None
    mark: str
    source: str


@cache
def uncertain_inputs():
    """All inputs of the register, a tuple of `UncertainInput`; widths in the units of the tables that they stand in.

    >>> [one.name for one in uncertain_inputs() if one.kind == "people"]
    ['body measures', 'strength']
    """
    return tuple(_input(row) for row in read_table("uncertain_inputs.csv"))


def _input(row):
    texts = (row["input"], row["kind"], row["moves"], row["distribution"], row["from"])
    return UncertainInput(
        *texts, float(row["sd_from_range"]) if row["sd_from_range"] else None, row["mark"], row["source"]
    )


@checked_call
def names_of(kind=None):
    """Names of the inputs of a ``kind`` ("people", "not known"), of all without it: a tuple of text."""
    kinds = KINDS if kind is None else (choice("kind", kind, KINDS),)
    return tuple(one.name for one in uncertain_inputs() if one.kind in kinds)
