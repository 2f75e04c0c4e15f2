"""Shoulder, elbow and girdle in one balance: which torques have to be met, and what each muscle brings to them.

Rows, in this order: the shoulder's torque (one row about the normal of the plane of pull, or three axes), the
elbow's, the girdle's retraction and depression. Columns are muscles at full activation. A muscle that crosses
two joints stands in both rows with one activation, so any joint may give out first.

The girdle rests on ribs and ligaments when it is pulled down, so depression beyond what the load asks is
taken up by them: one more column, `PASSIVE`, that lifts the girdle and costs next to nothing.
"""

from dataclasses import dataclass

import numpy as np

from ..inputs import checked_call, choice
from ..mechanics.vectors import dot
from ..muscles import MUSCLES, leverage
from ..muscles.elbow import FLEXORS
from ..sources import fact

BALANCES = ("plane", "all axes")
SIDE_FORCES = ("zero", "grip", "free")
PASSIVE = fact("girdle_rest")  # N m; more than muscles can press the girdle down with


@dataclass(frozen=True)
class Balance:
    """The tables of n postures, k torques and m muscles.

    ``columns`` (n, k, m + 1) torque of each muscle at full activation, the girdle's rest last [N m]; torque asked (n, k):
    ``unloaded`` by the arm's weight [N m], ``per_kg`` on the whole bar [N m/kg], ``per_side_newton`` of the bar's sideways
    push [m]; ``shoulder_rows`` how many of the k are the shoulder's, the first ones.
    """

    columns: np.ndarray
    unloaded: np.ndarray
    per_kg: np.ndarray
    per_side_newton: np.ndarray
    shoulder_rows: int

    def asked(self, kg):
        """Torque asked by ``kg`` (n,) on the whole bar and the arm's weight, without a side force, (n, k). [N m]"""
        return self.unloaded + kg[:, None] * self.per_kg

    def by_joint(self, values):
        """``values`` of rows (n, k), in any one unit, summed joint by joint, (n, 3): shoulder, elbow, girdle."""
        return np.add.reduceat(values, [0, self.shoulder_rows, self.shoulder_rows + 1], axis=1)


@checked_call
def balance_tables(cases, arms, capacity, plane_normal, *, balance, hand_turn, elbow_factor):
    """The `Balance` of n postures.

    Parameters
    ----------
    cases : mechanics.LoadCases
        Arrays (n, ...).
    arms : tuple of ndarray, shapes (n, muscle, 3), (n, muscle), (n, muscle, 2)
        About shoulder, elbow and girdle. [m]
    capacity : ndarray, shape (n, muscle)
        At this turn of the hand. [N]
    plane_normal : ndarray, shape (n, 3)
        Unit normal of the plane of pull, in the components of the shoulder's torque.
    balance : "plane" or "all axes"
        Whether the shoulder has one row or three.
    hand_turn : str
        Its `muscles.leverage` scales the elbow flexors' moment arms.
    elbow_factor : float or ndarray, shape (n,)
        `muscles.Strength.elbow`.
    """
    in_plane = choice("balance", balance, BALANCES) == "plane"

    def rows(asked):
        shoulder = dot(asked.shoulder, plane_normal)[:, None] if in_plane else asked.shoulder
        return np.concatenate([shoulder, asked.elbow[:, None], asked.girdle], axis=1)

    shoulder_arm, elbow_arm, girdle_arm = arms
    flexes = np.isin(MUSCLES, FLEXORS)
    at_elbow = elbow_arm * np.where(flexes, leverage(hand_turn), 1.0) * np.asarray(elbow_factor)[..., None]
    at_shoulder = shoulder_arm.swapaxes(1, 2)
    if in_plane:
        at_shoulder = dot(shoulder_arm, plane_normal[:, None, :])[:, None, :]
    levers = np.concatenate([at_shoulder, at_elbow[:, None, :], girdle_arm.swapaxes(1, 2)], axis=1)
    rest = np.zeros((*levers.shape[:2], 1))
    rest[:, -1] = -PASSIVE
    columns = np.concatenate([levers * capacity[:, None, :], rest], axis=2)
    asked = (rows(case) for case in (cases.arm_weight, cases.per_kg, cases.side_force))
    return Balance(columns, *asked, shoulder_rows=1 if in_plane else 3)


def possible_side_force(pull, side_force):
    """The name of a ``side_force`` ("zero", "grip" or "free"), or "zero" where a ``pull`` allows none: on separate handles, with one hand."""
    choice("side_force", side_force, SIDE_FORCES)
    return "zero" if pull.hold == "handles" or pull.hands == 1 else side_force


def side_force_of(tables, side_force, newtons_per_kg, friction):
    """The side force's torque (n, k) [m], and how much of it 1 kg on the bar allows [N/kg].

    Parameters
    ----------
    tables : Balance
    side_force : "zero", "grip" or "free"
        The torque is None for "zero"; the limit is None for "zero" and "free".
    newtons_per_kg : float
        Pull on one hand for 1 kg on the whole bar. [N/kg]
    friction : float
        Sideways force over the pull on the hand, a ratio.
    """
    torque = None if side_force == "zero" else tables.per_side_newton
    return torque, friction * newtons_per_kg if side_force == "grip" else None
