"""One rep of a pull, and many at once: labelled arrays of what it asks.

The flow: a `Lifter` and a `Pull` give a hand path (`arm.hand_path`), the path gives the arm's
posture (`arm.arm_at`), load and arm weights give the torques (`statics`), the humerus gives the
muscles' moment arms (`muscle`), their size gives what they can supply (`capacity`, `balance`), and who
does (`sharing`).
"""

from dataclasses import replace
from functools import lru_cache

import numpy as np
import xarray as xr

from .arm import arm_at, elevation_and_plane, hand_path
from .balance import JOINTS, Asked
from .body import MUSCLES, reference_body
from .elbow import elbow_arms, elbow_excursions
from .girdle import girdle_arms, girdle_names, through_humerus_arms
from .hand_turn import forearm_turn
from .inputs import Allowed, InputError, choice, number
from .lifter import MEASURES
from .muscle import BLOCK, paths
from .muscle import names as shoulder_names
from .pull import ALLOWED
from .scapula import turned_scapula, upward_rotation
from .sources import fact
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
from .work import SHARING, Sharing, work_variables

SWEEPABLE = (*ALLOWED, *MEASURES)
SPACE = ("forward", "up", "right")
COORDS = {"axis": list(AXES), "girdle_axis": list(GIRDLE_AXES), "space": list(SPACE), "joint": list(JOINTS)}
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
    "forearm_turn": "rad",
    "capacity": "N",
    "activation": "",
    "shortfall": "",
    "largest_load_kg": "kg",
    "whole_rep_load_kg": "kg",
    "adds_kg": "kg",
    "gives_out": "",
    "side_force": "N",
    "force": "N",
    "hand_offset": "m",
    "line_offset": "m",
    "touched": "",
    "short_of_touch": "m",
}
MOST_POSTURES = 20_000  # of a sweep, whose work is worked out without being asked for


def rep(
    lifter,
    pull,
    points=41,
    arm_weight=True,
    muscles=True,
    work=True,
    *,
    strength=None,
    balance="plane",
    side_force="zero",
    power=2.0,
    by_size=False,
    body=None,
):
    """What one rep asks of the shoulder, elbow and girdle, from the reach to its end, and who supplies it.

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
    work : bool
        False leaves out who does the work and the largest load, for speed.
    strength : capacity.Strength or float, optional
        How strong the lifter is; a number is the factor on the table's adult. None: what is expected of sex
        and body mass (`capacity.expected_strength`).
    balance : "plane" or "all axes"
        Whether the shoulder's torque is met about the normal of the plane of pull only, or about all axes.
    side_force : "zero", "grip" or "free"
        The sideways force that a hand may put on a bar: none, as much as friction holds, any. On handles and
        with one hand there is none.
    power : float
        Muscles share so that the sum of activation to this power is least; 1.05 to 10, by default 2.
    by_size : bool
        True weighs each muscle's term by its cross-section, so that the answer does not depend on how many parts
        the table cuts a muscle into.
    body : body.Body, optional
        Other muscles than the reference body's.

    Returns
    -------
    xarray.Dataset, dims point, axis, muscle, space, girdle_axis, joint
        ``shoulder_torque``, ``elbow_torque`` and ``girdle_torque`` that the lifter supplies on one
        side [N m]; ``hand``, ``elbow`` from the GH centre in thorax axes [m]; ``elevation``,
        ``plane_of_elevation``, ``elbow_flexion``, ``scapular_upward_rotation`` (from rest) [rad];
        ``muscle_moment_arm`` about the shoulder, ``elbow_moment_arm``, ``girdle_moment_arm``, each 0 where a
        muscle does not cross; ``muscle_length`` of paths that cross the shoulder, for the elbow's own
        muscles the change from a straight elbow, 0 for the girdle's [m];
        ``force`` on one hand [N]; ``hand_offset`` w, ``line_offset`` a [m]; ``touched`` is False where
        the elbow was fully bent (143°) before the touch point, ``short_of_touch`` then the way left [m];
        ``forearm_turn`` from neutral, pronation positive [rad];
        ``capacity`` of each muscle at this turn of the hand [N]; ``activation``, its share of that at the pull's own load, 0 to 1; where
        the load cannot be held, some are 1 and ``shortfall`` says what share of the torque is missing;
        ``largest_load_kg`` on the whole bar that the posture can hold, NaN where it cannot even hold the arm,
        ``adds_kg`` what each fully active muscle adds to it, ``gives_out`` each joint's share in what stops it,
        in sum 1, ``whole_rep_load_kg`` the smallest of the largest
        loads after the first fifth of the rep [kg]; ``side_force`` of the bar on the hand, to the right [N].

    Raises
    ------
    InputError
        A grip or touch point out of reach; names the field.

    Notes
    -----
    Valid for slow reps: no inertia, a straight hand path (or an arc), a GH centre that stays put. Loads are
    isometric limits, good for orders and shapes; their size rests on the strength factor. What a muscle does
    at the elbow is ``activation * capacity * elbow_moment_arm`` times the strength's ``elbow`` factor and, for
    flexors, the turn's leverage (`hand_turn`).

    Examples
    --------
    >>> from shoulder_model import Lifter, pulls
    >>> one = rep(Lifter.average("men"), pulls["front pulldown"], arm_weight=False)
    >>> round(float(one.shoulder_torque.sel(axis="extension")[0]), 1)
    25.5
    """
    if any(np.ndim(getattr(pull, name)) for name in ALLOWED):
        raise InputError("pull", "pull has a field that is an array; give the numbers to sweep() instead")
    sharing = Sharing(strength, balance, side_force, power, by_size, body)
    return _dataset(lifter, pull, points, arm_weight, muscles, work, sharing, {})


