"""A forest plot: trials as blocks, one line a result, an estimate only where there is one.

Heights are points from the top of the axes, so that rows of words and marks keep their size whatever is shown.
"""

import textwrap

import numpy as np
from matplotlib.transforms import blended_transform_factory

from .artists import label, moving
from .dimension import words_on
from .forest_lines import short
from .forest_marks import Estimates, HatchedBar, Signs, spans
from .look import BLACK, GREY, LETTERS, SMALL

ROW, ROOMY = 11.5, 15.0  # points, least and greatest height of a row of words
GAP = 0.4  # rows between two trials, where there is room
LAYOUTS = ((2, 2), (2, 1), (1, 1), (0, 1))  # rows of a trial's head, rows of a result; the first that fits is taken
BRIEF = ((1, 1), (0, 1))
STACKED = ((2, 3), (1, 3), (0, 3))  # of a result's rows the third is its mark
ACROSS, HEAD_ACROSS = 51, 46  # letters of a row over the whole of a narrow picture
HEAD, HEAD_BRIEF, WIDEST = (
    118,
    68,
    60,
)  # letters that a trial's head has room for, across the picture, and a result's words
KEY = (
    "○ difference, with its 95 % interval (thin: the band of the correlation)", "▶ order, ▷ p-value: no number",
    "× looked for, no difference seen", "△ highest of several, no pair tested", "grey: something else differs too",
)  # fmt: skip
LIMITS = (2.6, 5.0, 12.0, 40.0, 150.0)


