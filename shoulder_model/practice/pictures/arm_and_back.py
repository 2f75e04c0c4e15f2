"""More pictures for items: an arm that holds a weight, an arm that a torque turns, a back with its muscles."""

import numpy as np

from ...axes import AXES
from ...document.scene import Dot, Label, Scene, Stroke
from ...mechanics import anatomical, raised_arm
from .marks import lettered

NEAREST = 7.5  # two marks, of a picture 100 wide
HELD_SCALE, HELD_SHOULDER = 0.95, (17.0, 24.0)  # a picture's units a centimetre, and where the joint is drawn
TALL = 66.0  # height of the pictures of an arm
HELD_TOP, HELD_BOTTOM = 8.0, 52.0  # where joints and hand may come

TURN_DEG, ARM, OUT = (
    40.0,
    31.0,
    40.0,
)  # how far the places lie from the hand's; length of the arm drawn; the place beyond it
VIEWS = {  # torque -> words, axes of the view and their signs, shoulder, trunk (x, y, half, tall), head
    "adduction": ("from the front", (2, 1), (-1, 1), (58.0, 26.0), (72.0, 45.0, 12.0, 18.0), (72.0, 17.0, 7.0)),
    "extension": ("from the right side", (0, 1), (1, 1), (38.0, 26.0), (37.0, 45.0, 8.0, 18.0), (39.0, 15.0, 7.0)),
    "horizontal_abduction": ("from above", (2, 0), (1, 1), (50.0, 53.0), (34.0, 53.0, 15.0, 7.0), (34.0, 52.0, 6.0)),
}  # fmt: skip
LOOKS = {
    "adduction": (),
    "extension": ((1, 0),),
    "horizontal_abduction": ((0, -1),),
}  # where the nose is, where it shows
PLACES = {  # name of a place in the picture of a turning arm -> what is said of it, before and after the view's word
    "plus": "where the hand comes when the arm turns {plus}",
    "minus": "where the hand comes when the arm turns {minus}",
    "out": "straight out from the hand, along the arm",
    "middle": "the middle of the arm",
}
WAYS = {
    "adduction": {"plus": "down to the side of the body", "minus": "up and away from the body"},
    "extension": {"plus": "down and back", "minus": "up, to the front"},
    "horizontal_abduction": {"plus": "out to the side", "minus": "across the chest"},
}

BACK_SCALE, BACK_MIDDLE, BACK_TOP = 1.08, 48.0, 24.0  # units a centimetre; the spine; the height of the shoulders
BODY = (
    (0, 19), (5.5, 17), (5.8, 10), (10, 6.4), (18, 3), (23.5, 0), (25.6, -5), (26, -12), (27.5, -24), (28.5, -33),
    (23, -33), (21.5, -24), (19.2, -12.5), (17.9, -18), (16.9, -26), (16.2, -34), (16.6, -42), (18.2, -49),
)  # fmt: skip
OUTLINES = {  # schematic, in cm from the spine and from shoulder height; the left half lies underneath
    "trapezius": ((0, 16), (1.8, 16), (4.6, 10), (10, 6), (18.6, 2.6), (15.6, -1.2), (8.2, -3.6), (3.2, -19), (0, -29)),
    "infraspinatus": ((7.6, -4.8), (11, -3.8), (15, -6), (19.4, -8.4), (16, -9.8), (11, -13), (8.4, -14)),
    "rear deltoid": (
        (11, -3), (17, -0.4), (20.8, 1.2), (24.6, -2), (25.9, -13), (25.4, -18), (23, -15), (19.6, -8), (15, -5.6),
    ),
    "teres major": ((8.8, -14.6), (11, -13.4), (15.8, -10.2), (19.8, -9), (20.2, -10.8), (16, -13.6), (11, -17)),
    "lat": (
        (2.6, -19.6), (8.8, -16.8), (11, -17.4), (16, -13.8), (20.4, -10.4), (18.9, -14.4), (17.9, -18.5), (17, -26),
        (15.8, -34), (13.4, -43.5), (10.5, -44.5), (6, -36),
    ),
    "rhomboids": ((-0.5, 6.5), (-0.5, -6), (-8, -15), (-7.2, -1.5)),
    "erectors": ((-0.9, 9), (-2.4, 9), (-3, -10), (-4.6, -28), (-5.4, -38), (-4, -48), (-0.9, -49)),
}  # fmt: skip
POINTED = {  # muscle -> where its line points to in cm, where its letter stands, and words for who does not see it
    "trapezius": ((9, 5), (90, 10), "from neck and spine out to the shoulder blade, at the surface"),
    "rear deltoid": ((23, -4), (90, 23), "over the back of the shoulder"),
    "infraspinatus": ((13, -7), (90, 34), "on the shoulder blade, under the ridge"),
    "teres major": ((16, -11.6), (90, 45), "from the lower tip of the blade to the upper arm"),
    "lat": ((13, -30), (90, 60), "large, from lower spine and pelvis to the upper arm"),
    "rhomboids": ((-5, -6), (8, 34), "underneath, between the spine and the inner edge of the blade"),
    "erectors": ((-4.4, -33), (8, 60), "underneath, along the spine"),
}


