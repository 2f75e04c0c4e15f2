"""How far a load may lie from the model's value: the span over what the model leaves open.

    balance         in the plane of pull (the planar model's own, and the value) or about all axes
    counted part    the first 0 to 30 % of the rep left out, where the arm is all but straight
    strength        the band in which the lifter's strength is known

Each of them moves the largest load of a rep; the span runs from the smallest to the largest of all their combinations.
"""

from dataclasses import dataclass, replace

import numpy as np

from ..inputs import InputError, checked_call
from ..mechanics import rep_mechanics
from ..muscles import Strength, muscle_geometry
from ..people import one_person
from ..sources import constant
from .balance import BALANCES
from .counted_part import first_counted
from .options import options_of
from .rep_and_sweep import one_value_each
from .supply import largest_loads

STEP = 0.1  # of the rep, between the counted parts that are tried


@dataclass(frozen=True)
class LoadSpan:
    """The largest load of a whole rep: ``value``, and ``low`` to ``high``, on the whole bar [kg].

    ``by`` what is left open -> (low, high) with that alone moved: "balance", "counted part", "strength". NaN where a posture
    cannot hold even the arm.
    """

    value: float
    low: float
    high: float
    by: dict


@checked_call
def load_span(lifter, pull, **options):
    """The `LoadSpan` of a rep. [kg]

    Parameters
    ----------
    lifter : people.Lifter
        One lifter.
    pull : mechanics.Pull
        Its own load does not matter.
    **options
        As for `rep_and_sweep.rep`; ``balance`` is the one of the value.

    Raises
    ------
    InputError
        A crowd, and as `rep_and_sweep.rep`.
    """
    one_person(lifter, "the span of a load")
    one_value_each(pull)
    options = options_of(options)
    strength = options.strength_of(lifter)
    if np.ndim(strength.factor):
        raise InputError("strength", "strength has several values; give that of one lifter")
    factors = np.array([[strength.factor], [strength.low], [strength.high]])
    whole = rep_mechanics(lifter, pull, options.points, arm_weight=options.arm_weight)
    geometry = muscle_geometry(whole.posture, whole.path.girdle, options.body_of(), options.compiled)
    known = Strength(factors, factors, factors, strength.elbow, strength.known_from)
    loads = []
    for balance in (options.balance, *(other for other in BALANCES if other != options.balance)):
        along = largest_loads(lifter, pull, whole, geometry, replace(options, strength=known, balance=balance))
        loads.append([along[:, first:].min(axis=1) for first in _counted_from(options.points)])
    loads = np.array(loads)  # (balance, counted part, strength)
    usual = list(_counted_from(options.points)).index(first_counted(options.points))
    by = {"balance": loads[:, usual, 0], "counted part": loads[0, :, 0], "strength": loads[0, usual]}
    ends = {name: (float(values.min()), float(values.max())) for name, values in by.items()}
    return LoadSpan(float(loads[0, usual, 0]), float(loads.min()), float(loads.max()), ends)


def _counted_from(points):
    """First counted points, from none left out to the most."""
    shares = np.arange(0.0, constant("rep_counted_from").high + STEP / 2, STEP)
    return tuple(int(np.ceil(round(share * (points - 1), 9))) for share in shares)