class Forest:
    """Blocks of results beside one axis; made once, shown again at every move.

    Parameters
    ----------
    axes : matplotlib.axes.Axes
    x : str
        Name of the axis.
    left, right : float
        Where the words on the left and on the right begin, in shares of the axes' width.
    brief : int, optional
        One row of words a result in any case: what is compared, in so many letters at most, and the number if there is one.
    stacked : bool
        For a narrow picture: two rows of words above each mark, across the whole axis.
    """

    def __init__(self, axes, x, left=-1.63, right=1.06, brief=None, *, stacked=False):
        self.axes, self.kept, self.brief, self.limit, self.stacked = axes, {}, brief, LIMITS[0], stacked
        self.height = 72 * axes.get_position().height * axes.figure.get_figheight()
        self.rows = int(self.height / ROW) // (STACKED[0][1] if stacked else 1)
        self.place = blended_transform_factory(axes.transAxes, axes.transData)
        axes.set(xlim=(-self.limit, self.limit), ylim=(self.height, 0), xlabel=x, yticks=[])
        axes.spines["left"].set_visible(False)
        axes.axvline(0, color=BLACK, lw=1, zorder=1)
        axes.xaxis.label.set_fontsize(SMALL if brief or stacked else LETTERS)
        self.dashes = moving(axes, colour=GREY, width=1.0, style=":", z=1)
        self.ghost = moving(axes, colour="#d0d0d0", width=7, z=2, solid_capstyle="butt")
        self.brackets = moving(axes, colour=GREY, width=2.0, z=2, transform=self.place, clip_on=False)
        self.estimates = {counts: Estimates(axes, counts) for counts in (True, False)}
        self.signs = {counts: Signs(axes, self.place, counts) for counts in (True, False)}
        self.summary = HatchedBar(axes)
        self._make_texts(left, right)

    def _make_texts(self, left, right):
        placed = {"transform": self.place, "va": "center", "clip_on": False, "ha": "left"}
        words = words_on if self.stacked else label  # lines run behind stacked ones
        self.texts = [[words(self.axes, BLACK, **placed) for _ in range(4)] for _ in range(self.rows)]
        self.heads = [[words(self.axes, BLACK, **placed) for _ in range(2)] for _ in range(self.rows)]
        for head, _ in self.heads:
            head.set_fontweight("bold")
        self.columns = left, left, right, right
        self.sides = [
            label(self.axes, BLACK, ha=ha, va="bottom", transform=self.axes.transAxes, clip_on=False)
            for ha in ("left", "right")
        ]
        self.nothing = label(self.axes, GREY, ha="center", va="center", transform=self.axes.transAxes)
        self.more = label(self.axes, BLACK, ha="left", va="top", transform=self.axes.transAxes, clip_on=False)

    def keep(self):
        """Hold the intervals shown now as grey bars."""
        self.kept = {line.key: line.ends for _, line in self.shown if line.ends is not None}

    def drop(self):
        """Forget them."""
        self.kept = {}

    def show(self, trials, sides=("", "")):
        """Show blocks of `forest_lines.ForestTrial`, as many lines as there is room for; True when the axis has changed."""
        every, trials = sum(len(trial.lines) for trial in trials), _as_many_as(self.rows, trials)
        heads, per = self._layout(trials)
        row, blocks = self._heights(trials, heads, per)
        self.shown = [(y, line) for _, trial, ys in blocks for y, line in zip(ys, trial.lines, strict=True)]
        self._marks()
        self._head_texts(blocks, heads, row)
        self._line_texts(blocks, heads, per, row)
        apart = 0.02 if self.stacked else 0.03
        for text, words, x in zip(
            self.sides, (f"{sides[0]} ▶", f"◀ {sides[1]}"), (0.5 + apart, 0.5 - apart), strict=True
        ):
            text.set_text(words if sides[0] else "")
            text.set_position((x, 1.02))
        self.nothing.set_position((0.5, 0.5))
        self.nothing.set_text("" if trials else "no result left")
        self.more.set_position((0.84, -22 / self.height) if self.stacked else (self.columns[2], -0.03))
        self.more.set_text(f"and {every - len(self.shown)} more" if every > len(self.shown) else "")
        return self._fit()

    def _layout(self, trials):
        """Rows of a head and of a result: the fullest layout that fits with hardly a gap."""
        layouts = BRIEF if self.brief else STACKED if self.stacked else LAYOUTS
        return next((each for each in layouts if _rows(trials, *each) <= self.height / ROW), layouts[-1])

    def _heights(self, trials, heads, per):
        """Height of a row, and for each trial the top of its block, itself and the middles of its lines [points]."""
        rows, gaps = _rows(trials, heads, per), max(len(trials) - 1, 1)
        row = min(max(self.height / max(rows + GAP * gaps, 1), ROW), ROOMY)
        gap = min(GAP * row, max(self.height - rows * row, 0.0) / gaps)
        blocks, y, mark = [], 0.0, 2.5 if self.stacked else per / 2
        for trial in trials:
            first = y + row * heads * bool(trial.head)
            blocks.append((y, trial, first + row * (per * np.arange(len(trial.lines)) + mark)))
            y = first + row * per * len(trial.lines) + gap
        return row, blocks

    def _marks(self):
        numbers = [(y, line) for y, line in self.shown if line.value is not None]
        for counts in (True, False):
            self.estimates[counts].show(
                [(y, one) for y, one in numbers if one.counts == counts and one.kind != "summary"]
            )
            self.signs[counts].show([(y, one) for y, one in self.shown if one.counts == counts and one.value is None])
        self.summary.show(next(((y, one) for y, one in numbers if one.kind == "summary"), None))
        spans(self.ghost, [(y, self.kept[line.key]) for y, line in numbers if line.key in self.kept])
        spans(self.dashes, [(y, (-1e3, 1e3)) for y, line in self.shown if line.value is None])

    def _head_texts(self, blocks, heads, row):
        most = HEAD_BRIEF if self.brief else HEAD
        joined = heads == 1 and not self.brief  # no row of its own is left for the limits
        for k, (head, limits) in enumerate(self.heads):
            top, trial, _ = blocks[k] if k < len(blocks) else (0.0, None, None)
            about = f"limits: {trial.limits}" if trial and trial.limits else ""
            words = f"{trial.head}; {about}" if joined and about else trial.head if trial else ""
            if self.stacked:
                words, about = _in_two(trial.head if trial else "", heads)
                most = HEAD_ACROSS
            head.set_text(short(words, most) if heads else "")
            limits.set_text(short(about, most) if heads == 2 else "")
            for text, down in ((head, 0.5), (limits, 1.5)):
                text.set_position((self.columns[0], top + down * row))
        x = self.columns[0] - 0.02
        over = 2.32 if self.stacked else 0.32  # rows above the first mark
        ends = [(ys[0] - row * over, ys[-1] + row * 0.32) for _, trial, ys in blocks if trial.head]
        self.brackets.set_data([x, x, np.nan] * len(ends), [part for low, high in ends for part in (low, high, np.nan)])

    def _line_texts(self, blocks, heads, per, row):
        firsts = {float(ys[0]): trial.who for _, trial, ys in blocks if not heads and trial.head}
        for k, texts in enumerate(self.texts):
            y, line = self.shown[k] if k < len(self.shown) else (0.0, None)
            words = self._words(line, per, firsts.get(float(y), "")) if line else ("",) * 4
            left, right = (row / 2 if below else 0.0 for below in words[1::2])
            downs = (-2 * row, -row, 0.0, 0.0) if self.stacked else (-left, left, -right, right)
            for text, said, x, down in zip(texts, words, self.columns, downs, strict=True):
                text.set_text(said)
                text.set_position((x, y + down))

    def _words(self, line, per, who):
        """Two texts on the left and two on the right of a line; one each where there is one row; both on the left if stacked."""
        if per == 2:
            return line.top, line.below, line.result, line.remark
        top = f"{who}: {line.top}" if who else line.top
        if self.stacked:
            more = f"{top} (+ {line.also})"  # the mark's colour says that something differs where there is no room for what
            top = more if line.also and len(more) <= ACROSS else top
            return short(top, ACROSS), short(line.result, ACROSS), "", ""
        if self.brief:
            return short(top, self.brief), "", line.result if line.value is not None else line.brief, ""
        return short(f"{top} (+ {line.also})" if line.also else top, WIDEST), "", line.result, ""

    def _fit(self):
        widest = max((abs(end) for _, line in self.shown for end in line.band or line.ends or ()), default=0.0)
        limit = next((limit for limit in LIMITS if widest <= limit), LIMITS[-1])
        moved, self.limit = limit != self.limit, limit
        if moved:
            self.axes.set_xlim(-limit, limit)
            self._marks()
        return moved


def _in_two(head, rows):
    """A head in so many ``rows``: where it is printed and whose result it is, or the other way round where it may be cut."""
    if not head:
        return "", ""
    where, _, whose = head.rpartition(": ")
    return (f"{where}:", whose) if rows == 2 else (f"{whose}; {where}", "")


def _rows(trials, heads, per):
    """Rows of words that blocks take."""
    return sum(heads * bool(trial.head) + per * len(trial.lines) for trial in trials)


def _as_many_as(most, trials):
    """The first blocks, with ``most`` lines together."""
    out, left = [], most
    for trial in trials:
        if left > 0:
            out.append(trial.cut(left))
            left -= len(trial.lines)
    return out


def key_words(axes, left=-1.63, below=-0.16, *, across=None):
    """What the marks mean, in two rows under an axis, or a row each of ``across`` (int) letters at most; from ``left``, at the
    height ``below``, both in shares of ``axes``.
    """
    words = "   ".join(KEY[:2]) + "\n" + "   ".join(KEY[2:])
    if across:
        words = "\n".join(textwrap.fill(each, across) for each in KEY)
    axes.text(left, below, words, transform=axes.transAxes, fontsize=SMALL, color=BLACK, ha="left", va="top")
