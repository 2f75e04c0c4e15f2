"""A planar model of one arm under a pull: pulldowns, pull-ups and rows in numbers.

Numbers only; drawing lives in `shoulder_model.draw`, controls in `shoulder_model.panels`.
"""

from . import (
    arm,
    balance,
    body,
    capacity,
    effect_size,
    elbow,
    evidence,
    force_length,
    girdle,
    hand_turn,
    inputs,
    lifter,
    muscle,
    print_page,
    pull,
    repetition,
    repetition_maximum,
    scapula,
    session,
    shares,
    sharing,
    silhouette,
    sources,
    statics,
    strength,
    work,
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
    "effect_size",
    "elbow",
    "evidence",
    "expected_measures",
    "expected_strength",
    "force_length",
    "girdle",
    "hand_turn",
    "inputs",
    "lifter",
    "moment_arm",
    "muscle",
    "print_page",
    "pull",
    "pulls",
    "rep",
    "repetition",
    "repetition_maximum",
    "scapula",
    "session",
    "shares",
    "sharing",
    "silhouette",
    "sources",
    "statics",
    "strength",
    "survey",
    "sweep",
    "tape_law",
    "tape_law_margin",
    "work",
    "work_shares",
]
