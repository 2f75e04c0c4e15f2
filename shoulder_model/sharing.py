"""Who does the work: sharing a load among muscles, and the largest load they can hold.

Columns M (k torques, m muscles) are what each muscle supplies at full activation. Two questions, each for
thousands of postures at once:

    sharing        min Σ a^p      subject to  M a = τ,          0 <= a <= 1     (or Σ weight a^p)
    largest load   max λ          subject to  M a = τ0 + λ τ1,  0 <= a <= 1

Sharing is solved on its dual, one multiplier u per torque: for p = 2, a = clip(M'u / 2, 0, 1), and Newton's
method with its piecewise slope finds the u whose activations balance (semi-smooth Newton). Other powers start
from there and end with an interior point.

All torques that M can make form a zonotope. The largest load is where the load's ray leaves it: a linear
programme whose dual u is the normal of the facet it leaves through. The dual simplex method walks from
facet to facet; it ends exactly, up to rounding. Muscles with M'u > 0 are then fully active, and each adds
M'u to the load (u scaled to u·τ1 = 1): those are the muscles that give out.
"""

from dataclasses import dataclass

import numpy as np

from .facet_walk import boxed_programme
from .inputs import Allowed, number

BLOCK = 1024  # postures worked on at once: their tables stay in cache
EXACT = 1e-10  # balance is reached when what is missing is below this share of the torque asked
MOST_STEPS = 100
FAR = 1e6  # N; a free side force lies between -FAR and FAR
GROWTH = 0.7  # an activation grows by no more than this share in one step: far out, the power is no straight line
CLOSE = 1e-6  # the same for other powers than 2; what misses more is not called balanced
POWER = Allowed(
    1.05, 10.0, "", "the power of the sharing rule; 2 is usual, less favours the best lever, more spreads the work"
)


@dataclass(frozen=True)
class Shared:
    """Activations that share a torque, one row a posture.

    ``activation`` (n, m), 0 to 1; ``multiplier`` (n, k), the dual u; ``side_force`` (n,) of the bar on the hand,
    to the right [N]; ``shortfall`` (n,) the share of the torque that is missing, 0 where it is balanced.
    """

    activation: np.ndarray
    multiplier: np.ndarray
    side_force: np.ndarray
    shortfall: np.ndarray


@dataclass(frozen=True)
class Largest:
    """The largest load, one row a posture.

    ``load`` (n,), NaN where not even the arm can be held at any load; ``activation`` (n, m) there; ``normal``
    (n, k) of the facet, scaled so that its product with one unit of load is 1, with the side force that goes
    with it (the load's change per newton metre more); ``adds`` (n, m), what each fully active muscle adds to the
    load; ``side_force`` (n,) there [N].
    """

    load: np.ndarray
    activation: np.ndarray
    normal: np.ndarray
    adds: np.ndarray
    side_force: np.ndarray


# ---------------------------------------------------------------- sharing


def share(columns, torque, p=2.0, weight=None, side=None, side_limit=np.inf, holdable=None):
    """Activations that supply ``torque`` with the least Σ activation^p.

    Parameters
    ----------
    columns : ndarray, shape (n, k, m)
        Torque of each muscle at full activation. [N m]
    torque : ndarray, shape (n, k)
        What has to be supplied. [N m]
    p : float
        1.05 to 10. Large p spreads the work, p near 1 gives it to the best lever.
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
    Shared

    Notes
    -----
    Where the torque cannot be supplied, the activations are those at the end of the ray from no torque to
    ``torque``, on a facet: some muscles at 1; ``shortfall`` says what is missing. Balance holds to 1e-10 of the
    torque for p = 2, to 1e-6 or better for others. A torque so close to the largest that the search does not end
    (2 of 92,000 random postures of the catalogue for p = 2) gets a facet's activations too: balanced, not the least
    sum.
    """
    p = number("p", p, POWER)
    columns, torque = np.asarray(columns, float), np.asarray(torque, float)
    n, k, m = columns.shape
    weight = np.ones(m) if weight is None else np.asarray(weight, float) / np.mean(weight)
    limit = np.broadcast_to(side_limit, n)
    activation, multiplier, solved = np.zeros((n, m)), np.zeros((n, k)), np.zeros(n, bool)
    force, shortfall = np.zeros(n), np.zeros(n)
    for at in _blocks(np.arange(n) if holdable is None else np.flatnonzero(holdable)):
        if side is None:
            activation[at], multiplier[at], solved[at] = _shared(columns[at], torque[at], p, weight)
        else:
            found = _shared_with_side(columns[at], torque[at], p, weight, side[at], limit[at])
            activation[at], multiplier[at], solved[at], force[at] = found
    for at in _blocks(np.flatnonzero(~solved)):
        part = None if side is None else side[at]
        bound = None if side is None or np.isinf(limit[at]).all() else limit[at, None]
        reached = largest_load(columns[at], np.zeros((len(at), k)), torque[at], part, bound, most=1.0)
        activation[at], multiplier[at], force[at] = reached.activation, reached.normal, reached.side_force
        shortfall[at] = np.where(reached.load < 1.0 - EXACT, 1.0 - reached.load, 0.0)
    return Shared(activation, multiplier, force, shortfall)


