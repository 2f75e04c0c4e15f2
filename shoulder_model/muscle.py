"""Muscle paths about the shoulder: each in its own plane through the joint centre.

A path runs from its origin (thorax or scapula) to its insertion (humerus). It is the straight line,
or hugs a sphere about the GH centre where the straight line would cut it. All of it lies in the plane
of origin, insertion and centre, so with ``o`` and ``i`` the distances of the two ends, ``c`` the dot
product of their positions and ``R`` the sphere's radius

    straight:  length = sqrt(o² + i² - 2 c)               moment arm = distance of the line
    wrapped:   length = sqrt(o² - R²) + sqrt(i² - R²) + R arc      moment arm = R

about the plane's normal; ``arc`` is the angle between the ends less arccos(R / o) and arccos(R / i).
It goes the shorter way round. The moment arm is minus the slope of the length about every axis.
"""

from dataclasses import dataclass
from functools import cache

import numpy as np

from .arm import raised_arm
from .inputs import Allowed, choice, number
from .scapula import turned_scapula
from .sources import read_table
from .statics import AXES, anatomical

MUSCLE_AXES = (*AXES, "internal_rotation")
BLOCK = 2048  # postures worked on at once, so that the arrays stay in cache
TINY = 1e-12


@dataclass(frozen=True)
class Group:
    """Muscles whose origins share a frame; arrays over muscles. Lengths in metres."""

    rows: np.ndarray
    origin: np.ndarray
    insertion: np.ndarray
    wrap: np.ndarray

    @property
    def ends(self):
        """Distances of origin and insertion from the GH centre."""
        return np.linalg.norm(self.origin, axis=-1), np.linalg.norm(self.insertion, axis=-1)


@cache
def landmarks():
    """Rows of ``data/landmarks.csv`` as dicts: every path with its ends, sphere, size, source and mark."""
    return tuple(read_table("landmarks.csv"))


@cache
def names():
    """Names of the muscles that cross the shoulder, in the table's order."""
    return tuple(row["muscle"] for row in landmarks())


@cache
def groups():
    """The table's muscles by the frame of their origin: thorax, scapula."""
    return tuple(group_of(landmarks(), frame) for frame in "ts")


def group_of(rows, frame):
    """The rows of one frame ("t" thorax, "s" scapula) as a `Group`."""
    mine = [i for i, row in enumerate(rows) if row["frame"] == frame]

    def points(end):
        return np.array([[float(rows[i][f"{end}_{axis}"]) for axis in "xyz"] for i in mine]).reshape(-1, 3)

    wrap = np.array([float(rows[i]["wrap"]) for i in mine])
    group = Group(np.array(mine, dtype=int), points("origin"), points("insertion"), wrap)
    inside = [rows[mine[k]]["muscle"] for k in np.flatnonzero(np.minimum(*group.ends) <= wrap)]
    if inside:
        raise ValueError(f"{', '.join(inside)}: origin or insertion lies inside the sphere; make the sphere smaller")
    return group


def _turn(rotation, points):
    """Components (3, n, muscle) of points (muscle, 3) turned by rotations (n, 3, 3)."""
    return (rotation.reshape(-1, 3) @ points.T).reshape(len(rotation), 3, len(points)).swapaxes(0, 1)


def _dot(p, q):
    return p[0] * q[0] + p[1] * q[1] + p[2] * q[2]


def _paths(group, origin, insertion):
    """Length (n, muscle) and torque of a unit tension, three arrays (n, muscle), of one group."""
    oo, ii, rr = (np.square(distance) for distance in (*group.ends, group.wrap))
    c = _dot(origin, insertion)
    normal = (
        insertion[1] * origin[2] - insertion[2] * origin[1],
        insertion[2] * origin[0] - insertion[0] * origin[2],
        insertion[0] * origin[1] - insertion[1] * origin[0],
    )
    length_squared = np.maximum(oo + ii - 2 * c, TINY)
    length = np.sqrt(length_squared)
    per_normal = 1.0 / length
    area_squared = np.maximum(oo * ii - c * c, TINY)
    wrapped = (area_squared < rr * length_squared) & (c < np.minimum(oo, ii))  # the line cuts the sphere between its ends
    at = np.nonzero(wrapped)
    if at[0].size:
        length[at], per_normal[at] = _around(group, at[-1], c[at], area_squared[at])
    return length, [part * per_normal for part in normal]


