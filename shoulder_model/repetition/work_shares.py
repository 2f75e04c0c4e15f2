"""The lat's and the mid-back's share of the work: the table a coach pins to the wall.

The work of a muscle over a rep is its active cross-section, activation × PCSA, averaged over the counted
part of the rep: how much of it is switched on for how long. It is not mechanical work: the model's blade stays
put, so its muscles would have none.

Shares are taken at a set part of the rep's largest load, so pulls are compared at equal effort, with the
shoulder balanced about all axes. The band comes from the inputs: random bodies, with cross-sections over their
sources' range and landmarks moved by half of theirs.

Sharing weighs each muscle by its cross-section here. By default `rep` does not, which penalises a muscle that the table
splits into three parts.
"""

from functools import cache
from typing import NamedTuple

import numpy as np

from ..inputs import Allowed, InputError, number
from ..muscles import LAT, MUSCLES, drawn_bodies, reference_body
from ..people import one_person
from .counted_part import counted_part
from .rep_and_sweep import rep

GROUP_MUSCLES = {  # muscle group -> its muscles
    "lat": LAT,
    "mid-back": ("trapezius middle", "rhomboids", "deltoid posterior", "infraspinatus"),
}
EFFORT = Allowed(0.05, 0.95, "of the largest load", "give the share of the largest load, below 1")
BODIES, SEED = 40, 20
BAND = (5, 95)  # percentiles of the random bodies
POINTS = 21


class Share(NamedTuple):
    """One group's share of all muscles' work, 0 to 1, with the band from the inputs."""

    value: float
    low: float
    high: float


def active_cross_section(rep, body=None):
    """Activation × PCSA averaged over the counted part of a rep, (..., muscle). [cm²]

    Parameters
    ----------
    rep : xarray.Dataset
        Of `rep_and_sweep.rep` or `sweep`, with work.
    body : muscles.Body, optional
        The reference body by default.
    """
    body = reference_body() if body is None else body
    active = counted_part(rep).activation.mean("point")
    return active.transpose(..., "muscle").values * body.cross_section


def group_shares(active):
    """Shares of the `GROUP_MUSCLES`, 0 to 1, in what is ``active`` of each muscle (..., muscle) [cm²]: a dict of arrays (...)."""
    total = active.sum(axis=-1)
    return {
        group: active[..., [MUSCLES.index(name) for name in members]].sum(axis=-1) / total
        for group, members in GROUP_MUSCLES.items()
    }


@cache
def _bodies():
    return drawn_bodies(BODIES, SEED)


def work_shares(lifter, pull, *, effort=0.5, balance="all axes", band=True):
    """The lat's and the mid-back's share of the muscular work over one rep.

    Parameters
    ----------
    lifter : people.Lifter
        One lifter.
    pull : mechanics.Pull
        Its own load does not matter.
    effort : float
        Load over the rep's largest one, 0.05 to 0.95.
    balance : "plane" or "all axes"
        As for `rep_and_sweep.rep`.
    band : bool
        False takes the reference body alone, about 20 times faster; low and high are then the value.

    Returns
    -------
    dict of `Share`
        "lat" (latissimus dorsi, all parts) and "mid-back" (middle trapezius, rhomboids, posterior deltoid,
        infraspinatus).

    Notes
    -----
    Which muscles share is an assumption of its own (least sum of squared activations); the band does not hold it.
    """
    one_person(lifter, "a share of the work")
    number("effort", effort, EFFORT)
    strongest = rep(lifter, pull, points=POINTS, balance=balance)
    load = effort * float(strongest.whole_rep_load_kg)
    if not np.isfinite(load):
        raise InputError(
            "pull", f"pull {pull.name}: there is a point where the model cannot hold even the arm; change it"
        )
    pull = pull.change(load_kg=load)

    def shares(body):
        shared = rep(lifter, pull, points=POINTS, balance=balance, body=body, by_size=True)
        return group_shares(active_cross_section(shared, body))

    value = shares(reference_body())
    if not band:
        return {group: Share(float(share), float(share), float(share)) for group, share in value.items()}
    drawn = [shares(body) for body in _bodies()]
    bands = {}
    for group, share in value.items():
        low, high = np.percentile([of_body[group] for of_body in drawn], BAND)
        bands[group] = Share(float(share), float(min(low, share)), float(max(high, share)))
    return bands
