"""A planar model of one arm under a pull: pulldowns, pull-ups and rows in numbers.

Numbers only; drawing lives in `shoulder_model.draw`, controls in `shoulder_model.panels`.
"""

from . import arm, elbow, force_length, girdle, inputs, lifter, muscle, pull, repetition, scapula, sources, statics
from .inputs import InputError
from .lifter import Lifter, draw_lifters, expected_measures, survey
from .muscle import moment_arm
from .pull import Pull, pulls
from .range_of_motion import coverage
from .repetition import rep, sweep
from .statics import tape_law, tape_law_margin

__all__ = [
    "InputError",
    "Lifter",
    "Pull",
    "arm",
    "coverage",
    "draw_lifters",
    "elbow",
    "expected_measures",
    "force_length",
    "girdle",
    "inputs",
    "lifter",
    "moment_arm",
    "muscle",
    "pull",
    "pulls",
    "rep",
    "repetition",
    "scapula",
    "sources",
    "statics",
    "survey",
    "sweep",
    "tape_law",
    "tape_law_margin",
]
