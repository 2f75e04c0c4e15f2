"""One rep of a pull, and many at once: labelled arrays of what it asks.

The flow: a `Lifter` and a `Pull` give a hand path (`arm.hand_path`), the path gives the arm's
posture (`arm.arm_at`), load and arm weights give the torques (`statics`), the humerus gives the
muscles' moment arms (`muscle`).
"""

from dataclasses import replace

import numpy as np
import xarray as xr

from .arm import arm_at, elevation_and_plane, hand_path
from .elbow import POLYNOMIALS, elbow_arms, elbow_excursion
from .girdle import girdle_arms, girdle_names, through_humerus_arms
from .inputs import Allowed, InputError, choice, number
from .lifter import MEASURES
from .muscle import BLOCK, paths
from .muscle import names as shoulder_names
from .pull import ALLOWED
from .scapula import turned_scapula, upward_rotation
from .statics import (
    AXES,
    GIRDLE_AXES,
    anatomical,
    arm_weights,
    elbow_torque,
    girdle_torque,
    needed_torque,
    sc_joint,
)

ELBOW_ONLY = ("triceps short heads", "brachialis", "brachioradialis")
MUSCLES = (*shoulder_names(), *ELBOW_ONLY, *girdle_names())
SWEEPABLE = (*ALLOWED, *MEASURES)
SPACE = ("forward", "up", "right")
COORDS = {"axis": list(AXES), "girdle_axis": list(GIRDLE_AXES), "space": list(SPACE)}
UNITS = {  # of every variable that `rep` returns
    "hand": "m",
    "elbow": "m",
    "elbow_flexion": "rad",
    "elevation": "rad",
    "plane_of_elevation": "rad",
    "shoulder_torque": "N m",
    "elbow_torque": "N m",
    "girdle_torque": "N m",
    "scapular_upward_rotation": "rad",
    "muscle_moment_arm": "m",
    "elbow_moment_arm": "m",
    "girdle_moment_arm": "m",
    "muscle_length": "m",
    "force": "N",
    "hand_offset": "m",
    "line_offset": "m",
    "touched": "",
    "short_of_touch": "m",
}


def rep(lifter, pull, points=41, arm_weight=True, muscles=True):
    """What one rep asks of the shoulder, elbow and girdle, from the reach to its end.

    Parameters
    ----------
    lifter : Lifter
        One lifter, or a crowd (fields of shape (n,)): then a dim ``lifter`` leads.
    pull : Pull
    points : int
        Evenly spaced along the hand path, 2 to 10,001.
    arm_weight : bool
        False leaves out the weight of the arm itself, for work by hand.
    muscles : bool
        False leaves out the variables of muscles and scapula, for speed.

    Returns
    -------
    xarray.Dataset, dims point, axis, muscle, space, girdle_axis
        ``shoulder_torque``, ``elbow_torque`` and ``girdle_torque`` that the lifter supplies on one
        side [N m]; ``hand``, ``elbow`` from the GH centre in thorax axes [m]; ``elevation``,
        ``plane_of_elevation``, ``elbow_flexion``, ``scapular_upward_rotation`` (from rest) [rad];
        ``muscle_moment_arm`` about the shoulder, ``elbow_moment_arm``, ``girdle_moment_arm``, each 0 where a
        muscle does not cross; ``muscle_length`` of paths that cross the shoulder, for the elbow's own
        muscles the change from a straight elbow, 0 for the girdle's [m];
        ``force`` on one hand [N]; ``hand_offset`` w, ``line_offset`` a [m]; ``touched`` is False where
        the elbow was fully bent (143°) before the touch point, ``short_of_touch`` then the way left [m].

    Raises
    ------
    InputError
        A grip or touch point out of reach; names the field.

    Notes
    -----
    Valid for slow reps: no inertia, a straight hand path (or an arc), a GH centre that stays put.

    Examples
    --------
    >>> from shoulder_model import Lifter, pulls
    >>> one = rep(Lifter.average("men"), pulls["front pulldown"], arm_weight=False)
    >>> round(float(one.shoulder_torque.sel(axis="extension")[0]), 1)
    25.5
    """
    if any(np.ndim(getattr(pull, name)) for name in ALLOWED):
        raise InputError("pull", "pull has a field that is an array; give the numbers to sweep() instead")
    return _dataset(lifter, pull, points, arm_weight, muscles, {})


def sweep(lifter, pull, points=41, arm_weight=True, muscles=True, **values):
    """`rep` for every combination of the given values: the same names, one dim more for each field.

    Parameters
    ----------
    **values : array_like, shape (n,)
        Any numeric field of `Pull` (``grip_ratio``, ``trunk_lean``, ``load_kg``, ...) or of a single
        `Lifter` (``biacromial``, ...); units as there.

    Examples
    --------
    >>> from shoulder_model import Lifter, pulls
    >>> grid = sweep(Lifter.average("men"), pulls["front pulldown"], grip_ratio=[1.0, 2.0], trunk_lean=[0.0, 0.2])
    >>> dict(grid.shoulder_torque.sizes)
    {'grip_ratio': 2, 'trunk_lean': 2, 'point': 41, 'axis': 3}
    """
    axes = {}
    for name, given in values.items():
        choice("field", name, SWEEPABLE)
        axes[name] = np.atleast_1d(np.asarray(given, dtype=float))
        if axes[name].ndim != 1 or not axes[name].size:
            raise InputError(name, f"{name} has shape {np.shape(given)}; give one value or a list of values")
    return _dataset(lifter, pull, points, arm_weight, muscles, axes)


