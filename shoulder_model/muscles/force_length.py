"""How long the muscles' fibres are in a posture, and what that leaves of their force.

Tendons are taken as stiff, so fibres take up all of a path's change in length. Measured
latissimus fascicles are 26.4 ± 1.0 cm long and work on the plateau and the descending limb over shoulder
motion (J Anat 2013;223:112, read, pages from memory); that the arm hangs where they are at their optimum is our assumption.
For the others the optimum is put at 45° of elevation in the scapular plane, for those that cross the elbow
at 90° of its flexion, with fibre lengths from memory (ML). Girdle muscles keep their length: the model's
blade does not travel.

    fibre length = 1 + (path length - path length at the optimum) / optimal fibre length
    force factor = exp(-((fibre length - 1) / width)²)         width: J Biomech Eng 2003;125:70 (from memory)
"""

from functools import cache

import numpy as np

from ..mechanics import raised_arm
from ..sources import fact
from .elbow import POLYNOMIALS, elbow_excursion
from .paths import paths, shoulder_muscles
from .scapula import SCAPULAR_PLANE, turned_scapula
from .table import LAT, modelled, optimal_fibres

HANGING, HALF_RAISED = (0.0, 0.0), (np.pi / 4, SCAPULAR_PLANE)
HALF_BENT = np.pi / 2


@cache
def _own_reference_length():
    return reference_length(None)


def reference_length(sets=None):
    """Length of every modelled muscle where its fibres are at their optimum, (muscle,). [m]

    ``sets`` as of `paths.path_sets`, which are taken without it.
    """
    lengths = []
    for name in modelled():
        length = elbow_excursion(name, HALF_BENT) if name in POLYNOMIALS else 0.0
        if name in shoulder_muscles():
            posture = HANGING if name in LAT else HALF_RAISED
            lengths_there = paths(raised_arm(*posture), turned_scapula(*posture), sets)[0]
            length += lengths_there[shoulder_muscles().index(name)]
        lengths.append(length)
    return np.array(lengths)


def fibre_length(length, reference=None):
    """Fibre length over its optimum, a ratio (..., muscle).

    Parameters
    ----------
    length : ndarray, shape (..., muscle) [m]
        ``muscle_length`` of a rep, or its first muscles; of `paths.paths`, which leaves the elbow out, only
        those that do not cross the elbow are right. Girdle muscles at the end keep 1.
    reference : ndarray, shape (modelled muscle,), optional
        `reference_length` of another body. [m]
    """
    length = np.asarray(length, float)
    count = min(length.shape[-1], len(modelled()))
    reference = _own_reference_length() if reference is None else reference
    normal_length = np.ones(length.shape)
    normal_length[..., :count] += (length[..., :count] - reference[:count]) / optimal_fibres()[:count]
    return normal_length


def force_length_factor(normal_length):
    """Share of the isometric force that is left at a fibre length over its optimum, (...) a ratio, 0 to 1.

    ``normal_length`` (...) as of `fibre_length`. Width of the curve: J Biomech Eng 2003;125:70 (from memory).

    >>> float(force_length_factor(1.0))
    1.0
    """
    return np.exp(-(((np.asarray(normal_length) - 1.0) / fact("force_length_width")) ** 2))
