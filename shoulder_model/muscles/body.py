"""One body's muscles: where they run and how large they are, and random bodies within what the sources allow.

The tables give one reference body. How far that leaves a result open is asked by drawing others: landmarks
moved by half of their range as one standard deviation, cross-sections over the range of their sources.
"""

from dataclasses import dataclass, field
from functools import cache, cached_property

import numpy as np

from ..inputs import Allowed, checked_call, whole
from ..people.lifter import SEED
from ..sources import fact
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


HEADS = [name.split()[0] if name.split()[0] in SHARED_SOURCES else name for name in MUSCLES]
TOGETHER = np.unique(HEADS, return_inverse=True)[1]  # which deviation of `deviations` each muscle takes


def deviations():
    """How many standard deviations `body_from` takes for each of its parts: a dict of counts, without unit."""
    ends = 6 * (len(landmarks()) + len(girdle_ranges()))
    return {"landmarks": ends, "sizes": int(TOGETHER.max()) + 1, "fibres": int(TOGETHER.max()) + 1}


@checked_call
def body_from(*, landmarks=None, sizes=None, fibres=None, rhythm=1.0):
    """The `Body` that lies so many standard deviations from the tables; each part alone where only that is given.

    Parameters
    ----------
    landmarks : ndarray, optional
        One number for each coordinate of each end: origins and insertions of the paths bone by bone, then the girdle's. Half
        of a landmark's range is one standard deviation; a sphere shrinks where an end would come to lie inside it.
    sizes, fibres : ndarray, optional
        One number for each group of muscles that share a source. Cross-sections [cm²] are log-normal with their range as ± 2
        SD, fibre lengths [m] with ``fibre_length_spread`` of ``data/facts.csv``.
    rhythm : float
        Times the scapula's measured turn, a ratio.
    """
    middle, low, high = cross_sections()
    paths_here, girdle = path_sets(), girdle_landmarks()
    if landmarks is not None:
        left = np.asarray(landmarks, float)
        paths_here, left = _moved_paths(left)
        girdle = _moved_girdle(left)
    size = (
        middle if sizes is None else np.exp(np.asarray(sizes)[TOGETHER] * np.log(high / low) / 4) * np.sqrt(low * high)
    )
    optimum = optimal_fibres()
    if fibres is not None:
        optimum = optimum * np.exp(np.asarray(fibres)[TOGETHER] * fact("fibre_length_spread"))
    return Body(paths_here, girdle, size, optimum, float(rhythm))


@checked_call
def drawn_bodies(n, seed):
    """``n`` random bodies, landmarks [m] and cross-sections [cm²]; the same ``seed`` gives the same ones.

    Each deviation of `body_from` is drawn from a standard normal distribution; fibres and rhythm stay the tables'.
    """
    n, counts = whole("n", n, BODIES), deviations()
    random = np.random.default_rng(whole("seed", seed, SEED))
    sizes = random.standard_normal((n, counts["sizes"]))
    return [body_from(sizes=one, landmarks=random.standard_normal(counts["landmarks"])) for one in sizes]


def _moved_paths(deviates):
    """The paths with their ends moved, and the ``deviates`` (n,) that are left."""
    moved, rows = [], landmarks()
    for paths_here in path_sets():
        ends = []
        for end, points in (("origin", paths_here.origin), ("insertion", paths_here.insertion)):
            here, deviates = deviates[: points.size].reshape(points.shape), deviates[points.size :]
            half = np.array([[float(rows[i][f"{end}_range_mm"])] for i in paths_here.rows]) / 2000
            ends.append(points + here * half)
        moved.append(paths_here.moved(*ends, clear=0.95))
    return tuple(moved), deviates


def _moved_girdle(deviates):
    """The girdle's landmarks moved by ``deviates`` (n,)."""
    both = np.split(deviates, 2)
    return tuple(
        points + here.reshape(points.shape) * girdle_ranges()[:, None] / 2
        for points, here in zip(girdle_landmarks(), both, strict=True)
    )
