"""A muscle that pulls flat along the bone passes close to the joint: the deltoid of an outstretched arm."""

import matplotlib as mpl
import numpy as np

from shoulder_model.draw.look import BLACK, BLUE, GREY, SKIN, STYLE, VERMILLION, new_figure
from shoulder_model.draw.stage import Stage
from shoulder_model.mechanics import joint_force, needed_torque, tension_to_hold

ANGLE, AT, CENTRE = np.radians(15.0), 0.12, 0.24  # rad, m, m; Physics: Principles with Applications, 7th ed., ch. 9
WEIGHT = np.array([0.0, -3.3 * 9.80, 0.0])
ARM = AT * np.sin(ANGLE)
TENSION = float(tension_to_hold(needed_torque([np.array([CENTRE, 0.0, 0.0])], [WEIGHT])[2], ARM))
LINE = np.array([-np.cos(ANGLE), np.sin(ANGLE), 0.0])
JOINT = joint_force([WEIGHT], TENSION, LINE)
BELOW = float(np.degrees(np.arctan2(-JOINT[1], JOINT[0])))
WORDS = (
    f"An outstretched arm of {-WEIGHT[1]:.0f} N, its centre {100 * CENTRE:.0f} cm from the shoulder. The deltoid is fixed "
    f"{100 * AT:.0f} cm down the bone and pulls {np.degrees(ANGLE):.0f}° off it, so its line passes the joint at only "
    f"{100 * ARM:.1f} cm. It pulls with {TENSION:.0f} N; the socket presses the arm outward and down with "
    f"{np.hypot(*JOINT[:2]):.0f} N, {BELOW:.1f}° below horizontal."
)
PER_NEWTON = 0.15 / 250  # m on the picture


def arrow(axes, start, force, colour, width=4.5):
    """A force to scale from ``start``; returns its tip."""
    tip = np.asarray(start) + PER_NEWTON * np.asarray(force[:2])
    head = {"arrowstyle": "-|>", "color": colour, "lw": width, "mutation_scale": 18, "shrinkA": 0, "shrinkB": 0}
    axes.annotate("", tip, start, arrowprops=head, zorder=6)
    return tip


def stage():
    """The arm cut free, the deltoid's line prolonged to show its distance."""
    with mpl.rc_context(STYLE):
        figure = new_figure(9.2, 3.1)
        axes = figure.add_axes([0.0, 0.0, 1.0, 1.0])
        axes.set(xlim=(-0.17, 0.60), ylim=(-0.145, 0.1144))
        axes.set_axis_off()
        axes.add_patch(mpl.patches.Rectangle((0, -0.012), 0.56, 0.024, facecolor=SKIN, edgecolor=BLACK, zorder=2))
        foot = ARM * np.array([np.sin(ANGLE), np.cos(ANGLE)])
        far = np.array([AT, 0.0]) + 0.28 * LINE[:2]
        axes.plot([AT, far[0]], [0.0, far[1]], color=GREY, lw=1.2, ls=":", zorder=3)
        axes.plot([0, foot[0]], [0, foot[1]], color=BLACK, lw=4, zorder=8)
        axes.plot(0, 0, "o", color="white", mec=BLACK, mew=2, ms=11, zorder=9)
        tip = arrow(axes, (AT, 0.0), TENSION * LINE, VERMILLION)
        axes.text(tip[0], tip[1] + 0.022, f"deltoid {TENSION:.0f} N", color=VERMILLION, fontweight="bold", ha="center")
        axes.annotate(
            f"muscle moment arm $r$ = {100 * ARM:.1f} cm", 0.6 * foot, (0.05, 0.088), va="center", ha="left", parse_math=True,
            arrowprops={"arrowstyle": "-", "color": BLACK, "lw": 1}, zorder=9,
        )  # fmt: skip
        tip = arrow(axes, (0.0, 0.0), JOINT, BLUE)
        axes.text(
            0.015, tip[1] - 0.012, f"socket {np.hypot(*JOINT[:2]):.0f} N,\n{BELOW:.1f}° below horizontal", color=BLUE,
            fontweight="bold", va="top", ha="left",
        )  # fmt: skip
        tip = arrow(axes, (CENTRE, 0.0), WEIGHT, BLACK, 3.0)
        axes.text(CENTRE + 0.012, tip[1] - 0.004, f"arm {-WEIGHT[1]:.0f} N", fontweight="bold", va="center")
        axes.plot([0, CENTRE], [-0.12, -0.12], color=BLACK, lw=2.2, marker="|", ms=10, mew=1.8)
        for x in (0.0, CENTRE):
            axes.plot([x, x], [-0.012, -0.12], color=GREY, lw=1, ls=":", zorder=1)
        axes.text(CENTRE + 0.012, -0.12, f"load moment arm $d$ = {100 * CENTRE:.0f} cm", va="center", parse_math=True)
        axes.text(-0.02, 0.0, "shoulder", ha="right", va="top")
        return Stage(figure)