def sweep(
    lifter,
    pull,
    points=41,
    arm_weight=True,
    muscles=True,
    work=None,
    *,
    strength=None,
    balance="plane",
    side_force="zero",
    power=2.0,
    by_size=False,
    body=None,
    **values,
):
    """`rep` for every combination of the given values: the same names, one dim more for each field.

    Parameters
    ----------
    points, arm_weight, muscles, strength, balance, side_force, power, by_size, body
        As for `rep`.
    work : bool, optional
        Who does the work takes about four times as long as all the rest. Left open, it is worked out for up to
        20,000 postures and left out beyond; True and False decide it.
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
    sharing = Sharing(strength, balance, side_force, power, by_size, body)
    axes = {}
    for name, given in values.items():
        choice("field", name, (*SWEEPABLE, *SHARING))
        axes[name] = np.atleast_1d(np.asarray(given, dtype=float))
        if axes[name].ndim != 1 or not axes[name].size:
            raise InputError(name, f"{name} has shape {np.shape(given)}; give one value or a list of values")
    return _dataset(lifter, pull, points, arm_weight, muscles, work, sharing, axes)


def _dataset(lifter, pull, points, arm_weight, muscles, work, sharing, axes):
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
    if sharing.strength is not None:
        sharing = replace(sharing, strength=_spread(sharing.strength_of(lifter), crowd, len(lead)))
    if work is None:
        work = points * np.prod(shape) <= MOST_POSTURES
    variables = {}
    for name, (dims, values) in _solve(lifter, pull, points, arm_weight, muscles, work, sharing).items():
        tail = np.shape(values)[np.ndim(values) - len(dims) :] if dims else ()
        tail = (points, *tail[1:]) if dims[:1] == ("point",) else tail
        if not dims and np.ndim(values):
            values = values[..., 0]  # the axis that points would broadcast against
        full = np.broadcast_to(values, (*shape, *tail))
        variables[name] = xr.Variable((*lead, *dims), full, {"units": UNITS[name]}, fastpath=True)
    coords = _coords(points)
    if lead:
        coords = coords.assign(lead)
    return xr.Dataset(variables, coords, {"pull": pull.name, "arm_weight": int(arm_weight)})


@lru_cache(maxsize=32)
def _coords(points):
    """Coordinates of every rep of so many points; making their indexes anew would take a third of its time."""
    progress = np.linspace(0.0, 1.0, points)
    progress.setflags(write=False)  # every rep of so many points shares it
    return xr.Dataset(coords=COORDS | {"muscle": list(MUSCLES), "progress": ("point", progress)}).coords


def _spread(strength, crowd, rank):
    """A strength with one value a lifter, if it has any arrays, laid along the crowd."""
    arrays = {field: value for field, value in vars(strength).items() if np.ndim(value)}
    wrong = [field for field, value in arrays.items() if np.shape(value) != crowd]
    if wrong:
        raise InputError(
            "strength",
            f"strength: {wrong[0]} has shape {np.shape(arrays[wrong[0]])}; give one number, or one for each lifter of a crowd",
        )
    return _reshaped(strength, arrays, 0, rank) if arrays else strength


def _reshaped(record, values, place, rank):
    """``record`` with arrays put on axis ``place`` of ``rank`` leading axes, plus one axis for points."""
    shape = [1] * (rank + 1)
    shape[place] = -1
    return replace(record, **{name: np.reshape(array, shape) for name, array in values.items()})


def _solve(lifter, pull, points, arm_weight, muscles, work, sharing):
    """Every variable of the rep as (dims, array); arrays broadcast over leading axes."""
    path, posture, (held, per_kg, aside) = load_cases(lifter, pull, points, arm_weight)
    kg = np.asarray(pull.mass_on_bar(lifter), float)
    at_point, at_point_axis = ("point",), ("point", "axis")
    found = {
        "hand": (("point", "space"), path.hand),
        "elbow": (("point", "space"), posture.elbow),
        "elbow_flexion": (at_point, posture.elbow_flexion),
        "elevation": (at_point, posture.elevation),
        "plane_of_elevation": (at_point, posture.plane_of_elevation),
        "forearm_turn": (at_point, forearm_turn(posture, lifter, pull)),
        "shoulder_torque": (at_point_axis, kg[..., None] * per_kg.shoulder + held.shoulder),
        "elbow_torque": (at_point, kg * per_kg.elbow + held.elbow),
        "girdle_torque": (("point", "girdle_axis"), kg[..., None] * per_kg.girdle + held.girdle),
        "force": ((), pull.force(lifter)),
        "hand_offset": ((), pull.hand_offset(lifter)),
        "line_offset": ((), pull.line_offset(lifter)),
        "touched": ((), path.touched),
        "short_of_touch": ((), path.short_of_touch),
    }
    if muscles:
        body = sharing.body or reference_body()
        found |= _muscles(posture, body)
        if work:
            found |= work_variables(lifter, pull, path.normal, (held, per_kg, aside), kg, found, body, sharing)
    return found


def load_cases(lifter, pull, points, arm_weight=True):
    """The way of the hand, the arm along it, and what three load cases ask of the joints.

    Returns
    -------
    arm.HandPath, arm.Posture, tuple of three `balance.Asked`
        For the arm's own weight [N m], 1 kg on the whole bar [N m/kg], 1 N from the bar on the hand to the right [m];
        (..., point) or with components behind.
    """
    path = hand_path(lifter, pull, points)
    posture = arm_at(lifter, path.hand, path.normal, pull.elbow_cue)
    per_kg = _asked(lifter, posture, [path.hand], [fact("gravity") / pull.hands * path.along], [0])
    if arm_weight:
        held = _asked(lifter, posture, *arm_weights(lifter, posture, pull.trunk_lean), [1])
    else:
        held = Asked(*(0.0 * torque for torque in (per_kg.shoulder, per_kg.elbow, per_kg.girdle)))
    return path, posture, (held, per_kg, _asked(lifter, posture, [path.hand], [np.array([0.0, 0.0, 1.0])], [0]))


def _asked(lifter, posture, positions, forces, below_elbow):
    """What forces at positions ask of the three joints."""
    return Asked(
        anatomical(needed_torque(positions, forces)),
        elbow_torque(posture, [positions[i] for i in below_elbow], [forces[i] for i in below_elbow]),
        girdle_torque(positions, forces, sc_joint(lifter)),
    )


def _muscles(posture, body):
    """Lengths and moment arms of all muscles about shoulder, elbow and girdle, worked out in blocks of postures."""
    flexion = np.asarray(posture.elbow_flexion)
    lead = np.broadcast_shapes(posture.humerus.shape[:-2], flexion.shape)
    humerus = np.broadcast_to(posture.humerus, (*lead, 3, 3)).reshape(-1, 3, 3)
    flexion = np.broadcast_to(flexion, lead).ravel()
    count, first = len(MUSCLES), len(shoulder_names())
    turned, lengths, elbow = np.empty(len(flexion)), np.empty((len(flexion), count)), np.empty((len(flexion), count))
    shoulder, girdle = np.zeros((len(flexion), count, len(AXES))), np.zeros((len(flexion), count, len(GIRDLE_AXES)))
    for start in range(0, len(flexion), BLOCK):
        here = slice(start, start + BLOCK)
        arm, bent = humerus[here], flexion[here]
        elevation, plane = elevation_and_plane(arm)
        turned[here] = upward_rotation(elevation, plane)
        scapula = turned_scapula(elevation, plane)
        lengths[here] = elbow_excursions(MUSCLES, bent)
        straight, torque = paths(arm, scapula, body.groups)
        lengths[here, :first] += straight
        shoulder[here, :first] = anatomical(torque)
        elbow[here] = elbow_arms(MUSCLES, bent)
        girdle[here, :first] = through_humerus_arms(arm, torque, body.groups)
        girdle[here, -len(girdle_names()) :] = girdle_arms(scapula, body.girdle)
    found = {
        "scapular_upward_rotation": (("point",), turned),
        "muscle_moment_arm": (("point", "muscle", "axis"), shoulder),
        "elbow_moment_arm": (("point", "muscle"), elbow),
        "girdle_moment_arm": (("point", "muscle", "girdle_axis"), girdle),
        "muscle_length": (("point", "muscle"), lengths),
    }
    return {name: (dims, values.reshape(*lead, *values.shape[1:])) for name, (dims, values) in found.items()}
