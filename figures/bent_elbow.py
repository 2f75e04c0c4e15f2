"""Shoulder torque against elbow flexion at three heights of the upper arm: bending helps only when the arm is high."""

import matplotlib as mpl
import numpy as np

from shoulder_model import Lifter
from shoulder_model.draw.look import BLUE, GREEN, STYLE, VERMILLION, at_projector, new_figure
from shoulder_model.draw.stage import Stage
from shoulder_model.mechanics import held_weight

LIFTER = Lifter.average("men")
FLEXION = np.arange(0, 144)
LOOKS = {  # degrees forward -> colour, line style, words, how far to lift them
    0: (BLUE, "-", "upper arm hangs", 0.9),
    45: (GREEN, "-.", "upper arm at 45°", -0.9),
    90: (VERMILLION, "--", "upper arm level", 0.0),
}
TORQUE = {
    up: held_weight(LIFTER, 5.0, np.radians(up), np.radians(FLEXION), arm_weight=False).shoulder_flexion for up in LOOKS
}
WORDS = (
    "Torque at the shoulder against elbow flexion for 5 kg in the hand, arm itself weightless; a dot where the forearm is "
    "level, the peak of each curve. "
    + " ".join(
        f"{words.capitalize()}: {abs(TORQUE[up][0]):.0f} N m with a straight elbow, peak {TORQUE[up].max():.0f} N m at "
        f"{TORQUE[up].argmax()}° of flexion, {TORQUE[up][90]:.0f} N m at 90°, {TORQUE[up][-1]:.0f} N m fully bent."
        for up, (_, _, words, _) in LOOKS.items()
    )
)
AXES = {  # at projector size? -> place of the axes
    False: [0.09, 0.16, 0.68, 0.78],
    True: [0.095, 0.18, 0.63, 0.78],
}


def stage():
    """Three curves, named at their ends."""
    with mpl.rc_context(STYLE):
        figure = new_figure(8.0, 3.6)
        axes = figure.add_axes(AXES[at_projector()])
        for up, (colour, style, words, lift) in LOOKS.items():
            torque = TORQUE[up]
            axes.plot(FLEXION, torque, color=colour, ls=style, lw=2.5)
            axes.plot(torque.argmax(), torque.max(), "o", color=colour, ms=8)
            axes.text(146, torque[-1] + lift, words, color=colour, va="center", fontweight="bold")
        axes.set(xlim=(0, 143), ylim=(0, 33), xlabel="elbow flexion [°]", ylabel="torque at the shoulder [N m]")
        axes.grid(color="#eeeeee")
        axes.plot(1.03, 0.91, "ko", ms=8, transform=axes.transAxes, clip_on=False)
        axes.text(1.05, 0.91, "forearm level", va="center", transform=axes.transAxes)
        return Stage(figure)
