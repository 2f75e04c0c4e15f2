import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from numpy.testing import assert_allclose
from scipy.spatial.transform import Rotation

import shoulder_model as sm
from shoulder_model.mechanics import GirdlePosture, clavicle_axes, girdle_at, raised_arm
from shoulder_model.muscles import (
    elbow_excursion,
    elbow_moment_arm,
    fibre_length,
    force_length_factor,
    girdle_muscles,
    girdle_paths,
    landmarks,
    path_points,
    path_sets,
    paths,
    shoulder_muscles,
    turned_scapula,
    upward_rotation,
)
from shoulder_model.muscles.elbow import POLYNOMIALS
from shoulder_model.muscles.girdle import through_humerus_arms
from shoulder_model.muscles.paths import BLOCK
from shoulder_model.sources import fact

unit_angles = st.floats(-np.pi, np.pi)


@pytest.mark.identity
@settings(max_examples=150, deadline=None)
@given(unit_angles, unit_angles, unit_angles, st.floats(0, 1.0), st.integers(0, 2))
def test_moment_arm_is_minus_the_slope_of_the_length_about_every_axis(x, y, z, up, axis):
    humerus, scapula = Rotation.from_euler("xyz", [x, y, z]).as_matrix(), raised_arm(up, 0.7)
    h, step = 1e-5, np.eye(3)[axis]
    length = [paths(Rotation.from_rotvec(k * h * step).as_matrix() @ humerus, scapula)[0] for k in (-1, 1)]
    slope = (length[1] - length[0]) / (2 * h)
    # central difference: truncation ~ h² / (shortest straight piece)² and, where a path leaves its sphere, ~ h
    assert_allclose(paths(humerus, scapula)[1][:, axis], -slope, atol=2e-6)


@pytest.mark.identity
@settings(max_examples=100, deadline=None)
@given(unit_angles, st.floats(0, 1.0), st.floats(-0.4, 0.4), st.floats(-0.2, 0.8), st.integers(0, 2))
def test_a_girdle_that_carries_the_centre_shortens_paths_by_their_line(x, up, retraction, elevation, axis):
    # moving the GH centre alone: a thorax path of pull t about the centre changes by the pull along the move
    humerus, scapula = Rotation.from_euler("xyz", [x, 0.3, -0.2]).as_matrix(), raised_arm(up, 0.7)
    at, h = girdle_at(sm.Lifter.average("men"), retraction, elevation), 1e-5
    moved = [
        GirdlePosture(at.retraction, at.elevation, at.clavicle, at.gh + k * h * np.eye(3)[axis], at.sc) for k in (-1, 1)
    ]
    low, high = (paths(humerus, scapula, girdle=girdle)[0] for girdle in moved)
    slope, thorax = (high - low) / (2 * h), path_sets()[0]
    origin = thorax.origin - at.gh
    torque = paths(humerus, scapula, girdle=at)[1][thorax.rows]
    # pull at the origin, from the torque per newton and its distance (straight or wrapped): |pull| = 1
    across = np.cross(torque, origin) / np.sum(origin**2, axis=1, keepdims=True)
    along = np.sqrt(np.maximum(1 - np.sum(across**2, axis=1), 0)) / np.linalg.norm(origin, axis=1)
    insertion = thorax.insertion @ humerus.T
    sign = np.where(np.sum(insertion * origin, axis=1) < np.sum(origin**2, axis=1), 1, -1)
    pull = across + (sign * along)[:, None] * origin
    assert_allclose(slope[thorax.rows], -pull[:, axis], atol=1e-5)
    assert_allclose(np.delete(slope, thorax.rows), 0.0, atol=1e-9)  # other origins travel with the centre


@pytest.mark.identity
@settings(max_examples=100, deadline=None)
@given(unit_angles, st.floats(0, 1.0), st.floats(-0.4, 0.4), st.floats(-0.2, 0.7), st.integers(0, 1))
def test_virtual_work_at_the_sc_joint(x, up, retraction, elevation, component):
    """Girdle and arm turned together about the SC joint: every muscle's arm is minus the slope of its length."""
    man, axis = sm.Lifter.average("men"), [[0.0, -1.0, 0.0], [1.0, 0.0, 0.0]][component]  # retraction, depression
    humerus, scapula = Rotation.from_euler("xyz", [x, 0.3, -0.2]).as_matrix(), raised_arm(up, 0.7)
    at, h, length = girdle_at(man, retraction, elevation), 1e-5, []
    for k in (-1, 1):
        turn = Rotation.from_rotvec(k * h * np.array(axis)).as_matrix()
        sc = turn @ at.sc
        girdle = GirdlePosture(at.retraction, at.elevation, turn @ at.clavicle, at.gh + at.sc - sc, sc)
        shoulder = paths(turn @ humerus, turn @ scapula, girdle=girdle)[0]
        length.append(np.r_[shoulder, girdle_paths(turn @ scapula, girdle)[0]])
    slope = (length[1] - length[0]) / (2 * h)
    arms = np.r_[through_humerus_arms(humerus, paths(humerus, scapula, girdle=at)[1], at), girdle_paths(scapula, at)[1]]
    assert_allclose(arms[:, component], -slope, atol=5e-6)


