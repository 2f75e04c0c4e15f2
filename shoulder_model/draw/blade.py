"""Collarbone and shoulder blade of one side, and where its GH centre rests: artists that every view of a lifter shares."""

import numpy as np
from matplotlib.colors import to_rgba
from matplotlib.patches import Polygon

from .artists import moving
from .look import BONE, GREY

FILL = 0.3  # how much of what lies behind it the blade covers


class ShoulderGirdle:
    """A line from the SC joint to the GH centre, a translucent blade, a ring where the GH centre rests; hidden until shown."""

    def __init__(self, axes, *, other=False):
        colour = GREY if other else BONE
        self.blade = axes.add_patch(
            Polygon([(0, 0)], facecolor=to_rgba(colour, FILL), edgecolor=colour, lw=1.2, zorder=1.8, animated=True)
        )
        self.collarbone = moving(axes, colour=colour, width=2.5, z=2.2)
        self.rest = moving(
            axes, colour=colour, width=0, style="None", marker="o", markersize=8, z=5.2, markerfacecolor="none",
            markeredgewidth=1.4,
        )  # fmt: skip
        self.blade.set_visible(False)

    def show(self, scene, seen):
        """Move to ``scene`` through ``seen``, which maps points (..., 3) to the picture (..., 2)."""
        self.blade.set_xy(seen(scene.blade))
        self.blade.set_visible(True)
        self.collarbone.set_data(*seen(np.stack([scene.sc, scene.gh])).T)
        rest = seen(np.zeros((1, 3))) if scene.travels else np.empty((0, 2))
        self.rest.set_data(*rest.T)
