"""Two short bars beside a value: how far people spread, and how far what is not known leaves it open; and their key.

People have a full line with full round ends, what is not known a dotted line with open square ends.
"""

from collections import Counter

import numpy as np

from .artists import label, moving
from .look import BLACK, at_projector

ASIDE = 9  # points across, from the value to the first bar and from one to the next
LOOKS = {  # of the two bars
    "people": {"style": "-", "marker": "o", "markersize": 4.5},
    "not known": {"style": ":", "marker": "s", "markersize": 5, "markerfacecolor": "white", "markeredgewidth": 1.4},
}
SAMPLE, GAP, LETTER, LINE = 20, 8, 6.0, 13  # points: a sample's length, what parts two entries, a letter's width, a row


def whisker(axes, kind, colour=BLACK, width=1.8, z=6, **more):
    """An empty bar of a ``kind`` "people" or "not known" on ``axes``."""
    return moving(axes, colour=colour, width=width, z=z, clip_on=False, **LOOKS[kind], **more)


class BandMarks:
    """Bars up and down beside values on ``axes``, a pair for each of ``colours`` (sequence of str), and their key at the bottom.

    ``strip`` (str) says in the key what the strips around the curves are; the key stands so many points ``up`` (float).
    """

    def __init__(self, axes, colours, strip="", *, up=8):
        self.axes = axes
        self.bars = [[whisker(axes, kind, colour) for kind in LOOKS] for colour in colours]
        self.edges = [moving(axes, colour=colour, width=1.2, style=":", z=2) for colour in colours]
        self.key = Key(axes, strip, up=up)
        self.hide()

    def show(self, x, *bands):
        """Show them.

        Parameters
        ----------
        x : float
            Of the values, in data units.
        *bands : array_like, shape (curve, 2), or None
            Ends of people's bars, and of those of what is not known, in data units.
        """
        low, high = self.axes.get_xlim()
        aside, count = ASIDE * (high - low) / self.axes.bbox.width, len(self.bars)
        ways = self._ways((x - low) / aside > count, (high - x) / aside > count)
        taken = Counter()
        for pair, *ends in zip(self.bars, *(_each(band, count) for band in bands), strict=True):
            for one, end, way in zip(pair, ends, ways, strict=True):
                is_there = bool(np.isfinite(end).all())
                taken[way] += is_there
                one.set_data([x + way * aside * taken[way]] * 2 if is_there else [], end if is_there else [])
        self.key.show([band is not None for band in bands])

    @staticmethod
    def _ways(has_left, has_right):
        """To which side of the value each kind of bar stands: one to either side where both have room."""
        return (-1, 1) if has_left and has_right else (1, 1) if has_right else (-1, -1)

    def show_edges(self, which, x, ends):
        """Dotted lines along the ``ends`` (n, 2) of what is not known of the curve number ``which``, over ``x`` (n,), in data units."""
        self.edges[which].set_data(np.r_[x, np.nan, x], np.r_[ends[:, 0], np.nan, ends[:, 1]])

    def hide(self):
        """Take bars and key away."""
        for edge in self.edges:
            edge.set_data([], [])
        for one in (one for pair in self.bars for one in pair):
            one.set_data([], [])
        self.key.hide()


def _each(band, count):
    """Ends for each of ``count`` curves, gaps without a band."""
    return np.full((count, 2), np.nan) if band is None else np.asarray(band, float)


class Key:
    """What the bars are, in the lower left corner of ``axes``; ``strip`` (str) and ``up`` (points) as in `BandMarks`.

    On a projector there is no room for the strip's entry.
    """

    def __init__(self, axes, strip="", *, up=8):
        self.axes, self.up = axes, up
        place = {"transform": axes.transAxes}
        self.entries = [
            (whisker(axes, kind, **place), label(axes, BLACK, va="center", **place), kind) for kind in LOOKS
        ]
        self.entries += (
            [(None, label(axes, BLACK, va="center", **place), f"strip: {strip}")]
            if strip and not at_projector()
            else []
        )

    def show(self, there):
        """Show the entries of the bars that are ``there`` (sequence of bool), and the strip's."""
        width, height = self.axes.bbox.width, self.axes.bbox.height
        shown = [entry for entry, is_there in zip(self.entries, (*there, True), strict=False) if is_there]
        rows = self._rows(shown, width)
        for line, row in enumerate(reversed(rows)):
            y = (self.up + LINE * line) / height
            for (sample, words, text), left in row:
                begin = left
                if sample:
                    sample.set_data([left / width, (left + SAMPLE) / width], [y, y])
                    begin += SAMPLE + 6
                words.set_position((begin / width, y))
                words.set_text(text)

    @staticmethod
    def _rows(entries, width):
        """Entries in rows that are no wider than ``width``, each with where it begins. [points]"""
        rows, left = [], width
        for entry in entries:
            wide = (SAMPLE + 6 if entry[0] else 0) + LETTER * len(entry[2])
            if left + wide > width:
                rows.append([])
                left = GAP
            rows[-1].append((entry, left))
            left += wide + GAP
        return rows

    def hide(self):
        """Take it away."""
        for sample, words, _ in self.entries:
            words.set_text("")
            if sample:
                sample.set_data([], [])
