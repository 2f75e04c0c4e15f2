"""Repetitions and loads: the published equations, always as an interval over all of them.

Seven equations turn w kilograms lifted r times to failure into a one-repetition maximum (1RM). They disagree,
and in the pulldown people did 9.9 and 10.0 repetitions at 80 % of their 1RM (J Strength Cond Res
2009;23(3):1022-1028), where the equations expect 7.3 to 10.0. The answer is therefore their range, and its
middle is no more reliable than its ends.
"""

from dataclasses import dataclass
from functools import cache

import numpy as np

from ..inputs import Allowed, checked_call, scalar
from ..tables import read_table

REPETITIONS = Allowed(1, 12, "repetitions", "beyond about ten repetitions the equations are not to be used")
SHARE = Allowed(0.65, 1.0, "of the 1RM", "lighter loads mean more repetitions than the equations were made for")
SHARES = {  # share of the 1RM that r repetitions to failure can be done with, in the table's order
    "w / (1.0278 - 0.0278 r)": lambda r: 1.0278 - 0.0278 * r,
    "w (1 + r/30)": lambda r: 1 / (1 + r / 30),
    "100 w / (101.3 - 2.67123 r)": lambda r: (101.3 - 2.67123 * r) / 100,
    "w r^0.10": lambda r: r**-0.10,
    "100 w / (52.2 + 41.9 e^(-0.055 r))": lambda r: (52.2 + 41.9 * np.exp(-0.055 * r)) / 100,
    "100 w / (48.8 + 53.8 e^(-0.075 r))": lambda r: (48.8 + 53.8 * np.exp(-0.075 * r)) / 100,
    "w (1 + 0.025 r)": lambda r: 1 / (1 + 0.025 * r),
}


@cache
def equations():
    """Rows of ``data/rep_equations.csv`` as dicts of text: equation, source, mark; all from memory (MH)."""
    return tuple(read_table("rep_equations.csv"))


@dataclass(frozen=True)
class Interval:
    """What the equations say: ``each`` of them by name, their ``low``, ``high`` and median ``value``; one unit for all."""

    value: float
    low: float
    high: float
    each: dict


def _interval(each):
    values = list(each.values())
    return Interval(float(np.median(values)), float(min(values)), float(max(values)), each)


@checked_call
def share_of_maximum(repetitions):
    """Share of the 1RM that can be lifted for just so many ``repetitions``, 1 to 12: an `Interval` of ratios, 0 to 1.

    One repetition is 1 by definition, whatever an equation says of it. Any other number raises `InputError`, here and below.

    >>> share = share_of_maximum(10)
    >>> round(share.low, 2), round(share.high, 2)
    (0.74, 0.8)
    """
    r = scalar("repetitions", repetitions, REPETITIONS)
    return _interval({row["equation"]: 1.0 if r == 1 else float(SHARES[row["equation"]](r)) for row in equations()})


@checked_call
def one_repetition_maximum(load_kg, repetitions):
    """1RM of somebody who lifts ``load_kg`` [kg] for just ``repetitions``, 1 to 12: an `Interval`. [kg]"""
    kg = scalar("load_kg", load_kg, Allowed(0.5, 500.0, "kg", "give the load on the whole bar"))
    shares = share_of_maximum(repetitions).each
    return _interval({name: kg / share for name, share in shares.items()})


@checked_call
def load_for(one_rm_kg, repetitions):
    """Load that somebody with a 1RM of ``one_rm_kg`` [kg] can lift for just ``repetitions``, 1 to 12: an `Interval`. [kg]"""
    kg = scalar("one_rm_kg", one_rm_kg, Allowed(0.5, 800.0, "kg", "give the one-repetition maximum"))
    return _interval({name: kg * share for name, share in share_of_maximum(repetitions).each.items()})


@checked_call
def repetitions_at(share):
    """Repetitions to failure expected at a ``share`` of the 1RM (0.65 to 1): an `Interval`, not rounded, at least 1.

    Solved from each equation.

    >>> at_80 = repetitions_at(0.8)
    >>> round(at_80.low, 1), round(at_80.high, 1)
    (7.3, 10.0)
    """
    share = scalar("share", share, SHARE)
    each = {}
    for row in equations():
        low, high = 0.0, 1000.0
        for _ in range(80):
            middle = (low + high) / 2
            low, high = (middle, high) if SHARES[row["equation"]](max(middle, 1e-9)) > share else (low, middle)
        each[row["equation"]] = max(low, 1.0)
    return _interval(each)


@dataclass(frozen=True)
class Measured:
    """Repetitions to failure in the lat pulldown at a share of the 1RM, as a trial found them in ``people``."""

    repetitions: float
    share: float
    people: str
    citation: str


@cache
def measured_pulldown():
    """What trials measured in the lat pulldown, to put beside the equations; a tuple of `Measured`.

    College men and women at 80 % of the 1RM (read), and trained adults of 73 years by their own regression
    (derived from its coefficients), all in ``data/evidence.csv``.
    """
    results = []
    for row in read_table("evidence.csv"):
        people = f"{row['n']} {row['sex']}, {row['training_status']}"
        if row["exercise"] == "lat pulldown" and row["outcome"] == "reps_at_80pct":
            results.append(Measured(float(row["mean"]), 0.8, people, row["citation"]))
        elif row["exercise"] == "lat pulldown" and row["outcome"] == "pct1RM":
            repetitions = float(row["condition"].split()[0])
            results.append(Measured(repetitions, float(row["mean"]) / 100, people, row["citation"]))
    return tuple(results)
