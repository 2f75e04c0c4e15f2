"""Who does how much of a pull: the table a coach pins to the wall, in two kinds of figure.

- work: what muscles put into the rep, force times shortening [J] (`work_done`), as shares of all that is put in; muscles
  that are lengthened while they pull take some out again, and are named apart.
- active muscle: activation × cross-section, averaged over the rep [cm²]: how much muscle is switched on for how long,
  whether it shortens or holds.

Both are taken over the counted part of the rep, at a set part of its largest load, so pulls are compared at equal effort.
Two more things are open, and the span of the answer holds both: whether the shoulder is balanced in the plane of pull (the
planar model's own balance, and the value) or about all axes, and the muscles themselves: random bodies, with cross-sections
over their sources' range and landmarks moved by half of theirs. Which muscles share is an assumption of its own that the
span does not hold (least sum of squared activations, each weighed by its cross-section).
"""

from dataclasses import dataclass, replace
from functools import cache, lru_cache
from typing import NamedTuple

import numpy as np

from ..inputs import Allowed, InputError, checked_call, choice, flag, scalar, thing, vectors
from ..mechanics import rep_mechanics
from ..muscles import LAT, MUSCLES, Body, drawn_bodies, muscle_geometry, reference_body
from ..people import one_person
from .balance import BALANCES
from .counted_part import a_rep, counted_mean, first_counted
from .options import RepOptions, options_of
from .rep_and_sweep import one_value_each
from .supply import largest_loads, supply
from .work_done import elbow_leverage, tension_work

GROUP_MUSCLES = {  # muscle group as a coach means it -> its muscles; all of them, each once
    "lat": LAT,
    "teres major": ("teres major",),
    "rear deltoid": ("deltoid posterior",),
    "mid-back": ("trapezius upper", "trapezius middle", "trapezius lower", "rhomboids"),
    "elbow flexors": ("biceps brachii", "brachialis", "brachioradialis"),
    "pectoralis major": ("pectoralis major clavicular", "pectoralis major sternal", "pectoralis major costal"),
    "front and side deltoid": ("deltoid anterior", "deltoid middle"),
    "rotator cuff": ("infraspinatus", "teres minor", "subscapularis", "supraspinatus"),
    "triceps": ("triceps long head", "triceps short heads"),
    "serratus, pectoralis minor, others": (
        "serratus anterior",
        "pectoralis minor",
        "levator scapulae",
        "coracobrachialis",
    ),
}
KINDS = ("work", "active muscle")
EFFORT = Allowed(0.05, 0.95, "of the largest load", "give the share of the largest load, below 1")
AMOUNT = Allowed(-1e9, 1e9, "", "give one number a muscle, all of one unit")
BODIES, SEED = 40, 20
BAND = (5, 95)  # percentiles of the random bodies
POINTS = 21


class Share(NamedTuple):
    """One group's share, 0 to 1: the planar balance's ``value``, that of ``all_axes``, and the span ``low`` to ``high``."""

    value: float
    all_axes: float
    low: float
    high: float


@dataclass(frozen=True)
class Shares:
    """Who does how much of one pull.

    ``kind`` one of `KINDS`; ``of`` group -> `Share`, 1 in sum; ``taken_out`` group -> `Share` of negative work over all that
    is put in, 0 or less; ``load_kg`` on the bar by balance, at which they were taken.
    """

    kind: str
    of: dict
    taken_out: dict
    load_kg: dict


@checked_call
def active_cross_section(rep, body=None):
    """Activation × PCSA averaged over the counted part of a rep, (..., muscle). [cm²]

    Parameters
    ----------
    rep : xarray.Dataset
        Of `rep_and_sweep.rep` or `sweep`, with work.
    body : muscles.Body, optional
        The reference body by default.
    """
    body = reference_body() if body is None else thing("body", body, Body)
    active = a_rep(rep, "activation").activation.transpose(..., "point", "muscle").values
    return counted_mean(active) * body.cross_section


@checked_call
def group_shares(amounts):
    """What each group puts in and takes out, as shares of all that is put in: two dicts of arrays (...), without unit.

    ``amounts`` (..., muscle) of one unit, such as `active_cross_section` [cm²] or muscles' work [J]. A muscle's sign decides.
    `InputError` for what is no such array, or where nothing is put in.
    """
    amounts = vectors("amounts", amounts, AMOUNT, len(MUSCLES))
    put_in, taken_out = np.maximum(amounts, 0.0), np.minimum(amounts, 0.0)
    if not np.all(put_in.sum(axis=-1)):
        raise InputError("amounts", "amounts: nobody puts anything in, so there are no shares; give some above zero")
    total = put_in.sum(axis=-1)
    return tuple(
        {group: signed[..., _places(group)].sum(axis=-1) / total for group in GROUP_MUSCLES}
        for signed in (put_in, taken_out)
    )


