"""One muscle on the raised arm, seen from behind and from the side, with its line and the joint's sphere."""

import numpy as np
from matplotlib.patches import Polygon

from ..people import Lifter
from .artists import moving
from .body import (
    HAIR_BACK,
    HAIR_SIDE,
    HEAD_FRONT,
    HEAD_SIDE,
    PELVIS_SIDE,
    TRUNK_SIDE,
    UPPER_ARM,
    Outline,
    body_size,
    limb,
    pelvis_front,
    trunk_front,
)  # fmt: skip
from .dimension import Window
from .lifter_view import Ghost
from .look import BLACK, EDGE, HAIR, LEGS, PALE, SKIN, TRUNK, VERMILLION

VIEWS = {  # title -> horizontal component and its sign; up is Y
    "from behind": (2, 1.0),
    "from the side": (0, 1.0),
}
SHOWN = {"from behind": ((-0.33, -0.66), (0.37, 0.40)), "from the side": ((-0.30, -0.66), (0.40, 0.40))}  # corners [m]


class MuscleView:
    """Trunk, upper arm and one path; thorax axes, the right side.

    Parameters
    ----------
    axes : matplotlib.axes.Axes
        In its place in the figure.
    title : "from behind" or "from the side"
    """

    def __init__(self, axes, title):
        self.axes, (self.across, self.sign) = axes, VIEWS[title]
        self.window = Window(axes)
        self.window.fit(*SHOWN[title])
        axes.set_title(title, pad=4)
        for side in axes.spines.values():
            side.set_color(PALE)
            side.set_visible(True)
        self._draw_body(title)
        self.ghost = Ghost(axes, 1)
        self.upper = Outline(axes, SKIN, z=2)
        self.arm = moving(axes, colour=EDGE, width=1.0, z=2.2)
        self.path = moving(axes, colour=VERMILLION, width=3.5, z=4)
        self.ends = moving(axes, colour=VERMILLION, width=0, style="None", marker="o", markersize=7, z=4.1)
        self.joint = moving(axes, colour=BLACK, width=0, style="None", marker="o", markersize=5, z=5)

    def _draw_body(self, title):
        """Trunk, pelvis and head of the survey's mean man, which stay."""
        lifter = Lifter.average("men")
        size, depth = body_size(lifter), lifter.chest_depth
        if title == "from behind":
            middle = np.array((-lifter.gh_breadth / 2, 0.0))
            parts = [trunk_front(lifter, (0.0, 0.0)), pelvis_front(lifter), HEAD_FRONT * size, HAIR_BACK * size]
        else:
            middle, of_trunk = np.zeros(2), (depth, size)
            parts = [TRUNK_SIDE * of_trunk, PELVIS_SIDE * of_trunk, HEAD_SIDE * size, HAIR_SIDE * size]
        for part, colour in zip(parts, (TRUNK, LEGS, SKIN, HAIR), strict=True):
            self.axes.add_patch(Polygon(part + middle, facecolor=colour, edgecolor=EDGE, lw=1, zorder=1))

    def show(self, path, elbow):
        """``path`` (n, 3) and ``elbow`` (3,) from the GH centre. [m]"""

        def seen(points):
            return self.sign * points[..., self.across], points[..., 1]

        ends = np.transpose(seen(np.stack([np.zeros(3), elbow])))
        self.upper.put(limb(UPPER_ARM, *ends.tolist(), 1.0))
        self.arm.set_data(*ends.T)
        self.joint.set_data([0], [0])
        self.path.set_data(*seen(path))
        self.ends.set_data(*seen(path[[0, -1]]))

    def keep(self):
        """Leave the arm as a grey outline."""
        self.ghost.keep([self.upper], np.zeros(2))

    def drop(self):
        """Take the ghost away."""
        self.ghost.drop()
