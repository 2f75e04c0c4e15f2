"""What the load asks of the joints: moments, and the muscle and joint force of one lever.

The tape law, for a straight line of pull with force F and a weightless arm:

    adduction            F w cos(pull angle)
    extension            F a
    horizontal abduction F w sin(pull angle)

the same all along the path. `needed_torque` is the general form that holds with the arm's own
weight too; `tape_law` is the two lengths and the angle.
"""

import numpy as np

from ..inputs import Allowed, InputError, checked_call, choice, fitting, number, vectors
from ..sources import constant, fact
from .vectors import cross, dot, stack

FORCE = Allowed(-20_000.0, 20_000.0, "N", "give the pull on one hand in newtons: kilograms times 9.81")
OFFSET = Allowed(-2.0, 2.0, "m", "give metres: a tape that reads 12 cm is 0.12")
PULL_ANGLE = Allowed(-2 * np.pi, 2 * np.pi, "rad", "give radians, as np.radians(90) has them; 0 is overhead")
TORQUE = Allowed(-1e5, 1e5, "", "give newton metres, or metres for moment arms")
ANY = Allowed(-1e9, 1e9, "", "give a plain number, SI units")


@checked_call
def tape_law(force, w, a, pull_angle):
    """Shoulder torque of a straight pull from two tape lengths and an angle. (..., 3) [N m]

    Parameters
    ----------
    force : float or ndarray
        Pull on one hand. [N]
    w, a : float or ndarray
        Hand offset and line offset. [m]
    pull_angle : float or ndarray
        0 overhead, 90° ahead, 180° down, in the trunk. [rad]

    Raises
    ------
    InputError
        What is no number, lies outside its range (an angle beyond 2π: degrees?), or arrays that do not go together.

    Examples
    --------
    200 N overhead, 10 cm outside and 12 cm in front of the shoulder:

    >>> [round(float(t), 1) for t in tape_law(200.0, 0.10, 0.12, 0.0)]
    [20.0, 24.0, 0.0]
    """
    force, pull_angle = number("force", force, FORCE), number("pull_angle", pull_angle, PULL_ANGLE)
    w, a = number("w", w, OFFSET), number("a", a, OFFSET)
    fitting(force=force, w=w, a=a, pull_angle=pull_angle)
    return stack(force * w * np.cos(pull_angle), force * a, force * w * np.sin(pull_angle))


@checked_call
def tape_law_margin(force, pull_angle):
    """How far the torques move when the tape reads 1 cm wrong and the GH centre lies 7 mm off. (..., 3) [N m]

    Both offsets add up as independent errors; the GH centre's ± 7 mm to the side is derived (D), the tape's
    ± 1 cm is common practice, no source. Across the pull the centre's published vertical range (± 7.5 mm)
    stands in for the fore-aft one, which nobody printed. No error of the pull angle is in it.

    Parameters
    ----------
    force : float or ndarray
        Pull on one hand. [N]
    pull_angle : float or ndarray
        As for `tape_law`, whose refusals hold here. [rad]
    """
    side = np.hypot(fact("tape_reading"), fact("gh_side_margin"))
    across = np.hypot(fact("tape_reading"), constant("gh_below_acromion").half_range)
    return np.abs(tape_law(force, side, across, pull_angle))


@checked_call
def girdle_margin(force, pull_angle):
    """How far the girdle's torques move when the tape reads 1 cm wrong and the SC joint lies off. (..., 2) [N m]

    Both errors lie across the midline and are independent; the joint's ± 5 mm is from memory (ML), the tape's ± 1 cm
    common practice, no source. ``force`` on one hand [N] and ``pull_angle`` [rad] as for `tape_law_margin`.
    """
    force, pull_angle = number("force", force, FORCE), number("pull_angle", pull_angle, PULL_ANGLE)
    fitting(force=force, pull_angle=pull_angle)
    side = np.hypot(fact("tape_reading"), constant("sc_from_midline").half_range)
    return np.stack([np.abs(force * side * np.sin(pull_angle)), np.abs(force * side * np.cos(pull_angle))], axis=-1)


@checked_call
def moment(position, force, about=0.0):
    """Moment r × F of a ``force`` (..., 3) [N] at ``position`` (..., 3) [m] about a point ``about`` [m]. (..., 3) [N m]

    Anything but finite vectors raises `InputError`.
    """
    position, force = vectors("position", position, ANY), vectors("force", force, ANY)
    about = about if isinstance(about, float) and about == 0.0 else vectors("about", about, ANY)
    fitting(position=position, force=force, about=about)
    return cross(position - about, force)


@checked_call
def anatomical(torque, side="right"):
    """Components adduction, extension, horizontal abduction of a torque vector. (..., 3) [N m]

    Parameters
    ----------
    torque : array_like, shape (..., 3) [N m]
        That a muscle puts on the upper arm, in thorax axes: about X adducts, about -Z extends, about -Y abducts
        horizontally (right arm). Or a moment arm, per newton. [m]
    side : "right" or "left"
        The left arm is the mirror image.

    Raises
    ------
    InputError
        Another side, or anything but finite vectors.
    """
    mirror = 1.0 if choice("side", side, ("right", "left")) == "right" else -1.0
    return shoulder_components(vectors("torque", torque, TORQUE), mirror)


