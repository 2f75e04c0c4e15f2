"""A lifter from above, to scale: where the shoulder blades go when a row carries them from front to back.

Along the trunk's own axes, like the front view: a leaning trunk is looked at from its head. Forward is down the page, so the
drawn arm (the lifter's right) is on the left in both.
"""

import numpy as np

from .artists import moving
from .blade import ShoulderGirdle
from .body import HAIR_ABOVE, HEAD_ABOVE, HIP_OUT, ROUND, SHANK, THIGH, Outline, block, body_size, limb
from .lifter_view import PULL_LENGTH, Arm, RibsWords, View, mirrored, two_rows
from .look import BLACK, EDGE, FAR_SKIN, LEGS, PLATE, by_sheet
from .setting import BARBELL, BESIDE, DISC, DUMBBELL, TO_WHEEL, WHEEL
from .stance import KNEES_OUT


class TopView(View):
    """Chest as an ellipse of its breadth and depth, head with a nose, girdle, thighs, both arms, what the hands hold."""

    def __init__(self, axes, *, limits=None):
        super().__init__(axes, limits=limits)
        self.head.set_zorder(4.5)
        self.hair.set_zorder(4.55)
        self.thighs = [Outline(axes, LEGS, z=0.8) for _ in range(2)]
        self.shanks = [Outline(axes, LEGS, z=0.7) for _ in range(2)]
        self.other_girdle = ShoulderGirdle(axes, other=True)
        self.other_arm = Arm(axes, FAR_SKIN, z=2.6)
        self.bar = moving(axes, width=4, z=3.15)
        self.cable = moving(axes, colour=BLACK, width=1.1, z=2.3)
        self.wheel = Outline(axes, "white", edge=EDGE, width=2.0, z=2.35)
        self.weights = [Outline(axes, PLATE, z=2.45) for _ in range(2)]
        self.ribs_words = RibsWords(axes, by_sheet((0.065, 0.015), two_rows(axes), two_rows(axes)))

    def show(self, scene):
        """Move every artist to ``scene``."""
        half, size = scene.lifter.gh_breadth / 2, body_size(scene.lifter)
        across, rest = np.array(((0.0, -1.0), (0.0, 0.0), (-1.0, 0.0))), np.array((-half, 0.0))

        def seen(points):
            return points @ across + rest

        joints = seen(np.array((scene.gh, scene.elbow, scene.hand)))
        path, elbows = seen(scene.path), seen(scene.elbows)
        self.show_arm(joints, size)
        self.other_arm.show(mirrored(joints), size)
        self._show_body(scene.lifter, size)
        knees = self._show_legs(scene, size)
        self.girdle.show(scene, seen)
        self.other_girdle.show(scene, lambda points: mirrored(seen(points)))
        self.path.set_data(*path.T)
        self.touch.set_data(*seen(scene.touch)[:, None])
        hand = joints[2]
        held = self._show_load(scene, hand, path)
        self.pull.show(hand, hand + PULL_LENGTH * (scene.along @ across))
        reach = max(np.abs(path[:, 0]).max(), np.abs(elbows[:, 0]).max(), half) + 0.08 * size
        around = [] if self.crops else [*held, *knees]
        ends = np.array(
            [(-reach, 0.18 * size), (reach, -0.2), *around, hand + 1.3 * PULL_LENGTH * (scene.along @ across)]
        )
        self.window.fit(*self.corners(ends, path - 0.07, path + 0.07, elbows - 0.06, elbows + 0.06))
        self.ghost.show(self.anchor)
        self.ribs_words.show(scene.past_ribs)
        self.put_title("from above, along the trunk" if abs(scene.lean) > 0.01 else "from above")

    def _show_body(self, lifter, size):
        self.trunk.put(ROUND * (lifter.chest_breadth / 2, lifter.chest_depth / 2))
        self.head.put(HEAD_ABOVE * (size, -size))
        self.hair.put(HAIR_ABOVE * (size, -size))

    def _show_legs(self, scene, size):
        """Thighs and shanks; corners (n, 2) of the knees. [m]"""
        legs, knees = scene.legs, KNEES_OUT.get(scene.body, HIP_OUT)
        hip, knee, ankle = (-scene.in_trunk(point)[0] for point in (legs.hip, legs.knee, legs.ankle))
        for thigh, shank, side in zip(self.thighs, self.shanks, (-size, size), strict=True):
            thigh.put(limb(THIGH, (side * HIP_OUT, hip), (side * knees, knee), size))
            shank.put(limb(SHANK, (side * knees, knee), (side * knees, ankle), size))
        return [(0.0, min(knee, ankle) - 0.06), (0.0, max(knee, ankle) + 0.06)]

    def _show_load(self, scene, hand, path):
        """Bar, weights or cable; corners (n, 2). [m]"""
        half = max(abs(hand[0]) + BESIDE, BARBELL if scene.load_from == "weight" else 0.0)
        self.bar.set_data(*(((-half, half), (hand[1], hand[1])) if scene.bar else ((), ())))
        ahead = scene.load_from == "cable" and scene.along[0] > 0.5
        self.wheel.set_visible(ahead)
        self.cable.set_data((), ())
        if ahead:
            end = float(path[:, 1].min()) - TO_WHEEL
            self.wheel.put(block(-0.012, end - WHEEL, 0.012, end + WHEEL))
            self.cable.set_data((0.0, 0.0), (hand[1], end))
            return [(-half, end - WHEEL), (half, end)]
        for weight, side in zip(self.weights, (1.0, -1.0), strict=True):
            weight.set_visible(False)
            if scene.load_from == "weight" and (side > 0 or scene.hands == 2):
                shape = DUMBBELL[:, ::-1] if scene.neutral else DUMBBELL
                at = side * (half - 0.03)
                plate = block(at - 0.025, hand[1] - DISC, at + 0.025, hand[1] + DISC)
                weight.put(plate if scene.bar else shape + hand * (side, 1.0))
        wide, high = (half + 0.02, DISC) if scene.bar else (abs(hand[0]) + 0.12, 0.13)
        return [(-wide, hand[1] - high), (wide, hand[1] + high)]
