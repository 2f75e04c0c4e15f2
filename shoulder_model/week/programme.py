"""A week of pulls as a small integer programme: the nearest week to a list of wishes.

It chooses for each pull how many visits and how many sets it gets, and on how many days there are pulls. Facts are kept,
always. Wishes may be missed; each has a weight. Among the weeks that keep the facts the programme takes the one that

1. misses least: smallest sum of weight × shortfall,
2. then is nearest to the wanted sets (summed distance, in half sets),
3. then has the smallest cost of its visits,
4. then uses the earliest rows of the table (smallest sum of row number × visits).

What ties even then is left to the solver, which gives the same answer every time.

Two solves do it: the first two criteria in one, each step of the first worth more than all of the second, and the other two
likewise, with what the first solve found kept. Distances are whole half sets, which lets the solver round.
"""

from dataclasses import dataclass
from itertools import pairwise

import numpy as np

from ..inputs import InputError

EXACT = 1e-6  # what the solver's answer may be off a whole number, in sets, and more than that in no wish


@dataclass(frozen=True)
class Line:
    """One linear line: ``low`` ≤ sets @ per_set + visits @ per_visit + used @ per_use + days × per_day ≤ ``high``.

    Parameters
    ----------
    name : str
        In words; lines of one wish share its name.
    per_set, per_visit, per_use : ndarray, shape (pulls,) or (rows, pulls), or 0
        What one set, one visit, and being in the week at all adds.
    per_day : float
        What a day with pulls adds.
    low, high : float
    weight : float
        Of one step short of it or over it; infinite for a fact.
    """

    name: str
    per_set: object = 0.0
    per_visit: object = 0.0
    per_use: object = 0.0
    per_day: float = 0.0
    low: float = -np.inf
    high: float = np.inf
    weight: float = np.inf

    def rows(self, pulls):
        """Coefficients over (sets, visits, used, days) of so many ``pulls``: an array (rows, 3 pulls + 1) of numbers."""
        parts = [np.atleast_2d(np.asarray(part, float)) for part in (self.per_set, self.per_visit, self.per_use)]
        count = max(part.shape[0] for part in parts)
        wide = [np.broadcast_to(part, (count, pulls)) for part in parts]
        return np.hstack([*wide, np.full((count, 1), float(self.per_day))])

    def short(self, week):
        """How far a ``week`` (`Week`) is outside, summed over the rows, in the line's own unit."""
        value = self.rows(len(week.sets)) @ week.numbers
        return float(np.maximum(self.low - value, 0.0).sum() + np.maximum(value - self.high, 0.0).sum())


@dataclass(frozen=True)
class Target:
    """A number of weekly sets to come near to: ``per_set`` (pulls,), what a set counts, and ``sets``; whole or half ones."""

    name: str
    per_set: np.ndarray
    sets: float

    def missed(self, week):
        """Distance of a ``week`` (`Week`) in half sets, a whole number."""
        return abs(round(2 * float(np.dot(self.per_set, week.sets))) - round(2 * self.sets))


@dataclass(frozen=True)
class Week:
    """An answer: ``sets`` and ``visits`` of each pull, whole numbers (pulls,), and on how many ``days`` there are pulls."""

    sets: np.ndarray
    visits: np.ndarray
    days: int

    @property
    def numbers(self):
        """Sets, visits, which pulls are used, days: one array (3 pulls + 1,) of whole numbers."""
        return np.concatenate([self.sets, self.visits, np.asarray(self.visits) > 0, [self.days]]).astype(float)


