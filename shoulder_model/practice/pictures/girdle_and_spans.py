"""Pictures for chapters 6, 7 and a2: a row from above, spans to read, two torques, seven equations on a line."""

import numpy as np

from ...document.scene import Dot, Label, Mark, Scene, Stroke
from ...sources import fact
from .marks import lettered


def row_from_above(chance, shoulders, grip):
    """A lifter from above in a wide row: the right half, with places to pick.

    Parameters
    ----------
    chance : chance.Chance
    shoulders, grip : float
        Widths; the hand has to be well outside the shoulder. [cm]

    Returns
    -------
    scene.Scene, and dict
        Name of a place -> its letter: sc, shoulder, hand, level (on the line, beside the SC joint), beside (on the line, beside
        the shoulder), middle (of the bar), spine.
    """
    scale, left, sc_y = 1.45, 12.0, 40.0
    sc, line = left + 100 * scale * fact("sc_from_midline"), left + scale * grip / 2
    shoulder = (left + scale * (shoulders / 2 - 1), sc_y + 14)
    hand_y, elbow = sc_y - 28, (line + 13, sc_y + 6)
    places = {
        "sc": (sc, sc_y, "the SC joint, at the inner end of the collarbone"),
        "shoulder": (*shoulder, "the shoulder joint"),
        "hand": (line, hand_y, "the hand on the bar"),
        "level": (line, sc_y, "a point on the line of pull, level with the SC joint"),
        "beside": (line, shoulder[1], "a point on the line of pull, level with the shoulder joint"),
        "middle": (left, hand_y, "the middle of the bar"),
        "spine": (left, sc_y + 22, "the spine"),
    }
    marks, letters = lettered(chance, places)
    shapes = (
        Stroke(((left, hand_y), (left, sc_y + 22)), "guide"),
        Stroke(((sc, sc_y), shoulder, elbow, (line, hand_y))),
        Stroke(((left - 8, hand_y), (line + 8, hand_y)), "axis"),
        Stroke(((line, sc_y + 24), (line, hand_y)), "guide"),
        Stroke(((line, hand_y), (line, hand_y - 10)), "load", True),
        Label(line + 3, hand_y - 6, "pull"),
        Label(sc + 4, sc_y - 3, "SC joint"),
        Label(left, sc_y + 29.5, "spine", "middle"),
        Label(shoulder[0], shoulder[1] + 7.5, "shoulder", "middle"),
    )
    words = "A lifter from above in a wide row, the right half. The cable pulls the hand straight ahead, along a dashed line."
    return Scene(words, 72, shapes, marks), letters


def spans_to_read(rows, most, title):
    """Bars from low to high, one above the other, with a letter each.

    Parameters
    ----------
    rows : sequence
        Of letter, name, low, high; the letter is "" where nothing is to be picked. [per cent]
    most : float
        Right end of the axis. [per cent]
    title : str
        What the axis counts.
    """
    tall = 16 + 14 * len(rows)

    def at(value):
        return 12 + 82 * value / most

    shapes, marks, told = [Stroke(((12, tall - 12), (94, tall - 12)), "axis")], [], []
    for tick in range(0, int(most) + 1, 5):
        for y in (13 + 14 * row for row in range(len(rows))):
            shapes.append(Stroke(((at(tick), y - 3), (at(tick), y + 3)), "guide"))
        shapes.append(Stroke(((at(tick), tall - 12), (at(tick), tall - 11)), "axis"))
        shapes.append(Label(at(tick), tall - 6.5, f"{tick}", "middle"))
    for row, (letter, name, low, high) in enumerate(rows):
        y = 13 + 14 * row
        shapes += [Stroke(((at(low), y), (at(high), y)), "body"), Label(13, y - 4.6, name)]
        shapes += [Stroke(((at(end), y - 2), (at(end), y + 2)), "load") for end in (low, high)]
        told.append(f"{name}: {low:.0f} to {high:.0f} %")
        if letter:
            marks.append(Mark(letter, 5, y, name))
    shapes.append(Label(53, tall - 1.5, f"{title} [%]", "middle"))
    words = f"Bars with spans, {title} in per cent. {'; '.join(told)}."
    return Scene(words, tall, tuple(shapes), tuple(marks))


def outline_of_torques(columns):
    """Corners of all pairs of torques that some muscles can give, (n, 2), closed; in the unit of ``columns``.

    ``columns`` (m, 2) are the muscles' torques at full effort, none negative. [N m]
    """
    flat_first = columns[np.argsort(np.arctan2(columns[:, 1], columns[:, 0]), kind="stable")]
    below = np.vstack([np.zeros(2), np.cumsum(flat_first, axis=0)])
    above = np.vstack([np.zeros(2), np.cumsum(flat_first[::-1], axis=0)])
    return np.vstack([below, above[-2::-1]])


