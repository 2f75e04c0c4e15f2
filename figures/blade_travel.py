"""How the blade carries the shoulder: a wide row from above and a pulldown from the front, at full reach and at the end."""

import matplotlib as mpl
import numpy as np

import shoulder_model as sm
from shoulder_model.draw.artists import rounded
from shoulder_model.draw.look import (
    BLACK,
    BLUE,
    GREEN,
    GREY,
    PURPLE,
    SKIN,
    STYLE,
    TRUNK,
    VERMILLION,
    at_projector,
    new_figure,
)
from shoulder_model.draw.stage import Stage
from shoulder_model.sources import fact

MAN = sm.Lifter.average("men")
ROW, PULLDOWN = (sm.pulls[name] for name in ("seated row wide", "front pulldown"))
SC, HALF = sm.mechanics.sc_joint(MAN), MAN.gh_breadth / 2
RADIUS = np.linalg.norm(SC)
REPS = {pull: sm.rep(MAN, pull, work=False) for pull in (ROW, PULLDOWN)}
CARRIED = {pull: REPS[pull].gh_centre.values for pull in REPS}
BACK, DOWN = CARRIED[ROW][0, 0] - CARRIED[ROW][-1, 0], CARRIED[PULLDOWN][0, 1] - CARRIED[PULLDOWN][-1, 1]
LEVER = ROW.hand_offset(MAN) + HALF - fact("sc_from_midline")
PULL_LENGTH = 0.16  # m on the picture
REACH_AT = {  # at projector size? -> the row's "reach" from its shoulder [m]
    False: (-0.01, -0.075),
    True: (-0.185, -0.075),
}


def turned(pull, axis):
    """How far the collarbone turns over the rep. [deg]"""
    turns = REPS[pull].girdle_posture.sel(girdle_axis=axis).values
    return np.degrees(turns[-1] - turns[0])


def centimetres(metres):
    """A length as written in the picture, without its unit."""
    return f"{100 * metres:.1f}"


WORDS = (
    f"The right shoulder twice, at full reach and at the end of the pull. Left, from above, a wide row: the collarbone turns "
    f"back by {turned(ROW, 'retraction'):.0f}° about the joint beside the breastbone, and the shoulder's centre, "
    f"{100 * RADIUS:.0f} cm away, is carried back by {centimetres(BACK)} cm. The line of pull passes that joint at "
    f"{centimetres(LEVER)} cm all the way. Right, from the front, a pulldown: the collarbone comes down by "
    f"{turned(PULLDOWN, 'depression'):.0f}° and back by {turned(PULLDOWN, 'retraction'):.0f}°; the shoulder's centre is "
    f"carried down by {centimetres(DOWN)} cm."
)


def from_above(points):
    """On the page: forward is down, the lifter's right is on the left."""
    return np.stack([-HALF - points[..., 2], -points[..., 0]], axis=-1)


def from_front(points):
    """On the page: up is up, the lifter's right is on the left."""
    return np.stack([-HALF - points[..., 2], points[..., 1]], axis=-1)


def arm(axes, seen, rep, point, late):
    """Collarbone and arm at one point of a rep, pale at full reach."""
    shoulder, elbow, hand = (seen(rep[name].values[point]) for name in ("gh_centre", "elbow", "hand"))
    width, alpha = (10, 1.0) if late else (7, 0.45)
    axes.plot(
        *np.transpose([shoulder, elbow, hand]), color=SKIN, lw=width, alpha=alpha, solid_capstyle="round", zorder=3
    )
    style = "-" if late else "--"
    axes.plot(*np.transpose([seen(SC), shoulder]), color=VERMILLION, lw=3.5, ls=style, zorder=5)
    axes.plot(*shoulder, "o", color=VERMILLION if late else "white", mec=VERMILLION, mew=2, ms=9, zorder=6)
    axes.plot(*hand, "s", color=BLACK if late else "white", mec=BLACK, mew=1.5, ms=8, zorder=6)
    return shoulder, hand


def pull_line(axes, start, end):
    """The line of pull from the hand at the end to the hand at the reach, and the load's arrow."""
    along = (end - start) / np.linalg.norm(end - start)
    axes.plot(*np.transpose([start, end]), color=GREY, lw=1.3, ls=":", zorder=2)
    look = {"arrowstyle": "-|>", "color": BLACK, "lw": 2.5, "ls": "-", "mutation_scale": 16, "shrinkA": 0, "shrinkB": 0}
    axes.annotate("", end + PULL_LENGTH * along, end, arrowprops=look, zorder=6)


def tape(axes, start, end, words, at, **where):
    """A length with its words."""
    axes.plot(*np.transpose([start, end]), color=PURPLE, lw=3.5, zorder=7, solid_capstyle="butt")
    axes.text(*at, words, fontweight="bold", va="center", **where)


