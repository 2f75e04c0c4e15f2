"""A pull: where the load pulls the hand, how wide and how leaning it is held, where it ends, how the shoulder blade travels.

Two lengths and one angle determine the shoulder's torque (`statics`):

    pull angle    = room angle of the load + trunk lean
    hand offset w = grip / 2 - half the GH breadth                (to the side of the shoulder)
    line offset a = touch forward * cos(pull angle) - touch up * sin(pull angle)   (across the pull)

Both are those of the shoulder as it rests, where a tape can be laid; `hand_path` has them where the blade has carried it.

Touch points stand in ``data/touch_points.csv``: places on the trunk scaled to the lifter by survey heights; a tape
reading replaces them. The load of a body-weight pull is the whole weight on the hands, and the arms' own weight counts
against it like that of any other segment.
"""

from dataclasses import dataclass, fields, replace

import numpy as np

from ..inputs import Allowed, InputError, checked_call, choice, number, scalar, text, thing, whole
from ..people import ELBOW_LIMIT, a_lifter, survey
from ..sources import fact
from ..tables import read_table

HAND_TURNS = ("pronated", "neutral", "supinated")
HOLDS = ("bar", "handles")
LOADS = ("cable", "weight", "body")
PATHS = ("line", "arc")
TOUCH_ROWS = read_table("touch_points.csv")
TRUNK_TOUCH = {row["touch"]: float(row["level"]) for row in TOUCH_ROWS if row["level"]}  # level on the trunk
FREE_TOUCH = {  # forward and up from the GH centre of the mean man, scaled with stature [m]
    row["touch"]: (float(row["forward_m"]), float(row["up_m"])) for row in TOUCH_ROWS if not row["level"]
}
TOUCHES = (*TRUNK_TOUCH, *FREE_TOUCH)

SC_TURN, SC_UP, SC_DOWN = (np.radians(fact(f"sc_{way}_limit_deg")) for way in ("retraction", "elevation", "depression"))
ALLOWED = {
    "room_angle": Allowed(0.0, np.pi, "rad", "0 is a load that pulls straight up, 90° ahead, 180° down"),
    "grip_ratio": Allowed(0.0, 3.0, "x biacromial", "move the hands; usual grips are 0.3 to 2"),
    "trunk_lean": Allowed(-np.pi / 2, np.pi / 2, "rad", "give radians, backward positive; lying flat is 90°"),
    "elbow_cue": Allowed(-np.pi / 3, np.pi / 3, "rad", "turn the elbow less; out is positive"),
    "load_kg": Allowed(0.0, 500.0, "kg", "give the load on the whole bar"),
    "touch_forward": Allowed(-0.5, 0.8, "m", "measure from under the acromion to the front, in metres"),
    "touch_up": Allowed(-0.9, 0.5, "m", "measure from 4 cm below the acromion upward, in metres"),
    "touch_shift_forward": Allowed(-0.2, 0.2, "m", "give how far the touch point lies further forward, in metres"),
    "touch_shift_up": Allowed(-0.2, 0.2, "m", "give how far the touch point lies further up, in metres"),
    "held_elbow_flexion": Allowed(0.0, ELBOW_LIMIT, "rad", "an elbow cannot bend that far; bend it less"),
    "girdle_travel": Allowed(0.0, 1.5, "", "0 holds the shoulder blade, 1 lets it travel as usual"),
    "girdle_lead": Allowed(-1.0, 1.0, "", "0 is even over the rep, 1 early, -1 late"),
    "reach_retraction": Allowed(-SC_TURN, SC_TURN, "rad", "a collarbone turns no further; forward is negative"),
    "end_retraction": Allowed(-SC_TURN, SC_TURN, "rad", "a collarbone turns no further; forward is negative"),
    "reach_elevation": Allowed(-SC_DOWN, SC_UP, "rad", "a collarbone turns no further; down is negative"),
    "end_elevation": Allowed(-SC_DOWN, SC_UP, "rad", "a collarbone turns no further; down is negative"),
}


HANDS = Allowed(1, 2, "", "count the hands on the load")
BODY_SHARE = Allowed(0.0, 1.0, "of body mass", "1 is the whole body")
MAY_BE_NONE = ("load_kg", "touch_forward", "touch_up")


