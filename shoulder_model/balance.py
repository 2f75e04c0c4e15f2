"""Shoulder, elbow and girdle in one balance: which torques have to be met, and what each muscle brings to them.

Rows, in this order: the shoulder's torque (one row about the normal of the plane of pull, or three axes), the
elbow's, the girdle's retraction and depression. Columns are muscles at full activation. A muscle that crosses
two joints stands in both rows with one activation, so any joint may give out first.

The girdle rests on ribs and ligaments when it is pulled down, so depression beyond what the load asks is
taken up by them: one more column, `PASSIVE`, that lifts the girdle and costs next to nothing.
"""

from dataclasses import dataclass

import numpy as np

from .arm import dot
from .hand_turn import FLEXORS, leverage
from .inputs import choice
from .sharing import largest_load, share
from .sources import fact

BALANCES = ("plane", "all axes")
SIDE_FORCES = ("zero", "grip", "free")
JOINTS = ("shoulder", "elbow", "girdle")
PASSIVE = fact("girdle_rest")  # N m; more than muscles can press the girdle down with


@dataclass(frozen=True)
class Asked:
    """Torques of one load case: shoulder (n, 3), elbow (n,), girdle (n, 2). [N m]"""

    shoulder: np.ndarray
    elbow: np.ndarray
    girdle: np.ndarray


def rows(asked, at, normal, balance):
    """The torques of a load case as one row of numbers a posture, (n, k). [N m]

    ``at`` picks the postures; ``normal`` (n, 3) of them: unit normal of the plane of pull, in the components of
    the shoulder's torque.
    """
    shoulder = asked.shoulder[at]
    shoulder = shoulder if balance == "all axes" else dot(shoulder, normal)[:, None]
    return np.concatenate([shoulder, asked.elbow[at, None], asked.girdle[at]], axis=1)


def columns(muscles, capacity, elbow_factor, hand_turn, shoulder_arm, elbow_arm, girdle_arm, normal, balance):
    """What each muscle brings at full activation, and the girdle's rest last, (n, k, muscle + 1). [N m]

    Parameters
    ----------
    muscles : sequence of str
    capacity : ndarray, shape (n, muscle) [N]
        At this turn of the hand.
    elbow_factor : float or ndarray, shape (n,)
        `capacity.Strength.elbow`.
    hand_turn : str
    shoulder_arm, elbow_arm, girdle_arm : ndarray, shapes (n, muscle, 3), (n, muscle), (n, muscle, 2) [m]
    normal, balance : as for `rows`
    """
    flexes = np.isin(muscles, FLEXORS)
    at_elbow = elbow_arm * np.where(flexes, leverage(hand_turn), 1.0) * np.asarray(elbow_factor)[..., None]
    shoulder = shoulder_arm.swapaxes(1, 2)
    if balance == "plane":
        shoulder = normal[:, None, :] @ shoulder
    arms = np.concatenate([shoulder, at_elbow[:, None, :], girdle_arm.swapaxes(1, 2)], axis=1)
    rest = np.zeros((*arms.shape[:2], 1))
    rest[:, -1] = -PASSIVE
    return np.concatenate([arms * capacity[:, None, :], rest], axis=2)


def by_joint(values, balance):
    """Values of rows (n, k) summed joint by joint, (n, 3): shoulder, elbow, girdle."""
    first = 3 if balance == "all axes" else 1
    return np.add.reduceat(values, [0, first, first + 1], axis=1)


def work_of(columns, held, load, kg, side, side_force, newtons_per_kg, p=2.0, weight=None):
    """Activation at a load, the shortfall there, and the largest load, for many postures.

    Parameters
    ----------
    columns : ndarray, shape (n, k, m) [N m]
    held, load, side : ndarray, shape (n, k)
        Torque asked by the arm's weight [N m], by 1 kg on the whole bar [N m/kg], by 1 N of side force [m].
    kg : ndarray, shape (n,)
        Load on the whole bar.
    side_force : "zero", "grip" or "free"
    newtons_per_kg : float
        Pull on one hand for 1 kg on the whole bar.
    p : float
        Power of the sharing rule.
    weight : ndarray, shape (m,), optional
        Weights of the sharing rule.

    Returns
    -------
    sharing.Shared, sharing.Largest
    """
    part, per_kg = allowed_side(side, side_force, newtons_per_kg)
    limit = np.inf if per_kg is None else per_kg * kg
    most = largest_load(columns, held, load, part, per_kg)
    return share(columns, held + kg[:, None] * load, p, weight, part, limit, kg <= most.load), most


def side_force_of(pull, side_force):
    """What the hands can do to what they hold: on separate handles, or with one hand, no side force."""
    return "zero" if pull.hold == "handles" or pull.hands == 1 else side_force


def allowed_side(side, side_force, newtons_per_kg):
    """The side force's torque, None where there is none, and what 1 kg allows of it [N/kg], None where it is free."""
    if choice("side_force", side_force, SIDE_FORCES) == "zero":
        return None, None
    return side, fact("grip_friction") * newtons_per_kg if side_force == "grip" else None
