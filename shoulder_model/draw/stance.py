"""How the rest of the body stands: the legs and what carries them, by the kind of pull. Drawing only, no model.

Everything is in the room from the resting GH centre, forward and up, in metres. The trunk turns about the hip, which stays
where seat, feet or bar put it.
"""

import math
from dataclasses import dataclass

from .body import HIP, SOLE, body_size

SEATED, ROWING, STANDING, BENT, SUPPORTED, BENCH, HANGING, LYING = (
    "seated", "rowing", "standing", "bent over", "chest supported", "on a bench", "hanging", "lying",
)  # fmt: skip
THIGH_LONG, SHANK_LONG = 0.415, 0.405  # of `body.OUTLINE_STATURE`
DIRECTIONS = {  # thigh, shank and foot: degrees from straight ahead, up positive
    SEATED: (-5, -96, 0),
    ROWING: (19, -34, 68),
    STANDING: (-83, -97, 0),
    BENT: (-68, -104, 0),
    BENCH: (-80, -99, 0),
    HANGING: (-63, -166, -130),
}
KNEELING = (-84, 178, -172)  # the other leg on a bench
KNEES_OUT = {SEATED: 0.135, ROWING: 0.12, LYING: 0.12}
ROOM_BELOW = 0.82  # share of the legs' length between hip and heel at the top of an inverted row


@dataclass(frozen=True)
class Legs:
    """Joints (2,) in the room [m] and the foot's direction [rad]; ``other`` the other leg where it stands otherwise, or None;
    ``floor`` its height, None where no floor is drawn."""

    hip: tuple
    knee: tuple
    ankle: tuple
    foot: float
    floor: float | None
    other: "Legs | None" = None


def in_room(point, lean):
    """A ``point`` (2,) of the trunk in the room. [m]"""
    (x, y), cos, sin = point, math.cos(lean), math.sin(lean)
    return x * cos - y * sin, y * cos + x * sin


def legs_of(lifter, lean, body, hands_up=(0.0, 0.0, 0.0)):
    """`Legs` of a ``lifter`` leaning by ``lean`` [rad] in a position ``body``.

    ``hands_up`` are the heights of the hands in the room now, at the start and at the end of the rep [m].
    """
    size = body_size(lifter)
    hip = in_room((HIP[0] * size, HIP[1] * size), lean)
    if body == LYING:
        return _lying(hip, size, hands_up)
    if body == SUPPORTED:
        back = math.degrees(math.atan2(-0.6 - 0.4 * math.cos(lean), 0.4 * math.sin(lean)))
        angles = (back, -112 if lean < 0 else -90, 0)
    else:
        angles = DIRECTIONS[body]
    legs = _chain(hip, size, angles, floor=body != HANGING)
    if body == ROWING:
        return Legs(legs.hip, legs.knee, legs.ankle, legs.foot, hip[1] - 0.36 * size)
    if body == BENCH:
        return Legs(legs.hip, legs.knee, legs.ankle, legs.foot, legs.floor, _chain(hip, size, KNEELING, floor=False))
    return legs


def _chain(hip, size, degrees, floor):
    thigh, shank, foot = (math.radians(angle) for angle in degrees)
    knee = _along(hip, thigh, THIGH_LONG * size)
    ankle = _along(knee, shank, SHANK_LONG * size)
    return Legs(hip, knee, ankle, foot, ankle[1] - SOLE * size if floor else None)


def _along(start, angle, length):
    return start[0] + length * math.cos(angle), start[1] + length * math.sin(angle)


def _lying(hip, size, hands_up):
    """Heels that stay on the floor, knees bent as far as it takes while the body rises under its bar."""
    thigh, shank = THIGH_LONG * size, SHANK_LONG * size
    whole, (now, first, last) = thigh + shank, hands_up
    highest, lowest = hip[1] + now - last, hip[1] + now - first  # of the hip, as seen with the hands where they are now
    drop = max(ROOM_BELOW * whole, highest - lowest + 0.10)
    ahead = math.sqrt(max((0.985 * whole) ** 2 - drop**2, (0.4 * whole) ** 2))
    heel = hip[0] + ahead, highest - drop
    knee = bent(hip, heel, thigh, shank, 1.0)
    return Legs(hip, knee, heel, math.radians(62), heel[1] - SOLE * size)


def bent(start, end, first, second, side):
    """The joint (2,) between two links of lengths ``first`` and ``second`` from ``start`` towards ``end``, to their left for a ``side`` of 1. [m]"""
    dx, dy = end[0] - start[0], end[1] - start[1]
    distance = min(max(math.hypot(dx, dy), abs(first - second) + 1e-6), first + second)
    along = (first**2 - second**2 + distance**2) / (2 * distance)
    aside = side * math.sqrt(max(first**2 - along**2, 0.0))
    reach = math.hypot(dx, dy) or 1.0
    ux, uy = dx / reach, dy / reach
    return start[0] + along * ux - aside * uy, start[1] + along * uy + aside * ux
