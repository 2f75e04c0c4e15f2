"""What a centimetre of muscle adds to a tape round the chest, and what girth and waist do to the chest-to-waist ratio."""

import matplotlib as mpl
import numpy as np
from matplotlib.patches import Ellipse

from shoulder_model.draw.look import (
    BLACK,
    BLUE,
    GREY,
    LETTERS,
    SKY,
    SMALL,
    STYLE,
    TRUNK,
    VERMILLION,
    at_projector,
    new_figure,
)
from shoulder_model.draw.stage import Stage
from shoulder_model.people import girth_gain, means, percentile, ratio_change, survey_quantity
from shoulder_model.words import listed

SEXES = {"men": (BLUE, None), "women": (VERMILLION, "//")}
CENTIMETRE = 0.01
LAYOUT = {  # at projector size? -> height of the sheet [inch], letters [points], chest, changes, (end of scale, key's edge)
    False: (4.8, LETTERS, [0.0, 0.01, 0.34, 0.90], [0.545, 0.13, 0.445, 0.78], (0.09, 0.22)),
    True: (5.05, SMALL, [0.0, 0.01, 0.29, 0.90], [0.585, 0.175, 0.395, 0.73], (0.0995, 0.12)),
}
RATIO = "chest_to_waist_circumference"


def outline(sex):
    """Breadth and depth of the mean chest. [m]"""
    return means(sex, "chest_breadth", "chest_depth")


def steps(sex):
    """Change of chest / waist girth for each row of the picture."""
    upper, waist = means(sex, "chest_circumference", "waist_circumference")
    sides, around = (girth_gain(*outline(sex), CENTIMETRE, where) for where in ("sides", "all round"))
    return {
        "1 cm of chest girth on": ratio_change(upper, waist, CENTIMETRE),
        "1 cm of waist off": ratio_change(upper, waist, 0.0, -CENTIMETRE),
        "1 cm of muscle, sides only": ratio_change(upper, waist, sides),
        "1 cm of muscle, all round": ratio_change(upper, waist, around),
        "5 cm of waist off": ratio_change(upper, waist, 0.0, -5 * CENTIMETRE),
    }


def place(sex, change):
    """Percentile of somebody who stood at the mean ratio before."""
    ratio, sd = survey_quantity(sex, RATIO)
    return percentile(ratio + change, ratio, sd)


MEN, WOMEN = steps("men"), steps("women")
BREADTH, DEPTH = (100 * length for length in outline("men"))
SIDES, AROUND = (100 * girth_gain(*outline("men"), CENTIMETRE, where) for where in ("sides", "all round"))
WORDS = (
    f"Left, an oval chest from above, {BREADTH:.1f} by {DEPTH:.1f} cm: a centimetre of muscle at each side adds {SIDES:.1f} cm to the "
    f"tape, a centimetre all round {AROUND:.1f} cm. Right, what that does to the ratio of chest to waist girth, for the mean man and "
    "the mean woman: "
    + listed([f"{name} {MEN[name]:+.3f} and {WOMEN[name]:+.3f}" for name in MEN])
    + ". One standard deviation of the survey is "
    + " and ".join(f"{survey_quantity(sex, RATIO)[1]:.3f}" for sex in SEXES)
    + "."
)


def oval(axes, grow_breadth, grow_depth, z, **look):
    """The chest with its axes grown by so many centimetres."""
    axes.add_patch(Ellipse((0, 0), BREADTH + grow_breadth, DEPTH + grow_depth, zorder=z, **look))


def chest(axes, letters):
    """The outline before, with muscle at the sides, and all round."""
    axes.set(xlim=(-18, 18), ylim=(-22, 17.5), aspect="equal")
    axes.set_axis_off()
    axes.set_title("a chest from above", fontweight="bold")
    turn = np.linspace(0, 2 * np.pi, 361)
    normal = np.column_stack([DEPTH * np.cos(turn), BREADTH * np.sin(turn)])
    normal /= np.hypot(*normal.T)[:, None]
    layer = np.column_stack([BREADTH * np.cos(turn), DEPTH * np.sin(turn)]) / 2 + normal
    axes.plot(*layer.T, color=BLACK, ls="--", lw=1.8, zorder=3)
    oval(axes, 2, 0, 4, facecolor=SKY, edgecolor=BLUE, hatch="//", lw=1.2)
    oval(axes, 0, 0, 5, facecolor=TRUNK, edgecolor=GREY, lw=1.2)
    axes.plot([-BREADTH / 2, BREADTH / 2], [0, 0], color=GREY, lw=1.4, marker="|", ms=10, zorder=6)
    axes.text(0, 0.6, f"{BREADTH:.1f} cm", ha="center", va="bottom", zorder=7)
    axes.text(0, -6.5, "front", ha="center", va="center", zorder=7, color="#555555")
    axes.text(0, 7.5, "back", ha="center", va="center", zorder=7, color="#555555")
    axes.plot([-16, -12.5], [-17.4, -17.4], color=SKY, lw=9, solid_capstyle="butt")
    axes.plot([-16, -12.5], [-20.4, -20.4], color=BLACK, lw=1.8, ls="--")
    axes.text(-11.5, -17.4, f"1 cm at each side: tape +{SIDES:.1f} cm", va="center", fontsize=letters)
    axes.text(-11.5, -20.4, f"1 cm all round: tape +{AROUND:.1f} cm", va="center", fontsize=letters)


def changes(axes, letters, end, key):
    """One pair of bars a step, with the place in the survey at the end."""
    for shift, (sex, (colour, hatch)) in zip((-0.19, 0.19), SEXES.items(), strict=True):
        found = steps(sex)
        face = colour if hatch is None else "white"
        rows = np.arange(len(found)) + shift
        axes.barh(
            rows, list(found.values()), 0.34, facecolor=face, edgecolor=colour, hatch=hatch, label=f"mean {sex[:-2]}an"
        )
        for row, change in zip(rows, found.values(), strict=True):
            axes.text(
                0.0765, row, f"50 → {place(sex, change):.0f}", va="center", ha="left", color=colour, fontweight="bold"
            )
        sd = survey_quantity(sex, RATIO)[1]
        axes.axvline(sd, color=colour, lw=1.6, ls="--" if hatch else "-")
    axes.text(0.0655, 1.5, "1 SD of\nthe survey", va="center", ha="right")
    axes.text(0.0765, -0.72, "percentile", va="bottom", ha="left")
    axes.set_yticks(range(len(MEN)), MEN, fontsize=letters)
    axes.set_xticks([0, 0.02, 0.04, 0.06])
    axes.tick_params(axis="y", length=0)
    axes.set(xlim=(0, end), ylim=(4.6, -0.6), xlabel="chest / waist girth grows by")
    axes.set_title("change of the ratio", fontweight="bold", loc="left")
    axes.legend(loc="lower left", bbox_to_anchor=(key, 0.80), fontsize=letters)


def stage():
    """Geometry beside arithmetic."""
    height, letters, left, right, places = LAYOUT[at_projector()]
    with mpl.rc_context(STYLE | {"hatch.linewidth": 0.8, "font.size": letters}):
        figure = new_figure(11.2, height)
        chest(figure.add_axes(left), letters)
        changes(figure.add_axes(right), letters, *places)
        return Stage(figure)
