"""Every pull of the catalogue, from overhead to down: its load moment arm in three directions."""

import matplotlib as mpl
import numpy as np

from shoulder_model import Lifter, pulls, rep
from shoulder_model.draw.look import AXIS_LOOK, BLACK, STYLE, new_figure
from shoulder_model.draw.stage import Stage

LIFTER = Lifter.average("men")
HATCH = {"adduction": "", "extension": "///", "horizontal_abduction": "..."}


def arms(pull):
    """Load moment arms (3,) [cm]: the torque of one newton; an arc counts at its largest."""
    one = rep(LIFTER, pull, arm_weight=False)
    torque = one.shoulder_torque.values / float(one.force)
    return 100 * torque[np.linalg.norm(torque, axis=1).argmax()]


ROWS = sorted(pulls.values(), key=lambda pull: (round(float(pull.pull_angle), 6), pull.name))
ARMS = np.array([arms(pull) for pull in ROWS])
WORDS = "Load moment arms of twelve pulls for the survey's mean man, sorted by pull angle. " + " ".join(
    f"{pull.name}, {np.degrees(pull.pull_angle):.0f}°: adduction {add:.0f}, extension {ext:.0f}, horizontal abduction {hor:.0f} cm."
    for pull, (add, ext, hor) in zip(ROWS, np.round(ARMS) + 0.0, strict=True)
)


def stage():
    """Three bars a pull, drawn from the top."""
    with mpl.rc_context(STYLE):
        figure = new_figure(11.2, 6.4)
        axes = figure.add_axes([0.29, 0.10, 0.69, 0.80])
        at = np.arange(len(ROWS))
        for i, (name, (colour, _, _, words)) in enumerate(AXIS_LOOK.items()):
            axes.barh(
                at - 0.27 + 0.27 * i, ARMS[:, i], 0.25, color=colour, hatch=HATCH[name], edgecolor="white", label=words
            )
        axes.axvline(0, color=BLACK, lw=1)
        axes.set_yticks(at, [f"{pull.name}  {np.degrees(pull.pull_angle):.0f}°" for pull in ROWS], fontsize=12)
        axes.set(ylim=(len(ROWS) - 0.4, -0.6), xlim=(-17, 64), xlabel="load moment arm at one shoulder [cm]")
        axes.grid(axis="x", color="#eeeeee")
        axes.set_axisbelow(True)
        axes.tick_params(axis="y", length=0)
        figure.legend(loc="upper right", ncols=3, bbox_to_anchor=(0.985, 0.99), fontsize=12)
        return Stage(figure)
