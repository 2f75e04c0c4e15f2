"""The same trunk with a bar coming to four places: how far each line of pull runs from the shoulder."""

import matplotlib as mpl
import numpy as np

import shoulder_model as sm
from shoulder_model.draw.lifter_views import SideView
from shoulder_model.draw.look import BLACK, GREY, PURPLE, STYLE, new_figure
from shoulder_model.draw.stage import Stage
from shoulder_model.pull import TRUNK_TOUCH

LIFTER = sm.Lifter.average("men")
VIEWS = {  # title -> pull, where the tape of each touch point stands along the pull [m]
    "pulldown, trunk upright": sm.pulls["front pulldown"].change(trunk_lean=0.0),
    "seated row, trunk upright": sm.pulls["seated row wide"],
}
OFFSETS = {title: [float(pull.change(touch=t).line_offset(LIFTER)) for t in TRUNK_TOUCH] for title, pull in VIEWS.items()}
WORDS = "A trunk from the side, twice, with the line of pull through four touch points. " + " ".join(
    f"{title.capitalize()}: the line runs "
    + ", ".join(f"{100 * a:.1f} cm ({touch})" for touch, a in zip(TRUNK_TOUCH, OFFSETS[title], strict=True))
    + f" {where} the shoulder."
    for title, where in zip(VIEWS, ("in front of", "below"), strict=True)
)


def lines(view, pull, ahead):
    """Trunk, touch points, lines of pull, and the line offset of each as a purple tape."""
    view.draw_body(LIFTER, 0.0, (1.0, -0.05))
    axes, tip = view.axes, 0.80 if ahead else 0.62
    for i, touch in enumerate(TRUNK_TOUCH):
        forward, up = pull.change(touch=touch).touch_point(LIFTER)
        start, end = (forward, up), ((tip, up) if ahead else (forward, tip))
        axes.annotate("", end, start, arrowprops={"arrowstyle": "-|>", "ls": "--", "color": BLACK, "lw": 1.5})
        axes.plot(*start, "x", color=GREY, ms=9, mew=2.5, zorder=8)
        if ahead:
            x = 0.30 + 0.13 * i
            axes.plot([x, x], [0, up], color=PURPLE, lw=3, zorder=7)
            axes.text(x, 0.02 + 0.07 * 0, f"{-100 * up:.0f}", ha="center", va="bottom", fontweight="bold")
    if ahead:
        axes.plot([0, 0.72], [0, 0], color=PURPLE, lw=1.2, ls=":", zorder=6)
        axes.text(0.50, 0.11, "a, below the shoulder [cm]", ha="center", va="bottom")
    axes.plot(0, 0, "ko", ms=6, zorder=9)


def stage():
    """Pulldown beside row."""
    with mpl.rc_context(STYLE):
        figure = new_figure(11.2, 4.4)
        for i, (title, pull) in enumerate(VIEWS.items()):
            view = SideView(figure.add_axes([0.01 + 0.5 * i, 0.01, 0.48, 0.90]))
            view.axes.set_title(title, fontweight="bold")
            view.axes.set(xlim=(-0.75, 0.95), ylim=(-0.62, 0.66))
            view.axes.set_axis_off()
            lines(view, pull, i == 1)
        return Stage(figure)
