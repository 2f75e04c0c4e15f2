"""How strong is this lifter: from a repetition maximum, from dynamometer torques, or from nothing.

`muscles.expected_strength` is the answer from nothing: the factor that lets the model hold what college lifters could pull
once. It is an effective factor of pulls. Torques from a dynamometer give one about 1.4 times smaller (`calibrated`), and
`from_torques` bridges the two with a wide band. The elbow's muscles get a second factor, because table sizes explain less
than half of the elbow torque people were measured to make. Here are the two better ones, and the recipe of the
numbers that all three rest on. A strength is a factor on the table's adult (`muscles.Strength`).
"""

import numpy as np

from ..inputs import Allowed, InputError, checked_call, choice, fitting, number, scalar
from ..mechanics import girdle_at, posed_arm, pulls
from ..muscles import MUSCLES, Strength, capacity, expected_strength, muscle_geometry, reference_body
from ..muscles.capacity import FACTOR
from ..muscles.elbow import FLEXION, FLEXORS
from ..muscles.paths import ELEVATION, PLANE
from ..people import Lifter, one_person
from ..sources import constant, fact
from ..words import counted
from .rep_and_sweep import rep
from .repetition_maximum import REPETITIONS, one_repetition_maximum

REFERENCE = "front pulldown"
LOAD = Allowed(1.0, 500.0, "kg", "give the load on the whole bar")
TORQUE = Allowed(1.0, 500.0, "N m", "give the isometric torque of one side")
MOVEMENTS = {"adduction": (0, 1), "abduction": (0, -1), "extension": (1, 1), "flexion": (1, -1)}  # axis, sign
MEASURED_TORQUES = ("adduction", "extension", "abduction", "flexion", "elbow_flexion")


@checked_call
def isometric_torque(movement, elevation, plane, factor=1.0, elbow_flexion=np.pi / 2):
    """Largest torque of the shoulder about one axis with the arm held still, whatever the other axes do. (...) [N m]

    Parameters
    ----------
    movement : "adduction", "abduction", "extension", "flexion"
    elevation, plane : float or ndarray
        Of the upper arm, plane 0 to the side, 90° ahead. [rad]
    factor : float
        Strength factor.
    elbow_flexion : float
        From straight. [rad]

    Notes
    -----
    A dynamometer's strap balances the other axes, so every muscle with the right sign counts in full. The arm's
    own weight is not in it.

    Raises
    ------
    InputError
        Another movement, a value outside its range, or arrays that do not go together.
    """
    axis, sign = MOVEMENTS[choice("movement", movement, tuple(MOVEMENTS))]
    elevation, plane = number("elevation", elevation, ELEVATION), number("plane", plane, PLANE)
    factor, elbow_flexion = number("factor", factor, FACTOR), number("elbow_flexion", elbow_flexion, FLEXION)
    fitting(elevation=elevation, plane=plane, factor=factor, elbow_flexion=elbow_flexion)
    elevation, plane = np.broadcast_arrays(elevation, plane)
    held = _held(elevation, plane, elbow_flexion)
    arms = sign * held.shoulder_arm[..., axis]
    return (capacity(held.length, factor) * np.maximum(arms, 0.0)).sum(axis=-1)


@checked_call
def isometric_elbow_torque(factor=1.0, elbow_flexion=np.pi / 2):
    """Largest flexion torque of the elbow muscles in the table with the arm hanging and the hand neutral. [N m]

    ``factor`` is the strength factor times that of the elbow; ``elbow_flexion`` from straight [rad]; `InputError` for what is
    not one number in its range.
    """
    factor, elbow_flexion = scalar("factor", factor, FACTOR), scalar("elbow_flexion", elbow_flexion, FLEXION)
    held = _held(0.0, 0.0, elbow_flexion)
    return float(capacity(held.length, factor) @ np.where(np.isin(MUSCLES, FLEXORS), held.elbow_arm, 0.0))


def _held(elevation, plane, elbow_flexion):
    """The `muscles.MuscleGeometry` of the reference body with the girdle at rest and the arm held so. [rad]"""
    man = Lifter.average("men")
    return muscle_geometry(posed_arm(man, elevation, plane, elbow_flexion), girdle_at(man, 0.0, 0.0), reference_body())


@checked_call
def from_repetition_maximum(lifter, pull, load_kg, repetitions=1, **options):
    """Strength of a lifter who moved ``load_kg`` for just ``repetitions`` of ``pull``.

    Parameters
    ----------
    lifter : people.Lifter
        One lifter.
    pull : mechanics.Pull
        As it was done; its own load does not matter.
    load_kg : float
        On the whole bar. [kg]
    repetitions : int
        Until no other was possible, 1 to 12.
    **options
        As for `rep`; the strength counts for reps that are computed the same way.

    Returns
    -------
    muscles.Strength
        The band is the spread of the published repetition equations (none for a single repetition), widened by ± 2.5 %
        (repeated one-repetition maxima, evidence on the prone bench pull).

    Raises
    ------
    InputError
        A crowd, a number outside its range, as `rep_and_sweep.rep`, or a load that no strength explains.
    """
    one_person(lifter, "a known lift")
    load_kg, repetitions = scalar("load_kg", load_kg, LOAD), scalar("repetitions", repetitions, REPETITIONS)
    best = one_repetition_maximum(load_kg, repetitions)
    doubt = fact("one_rm_variation")
    low, high = best.low * (1 - doubt), best.high * (1 + doubt)
    start = expected_strength(lifter)
    changes = [_change(lifter, pull, kg, start, options) for kg in (best.value, low, high)]
    words = f"{load_kg:g} kg for {counted(repetitions, 'repetition')} of {pull.name}"
    return start.times(*changes, words)


