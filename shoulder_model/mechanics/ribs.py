"""The elbow and the ribs: with close handles the plane of pull would put the elbow inside the chest.

The chest's outline is the survey's: level with the arms an ellipse of chest breadth and depth, wider by half an elbow, and
closed above the axilla like a dome that ends at the acromion:

    (side / half breadth)² + (forward / half depth)² + (above the axilla / its drop)² = 1

An elbow inside it is turned out about the line from shoulder to hand until it lies on the outline. Down the trunk the outline
goes on as it is. The head and the other arm are not in the way of anything.
"""

from dataclasses import astuple, dataclass

import numpy as np

from ..sources import fact
from .vectors import cross, dot

STEP, MOST = np.radians(5.0), np.radians(120.0)  # the way out is looked for in steps, no further than this
HALVINGS = 30


@dataclass(frozen=True)
class ChestOutline:
    """The outline that an elbow's centre may not enter, from the right GH centre at rest. Numbers or arrays [m]

    ``half_breadth``, ``half_depth`` with half an elbow; ``axilla``, ``top`` up from the centre; ``midline`` to the left of it.
    """

    half_breadth: float
    half_depth: float
    axilla: float
    top: float
    midline: float

    def level(self, point):
        """Where a ``point`` (..., 3) [m] lies: below 1 inside the outline, 1 on it. (...)"""
        above = np.maximum(point[..., 1] - self.axilla, 0.0) / (self.top - self.axilla)
        side, forward = (point[..., 2] + self.midline) / self.half_breadth, point[..., 0] / self.half_depth
        return side**2 + forward**2 + above**2

    def at(self, places):
        """The outlines at those ``places`` (...) of an array, True or False, that its fields broadcast to; in metres."""
        return ChestOutline(*(np.broadcast_to(field, places.shape)[places] for field in astuple(self)))


def chest_outline(lifter):
    """The `ChestOutline` of a ``lifter``, in metres: chest breadth and depth, axilla height (ANSUR II); half an elbow (ML)."""
    spare, (_, axilla) = fact("elbow_half_breadth"), lifter.trunk_site(0.0)
    return ChestOutline(
        lifter.chest_breadth / 2 + spare,
        lifter.chest_depth / 2 + spare,
        axilla,
        fact("gh_below_acromion"),
        lifter.gh_breadth / 2,
    )


def turn_past_ribs(lifter, posture, gh):
    """How far the elbow has to be turned out to clear the ribs, 0 where it does. (...) [rad]

    Parameters
    ----------
    lifter : people.Lifter
    posture : arm.Posture
        Lengths from the GH centre where it stands. [m]
    gh : ndarray, shape (..., 3) [m]
        The GH centre from where it rests.

    Notes
    -----
    The smallest turn up to 120° that brings the elbow out, or the one that brings it nearest to the outline.
    """
    elbow, hand, gh = np.broadcast_arrays(posture.elbow, posture.hand, gh)
    chest = chest_outline(lifter)
    inside = chest.level(elbow + gh) < 1.0
    turn = np.zeros(inside.shape)
    if inside.any():
        turn[inside] = _way_out(chest.at(inside), elbow[inside], hand[inside], gh[inside])
    return turn


def _way_out(chest, elbow, hand, gh):
    """The same for elbows (n, 3) that all are inside."""
    to_hand = hand / np.sqrt(dot(hand, hand))[:, None]
    centre = dot(elbow, to_hand)[:, None] * to_hand
    spoke = elbow - centre
    outward = cross(spoke, to_hand)

    def level(turn):
        return chest.level(centre + spoke * np.cos(turn)[:, None] + outward * np.sin(turn)[:, None] + gh)

    tried = np.arange(0.0, MOST + STEP / 2, STEP)
    levels = np.stack([level(np.full(len(elbow), turn)) for turn in tried])
    out = levels >= 1.0
    first = np.where(out.any(axis=0), out.argmax(axis=0), levels.argmax(axis=0))
    high = tried[first]
    low = np.where(out.any(axis=0), tried[np.maximum(first - 1, 0)], high)
    for _ in range(HALVINGS):
        middle = (low + high) / 2
        cleared = level(middle) >= 1.0
        low, high = np.where(cleared, low, middle), np.where(cleared, middle, high)
    return high
