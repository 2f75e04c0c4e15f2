"""Moment arms of the muscles that cross the elbow, by published polynomials.

Of elbow flexion a [rad], in centimetres; they agree with measured peaks of 4.7 cm (biceps) and 7.7 cm
(brachioradialis), J Biomech 2000;33:943 (read). Positive flexes.
"""

import numpy as np

from .arm import ELBOW_LIMIT
from .inputs import Allowed, choice, number

POLYNOMIALS = {  # coefficients of 1, a, a², ... [cm]
    "biceps brachii": (1.963, -1.44, 3.031, 0.887, -1.418, 0.285),
    "brachialis": (1.554, 0.0813, -1.689, 3.523, -1.811, 0.276),
    "brachioradialis": (2.015, -0.458, 3.058, -1.081, 0.159, -0.0187),
    "triceps long head": (-2.365, -1.015, 1.92, -1.035, 0.257, -0.0262),
    "triceps short heads": (-2.365, -1.015, 1.92, -1.035, 0.257, -0.0262),
}


def elbow_moment_arm(name, flexion):
    """Moment arm about the elbow at ``flexion`` [rad], positive for flexors. [m]

    >>> float(round(100 * elbow_moment_arm("biceps brachii", 0.0), 3))
    1.963
    """
    flexion = number("flexion", flexion, Allowed(0.0, ELBOW_LIMIT, "rad", "an elbow cannot bend that far"))
    return _arm(choice("muscle", name, tuple(POLYNOMIALS)), flexion)


def _arm(name, flexion):
    return np.polynomial.polynomial.polyval(flexion, POLYNOMIALS[name]) / 100


def elbow_excursion(name, flexion):
    """How much longer the muscle is at ``flexion`` [rad] than with a straight elbow; minus the integral of its arm. [m]"""
    return -np.polynomial.polynomial.polyval(flexion, np.polynomial.polynomial.polyint(POLYNOMIALS[name])) / 100


def elbow_excursions(names, flexion):
    """`elbow_excursion` (..., muscle) of many muscles, 0 for those that do not cross the elbow. [m]"""
    flexion = np.asarray(flexion, float)
    found = [elbow_excursion(name, flexion) if name in POLYNOMIALS else 0.0 * flexion for name in names]
    return np.stack(found, axis=-1)


def elbow_arms(names, flexion):
    """Arms (..., muscle) of many muscles, 0 for those that do not cross the elbow. [m]"""
    flexion = np.asarray(flexion, float)
    return np.stack([_arm(name, flexion) if name in POLYNOMIALS else 0.0 * flexion for name in names], axis=-1)
