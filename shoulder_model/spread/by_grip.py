"""Where one person stands: answers over a few grips with both bands, and the same of everybody.

It is worked out once for a person's measures and a pull; a move of the grip only looks it up. A panel shows the person first
and works the bands out while nobody moves anything.
"""

from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from ..inputs import checked_call, flag
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

    ``value`` (grip,); ``everybody`` (n, grip), people of the sex of whom no measure is known; ``people`` and ``unknown``, `Band` of
    (grip,); ``sure`` in how many draws of what is not known this person's best grip stays the best, a whole number. The last
    three are None before the bands are worked out.
    """

    value: dict
    everybody: dict
    people: dict | None = None
    unknown: dict | None = None
    sure: dict | None = None

    def best_for(self, name):
        """Of everybody, the share (grip,) for whom each grip does best by the answer ``name`` (text), and this person's best grip over shoulder breadth."""
        best = _best(name, self.everybody[name])
        return (best[:, None] == np.array(GRIPS)).mean(axis=0), float(_best(name, self.value[name]))

    def with_bands(self, people, unknown):
        """The same with its bands, of answers of ``people`` (n, asked, grip) and of draws of what is ``unknown`` (draw, asked, grip), each in its unit."""
        bands = [{name: band_of(answers[:, k]) for k, name in enumerate(ASKED)} for answers in (people, unknown)]
        best = {name: _best(name, unknown[:, k]) for k, name in enumerate(ASKED)}
        sure = {name: int(np.sum(best[name] == _best(name, self.value[name]))) for name in ASKED}
        return Standing(self.value, self.everybody, *bands, sure)


def _best(name, values):
    """The best of `GRIPS` by an answer's values (..., grip)."""
    return best_of(BEST + name, values, np.array(GRIPS), axis=-1)


def over_grips(lifter, pull, drawn, strength):
    """All of `ASKED` over `GRIPS`, an array (asked, grip) for one person and (n, asked, grip) for a crowd, each in its unit.

    Parameters
    ----------
    lifter : people.Lifter
        One, or a crowd with arrays (n,).
    pull : mechanics.Pull
    drawn : Drawn
    strength : muscles.Strength
        As many as the lifters. [ratio]
    """
    options = options_of({"points": POINTS, "strength": drawn.strength(strength, lifter.sex)} | drawn.options)
    reps = ManyReps(lifter, drawn.pull(pull), options, {"grip_ratio": np.array(GRIPS)})
    return np.stack([COACH[name].of(reps)[1] for name in ASKED], axis=-2)


def _named(answers):
    """By name, each (..., grip)."""
    return {name: answers[..., k, :] for k, name in enumerate(ASKED)}


@lru_cache(maxsize=16)
def _everybody(sex, pull):
    crowd = draw_lifters(EVERYBODY, sex, SEED)
    return _named(over_grips(crowd, pull, as_tabled(), drawn_strength(crowd, SEED)))


@lru_cache(maxsize=64)
def people_alike(sex, measured):
    """Drawn people who share some measures, a `people.Lifter` and their `muscles.Strength` with arrays (`PEOPLE`,). [m], [kg]

    ``sex`` is "men" or "women", ``measured`` a tuple of names and readings.
    """
    crowd = draw_lifters(PEOPLE, sex, SEED, **dict(measured))
    return crowd, drawn_strength(crowd, SEED)


def _checked(pull, sex, measured):
    """What can be asked, so that it can be kept: the pull with a grip that does not matter, sex, measures as a tuple."""
    one_value_each(a_pull(pull))
    Lifter.from_measures(sex, **measured)
    return pull.change(grip_ratio=1.5), sex, tuple(sorted(measured.items()))


@lru_cache(maxsize=64)
def _at_first(pull, sex, measured):
    person = Lifter.from_measures(sex, **dict(measured))
    value = over_grips(person, pull, as_tabled(), expected_strength(person))
    return Standing(_named(value), _everybody(sex, pull))


@lru_cache(maxsize=64)
def _standing(pull, sex, measured):
    first, person = _at_first(pull, sex, measured), Lifter.from_measures(sex, **dict(measured))
    crowd, strength = people_alike(sex, measured)
    people = over_grips(crowd, pull, as_tabled(), strength)
    usual = expected_strength(person)
    return first.with_bands(
        people, np.stack([over_grips(person, pull, drawn, usual) for drawn in drawn_inputs(DRAWS, SEED)])
    )


@checked_call
def standing(pull, sex, *, bands=True, **measured):
    """Where the person with some measures stands, over `GRIPS`.

    Parameters
    ----------
    pull : mechanics.Pull
        Its grip is not looked at.
    sex : "men" or "women"
    bands : bool
        False leaves out what takes long.
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
    work = _standing if flag("bands", bands) else _at_first
    return work(*_checked(pull, sex, measured))
