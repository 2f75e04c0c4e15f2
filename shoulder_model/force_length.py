"""How long the muscles' fibres are in a posture, and what that leaves of their force.

Tendons are taken as stiff, so fibres take up all of a path's change in length. Measured
latissimus fascicles are 26.4 ± 1.0 cm long and work on the plateau and the descending limb over shoulder
motion (Gerling & Brown 2013, read); that the arm hangs where they are at their optimum is our assumption.
For the others the optimum is put at 45° of elevation in the scapular plane, with fibre lengths from
memory (ML).
"""

from functools import cache

import numpy as np

from .arm import raised_arm
from .muscle import landmarks, names, paths
from .scapula import SCAPULAR_PLANE, turned_scapula

WIDTH = 0.45  # of the bell curve, J Biomech Eng 2003;125:70 (from memory, MH)
HANGING, HALF_RAISED = (0.0, 0.0), (np.pi / 4, SCAPULAR_PLANE)


@cache
def optimal_fibres():
    """Optimal fibre length of every shoulder muscle (muscle,). [m]"""
    return np.array([float(row["fibre_cm"]) / 100 for row in landmarks()])


@cache
def _reference_length():
    postures = [HANGING if name.startswith("latissimus") else HALF_RAISED for name in names()]
    lengths = [paths(raised_arm(*posture), turned_scapula(*posture))[0][i] for i, posture in enumerate(postures)]
    return np.array(lengths)


def fibre_length(path_length):
    """Fibre length over its optimum (..., muscle) for path lengths (..., muscle) [m] of `muscle.paths`."""
    return 1.0 + (path_length - _reference_length()) / optimal_fibres()


def force_length_factor(normal_length):
    """Share of the isometric force that is left at a fibre length over its optimum, 0 to 1.

    >>> float(force_length_factor(1.0))
    1.0
    """
    return np.exp(-(((np.asarray(normal_length) - 1.0) / WIDTH) ** 2))
