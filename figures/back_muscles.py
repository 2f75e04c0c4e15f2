"""The muscles of the back that show from behind and from the side: a schematic drawing, outline to the survey's mean man."""

import matplotlib as mpl
import numpy as np
from matplotlib.patches import Ellipse, Polygon

from shoulder_model.draw.artists import rounded
from shoulder_model.draw.look import BLACK, BLUE, GREY, LETTERS, SKY, STYLE, TRUNK, new_figure
from shoulder_model.draw.stage import Stage
from shoulder_model.people import survey_quantity

BONE, ALL, WAIST = (
    100 * survey_quantity("men", name)[0] for name in ("biacromial_breadth", "bideltoid_breadth", "waist_breadth")
)
WORDS = (
    "A back from behind and from the side with its muscles. On the right half, at the surface: trapezius in three parts from "
    "neck and spine to the shoulder blade; rear deltoid over the shoulder; infraspinatus on the blade; teres major below "
    "it; latissimus dorsi from lower spine and pelvis to the upper arm, the widest. On the left half, underneath and dashed: "
    "rhomboids between spine and blade, erectors along the spine. From the side the layers at the back of the trunk show as "
    f"thickness. Below, the mean man's shoulders: {ALL:.1f} cm across, {BONE:.1f} cm of it between the bony points; waist {WAIST:.1f} cm."
)
PLAIN, DASHED = "-", "--"
WIDE = {"facecolor": SKY, "hatch": "//", "edgecolor": BLUE}
THICK = {"facecolor": "#f6d48f", "hatch": "..", "edgecolor": "#9a6a00"}
UNDER = {"facecolor": "none", "edgecolor": "#9a6a00", "linestyle": DASHED, "linewidth": 2.2}
# Schematic outlines in cm, shoulder height at 0; no atlas was traced.
BODY = [
    (5.5, 19), (5.8, 10), (10, 6.4), (18, 3), (23.5, 0), (25.6, -5), (26, -12), (27.5, -24), (28.5, -33), (23, -33),
    (21.5, -24), (19.2, -12.5), (17.9, -18), (16.9, -26), (16.2, -34), (16.6, -42), (18.2, -50), (18.6, -54),
]  # fmt: skip
BEHIND = {
    "trapezius upper": ([(0, 16), (1.8, 16), (4.6, 10), (10, 6), (18.6, 2.6), (17.6, 1), (8, 2.6), (0, 3.4)], THICK),
    "trapezius middle": ([(0, 3.4), (8, 2.6), (17.6, 1), (15.6, -1.2), (8.2, -3.6), (0, -5)], THICK),
    "trapezius lower": ([(0, -5), (8.2, -3.6), (6.2, -10), (3.2, -19), (0, -29)], THICK),
    "infraspinatus": ([(7.6, -4.8), (11, -3.8), (15, -6), (19.4, -8.4), (16, -9.8), (11, -13), (8.4, -14)], THICK),
    "rear deltoid": (
        [(11, -3), (17, -0.4), (20.8, 1.2), (24.6, -2), (25.7, -8), (25.9, -13), (25.4, -18), (23, -15), (19.6, -8), (15, -5.6)],
        WIDE,
    ),
    "teres major": ([(8.8, -14.6), (11, -13.4), (15.8, -10.2), (19.8, -9), (20.2, -10.8), (16, -13.6), (11, -17)], WIDE),
    "latissimus dorsi": (
        [(2.6, -19.6), (8.8, -16.8), (11, -17.4), (16, -13.8), (20.4, -10.4), (20, -12), (18.9, -14.4), (17.9, -18.5), (17, -26),
         (15.8, -34), (13.4, -43.5), (10.5, -44.5), (6, -36), (2, -27)],
        WIDE,
    ),
}  # fmt: skip
SHEET = [
    (0, -17),
    (3.2, -18.5),
    (3, -26),
    (7, -35),
    (11.5, -43.5),
    (11, -45.5),
    (5, -46.5),
    (0, -50),
]  # the tendon of the lat
UNDERNEATH = {
    "rhomboids": [(-0.2, 6.5), (-0.2, -6), (-8, -15), (-7.2, -1.5)],
    "erectors": [(-0.9, 9), (-2.4, 9), (-3, -10), (-4.6, -28), (-5.4, -38), (-4, -48), (-0.9, -49)],
}
BLADE = [(-7.4, -1.2), (-17, 1.5), (-18.8, 0.6), (-17, -5.5), (-13, -11), (-8.8, -15), (-7.2, -10)]
PROFILE = [
    (-5.6, 19), (-5.6, 11), (-8.2, 6), (-11.8, -3), (-12.8, -12), (-11.2, -23), (-7.8, -35), (-9.4, -44), (-12, -54), (9, -54),
    (10.5, -44), (10.8, -36), (11.6, -24), (12.2, -14), (9, -4), (4.6, 3), (4, 10), (5, 19),
]  # fmt: skip
ARM = [(-5.5, 0), (-1, 3), (4, 1), (5.5, -6), (8, -18), (12, -31), (6.5, -33), (2.5, -23), (-1, -14), (-5, -7)]
BESIDE = {
    "trapezius upper": ([(-5.4, 14), (-5.6, 10.5), (-8.2, 5.8), (-7, 3), (-1.5, 3), (-1.5, 5.5), (-3, 10)], THICK),
    "trapezius middle and lower": (
        [(-8.2, 5.6), (-11.8, -3.2), (-12.7, -12), (-11, -23), (-9.6, -18), (-9.4, -8), (-6, -0.5), (-5, 3)],
        THICK,
    ),
    "infraspinatus": ([(-9.2, -4.5), (-5.6, -4.6), (-3, -10), (-5, -12), (-9.2, -12.5)], THICK),
    "erectors": ([(-10.9, -24), (-7.9, -35), (-9.2, -43.5), (-9.4, -46), (-6.4, -46), (-5.2, -36), (-8.4, -25)], THICK),
    "latissimus dorsi": (
        [(-9.2, -16.5), (-5, -14.5), (0, -12), (1, -15), (1.6, -22), (-1.5, -33), (-3.5, -43), (-6, -43.5), (-4.8, -36), (-8, -25)],
        WIDE,
    ),
    "teres major": ([(-9.1, -13), (-5, -12.4), (-1, -10), (-0.4, -12), (-5, -14.4), (-9, -16.2)], WIDE),
    "rear deltoid": ([(-5.6, 0), (-1, 2.8), (0.6, -2), (2.5, -9), (4.6, -17), (1, -14), (-4.6, -6.5)], WIDE),
}  # fmt: skip
LABELS_BEHIND = {  # words -> (label height, place it points to)
    "trapezius upper": (9.5, (9, 5.2)), "trapezius middle": (4.5, (14, 1)), "rear deltoid": (-2, (24, -5)),
    "infraspinatus": (-8, (15, -7.6)), "teres major": (-14, (17.5, -11)), "latissimus dorsi": (-40, (13, -31)),
}  # fmt: skip
LABELS_UNDER = {"shoulder blade": (4.5, (-15, 0)), "rhomboids": (-8, (-5, -7)), "erectors": (-40, (-4.6, -36))}
LABELS_BESIDE = {
    "trapezius upper": (9.5, (-5, 6)), "trapezius,\nmiddle and lower": (1, (-10.6, -4)), "infraspinatus": (-9, (-7.5, -9)),
    "teres major": (-15.5, (-7, -14)), "latissimus dorsi": (-29, (-5, -27)), "erectors": (-38, (-7, -37)),
}  # fmt: skip


