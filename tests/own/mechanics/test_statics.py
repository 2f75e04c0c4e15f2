"""Relations the torques must obey whatever the numbers are, and the same torque by another road."""

from dataclasses import replace

import numpy as np
import pytest
import sympy as sp
from numpy.testing import assert_allclose

import shoulder_model as sm
from shoulder_model.mechanics import anatomical, arm_weights, hand_path, needed_torque, tape_law, tape_law_margin
from shoulder_model.mechanics.vectors import stack
from shoulder_model.people import MEASURES

pytestmark = pytest.mark.identity
MEN = sm.Lifter.average("men")
STRAIGHT = [pull for pull in sm.pulls.values() if pull.path == "line"]
names = [pull.name for pull in STRAIGHT]


def components(force, w, a, angle):
    """The tape law written out again, apart from the package."""
    return np.array([force * w * np.cos(angle), force * a, force * w * np.sin(angle)])


@pytest.mark.parametrize("pull", STRAIGHT, ids=names)
@pytest.mark.parametrize("sex", ["men", "women"])
def test_tape_law_holds_all_along_every_straight_path(pull, sex):
    lifter = sm.Lifter.average(sex)
    one = sm.rep(lifter, pull, arm_weight=False)
    w, a = one.hand_offset.values, one.line_offset.values
    by_tape = components(float(one.force), w, a, pull.pull_angle)
    assert_allclose(one.shoulder_torque, by_tape.T, rtol=0, atol=1e-12 * float(one.force))
    assert np.ptp(w) > 0.02  # the shoulder travels, and the two lengths with it
    magnitude = np.linalg.norm(one.shoulder_torque, axis=-1)
    assert_allclose(magnitude, float(one.force) * np.hypot(w, a), rtol=1e-12)


def test_sympy_vectors_give_the_tape_law():
    force, w, a, s, angle = sp.symbols("F w a s phi", real=True)
    along, across = sp.Matrix([sp.sin(angle), sp.cos(angle), 0]), sp.Matrix([sp.cos(angle), -sp.sin(angle), 0])
    hand = a * across + w * sp.Matrix([0, 0, 1]) + s * along
    x, y, z = -hand.cross(force * along)
    law = sp.Matrix([x, -z, -y])
    expected = sp.Matrix([force * w * sp.cos(angle), force * a, force * w * sp.sin(angle)])
    assert sp.simplify(law - expected) == sp.zeros(3, 1)
    numeric = sp.lambdify((force, w, a, s, angle), law)
    for pull in STRAIGHT:
        one = sm.rep(MEN, pull, points=3, arm_weight=False)
        torque = numeric(float(one.force), float(one.hand_offset[1]), float(one.line_offset[1]), 0.3, pull.pull_angle)
        assert_allclose(one.shoulder_torque[1], np.ravel(torque), rtol=1e-12, atol=1e-10)


def test_a_mirrored_arm_has_mirrored_torque():
    rng = np.random.default_rng(5)
    hand, force = rng.normal(size=(2, 100, 3))
    flip = np.array([1.0, 1.0, -1.0])
    right = anatomical(needed_torque([hand], [force]))
    left = anatomical(needed_torque([hand * flip], [force * flip]), side="left")
    assert_allclose(left, right, rtol=1e-12)


@pytest.mark.parametrize("pull", [p for p in sm.pulls.values() if p.load_kg is not None], ids=lambda p: p.name)
def test_doubling_the_load_doubles_the_torques(pull):
    once, twice = (sm.rep(MEN, pull.change(load_kg=k * pull.load_kg), arm_weight=False) for k in (1, 2))
    for name in ("shoulder_torque", "elbow_torque", "girdle_torque"):
        assert_allclose(twice[name], 2 * once[name], rtol=1e-12, atol=1e-10)


