"""A crowd: people drawn from the survey, page by page, so that any part of it can be had alone.

A page holds 1,000 people and has a stream of random numbers of its own, from the crowd's seed and the page's number. So the
person with the number 1,234,567 has the same measures whether one asks for that person, for a thousand or for all, on
whatever machine, and a crowd of any size takes no memory before somebody asks for a part of it.
"""

from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from ..inputs import Allowed, InputError, checked_call, choice, mapping, thing, whole
from .lifter import MEASURES, SEED, SEXES, Lifter, _known, conditional, expected_measures, survey

PAGE = 1000  # people that are drawn together
COUNT = Allowed(1, 10**9, "lifters", "draw at least one")
AT_ONCE = Allowed(1, 1_000_000, "lifters", "draw at least one, at most a million; a Crowd has more, part by part")
ROUNDS = 200  # of drawing again; who is still missing then belongs to measures that nobody has


@checked_call
@dataclass(frozen=True)
class Crowd:
    """People of the survey, each with a number from 0 on.

    Parameters
    ----------
    n : int
        How many people, 1 or more.
    sex : "men" or "women"
    seed : int
        0 or more; the same one gives the same people.
    measured : dict, optional
        Tape readings that all of them share, by the names of `Lifter`'s fields. [m], mass [kg]

    Raises
    ------
    InputError
        Another sex, a count or a seed that is no whole number, measures as in `expected_measures`.

    Notes
    -----
    Multivariate normal, or the conditional one (`lifter.conditional`) where measures are shared. Whoever would have a measure
    outside `Lifter`'s allowed range, about 1 in 10,000, is drawn again.

    >>> Crowd(3, "women", 1).lifters(slice(0, 2)).stature.round(3).tolist() == (
    ...     Crowd(10**8, "women", 1).lifters(slice(0, 2)).stature.round(3).tolist())
    True
    """

    n: int
    sex: str
    seed: int
    measured: tuple | dict = ()

    def __post_init__(self):
        object.__setattr__(self, "n", whole("n", self.n, COUNT))
        object.__setattr__(self, "seed", whole("seed", self.seed, SEED))
        choice("sex", self.sex, SEXES)
        given = dict(self.measured) if _are_readings(self.measured) else self.measured
        given = mapping("measured", given, "names of measures to metres or kilograms")
        for name in given:
            choice("measure", name, MEASURES)
        expected_measures(self.sex, **given)  # refuses what cannot belong to one person
        object.__setattr__(self, "measured", tuple(_known(self.sex, given).items()))

    def lifters(self, rows=None):
        """The people with the numbers of a slice ``rows``, all without it: a `Lifter` with arrays. [m], mass [kg]"""
        measures = self._rows(rows, lambda page: _people(self.sex, self.measured, self.seed, page))
        return Lifter(self.sex, **dict(zip(MEASURES, measures.T, strict=True)))

    def deviates(self, rows, what):
        """A standard normal number (n,), without unit, for each person of a slice ``rows``; ``what`` (text) it is for."""
        return self._rows(rows, lambda page: _stream(self.seed, page, what).standard_normal((PAGE, 1)))[:, 0]

    def _rows(self, rows, of_page):
        start, stop, step = thing("rows", slice(None) if rows is None else rows, slice, "slice(0, 10)").indices(self.n)
        if step != 1 or stop <= start:
            raise InputError("rows", f"rows = {rows}: give a slice of people that follow each other")
        pages = range(start // PAGE, (stop - 1) // PAGE + 1)
        first = start - pages[0] * PAGE
        return np.concatenate([of_page(page) for page in pages])[first : first + stop - start]


def _are_readings(measured):
    """Whether these are readings as a `Crowd` keeps them."""
    return type(measured) is tuple and all(
        type(one) is tuple and len(one) == 2 and isinstance(one[0], str) for one in measured
    )


def _stream(seed, page, what):
    """Random numbers of one page for one purpose."""
    return np.random.default_rng([seed, page, *what.encode()])


@lru_cache(maxsize=64)
def _people(sex, measured, seed, page):
    """Measures (`PAGE`, measure) of one page, in the order of `MEASURES`. [m], mass [kg]"""
    people, known = survey(sex), dict(measured)
    drawn = np.empty((PAGE, len(people.names)))
    drawn[:, [people.names.index(name) for name in known]] = list(known.values())
    names, mean, covariance = conditional(sex, known)
    if names:
        places = [people.names.index(name) for name in names]
        drawn[:, places] = _inside(people, names, mean, covariance, _stream(seed, page, "measures"))
    drawn = drawn[:, [people.names.index(name) for name in MEASURES]]
    drawn.setflags(write=False)
    return drawn


def _inside(people, names, mean, covariance, random):
    """Rows (`PAGE`, rest) of a normal distribution, none of them outside the allowed ranges. [m], mass [kg]"""
    low, high = (np.array([getattr(people.allowed(name), end) for name in names]) for end in ("low", "high"))
    root, kept = np.linalg.cholesky(covariance), np.empty((0, len(names)))
    for _ in range(ROUNDS):
        rows = mean + random.standard_normal((PAGE, len(names))) @ root.T
        kept = np.vstack([kept, rows[((rows >= low) & (rows <= high)).all(axis=1)]])
        if len(kept) >= PAGE:
            return kept[:PAGE]
    raise InputError("measured", "measured: hardly anybody has these measures together; measure again")


@checked_call
def draw_lifters(n, sex, seed, **measured):
    """Draw lifters from the survey's multivariate normal: a `Lifter` whose fields have shape (n,). [m], mass [kg]

    Parameters
    ----------
    n : int
        How many people, 1 to a million.
    sex : "men" or "women"
    seed : int
        0 or more; the same seed gives the same lifters, and fewer of them are the first of more.
    **measured : float
        Tape readings that all of them share, any fields of `Lifter`; the rest is drawn given these. [m], mass [kg]

    Raises
    ------
    InputError
        Another sex, a count or a seed that is no whole number or outside its range, measures as in `expected_measures`.

    >>> runas = draw_lifters(500, "women", 1, stature=1.68, mass=64.0)
    >>> float(runas.stature.min()), float(runas.stature.max())
    (1.68, 1.68)
    """
    return Crowd(whole("n", n, AT_ONCE), sex, seed, tuple(measured.items())).lifters()
