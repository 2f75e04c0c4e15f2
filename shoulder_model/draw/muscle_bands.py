"""Muscles along their paths as bands whose width is their force.

The elbow's own muscles (brachialis, brachioradialis, the triceps' short heads) have no path in the model: they are drawn along
the arm, the flexors on the side of the bend, the extensor on the other. All other paths are those of one reference body,
not scaled to the lifter, as the model uses them.
"""

from dataclasses import dataclass

import numpy as np

from ..mechanics import girdle_at
from ..muscles import MUSCLES, turned_scapula
from ..muscles.girdle import girdle_landmarks, girdle_muscles
from ..muscles.paths import path_sets
from ..repetition import GROUP_MUSCLES
from .artists import moving
from .dimension import text_width, words_on
from .look import GROUP_LOOK, SMALL

NEWTONS_A_POINT, WIDEST, LEAST = 40.0, 16.0, 0.01  # N; points; share of the capacity
POINTS = 12  # along a path
NAMED = 3  # groups that are named in a picture
GROUP_OF = {muscle: group for group, muscles in GROUP_MUSCLES.items() for muscle in muscles}
ALONG_ARM = {  # share of the upper arm where it begins, share of the forearm where it ends, metres aside towards the bend
    "brachialis": (0.45, 0.12, 0.022),
    "brachioradialis": (0.68, 0.75, 0.034),
    "triceps short heads": (0.25, 0.02, -0.032),
}  # drawn by eye
SHORT = {"serratus, pectoralis minor, others": "serratus and others", "front and side deltoid": "front, side deltoid"}


@dataclass(frozen=True)
class Band:
    """One muscle at work: ``path`` (n, 3) from where the right GH centre rests, thorax axes [m]; ``force`` [N]."""

    muscle: str
    group: str
    path: np.ndarray
    force: float


def bands_of(lifter, rep, point):
    """A `Band` for every muscle of ``rep`` (of one lifter, with work) that is at work at index ``point``."""
    activation = rep.variables["activation"].values[point]
    force = activation * rep.variables["capacity"].values[point]
    at_work = [k for k in np.flatnonzero(activation >= LEAST)]
    gh, elbow, hand = (rep.variables[name].values[point] for name in ("gh_centre", "elbow", "hand"))
    humerus = _humerus(elbow - gh, hand - elbow)
    retraction, depression = rep.variables["girdle_posture"].values[point]
    girdle = girdle_at(lifter, retraction, -depression)
    scapula = turned_scapula(
        float(rep.elevation.values[point]), float(rep.plane_of_elevation.values[point]), retraction
    )
    origins, insertions = girdle_landmarks()
    across_shoulder = shoulder_paths(humerus, scapula, girdle)

    def path(k):
        name = MUSCLES[k]
        if name in ALONG_ARM:
            return _along_arm(name, gh, elbow, hand, humerus[:, 0])
        if name in girdle_muscles():
            row = girdle_muscles().index(name)
            return np.array([origins[row], gh + scapula @ insertions[row]])
        return gh + across_shoulder[k]

    return tuple(Band(MUSCLES[k], GROUP_OF[MUSCLES[k]], path(k), float(force[k])) for k in at_work)


def shoulder_paths(humerus, scapula, girdle, count=POINTS):
    """Points (muscle, count, 3) from the GH centre along every path that crosses the shoulder, as `muscles.paths.path_points`. [m]

    ``humerus``, ``scapula`` (3, 3) axes as columns, ``girdle`` a `mechanics.GirdlePosture`; all at once, since a picture has
    to be quick.
    """
    thorax, clavicle, blade = sets = path_sets()
    order = np.argsort(np.concatenate([paths.rows for paths in sets]))
    origins = thorax.origin - girdle.gh, clavicle.origin @ girdle.clavicle.T, blade.origin @ scapula.T
    o = np.concatenate(origins)[order]
    i = (np.concatenate([paths.insertion for paths in sets]) @ humerus.T)[order]
    r = np.concatenate([paths.wrap for paths in sets])[order]
    points = o[:, None] + np.linspace(0, 1, count)[:, None] * (i - o)[:, None]
    oo, ii, c = (o * o).sum(axis=1), (i * i).sum(axis=1), (o * i).sum(axis=1)
    cut = (oo * ii - c * c < r * r * (oo + ii - 2 * c)) & (c < np.minimum(oo, ii))
    for k in np.flatnonzero(cut):
        points[k] = _around_sphere(o[k], i[k], r[k], count)
    return points


