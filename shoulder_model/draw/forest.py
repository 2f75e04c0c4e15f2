"""A forest plot: one line a result, an estimate only where there is one."""

from dataclasses import dataclass

import numpy as np
from matplotlib.lines import Line2D
from matplotlib.patches import Polygon
from matplotlib.transforms import blended_transform_factory

from ..evidence import BAND, SIDES
from ..words import counted, written
from .artists import label, moving
from .look import BLACK, BLUE, GREEN, GREY, LETTERS, SMALL, VERMILLION

ROWS = 12  # lines there is room for
TWO_ROWS = 18.0  # points that a line needs for two rows of words; with less it has one
APART = 4.8  # points, least distance of a row of words from the middle of its line
LIMITS = (2.6, 5.0, 12.0, 40.0, 150.0)
LOAD_WORDS = {"each": "own load each", "relative": "relative load", "one": "one load", "differ": "loads differ"}
ARROWS = {"order": (VERMILLION, True), "p-value": (GREEN, False)}  # colour, filled


@dataclass(frozen=True)
class ForestLine:
    """One line: two texts on the left, two on the right, and between them an estimate or an arrow.

    ``ends`` is the interval, ``band`` the widest interval of what is assumed; all three None where no number is.
    ``points`` is "first", "second" or anything else for no arrow.
    """

    key: tuple
    top: str
    below: str
    result: str
    remark: str
    kind: str
    points: str = ""
    value: float | None = None
    ends: tuple | None = None
    band: tuple | None = None


def interval_words(value, ends):
    """ "g +0.28 (−0.27 to +0.83)"."""
    return f"g {written(value, 2, sign=True)} ({written(ends[0], 2, sign=True)} to {written(ends[1], 2, sign=True)})"


def short(text, most):
    """Text cut at a word to at most ``most`` letters."""
    return text if len(text) <= most else text[: most - 1].rsplit(" ", 1)[0].rstrip(",;") + " …"


def forest_line(row, correlation):
    """The line of one `evidence.Comparison`."""
    side = dict(zip(("first", "second"), SIDES[row.question], strict=True))
    seen = {"none": "no difference", "unknown": "direction not printed"}
    points = row.direction(correlation)
    words = f"more with {side[points]}" if points in side else seen[points]
    left = {
        "key": (row.study, row.subgroup, row.first, row.second, row.phase),
        "top": f"{row.citation.split(' (')[0]}, n {row.n}",
        "below": _contrast_words(row),
        "kind": row.kind,
    }
    if row.kind != "difference":
        remark = short(row.statement.replace("<=", " ≤ "), 38)
        return ForestLine(**left, result=f"{row.kind}: {words}", remark=remark, points=points)
    effect = row.effect(correlation)
    ends = tuple(float(end) for end in effect.interval)
    band = tuple(float(end) for end in row.effect(min(*BAND, correlation)).interval)
    tested = {"none": "no contrast marked", "": "not printed"}.get(row.higher, words)
    result, value = interval_words(float(effect.value), ends), float(effect.value)
    return ForestLine(**left, result=result, remark=f"own test: {tested}", value=value, ends=ends, band=band)


def _contrast_words(row):
    """What a result compares, in which phase, at which load, and what else changed."""
    against = f" vs {row.second}" if row.second else ""
    phase = f", {row.phase}" if row.phase not in ("", "whole") else ""
    load = f", {LOAD_WORDS[row.held]}" if row.held in LOAD_WORDS else ""
    also = f" (+ {row.also_changed})" if row.also_changed else ""
    return f"{row.first}{against}{phase}{load}{also}"


def summary_line(summary, words="random effects"):
    """The line of an `evidence.Summary`."""
    ends, value = tuple(float(end) for end in summary.interval), float(summary.value)
    remark = f"spread between trials {np.sqrt(summary.between):.2f}"
    return ForestLine(
        (words,), words, counted(len(summary.weights), "trial"), interval_words(value, ends), remark, "summary",
        value=value, ends=ends,
    )  # fmt: skip


