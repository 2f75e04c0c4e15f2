"""Torques against one swept field: a curve with its band each, the present values, a kept set-up."""

import numpy as np
from matplotlib.patches import Polygon

from ..words import with_margin
from .artists import label, moving
from .band_marks import BandMarks
from .look import AGAINST, AXIS_LOOK, BLACK, GREY, LETTERS, SMALL, by_sheet
from .steady_scale import SteadyScale

LABEL = 44  # points that numbers and their axis' name take to the left of the axes


class TorqueCurves:
    """Curves over ``x`` in surface units; above them, for each, its present value and what it is called on that side of zero.

    Parameters
    ----------
    axes : matplotlib.axes.Axes
    x_label, y_label : str
    x_limits : (float, float)
    looks : dict
        Name -> colour, line style, marker, words (`look.AGAINST` has those of a negative value).
    digits : int
        Behind the point of the values.
    unit : str
    below : int
        Steps of the scale under zero, 4 above it; 0 where nothing is negative.
    nothing : str
        Words for a value that there is none of.
    strip : str
        What the strips around the curves are, for the key of the bands.
    up : float
        How high that key stands. [points]
    """

    def __init__(
        self, axes, x_label, x_limits, y_label="shoulder torque, one side [N m]", looks=AXIS_LOOK, digits=0, unit="N m",
        below=2, *, nothing="none", strip="", up=8,
    ):  # fmt: skip
        self.axes, self.digits, self.unit, self.nothing = axes, digits, unit, nothing
        size = by_sheet(LETTERS, SMALL, SMALL)
        axes.set(xlim=x_limits)
        axes.set_xlabel(x_label, fontsize=size)
        axes.set_ylabel(y_label, labelpad=LABEL - 10, fontsize=size)
        axes.grid(axis="x", color="#e4e4e4")
        axes.spines["bottom"].set_visible(not below)
        self.scale = SteadyScale(axes, below=below)
        self.here = moving(axes, colour=BLACK, width=1, style=":", z=2)
        self.parts = [self._component(axes, len(looks) - i, *look) for i, look in enumerate(looks.values())]
        self.bands = BandMarks(axes, [look[0] for look in looks.values()], strip, up=up)

    @staticmethod
    def _component(axes, row, colour, style, marker, words):
        """Sample and value above the axes, and the artists on them."""
        pitch, lower, size, begin = by_sheet((17, 5, SMALL + 1.5, 0), *[(14, 3, SMALL, 8 - LABEL)] * 2)
        across, y = 1.0 / axes.bbox.width, 1.0 + (pitch * row - lower) / axes.bbox.height
        axes.plot(
            [begin * across, (begin + 12) * across, (begin + 24) * across], [y] * 3, color=colour, ls=style, marker=marker,
            markevery=[1], ms=6, lw=2, transform=axes.transAxes, clip_on=False,
        )  # fmt: skip
        value = label(axes, colour, transform=axes.transAxes, va="center", fontweight="bold")
        value.set_position(((begin + 31) * across, y))
        value.set_fontsize(size)
        band = axes.add_patch(Polygon([(0, 0)], facecolor=colour, alpha=0.16, lw=0, zorder=1.5, animated=True))
        curve = moving(axes, colour=colour, width=2, style=style, z=3)
        marks = {"width": 0, "style": "None", "marker": marker, "clip_on": False}
        now = moving(axes, colour=colour, markersize=9, z=5, **marks)
        kept = moving(axes, colour=GREY, markersize=10, z=4, markerfacecolor="none", markeredgewidth=2, **marks)
        return (words, AGAINST.get(words, words)), value, band, curve, now, kept

    def show(self, x, torque, margin, x_now, now, now_margin):
        """Move curves, bands and values.

        Parameters
        ----------
        x : ndarray, shape (n,)
        torque, margin : ndarray, shape (n, curve) [N m]
            NaN where there is no answer leaves a gap.
        x_now : float
        now, now_margin : ndarray, shape (curve,) [N m]
            NaN is written as ``nothing``.

        The bands of `show_bands` go.
        """
        self.bands.hide()
        for i, (names, value, band, curve, mark, _) in enumerate(self.parts):
            curve.set_data(x, torque[:, i])
            band.set_xy(_band(x, torque[:, i], margin[:, i]))
            mark.set_data([x_now], [now[i]])
            value.set_text(self._value(now[i], now_margin[i], names))
        kept = [part[-1].get_ydata() for part in self.parts]
        self.held = np.concatenate([*(torque + margin), *(torque - margin), *kept])
        self._scale(x_now)

    def _scale(self, x_now, *more):
        """Choose the scale for all that is shown."""
        self.scale.hold(np.concatenate([self.held, *(np.ravel(one) for one in more)]))
        self.here.set_data([x_now, x_now], self.axes.get_ylim())

    def show_bands(self, x_now, people, unknown, along=None):
        """Bars beside the present values, until the next `show`.

        Parameters
        ----------
        x_now : float
            Where the values stand.
        people, unknown : array_like, shape (curve, 2), or None [N m]
            Ends of the bars; None where there are none, NaN for a curve without.
        along : tuple, optional
            Number of one curve, places (n,) and ends (n, 2) of what is not known all along it.
        """
        shown = [band for band in (people, unknown, along and along[2]) if band is not None]
        self._scale(x_now, *shown)
        self.bands.show(x_now, people, unknown)
        if along:
            self.bands.show_edges(*along)

    def _value(self, now, margin, names):
        """A value with its margin, unless that rounds to nothing, and its name on this side of zero."""
        if not np.isfinite(now):
            return f"{self.nothing} {names[0]}".strip()
        shown = with_margin(abs(now) if names[1] != names[0] else now, margin, self.digits)
        return f"{shown} {self.unit} {names[0] if round(float(now), self.digits) >= 0 else names[1]}".strip()

    def keep(self):
        """Leave the present values as grey open marks."""
        for *_, now, kept in self.parts:
            kept.set_data(*now.get_data())

    def drop(self):
        """Take the grey marks away."""
        for *_, kept in self.parts:
            kept.set_data([], [])


def _band(x, middle, margin):
    known = np.isfinite(middle)
    x, upper, lower = x[known], (middle + margin)[known], (middle - margin)[known]
    return np.column_stack([np.r_[x, x[::-1]], np.r_[upper, lower[::-1]]])
