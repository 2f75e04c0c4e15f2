"""From above: four grips of one bar, and how far and in which direction the line of pull runs from the shoulder."""

import matplotlib as mpl
import numpy as np

from shoulder_model import Lifter, pulls
from shoulder_model.draw.look import (
    BLACK,
    BLUE,
    GREEN,
    GREY,
    ORANGE,
    PURPLE,
    SKIN,
    STYLE,
    TRUNK,
    VERMILLION,
    at_projector,
    new_figure,
)
from shoulder_model.draw.stage import Stage

CLIENT = Lifter.from_measures("women", stature=1.68, mass=64.0, biacromial=0.372)
PULL = pulls["front pulldown"].change(trunk_lean=0.0, load_kg=30.0, girdle_travel=0.0)
LOOKS = {0.3: (ORANGE, "D", ":"), 1.0: (VERMILLION, "s", "--"), 1.5: (GREEN, "^", "-."), 2.0: (BLUE, "o", "-")}
LINES = {grip: (PULL.change(grip_ratio=grip).hand_offset(CLIENT), PULL.line_offset(CLIENT)) for grip in LOOKS}
CROSSING = 1 + 2 * PULL.line_offset(CLIENT) / CLIENT.biacromial
LAYOUT = {  # at projector size? -> height of the sheet [inch]; right end, ends up and down, rows of the key below the bar [cm]
    False: (2.9, 66, (-11.5, 19), [(33, 0), (33, 5), (33, 10), (33, 15)]),
    True: (4.33, 33.5, (-21, 19), [(-55, 26), (-55, 30), (-14, 26), (-14, 30)]),
}


def degrees_out(w, a):
    """The plane of pull in words."""
    angle = np.degrees(np.arctan2(w, a))
    return f"{abs(angle):.0f}° {'out' if angle >= 0 else 'in'}"


WORDS = (
    "A lifter from above, trunk upright, under an overhead bar. "
    + " ".join(
        f"Grip {grip:.1f} times: the line of pull passes the shoulder {100 * np.hypot(w, a):.1f} cm away, "
        f"{degrees_out(w, a)} from straight ahead."
        for grip, (w, a) in LINES.items()
    )
    + f" At {CROSSING:.2f} times the plane of pull stands at 45°: w equals a."
)


def body(axes, half, a):
    """Shoulders, head, the bar across, and the shoulder's own dot."""
    axes.add_patch(
        mpl.patches.Ellipse((-half, 0), 2 * half + 6, 80 * CLIENT.chest_depth, facecolor=TRUNK, edgecolor=GREY)
    )
    axes.add_patch(mpl.patches.Circle((-half, 0), 8.0, facecolor=SKIN, edgecolor=GREY))
    axes.plot([-2 * half - 21, 24], [a, a], color=BLACK, lw=5, solid_capstyle="round", zorder=1)
    axes.text(-half - 20, a + 1.2, "the bar", ha="center")
    axes.text(-half, -4.5, "head", ha="center", va="center", fontsize=10)


def stage():
    """Trunk, bar, and an arrow from the shoulder to each line of pull."""
    half, a = 100 * CLIENT.gh_breadth / 2, 100 * PULL.line_offset(CLIENT)
    height, right, up, key = LAYOUT[at_projector()]
    with mpl.rc_context(STYLE):
        figure = new_figure(9.6, height)
        axes = figure.add_axes([0.01, 0.02, 0.98, 0.96])
        body(axes, half, a)
        for (x, down), (grip, (w, _)) in zip(key, LINES.items(), strict=True):
            colour, marker, style = LOOKS[grip]
            axes.plot([0, 100 * w], [0, a], color=colour, lw=3, ls=style, zorder=4)
            axes.plot(100 * w, a, marker, color=colour, ms=11, zorder=5)
            axes.text(100 * w, a + 2.0, f"{grip:.1f} ×", ha="center", fontweight="bold", zorder=6)
            axes.plot([x, x + 5], [a - down] * 2, color=colour, lw=3, ls=style, marker=marker, ms=9)
            words = f"{grip:.1f} ×:  {np.hypot(100 * w, a):.1f} cm, {degrees_out(w, LINES[grip][1])}"
            axes.text(x + 7, a - down, words, va="center")
        axes.plot([0, 15], [0, 15], color=GREY, lw=1.3, ls=(0, (2, 2)), zorder=2)
        axes.text(15.4, 15.6, f"w = a at {CROSSING:.2f} ×", ha="left", va="bottom", color="#555555")
        axes.plot([0, 0], [-9.0, 0], color=GREY, lw=1, ls=":", zorder=2)
        axes.plot([0, 100 * LINES[2.0][0]], [-6.5, -6.5], color=PURPLE, lw=3.5, marker="|", ms=11, mew=1.6)
        axes.text(50 * LINES[2.0][0], -7.6, "w at 2.0 ×", ha="center", va="top", fontweight="bold")
        axes.plot([26, 26], [0, a], color=PURPLE, lw=3.5, marker="_", ms=11, mew=1.6)
        axes.text(25.4, a / 2, "a", ha="right", va="center", fontweight="bold")
        axes.plot(0, 0, "o", color=BLACK, ms=9, zorder=6)
        axes.text(1.2, -1.0, "shoulder", ha="left", va="top")
        axes.set(xlim=(-2 * half - 24, right), ylim=up, aspect="equal")
        axes.set_axis_off()
        return Stage(figure)