@dataclass(frozen=True)
class Programme:
    """Pulls with their limits, the lines that a week keeps or is wished to keep, and what decides among equals.

    Parameters
    ----------
    visit_sets : (int, int)
        Fewest and most sets of one pull on one day.
    pull_sets : int
        Most weekly sets of one pull.
    days : int
        Most days with pulls.
    session_sets : int
        Most sets on one day.
    lines : tuple of Line
        Facts and wishes.
    targets : tuple of Target
    visit_cost : int ndarray, shape (pulls,)
        Of each visit, at least 0.
    repeat_cost : int
        Of a pull's second visit, and twice that of each after it.

    Raises
    ------
    InputError
        A target that is not in whole or half sets.
    """

    visit_sets: tuple
    pull_sets: int
    days: int
    session_sets: int
    lines: tuple
    targets: tuple
    visit_cost: np.ndarray
    repeat_cost: int = 0

    def __post_init__(self):
        for target in self.targets:
            halves = 2 * np.append(target.per_set, target.sets)
            if not np.allclose(halves, np.round(halves)):
                raise InputError("target", f"target {target.name!r}: give whole or half sets, and sets that count so")

    @property
    def pulls(self):
        """How many pulls there are to choose from, a whole number."""
        return len(self.visit_cost)

    @property
    def wishes(self):
        """The lines that may be missed, as a tuple."""
        return tuple(line for line in self.lines if np.isfinite(line.weight))

    def cost(self, week):
        """The four criteria of a ``week`` (`Week`), numbers, smaller is better: weighted shortfall, half sets missed, cost, row numbers."""
        repeats = sum(np.maximum(week.visits - count, 0).sum() for count in (1, 2))
        return (
            round(sum(line.weight * line.short(week) for line in self.wishes), 6),
            sum(target.missed(week) for target in self.targets),
            int(self.visit_cost @ week.visits + self.repeat_cost * repeats),
            int(np.arange(1, self.pulls + 1) @ week.visits),
        )

    def allows(self, week):
        """Whether a ``week`` (`Week`) keeps every fact and the limits of visits, sets and days."""
        sets, visits = np.asarray(week.sets), np.asarray(week.visits)
        few, many = self.visit_sets
        inside = (sets >= few * visits) & (sets <= np.minimum(many * visits, self.pull_sets)) & (visits <= week.days)
        daily = week.days <= visits.sum() and sets.sum() <= self.session_sets * week.days
        facts = (line for line in self.lines if not np.isfinite(line.weight))
        return bool(inside.all() and daily and 1 <= week.days <= self.days) and all(
            line.short(week) < EXACT for line in facts
        )

    def nearest(self):
        """A `Week`, in sets, that is best by the first two criteria, or None where the facts leave none."""
        return _Search(self).nearest()

    def solve(self):
        """The best `Week`, in sets, by all four, or None where the facts leave none."""
        search = _Search(self)
        return None if search.nearest() is None else search.best()

    def shortfalls(self, week):
        """What a ``week`` (`Week`) is short of, wish by wish: dict of name -> amount in the wish's own unit, only what is missed."""
        short = {}
        for line in self.wishes:
            short[line.name] = short.get(line.name, 0.0) + line.short(week)
        return {name: round(amount, 6) for name, amount in short.items() if amount > EXACT}