def _change(lifter, pull, kg, start, options):
    """By how much ``start`` has to be scaled for the rep's largest load to become ``kg``; secant steps."""

    def holds(change):
        least, most = (max(FACTOR.low, FACTOR.low / start.factor), min(FACTOR.high, FACTOR.high / start.factor))
        change = np.clip(change, least, most)
        strength = start.times(change, change, change, "")
        whole = rep(lifter, pull, strength=strength, **options).whole_rep_load_kg
        return float(np.nan_to_num(whole))  # where not even the arm can be held

    near, far = 1.0, 2.0
    kg_near, kg_far = holds(near), holds(far)
    for _ in range(30):
        if abs(kg_far - kg) < 1e-9 * kg or kg_far == kg_near:
            break
        step = far + (kg - kg_far) * (far - near) / (kg_far - kg_near)
        near, kg_near, far = far, kg_far, max(step, 0.2 * far)
        kg_far = holds(far)
    if abs(kg_far - kg) > 1e-6 * kg:
        raise InputError(
            "load_kg", f"load_kg = {kg:.4g} kg: no strength makes the model hold that in {pull.name}; check it"
        )
    return far


@checked_call
def from_torques(lifter, **torques):
    """Strength of a lifter from isometric torques of one side, measured on a dynamometer.

    Parameters
    ----------
    lifter : people.Lifter
        One lifter; only without torques does it matter which, since torques are compared with the reference body's.
    **torques : float
        ``adduction``, ``abduction`` (arm 45° to the side), ``extension``, ``flexion`` (arm 45° ahead),
        ``elbow_flexion`` (elbow at 90°, neutral hand). [N m]

    Returns
    -------
    muscles.Strength
        Torques give a smaller factor than pulls do (`calibrated`, 3). The value is the geometric mean of the
        torques' factors times that bridge; the band runs from their smallest without it to their largest with
        it, at least ± 15 % (common practice, no source). Without ``elbow_flexion`` the elbow keeps its usual share.

    Raises
    ------
    InputError
        A crowd, a torque that there is not, or one that is not one number in its range.
    """
    one_person(lifter, "a strength from torques")
    if not torques:
        return expected_strength(lifter)
    torques = {name: scalar(choice("torque", name, MEASURED_TORQUES), torques[name], TORQUE) for name in torques}
    usual = fact("elbow_over_shoulder_strength")
    elbow_torque = torques.pop("elbow_flexion", None)
    elbow = None if elbow_torque is None else elbow_torque / isometric_elbow_torque()
    factors = [
        value / float(isometric_torque(name, np.pi / 4, 0.0 if "duction" in name else np.pi / 2))
        for name, value in torques.items()
    ] or [elbow / usual]
    middle = float(np.exp(np.mean(np.log(factors))))
    bridge, doubt = fact("pull_over_isometric_strength"), fact("dynamometer_doubt")
    low, high = min(*factors, middle * (1 - doubt)), bridge * max(*factors, middle * (1 + doubt))
    words = f"isometric torques: {', '.join([*torques, *(['elbow flexion'] if elbow else [])])}"
    return Strength(bridge * middle, low, high, usual if elbow is None else elbow / middle, words)


def calibrated():
    """The numbers behind `muscles.expected_strength`, worked out again; ratios without unit.

    1. The elbow's share: the table's adult bends it as ten young adults would, taken as the mean of men, who
       pull with the neutral hand as 11 men did (Physiol Rep 2018;6:e13560; the lever is our assumption), and of
       women, weaker as they are in the pulldown; over the factor that gives the table's adult the isometric
       adduction of ten young adults, 67.9 N m (J Biomech 2007;40:2442, read).
    2. The factor that lets the mean man and woman hold, in the front pulldown, what college lifters could lift
       once, 0.93 and 0.55 of body mass (J Strength Cond Res 2009;23(3):1022-1028); balanced in the plane of
       pull, with the side force that the bar's grip holds.
    3. How much larger that factor is than the one from isometric torque: reps are moved with more than the
       model's static muscles can hold at the weakest point. It bridges the two ways of measuring.

    Returns
    -------
    dict
        The facts ``elbow_over_shoulder_strength``, ``pulldown_strength_men``, ``pulldown_strength_women``,
        ``pull_over_isometric_strength``.
    """
    man, woman = Lifter.average("men"), Lifter.average("women")
    kg = [expected_pulldown(lifter)[0] for lifter in (man, woman)]
    both = (1 + kg[1] / kg[0]) / 2  # the mean of men and women over men
    elbow = both * fact("elbow_pull_neutral") * fact("elbow_pull_lever") / isometric_elbow_torque()
    adduction = isometric_torque("adduction", np.radians(np.arange(0, 91, 15)), 0.0).max()
    shoulder = fact("isometric_adduction") / float(adduction)
    start = Strength(1.0, 1.0, 1.0, elbow / shoulder, "")
    men, women = (
        _change(lifter, pulls[REFERENCE], load, start, {}) for lifter, load in zip((man, woman), kg, strict=True)
    )
    return {
        "elbow_over_shoulder_strength": start.elbow,
        "pulldown_strength_men": men,
        "pulldown_strength_women": women,
        "pull_over_isometric_strength": (men + women) / 2 / shoulder,
    }


def expected_pulldown(lifter):
    """1RM pulldown expected from the ``lifter``'s sex and mass: value, low, high. [kg]

    Source: J Strength Cond Res 2009;23(3):1022-1028.
    """
    known = constant(f"pulldown_1rm_of_mass_{lifter.sex}")
    return tuple(share * lifter.mass for share in (known.value, known.low, known.high))
