"""Muscle paths about the shoulder: each in its own plane through the joint centre.

A path runs from its origin (thorax, clavicle or scapula) to its insertion (humerus). It is the straight line,
or hugs a sphere about the GH centre where the straight line would cut it. All of it lies in the plane
of origin, insertion and centre, so with ``o`` and ``i`` the distances of the two ends, ``c`` the dot
product of their positions and ``R`` the sphere's radius

    straight:  length = sqrt(o² + i² - 2 c)               moment arm = distance of the line
    wrapped:   length = sqrt(o² - R²) + sqrt(i² - R²) + R arc      moment arm = R

about the plane's normal; ``arc`` is the angle between the ends less arccos(R / o) and arccos(R / i).
It goes the shorter way round. The moment arm is minus the slope of the length about every axis.

Lengths and arms equal those of a physics engine's sphere-wrapped tendons to rounding, for one square root a path.
Holding a path to one side of its sphere by force was tried, with the engine's own rule for it: for the fitted landmarks
every choice of side made the torque jump in more postures than none, so there is no side. What remains: near 130 to 140°
in front the rear deltoid's line passes the centre, and its arm changes sign within a few degrees.

Everything is seen from the GH centre. Where the girdle has carried that centre by ``shift``, origins on the thorax come
nearer by as much, which is linear in the humerus' axes:

    o · i = (o at rest) · i - shift · i          o × i = (o at rest) × i - shift × i

Origins on clavicle and scapula turn with their bone.

Landmarks are those of one reference body, not scaled to the lifter (`recipes.landmarks`). The table keeps muscles by the
bone of their origin, because the paths of a `PathSet` must be consecutive rows.
"""

from dataclasses import dataclass, replace
from functools import cache, cached_property

import numpy as np

from ..axes import MUSCLE_AXES
from ..blocks import blocks
from ..inputs import Allowed, checked_call, choice, fitting, flag, number, whole
from ..mechanics import anatomical, raised_arm
from ..mechanics.vectors import dot
from ..tables import read_table
from .scapula import turned_scapula

BLOCK = 2048  # postures worked on at once: small enough for cache and for the allocator's own pages
TINY = 1e-12
FRAMES = "tcs"  # bones of origins: thorax, clavicle, scapula
ELEVATION = Allowed(0.0, np.pi, "rad", "give radians from hanging")
COUNT = Allowed(3, 10_000, "points", "give a whole number")
PLANE = Allowed(-np.pi, np.pi, "rad", "0 is to the side, 90° to the front")


@dataclass(frozen=True)
class PathSet:
    """Paths whose origins lie on one bone, next to each other in the table.

    ``rows`` (path,) their places in the table; ``origin`` in the bone's axes and ``insertion`` in the humerus' axes
    (path, 3) [m]; ``wrap`` (path,) radius of the sphere, 0 for a straight line [m].
    """

    rows: np.ndarray
    origin: np.ndarray
    insertion: np.ndarray
    wrap: np.ndarray

    @cached_property
    def columns(self):
        """The paths' place among all of them, a slice."""
        return slice(int(self.rows[0]), int(self.rows[-1]) + 1) if len(self.rows) else slice(0, 0)

    def moved(self, origin, insertion, *, clear):
        """The same paths from ``origin`` to ``insertion``, each (path, 3) [m].

        No sphere is larger than ``clear`` (a ratio below 1) times the distance of the nearer end, so that the ends stay
        outside.
        """
        inner = np.minimum(np.linalg.norm(origin, axis=1), np.linalg.norm(insertion, axis=1))
        return replace(self, origin=origin, insertion=insertion, wrap=np.minimum(self.wrap, clear * inner))

    @cached_property
    def ends(self):
        """Distances of origin and insertion from the GH centre, two (path,). [m]"""
        return np.linalg.norm(self.origin, axis=-1), np.linalg.norm(self.insertion, axis=-1)


@cache
def landmarks():
    """Rows of ``data/landmarks.csv`` as dicts of text: every path with its ends [m], sphere [m], source and mark."""
    return tuple(read_table("landmarks.csv"))


