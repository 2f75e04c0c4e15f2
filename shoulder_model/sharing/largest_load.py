"""The largest load that muscles can hold: where the load's ray leaves the torques they can make.

    max λ            subject to  M a = τ0 + λ τ1,  0 <= a <= 1

    symbol  in code   shape      what it is
    M       columns   (n, k, m)  torque of each muscle at full activation [N m]
    τ0      unloaded  (n, k)     torque asked without any load [N m]
    τ1      per_unit  (n, k)     torque asked by one unit of load [N m per unit]
    λ       load      (n,)       load, in the caller's unit
    u       normal    (n, k)     normal of the facet where the ray leaves, scaled to u·τ1 = 1
    s       side      (n, k)     torque asked by 1 N of side force [m]

All torques that M can make form a zonotope; the ray leaves it through a facet, whose normal is the linear programme's
dual u (`facet_walk`). Muscles with M'u > 0 are then fully active, and each adds M'u to the load: those are the muscles
that give out.
"""

from dataclasses import dataclass

import numpy as np

from ..blocks import in_blocks
from ..inputs import checked_call
from .facet_walk import boxed_programme
from .products import valued

BLOCK = 1024  # postures worked on at once: their tables stay in cache
FAR = 1e6  # N; a free side force lies between -FAR and FAR


@dataclass(frozen=True)
class LargestLoad:
    """The largest load, one row a posture.

    Every field is NaN where not even the arm can be held at any load. ``load`` (n,); ``activation`` (n, m) there; ``normal``
    (n, k) of the facet, scaled so that its product with one unit of load is 1, with the side force that goes
    with it: load gained per newton metre more that the muscles supply; ``adds`` (n, m), what each fully active muscle adds to the
    load; ``side_force`` (n,) there [N].
    """

    load: np.ndarray
    activation: np.ndarray
    normal: np.ndarray
    adds: np.ndarray
    side_force: np.ndarray


@checked_call
def largest_load(columns, unloaded, per_unit, *, side=None, side_limit=None, most=1e5):
    """The largest load that the muscles can hold, where its ray leaves the zonotope of their torques.

    Parameters
    ----------
    columns : ndarray, shape (n, k, m)
        Torque of each muscle at full activation. [N m]
    unloaded : ndarray, shape (n, k)
        Torque asked without any load, by the arm's own weight. [N m]
    per_unit : ndarray, shape (n, k)
        Torque asked by one unit of load. [N m per unit]
    side : ndarray, shape (n, k), optional
        Torque asked by 1 N of side force between hand and bar. [m]
    side_limit : float or ndarray, shape (n, 1), optional
        Side force that one unit of load allows, by friction [N per unit]; None leaves it free.
    most : float
        No load above this is looked for.

    Returns
    -------
    LargestLoad
    """
    columns, unloaded, per_unit = (np.ascontiguousarray(x, float) for x in (columns, unloaded, per_unit))
    bound = None if side is None or side_limit is None else np.broadcast_to(side_limit, (len(unloaded), 1))

    def rows(here):
        optional = (None if array is None else array[here] for array in (side, bound))
        return _largest_of_block(columns[here], unloaded[here], per_unit[here], *optional, most)

    return LargestLoad(*in_blocks(rows, len(unloaded), BLOCK))


def _largest_of_block(columns, unloaded, per_unit, side, side_limit, most):
    """The fields of `LargestLoad` for one block."""
    n, _, m = columns.shape
    target, moves = unloaded, np.zeros((n, 1))
    if side is None:
        extra, worth, room = -per_unit[:, :, None], [1.0], [most]
    elif side_limit is None:
        extra, worth, room = -np.stack([per_unit, side], axis=2), [1.0, 0.0], [most, 2 * FAR]
        target, moves = unloaded - FAR * side, np.broadcast_to([0.0, 1.0], (n, 2))  # counted from -FAR
    else:  # the load leaning to either side as far as friction lets it: any mix of the two is allowed
        lean = side_limit * side
        extra, worth, room = -np.stack([per_unit + lean, per_unit - lean], axis=2), [1.0, 1.0], [most, most]
        moves = side_limit * np.array([1.0, -1.0])
    table = np.ascontiguousarray(np.concatenate([columns, extra], axis=2))  # the walk is a third faster row by row
    x, u, feasible = boxed_programme(table, target, np.r_[np.zeros(m), worth], np.r_[np.ones(m), room])
    force = (x[:, m:] * moves).sum(axis=1) - (FAR if side is not None and side_limit is None else 0.0)
    adds = np.maximum(valued(u, columns), 0.0)
    amount = np.minimum((x[:, m:] * worth).sum(axis=1), most)
    known = (np.where(feasible.reshape(-1, *[1] * (a.ndim - 1)), a, np.nan) for a in (amount, x[:, :m], u, adds, force))
    return tuple(known)
