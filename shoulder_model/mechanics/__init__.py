"""Mechanics: a pull, the arm in its plane, and the torques that the load asks of the joints."""

from .arm import Posture, arm_at, elbow_flexion_at, posed_arm, raised_arm, shoulder_hand_distance, turn_since
from .catalogue import pulls
from .girdle import GirdlePosture, clavicle_axes, girdle_along, girdle_at, girdle_turn, sc_joint, travelled
from .hand_path import HandPath, hand_path, plane_of_pull, pull_axes
from .held_weight import HeldWeight, held_weight
from .pull import Pull
from .rep_mechanics import JointTorques, JointTurns, LoadCases, RepMechanics, rep_mechanics
from .statics import (
    anatomical,
    arm_weights,
    elbow_torque,
    girdle_margin,
    girdle_torque,
    joint_force,
    moment,
    moment_of_inertia,
    needed_torque,
    of_girdle,
    tape_law,
    tape_law_margin,
    tension_to_hold,
)

__all__ = [
    "GirdlePosture",
    "HandPath",
    "HeldWeight",
    "JointTorques",
    "JointTurns",
    "LoadCases",
    "Posture",
    "Pull",
    "RepMechanics",
    "anatomical",
    "arm_at",
    "arm_weights",
    "clavicle_axes",
    "elbow_flexion_at",
    "elbow_torque",
    "girdle_along",
    "girdle_at",
    "girdle_margin",
    "girdle_torque",
    "girdle_turn",
    "hand_path",
    "held_weight",
    "joint_force",
    "moment",
    "moment_of_inertia",
    "needed_torque",
    "of_girdle",
    "plane_of_pull",
    "posed_arm",
    "pull_axes",
    "pulls",
    "raised_arm",
    "rep_mechanics",
    "sc_joint",
    "shoulder_hand_distance",
    "tape_law",
    "tape_law_margin",
    "tension_to_hold",
    "travelled",
    "turn_since",
]
