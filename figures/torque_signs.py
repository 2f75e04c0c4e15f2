"""The three shoulder torques that count positive, each as the way it turns a straight arm."""

import matplotlib as mpl
import numpy as np

from shoulder_model.draw.look import AXIS_LOOK, GREY, SKIN, STYLE, TRUNK, new_figure
from shoulder_model.draw.stage import Stage
from shoulder_model.mechanics import anatomical, raised_arm

WORDS = (
    "Three sketches of a right arm with an arrow each. From the front: adduction draws a raised arm down to the side. "
    "From the side: extension draws a raised arm down and back. From above: horizontal abduction draws an arm that "
    "points ahead out to the side."
)
TURN = np.radians(55)  # how far each arrow runs
VIEWS = {  # torque -> title, arm (elevation, plane) in degrees, horizontal and vertical axis of the view, their signs
    "adduction": ("from the front", (80, 0), (2, 1), (-1, 1)),
    "extension": ("from the side", (80, 90), (0, 1), (1, 1)),
    "horizontal_abduction": ("from above", (90, 80), (2, 0), (1, 1)),
}


def turned(arm, name, angle):
    """``arm`` (3,) turned by ``angle`` the way a positive torque called ``name`` turns it."""
    axis = np.array([anatomical(unit)[list(AXIS_LOOK).index(name)] for unit in np.eye(3)])
    return arm * np.cos(angle) + np.cross(axis, arm) * np.sin(angle) + axis * (axis @ arm) * (1 - np.cos(angle))


def sketch(axes, name):
    """One view: trunk, arm before and after, the arrow between."""
    title, (elevation, plane), (across, up), signs = VIEWS[name]
    colour, _, _, words = AXIS_LOOK[name]

    def seen(points):
        return np.atleast_2d(points)[:, [across, up]] * signs

    arm = -0.6 * raised_arm(*np.radians([elevation, plane]))[:, 1]
    path = np.array([turned(arm, name, angle) for angle in np.linspace(0, TURN, 30)])
    body = {
        "adduction": (0.19, -0.28, 0.17, 0.36),
        "extension": (0.0, -0.28, 0.13, 0.34),
        "horizontal_abduction": (-0.19, 0.0, 0.19, 0.12),
    }
    x, y, half, tall = body[name]
    axes.add_patch(mpl.patches.Ellipse((x, y), 2 * half, 2 * tall, facecolor=TRUNK, edgecolor=GREY))
    if name != "horizontal_abduction":
        axes.add_patch(mpl.patches.Circle((x, 0.20), 0.10, facecolor=TRUNK, edgecolor=GREY))
    else:
        axes.add_patch(mpl.patches.Circle((x, 0.02), 0.09, facecolor=TRUNK, edgecolor=GREY))
    for end, alpha in ((path[0], 1.0), (path[-1], 0.35)):
        axes.plot(*seen([np.zeros(3), end]).T, color=SKIN, lw=10, alpha=alpha, solid_capstyle="round", zorder=3)
    way = 0.86 * seen(path)
    axes.plot(*way[:-3].T, color=colour, lw=3, zorder=4)
    axes.annotate(
        "", way[-1], way[-4], arrowprops={"arrowstyle": "-|>", "color": colour, "lw": 3, "mutation_scale": 20}, zorder=5
    )
    axes.plot(0, 0, "ko", ms=5, zorder=6)
    bottom = -0.40 if name == "horizontal_abduction" else -0.70
    axes.set(xlim=(-0.72, 0.72), ylim=(bottom, bottom + 1.05), aspect="equal")
    axes.set_axis_off()
    axes.set_title(f"+ {words}\n{title}", color=colour, fontweight="bold", fontsize=13)


def stage():
    """Three views side by side."""
    with mpl.rc_context(STYLE):
        figure = new_figure(11.2, 3.4)
        for i, name in enumerate(VIEWS):
            sketch(figure.add_axes([0.02 + 0.33 * i, 0.01, 0.30, 0.82]), name)
        return Stage(figure)
