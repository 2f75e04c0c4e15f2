"""A week of pulls as a picture: days as columns, counted sets as bars; and the week as one printed page."""

import io
import textwrap

import matplotlib as mpl
import numpy as np
from matplotlib.figure import Figure
from matplotlib.patches import Rectangle

from ..print_page import TITLE, day_lines, pull_lines, set_lines
from ..session import Plan
from ..session_pulls import COUNTED, DIRECTIONS
from ..session_words import CAUTIONS, HONEST, after_words, asked_words, client_words, set_words, turn_words
from .artists import KeptBars
from .look import BLACK, BLUE, GREEN, GREY, PALE, PURPLE, SMALL, STYLE, VERMILLION

GROUP_LOOK = {"lat": (BLUE, "-", "●"), "mid-back": (VERMILLION, "--", "■")}  # colour, outline, sign
BOTH_LOOK = (PURPLE, "-.", "●■")
MOST_DAYS, MOST_BLOCKS, MOST_LINES = 6, 6, 7
LETTER = 6.6  # widest usual width of a small letter [points]
LEADING = 13.5  # between lines [points]
TOP = 0.885  # of the picture, upper edge of the blocks
A4 = (8.27, 11.69)  # inches
LOG_COLUMNS = (  # heading, left edge as a share of the width
    ("date", 0.0), ("pull", 0.11), ("grip cm", 0.36), ("load kg", 0.45), ("reps", 0.54), ("left", 0.68), ("comfort", 0.76),
    ("note", 0.86),
)  # fmt: skip


class WeekView:
    """Days as columns, pulls as labelled blocks; instead of a week, what there is to say."""

    def __init__(self, axes):
        self.axes = axes
        axes.set(xlim=(0, 1), ylim=(0, 1), xticks=[], yticks=[])
        for side in axes.spines.values():
            side.set_visible(False)
        self.wide, self.high = axes.figure.get_size_inches() * 72 * np.array(axes.get_position().size)
        self.asked = self._text()
        self.heads = [self._text(weight="bold") for _ in range(MOST_DAYS)]
        self.blocks = [axes.add_patch(self._block()) for _ in range(MOST_DAYS * MOST_BLOCKS)]
        self.lines = [[self._text() for _ in range(MOST_LINES)] for _ in self.blocks]
        self.said = [self._text() for _ in range(16)]

    def _text(self, weight="normal"):
        return self.axes.text(
            0, 0, "", fontsize=SMALL, fontweight=weight, ha="center", va="center", animated=True, zorder=5
        )

    @staticmethod
    def _block():
        return Rectangle((0, 0), 0, 0, lw=2, animated=True, zorder=2)

    def show(self, client, answer):
        """What a client asked for, and a `session.Plan`, or the lines of a clash or a referral."""
        for artist in (*self.heads, *self.blocks, *self.said, *(line for lines in self.lines for line in lines)):
            artist.set_visible(False)
        self._put(self.asked, 0.5, 0.98, asked_words(client))
        if isinstance(answer, Plan):
            self._week(answer)
        else:
            self._say(answer.lines)

    def _week(self, plan):
        days = plan.client.days
        wide = 1 / days
        tall = TOP / max(2, *(len(plan.day(day + 1)) for day in range(days)))
        spare = iter(zip(self.blocks, self.lines, strict=True))
        for day in range(days):
            self._put(self.heads[day], (day + 0.5) * wide, 0.92, f"day {day + 1}")
            for place, row in enumerate(plan.day(day + 1)):
                block, lines = next(spare)
                self._fill(block, lines, row, (day * wide, TOP - (place + 1) * tall), wide, tall)

    def _fill(self, block, lines, row, corner, wide, tall):
        colour, outline, sign = BOTH_LOOK if len(row.direct) > 1 else GROUP_LOOK[row.direct[0]]
        gap = 4 / self.wide
        block.set_bounds(corner[0] + gap, corner[1] + gap, wide - 2 * gap, tall - 2 * gap)
        block.set(facecolor=(*mpl.colors.to_rgb(colour), 0.12), edgecolor=colour, linestyle=outline, visible=True)
        grip = "one hand" if row.pull.hands == 1 else f"{row.grip_cm:.0f} cm"
        parts = [f"{100 * row.numbers.shares[group][0]:.0f} %" for group in row.direct]
        share = f"{sign} {' + '.join(parts)}" if len(parts) > 1 else f"{sign} {row.direct[0]} {parts[0]}"
        letters = int((wide * self.wide - 14) / LETTER)
        told = [set_words(row), *textwrap.wrap(f"{grip}, {turn_words(row.pull)}", letters), share]
        name = textwrap.wrap(row.name, letters)[: MOST_LINES - len(told)]
        step = LEADING / self.high
        top = corner[1] + tall / 2 + step * (len(name) + len(told) - 1) / 2
        for place, (line, words) in enumerate(zip(lines, [*name, *told], strict=False)):
            self._put(line, corner[0] + wide / 2, top - place * step, words)
            line.set_fontweight("bold" if place < len(name) else "normal")

    def _say(self, lines):
        told = [line for words in lines for line in textwrap.wrap(words, int(self.wide / LETTER))]
        for place, (line, words) in enumerate(zip(self.said, told, strict=False)):
            self._put(line, 0.5, 0.85 - 1.5 * place * LEADING / self.high, words)
            line.set_fontweight("normal" if place else "bold")

    @staticmethod
    def _put(text, x, y, words):
        text.set_position((x, y))
        text.set(text=words, visible=True)

    def keep(self):
        """The kept week is told in words and by the bars."""

    def drop(self):
        """Nothing to take away."""


