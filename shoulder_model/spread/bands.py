"""One answer with its two bands: how far people spread, and how far what is not known leaves it open.

    value      this person, the tables as they stand
    people     others who share the measures that are known of this person, the tables as they stand
    not known  this person, the tables drawn anew

Neither band holds the other. Where both are wide, neither a better tape nor a better table alone makes the answer sure.
"""

from dataclasses import dataclass
from typing import NamedTuple

import numpy as np

from ..inputs import Allowed, InputError, checked_call, number, scalar
from .drawn import as_tabled
from .uncertain import LEVEL

ANY = Allowed(-1e12, 1e12, "", "give plain numbers of one unit")
SHARE = Allowed(0.01, 0.999, "of all", "give the share of answers that a band holds, 0.9 as a rule")


class Band(NamedTuple):
    """Ends of a band, arrays as the answer's, in its unit; NaN where there was no answer."""

    low: np.ndarray
    high: np.ndarray

    @property
    def width(self):
        """From end to end, in the unit of the ends."""
        return self.high - self.low


@dataclass(frozen=True)
class Spread:
    """An answer's ``value`` (...) with the bands ``people`` and ``unknown`` (`Band`), all in its unit."""

    value: np.ndarray
    people: Band
    unknown: Band


@checked_call
def band_of(answers, level=LEVEL):
    """The `Band` of ``answers`` (n, ...), any one unit, that holds the share ``level`` of them; NaN answers are left out."""
    tail = (1.0 - scalar("level", level, SHARE)) / 2
    if not (type(answers) is np.ndarray and answers.dtype == float and answers.size):
        answers = np.asarray(number("answers", answers, ANY))
    if not answers.ndim:
        raise InputError("answers", "answers is one number; give as many as there are people or draws")
    if np.isnan(answers).any():
        hardly = np.isnan(answers).all(axis=0)
        return Band(
            *np.nanpercentile(np.where(hardly, 0.0, answers), [100 * tail, 100 * (1 - tail)], axis=0)
            + np.where(hardly, np.nan, 0.0)
        )
    return Band(*np.percentile(answers, [100 * tail, 100 * (1 - tail)], axis=0))


@checked_call
def spread_of(answer, person, crowd, drawn, level=LEVEL):
    """An answer with both bands.

    Parameters
    ----------
    answer : callable
        ``answer(lifter, drawn)`` gives an array (...) for one lifter and (n, ...) for a crowd, in one unit.
    person : people.Lifter
        One lifter.
    crowd : people.Lifter
        Others who share what is known of this person, arrays (n,).
    drawn : sequence of drawn.Drawn
    level : float
        Share of answers that a band holds.

    Returns
    -------
    Spread
    """
    tabled = as_tabled()
    of_people = answer(crowd, tabled)
    unknown = [answer(person, one) for one in drawn]
    return Spread(np.asarray(answer(person, tabled)), band_of(of_people, level), band_of(np.array(unknown), level))
