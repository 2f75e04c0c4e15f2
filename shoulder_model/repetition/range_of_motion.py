"""How much of a muscle's working range a pull covers: its excursion, and where in it the torque is asked.

A muscle's full excursion is the span of its path lengths over all elevations from 0 to 150° in planes
from the side to the front (humerus not turned about its shaft, scapula turning). A pull covers the part
of that span its own lengths run through. The asked share weighs each point of the rep by the extension
and adduction torque that the load asks: where in the muscle's length the pull is felt.
"""

from functools import cache

import numpy as np
import xarray as xr

from ..inputs import checked_call, choice
from ..mechanics import raised_arm
from ..muscles import paths, shoulder_muscles, turned_scapula
from ..people import one_person
from ..sources import fact
from .rep_and_sweep import rep

FULL_ELEVATION = np.radians(np.arange(0, fact("full_range_elevation_deg") + 1, 5))
FULL_PLANES = np.radians(np.arange(0, fact("full_range_plane_deg") + 1, 15))


@cache
def full_span():
    """Shortest and longest path of every shoulder muscle over the full range of motion, two (muscle,). [m]"""
    elevation, plane = np.meshgrid(FULL_ELEVATION, FULL_PLANES)
    length = paths(raised_arm(elevation, plane), turned_scapula(elevation, plane))[0]
    return length.min(axis=(0, 1)), length.max(axis=(0, 1))


@checked_call
def coverage(lifter, pull, muscle="latissimus dorsi middle", points=41):
    """What part of a muscle's excursion a pull covers, and in which half of it the torque is asked.

    Parameters
    ----------
    lifter : people.Lifter
        One lifter.
    pull : mechanics.Pull
    muscle : str
        One that crosses the shoulder.
    points : int
        Along the rep.

    Returns
    -------
    xarray.Dataset of numbers
        ``covered`` share of the full excursion, 0 to 1 and more where the rep leaves the full range's
        postures; ``longest``, ``shortest`` where the rep lies in the span (0 shortest, 1 longest);
        ``asked_when_long`` share of the torque (adduction and extension, summed over the rep at even
        speed) that is asked while the muscle is in the longer half of its span.

    Raises
    ------
    InputError
        A crowd, another muscle, and as `rep_and_sweep.rep`.

    Notes
    -----
    Landmarks of one reference body; lengths of single straight paths, not fibres.
    """
    one_person(lifter, "a range of motion")
    which = shoulder_muscles().index(choice("muscle", muscle, shoulder_muscles()))
    whole = rep(lifter, pull, points=points, work=False)
    shortest, longest = (float(end[which]) for end in full_span())
    place = (whole.muscle_length.values[:, which] - shortest) / (longest - shortest)
    asked = whole.shoulder_torque
    torque = np.hypot(asked.sel(axis="adduction"), asked.sel(axis="extension")).values
    return xr.Dataset(
        {
            "covered": float(np.ptp(place)),
            "longest": float(place.max()),
            "shortest": float(place.min()),
            "asked_when_long": float(torque[place > 0.5].sum() / torque.sum()) if torque.sum() else 0.0,
        }
    )
