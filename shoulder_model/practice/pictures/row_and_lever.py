"""Pictures of rows, of a muscle's line and of arrows that items ask about. Lengths in cm, angles in degrees."""

from math import cos, radians, sin

from ...document.scene import Dot, Label, Scene, Stroke
from .marks import lettered

TRUNK, ARM, FOREARM = 42.0, 34.0, 34.0  # of a drawn lifter, in a picture 100 wide


def _towards(start, angle, length):
    """Where one gets from ``start`` at an ``angle`` from straight up, clockwise [degrees], after a ``length``."""
    return start[0] + length * sin(radians(angle)), start[1] - length * cos(radians(angle))


def _joint(start, end, first, second):
    """Where two limbs meet that reach from ``start`` to ``end``, below the line between them."""
    across, down = end[0] - start[0], end[1] - start[1]
    far = (across**2 + down**2) ** 0.5
    along = (first**2 - second**2 + far**2) / (2 * far)
    side = max(first**2 - along**2, 0.0) ** 0.5
    return start[0] + (along * across - side * down) / far, start[1] + (along * down + side * across) / far


def side_of_row(chance, below, lean):
    """A lifter from the side in a seated row, who leans back; the cable pulls straight ahead.

    Parameters
    ----------
    chance : chance.Chance
    below : float
        How far below the shoulder joint the line of pull runs. [cm]
    lean : float
        Of the trunk, backward. [degrees]

    Returns
    -------
    scene.Scene, and dict
        Name of a place -> its letter: shoulder, line (below the shoulder), hand, elbow, touch (on the chest), hip.
    """
    shoulder = (32.0, 14.0)
    y = shoulder[1] + 1.4 * below
    hip = _towards(shoulder, 180 - lean, TRUNK)
    hand = (shoulder[0] + 40.0, y)
    elbow = _joint(shoulder, hand, ARM, FOREARM)
    front = shoulder[0] + 1.4 * below * sin(radians(lean)) / cos(radians(lean)) + 11.0
    places = {
        "shoulder": (*shoulder, "the shoulder joint"),
        "line": (shoulder[0], y, "a point on the line of pull, straight below the shoulder joint"),
        "hand": (*hand, "the hand on the handle"),
        "elbow": (*elbow, "the elbow"),
        "touch": (front, y, "the place on the chest where the handle will touch"),
        "hip": (*hip, "the hip"),
    }
    marks, letters = lettered(chance, places)
    shapes = (
        Dot(*_towards(shoulder, -lean, 9.0), open=True, radius=4.0),
        Stroke((shoulder, hip, (hip[0] + 24, hip[1] + 1))),
        Stroke((shoulder, elbow, hand)),
        Stroke(((shoulder[0] - 10, y), hand), "guide"),
        Stroke((hand, (97.0, y)), "load", True),
        Label(98, y - 5.5, "pull of the cable", "end"),
    )
    words = (
        "A lifter from the side, facing right, in a seated row. The cable pulls straight ahead, along a dashed line."
    )
    return Scene(words, 68.0, shapes, marks), letters


def dial(chance, lean, angles):
    """A lifter from the side, facing right, with arrows from the shoulder along which a load might pull.

    Parameters
    ----------
    chance : chance.Chance
    lean : float
        Of the trunk, backward; negative is forward. [degrees]
    angles : sequence of float
        Of the arrows, from straight up along the trunk, forward positive. [degrees]

    Returns
    -------
    scene.Scene, and dict
        Angle -> letter.
    """
    shoulder = (48.0, 38.0)
    hip = _towards(shoulder, 180 - lean, 33.0)
    tips = {angle: _towards(shoulder, angle - lean, 27.0) for angle in angles}
    marks, letters = lettered(chance, {angle: (*tip, "at the tip of an arrow") for angle, tip in tips.items()})
    arrows = [Stroke((shoulder, _towards(shoulder, angle - lean, 23.6)), "load", True) for angle in angles]
    shapes = (
        Dot(*_towards(shoulder, -lean, 7.5), open=True, radius=3.2),
        Stroke((shoulder, hip)),
        Stroke((hip, (hip[0] + 2, 78.0))),
        Stroke(((6.0, 78.0), (94.0, 78.0)), "axis"),
        Label(7, 76, "floor"),
        *arrows,
        Dot(*shoulder, radius=1.6),
    )
    posture = "leans back" if lean > 0 else "leans forward"
    words = f"A lifter from the side, facing right, who {posture} by {abs(lean)}°. Arrows leave the shoulder."
    return Scene(words, 80.0, shapes, marks), letters