class SetBars(KeptBars):
    """Weekly sets by muscle group against their bands, and by direction against the least."""

    names = (*COUNTED, *DIRECTIONS)
    most = 22  # sets

    def __init__(self, axes):
        self.axes = axes
        axes.set(xlim=(0, self.most), ylim=(len(self.names) - 0.4, -0.75), xlabel="weekly sets, helper sets as ½")
        signs = [f"{GROUP_LOOK[name][2]} {name}" if name in GROUP_LOOK else name for name in self.names]
        axes.set_yticks(np.arange(len(self.names)), signs)
        axes.tick_params(axis="y", length=0)
        axes.grid(axis="x", color="#eeeeee")
        axes.set_title("grey: band, black: wanted or least", pad=4)
        colours = [GROUP_LOOK[name][0] if name in GROUP_LOOK else GREEN for name in self.names]
        self.band = [self._bar(row, 0.40, PALE, 0.5) for row in range(len(self.names))]
        self.bars = [self._bar(row, 0.22, colour, 2) for row, colour in enumerate(colours)]
        self.kept = [self._bar(row, 0.30, "none", 3) for row in range(len(self.names))]
        self.wanted = [
            axes.plot([], [], color=BLACK, lw=3, solid_capstyle="butt", animated=True, zorder=4)[0] for _ in self.names
        ]
        self.words = [
            axes.text(0, row - 0.5, "", fontsize=SMALL, ha="left", va="center", animated=True, zorder=6)
            for row in range(len(self.names))
        ]
        self.drop()

    def _bar(self, row, half, colour, z):
        edge = GREY if colour == "none" else "none"
        bar = Rectangle((0, row - half), 0, 2 * half, facecolor=colour, edgecolor=edge, lw=1.8, animated=True, zorder=z)
        return self.axes.add_patch(bar)

    def show(self, answer):
        """Sets of a plan; none without one."""
        planned = isinstance(answer, Plan)
        for row, name in enumerate(self.names):
            sets = (answer.sets | answer.directions)[name] if planned else 0.0
            low, high, wanted = self._ends(answer, name) if planned else (0.0, 0.0, None)
            self.bars[row].set_width(min(sets, self.most))
            self.band[row].set_bounds(low, row - 0.40, high - low, 0.80)
            self.wanted[row].set_data(*(([wanted] * 2, [row - 0.38, row + 0.38]) if wanted else ([], [])))
            self.words[row].set_text(self._told(answer, name, sets, wanted) if planned else "")

    @staticmethod
    def _ends(plan, name):
        """Band and mark of one row; a direction has its least as mark and no band."""
        if name in plan.bands:
            return plan.bands[name]
        return 0.0, 0.0, plan.rules.direction_sets if name in DIRECTIONS else None

    @staticmethod
    def _told(plan, name, sets, wanted):
        if name in plan.bands:
            return f"{sets:g}, wanted {wanted:g}"
        if name not in DIRECTIONS:
            return f"{sets:g} as helpers"
        torque = [
            10 * row.numbers.torque[DIRECTIONS.index(name)] / row.numbers.per_kg
            for row in plan.rows
            if row.numbers.directions[name] >= plan.rules.direction_share
        ]
        return f"{sets:g}, at least {wanted:g}; {np.mean(torque):.0f} N m per 10 kg"


