"""How hard each muscle can pull: cross-section × specific tension × length factor × the lifter's strength factor.

    capacity = PCSA [cm²] · 26.8 N/cm² · force-length factor · strength factor

Strength factor 1 is the table's young adult, average of both sexes (``data/capacity.csv``). Muscles at the
elbow get a second factor: their table sizes, and the forearm muscles that the model leaves out, give only a
part of the elbow flexion torque that people were measured to make.
"""

from dataclasses import dataclass

import numpy as np

from ..inputs import Allowed, InputError, checked_call, fitting, number, text, thing, vectors
from ..people import a_lifter, survey
from ..sources import constant, fact
from .body import Body, reference_body
from .force_length import LENGTH, fibre_length, force_length_factor
from .table import MUSCLES, cross_sections

FACTOR = Allowed(0.01, 30.0, "", "1 is the strength of the table's young adult; strong lifters have 2 to 5")


@checked_call
@dataclass(frozen=True)
class Strength:
    """How strong a lifter is against the table's adult, and how well that is known.

    ``factor`` scales every muscle, with ``low`` and ``high`` its band; ``elbow`` scales in addition what
    muscles do at the elbow; ``known_from`` says in words what it rests on. Numbers or arrays (n,).
    `InputError` where one is no number, lies outside its range, or where the band leaves the factor out.
    """

    factor: float
    low: float
    high: float
    elbow: float
    known_from: str

    def __post_init__(self):
        for name in ("factor", "low", "high", "elbow"):
            object.__setattr__(self, name, number(name, getattr(self, name), FACTOR))
        text("known_from", self.known_from)
        fitting(factor=self.factor, low=self.low, high=self.high, elbow=self.elbow)
        if np.any(np.asarray(self.low) > self.factor) or np.any(np.asarray(self.high) < self.factor):
            raise InputError("factor", "factor lies outside its own band; give low <= factor <= high")

    @checked_call
    def times(self, change, low, high, known_from):
        """This strength with its factor times ``change``, and its band from ``low`` to ``high`` times it; all ratios.

        ``known_from`` says in words what the new one rests on.
        """
        change, low, high = number("change", change, FACTOR), number("low", low, FACTOR), number("high", high, FACTOR)
        return Strength(self.factor * change, self.factor * low, self.factor * high, self.elbow, known_from)


@checked_call
def expected_strength(lifter):
    """The `Strength` of a ``lifter`` of whom nothing but sex and body mass is known: that of college lifters.

    Their one-repetition maximum in the pulldown was 0.93 ± 0.17 (men) and 0.55 ± 0.11 (women) of body mass
    (J Strength Cond Res 2009;23(3):1022-1028); the factors that make the model's mean man and woman hold that
    load are kept in ``data/facts.csv`` and made again by `repetition.strength.calibrated`. The band is ± 2 SD of people.

    >>> from shoulder_model import Lifter
    >>> man = expected_strength(Lifter.average("men"))
    >>> man.low < man.factor < man.high
    True
    """
    sex = a_lifter(lifter).sex
    known, spread = (constant(f"{name}_{sex}") for name in ("pulldown_strength", "pulldown_1rm_of_mass"))
    factor = known.value * lifter.mass / survey(lifter.sex).mean_of("mass")
    low, high = spread.low / spread.value, spread.high / spread.value
    words = f"sex and body mass alone (college lifters, {lifter.sex})"
    return Strength(factor, factor * low, factor * high, fact("elbow_over_shoulder_strength"), words)


@checked_call
def capacity(length, factor=1.0, body=None):
    """Largest isometric force of every muscle, (..., muscle). [N]

    Parameters
    ----------
    length : ndarray, shape (..., muscle) [m]
        As ``muscle_length`` of a rep.
    factor : float or ndarray, shape (...)
        The lifter's strength factor.
    body : body.Body, optional
        The reference body by default.

    Raises
    ------
    InputError
        Another number of muscles, a value outside its range, a body that is none.

    Notes
    -----
    Isometric: nothing is taken off for the speed of a rep, nothing added for stretch.
    """
    body = reference_body() if body is None else thing("body", body, Body)
    length, factor = vectors("length", length, LENGTH, len(MUSCLES)), number("factor", factor, FACTOR)
    fitting(length=length[..., 0], factor=factor)
    share = force_length_factor(fibre_length(length, body.reference_length, body.fibres))
    return body.cross_section * fact("specific_tension") * share * np.asarray(factor)[..., None]


@checked_call
def capacity_band(length, strength):
    """Smallest and largest capacity that the sources leave open, two arrays (..., muscle). [N]

    Every factor at its end at once: cross-sections, specific tension, the lifter's strength. So no result should
    be expected at either end; bands of results come from random bodies (`body.drawn_bodies`).

    Parameters
    ----------
    length : ndarray, shape (..., muscle) [m]
        As ``muscle_length`` of a rep.
    strength : Strength

    Returns
    -------
    smallest, largest : ndarray, shape (..., muscle) [N]
    """
    thing("strength", strength, Strength, "sm.expected_strength(lifter)")
    tension, (size, *ends) = constant("specific_tension"), cross_sections()
    middle = capacity(length) / size / tension.value
    sides = zip(ends, (tension.low, tension.high), (strength.low, strength.high), strict=True)
    return tuple(middle * end * stress * np.asarray(factor)[..., None] for end, stress, factor in sides)