def _around(group, muscle, c, area_squared):
    """Length, and radius over the area of the ends' parallelogram, of paths that hug their sphere."""
    o, i = group.ends
    radius, area = group.wrap[muscle], np.sqrt(area_squared)
    free = np.sqrt(np.maximum(o**2 - group.wrap**2, 0.0)) + np.sqrt(np.maximum(i**2 - group.wrap**2, 0.0))
    tangents = np.arccos(np.minimum(group.wrap / o, 1.0)) + np.arccos(np.minimum(group.wrap / i, 1.0))
    return free[muscle] + radius * (np.arctan2(area, c) - tangents[muscle]), radius / area


def paths(humerus, scapula, table=None):
    """Lengths of all muscles and the torque each puts on the humerus per newton of tension.

    Parameters
    ----------
    humerus, scapula : ndarray, shape (..., 3, 3)
        Axes of the bone as columns, in thorax axes; broadcast against each other.
    table : tuple of Group, optional
        Thorax and scapula group; the package's own by default.

    Returns
    -------
    length : ndarray, shape (..., muscle) [m]
    torque : ndarray, shape (..., muscle, 3) [m]
        N m per N about the thorax axes X, Y, Z. `statics.anatomical` names its components.

    Notes
    -----
    Postures go through in blocks of 2,048, so working memory does not grow with their number.
    """
    humerus, scapula = np.broadcast_arrays(humerus, scapula)
    lead = humerus.shape[:-2]
    bones = humerus.reshape(-1, 3, 3), scapula.reshape(-1, 3, 3)
    table = groups() if table is None else table
    count = sum(len(group.rows) for group in table)
    length, torque = np.empty((len(bones[0]), count)), np.empty((len(bones[0]), count, 3))
    for start in range(0, len(bones[0]), BLOCK):
        here = slice(start, start + BLOCK)
        arm, blade = bones[0][here], bones[1][here]
        for group, turns in zip(table, (False, True), strict=True):
            origin = _turn(blade, group.origin) if turns else group.origin.T[:, None, :]
            found, parts = _paths(group, origin, _turn(arm, group.insertion))
            length[here, group.rows] = found
            for axis in range(3):
                torque[here, group.rows, axis] = parts[axis]
    return length.reshape(*lead, count), torque.reshape(*lead, count, 3)


def moment_arms(humerus, scapula, table=None):
    """Moment arms (..., muscle, axis) about adduction, extension, horizontal abduction and the humerus' own shaft. [m]"""
    torque = paths(humerus, scapula, table)[1]
    inward = np.einsum("...mi,...i->...m", torque, humerus[..., 1])
    return np.concatenate([anatomical(torque), inward[..., None]], axis=-1)


def moment_arm(name, elevation, plane, axis, scapula_turns=True):
    """Moment arm of one muscle with the arm raised by ``elevation`` in ``plane``, not turned about its shaft.

    Parameters
    ----------
    name : str
        A muscle of ``data/landmarks.csv``.
    elevation : float or ndarray
        Angle of the upper arm from hanging, 0 to π. [rad]
    plane : float or ndarray
        0 frontal (abduction), 90° sagittal (flexion). [rad]
    axis : "adduction", "extension", "horizontal_abduction" or "internal_rotation"
    scapula_turns : bool
        False leaves the scapula where it rests.

    Returns
    -------
    float or ndarray [m]
        Positive where the muscle's pull adducts (extends, ...).
    """
    which = names().index(choice("muscle", name, names())), MUSCLE_AXES.index(choice("axis", axis, MUSCLE_AXES))
    elevation = number("elevation", elevation, Allowed(0.0, np.pi, "rad", "give radians from hanging"))
    plane = number("plane", plane, Allowed(-np.pi, np.pi, "rad", "0 is to the side, 90° to the front"))
    blade = turned_scapula(elevation, plane) if scapula_turns else np.eye(3)
    arm = moment_arms(raised_arm(elevation, plane), blade)[(..., *which)]
    return float(arm) if np.ndim(arm) == 0 else arm
