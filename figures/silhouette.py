"""Like for like: tape against tape, and a centimetre on each side of the chest against one off each side of the waist."""

import matplotlib as mpl
import numpy as np
from matplotlib.patches import Ellipse

from shoulder_model.draw.look import (
    BLUE,
    GREY,
    LETTERS,
    PALE,
    SKY,
    SMALL,
    STYLE,
    TRUNK,
    VERMILLION,
    at_projector,
    new_figure,
)
from shoulder_model.draw.stage import Stage
from shoulder_model.people import means, percentile, ratio_change, side_layer, survey_quantity
from shoulder_model.words import listed

SEXES = {"men": (BLUE, None), "women": (VERMILLION, "//")}
CENTIMETRE = 0.01
ROWS = np.array([0.0, 1.0, 2.25, 3.25])  # two pairs
LAYOUT = {  # at projector size? -> height of the sheet [inch], letters [points], outlines, changes, (end of scale, key's edge)
    False: (4.8, LETTERS, [0.0, 0.01, 0.30, 0.98], [0.50, 0.13, 0.49, 0.78], (0.085, 0.40)),
    True: (5.05, SMALL, [0.0, 0.01, 0.27, 0.98], [0.525, 0.175, 0.465, 0.73], (0.097, 0.32)),
}
RATIO = "chest_to_waist_circumference"


def steps(sex):
    """Change of chest / waist girth for each row of the picture."""
    upper, waist = means(sex, "chest_circumference", "waist_circumference")
    layer = side_layer(sex, CENTIMETRE)
    return {
        "1 cm more\nof chest tape": ratio_change(upper, waist, CENTIMETRE),
        "1 cm less\nof waist tape": ratio_change(upper, waist, 0.0, -CENTIMETRE),
        "1 cm on, each\nside of the chest": ratio_change(upper, waist, layer),
        "1 cm off, each\nside of the waist": ratio_change(upper, waist, 0.0, -layer),
    }


def place(sex, change):
    """Percentile of somebody who stood at the mean ratio before."""
    ratio, sd = survey_quantity(sex, RATIO)
    return percentile(ratio + change, ratio, sd)


MEN, WOMEN = steps("men"), steps("women")
BREADTH, DEPTH = (100 * length for length in means("men", "chest_breadth", "chest_depth"))
TAPE = 100 * side_layer("men", CENTIMETRE)
WORDS = (
    f"Left, two ovals from above, both as the mean man's chest, {BREADTH:.1f} by {DEPTH:.1f} cm. A centimetre on at each side of the chest adds {TAPE:.1f} cm to its "
    f"tape, a centimetre off each side of the waist takes {TAPE:.1f} cm off its tape. Right, what that does to the ratio of chest to "
    "waist tape, and what a centimetre of each tape does, for the mean man and the mean woman: "
    + listed([f"{' '.join(name.split())} {MEN[name]:+.3f} and {WOMEN[name]:+.3f}" for name in MEN])
    + ". One standard deviation of the survey is "
    + " and ".join(f"{survey_quantity(sex, RATIO)[1]:.3f}" for sex in SEXES)
    + "."
)


def oval(axes, up, change, z, **look):
    """An outline about the height ``up``, its breadth changed by so many centimetres."""
    axes.add_patch(Ellipse((0, up), BREADTH + change, DEPTH, zorder=z, **look))


def outlines(axes, letters):
    """Chest with a layer on, waist with a layer off, each with what its tape does."""
    axes.set(xlim=(-17.5, 17.5), ylim=(-32, 43), aspect="equal")
    axes.set_axis_off()
    for up, name, sign, faces in ((16, "chest", "+", (SKY, TRUNK)), (-16, "waist", "−", (TRUNK, PALE))):
        on = sign == "+"
        oval(axes, up, 2 * on, 2, facecolor=faces[0 if on else 1], edgecolor=BLUE if on else GREY, hatch="//" if on else None,
             ls="-" if on else "--", lw=1.2)  # fmt: skip
        oval(axes, up, 0 if on else -2, 3, facecolor=TRUNK, edgecolor=GREY if on else BLUE, lw=1.2)
        axes.text(0, up + 4.5, name, ha="center", va="center", fontweight="bold", fontsize=letters, zorder=4)
        axes.text(0, up - 3.5, f"tape\n{sign}{TAPE:.1f} cm", ha="center", va="center", fontsize=letters, zorder=4)
    axes.text(0, 32.5, "1 cm at each side,\nfrom above", ha="center", va="bottom", fontsize=letters)


def changes(axes, letters, end, key):
    """One pair of bars a step, with the change and the place in the survey behind."""
    for shift, (sex, (colour, hatch)) in zip((-0.19, 0.19), SEXES.items(), strict=True):
        found = list(steps(sex).values())
        face, rows = colour if hatch is None else "white", ROWS + shift
        axes.barh(rows, found, 0.34, facecolor=face, edgecolor=colour, hatch=hatch, label=f"{sex[:-2]}an")
        look = {"va": "center", "ha": "left", "color": colour, "fontweight": "bold"}
        for row, change in zip(rows, found, strict=True):
            axes.text(change + 0.001, row, f"{change:+.3f}", **look)
            axes.text(0.0725, row, f"50 → {place(sex, change):.0f}", **look)
        axes.axvline(survey_quantity(sex, RATIO)[1], color=colour, lw=1.6, ls="--" if hatch else "-")
    axes.text(0.0655, 1.45, "1 SD of\nthe survey", va="center", ha="right")
    axes.text(0.0725, -0.55, "percentile", va="bottom", ha="left")
    axes.set_yticks(ROWS, MEN, fontsize=letters)
    axes.set_xticks([0, 0.02, 0.04, 0.06])
    axes.tick_params(axis="y", length=0)
    axes.set(xlim=(0, end), ylim=(3.75, -0.5), xlabel="chest / waist grows by")
    axes.set_title("change of the ratio", fontweight="bold", loc="left")
    axes.legend(loc="lower left", bbox_to_anchor=(key, 0.75), fontsize=letters)


def stage():
    """Geometry beside arithmetic."""
    height, letters, left, right, places = LAYOUT[at_projector()]
    with mpl.rc_context(STYLE | {"hatch.linewidth": 0.8, "font.size": letters}):
        figure = new_figure(11.2, height)
        outlines(figure.add_axes(left), letters)
        changes(figure.add_axes(right), letters, *places)
        return Stage(figure)
