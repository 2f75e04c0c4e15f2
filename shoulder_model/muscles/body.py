"""One body's muscles: where they run and how large they are, and random bodies within what the sources allow.

The tables give one reference body. How far that leaves a result open is asked by drawing others: landmarks
moved by half of their range as one standard deviation, cross-sections over the range of their sources.
"""

from dataclasses import dataclass, field
from functools import cache, cached_property

import numpy as np

from ..inputs import Allowed, checked_call, whole
from ..people.lifter import SEED
from .force_length import reference_length
from .girdle import girdle_landmarks, girdle_ranges
from .paths import landmarks, path_sets
from .table import MUSCLES, cross_sections, optimal_fibres

BODIES = Allowed(1, 10_000, "bodies", "draw at least one, at most ten thousand")
SHARED_SOURCES = ("latissimus", "deltoid", "pectoralis", "trapezius")  # their parts come from one source each


@dataclass(frozen=True)
class Body:
    """Muscle paths, cross-sections and fibres, and how far the scapula turns.

    ``paths``: of shoulder muscles, as `paths.path_sets` gives them; ``girdle``: origins and insertions (muscle, 3)
    of girdle muscles [m]; ``cross_section`` (muscle,) of all muscles [cm²]; ``fibres`` (muscle,) their optimal lengths [m], the
    table's by default; ``rhythm`` times the scapula's measured turn, a ratio.
    """

    paths: tuple
    girdle: tuple
    cross_section: np.ndarray
    fibres: np.ndarray = field(default_factory=optimal_fibres)
    rhythm: float = 1.0

    @cached_property
    def reference_length(self):
        """Length of every muscle at the optimum of its fibres, (muscle,). [m]"""
        return reference_length(self.paths, self.girdle, self.rhythm)


@cache
def reference_body():
    """The tables as they stand: landmarks [m], cross-sections [cm²]."""
    return Body(path_sets(), girdle_landmarks(), cross_sections()[0])


@checked_call
def drawn_bodies(n, seed):
    """``n`` random bodies, landmarks [m] and cross-sections [cm²]; the same ``seed`` gives the same ones.

    Cross-sections are log-normal with their range as ± 2 SD; parts of one muscle share their deviation. Ends of
    paths move independently, normal; a sphere shrinks where an end would come to lie inside it.
    """
    n = whole("n", n, BODIES)
    random = np.random.default_rng(whole("seed", seed, SEED))
    _, low, high = cross_sections()
    heads = [name.split()[0] if name.split()[0] in SHARED_SOURCES else name for name in MUSCLES]
    which = np.unique(heads, return_inverse=True)[1]
    sizes = np.exp(random.standard_normal((n, which.max() + 1))[:, which] * np.log(high / low) / 4) * np.sqrt(
        low * high
    )
    return [Body(_moved_paths(random), _moved_girdle(random), size) for size in sizes]


def _moved_paths(random):
    moved = []
    for paths_here in path_sets():
        rows = [landmarks()[i] for i in paths_here.rows]
        origin, insertion = (
            points
            + random.standard_normal(points.shape) * np.array([[float(row[f"{end}_range_mm"])] for row in rows]) / 2000
            for end, points in (("origin", paths_here.origin), ("insertion", paths_here.insertion))
        )
        moved.append(paths_here.moved(origin, insertion, clear=0.95))
    return tuple(moved)


def _moved_girdle(random):
    return tuple(
        points + random.standard_normal(points.shape) * girdle_ranges()[:, None] / 2 for points in girdle_landmarks()
    )
