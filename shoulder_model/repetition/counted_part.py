"""The part of a rep that counts for what it can hold.

Before it the arm is all but straight and hangs on bone and ligament, which the model does not know: our assumption,
``rep_counted_from`` in ``data/facts.csv``.
"""

import numpy as np

from ..sources import fact


def first_counted(points):
    """Index, a whole number, of the first counted point of a rep with so many ``points``.

    >>> first_counted(41)
    8
    """
    return int(np.ceil(fact("rep_counted_from") * (points - 1)))


def counted_part(rep):
    """The counted points of a ``rep`` (or sweep), an `xarray.Dataset` with the units of `rep_and_sweep.rep`."""
    return rep.isel(point=slice(first_counted(rep.sizes["point"]), None))


def weakest_point(rep):
    """Index of the counted point of one ``rep`` at which the largest load [kg] is smallest, or where not even the arm is held."""
    first = first_counted(rep.sizes["point"])
    return first + int(np.argmin(rep.largest_load_kg.values[first:]))
