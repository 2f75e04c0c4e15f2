"""One muscle on the raised arm, seen from behind and from the side, with its line and the joint's sphere."""

import numpy as np
from matplotlib.patches import Circle, Ellipse

from .artists import moving
from .look import BLACK, GREY, PALE, SKIN, TRUNK, VERMILLION

VIEWS = {  # title -> horizontal component and its sign; up is Y
    "from behind": (2, 1.0),
    "from the side": (0, 1.0),
}


class MuscleView:
    """Trunk, upper arm and one path; thorax axes, the right side."""

    def __init__(self, axes, title):
        self.axes, (self.across, self.sign) = axes, VIEWS[title]
        axes.set(xlim=(-0.40, 0.36), ylim=(-0.62, 0.42), aspect="equal", xticks=[], yticks=[])
        axes.set_title(title, pad=4)
        for side in axes.spines.values():
            side.set_color(PALE)
            side.set_visible(True)
        middle = -0.208 if title == "from behind" else -0.02
        wide = 0.33 if title == "from behind" else 0.24
        axes.add_patch(Ellipse((middle, -0.26), wide, 0.66, facecolor=TRUNK, edgecolor=GREY, lw=1, zorder=1))
        axes.add_patch(Circle((middle, 0.22), 0.10, facecolor=TRUNK, edgecolor=GREY, lw=1, zorder=1))
        self.ghost = moving(axes, colour=GREY, width=4, z=1.5, alpha=0.6)
        self.edge = moving(axes, colour=BLACK, width=12, z=2)
        self.arm = moving(axes, colour=SKIN, width=9.5, z=2.1)
        self.path = moving(axes, colour=VERMILLION, width=3.5, z=4)
        self.ends = moving(axes, colour=VERMILLION, width=0, style="None", marker="o", markersize=7, z=4.1)
        self.joint = moving(axes, width=0, style="None", marker="o", markersize=5, z=5)

    def show(self, path, elbow):
        """``path`` (n, 3) and ``elbow`` (3,) from the GH centre. [m]"""

        def seen(points):
            return self.sign * points[..., self.across], points[..., 1]

        ends = np.stack([np.zeros(3), elbow])
        for line in (self.arm, self.edge):
            line.set_data(*seen(ends))
        self.joint.set_data([0], [0])
        self.path.set_data(*seen(path))
        self.ends.set_data(*seen(path[[0, -1]]))

    def keep(self):
        """Leave the arm as a grey ghost."""
        self.ghost.set_data(*self.arm.get_data())

    def drop(self):
        """Take the ghost away."""
        self.ghost.set_data([], [])