def _around_sphere(origin, insertion, radius, count):
    """Points (count, 3) of a path that hugs its sphere about the GH centre. [m]"""
    far, near = np.linalg.norm(origin), np.linalg.norm(insertion)
    first = origin / far
    across = insertion - first * (insertion @ first)
    across /= np.linalg.norm(across)
    last = np.arctan2(insertion @ across, insertion @ first) - np.arccos(radius / near)
    turn = np.linspace(np.arccos(radius / far), last, count - 2)[:, None]
    return np.concatenate([[origin], radius * (np.cos(turn) * first + np.sin(turn) * across), [insertion]])


def _humerus(shaft, forearm):
    """Axes of the humerus as columns from both links' directions: towards the bent forearm, up the shaft, the hinge."""
    up = -shaft / np.linalg.norm(shaft)
    bend = forearm - up * (forearm @ up)
    if np.linalg.norm(bend) < 1e-6:  # a straight arm
        bend = np.array([1.0, 0.0, 0.0]) - up * up[0]
    bend /= np.linalg.norm(bend)
    return np.column_stack([bend, up, np.cross(bend, up)])


def _along_arm(name, gh, elbow, hand, bend):
    begins, ends, aside = ALONG_ARM[name]
    start = gh + begins * (elbow - gh) + 0.6 * aside * bend
    middle = elbow + 0.12 * (gh - elbow) + aside * bend
    return np.array([start, middle, elbow + ends * (hand - elbow) + (0.3 * aside * bend if aside < 0 else 0.0)])


def band_width(force):
    """Width of a band for a ``force`` [N]. [points]"""
    return min(force / NEWTONS_A_POINT, WIDEST)


class MuscleBands:
    """A line for every muscle, the words of some groups in a column with a thin line to each."""

    def __init__(self, axes):
        self.lines = {
            muscle: moving(axes, colour=GROUP_LOOK[group], z=3.6, alpha=0.72, solid_capstyle="round")
            for muscle, group in GROUP_OF.items()
        }
        self.leaders = [moving(axes, width=0.9, z=8.5) for _ in range(NAMED)]
        self.words = [words_on(axes, size=SMALL, va="center", ha="left", fontweight="bold") for _ in range(NAMED)]

    def show(self, bands, named, seen, window, top):
        """Move to ``bands`` through ``seen``; the words of the groups ``named`` stand at the left edge below ``top`` [m]."""
        for line in self.lines.values():
            line.set_visible(False)
        strongest, middle = {}, {}
        for band in bands:
            points = seen(band.path)
            line = self.lines[band.muscle]
            line.set_data(*points.T)
            line.set_linewidth(band_width(band.force))
            line.set_visible(True)
            if band.force > strongest.get(band.group, 0.0):
                strongest[band.group], middle[band.group] = band.force, points[len(points) // 2]
        at_work = [group for group in named if group in middle]
        self._name(sorted(at_work, key=lambda group: -middle[group][1]), middle, window, top)

    def _name(self, named, middle, window, top):
        x0, _, y0, _ = window.limits
        step, x = 15.0 / window.scale, x0 + 4.0 / window.scale
        y = top
        for k, (words, leader) in enumerate(zip(self.words, self.leaders, strict=True)):
            if k >= len(named):
                words.set_text("")
                leader.set_data([], [])
                continue
            group = named[k]
            y = max(min(y - step, middle[group][1]), y0 + (len(named) - k - 0.4) * step)
            text = SHORT.get(group, group)
            words.set_text(text)
            words.set_color(GROUP_LOOK[group])
            words.set_position((x, y))
            leader.set_color(GROUP_LOOK[group])
            end = x + (text_width(text, SMALL, "bold") + 2.0) / window.scale
            leader.set_data((end, middle[group][0]), (y, middle[group][1]))
