"""How well one muscle's torque points the way a pull asks: all three axes, along the rep."""

import matplotlib as mpl
import numpy as np

from shoulder_model import Lifter, pulls, rep
from shoulder_model.draw.look import BLACK, BLUE, GREEN, STYLE, VERMILLION, at_projector, new_figure
from shoulder_model.draw.stage import Stage

LIFTER = Lifter.average("men")
LOOKS = {
    "latissimus dorsi middle": (BLUE, "-", "middle lat"),
    "teres major": (VERMILLION, "--", "teres major"),
    "deltoid posterior": (GREEN, "-.", "rear deltoid"),
}
SHOWN = ("front pulldown", "seated row close", "seated row wide")


def alignment(pull, muscle):
    """Cosine between the torque a muscle gives and the torque a pull asks, along the rep. (point,)"""
    one = rep(LIFTER, pull, arm_weight=False)
    asked, given = one.shoulder_torque.values, one.muscle_moment_arm.sel(muscle=muscle).values
    return np.sum(asked * given, axis=1) / np.linalg.norm(asked, axis=1) / np.linalg.norm(given, axis=1)


FOUND = {name: {muscle: alignment(pulls[name], muscle) for muscle in LOOKS} for name in SHOWN}
WORDS = "Cosine between the torque a muscle gives and the torque a pull asks, along three pulls. " + " ".join(
    f"{name.capitalize()}, after a quarter and halfway: "
    + ", ".join(f"{LOOKS[muscle][2]} {cosines[10]:.2f} and {cosines[20]:.2f}" for muscle, cosines in found.items())
    + "."
    for name, found in FOUND.items()
)
LAYOUT = {  # at projector size? -> height of the sheet [inch], left edges of the axes, their width, bottom and height
    False: (3.6, (0.065, 0.38, 0.695), 0.285, 0.17, 0.62),
    True: (5.05, (0.105, 0.41, 0.715), 0.28, 0.18, 0.63),
}


def stage():
    """Three small panels with the same axes."""
    height, lefts, wide, low, high = LAYOUT[at_projector()]
    with mpl.rc_context(STYLE):
        figure = new_figure(11.2, height)
        for i, (name, found) in enumerate(FOUND.items()):
            axes = figure.add_axes([lefts[i], low, wide, high])
            for muscle, cosines in found.items():
                colour, style, words = LOOKS[muscle]
                axes.plot(np.linspace(0, 100, 41), cosines, color=colour, ls=style, lw=2.5, label=words)
            axes.axhline(0, color=BLACK, lw=0.8)
            axes.set(xlim=(0, 100), ylim=(-1.05, 1.05), xlabel="along the rep [%]", title=name)
            axes.grid(color="#eeeeee")
            axes.tick_params(labelleft=i == 0)
            axes.set_xticks([0, 25, 50, 75])
            if i == 0:
                axes.set_ylabel("fit, 1 = same way")
                figure.legend(*axes.get_legend_handles_labels(), loc="upper center", ncols=3, fontsize=11.5)
        return Stage(figure)
