"""A planar model of one arm under a pull: pulldowns, pull-ups and rows in numbers.

Numbers only; drawing lives in `shoulder_model.draw`, controls in `shoulder_model.panels`.
"""

from . import arm, inputs, lifter, muscle, pull, repetition, sources, statics
from .inputs import InputError
from .lifter import Lifter, draw_lifters, expected_measures, survey
from .muscle import moment_arm
from .pull import Pull, pulls
from .repetition import rep, sweep
from .statics import tape_law, tape_law_margin

__all__ = [
    "InputError",
    "Lifter",
    "Pull",
    "arm",
    "draw_lifters",
    "expected_measures",
    "inputs",
    "lifter",
    "moment_arm",
    "muscle",
    "pull",
    "pulls",
    "rep",
    "repetition",
    "sources",
    "statics",
    "survey",
    "sweep",
    "tape_law",
    "tape_law_margin",
]
