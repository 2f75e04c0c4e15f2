"""Work in the physicist's sense: torque times turn, joint by joint and muscle by muscle.

A lifter's joints put into the load what they turn against it:

    force · way of the hand + lifting the arm = Σ torque · turn      over shoulder, elbow and girdle

exactly, because the hand's velocity is the sum of what the three joints give it. The shoulder's turn is that of the upper
arm against the girdle, the girdle's that of the collarbone on the trunk. Each joint's work is the sum over its muscles of
force · arm · turn, what the muscle pulls times what it shortens by that joint; exactly so when all axes are balanced, with what
a bar's sideways push asks of that joint (nothing in sum: the hands do not move sideways) and what ribs and ligaments bear. A
muscle that is made longer while it pulls does negative work.

A rep is a row of points, so work is summed over its steps: mean torque of both ends times the turn between them. The
identity then holds to 0.02 % with 51 points and to 0.0003 % with 501.

Muscles of the scapula also change length as it turns on the collarbone. The rhythm prescribes that turn and no torque of the
model balances it, so it stands in a column of its own, "scapula": with it each muscle's row sums to force times shortening,
and its sum over muscles is what the identity leaves out.
"""

import numpy as np
import xarray as xr

from ..axes import JOINTS
from ..inputs import Allowed, InputError, checked_call, flag, scalar, whole
from ..mechanics import pull_axes, rep_mechanics
from ..muscles import MUSCLES, leverage
from ..muscles.capacity import FACTOR
from ..muscles.elbow import FLEXORS
from ..people import one_person
from .counted_part import a_rep, first_counted
from .options import options_of
from .rep_and_sweep import one_value_each, rep


@checked_call
def work_done(lifter, pull, *, counted=False, **options):
    """The work of one rep, one side: of the load, of each joint, of each muscle, and how far each joint brings the bar.

    Parameters
    ----------
    lifter : people.Lifter
        One lifter.
    pull : mechanics.Pull
    counted : bool
        True leaves out the first fifth of the rep (`counted_part`), where muscles are not asked.
    **options
        As for `rep`.

    Returns
    -------
    xarray.Dataset, dims joint, muscle, at
        ``load_work`` force times way [J]; ``arm_work`` for lifting the arm itself [J]; ``joint_work`` (joint), their sum split by
        torque times turn [J]; ``way`` (joint), how far the bar comes by the blade's carrying the shoulder ("girdle"), by the upper arm's turn on the
        trunk ("shoulder") and by the elbow [m]; ``muscle_work`` (muscle, at) [J], as of `muscle_work`, negative where a
        muscle is lengthened; ``side_work`` (joint) that the bar's sideways push asks for, 0 in sum [J]; ``rest_work`` of ribs and
        ligaments that bear the girdle [J].

    Raises
    ------
    InputError
        A crowd, what is not of its kind (as `rep`), or a load that cannot be held somewhere in that part of the rep.

    Notes
    -----
    ``way`` follows the shoulder's centre, ``joint_work`` the joints' torques. With the hand well inside the shoulder the two
    differ: the blade carries a close handle back, but the load hardly turns the girdle, so its muscles work little; those of
    the shoulder that keep the arm on its line do the rest.
    """
    one_person(lifter, "the work of a rep")
    counted, one = flag("counted", counted), rep(lifter, pull, **options)
    per_kg = rep(lifter, pull.change(load_kg=1.0), **options | {"arm_weight": False, "muscles": False})
    first = first_counted(one.sizes["point"]) if counted else 0
    if "shortfall" in one and np.any(one.shortfall.values[first:] > 0):
        raise InputError("load_kg", f"load_kg: {pull.name} cannot be held with it all the way; give less load")
    ours, of_one_kg = (joint_work(some, first).sum("point") for some in (one, per_kg))
    load_work = float(pull.mass_on_bar(lifter)) * float(of_one_kg.sum())
    bends = float(of_one_kg.sel(joint="elbow")) / pull.newtons_per_kg
    work = {
        "load_work": load_work,
        "arm_work": float(ours.sum()) - load_work,
        "joint_work": ours,
        "way": ("joint", _way(one, pull, first, bends)),
    }
    if "activation" in one:
        chosen = options_of(options)
        of_muscles = muscle_work(one, pull, chosen.strength_of(lifter).elbow, first)
        of_side = _side_work(rep_mechanics(lifter, pull, chosen.points), one.side_force.values, first)
        work |= {"muscle_work": of_muscles, "side_work": ("joint", of_side)}
        work["rest_work"] = float(ours.sel(joint="girdle") + of_side[-1] - of_muscles.sel(at="girdle").sum())
    return xr.Dataset(work)


def _steps(values, turn, first):
    """Mean of both ends times the turn between them, for every step from the point ``first`` on."""
    return (values[first:-1] + values[first + 1 :]) / 2 * turn[first + 1 :]


