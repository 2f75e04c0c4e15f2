"""An outline from behind with two tapes: as measured in grey, and as it would be.

The breadths at the shoulders and at the waist are the survey's, in step with a person's own tapes; all else is drawn by eye.
Layers are to scale. Points are metres from the middle of the body outward and, from the height of the shoulder joint, up.
"""

from dataclasses import dataclass, replace

import numpy as np

from .artists import label, moving
from .body import FOREARM, OUTLINE_STATURE, UPPER_ARM, Outline, limb, smooth
from .look import BLACK, GREY, PALE, PURPLE, SKY, TRUNK, by_sheet

TAPES = {"shoulders": -0.045, "chest": -0.175, "waist": -0.345}  # height at which each tape lies
CHEST = 0.72  # of the half breadth at the shoulders; by eye
HIP = 0.172
LOW, HIGH = -0.50, 0.20  # the part of the body that is shown
LEFT = 0.36  # from the picture's left edge to the middle of the body
APART = 1.5  # points from the tape's height to each row of words
TURN = np.linspace(-1, 1, 31)


@dataclass(frozen=True)
class Build:
    """Half breadths at the height of the three tapes [m], and stature [m]."""

    shoulders: float
    chest: float
    waist: float
    stature: float

    def grown(self, part, thickness):
        """This build with ``part`` ("shoulders", "chest" or "waist") thicker on each side by ``thickness``. [m]"""
        return replace(self, **{part: getattr(self, part) + thickness})

    @property
    def outline(self):
        """Trunk with the caps of the shoulders, (n, 2). [m]"""
        s, c, w = self.shoulders, self.chest, self.waist
        right = np.array(
            [(0.050, 0.24), (0.052, 0.115), (0.105, 0.080), (s - 0.062, 0.062), (s - 0.016, 0.028), (s, -0.025), (s, -0.075),
             (s - 0.008, -0.13), (s - 0.024, -0.165), (s - 0.05, -0.13), (c + 0.008, -0.10), (c, -0.135), (c, -0.20),
             ((c + w) / 2, -0.275), (w, -0.325), (w, -0.365), ((w + HIP) / 2, -0.43), (HIP, -0.49), (HIP, -0.60)]
        )  # fmt: skip
        right[:, 1] *= self.stature / OUTLINE_STATURE
        return smooth(np.concatenate([right, (right * [-1.0, 1.0])[::-1]]))


class Tape:
    """A tape round the body, seen from behind, and its reading in two rows beside it."""

    def __init__(self, axes):
        self.line = moving(axes, colour=PURPLE, width=2.6, z=5, solid_capstyle="butt")
        self.rows = [label(axes, PURPLE if k else BLACK, va=va) for k, va in enumerate(("bottom", "top"))]
        self.rows[1].set_fontweight("bold")
        self.apart = APART * (HIGH - LOW) / axes.bbox.height

    def show(self, half, height, texts):
        """Round ``half`` a breadth at a ``height`` [m], with both ``texts`` beside the body."""
        self.line.set_data(half * TURN, height - 0.014 * np.sqrt(1 - TURN**2))
        for row, text, apart in zip(self.rows, texts, (self.apart, -self.apart), strict=True):
            row.set_position((LEFT + 0.01, height + apart))
            row.set_text(text)


class OutlineView:
    """Body from behind, layers at its sides, both tapes.

    Parameters
    ----------
    axes : matplotlib.axes.Axes
        Wider than high: the words stand on the right.
    """

    def __init__(self, axes):
        wide = (HIGH - LOW) * axes.bbox.width / axes.bbox.height
        axes.set(xlim=(-LEFT, wide - LEFT), ylim=(LOW, HIGH), aspect="equal", xticks=[], yticks=[])
        axes.set_title("from behind", pad=4, fontsize=by_sheet(None, 10, 10))
        for spine in axes.spines.values():
            spine.set(visible=True, color=PALE)
        self.arms = [Outline(axes, TRUNK, z=0.4) for _ in range(4)]
        self.gone = Outline(axes, PALE, edge="none", z=1)
        self.layer = Outline(axes, SKY, edge="none", z=2)
        self.body = Outline(axes, TRUNK, edge="none", z=3)
        self.before = moving(axes, colour=GREY, width=1.6, style="--", z=4)
        self.now = moving(axes, colour=BLACK, width=1.3, z=4.2)
        self.ghost = moving(axes, colour=GREY, width=1.2, style=":", z=4.1)
        self.tapes = [Tape(axes) for _ in range(2)]

    def show(self, build, upper, muscle, off, texts):
        """Move every artist.

        Parameters
        ----------
        build : Build
            As measured.
        upper : str
            "shoulders" or "chest": where the upper tape lies and the muscle is.
        muscle, off : float
            On each side of it, and off each side of the waist. [m]
        texts : sequence
            Two rows of words for each tape.
        """
        slim = build.grown("waist", -off)
        now = slim.grown(upper, muscle)
        self.gone.put(build.outline)
        self.layer.put(now.outline)
        self.body.put(slim.outline)
        self.before.set_data(*build.outline.T)
        self.now.set_data(*now.outline.T)
        self._show_arms(now)
        size = build.stature / OUTLINE_STATURE
        for tape, part, rows in zip(self.tapes, (upper, "waist"), texts, strict=True):
            tape.show(getattr(now, part), TAPES[part] * size, rows)

    def _show_arms(self, build):
        size, s = build.stature / OUTLINE_STATURE, build.shoulders
        for k, side in enumerate((1.0, -1.0)):
            shoulder, elbow, wrist = (np.array((side * x, y * size)) for x, y in
                                      ((s - 0.054, -0.05), (s - 0.008, -0.33), (s + 0.02, -0.60)))  # fmt: skip
            self.arms[2 * k].put(limb(FOREARM, elbow, wrist, size))
            self.arms[2 * k + 1].put(limb(UPPER_ARM, shoulder, elbow, size))

    def keep(self):
        """Leave the present outline, dotted."""
        self.ghost.set_data(*self.now.get_data())

    def drop(self):
        """Take it away."""
        self.ghost.set_data([], [])