@checked_call
@dataclass(frozen=True)
class Pull:
    """One way of pulling. Numbers may be arrays that broadcast; `sweep` does that for you.

    Parameters
    ----------
    name : str
    room_angle : float
        Direction in which the load pulls the hand, in the room: 0 up (overhead cable, the bar of a
        pull-up), 90° ahead (low cable), 180° down (a free weight). [rad]
    touch : str
        Where the hand line meets the trunk; one of `TOUCHES`, scaled to the lifter.
    grip_ratio : float
        Distance between the middles of the hands / biacromial breadth (one hand: twice its
        distance from the midline).
    trunk_lean : float
        From upright, backward positive. [rad]
    hand_turn : "pronated", "neutral" or "supinated"
    hold : "bar" (one rigid piece for both hands) or "handles"
    load_from : "cable", "weight" or "body"
    load_kg : float or None
        Load on the whole bar. None, only where the load is the body: ``body_share`` of the lifter's own mass. [kg]
    elbow_cue : float
        Turns the elbow about the shoulder-hand line, out positive. [rad]
    touch_forward, touch_up : float or None
        The touch point read off with a tape, from the GH centre; None: that of ``touch``. [m]
    touch_shift_forward, touch_shift_up : float
        How far the touch point lies from there, for what a tape or an eye got wrong. [m]
    hands : 2 or 1
    path : "line" (straight along the pull) or "arc" (about the shoulder, elbow held)
    held_elbow_flexion : float
        Elbow flexion all through an arc; not used on a line. [rad]
    body_share : float
        Share of body mass on the hands when the load is the body.
    reach_retraction, reach_elevation, end_retraction, end_elevation : float
        Where the girdle stands at the reach and at the end of the rep, from rest, at the SC joint. [rad]
    girdle_travel : float
        Scales these four: 0 holds the shoulder blade where it rests, 1 lets it travel as usual.
    girdle_lead : float
        How the travel is spread over the rep: 0 evenly, 1 early, -1 late (`girdle.travelled`).

    Raises
    ------
    InputError
        Names the field, its value with unit, the allowed range, and what to do.
    """

    name: str
    room_angle: float
    touch: str
    grip_ratio: float = 1.0
    trunk_lean: float = 0.0
    hand_turn: str = "pronated"
    hold: str = "bar"
    load_from: str = "cable"
    load_kg: float | None = 40.0
    elbow_cue: float = 0.0
    touch_forward: float | None = None
    touch_up: float | None = None
    touch_shift_forward: float = 0.0
    touch_shift_up: float = 0.0
    hands: int = 2
    path: str = "line"
    held_elbow_flexion: float = 0.0
    body_share: float = 1.0
    reach_retraction: float = 0.0
    reach_elevation: float = 0.0
    end_retraction: float = 0.0
    end_elevation: float = 0.0
    girdle_travel: float = 1.0
    girdle_lead: float = 0.0

    def __post_init__(self):
        for name, names in (("hand_turn", HAND_TURNS), ("hold", HOLDS), ("load_from", LOADS)):
            choice(name, getattr(self, name), names)
        choice("path", self.path, PATHS)
        choice("touch", self.touch, TOUCHES)
        text("name", self.name)
        object.__setattr__(self, "hands", whole("hands", self.hands, HANDS))
        object.__setattr__(self, "body_share", scalar("body_share", self.body_share, BODY_SHARE))
        for name, allowed in ALLOWED.items():
            value = getattr(self, name)
            if value is not None:
                object.__setattr__(self, name, number(name, value, allowed))
            elif name not in MAY_BE_NONE:
                raise InputError(name, f"{name} is missing; give a number")
        if self.load_kg is None and self.load_from != "body":
            raise InputError("load_kg", f"load_kg is missing: the load is a {self.load_from}; give it in kg")

    @checked_call
    def change(self, **fields):
        """A copy with some ``fields`` changed, in the units above, checked again; a field that there is not is an `InputError`.

        >>> from shoulder_model import pulls
        >>> pulls["front pulldown"].change(grip_ratio=2.0).grip_ratio
        2.0
        """
        for name in fields:
            choice("field", name, FIELDS)
        return replace(self, **fields)

    @property
    def pull_angle(self):
        """Direction of the load's pull in the trunk: 0 overhead, 90° ahead, 180° down. [rad]"""
        return self.room_angle + self.trunk_lean

    @checked_call
    def mass_on_bar(self, lifter):
        """Load on the whole bar [kg]: ``load_kg``, or the ``lifter``'s own share where that is None."""
        mass = a_lifter(lifter).mass
        return self.body_share * mass if self.load_kg is None else self.load_kg

    @property
    def newtons_per_kg(self):
        """Pull on one hand for 1 kg on the whole bar. [N/kg]"""
        return fact("gravity") / self.hands

    @checked_call
    def force(self, lifter):
        """Pull of the load on one hand of the ``lifter``. [N]"""
        return self.mass_on_bar(lifter) * self.newtons_per_kg

    @checked_call
    def touch_point(self, lifter):
        """Touch point forward and up from the ``lifter``'s GH centre, to the middle of the grip. [m], [m]"""
        a_lifter(lifter)
        if self.touch in TRUNK_TOUCH:
            forward, up = lifter.trunk_site(TRUNK_TOUCH[self.touch])
            forward = forward + fact("bar_radius")
        else:
            forward, up = (d * lifter.stature / survey("men").mean_of("stature") for d in FREE_TOUCH[self.touch])
        return (
            (forward if self.touch_forward is None else self.touch_forward) + self.touch_shift_forward,
            (up if self.touch_up is None else self.touch_up) + self.touch_shift_up,
        )

    @checked_call
    def hand_offset(self, lifter):
        """How far the line of pull runs outside the ``lifter``'s resting shoulder, ``w``; negative inside. [m]"""
        return (self.grip_ratio * a_lifter(lifter).biacromial - lifter.gh_breadth) / 2

    @checked_call
    def line_offset(self, lifter):
        """How far the line of pull runs in front of (pulldown) or below (row) the ``lifter``'s resting shoulder, ``a``. [m]"""
        forward, up = self.touch_point(lifter)
        return forward * np.cos(self.pull_angle) - up * np.sin(self.pull_angle)

    @checked_call
    def touch_along(self, lifter):
        """How far along the pull the touch point lies from the ``lifter``'s resting GH centre: positive towards the load, negative beyond. [m]"""
        forward, up = self.touch_point(lifter)
        return forward * np.sin(self.pull_angle) + up * np.cos(self.pull_angle)


FIELDS = tuple(field.name for field in fields(Pull))


def a_pull(pull):
    """Return ``pull`` if it is a `Pull`, else raise `InputError` in words that say where one is found."""
    return thing("pull", pull, Pull, "sm.pulls[{}]")
