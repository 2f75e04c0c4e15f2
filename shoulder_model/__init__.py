"""A planar model of one arm under a pull: pulldowns, pull-ups and rows in numbers.

Numbers only; drawing lives in `shoulder_model.draw`, controls in `shoulder_model.panels`.
"""

from . import (
    arm,
    balance,
    body,
    capacity,
    elbow,
    force_length,
    girdle,
    hand_turn,
    inputs,
    lifter,
    muscle,
    pull,
    repetition,
    repetition_maximum,
    scapula,
    shares,
    sharing,
    sources,
    statics,
    strength,
)
from .capacity import Strength, expected_strength
from .inputs import InputError
from .lifter import Lifter, draw_lifters, expected_measures, survey
from .muscle import moment_arm
from .pull import Pull, pulls
from .range_of_motion import coverage
from .repetition import rep, sweep
from .shares import work_shares
from .statics import tape_law, tape_law_margin

__all__ = [
    "InputError",
    "Lifter",
    "Pull",
    "Strength",
    "arm",
    "balance",
    "body",
    "capacity",
    "coverage",
    "draw_lifters",
    "elbow",
    "expected_measures",
    "expected_strength",
    "force_length",
    "girdle",
    "hand_turn",
    "inputs",
    "lifter",
    "moment_arm",
    "muscle",
    "pull",
    "pulls",
    "rep",
    "repetition",
    "repetition_maximum",
    "scapula",
    "shares",
    "sharing",
    "sources",
    "statics",
    "strength",
    "survey",
    "sweep",
    "tape_law",
    "tape_law_margin",
    "work_shares",
]
