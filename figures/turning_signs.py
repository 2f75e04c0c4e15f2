"""Which side of the elbow the load's line passes decides which muscle holds: flexors, none, extensors."""

import matplotlib as mpl
import numpy as np

from shoulder_model import Lifter
from shoulder_model.draw.look import BLUE, LETTERS, STYLE, VERMILLION, at_projector, new_figure
from shoulder_model.draw.side_views import HeldView
from shoulder_model.draw.stage import Stage
from shoulder_model.mechanics import held_weight

LIFTER = Lifter.average("men")
BENDS = (45, 90, 135)
HELD = {bend: held_weight(LIFTER, 5.0, np.radians(90), np.radians(bend), arm_weight=False) for bend in BENDS}
TORQUE = {bend: float(held.elbow_flexion_torque) for bend, held in HELD.items()}
AWAY = {bend: float(100 * held.load_distance[1]) for bend, held in HELD.items()}


def side(bend):
    """Where the line passes, who holds, and with which sign and colour."""
    if AWAY[bend] > 0.05:
        return f"passes {AWAY[bend]:.0f} cm in front of it", "flexors hold", f"+{TORQUE[bend]:.1f} N m", VERMILLION
    if AWAY[bend] < -0.05:
        return f"passes {-AWAY[bend]:.0f} cm behind it", "extensors hold", f"−{-TORQUE[bend]:.1f} N m", BLUE
    return "runs through the joint", "no muscle needed", "0 N m", "#555555"


WORDS = (
    "An arm from the side three times, upper arm level ahead, 5 kg in the hand, the arm itself weightless. "
    + " ".join(
        f"Elbow bent {bend}°: the load's line {side(bend)[0]}, {side(bend)[1]}, elbow torque {side(bend)[2]}."
        for bend in BENDS
    )
)
LAYOUT = {  # at projector size? -> height of the sheet [inch], bottom and height of the views, letters above them [points]
    False: (4.0, 0.18, 0.70, LETTERS + 1),
    True: (4.69, 0.19, 0.66, LETTERS),
}


def turn(axes, centre, colour, way):
    """An arrow round the elbow, the way the muscles have to turn the forearm."""
    angle = np.radians(np.linspace(205, 335, 30))[:: int(np.sign(way))]
    arc = centre + 0.13 * np.column_stack([np.cos(angle), np.sin(angle)])
    axes.plot(*arc[:-3].T, color=colour, lw=3, zorder=8)
    arrow = {"arrowstyle": "-|>", "color": colour, "lw": 3, "mutation_scale": 20, "shrinkA": 0, "shrinkB": 0}
    axes.annotate("", arc[-1], arc[-4], arrowprops=arrow, zorder=8)


def stage():
    """Three elbows side by side, sign and muscle below."""
    height, low, high, letters = LAYOUT[at_projector()]
    with mpl.rc_context(STYLE):
        figure = new_figure(10.4, height)
        for i, bend in enumerate(BENDS):
            where, who, sign, colour = side(bend)
            axes = figure.add_axes([0.005 + 0.333 * i, low, 0.322, high])
            view = HeldView(axes, limits=(-0.30, 0.75, -0.38, 0.42))
            view.show(LIFTER, HELD[bend])
            view.title.set_text("")
            view.tape.hide()
            elbow, hand = HELD[bend].posture.elbow[:2], HELD[bend].posture.hand[:2]
            view.pull.show(hand, np.array([hand[0], -0.26]))
            view.elbow_tape.show(elbow, (hand[0], elbow[1]), (0.0, 0.0), view.window)
            view.elbow_tape.words.hide()
            view.axes.set_title(f"elbow bent {bend}°: the line\n{where}", pad=5, fontsize=letters)
            if TORQUE[bend] ** 2 > 0.01:
                turn(view.axes, elbow, colour, TORQUE[bend])
            view.axes.text(
                0.5, -0.05, f"{sign}\n{who}", ha="center", va="top", color=colour, fontsize=LETTERS + 2,
                fontweight="bold", linespacing=1.35, transform=view.axes.transAxes,
            )  # fmt: skip
        return Stage(figure)
