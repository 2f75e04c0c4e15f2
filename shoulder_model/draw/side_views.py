"""A lifter from the side, to scale, as the room is, so a leaning trunk leans; with the tape distance a; and a held weight."""

import math

import numpy as np

from .body import HAIR_SIDE, HEAD_SIDE, PELVIS_SIDE, SHOE, TRUNK_SIDE, body_size, turned
from .dimension import Dimension, Words
from .lifter_view import LEANS, PULL_LENGTH, Arm, Leg, RibsWords, View, offset_words, support_arm, two_rows
from .look import FAR_LEGS, FAR_SKIN, ORANGE, SMALL, by_sheet
from .setting import DUMBBELL, SideSetting
from .stance import BENCH, LYING, STANDING, legs_of

WORDS_HIGH = 0.20  # m, room for a tape's words over the head


class SideView(View):
    """From the lifter's right, in the room: forward is to the right, up is up."""

    def __init__(self, axes, *, limits=None, bands=False):
        super().__init__(axes, limits=limits, bands=bands)
        self.setting = SideSetting(axes)
        self.leg = Leg(axes)
        self.far_leg = Leg(axes, FAR_LEGS, z=(0.82, 0.8, 0.81))
        self.far_arm = Arm(axes, FAR_SKIN, z=0.5)
        self.force = Words(axes, rows=1, size=SMALL)
        self.ribs_words = RibsWords(axes, by_sheet((0.012,), two_rows(axes), two_rows(axes)))

    def show(self, scene):
        """Move every artist to ``scene``."""
        size, (cos, sin) = body_size(scene.lifter), scene.turn
        turn = np.array(((cos, sin), (-sin, cos), (0.0, 0.0)))

        def seen(points):
            return points @ turn

        self.draw_body(scene.lifter, scene.lean, scene.legs)
        joints = seen(np.array((scene.gh, scene.elbow, scene.hand, scene.foot)))
        path, elbows, along = seen(scene.path), seen(scene.elbows), scene.along @ turn
        self.show_arm(joints[:3], size)
        self._other_side(scene, size)
        self.girdle.show(scene, seen)
        self.show_path(scene, path)
        self.touch.set_data(*seen(scene.touch)[:, None])
        hand = joints[2]
        held = self.setting.show(scene, seen, hand, along)
        self.pull.show(hand, hand + PULL_LENGTH * along)
        shift, texts, at, side = self._tape_place(scene, joints, elbows, along, size)
        self._frame(scene, joints, path, elbows, held, (texts, at, side), along)
        self.ghost.show(self.anchor)
        self.tape.show(joints[0], joints[3], shift, self.window)
        self.tape.words.show(texts, at, self.window, side)
        self._say_force(scene, hand, along)
        self.ribs_words.show(scene.past_ribs)
        if self.bands:
            self.bands.show(scene.bands, scene.named, seen, self.window, min(at[1] - 0.12, -0.02))

    def draw_body(self, lifter, lean, legs):
        """Trunk, head and one leg of a ``lifter`` leaning by ``lean`` [rad] on ``legs`` (`stance.Legs`)."""
        size, cos, sin = body_size(lifter), math.cos(lean), math.sin(lean)
        turn = np.array(((cos, sin), (-sin, cos)))
        of_trunk = turn * np.array(((lifter.chest_depth,), (size,)))
        self.trunk.put(TRUNK_SIDE @ of_trunk)
        self.pelvis.put(PELVIS_SIDE @ of_trunk)
        self.head.put(HEAD_SIDE @ (size * turn))
        self.hair.put(HAIR_SIDE @ (size * turn))
        self._put_leg(self.leg, legs, size)

    @staticmethod
    def _put_leg(leg, legs, size):
        leg.show(legs.hip, legs.knee, legs.ankle, size)
        leg.shoe.put(turned(SHOE * size, math.cos(legs.foot), math.sin(legs.foot)) + legs.ankle)

    def _other_side(self, scene, size):
        """The other arm and leg, where they are not hidden behind the drawn ones."""
        if scene.body == BENCH:
            self._put_leg(self.far_leg, scene.legs.other, size)
            self.far_arm.show(support_arm(scene, size), size)
        elif self.far_leg.thigh.get_visible():
            self.far_leg.hide()
            self.far_arm.hide()

    def _tape_place(self, scene, joints, elbows, along, size):
        """Where a is drawn: its shift from the shoulder (2,), its words, their place (2,) and side."""
        level = abs(along[0]) > 0.7
        away = along if scene.load_from != "weight" and not level else -along
        outline = np.concatenate([self.head.get_path().vertices, self.trunk.get_path().vertices])
        shoulder, foot = joints[0], joints[3]
        if level:
            near = np.abs(outline[:, 1] - (shoulder[1] + foot[1]) / 2) < abs(scene.a) / 2 + 0.12
            outline = np.concatenate([outline[near], elbows - (0.04, 0.0)])
        far = float((outline @ away).max()) + 0.05 * size
        shift = (far - float(shoulder @ away)) * away
        before, behind = ("below", "above") if level else ("in front", "behind")
        texts = offset_words("a", scene.a, before, behind)
        if level:
            top = max(shoulder[1], foot[1])
            behind_head = min(shoulder[0], float(self.hair.get_path().vertices[:, 0].min())) - 0.03
            right = min(behind_head, (shoulder + shift)[0] + 0.16)
            return shift, texts, (right, top + 0.10), -1.0
        ends = shoulder + shift, foot + shift
        left = min(ends, key=lambda end: end[0])
        return shift, texts, (left[0] - 0.03, left[1] + 0.05), -1.0

    def _room(self, texts, at, side, scale):
        """Corners (2, 2) of the words at so many points for a metre."""
        wide, high = (points / scale for points in self.tape.words.size(texts))
        x = at[0] + (side - 1) / 2 * wide
        return np.array([(x, at[1] - high / 2), (x + wide, at[1] + high / 2)])

    def _frame(self, scene, joints, path, elbows, held, words, along):
        """Fit the window to all that is drawn; on a fixed bar to all of the rep, so that the bar stays and the body rises."""
        far = (self.far_leg.shoe,) if scene.body == BENCH else ()
        legs = () if self.crops else (*self.leg.outlines, *far)
        parts = self.trunk, self.head, self.hair, self.pelvis, *legs
        body = np.concatenate([outline.get_path().vertices for outline in parts])
        hand, ends = joints[2], PULL_LENGTH * along
        hangs = scene.load_from == "body"
        self.anchor = hand.copy() if hangs else np.array(scene.legs.hip)
        if hangs:
            way = hand - path[[0, -1]]
            moved = body if scene.body != LYING else np.concatenate([part.get_path().vertices for part in parts[:3]])
            lowest, highest = moved.min(axis=0) + np.minimum(way, 0.0), moved.max(axis=0) + np.maximum(way, 0.0)
            body = np.concatenate([body, lowest, highest])
            body[-2:, 1] += WORDS_HIGH
            elbows, path = elbows - path + hand, hand[None]
        tips = np.array([hand + 1.4 * ends, path[0] + 1.3 * ends, *(() if self.crops else held)])
        low, high = self.corners(body, tips, path - 0.05, path + 0.05, elbows - 0.045, elbows + 0.045)
        for _ in range(2):  # words are as large at any scale, so they need the more room the smaller the rest is
            room = self._room(*words, self.window.scale_for(low, high))
            low, high = np.minimum(low, room[0]), np.maximum(high, room[1])
        self.window.fit(low, high)

    def _say_force(self, scene, hand, along):
        """Title and force: beside its arrow, or in the title where the picture is small."""
        if self.crops:
            self.put_title(f"from the side, {scene.load}")
            return
        self.put_title("from the side, as the room is" if abs(scene.lean) > LEANS else "from the side")
        tip = hand + 0.9 * PULL_LENGTH * along
        aside = (0.045, 0.0) if abs(along[1]) > 0.7 else (0.0, 0.06 if along[1] >= 0 else -0.06)
        self.force.show((scene.load,), (tip[0] + aside[0], tip[1] + aside[1]), self.window, 1.0 if aside[0] else 0.0)


