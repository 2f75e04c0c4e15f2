"""A level forearm cut free at the elbow: four forces to one scale, and how far each line passes the joint."""

import matplotlib as mpl
import numpy as np

from shoulder_model.draw.look import BLACK, BLUE, GREY, LETTERS, SKIN, STYLE, VERMILLION, at_projector, new_figure
from shoulder_model.draw.stage import Stage
from shoulder_model.mechanics import joint_force, needed_torque, tension_to_hold

G, DOWN, AHEAD = 9.80, np.array([0.0, -1.0, 0.0]), np.array([1.0, 0.0, 0.0])
MUSCLE_AT, OWN_AT, LOAD_AT = 0.0400, 0.160, 0.380  # m; OpenStax College Physics
OWN, LOAD = 2.50 * G * DOWN, 4.00 * G * DOWN
TENSION = float(tension_to_hold(needed_torque([OWN_AT * AHEAD, LOAD_AT * AHEAD], [OWN, LOAD])[2], MUSCLE_AT))
JOINT = float(joint_force([OWN, LOAD], TENSION, -DOWN)[1])
WORDS = (
    "A level forearm cut free at the elbow, all four forces to one scale. "
    f"Muscle {TENSION:.0f} N up, {100 * MUSCLE_AT:.0f} cm from the joint; own weight {-OWN[1]:.1f} N down at "
    f"{100 * OWN_AT:.0f} cm; load {-LOAD[1]:.1f} N down at {100 * LOAD_AT:.0f} cm; joint {-JOINT:.0f} N down at the joint itself."
)
DARK = "#555555"
ACROSS = {  # at projector size? -> left and right end of the picture [m]
    False: (-0.05, 0.545),
    True: (-0.08, 0.625),
}
PER_NEWTON = 0.155 / 470  # m on the picture
FORCES = {  # words -> place, force up, colour, width of the arrow
    "muscle": (MUSCLE_AT, TENSION, VERMILLION, 4.5),
    "joint": (0.0, JOINT, BLUE, 4.5),
    "own weight": (OWN_AT, OWN[1], DARK, 3.0),
    "load": (LOAD_AT, LOAD[1], BLACK, 3.0),
}


def arrow(axes, name):
    """One force with its number beside its tip."""
    x, force, colour, width = FORCES[name]
    y = 0.013 * np.sign(force)
    head = {"arrowstyle": "-|>", "color": colour, "lw": width, "mutation_scale": 17, "shrinkA": 0, "shrinkB": 0}
    axes.annotate("", (x, y + force * PER_NEWTON), (x, y), arrowprops=head, zorder=5)
    digits = 0 if abs(force) > 100 else 1
    lift = -0.013 if abs(force) < 100 else 0.8 * force * PER_NEWTON
    axes.text(
        x + 0.012, y + lift, f"{name} {abs(force):.{digits}f} N", color=colour, va="center", fontweight="bold",
        fontsize=LETTERS + 1,
    )  # fmt: skip


def distance(axes, x, y, words, colour):
    """How far one line passes the joint."""
    axes.plot([x, x], [0.013, y], color=GREY, lw=1, ls=":", zorder=1)
    axes.plot([0, x], [y, y], color=colour, lw=2.2, marker="|", ms=10, mew=1.8, zorder=6)
    axes.text(x + 0.006, y, words, va="center", ha="left", fontsize=LETTERS, parse_math=True)


def stage():
    """The free body, its distances below."""
    with mpl.rc_context(STYLE):
        figure = new_figure(9.2, 4.6)
        axes = figure.add_axes([0.0, 0.0, 1.0, 1.0])
        axes.set(xlim=ACROSS[at_projector()], ylim=(-0.220, 0.172))
        axes.set_axis_off()
        axes.add_patch(mpl.patches.Rectangle((0, -0.013), 0.40, 0.026, facecolor=SKIN, edgecolor=BLACK, zorder=3))
        axes.plot(0, 0, "o", color="white", mec=BLACK, mew=2, ms=11, zorder=7)
        axes.text(-0.012, 0.0, "elbow", ha="right", va="center")
        for name in FORCES:
            arrow(axes, name)
        axes.plot([0, 0], [-0.013, -0.212], color=GREY, lw=1, ls=":", zorder=1)
        axes.plot([0, MUSCLE_AT], [0.030, 0.030], color=VERMILLION, lw=2.2, marker="|", ms=10, mew=1.8, zorder=6)
        axes.text(
            MUSCLE_AT + 0.012, 0.032, f"muscle moment arm $r$ = {100 * MUSCLE_AT:.0f} cm", va="center", parse_math=True
        )
        for x, y, name in ((OWN_AT, -0.178, "own weight"), (LOAD_AT, -0.206, "load")):
            distance(axes, x, y, f"load moment arm $d$ = {100 * x:.0f} cm", FORCES[name][2])
        return Stage(figure)
