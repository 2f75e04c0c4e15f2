"""A vertical scale whose lines stand still: when it has to hold more, only the numbers beside them change.

So no curve ever makes the still layer of a picture be drawn again. On a projector every second line has its number.
"""

import numpy as np

from ..words import written
from .artists import label
from .look import BLACK, page_or_projector

STEPS = np.array([0.5, 1, 2, 5, 10, 15, 20, 30, 50, 75, 100, 150, 200, 300, 500, 1000, 2000, 5000])


class SteadyScale:
    """Numbers beside the vertical axis of ``axes``: ``above`` steps over zero, ``below`` under it.

    Parameters
    ----------
    axes : matplotlib.axes.Axes
    above, below : int
        How many steps.
    """

    def __init__(self, axes, above=4, below=2):
        self.axes, self.above, self.below = axes, above, below
        self.step = None
        axes.set_yticks([])
        self.labels = []
        whole = above + below
        for place in range(-below, above + 1):
            height = (place + below) / whole
            axes.plot(
                [0, 1],
                [height] * 2,
                color=BLACK if place == 0 else "#e4e4e4",
                lw=0.8,
                zorder=0.5,
                transform=axes.transAxes,
            )
            if place % page_or_projector(1, 2):
                continue
            words = label(axes, BLACK, ha="right", va="center", transform=axes.transAxes)
            words.set_position((-6 / axes.bbox.width, height))
            self.labels.append((place, words))

    def hold(self, values):
        """Choose the smallest step that holds all finite ``values`` (any shape, in the axis' unit)."""
        values = values[np.isfinite(values)]
        needed = max(values.max(initial=0.0) / self.above, -values.min(initial=0.0) / self.below if self.below else 0.0)
        step = float(STEPS[min(np.searchsorted(STEPS, needed - 1e-9), len(STEPS) - 1)])
        if step == self.step:
            return
        self.step = step
        self.axes.set_ylim(-self.below * step, self.above * step)
        for place, words in self.labels:
            words.set_text(written(place * step, 1 if step < 1 else 0))
