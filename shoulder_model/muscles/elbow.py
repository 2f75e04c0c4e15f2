"""Moment arms of the muscles that cross the elbow, by published polynomials of its flexion.

    arm(a) = c0 + c1 a + ... + c5 a^5        [cm], a in radians, positive flexes
    excursion(a) = - integral of arm from 0 to a

Coefficients stand in ``data/elbow_polynomials.csv`` (read; the paper they come from was not named there). Their
peaks agree with 4.7 cm (biceps) and 7.7 cm (brachioradialis), J Biomech 1995;28:513 (from memory, MM).
"""

import numpy as np

from ..inputs import Allowed, choice, number
from ..people import ELBOW_LIMIT
from ..tables import read_table

POLYNOMIALS = {  # coefficients of 1, a, a², ... [cm]
    row["muscle"]: tuple(float(row[f"c{power}"]) for power in range(6)) for row in read_table("elbow_polynomials.csv")
}
FLEXORS = ("biceps brachii", "brachialis", "brachioradialis")


def elbow_moment_arm(name, flexion):
    """Moment arm of the muscle ``name`` about the elbow at ``flexion`` (...) [rad], positive for flexors. (...) [m]

    Raises `InputError` for another muscle than those of `POLYNOMIALS`, or a flexion beyond 143°.

    >>> float(round(100 * elbow_moment_arm("biceps brachii", 0.0), 3))
    1.963
    """
    flexion = number("flexion", flexion, Allowed(0.0, ELBOW_LIMIT, "rad", "an elbow cannot bend that far"))
    return _arm(choice("muscle", name, tuple(POLYNOMIALS)), flexion)


def _arm(name, flexion):
    return np.polynomial.polynomial.polyval(flexion, POLYNOMIALS[name]) / 100


def elbow_excursion(name, flexion):
    """How much longer the muscle ``name`` is at ``flexion`` (...) [rad] than with a straight elbow. (...) [m]"""
    return -np.polynomial.polynomial.polyval(flexion, np.polynomial.polynomial.polyint(POLYNOMIALS[name])) / 100


def elbow_excursions(names, flexion):
    """`elbow_excursion` (..., muscle) of the muscles ``names`` at ``flexion`` (...) [rad], 0 for those that do not cross. [m]"""
    flexion = np.asarray(flexion, float)
    longer = [elbow_excursion(name, flexion) if name in POLYNOMIALS else 0.0 * flexion for name in names]
    return np.stack(longer, axis=-1)


def elbow_arms(names, flexion):
    """Arms (..., muscle) of the muscles ``names`` at ``flexion`` (...) [rad], 0 for those that do not cross. [m]"""
    flexion = np.asarray(flexion, float)
    return np.stack([_arm(name, flexion) if name in POLYNOMIALS else 0.0 * flexion for name in names], axis=-1)