def _dataset(lifter, pull, points, arm_weight, muscles, axes):
    points = int(number("points", points, Allowed(2, 10_001, "points", "give 2 to 10,001 points along the rep")))
    crowd = np.shape(lifter.stature)
    lead = {"lifter": np.arange(*crowd)} if crowd else {}
    lead |= axes
    if crowd:
        lifter = _reshaped(lifter, {name: getattr(lifter, name) for name in MEASURES}, 0, len(lead))
    for place, (name, values) in enumerate(axes.items(), start=len(lead) - len(axes)):
        if name in ALLOWED:
            pull = _reshaped(pull, {name: values}, place, len(lead))
        else:
            lifter = _reshaped(lifter, {name: values}, place, len(lead))
    shape = tuple(len(values) for values in lead.values())
    variables = {}
    for name, (dims, values) in _solve(lifter, pull, points, arm_weight, muscles).items():
        tail = np.shape(values)[np.ndim(values) - len(dims) :] if dims else ()
        tail = (points, *tail[1:]) if dims[:1] == ("point",) else tail
        if not dims and np.ndim(values):
            values = values[..., 0]  # the axis that points would broadcast against
        full = np.broadcast_to(values, (*shape, *tail))
        variables[name] = xr.Variable((*lead, *dims), full, {"units": UNITS[name]}, fastpath=True)
    coords = lead | COORDS | {"muscle": list(MUSCLES), "progress": ("point", np.linspace(0.0, 1.0, points))}
    return xr.Dataset(variables, coords=coords, attrs={"pull": pull.name, "arm_weight": int(arm_weight)})


def _reshaped(record, values, place, rank):
    """``record`` with arrays put on axis ``place`` of ``rank`` leading axes, plus one axis for points."""
    shape = [1] * (rank + 1)
    shape[place] = -1
    return replace(record, **{name: np.reshape(array, shape) for name, array in values.items()})


def _solve(lifter, pull, points, arm_weight, muscles):
    """Every variable of the rep as (dims, array); arrays broadcast over leading axes."""
    path = hand_path(lifter, pull, points)
    posture = arm_at(lifter, path.hand, path.normal, pull.elbow_cue)
    force = pull.force(lifter)
    positions, forces = [path.hand], [np.asarray(force)[..., None] * path.along]
    if arm_weight:
        at, weights = arm_weights(lifter, posture, pull.trunk_lean)
        positions, forces = [*positions, *at], [*forces, *weights]
    below_elbow = [0, 2] if arm_weight else [0]
    at_point, at_point_axis = ("point",), ("point", "axis")
    return {
        "hand": (("point", "space"), path.hand),
        "elbow": (("point", "space"), posture.elbow),
        "elbow_flexion": (at_point, posture.elbow_flexion),
        "elevation": (at_point, posture.elevation),
        "plane_of_elevation": (at_point, posture.plane_of_elevation),
        "shoulder_torque": (at_point_axis, anatomical(needed_torque(positions, forces))),
        "elbow_torque": (
            at_point,
            elbow_torque(posture, [positions[i] for i in below_elbow], [forces[i] for i in below_elbow]),
        ),
        "girdle_torque": (("point", "girdle_axis"), girdle_torque(positions, forces, sc_joint(lifter))),
        **(_muscles(posture) if muscles else {}),
        "force": ((), force),
        "hand_offset": ((), pull.hand_offset(lifter)),
        "line_offset": ((), pull.line_offset(lifter)),
        "touched": ((), path.touched),
        "short_of_touch": ((), path.short_of_touch),
    }


def _muscles(posture):
    """Lengths and moment arms of all muscles about shoulder, elbow and girdle, worked out in blocks of postures."""
    flexion = np.asarray(posture.elbow_flexion)
    lead = np.broadcast_shapes(posture.humerus.shape[:-2], flexion.shape)
    humerus = np.broadcast_to(posture.humerus, (*lead, 3, 3)).reshape(-1, 3, 3)
    flexion = np.broadcast_to(flexion, lead).ravel()
    count, first = len(MUSCLES), len(shoulder_names())
    turned, lengths, elbow = np.empty(len(flexion)), np.zeros((len(flexion), count)), np.empty((len(flexion), count))
    shoulder, girdle = np.zeros((len(flexion), count, len(AXES))), np.zeros((len(flexion), count, len(GIRDLE_AXES)))
    for start in range(0, len(flexion), BLOCK):
        here = slice(start, start + BLOCK)
        arm, bent = humerus[here], flexion[here]
        elevation, plane = elevation_and_plane(arm)
        turned[here] = upward_rotation(elevation, plane)
        scapula = turned_scapula(elevation, plane)
        lengths[here, :first], torque = paths(arm, scapula)
        shoulder[here, :first] = anatomical(torque)
        elbow[here] = elbow_arms(MUSCLES, bent)
        for i, name in enumerate(MUSCLES):
            if name in POLYNOMIALS:
                lengths[here, i] += elbow_excursion(name, bent)
        girdle[here, :first] = through_humerus_arms(arm, torque)
        girdle[here, -len(girdle_names()) :] = girdle_arms(scapula)
    found = {
        "scapular_upward_rotation": (("point",), turned),
        "muscle_moment_arm": (("point", "muscle", "axis"), shoulder),
        "elbow_moment_arm": (("point", "muscle"), elbow),
        "girdle_moment_arm": (("point", "muscle", "girdle_axis"), girdle),
        "muscle_length": (("point", "muscle"), lengths),
    }
    return {name: (dims, values.reshape(*lead, *values.shape[1:])) for name, (dims, values) in found.items()}
