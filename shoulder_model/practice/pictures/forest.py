"""A forest plot of effect sizes: a line a result, a dot for its value, a bar for its interval."""

from ...document.scene import Dot, Label, Scene, Stroke
from ...words import written

LEFT, RIGHT = 38.0, 94.0  # of the axis, in a picture 100 wide
FIRST, ROW = 8.0, 9.0  # height of the first line, and from one line to the next


def row_height(place):
    """How far from the top a line lies in the picture, without unit; ``place`` is a whole number, 0 the first."""
    return FIRST + ROW * place


def forest(results, first, second):
    """A forest plot: one line a result, with its interval. [SD]

    Parameters
    ----------
    results : sequence
        Of name (text), value, low, high. [SD]
    first, second : str
        What had more on the right and on the left of zero.
    """
    ends = [end for _, _, low, high in results for end in (low, high)] + [0.0]
    least, most = min(ends), max(ends)

    def at(value):
        return LEFT + (RIGHT - LEFT) * (value - least) / max(most - least, 1e-9)

    foot = row_height(len(results)) - 1
    shapes = [Stroke(((at(0), 4), (at(0), foot)), "guide"), Stroke(((LEFT, foot), (RIGHT, foot)), "axis")]
    for place, result in enumerate(results):
        shapes += _line(result, row_height(place), at)
    for tick in _ticks(least, most):
        shapes.append(Stroke(((at(tick), foot), (at(tick), foot + 1)), "axis"))
        shapes.append(Label(at(tick), foot + 5.5, f"{tick:g}".replace("-", "−"), "middle"))
    shapes.append(Label((LEFT + RIGHT) / 2, foot + 11.5, "g [SD]", "middle"))
    told = "; ".join(_words(*result) for result in results)
    words = f"A forest plot; right of zero {first} had more, left of it {second}. {told}."
    return Scene(words, foot + 14, tuple(shapes))


def _line(result, y, at):
    """One result: its name, its interval with caps, its dot."""
    name, value, low, high = result
    caps = [Stroke(((at(end), y - 1.2), (at(end), y + 1.2)), "interval") for end in (low, high)]
    return [
        Label(2, y + 1.4, name),
        Stroke(((at(low), y), (at(high), y)), "interval"),
        *caps,
        Dot(at(value), y, radius=1.5),
    ]


def _words(name, value, low, high):
    value, low, high = (written(one, 2, sign=True) for one in (value, low, high))
    return f"{name}: {value}, from {low} to {high}"


def _ticks(least, most):
    """Round numbers along an axis, four or so."""
    step = next(step for step in (0.1, 0.2, 0.5, 1.0, 2.0, 5.0, 10.0, 20.0, 50.0) if (most - least) / step <= 6)
    first = -int(-least / step) if least < 0 else 0
    return [round(tick * step, 6) for tick in range(first, int(most / step) + 1)]
