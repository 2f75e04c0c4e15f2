"""A planar model of one arm under a pull: pulldowns, pull-ups and rows in numbers.

    sm.people       body measures, lengths and masses
    sm.mechanics    a pull, the arm in its plane, torques of the load
    sm.muscles      paths, moment arms, sizes, capacity
    sm.sharing      least effort and largest load, arrays in and arrays out
    sm.repetition   one rep and many, strength, shares
    sm.spread       people differ, and what is not known: draws, bands, studies of crowds
    sm.evidence     trials and effect sizes
    sm.week         from numbers to a week of pulls
    sm.training     the log of a week, and the next block
    sm.practice     questions with numbers of their own, and a record of the answers

What is used most is here at the top. Numbers only: drawing lives in `shoulder_model.draw`, controls in
`shoulder_model.panels`.
"""

from . import evidence, mechanics, muscles, people, practice, register, repetition, sharing, spread, training, week
from .in_page import say_what_is_late
from .inputs import InputError
from .mechanics import Pull, held_weight, pulls, tape_law, tape_law_margin
from .muscles import Strength, expected_strength, moment_arm
from .people import Crowd, Lifter, draw_lifters, expected_measures, survey
from .repetition import counted_part, coverage, load_span, muscle_shares, rep, sweep, weakest_point, work_done
from .sources import constant
from .spread import study
from .week import Client, plan_week
from .words import torque_change_words, torque_words, written

say_what_is_late()

__all__ = [
    "Client",
    "Crowd",
    "InputError",
    "Lifter",
    "Pull",
    "Strength",
    "constant",
    "counted_part",
    "coverage",
    "draw_lifters",
    "evidence",
    "expected_measures",
    "expected_strength",
    "held_weight",
    "load_span",
    "mechanics",
    "moment_arm",
    "muscle_shares",
    "muscles",
    "people",
    "plan_week",
    "practice",
    "pulls",
    "register",
    "rep",
    "repetition",
    "sharing",
    "spread",
    "study",
    "survey",
    "sweep",
    "symbolic",
    "tape_law",
    "tape_law_margin",
    "torque_change_words",
    "torque_words",
    "training",
    "weakest_point",
    "week",
    "work_done",
    "written",
]


def __getattr__(name):
    """`muscles.symbolic` as ``sm.symbolic``, imported when it is asked for: sympy takes a second."""
    if name == "symbolic":
        from .muscles import symbolic

        return symbolic
    raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
