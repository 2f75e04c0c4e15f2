import numpy as np
import pytest
from numpy.testing import assert_allclose

import shoulder_model as sm
from shoulder_model.mechanics import held_weight

MEN = sm.Lifter.average("men")
G = 9.80665


def test_level_forearm_by_hand():
    held = held_weight(MEN, 5.0, 0.0, np.pi / 2, muscle_arm=0.04, arm_weight=False)
    assert held.elbow_flexion_torque == pytest.approx(5 * G * MEN.forearm)
    assert held.shoulder_flexion == pytest.approx(5 * G * MEN.forearm)  # the upper arm hangs: the same distance
    assert held.tension == pytest.approx(5 * G * MEN.forearm / 0.04)
    assert_allclose(held.joint_force, [0.0, 5 * G - held.tension, 0.0], atol=1e-9)


def test_straight_level_arm_by_hand():
    held = held_weight(MEN, 5.0, np.pi / 2, 0.0, arm_weight=False)
    assert held.shoulder_flexion == pytest.approx(5 * G * MEN.reach)
    assert held.elbow_flexion_torque == pytest.approx(5 * G * MEN.forearm)


@pytest.mark.identity
def test_the_forearm_is_at_rest():
    elevation, flexion = np.radians([0.0, 40.0, 90.0, 120.0]), np.radians([10.0, 90.0, 60.0, 140.0])
    held = held_weight(MEN, 8.0, elevation, flexion)
    pull = -held.tension[..., None] * held.posture.upper_arm_direction
    loads = held.forces[0] + held.forces[2]
    assert_allclose(held.joint_force + pull + loads, 0.0, atol=1e-9)


@pytest.mark.identity
def test_the_torque_is_the_load_times_its_horizontal_distance():
    elevation = np.radians(np.arange(0, 121, 10.0))
    held = held_weight(MEN, 6.0, elevation, 0.7, arm_weight=False)
    assert_allclose(held.shoulder_flexion, 6 * G * held.load_distance[:, 0], rtol=1e-12)
    assert_allclose(held.elbow_flexion_torque, 6 * G * held.load_distance[:, 1], rtol=1e-12, atol=1e-12)


def test_margins_are_the_tape_and_the_rival_centre():
    held = held_weight(MEN, 10.0, np.pi / 2, 0.0)
    rival = 0.028 * MEN.mass * G * (0.577 - 0.436) * MEN.upper_arm
    assert_allclose(held.margin, [np.hypot(10 * G * 0.01, rival), 10 * G * 0.01])


@pytest.mark.parametrize(
    ("values", "says"),
    [
        ({"load_kg": -1}, "load_kg = -1 kg is outside"),
        ({"elbow_flexion": 2.6}, r"elbow_flexion = 149.0° .* an elbow cannot bend that far"),
        ({"muscle_arm": 0.0}, "muscle_arm = 0.0 cm is outside 0.5 cm to 10.0 cm"),
        ({"elevation": np.nan}, "elevation = nan"),
    ],
)
def test_wrong_values_are_refused_by_name(values, says):
    given = {"load_kg": 5.0, "elevation": 0.5, "elbow_flexion": 1.0} | values
    with pytest.raises(ValueError, match=says):
        held_weight(MEN, **given)


@pytest.mark.identity
@pytest.mark.parametrize("flexion_deg", [90, 120])
def test_extensors_hold_where_the_load_hangs_behind_the_elbow(flexion_deg):
    held = held_weight(MEN, 5.0, np.radians(120), np.radians(flexion_deg), muscle_arm=0.03)
    assert held.elbow_flexion_torque < 0 < held.tension
    toward_shoulder = -held.posture.upper_arm_direction
    at = held.posture.elbow - 0.03 * held.posture.humerus[:, 0]  # behind the joint
    torques = np.cross(at - held.posture.elbow, held.tension * toward_shoulder)
    for k in (0, 2):
        torques = torques + np.cross(held.positions[k] - held.posture.elbow, held.forces[k])
    assert_allclose(torques, 0.0, atol=1e-9)
    forces = held.joint_force + held.tension * toward_shoulder + held.forces[0] + held.forces[2]
    assert_allclose(forces, 0.0, atol=1e-9)


def test_a_triceps_presses_the_joint():
    # elevation 120°, elbow at 90°, 5 kg: about 282 N, more than the weights alone could press
    held = held_weight(MEN, 5.0, np.radians(120), np.radians(90))
    assert np.linalg.norm(held.joint_force) == pytest.approx(282, abs=2)
