"""Outlines of a body, drawn by eye for a stature of 1.70 m and scaled to the lifter's measures.

Drawing, not anatomy: nothing is computed from these numbers. Points are metres from the resting GH centre, forward (side) or
outward (front), and up; the side of the trunk is in chest depths forward.
"""

import math
from functools import cache, lru_cache

import numpy as np
from matplotlib.patches import Polygon
from matplotlib.path import Path

from .artists import rounded
from .look import EDGE

OUTLINE_STATURE = 1.70  # m


class Outline(Polygon):
    """An animated closed outline that is filled anew at every move; `put` takes points (n, 2), the first one again at the end."""

    def __init__(self, axes, face, *, edge=EDGE, width=1.0, z=1.0, **more):
        super().__init__(np.zeros((1, 2)), facecolor=face, edgecolor=edge, lw=width, zorder=z, animated=True, **more)
        self._path = Path(np.zeros((1, 2)))
        self.set_visible(False)
        axes.add_patch(self)

    def put(self, points):
        """Move to ``points`` (n, 2) and show it. [m]"""
        self._path.vertices = points  # in the path it has: a new one takes twice as long
        self.set_visible(True)
        self.stale = True


def closed(points):
    """``points`` (n, 2) with the first one again at the end."""
    points = np.asarray(points, float)
    return np.concatenate([points, points[:1]])


def smooth(points, times=2):
    """A closed outline with rounded corners from ``points`` (n, 2)."""
    return _rounding(len(points), times) @ np.asarray(points, float)


@cache
def _rounding(number, times):
    """What `rounded` does to so many points, as a matrix that closes the outline too."""
    columns = [rounded(np.column_stack([unit, unit]), times)[:, 0] for unit in np.eye(number)]
    matrix = np.column_stack(columns)
    return np.concatenate([matrix, matrix[:1]])


def tapered(stations, *, ends=5):
    """A limb as rows (1, share of its length, metres along it, metres across it), from ``stations`` (share, half width [m]).

    Both ends are round, of their own half width, whatever the limb's length in the picture is.
    """
    share, wide = np.transpose(stations)
    angle = np.linspace(0, np.pi, ends + 2)[1:-1]
    first, last = wide[0], wide[-1]
    right = np.column_stack([share, np.zeros_like(share), -wide])
    tip = np.column_stack([np.full(ends, share[-1]), last * np.sin(angle), -last * np.cos(angle)])
    left = np.column_stack([share, np.zeros_like(share), wide])[::-1]
    butt = np.column_stack([np.full(ends, share[0]), -first * np.sin(angle), first * np.cos(angle)])
    rows = np.concatenate([right, tip, left, butt, right[:1]])
    return np.column_stack([np.ones(len(rows)), rows])


def limb(shape, start, end, size=1.0):
    """Points (n, 2) of a `tapered` ``shape`` from ``start`` to ``end``, both (2,), its widths times ``size``. [m]"""
    (x, y), (to_x, to_y) = start, end
    dx, dy = to_x - x, to_y - y
    length = math.hypot(dx, dy)
    ux, uy = (size * dx / length, size * dy / length) if length > 1e-6 else (0.0, -size)
    return shape @ np.array(((x, y), (dx, dy), (ux, uy), (-uy, ux)))


def disc(centre, radius):
    """A circle (n, 2) about ``centre`` (2,). [m]"""
    return ROUND * radius + np.asarray(centre)


def block(left, bottom, right, top):
    """A rectangle, (5, 2). [m]"""
    return np.array([(left, bottom), (right, bottom), (right, top), (left, top), (left, bottom)])


def turned(points, cos, sin):
    """``points`` (..., 2) turned by the angle of this ``cos`` and ``sin``."""
    return points @ np.array(((cos, sin), (-sin, cos)))


def body_size(lifter):
    """How much larger than the drawn outlines this ``lifter`` is, without unit."""
    return lifter.stature / OUTLINE_STATURE


_TURN = np.linspace(0, 2 * np.pi, 25)
ROUND = np.column_stack([np.cos(_TURN), np.sin(_TURN)])