def shoulder_components(torque, mirror=1.0):
    """`anatomical` without its checks, for the model's own arrays ``torque`` (..., 3) [N m] or [m]; ``mirror`` is -1 on the left."""
    x, y, z = torque[..., 0], torque[..., 1], torque[..., 2]
    return stack(mirror * x, -z, -mirror * y) + 0.0  # no minus zeros


@checked_call
def needed_torque(positions, forces, about=0.0):
    """Torque the muscles must supply about a point to hold ``forces`` at ``positions``. (..., 3) [N m]

    ``positions`` [m] and ``forces`` [N] are sequences of (..., 3) arrays that broadcast, ``about`` one such array [m];
    the answer is minus the sum of their moments.
    """
    return -sum(cross(r - about, f) for r, f in zip(positions, forces, strict=True))


@checked_call
def arm_weights(lifter, posture, trunk_lean):
    """Where the upper arm and the forearm with hand weigh, and how much. Two positions, two forces.

    Parameters
    ----------
    lifter : people.Lifter
    posture : arm.Posture
    trunk_lean : float or ndarray
        Turns gravity in thorax axes. [rad]

    Returns
    -------
    positions [m], forces [N] : two tuples of two ndarrays, shape (..., 3)

    Notes
    -----
    Masses and centres: Winter, Biomechanics and Motor Control of Human Movement, 3rd ed. (R). His parts with his own
    lengths put the whole arm's centre at 0.515 of its length, his total says 0.530; rounding explains 0.006 of that. Both
    stay as printed, and the model uses the parts.
    """
    down = -stack(np.sin(trunk_lean), np.cos(trunk_lean), 0.0)
    along_forearm = (posture.hand - posture.elbow) / np.asarray(lifter.forearm)[..., None]
    to_centre = np.asarray(fact("forearm_and_hand_centre") * lifter.radiale_stylion)[..., None]
    positions = fact("upper_arm_centre") * posture.elbow, posture.elbow + to_centre * along_forearm
    weight = np.asarray(lifter.mass * fact("gravity"))[..., None]
    return positions, (fact("upper_arm_mass") * weight * down, fact("forearm_and_hand_mass") * weight * down)


@checked_call
def of_girdle(torque):
    """Components retraction and depression of a torque about the SC joint. (..., 2) [N m]

    Retraction draws the right GH centre back (about -Y), depression draws it down (about X). ``torque`` (..., 3) in
    thorax axes [N m], or a moment arm, per newton [m]; anything but finite vectors raises `InputError`.
    """
    return girdle_components(vectors("torque", torque, TORQUE))


def girdle_components(torque):
    """`of_girdle` without its checks, for the model's own arrays ``torque`` (..., 3). [N m] or [m]"""
    return np.stack([-torque[..., 1], torque[..., 0]], axis=-1)


@checked_call
def girdle_torque(positions, forces, about):
    """Retraction and depression torque the girdle must supply about the SC joint at ``about`` (..., 3) [m]. (..., 2) [N m]

    ``positions`` [m] and ``forces`` [N] as for `needed_torque`.
    """
    return girdle_components(needed_torque(positions, forces, about))


@checked_call
def elbow_torque(posture, positions, forces):
    """Flexion torque the elbow must supply about its hinge; negative is extension. (...) [N m]

    ``posture`` an `arm.Posture`; ``positions`` [m] and ``forces`` [N] of what hangs below the elbow, as for `needed_torque`.
    """
    return dot(needed_torque(positions, forces, posture.elbow), posture.hinge)


@checked_call
def tension_to_hold(torque, moment_arm):
    """Pull of one muscle [N] that supplies ``torque`` [N m] with ``moment_arm`` [m], floats or arrays.

    `InputError` for an arm of 0, or anything that is no number.
    """
    return _quotient(torque=torque, moment_arm=moment_arm)


def _quotient(**both):
    """One number or array over another, both by name; the second may not be 0."""
    over, under = (number(name, value, ANY) for name, value in both.items())
    fitting(**both)
    if not np.all(under):
        field = tuple(both)[1]
        raise InputError(field, f"{field} is 0, so no number comes out; give another")
    return over / under


@checked_call
def joint_force(forces, tension, line):
    """Force of the other bone on the segment at the joint that balances all others. (..., 2 or 3) [N]

    Parameters
    ----------
    forces : sequence of (..., n) arrays
        Loads and weights on the segment. [N]
    tension : float or ndarray
        Muscle force on the segment. [N]
    line : array_like, shape (..., n)
        Unit direction of that pull.
    """
    return -sum(np.asarray(f) for f in forces) - np.asarray(tension)[..., None] * np.asarray(line)


@checked_call
def moment_of_inertia(torque, angular_acceleration):
    """Moment of inertia [kg m²] that ``torque`` [N m] turns with ``angular_acceleration`` [rad/s²], which may not be 0."""
    return _quotient(torque=torque, angular_acceleration=angular_acceleration)