@cache
def lat_planes():
    """Rows of ``data/lat_planes.csv`` as dicts of text: how well lat origins fitted to the lines of one plane, or both, give
    the lines [deg] and moment arms [mm] of either.
    """
    return tuple(read_table("lat_planes.csv"))


@cache
def shoulder_muscles():
    """Names of the muscles that cross the shoulder, in the table's order."""
    return tuple(row["muscle"] for row in landmarks())


@cache
def path_sets():
    """The table's paths by the bone of their origin, three `PathSet`: thorax, clavicle, scapula. [m]"""
    return path_sets_of(landmarks())


def path_sets_of(rows):
    """``rows`` like those of `landmarks` as three `PathSet`, by the bone of their origin: thorax, clavicle, scapula. [m]

    Raises
    ------
    ValueError
        An origin or insertion inside its sphere; names the muscle.
    """
    return tuple(_path_set(rows, frame) for frame in FRAMES)


def _path_set(rows, frame):
    mine = [i for i, row in enumerate(rows) if row["frame"] == frame]

    def points(end):
        return np.array([[float(rows[i][f"{end}_{axis}"]) for axis in "xyz"] for i in mine]).reshape(-1, 3)

    wrap = np.array([float(rows[i]["wrap"]) for i in mine])
    paths_here = PathSet(np.array(mine, dtype=int), points("origin"), points("insertion"), wrap)
    inside = [rows[mine[k]]["muscle"] for k in np.flatnonzero(np.minimum(*paths_here.ends) <= wrap)]
    if inside:
        raise ValueError(f"{', '.join(inside)}: origin or insertion lies inside the sphere; make the sphere smaller")
    return paths_here


def _turn(points, axes, out):
    """Fill ``out`` (3, path, n) with ``points`` (path, 3) of a bone with those ``axes`` (3, 3, n) as columns."""
    for row, place in zip(axes, out, strict=True):
        np.multiply(points[:, :1], row[0], out=place)
        for axis in (1, 2):
            place += points[:, axis, None] * row[axis]


def _put_dot(p, q, out, spare):
    """Fill ``out`` (path, n) with the dot product of ``p`` and ``q`` (3, path, n); ``spare`` like it."""
    np.multiply(p[0], q[0], out=out)
    for axis in (1, 2):
        out += np.multiply(p[axis], q[axis], out=spare)


def _put_origins(origin, sets, scapula, girdle):
    """Fill ``origin`` (3, path, n) with all origins from the GH centre; bones (3, 3, n), ``girdle`` its clavicle and shift or None."""
    thorax, clavicle, blade = sets
    if girdle is None:
        origin[:, thorax.columns], origin[:, clavicle.columns] = (
            thorax.origin.T[..., None],
            clavicle.origin.T[..., None],
        )
    else:
        collarbone, shift = girdle
        np.subtract(thorax.origin.T[..., None], shift[:, None], out=origin[:, thorax.columns])
        _turn(clavicle.origin, collarbone, origin[:, clavicle.columns])
    _turn(blade.origin, scapula, origin[:, blade.columns])


def _scale_and_length(origin, insertion, ii, wrap, lengths, room):
    """What scales the cross product of insertion and origin to a torque per newton, and the length. (path, n)

    Components (3, path, n) of both ends; ``ii`` (path,) squared distance of the insertion, ``wrap`` (path,) radius; ``room``
    six arrays (path, n) to write to.
    """
    c, oo, length, area_squared, scale, other = room
    _put_dot(origin, insertion, c, other)
    _put_dot(origin, origin, oo, other)
    ii, rr = ii[:, None], np.square(wrap)[:, None]
    np.subtract(np.add(oo, ii, out=length), np.multiply(c, 2, out=other), out=length)  # squared, so far
    np.subtract(np.multiply(oo, ii, out=area_squared), np.multiply(c, c, out=other), out=area_squared)
    cut = area_squared < np.multiply(length, rr, out=other)  # the line passes the centre closer than the sphere ...
    cut &= c < np.minimum(oo, ii, out=other)  # ... and does so between its ends
    np.divide(1.0, np.sqrt(length, out=length), out=scale)
    wrapped = np.nonzero(cut)
    area = np.sqrt(np.maximum(area_squared[wrapped], TINY**2))
    radius = wrap[wrapped[0]]
    scale[wrapped] = radius / area
    if lengths and len(area):
        ends = np.sqrt(oo[wrapped]), np.sqrt(ii[wrapped[0], 0])
        length[wrapped] = _around(*ends, radius, np.arctan2(area, c[wrapped]))
    return scale, length


