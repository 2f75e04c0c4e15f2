"""Who can hold the shoulder blade: lengths of the girdle's muscles and moment arms about the sternoclavicular (SC) joint.

The girdle with the arm hangs on the trunk at the SC joint. Muscles from the trunk to the scapula act on it directly;
latissimus dorsi and pectoralis major, where they start at the trunk, act through the humerus, by the line of their path.
What starts on the collarbone pulls girdle and arm together and has no arm about the SC joint. Everything is seen from the
GH centre where it stands. Landmarks and joint are from memory in part (ML): signs and order count, not millimetres.
"""

from functools import cache

import numpy as np

from ..mechanics.statics import girdle_components
from ..mechanics.vectors import cross, dot
from ..tables import read_table
from .paths import path_sets


@cache
def girdle_muscles():
    """Names of the muscles from trunk to girdle, in the table's order."""
    return tuple(row["muscle"] for row in read_table("girdle.csv"))


@cache
def girdle_landmarks():
    """Origins and insertions of the girdle muscles, two arrays (muscle, 3). [m]"""
    rows = read_table("girdle.csv")
    return tuple(
        np.array([[float(row[f"{end}_{k}"]) for k in "xyz"] for row in rows]) for end in ("origin", "insertion")
    )


@cache
def girdle_ranges():
    """How far each girdle muscle's landmarks may be off, (muscle,). [m]"""
    return np.array([float(row["range_mm"]) / 1000 for row in read_table("girdle.csv")])


def girdle_paths(scapula, girdle, ends=None):
    """Lengths (..., muscle) and retraction and depression arms (..., muscle, 2) of the muscles from trunk to girdle. [m]

    Parameters
    ----------
    scapula : ndarray, shape (..., 3, 3)
        Axes as columns.
    girdle : mechanics.GirdlePosture
    ends : tuple of ndarray, optional
        Origins and insertions, `girdle_landmarks` by default; straight lines run between them. [m]
    """
    origin, insertion = girdle_landmarks() if ends is None else ends
    attached = np.einsum("...ij,mj->...mi", scapula, insertion)
    line = (origin - girdle.gh[..., None, :]) - attached
    length = np.sqrt(dot(line, line))
    arms = girdle_components(cross(attached - girdle.sc[..., None, :], line / length[..., None]))
    return length, arms


def through_humerus_arms(humerus, torque, girdle, sets=None):
    """Retraction and depression arms of the muscles from trunk to humerus, (..., shoulder muscle, 2). [m]

    Parameters
    ----------
    humerus : ndarray, shape (..., 3, 3)
        Axes as columns.
    torque : ndarray, shape (..., shoulder muscle, 3) [m]
        That of `paths.paths` for the same posture and ``sets``.
    girdle : mechanics.GirdlePosture
    sets : tuple of PathSet, optional
        Those of `paths.path_sets` by default.

    Notes
    -----
    0 for muscles with other origins. A path of pull per newton t about the GH centre lies on a line through its origin O with the
    direction (t × O) / O² + s sqrt(1 - t² / O²) O / |O|, so its moment about the SC joint follows.
    """
    arms = np.zeros((*torque.shape[:-1], 2))
    thorax = (path_sets() if sets is None else sets)[0]
    origin = thorax.origin - girdle.gh[..., None, :]
    squared = dot(origin, origin)
    insertion = np.einsum("...ij,mj->...mi", humerus, thorax.insertion)
    outward = np.where(dot(insertion, origin) < squared, 1.0, -1.0)
    arm = torque[..., thorax.columns, :]
    along = outward * np.sqrt(np.maximum(1.0 - dot(arm, arm) / squared, 0.0) / squared)
    pull = cross(arm, origin) / squared[..., None] + along[..., None] * origin
    arms[..., thorax.columns, :] = girdle_components(cross(origin - girdle.sc[..., None, :], pull))
    return arms