class _Search:
    """The programme over (sets, visits, used, days, visits after the second, shortfall and excess of wishes, half sets missed)."""

    def __init__(self, programme):
        p = self.programme = programme
        self.soft = [(line, line.rows(p.pulls)) for line in p.wishes]
        slack = sum(2 * len(rows) for _, rows in self.soft)
        ends = np.cumsum([0, p.pulls, p.pulls, p.pulls, 1, p.pulls, slack, len(p.targets)])
        places = [slice(start, end) for start, end in pairwise(ends)]
        self.sets, self.visits, self.used, self.days, self.later, self.slack, self.missed = places
        self.width, self.whole = int(ends[-1]), int(ends[4])
        self.rows, self.low, self.high = [], [], []
        self._keep_limits()
        for line in p.lines:
            if not np.isfinite(line.weight):
                self._keep(self._wide(line.rows(p.pulls)), line.low, line.high)
        self._keep_soft()
        self._keep_targets()

    def _wide(self, rows):
        """Rows over (sets, visits, used, days), with zeros for all other variables."""
        rows = np.atleast_2d(rows)
        return np.hstack([rows, np.zeros((len(rows), self.width - rows.shape[1]))])

    def _row(self, **parts):
        """One row with a number, or an array, for some of the variables, by name."""
        row = np.zeros((1, self.width))
        for name, values in parts.items():
            row[0, getattr(self, name)] = values
        return row

    def _each(self, **parts):
        """A row for each pull with a number for its own variable in each part, by name."""
        count = self.programme.pulls
        rows = np.zeros((count, self.width))
        for name, number in parts.items():
            place = getattr(self, name)
            rows[:, place] = number * np.eye(count) if name != "days" else number
        return rows

    def _keep(self, rows, low, high):
        self.rows.append(rows)
        self.low.append(np.full(len(rows), low, float))
        self.high.append(np.full(len(rows), high, float))

    def _keep_limits(self):
        """Sets within their visits; visits within the days, and only of pulls that are used; sets within the sessions."""
        p, free = self.programme, np.inf
        few, many = p.visit_sets
        self._keep(self._each(sets=1, visits=-few), 0, free)
        self._keep(self._each(sets=1, visits=-many), -free, 0)
        self._keep(self._each(visits=1, days=-1), -free, 0)
        self._keep(self._each(visits=1, used=-p.days), -free, 0)
        self._keep(self._each(visits=1, used=-1), 0, free)
        self._keep(self._each(later=1, visits=-1), -2, free)
        self._keep(self._row(visits=1, days=-1), 0, free)
        self._keep(self._row(sets=1, days=-p.session_sets), -free, 0)

    def _keep_soft(self):
        """A wish's row, plus what is missing, less what is too much, lies between its ends."""
        place = self.slack.start
        for line, rows in self.soft:
            for row in rows:
                wide = self._wide(row)
                wide[0, place : place + 2] = 1, -1
                self._keep(wide, line.low, line.high)
                place += 2

    def _keep_targets(self):
        """Half sets missed ≥ ± (counted − target)."""
        for place, target in enumerate(self.programme.targets, self.missed.start):
            for sign in (1, -1):
                row = self._row(sets=2 * sign * np.asarray(target.per_set))
                row[0, place] = -1
                self._keep(row, -np.inf, 2 * sign * target.sets)

    def nearest(self):
        """The best `Week` by shortfall, then half sets missed, both kept from now on; None where there is none."""
        p = self.programme
        weights = [line.weight for line, rows in self.soft for _ in range(2 * len(rows))]
        short, missed = self._row(slack=weights)[0], self._row(missed=1)[0]
        most = p.session_sets * p.days  # sets of a week, so no group counts more
        outweighs = 1 + 2 * sum(max(most, target.sets) for target in p.targets)
        steps = 0.5 * min(weights, default=1.0)  # half a set short is the smallest step
        week = self._least(short * outweighs / steps + missed)
        if week is not None:
            for row, value, step in zip((short, missed), p.cost(week), (steps, 1), strict=False):
                self._keep(row[None], -np.inf, value + step / 4)  # no next step fits into that
        return week

    def best(self):
        """The best `Week` by cost, then row numbers, among those that `nearest` has left."""
        p = self.programme
        ranks = np.arange(1, p.pulls + 1)
        outweighs = 1 + int(ranks.sum()) * p.days  # more than all row numbers can add up to
        cost = self._row(visits=p.visit_cost + p.repeat_cost, used=-p.repeat_cost, later=p.repeat_cost)
        return self._least((outweighs * cost + self._row(visits=ranks))[0])

    def _least(self, cost):
        """The `Week` that minimises ``cost`` (width,), or None."""
        from scipy.optimize import Bounds, LinearConstraint, milp  # here: it would double the package's import time

        p = self.programme
        if not p.pulls:
            return None
        top, bottom = np.full(self.width, np.inf), np.zeros(self.width)
        for place, most in ((self.sets, p.pull_sets), (self.visits, p.days), (self.used, 1), (self.days, p.days)):
            top[place] = most
        bottom[self.days] = 1
        integral = np.ones(self.width)
        integral[self.later.start : self.slack.stop] = 0
        answer = milp(
            cost,
            integrality=integral,
            bounds=Bounds(bottom, top),
            constraints=LinearConstraint(np.vstack(self.rows), np.concatenate(self.low), np.concatenate(self.high)),
            options={"mip_rel_gap": 0.0},
        )
        if answer.x is None:
            return None
        found = np.round(answer.x).astype(int)
        return Week(found[self.sets], found[self.visits], int(found[self.days][0]))