def _start(rep, first):
    """A point of a rep from which on something is counted."""
    last = rep.sizes["point"] - 1
    if rep.shoulder_torque.ndim != 2:
        raise InputError("rep", "rep is a sweep or a crowd's; give the rep of one lifter and one pull")
    return whole("first", first, Allowed(0, last, "", f"give an index along the rep, {last} the last"))


@checked_call
def joint_work(rep, first=0):
    """Torque times turn (point, joint) of each step of a ``rep`` (of one lifter) from the point ``first`` on; else `InputError`. [J = N m]"""
    first = _start(a_rep(rep), first)
    parts = (_steps(rep[f"{joint}_torque"].values, rep[f"{joint}_turn"].values, first) for joint in JOINTS)
    return xr.DataArray(
        np.stack([part.sum(axis=1) if part.ndim > 1 else part for part in parts], axis=1),
        dims=("point", "joint"), coords={"joint": list(JOINTS)},
    )  # fmt: skip


@checked_call
def muscle_work(rep, pull, elbow_factor, first=0):
    """Work (muscle, at) of every muscle at each joint and by the scapula's own turn, from the point ``first`` of a rep on. [J = N m]

    Parameters
    ----------
    rep : xarray.Dataset
        Of `rep_and_sweep.rep`, of one lifter, with work.
    pull : mechanics.Pull
    elbow_factor : float
        `muscles.Strength.elbow` that it was made with.
    first : int

    Raises
    ------
    InputError
        Another rep, one without work, or a point that there is not.
    """
    first, elbow_factor = _start(a_rep(rep, "activation"), first), scalar("elbow_factor", elbow_factor, FACTOR)
    one_value_each(pull)
    tension = (rep.activation * rep.capacity).transpose("point", "muscle").values
    arms = [rep[f"{name}_moment_arm"].values for name in ("muscle", "elbow", "girdle")]
    turns = [rep[f"{joint}_turn"].values for joint in JOINTS]
    work = tension_work(tension, arms, turns, rep.muscle_length.values, elbow_leverage(pull, elbow_factor), first)
    return xr.DataArray(work, dims=("muscle", "at"), coords={"muscle": list(MUSCLES), "at": [*JOINTS, "scapula"]})


def elbow_leverage(pull, elbow_factor):
    """What each muscle's work at the elbow counts, (muscle,), ratios: ``elbow_factor`` (float), and of its flexors the hand's turn of a ``pull``."""
    return elbow_factor * np.where(np.isin(MUSCLES, FLEXORS), leverage(pull.hand_turn), 1.0)


def tension_work(tension, arms, turns, length, at_elbow, first):
    """Work (muscle, at) of muscles at each joint and by the scapula's own turn, from the point ``first`` of a rep on. [J = N m]

    Parameters
    ----------
    tension : ndarray, shape (point, muscle)
        What each muscle pulls. [N]
    arms, turns : sequence of ndarray
        Of shoulder, elbow and girdle: moment arms (point, muscle, component) [m], turns since the point before (point, component)
        [rad]; the elbow's without components.
    length : ndarray, shape (point, muscle)
        Of the muscles' paths. [m]
    at_elbow : ndarray, shape (muscle,)
        As of `elbow_leverage`, ratios.
    first : int
        Where counting begins.
    """
    shoulder, elbow, girdle = (
        _steps(tension[..., None] * arm.reshape(*tension.shape, -1), turn.reshape(len(turn), 1, -1), first).sum(
            axis=(0, 2)
        )
        for arm, turn in zip(arms, turns, strict=True)
    )
    shortened = -np.diff(length, axis=0, prepend=length[:1])
    scapula = _steps(tension, shortened, first).sum(axis=0) - shoulder - elbow - girdle
    return np.stack([shoulder, elbow * at_elbow, girdle, scapula], axis=1)


def _side_work(whole, push, first):
    """Work (joint,) that a sideways ``push`` (point,) [N] of the bar asks of each joint. [J = N m]"""
    work = []
    for joint in JOINTS:
        torque, turn = getattr(whole.cases.side_force, joint), getattr(whole.turns, joint)
        work.append(_steps((torque.T * push).T, turn, first).sum())
    return np.array(work)


def _way(rep, pull, first, bends):
    """How far the upper arm, the elbow's ``bends`` and the travelling shoulder bring the bar along the pull, (joint,). [m]"""
    carried, whole = carried_way(rep, pull, first)
    return np.array([whole - carried - bends, bends, carried])


@checked_call
def carried_way(rep, pull, first=0):
    """How far the travelling shoulder blade carries the bar along the pull, and the bar's whole way. [m], [m]

    Parameters
    ----------
    rep : xarray.Dataset
        Of `rep_and_sweep.rep`, of one lifter.
    pull : mechanics.Pull
    first : int
        The point from which on the way is counted.

    Raises
    ------
    InputError
        Another rep or pull, or a point that there is not.
    """
    one_value_each(pull)
    first = _start(a_rep(rep), first)
    towards = -pull_axes(pull)[0]
    places = (rep.variables[name].values for name in ("gh_centre", "hand"))
    return tuple(float((place[-1] - place[first]) @ towards) for place in places)
