"""Least effort: activations that supply given torques with the smallest sum of activation to a power.

    min Σ w a^p      subject to  M a = τ,  0 <= a <= 1

    symbol  in code       shape      what it is
    M       columns       (n, k, m)  torque of each muscle at full activation [N m]
    τ       torque        (n, k)     torque to supply [N m]
    a       activation    (n, m)     share of each muscle's capacity
    w       weight        (m,)       what each muscle's term counts
    p       power                    of the sharing rule
    u       multiplier    (n, k)     one for each torque, of the dual
    z       M'u           (n, m)     what a muscle is worth; for p = 2, a = clip(z / 2w, 0, 1)
    s       side          (n, k)     torque asked by 1 N of side force between hand and bar [m]

It is solved on its dual. For p = 2, Newton's method with the dual's piecewise slope finds the u whose activations
balance (semi-smooth Newton). Other powers start from there and end with an interior point, whose unknowns are a, its
distance from 1 (``spare``), and one multiplier for each of these two bounds (``low``, ``high``).
"""

from dataclasses import dataclass

import numpy as np

from ..blocks import in_blocks
from ..inputs import Allowed, checked_call, number
from .largest_load import BLOCK, largest_load
from .products import supplied, valued

EXACT = 1e-10  # balance is reached when what is missing is below this share of the torque asked
MOST_STEPS = 100
GROWTH = 0.7  # an activation grows by no more than this share in one step: far out, the power is no straight line
CLOSE = 1e-6  # the same for other powers than 2; what misses more is not called balanced
POWER = Allowed(
    1.05, 10.0, "", "the power of the sharing rule; 2 is usual, less favours the best lever, more spreads the work"
)


@dataclass(frozen=True)
class LeastEffort:
    """Activations that share a torque, one row a posture.

    ``activation`` (n, m), 0 to 1; ``multiplier`` (n, k), the dual u, where it is not
    balanced the facet's normal; ``side_force`` (n,) of the bar on the hand,
    to the right [N]; ``shortfall`` (n,) the share of the torque that is missing, 0 where it is balanced.
    """

    activation: np.ndarray
    multiplier: np.ndarray
    side_force: np.ndarray
    shortfall: np.ndarray


@checked_call
def least_effort(columns, torque, *, power=2.0, weight=None, side=None, side_limit=np.inf, holdable=None):
    """Activations that supply ``torque`` with the least Σ weight activation^power.

    Parameters
    ----------
    columns : ndarray, shape (n, k, m)
        Torque of each muscle at full activation. [N m]
    torque : ndarray, shape (n, k)
        What has to be supplied. [N m]
    power : float
        1.05 to 10. A large one spreads the work, one near 1 gives it to the best lever.
    weight : ndarray, shape (m,), optional
        What each muscle's term counts; 1 by default. With cross-sections as weights the answer does not depend on
        how many parts a table cuts a muscle into.
    side : ndarray, shape (n, k), optional
        Torque asked by 1 N of side force between hand and bar, which the lifter may choose. [m]
    side_limit : float or ndarray, shape (n,)
        How large that force may get. [N]
    holdable : ndarray of bool, shape (n,), optional
        Where a solution is known to exist, if that is known; saves the search for what is not there.

    Returns
    -------
    LeastEffort

    Notes
    -----
    Where the torque cannot be supplied, the activations are those at the end of the ray from no torque to
    ``torque``, on a facet: some muscles at 1; ``shortfall`` says what is missing. Balance holds to 1e-10 of the
    torque for power 2, to 1e-6 or better for others. A torque so close to the largest that the search does not converge
    (2 of 92,000 random postures of the catalogue for power 2) gets the activations of a facet too: balanced, but not of
    least sum.
    """
    power = number("power", power, POWER)
    columns, torque = np.ascontiguousarray(columns, float), np.ascontiguousarray(torque, float)
    n, k, m = columns.shape
    weight = np.ones(m) if weight is None else np.asarray(weight, float) / np.mean(weight)
    limit = np.broadcast_to(side_limit, n)
    activation, multiplier, solved = np.zeros((n, m)), np.zeros((n, k)), np.zeros(n, bool)
    force, shortfall = np.zeros(n), np.zeros(n)
    rows = np.arange(n) if holdable is None else np.flatnonzero(holdable)
    if len(rows):

        def balanced(here):
            which = rows[here]
            aside = None if side is None else side[which]
            return _balanced(columns[which], torque[which], aside, limit[which], power, weight)

        answers = in_blocks(balanced, len(rows), BLOCK)
        activation[rows], multiplier[rows], solved[rows], force[rows] = answers
    rows = np.flatnonzero(~solved)
    if len(rows):
        bound = None if side is None or np.isinf(limit[rows]).all() else limit[rows, None]
        none, aside = np.zeros((len(rows), k)), None if side is None else side[rows]
        most = largest_load(columns[rows], none, torque[rows], side=aside, side_limit=bound, most=1.0)
        activation[rows], multiplier[rows], force[rows] = most.activation, most.normal, most.side_force
        shortfall[rows] = np.where(most.load < 1.0 - EXACT, 1.0 - most.load, 0.0)
    return LeastEffort(activation, multiplier, force, shortfall)