def _shared(columns, torque, p, weight):
    """Activation, multiplier and whether it balances, of one block."""
    activation, multiplier, solved = _newton(columns, torque, weight)
    if p != 2:
        at = np.flatnonzero(solved & activation.any(axis=1))
        activation[at], multiplier[at], solved[at] = _interior(columns[at], torque[at], p, weight, activation[at])
    return activation, multiplier, solved


def _shared_with_side(columns, torque, p, weight, side, limit):
    """A free side force takes one torque out of the balance; where it exceeds its limit, it is held there.

    The least Σ a^p is a convex function of the side force, so the best allowed one is the free one, clipped.
    """
    across = _complement(side)
    activation, free, solved = _shared(across @ columns, np.einsum("nij,nj->ni", across, torque), p, weight)
    supplied = np.einsum("nkm,nm->nk", columns, activation)
    force = np.einsum("nk,nk->n", supplied - torque, side) / np.maximum(np.einsum("nk,nk->n", side, side), 1e-30)
    multiplier = np.einsum("nij,ni->nj", across, free)
    over = np.flatnonzero(np.abs(force) > limit)
    if len(over):
        force[over] = np.clip(force[over], -limit[over], limit[over])
        asked = torque[over] + force[over, None] * side[over]
        activation[over], multiplier[over], solved[over] = _shared(columns[over], asked, p, weight)
    return activation, multiplier, solved, force


def _complement(v):
    """Orthonormal rows (n, k - 1, k) across the vectors ``v`` (n, k): a reflection that takes v to an axis, less that axis."""
    k = v.shape[1]
    size = np.linalg.norm(v, axis=1)
    mirror = v / np.where(size > 0, size, 1.0)[:, None]
    mirror[:, 0] += np.where(mirror[:, 0] < 0, -1.0, 1.0)
    mirror /= np.linalg.norm(mirror, axis=1)[:, None]
    return (np.eye(k) - 2 * mirror[:, :, None] * mirror[:, None, :])[:, 1:]


def _newton(columns, torque, weight):
    """p = 2: semi-smooth Newton on the dual, with step halving; also which postures it balanced."""
    n, k, m = columns.shape
    activation, multiplier, solved = np.zeros((n, m)), np.zeros((n, k)), np.zeros(n, bool)
    size = np.abs(torque).max(axis=1) + 1e-9
    slight = 1e-9 * np.einsum("nkm,nkm->n", columns, columns)[:, None, None] * np.eye(k)
    u = 2 * np.linalg.solve((columns / weight) @ columns.swapaxes(1, 2) + slight, torque[..., None])[..., 0]
    todo, M, t = np.arange(n), columns, torque
    z = _times(u, M)
    a, value = _dual(z, u, t, weight)
    for _ in range(MOST_STEPS):
        missing = t - np.einsum("nkm,nm->nk", M, a)
        done = np.abs(missing).max(axis=1) <= EXACT * size[todo]
        if done.any():
            at = todo[done]
            activation[at], multiplier[at], solved[at] = a[done], u[done], True
            todo, M, t, u, z, a, value, missing = (x[~done] for x in (todo, M, t, u, z, a, value, missing))
        if not len(todo):
            break
        slope = (M * np.where((z > 0) & (z < 2 * weight), 0.5 / weight, 0.0)[:, None, :]) @ M.swapaxes(1, 2)
        ridge = 1e-9 * np.trace(slope, axis1=1, axis2=2)[:, None, None] * np.eye(k) + 1e-6 * slight[todo]
        move = np.linalg.solve(slope + ridge, missing[..., None])[..., 0]
        rise, turn = np.einsum("nk,nk->n", move, missing), _times(move, M)
        length = np.ones((len(todo), 1))
        for _ in range(40):
            new_u, new_z = u + length * move, z + length * turn
            new_a, new_value = _dual(new_z, new_u, t, weight)
            poor = new_value < value + 1e-4 * length[:, 0] * rise - 1e-12 * np.abs(value)
            if not poor.any():
                break
            length[poor] *= 0.4
        u, z, a, value = new_u, new_z, new_a, new_value
    return activation, multiplier, solved


def _times(u, columns):
    """u'M, (n, m)"""
    return (u[:, None, :] @ columns)[:, 0]


def _dual(z, u, torque, weight):
    """Activations for z = M'u, and the dual's value there, p = 2."""
    a = np.clip(0.5 * z / weight, 0.0, 1.0)
    return a, np.einsum("nk,nk->n", u, torque) - np.einsum("nm,nm->n", z - weight * a, a)


