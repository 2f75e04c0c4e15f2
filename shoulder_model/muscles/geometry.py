"""Every muscle about every joint: lengths and moment arms for any number of postures."""

from dataclasses import dataclass

import numpy as np

from ..axes import GIRDLE_AXES
from ..blocks import in_blocks
from ..mechanics import anatomical
from ..mechanics.arm import elevation_and_plane
from .elbow import elbow_arms, elbow_excursions
from .girdle import girdle_arms, girdle_muscles, through_humerus_arms
from .paths import BLOCK, paths, shoulder_muscles
from .scapula import turned_scapula, upward_rotation
from .table import MUSCLES


@dataclass(frozen=True)
class MuscleGeometry:
    """Lengths and moment arms of all `table.MUSCLES`; an arm is 0 where a muscle does not cross.

    ``scapular_rotation`` (...) from rest [rad]; ``length`` (..., muscle) of paths that cross the shoulder, for the
    elbow's own muscles the change from a straight elbow, 0 for the girdle's [m]; ``shoulder_arm`` (..., muscle, 3),
    ``elbow_arm`` (..., muscle), ``girdle_arm`` (..., muscle, 2) about the components of `axes` [m].
    """

    scapular_rotation: np.ndarray
    length: np.ndarray
    shoulder_arm: np.ndarray
    elbow_arm: np.ndarray
    girdle_arm: np.ndarray


def muscle_geometry(posture, body):
    """`MuscleGeometry` of one ``body`` (`body.Body`) at every ``posture`` (...) of a `mechanics.Posture`. [m], [rad]"""
    flexion = np.asarray(posture.elbow_flexion)
    lead = np.broadcast_shapes(posture.humerus.shape[:-2], flexion.shape)
    humerus = np.broadcast_to(posture.humerus, (*lead, 3, 3)).reshape(-1, 3, 3)
    flexion = np.broadcast_to(flexion, lead).ravel()
    rows = in_blocks(lambda here: _rows(humerus[here], flexion[here], body), len(flexion), BLOCK)
    return MuscleGeometry(*(values.reshape(*lead, *values.shape[1:]) for values in rows))


def all_lengths(path_length, flexion):
    """Lengths of all muscles (..., muscle) [m] as `MuscleGeometry` has them.

    Parameters
    ----------
    path_length : ndarray, shape (..., shoulder muscle) [m]
        Of `paths.paths`.
    flexion : float or ndarray, shape (...)
        Of the elbow. [rad]
    """
    excursions = elbow_excursions(MUSCLES, flexion)
    lengths = np.broadcast_to(excursions, (*path_length.shape[:-1], len(MUSCLES))).copy()
    lengths[..., : len(shoulder_muscles())] += path_length
    return lengths


def _rows(humerus, flexion, body):
    """The fields of `MuscleGeometry` for a block of postures, one row each."""
    elevation, plane = elevation_and_plane(humerus)
    scapula = turned_scapula(elevation, plane)
    path_length, torque = paths(humerus, scapula, body.paths)
    first, last = slice(len(shoulder_muscles())), slice(len(MUSCLES) - len(girdle_muscles()), None)
    shoulder = np.zeros((len(flexion), len(MUSCLES), 3))
    girdle = np.zeros((len(flexion), len(MUSCLES), len(GIRDLE_AXES)))
    shoulder[:, first] = anatomical(torque)
    girdle[:, first] = through_humerus_arms(humerus, torque, body.paths)
    girdle[:, last] = girdle_arms(scapula, body.girdle)
    lengths, elbow = all_lengths(path_length, flexion), elbow_arms(MUSCLES, flexion)
    return upward_rotation(elevation, plane), lengths, shoulder, elbow, girdle
