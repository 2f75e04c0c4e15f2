"""Colours, line styles and letter sizes that every picture shares.

Okabe-Ito colours, told apart by line style and marker too, never by colour alone; letters are as much darker
as they need (`readable`). Letters of 11.5
points in a picture 11.2 inches wide are 18 points on a projector 1,920 pixels across.
"""

import contextlib
from contextvars import ContextVar
from functools import cache

from matplotlib.colors import to_hex, to_rgb
from matplotlib.figure import Figure

from ..axes import OPPOSITE

BLACK, GREY, PALE = "#000000", "#8a8a8a", "#dddddd"
ORANGE, SKY, GREEN, BLUE, VERMILLION, PURPLE = "#E69F00", "#56B4E9", "#009E73", "#0072B2", "#D55E00", "#CC79A7"
SKIN, TRUNK, BONE = "#c9b8a8", "#ece6df", "#7a5c3a"
FAR_SKIN, LEGS, FAR_LEGS, SHOES, HAIR, EDGE = "#ddd2c8", "#b7c1cb", "#d3dae0", "#5f6770", "#75675b", "#5c534b"
STEEL, PAD, PLATE = "#b4bac0", "#6f7a85", "#4a5159"

AXIS_LOOK = {  # torque component -> colour, line style, marker, words
    "adduction": (BLUE, "-", "o", "adduction"),
    "extension": (VERMILLION, "--", "s", "extension"),
    "horizontal_abduction": (GREEN, "-.", "^", "horizontal abduction"),
}
ROTATION_LOOK = {"internal_rotation": (PURPLE, ":", "D", "internal rotation")}
AGAINST = {  # words of a component -> those of its negative
    **{words: OPPOSITE[axis] for axis, (_, _, _, words) in AXIS_LOOK.items()},
    "internal rotation": "external rotation",
    "retraction": "protraction",
    "depression": "elevation",
    "shoulder flexors": "shoulder extensors",
    "elbow flexors": "elbow extensors",
}
GIRDLE_LOOK = {"retraction": (VERMILLION, "--", "s", "retraction"), "depression": (BLUE, "-", "o", "depression")}
GROUP_LOOK = {  # muscle group of `repetition.GROUP_MUSCLES` -> its colour, readable on skin and shirt
    "lat": BLUE,
    "teres major": "#7b3294",
    "rear deltoid": VERMILLION,
    "mid-back": GREEN,
    "elbow flexors": "#9c2a5b",
    "pectoralis major": "#a07400",
    "front and side deltoid": "#4a2c17",
    "rotator cuff": "#5a6b00",
    "triceps": "#00524a",
    "serratus, pectoralis minor, others": "#4d4d4d",
}
LETTERS = 11.5  # points
SMALL = 10.0
STYLE = {
    "font.family": "DejaVu Sans",
    "font.size": LETTERS,
    "axes.titlesize": LETTERS,
    "axes.labelsize": LETTERS,
    "xtick.labelsize": SMALL,
    "ytick.labelsize": SMALL,
    "axes.spines.top": False,
    "axes.spines.right": False,
    "legend.frameon": False,
    "legend.fontsize": SMALL,
    "svg.fonttype": "none",
    "text.parse_math": False,  # a name may have $ in it
    "svg.hashsalt": "shoulder-model",
}


ENOUGH = 4.5  # contrast of letters with what is behind them: WCAG 2.2, success criterion 1.4.3
INK = 1.6  # a colour with less contrast to white is meant for letters on something dark


def contrast(one, other="white"):
    """Contrast of two colours (str), 1 to 21, as WCAG 2.2 defines it.

    >>> round(contrast("black"), 1)
    21.0
    """
    dark, bright = sorted(_luminance(colour) for colour in (one, other))
    return (bright + 0.05) / (dark + 0.05)


def _luminance(colour):
    red, green, blue = (c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in to_rgb(colour))
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


@cache
def readable(colour):
    """A ``colour`` (str or tuple) for letters on white: the same hue, as much darker as letters need; light ink stays.

    >>> readable(BLUE) == BLUE.lower(), readable("white"), contrast(readable(ORANGE)) >= ENOUGH
    (True, '#ffffff', True)
    """
    if contrast(colour) < INK:
        return to_hex(colour)
    shares = (1 - step / 100 for step in range(100))
    darker = (to_hex([share * part for part in to_rgb(colour)]) for share in shares)
    return next(one for one in darker if contrast(one) >= ENOUGH)


PROJECTOR = 1.6  # how much larger letters and lines are, against the picture, than on a page
PROJECTOR_SHAPE = 1240 / 560  # width over height of what a screen has for a picture, below title and clock
PHONE = 4.25  # inch, width of a sheet for a phone: in 322 pixels letters of 10 points are 10.5 of them
_sheet = ContextVar("sheet", default="page")  # the one place that says for what pictures are made now


@contextlib.contextmanager
def _made_for(sheet):
    before = _sheet.set(sheet)
    try:
        yield
    finally:
        _sheet.reset(before)


def projector():
    """Figures made inside are for a projector: the smallest letters are 18 points on a slide 13.33 inches wide.

    The same points stand on a smaller sheet, so a recipe that places its axes in shares of the figure may have to give labels
    more room; it asks `at_projector`.
    """
    return _made_for("projector")


def phone():
    """Figures made inside are for a phone: as wide as they say, `PHONE` inches for a panel's, and as tall as they need."""
    return _made_for("phone")


def at_projector():
    """Whether pictures are being made for a projector now."""
    return _sheet.get() == "projector"


def at_phone():
    """Whether pictures are being made for a phone now."""
    return _sheet.get() == "phone"


def by_sheet(page, projector, phone):
    """The one of three, of any kind, that belongs to what pictures are being made for now."""
    return {"page": page, "projector": projector, "phone": phone}[_sheet.get()]


def page_or_projector(page, projector):
    """``page``, or ``projector`` while pictures are being made for one; both of any kind. A phone has the page's."""
    return by_sheet(page, projector, page)


def new_figure(width=11.2, height=4.0):
    """A figure of its own (no pyplot), 72 dots an inch so that its pixels are SVG points.

    Parameters
    ----------
    width, height : float
        On a page; for a projector the sheet is as wide as any, and no taller than its screen. [inch]
    """
    if at_projector():
        height = min(height * 11.2 / width / PROJECTOR, 11.2 / PROJECTOR / PROJECTOR_SHAPE)
        width = 11.2 / PROJECTOR
    return Figure(figsize=(width, height), dpi=72, facecolor="white")
