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
from functools import cache, cached_property

import numpy as np

from .arm import raised_arm
from .inputs import Allowed, choice, number
from .scapula import turned_scapula
from .sources import read_table
from .statics import AXES, anatomical

MUSCLE_AXES = (*AXES, "internal_rotation")
BLOCK = 2048  # postures worked on at once: small enough for cache and for the allocator's own pages
TINY = 1e-12
LEVI_CIVITA = np.array([[[(a - b) * (b - c) * (c - a) / 2 for c in range(3)] for b in range(3)] for a in range(3)])


@dataclass(frozen=True)
class Group:
    """Muscles whose origins share a frame, next to each other in the table; arrays over muscles. Lengths in metres."""

    rows: np.ndarray
    origin: np.ndarray
    insertion: np.ndarray
    wrap: np.ndarray

    @cached_property
    def columns(self):
        """The muscles' place among all of them."""
        return slice(int(self.rows[0]), int(self.rows[-1]) + 1) if len(self.rows) else slice(0, 0)

    @cached_property
    def linear(self):
        """Matrix (9, 4 muscle) that takes a humerus' nine numbers to the product and the normal of fixed origins."""
        product = np.einsum("ki,kj->ijk", self.origin, self.insertion)[:, :, None]
        normal = np.einsum("qab,kb,kj->ajqk", LEVI_CIVITA, self.origin, self.insertion)
        return np.concatenate([product, normal], axis=2).reshape(9, -1)

    @cached_property
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


def _fixed(group, humerus):
    """Dot product (n, muscle) and cross product (3, n, muscle) of insertion and origin, origins on the thorax.

    Both are linear in the humerus' nine numbers, so one matrix product gives them all.
    """
    found = (humerus.reshape(-1, 9) @ group.linear).reshape(len(humerus), 4, -1).swapaxes(0, 1)
    return found[0], found[1:]


def _turning(group, humerus, scapula):
    """The same for origins on the scapula."""
    origin, insertion = _turn(scapula, group.origin), _turn(humerus, group.insertion)
    normal = (
        insertion[1] * origin[2] - insertion[2] * origin[1],
        insertion[2] * origin[0] - insertion[0] * origin[2],
        insertion[0] * origin[1] - insertion[1] * origin[0],
    )
    return _dot(origin, insertion), normal


def _paths(group, c, lengths):
    """What scales the cross product of insertion and origin to a torque per newton, and the length. (n, muscle)"""
    oo, ii, rr = (np.square(distance) for distance in (*group.ends, group.wrap))
    length_squared = (oo + ii) - 2 * c
    area_squared = oo * ii - c * c
    cut = area_squared < rr * length_squared  # the line passes the centre closer than the sphere ...
    wrapped = np.nonzero(cut & (c < np.minimum(oo, ii)))  # ... and does so between its ends
    length = np.sqrt(length_squared)
    scale = 1.0 / length
    area = np.sqrt(np.maximum(area_squared[wrapped], TINY**2))
    scale[wrapped] = group.wrap[wrapped[-1]] / area
    if lengths and len(area):
        length[wrapped] = _around(group, wrapped[-1], np.arctan2(area, c[wrapped]))
    return scale, length


def _around(group, muscle, angle):
    """Length of paths that hug their sphere, for the angle between their ends: two tangents and an arc."""
    o, i = group.ends
    free = np.sqrt(np.maximum(o**2 - group.wrap**2, 0.0)) + np.sqrt(np.maximum(i**2 - group.wrap**2, 0.0))
    tangents = np.arccos(np.minimum(group.wrap / o, 1.0)) + np.arccos(np.minimum(group.wrap / i, 1.0))
    return free[muscle] + group.wrap[muscle] * (angle - tangents[muscle])


def paths(humerus, scapula, table=None, out=None, lengths=True):
    """Lengths of all muscles and the torque each puts on the humerus per newton of tension.

    Parameters
    ----------
    humerus, scapula : ndarray, shape (..., 3, 3)
        Axes of the bone as columns, in thorax axes; broadcast against each other.
    table : tuple of Group, optional
        Thorax and scapula group; the package's own by default.
    out : pair of ndarray, optional
        Where to put length and torque, of the shapes below; saves new memory in a loop over blocks.
    lengths : bool
        False leaves the lengths of wrapped paths out (they stay those of the straight line): moment arms only.

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
    shapes = (*lead, count), (*lead, count, 3)
    given = tuple(np.empty(shape) for shape in shapes) if out is None else out
    length, torque = given[0].reshape(-1, count), given[1].reshape(-1, count, 3)
    for start in range(0, len(bones[0]), BLOCK):
        here = slice(start, start + BLOCK)
        arm, blade = bones[0][here], bones[1][here]
        for group, turns in zip(table, (False, True), strict=True):
            c, normal = _turning(group, arm, blade) if turns else _fixed(group, arm)
            scale, length[here, group.columns] = _paths(group, c, lengths)
            for axis in range(3):
                np.multiply(normal[axis], scale, out=torque[here, group.columns, axis])
    return given


def path_points(name, humerus, scapula, count=24):
    """Points (count, 3) along one muscle's path in one posture, for drawing: origin first. [m]

    ``humerus``, ``scapula`` (3, 3) axes as columns.
    """
    which = names().index(choice("muscle", name, names()))
    group = next(group for group in groups() if which in group.rows)
    k = int(np.flatnonzero(group.rows == which)[0])
    origin = scapula @ group.origin[k] if group is groups()[1] else group.origin[k]
    insertion, radius = humerus @ group.insertion[k], group.wrap[k]
    straight = origin + np.linspace(0, 1, count)[:, None] * (insertion - origin)
    if paths(humerus, scapula)[0][which] - np.linalg.norm(insertion - origin) < 1e-9:
        return straight
    o, i = np.linalg.norm(origin), np.linalg.norm(insertion)
    first = origin / o
    across = insertion - first * (insertion @ first)
    across /= np.linalg.norm(across)
    ends = np.arccos(radius / o), np.arctan2(insertion @ across, insertion @ first) - np.arccos(radius / i)
    turn = np.linspace(*ends, count - 2)[:, None]
    return np.vstack([origin, radius * (np.cos(turn) * first + np.sin(turn) * across), insertion])


def moment_arms(humerus, scapula, table=None):
    """Moment arms (..., muscle, axis) about adduction, extension, horizontal abduction and the humerus' own shaft. [m]"""
    torque = paths(humerus, scapula, table, lengths=False)[1]
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
