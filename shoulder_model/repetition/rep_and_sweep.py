"""One rep of a pull, and many at once: labelled arrays of what it asks.

The flow: a `Lifter` and a `Pull` give the hand's way, the arm along it and the torques (`mechanics.rep_mechanics`), the
humerus gives the muscles' lengths and moment arms (`muscles.muscle_geometry`), their size gives what they can supply
and who does (`supply`).
"""

import inspect
from dataclasses import replace
from functools import lru_cache
from math import prod

import numpy as np
import xarray as xr

from ..axes import AXES, GIRDLE_AXES, JOINTS, SPACE
from ..inputs import InputError, checked_call, choice, flag, number
from ..mechanics import rep_mechanics
from ..mechanics.pull import ALLOWED, a_pull
from ..muscles import MUSCLES, forearm_turn, muscle_geometry
from ..people import MEASURES, a_lifter, survey
from .options import OPTIONS, options_of, signature_with_options
from .supply import supply

SWEEPABLE = (*ALLOWED, *MEASURES)
COORDS = {"axis": list(AXES), "girdle_axis": list(GIRDLE_AXES), "space": list(SPACE), "joint": list(JOINTS)}
VARIABLES = {  # of `rep`, and their units
    "gh_centre": "m",
    "hand": "m",
    "elbow": "m",
    "elbow_flexion": "rad",
    "elbow_past_ribs": "rad",
    "girdle_posture": "rad",
    "elevation": "rad",
    "plane_of_elevation": "rad",
    "shoulder_torque": "N m",
    "elbow_torque": "N m",
    "girdle_torque": "N m",
    "shoulder_turn": "rad",
    "elbow_turn": "rad",
    "girdle_turn": "rad",
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
MOST_AT_ONCE = 2_000_000  # postures; more would not fit in memory
MOST_POSTURES = 20_000  # of a sweep, whose work is worked out without being asked for


@checked_call
def rep(lifter, pull, **options):
    """What one rep asks of the shoulder, elbow and girdle, from the straight arm to its end, and who supplies it.

    Parameters
    ----------
    lifter : people.Lifter
        One lifter, or a crowd (fields of shape (n,)): then a dim ``lifter`` leads.
    pull : mechanics.Pull
    **options
        The following, by name; their defaults stand in `options.RepOptions`.
    points : int
        Evenly spaced along the hand path, 2 to 10,001.
    arm_weight : bool
        False leaves out the weight of the arm itself, for work by hand.
    muscles : bool
        False leaves out the variables of muscles and scapula, for speed.
    work : bool
        False leaves out who does the work and the largest load, for speed.
    strength : muscles.Strength or float, optional
        How strong the lifter is; a number is the factor on the table's adult. None: what is expected of sex
        and body mass (`muscles.expected_strength`).
    balance : "plane" or "all axes"
        Whether the shoulder's torque is met about the normal of the plane of pull only, or about all axes.
    side_force : "grip", "zero" or "free"
        The sideways force that two hands may put on one rigid bar: as much as friction holds, none, any. Handles and one
        hand have none, whatever is asked here: it is a part of the pull.
    power : float
        Muscles share so that the sum of activation to this power is least; 1.05 to 10, by default 2.
    by_size : bool
        True weighs each muscle's term by its cross-section, so that the answer does not depend on how many parts
        the table cuts a muscle into; False counts every part alike.
    body : muscles.Body, optional
        Other muscles than the reference body's.
    friction : float
        Of the grip, by which a sideways force is held: that force over the pull on the hand, a ratio.
    compiled : bool
        True has numba compile the muscles' lengths and arms, for crowds: the same to rounding and several times as fast,
        after a few seconds in each new process. The extra ``fast`` installs numba.

    Returns
    -------
    xarray.Dataset, dims point, axis, muscle, space, girdle_axis, joint
        ``shoulder_torque``, ``elbow_torque`` and ``girdle_torque`` that load and arm ask of the lifter on one side, without a
        bar's sideways push [N m]; ``shoulder_turn`` of the upper arm against the girdle, ``elbow_turn``, ``girdle_turn`` since the point
        before, 0 at the first, with the torques' components and signs [rad]; ``gh_centre``, ``hand``, ``elbow`` from where the GH centre rests, in thorax axes [m]; ``elevation``,
        ``plane_of_elevation``, ``elbow_flexion``, ``girdle_posture`` (retraction and depression of the collarbone) and
        ``scapular_upward_rotation`` (both from rest), ``elbow_past_ribs``, by which the elbow was turned out to clear them [rad];
        ``muscle_moment_arm`` about the shoulder, ``elbow_moment_arm``, ``girdle_moment_arm``, each 0 where a
        muscle does not cross; ``muscle_length`` of paths that cross the shoulder or go from trunk to girdle, for the
        elbow's own muscles the change from a straight elbow [m];
        ``force`` on one hand [N]; ``hand_offset`` w, ``line_offset`` a of the shoulder where it is [m]; ``touched`` is False where
        the elbow was fully bent (143°) before the touch point, ``short_of_touch`` then the way left [m];
        ``forearm_turn`` from neutral, pronation positive [rad];
        ``capacity`` of each muscle at this turn of the hand [N]; ``activation``, its share of that at the pull's own load, 0 to 1; where
        the load cannot be held it is that of the largest load, and ``shortfall`` says what share of the load is too much;
        ``largest_load_kg`` on the whole bar that the posture can hold, NaN like the next two where it cannot even hold the arm,
        ``adds_kg`` what each fully active muscle adds to it, ``gives_out`` each joint's share in what stops it,
        in sum 1, ``whole_rep_load_kg`` the smallest of the largest
        loads after the first fifth of the rep [kg]; ``side_force`` of the bar on the hand, to the right [N].

    Raises
    ------
    InputError
        What is no lifter or no pull, an option that there is not or that is of another kind, ``compiled`` without numba, a
        grip or touch point out of reach; names the field.

    Notes
    -----
    Valid for slow reps: no inertia, a straight hand path (or an arc), a shoulder blade that travels as its pull says. Loads are
    isometric limits, good for orders and shapes; their size rests on the strength factor. What a muscle does
    at the elbow is ``activation * capacity * elbow_moment_arm`` times the strength's ``elbow`` factor and, for
    flexors, the turn's leverage (`muscles.leverage`).

    Examples
    --------
    >>> from shoulder_model import Lifter, pulls
    >>> held = pulls["front pulldown"].change(girdle_travel=0.0)
    >>> pulldown = rep(Lifter.average("men"), held, arm_weight=False)
    >>> round(float(pulldown.shoulder_torque.sel(axis="extension")[0]), 1)
    25.5
    """
    one_value_each(pull)
    if "work" in options:
        flag("work", options["work"])  # only a sweep may leave it open
    return _dataset(lifter, pull, options_of(options), {})


@checked_call
def sweep(lifter, pull, **values):
    """`rep` for every combination of the given values: the same names, one dim more for each field.

    Parameters
    ----------
    lifter : people.Lifter
        One lifter, or a crowd: then a dim ``lifter`` leads.
    pull : mechanics.Pull
    work : bool, optional
        Who does the work takes about four times as long as all the rest. Left open, it is worked out for up to
        20,000 postures and left out beyond; True and False decide it.
    **values : array_like, shape (n,)
        Any field of `mechanics.pull.ALLOWED` (``grip_ratio``, ``trunk_lean``, ``load_kg``, ...) or measure of a single
        `Lifter` (``biacromial``, ...), units as there; and the options of `rep`.

    Raises
    ------
    InputError
        As `rep`; a field that cannot be swept, values of more than one dimension, none at all, or so many that the answer
        would not fit in memory.

    Examples
    --------
    >>> from shoulder_model import Lifter, pulls
    >>> grid = sweep(Lifter.average("men"), pulls["front pulldown"], grip_ratio=[1.0, 2.0], trunk_lean=[0.0, 0.2])
    >>> dict(grid.shoulder_torque.sizes)
    {'grip_ratio': 2, 'trunk_lean': 2, 'point': 41, 'axis': 3}
    """
    one_value_each(pull)
    crowd_of(lifter)
    options, fields = {"work": None}, {}
    for name, value in values.items():
        if choice("field", name, (*SWEEPABLE, *OPTIONS)) in OPTIONS:
            options[name] = value
            continue
        fields[name] = np.atleast_1d(number(name, value, ALLOWED[name] if name in ALLOWED else _measure(lifter, name)))
        if fields[name].ndim != 1:
            raise InputError(name, f"{name} has shape {fields[name].shape}; give one value or a list of values")
    return _dataset(lifter, pull, options_of(options), fields)


def _measure(lifter, name):
    """Range of one measure, for a sweep of a single lifter."""
    if np.ndim(lifter.stature):
        raise InputError(name, f"{name} of a crowd cannot be swept: each of it has one already; give a single lifter")
    return survey(lifter.sex).allowed(name)


rep.__signature__ = signature_with_options()
sweep.__signature__ = signature_with_options(inspect.Parameter("values", inspect.Parameter.VAR_KEYWORD), work=None)


def one_value_each(pull):
    """Refuse a pull that has an array where one number belongs; its fields are in the units of `ALLOWED`.

    Parameters
    ----------
    pull : mechanics.Pull

    Raises
    ------
    InputError
    """
    if any(type(getattr(a_pull(pull), name)) is np.ndarray for name in ALLOWED):
        raise InputError("pull", "pull has a field that is an array; give the numbers to sweep() by name")


def crowd_of(lifter):
    """Shape of a ``lifter``'s measures: () for one, (n,) for a crowd of people; `InputError` where they differ or have more axes."""
    shape = getattr(a_lifter(lifter).stature, "shape", ())  # a measure is a float or an array
    mixed = [name for name in MEASURES if getattr(getattr(lifter, name), "shape", ()) != shape]
    if mixed or len(shape) > 1:
        name = mixed[0] if mixed else "stature"
        said = (
            f"lifter: {name} has shape {np.shape(getattr(lifter, name))}; give one number or one list in every measure"
        )
        raise InputError("lifter", said)
    return shape


def _dataset(lifter, pull, options, fields):
    """The labelled answer: one leading dim for a crowd and for each swept field."""
    crowd = crowd_of(lifter)
    lead = ({"lifter": np.arange(*crowd)} if crowd else {}) | fields
    lifter, pull, options = on_axes(lifter, pull, options, crowd, fields)
    shape = tuple(len(values) for values in lead.values())
    postures = options.points * prod(shape)
    if postures > MOST_AT_ONCE:
        field = max(fields, key=lambda name: len(fields[name])) if fields else "lifter"
        said = (
            f"{field}: {postures:.3g} postures are too many at once; sweep at most {MOST_AT_ONCE:,}, a part at a time"
        )
        raise InputError(field, said)
    if options.work is None:
        options = replace(options, work=postures <= MOST_POSTURES)
    variables = {}
    for name, (dims, values) in _variables(lifter, pull, options).items():
        full = at_full_size(dims, values, shape, options.points)
        variables[name] = xr.Variable((*lead, *dims), full, {"units": VARIABLES[name]}, fastpath=True)
    coords = _coords(options.points)
    if lead:
        coords = coords.assign(lead)
    return xr.Dataset(variables, coords, {"pull": pull.name, "arm_weight": int(options.arm_weight)})


def at_full_size(dims, values, shape, points):
    """The ``values`` of a variable with the trailing ``dims``, for the leading ``shape`` and so many ``points``; units stay.

    A view: what does not differ along an axis is not copied.
    """
    tail = np.shape(values)[np.ndim(values) - len(dims) :] if dims else ()
    tail = (points, *tail[1:]) if dims[:1] == ("point",) else tail
    if not dims and np.ndim(values):
        values = values[..., 0]  # the axis that points would broadcast against
    return np.broadcast_to(values, (*shape, *tail))


def on_axes(lifter, pull, options, crowd, fields):
    """Lifter, pull and options with each array on a leading axis of its own: the crowd's first, then the fields' in order.

    Parameters
    ----------
    lifter : people.Lifter
    pull : mechanics.Pull
    options : options.RepOptions
    crowd : tuple
        Shape of the lifter's measures, as `crowd_of` gives it.
    fields : dict
        Name of a field -> its values (n,), in the field's unit.

    Notes
    -----

    A crowd of 200 with 5 grips and 3 leans: measures (200, 1, 1, 1), grips (1, 5, 1, 1), leans (1, 1, 3, 1); the last
    axis is the one that points broadcast against. So a dict of arrays becomes one posture a combination.
    """
    rank, place = len(fields) + bool(crowd), int(bool(crowd))

    def along_crowd(record, arrays):
        return _reshaped(record, arrays, 0, rank)

    if crowd:
        lifter = along_crowd(lifter, {name: getattr(lifter, name) for name in MEASURES})
    for axis, (name, values) in enumerate(fields.items(), start=place):
        if name in ALLOWED:
            pull = _reshaped(pull, {name: values}, axis, rank)
        else:
            lifter = _reshaped(lifter, {name: values}, axis, rank)
    if options.strength is not None:
        options = replace(options, strength=options.strength_of(lifter))
        options = replace(options, strength=options.strength_along(crowd, along_crowd))
    return lifter, pull, options


def _reshaped(record, values, place, rank):
    """``record`` with arrays put on axis ``place`` of ``rank`` leading axes, plus one axis for points."""
    shape = [1] * (rank + 1)
    shape[place] = -1
    return replace(record, **{name: np.reshape(array, shape) for name, array in values.items()})


@lru_cache(maxsize=32)
def _coords(points):
    """Coordinates of every rep of so many points; making their indexes anew would take a third of its time."""
    progress = np.linspace(0.0, 1.0, points)
    progress.setflags(write=False)  # every rep of so many points shares it
    return xr.Dataset(coords=COORDS | {"muscle": list(MUSCLES), "progress": ("point", progress)}).coords


def _variables(lifter, pull, options):
    """Every variable of the rep as (dims, array); arrays broadcast over leading axes."""
    whole = rep_mechanics(lifter, pull, options.points, arm_weight=options.arm_weight)
    variables = geometry_variables(whole, pull) | load_variables(whole, lifter, pull)
    if options.muscles:
        geometry = muscle_geometry(whole.posture, whole.path.girdle, options.body_of(), options.compiled)
        variables |= muscle_variables(geometry)
        if options.work:
            variables |= supply_variables(supply(lifter, pull, whole, geometry, options))
    return variables


def geometry_variables(whole, pull):
    """Where everything is, by name (dims, array), units in `VARIABLES`: of ``whole`` (`mechanics.RepMechanics`) and ``pull``."""
    path, posture, girdle = whole.path, whole.posture, whole.path.girdle
    turned = np.stack(np.broadcast_arrays(girdle.retraction, -girdle.elevation), axis=-1)
    return {
        "gh_centre": (("point", "space"), girdle.gh),
        "hand": (("point", "space"), girdle.gh + path.hand),
        "elbow": (("point", "space"), girdle.gh + posture.elbow),
        "girdle_posture": (("point", "girdle_axis"), turned),
        "elbow_past_ribs": (("point",), whole.past_ribs),
        "elbow_flexion": (("point",), posture.elbow_flexion),
        "elevation": (("point",), posture.elevation),
        "plane_of_elevation": (("point",), posture.plane_of_elevation),
        "forearm_turn": (("point",), forearm_turn(posture, pull)),
        "hand_offset": (("point",), path.w),
        "line_offset": (("point",), path.a),
        "touched": ((), path.touched),
        "short_of_touch": ((), path.short_of_touch),
    }


def load_variables(whole, lifter, pull):
    """What the load asks of each joint, and how far each turns, by name: of ``whole``, ``lifter`` and ``pull``; units in `VARIABLES`."""
    torques, turns = whole.cases.total(np.asarray(pull.mass_on_bar(lifter), float)), whole.turns
    return {
        "force": ((), pull.force(lifter)),
        "shoulder_torque": (("point", "axis"), torques.shoulder),
        "elbow_torque": (("point",), torques.elbow),
        "girdle_torque": (("point", "girdle_axis"), torques.girdle),
        "shoulder_turn": (("point", "axis"), turns.shoulder),
        "elbow_turn": (("point",), turns.elbow),
        "girdle_turn": (("point", "girdle_axis"), turns.girdle),
    }


def muscle_variables(geometry):
    """Lengths and moment arms by name, of a ``geometry`` (`muscles.MuscleGeometry`); units in `VARIABLES`."""
    return {
        "scapular_upward_rotation": (("point",), geometry.scapular_rotation),
        "muscle_moment_arm": (("point", "muscle", "axis"), geometry.shoulder_arm),
        "elbow_moment_arm": (("point", "muscle"), geometry.elbow_arm),
        "girdle_moment_arm": (("point", "muscle", "girdle_axis"), geometry.girdle_arm),
        "muscle_length": (("point", "muscle"), geometry.length),
    }


def supply_variables(supplied):
    """Who supplies the torques, by name, of ``supplied`` (`supply.Supply`); units in `VARIABLES`."""
    of_muscles = {
        name: (("point", "muscle"), getattr(supplied, name)) for name in ("capacity", "activation", "adds_kg")
    }
    of_points = {name: (("point",), getattr(supplied, name)) for name in ("shortfall", "side_force", "largest_load_kg")}
    of_joints = {"gives_out": (("point", "joint"), supplied.gives_out)}
    return of_muscles | of_points | of_joints | {"whole_rep_load_kg": ((), supplied.whole_rep_load_kg)}
