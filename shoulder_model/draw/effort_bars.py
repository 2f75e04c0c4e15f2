"""How much of its strength each group of muscles uses: one bar a group, from nothing to all of it."""

import numpy as np
from matplotlib.patches import Rectangle

from .artists import KeptBars, label, moving
from .band_marks import LOOKS, whisker
from .look import BLACK, GREY, LETTERS, PALE, SMALL, VERMILLION, at_projector, by_sheet

FULL = 0.995
IDLE = 0.015  # a band that ends below is left out
BRIEF = {"latissimus dorsi": "lat", "pectoralis major": "pec major", "trapezius": "trap"}  # where there is little room


class EffortBars(KeptBars):
    """One bar, one name and one number a group, and a thin mark where the group stands in another balance.

    At its limit a bar has a bold number and a heavy edge; bars of a load that cannot be held are grey. Any number of rows
    up to ``most`` shares the height. On a projector the marks of the other balance and the scale's numbers are left out.

    Parameters
    ----------
    axes : matplotlib.axes.Axes
    most : int
        Rows at most.
    """

    def __init__(self, axes, most):
        self.axes, self.brief = axes, at_projector()
        self.lead, self.short = by_sheet((0.8, {}), (0.8, {}), (0.9, BRIEF))
        self.shown = self.held_names = ()  # names of the rows now, and of those that were kept
        axes.set(xlim=(0, 100), ylim=(1, 0))
        axes.set_yticks([])
        axes.set_xticks([0, 50, 100])
        axes.tick_params(axis="x", labelbottom=not self.brief, bottom=not self.brief)
        axes.grid(axis="x", color="#e4e4e4")
        axes.set_title("effort [% of strength]", pad=4, fontsize=by_sheet(LETTERS, SMALL, SMALL))
        self.bars = [self._bar(BLACK, "white") for _ in range(most)]
        self.kept = [self._bar("none", GREY) for _ in range(most)]
        self.other = moving(axes, colour=BLACK, width=2, z=4)
        self.other_words = label(axes, BLACK, ha="center", va="top", transform=axes.transAxes)
        self.other_words.set_position((0.1, -24 / axes.bbox.height))
        place = {"va": "center", "ha": "right", "transform": axes.get_yaxis_transform()}
        self.bands = {
            kind: (moving(axes, colour="white", width=3.4, z=5), whisker(axes, kind, width=1.4)) for kind in LOOKS
        }
        self.names = [label(axes, BLACK, **place) for _ in range(most)]
        self.words = [label(axes, BLACK, **place) for _ in range(most)]
        self.drop()

    def _bar(self, face, edge):
        return self.axes.add_patch(Rectangle((0, 0), 0, 0, facecolor=face, edgecolor=edge, lw=1.5, animated=True))

    def show(self, names, colours, effort, other, other_words, *, held=True):
        """Move bars, names, numbers and marks.

        Parameters
        ----------
        names, colours : sequence of str, shape (row,)
        effort, other : ndarray, shape (row,)
            Share of its strength that each group uses, 0 to 1, and what it uses in another balance.
        other_words : str
            What that balance is.
        held : bool
            False for a load that cannot be held: the bars, as they stand at the limit, are grey.

        The bands of `show_bands` go.
        """
        self.show_bands(None, None)
        self.shown = tuple(names)
        self._show_kept()
        rows, letters = len(names), min(SMALL, self.lead * self.axes.bbox.height / len(names))
        for row, bar in enumerate(self.bars):
            for shown in (bar, self.names[row], self.words[row]):
                shown.set_visible(row < rows)
            if row < rows:
                self._row(row, rows, names[row], colours[row], effort[row], held)
                for text in (self.names[row], self.words[row]):
                    text.set_fontsize(letters)
        if self.brief:
            return
        y = (np.arange(rows) + 0.5) / rows
        ends = np.stack([y - 0.4 / rows, y + 0.4 / rows, np.full(rows, np.nan)], axis=1)
        self.other.set_data(np.repeat(100 * np.asarray(other), 3), ends.ravel())
        self.other_words.set_text(f"\N{LIGHT VERTICAL BAR} {other_words}")

    def show_bands(self, people, unknown):
        """Bands of the rows that are shown: people's in the upper half of a bar, those of what is not known in the lower one.

        Parameters
        ----------
        people, unknown : array_like, shape (row, 2), or None
            Ends, shares of strength 0 to 1; None for none.
        """
        for (halo, line), ends, below in zip(self.bands.values(), (people, unknown), (-0.18, 0.18), strict=True):
            ends = None if ends is None else np.where(np.max(ends, axis=1, keepdims=True) < IDLE, np.nan, ends)
            count = 0 if ends is None else len(ends)
            x = np.column_stack([100 * np.reshape(ends, (-1, 2)), np.full(count, np.nan)]) if count else np.empty(0)
            y = np.repeat((np.arange(count) + 0.5 + below) / max(count, 1), 3)
            halo.set_data(x.ravel(), y)
            line.set_data(x.ravel(), y)

    def keep(self):
        """Leave the bars as grey outlines, in sight while the rows are the same ones."""
        super().keep()
        self.held_names = self.shown
        self._show_kept()

    def drop(self):
        """Take the outlines away."""
        self.held_names = ()
        super().drop()

    def _show_kept(self):
        same = self.shown == self.held_names
        for row, kept in enumerate(self.kept):
            kept.set_visible(same and row < len(self.shown))

    def _row(self, row, rows, name, colour, share, held):
        full, bar = share > FULL, self.bars[row]
        y = (row + 0.5) / rows
        for one in (bar, self.kept[row]):
            one.set_y(y - 0.36 / rows)
            one.set_height(0.72 / rows)
        bar.set_width(100 * share)
        bar.set_facecolor(colour if held else (GREY if full else PALE))
        bar.set_edgecolor(("white" if not full else BLACK) if held else GREY)
        for long, brief in self.short.items():
            name = name.replace(long, brief)
        self.names[row].set_text(name)
        self.names[row].set_position((-8 / self.axes.bbox.width, y))
        self.words[row].set_text(f"{100 * share:.0f}")
        self.words[row].set_position((1.0 + 26 / self.axes.bbox.width, y))
        self.words[row].set_color((VERMILLION if full else BLACK) if held else GREY)
        self.words[row].set_fontweight("bold" if full else "normal")
