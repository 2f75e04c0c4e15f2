"""A weight held still in front of an upright trunk: the free bodies of chapter 02.

Everything lies in the sagittal plane. The elbow's muscle is one line along the upper arm that pulls the
forearm towards the shoulder with one moment arm: in front of the joint for the flexors, behind it for
the extensors, whichever the torque needs. The joint force is what else the forearm needs to stay at rest.
"""

from dataclasses import dataclass

import numpy as np

from ..inputs import Allowed, checked_call, fitting, flag, number
from ..people import ELBOW_LIMIT, Lifter, a_lifter
from ..sources import constant, fact
from .arm import Posture, posed_arm
from .statics import arm_weights, elbow_torque, joint_force, needed_torque, shoulder_components, tension_to_hold
from .vectors import stack

MUSCLE_ARM = fact("held_weight_muscle_arm")
ALLOWED = {
    "load_kg": Allowed(0.0, 100.0, "kg", "give the weight in the hand"),
    "elevation": Allowed(0.0, np.pi, "rad", "0 hangs, 90° is level ahead"),
    "elbow_flexion": Allowed(0.0, ELBOW_LIMIT, "rad", "an elbow cannot bend that far"),
    "muscle_arm": Allowed(0.005, 0.10, "m", "elbow flexors have 1.5 to 8 cm"),
}


@dataclass(frozen=True)
class HeldWeight:
    """One arm holding a weight; fields are floats, or arrays of one shape.

    ``posture`` of the arm; ``forces`` [N] at ``positions`` [m], the load's first; ``shoulder_flexion`` and
    ``elbow_flexion_torque`` that the muscles supply [N m], ``margin`` of both (..., 2) [N m]; ``tension`` of the elbow
    muscle that holds, flexors or extensors by the torque's sign [N]; ``joint_force`` (..., 3) on the forearm at the
    elbow [N]; ``load_distance``, the horizontal way from shoulder and elbow to the load (..., 2). [m]
    """

    posture: Posture
    forces: tuple
    positions: tuple
    shoulder_flexion: np.ndarray
    elbow_flexion_torque: np.ndarray
    margin: np.ndarray
    tension: np.ndarray
    joint_force: np.ndarray
    load_distance: np.ndarray


@checked_call
def held_weight(lifter: Lifter, load_kg, elevation, elbow_flexion, *, muscle_arm=MUSCLE_ARM, arm_weight=True):
    """What a held weight asks of shoulder and elbow.

    Parameters
    ----------
    lifter : Lifter
    load_kg : float
        In one hand. [kg]
    elevation, elbow_flexion : float or ndarray
        Upper arm from hanging, forward; elbow from straight. [rad]
    muscle_arm : float
        Moment arm of the elbow's muscle. [m]
    arm_weight : bool
        False leaves out the weight of the arm.

    Returns
    -------
    HeldWeight

    Raises
    ------
    InputError
        A value that is no number, or outside its range, an ``arm_weight`` that is neither True nor False; names it.

    Notes
    -----
    Margins: the load's distance ± 1 cm (tape, common practice, no source), and for the shoulder the two
    published centres of the upper arm, 0.436 and 0.577 of its length.
    """
    checked = {"load_kg": load_kg, "elevation": elevation, "elbow_flexion": elbow_flexion, "muscle_arm": muscle_arm}
    load_kg, elevation, elbow_flexion, muscle_arm = (number(name, x, ALLOWED[name]) for name, x in checked.items())
    arm_weight, crowd = flag("arm_weight", arm_weight), a_lifter(lifter).stature
    fitting(load_kg=load_kg, elevation=elevation, elbow_flexion=elbow_flexion, muscle_arm=muscle_arm, lifter=crowd)
    posture = posed_arm(lifter, elevation, np.pi / 2, elbow_flexion)
    load = stack(0.0, -load_kg * fact("gravity"), 0.0)
    positions, forces = (posture.hand,), (load,)
    if arm_weight:
        centres, weights = arm_weights(lifter, posture, 0.0)
        positions, forces = (*positions, *centres), (*forces, *weights)
    below = positions[::2], forces[::2]  # the load and the forearm; the upper arm stands between them
    torque = elbow_torque(posture, *below)
    tension = tension_to_hold(np.abs(torque), muscle_arm)
    return HeldWeight(
        posture=posture,
        forces=forces,
        positions=positions,
        shoulder_flexion=-shoulder_components(needed_torque(positions, forces))[..., 1],
        elbow_flexion_torque=torque,
        margin=_margin(lifter, load_kg, posture, arm_weight),
        tension=tension,
        joint_force=joint_force(below[1], tension, -posture.upper_arm_direction),
        load_distance=np.stack([posture.hand[..., 0], posture.hand[..., 0] - posture.elbow[..., 0]], axis=-1),
    )


def _margin(lifter, load_kg, posture, arm_weight):
    g, centre = fact("gravity"), constant("upper_arm_centre")
    tape = load_kg * g * fact("tape_reading") + 0.0 * posture.hand[..., 0]
    rival = fact("upper_arm_mass") * lifter.mass * g * (centre.high - centre.low) * np.abs(posture.elbow[..., 0])
    return np.stack([np.hypot(tape, rival if arm_weight else 0.0), tape], axis=-1)
