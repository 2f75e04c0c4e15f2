"""Mechanics: a pull, the arm in its plane, and the torques that the load asks of the joints."""

from .arm import Posture, arm_at, elbow_flexion_at, posed_arm, raised_arm, shoulder_hand_distance
from .catalogue import pulls
from .hand_path import HandPath, hand_path, pull_axes
from .held_weight import HeldWeight, held_weight
from .load_cases import JointTorques, LoadCases, load_cases
from .pull import Pull
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
    sc_joint,
    tape_law,
    tape_law_margin,
    tension_to_hold,
)

__all__ = [
    "HandPath",
    "HeldWeight",
    "JointTorques",
    "LoadCases",
    "Posture",
    "Pull",
    "anatomical",
    "arm_at",
    "arm_weights",
    "elbow_flexion_at",
    "elbow_torque",
    "girdle_margin",
    "girdle_torque",
    "hand_path",
    "held_weight",
    "joint_force",
    "load_cases",
    "moment",
    "moment_of_inertia",
    "needed_torque",
    "of_girdle",
    "posed_arm",
    "pull_axes",
    "pulls",
    "raised_arm",
    "sc_joint",
    "shoulder_hand_distance",
    "tape_law",
    "tape_law_margin",
    "tension_to_hold",
]