@cache
def _places(group):
    return [MUSCLES.index(name) for name in GROUP_MUSCLES[group]]


@cache
def _bodies():
    return drawn_bodies(BODIES, SEED)


@checked_call
def muscle_shares(lifter, pull, *, kind="work", effort=0.5, band=True, strength=None):
    """Who does how much of one rep, by muscle group.

    Parameters
    ----------
    lifter : people.Lifter
        One lifter.
    pull : mechanics.Pull
        Its own load does not matter.
    kind : "work" or "active muscle"
    effort : float
        Load over the rep's largest one, in the same balance, 0.05 to 0.95.
    band : bool
        False takes the reference body alone, about 20 times faster; the span is then that of the two balances.
    strength : muscles.Strength or float, optional
        As `rep_and_sweep.rep` takes it; without it that of the lifter's sex.

    Returns
    -------
    Shares

    Raises
    ------
    InputError
        What is not of its kind or outside its range; a crowd; there is a point where the model cannot hold even the arm.

    Notes
    -----
    A random body that cannot hold the load somewhere counts with what it has there, at its own limit.
    """
    one_person(lifter, "a share of the work")
    choice("kind", kind, KINDS)
    effort, band = scalar("effort", effort, EFFORT), flag("band", band)
    one_value_each(pull)
    strength = options_of({"strength": strength}).strength
    if np.ndim(strength) or (strength is not None and np.ndim(getattr(strength, "factor", 1.0))):
        raise InputError("strength", "strength has several values; give that of one lifter")
    load_kg, amounts = _of_bodies(lifter, pull, effort, band, strength)
    in_balance = [group_shares(amounts[balance][KINDS.index(kind)]) for balance in BALANCES]
    put_in, taken_out = (
        {group: _share(*(of[i][group] for of in in_balance)) for group in GROUP_MUSCLES} for i in (0, 1)
    )
    return Shares(kind, put_in, {group: share for group, share in taken_out.items() if share.low < 0}, dict(load_kg))


@lru_cache(maxsize=128)  # a table of shares asks for the same reps once a kind, a chapter once a section
def _of_bodies(lifter, pull, effort, band, strength):
    """By balance: the load on the bar [kg], and what every muscle of every body does in each of `KINDS`, (kind, body, muscle)."""
    bodies, load_kg, amounts = [reference_body(), *(_bodies() if band else ())], {}, {}
    whole = rep_mechanics(lifter, pull, POINTS)  # of every body, at any load
    geometries = [muscle_geometry(whole.posture, whole.path.girdle, body) for body in bodies]
    for balance in BALANCES:
        held = RepOptions(points=POINTS, balance=balance, strength=strength)
        along = largest_loads(lifter, pull, whole, geometries[0], held)
        load_kg[balance] = effort * float(along[first_counted(POINTS) :].min())
        if not np.isfinite(load_kg[balance]):
            raise InputError(
                "pull", f"pull {pull.name}: there is a point where the model cannot hold even the arm; change it"
            )
        loaded = pull.change(load_kg=load_kg[balance])
        of_bodies = np.array(
            [
                _amounts(lifter, loaded, whole, geometry, replace(held, body=body))
                for geometry, body in zip(geometries, bodies, strict=True)
            ]
        )
        amounts[balance] = np.moveaxis(of_bodies, 1, 0)
        amounts[balance].setflags(write=False)
    return load_kg, amounts


def _amounts(lifter, pull, whole, geometry, options):
    """Every muscle's work [J] and active cross-section [cm²], in the order of `KINDS`, each (muscle,)."""
    supplied, first = supply(lifter, pull, whole, geometry, options), first_counted(POINTS)
    arms = geometry.shoulder_arm, geometry.elbow_arm, geometry.girdle_arm
    turns = whole.turns.shoulder, whole.turns.elbow, whole.turns.girdle
    at_elbow = elbow_leverage(pull, options.strength_of(lifter).elbow)
    work = tension_work(supplied.activation * supplied.capacity, arms, turns, geometry.length, at_elbow, first)
    return work.sum(axis=1), counted_mean(supplied.activation) * options.body_of().cross_section


def _share(*of_bodies):
    """The `Share` from one array (body,) for each balance, the reference body first."""
    ends = [np.percentile(values, BAND) for values in of_bodies]
    plane, all_axes = (float(values[0]) for values in of_bodies)
    low, high = min(plane, all_axes, *(end[0] for end in ends)), max(plane, all_axes, *(end[1] for end in ends))
    return Share(plane, all_axes, float(low), float(high))