def _around(o, i, radius, angle):
    """Length of paths that hug their sphere, for the angle between their ends: two tangents and an arc."""
    free = np.sqrt(np.maximum(o**2 - radius**2, 0.0)) + np.sqrt(np.maximum(i**2 - radius**2, 0.0))
    tangents = np.arccos(np.minimum(radius / o, 1.0)) + np.arccos(np.minimum(radius / i, 1.0))
    return free + radius * (angle - tangents)


@checked_call
def paths(humerus, scapula, sets=None, *, girdle=None, out=None, lengths=True):
    """Lengths of all muscles and the torque each puts on the humerus per newton of tension.

    Parameters
    ----------
    humerus, scapula : ndarray, shape (..., 3, 3)
        Axes of the bone as columns, in thorax axes; broadcast against each other.
    sets : tuple of PathSet, optional
        Thorax, clavicle and scapula; those of `path_sets` by default.
    girdle : mechanics.GirdlePosture, optional
        Of the same shape (...); at rest by default. [m]
    out : pair of ndarray, optional
        Where to put length and torque, of the shapes below; saves new memory in a loop over blocks.
    lengths : bool
        False leaves the lengths of wrapped paths out (they stay those of the straight line): moment arms only.

    Returns
    -------
    length : ndarray, shape (..., muscle) [m]
    torque : ndarray, shape (..., muscle, 3) [m]
        N m per N about the thorax axes X, Y, Z. `mechanics.anatomical` names its components.

    Notes
    -----
    Postures go through in blocks, so working memory does not grow with their number.
    """
    humerus, scapula = np.broadcast_arrays(humerus, scapula)
    lead = humerus.shape[:-2]
    sets = path_sets() if sets is None else sets
    count = sum(len(paths_here.rows) for paths_here in sets)
    shapes = (*lead, count), (*lead, count, 3)
    filled = tuple(np.empty(shape) for shape in shapes) if out is None else out
    length, torque = filled[0].reshape(-1, count), filled[1].reshape(-1, count, 3)
    bones = humerus.reshape(-1, 3, 3), scapula.reshape(-1, 3, 3)
    if girdle is not None:
        bones += np.reshape(girdle.clavicle, (-1, 3, 3)), np.reshape(girdle.gh, (-1, 3))
    room = np.empty(
        (12, count, min(BLOCK, len(length)))
    )  # used again by every block: new memory costs more than the sums
    for here in blocks(len(length), BLOCK):
        mine = [np.ascontiguousarray(np.moveaxis(bone[here], 0, -1)) for bone in bones]
        _fill(
            sets, *mine, length=length[here], torque=torque[here], lengths=lengths, room=room[..., : mine[0].shape[-1]]
        )
    return filled


def _fill(sets, humerus, scapula, *girdle, length, torque, lengths, room):
    """Write ``length`` (n, path) and ``torque`` (n, path, 3) for bones (3, 3, n) and the girdle's shift (3, n)."""
    ends = np.concatenate([paths_here.insertion for paths_here in sets])
    wrap = np.concatenate([paths_here.wrap for paths_here in sets])
    origin, insertion, free = room[:3], room[3:6], room[6:]
    _put_origins(origin, sets, scapula, girdle or None)
    _turn(ends, humerus, insertion)
    scale, length.T[:] = _scale_and_length(origin, insertion, dot(ends, ends), wrap, lengths, free)
    across, back = free[0], free[1]
    for axis, (one, two) in enumerate([(1, 2), (2, 0), (0, 1)]):
        np.multiply(insertion[one], origin[two], out=across)
        across -= np.multiply(insertion[two], origin[one], out=back)
        np.multiply(across.T, scale.T, out=torque[..., axis])


