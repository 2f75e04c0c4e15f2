"""From above: three grips of one bar, and how far and in which direction the line of pull runs from the shoulder."""

import matplotlib as mpl
import numpy as np

from shoulder_model import Lifter, pulls
from shoulder_model.draw.look import BLACK, BLUE, GREEN, GREY, PURPLE, SKIN, STYLE, TRUNK, VERMILLION, new_figure
from shoulder_model.draw.stage import Stage

CLIENT = Lifter.from_measures("women", stature=1.68, mass=64.0, biacromial=0.372)
PULL = pulls["front pulldown"].change(trunk_lean=0.0, load_kg=30.0)
LOOKS = {1.0: (VERMILLION, "s"), 1.5: (GREEN, "^"), 2.0: (BLUE, "o")}
LINES = {grip: (PULL.change(grip_ratio=grip).hand_offset(CLIENT), PULL.line_offset(CLIENT)) for grip in LOOKS}
WORDS = "A lifter from above, trunk upright, under an overhead bar. " + " ".join(
    f"Grip {grip:.1f} times: the line of pull passes the shoulder {100 * np.hypot(w, a):.0f} cm away, "
    f"{np.degrees(np.arctan2(w, a)):.0f}° out from straight ahead."
    for grip, (w, a) in LINES.items()
)


def stage():
    """Trunk, bar, and an arrow from the shoulder to each line of pull."""
    half = 100 * CLIENT.gh_breadth / 2
    with mpl.rc_context(STYLE):
        figure = new_figure(8.8, 2.3)
        axes = figure.add_axes([0.01, 0.02, 0.98, 0.96])
        axes.add_patch(
            mpl.patches.Ellipse((-half, 0), 2 * half, 100 * CLIENT.chest_depth * 0.8, facecolor=TRUNK, edgecolor=GREY)
        )
        axes.add_patch(mpl.patches.Circle((-half, 1), 8.5, facecolor=SKIN, edgecolor=GREY))
        a = 100 * PULL.line_offset(CLIENT)
        axes.plot([-2 * half - 21, 24], [a, a], color=BLACK, lw=5, solid_capstyle="round", zorder=1)
        axes.text(-half, a + 1.3, "the bar", ha="center")
        for grip, (w, _) in LINES.items():
            colour, marker = LOOKS[grip]
            axes.annotate(
                "", (100 * w, a), (0, 0), arrowprops={"arrowstyle": "-|>", "color": colour, "lw": 2.5}, zorder=4
            )
            axes.plot(100 * w, a, marker, color=colour, ms=10, zorder=5)
            axes.text(100 * w, a + 2.2, f"{grip:.1f} ×", color=colour, ha="center", fontweight="bold")
            axes.text(
                28, a - 1 - 4.2 * (grip - 1) / 0.5,
                f"{grip:.1f} ×:  {np.hypot(100 * w, a):.1f} cm, {np.degrees(np.arctan2(100 * w, a)):.0f}° out", color=colour,
                fontweight="bold",
            )  # fmt: skip
        widest = 100 * LINES[2.0][0]
        axes.plot([0, 0], [0, a], color=PURPLE, lw=3, zorder=2)
        axes.text(-0.8, a / 2, "a", ha="right", va="center", fontweight="bold")
        axes.plot([0, widest], [0, 0], color=PURPLE, lw=3, zorder=2)
        axes.text(2, -0.9, "w of the widest grip", ha="left", va="top", fontweight="bold")
        axes.plot(0, 0, "o", color=BLACK, ms=8, zorder=6)
        axes.text(-1.5, -1.2, "shoulder", ha="right", va="top", fontsize=10)
        axes.set(xlim=(-2 * half - 24, 60), ylim=(-12, 18), aspect="equal")
        axes.set_axis_off()
        return Stage(figure)
