"""The grip panel as it moves: the hands go out along the bar, the bar comes down, the trunk stays."""

import io
from textwrap import wrap

import matplotlib as mpl
import numpy as np
from matplotlib.figure import Figure
from PIL import Image

from shoulder_model.draw.look import BLACK, BLUE, GREY, STYLE
from shoulder_model.panels import GripPanel

DPI, WIDTH, HEAD = 80, 11.2, 1.3  # dots an inch; the sheet's width and the words' height [inch]
WORDS_IN_LINE = 96  # letters of a verdict's line
QUICK, SLOW, REST = 0.12, 0.24, 2.0  # seconds that a picture stands
WIDE, NARROW = 2.0, 0.5  # grips between which the hands go [× shoulders]


def steps():
    """Grip [× shoulders], share of the rep [%] and seconds of each picture."""
    out, down = np.linspace(NARROW, WIDE, 16), np.linspace(0, 100, 11)
    yield from ((grip, 50.0, QUICK) for grip in out[:-1])
    yield WIDE, 50.0, REST
    yield from ((grip, 50.0, QUICK) for grip in out[::-1] if 1.5 < grip < WIDE)
    yield 1.5, 50.0, REST
    yield from ((1.5, share, SLOW) for share in down[down > 50])
    yield from ((1.5, share, SLOW) for share in down[:5])
    yield 1.5, 50.0, REST


def head(panel):
    """What stands above the picture: the verdict, and the two sliders that move."""
    figure = Figure(figsize=(WIDTH, HEAD), dpi=DPI, facecolor="white")
    axes = figure.add_axes([0, 0, 1, 1], xlim=(0, 1), ylim=(0, 1))
    axes.set_axis_off()
    verdict = "\n".join(wrap(panel.picture.said["verdict"], WORDS_IN_LINE))
    axes.text(0.008, 0.36, verdict, fontsize=14, fontweight="bold", va="center", linespacing=1.3)
    for slider, left, right in ((panel.sliders["grip_ratio"], 0.07, 0.38), (panel.along, 0.74, 0.92)):
        share = (slider.value - slider.min) / (slider.max - slider.min)
        at = left + share * (right - left)
        axes.text(left - 0.015, 0.82, slider.description, ha="right", va="center", fontsize=13)
        axes.plot([left, right], [0.82, 0.82], color=GREY, lw=3, solid_capstyle="round")
        axes.plot([left, at], [0.82, 0.82], color=BLUE, lw=4, solid_capstyle="round")
        axes.plot(at, 0.82, "o", color=BLUE, mec=BLACK, ms=11)
        shown = f"{slider.value:.{slider.digits}f} {slider.unit}"
        axes.text(right + 0.012, 0.82, shown, ha="left", va="center", fontsize=13, fontweight="bold")
    return picture_of(figure)


def picture_of(figure):
    """A matplotlib ``figure`` as an image."""
    store = io.BytesIO()
    figure.savefig(store, format="png", dpi=DPI)
    return Image.open(store).convert("RGB")


def film():
    """Images of one size, and the seconds that each stands."""
    panel = GripPanel("front pulldown")
    with mpl.rc_context(STYLE):
        for grip, share, seconds in steps():
            panel.sliders["grip_ratio"].value, panel.along.value = grip, share
            top, below = head(panel), picture_of(panel.stage.figure)
            image = Image.new("RGB", (top.width, top.height + below.height), "white")
            image.paste(top, (0, 0))
            image.paste(below, (0, top.height))
            yield image, seconds


WORDS = (
    "A film of the grip panel. First the hands go from half the shoulders' width to twice as wide, then the bar goes through "
    "a front pulldown at 1.5 times the shoulders' width. The sentence above the lifter says at each step what one shoulder "
    "must supply."
)
