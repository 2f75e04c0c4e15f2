"""One person among many: strips of measures, strips of answers with two bands, and whose best grip is which."""

import numpy as np
from matplotlib.offsetbox import AnchoredOffsetbox, HPacker, TextArea
from matplotlib.patches import Rectangle

from .artists import label, moving
from .look import (
    BLACK,
    BLUE,
    GREY,
    LETTERS,
    PALE,
    SKY,
    SMALL,
    VERMILLION,
    at_projector,
    by_sheet,
    page_or_projector,
    readable,
)

REACH = 3.0  # standard deviations to each side
HALF = 0.13  # height of a strip, in rows


class MeasureStrips:
    """One row a measure: everybody's mean and standard deviations, a dot for a reading, a bar for what is expected.

    Parameters
    ----------
    axes : matplotlib.axes.Axes
    rows : int
    """

    def __init__(self, axes, rows):
        self.axes = axes
        axes.set(xlim=(-REACH, REACH), ylim=(rows - 0.45, -0.6), yticks=[])
        axes.set_xticks([-2, 0, 2], ["−2 SD", "mean", "+2 SD"])
        axes.grid(axis="x", color="#e4e4e4")
        for side in ("left", "top"):
            axes.spines[side].set_visible(False)
        axes.set_title("● read   ▬ expected ± SD", fontsize=by_sheet(LETTERS, SMALL, SMALL), loc="left")
        self.bars = [moving(axes, colour=BLUE, width=5, z=2, solid_capstyle="butt") for _ in range(rows)]
        self.dots = [moving(axes, colour=BLACK, style="", marker="o", ms=7) for _ in range(rows)]
        self.words = [label(axes, BLACK, ha="left", va="bottom") for _ in range(rows)]
        for row, words in enumerate(self.words):
            words.set_position((-REACH, row - 0.14))
        self.ghost = moving(axes, colour=GREY, style="", marker="|", ms=13, markeredgewidth=2)

    def show(self, places, spreads, texts):
        """Move the rows.

        Parameters
        ----------
        places, spreads : sequence of float
            Of each measure, in standard deviations of everybody; a spread of 0 is a reading.
        texts : sequence of str
        """
        self.places = np.clip(places, -REACH, REACH)
        for row, (at, sd, text) in enumerate(zip(self.places, spreads, texts, strict=True)):
            self.bars[row].set_data(np.clip([at - sd, at + sd], -REACH, REACH), [row, row] if sd else [np.nan] * 2)
            self.dots[row].set_data([at], [row] if not sd else [np.nan])
            self.words[row].set_text(text)

    def keep(self):
        """Leave grey strokes where the measures stand."""
        self.ghost.set_data(self.places, np.arange(len(self.places)))

    def drop(self):
        """Take them away."""
        self.ghost.set_data([], [])


