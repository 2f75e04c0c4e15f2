"""One rep and many: what it asks, who supplies it, the largest load, how strong a lifter is."""

from .balance import Balance, balance_tables
from .counted_part import counted_part, first_counted, weakest_point
from .options import RepOptions
from .range_of_motion import coverage, full_span
from .rep_and_sweep import rep, sweep
from .repetition_maximum import (
    equations,
    load_for,
    measured_pulldown,
    one_repetition_maximum,
    repetitions_at,
    share_of_maximum,
)
from .strength import calibrated, from_repetition_maximum, from_torques, isometric_elbow_torque, isometric_torque
from .torque_polygon import TorquePolygon, torque_polygon
from .work_shares import GROUP_MUSCLES, Share, active_cross_section, group_shares, work_shares

__all__ = [
    "GROUP_MUSCLES",
    "Balance",
    "RepOptions",
    "Share",
    "TorquePolygon",
    "active_cross_section",
    "balance_tables",
    "calibrated",
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
    "load_for",
    "measured_pulldown",
    "one_repetition_maximum",
    "rep",
    "repetitions_at",
    "share_of_maximum",
    "sweep",
    "torque_polygon",
    "weakest_point",
    "work_shares",
]
