"""A week of pulls as a small integer programme: how many visits each pull gets, and which wishes clash.

A visit is one pull on one day, always the same number of sets. Wishes are hard: each is linear and
has a name in words. Among the weeks that meet all wishes the programme takes the one that

1. is nearest to the targets (summed distance in half sets),
2. then has the smallest sum of the visits' costs (`Programme.visit_cost`),
3. then uses the earliest rows of the table (smallest sum of row numbers).

What ties even then is left to the solver, which gives the same answer every time. Because a visit always has the same
number of sets, dealing visits out evenly keeps the cap on a session.
"""

from dataclasses import dataclass, replace
from functools import cached_property

import numpy as np

from ..inputs import InputError


@dataclass(frozen=True)
class Wish:
    """One linear wish: ``low`` ≤ visits @ per_visit + used @ per_use ≤ ``high``, row by row.

    Parameters
    ----------
    name : str
        The wish in words, as a clash names it.
    per_visit, per_use : ndarray, shape (pulls,) or (rows, pulls), or 0
        What one visit adds, and what it adds that a pull is in the week at all.
    low, high : float
    firm : bool
        Kept for safety: a clash may name it, but never offers to give it up.
    """

    name: str
    per_visit: object = 0.0
    per_use: object = 0.0
    low: float = -np.inf
    high: float = np.inf
    firm: bool = False

    def rows(self, pulls):
        """Coefficients of visits and of use over so many ``pulls``, each (rows, pulls), in the wish's own unit."""
        count = max(np.atleast_2d(part).shape[0] for part in (self.per_visit, self.per_use))
        return tuple(np.broadcast_to(part, (count, pulls)).astype(float) for part in (self.per_visit, self.per_use))

    def holds(self, visits):
        """Whether a week of ``visits`` (pulls,), whole numbers, meets it."""
        visits = np.asarray(visits, float)
        per_visit, per_use = self.rows(len(visits))
        total = per_visit @ visits + per_use @ (visits > 0)
        return bool(((total >= self.low - 1e-9) & (total <= self.high + 1e-9)).all())


@dataclass(frozen=True)
class Target:
    """A number of weekly sets to come near to: ``per_visit`` (pulls,) and ``sets``, both in sets."""

    name: str
    per_visit: np.ndarray
    sets: float

    def missed(self, visits):
        """Distance of a week of ``visits`` (pulls,) in half sets, a whole number."""
        return abs(round(2 * float(np.dot(self.per_visit, visits))) - round(2 * self.sets))


