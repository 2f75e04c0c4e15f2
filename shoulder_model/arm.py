"""The arm as two links in the plane of pull: upper arm and forearm, elbow on the outer side.

Vectors are in thorax axes (X forward, Y up along the trunk, Z right; ISB, J Biomech 2005;38:981)
from the right GH centre, in metres, with the component last. Numbers that differ between lifters
or pulls come with a trailing axis of length 1, against which the points of the rep broadcast.
"""

from dataclasses import dataclass

import numpy as np

from .inputs import InputError, shown
from .sources import fact

ELBOW_LIMIT = np.radians(fact("elbow_flexion_limit_deg"))


def stack(x, y, z):
    """Vectors (..., 3) from components that broadcast."""
    return np.stack(np.broadcast_arrays(x, y, z), axis=-1)


def dot(p, q):
    """Dot product over the last axis."""
    return np.einsum("...i,...i->...", p, q)


def cross(p, q):
    """Cross product over the last axis, without the overhead of the general one."""
    px, py, pz = np.moveaxis(p, -1, 0)
    qx, qy, qz = np.moveaxis(q, -1, 0)
    return stack(py * qz - pz * qy, pz * qx - px * qz, px * qy - py * qx)


def unit(v):
    """Vectors of length 1 along ``v``."""
    return v / np.sqrt(dot(v, v))[..., None]


def shoulder_hand_distance(lifter, elbow_flexion):
    """GH centre to hand [m] for an elbow flexion [rad], by the law of cosines."""
    a, b = lifter.upper_arm, lifter.forearm
    return np.sqrt(a * a + b * b + 2 * a * b * np.cos(elbow_flexion))


def elbow_flexion_at(lifter, distance):
    """Elbow flexion [rad] that puts the hand at ``distance`` [m] from the GH centre; 0 is straight."""
    a, b = lifter.upper_arm, lifter.forearm
    return np.arccos(np.clip((distance**2 - a * a - b * b) / (2 * a * b), -1.0, 1.0))


@dataclass(frozen=True)
class HandPath:
    """Hand positions of one rep, and how it ended.

    ``hand`` (..., point, 3) [m]; ``normal`` of the plane of pull and ``along``, the unit direction of
    the load's pull, (..., 1, 3); ``touched`` (..., 1) False where the elbow was fully bent first;
    ``short_of_touch`` (..., 1) the way left along the path then. [m]
    """

    hand: np.ndarray
    normal: np.ndarray
    along: np.ndarray
    touched: np.ndarray
    short_of_touch: np.ndarray


def pull_axes(lifter, pull):
    """Unit vectors along the pull, across it in the sagittal plane, and normal to the plane of pull.

    The plane of pull hinges on the line of pull with the angle atan2(w, a): 0 is sagittal.
    """
    sin, cos = np.sin(pull.pull_angle), np.cos(pull.pull_angle)
    along, across = stack(sin, cos, 0.0), stack(cos, -sin, 0.0)
    hinge = np.arctan2(pull.hand_offset(lifter), pull.line_offset(lifter))
    outer = across * np.cos(hinge)[..., None] + stack(0.0, 0.0, np.sin(hinge))
    return along, across, cross(along, outer)


def hand_path(lifter, pull, points):
    """The hand from the reach to the touch point, or to the limit of elbow flexion.

    Parameters
    ----------
    lifter : Lifter
    pull : Pull
    points : int

    Raises
    ------
    InputError
        The line of pull or the touch point is out of reach; names the field to change.
    """
    return (_arc if pull.path == "arc" else _line)(lifter, pull, np.linspace(0.0, 1.0, points))


def _line(lifter, pull, progress):
    w, a, touch = pull.hand_offset(lifter), pull.line_offset(lifter), pull.along(lifter)
    from_shoulder = np.hypot(w, a)
    field = "grip_ratio" if np.max(np.abs(w)) > np.max(np.abs(a)) else "touch_up"
    _need_reach(lifter, from_shoulder, field)
    _need_reach(lifter, np.hypot(from_shoulder, touch), "touch_up")
    start = np.sqrt(lifter.reach**2 - from_shoulder**2)
    closest = shoulder_hand_distance(lifter, ELBOW_LIMIT)
    stop = np.sqrt(np.maximum(closest**2 - from_shoulder**2, 0.0))
    touched = (from_shoulder >= closest) | (touch >= stop)
    end = np.where(touched, touch, stop)
    along, across, normal = pull_axes(lifter, pull)
    foot = across * np.asarray(a)[..., None] + stack(0.0, 0.0, w)
    hand = foot + (start + (end - start) * progress)[..., None] * along
    return HandPath(hand, normal, along, touched, end - touch)


def _arc(lifter, pull, progress):
    w = pull.hand_offset(lifter)
    distance = shoulder_hand_distance(lifter, pull.held_elbow_flexion)
    _need_reach(lifter, np.abs(w) + lifter.reach - distance, "grip_ratio")
    radius = np.sqrt(distance**2 - w**2)
    forward, up = pull.touch_point(lifter)
    start, end = pull.pull_angle, np.mod(np.arctan2(forward, up), 2 * np.pi)  # from overhead, forward positive
    angle = start + (end - start) * progress
    hand = stack(radius * np.sin(angle), radius * np.cos(angle), w)
    along, _, _ = pull_axes(lifter, pull)
    touched = np.isfinite(end)
    return HandPath(hand, stack(0.0, 0.0, -1.0), along, touched, 0.0 * end)


