"""Collarbone and shoulder blade of one side, and where its GH centre rests: artists that every view of a lifter shares."""

from matplotlib.colors import to_rgba

from .artists import moving
from .body import Outline
from .look import BONE, GREY

FILL = 0.3  # how much of what lies behind it the blade covers


class ShoulderGirdle:
    """A line from the SC joint to the GH centre, a translucent blade, a ring where the GH centre rests; hidden until shown."""

    def __init__(self, axes, *, other=False):
        colour = GREY if other else BONE
        self.blade = Outline(axes, to_rgba(colour, FILL), edge=colour, width=1.2, z=1.8)
        self.collarbone = moving(axes, colour=colour, width=2.5, z=2.2)
        self.rest = moving(
            axes, colour=colour, width=0, style="None", marker="o", markersize=8, z=5.2, markerfacecolor="none",
            markeredgewidth=1.4,
        )  # fmt: skip

    def show(self, scene, seen):
        """Move to ``scene`` through ``seen``, which maps points (..., 3) to the picture (..., 2)."""
        corners = seen(scene.girdle_points)
        self.blade.put(corners[[0, 1, 2, 3, 0]])
        (sc_x, sc_y), (gh_x, gh_y), (x, y) = corners[4:].tolist()
        self.collarbone.set_data((sc_x, gh_x), (sc_y, gh_y))
        self.rest.set_data(*(((x,), (y,)) if scene.travels else ((), ())))
