"""The part of a rep that counts for what it can hold.

Before it the arm is all but straight and hangs on bone and ligament, which the model does not know: our assumption,
``rep_counted_from`` in ``data/facts.csv``.
"""

import numpy as np
import xarray as xr

from ..inputs import InputError, checked_call, thing, whole
from ..mechanics.hand_path import POINTS
from ..sources import fact


@checked_call
def first_counted(points):
    """Index, a whole number, of the first counted point of a rep with so many ``points``; `InputError` for no count of them.

    >>> first_counted(41)
    8
    """
    return int(np.ceil(fact("rep_counted_from") * (whole("points", points, POINTS) - 1)))


def counted_mean(activation):
    """Mean of an ``activation`` (..., point, muscle) over the counted points of a rep, (..., muscle), a share of capacity without unit."""
    return activation[..., first_counted(activation.shape[-2]) :, :].mean(axis=-2)


def a_rep(rep, *needed):
    """Return ``rep`` if it is a dataset of `rep_and_sweep.rep` that has the variables ``needed`` (names), else `InputError`."""
    missing = [
        name
        for name in ("shoulder_torque", *needed)
        if name not in thing("rep", rep, xr.Dataset, "sm.rep(lifter, pull)")
    ]
    if missing:
        raise InputError("rep", f"rep has no {missing[0]}: give one of sm.rep(lifter, pull), with muscles and work")
    return rep


@checked_call
def counted_part(rep):
    """The counted points of a ``rep`` (or sweep), an `xarray.Dataset` with the units of `rep_and_sweep.rep`; else `InputError`."""
    return a_rep(rep).isel(point=slice(first_counted(rep.sizes["point"]), None))


@checked_call
def weakest_point(rep):
    """Index of the counted point of one ``rep`` at which the largest load [kg] is smallest, or where not even the arm is held.

    `InputError` where it is no rep, one without work, or a sweep.
    """
    if a_rep(rep, "largest_load_kg").largest_load_kg.ndim != 1:
        raise InputError("rep", "rep is a sweep or a crowd's; give the rep of one lifter and one pull")
    first = first_counted(rep.sizes["point"])
    return first + int(np.argmin(rep.largest_load_kg.values[first:]))