class HeldView(SideView):
    """A weight in the hand of a standing lifter, with its horizontal way to shoulder and elbow."""

    def __init__(self, axes, *, limits=None):
        super().__init__(axes, limits=limits)
        self.elbow_tape = Dimension(axes, ORANGE)
        self.names_joints, self.top, self.apart = by_sheet((True, 0.50, 0.0), *[(False, 0.66, 11.0)] * 2)

    def show(self, lifter, held):
        """Move every artist to a `mechanics.HeldWeight` of one posture of a ``lifter``."""
        size = body_size(lifter)
        legs = legs_of(lifter, 0.0, STANDING)
        self.draw_body(lifter, 0.0, legs)
        elbow, hand = held.posture.elbow[:2], held.posture.hand[:2]
        self.show_arm(np.array([(0.0, 0.0), elbow, hand]), size)
        self.setting.weight.put(hand + DUMBBELL)
        self.setting.floor.set_data((legs.ankle[0] - 0.2, legs.ankle[0] + 0.3), (legs.floor, legs.floor))
        self.pull.show(hand, hand - [0.0, PULL_LENGTH])
        self.anchor = np.array(legs.hip)
        reach = lifter.reach
        body = [outline.get_path().vertices for outline in (self.trunk, self.hair, self.leg.shoe)]
        self.window.fit(*self.corners(*body, np.array([(-0.22, self.top * size), (reach + 0.13, -reach - 0.2)])))
        self.ghost.show(self.anchor)
        from_shoulder, from_elbow = held.load_distance
        self.tape.show((0.0, 0.0), (hand[0], 0.0), (0.0, 0.385 * size), self.window)
        shoulder, by_elbow = ("shoulder", "elbow") if self.names_joints else ("", "")
        apart = self.apart / self.window.scale
        above = max(0.45 * size, 0.385 * size + apart)
        self.tape.words.show((distance_words(from_shoulder, shoulder),), (0.0, above), self.window, 1.0)
        self.elbow_tape.show(elbow, (hand[0], elbow[1]), (0.0, -reach - 0.12 - elbow[1]), self.window)
        self.elbow_tape.words.show(
            (distance_words(from_elbow, by_elbow),),
            ((elbow[0] + hand[0]) / 2, -reach - 0.12 - max(0.08, apart)),
            self.window,
            0.0,
        )
        self.put_title("from the side")


def distance_words(distance, joint):
    """How far the load's line runs from a joint, as written beside its dimension line.

    ``distance`` [m], forward positive; ``joint`` (str) is empty where there is room for the number only.
    """
    centimetres = round(100 * distance)
    if not joint:
        return f"{abs(centimetres)} cm"
    return f"{abs(centimetres)} cm {'behind' if centimetres < 0 else 'from'} the {joint}"
