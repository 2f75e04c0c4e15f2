"""Who can hold the shoulder blade: moment arms about the sternoclavicular (SC) joint.

The girdle with the arm hangs on the trunk at the SC joint. Muscles from the trunk to the scapula act on
it directly; latissimus dorsi and pectoralis major act through the humerus, since they start at the
trunk too. Landmarks and joint are from memory in part (ML): signs and order count, not millimetres.
"""

from functools import cache

import numpy as np

from .arm import cross, dot
from .lifter import Lifter
from .muscle import groups
from .sources import read_table
from .statics import sc_joint


@cache
def girdle_names():
    """Names of the muscles from trunk to girdle."""
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
    """How far each of them may lie off, (muscle,). [m]"""
    return np.array([float(row["range_mm"]) / 1000 for row in read_table("girdle.csv")])


@cache
def _sc():
    return sc_joint(Lifter.average("men"))  # of the reference body that the landmarks belong to


def _retraction_depression(torque):
    return np.stack([-torque[..., 1], torque[..., 0]], axis=-1)


def girdle_arms(scapula, ends=None):
    """Retraction and depression arms (..., muscle, 2) of the muscles from trunk to girdle. [m]

    ``scapula`` (..., 3, 3): axes of the scapula as columns; straight lines of pull between ``ends``, by default
    `girdle_landmarks`.
    """
    origin, insertion = girdle_landmarks() if ends is None else ends
    at = np.einsum("...ij,mj->...mi", scapula, insertion)
    line = origin - at
    pull = line / np.sqrt(dot(line, line))[..., None]
    return _retraction_depression(cross(at - _sc(), pull))


def through_humerus_arms(humerus, torque, table=None):
    """The same of the muscles from trunk to humerus, (..., shoulder muscle, 2); 0 for scapular origins. [m]

    ``torque`` (..., muscle, 3) is that of `muscle.paths` for the same posture and ``table``.
    A path of pull per newton t about the GH centre lies on a line through its origin O with the
    direction (t × O) / O² + s sqrt(1 - t² / O²) O / |O|, so its moment about the SC joint follows.
    """
    found = np.zeros((*torque.shape[:-1], 2))
    thorax = (groups() if table is None else table)[0]
    distance = thorax.ends[0]
    insertion = np.einsum("...ij,mj->...mi", humerus, thorax.insertion)
    outward = np.where(dot(insertion, thorax.origin) < distance**2, 1.0, -1.0)
    arm = torque[..., thorax.rows, :]
    along = outward * np.sqrt(np.maximum(1.0 - dot(arm, arm) / distance**2, 0.0)) / distance
    pull = (
        cross(arm, np.broadcast_to(thorax.origin, arm.shape)) / distance[:, None] ** 2
        + along[..., None] * thorax.origin
    )
    found[..., thorax.rows, :] = _retraction_depression(cross(thorax.origin - _sc(), pull))
    return found
