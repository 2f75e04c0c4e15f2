"""The muscles of the back that show from behind and from the side: a schematic drawing, outline to the survey's mean man."""

import matplotlib as mpl
import numpy as np
from matplotlib.patches import Ellipse, Polygon

from shoulder_model.draw.artists import rounded
from shoulder_model.draw.look import (
    BLACK,
    BLUE,
    GREY,
    LETTERS,
    SKY,
    SMALL,
    STYLE,
    TRUNK,
    at_projector,
    new_figure,
)
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
NAMED_BEHIND = {  # words -> place they point to
    "trapezius upper": (9, 5.2), "trapezius middle": (14, 1), "rear deltoid": (24, -5), "infraspinatus": (15, -7.6),
    "teres major": (17.5, -11), "latissimus dorsi": (13, -31),
}  # fmt: skip
NAMED_UNDER = {"shoulder blade": (-15, 0), "rhomboids": (-5, -7), "erectors": (-4.6, -36)}
NAMED_BESIDE = {
    "trapezius upper": (-5, 6), "trapezius,\nmiddle and lower": (-10.6, -4), "infraspinatus": (-7.5, -9),
    "teres major": (-7, -14), "latissimus dorsi": (-5, -27), "erectors": (-7, -37),
}  # fmt: skip
LAYOUT = {  # at projector size? -> where things stand; lengths of the body in cm, of the sheet in shares
    False: {  # on a page
        "letters": LETTERS, "share": 0.575, "low": 0.01, "high": 0.94,
        "titles": ("from behind", "from the right side"), "title": {},
        "behind": (-55, 58), "beside": (-46, 37.5), "up": (-69.5, 34.5), "halves": 15,
        "behind heights": (9.5, 4.5, -2, -8, -14, -40), "under heights": (4.5, -8, -40),
        "beside heights": (9.5, 1, -9, -15.5, -29, -38),
        "breadths": (-61, -61, -66.5), "bony": (0, 1.6, "center", "bottom"), "key": (-31, -62.5, -68),
    },
    True: {  # at projector size
        "letters": SMALL, "share": 0.595, "low": 0.0, "high": 1.0, "titles": ("from behind", "from the\nright side"),
        "title": {"loc": "left", "y": 0.955, "va": "top"},
        "behind": (-70, 70), "beside": (-58, 37), "up": (-71.5, 34), "halves": 19,
        "behind heights": (10.5, 4.9, -0.7, -6.3, -12, -40), "under heights": (4.5, -8, -40),
        "beside heights": (10.5, 1, -8, -14, -29, -38),
        "breadths": (-58, -63.3, -68.6), "bony": (ALL / 2 + 1.5, 0, "left", "center"), "key": (-51.5, -63.5, -69.5),
    },
}  # fmt: skip


def shape(axes, corners, z, **look):
    """One closed outline with soft corners."""
    axes.add_patch(Polygon(rounded(corners, 3), zorder=z, **({"linewidth": 1.2} | look)))


def points_to(axes, words, at, place, side, **more):
    """Words beside the body with a thin line to what they name."""
    x, y = at
    axes.plot([x, place[0]], [y, place[1]], color=BLACK, lw=0.9, marker="o", ms=4, markevery=[1], zorder=8)
    axes.text(x + 0.8 * side, y, words, ha="left" if side > 0 else "right", va="center", zorder=9, **more)


def breadths(axes, here):
    """Bone and soft tissue of the shoulders, and the waist, to scale."""
    beside = ALL / 2 + 1.5, 0, "left", "center"
    bars = (
        (ALL / 2, f"shoulders {ALL:.1f} cm", beside, {"color": BLUE, "lw": 7}),
        (BONE / 2, f"bony points {BONE:.1f} cm", here["bony"], {"color": BLACK, "lw": 3.5}),
        (WAIST / 2, f"waist {WAIST:.1f} cm", beside, {"color": GREY, "lw": 7}),
    )
    for y, (half, words, (x, up, ha, va), look) in zip(here["breadths"], bars, strict=True):
        axes.plot([-half, half], [y, y], solid_capstyle="butt", zorder=4, **look)
        axes.text(x, y + up, words, ha=ha, va=va)


def behind(axes, here):
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
    for y, (name, place) in zip(here["behind heights"], NAMED_BEHIND.items(), strict=True):
        points_to(axes, name, (30, y), place, 1)
    for y, (name, place) in zip(here["under heights"], NAMED_UNDER.items(), strict=True):
        points_to(axes, name, (-30, y), place, -1)
    axes.plot([1.6, 1.6], [-50.4, -22], color=BLACK, lw=0.9, marker="o", ms=4, markevery=[1], zorder=8)
    axes.text(1.6, -52.4, "trapezius lower", ha="center", va="center")
    axes.text(-30, here["halves"], "left half:\nunderneath", ha="right", va="center", fontstyle="italic")
    axes.text(30, here["halves"], "right half:\nsurface", ha="left", va="center", fontstyle="italic")
    breadths(axes, here)


def beside(axes, here):
    """The trunk from its right side, facing right."""
    axes.add_patch(Ellipse((1, 24), 18, 19, facecolor=TRUNK, edgecolor=GREY))
    shape(axes, PROFILE, 2, facecolor=TRUNK, edgecolor=GREY)
    for name, (corners, look) in BESIDE.items():
        shape(axes, corners, 6 if name == "rear deltoid" else 4, **look)
    shape(axes, ARM, 5, facecolor="#e0d6cb", edgecolor=GREY)
    for y, (name, place) in zip(here["beside heights"], NAMED_BESIDE.items(), strict=True):
        points_to(axes, name, (-17, y), place, -1)
    points_to(axes, "rear\ndeltoid", (14, 5), (-1.5, -2), 1)
    key(axes, *here["key"])


def key(axes, x, *heights):
    """What the two fills say."""
    looks = ((WIDE, "mostly width, from behind"), (THICK, "mostly thickness, from the side"))
    for y, (look, words) in zip(heights, looks, strict=True):
        axes.add_patch(mpl.patches.Rectangle((x, y), 5, 3.6, **look))
        axes.text(x + 6.5, y + 1.8, words, va="center", ha="left")


def stage():
    """From behind, and from the side."""
    here = LAYOUT[at_projector()]
    with mpl.rc_context(STYLE | {"hatch.linewidth": 0.7, "font.size": here["letters"]}):
        figure = new_figure(11.2, 6.35)
        parts = (0.0, here["share"], here["behind"], behind), (here["share"], 1 - here["share"], here["beside"], beside)
        for title, (left, wide, limits, fill) in zip(here["titles"], parts, strict=True):
            axes = figure.add_axes([left, here["low"], wide, here["high"]])
            axes.set(xlim=limits, ylim=here["up"], aspect="equal")
            axes.set_axis_off()
            axes.set_title(title, fontweight="bold", **here["title"])
            fill(axes, here)
        return Stage(figure)