UPPER_ARM = tapered([(0.0, 0.053), (0.12, 0.054), (0.3, 0.049), (0.6, 0.043), (0.85, 0.037), (1.0, 0.037)])
FOREARM = tapered([(0.0, 0.037), (0.2, 0.041), (0.4, 0.038), (0.65, 0.029), (0.85, 0.025), (0.95, 0.025)], ends=3)
THIGH = tapered([(0.0, 0.092), (0.25, 0.088), (0.55, 0.074), (0.85, 0.058), (1.0, 0.055)])
SHANK = tapered([(0.0, 0.053), (0.12, 0.054), (0.32, 0.057), (0.6, 0.045), (0.85, 0.034), (1.0, 0.034)])
FOOT = tapered([(0.0, 0.040), (0.5, 0.046), (1.0, 0.040)])  # of the front view, from ankle to toes
_FIST = rounded([(-0.052, -0.026), (-0.03, -0.042), (0.03, -0.042), (0.05, -0.024), (0.05, 0.024), (0.03, 0.042), (-0.03, 0.040),
                 (-0.052, 0.024)], 1)  # fmt: skip
FIST = np.column_stack([np.ones(17), np.zeros(17), closed(_FIST)])
SHOE = smooth(  # about the ankle, toes ahead
    [(-0.047, 0.035), (0.045, 0.030), (0.085, -0.010), (0.150, -0.030), (0.190, -0.048), (0.192, -0.073), (-0.062, -0.073),
     (-0.068, -0.035)], 1,
)  # fmt: skip
SOLE = 0.073  # ankle to floor

TRUNK_SIDE = smooth(  # forward in chest depths
    [(-0.14, 0.165), (0.22, 0.150), (0.20, 0.085), (0.30, 0.050), (0.45, -0.030), (0.545, -0.125), (0.52, -0.21), (0.47, -0.31),
     (0.45, -0.40), (0.40, -0.47), (0.10, -0.53), (-0.30, -0.53), (-0.50, -0.49), (-0.50, -0.43), (-0.38, -0.34), (-0.36, -0.27),
     (-0.49, -0.17), (-0.54, -0.08), (-0.45, 0.020), (-0.29, 0.085)],
)  # fmt: skip
PELVIS_SIDE = smooth(
    [(0.44, -0.375), (0.465, -0.43), (0.38, -0.505), (0.20, -0.555), (-0.25, -0.560), (-0.50, -0.545), (-0.60, -0.49),
     (-0.56, -0.42), (-0.405, -0.375)],
)  # fmt: skip
HEAD_SIDE = smooth(
    [(-0.060, 0.135), (-0.082, 0.180), (-0.092, 0.235), (-0.082, 0.295), (-0.045, 0.338), (0.015, 0.352), (0.068, 0.338),
     (0.101, 0.302), (0.109, 0.268), (0.113, 0.258), (0.103, 0.246), (0.118, 0.226), (0.137, 0.205), (0.131, 0.197), (0.111, 0.196),
     (0.117, 0.186), (0.116, 0.176), (0.110, 0.170), (0.114, 0.154), (0.104, 0.134), (0.085, 0.126), (0.048, 0.128), (0.040, 0.100),
     (0.050, 0.066), (0.020, 0.066), (-0.060, 0.094), (-0.052, 0.115)], 1,
)  # fmt: skip
HAIR_SIDE = smooth(
    [(-0.064, 0.150), (-0.088, 0.190), (-0.098, 0.240), (-0.088, 0.300), (-0.048, 0.345), (0.015, 0.360), (0.072, 0.345),
     (0.107, 0.304), (0.098, 0.292), (0.070, 0.308), (0.040, 0.296), (0.022, 0.268), (0.020, 0.235), (0.004, 0.236), (-0.006, 0.200),
     (-0.020, 0.170)], 1,
)  # fmt: skip
HEAD_FRONT = smooth(  # outward and up, both sides
    [(0.0, 0.050), (0.030, 0.066), (0.050, 0.092), (0.048, 0.140), (0.058, 0.160), (0.068, 0.192), (0.080, 0.198), (0.088, 0.232), (0.076, 0.246), (0.078, 0.290),
     (0.055, 0.336), (0.0, 0.353), (-0.055, 0.336), (-0.078, 0.290), (-0.076, 0.246), (-0.088, 0.232), (-0.080, 0.198),
     (-0.068, 0.192), (-0.058, 0.160), (-0.048, 0.140), (-0.050, 0.092), (-0.030, 0.066)], 1,
)  # fmt: skip
HAIR_FRONT = smooth(
    [(-0.083, 0.255), (-0.084, 0.302), (-0.058, 0.346), (0.0, 0.362), (0.058, 0.346), (0.084, 0.302), (0.083, 0.255), (0.070, 0.262),
     (0.064, 0.292), (0.030, 0.312), (-0.020, 0.316), (-0.060, 0.300), (-0.070, 0.262)], 1,
)  # fmt: skip
HAIR_BACK = smooth(
    [(-0.080, 0.240), (-0.084, 0.302), (-0.058, 0.346), (0.0, 0.362), (0.058, 0.346), (0.084, 0.302), (0.080, 0.240), (0.066, 0.190),
     (0.045, 0.168), (0.0, 0.164), (-0.045, 0.168), (-0.066, 0.190)], 1,
)  # fmt: skip
JAW = np.array([(-0.054, 0.166), (-0.045, 0.140), (-0.022, 0.126), (0.022, 0.126), (0.045, 0.140), (0.054, 0.166)])
EYES = np.array([(-0.030, 0.236), (0.030, 0.236)])
HEAD_ABOVE = smooth([(0.0, 0.125), (0.018, 0.103), (0.060, 0.085), (0.078, 0.030), (0.074, -0.040), (0.045, -0.085), (0.0, -0.095),
                     (-0.045, -0.085), (-0.074, -0.040), (-0.078, 0.030), (-0.060, 0.085), (-0.018, 0.103)], 1)  # fmt: skip
