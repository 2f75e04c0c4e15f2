"""The rows of `geometry` posture by posture, compiled by numba: the same lengths and arms to rounding, several times as fast.

It is the arithmetic of `scapula`, `paths`, `girdle` and `elbow` once more, for one posture at a time, so what comes out for a
posture never depends on those beside it. Two things are written otherwise, since they take less time so. The arc of a wrapped
path is one angle instead of three, that of the product of

    c + i area        R - i free_o        R - i free_i        free = sqrt(distance² - R²)

And the share of a path's pull along its origin, which the girdle needs, comes from the ends: (o² - c) / (length o²) where it is
straight, free_o / o² where it wraps.

Only this module imports numba, and `geometry` imports this module only when somebody asks for it. The first call of a process
compiles everything in a few seconds; nothing is kept on disk, so an installation may be read-only.

Points of muscles lie in tables with x, y, z as rows, so that loops over muscles run along memory. ``room`` holds what one
posture needs on the way, a column for each path: three rows each for origin, insertion and torque per newton, then the dot product
of the ends, the origin's squared distance, length, torque over insertion × origin, the share along the origin, and what is
negative where the path wraps.
"""

from math import acos, atan2, cos, pi, sin, sqrt

import numpy as np
from numba import njit

from ..inputs import InputError, number
from ..sources import fact
from .elbow import EXCURSIONS, POLYNOMIALS, WALKED
from .girdle import girdle_muscles
from .paths import TINY, shoulder_muscles
from .scapula import ANGLE, SCAPULAR_PLANE, UPWARD_DEG, measured_turn
from .table import MUSCLES

ORIGIN, INSERTION, TORQUE = 0, 3, 6  # three rows each
DOT, SQUARED, LENGTH, SCALE, ALONG, CUT, ROWS = 9, 10, 11, 12, 13, 14, 15
PATHS = len(shoulder_muscles())
FRONTAL, SCAPULAR, SAGITTAL = UPWARD_DEG
OF_COMPILED_CODE = {"forceinline": True, "no_cpython_wrapper": True, "no_cfunc_wrapper": True}  # nobody else calls it
part = njit(error_model="numpy", **OF_COMPILED_CODE)


def rows(humerus, flexion, girdle, body):
    """The fields of `geometry.MuscleGeometry` for postures one after the other, arrays (n, ...) [m], [rad].

    Parameters
    ----------
    humerus : ndarray, shape (n, 3, 3)
        Axes as columns.
    flexion : ndarray, shape (n,) [rad]
    girdle : mechanics.GirdlePosture
        Of the same postures, in metres.
    body : body.Body
    """
    bones = humerus, girdle.clavicle, girdle.gh, girdle.sc, girdle.retraction, flexion
    number("flexion", flexion, WALKED)
    bones = tuple(np.require(bone, float, "CW") for bone in bones)  # one kind of array: numba compiles for each kind
    n, muscles = len(flexion), len(MUSCLES)
    shapes = (n,), (n, muscles), (n, muscles, 3), (n, muscles), (n, muscles, 2)
    out = tuple(np.zeros(shape) for shape in shapes)
    _all_postures(bones, _rhythm(body), _paths(body), _lines(body), _elbow(), out)
    number("elevation", out[0], ANGLE)  # what is no number shows here
    return out


def _rhythm(body):
    """Where each piece of the measured turn ends, the turn there and its slope in three planes (7, piece) [deg]; shares and
    the axis of the turn, without unit.
    """
    knots, turns = measured_turn()
    table = _table([knots[1:], turns[:, 1:] - turns[:, :1], np.diff(turns) / np.diff(knots)])
    shares = fact("scapula_behind"), fact("scapula_with_clavicle"), body.rhythm
    return table, (*map(float, shares), -np.cos(SCAPULAR_PLANE), np.sin(SCAPULAR_PLANE))


def _paths(body):
    """Origin, insertion, radius, squared distance and free part of the insertion (9, path) [m]; where the bones' paths end."""
    origin, insertion, wrap = (
        np.concatenate([getattr(one, name) for one in body.paths]) for name in ("origin", "insertion", "wrap")
    )
    if len(origin) != PATHS or len(body.girdle[0]) != len(girdle_muscles()):
        raise InputError(
            "body", f"body has {len(origin)} paths; give the table's {PATHS} and {len(girdle_muscles())} to the girdle"
        )
    squared = np.square(insertion).sum(axis=1)
    table = _table([origin.T, insertion.T, wrap, squared, np.sqrt(np.maximum(squared - wrap**2, 0.0))])
    return table, tuple(int(end) for end in np.cumsum([len(one.rows) for one in body.paths]))


