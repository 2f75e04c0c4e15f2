"""One straight arm at three heights: its length stays, the distance of the load's line from the shoulder does not."""

import matplotlib as mpl
import numpy as np

from shoulder_model import Lifter
from shoulder_model.draw.look import LETTERS, STYLE, at_projector, new_figure
from shoulder_model.draw.side_views import HeldView
from shoulder_model.draw.stage import Stage
from shoulder_model.mechanics import held_weight

LIFTER = Lifter.average("men")
PLACES = {90: "level ahead", 45: "half-way down", 0: "hanging"}
HELD = {up: held_weight(LIFTER, 5.0, np.radians(up), 0.0, arm_weight=False) for up in PLACES}
AWAY = {up: abs(float(100 * held.load_distance[0])) for up, held in HELD.items()}
TORQUE = {up: abs(float(held.shoulder_flexion)) for up, held in HELD.items()}
WORDS = (
    f"The same straight arm, {100 * LIFTER.reach:.0f} cm long, with 5 kg in the hand, three times from the side; the "
    "load's line runs straight down from the hand. "
    + " ".join(
        f"Arm {words}: the line passes {AWAY[up]:.0f} cm from the shoulder, torque {TORQUE[up]:.1f} N m."
        for up, words in PLACES.items()
    )
)
LAYOUT = {  # at projector size? -> height of the sheet [inch], bottom and height of the views, letters below them [points]
    False: (4.2, 0.13, 0.78, LETTERS + 2),
    True: (4.69, 0.11, 0.80, LETTERS),
}


def stage():
    """Three lifters side by side, the distance in purple, torque below."""
    height, low, high, letters = LAYOUT[at_projector()]
    with mpl.rc_context(STYLE):
        figure = new_figure(10.4, height)
        for i, (up, words) in enumerate(PLACES.items()):
            axes = figure.add_axes([0.005 + 0.333 * i, low, 0.322, high])
            view = HeldView(axes, limits=(-0.40, 0.92, -0.90, 0.42))
            view.show(LIFTER, HELD[up])
            view.title.set_text("")
            view.elbow_tape.hide()
            hand = HELD[up].posture.hand
            view.tape.show((0.0, 0.0), (hand[0], 0.0), (0.0, 0.10), view.window)
            view.tape.words.hide()
            view.axes.set_title(f"arm {words}", pad=5, fontweight="bold", fontsize=LETTERS + 1)
            view.axes.text(
                0.20,
                0.14,
                f"$d$ = {AWAY[up]:.0f} cm",
                va="bottom",
                fontsize=LETTERS + 3,
                fontweight="bold",
                parse_math=True,
            )
            view.axes.text(
                0.5, -0.06, f"49 N × {AWAY[up]:.0f} cm = {TORQUE[up]:.1f} N m", ha="center", va="top",
                fontsize=letters, transform=view.axes.transAxes,
            )  # fmt: skip
        return Stage(figure)
