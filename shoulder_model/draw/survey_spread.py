"""How the people of a survey spread in one number, and where somebody stands among them, before and now."""

import numpy as np
from matplotlib.patches import Polygon

from .artists import label, moving
from .look import BLUE, EDGE, GREY, LETTERS, SKY, SMALL, by_sheet, page_or_projector

ENDS = (0.8, 1.7)
PLACES = np.linspace(*ENDS, 181)
ROW = 15.0  # points between rows of words


class SurveySpread:
    """A bell curve whose area is everybody; the part below now is filled.

    Parameters
    ----------
    axes : matplotlib.axes.Axes
    x : str
        What is spread.
    """

    def __init__(self, axes, x):
        self.axes = axes
        axes.set(xlim=ENDS, ylim=(0, 1.12), yticks=[])
        axes.set_xlabel(x, fontsize=by_sheet(LETTERS, LETTERS, SMALL))
        axes.set_xticks(page_or_projector(np.arange(0.8, 1.75, 0.1), np.arange(0.8, 1.75, 0.2)))
        axes.spines["left"].set_visible(False)
        self.below = axes.add_patch(
            Polygon([(0, 0)], facecolor=SKY, edgecolor="none", alpha=0.6, zorder=1, animated=True)
        )
        self.curve = moving(axes, width=1.5, z=2)
        self.before = moving(axes, colour=GREY, width=2.0, style="--", z=3)
        self.now = moving(axes, colour=BLUE, width=2.6, z=4)
        self.ghost = moving(axes, colour=GREY, width=2.0, style=":", z=3.5)
        place = {"ha": "left", "va": "bottom", "transform": axes.transAxes}
        self.words = [label(axes, colour, **place) for colour in (BLUE, EDGE)]
        self.words[0].set_fontweight("bold")
        for k, row in enumerate(self.words):
            row.set_position((0.0, 1.0 + (4 + ROW * (1 - k)) / axes.bbox.height))

    def show(self, mean, sd, before, now, texts):
        """Move the curve to ``mean`` and ``sd``, the lines to ``before`` and ``now``, with a row of ``texts`` for each.

        All in the unit of the axis; a place beyond its end stands at the end.
        """
        before, now = np.clip((before, now), *ENDS)
        bell = np.exp(-0.5 * ((PLACES - mean) / sd) ** 2)
        self.curve.set_data(PLACES, bell)
        height = float(np.exp(-0.5 * ((now - mean) / sd) ** 2))
        inside = PLACES < now
        self.below.set_xy([*zip(PLACES[inside], bell[inside], strict=True), (now, height), (now, 0), (ENDS[0], 0)])
        for line, at in ((self.before, before), (self.now, now)):
            line.set_data([at, at], [0, 1.06])
        for row, text in zip(self.words, texts[::-1], strict=True):
            row.set_text(text)

    def keep(self):
        """Leave the present place, dotted."""
        self.ghost.set_data(*self.now.get_data())

    def drop(self):
        """Take it away."""
        self.ghost.set_data([], [])
