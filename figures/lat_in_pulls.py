"""The lat's lever along the rep of six pulls: the part of its moment arm that turns the arm the way the load asks."""

import matplotlib as mpl
import numpy as np

from shoulder_model import Lifter, pulls, rep
from shoulder_model.draw.look import (
    BLACK,
    BLUE,
    GREEN,
    GREY,
    ORANGE,
    PURPLE,
    SKY,
    STYLE,
    VERMILLION,
    at_projector,
    new_figure,
)
from shoulder_model.draw.stage import Stage

LIFTER = Lifter.average("men")
LAT = "latissimus dorsi middle"
LOOKS = {  # pull -> panel, colour, line style, marker
    "front pulldown": (0, BLUE, "-", "o"),
    "pull-up": (0, VERMILLION, "--", "s"),
    "close-grip pulldown": (0, GREEN, "-.", "^"),
    "seated row close": (1, PURPLE, "-", "D"),
    "one-arm row": (1, ORANGE, "--", "v"),
    "seated row wide": (1, SKY, "-.", "P"),
}
TITLES = "from overhead", "rows"
LAYOUT = {  # at projector size? -> height of the sheet [inch], places of both axes
    False: (4.4, ([0.07, 0.135, 0.44, 0.785], [0.545, 0.135, 0.44, 0.785])),
    True: (5.05, ([0.1, 0.185, 0.405, 0.725], [0.575, 0.185, 0.405, 0.725])),
}


def lever(pull):
    """The middle lat's moment arm along the torque that the load asks, over the rep. (point,) [mm]"""
    one = rep(LIFTER, pull, arm_weight=False, work=False)
    asked, arm = one.shoulder_torque.values, one.muscle_moment_arm.sel(muscle=LAT).values
    return 1000 * np.sum(asked * arm, axis=1) / np.linalg.norm(asked, axis=1)


FOUND = {name: lever(pulls[name]) for name in LOOKS}
HELD = lever(pulls["front pulldown"].change(girdle_travel=0.0))
WAY = np.linspace(0, 100, len(HELD))
WORDS = (
    "The lever of the lat's middle part along six pulls, in the direction in which the load asks the shoulder to pull. "
    + " ".join(
        f"{name.capitalize()}: {mm[0]:.0f} mm at the start, {mm[20]:.0f} halfway, {mm[40]:.0f} at the end, "
        f"largest {mm.max():.0f} at {WAY[mm.argmax()]:.0f} % of the way."
        for name, mm in FOUND.items()
    )
    + f" Front pulldown with the shoulder blade held: {HELD[0]:.0f}, {HELD[20]:.0f} and {HELD[40]:.0f} mm."
)


def curves(axes, panel):
    """Every pull of one panel, its largest lever ringed."""
    for name, (place, colour, style, marker) in LOOKS.items():
        if place == panel:
            mm = FOUND[name]
            best = mm.argmax()
            axes.plot(
                WAY, mm, color=colour, ls=style, lw=2.5, marker=marker, markevery=8, ms=7, label=name, clip_on=False
            )
            axes.plot(WAY[best], mm[best], "o", mfc="none", mec=BLACK, ms=14, mew=1.6, clip_on=False)
    if panel == 0:
        axes.plot(WAY, HELD, color=GREY, ls=":", lw=2, label="front pulldown, blade held")
    axes.axhline(0, color=BLACK, lw=0.8)
    axes.set(xlim=(0, 100), ylim=(-22, 56), xticks=[0, 25, 50, 75, 100])
    axes.set(xlabel="hand travel [%]", title=TITLES[panel])
    axes.grid(color="#eeeeee")
    axes.legend(loc="lower right" if panel == 0 else "upper right", labelspacing=0.3, handlelength=3.2)


def stage():
    """Pulls from overhead beside rows, on one scale."""
    height, places = LAYOUT[at_projector()]
    with mpl.rc_context(STYLE):
        figure = new_figure(11.2, height)
        for panel, place in enumerate(places):
            axes = figure.add_axes(place)
            curves(axes, panel)
            if panel == 0:
                axes.set_ylabel("lever of the middle lat [mm]")
        return Stage(figure)
