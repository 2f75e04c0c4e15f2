"""The same trunk with a bar coming to four places: how far each line of pull runs from the shoulder."""

import matplotlib as mpl

import shoulder_model as sm
from shoulder_model.draw.look import BLACK, GREY, PURPLE, SMALL, STYLE, at_projector, new_figure
from shoulder_model.draw.side_views import SideView
from shoulder_model.draw.stage import Stage
from shoulder_model.draw.stance import SEATED, legs_of
from shoulder_model.mechanics.pull import TRUNK_TOUCH

LIFTER = sm.Lifter.average("men")
VIEWS = {  # title -> pull
    "pulldown, trunk upright": sm.pulls["front pulldown"].change(trunk_lean=0.0),
    "row, trunk upright": sm.pulls["seated row wide"],
}
OFFSETS = [[float(pull.change(touch=t).line_offset(LIFTER)) for t in TRUNK_TOUCH] for pull in VIEWS.values()]
WORDS = "A trunk from the side, twice, with the line of pull through four touch points. " + " ".join(
    f"{title.capitalize()}: the line runs "
    + ", ".join(f"{100 * a:.1f} cm ({touch})" for touch, a in zip(TRUNK_TOUCH, offsets, strict=True))
    + f" {where} the shoulder."
    for title, offsets, where in zip(VIEWS, OFFSETS, ("in front of", "below"), strict=True)
)
TIP = 0.62  # m, where the drawn lines end
LAYOUT = {  # at projector size? -> height of a line of words, ends of each picture, place of words over the tapes [m]
    False: (0.055, (-0.46, 1.04), (0.41, 0.085), "a, below the shoulder [cm]"),
    True: (0.115, (-0.40, 1.10), (0.44, 0.075), "a, below the\nshoulder [cm]"),
}


def tape(axes, start, end, words, at):
    """One line offset, drawn to scale, with its centimetres."""
    axes.plot(*zip(start, end, strict=True), color=PURPLE, lw=3.5, zorder=7, solid_capstyle="butt")
    axes.text(*at, words, ha="left" if start[1] == end[1] else "center", va="center", fontweight="bold")


def spaced(heights, line):
    """Heights of the names, from the top down, at least a ``line`` apart."""
    out = list(heights)
    for j in range(1, len(out)):
        close = max(0.0, line - (out[j - 1] - out[j]))
        out[j - 1], out[j] = out[j - 1] + close / 2, out[j] - close / 2
    return out


def pulldown(axes, forward, up, level, name, a, i):
    """A line of pull straight up; the last three touch points share one."""
    axes.annotate("", (forward, TIP), (forward, up), arrowprops=ARROW)
    axes.text(forward + 0.05, level, name, va="center", fontsize=SMALL + 0.5)
    if i < 2:
        y = 0.42 - 0.12 * i
        tape(
            axes,
            (0, y),
            (forward, y),
            f"{100 * a:.0f} cm" + (" (all three lower ones)" if i else ""),
            (forward + 0.03, y),
        )


def row(axes, forward, up, level, name, a, i):
    """A line of pull straight ahead."""
    axes.annotate("", (TIP + 0.06, up), (forward, up), arrowprops=ARROW)
    axes.text(TIP + 0.08, level, name, va="center", fontsize=SMALL + 0.5)
    x = 0.24 + 0.115 * i
    tape(axes, (x, 0), (x, up), f"{100 * a:.0f}", (x, 0.035))


ARROW = {"arrowstyle": "-|>", "ls": "--", "color": BLACK, "lw": 1.5, "shrinkA": 0, "shrinkB": 0}


def stage():
    """Pulldown beside row."""
    line, ends, at, words = LAYOUT[at_projector()]
    with mpl.rc_context(STYLE):
        figure = new_figure(11.2, 5.0)
        for i, (title, pull) in enumerate(VIEWS.items()):
            axes = figure.add_axes([0.005 + 0.5 * i, 0.01, 0.49, 0.90])
            view = SideView(axes, limits=(*ends, -0.58, 0.66))
            axes.set_title(title, fontweight="bold")
            axes.set_axis_off()
            view.draw_body(LIFTER, 0.0, legs_of(LIFTER, 0.0, SEATED))
            points = [pull.change(touch=touch).touch_point(LIFTER) for touch in TRUNK_TOUCH]
            levels = spaced((up for _, up in points), line)
            for j, (touch, (forward, up), a) in enumerate(zip(TRUNK_TOUCH, points, OFFSETS[i], strict=True)):
                (row if i else pulldown)(axes, forward, up, levels[j], touch, a, j)
                axes.plot(forward, up, "x", color=GREY, ms=9, mew=2.5, zorder=8)
            reach = ([0, 0.62], [0, 0]) if i else ([0, 0], [0, 0.48])
            axes.plot(*reach, color=PURPLE, lw=1.3, ls=":", zorder=6)
            axes.plot(0, 0, "ko", ms=7, zorder=9)
        axes.text(*at, words, ha="center", va="bottom")
        return Stage(figure)
