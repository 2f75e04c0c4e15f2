"""How much of its strength each group of muscles uses: one bar a group, from nothing to all of it."""

import numpy as np
from matplotlib.patches import Rectangle

from .artists import KeptBars, label, moving
from .look import BLACK, BLUE, GREY, PALE, VERMILLION

FULL = 0.995


class EffortBars(KeptBars):
    """One bar and one number a group, and a thin mark where the group stands in another balance.

    At its limit a bar changes colour and its number is bold; bars of a load that cannot be held are grey.
    """

    def __init__(self, axes, names):
        self.axes = axes
        axes.set(xlim=(0, 100), ylim=(len(names) - 0.4, -0.6))
        axes.set_yticks(np.arange(len(names)), names)
        axes.set_xticks([0, 50, 100])
        axes.tick_params(axis="y", length=0)
        axes.grid(axis="x", color="#eeeeee")
        axes.set_title("effort [% of strength]", pad=4)
        self.bars = [self._bar(row, BLUE, "white") for row in range(len(names))]
        self.kept = [self._bar(row, "none", GREY) for row in range(len(names))]
        self.other = moving(axes, colour=BLACK, width=2, z=4)
        self.other_words = label(axes, BLACK, ha="center", va="top", transform=axes.transAxes)
        self.other_words.set_position((0.1, -24 / axes.bbox.height))
        self.words = [label(axes, BLUE, va="center", ha="right", transform=axes.get_yaxis_transform()) for _ in names]
        for row, words in enumerate(self.words):
            words.set_position((1.0 + 26 / axes.bbox.width, row))
        self.drop()

    def _bar(self, row, face, edge):
        bar = Rectangle((0, row - 0.36), 0, 0.72, facecolor=face, edgecolor=edge, lw=1.5, animated=True)
        return self.axes.add_patch(bar)

    def show(self, effort, other, other_words, *, held=True):
        """Move bars, numbers and marks.

        Parameters
        ----------
        effort, other : ndarray, shape (group,)
            Share of its strength that each group uses, 0 to 1, and what it uses in another balance.
        other_words : str
            What that balance is.
        held : bool
            False for a load that cannot be held: the bars, as they stand at the limit, are grey.
        """
        for bar, words, share in zip(self.bars, self.words, effort, strict=True):
            full = share > FULL
            bar.set_width(100 * share)
            bar.set_facecolor((VERMILLION if full else BLUE) if held else (GREY if full else PALE))
            bar.set_edgecolor("white" if held else GREY)
            words.set_text(f"{100 * share:.0f}")
            words.set_color((VERMILLION if full else BLUE) if held else GREY)
            words.set_fontweight("bold" if full else "normal")
        rows = np.arange(len(effort))
        ends = np.stack([rows - 0.4, rows + 0.4, np.full(len(rows), np.nan)], axis=1)
        self.other.set_data(np.repeat(100 * np.asarray(other), 3), ends.ravel())
        self.other_words.set_text(f"\N{LIGHT VERTICAL BAR} {other_words}")