@pytest.mark.identity
def test_blocks_change_nothing():
    rng = np.random.default_rng(3)
    elevation, plane = rng.uniform(0, 2.5, 2 * BLOCK + 7), rng.uniform(-0.5, 2, 2 * BLOCK + 7)
    humerus, scapula = raised_arm(elevation, plane), turned_scapula(elevation, plane)
    girdle = girdle_at(sm.Lifter.average("men"), 0.2 * plane, 0.1 * elevation)
    length, torque = paths(humerus, scapula, girdle=girdle)
    for k in (0, BLOCK - 1, BLOCK, 2 * BLOCK + 6):
        one_length, one_torque = paths(humerus[k], scapula[k], girdle=girdle.at(k))
        assert_allclose(length[k], one_length, rtol=1e-12)
        assert_allclose(torque[k], one_torque, rtol=0, atol=1e-14)


def test_a_path_never_enters_its_sphere():
    wrapped = 0
    for row in landmarks():
        radius = float(row["wrap"])
        for elevation, plane in np.radians([(0, 0), (60, 30), (110, 80), (150, 60), (180, 90)]):
            humerus, scapula = raised_arm(elevation, plane), turned_scapula(elevation, plane)
            nearest = np.linalg.norm(path_points(row["muscle"], humerus, scapula, count=400), axis=1).min()
            assert nearest > radius - 1e-9, row["muscle"]
            wrapped += nearest < radius + 1e-9
    assert wrapped > 5  # some of them do lie on their sphere


def test_raised_arm_points_where_it_should():
    down = -raised_arm([0.0, np.pi / 2, np.pi / 2], [0.0, 0.0, np.pi / 2])[..., 1]
    assert_allclose(down, [[0, -1, 0], [0, 0, 1], [1, 0, 0]], atol=1e-12)
    turn = raised_arm(1.1, 0.7)
    assert_allclose(turn @ turn.T, np.eye(3), atol=1e-12)


def test_the_scapula_rests_with_the_arm_and_turns_up_with_it():
    assert_allclose(turned_scapula(0.0, 0.0), np.eye(3), atol=1e-12)
    glenoid = turned_scapula(np.pi / 2, 0.0) @ np.array([0.0, 0.0, 1.0])
    assert glenoid[1] > 0.3  # what pointed to the side points up


def test_behind_the_trunk_the_scapula_s_turn_fades_to_rest():
    planes = np.radians([0.0, -30.0, -60.0, -90.0])
    turned = upward_rotation(np.radians(50.0), planes)
    assert np.all(np.diff(turned) < 0) and turned[-1] == pytest.approx(0.0, abs=1e-12)
    assert_allclose(turned / turned[0], 1 + np.sin(planes), atol=1e-12)
    ahead = upward_rotation(np.radians(50.0), np.radians([0.0, 40.0, 90.0, 120.0]))
    assert np.all(ahead > 0.8 * turned[0])


def test_the_scapula_turns_with_the_collarbone_by_its_share():
    turned = turned_scapula(0.0, 0.0, np.radians(20.0))
    ahead = turned @ np.array([0.0, 0.0, 1.0])  # what pointed to the side goes back, by half as much
    assert np.degrees(np.arctan2(-ahead[0], ahead[2])) == pytest.approx(20.0 * fact("scapula_with_clavicle"))
    assert_allclose(turned_scapula(1.0, 0.5, 0.0), turned_scapula(1.0, 0.5), atol=0)
    both = clavicle_axes(0.2 * fact("scapula_with_clavicle"), 0.0) @ turned_scapula(1.0, 0.5)
    assert_allclose(turned_scapula(1.0, 0.5, 0.2), both, atol=1e-12)


def test_a_fixed_scapula_gives_other_arms_to_scapular_muscles_only():
    for name in ("deltoid middle", "latissimus dorsi middle"):
        turning, fixed = (sm.moment_arm(name, 1.5, 0.0, "adduction", scapula_turns=turns) for turns in (True, False))
        assert (abs(turning - fixed) > 1e-4) == (name == "deltoid middle")


