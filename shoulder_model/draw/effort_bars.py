"""How hard each group of muscles works: one bar a group, from nothing to all of its strength."""

import numpy as np
from matplotlib.patches import Rectangle

from .artists import KeptBars, label
from .look import BLUE, GREY, VERMILLION

FULL = 0.995


class EffortBars(KeptBars):
    """One bar and one number a group; at its limit a bar changes colour and says "full", or "part" if only some of it is."""

    def __init__(self, axes, names):
        self.axes = axes
        axes.set(xlim=(0, 165), ylim=(len(names) - 0.4, -0.6), xlabel="of its strength [%]")
        axes.set_yticks(np.arange(len(names)), names)
        axes.set_xticks([0, 50, 100])
        axes.tick_params(axis="y", length=0)
        axes.grid(axis="x", color="#eeeeee")
        axes.set_title("who works how hard", pad=4)
        self.bars = [self._bar(row, BLUE, "white") for row in range(len(names))]
        self.kept = [self._bar(row, "none", GREY) for row in range(len(names))]
        self.words = [label(axes, BLUE, va="center", ha="left") for _ in names]
        self.drop()

    def _bar(self, row, face, edge):
        bar = Rectangle((0, row - 0.36), 0, 0.72, facecolor=face, edgecolor=edge, lw=1.5, animated=True)
        return self.axes.add_patch(bar)

    def show(self, effort, full):
        """``effort`` (group,) 0 to 1 and whether a muscle of the group is at its limit (group,)."""
        for row, (bar, words) in enumerate(zip(self.bars, self.words, strict=True)):
            colour = VERMILLION if full[row] else BLUE
            bar.set_width(100 * effort[row])
            bar.set_facecolor(colour)
            end = "" if not full[row] else " full" if effort[row] > FULL else " part"
            words.set_text(f"{100 * effort[row]:.0f}{end}")
            words.set_color(colour)
            words.set_position((100 * effort[row] + 3, row))
