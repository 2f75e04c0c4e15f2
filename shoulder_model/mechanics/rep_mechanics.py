"""One rep before any muscle: where hand, arm and girdle are, what the load asks of each joint, how far each joint turns.

Torques are linear in the forces, so three cases hold every load:

    torque = arm's weight + kilograms on the bar * per kilogram + side force * per newton
"""

from dataclasses import dataclass
from functools import cached_property

import numpy as np

from ..inputs import checked_call, flag
from .arm import Posture, arm_at, turn_since
from .girdle import girdle_turn
from .hand_path import HandPath, hand_path
from .ribs import turn_past_ribs
from .statics import arm_weights, elbow_torque, girdle_torque, needed_torque, shoulder_components

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


@dataclass(frozen=True)
class JointTurns:
    """How far each joint has turned since the point before, 0 at the first: ``shoulder`` (..., point, 3) of the upper arm
    against the girdle, ``elbow`` (..., point), ``girdle`` (..., point, 2). [rad]

    Components and signs as those of the torques (`axes`), so torque times turn is the work of a joint.
    """

    shoulder: np.ndarray
    elbow: np.ndarray
    girdle: np.ndarray


@dataclass(frozen=True)
class RepMechanics:
    """A rep before any muscle: the ``path`` of the hand, the ``posture`` of the arm, by how much the elbow was turned
    ``past_ribs`` (..., point) [rad], and what the load ``cases`` ask of the ``lifter``.
    """

    path: HandPath
    posture: Posture
    past_ribs: np.ndarray
    cases: LoadCases
    lifter: object

    @cached_property
    def turns(self):
        """The `JointTurns` of the rep. [rad]"""
        girdle = girdle_turn(self.lifter, np.broadcast_to(self.path.girdle.gh, self.posture.elbow.shape))
        of_trunk = shoulder_components(turn_since(self.posture.humerus))
        of_girdle = np.stack(
            [girdle[..., 1], 0.0 * girdle[..., 0], girdle[..., 0]], axis=-1
        )  # depression, -, retraction
        elbow = np.diff(self.posture.elbow_flexion, axis=-1, prepend=self.posture.elbow_flexion[..., :1])
        return JointTurns(of_trunk - of_girdle, elbow, girdle)


@checked_call
def rep_mechanics(lifter, pull, points, *, arm_weight=True):
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
    RepMechanics
        Arrays (..., point), components behind.

    Raises
    ------
    InputError
        What is no lifter, no pull, no count or no flag; a grip or touch point out of reach; names the field.
    """
    arm_weight, path = flag("arm_weight", arm_weight), hand_path(lifter, pull, points)
    posture = arm_at(lifter, path.hand, path.normal, pull.elbow_cue)
    past_ribs = turn_past_ribs(lifter, posture, path.girdle.gh)
    if past_ribs.any():
        posture = arm_at(lifter, path.hand, path.normal, pull.elbow_cue + past_ribs)

    def torques(positions, forces, first_below_elbow=0):
        below = positions[first_below_elbow:], forces[first_below_elbow:]
        return JointTorques(
            shoulder_components(needed_torque(positions, forces)),
            elbow_torque(posture, *below),
            girdle_torque(positions, forces, path.girdle.sc),
        )

    per_kg = torques([path.hand], [pull.newtons_per_kg * path.along])
    if arm_weight:
        weight = torques(*arm_weights(lifter, posture, pull.trunk_lean), first_below_elbow=1)  # upper arm, then forearm
    else:
        weight = per_kg.map(lambda torque: 0.0 * torque)
    return RepMechanics(
        path, posture, past_ribs, LoadCases(weight, per_kg, torques([path.hand], [TO_THE_RIGHT])), lifter
    )
