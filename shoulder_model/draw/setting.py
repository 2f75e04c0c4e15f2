"""What carries the lifter and what pulls: seat, pads, floor, pulley, plates, a fixed bar. Drawn by eye, from the side and facing."""

import numpy as np

from .artists import moving
from .body import Outline, block, body_size, disc, turned
from .look import BLACK, EDGE, PAD, PLATE, STEEL
from .stance import BENCH, BENT, HANGING, LYING, ROWING, SEATED, STANDING, SUPPORTED

TO_WHEEL = 0.13  # m from the furthest hand to the pulley's middle
WHEEL, ROLLER, DISC = 0.042, 0.048, 0.20  # m, radii of pulley, thigh pad and weight plate
CEILING = 0.22  # m from a fixed bar up to what it hangs on
BESIDE = 0.10  # m that a bar reaches past the hands
BARBELL, FIXED = 0.46, 0.50  # m, least half lengths
_SIDE_ON = [(-0.115, -0.055), (-0.05, -0.055), (-0.05, -0.016), (0.05, -0.016), (0.05, -0.055), (0.115, -0.055),
            (0.115, 0.055), (0.05, 0.055), (0.05, 0.016), (-0.05, 0.016), (-0.05, 0.055), (-0.115, 0.055), (-0.115, -0.055)]  # fmt: skip
DUMBBELL = np.array(_SIDE_ON)
NOTHING = np.empty((0, 2))


class Setting:
    """Shared artists: floor, steel frame, a post, two pads, a weight, a pulley with its cable, the bar."""

    def __init__(self, axes):
        self.floor = moving(axes, colour=STEEL, width=2.2, z=0.2)
        self.steel = moving(axes, colour=STEEL, width=4.5, z=0.3, alpha=0.75)
        self.post = moving(axes, colour=STEEL, width=5.0, z=0.35, alpha=0.75)
        self.pad = Outline(axes, PAD, z=0.95)
        self.roller = Outline(axes, PAD, z=1.5)
        self.weight = Outline(axes, PLATE, z=2.45, alpha=0.8)
        self.cable = moving(axes, colour=BLACK, width=1.1, z=2.3)
        self.wheel = Outline(axes, "white", edge=EDGE, width=2.0, z=2.35)
        self.bar = moving(axes, width=4, z=3.15)

    def _clear(self):
        for outline in (self.pad, self.roller, self.weight, self.wheel):
            outline.set_visible(False)
        for line in (self.floor, self.steel, self.post, self.cable):
            line.set_data((), ())

    def _show_cable(self, hand, wheel):
        self.cable.set_data(*zip(hand, wheel, strict=True))
        self.wheel.put(disc(wheel, WHEEL))
        return [(wheel[0] - WHEEL, wheel[1] - WHEEL), (wheel[0] + WHEEL, wheel[1] + WHEEL)]