HAIR_ABOVE = smooth([(0.0, 0.052), (0.045, 0.046), (0.072, 0.020), (0.076, -0.042), (0.046, -0.090), (0.0, -0.100),
                     (-0.046, -0.090), (-0.076, -0.042), (-0.072, 0.020), (-0.045, 0.046)], 1)  # fmt: skip
HIP = np.array([-0.010, -0.475])  # forward, up
HIP_OUT, PELVIS_OUT = 0.092, 0.172


def trunk_front(lifter, moved):
    """Outline (n, 2) of the trunk from the front, the right shoulder on the left and ``moved`` (2,), the other one its mirror. [m]"""
    size, half = body_size(lifter), lifter.gh_breadth / 2
    chest, waist, (across, up) = lifter.chest_breadth / 2, 0.41 * lifter.chest_breadth, moved
    right = np.array(
        [(0.050, 0.160), (0.052, 0.105), (0.095, 0.080), (half - across - 0.03, up / size + 0.062),
         (half - across + 0.012, up / size + 0.035), (half - across + 0.005, up / size - 0.055),
         (chest + 0.006, -0.115), (chest, -0.20), (waist, -0.32), (waist, -0.38), (0.155 * size, -0.46), (0.14 * size, -0.52)]
    )  # fmt: skip
    right[:, 1] *= size
    return smooth(np.concatenate([right, (right * [-1.0, 1.0])[::-1]]))


@lru_cache(maxsize=16)
def pelvis_front(lifter):
    """Outline (n, 2) of the pelvis from the front. [m]"""
    size, waist = body_size(lifter), 0.42 * lifter.chest_breadth
    out = PELVIS_OUT * size
    right = np.array([(waist, -0.385), (out * 0.97, -0.44), (out, -0.51), (out * 0.85, -0.56), (0.05, -0.595)])
    right[:, 1] *= size
    return smooth(np.concatenate([right, (right * [-1.0, 1.0])[::-1]]))
