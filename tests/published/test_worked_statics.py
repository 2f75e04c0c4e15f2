"""Worked static examples from printed textbooks (W1 to W5), to their printed digits; g = 9.80 there."""

import numpy as np
import pytest

from shoulder_model.mechanics import joint_force, moment_of_inertia, needed_torque, tension_to_hold

pytestmark = pytest.mark.published
G = 9.80
DOWN, UP, AHEAD = np.array([0.0, -1.0, 0.0]), np.array([0.0, 1.0, 0.0]), np.array([1.0, 0.0, 0.0])


def flexors_and_joint(weights, distances, muscle_arm):
    """A level forearm about the elbow: needed tension and joint force of a muscle that pulls straight up."""
    forces = [weight * DOWN for weight in weights]
    torque = needed_torque([distance * AHEAD for distance in distances], forces)[2]
    tension = tension_to_hold(torque, muscle_arm)
    return tension, joint_force(forces, tension, UP)


def test_w1_forearm_with_a_held_book(outside):
    # OpenStax College Physics, forces and torques in muscles and joints: 470 N; 407 N down
    tension, joint = flexors_and_joint([2.50 * G, 4.00 * G], [0.160, 0.380], 0.0400)
    outside(470, tension, "N", what="muscle")
    outside(407, -joint[1], "N", what="joint, down")
    assert f"{tension:.3g}" == "470"
    assert f"{joint[1]:.3g}" == "-407"


INCH = 0.0254


def test_w2_weightless_forearm(outside):
    # OpenStax University Physics, statics: 1927 N (1927.5 before rounding) and 1705 N
    tension, joint = flexors_and_joint([222.4], [13 * INCH], 1.5 * INCH)
    outside(1927, tension, "N", what="muscle")
    outside(1705, -joint[1], "N", what="joint, down")
    assert tension == pytest.approx(1927, abs=0.5)
    assert joint[1] == pytest.approx(-1705, abs=0.5)


def test_w3_uniform_forearm_is_an_erratum(outside):
    # OpenStax University Physics prints 1963 and 1732 N for a uniform 8.896 N forearm; its own data give 1966 and 1735 N
    tension, joint = flexors_and_joint([222.4, 8.896], [13 * INCH, 6.5 * INCH], 1.5 * INCH)
    outside("1963, its own data give 1966", tension, "N", what="muscle")
    outside("1732, its own data give 1735", -joint[1], "N", what="joint, down")
    assert f"{tension:.0f}" == "1966"
    assert f"{joint[1]:.0f}" == "-1735"


def test_w4_deltoid_of_an_outstretched_arm(outside):
    # Physics: Principles with Applications, 7th ed., ch. 9: muscle 250 N, joint 240 N at 7.6° below horizontal
    angle = np.radians(15.0)
    weight = 3.3 * G * DOWN
    torque = needed_torque([0.24 * AHEAD], [weight])[2]
    tension = tension_to_hold(torque, 0.12 * np.sin(angle))
    joint = joint_force([weight], tension, [-np.cos(angle), np.sin(angle), 0.0])
    outside(250, tension, "N", what="muscle")
    outside(240, np.linalg.norm(joint), "N", what="joint")
    assert f"{tension:.2g}" == "2.5e+02"
    assert f"{np.linalg.norm(joint):.2g}" == "2.4e+02"
    below = np.degrees(np.arctan2(-joint[1], joint[0]))
    outside(7.6, below, "° below level", what="where the joint force points")
    assert f"{below:.1f}" == "7.6"


def test_w5_triceps_swings_the_forearm(outside):
    # OpenStax College Physics: 2000 N at 3.00 cm give 120 rad/s²: I = 0.50 kg m²
    found = moment_of_inertia(2000 * 0.0300, 120)
    outside(0.50, found, "kg m²")
    assert f"{found:.2f}" == "0.50"
