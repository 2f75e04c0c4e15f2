"""Who can hold the shoulder blade: moment arms about the sternoclavicular (SC) joint.

The girdle with the arm hangs on the trunk at the SC joint. Muscles from the trunk to the scapula act on
it directly; latissimus dorsi and pectoralis major act through the humerus, since they start at the
trunk too, by the line of their path. Landmarks and joint are from memory in part (ML): signs and order count, not
millimetres.
"""

from functools import cache

import numpy as np

from ..mechanics import of_girdle, sc_joint
from ..mechanics.vectors import cross, dot, unit
from ..people import Lifter
from ..tables import read_table
from .paths import path_sets


@cache
def girdle_muscles():
    """Names of the muscles from trunk to girdle, in the table's order."""
    return tuple(row["muscle"] for row in read_table("girdle.csv"))


@cache
def girdle_landmarks():
    """Origins and insertions of the girdle muscles, two arrays (muscle, 3). [m]"""
    rows = read_table("girdle.csv")
    return tuple(
        np.array([[float(row[f"{end}_{k}"]) for k in "xyz"] for row in rows]) for end in ("origin", "insertion")
    )


@cache
def girdle_ranges():
    """How far each girdle muscle's landmarks may be off, (muscle,). [m]"""
    return np.array([float(row["range_mm"]) / 1000 for row in read_table("girdle.csv")])


@cache
def _sc():
    return sc_joint(Lifter.average("men"))  # of the reference body that the landmarks belong to


def girdle_arms(scapula, ends=None):
    """Retraction and depression arms (..., muscle, 2) of the muscles from trunk to girdle. [m]

    ``scapula`` (..., 3, 3): axes of the scapula as columns; straight lines of pull between ``ends``, by default
    `girdle_landmarks`.
    """
    origin, insertion = girdle_landmarks() if ends is None else ends
    attached = np.einsum("...ij,mj->...mi", scapula, insertion)
    return of_girdle(cross(attached - _sc(), unit(origin - attached)))


def through_humerus_arms(humerus, torque, sets=None):
    """Retraction and depression arms of the muscles from trunk to humerus, (..., shoulder muscle, 2). [m]

    Parameters
    ----------
    humerus : ndarray, shape (..., 3, 3)
        Axes as columns.
    torque : ndarray, shape (..., shoulder muscle, 3) [m]
        That of `paths.paths` for the same posture and ``sets``.
    sets : tuple of PathSet, optional
        Those of `paths.path_sets` by default.

    Notes
    -----
    0 for muscles with scapular origins. A path of pull per newton t about the GH centre lies on a line through its origin O with the
    direction (t × O) / O² + s sqrt(1 - t² / O²) O / |O|, so its moment about the SC joint follows.
    """
    arms = np.zeros((*torque.shape[:-1], 2))
    thorax = (path_sets() if sets is None else sets)[0]
    distance = thorax.ends[0]
    insertion = np.einsum("...ij,mj->...mi", humerus, thorax.insertion)
    outward = np.where(dot(insertion, thorax.origin) < distance**2, 1.0, -1.0)
    arm = torque[..., thorax.rows, :]
    along = outward * np.sqrt(np.maximum(1.0 - dot(arm, arm) / distance**2, 0.0)) / distance
    pull = (
        cross(arm, np.broadcast_to(thorax.origin, arm.shape)) / distance[:, None] ** 2
        + along[..., None] * thorax.origin
    )
    arms[..., thorax.rows, :] = of_girdle(cross(thorax.origin - _sc(), pull))
    return arms
