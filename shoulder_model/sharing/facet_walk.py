"""Linear programmes with boxed variables, thousands at once: a walk from facet to facet.

    max worth·x   subject to   table x = target,   0 <= x <= room

A basis of k columns is a facet's corner in the zonotope of the table's columns; the dual simplex method
changes one column of it at a time until every variable fits its box. Small tables of many postures are
walked together, in numpy; those that arrive leave the block. Listing the facets, one for every k - 1 muscles, gives the
same and is the check in the tests; with shoulder, elbow and girdle in one balance there are up to six torques and 26
muscles, 65,780 candidate facets a posture, and the walk needs about eight steps. Where ties send a walk in a circle (one of
18,000 tables tried), scipy's HiGHS solves that one.

    in code   shape      what it is
    table     (n, k, m)  columns of the programmes, in the unit of the target
    target    (n, k)     right-hand side
    worth     (m,)       of one unit of each variable
    room      (m,)       upper bound of each variable; the lower one is 0
    basis     (n, k)     which variables are inside, one for each row
    price     (n, m)     what a unit more of a variable outside would cost
    u         (n, k)     the dual, minus what a unit more of the target is worth
"""

import numpy as np

from .products import supplied

MOST_STEPS = 100  # a walk usually needs about eight


def boxed_programme(table, target, worth, room):
    """max worth·x subject to table x = target, 0 <= x <= room, for many small tables at once; units as they go in.

    Parameters
    ----------
    table : ndarray, shape (n, k, m)
    target : ndarray, shape (n, k)
    worth, room : ndarray, shape (m,)

    Returns
    -------
    x : ndarray, shape (n, m)
    u : ndarray, shape (n, k)
        The dual: minus what a unit more of target is worth.
    feasible : ndarray of bool, shape (n,)
        False where no x fits.

    Notes
    -----
    Dual simplex with long steps. Every variable is boxed, so any basis, with each other variable at the bound
    that its price prefers, is a dual solution; the walk starts from artificial variables that must end at 0.
    A walk that does not end is left to scipy's HiGHS.
    """
    n, k, m = table.shape
    walk = _Walk(table, target, worth, room)
    while len(walk.todo) and walk.steps < MOST_STEPS:
        walk.step()
    wide = np.concatenate([table, np.tile(np.eye(k), (n, 1, 1))], axis=2)
    x = np.zeros((n, m + k))
    x[:, :m] = np.where(walk.upper, room, 0.0)
    np.put_along_axis(x, walk.basis, 0.0, axis=1)
    square = np.take_along_axis(wide, walk.basis[:, None, :], axis=2)
    rest = target - supplied(wide, x)
    np.put_along_axis(x, walk.basis, np.linalg.solve(square, rest[..., None])[..., 0], axis=1)
    price = np.r_[worth, np.zeros(k)][walk.basis]
    u = -np.linalg.solve(square.swapaxes(1, 2), price[..., None])[..., 0]
    x = np.clip(x[:, :m], 0.0, room)
    for i in walk.todo:
        x[i], u[i], walk.feasible[i] = _one_by_one(table[i], target[i], worth, room)
    return x, u, walk.feasible


def _one_by_one(table, target, worth, room):
    """The same of one programme whose walk went in a circle (ties between facets), by HiGHS."""
    from scipy.optimize import linprog  # here: it is rarely needed, and slow to import

    answer = linprog(-worth, A_eq=table, b_eq=target, bounds=np.column_stack([0 * room, room]), method="highs")
    if answer.x is None:
        return np.zeros(len(worth)), np.zeros(len(target)), False
    return answer.x, answer.eqlin.marginals, True


class _Walk:
    """A block of programmes on their way from basis to basis; those that end leave the tables.

    Variables from m on are the artificial ones, one a row; they never come back, so their columns are not kept.
    """

    TINY = 1e-11

    def __init__(self, table, target, worth, room):
        n, k, m = table.shape
        self.room, self.room_inside = room, np.r_[room, np.zeros(k)]
        self.steps, self.todo = 0, np.arange(n)
        self.basis = np.tile(np.arange(m, m + k), (n, 1))  # of all programmes, filled as they end
        self.upper, self.feasible = np.zeros((n, m), bool), np.zeros(n, bool)
        self.size = 1.0 + np.abs(target).max(axis=1)
        self.table = np.concatenate([table, target[..., None]], axis=2)
        self.price = np.tile(-np.asarray(worth, float), (n, 1))
        self.at_upper = self.price < 0
        self.inside = self.basis.copy()
        self.outside = np.ones((n, m), bool)

    def _end(self, ended, feasible, *more):
        """Store the programmes that ended and drop them, from ``more`` arrays too."""
        which, stay = self.todo[ended], ~ended
        self.basis[which], self.upper[which], self.feasible[which] = self.inside[ended], self.at_upper[ended], feasible
        for name in ("todo", "size", "table", "price", "at_upper", "inside", "outside"):
            setattr(self, name, getattr(self, name)[stay])
        return [x[stay] for x in more]

    def step(self):
        """One change of basis in every programme that is still on its way."""
        self.steps += 1
        held = np.where(self.outside & self.at_upper, self.room, 0.0)
        value = self.table[:, :, -1] - supplied(self.table[:, :, :-1], held)
        wrong = np.maximum(-value, value - self.room_inside[self.inside])
        row = wrong.argmax(axis=1)
        here = np.arange(len(row))
        by, rises = wrong[here, row], value[here, row] < 0
        fits = by <= 1e-11 * self.size
        if fits.any():
            row, by, rises = self._end(fits, True, row, by, rises)
        enter, passed, stuck = self._entering(row, by, rises)
        if stuck.any():
            row, rises, enter, passed = self._end(stuck, False, row, rises, enter, passed)
        self.at_upper ^= passed
        self._swap(row, enter, rises)

    def _entering(self, row, by, rises):
        """Which variable enters, which are passed and change their bound, and where none can."""
        here = np.arange(len(row))
        line = np.where(rises, -1.0, 1.0)[:, None] * self.table[here, row, :-1]
        can = self.outside & (self.room > 0) & np.where(self.at_upper, line < -self.TINY, line > self.TINY)
        size = np.where(can, np.abs(line), 1.0)
        order = np.where(can, np.abs(self.price) / size, np.inf).argsort(axis=1)
        way = np.cumsum(np.take_along_axis(np.where(can, size * self.room, 0.0), order, axis=1), axis=1)
        enough = way >= by[:, None] * (1 - 1e-12)
        last = enough.argmax(axis=1)
        passed = np.zeros(can.shape, bool)
        np.put_along_axis(passed, order, np.arange(order.shape[1]) < last[:, None], axis=1)
        return order[here, last], passed, ~enough[:, -1]

    def _swap(self, row, enter, rises):
        """Pivot: ``enter`` takes the place of the variable in ``row``."""
        here, leave = np.arange(len(row)), self.inside[np.arange(len(row)), row]
        real = np.flatnonzero(leave < len(self.room))
        self.outside[real, leave[real]], self.at_upper[real, leave[real]] = True, ~rises[real]
        self.outside[here, enter] = False
        self.inside[here, row] = enter
        pivot = self.table[here, row] / self.table[here, row, enter][:, None]
        self.price -= self.price[here, enter][:, None] * pivot[:, :-1]
        self.table -= self.table[here, :, enter][:, :, None] * pivot[:, None, :]
        self.table[here, row] = pivot
