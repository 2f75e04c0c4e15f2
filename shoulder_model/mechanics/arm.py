"""The arm as two links in the plane of pull: upper arm and forearm, elbow on the outer side.

Lengths in metres from the right GH centre, in thorax axes (`axes`). Numbers that differ between lifters or pulls
come with a trailing axis of length 1, against which the points of the rep broadcast.
"""

from dataclasses import dataclass

import numpy as np

from ..inputs import Allowed, InputError, checked_call, fitting, number, shown
from ..people import ELBOW_LIMIT, a_lifter
from .vectors import cross, dot, unit

FLEXION = Allowed(0.0, ELBOW_LIMIT, "rad", "give radians from straight; an elbow cannot bend further")
REACH = Allowed(0.0, 5.0, "m", "give the way from shoulder to hand in metres")
ANGLE = Allowed(-2 * np.pi, 2 * np.pi, "rad", "give radians, as np.radians(90) has them")
ROUNDED = 2e-3  # of the closest distance: so much closer the hand may come where a path is not looked at


@checked_call
def shoulder_hand_distance(lifter, elbow_flexion):
    """The ``lifter``'s GH centre to hand [m] for an ``elbow_flexion`` [rad], by the law of cosines."""
    a, b = a_lifter(lifter).upper_arm, lifter.forearm
    elbow_flexion = number("elbow_flexion", elbow_flexion, FLEXION)
    fitting(lifter=a, elbow_flexion=elbow_flexion)
    return np.sqrt(a * a + b * b + 2 * a * b * np.cos(elbow_flexion))


@checked_call
def elbow_flexion_at(lifter, distance):
    """Elbow flexion [rad] that puts the hand at ``distance`` [m] from the ``lifter``'s GH centre; 0 is straight."""
    a, b = a_lifter(lifter).upper_arm, lifter.forearm
    distance = number("distance", distance, REACH)
    fitting(lifter=a, distance=distance)
    return np.arccos(np.clip((distance**2 - a * a - b * b) / (2 * a * b), -1.0, 1.0))


def need_reach(lifter, distance, field):
    """Refuse hands at a ``distance`` (...) [m] from the GH centre that the ``lifter``'s arm does not reach, by ``field``."""
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
        """Axis of elbow flexion, a unit vector, positive for flexion of the right elbow. (..., 3)"""
        return self.humerus[..., 2]

    @property
    def upper_arm_direction(self):
        """From the GH centre to the elbow, a unit vector. (..., 3)"""
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
    """Elevation and plane of elevation (...) of an upper arm with the axes ``humerus`` (..., 3, 3). [rad]"""
    shaft = humerus[..., 1]
    return np.arccos(np.clip(shaft[..., 1], -1.0, 1.0)), np.arctan2(-shaft[..., 0], -shaft[..., 2])


@checked_call
def arm_at(lifter, hand, normal, elbow_cue=0.0):
    """The two-link arm with the hand at ``hand``.

    The elbow lies in the plane with ``normal``, on the outer side of the shoulder-hand line (from
    the pull towards the foot of the line of pull), then turned by ``elbow_cue`` about that line.

    Parameters
    ----------
    lifter : people.Lifter
    hand : ndarray, shape (..., 3) [m]
    normal : ndarray, shape (..., 3)
        Unit normal of the plane of pull, as `hand_path.pull_axes` gives it.
    elbow_cue : float or ndarray, shape (...) [rad]

    Raises
    ------
    InputError
        The hand is out of reach, or so close that the elbow would have to bend past 143°.
    """
    distance = np.sqrt(dot(hand, hand))
    a, b = np.asarray(lifter.upper_arm), lifter.forearm
    if np.any(distance > lifter.reach * (1 + 1e-9)):
        need_reach(lifter, distance, "hand")
    if np.any(distance < shoulder_hand_distance(lifter, ELBOW_LIMIT) * (1 - ROUNDED)):
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


@checked_call
def turn_since(bone):
    """Turn of a bone since the point before, 0 at the first: axis times angle in thorax axes. (..., point, 3) [rad]

    ``bone`` (..., point, 3, 3): its axes as columns, without unit.
    """
    pairs = [(bone[..., :-1, :, axis], bone[..., 1:, :, axis]) for axis in range(3)]
    sines = sum(cross(before, after) for before, after in pairs) / 2  # the axis times the angle's sine
    sine, cosine = np.sqrt(dot(sines, sines)), (sum(dot(before, after) for before, after in pairs) - 1) / 2
    turn = np.zeros(bone.shape[:-1])
    turn[..., 1:, :] = sines * (np.arctan2(sine, cosine) / np.where(sine > 0, sine, 1.0))[..., None]
    return turn


@checked_call
def raised_arm(elevation, plane):
    """Humerus axes for an arm swung straight up from hanging, with no turn about its shaft. (..., 3, 3)

    ``elevation`` from hanging; ``plane`` 0 swings to the side, 90° to the front; both (...). [rad]
    """
    elevation, plane = number("elevation", elevation, ANGLE), number("plane", plane, ANGLE)
    fitting(elevation=elevation, plane=plane)
    elevation, plane = np.broadcast_arrays(elevation, plane)
    kx, kz = -np.cos(plane), np.sin(plane)  # horizontal axis of the swing
    c, s = np.cos(elevation), np.sin(elevation)
    turn = np.empty((3, 3, *elevation.shape))  # each number of all postures together: faster to fill and to read
    turn[0, 0], turn[1, 1], turn[2, 2] = c + kx * kx * (1 - c), c, c + kz * kz * (1 - c)
    turn[0, 2] = turn[2, 0] = kx * kz * (1 - c)
    turn[1, 0], turn[0, 1] = kz * s, -kz * s
    turn[2, 1], turn[1, 2] = kx * s, -kx * s
    return np.moveaxis(turn, (0, 1), (-2, -1))


@checked_call
def posed_arm(lifter, elevation, plane, elbow_flexion):
    """The arm with the upper arm raised as in `raised_arm` and the elbow bent towards the humerus' x axis.

    Angles of the ``lifter``'s arm in radians that broadcast: ``elevation`` from hanging, ``plane`` 0 to the side and 90°
    to the front, ``elbow_flexion`` from 0 to its limit. Gives a `Posture`, lengths in metres; `InputError` beyond.
    """
    upper_arm, flexion = a_lifter(lifter).upper_arm, number("elbow_flexion", elbow_flexion, FLEXION)
    humerus = raised_arm(elevation, plane)
    fitting(elevation=elevation, plane=plane, elbow_flexion=flexion, lifter=upper_arm)
    bend, shaft = humerus[..., 0], -humerus[..., 1]
    elbow = np.asarray(upper_arm)[..., None] * shaft
    along_forearm = np.asarray(np.cos(flexion))[..., None] * shaft + np.asarray(np.sin(flexion))[..., None] * bend
    hand = elbow + np.asarray(lifter.forearm)[..., None] * along_forearm
    return Posture(elbow, hand, np.asarray(flexion), humerus)
