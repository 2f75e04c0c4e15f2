"""Empty artists that move: made once, filled at every update."""

import numpy as np
from matplotlib.patches import Polygon

from .look import BLACK, SMALL


def moving(axes, *, colour=BLACK, width=1.5, style="-", z=3, **more):
    """An empty animated line on ``axes``."""
    (line,) = axes.plot([], [], color=colour, lw=width, ls=style, zorder=z, animated=True, **more)
    return line


def label(axes, colour, **more):
    """An empty animated text on ``axes``."""
    return axes.text(0, 0, "", color=colour, fontsize=SMALL, animated=True, zorder=9, **more)


def rounded(corners, times=2):
    """A closed outline with its corners cut ``times`` over (Chaikin): (n, 2) to (n 2**times, 2)."""
    points = np.asarray(corners, float)
    for _ in range(times):
        following = np.roll(points, -1, axis=0)
        points = np.stack([0.75 * points + 0.25 * following, 0.25 * points + 0.75 * following], axis=1).reshape(-1, 2)
    return points


class KeptBars:
    """For pictures with ``bars`` (Rectangles) and their outlines ``kept``, one for one; they start with `drop`."""

    def keep(self):
        """Leave the bars as grey outlines."""
        for bar, kept in zip(self.bars, self.kept, strict=True):
            kept.set_width(bar.get_width())
            kept.set_visible(True)

    def drop(self):
        """Take the outlines away."""
        for kept in self.kept:
            kept.set_visible(False)


class Arrow:
    """A line with a head; a ring with a dot's worth of white where it points out of the page."""

    def __init__(self, axes, colour=BLACK, *, width=1.6, style="-", head=0.06, z=3):
        self.colour, self.head = colour, head
        self.line = moving(axes, colour=colour, width=width, style=style, z=z)
        self.point = axes.add_patch(
            Polygon([(0, 0)], facecolor=colour, edgecolor=colour, lw=1, zorder=z, animated=True)
        )

    def show(self, tail, tip):
        """From ``tail`` to ``tip``, both (2,); the head reaches past the tip."""
        tail, tip = np.asarray(tail, float), np.asarray(tip, float)
        length = np.hypot(*(tip - tail))
        if length < 0.2 * self.head:
            turn = np.linspace(0, 2 * np.pi, 24)
            self.line.set_data([], [])
            self.point.set_xy(tail + 0.6 * self.head * np.column_stack([np.cos(turn), np.sin(turn)]))
            self.point.set_facecolor("white")
            return
        ahead = (tip - tail) / length
        aside = 0.4 * self.head * np.array([-ahead[1], ahead[0]])
        self.line.set_data(*np.transpose([tail, tip]))
        self.point.set_xy([tip + self.head * ahead, tip + aside, tip - aside])
        self.point.set_facecolor(self.colour)

    def set_visible(self, visible):
        """Show or hide line and head."""
        self.line.set_visible(visible)
        self.point.set_visible(visible)