class SideSetting(Setting):
    """From the side, in the room."""

    def show(self, scene, seen, hand, along):
        """Move to ``scene``; ``seen`` maps (..., 3) to the picture, ``hand`` and ``along`` (2,) are the hand and the pull in it.

        Returns corners (n, 2) that the picture has to hold. [m]
        """
        self._clear()
        legs, size = scene.legs, body_size(scene.lifter)
        self.bar.set_data(hand[:1], hand[1:])
        corners = self._pulls(scene, seen, hand, along, size)
        place = {SEATED: self._seat, ROWING: self._row_seat, SUPPORTED: self._chest_pad, BENCH: self._bench}.get(
            scene.body
        )
        if place:
            corners += place(scene, legs, size, corners)
        if legs.floor is not None:
            xs = [legs.hip[0], legs.ankle[0], legs.knee[0]]
            ends = min(xs) - 0.18 * size, max(xs) + 0.24 * size
            self.floor.set_data(ends, (legs.floor, legs.floor))
            corners += [(ends[0], legs.floor), (ends[1], legs.floor - 0.02)]
        return corners

    def _pulls(self, scene, seen, hand, along, size):
        """What the hands hold on to."""
        if scene.load_from == "cable":
            return self._cable(scene, seen, hand, along)
        if scene.load_from == "weight":
            if scene.bar:
                self.weight.put(disc(hand, DISC))
                return [(hand[0] - DISC, hand[1] - DISC), (hand[0] + DISC, hand[1] + DISC)]
            self.weight.put(hand + (DUMBBELL if scene.neutral else disc((0, 0), 0.062)))
            return []
        (x, y), up = hand, CEILING
        if scene.body == LYING:
            self.steel.set_data((x, x), (scene.legs.floor, y + 0.05))
            return [(x, y + 0.2)]
        self.steel.set_data((x, x, x - 0.24, x + 0.24), (y, y + up, y + up, y + up))
        return [(x - 0.24, y + up), (x + 0.24, y + up)]

    def _cable(self, scene, seen, hand, along):
        path = seen(scene.path)
        reach = float((path @ along).max()) + TO_WHEEL
        wheel = hand + (reach - float(hand @ along)) * along
        if scene.body == STANDING:  # the cable keeps its direction, so its pulley is drawn to run along a beam
            wheel = hand + (float(path[:, 1].max()) + TO_WHEEL - hand[1]) / max(along[1], 0.3) * along
        return self._show_cable(hand, wheel)

    def _seat(self, scene, legs, size, corners):
        (x, y), (kx, ky), floor = legs.hip, legs.knee, legs.floor
        top = y - 0.092 * size
        self.pad.put(block(x - 0.17 * size, top - 0.05, x + 0.22 * size, top))
        pad = x + 0.72 * (kx - x), y + 0.72 * (ky - y) + 0.118 * size
        self.roller.put(disc(pad, ROLLER))
        column = max(kx + 0.17 * size, corners[1][0] + 0.05)
        self.steel.set_data(
            (column, column, corners[0][0] + WHEEL, column, column, pad[0]),
            (floor, corners[1][1], corners[1][1], corners[1][1], pad[1], pad[1]),
        )
        self.post.set_data((x + 0.03, x + 0.03), (floor, top - 0.05))
        return [(x - 0.17 * size, floor), (column + 0.03, floor)]

    def _row_seat(self, scene, legs, size, corners):
        (x, y), (ax, ay), floor = legs.hip, legs.ankle, legs.floor
        top = y - 0.092 * size
        self.pad.put(block(x - 0.17 * size, top - 0.05, x + 0.24 * size, top))
        cos, sin = np.cos(legs.foot - np.pi / 2), np.sin(legs.foot - np.pi / 2)
        plate = turned(block(0.0, -0.10, 0.022, 0.22) * size, cos, sin) + np.array(
            (ax + 0.075 * size * cos, ay + 0.075 * size * sin)
        )
        self.roller.put(plate)
        right = max(float(plate[:, 0].max()) + 0.03, corners[1][0] + 0.03)
        wheel = (corners[0][1] + corners[1][1]) / 2
        self.steel.set_data((right, right, corners[0][0] + WHEEL), (floor, wheel, wheel))
        rail = top - 0.11 * size
        self.post.set_data((x, x, right, x, x), (floor, rail, rail, rail, top - 0.05))
        return [(x - 0.17 * size, floor), (right + 0.03, floor)]

    def _chest_pad(self, scene, legs, size, corners):
        depth, (cos, sin) = scene.lifter.chest_depth, scene.turn
        near = 0.53 * depth + 0.006
        pad = turned(block(near, -0.50 * size, near + 0.055, -0.04 * size), cos, sin)
        self.pad.put(pad)
        (x, y) = (pad[1] + pad[2]) / 2
        foot = legs.floor
        self.post.set_data((x, x, x - 0.16, x + 0.16), (y, foot, foot, foot))
        return []

    def _bench(self, scene, legs, size, corners):
        knee, floor = legs.other.knee, legs.floor
        top, left, right = bench_top(legs, size), legs.other.ankle[0] - 0.04, max(knee[0], 0.0) + 0.16
        self.pad.put(block(left, top - 0.06, right, top))
        self.post.set_data((left + 0.1, left + 0.1, right - 0.1, right - 0.1), (floor, top - 0.04, top - 0.04, floor))
        return [(left, floor), (right, floor)]


def bench_top(legs, size):
    """Height of the bench that the other knee kneels on. [m]"""
    return legs.other.knee[1] - 0.056 * size