def muscle_line(chance, raised, origin, insertion):
    """An arm raised to the side, from behind, with a muscle's straight line from the back to the arm; not to scale.

    Parameters
    ----------
    chance : chance.Chance
    raised : float
        The arm, from hanging. [degrees]
    origin : tuple of float
        Where the line starts: left of and below the joint, in the picture's unit.
    insertion : float
        How far down the arm it ends, in the picture's unit.

    Returns
    -------
    scene.Scene, and dict
        Name of a place -> its letter: joint, line (nearest to the joint), origin, insertion, elbow, spine.
    """
    joint = (48.0, 30.0)
    start = (joint[0] - origin[0], joint[1] + origin[1])
    end, elbow = (_towards(joint, 180 - raised, length) for length in (insertion, 40.0))
    across, down = end[0] - start[0], end[1] - start[1]
    part = ((joint[0] - start[0]) * across + (joint[1] - start[1]) * down) / (across**2 + down**2)
    places = {
        "joint": (*joint, "the middle of the shoulder joint"),
        "line": (start[0] + part * across, start[1] + part * down, "the point of the line nearest to the joint"),
        "origin": (*start, "where the muscle's line starts on the back"),
        "insertion": (*end, "where the muscle's line ends on the arm"),
        "elbow": (*elbow, "the elbow"),
        "spine": (start[0] - 2.0, joint[1], "a point on the spine, level with the joint"),
    }  # fmt: skip
    marks, letters = lettered(chance, places)
    shapes = (
        Stroke(((start[0] - 2, 8.0), (start[0] - 2, joint[1]), start)),
        Stroke(((start[0] - 2, joint[1] - 8), joint, elbow)),
        Stroke((start, end), "load"),
        Label(start[0] + 2, 12, "spine"),
        Label(96, elbow[1] - 6, "arm", "end"),
        Label((start[0] + end[0]) / 2 + 9, (start[1] + end[1]) / 2 + 5, "lat"),
        Label(96, 66, "not to scale", "end"),
    )
    words = f"The back and the right arm, raised {raised}° to the side, from behind. A black line is the muscle."
    return Scene(words, 70.0, shapes, marks), letters


def arrows(chance, asked, gives):
    """The torque that a load asks for, as an arrow, and arrows for the levers of some muscles.

    Parameters
    ----------
    chance : chance.Chance
    asked : float
        Direction of the load's arrow, from extension towards horizontal abduction. [degrees]
    gives : dict
        Name -> direction likewise [degrees], and length in the picture's unit.

    Returns
    -------
    scene.Scene, and dict
        Name -> letter.
    """
    centre = (46.0, 42.0)

    def tip(direction, length):
        return _towards(centre, 90 - direction, length)

    marks, letters = lettered(
        chance, {name: (*tip(*arrow), "at the tip of a muscle's arrow") for name, arrow in gives.items()}
    )
    shapes = (
        Stroke(((6.0, centre[1]), (94.0, centre[1])), "axis"),
        Stroke(((centre[0], 6.0), (centre[0], 79.0)), "axis"),
        Stroke((centre, tip(asked, 37.0)), "body", True),
        *(Stroke((centre, tip(way, length - 3.2)), "load", True) for way, length in gives.values()),
        Label(6, 86, "right: extension; up: horizontal abduction"),
        Label(6, 92, "grey: the load; black: four muscles"),
    )
    words = (
        "Arrows from one point: to the right is extension, up is horizontal abduction. "
        "The grey arrow is what the load asks for. Each black arrow is one muscle's levers."
    )
    return Scene(words, 95.0, shapes, marks), letters