class AnswerStrips:
    """One row an answer, each on a scale of its own that holds everybody at every grip: two bands and a dot.

    Parameters
    ----------
    axes : matplotlib.axes.Axes
    names : sequence of str
    """

    def __init__(self, axes, names):
        self.axes = axes
        axes.set(xlim=(0, 1), ylim=(len(names) - 0.45, -0.6), yticks=[], xticks=[])
        for side in ("left", "bottom"):
            axes.spines[side].set_visible(False)
        key = {"■ same measures": BLUE, "▨ not known": VERMILLION} | page_or_projector({"├┤ everybody": BLACK}, {})
        parts = [
            TextArea(words, textprops={"color": readable(colour), "fontsize": by_sheet(LETTERS, SMALL, SMALL)})
            for words, colour in key.items()
        ]
        row = HPacker(children=parts, pad=0, sep=by_sheet(14, 10, 8))
        above = {"bbox_to_anchor": (0, 1), "bbox_transform": axes.transAxes, "borderpad": page_or_projector(0.4, 0.15)}
        axes.add_artist(AnchoredOffsetbox("lower left", child=row, frameon=False, pad=0, **above))
        rows = range(len(names))
        self.everybody = [moving(axes, colour=GREY, width=1.5, marker="|", ms=8) for _ in rows]
        self.people = [self._strip(SKY, BLUE) for _ in rows]
        self.unknown = [self._strip("white", VERMILLION) for _ in rows]
        self.hatching = [moving(axes, colour=VERMILLION, width=1.0, z=3.5) for _ in rows]
        self.dots = [moving(axes, colour=BLACK, width=3, z=5) for _ in rows]
        self.words = [label(axes, BLACK, ha="left", va="bottom") for _ in rows]
        self.kept = [moving(axes, colour=GREY, width=3, style=":", z=4) for _ in rows]
        for row, words in enumerate(self.words):
            words.set_position((0, row - 0.22))
        self.ends = [[label(axes, colour, ha="left", va="center") for colour in (BLUE, VERMILLION)] for _ in rows]
        self.values = self.kept_values = None
        self.brief = at_projector()

    def _strip(self, face, edge):
        return self.axes.add_patch(
            Rectangle((0, 0), 0, 0, facecolor=face, edgecolor=edge, lw=1.2, zorder=3, animated=True)
        )

    def show(self, values, everybody, most, texts):
        """Move the rows, without bands; each answer in its own unit.

        Parameters
        ----------
        values : sequence of float
        everybody : sequence of (low, high)
        most : sequence of float
            The end of each row's scale, which begins with 0.
        texts : sequence of str
        """
        self.values, self.most = values, most
        none = np.full((len(most), 2), np.nan)
        self.show_bands(none, none)
        for row in range(len(most)):
            if not self.brief:
                self.everybody[row].set_data(self._place(row, everybody[row]), [row + 0.42] * 2)
            self.dots[row].set_data([self._place(row, values[row])] * 2, [row - 0.2, row + 0.37])
            self.words[row].set_text(texts[row])
        self._show_kept()

    def _place(self, row, value):
        return np.clip(np.asarray(value) / self.most[row], 0.0, 1.0)

    def show_bands(self, people, unknown):
        """Both strips of each row with their ends in numbers, where there is room for these.

        Parameters
        ----------
        people, unknown : array_like, shape (row, 2)
            In each answer's unit; NaN where there is no band.
        """
        for row, bands in enumerate(zip(people, unknown, strict=True)):
            strips = (self.people[row], self.unknown[row])
            for strip, band, top, words in zip(strips, bands, (-0.2, 0.08), self.ends[row], strict=True):
                left, right = np.nan_to_num(self._place(row, band))
                strip.set_bounds(left, row + top, right - left, 2 * HALF)
                inside = right < 0.78
                words.set_horizontalalignment("left" if inside else "right")
                words.set_position((right + 0.015 if inside else left - 0.015, row + top + HALF))
                words.set_text("" if self.brief or np.isnan(band).any() else f"{band[0]:.0f} to {band[1]:.0f}")
            self.hatching[row].set_data(*_strokes(np.nan_to_num(self._place(row, bands[1])), row + 0.08))

    def keep(self):
        """Leave the values as dotted strokes; they stay values where a scale changes."""
        self.kept_values = self.values
        self._show_kept()

    def drop(self):
        """Take them away."""
        self.kept_values = None
        self._show_kept()

    def _show_kept(self):
        for row, ghost in enumerate(self.kept):
            at = [] if self.kept_values is None else [self._place(row, self.kept_values[row])] * 2
            ghost.set_data(at, [row - 0.2, row + 0.37][: len(at)])


def _strokes(ends, top):
    """Slanted strokes inside a band, as one broken line."""
    left, right = ends
    at = np.arange(left + 0.012, right, 0.02)
    gap, high, low = (np.full(len(at), y) for y in (np.nan, top + 2 * HALF, top))
    return np.stack([at - 0.008, at, gap], axis=1).ravel(), np.stack([high, low, gap], axis=1).ravel()


class BestGrips:
    """One column a grip: for how many of everybody it is best; the person's own best has a heavy edge.

    Parameters
    ----------
    axes : matplotlib.axes.Axes
    grips : sequence of float
        Over shoulder breadth.
    """

    def __init__(self, axes, grips):
        self.axes, self.grips = axes, grips
        axes.set(xlim=(-0.6, len(grips) - 0.4), ylim=(0, 1.2), yticks=[])
        axes.set_xticks(range(len(grips)), [f"{grip:g}" for grip in grips])
        axes.spines["left"].set_visible(False)
        axes.set_title("best for, of 100; ▲ this grip", fontsize=by_sheet(LETTERS, SMALL, SMALL), loc="left")
        self.bars = [self._bar(PALE, GREY, 1.0) for _ in grips]
        self.own = self._bar("none", BLACK, 2.6)
        self.words = [label(axes, BLACK, ha="center", va="bottom") for _ in grips]
        self.mark = moving(axes, colour=BLACK, style="", marker="^", ms=8, clip_on=False)
        self.ghost = moving(axes, colour=GREY, style="", marker="_", ms=16, markeredgewidth=2)

    def _bar(self, face, edge, width):
        return self.axes.add_patch(
            Rectangle((0, 0), 0, 0, facecolor=face, edgecolor=edge, lw=width, zorder=3, animated=True)
        )

    def show(self, shares, own, now):
        """Move the columns.

        Parameters
        ----------
        shares : ndarray, shape (grip,)
            Without unit.
        own, now : float
            The person's best grip, and the one that is held, over shoulder breadth.
        """
        self.shares = shares
        for place, share in enumerate(shares):
            self.bars[place].set_bounds(place - 0.36, 0, 0.72, share)
            self.words[place].set_position((place, share + 0.03))
            self.words[place].set_text(f"{100 * share:.0f}")
        best = self.grips.index(own)
        self.own.set_bounds(best - 0.4, 0, 0.8, max(shares[best], 0.02))
        self.mark.set_data([self.grips.index(now)], [1.1])

    def keep(self):
        """Leave a stroke at the height of each column."""
        self.ghost.set_data(np.arange(len(self.shares)), self.shares)

    def drop(self):
        """Take them away."""
        self.ghost.set_data([], [])
