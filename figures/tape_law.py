"""One front pulldown, the shoulder blade held, at three heights of the hand: the two tape distances stay what they are."""

import matplotlib as mpl
import numpy as np

from shoulder_model import Lifter, pulls, rep
from shoulder_model.draw.facing_views import FrontView
from shoulder_model.draw.look import BLACK, GREY, PURPLE, STYLE, new_figure
from shoulder_model.draw.scene import scene_of
from shoulder_model.draw.side_views import SideView
from shoulder_model.draw.stage import Stage

CLIENT = Lifter.from_measures("women", stature=1.68, mass=64.0, biacromial=0.372)
PULL = pulls["front pulldown"].change(trunk_lean=0.0, load_kg=30.0, grip_ratio=1.5, girdle_travel=0.0)
REP = rep(CLIENT, PULL, arm_weight=False)
POINTS = (0, 20, 40)  # top, halfway, end
HALF, GRIP = CLIENT.gh_breadth / 2, PULL.grip_ratio * CLIENT.biacromial / 2
UP = [100 * float(REP.hand.sel(space="up")[i]) for i in POINTS]
W, A = float(REP.hand_offset[0]), float(REP.line_offset[0])
TOTAL = [float(np.linalg.norm(REP.shoulder_torque[i])) for i in POINTS]
WORDS = (
    "A lifter from the front and from the side in a front pulldown with the shoulder blade held, the arm at three heights of "
    "the hand: "
    f"{UP[0]:.0f}, {UP[1]:.0f} and {UP[2]:.0f} cm above the shoulder. At all three the line of pull runs w = {100 * W:.1f} cm "
    f"outside the shoulder, which is half the grip, {100 * GRIP:.1f} cm, less half the shoulders, {100 * HALF:.1f} cm; "
    f"and a = {100 * A:.1f} cm in front of it. So the load's torque at the shoulder is {TOTAL[0]:.1f}, {TOTAL[1]:.1f} and "
    f"{TOTAL[2]:.1f} N m."
)
PLACES = ("top", "halfway", "end")


def span(axes, start, end, y, words, colour=BLACK):
    """A length between two uprights, with its words outside it (w) or beyond its inner end."""
    own = colour == PURPLE
    axes.plot([start, end], [y, y], color=colour, lw=3.5 if own else 1.6, marker="|", ms=11, mew=1.6, zorder=8)
    axes.text(
        start - 0.03 if own else end + 0.03, y, words, ha="right" if own else "left", va="center",
        fontweight="bold" if own else "normal", zorder=9,
    )  # fmt: skip


def other_arms(axes, seen):
    """The arm at the top and at the end of the rep, in grey, and the height of the hand at all three."""
    for i in (POINTS[0], POINTS[2]):
        joints = [seen(*point) for point in (np.zeros(3), REP.elbow.values[i], REP.hand.values[i])]
        axes.plot(*np.transpose(joints), color=GREY, lw=3, marker="o", ms=5, alpha=0.75, zorder=3)


def front(view):
    """Half the grip, half the shoulders, and w between them."""
    axes = view.axes
    other_arms(axes, lambda *v: (-HALF - v[2], v[1]))
    for x, top in ((0.0, -0.52), (-HALF, 0.0), (-GRIP, 0.0)):
        axes.plot([x, x], [top, -0.68 if x != -HALF else -0.58], color=GREY, lw=1, ls=":", zorder=2)
    span(axes, -GRIP, -HALF, -0.30, f"w {100 * W:.1f} cm", PURPLE)
    span(axes, -HALF, 0, -0.58, f"½ shoulders {100 * HALF:.1f} cm")
    span(axes, -GRIP, 0, -0.68, f"½ grip {100 * GRIP:.1f} cm")


def side(view):
    """a, and the three heights in words."""
    axes = view.axes
    other_arms(axes, lambda *v: v[:2])
    for name, up in zip(PLACES, UP, strict=True):
        axes.text(A + 0.17, up / 100, f"{name}: {up:.0f} cm up", ha="left", va="center")
        axes.plot([A + 0.02, A + 0.155], [up / 100, up / 100], color=GREY, lw=1, ls=":", zorder=2)
    view.tape.show((0.0, 0.0), (A, 0.0), (0.0, -0.29), view.window)
    axes.text(A + 0.04, -0.29, f"a {100 * A:.1f} cm", ha="left", va="center", fontweight="bold", zorder=9)
    view.force.hide()
    view.setting.steel.set_data([], [])


def stage():
    """Front beside side."""
    with mpl.rc_context(STYLE):
        figure = new_figure(9.6, 5.2)
        for kind, place, limits, fill in (
            (FrontView, [0.01, 0.02, 0.44, 0.90], (-0.66, 0.66, -0.76, 0.70), front),
            (SideView, [0.46, 0.02, 0.53, 0.90], (-0.62, 0.97, -0.76, 0.70), side),
        ):
            view = kind(figure.add_axes(place), limits=limits)
            view.show(scene_of(CLIENT, PULL, REP, POINTS[1]))
            view.tape.hide()
            fill(view)
        return Stage(figure)
