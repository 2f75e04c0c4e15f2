"""Who can hold the shoulder blade: lengths of the girdle's muscles and moment arms about the sternoclavicular (SC) joint.

The girdle with the arm hangs on the trunk at the SC joint. Muscles from the trunk to the scapula act on it directly;
latissimus dorsi and pectoralis major, where they start at the trunk, act through the humerus, by the line of their path.
What starts on the collarbone pulls girdle and arm together and has no arm about the SC joint. Everything is seen from the
GH centre where it stands. Landmarks and joint are from memory in part (ML): signs and order count, not millimetres.
"""

from functools import cache

import numpy as np

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
    attached = _turned(scapula, insertion)
    line = [
        start - shift - end
        for start, shift, end in zip(_still(origin, girdle.gh), _axes(girdle.gh), attached, strict=True)
    ]
    length = np.sqrt(_dot(line, line))
    return np.moveaxis(length, 0, -1), _arms(attached, girdle, [part / length for part in line])


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
    origin = [at - shift for at, shift in zip(_still(thorax.origin, girdle.gh), _axes(girdle.gh), strict=True)]
    squared, reached = _dot(origin, origin), _dot(_turned(humerus, thorax.insertion), origin)
    arm = np.moveaxis(torque[..., thorax.columns, :], (-1, -2), (0, 1))
    along = np.sqrt(np.maximum(1.0 - _dot(arm, arm) / squared, 0.0) / squared) * np.where(reached < squared, 1.0, -1.0)
    pull = [part / squared + along * at for part, at in zip(_cross(arm, origin), origin, strict=True)]
    arms[..., thorax.columns, :] = _arms(origin, girdle, pull)
    return arms


# Vectors of many muscles here are three arrays (muscle, ...), x, y and z: postures lie together in memory, and sums are
# written out (`mechanics.vectors` says why).


def _axes(v):
    """Three components (...) of vectors (..., 3)."""
    return v[..., 0], v[..., 1], v[..., 2]


def _still(points, like):
    """Components (muscle, 1, ...) of ``points`` (muscle, 3) beside postures ``like`` (..., 3)."""
    return points.T.reshape(3, -1, *[1] * (like.ndim - 1))


def _turned(axes, points):
    """Components (muscle, ...) of ``points`` (muscle, 3) of a bone with ``axes`` (..., 3, 3) as columns."""
    x, y, z = _still(points, axes[..., 0])
    return [row[..., 0] * x + row[..., 1] * y + row[..., 2] * z for row in np.moveaxis(axes, -2, 0)]


def _dot(p, q):
    return p[0] * q[0] + p[1] * q[1] + p[2] * q[2]


def _cross(p, q):
    return p[1] * q[2] - p[2] * q[1], p[2] * q[0] - p[0] * q[2], p[0] * q[1] - p[1] * q[0]


def _arms(at, girdle, pull):
    """Retraction and depression (..., muscle, 2) about the SC joint of a ``pull`` per newton ``at`` a place."""
    moment = _cross([place - sc for place, sc in zip(at, _axes(girdle.sc), strict=True)], pull)
    return np.moveaxis(np.stack([-moment[1], moment[0]]), (0, 1), (-1, -2))
