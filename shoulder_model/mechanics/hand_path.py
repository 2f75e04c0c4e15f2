"""The hand's way in one rep: along the line of pull, or on an arc about the shoulder, while the blade travels.

It starts where the arm is straight and ends at the touch point, or where the elbow is fully bent. The line of pull stands
still in the trunk; the GH centre travels (`girdle`), and with it the hand offset w, the line offset a and the plane of
pull: at each point they are those of the shoulder where it is.

    w = w at rest - GH sideways        a = a at rest - GH across the pull

Lengths in metres; ``hand`` is counted from the right GH centre where it stands, in thorax axes (`axes`).

With a blade held at rest (``girdle_travel=0``) w and a stay the same all along a straight line, and most overhead reps end
at the elbow's limit: with survey lengths an elbow that bends to 143° keeps the hand 20 cm from the GH centre, and a bar to
the upper chest at 1.5 × biacromial would come to 17 cm. A blade that travels gives way; no length was tuned to it.
"""

from dataclasses import dataclass

import numpy as np

from ..inputs import Allowed, InputError, checked_call, fitting, shown, whole
from ..people import ELBOW_LIMIT, a_lifter
from .arm import need_reach, shoulder_hand_distance
from .girdle import GirdlePosture, girdle_along
from .pull import a_pull
from .vectors import cross, dot, stack

POINTS = Allowed(2, 10_001, "points", "give 2 to 10,001 points along the rep")
ROUNDING = 1e-9
LOOKED_AT = np.linspace(0.0, 1.0, 65)  # where along the way the elbow is looked at
HALVINGS = 30


@dataclass(frozen=True)
class HandPath:
    """Hand positions of one rep, and how it ended; (..., point) and components behind.

    ``hand`` (..., 3) from the GH centre where it stands, ``girdle`` where that is; ``w``, ``a`` hand offset and line
    offset there [m]; ``normal`` (..., 3) of the plane of pull; ``along``, the unit direction of the load's pull, (3,) or
    (..., 1, 3); ``touched``, False where the elbow was fully bent first, and ``short_of_touch``, the way left along the
    path then [m], () or (..., 1).
    """

    hand: np.ndarray
    girdle: GirdlePosture
    w: np.ndarray
    a: np.ndarray
    normal: np.ndarray
    along: np.ndarray
    touched: np.ndarray
    short_of_touch: np.ndarray


@checked_call
def pull_axes(pull):
    """Unit vectors (..., 3) along the ``pull``, and across it in the sagittal plane."""
    sin, cos = np.sin(a_pull(pull).pull_angle), np.cos(pull.pull_angle)
    return stack(sin, cos, 0.0), stack(cos, -sin, 0.0)


@checked_call
def plane_of_pull(pull, w, a):
    """Unit normal (..., 3) of the plane of a ``pull`` with hand offset ``w`` and line offset ``a`` (...) [m].

    The plane hinges on the line of pull with the angle atan2(w, a): 0 is sagittal.
    """
    along, across = pull_axes(pull)
    hinge = np.arctan2(w, a)
    outer = across * np.cos(hinge)[..., None] + stack(0.0, 0.0, np.sin(hinge))
    return cross(*np.broadcast_arrays(along, outer))