def _balanced(columns, torque, side, limit, power, weight):
    """Activation, multiplier, whether it balances, and side force of one block.

    A free side force takes one torque out of the balance; where it exceeds its limit, it is held there. The least sum
    is a convex function of the side force, so the best allowed one is the free one, clipped.
    """
    if side is None:
        return *_without_side(columns, torque, power, weight), np.zeros(len(torque))
    across = _complement(side)
    activation, free, solved = _without_side(across @ columns, supplied(across, torque), power, weight)
    surplus = supplied(columns, activation) - torque
    force = np.vecdot(surplus, side) / np.maximum(np.vecdot(side, side), 1e-30)
    multiplier = valued(free, across)
    over = np.flatnonzero(np.abs(force) > limit)
    if len(over):
        force[over] = np.clip(force[over], -limit[over], limit[over])
        asked = torque[over] + force[over, None] * side[over]
        activation[over], multiplier[over], solved[over] = _without_side(columns[over], asked, power, weight)
    return activation, multiplier, solved, force


def _complement(v):
    """Orthonormal rows (n, k - 1, k) across the vectors ``v`` (n, k): a reflection that takes v to an axis, less that axis."""
    k = v.shape[1]
    size = np.linalg.norm(v, axis=1)
    mirror = v / np.where(size > 0, size, 1.0)[:, None]
    mirror[:, 0] += np.where(mirror[:, 0] < 0, -1.0, 1.0)
    mirror /= np.linalg.norm(mirror, axis=1)[:, None]
    return (np.eye(k) - 2 * mirror[:, :, None] * mirror[:, None, :])[:, 1:]


def _without_side(columns, torque, power, weight):
    """Activation, multiplier and whether it balances, of one block without a side force."""
    activation, multiplier, solved = _newton(columns, torque, weight)
    if power != 2:
        rows = np.flatnonzero(solved & activation.any(axis=1))
        answers = _interior(columns[rows], torque[rows], power, weight, activation[rows])
        activation[rows], multiplier[rows], solved[rows] = answers
    return activation, multiplier, solved


# ---------------------------------------------------------------- power 2: Newton on the dual


def _newton(columns, torque, weight):
    """Semi-smooth Newton with step halving; also which postures it balanced."""
    n, k, m = columns.shape
    activation, multiplier, solved = np.zeros((n, m)), np.zeros((n, k)), np.zeros(n, bool)
    size = np.abs(torque).max(axis=1) + 1e-9
    every = columns.reshape(n, -1)
    slight = 1e-9 * np.vecdot(every, every)[:, None, None] * np.eye(k)
    u = 2 * np.linalg.solve((columns / weight) @ columns.swapaxes(1, 2) + slight, torque[..., None])[..., 0]
    todo, M, t = np.arange(n), columns, torque
    z = valued(u, M)
    a, value = _dual(z, u, t, weight)
    for _ in range(MOST_STEPS):
        missing = t - supplied(M, a)
        done = np.abs(missing).max(axis=1) <= EXACT * size[todo]
        if done.any():
            ended = todo[done]
            activation[ended], multiplier[ended], solved[ended] = a[done], u[done], True
            todo, M, t, u, z, a, value, missing = (x[~done] for x in (todo, M, t, u, z, a, value, missing))
        if not len(todo):
            break
        slope = (M * np.where((z > 0) & (z < 2 * weight), 0.5 / weight, 0.0)[:, None, :]) @ M.swapaxes(1, 2)
        ridge = 1e-9 * np.trace(slope, axis1=1, axis2=2)[:, None, None] * np.eye(k) + 1e-6 * slight[todo]
        move = np.linalg.solve(slope + ridge, missing[..., None])[..., 0]
        u, z, a, value = _stepped(u, z, value, move, valued(move, M), missing, t, weight)
    return activation, multiplier, solved


