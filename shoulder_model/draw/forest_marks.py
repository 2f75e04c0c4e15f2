"""The marks of a forest plot: rings with capped bars, signs for what has no number, a hatched bar for a summary."""

import numpy as np
from matplotlib.lines import Line2D

from .artists import moving
from .look import BLACK, BLUE, GREEN, GREY, VERMILLION

CAP = 4.0  # points, half the height of a bar's caps
THICK, STEP = 6.0, 5.0  # points, half the height of the hatched bar; from stroke to stroke
ARROWS = {"order": (VERMILLION, True), "p-value": (GREEN, False)}  # colour, filled
EDGES = {"first": 0.97, "second": 0.03}  # shares of the axes' width


class Estimates:
    """Open rings with capped bars, and thin lines for the band of the correlation.

    Parameters
    ----------
    axes : matplotlib.axes.Axes
    counts : bool
        Whether nothing else may have made the difference; grey where something may.
    """

    def __init__(self, axes, counts):
        colour = BLUE if counts else GREY
        self.band = moving(axes, colour=colour, width=0.9, z=3)
        self.bars = moving(axes, colour=colour, width=2.0, z=4)
        self.rings = moving(
            axes,
            colour=colour,
            style="none",
            z=5,
            marker="o",
            markersize=7.5,
            markerfacecolor="white",
            markeredgewidth=2,
        )

    def show(self, lines):
        """Show pairs of height [points] and `forest_lines.ForestLine`."""
        spans(self.band, [(y, line.band) for y, line in lines if line.band])
        pieces = [piece for y, line in lines for piece in _capped(y, *line.ends)]
        pieces_of(self.bars, pieces)
        self.rings.set_data([line.value for _, line in lines], [y for y, _ in lines])


class Signs:
    """An arrow for an order or a p-value, a cross where none was seen, a triangle for the highest of several.

    Parameters
    ----------
    axes : matplotlib.axes.Axes
    place : matplotlib.transforms.Transform
        Across in shares of the axes' width, up in points.
    counts : bool
        As for `Estimates`.
    """

    def __init__(self, axes, place, counts):
        self.arrows = {}
        for kind, (colour, filled) in ARROWS.items():
            for way, marker in (("first", ">"), ("second", "<")):
                own = colour if counts else GREY
                self.arrows[kind, way] = _sign(axes, place, marker, own, own if filled else "white")
        dark = BLACK if counts else GREY
        self.crosses, self.tops = _sign(axes, place, "x", dark, dark), _sign(axes, place, "^", dark, "white")

    def show(self, lines):
        """Show pairs of height [points] and `forest_lines.ForestLine`."""
        for (kind, way), arrow in self.arrows.items():
            ys = [y for y, line in lines if (line.kind, line.points) == (kind, way)]
            arrow.set_data([EDGES[way]] * len(ys), ys)
        ys = [y for y, line in lines if line.points == "none"]
        self.crosses.set_data([0.5] * len(ys), ys)
        tops = [(EDGES[line.points.removeprefix("top ")], y) for y, line in lines if line.points.startswith("top ")]
        self.tops.set_data([x for x, _ in tops], [y for _, y in tops])


class HatchedBar:
    """A summary's interval as a hatched bar, with a stroke at its estimate.

    Parameters
    ----------
    axes : matplotlib.axes.Axes
    """

    def __init__(self, axes):
        self.axes = axes
        self.hatching = moving(axes, width=1.0, z=5)
        self.middle = moving(axes, width=3.0, z=6)

    def show(self, one):
        """Show a pair of height [points] and `forest_lines.ForestLine`, or nothing for None."""
        if one is None:
            pieces_of(self.hatching, [])
            self.middle.set_data([], [])
            return
        y, line = one
        low, high = line.ends
        pieces_of(self.hatching, [*_box(y, low, high), *_strokes(y, low, high, self._points_in_one())])
        self.middle.set_data([line.value] * 2, [y - 1.3 * THICK, y + 1.3 * THICK])

    def _points_in_one(self):
        """How many points one unit of the axis is wide."""
        low, high = self.axes.get_xlim()
        return self.axes.bbox.width / (high - low)


def spans(line, ends):
    """Horizontal pieces at heights, as one line with gaps; nothing where there are none."""
    pieces_of(line, [((low, y), (high, y)) for y, (low, high) in ends])


def pieces_of(line, pieces):
    """Pieces from point to point, each ((x, y), (x, y)), as one line with gaps."""
    points = [point for start, end in pieces for point in (start, end, (np.nan, np.nan))]
    line.set_data([x for x, _ in points], [y for _, y in points])


def _capped(y, low, high):
    yield (low, y), (high, y)
    for end in (low, high):
        yield (end, y - CAP), (end, y + CAP)


def _box(y, low, high):
    corners = [(low, y - THICK), (high, y - THICK), (high, y + THICK), (low, y + THICK)]
    return zip(corners, [*corners[1:], corners[0]], strict=True)


def _strokes(y, low, high, points):
    """Slanted strokes inside a box, ``points`` to one unit of the axis."""
    rise = 2 * THICK / points  # a stroke goes as far across as up
    for start in np.arange(low - rise, high, STEP / points):
        left, right = max(start, low), min(start + rise, high)
        if right > left:
            yield tuple((x, y + THICK - (x - start) * points) for x in (left, right))


def _sign(axes, place, marker, colour, face):
    return axes.add_line(
        Line2D(
            [], [], ls="none", marker=marker, markersize=9.5, color=colour, markerfacecolor=face, markeredgewidth=1.8,
            transform=place, zorder=5, animated=True, clip_on=False,
        )
    )  # fmt: skip
