"""How long the muscles' fibres are in a posture, and what that leaves of their force.

Tendons are taken as stiff, so fibres take up all of a path's change in length. Measured
latissimus fascicles are 26.4 ± 1.0 cm long and work on the plateau and the descending limb over shoulder
motion (J Anat 2013;223:112, read, pages from memory); that the arm hangs where they are at their optimum is our assumption.
For the others the optimum is put at 45° of elevation in the scapular plane, for those that cross the elbow
at 90° of its flexion, with fibre lengths from memory (ML). Girdle muscles keep their length: the model's
blade does not travel.
"""

from functools import cache

import numpy as np

from .arm import raised_arm
from .elbow import POLYNOMIALS, elbow_excursion
from .muscle import names, paths
from .scapula import SCAPULAR_PLANE, turned_scapula
from .sources import read_table

WIDTH = 0.45  # of the bell curve, J Biomech Eng 2003;125:70 (from memory, MH)
HANGING, HALF_RAISED = (0.0, 0.0), (np.pi / 4, SCAPULAR_PLANE)
HALF_BENT = np.pi / 2


@cache
def muscle_table():
    """Rows of ``data/capacity.csv`` as dicts: size and fibre length of every muscle, with source and mark."""
    return tuple(read_table("capacity.csv"))


@cache
def modelled():
    """Names of the muscles whose length the model knows, in the table's order: all but the girdle's."""
    return tuple(row["muscle"] for row in muscle_table() if row["fibre_cm"])


@cache
def optimal_fibres():
    """Optimal fibre length (muscle,) of the `modelled` muscles. [m]"""
    return np.array([float(row["fibre_cm"]) / 100 for row in muscle_table() if row["fibre_cm"]])


@cache
def _own_reference_length():
    return reference_length(None)


def reference_length(table=None):
    """Length of every modelled muscle (muscle,) where its fibres are at their optimum, for a table of `muscle.groups`. [m]"""
    found = []
    for name in modelled():
        length = elbow_excursion(name, HALF_BENT) if name in POLYNOMIALS else 0.0
        if name in names():
            posture = HANGING if name.startswith("latissimus") else HALF_RAISED
            length += paths(raised_arm(*posture), turned_scapula(*posture), table)[0][names().index(name)]
        found.append(length)
    return np.array(found)


def fibre_length(length, reference=None):
    """Fibre length over its optimum, (..., muscle).

    Parameters
    ----------
    length : ndarray, shape (..., muscle) [m]
        ``muscle_length`` of a rep, or its first muscles; of `muscle.paths`, which leaves the elbow out, only
        those that do not cross the elbow are right. Girdle muscles at the end keep 1.
    reference : ndarray, shape (modelled muscle,), optional
        `reference_length` of another body. [m]
    """
    length = np.asarray(length, float)
    count = min(length.shape[-1], len(modelled()))
    reference = _own_reference_length() if reference is None else reference
    found = np.ones(length.shape)
    found[..., :count] += (length[..., :count] - reference[:count]) / optimal_fibres()[:count]
    return found


def force_length_factor(normal_length):
    """Share of the isometric force that is left at a fibre length over its optimum, 0 to 1.

    >>> float(force_length_factor(1.0))
    1.0
    """
    return np.exp(-(((np.asarray(normal_length) - 1.0) / WIDTH) ** 2))
