"""What every view of a lifter shares: arm, leg, ghost, and a `View` with trunk, head, girdle, line of pull and one tape distance.

Where the shoulder blade carries the GH centre, the arm and both tape distances start there. The outlines are drawn by eye
(`body`).
"""

import math

import numpy as np

from ..words import LEAST_TURN_DEG
from .artists import Arrow, moving
from .blade import ShoulderGirdle
from .body import FIST, FOREARM, SHANK, THIGH, UPPER_ARM, Outline, limb
from .dimension import Dimension, Window, text_width, words_on
from .look import BLACK, EDGE, GREY, HAIR, LEGS, LETTERS, PALE, SHOES, SKIN, SMALL, TRUNK, by_sheet
from .muscle_bands import MuscleBands
from .setting import bench_top
from .stance import bent

PULL_LENGTH = 0.17  # m, drawn length of the arrow along the pull
LEANS = 0.01  # rad; with less the trunk counts as upright


class Arm:
    """Upper arm, forearm and fist: three outlines."""

    def __init__(self, axes, colour=SKIN, *, z=3.0):
        self.upper = Outline(axes, colour, z=z)
        self.fore = Outline(axes, colour, z=z + 0.1)
        self.fist = Outline(axes, colour, z=z + 0.3)

    def show(self, joints, size):
        """Move to shoulder, elbow and hand, ``joints`` three (2,); ``size`` as of `body.body_size`. [m]"""
        shoulder, elbow, hand = joints
        self.upper.put(limb(UPPER_ARM, shoulder, elbow, size))
        self.fore.put(limb(FOREARM, elbow, hand, size))
        dx, dy = hand[0] - elbow[0], hand[1] - elbow[1]
        long = math.hypot(dx, dy) or 1.0
        cos, sin = (dx / long, dy / long) if long > 0.03 else (0.0, 1.0)
        self.fist.put(
            FIST @ np.array(((hand[0], hand[1]), (0, 0), (size * cos, size * sin), (-size * sin, size * cos)))
        )

    @property
    def outlines(self):
        """All three."""
        return self.upper, self.fore, self.fist

    def hide(self):
        """Take it away."""
        for outline in self.outlines:
            outline.set_visible(False)


class Leg:
    """Thigh, shank and shoe: three outlines."""

    def __init__(self, axes, colour=LEGS, *, z=(1.3, 1.22, 1.24)):
        self.thigh, self.shank = (Outline(axes, colour, z=height) for height in z[:2])
        self.shoe = Outline(axes, SHOES, z=z[2])

    @property
    def outlines(self):
        """All three."""
        return self.thigh, self.shank, self.shoe

    def show(self, hip, knee, ankle, size):
        """Move thigh and shank to their joints (2,). [m]"""
        self.thigh.put(limb(THIGH, hip, knee, size))
        self.shank.put(limb(SHANK, knee, ankle, size))

    def hide(self):
        """Take it away."""
        for outline in self.outlines:
            outline.set_visible(False)


class Ghost:
    """Grey outlines of what was kept, held by a place in the room that stays."""

    def __init__(self, axes, number):
        self.lines = [moving(axes, colour=GREY, width=1.8, z=4.4, alpha=0.75) for _ in range(number)]
        self.points = []

    def keep(self, outlines, anchor):
        """Hold these `Outline` as they stand about ``anchor`` (2,). [m]"""
        self.points = [outline.get_path().vertices - anchor for outline in outlines]
        self.show(anchor)

    def show(self, anchor):
        """Move with ``anchor`` (2,). [m]"""
        for line, points in zip(self.lines, self.points, strict=False):
            line.set_data(*(points + anchor).T)

    def drop(self):
        """Take it away."""
        self.points = []
        for line in self.lines:
            line.set_data([], [])

    def get_xdata(self):
        """Abscissas of all its points, (n,); empty where nothing is kept. [m]"""
        return np.concatenate([line.get_xdata() for line in self.lines])