@pytest.mark.identity
@pytest.mark.parametrize("name", POLYNOMIALS)
def test_elbow_arm_is_minus_the_slope_of_the_length(name):
    flexion, h = np.radians([10.0, 70.0, 130.0]), 1e-6
    slope = (elbow_excursion(name, flexion + h) - elbow_excursion(name, flexion - h)) / (2 * h)
    assert_allclose(elbow_moment_arm(name, flexion), -slope, atol=1e-8)


@pytest.mark.identity
def test_girdle_arms_through_the_humerus_against_the_line_itself():
    # straight paths: the line runs from origin to insertion, so its moment about the SC joint is (insertion - SC) x pull
    humerus, scapula = raised_arm(1.0, 0.6), turned_scapula(1.0, 0.6)
    girdle = girdle_at(sm.Lifter.average("men"), -0.2, 0.3)
    found = through_humerus_arms(humerus, paths(humerus, scapula, girdle=girdle)[1], girdle)
    for k, row in enumerate(landmarks()):
        if row["frame"] != "t":
            assert_allclose(found[k], 0.0)  # they start on the girdle itself
        elif row["muscle"].startswith("latissimus"):
            origin, insertion = (np.array([float(row[f"{end}_{a}"]) for a in "xyz"]) for end in ("origin", "insertion"))
            at = girdle.gh + humerus @ insertion  # from where the centre rests, like the origin
            sc = girdle.gh + girdle.sc
            moment = np.cross(at - sc, (origin - at) / np.linalg.norm(origin - at))
            assert_allclose(found[k], [-moment[1], moment[0]], atol=1e-12)


def test_the_girdles_muscles_pull_the_way_anatomy_says():
    at_rest = girdle_at(sm.Lifter.average("men"), 0.0, 0.0)
    arms = dict(zip(girdle_muscles(), girdle_paths(np.eye(3), at_rest)[1], strict=True))
    assert arms["trapezius middle"][0] > 0.05 and arms["rhomboids"][0] > 0.05  # retract
    assert arms["serratus anterior"][0] < -0.05 and arms["pectoralis minor"][0] < 0  # protract
    assert arms["trapezius upper"][1] < -0.03  # lifts
    assert arms["trapezius lower"][1] > 0.03 and arms["pectoralis minor"][1] > 0.03  # depress


def test_latissimus_fibres_stand_on_the_plateau_and_go_down_the_far_side():
    # J Anat 2013;223:112: plateau and descending limb over shoulder motion
    elevation = np.radians(np.arange(0, 151, 10))
    length = fibre_length(paths(raised_arm(elevation, 0 * elevation), turned_scapula(elevation, 0 * elevation))[0])
    parts = length[:, [shoulder_muscles().index(f"latissimus dorsi {part}") for part in ("middle", "inferior")]]
    assert_allclose(parts[0], 1.0)
    assert np.all(np.diff(parts, axis=0) > 0) and np.all(parts < 1.5)
    assert np.all(force_length_factor(parts[-1]) < 0.85)


def test_force_length_factor_is_a_share():
    factor = force_length_factor(np.linspace(0.2, 2.0, 50))
    assert np.all((factor >= 0) & (factor <= 1)) and factor.max() > 0.99
    assert force_length_factor(0.8) == pytest.approx(force_length_factor(1.2))


@pytest.mark.parametrize(
    ("change", "says"),
    [
        ({"name": "latissimus"}, "muscle 'latissimus' is not known; nearest: latissimus dorsi"),
        ({"axis": "abduction"}, "axis 'abduction' is not known; nearest: adduction"),
        ({"elevation": 90}, r"elevation = 5156.6° \(90.000 rad\) is outside 0.0°"),
        ({"plane": float("nan")}, "plane = nan°"),
    ],
)
def test_wrong_input_is_refused_by_name(change, says):
    call = {"name": "latissimus dorsi middle", "elevation": 1.0, "plane": 0.0, "axis": "adduction"} | change
    with pytest.raises(ValueError, match=says):
        sm.moment_arm(**call)


def test_wrong_elbows_are_refused_by_name():
    with pytest.raises(ValueError, match="an elbow cannot bend that far"):
        elbow_moment_arm("biceps brachii", 2.7)
    with pytest.raises(ValueError, match="muscle 'biceps' is not known; nearest: biceps brachii"):
        elbow_moment_arm("biceps", 1.0)
