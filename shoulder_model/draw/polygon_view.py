"""Two torques against each other: what muscles can make, what the load asks, where its ray leaves."""

import numpy as np
from matplotlib.patches import Polygon

from .artists import label, moving
from .look import BLACK, GREEN, GREY, PALE, VERMILLION
from .torque_curves import rung


class PolygonView:
    """The outline, the ray from no load through the load to the limit, and a kept outline in grey."""

    def __init__(self, axes):
        self.axes = axes
        axes.set(
            xlim=(-60, 200),
            ylim=(-60, 100),
            xlabel="shoulder [N m]",
            ylabel="elbow [N m]",
        )
        axes.axhline(0, color=PALE, lw=1, zorder=0)
        axes.axvline(0, color=PALE, lw=1, zorder=0)
        axes.set_title("what the joints can supply", pad=4)
        self.kept = moving(axes, colour=GREY, width=1.5, style="--", z=2)
        self.area = axes.add_patch(
            Polygon([(0, 0)], facecolor=GREEN, alpha=0.15, edgecolor=GREEN, lw=2, zorder=1.5, animated=True)
        )
        self.ray = moving(axes, colour=BLACK, width=1.5, style=":", z=3)
        self.load = moving(axes, colour=BLACK, width=0, style="None", marker="o", markersize=8, z=5)
        self.limit = moving(axes, colour=VERMILLION, width=0, style="None", marker="X", markersize=10, z=6)
        self.load_words = label(axes, BLACK, ha="left", va="top", transform=axes.transAxes)
        self.limit_words = label(axes, VERMILLION, ha="right", va="top", transform=axes.transAxes)
        self.load_words.set_position((0.02, 0.1))
        self.limit_words.set_position((0.99, 0.99))

    def show(self, polygon, kg, largest):
        """``polygon`` a `repetition.TorquePolygon`; loads [kg]. True when the axes had to change."""
        self.area.set_xy(polygon.outline)
        far = polygon.limit if np.isfinite(polygon.limit).all() else polygon.asked
        self.ray.set_data(*np.transpose([polygon.unloaded, far]))
        self.load.set_data(*polygon.asked[:, None])
        self.limit.set_data(*far[:, None])
        self.load_words.set_text(f"● {kg:.0f} kg")
        self.limit_words.set_text(f"✖ {largest:.0f} kg" if np.isfinite(largest) else "cannot be held")
        points = np.vstack([polygon.outline, polygon.asked[None], far[None]])
        limits = [
            (-rung(max(-low, 10.0)), rung(max(high, 10.0)))
            for low, high in zip(points.min(0), points.max(0), strict=True)
        ]
        if limits == [self.axes.get_xlim(), self.axes.get_ylim()]:
            return False
        self.axes.set(xlim=limits[0], ylim=limits[1])
        return True

    def keep(self):
        """Leave the outline in grey."""
        self.kept.set_data(*np.transpose(self.area.get_xy()))

    def drop(self):
        """Take it away."""
        self.kept.set_data([], [])