@checked_call
def path_points(name, humerus, scapula, sets=None, *, girdle=None, count=24):
    """Points (count, 3) along the path of the muscle ``name`` in one posture, for drawing: origin first. [m]

    ``humerus``, ``scapula`` (3, 3) axes as columns, ``sets`` and ``girdle`` as for `paths`; ``count`` points from the GH
    centre where it stands.
    """
    which, count = _place(name), whole("count", count, COUNT)
    sets = path_sets() if sets is None else sets
    paths_here = next(paths_here for paths_here in sets if which in paths_here.rows)
    k = int(np.flatnonzero(paths_here.rows == which)[0])
    bones = None if girdle is None else (girdle.clavicle[..., None], girdle.gh[..., None])
    origins = np.empty((3, len(shoulder_muscles()), 1))
    _put_origins(origins, sets, scapula[..., None], bones)
    origin = origins[:, which, 0]
    insertion, radius = humerus @ paths_here.insertion[k], paths_here.wrap[k]
    straight = origin + np.linspace(0, 1, count)[:, None] * (insertion - origin)
    if paths(humerus, scapula, sets, girdle=girdle)[0][which] - np.linalg.norm(insertion - origin) < 1e-9:
        return straight
    o, i = np.linalg.norm(origin), np.linalg.norm(insertion)
    first = origin / o
    across = insertion - first * (insertion @ first)
    across /= np.linalg.norm(across)
    ends = np.arccos(radius / o), np.arctan2(insertion @ across, insertion @ first) - np.arccos(radius / i)
    turn = np.linspace(*ends, count - 2)[:, None]
    return np.vstack([origin, radius * (np.cos(turn) * first + np.sin(turn) * across), insertion])


@checked_call
def moment_arms(humerus, scapula, sets=None, *, girdle=None):
    """Moment arms (..., muscle, axis) about `axes.MUSCLE_AXES`, the last of them the humerus' own shaft. [m]

    ``humerus``, ``scapula`` (..., 3, 3), ``sets`` and ``girdle`` as for `paths`.
    """
    torque = paths(humerus, scapula, sets, girdle=girdle, lengths=False)[1]
    inward = dot(torque, humerus[..., None, :, 1])
    return np.concatenate([anatomical(torque), inward[..., None]], axis=-1)


def _place(name):
    """Where the shoulder muscle ``name`` stands in the table."""
    return shoulder_muscles().index(choice("muscle", name, shoulder_muscles()))


@checked_call
def muscle_length(name, elevation, plane):
    """Length of one muscle's path with the arm raised by ``elevation`` in ``plane``, not turned about its shaft. (...) [m]

    Parameters
    ----------
    name : str
        A muscle of ``data/landmarks.csv``.
    elevation, plane : float or ndarray
        As for `moment_arm`, whose refusals hold here. [rad]
    """
    which, elevation, plane = _place(name), number("elevation", elevation, ELEVATION), number("plane", plane, PLANE)
    fitting(elevation=elevation, plane=plane)
    return paths(raised_arm(elevation, plane), turned_scapula(elevation, plane))[0][..., which]


@checked_call
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

    Raises
    ------
    InputError
        Another muscle or axis, an angle outside its range (degrees?), a ``scapula_turns`` that is neither True nor False.
    """
    which = _place(name), MUSCLE_AXES.index(choice("axis", axis, MUSCLE_AXES))
    elevation, plane = number("elevation", elevation, ELEVATION), number("plane", plane, PLANE)
    fitting(elevation=elevation, plane=plane)
    blade = turned_scapula(elevation, plane) if flag("scapula_turns", scapula_turns) else np.eye(3)
    arm = moment_arms(raised_arm(elevation, plane), blade)[(..., *which)]
    return float(arm) if np.ndim(arm) == 0 else arm
