"""Who could supply a girdle torque: each muscle's retraction and depression arms as bars."""

import numpy as np
from matplotlib.patches import Rectangle

from .artists import KeptBars
from .look import BLACK, GIRDLE_LOOK, GREY, LETTERS, SMALL, by_sheet


class SupplyBars(KeptBars):
    """Two bars a muscle, from a common zero; the kept ones as grey outlines."""

    def __init__(self, axes, names):
        self.axes = axes
        axes.set(xlim=(-150, 230), ylim=(len(names) - 0.4, -0.6))
        axes.set_xlabel("moment arm at the SC joint [mm]", fontsize=by_sheet(LETTERS, LETTERS, SMALL))
        axes.set_xticks([-100, 0, 100, 200])
        axes.set_yticks(np.arange(len(names)), names)
        axes.tick_params(axis="y", length=0)
        axes.axvline(0, color=BLACK, lw=0.8)
        axes.grid(axis="x", color="#eeeeee")
        loc, size = by_sheet(*[("center", LETTERS)] * 2, ("right", SMALL))
        axes.set_title("upper bar retracts (+), lower depresses (+)", pad=4, loc=loc, fontsize=size)
        self.bars = [
            self._row(look[0], row, i, 0.9) for row in range(len(names)) for i, look in enumerate(GIRDLE_LOOK.values())
        ]
        self.kept = [self._row("none", row, i, 1.0) for row in range(len(names)) for i in range(2)]
        self.drop()

    def _row(self, colour, row, which, alpha):
        edge = GREY if colour == "none" else "white"
        bar = Rectangle(
            (0, row - 0.36 + 0.37 * which),
            0,
            0.34,
            facecolor=colour,
            edgecolor=edge,
            lw=1.5,
            alpha=alpha,
            animated=True,
        )
        return self.axes.add_patch(bar)

    def show(self, arms):
        """Arms (muscle, 2) [mm]."""
        for bar, value in zip(self.bars, np.ravel(arms), strict=True):
            bar.set_width(value)
