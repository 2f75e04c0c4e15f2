"""Where each pull takes the lat in its range of lengths, with the blade held and travelling, and where its torque is asked."""

import matplotlib as mpl
import numpy as np

from shoulder_model import Lifter, coverage, pulls
from shoulder_model.draw.look import BLACK, BLUE, LETTERS, PALE, SMALL, STYLE, VERMILLION, at_projector, new_figure
from shoulder_model.draw.stage import Stage

LIFTER = Lifter.average("men")
HELD = {name: coverage(LIFTER, pull.change(girdle_travel=0.0)) for name, pull in pulls.items()}
FREE = {name: coverage(LIFTER, pull) for name, pull in pulls.items()}
LAYOUT = {  # at projector size? -> where things stand, across in %
    False: {  # on a page
        "axes": [0.20, 0.12, 0.60, 0.78], "letters": LETTERS, "shares": (185, 212), "asked": (198, -1.35),
        "key": (-58, "bar: blade held; line: it travels", "left"),
    },
    True: {  # at projector size
        "axes": [0.275, 0.16, 0.545, 0.72], "letters": SMALL, "shares": (191, 227), "asked": (195, -1.55),
        "key": (-63, "bar: blade held\nline: it travels", "right"),
    },
}  # fmt: skip
ORDER = sorted(HELD, key=lambda name: -float(HELD[name].longest + HELD[name].shortest))


def percents(one):
    """Shortest, longest and the share asked in the longer half. [%]"""
    return tuple(100 * float(one[key]) for key in ("shortest", "longest", "asked_when_long"))


WORDS = (
    "Twelve pulls on the range of lengths of the lat's middle part, 0 % shortest to 100 % longest with the arm raised to 150° "
    "and the shoulder blade held: a bar with the blade held, a line with the blade travelling, and the share of the torque "
    "asked in the longer half. "
    + " ".join(
        "{}: held {:.0f} to {:.0f} %, {:.0f} % of the torque; travelling {:.0f} to {:.0f} %, {:.0f} %.".format(
            name.capitalize(), *percents(HELD[name]), *percents(FREE[name])
        )
        for name in ORDER
    )
)


def row_of(axes, row, name, places):
    """One pull: bar, line and both shares."""
    (low, high, held), (lowest, highest, free) = percents(HELD[name]), percents(FREE[name])
    axes.barh(row, high - low, left=low, height=0.5, color=BLUE)
    axes.plot([lowest, highest], [row, row], color=VERMILLION, lw=2, marker="|", ms=11, mew=2.2, zorder=3)
    for x, share in zip(places, (held, free), strict=True):
        axes.text(x, row, f"{share:3.0f} %", va="center", ha="right", fontweight="bold")


def stage():
    """One row a pull, longest at the top."""
    here = LAYOUT[at_projector()]
    with mpl.rc_context(STYLE | dict.fromkeys(("font.size", "axes.labelsize"), here["letters"])):
        figure = new_figure(11.2, 5.2)
        axes = figure.add_axes(here["axes"])
        for row, name in enumerate(ORDER):
            row_of(axes, row, name, here["shares"])
        axes.axvspan(50, 100, color=PALE, alpha=0.5, zorder=0)
        axes.axvline(50, color=BLACK, lw=1, ls=":")
        axes.text(75, -0.75, "longer half", ha="center", va="bottom")
        axes.text(*here["asked"], "torque asked there", ha="center", va="bottom")
        for x, words, colour in zip(here["shares"], ("held", "travels"), (BLUE, VERMILLION), strict=True):
            axes.text(x, -0.75, words, ha="right", va="bottom", color=colour)
        left, words, side = here["key"]
        axes.text(left, -0.75, words, ha=side, va="bottom")
        axes.set_yticks(np.arange(len(ORDER)), ORDER, fontsize=here["letters"])
        axes.set(xlim=(-58, 162), ylim=(len(ORDER) - 0.4, -0.6))
        axes.set_xlabel("length of the lat's middle part, % of its range with the blade held")
        axes.set_xticks([-50, 0, 50, 100, 150])
        axes.tick_params(axis="y", length=0)
        return Stage(figure)
