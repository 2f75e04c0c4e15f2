"""Every pull of the catalogue on one dial by its pull angle, beside the split of the shoulder's torque; blade held."""

import matplotlib as mpl
import numpy as np
from matplotlib.patches import ConnectionPatch, Polygon

import shoulder_model as sm
from shoulder_model.draw.body import HAIR_SIDE, HEAD_SIDE, PELVIS_SIDE, TRUNK_SIDE, body_size
from shoulder_model.draw.look import (
    AXIS_LOOK,
    BLACK,
    EDGE,
    GREY,
    HAIR,
    LEGS,
    LETTERS,
    PALE,
    SKIN,
    SMALL,
    STYLE,
    TRUNK,
    at_projector,
    new_figure,
)  # fmt: skip
from shoulder_model.draw.stage import Stage

LIFTER = sm.Lifter.average("men")
HELD = [pull.change(girdle_travel=0.0) for pull in sm.pulls.values()]
PULLS = sorted(HELD, key=lambda pull: (round(np.degrees(pull.pull_angle)), pull.name))
RADIUS = 0.62  # m, of the dial
LABELS = (0, "0°\noverhead", (-0.2, 0.0)), (90, "90° ahead", (-0.01, -0.05)), (180, "180° down", (-0.19, 0.0))
DEGREES = [round(float(np.degrees(pull.pull_angle))) for pull in PULLS]
WORDS = (
    "Left, a trunk from the side with a dial about the shoulder, 0° overhead, 90° ahead, 180° down; right, the twelve "
    "pulls in the order of their pull angle with the share of each component in the shoulder's torque, shoulder blade held. By "
    "angle: "
    + ", ".join(f"{pull.name} {angle}°" for pull, angle in zip(PULLS, DEGREES, strict=True))
    + ". Seated row wide: more horizontal abduction than extension and no adduction; pull-up: more adduction than "
    "extension; chin-up, straight-arm pulldown and one-arm row: extension alone; behind-the-neck pulldown: flexion instead "
    "of extension."
)
LAYOUT = {  # at projector size? -> where things stand
    False: {  # on a page
        "dial": [0.0, 0.02, 0.34, 0.96], "split": [0.592, 0.12, 0.40, 0.80], "thread": -0.48, "letters": SMALL + 1,
        "words": LETTERS, "marks": 7, "apart": 0.24, "key": 0.36, "side": "center",
    },
    True: {  # at projector size
        "dial": [0.01, 0.0, 0.32, 0.92], "split": [0.64, 0.135, 0.35, 0.78], "thread": -0.87, "letters": SMALL, "words": SMALL,
        "marks": 5, "apart": 0.26, "key": 0.1, "side": "right",
    },
}  # fmt: skip


def shares(pull):
    """Torque components over the torque's size, where the rep asks most; weightless arm. (3,)"""
    torque = sm.rep(LIFTER, pull, arm_weight=False).shoulder_torque.values
    size = np.linalg.norm(torque, axis=-1)
    return torque[size.argmax()] / size.max()


def dial(axes):
    """Trunk, arc and one ray for each pull angle."""
    size = body_size(LIFTER)
    of_trunk = LIFTER.chest_depth, size
    parts = TRUNK_SIDE * of_trunk, PELVIS_SIDE * of_trunk, HEAD_SIDE * size, HAIR_SIDE * size
    for part, colour in zip(parts, (TRUNK, LEGS, SKIN, HAIR), strict=True):
        axes.add_patch(Polygon(part, facecolor=colour, edgecolor=EDGE, zorder=1))
    turn = np.linspace(0, np.pi, 91)
    axes.plot(RADIUS * np.sin(turn), RADIUS * np.cos(turn), color=GREY, lw=1.5)
    for angle in sorted(set(DEGREES)):
        way = np.array([np.sin(np.radians(angle)), np.cos(np.radians(angle))])
        axes.annotate(
            "", RADIUS * way, 0.12 * way, arrowprops={"arrowstyle": "-|>", "color": BLACK, "lw": 1.4, "shrinkB": 0}
        )
    for angle, words, at in LABELS:
        x, y = RADIUS * np.sin(np.radians(angle)) + at[0], RADIUS * np.cos(np.radians(angle)) + at[1]
        axes.text(x, y, words, ha="center" if angle != 90 else "right", va="center", fontweight="bold")
    axes.plot(0, 0, "ko", ms=6, zorder=6)
    axes.set(xlim=(-0.36, 0.7), ylim=(-0.74, 0.74), aspect="equal")
    axes.set_axis_off()


def split(axes, here):
    """One row a pull: three marks at the share of each torque."""
    rows = np.arange(len(PULLS))
    parts = np.array([shares(pull) for pull in PULLS])
    axes.axvline(0, color=BLACK, lw=0.8)
    for i, (colour, _, marker, words) in enumerate(AXIS_LOOK.values()):
        y = rows + (i - 1) * here["apart"]
        axes.hlines(y, 0, parts[:, i], color=colour, lw=2.5)
        axes.plot(parts[:, i], y, color=colour, ls="None", marker=marker, ms=here["marks"], label=words)
    axes.hlines(rows[:-1] + 0.5, -1.1, 1.1, color=PALE, lw=0.8)
    axes.set(xlim=(-1.1, 1.1), ylim=(len(PULLS) - 0.5, -0.5), xticks=[-1, -0.5, 0, 0.5, 1], yticks=rows)
    axes.set_xticklabels(["−1", "−½", "0", "½", "1"])
    axes.set_yticklabels([f"{pull.name}  {angle}°" for pull, angle in zip(PULLS, DEGREES, strict=True)])
    axes.tick_params(axis="y", length=0)
    axes.set_xlabel("share of the torque's size; negative: the opposite way", loc=here["side"])
    axes.legend(
        loc="lower center",
        bbox_to_anchor=(here["key"], 1.0),
        ncols=3,
        columnspacing=1.2,
        handletextpad=0.2,
        fontsize=here["letters"],
    )


def stage():
    """The dial, the rows, and a thread from each ray to its row."""
    here = LAYOUT[at_projector()]
    with mpl.rc_context(STYLE | {**dict.fromkeys(("font.size", "axes.labelsize"), here["words"])}):
        figure = new_figure(11.2, 5.4)
        left, right = figure.add_axes(here["dial"]), figure.add_axes(here["split"])
        dial(left)
        split(right, here)
        for row, angle in enumerate(np.radians(DEGREES)):
            figure.add_artist(
                ConnectionPatch(
                    (RADIUS * np.sin(angle), RADIUS * np.cos(angle)), (here["thread"], 1 - (row + 0.5) / len(PULLS)),
                    "data", "axes fraction", axesA=left, axesB=right, color="#b4b4b4", lw=0.9,
                )
            )  # fmt: skip
        return Stage(figure)
