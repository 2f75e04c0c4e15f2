"""A week of pulls as a picture: days as columns, counted sets as bars. The printed page is `week_page.pdf`."""

import textwrap
from itertools import zip_longest

import matplotlib as mpl
import numpy as np
from matplotlib.patches import Rectangle

from ..week import COUNTED, DIRECTIONS, Plan
from ..week.words import asked_words, grip_words, set_words, turn_words
from .artists import KeptBars
from .look import BLACK, BLUE, GREEN, GREY, PALE, PURPLE, SMALL, VERMILLION, at_projector, by_sheet

GROUP_LOOK = {"lat": (BLUE, "-", "●"), "mid-back": (VERMILLION, "--", "■")}  # colour, outline, sign
BOTH_LOOK = (PURPLE, "-.", "●■")
MOST_DAYS, MOST_BLOCKS, MOST_LINES = 6, 6, 7
LETTER = 6.6  # widest usual width of a small letter [points]
LEADING = 13.5  # between lines [points]
HEAD, HIGHEST = 17.0, 50.0  # of a day's name, of a block at most, in a list of days [points]
TOP = 0.885  # of the picture, upper edge of the blocks


class WeekView:
    """Days as columns, pulls as labelled blocks; instead of a week, what there is to say.

    On a projector a block has the pull's name and its sets, and what the client asked for is left out.
    """

    def __init__(self, axes):
        self.axes = axes
        axes.set(xlim=(0, 1), ylim=(0, 1), xticks=[], yticks=[])
        for side in axes.spines.values():
            side.set_visible(False)
        self.wide, self.high = axes.figure.get_size_inches() * 72 * np.array(axes.get_position().size)
        self.brief = at_projector()
        self.top, self.head, self.said_at, self.pitch = by_sheet(
            (TOP, 0.92, 0.85, 1.5), (0.89, 0.95, 0.95, 1.0), (1 - 2.2 * LEADING / self.high, 0.0, 0.9, 1.0)
        )
        self.across = by_sheet(1000, 1000, int(0.95 * self.wide / LETTER))
        self.gap = by_sheet(4 / self.wide, 4 / self.wide, 1.5 / self.high)
        self.asked = [self._text() for _ in range(by_sheet(1, 1, 2))]
        self.heads = [self._text(weight="bold") for _ in range(MOST_DAYS)]
        self.blocks = [axes.add_patch(self._block()) for _ in range(MOST_DAYS * MOST_BLOCKS)]
        self.lines = [[self._text() for _ in range(MOST_LINES)] for _ in self.blocks]
        self.said = [self._text() for _ in range(by_sheet(16, 16, 28))]

    def _text(self, weight="normal"):
        return self.axes.text(
            0, 0, "", fontsize=SMALL, fontweight=weight, ha="center", va="center", animated=True, zorder=5
        )

    @staticmethod
    def _block():
        return Rectangle((0, 0), 0, 0, lw=2, animated=True, zorder=2)

    def show(self, client, answer):
        """What a client asked for, and a `week.Plan`, or the lines that say why there is none."""
        for artist in (*self.heads, *self.blocks, *self.said, *(line for lines in self.lines for line in lines)):
            artist.set_visible(False)
        if not self.brief:
            rows = textwrap.wrap(asked_words(client), self.across)
            for place, (row, words) in enumerate(zip_longest(self.asked, rows, fillvalue="")):
                self._put(row, 0.5, 0.98 - place * LEADING / self.high, words)
        if isinstance(answer, Plan):
            self._week(answer)
        else:
            self._say(answer.lines)

    def _week(self, plan):
        days = plan.days
        wide = 1 / days
        tall = self.top / max(2, *(len(plan.day(day + 1)) for day in range(days)))
        spare = iter(zip(self.blocks, self.lines, strict=True))
        for day in range(days):
            self._put(self.heads[day], (day + 0.5) * wide, self.head, plan.weekdays[day])
            for place, row in enumerate(plan.day(day + 1)):
                block, lines = next(spare)
                self._fill(block, lines, row, (day * wide, self.top - (place + 1) * tall), wide, tall)

    def _fill(self, block, lines, row, corner, wide, tall):
        colour, outline, sign = BOTH_LOOK if len(row.direct) > 1 else GROUP_LOOK[row.direct[0]]
        gap = 4 / self.wide
        block.set_bounds(corner[0] + gap, corner[1] + self.gap, wide - 2 * gap, tall - 2 * self.gap)
        block.set(facecolor=(*mpl.colors.to_rgb(colour), 0.12), edgecolor=colour, linestyle=outline, visible=True)
        step = LEADING / self.high
        name, told = self._told(row, sign, int((wide * self.wide - 14) / LETTER), tall / step - 0.4)
        top = corner[1] + tall / 2 + step * (len(name) + len(told) - 1) / 2
        for place, (line, words) in enumerate(zip(lines, [*name, *told], strict=False)):
            self._put(line, corner[0] + wide / 2, top - place * step, words)
            line.set_fontweight("bold" if place < len(name) else "normal")

    def _told(self, row, sign, letters, room):
        """Rows of the name, and of what else is told of a pull, of so many ``letters`` with ``room`` for so many rows."""
        told = [set_words(row), *textwrap.wrap(_hold_words(row), letters), f"{sign} {' + '.join(row.direct)}"]
        most = MOST_LINES
        if self.brief:
            told, most = told[:1], int(room)
        return textwrap.wrap(row.name, letters)[: most - len(told)], told

    def _say(self, lines):
        told = [line for words in lines for line in textwrap.wrap(words, int(self.wide / LETTER))]
        for place, (line, words) in enumerate(zip(self.said, told, strict=False)):
            self._put(line, 0.5, self.said_at - self.pitch * place * LEADING / self.high, words)
            line.set_fontweight("normal" if place else "bold")

    @staticmethod
    def _put(text, x, y, words):
        text.set_position((x, y))
        text.set(text=words, visible=True)

    def keep(self):
        """The kept week is told in words and by the bars."""

    def drop(self):
        """Nothing to take away."""


