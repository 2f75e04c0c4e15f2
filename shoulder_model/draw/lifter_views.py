"""A lifter from the front and from the side, to scale, with bar, line of pull and the two tape distances.

The front view looks at the chest, along the trunk's own axes; the side view stands in the room, so a
leaning trunk leans. Both have the resting shoulder (GH centre) of the drawn arm at the same height; where the shoulder
blade carries the centre elsewhere, the arm and both tape distances start there.
"""

import numpy as np
from matplotlib.patches import Circle, Polygon

from ..words import LEAST_TURN_DEG, written
from .artists import Arrow, label, moving, rounded
from .blade import ShoulderGirdle
from .look import BLACK, GREY, ORANGE, PALE, PURPLE, SKIN, TRUNK
from .scene import LYING, SEATED

HEAD_UP, HEAD_FORWARD, HEAD_RADIUS = 0.235, 0.03, 0.10  # m
THIGH = 0.30  # m
PULL_LENGTH = 0.24  # m, drawn length of the arrow along the pull
OUTLINE_STATURE = 1.70  # m; the outlines below are drawn for it and scaled with stature


class View:
    """Shared parts of the views: trunk, head, shoulder girdle, arm, bar, path, line of pull, one tape distance, ghost."""

    def __init__(self, axes, title, x_limits):
        self.axes = axes
        axes.set(xlim=x_limits, ylim=(-0.86, 0.84), aspect="equal", xticks=[], yticks=[])
        axes.set_title(title, pad=4)
        for side in axes.spines.values():
            side.set_color(PALE)
            side.set_visible(True)
        self.ghost = moving(axes, colour=GREY, width=4, z=2.5, alpha=0.6)
        self.thigh = moving(axes, colour=TRUNK, width=17, z=1, solid_capstyle="round")
        self.trunk = axes.add_patch(Polygon([(0, 0)], facecolor=TRUNK, edgecolor=GREY, lw=1, zorder=1.2, animated=True))
        self.head = axes.add_patch(
            Circle((0, 0), 0.1, facecolor=TRUNK, edgecolor=GREY, lw=1, zorder=1.1, animated=True)
        )
        self.girdle = ShoulderGirdle(axes)
        self.path = moving(axes, colour=GREY, width=1.2, style=":", z=2)
        self.touch = moving(axes, colour=GREY, width=0, style="None", marker="x", markersize=8, z=2, markeredgewidth=2)
        self.pull = Arrow(axes, style="--")
        self.tape = moving(axes, colour=PURPLE, width=3, z=7)
        self.tape_ends = moving(axes, colour=PURPLE, width=1.2, style=":", z=6.5)
        self.tape_words = label(axes, BLACK, ha="left", va="bottom", fontweight="bold")
        self.arm_edge = moving(axes, colour=BLACK, width=11, z=4)
        self.arm = moving(axes, colour=SKIN, width=8.5, z=4.1)
        self.joints = moving(axes, width=0, style="None", marker="o", markersize=5, z=5)
        self.bar = moving(axes, width=4, z=5.5)

    def draw_arm(self, points):
        """Shoulder, elbow, hand as ``points`` (3, 2)."""
        for line in (self.arm, self.arm_edge, self.joints):
            line.set_data(*np.transpose(points))

    def keep(self):
        """Leave the arm as it stands as a grey ghost."""
        self.ghost.set_data(*self.arm.get_data())

    def drop(self):
        """Take the ghost away."""
        self.ghost.set_data([], [])


def offset_words(letter, offset, positive, negative):
    """A tape distance as read off: letter, centimetres, which side of the shoulder."""
    side = positive if offset > -5e-4 else negative
    return f"{letter} {abs(100 * offset):.1f} cm {side}"


def ribs_words(turn):
    """By how much the elbow was turned out [rad] to clear the ribs, in words; none where it was not."""
    degrees = np.degrees(turn)
    return f"elbow turned out {degrees:.0f}° past the ribs" if degrees > LEAST_TURN_DEG else ""