def _lines(body):
    """Origin and insertion of the girdle's muscles (6, muscle). [m]"""
    return _table([np.transpose(ends) for ends in body.girdle])


def _elbow():
    """Coefficients of arm and excursion (13, muscle) [cm], and the muscles' places."""
    table = _table([np.transpose(list(of.values())) for of in (POLYNOMIALS, EXCURSIONS)])
    return table, np.array([MUSCLES.index(name) for name in POLYNOMIALS])


def _table(rows):
    return np.ascontiguousarray(np.vstack(rows))


@njit(error_model="numpy")
def _all_postures(bones, rhythm, paths, lines, elbow, out):
    humerus, clavicle, gh, sc, retraction, flexion = bones
    rotation, length, shoulder, at_elbow, girdle = out
    room, blade = np.empty((ROWS, len(MUSCLES))), np.empty((3, 3))
    for n in range(len(flexion)):
        rotation[n] = _turn_scapula(humerus[n], retraction[n], rhythm, blade)
        _put_paths(humerus[n], clavicle[n], blade, gh[n], paths, room)
        _length_and_pull(paths[0], room)
        _put_shoulder(room, length[n], shoulder[n])
        _put_through_humerus(room, sc[n], paths[1][0], girdle[n])
        _put_lines(blade, gh[n], sc[n], lines, room, length[n], girdle[n])
        _put_elbow(flexion[n], elbow, length[n], at_elbow[n])


@part
def _turn_scapula(humerus, retraction, rhythm, blade):
    """Upward rotation [rad]; fills ``blade`` (3, 3) with the scapula's axes."""
    table, (behind, with_clavicle, times, kx, kz) = rhythm
    up = humerus[1, 1]
    elevation = 0.0 if up > 1.0 else pi if up < -1.0 else acos(up)
    plane = atan2(-humerus[0, 1], -humerus[2, 1])
    turn = _upward(elevation * (180 / pi), plane * (180 / pi), table) * (pi / 180) * times
    if plane < 0.0:
        turn *= 1.0 + behind * sin(plane)
    c, s = cos(turn), sin(turn)
    cr, sr = cos(with_clavicle * retraction), sin(with_clavicle * retraction)
    across = kx * kz * (1 - c)
    columns = (c + kx * kx * (1 - c), kz * s, across), (-kz * s, c, kx * s), (across, -kx * s, c + kz * kz * (1 - c))
    for k in range(3):
        forward, upward, right = columns[k]
        blade[0, k], blade[1, k], blade[2, k] = cr * forward - sr * right, upward, sr * forward + cr * right
    return turn


@part
def _upward(elevation_deg, plane_deg, table):
    """Upward rotation of the measured rhythm: between the elevations, then between the planes. [deg]"""
    k = 0
    while k < table.shape[1] - 1 and table[0, k] <= elevation_deg:
        k += 1
    back = elevation_deg - table[0, k]
    frontal, scapular = table[1, k] + table[4, k] * back, table[2, k] + table[5, k] * back
    if plane_deg <= FRONTAL:
        return frontal
    if plane_deg <= SCAPULAR:
        return frontal + (scapular - frontal) * (plane_deg / SCAPULAR)
    sagittal = table[3, k] + table[6, k] * back
    if plane_deg >= SAGITTAL:
        return sagittal
    return scapular + (sagittal - scapular) * ((plane_deg - SCAPULAR) / (SAGITTAL - SCAPULAR))


@part
def _turn(axes, points, at, first, last, room):
    """Points of a bone with those ``axes`` as columns, into the same three rows of ``room``."""
    xx, xy, xz = axes[0, 0], axes[0, 1], axes[0, 2]
    yx, yy, yz = axes[1, 0], axes[1, 1], axes[1, 2]
    zx, zy, zz = axes[2, 0], axes[2, 1], axes[2, 2]
    for m in range(first, last):
        x, y, z = points[at, m], points[at + 1, m], points[at + 2, m]
        room[at, m] = xx * x + xy * y + xz * z
        room[at + 1, m] = yx * x + yy * y + yz * z
        room[at + 2, m] = zx * x + zy * y + zz * z


@part
def _put_paths(humerus, clavicle, blade, gh, paths, room):
    """Both ends of all paths from the GH centre."""
    table, (thorax, collar, last) = paths
    for k in range(3):
        for m in range(thorax):
            room[ORIGIN + k, m] = table[k, m] - gh[k]
    _turn(clavicle, table, ORIGIN, thorax, collar, room)
    _turn(blade, table, ORIGIN, collar, last, room)
    _turn(humerus, table, INSERTION, 0, last, room)


