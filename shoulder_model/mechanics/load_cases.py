"""What a pull asks of shoulder, elbow and girdle, load case by load case.

Torques are linear in the forces, so three cases hold every load:

    torque = arm's weight + kilograms on the bar * per kilogram + side force * per newton
"""

from dataclasses import dataclass

import numpy as np

from .arm import arm_at
from .hand_path import hand_path
from .statics import anatomical, arm_weights, elbow_torque, girdle_torque, needed_torque, sc_joint

TO_THE_RIGHT = np.array([0.0, 0.0, 1.0])


@dataclass(frozen=True)
class JointTorques:
    """Torques that the lifter supplies on one side: ``shoulder`` (..., 3), ``elbow`` (...), ``girdle`` (..., 2). [N m]

    Components as in `axes`.
    """

    shoulder: np.ndarray
    elbow: np.ndarray
    girdle: np.ndarray

    def map(self, change):
        """These torques with ``change`` made to each array, units as they are."""
        return JointTorques(change(self.shoulder), change(self.elbow), change(self.girdle))


@dataclass(frozen=True)
class LoadCases:
    """`JointTorques` of the arm's own weight [N m], of 1 kg on the whole bar [N m/kg], of 1 N from the bar on the hand to
    the right [m].
    """

    arm_weight: JointTorques
    per_kg: JointTorques
    side_force: JointTorques

    def total(self, kg):
        """`JointTorques` of ``kg`` (...) on the whole bar and the arm's weight, without a side force. [N m]"""
        return JointTorques(
            kg[..., None] * self.per_kg.shoulder + self.arm_weight.shoulder,
            kg * self.per_kg.elbow + self.arm_weight.elbow,
            kg[..., None] * self.per_kg.girdle + self.arm_weight.girdle,
        )

    def map(self, change):
        """These cases with ``change`` made to every array, units as they are."""
        return LoadCases(*(case.map(change) for case in (self.arm_weight, self.per_kg, self.side_force)))


def load_cases(lifter, pull, points, *, arm_weight=True):
    """The way of the hand, the arm along it, and what the load cases ask of the joints.

    Parameters
    ----------
    lifter : people.Lifter
    pull : Pull
    points : int
        Evenly spaced along the hand's way.
    arm_weight : bool
        False sets the arm's own weight to zero.

    Returns
    -------
    hand_path.HandPath, arm.Posture, LoadCases
        Arrays (..., point), components behind.

    Raises
    ------
    InputError
        A grip or touch point out of reach; names the field.
    """
    path = hand_path(lifter, pull, points)
    posture = arm_at(lifter, path.hand, path.normal, pull.elbow_cue)

    def torques(positions, forces, first_below_elbow=0):
        below = positions[first_below_elbow:], forces[first_below_elbow:]
        return JointTorques(
            anatomical(needed_torque(positions, forces)),
            elbow_torque(posture, *below),
            girdle_torque(positions, forces, sc_joint(lifter)),
        )

    per_kg = torques([path.hand], [pull.newtons_per_kg * path.along])
    if arm_weight:
        weight = torques(*arm_weights(lifter, posture, pull.trunk_lean), first_below_elbow=1)  # upper arm, then forearm
    else:
        weight = per_kg.map(lambda torque: 0.0 * torque)
    return path, posture, LoadCases(weight, per_kg, torques([path.hand], [TO_THE_RIGHT]))
