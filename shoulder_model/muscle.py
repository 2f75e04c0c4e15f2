"""Muscle paths, lengths and moment arms about the shoulder.

The three parts of latissimus dorsi pull in a straight line from an effective origin on the trunk
to their insertion on the humerus. The moment arm is the torque of a unit tension about each axis,
which is minus the slope of the path's length.
"""

from functools import cache

import numpy as np

from .arm import cross, dot, raised_arm
from .inputs import Allowed, choice, number
from .sources import read_table
from .statics import AXES, anatomical


@cache
def landmarks():
    """Origins and insertions: names, (muscle, 3) origins in thorax axes, (muscle, 3) insertions on the humerus. [m]

    Source and mark of each row stand in ``data/landmarks.csv``.
    """
    rows = read_table("landmarks.csv")
    ends = [
        np.array([[float(row[f"{end}_{axis}"]) for axis in "xyz"] for row in rows]) for end in ("origin", "insertion")
    ]
    return tuple(row["muscle"] for row in rows), *ends


def paths(humerus):
    """Lengths and moment arms of all muscles for humerus orientations.

    Parameters
    ----------
    humerus : ndarray, shape (..., 3, 3)
        Humerus axes as columns, in thorax axes.

    Returns
    -------
    length : ndarray, shape (..., muscle) [m]
    moment_arm : ndarray, shape (..., muscle, axis) [m]
        Positive where a pull of the muscle adducts, extends, abducts horizontally.
    """
    _, origins, insertions = landmarks()
    at = np.einsum("...ij,mj->...mi", humerus, insertions)
    line = origins - at
    length = np.sqrt(dot(line, line))
    return length, anatomical(cross(at, line) / length[..., None])


def moment_arm(name, elevation, plane, axis):
    """Moment arm of one muscle with the arm raised by ``elevation`` in ``plane``.

    Parameters
    ----------
    name : str
        A muscle of ``data/landmarks.csv``.
    elevation : float or ndarray
        Angle of the upper arm from hanging, 0 to π. [rad]
    plane : float or ndarray
        0 frontal (abduction), 90° sagittal (flexion). [rad]
    axis : "adduction", "extension" or "horizontal_abduction"

    Returns
    -------
    float or ndarray [m]
        Positive where the muscle's pull adducts (extends, ...).

    Examples
    --------
    >>> round(1000 * moment_arm("latissimus dorsi middle", 0.0, 0.0, "adduction"), 1)
    15.7
    """
    names = landmarks()[0]
    which = names.index(choice("muscle", name, names)), AXES.index(choice("axis", axis, AXES))
    elevation = number("elevation", elevation, Allowed(0.0, np.pi, "rad", "give radians from hanging"))
    plane = number("plane", plane, Allowed(-np.pi, np.pi, "rad", "0 is to the side, 90° to the front"))
    arm = paths(raised_arm(elevation, plane))[1][(..., *which)]
    return float(arm) if np.ndim(arm) == 0 else arm
