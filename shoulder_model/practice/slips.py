"""Slips that learners make, by name: what went wrong, and what puts it right. One list serves every item.

An item works out what a slip would give with its own numbers, and says in which line of its solution it happens.
"""

from dataclasses import dataclass
from functools import cache

from ..tables import read_table


@dataclass(frozen=True)
class Slip:
    """What one slip would give in one item.

    Parameters
    ----------
    name : str
        Of ``data/slips.csv``.
    answer : float or str
        What it gives: a number in the unit that is asked, or an answer in letters, where * is any: "*2" is the second reason for
        whatever choice.
    line : int
        Where it happens: the line of the solution, 1 the first; 0 where there is no such line.
    words : str
        What there is to say of it in this item; without them what the table says.
    """

    name: str
    answer: float | str
    line: int = 0
    words: str = ""


@cache
def slip_table():
    """All slips: a dict from name to what happened and what to do, both text."""
    return {row["slip"]: (row["what happened"], row["what to do"]) for row in read_table("slips.csv")}