def _need_reach(lifter, distance, field):
    out = np.asarray(distance >= lifter.reach)
    if out.any():
        far = np.broadcast_to(distance, out.shape)[out].flat[0]
        arm = np.broadcast_to(lifter.reach, out.shape)[out].flat[0]
        raise InputError(
            field,
            f"{field} is out of reach: the hand would be {shown(far, 'm')} from the shoulder, allowed 0 to "
            f"{shown(arm, 'm')} (the arm); bring the hands or the touch point closer",
        )


@dataclass(frozen=True)
class Posture:
    """The arm at many hand positions; every field broadcasts over (..., point).

    ``elbow``, ``hand`` (..., 3) [m]; ``elbow_flexion`` [rad]; ``humerus`` (..., 3, 3) with the humerus'
    x (towards the bent forearm), y (up the shaft) and z (lateral, the elbow's hinge) as columns.
    """

    elbow: np.ndarray
    hand: np.ndarray
    elbow_flexion: np.ndarray
    humerus: np.ndarray

    @property
    def hinge(self):
        """Axis of elbow flexion, positive for flexion of the right elbow. (..., 3)"""
        return self.humerus[..., 2]

    @property
    def upper_arm_direction(self):
        """From the GH centre to the elbow. (..., 3)"""
        return -self.humerus[..., 1]

    @property
    def elevation(self):
        """Angle of the upper arm from hanging along the trunk. [rad]"""
        return elevation_and_plane(self.humerus)[0]

    @property
    def plane_of_elevation(self):
        """0 straight to the side, 90° straight ahead (ISB). [rad]"""
        return elevation_and_plane(self.humerus)[1]


def elevation_and_plane(humerus):
    """Elevation and plane of elevation (...) of an upper arm with these axes (..., 3, 3). [rad]"""
    shaft = humerus[..., 1]
    return np.arccos(np.clip(shaft[..., 1], -1.0, 1.0)), np.arctan2(-shaft[..., 0], -shaft[..., 2])


def arm_at(lifter, hand, normal, elbow_cue=0.0):
    """The two-link arm with the hand at ``hand``.

    The elbow lies in the plane with ``normal``, on the outer side of the shoulder-hand line (from
    the pull towards the foot of the line of pull), then turned by ``elbow_cue`` about that line.

    Parameters
    ----------
    hand : ndarray, shape (..., 3) [m]
    normal : ndarray, shape (..., 3)
        Unit normal of the plane of pull, as `pull_axes` gives it.
    elbow_cue : float or ndarray, shape (...) [rad]

    Raises
    ------
    InputError
        The hand is out of reach, or so close that the elbow would have to bend past 143°.
    """
    distance = np.sqrt(dot(hand, hand))
    a, b = np.asarray(lifter.upper_arm), lifter.forearm
    if np.any(distance > lifter.reach * (1 + 1e-9)):
        _need_reach(lifter, distance, "hand")
    if np.any(distance < shoulder_hand_distance(lifter, ELBOW_LIMIT) * (1 - 1e-9)):
        raise InputError(
            "hand",
            f"hand = {shown(np.min(distance), 'm')} from the shoulder: the elbow would have to bend past "
            f"{shown(ELBOW_LIMIT, 'rad')}, allowed 0 to that; move the hand away",
        )
    to_hand = hand / distance[..., None]
    in_plane = unit(cross(np.broadcast_to(normal, to_hand.shape), to_hand))
    hinge = cross(in_plane, to_hand)
    cue = np.asarray(elbow_cue)[..., None]
    outward = in_plane * np.cos(cue) + hinge * np.sin(cue)
    cos = np.clip((distance**2 + a * a - b * b) / (2 * distance * a), -1.0, 1.0)[..., None]
    sin = np.sqrt(1.0 - cos * cos)
    shaft = cos * to_hand + sin * outward
    bend = sin * to_hand - cos * outward
    humerus = np.stack(np.broadcast_arrays(bend, -shaft, cross(outward, to_hand)), axis=-1)
    elbow = a[..., None] * shaft
    return Posture(elbow, hand, elbow_flexion_at(lifter, distance), humerus)


def raised_arm(elevation, plane):
    """Humerus axes for an arm swung straight up from hanging, with no turn about its shaft. (..., 3, 3)

    ``plane`` 0 swings to the side, 90° to the front. [rad]
    """
    elevation, plane = np.broadcast_arrays(np.asarray(elevation, float), np.asarray(plane, float))
    kx, kz = -np.cos(plane), np.sin(plane)  # horizontal axis of the swing
    c, s = np.cos(elevation), np.sin(elevation)
    turn = np.empty((*elevation.shape, 3, 3))
    turn[..., 0, 0], turn[..., 1, 1], turn[..., 2, 2] = c + kx * kx * (1 - c), c, c + kz * kz * (1 - c)
    turn[..., 0, 2] = turn[..., 2, 0] = kx * kz * (1 - c)
    turn[..., 1, 0], turn[..., 0, 1] = kz * s, -kz * s
    turn[..., 2, 1], turn[..., 1, 2] = kx * s, -kx * s
    return turn


def posed_arm(lifter, elevation, plane, elbow_flexion):
    """The arm with the upper arm raised as in `raised_arm` and the elbow bent towards the humerus' x axis.

    Angles in radians that broadcast; ``elbow_flexion`` from 0 to the 143° limit (not checked here).
    """
    humerus = raised_arm(elevation, plane)
    bend, shaft = humerus[..., 0], -humerus[..., 1]
    flexion = np.asarray(elbow_flexion, float)
    elbow = np.asarray(lifter.upper_arm)[..., None] * shaft
    along_forearm = np.cos(flexion)[..., None] * shaft + np.sin(flexion)[..., None] * bend
    hand = elbow + np.asarray(lifter.forearm)[..., None] * along_forearm
    return Posture(elbow, hand, flexion, humerus)