class FacingSetting(Setting):
    """From the front or from behind, along the trunk's own axes."""

    def __init__(self, axes, *, behind):
        super().__init__(axes)
        self.weights = [Outline(axes, PLATE, z=3.2), Outline(axes, PLATE, z=3.2)]
        self.behind = behind
        self.pad.set_zorder(1.45 if behind else 0.6)
        self.roller.set_zorder(0.5 if behind else 1.6)
        self.weight.set_zorder(0.55 if behind else 1.62)

    def show(self, scene, hand, up_along, hands_up):
        """Move to ``scene``; ``hand`` (2,) the drawn hand, ``up_along`` how much of the pull points up the picture, ``hands_up`` the
        highest hand of the rep. Returns corners (n, 2) that the picture has to hold. [m]
        """
        self._clear()
        for weight in self.weights:
            weight.set_visible(False)
        reach, y = abs(hand[0]), hand[1]
        half = max(reach + BESIDE, {"weight": BARBELL, "body": FIXED}.get(scene.load_from, 0.0))
        if not scene.bar:
            self._handles(scene, hand)
            corners = []
        else:
            self.bar.set_data((-half, half), (y, y))
            corners = [(-half - 0.02, y), (half + 0.02, y)]
        corners += self._pulls(scene, half, y, up_along, hands_up)
        upright = abs(scene.lean) < 0.9 or scene.body == HANGING
        return corners + self._carries(scene, upright)

    def _handles(self, scene, hand):
        self.bar.set_data((), ())
        sides = (1.0, -1.0) if scene.hands == 2 else (1.0,)
        for weight, side in zip(self.weights, sides, strict=False):
            shape = disc((0, 0), 0.058) if scene.neutral else DUMBBELL
            if scene.load_from == "weight":
                weight.put(shape + hand * [side, 1.0])

    def _pulls(self, scene, half, y, up_along, hands_up):
        if scene.load_from == "cable" and up_along > 0.5:
            wheel = hands_up + TO_WHEEL
            self.wheel.put(block(-0.012, wheel - WHEEL, 0.012, wheel + WHEEL))
            self.cable.set_data((0.0, 0.0), (y, wheel))
            return [(-0.1, wheel + WHEEL), (0.1, wheel)]
        if scene.load_from == "weight" and scene.bar:
            for weight, side in zip(self.weights, (1.0, -1.0), strict=True):
                at = side * (half - 0.03)
                weight.put(block(at - 0.025, y - DISC, at + 0.025, y + DISC))
            return [(-half - 0.02, y - DISC), (half + 0.02, y + DISC)]
        if scene.body == HANGING:
            top, at = y + CEILING * up_along, half - 0.04
            self.steel.set_data((-at, -at, at, at), (y, top, top, y))
            return [(-half, top), (half, top)]
        if scene.body == LYING:
            at = half - 0.02
            self.steel.set_data((-at, -at), (y - 0.05, y + 0.05))
            self.post.set_data((at, at), (y - 0.05, y + 0.05))
        return []

    def _carries(self, scene, upright):
        legs, size = scene.legs, body_size(scene.lifter)
        if scene.body == SUPPORTED:
            self.roller.put(block(-0.13, -0.50 * size, 0.13, -0.04 * size))
            self.roller.set_alpha(0.45)
            return []
        self.roller.set_alpha(1.0)
        if not upright or legs.floor is None or scene.body in (LYING, BENT, BENCH):
            return []
        floor = scene.in_trunk((legs.ankle[0], legs.floor))[1]
        top = scene.in_trunk((legs.hip[0], legs.hip[1] - 0.092 * size))[1]
        self.floor.set_data((-0.31 * size, 0.31 * size), (floor, floor))
        if scene.body in (SEATED, ROWING):
            self.pad.put(block(-0.20 * size, top - 0.05, 0.20 * size, top))
            self.post.set_data((0.0, 0.0), (floor, top - 0.05))
        if scene.body == SEATED:
            (x, y), (kx, ky) = legs.hip, legs.knee
            pad = scene.in_trunk((x + 0.72 * (kx - x), y + 0.72 * (ky - y) + 0.118 * size))[1]
            self.roller.put(block(-0.25 * size, pad - ROLLER, 0.25 * size, pad + ROLLER))
        return [(-0.31 * size, floor - 0.02), (0.31 * size, top - 0.06)]
