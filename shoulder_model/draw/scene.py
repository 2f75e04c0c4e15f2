"""What a picture of a lifter needs to know, taken from a rep at one of its points."""

from dataclasses import dataclass

import numpy as np

from ..mechanics import pull_axes

SEATED, STANDING, LYING = "seated", "standing", "lying"


@dataclass(frozen=True)
class Scene:
    """One posture to draw. Lengths in metres, thorax axes from the right GH centre.

    ``elbow``, ``hand`` (3,); ``along`` (3,) unit direction of the load's pull; ``w``, ``a`` tape
    distances; ``foot`` (3,) where the sagittal perpendicular meets the line of pull; ``path`` (n, 3) of
    the hand; ``touch`` (2,) forward and up; ``load`` words for the line of pull.
    """

    lifter: object
    lean: float
    elbow: np.ndarray
    hand: np.ndarray
    along: np.ndarray
    w: float
    a: float
    foot: np.ndarray
    path: np.ndarray
    touch: tuple
    load: str
    body: str
    bar: bool


def scene_of(lifter, pull, rep, point):
    """The scene of ``rep`` (of one lifter) at index ``point``."""
    along, across, _ = pull_axes(lifter, pull)
    hand = rep.hand.values[point]
    a = float(hand @ across)
    return Scene(
        lifter=lifter,
        lean=pull.trunk_lean,
        elbow=rep.elbow.values[point],
        hand=hand,
        along=along,
        w=float(rep.hand_offset),
        a=a,
        foot=a * across,
        path=rep.hand.values,
        touch=pull.touch_point(lifter),
        load=f"{float(rep.force):.0f} N",
        body=body_position(pull),
        bar=pull.hold == "bar" and pull.hands == 2,
    )


def body_position(pull):
    """How the rest of the body is drawn: seated at a cable, standing or hanging, lying under a bar."""
    if pull.load_from == "cable" and pull.path == "line":
        return SEATED
    return LYING if pull.load_from == "body" and pull.trunk_lean > np.pi / 4 else STANDING
