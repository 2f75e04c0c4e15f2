"""What leaning back does to a front pulldown: three torques over the lean, the lifter drawn at four of them."""

import matplotlib as mpl
import numpy as np

import shoulder_model as sm
from shoulder_model.axes import AXES
from shoulder_model.draw.look import AXIS_LOOK, BLACK, GREY, STYLE, at_projector, new_figure
from shoulder_model.draw.scene import scene_of
from shoulder_model.draw.side_views import SideView
from shoulder_model.draw.stage import Stage
from shoulder_model.mechanics import tape_law_margin

LIFTER = sm.Lifter.average("men")
PULL = sm.pulls["front pulldown"].change(girdle_travel=0.0)
LEAN = np.arange(0.0, 90.5, 0.5)  # degrees
SHOWN = (0, 30, 60, 90)
GRID = sm.sweep(LIFTER, PULL, points=2, arm_weight=False, trunk_lean=np.radians(LEAN)).shoulder_torque.values[:, 0]
ADDUCTION, EXTENSION, ACROSS = GRID.T
FIRST = LEAN[np.argmax(ACROSS > ADDUCTION - 1e-9)]
SECOND = LEAN[np.argmax(ACROSS > EXTENSION)]
WORDS = (
    f"Shoulder torque of a front pulldown to the upper chest, 40 kg, grip {PULL.grip_ratio:.1f}, against trunk lean from 0° "
    "to 90° back, shoulder blade held, arm itself weightless. "
    + " ".join(
        f"At {lean}°: adduction {GRID[i, 0]:.0f}, extension {GRID[i, 1]:.0f}, horizontal abduction {GRID[i, 2]:.0f} N m."
        for lean in SHOWN
        for i in [np.argmax(lean == LEAN)]
    )
    + f" Horizontal abduction passes adduction at {FIRST:.0f}° and extension only at {SECOND:.0f}°."
)
LAYOUT = {  # at projector size? -> left edge and width of the curves, their bottom and height, bottom and height of the bodies
    False: (0.115, 0.66, 0.115, 0.46, 0.585, 0.40),
    True: (0.1, 0.575, 0.185, 0.445, 0.64, 0.36),
}


def bodies(figure, left, width, low, high):
    """The lifter from the side at each of `SHOWN`, standing over its place on the axis below."""
    size = 0.27
    for lean in SHOWN:
        view = SideView(
            figure.add_axes([left + width * lean / 90 - size / 2, low, size, high]), limits=(-0.95, 0.95, -0.64, 0.78)
        )
        pull = PULL.change(trunk_lean=np.radians(lean))
        view.show(scene_of(LIFTER, pull, sm.rep(LIFTER, pull, points=21), 13))
        view.tape.hide()
        view.force.hide()
        view.setting.steel.set_data([], [])
        view.title.set_text("")
        view.axes.set_axis_off()


def curves(axes):
    """Three curves with the tape's band, and the two crossings."""
    margin = np.array([tape_law_margin(PULL.force(LIFTER), angle) for angle in np.radians(LEAN)])
    for i, axis in enumerate(AXES):
        colour, style, marker, words = AXIS_LOOK[axis]
        axes.fill_between(LEAN, GRID[:, i] - margin[:, i], GRID[:, i] + margin[:, i], color=colour, alpha=0.14, lw=0)
        axes.plot(LEAN, GRID[:, i], color=colour, ls=style, lw=2.5, marker=marker, markevery=60, ms=7, clip_on=False)
        axes.text(92, GRID[-1, i], words, color=colour, va="center", fontweight="bold")
    for lean, curve, words, y in (
        (FIRST, ADDUCTION, "passes adduction", 4.0),
        (SECOND, EXTENSION, "passes extension", 27.5),
    ):
        level = curve[np.argmax(lean == LEAN)]
        axes.plot(lean, level, "o", mfc="none", mec=BLACK, ms=13, mew=1.8)
        axes.annotate(
            f"{words}\nat {lean:.0f}°", (lean, level), (lean, y), ha="center", va="center",
            arrowprops={"arrowstyle": "-", "color": GREY, "shrinkB": 8},
        )  # fmt: skip
    axes.set(xlim=(0, 90), ylim=(-1, 31), xticks=[0, 15, 30, 45, 60, 75, 90], xlabel="trunk lean [°], backward")
    axes.set_ylabel("shoulder torque [N m]")
    axes.grid(color="#eeeeee")


def stage():
    """Bodies above, curves below."""
    left, width, low, high, *bodies_at = LAYOUT[at_projector()]
    with mpl.rc_context(STYLE):
        figure = new_figure(11.2, 5.6)
        curves(figure.add_axes([left, low, width, high]))
        bodies(figure, left, width, *bodies_at)
        return Stage(figure)