def held_places(upper_arm, forearm, raised, bent):
    """Where the joints, the hand and the load's line are drawn, or None where two of them would lie on each other.

    Parameters
    ----------
    upper_arm, forearm : float
        [cm]
    raised, bent : float
        Upper arm from hanging, forward; elbow from straight. [°]

    Returns
    -------
    dict
        Name of a place -> x, y of a picture 100 wide, and words; None where it cannot be drawn.
    """
    x, y = HELD_SHOULDER
    first, second = np.radians(raised), np.radians(raised + bent)
    elbow = (x + HELD_SCALE * upper_arm * np.sin(first), y + HELD_SCALE * upper_arm * np.cos(first))
    hand = (
        elbow[0] + HELD_SCALE * forearm * np.sin(second),
        elbow[1] + HELD_SCALE * forearm * np.cos(second),
    )
    places = {
        "shoulder": (x, y, "the shoulder joint"),
        "elbow": (*map(float, elbow), "the elbow joint"),
        "hand": (*map(float, hand), "the hand with the weight"),
        "level with shoulder": (float(hand[0]), y, "a point on the load's line, level with the shoulder joint"),
        "level with elbow": (float(hand[0]), float(elbow[1]), "a point on the load's line, level with the elbow joint"),
    }
    spots = [place[:2] for place in places.values()]
    near = min(np.hypot(*np.subtract(one, other)) for k, one in enumerate(spots) for other in spots[:k])
    inside = all(HELD_TOP <= spot[1] <= HELD_BOTTOM and x <= spot[0] <= 92 for spot in spots)
    return places if near >= NEAREST and inside else None


def held_arm(chance, places, load_kg):
    """An arm from the side that holds a weight, with places to pick.

    Parameters
    ----------
    chance : chance.Chance
    places : dict
        Of `held_places`.
    load_kg : float
        [kg]

    Returns
    -------
    scene.Scene, and dict
        Name of a place -> its letter.
    """
    marks, letters = lettered(chance, places)
    x, y = HELD_SHOULDER
    shoulder, elbow, hand = (places[name][:2] for name in ("shoulder", "elbow", "hand"))
    low = max(place[1] for place in places.values()) + 11
    high = min(place[1] for place in places.values()) - 6
    shapes = (
        Dot(x + 1, 9.0, open=True, radius=6.0),
        _nose(x + 1, 9.0, 6.0, 1, 0),
        Stroke(((x, y - 8), (x, y), (x - 2, y + 36))),
        Stroke((shoulder, elbow, hand)),
        Stroke(((hand[0], high), (hand[0], low)), "guide"),
        Stroke(((hand[0], low - 7), (hand[0], low)), "load", True),
        Label(min(hand[0] + 3, 84), low, f"{load_kg:g} kg"),
    )
    held = f"An arm from the side, facing right, with {load_kg:g} kg in the hand."
    words = f"{held} The load pulls straight down along a dashed line."
    return Scene(words, TALL, shapes, marks), letters