@dataclass(frozen=True)
class Programme:
    """Candidates' visits, wishes and targets.

    Parameters
    ----------
    most, least : int ndarray, shape (pulls,)
        Visits a week of a pull that is chosen.
    wishes : tuple of Wish
    targets : tuple of Target
        Counts per visit must be whole or half sets.
    visit_cost : int ndarray, shape (pulls,)
        Second criterion, at least 0.
    """

    most: np.ndarray
    least: np.ndarray
    wishes: tuple
    targets: tuple
    visit_cost: np.ndarray

    def __post_init__(self):
        for target in self.targets:
            halves = 2 * np.append(target.per_visit, target.sets)
            if not np.allclose(halves, np.round(halves)):
                raise InputError(
                    "target", f"target {target.name!r} = {target.sets} sets: give whole or half sets, also per visit"
                )

    @property
    def pulls(self):
        """How many candidates there are, a whole number."""
        return len(self.most)

    def cost(self, visits):
        """The three criteria of a week of ``visits`` (pulls,): half sets missed, visit costs, row numbers.

        Smaller is better; tuples compare as the programme does.
        """
        visits = np.asarray(visits, int)
        missed = sum(target.missed(visits) for target in self.targets)
        return missed, int(self.visit_cost @ visits), int(np.arange(1, self.pulls + 1) @ visits)

    def allows(self, visits):
        """Whether a week of ``visits`` (pulls,), whole numbers, meets every wish and the visits' own limits."""
        visits = np.asarray(visits)
        inside = (visits == 0) | ((visits >= self.least) & (visits <= self.most))
        return bool(inside.all()) and all(wish.holds(visits) for wish in self.wishes)

    def solve(self):
        """The best week as visits (pulls,), whole numbers, or None where the wishes cannot hold together."""
        ranks = np.arange(1, self.pulls + 1)
        step = 1 + int(ranks @ self.most)  # more than all row numbers of a week can add up to
        each = step * self.visit_cost + ranks
        half_set = 1 + int(each.max() * self._most_visits())  # more than a week's visits can cost
        return self._milp(np.concatenate([each, np.zeros(self.pulls), np.full(len(self.targets), half_set)]))

    def _most_visits(self):
        """No week has more visits than this; a close bound keeps the solver's weights small."""
        bound = int(self.most.sum())
        for wish in self.wishes:
            per_visit, _ = wish.rows(self.pulls)
            least = per_visit.min(axis=1)
            if np.isfinite(wish.high) and np.ndim(wish.per_use) == 0 and (least > 0).any():
                bound = min(bound, int(wish.high // least.max()))
        return max(bound, 0)

    def feasible(self):
        """Whether any week of whole numbers of visits meets every wish."""
        return self._milp(np.zeros(2 * self.pulls + len(self.targets))) is not None

    def clash(self):
        """A smallest tuple of `Wish` that cannot all be met, by names and rows: each is needed for the clash; empty where a week exists.

        Wishes are left out one by one; one without which it still cannot work is no part of the
        trouble. That is done from the last wish to the first and from the first to the last, and the
        shorter result counts. Each of its parts can be met; yet another set may clash as well.
        """
        if self.feasible():
            return ()
        backward, forward = (self._spared(order) for order in (self.wishes[::-1], self.wishes))
        return min(backward, forward, key=len)

    def _spared(self, order):
        """Wishes that stay when those of ``order`` are left out one by one wherever that changes nothing."""
        kept = self.wishes
        for wish in order:
            fewer = tuple(other for other in kept if other is not wish)
            if not replace(self, wishes=fewer).feasible():
                kept = fewer
        return kept

    def ways_out(self, clash):
        """Those of a ``clash``'s wishes, a tuple of `Wish`, the firm ones apart, whose giving up alone leaves a week that meets all the others."""
        return tuple(
            wish
            for wish in clash
            if not wish.firm
            and replace(self, wishes=tuple(other for other in self.wishes if other is not wish)).feasible()
        )

    def _milp(self, cost):
        """Visits that minimise ``cost`` over (visits, used, missed); None where there are none."""
        from scipy.optimize import Bounds, LinearConstraint, milp  # here: it would double the package's import time

        rows, low, high = self._constraints()
        top = np.concatenate([np.where(self._shut, 0, self.most), ~self._shut, np.full(len(self.targets), np.inf)])
        answer = milp(
            cost,
            integrality=np.arange(len(top)) < 2 * self.pulls,
            bounds=Bounds(np.zeros_like(top), top),
            constraints=LinearConstraint(rows, low, high),
            options={"mip_rel_gap": 0.0},
        )
        return None if answer.x is None else np.round(answer.x[: self.pulls]).astype(int)

    @cached_property
    def _shut(self):
        """Candidates that a wish rules out by itself, (pulls,): the solver need not find that out."""
        shut = np.zeros(self.pulls, bool)
        for wish in self.wishes:
            per_visit, per_use = wish.rows(self.pulls)
            if wish.high == 0 and min(per_visit.min(), per_use.min()) >= 0:
                shut |= ((per_visit > 0) | (per_use > 0)).any(axis=0)
        return shut

    def _constraints(self):
        """Matrix over (visits, used, missed) with the ends of its rows."""
        count, targets = self.pulls, len(self.targets)
        link = [[np.eye(count), -np.diag(end), np.zeros((count, targets))] for end in (self.most, self.least)]
        rows = [np.hstack(part) for part in link]
        low, high = [np.full(count, -np.inf), np.zeros(count)], [np.zeros(count), np.full(count, np.inf)]
        for wish in self.wishes:
            per_visit, per_use = wish.rows(count)
            rows.append(np.hstack([per_visit, per_use, np.zeros((len(per_visit), targets))]))
            low.append(np.full(len(per_visit), wish.low))
            high.append(np.full(len(per_visit), wish.high))
        counts = np.array([2 * target.per_visit for target in self.targets]).reshape(targets, count)
        sets = np.array([2 * target.sets for target in self.targets])
        for sign in (1.0, -1.0):  # missed ≥ ± (count − target), in half sets
            rows.append(np.hstack([sign * counts, np.zeros((targets, count)), -np.eye(targets)]))
            low.append(np.full(targets, -np.inf))
            high.append(sign * sets)
        return np.vstack(rows), np.concatenate(low), np.concatenate(high)


def deal(visits, days):
    """``visits`` (pulls,), whole numbers, spread over so many ``days``: a boolean array (pulls, days).

    A pull goes to its emptiest days; among equally full ones to those farthest from where it already
    is, then to the earliest. So no two days differ by more than one visit.
    """
    placed = np.zeros((len(visits), days), bool)
    for i in np.argsort(-np.asarray(visits), kind="stable"):
        for _ in range(int(visits[i])):
            load, taken = placed.sum(axis=0), np.flatnonzero(placed[i])
            open_days = [day for day in range(days) if not placed[i, day]]
            placed[i, min(open_days, key=lambda day: (load[day], -_gap(day, taken, days), day))] = True
    return placed


def _gap(day, taken, days):
    """Days to the nearest of ``taken``, the week going round."""
    return min((min(abs(day - other), days - abs(day - other)) for other in taken), default=days)