def shape(axes, corners, z, **look):
    """One closed outline with soft corners."""
    axes.add_patch(Polygon(rounded(corners, 3), zorder=z, **({"linewidth": 1.2} | look)))


def points_to(axes, words, at, place, side, **more):
    """Words beside the body with a thin line to what they name."""
    x, y = at
    axes.plot([x, place[0]], [y, place[1]], color=BLACK, lw=0.9, marker="o", ms=4, markevery=[1], zorder=8)
    axes.text(x + 0.8 * side, y, words, ha="left" if side > 0 else "right", va="center", zorder=9, **more)


def breadths(axes):
    """Bone and soft tissue of the shoulders, and the waist, to scale."""
    for y, half, words, look in (
        (-61, ALL / 2, f"shoulders {ALL:.1f} cm", {"color": BLUE, "lw": 7}),
        (-61, BONE / 2, f"bony points {BONE:.1f} cm", {"color": BLACK, "lw": 3.5}),
        (-66.5, WAIST / 2, f"waist {WAIST:.1f} cm", {"color": GREY, "lw": 7}),
    ):
        axes.plot([-half, half], [y, y], solid_capstyle="butt", zorder=4, **look)
        if words.startswith("bony"):
            axes.text(0, y + 1.6, words, ha="center", va="bottom", fontsize=LETTERS)
        else:
            axes.text(ALL / 2 + 1.5, y, words, ha="left", va="center", fontsize=LETTERS)