@pytest.mark.parametrize("factor", [0.9, 1.1])
def test_a_scaled_arm_with_a_scaled_path_scales_the_torques(factor):
    # upper arm and forearm are measures less a fixed depth: scale what is left of them
    lengths = {n: getattr(MEN, n) * factor for n in MEASURES if n not in ("mass", "acromion_radiale", "elbow_grip")}
    scaled = replace(
        MEN,
        acromion_radiale=MEN.acromion_radiale + (factor - 1) * MEN.upper_arm,
        elbow_grip=MEN.elbow_grip + (factor - 1) * MEN.forearm,
        **lengths,
    )
    pull = sm.pulls["front pulldown"].change(girdle_travel=0.0)  # the collarbone's joint does not scale
    touch = pull.touch_point(MEN)
    small, large = (
        sm.rep(who, pull.change(touch_forward=k * touch[0], touch_up=k * touch[1]))
        for who, k in ((MEN, 1.0), (scaled, factor))
    )
    assert scaled.reach == pytest.approx(factor * MEN.reach)
    for name in ("shoulder_torque", "elbow_torque"):
        # at full reach the elbow's angle is the root of a rounding error: 1e-8, not 1e-16
        assert_allclose(large[name], factor * small[name], rtol=1e-7, atol=1e-6)
    assert_allclose(large.elbow_flexion, small.elbow_flexion, atol=1e-7)


def test_arm_weight_of_a_level_arm_by_hand():
    # straight arm held level ahead: upper arm 0.028 M at 0.436 of it, forearm and hand 0.022 M at 0.682 of the forearm
    hand = np.array([MEN.reach, 0.0, 0.0])
    posture = sm.mechanics.arm_at(MEN, hand, np.array([0.0, 0.0, -1.0]))
    positions, forces = arm_weights(MEN, posture, 0.0)
    flexion = -anatomical(needed_torque(positions, forces))[1]
    by_hand = (
        MEN.mass * 9.80665 * (0.028 * 0.436 * MEN.upper_arm + 0.022 * (MEN.upper_arm + 0.682 * MEN.radiale_stylion))
    )
    assert flexion == pytest.approx(by_hand)


def test_gravity_turns_with_the_lean():
    # lying back by 90° the trunk's forward is up: a hanging arm lies level and weighs on the extension axis only
    posture = sm.mechanics.arm_at(MEN, np.array([MEN.forearm, -MEN.upper_arm, 0.0]), np.array([0.0, 0.0, -1.0]))
    _, (upper, _) = arm_weights(MEN, posture, np.pi / 2)
    assert_allclose(upper, [-0.028 * MEN.mass * 9.80665, 0.0, 0.0], atol=1e-12)


def test_elbow_torque_of_a_level_forearm_by_hand():
    one = sm.mechanics.arm_at(MEN, np.array([MEN.forearm, -MEN.upper_arm, 0.0]), np.array([0.0, 0.0, -1.0]))
    weight = stack(0.0, -50.0, 0.0)
    assert sm.mechanics.elbow_torque(one, [one.hand], [weight]) == pytest.approx(50.0 * MEN.forearm)


def test_elbow_torque_is_force_times_its_distance_from_the_line():
    pull = sm.pulls["front pulldown"]
    one, path = sm.rep(MEN, pull, arm_weight=False), hand_path(MEN, pull, 41)
    from_hand = (one.elbow - one.hand).values
    off_line = np.linalg.norm(np.cross(from_hand, path.along), axis=-1)
    assert_allclose(np.abs(one.elbow_torque), float(one.force) * off_line, rtol=1e-9, atol=1e-9)


def test_pulling_the_hand_forward_asks_for_retraction():
    at_hand, forward = stack(0.3, -0.2, 0.1), stack(200.0, 0.0, 0.0)
    retraction, depression = sm.mechanics.girdle_torque([at_hand], [forward], sm.mechanics.sc_joint(MEN))
    assert retraction == pytest.approx(200.0 * (0.1 + MEN.gh_breadth / 2 - 0.025))
    assert depression == 0
    up = stack(0.0, 200.0, 0.0)
    assert sm.mechanics.girdle_torque([at_hand], [up], sm.mechanics.sc_joint(MEN))[1] > 0


def test_margin_is_the_tape_law_at_the_wrong_reading():
    # 1 cm of tape with 7 mm (7.5 mm across) of joint centre, as independent errors
    margin = tape_law_margin(200.0, np.radians(30.0))
    assert_allclose(margin, [200 * np.hypot(0.01, 0.007) * np.cos(np.radians(30)), 200 * np.hypot(0.01, 0.0075),
                             200 * np.hypot(0.01, 0.007) * 0.5])  # fmt: skip
    assert_allclose(tape_law(100.0, 0.1, 0.2, 0.0), [10.0, 20.0, 0.0])
