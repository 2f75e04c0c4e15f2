"""Where one person stands: answers over a few grips with both bands, and the same of everybody.

It is worked out once for a person's measures and a pull; a move of the grip only looks it up.
"""

from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from ..inputs import checked_call
from ..mechanics.pull import a_pull
from ..muscles import expected_strength
from ..people import Lifter, draw_lifters
from ..repetition import ManyReps, options_of
from ..repetition.rep_and_sweep import one_value_each
from .answers import BEST, COACH, best_of
from .bands import band_of
from .drawn import as_tabled, drawn_inputs
from .people import drawn_strength

GRIPS = (1.0, 1.25, 1.5, 1.75, 2.0)  # over shoulder breadth
ASKED = ("lat_share", "mid_back_share", "whole_rep_load_kg", "most_shoulder_torque")
POINTS = 11  # along each rep
PEOPLE, DRAWS = 60, 20  # who share the measures; draws of what is not known
EVERYBODY = 100  # of whom no measure is known
SEED = 8


@dataclass(frozen=True)
class Standing:
    """Answers by name, each over `GRIPS` and in its unit.

    ``value`` (grip,); ``people`` and ``unknown``, `Band` of (grip,); ``everybody`` (n, grip), people of the sex of whom no
    measure is known; ``sure`` in how many draws of what is not known this person's best grip stays the best, a whole number.
    """

    value: dict
    people: dict
    unknown: dict
    everybody: dict
    sure: dict

    def best_for(self, name):
        """Of everybody, the share (grip,) for whom each grip does best by the answer ``name`` (text), and this person's best grip over shoulder breadth."""
        best = _best(name, self.everybody[name])
        return (best[:, None] == np.array(GRIPS)).mean(axis=0), float(_best(name, self.value[name]))


def _best(name, values):
    """The best of `GRIPS` by an answer's values (..., grip)."""
    return best_of(BEST + name, values, np.array(GRIPS), axis=-1)


def _answers(lifter, pull, drawn, strength):
    """All of `ASKED` for each of ``lifter`` and each grip."""
    options = options_of({"points": POINTS, "strength": drawn.strength(strength, lifter.sex)} | drawn.options)
    reps = ManyReps(lifter, drawn.pull(pull), options, {"grip_ratio": np.array(GRIPS)})
    return {name: COACH[name].of(reps)[1] for name in ASKED}


def _bands(rows):
    return {name: band_of(np.asarray(rows[name])) for name in ASKED}


@lru_cache(maxsize=16)
def _everybody(sex, pull):
    crowd = draw_lifters(EVERYBODY, sex, SEED)
    return _answers(crowd, pull, as_tabled(), drawn_strength(crowd, SEED))


@lru_cache(maxsize=64)
def _standing(sex, measured, pull):
    known = dict(measured)
    person, crowd = Lifter.from_measures(sex, **known), draw_lifters(PEOPLE, sex, SEED, **known)
    usual = expected_strength(person)
    people = _answers(crowd, pull, as_tabled(), drawn_strength(crowd, SEED))
    each = [_answers(person, pull, drawn, usual) for drawn in drawn_inputs(DRAWS, SEED)]
    unknown = {name: [one[name] for one in each] for name in ASKED}
    value = _answers(person, pull, as_tabled(), usual)
    sure = {name: int(np.sum(_best(name, np.array(unknown[name])) == _best(name, value[name]))) for name in ASKED}
    return Standing(value, _bands(people), _bands(unknown), _everybody(sex, pull), sure)


@checked_call
def standing(pull, sex, **measured):
    """Where the person with some measures stands, over `GRIPS`.

    Parameters
    ----------
    pull : mechanics.Pull
        Its grip is not looked at.
    sex : "men" or "women"
    **measured
        Tape readings by the names of `Lifter`'s fields. [m], mass [kg]

    Returns
    -------
    Standing
        Shares without unit, loads [kg], torques [N m]; kept, so the same question is answered at once.

    Raises
    ------
    InputError
        Another sex, measures that cannot belong to one person, what is no pull or several in one.
    """
    one_value_each(a_pull(pull))
    Lifter.from_measures(sex, **measured)
    return _standing(sex, tuple(sorted(measured.items())), pull.change(grip_ratio=1.5))
