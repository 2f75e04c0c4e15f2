"""A side force between hand and bar: how it turns the line of pull, and what it does to three grips."""

import matplotlib as mpl
import numpy as np

import shoulder_model as sm
from shoulder_model.draw.look import BLACK, BLUE, GREY, ORANGE, SKIN, STYLE, VERMILLION, at_projector, new_figure
from shoulder_model.draw.stage import Stage

MAN, PULLDOWN = sm.Lifter.average("men"), sm.pulls["front pulldown"]
UPRIGHT = sm.rep(MAN, PULLDOWN.change(trunk_lean=0.0), work=False)
WHEN = {8: "20 % of the way", 24: "60 % of the way"}  # points of 41
GRIPS = [1.0, 1.5, 2.0]
HOLDS = {"handles": ("handles", BLUE, ""), "a bar, gripped": ("bar", ORANGE, "///")}
PULL_LENGTH = 0.24  # m on the picture
LAYOUT = {  # at projector size? -> sheet's height [inch], width of a posture, bars, scale over the largest, "pull" aside [m]
    False: (4.3, 0.2, [0.5, 0.15, 0.48, 0.72], 1.25, 0.015),
    True: (5.05, 0.215, [0.54, 0.12, 0.45, 0.84], 1.32, 0.03),
}


def place(point):
    """Elbow and hand from the shoulder where it is at that point: to the right, up. [m]"""
    return [
        (getattr(UPRIGHT, part) - UPRIGHT.gh_centre).sel(space=["right", "up"]).values[point]
        for part in ("elbow", "hand")
    ]


SHARE = {point: place(point)[1][0] / place(point)[1][1] for point in WHEN}
KG = {
    name: sm.sweep(MAN, PULLDOWN.change(hold=hold), grip_ratio=GRIPS).whole_rep_load_kg.values
    for name, (hold, _, _) in HOLDS.items()
}
WORDS = (
    "Left, an arm from the front in an upright pulldown at grip 1.5 ×: a side force of "
    + " and ".join(f"{100 * SHARE[point]:.0f} % of the pull at {words}" for point, words in WHEN.items())
    + " turns the resultant through the shoulder. Right, the model's largest load at grip 1.0, 1.5 and 2.0 ×: "
    + "; ".join(f"{name} " + ", ".join(f"{kg:.0f}" for kg in values) + " kg" for name, values in KG.items())
    + "."
)


def arrow(axes, start, along, colour, width=3.0):
    """A force from ``start``; returns its tip."""
    tip = np.add(start, along)
    look = {"arrowstyle": "-|>", "color": colour, "lw": width, "mutation_scale": 16, "shrinkA": 0, "shrinkB": 0}
    axes.annotate("", tip, start, arrowprops=look, zorder=6)
    return tip


def turned_line(axes, point, aside):
    """The arm with pull, side force and their resultant, whose line is drawn back to the shoulder."""
    elbow, hand = place(point)
    axes.plot(*np.transpose([(0, 0), elbow, hand]), color=SKIN, lw=9, solid_capstyle="round", zorder=2)
    axes.plot([0, hand[0]], [0, hand[1]], color=GREY, lw=1.5, ls="--", zorder=3)
    axes.plot(0, 0, "o", color="white", mec=BLACK, mew=2, ms=10, zorder=7)
    up, side = np.array([0.0, PULL_LENGTH]), np.array([PULL_LENGTH * SHARE[point], 0.0])
    arrow(axes, hand, up, BLUE)
    tip = arrow(axes, hand, side, VERMILLION)
    arrow(axes, hand, up + side, BLACK)
    axes.text(hand[0] - aside, hand[1] + 0.6 * PULL_LENGTH, "pull", color=BLUE, fontweight="bold", ha="right")
    axes.text(
        max(tip[0], hand[0] + 0.03) + 0.015, tip[1] - 0.01, f"{100 * SHARE[point]:.0f} %", color=VERMILLION,
        fontweight="bold", va="center",
    )  # fmt: skip
    axes.set(xlim=(-0.12, 0.42), ylim=(-0.3, 0.79), aspect="equal", title=WHEN[point])
    axes.set_axis_off()


def stage():
    """Two postures, then the loads of three grips on handles and on a bar."""
    height, step, place, room, aside = LAYOUT[at_projector()]
    with mpl.rc_context(STYLE):
        figure = new_figure(11.2, height)
        for k, point in enumerate(WHEN):
            turned_line(figure.add_axes([0.01 + step * k, 0.02, step, 0.87]), point, aside)
        axes = figure.add_axes(place)
        for k, (name, (_, colour, hatch)) in enumerate(HOLDS.items()):
            x = np.arange(len(GRIPS)) + 0.4 * (k - 0.5)
            face = "white" if hatch else colour
            axes.bar(x, KG[name], 0.37, color=face, edgecolor=colour, hatch=hatch, lw=1.5, label=name)
            for at, kg in zip(x, KG[name], strict=True):
                axes.text(at, kg + 1.5, f"{kg:.0f}", ha="center", va="bottom", fontweight="bold")
        axes.set_xticks(range(len(GRIPS)), [f"grip {grip:.1f} ×" for grip in GRIPS], fontsize=11.5)
        axes.tick_params(axis="x", length=0)
        axes.set(ylim=(0, room * max(map(max, KG.values()))), ylabel="largest load [kg]")
        axes.legend(loc="upper left", ncols=2, fontsize=11.5)
        return Stage(figure)
