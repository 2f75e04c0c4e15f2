"""What a picture of a lifter needs to know, taken from a rep at one of its points."""

import math
from dataclasses import dataclass
from functools import cache, cached_property

import numpy as np

from ..mechanics import pull_axes, sc_joint
from ..muscles import landmarks, turned_scapula
from ..muscles.girdle import girdle_landmarks, girdle_muscles
from .muscle_bands import bands_of
from .stance import BENCH, BENT, HANGING, LYING, ROWING, SEATED, STANDING, SUPPORTED, in_room, legs_of

READ = (
    "gh_centre", "elbow", "hand", "elbow_past_ribs", "line_offset", "hand_offset", "elevation", "plane_of_elevation",
    "girdle_posture", "force",
)  # fmt: skip


@dataclass(frozen=True)
class Scene:
    """One posture to draw. Lengths in metres, thorax axes, from where the right GH centre rests.

    ``gh``, ``sc``, ``elbow``, ``hand`` (3,): where the GH centre stands, the sternoclavicular joint, the arm; ``blade``
    (n, 3) corners of the shoulder blade; ``past_ribs`` how far the elbow is turned out to clear the ribs [rad]; ``along``
    (3,) unit direction of the load's pull; ``w``, ``a`` tape distances from the GH centre where it stands; ``foot`` (3,)
    where the sagittal perpendicular from there meets the line of pull; ``path``, ``elbows`` (n, 3) of hand and elbow all along
    the rep; ``touch`` (3,); ``travels``, whether the girdle moves in this rep; ``load`` words for the line of pull; ``body``
    how it stands, one of the words of `stance`; ``bar``, whether both hands hold one piece; ``hands`` 1 or 2; ``neutral``,
    whether the palms face each other; ``bands``, a tuple of `muscle_bands.Band`; ``named``, the muscle groups among them
    that are named.
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
    elbows: np.ndarray
    touch: np.ndarray
    travels: bool
    load: str
    body: str
    load_from: str
    bar: bool
    hands: int
    neutral: bool
    bands: tuple = ()
    named: tuple = ()

    @cached_property
    def legs(self):
        """`stance.Legs`, in the room [m]."""
        up = (in_room(point[:2].tolist(), self.lean)[1] for point in (self.hand, self.path[0], self.path[-1]))
        return legs_of(self.lifter, self.lean, self.body, tuple(up))

    @cached_property
    def turn(self):
        """Cosine and sine of the lean, without unit."""
        return math.cos(self.lean), math.sin(self.lean)

    @cached_property
    def girdle_points(self):
        """Corners of the blade, SC joint, GH centre, and where that rests, (7, 3) [m]."""
        return np.concatenate([self.blade, [self.sc, self.gh, np.zeros(3)]])

    def in_trunk(self, point):
        """A ``point`` (2,) of the room as the trunk has it, forward and up. [m]"""
        (x, y), (cos, sin) = point, self.turn
        return x * cos + y * sin, y * cos - x * sin


def scene_of(lifter, pull, rep, point, *, bands=False):
    """The scene of ``rep`` (of one lifter) at index ``point``; with ``bands`` and a rep with work, its muscles too."""
    along, across = pull_axes(pull)
    of = {name: rep.variables[name].values for name in READ}
    gh, a = of["gh_centre"][point], float(of["line_offset"][point])
    turns = (of["elevation"][point], of["plane_of_elevation"][point], of["girdle_posture"][point, 0])
    return Scene(
        lifter=lifter,
        lean=pull.trunk_lean,
        gh=gh,
        sc=sc_joint(lifter),
        blade=gh + _corners() @ turned_scapula(*turns).T,
        elbow=of["elbow"][point],
        hand=of["hand"][point],
        past_ribs=float(of["elbow_past_ribs"][point]),
        along=along,
        w=float(of["hand_offset"][point]),
        a=a,
        foot=gh + a * across,
        path=of["hand"],
        elbows=of["elbow"],
        touch=np.array([*pull.touch_point(lifter), pull.hand_offset(lifter)]),
        travels=bool(of["gh_centre"].any()),
        load=f"{float(of['force']):.0f} N" + (" a hand" if pull.hands == 2 else ""),
        body=body_position(pull),
        load_from=pull.load_from,
        bar=pull.hold == "bar" and pull.hands == 2,
        hands=pull.hands,
        neutral=pull.hand_turn == "neutral",
        bands=bands_of(lifter, rep, point) if bands and "activation" in rep else (),
    )


@cache
def _corners():
    """Corners of the shoulder blade at rest, (4, 3) from the GH centre. Landmarks stand for them: the acromion is where the middle deltoid begins, the inner end of the spine
    where the lower trapezius ends, the inner border where the rhomboids end, the lower corner where teres major begins. [m]
    """
    begins = {row["muscle"]: [float(row[f"origin_{axis}"]) for axis in "xyz"] for row in landmarks()}
    ends = dict(zip(girdle_muscles(), girdle_landmarks()[1], strict=True))
    return np.array([begins["deltoid middle"], ends["trapezius lower"], ends["rhomboids"], begins["teres major"]])


def body_position(pull):
    """How the body is carried in a ``pull``, one of the words of `stance`."""
    if pull.load_from == "cable":
        if pull.path == "arc":
            return STANDING
        return ROWING if pull.room_angle > np.pi / 4 else SEATED
    if pull.load_from == "body":
        return LYING if pull.trunk_lean > np.pi / 4 else HANGING
    if pull.hands == 1:
        return BENCH
    return SUPPORTED if pull.hold == "handles" else BENT
