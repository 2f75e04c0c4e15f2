"""What a study can be asked: any variable of a rep, and the answers that a coach cares about.

    lat_share, mid_back_share    share of the active muscle, at half of the rep's largest load, over its counted part
    lat_moment_arm               the lat's about the normal of the plane of pull, its parts by size, mean of the counted part [m]
    whole_rep_load_kg            the largest load that the whole rep allows [kg]
    most_shoulder_torque         the largest torque of the shoulder in the rep, at the pull's own load [N m]
    best_grip_by_...             of the grips that are tried, the one that does best by one of these

More is better, but for the torque, where less is. Of grips that do equally well the narrowest counts.
"""

from collections.abc import Callable
from dataclasses import dataclass
from functools import cache, partial

import numpy as np

from ..inputs import choice
from ..mechanics.statics import shoulder_components
from ..mechanics.vectors import dot
from ..muscles import LAT, MUSCLES
from ..repetition import VARIABLES, first_counted, group_shares

EFFORT = 0.5  # of the largest load, at which shares are taken
GRIP = "grip_ratio"
BEST = "best_grip_by_"
GRAINS = {
    "": 1e-4,
    "kg": 0.01,
    "N m": 0.01,
    "m": 1e-5,
    "rad": 1e-4,
    "N": 0.01,
    "x biacromial": 1e-3,
}  # finest differences that matter


@dataclass(frozen=True)
class Answer:
    """One answer: ``name``, ``unit``, what it is ``of`` (takes a `repetition.ManyReps`, gives trailing dims and an array), and
    whether it is one for all grips (``over_grips``).
    """

    name: str
    unit: str
    of: Callable
    over_grips: bool = False

    @property
    def grain(self):
        """The finest difference that matters, in the answer's unit."""
        return GRAINS[self.unit]


def _share(group, reps):
    amounts = reps.active_cross_section(EFFORT)
    held = np.isfinite(amounts[..., 0])
    shares = group_shares(np.where(held[..., None], amounts, 1.0))[0][group]
    return (), np.where(held, shares, np.nan)


def _lat_arm(reps):
    _, arms = reps.variable("muscle_moment_arm")
    first = first_counted(reps.options.points)
    lat, size = [MUSCLES.index(name) for name in LAT], reps.options.body_of().cross_section
    normal = np.broadcast_to(reps.whole.path.normal, (*reps.shape, reps.options.points, 3))
    about = dot(arms[..., first:, lat, :], shoulder_components(normal[..., first:, :])[..., None, :])
    return (), (about * size[lat]).sum(axis=-1).mean(axis=-1) / size[lat].sum()


def _load(reps):
    return (), reps.load_kg[..., 0]


def _torque(reps):
    torque = reps.torques.shoulder
    return (), np.broadcast_to(np.sqrt(dot(torque, torque)).max(axis=-1), reps.shape)


COACH = {
    "lat_share": Answer("lat_share", "", partial(_share, "lat")),
    "mid_back_share": Answer("mid_back_share", "", partial(_share, "mid-back")),
    "lat_moment_arm": Answer("lat_moment_arm", "m", _lat_arm),
    "whole_rep_load_kg": Answer("whole_rep_load_kg", "kg", _load),
    "most_shoulder_torque": Answer("most_shoulder_torque", "N m", _torque),
}
LESS_IS_BETTER = ("most_shoulder_torque",)


@cache
def answer_names():
    """Names of all answers, a tuple of text."""
    return tuple(dict.fromkeys([*COACH, *(BEST + name for name in COACH), *VARIABLES]))


def answer_called(name):
    """The `Answer` with a ``name`` (text); an unknown one is an `inputs.UnknownName` with the nearest ones."""
    choice("answer", name, answer_names())
    if name in COACH:
        return COACH[name]
    if name.startswith(BEST):
        return Answer(name, "x biacromial", COACH[name.removeprefix(BEST)].of, over_grips=True)
    return Answer(name, VARIABLES[name], lambda reps: reps.variable(name))


def best_of(name, values, grips, axis):
    """The best grips by one answer.

    Parameters
    ----------
    name : str
        A ``best_grip_by_...``.
    values : ndarray
        What each grip does, in the answer's unit; NaN where it cannot be done.
    grips : ndarray, shape (n,)
        Grips over shoulder breadth, narrow ones first.
    axis : int
        That of the grips.

    Returns
    -------
    ndarray
        Grips over shoulder breadth; NaN where no grip can be done.
    """
    sign = -1.0 if name.removeprefix(BEST) in LESS_IS_BETTER else 1.0
    worth = np.where(np.isfinite(values), sign * values, -np.inf)
    best = np.asarray(grips)[worth.argmax(axis=axis)]
    return np.where(np.isneginf(worth.max(axis=axis)), np.nan, best)
