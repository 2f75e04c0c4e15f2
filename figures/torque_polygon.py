"""What two torques a shoulder and an elbow can make: a polygon by hand, and the model's at two grips."""

import matplotlib as mpl
import numpy as np
from matplotlib.patches import Polygon

import shoulder_model as sm
from shoulder_model.draw.look import (
    BLACK,
    BLUE,
    GREEN,
    GREY,
    LETTERS,
    ORANGE,
    SMALL,
    STYLE,
    VERMILLION,
    at_projector,
    new_figure,
)
from shoulder_model.draw.stage import Stage
from shoulder_model.repetition import torque_polygon
from shoulder_model.sharing import largest_load

BY_HAND = {"back": (80.0, 0.0), "biceps": (5.0, 30.0), "brachialis": (0.0, 40.0)}  # N m at full activation, invented
PULLS_BY_HAND = {"A": (1.0, 0.6), "B": (1.0, 1.0)}  # N m that 1 kg asks, invented
MAN, PULLDOWN = sm.Lifter.average("men"), sm.pulls["front pulldown"]
LAYOUT = {  # at projector size? -> where things stand; of the axes left edge and width
    False: {  # on a page
        "height": 4.1, "low": 0.16, "high": 0.72, "axes": ((0.055, 0.255), (0.395, 0.255), (0.73, 0.255)), "right": 128,
        "shares ticks": False, "letters": LETTERS, "title": " ", "torque": "shoulder torque [N m]",
        "beside": {"A": 5, "B": -3, "model": -4},
    },
    True: {  # at projector size
        "height": 5.05, "low": 0.225, "high": 0.61, "axes": ((0.095, 0.335), (0.515, 0.21), (0.75, 0.21)), "right": 151,
        "shares ticks": True, "letters": SMALL, "title": "\n", "torque": "shoulder torque\n[N m]",
        "beside": {"A": 8, "B": -7, "model": -10},
    },
}  # fmt: skip


def by_hand(load):
    """The largest load of the three invented muscles, and the torques there."""
    table = np.array(list(BY_HAND.values())).T
    kg = float(largest_load(table[None], np.zeros((1, 2)), np.array([load])).load[0])
    return kg, kg * np.array(load)


def weakest(ratio):
    """Grip ratio -> progress, largest load and polygon where that is smallest."""
    pull = PULLDOWN.change(grip_ratio=ratio)
    rep = sm.rep(MAN, pull)
    point = sm.weakest_point(rep)
    return float(rep.progress[point]), float(rep.largest_load_kg[point]), torque_polygon(MAN, pull, rep, point)


HAND = {name: by_hand(load) for name, load in PULLS_BY_HAND.items()}
MODEL = {ratio: weakest(ratio) for ratio in (1.5, 1.0)}
WORDS = (
    "Three polygons of shoulder torque against elbow torque. By hand, back muscle 80 and 0, biceps 5 and 30, brachialis "
    "0 and 40 N m: a hexagon. "
    + " ".join(
        f"Pull {name}, {load[0]:.0f} and {load[1]:.1f} N m for each kilogram, leaves it at {HAND[name][0]:.0f} kg through the "
        f"{where}."
        for (name, load), where in zip(
            PULLS_BY_HAND.items(),
            ("right side, where the shoulder's muscles are full", "top, where the elbow's are"),
            strict=True,
        )
    )
    + " The model's mean man in a front pulldown: "
    + "; ".join(
        f"grip {ratio:.1f} × at {100 * progress:.0f} % of the way, {kg:.0f} kg, where the elbow has to "
        f"{'bend' if polygon.limit[1] > 0 else 'straighten'}, with {polygon.limit[0]:.0f} N m at the shoulder and "
        f"{abs(polygon.limit[1]):.0f} N m at the elbow"
        for ratio, (progress, kg, polygon) in MODEL.items()
    )
    + "."
)


def hexagon(axes, here):
    """The three muscles by hand: two chains of arrows round the hexagon, two rays."""
    colours = dict(zip(BY_HAND, (BLUE, ORANGE, GREEN), strict=True))
    corners = np.cumsum([(0, 0), *BY_HAND.values()], axis=0)
    outline = np.vstack([corners, corners[-1] - corners])
    axes.add_patch(Polygon(outline, facecolor=GREEN, alpha=0.12))
    for order in (list(BY_HAND), list(BY_HAND)[::-1]):
        at = np.zeros(2)
        for name in order:
            to = at + BY_HAND[name]
            axes.annotate(
                "",
                to,
                at,
                arrowprops={"arrowstyle": "-|>", "color": colours[name], "lw": 2.2, "shrinkA": 0, "shrinkB": 0},
            )
            at = to
    for name, spot in (("back", (28, -9)), ("biceps", (87, 13)), ("brachialis", (88, 37))):
        axes.text(*spot, name, color=colours[name], fontweight="bold", fontsize=here["letters"])
    for name, (kg, end) in HAND.items():
        right = name == "A"
        axes.plot([0, end[0]], [0, end[1]], color=BLACK, ls=":", lw=1.5)
        axes.plot(*end, "X", color=VERMILLION, ms=11)
        axes.text(
            end[0] + here["beside"][name],
            end[1] + (4 if right else 3),
            f"{name}: {kg:.0f} kg",
            color=VERMILLION,
            fontweight="bold",
            ha="left" if right else "right",
            va="center" if right else "bottom",
        )
    axes.set(xlim=(-8, here["right"]), ylim=(-14, 86), title="by hand: three muscles")


def of_model(axes, ratio, here):
    """One grip of the model, arms at no load, ray and limit."""
    progress, kg, polygon = MODEL[ratio]
    axes.add_patch(Polygon(polygon.outline, facecolor=GREEN, alpha=0.12))
    axes.plot(*polygon.outline.T, color=GREEN, lw=2)
    axes.plot(*np.transpose([polygon.unloaded, polygon.limit]), color=BLACK, ls=":", lw=1.5)
    axes.plot(*polygon.unloaded, "o", color=BLACK, ms=6)
    axes.plot(*polygon.limit, "X", color=VERMILLION, ms=11)
    above = polygon.limit[1] > 0
    axes.text(
        polygon.limit[0] + here["beside"]["model"],
        polygon.limit[1] + (7 if above else -3),
        f"{kg:.0f} kg",
        color=VERMILLION,
        fontweight="bold",
        ha="left" if above else "right",
        va="bottom" if above else "top",
    )
    axes.axhline(0, color=GREY, lw=0.6, zorder=0)
    axes.axvline(0, color=GREY, lw=0.6, zorder=0)
    axes.set_title(f"model, grip {ratio:.1f} ×,{here['title']}{100 * progress:.0f} % of the way")


def stage():
    """By hand on the left, then the model at two grips on one scale."""
    here = LAYOUT[at_projector()]
    with mpl.rc_context(STYLE):
        figure = new_figure(11.2, here["height"])
        places = [figure.add_axes([left, here["low"], wide, here["high"]]) for left, wide in here["axes"]]
        hexagon(places[0], here)
        points = np.vstack([polygon.outline for _, _, polygon in MODEL.values()])
        for axes, ratio in zip(places[1:], MODEL, strict=True):
            of_model(axes, ratio, here)
            axes.set(
                xlim=(points[:, 0].min() - 15, points[:, 0].max() + 15),
                ylim=(points[:, 1].min() - 15, points[:, 1].max() + 15),
            )
        for axes in places:
            axes.set_xlabel(here["torque"])
        places[2].tick_params(labelleft=not here["shares ticks"])
        places[0].set_ylabel("elbow torque [N m]")
        return Stage(figure)