def mirrored(points):
    """Points (..., 2) of the right side as those of the left, in a view with the midline at 0."""
    return np.asarray(points) * [-1.0, 1.0]


class FrontView(View):
    """Looking at the chest; the drawn arm (the lifter's right) is on the left, its mirror image on the right."""

    def __init__(self, axes):
        super().__init__(axes, "from the front", (-0.62, 0.62))
        self.other_girdle = ShoulderGirdle(axes, other=True)
        self.other_edge = moving(axes, colour=GREY, width=9, z=3.5)
        self.other = moving(axes, colour=PALE, width=7, z=3.6)

    def show(self, scene):
        """Move every artist to ``scene``."""
        half = scene.lifter.gh_breadth / 2

        def seen(points):
            return np.stack([-half - points[..., 2], points[..., 1]], axis=-1)

        self._draw_trunk(scene.lifter, half, seen(scene.gh) - seen(np.zeros(3)))
        arm = seen(np.stack([scene.gh, scene.elbow, scene.hand]))
        self.draw_arm(arm)
        for line in (self.other, self.other_edge):
            line.set_data(*mirrored(arm).T)
        self.girdle.show(scene, seen)
        self.other_girdle.show(scene, lambda points: mirrored(seen(points)))
        shoulder, _, hand = arm
        reach = abs(hand[0])
        ends = [(-reach - 0.08, hand[1]), (reach + 0.08, hand[1])] if scene.bar else [hand, hand]
        self.bar.set_data(*np.transpose(ends))
        self.path.set_data(*seen(scene.path).T)
        self.touch.set_data(*seen(scene.touch)[:, None])
        self.pull.show(hand, seen(scene.hand + PULL_LENGTH * scene.along))
        line = shoulder[0] - scene.w
        self.tape.set_data([shoulder[0], line], [shoulder[1]] * 2)
        self.tape_ends.set_data([line] * 2, [shoulder[1], hand[1]])
        self.tape_words.set_text(offset_words("w", scene.w, "outside", "inside"))
        self.tape_words.set_position((-0.60, -0.84))

    def _draw_trunk(self, lifter, half, moved):
        """Trunk and head; ``half`` the distance from the midline to a resting shoulder, which has ``moved`` (2,). [m]"""
        size = lifter.stature / OUTLINE_STATURE
        chest, waist = lifter.chest_breadth / 2, 0.42 * lifter.chest_breadth
        right = np.array([
            (-0.05, 0.15), (-0.06, 0.08), (-half - 0.035, 0.07), (-half - 0.05, -0.05), (-chest - 0.01, -0.11),
            (-chest, -0.2), (-waist, -0.32), (-0.97 * chest, -0.5),
        ]) * [1.0, size]  # fmt: skip
        right[2:4] += moved
        self.trunk.set_xy(rounded(np.vstack([right, mirrored(right[::-1])])))
        self.head.set_center((0, HEAD_UP * size))
        self.head.set_radius(HEAD_RADIUS * size)


