"""Every muscle about every joint: lengths and moment arms for any number of postures."""

from dataclasses import dataclass

import numpy as np

from ..axes import GIRDLE_AXES
from ..blocks import in_blocks
from ..inputs import InputError, checked_call, flag, thing
from ..mechanics import GirdlePosture, Posture
from ..mechanics.arm import elevation_and_plane
from ..mechanics.statics import shoulder_components
from .body import Body
from .elbow import elbow_arms, elbow_excursions
from .girdle import girdle_muscles, girdle_paths, through_humerus_arms
from .paths import BLOCK, paths, shoulder_muscles
from .scapula import scapula_axes, upward_rotation
from .table import MUSCLES


@dataclass(frozen=True)
class MuscleGeometry:
    """Lengths and moment arms of all `table.MUSCLES`; an arm is 0 where a muscle does not cross.

    ``scapular_rotation`` (...) upward from rest [rad]; ``length`` (..., muscle) of paths that cross the shoulder or go from
    trunk to girdle, for the elbow's own muscles the change from a straight elbow [m]; ``shoulder_arm`` (..., muscle, 3),
    ``elbow_arm`` (..., muscle), ``girdle_arm`` (..., muscle, 2) about the components of `axes` [m].
    """

    scapular_rotation: np.ndarray
    length: np.ndarray
    shoulder_arm: np.ndarray
    elbow_arm: np.ndarray
    girdle_arm: np.ndarray


@checked_call
def muscle_geometry(posture, girdle, body, compiled=False):
    """`MuscleGeometry` of one ``body`` at every posture (...).

    Parameters
    ----------
    posture : mechanics.Posture
        Of the arm. [m], [rad]
    girdle : mechanics.GirdlePosture
        Lengths in metres.
    body : body.Body
    compiled : bool
        True takes the path that numba compiles (`compiled`): the same to rounding, several times as fast; the first
        call of a process takes seconds.

    Raises
    ------
    InputError
        What is none of these; ``compiled`` where numba is not installed.
    """
    thing("posture", posture, Posture), thing("girdle", girdle, GirdlePosture), thing("body", body, Body)
    compiled = compiled_rows() if flag("compiled", compiled) else None
    flexion = np.asarray(posture.elbow_flexion)
    lead = np.broadcast_shapes(posture.humerus.shape[:-2], flexion.shape, girdle.gh.shape[:-1])

    def flat(array, *tail):
        array, shape = np.asarray(array), (*lead, *tail)
        return (array if array.shape == shape else np.broadcast_to(array, shape)).reshape(-1, *tail)

    arm = flat(posture.humerus, 3, 3), flat(flexion)
    bones = GirdlePosture(
        flat(girdle.retraction),
        flat(girdle.elevation),
        flat(girdle.clavicle, 3, 3),
        flat(girdle.gh, 3),
        flat(girdle.sc, 3),
    )
    if compiled:
        rows = compiled(*arm, bones, body)
    else:
        rows = in_blocks(lambda here: _rows(*(x[here] for x in arm), bones.at(here), body), arm[1].size, BLOCK)
    return MuscleGeometry(*(values.reshape((*lead, *values.shape[1:])) for values in rows))


def compiled_rows():
    """`compiled.rows`; `InputError` where numba, by name, is not installed."""
    try:
        from .compiled import rows
    except ImportError:
        advice = "python -m pip install 'numba>=0.60', or leave compiled out"
        raise InputError("compiled", f"compiled = True needs numba, which is not installed: {advice}") from None
    return rows


def _rows(humerus, flexion, girdle, body):
    """The fields of `MuscleGeometry` for a block of postures, one row each."""
    elevation, plane = elevation_and_plane(humerus)
    upward = upward_rotation(elevation, plane, body.rhythm)
    scapula = scapula_axes(upward, girdle.retraction)
    path_length, torque = paths(humerus, scapula, body.paths, girdle=girdle)
    first, last = slice(len(shoulder_muscles())), slice(len(MUSCLES) - len(girdle_muscles()), None)
    shoulder = np.zeros((len(flexion), len(MUSCLES), 3))
    on_girdle = np.zeros((len(flexion), len(MUSCLES), len(GIRDLE_AXES)))
    lengths = elbow_excursions(MUSCLES, flexion)
    shoulder[:, first] = shoulder_components(torque)
    lengths[:, first] += path_length
    on_girdle[:, first] = through_humerus_arms(humerus, torque, girdle, body.paths)
    lengths[:, last], on_girdle[:, last] = girdle_paths(scapula, girdle, body.girdle)
    return upward, lengths, shoulder, elbow_arms(MUSCLES, flexion), on_girdle
