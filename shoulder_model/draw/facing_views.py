"""A lifter from the front and from behind, to scale, along the trunk's own axes, with the tape distance w."""

import math

import numpy as np

from .artists import moving
from .blade import ShoulderGirdle
from .body import (
    EYES,
    FOOT,
    HAIR_BACK,
    HAIR_FRONT,
    HEAD_FRONT,
    HIP_OUT,
    JAW,
    body_size,
    limb,
    pelvis_front,
    trunk_front,
)  # fmt: skip
from .lifter_view import LEANS, PULL_LENGTH, Arm, Leg, View, mirrored, offset_words, support_arm
from .look import EDGE, FAR_SKIN
from .setting import FacingSetting
from .stance import BENCH, KNEES_OUT, STANDING


class FacingView(View):
    """From the front or from behind, along the trunk; ``SIDE`` is where the drawn arm (the lifter's right) stands."""

    SIDE, TITLE = -1.0, "from the front"

    def __init__(self, axes, *, limits=None, bands=False):
        super().__init__(axes, limits=limits, bands=bands)
        behind = self.SIDE > 0
        self.setting = FacingSetting(axes, behind=behind)
        self.other_girdle = ShoulderGirdle(axes, other=True)
        self.other_arm = Arm(axes, FAR_SKIN, z=2.6)
        heights = (0.8, 0.85, 0.82) if behind else (1.3, 1.22, 1.34)
        self.legs = [Leg(axes, z=heights) for _ in range(2)]
        self.eyes = moving(axes, colour=EDGE, width=0, style="None", marker="o", markersize=2.2, z=1.3)
        self.jaw = moving(axes, colour=EDGE, width=0.9, z=1.3)

    def show(self, scene):
        """Move every artist to ``scene``."""
        half, size = scene.lifter.gh_breadth / 2, body_size(scene.lifter)
        across = np.array(((0.0, 0.0), (0.0, 1.0), (self.SIDE, 0.0)))
        rest = np.array((self.SIDE * half, 0.0))

        def seen(points):
            return points @ across + rest

        joints = seen(np.array((scene.gh, scene.elbow, scene.hand)))
        path, elbows = seen(scene.path), seen(scene.elbows)
        self.show_arm(joints, size)
        self._show_body(scene, (joints[0] - rest) * (self.SIDE, 1.0), size)
        feet = self._show_legs(scene, size)
        self._other_arm(scene, joints, size)
        self.girdle.show(scene, seen)
        self.other_girdle.show(scene, lambda points: mirrored(seen(points)))
        self.show_path(scene, path)
        self.touch.set_data(*seen(scene.touch)[:, None])
        hand, up_along = joints[2], float(scene.along[1])
        held = self.setting.show(scene, hand, up_along, float(path[:, 1].max()))
        tip = hand + PULL_LENGTH * (scene.along @ across)
        self.pull.show(hand, tip)
        around = [] if self.crops else [*feet, *held]
        self._frame(scene, joints, path, elbows, [*around, tuple(tip + 0.3 * (tip - hand))], size)
        self.ghost.show(self.anchor)
        self._show_tape(scene, joints, elbows, size)
        if self.bands:
            self.bands.show(scene.bands, scene.named, seen, self.window, self.window.limits[3])
        self.put_title(f"{self.TITLE}, along the trunk" if abs(scene.lean) > LEANS else self.TITLE)

    def _show_body(self, scene, moved, size):
        self.trunk.put(trunk_front(scene.lifter, moved))
        self.pelvis.put(pelvis_front(scene.lifter))
        self.head.put(HEAD_FRONT * size)
        self.hair.put((HAIR_FRONT if self.SIDE < 0 else HAIR_BACK) * size)
        if self.SIDE < 0:
            self.eyes.set_data(*(EYES * size).T)
            self.jaw.set_data(*(JAW * size).T)

    def _show_legs(self, scene, size):
        """Both legs; corners (n, 2) of the feet."""
        feet = []
        knees = KNEES_OUT.get(scene.body, HIP_OUT + 0.008)
        for leg, side in zip(self.legs, (self.SIDE, -self.SIDE), strict=True):
            legs = scene.legs if side == self.SIDE or scene.legs.other is None else scene.legs.other
            toe = (
                legs.ankle[0] + 0.15 * size * math.cos(legs.foot),
                legs.ankle[1] + 0.15 * size * math.sin(legs.foot) - 0.03,
            )
            hip, knee, ankle, tip = (scene.in_trunk(point)[1] for point in (legs.hip, legs.knee, legs.ankle, toe))
            x = side * size
            leg.show((x * HIP_OUT, hip), (x * knees, knee), (x * (knees - 0.01), ankle), size)
            leg.shoe.put(limb(FOOT, (x * (knees - 0.01), ankle), (x * (knees + 0.01), tip), size))
            feet += [
                (
                    x * (knees + 0.07),
                    min(ankle - 0.04 * size, tip - 0.045 * size, knee - 0.06 * size, hip - 0.095 * size),
                ),
                (x * (knees + 0.07), max(ankle + 0.04 * size, tip + 0.045 * size, knee + 0.06 * size)),
            ]
        return feet

    def _other_arm(self, scene, joints, size):
        other = mirrored(joints)
        if scene.body == BENCH:
            shoulder = mirrored(joints[:1])[0] * (1, 0)
            support = support_arm(scene, size)
            other = [(shoulder[0], scene.in_trunk(point)[1]) for point in support]
        self.other_arm.show(other, size)

    def _frame(self, scene, joints, path, elbows, held, size):
        """Fit the window to all of this."""
        self.anchor = np.array((0.0, joints[2][1])) if scene.load_from == "body" else np.zeros(2)
        reach = max(np.abs(path[:, 0]).max(), np.abs(elbows[:, 0]).max(), scene.lifter.gh_breadth / 2) + 0.06 * size
        body = np.array([*held, (-reach, -0.60 * size), (reach, 0.362 * size)])
        if scene.load_from == "body":  # the bar stays where it is in the picture, the body rises to it
            way = joints[2] - path[[0, -1]]
            elbows, path = elbows - path + joints[2], joints[2:]
            body = np.concatenate(
                [body, body.min(axis=0) + np.minimum(way, 0.0), np.array((0.0, 0.362 * size)) + np.maximum(way, 0.0)]
            )
        self.window.fit(*self.corners(body, path, elbows - np.array((0.0, 0.045))))

    def _show_tape(self, scene, joints, elbows, size):
        """w below the arm, its words outside of it."""
        level = min(elbows[:, 1].min(), joints[2][1], -0.10 * size) - 0.075 * size
        if scene.body == STANDING:
            level = -0.20 * size
        level = max(level, self.window.limits[2] + 30.0 / self.window.scale)
        shoulder, side = joints[0], self.SIDE
        end = shoulder[0] + side * scene.w
        shift = (0.0, level - shoulder[1])
        self.tape.show(shoulder, (end, shoulder[1]), shift, self.window)
        outer = side * max(side * shoulder[0], side * end)
        texts = offset_words("w", scene.w, "outside", "inside")
        wide = self.tape.words.size(texts)[0] / self.window.scale
        edge = self.window.limits[1] - abs(outer)
        if edge > wide + 0.03:
            at, where = (outer + side * 0.02, level), side
        else:
            at, where = (outer, level - 18.0 / self.window.scale), 0.0
        self.tape.words.show(texts, at, self.window, where)


class FrontView(FacingView):
    """Looking at the chest; the drawn arm (the lifter's right) is on the left, its mirror image on the right."""


class BackView(FacingView):
    """Looking at the back; the drawn arm (the lifter's right) is on the right."""

    SIDE, TITLE = 1.0, "from behind"