def page_figure(answer):
    """The printed page as a figure, A4 upright; without a week it says why."""
    with mpl.rc_context(STYLE):
        figure = Figure(figsize=A4, facecolor="white")
        y = _paragraph(figure, 0.965, TITLE, 15, "bold")
        for words, size, weight in _page_parts(answer):
            y = _paragraph(figure, y, words, size, weight)
        if isinstance(answer, Plan):
            _log(figure, y)
    return figure


def page_pdf(answer):
    """The printed page as the bytes of a PDF."""
    store = io.BytesIO()
    with mpl.rc_context(STYLE | {"pdf.fonttype": 42}):
        page_figure(answer).savefig(store, format="pdf", metadata={"CreationDate": None, "Title": TITLE})
    return store.getvalue()


def _page_parts(answer):
    """What stands on the page: (words, letter size, weight)."""
    if not isinstance(answer, Plan):
        return [*((line, 11, "normal") for line in answer.lines), (CAUTIONS, 9, "normal")]
    parts = [(f"{client_words(answer.client)}.", 9, "normal")]
    parts += [(line, 9.5, "bold") for line in day_lines(answer)]
    for head, words in pull_lines(answer):
        parts += [(head, 9.5, "bold"), (words, 9, "normal")]
    parts += [("Counted: " + "; ".join(set_lines(answer)) + ".", 9, "normal")]
    return parts + [(words, 9, "normal") for words in (*answer.notes, after_words(answer.rules), HONEST, CAUTIONS)]


def _paragraph(figure, y, words, size, weight):
    """Put wrapped words under ``y`` (share of the page); returns where the next may start."""
    letters = int(0.87 * A4[0] * 72 / (size * (0.66 if weight == "bold" else 0.585)))
    for line in textwrap.wrap(words, letters):
        figure.text(0.065, y, line, fontsize=size, fontweight=weight, va="top")
        y -= 1.3 * size / (72 * A4[1])
    return y - 0.5 * size / (72 * A4[1])


def _log(figure, top):
    """Lines to write on, down to the foot of the page; none where there is no room."""
    low, tall = 0.035, 0.024
    count = int((top - low) / tall)
    if count < 3:
        return
    axes = figure.add_axes([0.065, top - count * tall, 0.87, count * tall])
    axes.set(xlim=(0, 1), ylim=(count, 0))
    axes.axis("off")
    axes.hlines(np.arange(count + 1), 0, 1, color=GREY, lw=0.6, clip_on=False)
    for (head, start), end in zip(LOG_COLUMNS, [*(start for _, start in LOG_COLUMNS[1:]), 1.0], strict=True):
        axes.vlines([start, end], 0, count, color=GREY, lw=0.6, clip_on=False)
        axes.text(start + 0.008, 0.5, head, fontsize=8, va="center")