@part
def _length_and_pull(table, room):
    """Length, torque over insertion × origin, pull along the origin; first as if all were straight, then those that wrap."""
    for m in range(PATHS):
        ox, oy, oz, ix, iy, iz = room[0, m], room[1, m], room[2, m], room[3, m], room[4, m], room[5, m]
        c, oo, ii = ox * ix + oy * iy + oz * iz, ox * ox + oy * oy + oz * oz, table[7, m]
        squared, area_squared = oo + ii - 2 * c, oo * ii - c * c
        near = area_squared - squared * table[6, m] * table[6, m]
        room[CUT, m] = near if c < oo and c < ii else 1.0
        length = sqrt(squared)
        room[DOT, m], room[SQUARED, m], room[LENGTH, m] = c, oo, length
        room[SCALE, m] = 1.0 / length
        room[ALONG, m] = (oo - c) / (length * oo)
    for m in range(PATHS):
        if room[CUT, m] < 0.0:
            c, oo, radius, free_i = room[DOT, m], room[SQUARED, m], table[6, m], table[8, m]
            area_squared, free_squared = oo * table[7, m] - c * c, oo - radius * radius
            area = sqrt(area_squared) if area_squared > TINY * TINY else TINY
            free_o = sqrt(free_squared) if free_squared > 0.0 else 0.0
            real, other = radius * radius - free_o * free_i, radius * (free_o + free_i)
            room[LENGTH, m] = free_o + free_i + radius * atan2(area * real - c * other, c * real + area * other)
            room[SCALE, m], room[ALONG, m] = radius / area, free_o / oo


@part
def _put_shoulder(room, length, shoulder):
    """Lengths, and arms about the shoulder: the torque's X, -Z, -Y."""
    for m in range(PATHS):
        ox, oy, oz, ix, iy, iz = room[0, m], room[1, m], room[2, m], room[3, m], room[4, m], room[5, m]
        scale = room[SCALE, m]
        room[TORQUE, m] = (iy * oz - iz * oy) * scale
        room[TORQUE + 1, m] = (iz * ox - ix * oz) * scale
        room[TORQUE + 2, m] = (ix * oy - iy * ox) * scale
    for m in range(PATHS):
        length[m] = room[LENGTH, m]
        shoulder[m, 0] = room[TORQUE, m] + 0.0
        shoulder[m, 1], shoulder[m, 2] = 0.0 - room[TORQUE + 2, m], 0.0 - room[TORQUE + 1, m]


@part
def _put_through_humerus(room, sc, thorax, girdle):
    """Arms about the girdle of the paths from the trunk; their line as `girdle.through_humerus_arms` has it."""
    for m in range(thorax):
        ox, oy, oz = room[0, m], room[1, m], room[2, m]
        tx, ty, tz = room[TORQUE, m], room[TORQUE + 1, m], room[TORQUE + 2, m]
        per, along = 1.0 / room[SQUARED, m], room[ALONG, m]
        px = (ty * oz - tz * oy) * per + along * ox
        py = (tz * ox - tx * oz) * per + along * oy
        pz = (tx * oy - ty * ox) * per + along * oz
        girdle[m, 0] = (ox - sc[0]) * pz - (oz - sc[2]) * px
        girdle[m, 1] = (oy - sc[1]) * pz - (oz - sc[2]) * py


@part
def _put_lines(blade, gh, sc, lines, room, length, girdle):
    """Length and arms of the muscles from trunk to girdle, straight lines."""
    count = lines.shape[1]
    _turn(blade, lines, INSERTION, 0, count, room)
    for k in range(count):
        x, y, z = room[3, k], room[4, k], room[5, k]
        lx, ly, lz = lines[0, k] - gh[0] - x, lines[1, k] - gh[1] - y, lines[2, k] - gh[2] - z
        whole = sqrt(lx * lx + ly * ly + lz * lz)
        m, per = len(length) - count + k, 1.0 / whole
        length[m] = whole
        girdle[m, 0] = ((x - sc[0]) * lz - (z - sc[2]) * lx) * per
        girdle[m, 1] = ((y - sc[1]) * lz - (z - sc[2]) * ly) * per


@part
def _put_elbow(x, elbow, length, arm):
    """Arms about the elbow, and what its flexion ``x`` adds to lengths; the polynomials are in centimetres."""
    table, muscles = elbow
    for k in range(len(muscles)):
        value, way = table[5, k], table[12, k] * x + table[11, k]
        for power in range(4, -1, -1):
            value = table[power, k] + value * x
            way = table[6 + power, k] + way * x
        arm[muscles[k]] = value / 100
        length[muscles[k]] += way / 100
