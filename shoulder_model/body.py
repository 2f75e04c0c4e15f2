"""One body's muscles: where they run and how large they are, and random bodies within what the sources allow.

The tables give one reference body. How far that leaves a result open is asked by drawing others: landmarks
moved by half of their range as one standard deviation, cross-sections over the range of their sources.
"""

from dataclasses import dataclass, replace
from functools import cache, cached_property

import numpy as np

from .force_length import muscle_table, reference_length
from .girdle import girdle_landmarks, girdle_ranges
from .muscle import groups, landmarks

SHARED_SOURCES = ("latissimus", "deltoid", "pectoralis", "trapezius")  # their parts come from one source each
MUSCLES = tuple(row["muscle"] for row in muscle_table())


@dataclass(frozen=True)
class Body:
    """Muscle paths and cross-sections.

    ``groups``: shoulder muscles as `muscle.groups` gives them; ``girdle``: origins and insertions (muscle, 3)
    of girdle muscles [m]; ``cross_section`` (muscle,) of all muscles [cm²].
    """

    groups: tuple
    girdle: tuple
    cross_section: np.ndarray

    @cached_property
    def reference_length(self):
        """Length of every muscle at the optimum of its fibres, (muscle,). [m]"""
        return reference_length(self.groups)


@cache
def cross_sections():
    """PCSA of every muscle and the ends of what sources say, three arrays (muscle,). [cm²]"""
    return tuple(np.array([float(row[k]) for row in muscle_table()]) for k in ("pcsa_cm2", "pcsa_low", "pcsa_high"))


@cache
def reference_body():
    """The tables as they stand."""
    return Body(groups(), girdle_landmarks(), cross_sections()[0])


def drawn_bodies(n, seed):
    """``n`` random bodies; the same seed gives the same ones.

    Cross-sections are log-normal with their range as ± 2 SD; parts of one muscle share their deviation. Ends of
    paths move independently, normal; a sphere shrinks where an end would come to lie inside it.
    """
    random = np.random.default_rng(seed)
    _, low, high = cross_sections()
    heads = [name.split()[0] if name.split()[0] in SHARED_SOURCES else name for name in MUSCLES]
    which = np.unique(heads, return_inverse=True)[1]
    sizes = np.exp(random.standard_normal((n, which.max() + 1))[:, which] * np.log(high / low) / 4) * np.sqrt(
        low * high
    )
    return [Body(_moved_groups(random), _moved_girdle(random), size) for size in sizes]


def _moved_groups(random):
    moved = []
    for group in groups():
        rows = [landmarks()[i] for i in group.rows]
        origin, insertion = (
            points
            + random.standard_normal(points.shape) * np.array([[float(row[f"{end}_range_mm"])] for row in rows]) / 2000
            for end, points in (("origin", group.origin), ("insertion", group.insertion))
        )
        inner = np.minimum(np.linalg.norm(origin, axis=1), np.linalg.norm(insertion, axis=1))
        moved.append(replace(group, origin=origin, insertion=insertion, wrap=np.minimum(group.wrap, 0.95 * inner)))
    return tuple(moved)


def _moved_girdle(random):
    return tuple(
        points + random.standard_normal(points.shape) * girdle_ranges()[:, None] / 2 for points in girdle_landmarks()
    )
