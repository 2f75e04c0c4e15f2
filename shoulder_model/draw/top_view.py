"""A lifter from above, to scale: where the shoulder blades go when a row carries them from front to back.

Along the trunk's own axes, like the front view: a leaning trunk is looked at from its head. Forward is down the page, so the
drawn arm (the lifter's right) is on the left in both.
"""

import numpy as np
from matplotlib.patches import Polygon

from .artists import label, moving
from .blade import ShoulderGirdle
from .lifter_views import HEAD_FORWARD, HEAD_RADIUS, OUTLINE_STATURE, PULL_LENGTH, View, mirrored, ribs_words
from .look import BLACK, GREY, PALE, TRUNK

NOSE = 0.04  # m
ROUND = np.linspace(0.0, 2 * np.pi, 49)


class TopView(View):
    """Chest as an ellipse of its breadth and depth, head with a nose, girdle, both arms, what the hands hold."""

    def __init__(self, axes):
        super().__init__(axes, "from above", (-0.62, 0.62))
        axes.set_ylim(-1.16, 0.54)  # as high as the front view
        self.nose = axes.add_patch(Polygon([(0, 0)], facecolor=TRUNK, edgecolor=GREY, lw=1, zorder=1.05, animated=True))
        self.head.set_zorder(1.3)
        self.other_girdle = ShoulderGirdle(axes, other=True)
        self.other_edge = moving(axes, colour=GREY, width=9, z=3.5)
        self.other = moving(axes, colour=PALE, width=7, z=3.6)
        self.ribs_words = [label(axes, BLACK, ha="left", va="bottom") for _ in range(2)]
        for row, words in enumerate(self.ribs_words):
            words.set_position((-0.60, -1.05 - 0.09 * row))

    def show(self, scene):
        """Move every artist to ``scene``."""
        half = scene.lifter.gh_breadth / 2

        def seen(points):
            return np.stack([-half - points[..., 2], -points[..., 0]], axis=-1)

        self._draw_trunk(scene.lifter)
        arm = seen(np.stack([scene.gh, scene.elbow, scene.hand]))
        self.draw_arm(arm)
        for line in (self.other, self.other_edge):
            line.set_data(*mirrored(arm).T)
        self.girdle.show(scene, seen)
        self.other_girdle.show(scene, lambda points: mirrored(seen(points)))
        hand = arm[2]
        end = hand - [0.08, 0.0]
        self.bar.set_data(*np.transpose([end, mirrored(end)] if scene.bar else [hand, hand]))
        self.path.set_data(*seen(scene.path).T)
        self.touch.set_data(*seen(scene.touch)[:, None])
        self.pull.show(hand, seen(scene.hand + PULL_LENGTH * scene.along))
        first, degree, rest = ribs_words(scene.past_ribs).partition("° ")
        for words, text in zip(self.ribs_words, (first + degree.strip(), rest), strict=True):
            words.set_text(text)

    def _draw_trunk(self, lifter):
        """Chest and head. [m]"""
        chest = np.column_stack([np.cos(ROUND) * lifter.chest_breadth / 2, np.sin(ROUND) * lifter.chest_depth / 2])
        self.trunk.set_xy(chest)
        radius = HEAD_RADIUS * lifter.stature / OUTLINE_STATURE
        self.head.set_center((0, -HEAD_FORWARD))
        self.head.set_radius(radius)
        tip = -HEAD_FORWARD - radius - NOSE
        self.nose.set_xy([(-NOSE, tip + NOSE + 0.01), (0, tip), (NOSE, tip + NOSE + 0.01)])
