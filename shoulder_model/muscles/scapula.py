"""The scapula turns up as the arm is raised: its rhythm, as a rotation about the GH centre.

Scapular upward rotation against humerothoracic elevation in three planes stands in ``data/scapular_rhythm.csv``
(J Bone Joint Surg Am 2009;91:378, read). Below 30° and above 120° the first and last slopes go on (derived). The
turn is about the normal of the scapular plane, 40° in front of the frontal plane. It was measured against the trunk, so it
holds what the collarbone does for it.

Behind the trunk nobody measured it: with an arm in a plane behind the frontal one the turn fades, to none straight behind
(``scapula_behind`` in ``data/facts.csv``, our assumption). When the girdle is drawn back or let forward the scapula turns
with the collarbone by a share of its retraction (``scapula_with_clavicle``, from memory ML), about the trunk's length.
"""

from functools import cache

import numpy as np

from ..inputs import Allowed, checked_call, fitting, number, scalar
from ..mechanics import raised_arm
from ..sources import fact
from ..tables import read_table

ANGLE = Allowed(-2 * np.pi, 2 * np.pi, "rad", "give radians, as np.radians(90) has them")
RHYTHM_OF_PEOPLE = Allowed(0.0, 2.0, "", "1 is the measured rhythm, 0 a scapula that does not turn")
SCAPULAR_PLANE = np.radians(fact("scapular_plane_deg"))
RHYTHM = read_table("scapular_rhythm.csv")
ELEVATION_DEG = np.array([float(row["elevation_deg"]) for row in RHYTHM])
UPWARD_DEG = {  # plane of elevation [deg] -> upward rotation at each elevation [deg]
    plane: np.array([float(row[f"plane_{plane:.0f}_deg"]) for row in RHYTHM]) for plane in (0.0, 40.0, 90.0)
}


@cache
def measured_turn():
    """Elevations (knot,) and upward rotation there in each measured plane (plane, knot), the hanging arm's first. [deg]"""
    knots = np.r_[0.0, ELEVATION_DEG, 180.0]
    turns = []
    for measured in UPWARD_DEG.values():
        first, last = (np.diff(measured) / np.diff(ELEVATION_DEG))[[0, -1]]
        rest = measured[0] - ELEVATION_DEG[0] * first
        turns.append(np.r_[rest, measured, measured[-1] + (180.0 - ELEVATION_DEG[-1]) * last])
    return knots, np.array(turns)


@checked_call
def upward_rotation(elevation, plane, rhythm=1.0):
    """How far the scapula has turned up from where it rests with the arm hanging. [rad]

    Parameters
    ----------
    elevation, plane : float or ndarray
        Of the upper arm against the trunk. In front and across, planes beyond the measured 0 to 90° take the nearest;
        behind the frontal plane the turn fades with the sine of the plane. [rad]
    rhythm : float
        Times the measured turn, a ratio: people's scapulae turn more or less.

    Returns
    -------
    float or ndarray [rad]
        Interpolated between the measured angles (J Bone Joint Surg Am 2009;91:378) and planes.

    Raises
    ------
    InputError
        What is no angle in radians, or arrays that do not go together.
    """
    elevation, plane = number("elevation", elevation, ANGLE), number("plane", plane, ANGLE)
    fitting(elevation=elevation, plane=plane)
    rhythm = scalar("rhythm", rhythm, RHYTHM_OF_PEOPLE)
    first, middle, last = UPWARD_DEG
    elevation_deg, plane_deg = np.degrees(elevation), np.clip(np.degrees(plane), first, last)
    knots, turns = measured_turn()
    frontal, scapular, sagittal = (np.interp(elevation_deg, knots, turn) - turn[0] for turn in turns)
    near = np.minimum(plane_deg / middle, 1.0)
    far = np.maximum(plane_deg - middle, 0.0) / (last - middle)
    fade = 1.0 + fact("scapula_behind") * np.minimum(np.sin(plane), 0.0)
    return np.radians(frontal + (scapular - frontal) * near + (sagittal - scapular) * far) * fade * rhythm


@checked_call
def turned_scapula(elevation, plane, retraction=0.0, rhythm=1.0):
    """Axes of the scapula as columns, identity with the arm hanging and the girdle at rest. (..., 3, 3)

    ``elevation``, ``plane`` (...) of the upper arm [rad] and ``rhythm`` (a ratio) as for `upward_rotation`; ``retraction``
    (...) of the collarbone. [rad]
    """
    upward, retraction = upward_rotation(elevation, plane, rhythm), number("retraction", retraction, ANGLE)
    fitting(elevation=elevation, plane=plane, retraction=retraction)
    return scapula_axes(upward, retraction)


def scapula_axes(upward, retraction):
    """`turned_scapula` where the rotation ``upward`` (...) is known, ``retraction`` (...) as there, both unchecked [rad]."""
    turned = raised_arm(upward, SCAPULAR_PLANE)
    back = fact("scapula_with_clavicle") * np.asarray(retraction)
    cos, sin = np.cos(back), np.sin(back)
    axes = np.empty((3, 3, *np.broadcast_shapes(turned.shape[:-2], back.shape)))
    for column in range(3):
        forward, up, right = (turned[..., row, column] for row in range(3))
        axes[0, column], axes[1, column], axes[2, column] = cos * forward - sin * right, up, sin * forward + cos * right
    return np.moveaxis(axes, (0, 1), (-2, -1))
