"""Moment arms of the muscles that cross the elbow, by published polynomials of its flexion.

    arm(a) = c0 + c1 a + ... + c5 a^5        [cm], a in radians, positive flexes
    excursion(a) = - integral of arm from 0 to a

Coefficients stand in ``data/elbow_polynomials.csv`` (mark U: their paper cannot be located). Their
peaks agree with 4.7 cm (biceps) and 7.7 cm (brachioradialis), J Biomech 1995;28:513 (from memory, MM).
"""

import numpy as np

from ..inputs import Allowed, InputError, checked_call, choice, echo, number
from ..people import ELBOW_LIMIT
from ..tables import read_table
from .table import MUSCLES

POLYNOMIALS = {  # coefficients of 1, a, a², ... [cm]
    row["muscle"]: tuple(float(row[f"c{power}"]) for power in range(6)) for row in read_table("elbow_polynomials.csv")
}
EXCURSIONS = {  # the same of what a muscle gets longer by, from a straight elbow
    name: tuple(-np.polynomial.polynomial.polyint(coefficients)) for name, coefficients in POLYNOMIALS.items()
}
FLEXION = Allowed(0.0, ELBOW_LIMIT, "rad", "an elbow cannot bend that far")
WALKED = Allowed(-0.1, ELBOW_LIMIT + 0.1, "rad", FLEXION.advice)  # a rep may be a little past the limit
FLEXORS = ("biceps brachii", "brachialis", "brachioradialis")


@checked_call
def elbow_moment_arm(name, flexion):
    """Moment arm of the muscle ``name`` about the elbow at ``flexion`` (...) [rad], positive for flexors. (...) [m]

    Raises `InputError` for another muscle than those of `POLYNOMIALS`, or a flexion beyond 143°.

    >>> float(round(100 * elbow_moment_arm("biceps brachii", 0.0), 3))
    1.963
    """
    flexion = number("flexion", flexion, FLEXION)
    return _arm(choice("muscle", name, tuple(POLYNOMIALS)), flexion)


def _arm(name, flexion):
    return np.polynomial.polynomial.polyval(flexion, POLYNOMIALS[name]) / 100


@checked_call
def elbow_excursion(name, flexion):
    """How much longer the muscle ``name`` is at ``flexion`` (...) [rad] than with a straight elbow. (...) [m]

    Raises as `elbow_moment_arm`.
    """
    flexion = number("flexion", flexion, FLEXION)
    return _excursion(choice("muscle", name, tuple(POLYNOMIALS)), flexion)


def _excursion(name, flexion):
    return np.polynomial.polynomial.polyval(flexion, EXCURSIONS[name]) / 100


@checked_call
def elbow_excursions(names, flexion):
    """`elbow_excursion` (..., muscle) of the muscles ``names`` at ``flexion`` (...) [rad], 0 for those that do not cross. [m]"""
    return _of_all(names, flexion, EXCURSIONS)


@checked_call
def elbow_arms(names, flexion):
    """Arms (..., muscle) of the muscles ``names`` at ``flexion`` (...) [rad], 0 for those that do not cross. [m]"""
    return _of_all(names, flexion, POLYNOMIALS)


def _of_all(names, flexion, polynomials):
    """Polynomials of the ``flexion`` (...) [rad] for ``names``, (..., muscle); their coefficients are in centimetres."""
    if not isinstance(names, (tuple, list)):
        raise InputError("names", f"names = {echo(names)}: give a list of names of muscles")
    for name in names if names is not MUSCLES else ():
        choice("names", name, MUSCLES)
    flexion = np.asarray(number("flexion", flexion, WALKED))
    values = np.zeros((*flexion.shape, len(names)))
    crossing = [i for i, name in enumerate(names) if name in polynomials]
    coefficients = np.array([polynomials[names[i]] for i in crossing]).T
    if crossing:
        values[..., crossing] = np.moveaxis(np.polynomial.polynomial.polyval(flexion, coefficients), 0, -1) / 100
    return values