def _interior(columns, torque, p, weight, start):
    """Any p: a primal-dual interior point, in activations counted in the largest of ``start`` (that of p = 2).

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
        steep = weight * p * a ** (p - 1)
        missing = t - np.einsum("nkm,nm->nk", M, a)
        off = steep - _times(u, M) - low + high
        gap = (a * low + spare * high).mean(axis=1, keepdims=True) / 2
        worst = np.abs(missing).max(axis=1) / np.abs(t).max(axis=1), np.abs(off).max(axis=1), 1e6 * gap[:, 0]
        done = (np.max(worst, axis=0) < EXACT) | (left == 0)
        if done.any():
            at = todo[done]
            activation[at], multiplier[at] = np.where(a < low, 0.0, a)[done], u[done]
            good[at] = worst[0][done] < CLOSE
            keep = ~done
            todo, M, t, a, spare, low, high, u = (x[keep] for x in (todo, M, t, a, spare, low, high, u))
            steep, missing, off, gap = (x[keep] for x in (steep, missing, off, gap))
        if not len(todo):
            break
        bend = (p - 1) * steep / a + low / a + high / spare
        table = (M / bend[:, None, :]) @ M.swapaxes(1, 2)
        table += 1e-15 * np.trace(table, axis1=1, axis2=2)[:, None, None] * np.eye(k)
        for_low, for_high = -a * low, -spare * high  # first straight for the solution, then with what that shows
        for corrected in (False, True):
            pull = -off + for_low / a - for_high / spare
            right = missing - np.einsum("nkm,nm->nk", M, pull / bend)
            du = np.linalg.solve(table, right[..., None])[..., 0]
            da = (pull + _times(du, M)) / bend
            dlow, dhigh = (for_low - low * da) / a, (for_high + high * da) / spare
            step = np.minimum.reduce([_room(a, da), _room(spare, -da), _room(low, dlow), _room(high, dhigh)])
            if not corrected:
                after = (a + step * da) * (low + step * dlow) + (spare - step * da) * (high + step * dhigh)
                target = gap * (after.mean(axis=1, keepdims=True) / (2 * gap)) ** 3
                for_low, for_high = target - a * low - da * dlow, target - spare * high + da * dhigh
        step = np.minimum(0.995 * step, GROWTH / np.maximum((da / a).max(axis=1, keepdims=True), GROWTH))
        a, spare, u = a + step * da, spare - step * da, u + step * du
        low, high = low + step * dlow, high + step * dhigh
    return np.minimum(activation * unit, 1.0), multiplier * unit**p, good


def _room(value, change):
    """How many steps fit before a value turns negative, (n, 1), at most 1."""
    falls = np.where(change < 0, -change / value, 0.0).max(axis=1, keepdims=True)
    return 1.0 / np.maximum(falls, 1.0)


# ---------------------------------------------------------------- largest load


def largest_load(columns, held, load, side=None, side_limit=None, most=1e5):
    """The largest load that the muscles can hold, where its ray leaves the zonotope of their torques.

    Parameters
    ----------
    columns : ndarray, shape (n, k, m)
        Torque of each muscle at full activation. [N m]
    held : ndarray, shape (n, k)
        Torque asked without any load, by the arm's own weight. [N m]
    load : ndarray, shape (n, k)
        Torque asked by one unit of load. [N m per unit]
    side : ndarray, shape (n, k), optional
        Torque asked by 1 N of side force between hand and bar. [m]
    side_limit : float or ndarray, shape (n, 1), optional
        Side force that one unit of load allows, by friction [N per unit]; None leaves it free.
    most : float
        No load above this is looked for.

    Returns
    -------
    Largest
    """
    columns, held, load = (np.asarray(x, float) for x in (columns, held, load))
    parts = []
    for at in _blocks(np.arange(len(held))) or [slice(0)]:
        part = None if side is None else side[at]
        limit = side_limit[at] if np.ndim(side_limit) else side_limit
        parts.append(_largest_block(columns[at], held[at], load[at], part, limit, most))
    return Largest(*(np.concatenate(part) for part in zip(*parts, strict=True)))


def _largest_block(columns, held, load, side, side_limit, most):
    n, _, m = columns.shape
    target, moves = held, np.zeros((n, 1))
    if side is None:
        extra, worth, room = -load[:, :, None], [1.0], [most]
    elif side_limit is None:
        extra, worth, room = -np.stack([load, side], axis=2), [1.0, 0.0], [most, 2 * FAR]
        target, moves = held - FAR * side, np.broadcast_to([0.0, 1.0], (n, 2))  # counted from -FAR
    else:  # the load leaning to either side as far as friction lets it: any mix of the two is allowed
        lean = side_limit * side
        extra, worth, room = -np.stack([load + lean, load - lean], axis=2), [1.0, 1.0], [most, most]
        moves = np.broadcast_to(side_limit, (n, 1)) * np.array([1.0, -1.0])
    table = np.concatenate([columns, extra], axis=2)
    x, u, found = boxed_programme(table, target, np.r_[np.zeros(m), worth], np.r_[np.ones(m), room])
    force = np.einsum("ni,ni->n", x[:, m:], moves) - (FAR if side is not None and side_limit is None else 0.0)
    adds = np.maximum(_times(u, columns), 0.0)
    amount = np.minimum(x[:, m:] @ np.array(worth), most)
    return np.where(found, amount, np.nan), x[:, :m], u, adds, force


def _blocks(which):
    """``which`` postures in blocks."""
    return [which[start : start + BLOCK] for start in range(0, len(which), BLOCK)]