class View:
    """Shared parts of the views: trunk, head, girdle, arm, path, line of pull, one tape distance, ghost.

    On a projector legs and machine may reach out of the picture, so that the rest is larger.

    Parameters
    ----------
    axes : matplotlib.axes.Axes
        In its place in the figure.
    limits : tuple, optional
        Left, right, bottom, top of what is shown; by default the picture fits itself to the lifter. [m]
    bands : bool
        Whether a scene's muscles can be drawn.
    """

    def __init__(self, axes, *, limits=None, bands=False):
        self.axes, self.window = axes, Window(axes, limits)
        self.least, self.crops = by_sheet((0.0, False), *[(SMALL, limits is None)] * 2)
        for side in axes.spines.values():
            side.set_color(PALE)
            side.set_visible(True)
        self.title = axes.text(
            0.5, 1.012, "", ha="center", va="bottom", fontsize=LETTERS, animated=True, transform=axes.transAxes
        )
        self.trunk = Outline(axes, TRUNK, z=1.2)
        self.pelvis = Outline(axes, LEGS, z=1.25)
        self.head = Outline(axes, SKIN, z=1.27)
        self.hair = Outline(axes, HAIR, z=1.28, width=0.6)
        self.girdle = ShoulderGirdle(axes)
        self.path = moving(axes, colour=GREY, width=1.2, style=":", z=2)
        self.touch = moving(
            axes, colour=GREY, width=0, style="None", marker="x", markersize=8, z=4.2, markeredgewidth=2
        )
        self.pull = Arrow(axes, head=0.05, width=2.4, z=6.0)
        self.drawn_arm = Arm(axes)
        self.arm = moving(
            axes, colour=EDGE, width=1.0, z=5, marker="o", markersize=4.5, markerfacecolor=BLACK, markeredgecolor=BLACK
        )
        self.tape = Dimension(axes)
        self.ghost = Ghost(axes, 5)
        self.bands = MuscleBands(axes) if bands else None
        self.anchor = np.zeros(2)

    def put_title(self, words):
        """``words`` over the picture, in smaller letters where it is narrow; where too small, without what follows a comma."""
        room = self.window.wide - 2.0
        if LETTERS * room < self.least * text_width(words):
            words, _, _ = words.partition(",")
        self.title.set_text(words)
        fits = min(1.0, room / text_width(words))
        self.title.set_fontsize(LETTERS * fits)

    def show_arm(self, joints, size):
        """Shoulder, elbow, hand as ``joints`` (3, 2). [m]"""
        self.arm.set_data(*joints.T)
        self.drawn_arm.show(joints.tolist(), size)

    def show_path(self, scene, path):
        """The way of the hand, ``path`` (n, 2); on a fixed bar it does not move. [m]"""
        self.path.set_data(*(((), ()) if scene.load_from == "body" else path.T))

    def corners(self, *points):
        """Lowest and highest corner of several (n, 2), with what was kept. [m]"""
        parts = [*points, *(kept + self.anchor for kept in self.ghost.points)]
        every = np.concatenate(parts)
        return every.min(axis=0), every.max(axis=0)

    @property
    def kept_outlines(self):
        """Trunk, head and arm, as `keep` leaves them behind."""
        return self.trunk, self.head, *self.drawn_arm.outlines

    def keep(self):
        """Leave trunk, head and arm as they stand as a grey outline."""
        self.ghost.keep(self.kept_outlines, self.anchor)

    def drop(self):
        """Take the ghost away."""
        self.ghost.drop()


def offset_words(letter, offset, positive, negative):
    """A tape distance as read off, two rows of words: letter and centimetres, which side of the shoulder; ``offset`` [m]."""
    side = "in line" if abs(offset) < 5e-4 else positive if offset > 0 else negative
    return f"{letter} {abs(100 * offset):.1f} cm", side


class RibsWords:
    """At the lower left, by how much the elbow was turned out to clear the ribs, in one row or two.

    ``heights`` of the rows are shares of the picture.
    """

    def __init__(self, axes, heights):
        self.rows = [words_on(axes, ha="left", va="bottom", transform=axes.transAxes) for _ in heights]
        for words, height in zip(self.rows, heights, strict=True):
            words.set_position((0.02, height))

    def get_text(self):
        """What is said now."""
        return " ".join(words.get_text() for words in self.rows).strip()

    def show(self, turn):
        """Say a ``turn`` [rad]; nothing where it rounds to none."""
        degrees = np.degrees(turn)
        texts = (f"elbow turned out {degrees:.0f}°", "past the ribs") if degrees > LEAST_TURN_DEG else ("", "")
        for words, text in zip(self.rows, texts if len(self.rows) == 2 else (" ".join(texts).strip(),), strict=True):
            words.set_text(text)


def two_rows(axes):
    """Heights of two rows of small words at the lower edge, in shares of the picture."""
    return 16.0 / axes.bbox.height, 3.0 / axes.bbox.height


def mirrored(points):
    """Points (..., 2) of the right side as those of the left, in a view with the midline at 0."""
    return np.asarray(points) * [-1.0, 1.0]


def support_arm(scene, size):
    """Shoulder, elbow and hand of the other arm, on the bench where it reaches it, three (2,) in the room. [m]"""
    lifter = scene.lifter
    down = min(-bench_top(scene.legs, size) - 0.03, 0.995 * lifter.reach)
    hand = (0.03, -max(down, 0.25))
    return (0.0, 0.0), bent((0.0, 0.0), hand, lifter.upper_arm, lifter.forearm, -1.0), hand
