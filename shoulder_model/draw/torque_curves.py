"""Torques against one swept field: a curve with its band each, the present values, a kept set-up."""

import numpy as np
from matplotlib.patches import Polygon

from ..words import written
from .artists import label, moving
from .look import AXIS_LOOK, BLACK, GREY, SMALL

LADDER = np.array([10, 20, 40, 60, 100, 150, 200, 300, 500, 1000, 2000, 5000])


def rung(size):
    """The first step of the ladder that holds ``size``, so that an axis rarely moves."""
    return float(LADDER[np.searchsorted(LADDER, size)]) if size <= LADDER[-1] else float(size)


class TorqueCurves:
    """Curves over ``x`` in surface units; the frame has to be drawn again when `show` returns True."""

    def __init__(
        self, axes, x_label, x_limits, y_label="shoulder torque, one side [N m]", looks=AXIS_LOOK, digits=0, unit="N m"
    ):
        self.axes, self.digits, self.unit = axes, digits, unit
        axes.set(xlim=x_limits, ylim=(-40, 60), xlabel=x_label, ylabel=y_label)
        axes.grid(color="#eeeeee")
        axes.axhline(0, color=BLACK, lw=0.8)
        self.here = moving(axes, colour=BLACK, width=1, style=":", z=2)
        self.parts = [
            self._component(axes, len(looks) - i, 92 + 16 * digits, *look) for i, look in enumerate(looks.values())
        ]

    @staticmethod
    def _component(axes, row, room, colour, style, marker, words):
        """Sample, value and words above the axes (``room`` points for the value), and the moving artists."""
        across, y = 1.0 / axes.bbox.width, 1.0 + (16 * row - 6) / axes.bbox.height
        axes.plot(
            [0.0, 12 * across, 24 * across], [y] * 3, color=colour, ls=style, marker=marker, markevery=[1], ms=6, lw=2,
            transform=axes.transAxes, clip_on=False,
        )  # fmt: skip
        axes.text((30 + room) * across, y, words, transform=axes.transAxes, va="center")
        value = label(axes, colour, transform=axes.transAxes, va="center", fontweight="bold")
        value.set_position((30 * across, y))
        value.set_fontsize(SMALL + 1.5)
        band = axes.add_patch(Polygon([(0, 0)], facecolor=colour, alpha=0.16, lw=0, zorder=1.5, animated=True))
        curve = moving(axes, colour=colour, width=2, style=style, z=3)
        now = moving(axes, colour=colour, width=0, style="None", marker=marker, markersize=9, z=5)
        kept = moving(
            axes,
            colour=GREY,
            width=0,
            style="None",
            marker=marker,
            markersize=10,
            z=4,
            markerfacecolor="none",
            markeredgewidth=2,
        )
        return value, band, curve, now, kept

    def show(self, x, torque, margin, x_now, now, now_margin):
        """Move curves, bands and values.

        Parameters
        ----------
        x : ndarray, shape (n,)
        torque, margin : ndarray, shape (n, curve) [N m]
            NaN where there is no answer leaves a gap.
        x_now : float
        now, now_margin : ndarray, shape (curve,) [N m]
            NaN is written as "none".

        Returns
        -------
        bool
            True when the vertical limits had to change.
        """
        for i, (value, band, curve, mark, _) in enumerate(self.parts):
            curve.set_data(x, torque[:, i])
            band.set_xy(_band(x, torque[:, i], margin[:, i]))
            mark.set_data([x_now], [now[i]])
            known = f"{written(now[i], self.digits)} ± {now_margin[i]:.{self.digits}f} {self.unit}"
            value.set_text(known if np.isfinite(now[i]) else "none")
        kept = [part[-1].get_ydata() for part in self.parts]
        limits = self._limits(np.concatenate([*(torque + margin), *(torque - margin), *kept]))
        self.here.set_data([x_now, x_now], limits)
        if limits == self.axes.get_ylim():
            return False
        self.axes.set_ylim(limits)
        return True

    @staticmethod
    def _limits(values):
        values = values[np.isfinite(values)]
        top, bottom = max(values.max(initial=1.0), 1.0), max(-values.min(initial=0.0), 0.0)
        return -max(rung(bottom) if bottom > 1 else 0, rung(top) / 10), rung(top)

    def keep(self):
        """Leave the present values as grey open marks."""
        for _, _, _, now, kept in self.parts:
            kept.set_data(*now.get_data())

    def drop(self):
        """Take the grey marks away."""
        for *_, kept in self.parts:
            kept.set_data([], [])


def _band(x, middle, margin):
    known = np.isfinite(middle)
    x, upper, lower = x[known], (middle + margin)[known], (middle - margin)[known]
    return np.column_stack([np.r_[x, x[::-1]], np.r_[upper, lower[::-1]]])