class Forest:
    """Lines of results beside one axis; made once, shown again at every move.

    Where lines are too close for two rows of words, each has its first row only.

    Parameters
    ----------
    axes : matplotlib.axes.Axes
    x : str
        Name of the axis.
    left, right : float
        Where the words on the left and on the right begin, in shares of the axes' width.
    brief : int, optional
        One row of words a line in any case: what is compared, in so many letters at most, and the number if there is one.
    """

    def __init__(self, axes, x, left=-1.66, right=1.06, brief=None):
        self.axes, self.kept, self.brief = axes, {}, brief
        self.unit = 72 * axes.get_position().height * axes.figure.get_figheight() / ROWS  # points
        self.place = blended_transform_factory(axes.transAxes, axes.transData)
        axes.set(xlim=(-LIMITS[0], LIMITS[0]), ylim=(ROWS - 0.5, -0.5), xlabel=x, yticks=[])
        axes.spines["left"].set_visible(False)
        axes.axvline(0, color=BLACK, lw=1, zorder=1)
        self.dashes = moving(axes, colour=GREY, width=1.0, style=":", z=1)
        self.ghost = moving(axes, colour="#c4c4c4", width=7, z=2, solid_capstyle="butt")
        self.band = moving(axes, colour=BLUE, width=1.2, z=3, solid_capstyle="butt")
        self.intervals = moving(axes, colour=BLUE, width=3.2, z=4, solid_capstyle="butt")
        self.points = moving(axes, colour=BLUE, style="none", z=5, marker="s", markersize=8)
        self.diamond = axes.add_patch(
            Polygon([(0, 0)], facecolor=BLACK, edgecolor=BLACK, lw=1, zorder=5, animated=True)
        )
        self.arrows = {(kind, way): self._arrow(kind, way) for kind in ARROWS for way in ("first", "second")}
        placed = {"transform": self.place, "va": "center", "clip_on": False}
        self.texts = [
            [label(axes, BLACK, ha="left", **placed) for _ in range(4)] for _ in range(ROWS)
        ]  # top, below, result, remark
        for row in self.texts:
            row[0].set_fontweight("normal" if brief else "bold")
        axes.xaxis.label.set_fontsize(SMALL if brief else LETTERS)
        self.columns = left, left, right, right
        self.sides = [
            label(axes, BLACK, ha=ha, va="bottom", transform=axes.transAxes, clip_on=False) for ha in ("left", "right")
        ]
        self.nothing = label(axes, GREY, ha="center", va="center", transform=axes.transAxes)
        self.limit = LIMITS[0]

    def _arrow(self, kind, way):
        colour, filled = ARROWS[kind]
        return self.axes.add_line(
            Line2D(
                [], [], ls="none", marker=">" if way == "first" else "<", markersize=10, color=colour,
                markerfacecolor=colour if filled else "white", markeredgewidth=1.8, transform=self.place, zorder=5,
                animated=True, clip_on=False,
            )
        )  # fmt: skip

    def keep(self):
        """Hold the intervals shown now as grey bars."""
        self.kept = {line.key: line.ends for line in self.lines if line.ends is not None}

    def drop(self):
        """Forget them."""
        self.kept = {}

    def show(self, lines, sides=("", "")):
        """Show the first ``ROWS`` of ``lines``; True when the axis has changed."""
        self.lines = lines = tuple(lines)[:ROWS]
        pitch = min(ROWS / max(len(lines), 1), 1.9)
        heights = pitch * (np.arange(len(lines)) + 0.5) - 0.5
        numbers = [(y, line) for y, line in zip(heights, lines, strict=True) if line.value is not None]
        singles = [(y, line) for y, line in numbers if line.kind != "summary"]
        _spans(self.intervals, [(y, line.ends) for y, line in singles])
        _spans(self.band, [(y, line.band) for y, line in singles if line.band])
        _spans(self.ghost, [(y, self.kept[line.key]) for y, line in numbers if line.key in self.kept])
        _spans(self.dashes, [(y, (-1e3, 1e3)) for y, line in zip(heights, lines, strict=True) if line.value is None])
        self.points.set_data([line.value for _, line in singles], [y for y, _ in singles])
        self._arrows(heights, lines)
        self._diamond(numbers)
        self._texts(heights, lines, two_rows=not self.brief and pitch * self.unit > TWO_ROWS)
        for text, words, x in zip(self.sides, (f"{sides[0]} ▶", f"◀ {sides[1]}"), (0.53, 0.47), strict=True):
            text.set_text(words if sides[0] else "")
            text.set_position((x, 1.02))
        self.nothing.set_position((0.5, 0.5))
        self.nothing.set_text("" if lines else "no result left")
        return self._fit(numbers)

    def _arrows(self, heights, lines):
        for (kind, way), arrow in self.arrows.items():
            ys = [y for y, line in zip(heights, lines, strict=True) if (line.kind, line.points) == (kind, way)]
            arrow.set_data([0.97 if way == "first" else 0.03] * len(ys), ys)

    def _diamond(self, numbers):
        summaries = [(y, line) for y, line in numbers if line.kind == "summary"]
        self.diamond.set_visible(bool(summaries))
        for y, line in summaries:
            low, high = line.ends
            self.diamond.set_xy([(low, y), (line.value, y - 0.3), (high, y), (line.value, y + 0.3)])

    def _texts(self, heights, lines, two_rows):
        apart = max(0.23, APART / self.unit) if two_rows else 0.0
        for k, row in enumerate(self.texts):
            line = lines[k] if k < len(lines) else None
            words = self._words(line, two_rows) if line else ("",) * 4
            for text, said, x, down in zip(row, words, self.columns, (-apart, apart) * 2, strict=True):
                text.set_text(said)
                if line:
                    text.set_position((x, heights[k] + down))

    def _words(self, line, two_rows):
        """Two texts on the left and two on the right of a line; one each where there is one row."""
        if two_rows:
            return line.top, line.below, line.result, line.remark
        if not self.brief:
            return line.top, "", line.result, ""
        compared = line.top if line.kind == "summary" else short(line.below, self.brief)
        kind, _, found = line.result.partition(": ")
        return compared, "", kind if line.points in ("first", "second") else found or line.result, ""

    def _fit(self, numbers):
        widest = max((abs(end) for _, line in numbers for end in line.band or line.ends), default=0.0)
        limit = next((limit for limit in LIMITS if widest <= limit), LIMITS[-1])
        moved, self.limit = limit != self.limit, limit
        if moved:
            self.axes.set_xlim(-limit, limit)
        return moved


def _spans(line, spans):
    """Horizontal pieces at heights, as one line with gaps; nothing where there are none."""
    x = [part for _, ends in spans for part in (*ends, np.nan)]
    y = [part for height, _ in spans for part in (height, height, np.nan)]
    line.set_data(x, y)


def key_words(axes, left=-1.66, below=-0.125):
    """What the marks mean, under an axis; from ``left``, at the height ``below``, both in shares of ``axes``."""
    axes.text(
        left, below, "■ difference, 95 % interval (thin: the band of the correlation)   ▶ order, ▷ p-value: no number",
        transform=axes.transAxes, fontsize=SMALL, color=BLACK, ha="left", va="top",
    )  # fmt: skip