@checked_call
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
        What is no lifter, no pull, no count; the line of pull or the touch point is out of reach, or the blade would outrun the hand; names the field to change.
    """
    progress = np.linspace(0.0, 1.0, whole("points", points, POINTS))
    of_pull, of_lifter = vars(a_pull(pull)), vars(a_lifter(lifter))
    arrays = {name: value for name, value in (*of_pull.items(), *of_lifter.items()) if type(value) is np.ndarray}
    if arrays:
        fitting(**arrays, points=progress)
    return (_arc if pull.path == "arc" else _line)(lifter, pull, progress)


@dataclass(frozen=True)
class _Line:
    """The line of pull seen from the GH centre in one or many places: ``w``, ``a``, and ``foot``, where along it the centre stands. [m]"""

    w: np.ndarray
    a: np.ndarray
    foot: np.ndarray

    @property
    def distance(self):
        return np.hypot(self.w, self.a)

    def far_end(self, length):
        """Where along the line the hand is ``length`` from the centre, towards the load; the foot where the line is further."""
        return self.foot + np.sqrt(np.maximum(length**2 - self.distance**2, 0.0))


def _line_from(lifter, pull, gh):
    along, across = pull_axes(pull)
    return _Line(
        pull.hand_offset(lifter) - gh[..., 2], pull.line_offset(lifter) - dot(*np.broadcast_arrays(gh, across)),
        dot(*np.broadcast_arrays(gh, along)),
    )  # fmt: skip


def _line(lifter, pull, progress):
    touch, girdle = pull.touch_along(lifter), girdle_along(lifter, pull, progress)
    at_reach, at_end = (_line_from(lifter, pull, girdle_along(lifter, pull, share).gh) for share in (0.0, 1.0))
    field = "grip_ratio" if np.max(np.abs(at_reach.w)) > np.max(np.abs(at_reach.a)) else "touch_up"
    need_reach(lifter, np.maximum(at_reach.distance, at_end.distance), field)
    need_reach(lifter, np.hypot(at_end.distance, touch - at_end.foot), "touch_up")
    closest = shoulder_hand_distance(lifter, ELBOW_LIMIT)
    start, stop = at_reach.far_end(lifter.reach), at_end.far_end(closest)
    touched = (at_end.distance >= closest) | (touch >= stop)
    end = np.where(touched, touch, stop)
    allowed = _allowed_end(lifter, pull, start, end)
    touched, end = touched & (allowed == end), allowed
    here = _line_from(lifter, pull, girdle.gh)
    along, across = pull_axes(pull)
    place = start + (end - start) * progress - here.foot  # from the foot of the perpendicular, where the centre stands
    hand = here.a[..., None] * across + stack(0.0, 0.0, here.w) + place[..., None] * along
    _need_no_outrun(lifter, np.hypot(here.distance, place))
    return HandPath(hand, girdle, here.w, here.a, plane_of_pull(pull, here.w, here.a), along, touched, end - touch)


def _allowed_end(lifter, pull, start, end):
    """The ``end`` of the way, or the furthest before it that bends the elbow nowhere too far while the blade travels. [m]"""
    seen = _line_from(lifter, pull, girdle_along(lifter, pull, LOOKED_AT).gh)
    closest = shoulder_hand_distance(lifter, ELBOW_LIMIT)
    parts = np.broadcast_arrays(start, end, closest, seen.distance, seen.foot)
    start, end, closest, off, foot = (part.reshape(-1, len(LOOKED_AT)) for part in parts)

    def too_close(which, end):
        place = start[which] + (end - start[which]) * LOOKED_AT - foot[which]
        return np.any(np.hypot(off[which], place) < closest[which] * (1 - ROUNDING), axis=1, keepdims=True)

    which = np.flatnonzero(too_close(slice(None), end))
    far, near = end[which, :1], start[which, :1]
    for _ in range(HALVINGS if len(which) else 0):
        middle = (far + near) / 2
        bad = too_close(which, middle)
        far, near = np.where(bad, middle, far), np.where(bad, near, middle)
    end = end[:, 0].copy()
    end[which] = near[:, 0]
    lead = parts[0].shape[:-1]
    return end.reshape(*lead, 1) if lead else end[0]


def _need_no_outrun(lifter, distance):
    """Refuse a blade that draws the shoulder from the hand faster than the arm can follow."""
    if np.any(distance > lifter.reach * (1 + ROUNDING)):
        raise InputError(
            "girdle_travel",
            "girdle_travel: the blade draws the shoulder back faster than the hand comes, beyond the arm's length; "
            "give less travel, or a touch point nearer to the trunk",
        )


def _arc(lifter, pull, progress):
    girdle = girdle_along(lifter, pull, progress)
    w = pull.hand_offset(lifter) - girdle.gh[..., 2]
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
    gone = girdle_along(lifter, pull, 1.0).gh
    start, end = pull.pull_angle, np.mod(np.arctan2(forward - gone[..., 0], up - gone[..., 1]), 2 * np.pi)
    angle = start + (end - start) * progress  # from overhead, forward positive
    hand = stack(radius * np.sin(angle), radius * np.cos(angle), w)
    along, across = pull_axes(pull)
    a = dot(*np.broadcast_arrays(hand, across))
    return HandPath(hand, girdle, w, a, stack(0.0, 0.0, -1.0), along, np.isfinite(end), 0.0 * end)