def _stepped(u, z, value, move, turn, missing, torque, weight):
    """``u`` moved and ``z`` turned by as much of the Newton step as raises the dual's value; and what follows from it."""
    rise = np.vecdot(move, missing)
    length = np.ones((len(u), 1))
    for _ in range(40):
        new_u, new_z = u + length * move, z + length * turn
        new_a, new_value = _dual(new_z, new_u, torque, weight)
        poor = new_value < value + 1e-4 * length[:, 0] * rise - 1e-12 * np.abs(value)
        if not poor.any():
            break
        length[poor] *= 0.4
    return new_u, new_z, new_a, new_value


def _dual(z, u, torque, weight):
    """Activations for z = M'u, and the dual's value there, power 2."""
    a = np.clip(0.5 * z / weight, 0.0, 1.0)
    return a, np.vecdot(u, torque) - np.vecdot(z - weight * a, a)


# ---------------------------------------------------------------- other powers: an interior point


def _interior(columns, torque, power, weight, start):
    """A primal-dual interior point, in activations counted in the largest of ``start`` (that of power 2).

    Also which postures it balanced.
    """
    unit = start.max(axis=1)[:, None]
    M, t = columns * unit[:, None, :], torque
    n, k, m = M.shape
    activation, multiplier, todo = np.empty((n, m)), np.empty((n, k)), np.arange(n)
    good = np.empty(n, bool)
    a = np.clip(start / unit, 0.1, 0.9)
    spare, low, high, u = 1.0 / unit - a, np.full((n, m), 1.0), np.full((n, m), 1.0), np.zeros((n, k))
    for left in reversed(range(MOST_STEPS)):
        steep = weight * power * a ** (power - 1)
        missing = t - supplied(M, a)
        off = steep - valued(u, M) - low + high
        gap = (a * low + spare * high).mean(axis=1, keepdims=True) / 2
        worst = np.abs(missing).max(axis=1) / np.abs(t).max(axis=1), np.abs(off).max(axis=1), 1e6 * gap[:, 0]
        done = (np.max(worst, axis=0) < EXACT) | (left == 0)
        if done.any():
            ended, keep = todo[done], ~done
            activation[ended], multiplier[ended] = np.where(a < low, 0.0, a)[done], u[done]
            good[ended] = worst[0][done] < CLOSE
            todo, M, t, a, spare, low, high, u = (x[keep] for x in (todo, M, t, a, spare, low, high, u))
            steep, missing, off, gap = (x[keep] for x in (steep, missing, off, gap))
        if not len(todo):
            break
        bend = (power - 1) * steep / a + low / a + high / spare
        a, spare, low, high, u = _inner_step(M, (a, spare, low, high, u), bend, missing, off, gap)
    return np.minimum(activation * unit, 1.0), multiplier * unit**power, good


def _inner_step(M, state, bend, missing, off, gap):
    """The unknowns (a, spare, low, high, u) after one step: first straight for the solution, then with what that shows."""
    a, spare, low, high, u = state
    table = (M / bend[:, None, :]) @ M.swapaxes(1, 2)
    table += 1e-15 * np.trace(table, axis1=1, axis2=2)[:, None, None] * np.eye(M.shape[1])
    for_low, for_high = -a * low, -spare * high
    for corrected in (False, True):
        pull = -off + for_low / a - for_high / spare
        right = missing - supplied(M, pull / bend)
        du = np.linalg.solve(table, right[..., None])[..., 0]
        da = (pull + valued(du, M)) / bend
        dlow, dhigh = (for_low - low * da) / a, (for_high + high * da) / spare
        step = np.minimum.reduce([_room(a, da), _room(spare, -da), _room(low, dlow), _room(high, dhigh)])
        if not corrected:
            after = (a + step * da) * (low + step * dlow) + (spare - step * da) * (high + step * dhigh)
            target = gap * (after.mean(axis=1, keepdims=True) / (2 * gap)) ** 3
            for_low, for_high = target - a * low - da * dlow, target - spare * high + da * dhigh
    step = np.minimum(0.995 * step, GROWTH / np.maximum((da / a).max(axis=1, keepdims=True), GROWTH))
    return a + step * da, spare - step * da, low + step * dlow, high + step * dhigh, u + step * du


def _room(value, change):
    """How many steps fit before a value turns negative, (n, 1), at most 1."""
    falls = np.where(change < 0, -change / value, 0.0).max(axis=1, keepdims=True)
    return 1.0 / np.maximum(falls, 1.0)
