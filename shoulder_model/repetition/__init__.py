"""One rep and many: what it asks, who supplies it, the largest load, how strong a lifter is."""

from .balance import Balance, balance_tables
from .counted_part import counted_part, first_counted, weakest_point
from .many_reps import ManyReps
from .one_posture import activation_at
from .options import RepOptions, options_of
from .range_of_motion import coverage, full_span
from .rep_and_sweep import VARIABLES, rep, sweep
from .repetition_maximum import (
    equations,
    load_for,
    measured_pulldown,
    one_repetition_maximum,
    repetitions_at,
    share_of_maximum,
)
from .shares import GROUP_MUSCLES, KINDS, Share, Shares, active_cross_section, group_shares, muscle_shares
from .spans import LoadSpan, load_span
from .strength import calibrated, from_repetition_maximum, from_torques, isometric_elbow_torque, isometric_torque
from .torque_polygon import TorquePolygon, torque_polygon
from .work_done import carried_way, joint_work, muscle_work, work_done

__all__ = [
    "GROUP_MUSCLES",
    "KINDS",
    "VARIABLES",
    "Balance",
    "LoadSpan",
    "ManyReps",
    "RepOptions",
    "Share",
    "Shares",
    "TorquePolygon",
    "activation_at",
    "active_cross_section",
    "balance_tables",
    "calibrated",
    "carried_way",
    "counted_part",
    "coverage",
    "equations",
    "first_counted",
    "from_repetition_maximum",
    "from_torques",
    "full_span",
    "group_shares",
    "isometric_elbow_torque",
    "isometric_torque",
    "joint_work",
    "load_for",
    "load_span",
    "measured_pulldown",
    "muscle_shares",
    "muscle_work",
    "one_repetition_maximum",
    "options_of",
    "rep",
    "repetitions_at",
    "share_of_maximum",
    "sweep",
    "torque_polygon",
    "weakest_point",
    "work_done",
]
