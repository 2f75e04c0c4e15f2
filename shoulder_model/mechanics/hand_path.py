"""The hand's way in one rep: along the line of pull, or on an arc about the shoulder.

It starts where the arm is straight and ends at the touch point, or where the elbow is fully bent. Lengths in metres
from the right GH centre, in thorax axes (`axes`).

The elbow's limit ends most overhead reps. With survey lengths an elbow that bends to 143° keeps the hand 20 cm from
the GH centre, and a bar to the upper chest at 1.5 × biacromial would come to 17 cm. A real shoulder moves back and down
by the 3 cm that are missing (15 cm along the pull); the model's does not, and no length was tuned to hide it.

Close handles (negative hand offset) tilt the plane of pull inward, and the model's elbow goes with it, past the midline at
0.3 ×. The load's torque is right, the posture is not: no body stands in the way.
"""

from dataclasses import dataclass

import numpy as np

from ..inputs import InputError, shown
from ..people import ELBOW_LIMIT
from .arm import need_reach, shoulder_hand_distance
from .vectors import cross, stack


@dataclass(frozen=True)
class HandPath:
    """Hand positions of one rep, and how it ended.

    ``hand`` (..., point, 3) [m]; ``normal`` of the plane of pull and ``along``, the unit direction of
    the load's pull; ``touched``, False where the elbow was fully bent first; ``short_of_touch``, the way left along the
    path then [m]. The last four are (3,) or () for one pull, (..., 1, 3) or (..., 1) with arrays.
    """

    hand: np.ndarray
    normal: np.ndarray
    along: np.ndarray
    touched: np.ndarray
    short_of_touch: np.ndarray


def pull_axes(lifter, pull):
    """Unit vectors (..., 3) along the ``pull``, across it in the sagittal plane, and normal to the plane of pull.

    The plane of pull hinges on the line of pull with the angle atan2(w, a) of the ``lifter``'s `Pull.hand_offset` and
    `Pull.line_offset` [m]: 0 is sagittal.
    """
    sin, cos = np.sin(pull.pull_angle), np.cos(pull.pull_angle)
    along, across = stack(sin, cos, 0.0), stack(cos, -sin, 0.0)
    hinge = np.arctan2(pull.hand_offset(lifter), pull.line_offset(lifter))
    outer = across * np.cos(hinge)[..., None] + stack(0.0, 0.0, np.sin(hinge))
    return along, across, cross(along, outer)


def hand_path(lifter, pull, points):
    """The hand from the straight arm to the touch point, or to the limit of elbow flexion.

    Parameters
    ----------
    lifter : people.Lifter
    pull : Pull
    points : int
        Evenly spaced along the way.

    Raises
    ------
    InputError
        The line of pull or the touch point is out of reach; names the field to change.
    """
    return (_arc if pull.path == "arc" else _line)(lifter, pull, np.linspace(0.0, 1.0, points))


def _line(lifter, pull, progress):
    w, a, touch = pull.hand_offset(lifter), pull.line_offset(lifter), pull.touch_along(lifter)
    from_shoulder = np.hypot(w, a)
    field = "grip_ratio" if np.max(np.abs(w)) > np.max(np.abs(a)) else "touch_up"
    need_reach(lifter, from_shoulder, field)
    need_reach(lifter, np.hypot(from_shoulder, touch), "touch_up")
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
    if np.any(np.abs(w) >= distance):
        aside, arm = shown(np.max(np.abs(w)), "m"), shown(np.min(distance), "m")
        raise InputError(
            "grip_ratio",
            f"grip_ratio is out of reach: the hands would be {aside} to the side of the shoulder, the held arm reaches {arm}; "
            "bring the hands closer together",
        )
    radius = np.sqrt(distance**2 - w**2)
    forward, up = pull.touch_point(lifter)
    start, end = pull.pull_angle, np.mod(np.arctan2(forward, up), 2 * np.pi)  # from overhead, forward positive
    angle = start + (end - start) * progress
    hand = stack(radius * np.sin(angle), radius * np.cos(angle), w)
    along, _, _ = pull_axes(lifter, pull)
    touched = np.isfinite(end)
    return HandPath(hand, stack(0.0, 0.0, -1.0), along, touched, 0.0 * end)