def torque_places(columns, per_kg, largest):
    """Places on the picture of two torques, a dict from name to x, y of a picture 100 wide, and the scale [1/(N m)].

    Parameters
    ----------
    columns : ndarray, shape (m, 2)
        Torques at full effort, shoulder and elbow. [N m]
    per_kg : ndarray, shape (2,)
        What the pull asks. [N m/kg]
    largest : float
        Load at which the line leaves the area. [kg]
    """
    corner = columns.sum(axis=0)
    scale = min(62 / corner[0], 41 / corner[1])
    leaves = largest * per_kg
    spots = {"leaves": leaves, "inside": 0.5 * leaves, "outside": 1.22 * leaves, "corner": corner}
    spots["back"] = np.array([columns[:, 0].max(), 0.0])
    return {name: (14 + scale * x, 62 - scale * y) for name, (x, y) in spots.items()}, scale


def two_torques(chance, columns, per_kg, largest):
    """What some muscles can give at shoulder and elbow, an area, and the line of a pull whose load grows.

    ``chance`` is a `practice.chance.Chance`; ``columns``, ``per_kg`` and ``largest`` as of `torque_places` [N m, N m/kg, kg]. Returns the
    `Scene`, and a dict from the name of a place (leaves, inside, outside, corner, back) to its letter.
    """
    spots, scale = torque_places(columns, per_kg, largest)
    told = {
        "leaves": "where the dotted line meets the edge of the area",
        "inside": "on the dotted line, inside the area",
        "outside": "on the dotted line, outside the area",
        "corner": "the corner at the top right of the area",
        "back": "on the bottom edge of the area",
    }
    marks, letters = lettered(chance, {name: (*spots[name], told[name]) for name in spots})
    outline = tuple((14 + scale * x, 62 - scale * y) for x, y in outline_of_torques(columns))
    shapes = (
        Stroke(((14, 62), (94, 62)), "axis", True),
        Stroke(((14, 62), (14, 6)), "axis", True),
        Stroke(outline),
        Stroke(((14, 62), spots["outside"]), "guide"),
        Label(94, 70, "torque at the shoulder [N m]", "end"),
        Label(3, 4.5, "torque at the elbow [N m]"),
    )
    words = "Torque at the shoulder to the right, at the elbow upwards. A closed area holds all pairs that the muscles can give."
    return Scene(f"{words} A dotted line shows what the pull asks as its load grows.", 73, shapes, marks), letters


def results_on_a_line(chance, set_kg, results):
    """What several equations make of one set, on a line of kilograms, with places to pick.

    Parameters
    ----------
    chance : chance.Chance
    set_kg : float
        Load of the set. [kg]
    results : sequence of float
        One an equation; an odd number of them. [kg]

    Returns
    -------
    scene.Scene, and dict
        Name of a place -> its letter: set, low, middle, high.
    """
    ordered = sorted(results)
    places = {"set": set_kg, "low": ordered[0], "middle": ordered[len(ordered) // 2], "high": ordered[-1]}
    first, last = 5 * (set_kg // 5), 5 * (ordered[-1] // 5 + 1)

    def at(kg):
        return 8 + 84 * (kg - first) / (last - first)

    heights = {"set": 14, "low": 14, "middle": 8, "high": 14}
    told = {
        "set": "the load of the set",
        "low": "the first dot",
        "middle": "the dot in the middle",
        "high": "the last dot",
    }
    spots = {name: (at(kg), heights[name], told[name]) for name, kg in places.items()}
    marks, letters = lettered(chance, spots)
    shapes = [Stroke(((8, 30), (92, 30)), "axis")]
    shapes += [Stroke(((x, y + 3), (x, 24)), "guide") for x, y, _ in spots.values()]
    shapes += [Dot(at(kg), 25) for kg in ordered] + [Dot(at(set_kg), 25, True)]
    for tick in np.arange(first, last + 1, 5):
        shapes += [Stroke(((at(tick), 30), (at(tick), 31.5)), "axis"), Label(at(tick), 36.5, f"{tick:.0f}", "middle")]
    shapes.append(Label(92, 42, "kg", "end"))
    words = f"A line of kilograms. A ring at {set_kg:g} kg is the set. Seven dots from {ordered[0]:.1f} to {ordered[-1]:.1f} kg."
    return Scene(words, 44, tuple(shapes), marks), letters