def behind(axes):
    """The back: surface on the right half, what lies under it on the left."""
    axes.add_patch(Ellipse((0, 24), 15, 19, facecolor=TRUNK, edgecolor=GREY))
    mirrored = [(-x, y) for x, y in reversed(BODY)]
    shape(axes, np.vstack([BODY, mirrored]), 2, facecolor=TRUNK, edgecolor=GREY)
    shape(axes, SHEET, 3, facecolor="#d5eaf7", edgecolor=BLUE, linestyle=":")
    shape(axes, BLADE, 3, facecolor="white", edgecolor=GREY)
    for corners in UNDERNEATH.values():
        shape(axes, corners, 4, **UNDER)
    for name, (corners, look) in BEHIND.items():
        shape(axes, corners, 5 if name != "trapezius lower" else 5.5, **look)
    axes.plot([0, 0], [16, -50], color=BLACK, lw=1, ls=":", zorder=6)
    for name, (y, place) in LABELS_BEHIND.items():
        points_to(axes, name, (30, y), place, 1)
    for name, (y, place) in LABELS_UNDER.items():
        points_to(axes, name, (-30, y), place, -1)
    axes.plot([1.6, 1.6], [-50.4, -22], color=BLACK, lw=0.9, marker="o", ms=4, markevery=[1], zorder=8)
    axes.text(1.6, -52.4, "trapezius lower", ha="center", va="center")
    axes.text(-30, 15, "left half:\nunderneath", ha="right", va="center", fontstyle="italic")
    axes.text(30, 15, "right half:\nsurface", ha="left", va="center", fontstyle="italic")
    breadths(axes)


def beside(axes):
    """The trunk from its right side, facing right."""
    axes.add_patch(Ellipse((1, 24), 18, 19, facecolor=TRUNK, edgecolor=GREY))
    shape(axes, PROFILE, 2, facecolor=TRUNK, edgecolor=GREY)
    for name, (corners, look) in BESIDE.items():
        shape(axes, corners, 6 if name == "rear deltoid" else 4, **look)
    shape(axes, ARM, 5, facecolor="#e0d6cb", edgecolor=GREY)
    for name, (y, place) in LABELS_BESIDE.items():
        points_to(axes, name, (-17, y), place, -1)
    points_to(axes, "rear\ndeltoid", (14, 5), (-1.5, -2), 1)


def key(axes):
    """What the two fills say."""
    for y, look, words in ((-62.5, WIDE, "mostly width, from behind"), (-68, THICK, "mostly thickness, from the side")):
        axes.add_patch(mpl.patches.Rectangle((-31, y), 5, 3.6, **look))
        axes.text(-24.5, y + 1.8, words, va="center", ha="left")


def stage():
    """From behind, and from the side."""
    with mpl.rc_context(STYLE | {"hatch.linewidth": 0.7}):
        figure = new_figure(11.2, 6.35)
        for left, wide, limits, title, fill in (
            (0.0, 0.575, (-55, 58), "from behind", behind),
            (0.575, 0.425, (-46, 37.5), "from the right side", beside),
        ):
            axes = figure.add_axes([left, 0.01, wide, 0.94])
            axes.set(xlim=limits, ylim=(-69.5, 34.5), aspect="equal")
            axes.set_axis_off()
            axes.set_title(title, fontweight="bold")
            fill(axes)
        key(axes)
        return Stage(figure)
