"""One posture of a rep, balanced anew: what the muscles would do there with other options than the rep was made with."""

import numpy as np

from ..inputs import Allowed, InputError, checked_call, whole
from ..mechanics import anatomical, rep_mechanics
from ..people import one_person
from .balance import balance_tables, possible_side_force
from .counted_part import a_rep
from .options import options_of
from .rep_and_sweep import one_value_each
from .supply import effort_and_limit

ARRAYS = ("capacity", "muscle_moment_arm", "elbow_moment_arm", "girdle_moment_arm")


def posture_tables(lifter, pull, rep, point, options):
    """The `balance.Balance` of one posture, and the normal of its plane of pull as shoulder components, (1, 3).

    Parameters
    ----------
    lifter : people.Lifter
        One lifter.
    pull : mechanics.Pull
    rep : xarray.Dataset
        The rep of both, with work.
    point : int
        Index along the rep, 0 the first.
    options : options.RepOptions

    Raises
    ------
    InputError
        Another rep or point.
    """
    one_value_each(pull)
    rep = a_rep(rep, *ARRAYS)
    if rep[ARRAYS[0]].ndim != 2:
        raise InputError("rep", "rep is a sweep or a crowd's; give the rep of one lifter and one pull")
    last = rep.sizes["point"] - 1
    point = whole("point", point, Allowed(0, last, "", f"give an index along the rep, {last} the last"))
    moved = rep_mechanics(lifter, pull, rep.sizes["point"], arm_weight=options.arm_weight)
    normal = np.broadcast_to(anatomical(moved.path.normal), (rep.sizes["point"], 3))[[point]]
    capacity, *arms = (rep[name].values[point : point + 1] for name in ARRAYS)
    tables = balance_tables(
        moved.cases.map(lambda array: array[[point]]), arms, capacity, normal,
        balance=options.balance, hand_turn=pull.hand_turn, elbow_factor=options.strength_of(lifter).elbow,
    )  # fmt: skip
    return tables, normal


@checked_call
def activation_at(lifter, pull, rep, point, **options):
    """Activation of every muscle at one point of a rep, (muscle,), share of its capacity.

    ``lifter``, ``pull``, ``rep`` (of the same strength and body) and ``point`` as for `posture_tables`; ``options`` as for
    `rep_and_sweep.rep`, where ``balance`` may be another than the rep's. Raises `InputError` as `rep_and_sweep.rep`, and for a rep or point that there is not.
    """
    one_person(lifter, "the activation in one posture")
    options = options_of(options)
    tables, _ = posture_tables(lifter, pull, rep, point, options)
    effort, _, _ = effort_and_limit(
        tables, np.array([float(pull.mass_on_bar(lifter))]), power=options.power,
        side_force=possible_side_force(pull, options.side_force), newtons_per_kg=pull.newtons_per_kg, friction=options.friction,
        weight=options.weights,
    )  # fmt: skip
    return effort.activation[0, :-1]