class DayList(WeekView):
    """For a phone: the days below each other, a block across for each pull, as high as there is room for."""

    def _week(self, plan):
        days = [plan.day(day + 1) for day in range(plan.days)]
        head = HEAD / self.high
        tall = min((self.top - head * plan.days) / max(1, *map(len, days), sum(map(len, days))), HIGHEST / self.high)
        spare, y = iter(zip(self.blocks, self.lines, strict=True)), self.top
        for rows, text, name in zip(days, self.heads, plan.weekdays, strict=False):
            self._put(text, 0.5, y - head / 2, name)
            y -= head
            for row in rows:
                block, lines = next(spare)
                y -= tall
                self._fill(block, lines, row, (0.0, y), 1.0, tall)

    def _told(self, row, sign, letters, room):
        if room < 1.7:
            return [f"{sign} {row.name}, {set_words(row)}"], []
        told = f"{set_words(row)}, {_hold_words(row)}"
        return [row.name], [told, f"{sign} {' + '.join(row.direct)}"] if room > 2.7 else [f"{sign} {told}"]


def _hold_words(row):
    return f"{grip_words(row)}, {turn_words(row.pull)}"


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
        axes.set_title("grey: range; line: aim or minimum", pad=4)
        colours = [GROUP_LOOK[name][0] if name in GROUP_LOOK else GREEN for name in self.names]
        self.band = [self._bar(row, 0.36, PALE, 0.5) for row in range(len(self.names))]
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
            self.band[row].set_bounds(low, row - 0.32, high - low, 0.72)
            self.wanted[row].set_data(*(([wanted] * 2, [row - 0.26, row + 0.36]) if wanted else ([], [])))
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
        return f"{sets:g}, at least {wanted:g}"
