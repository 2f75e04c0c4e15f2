"""Turning the hand: what it does to the elbow flexors, and what it asks of forearm and shoulder.

Eleven men pulled with the elbow bent and the hand pronated, neutral or supinated, while their drive to the
muscles was measured (Physiol Rep 2018;6:e13560). Pull = drive × what the muscles can give through their
levers, so

    leverage of a turn = (pull / drive) over that of the neutral hand
    drive of a turn    = drive over that of the neutral hand

Drive scales the flexors' capacity, leverage their moment arms at the elbow. The shoulder feels the hand
only where the forearm's turn runs out: the rest has to come from turning the whole arm (`forearm_turn`).
"""

from functools import cache

import numpy as np

from ..inputs import Allowed, checked_call, choice, number, thing
from ..mechanics import Posture, pull_axes
from ..mechanics.pull import HAND_TURNS
from ..mechanics.vectors import cross, dot, stack, unit
from ..sources import constant, fact
from .elbow import FLEXORS

TURN = Allowed(-2 * np.pi, 2 * np.pi, "rad", "give radians")


@checked_call
def drive(hand_turn):
    """Voluntary drive to the elbow flexors over that with the neutral hand, a ratio without unit.

    ``hand_turn`` "pronated", "neutral" or "supinated"; another one is an `InputError`. Physiol Rep 2018;6:e13560.

    >>> round(drive("pronated"), 2)
    0.74
    """
    return _drive(choice("hand_turn", hand_turn, HAND_TURNS))


@cache
def _drive(hand_turn):
    return fact(f"elbow_drive_{hand_turn}") / fact("elbow_drive_neutral")


def driven(muscles, hand_turn):
    """What the ``hand_turn`` leaves of each of ``muscles``' capacity, a ratio (muscle,): `drive` for elbow flexors, else 1."""
    return np.where(np.isin(muscles, FLEXORS), drive(hand_turn), 1.0)


@checked_call
def leverage(hand_turn):
    """What the flexors' levers give at full drive, over that with the neutral hand, a ratio without unit.

    ``hand_turn`` as for `drive`. Pull over drive, Physiol Rep 2018;6:e13560 (derived).

    >>> round(leverage("pronated"), 2)
    0.63
    """
    pull = fact(f"elbow_pull_{choice('hand_turn', hand_turn, HAND_TURNS)}") / fact("elbow_pull_neutral")
    return pull / drive(hand_turn)


@checked_call
def pull_band(hand_turn):
    """Measured pull over that of the neutral hand, a ratio, and how far ± 1 standard error of both means lets it move.

    ``hand_turn`` as for `drive`. Physiol Rep 2018;6:e13560.
    """
    here, neutral = (constant(f"elbow_pull_{turn}") for turn in (choice("hand_turn", hand_turn, HAND_TURNS), "neutral"))
    ratio = here.value / neutral.value
    doubt = sum((f.half_range / f.value) ** 2 for f in {here.name: here, neutral.name: neutral}.values())
    error = np.sqrt(doubt / fact("elbow_pull_people")) if here is not neutral else 0.0
    return ratio, ratio * (1 - error), ratio * (1 + error)


@checked_call
def forearm_turn(posture, pull):
    """How far the forearm is turned from neutral, pronation positive, (..., point). [rad]

    The thumb of a pronated hand points along the bar to the other hand, of a supinated one away from it, of a
    neutral one across the pull, up towards the head in a row. Neutral is the thumb on the side to which the
    elbow bends. A forearm turns no further than about 80° (from memory, ML); the wrist or the shoulder has to turn the rest.

    Parameters
    ----------
    posture : mechanics.Posture
    pull : mechanics.Pull
    """
    thing("posture", posture, Posture)
    along_forearm = unit(posture.hand - posture.elbow)
    _, across = pull_axes(pull)
    thumb = {
        "pronated": stack(0.0, 0.0, -1.0),
        "supinated": stack(0.0, 0.0, 1.0),
        "neutral": -across,
    }[pull.hand_turn]
    bends_to = cross(posture.hinge, along_forearm)
    thumb = np.broadcast_to(thumb, bends_to.shape)
    return np.arctan2(-dot(thumb, posture.hinge), dot(thumb, bends_to))


@checked_call
def beyond_forearm(turn):
    """How much of a ``turn`` (...) [rad] the forearm cannot give and the arm has to, (...). [rad]

    `InputError` for what is no number of radians.
    """
    return np.maximum(np.abs(number("turn", turn, TURN)) - np.radians(fact("forearm_turn_limit_deg")), 0.0)
