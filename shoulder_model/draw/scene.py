"""What a picture of a lifter needs to know, taken from a rep at one of its points."""

from dataclasses import dataclass
from functools import cache

import numpy as np

from ..mechanics import pull_axes, sc_joint
from ..muscles import landmarks, turned_scapula
from ..muscles.girdle import girdle_landmarks, girdle_muscles

SEATED, STANDING, LYING = "seated", "standing", "lying"


@dataclass(frozen=True)
class Scene:
    """One posture to draw. Lengths in metres, thorax axes, from where the right GH centre rests.

    ``gh``, ``sc``, ``elbow``, ``hand`` (3,): where the GH centre stands, the sternoclavicular joint, the arm; ``blade``
    (n, 3) corners of the shoulder blade; ``past_ribs`` how far the elbow is turned out to clear the ribs [rad]; ``along``
    (3,) unit direction of the load's pull; ``w``, ``a`` tape distances from the GH centre where it stands; ``foot`` (3,)
    where the sagittal perpendicular from there meets the line of pull; ``path`` (n, 3) of the hand; ``touch`` (3,);
    ``travels``, whether the girdle moves in this rep; ``load`` words for the line of pull.
    """

    lifter: object
    lean: float
    gh: np.ndarray
    sc: np.ndarray
    blade: np.ndarray
    elbow: np.ndarray
    hand: np.ndarray
    past_ribs: float
    along: np.ndarray
    w: float
    a: float
    foot: np.ndarray
    path: np.ndarray
    touch: np.ndarray
    travels: bool
    load: str
    body: str
    bar: bool


def scene_of(lifter, pull, rep, point):
    """The scene of ``rep`` (of one lifter) at index ``point``."""
    along, across = pull_axes(pull)
    gh, a = rep.gh_centre.values[point], float(rep.line_offset.values[point])
    return Scene(
        lifter=lifter,
        lean=pull.trunk_lean,
        gh=gh,
        sc=sc_joint(lifter),
        blade=gh + _blade(rep, point),
        elbow=rep.elbow.values[point],
        hand=rep.hand.values[point],
        past_ribs=float(rep.elbow_past_ribs.values[point]),
        along=along,
        w=float(rep.hand_offset.values[point]),
        a=a,
        foot=gh + a * across,
        path=rep.hand.values,
        touch=np.array([*pull.touch_point(lifter), pull.hand_offset(lifter)]),
        travels=bool(rep.gh_centre.values.any()),
        load=f"{float(rep.force):.0f} N",
        body=body_position(pull),
        bar=pull.hold == "bar" and pull.hands == 2,
    )


def _blade(rep, point):
    """Corners of the shoulder blade (4, 3) from the GH centre at one point of a rep, turned as the muscles see it. [m]"""
    angles = rep.elevation, rep.plane_of_elevation, rep.girdle_posture.sel(girdle_axis="retraction")
    return _corners() @ turned_scapula(*(float(angle.values[point]) for angle in angles)).T


@cache
def _corners():
    """The same at rest. Landmarks stand for them: the acromion is where the middle deltoid begins, the inner end of the spine
    where the lower trapezius ends, the inner border where the rhomboids end, the lower corner where teres major begins. [m]
    """
    begins = {row["muscle"]: [float(row[f"origin_{axis}"]) for axis in "xyz"] for row in landmarks()}
    ends = dict(zip(girdle_muscles(), girdle_landmarks()[1], strict=True))
    return np.array([begins["deltoid middle"], ends["trapezius lower"], ends["rhomboids"], begins["teres major"]])


def body_position(pull):
    """How the rest of the body is drawn: seated at a cable, standing or hanging, lying under a bar."""
    if pull.load_from == "cable" and pull.path == "line":
        return SEATED
    return LYING if pull.load_from == "body" and pull.trunk_lean > np.pi / 4 else STANDING