def _turned(arm, name, angle):
    """``arm`` (3,) turned the way a positive torque of that name turns it."""
    axis = np.array([anatomical(unit)[AXES.index(name)] for unit in np.eye(3)])
    return arm * np.cos(angle) + np.cross(axis, arm) * np.sin(angle) + axis * (axis @ arm) * (1 - np.cos(angle))


def _nose(x, y, radius, across, down):
    """A nose on a head at ``x``, ``y``, so that one sees which way it looks; ``across`` and ``down`` make the way, one long."""
    tip, half = radius + 1.8, 1.3
    base = [(x + radius * across + side * down, y + radius * down + side * across) for side in (-half, half)]
    return Stroke((base[0], (x + tip * across, y + tip * down), base[1]), "axis")


def _closed(x, y, half, tall):
    """An oval as points."""
    turn = np.linspace(0, 2 * np.pi, 41)
    return tuple(zip((x + half * np.cos(turn)).tolist(), (y + tall * np.sin(turn)).tolist(), strict=True))


def turning_arm(chance, name, raised):
    """A right arm in the view in which one torque turns it, with places that the hand may go to.

    Parameters
    ----------
    chance : chance.Chance
    name : str
        The torque, of `axes.AXES`.
    raised : float
        How high the arm is, from hanging; from above, how far round to the front. [°]

    Returns
    -------
    scene.Scene, and dict
        Name of a place (plus, minus, out, middle) -> its letter.
    """
    view, (across, up), signs, (x, y), trunk, (head_x, head_y, head) = VIEWS[name]
    flat = {"adduction": (raised, 0.0), "extension": (raised, 90.0), "horizontal_abduction": (90.0, raised)}[name]
    arm = -raised_arm(*np.radians(flat))[:, 1]

    def seen(vector, length):
        return float(x + signs[0] * length * vector[across]), float(y - signs[1] * length * vector[up])

    turn = np.radians(TURN_DEG)
    spots = {
        "plus": seen(_turned(arm, name, turn), ARM),
        "minus": seen(_turned(arm, name, -turn), ARM),
        "out": seen(arm, OUT),
        "middle": seen(arm, ARM / 2),
    }
    places = {spot: (*at, PLACES[spot].format(**WAYS[name])) for spot, at in spots.items()}
    marks, letters = lettered(chance, places)
    shapes = (
        Stroke(_closed(*trunk)),
        Dot(head_x, head_y, open=True, radius=head),
        Stroke(((x, y), seen(arm, ARM))),
        Dot(x, y),
        *(_nose(head_x, head_y, head, *way) for way in LOOKS[name]),
        Label(3, 63, view) if name == "adduction" else Label(97, 63, view, "end"),
    )
    return Scene(f"A body {view} with its right arm held out straight.", TALL, shapes, marks), letters


def back_from_behind(chance):
    """A back from behind: muscles at the surface on the right half, underneath on the left, with letters beside it.

    ``chance`` is a `practice.chance.Chance`. Returns a `document.scene.Scene` and a dict from a muscle's name to its letter, both text.
    """

    def at(point):
        return BACK_MIDDLE + BACK_SCALE * point[0], BACK_TOP - BACK_SCALE * point[1]

    right = tuple(map(at, BODY))
    left = tuple((2 * BACK_MIDDLE - x, y) for x, y in right)
    shapes = [Stroke(right), Stroke(left), Stroke((at((0, 16)), at((0, -49))), "guide")]
    for corners in OUTLINES.values():
        kind = "guide" if corners[0][0] < 0 else "axis"
        shapes.append(Stroke(tuple(map(at, (*corners, corners[0]))), kind))
    for target, spot, _ in POINTED.values():
        shapes += [Stroke((spot, at(target)), "axis"), Dot(*at(target), radius=0.9)]
    shapes += [Label(5, 6, "underneath"), Label(98, 76, "at the surface", "end")]
    marks, letters = lettered(chance, {name: (*spot, words) for name, (_, spot, words) in POINTED.items()})
    words = "A back from behind. Solid lines on the right half: muscles at the surface. Dashed on the left: underneath."
    return Scene(words, 80.0, tuple(shapes), marks), letters