class SideView(View):
    """From the lifter's right, in the room: forward is to the right, up is up."""

    def __init__(self, axes):
        super().__init__(axes, "from the side", (-0.80, 0.86))
        self.ribs_words = label(axes, BLACK, ha="left", va="bottom")
        self.ribs_words.set_position((-0.78, -0.76))

    def show(self, scene):
        """Move every artist to ``scene``."""
        in_room = self.draw_body(scene.lifter, scene.lean, self._thigh(scene))

        def seen(points):
            return np.stack(in_room(points[..., 0], points[..., 1]), axis=-1)

        shoulder, elbow, hand, foot = seen(np.stack([scene.gh, scene.elbow, scene.hand, scene.foot]))
        self.draw_arm([shoulder, elbow, hand])
        self.girdle.show(scene, seen)
        self.bar.set_data(*np.transpose([hand, hand]))
        self.path.set_data(*seen(scene.path).T)
        self.touch.set_data(*seen(scene.touch)[:, None])
        self.pull.show(hand, seen(scene.hand + PULL_LENGTH * scene.along))
        self.tape.set_data(*np.transpose([shoulder, foot]))
        self.tape_ends.set_data(*np.transpose([foot, hand]))
        self.ribs_words.set_text(ribs_words(scene.past_ribs))
        before, behind = ("in front", "behind") if abs(scene.along[1]) > 0.7 else ("below", "above")
        self.tape_words.set_text(offset_words("a", scene.a, before, behind) + f" · pull {scene.load}")
        self.tape_words.set_position((-0.78, -0.84))

    def draw_body(self, lifter, lean, thigh):
        """Trunk, head and thigh; returns the map from trunk to room coordinates."""
        depth, size = lifter.chest_depth, lifter.stature / OUTLINE_STATURE
        cos, sin = np.cos(lean), np.sin(lean)

        def seen(x, y):
            return x * cos - y * sin, y * cos + x * sin

        self.trunk.set_xy(np.column_stack(seen(*(SIDE_OUTLINE * [depth, size]).T)))
        self.head.set_center(seen(HEAD_FORWARD, HEAD_UP * size))
        self.head.set_radius(HEAD_RADIUS * size)
        hip = np.array(seen(0.0, -0.44 * size))
        self.thigh.set_data(*np.transpose([hip, hip + THIGH * size * np.asarray(thigh)]))
        return seen

    @staticmethod
    def _thigh(scene):
        if scene.body == SEATED:
            return 1.0, -0.05
        if scene.body == LYING:
            return np.sin(scene.lean), -np.cos(scene.lean)
        return 0.0, -1.0


class HeldView(SideView):
    """A weight in the hand of a standing lifter, with its horizontal way to shoulder and elbow."""

    def __init__(self, axes):
        super().__init__(axes)
        self.elbow_tape = moving(axes, colour=ORANGE, width=3, z=7)
        self.elbow_words = label(axes, BLACK, ha="left", va="bottom", fontweight="bold")
        self.elbow_words.set_position((-0.78, -0.75))
        self.tape_words.set_position((-0.78, -0.84))

    def show(self, lifter, held):
        """Move every artist to a `mechanics.HeldWeight` of one posture."""
        self.draw_body(lifter, 0.0, (0.0, -1.0))
        elbow, hand = held.posture.elbow[:2], held.posture.hand[:2]
        self.draw_arm([(0, 0), elbow, hand])
        self.bar.set_data(*np.transpose([hand - np.array([0.02, 0.0]), hand + np.array([0.02, 0.0])]))
        self.bar.set_linewidth(12)
        self.pull.show(hand, hand - [0.0, PULL_LENGTH])
        self.tape.set_data([0, hand[0]], [0, 0])
        self.elbow_tape.set_data([elbow[0], hand[0]], [elbow[1]] * 2)
        self.tape_ends.set_data([hand[0]] * 2, [0, hand[1]])
        from_shoulder, from_elbow = 100 * held.load_distance
        self.tape_words.set_text(f"{written(from_shoulder)} cm from the shoulder")
        self.elbow_words.set_text(f"{written(from_elbow)} cm from the elbow")


SIDE_OUTLINE = rounded(  # forward in chest depths, up in metres of `OUTLINE_STATURE`
    [
        (-0.16, 0.15), (0.14, 0.15), (0.16, 0.06), (0.42, -0.03), (0.54, -0.14), (0.48, -0.30), (0.44, -0.42), (0.40, -0.53),
        (-0.42, -0.53), (-0.44, -0.42), (-0.32, -0.32), (-0.52, -0.14), (-0.46, 0.0), (-0.20, 0.07),
    ]
)  # fmt: skip