def way_tape(axes, first, last, words):
    """How far the shoulder's centre is carried, beside the picture."""
    side = -0.60
    for place in (first, last):
        axes.plot([side, place[0]], [place[1]] * 2, color=PURPLE, lw=1, ls=":", zorder=2)
    tape(axes, (side, first[1]), (side, last[1]), words, (side - 0.02, (first[1] + last[1]) / 2), ha="right")


def arc(axes, seen, pull):
    """The circle on which the shoulder's centre travels, and the SC joint in its middle."""
    start, end = (REPS[pull].girdle_posture.values[point] for point in (0, -1))
    share = np.linspace(-0.45, 1.25, 60)[:, None]
    retraction, depression = (start + share * (end - start)).T
    way = sm.mechanics.girdle_at(MAN, retraction, -depression).gh
    axes.plot(*seen(way).T, color=GREEN, lw=1.8, ls="-.", zorder=4)
    axes.plot(*seen(SC), "D", color=BLUE, ms=10, zorder=7)


def row_from_above(axes):
    """Left picture."""
    breadth, depth = MAN.chest_breadth, MAN.chest_depth
    axes.add_patch(mpl.patches.Ellipse((0, 0), breadth, depth, facecolor=TRUNK, edgecolor=GREY, zorder=0))
    axes.add_patch(
        mpl.patches.Polygon([(-0.03, -0.10), (0, -0.145), (0.03, -0.10)], facecolor=TRUNK, edgecolor=GREY, zorder=1)
    )
    axes.add_patch(mpl.patches.Circle((0, -0.03), 0.085, facecolor=TRUNK, edgecolor=GREY, zorder=1))
    arc(axes, from_above, ROW)
    (first, far), (last, near) = (arm(axes, from_above, REPS[ROW], point, bool(point)) for point in (0, -1))
    pull_line(axes, near, far)
    way_tape(axes, first, last, f"{centimetres(BACK)} cm\nback")
    joint, low = from_above(SC), -0.50
    axes.plot([joint[0]] * 2, [joint[1], low], color=PURPLE, lw=1, ls=":", zorder=2)
    tape(
        axes,
        (joint[0], low),
        (far[0], low),
        f"{centimetres(LEVER)} cm",
        ((joint[0] + far[0]) / 2, low - 0.04),
        ha="center",
    )
    axes.text(
        joint[0] + 0.03, joint[1] - 0.075, "joint beside the\nbreastbone (SC)", color=BLUE, fontweight="bold", va="top"
    )
    axes.text(last[0] + 0.02, last[1] + 0.06, "end", color=VERMILLION, fontweight="bold", ha="left")
    axes.text(*(first + REACH_AT[at_projector()]), "reach", color=VERMILLION, fontweight="bold", ha="right")
    axes.text(far[0] + 0.03, far[1] - 0.10, "line of pull", va="center")
    axes.set(xlim=(-0.78, 0.28), ylim=(-0.83, 0.30), aspect="equal", title="wide row, from above (forward is down)")
    axes.set_axis_off()


def pulldown_from_front(axes):
    """Right picture."""
    breadth = MAN.chest_breadth / 2
    outline = [(-0.05, 0.13), (-0.07, 0.06), (-HALF, 0.05), (-breadth, -0.10), (-0.85 * breadth, -0.34)]
    outline = np.array(outline + [(-x, y) for x, y in outline[::-1]])
    axes.add_patch(mpl.patches.Polygon(rounded(outline), facecolor=TRUNK, edgecolor=GREY, zorder=0))
    axes.add_patch(mpl.patches.Ellipse((0, 0.23), 0.16, 0.23, facecolor=TRUNK, edgecolor=GREY, zorder=0))
    arc(axes, from_front, PULLDOWN)
    (first, far), (last, near) = (arm(axes, from_front, REPS[PULLDOWN], point, bool(point)) for point in (0, -1))
    pull_line(axes, near, far)
    way_tape(axes, first, last, f"{centimetres(DOWN)} cm\ndown")
    joint = from_front(SC)
    axes.text(joint[0] + 0.04, joint[1] - 0.04, "SC joint", color=BLUE, fontweight="bold", va="top")
    axes.text(first[0] + 0.02, first[1] + 0.035, "reach", color=VERMILLION, fontweight="bold", ha="left")
    axes.text(last[0] + 0.03, last[1] - 0.06, "end", color=VERMILLION, fontweight="bold", ha="left")
    axes.text(far[0] + 0.03, far[1] + 0.10, "line of pull", va="center")
    axes.set(xlim=(-0.78, 0.28), ylim=(-0.34, 0.79), aspect="equal", title="front pulldown, from the front")
    axes.set_axis_off()


def stage():
    """Both pictures side by side."""
    with mpl.rc_context(STYLE):
        figure = new_figure(11.2, 5.6)
        row_from_above(figure.add_axes([0.0, 0.01, 0.5, 0.92]))
        pulldown_from_front(figure.add_axes([0.5, 0.01, 0.5, 0.92]))
        return Stage(figure)
