"""Where each pull works in the lat's span of lengths, from shortest to longest, and where its torque is asked."""

import matplotlib as mpl
import numpy as np

from shoulder_model import Lifter, coverage, pulls
from shoulder_model.draw.look import BLACK, BLUE, PALE, STYLE, new_figure
from shoulder_model.draw.stage import Stage

LIFTER = Lifter.average("men")
FOUND = {name: coverage(LIFTER, pull) for name, pull in pulls.items()}
ORDER = sorted(FOUND, key=lambda name: -float(FOUND[name].longest + FOUND[name].shortest))
WORDS = (
    "Twelve pulls as bars on the span of the lat's middle part, 0 % shortest to 100 % longest, with the share of the torque "
    "asked in the longer half. "
    + " ".join(
        f"{name}: {100 * float(one.shortest):.0f} to {100 * float(one.longest):.0f} %, {100 * float(one.work_when_long):.0f} % of the torque."
        for name, one in ((name, FOUND[name]) for name in ORDER)
    )
)


def stage():
    """One bar a pull, longest at the top."""
    with mpl.rc_context(STYLE):
        figure = new_figure(11.2, 4.9)
        axes = figure.add_axes([0.22, 0.13, 0.55, 0.80])
        for row, name in enumerate(ORDER):
            one = FOUND[name]
            low, high = 100 * float(one.shortest), 100 * float(one.longest)
            axes.barh(row, high - low, left=low, height=0.55, color=BLUE)
            axes.text(112, row, f"{100 * float(one.work_when_long):3.0f} %", va="center", ha="right", fontweight="bold")
        axes.axvspan(50, 100, color=PALE, alpha=0.5, zorder=0)
        axes.axvline(50, color=BLACK, lw=1, ls=":")
        axes.text(75, -0.95, "longer half", ha="center", va="bottom")
        axes.text(112, -0.95, "torque asked there", ha="center", va="bottom")
        axes.set_yticks(np.arange(len(ORDER)), ORDER, fontsize=11.5)
        axes.set(
            xlim=(-12, 102), ylim=(len(ORDER) - 0.4, -0.7), xlabel="length of the lat's middle part, % of its span"
        )
        axes.tick_params(axis="y", length=0)
        return Stage(figure)
