"""A length drawn off the body as on a plan: two thin lines out from its ends, the length between them, its value beside it."""

from functools import cache

import numpy as np
from matplotlib.font_manager import FontProperties, findfont
from matplotlib.ft2font import FT2Font

from .artists import moving
from .look import BLACK, LETTERS, PURPLE, SMALL

TICK = 5.0  # points, half of an end mark
BEYOND = 4.0  # points that the thin lines reach past the length
EDGE = 3.0  # points, least distance of words from the edge of a picture


@cache
def _advance(letter, weight):
    """Width of one letter at 1 point."""
    font = FT2Font(findfont(FontProperties(family="DejaVu Sans", weight=weight)))
    font.set_size(100, 72)
    return font.load_char(ord(letter)).linearHoriAdvance / 65536 / 100


@cache
def text_width(words, size=LETTERS, weight="normal"):
    """Width of ``words`` in letters of ``size`` points. [points]"""
    return size * sum(_advance(letter, weight) for letter in words)


def words_on(axes, colour=BLACK, *, size=SMALL, z=9, **more):
    """An empty animated text that stays readable on a drawing: a halo in the overlay, a pale ground in a saved picture."""
    ground = {"facecolor": "white", "alpha": 0.72, "edgecolor": "none", "pad": 0.6}
    return axes.text(0, 0, "", color=colour, fontsize=size, animated=True, zorder=z, bbox=ground, **more)


class Words:
    """One or two rows of words that never leave the picture: the first bold, the second in smaller letters."""

    def __init__(self, axes, colour=BLACK, *, size=LETTERS, weight="bold", rows=2):
        self.rows = [words_on(axes, colour, size=size if k == 0 else SMALL, va="baseline") for k in range(rows)]
        self.rows[0].set_fontweight(weight)
        self.weights = (weight, "normal")

    def size(self, texts):
        """Width and height of ``texts``, one for each row. [points]"""
        rows = zip(texts, self.rows, self.weights, strict=False)
        return max(text_width(text, row.get_fontsize(), weight) for text, row, weight in rows), 13.0 * len(texts)

    def show(self, texts, at, window, side=0.0):
        """Put ``texts`` with the middle of their height at ``at`` (2,) [m]; ``side`` -1 ends there, 1 begins there, 0 is centred."""
        wide, high = (points / window.scale for points in self.size(texts))
        edge = EDGE / window.scale
        x0, x1, y0, y1 = window.limits
        left = at[0] + (side - 1) / 2 * wide
        left = max(min(left, x1 - edge - wide), x0 + edge)
        bottom = max(min(at[1] - high / 2, y1 - edge - high), y0 + edge)
        place = left + (1 - side) / 2 * wide
        for k, (row, text) in enumerate(zip(self.rows, texts, strict=False)):
            row.set_text(text)
            row.set_ha(("right", "center", "left")[int(side) + 1])
            row.set_position((place, bottom + (13.0 * (len(texts) - 1 - k) + 3.0) / window.scale))

    def hide(self):
        """No words."""
        for row in self.rows:
            row.set_text("")


class Dimension:
    """A length in purple with its value; `ends` are the two ends of the drawn length, (2, 2)."""

    def __init__(self, axes, colour=PURPLE):
        self.thin = moving(axes, colour="#8d5577", width=0.9, z=6.4)
        self.line = moving(axes, colour=colour, width=3.2, z=7, solid_capstyle="butt")
        self.words = Words(axes)

    @property
    def ends(self):
        """Both ends of the drawn length, (2, 2). [m]"""
        return np.transpose(self.line.get_data())[2:4]

    def show(self, start, end, shift, window):
        """The length from ``start`` to ``end``, drawn ``shift`` away from them, all (2,). [m]"""
        (x, y), (to_x, to_y), (dx, dy) = start, end, shift
        long = (dx * dx + dy * dy) ** 0.5 or 1.0
        ux, uy = dx / long, dy / long
        tick, past = TICK / window.scale, BEYOND / window.scale
        ax, ay, bx, by = x + dx, y + dy, to_x + dx, to_y + dy
        mx, my = ux * past, uy * past
        self.thin.set_data((x, ax + mx, ax, bx, bx + mx, to_x), (y, ay + my, ay, by, by + my, to_y))
        tx, ty = ux * tick, uy * tick
        self.line.set_data(
            (ax + tx, ax - tx, ax, bx, bx - tx, bx + tx),
            (ay + ty, ay - ty, ay, by, by - ty, by + ty),
        )

    def hide(self):
        """Take it away."""
        self.thin.set_data([], [])
        self.line.set_data([], [])
        self.words.hide()


class Window:
    """The part of the world that a picture shows, at one scale both ways; it fits itself to what is drawn, or stays fixed.

    ``limits`` left, right, bottom, top [m]; ``scale`` points for a metre.
    """

    MARGIN, LARGEST = 6.0, 320.0  # points; points for a metre

    def __init__(self, axes, limits=None):
        self.axes, self.fixed = axes, limits is not None
        box = axes.get_position(original=True)
        width, height = axes.figure.get_size_inches() * 72
        self.wide, self.high = box.width * width, box.height * height
        axes.set(aspect="equal", xticks=[], yticks=[])
        half = self.wide / self.high
        self.limits = (-half, half, -1.0, 1.0) if limits is None else tuple(limits)
        axes.set(xlim=self.limits[:2], ylim=self.limits[2:])
        self.scale = min(self.wide / (self.limits[1] - self.limits[0]), self.high / (self.limits[3] - self.limits[2]))

    def scale_for(self, low, high):
        """Points for a metre at which everything from ``low`` to ``high``, both (2,) [m], just fits."""
        if self.fixed:
            return self.scale
        across, up = (
            (self.wide - 2 * self.MARGIN) / (high[0] - low[0]),
            (self.high - 2 * self.MARGIN) / (high[1] - low[1]),
        )
        return min(across, up, self.LARGEST)

    def fit(self, low, high):
        """Show everything from the corner ``low`` to the corner ``high``, both (2,). [m]"""
        if self.fixed:
            return
        (x0, y0), (x1, y1) = low, high
        self.scale = self.scale_for(low, high)
        x, y, half_x, half_y = (x0 + x1) / 2, (y0 + y1) / 2, self.wide / self.scale / 2, self.high / self.scale / 2
        self.limits = x - half_x, x + half_x, y - half_y, y + half_y
        seen = self.axes.viewLim
        seen.intervalx, seen.intervaly = self.limits[:2], self.limits[2:]
