"""A lifter from the front under a pulldown bar, with places to pick. Lengths come in centimetres."""

from ...document.scene import Dot, Label, Scene, Stroke
from .marks import lettered

HEIGHT = 60.0  # of a picture 100 wide


def front_of_pulldown(chance, shoulders, grip, height):
    """A lifter from the front under a cable from overhead: the right half, with places to pick.

    Parameters
    ----------
    chance : chance.Chance
    shoulders, grip : float
        Widths. [cm]
    height : float
        Of the hands above the shoulder joints. [cm]

    Returns
    -------
    scene.Scene, and dict
        Name of a place -> its letter: shoulder, elbow, hand, line (beside the shoulder), middle (of the bar), chest.
    """
    scale, left, shoulder_y = 1.15, 16.0, 43.0
    shoulder, line = left + scale * shoulders / 2, left + scale * grip / 2
    hand_y = shoulder_y - scale * height
    elbow = (line + 9.0, shoulder_y + 8.0)  # so low that the upper arm stays clear of the mark on the line
    places = {
        "shoulder": (shoulder, shoulder_y, "the shoulder joint"),
        "elbow": (*elbow, "the elbow"),
        "hand": (line, hand_y, "the hand on the bar"),
        "line": (line, shoulder_y, "a point on the line of pull, level with the shoulder joint"),
        "middle": (left, hand_y, "the middle of the bar"),
        "chest": (left, shoulder_y, "the middle of the body, level with the shoulder joint"),
    }
    marks, letters = lettered(chance, places)
    shapes = (
        Dot(left, shoulder_y - 14, open=True, radius=4.5),
        Stroke(((left, shoulder_y - 6), (left, shoulder_y - 9))),
        Stroke(((left, shoulder_y - 6), (shoulder, shoulder_y), (shoulder - 3, shoulder_y + 15))),
        Stroke(((shoulder, shoulder_y), elbow, (line, hand_y))),
        Stroke(((left - 8, hand_y), (line + 10, hand_y)), "axis"),
        Stroke(((line, shoulder_y + 14), (line, hand_y)), "guide"),
        Stroke(((line, hand_y), (line, hand_y - 11)), "load", True),
        Label(line - 4, hand_y - 6, "pull of the cable", "end"),
    )
    words = "A lifter from the front under a pulldown bar. The cable pulls the hand straight up along a dashed line."
    return Scene(words, HEIGHT, shapes, marks), letters
