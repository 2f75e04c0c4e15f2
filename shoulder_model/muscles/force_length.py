"""How long the muscles' fibres are in a posture, and what that leaves of their force.

Tendons are taken as stiff, so fibres take up all of a path's change in length. Measured
latissimus fascicles are 26.4 ± 1.0 cm long and work on the plateau and the descending limb over shoulder
motion (J Anat 2013;223:112, read, pages from memory); that the arm hangs where they are at their optimum is our assumption.
For the others the optimum is put at 45° of elevation in the scapular plane with the girdle at rest, for those that cross
the elbow at 90° of its flexion; fibre lengths and their marks stand in ``data/capacity.csv``.

    fibre length = 1 + (path length - path length at the optimum) / optimal fibre length
    force factor = exp(-(fibre length - 1)² / shape)         shape 0.45: J Biomech Eng 2003;125:70 (from memory)
"""

from functools import cache

import numpy as np

from ..inputs import Allowed, InputError, checked_call, number
from ..mechanics import girdle_at, raised_arm
from ..people import Lifter
from ..sources import fact
from .elbow import POLYNOMIALS, elbow_excursion
from .girdle import girdle_muscles, girdle_paths
from .paths import paths, shoulder_muscles
from .scapula import SCAPULAR_PLANE, turned_scapula
from .table import LAT, MUSCLES, optimal_fibres

HANGING, HALF_RAISED = (0.0, 0.0), (np.pi / 4, SCAPULAR_PLANE)
HALF_BENT = np.pi / 2
LENGTH = Allowed(-2.0, 2.0, "m", "give lengths of muscles in metres")
RATIO = Allowed(-100.0, 100.0, "", "1 is the optimum")


@cache
def _own_reference_length():
    return reference_length(None, None)


def reference_length(sets=None, ends=None, rhythm=1.0):
    """Length of every muscle where its fibres are at their optimum, (muscle,). [m]

    ``sets`` as of `paths.path_sets` and ``ends`` as of `girdle.girdle_landmarks`, which are taken without them; ``rhythm``
    (a ratio) as of `scapula.upward_rotation`.
    """
    half_raised = turned_scapula(*HALF_RAISED, rhythm=rhythm)
    hanging = paths(raised_arm(*HANGING), turned_scapula(*HANGING), sets)[0]
    raised = paths(raised_arm(*HALF_RAISED), half_raised, sets)[0]
    at_rest = girdle_at(Lifter.average("men"), 0.0, 0.0)  # lengths do not depend on whose collarbone it is
    girdle = girdle_paths(half_raised, at_rest, ends)[0]
    shoulder = np.where(np.isin(shoulder_muscles(), LAT), hanging, raised)
    lengths = np.array([elbow_excursion(name, HALF_BENT) if name in POLYNOMIALS else 0.0 for name in MUSCLES])
    lengths[: len(shoulder)] += shoulder
    lengths[len(MUSCLES) - len(girdle_muscles()) :] = girdle
    return lengths


@checked_call
def fibre_length(length, reference=None, optimum=None):
    """Fibre length over its optimum, a ratio (..., muscle).

    Parameters
    ----------
    length : ndarray, shape (..., muscle) [m]
        ``muscle_length`` of a rep, or its first muscles; of `paths.paths`, which leaves the elbow out, only
        those that do not cross the elbow are right.
    reference : ndarray, shape (muscle,), optional
        `reference_length` of another body. [m]
    optimum : ndarray, shape (muscle,), optional
        Optimal fibre lengths of another body. [m]

    Raises
    ------
    InputError
        What is no length in metres, or more lengths than there are muscles.
    """
    length = np.asarray(number("length", length, LENGTH))
    count = length.shape[-1] if length.ndim else 0
    if not 0 < count <= len(MUSCLES):
        raise InputError(
            "length", f"length has shape {length.shape}; give 1 to {len(MUSCLES)} muscles on the last axis"
        )
    reference = _own_reference_length() if reference is None else reference
    optimum = optimal_fibres() if optimum is None else optimum
    return 1.0 + (length - reference[:count]) / optimum[:count]


@checked_call
def force_length_factor(normal_length):
    """Share of the isometric force that is left at a fibre length over its optimum, (...) a ratio, 0 to 1.

    ``normal_length`` (...) as of `fibre_length`; `InputError` for what is no ratio. Shape of the curve: J Biomech Eng 2003;125:70 (from memory).

    >>> float(force_length_factor(1.0))
    1.0
    """
    return np.exp(
        -((np.asarray(number("normal_length", normal_length, RATIO)) - 1.0) ** 2) / fact("force_length_shape")
    )
