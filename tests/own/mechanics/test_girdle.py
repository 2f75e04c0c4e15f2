"""The shoulder blade travels: where the GH centre goes, and what follows for a held blade."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from numpy.testing import assert_allclose
from scipy.spatial.transform import Rotation

import shoulder_model as sm
from shoulder_model.mechanics import (
    clavicle_axes,
    girdle_along,
    girdle_at,
    girdle_turn,
    sc_joint,
    travelled,
    turn_since,
)
from shoulder_model.people import ELBOW_LIMIT

MEN = sm.Lifter.average("men")
angles = st.floats(-0.5, 0.8)
every_pull = pytest.mark.parametrize("name", list(sm.pulls))
LINES = [name for name, pull in sm.pulls.items() if pull.path == "line"]


@pytest.mark.identity
@given(angles, angles)
def test_the_collarbone_turns_back_then_up(retraction, elevation):
    axes = clavicle_axes(retraction, elevation)
    by_steps = Rotation.from_euler("YX", [-retraction, -elevation]).as_matrix()
    assert_allclose(axes, by_steps, atol=1e-12)


def test_retraction_goes_back_and_elevation_up():
    back, up = girdle_at(MEN, 0.3, 0.0).gh, girdle_at(MEN, 0.0, 0.3).gh
    assert back[0] < -0.05 and abs(back[1]) < 1e-12 and up[1] > 0.05 and abs(up[0]) < 1e-12


@pytest.mark.identity
@given(angles, angles)
def test_the_centre_stays_on_its_sphere(retraction, elevation):
    at, sc = girdle_at(MEN, retraction, elevation), sc_joint(MEN)
    assert np.linalg.norm(at.gh - sc) == pytest.approx(np.linalg.norm(sc))
    assert_allclose(at.gh + at.sc, sc, atol=1e-12)


@pytest.mark.parametrize(("lead", "half"), [(0.0, 0.5), (1.0, 0.75), (-1.0, 0.25)])
def test_the_lead_spreads_the_travel(lead, half):
    way = travelled(np.linspace(0, 1, 101), lead)
    assert (way[0], way[-1]) == (0.0, 1.0) and np.all(np.diff(way) >= -1e-12)
    assert way[50] == pytest.approx(half)


def test_half_of_an_early_blade_s_way_is_done_at_29_percent():
    assert travelled(0.293, 1.0) == pytest.approx(0.5, abs=1e-3)
    assert travelled(0.707, -1.0) == pytest.approx(0.5, abs=1e-3)


@every_pull
def test_a_rep_runs_from_the_girdle_s_reach_to_its_end(name):
    pull = sm.pulls[name]
    one = sm.rep(MEN, pull, muscles=False)
    posture = np.degrees(one.girdle_posture.values)
    assert_allclose(posture[0], np.degrees([pull.reach_retraction, -pull.reach_elevation]), atol=1e-9)
    assert_allclose(posture[-1], np.degrees([pull.end_retraction, -pull.end_elevation]), atol=1e-9)
    half = sm.rep(MEN, pull.change(girdle_travel=0.5), muscles=False)
    assert_allclose(half.girdle_posture, one.girdle_posture / 2, atol=1e-12)
    assert_allclose(one.gh_centre, girdle_along(MEN, pull, one.progress.values).gh, atol=1e-12)


@pytest.mark.identity
@pytest.mark.parametrize("name", LINES)
@pytest.mark.parametrize("travel", [0.0, 0.6, 1.0])
def test_the_hand_stays_on_its_line_and_w_and_a_are_measured_from_the_moving_centre(name, travel):
    pull = sm.pulls[name].change(girdle_travel=travel)
    one = sm.rep(MEN, pull, muscles=False)
    along = np.array([np.sin(pull.pull_angle), np.cos(pull.pull_angle), 0.0])
    across = np.array([np.cos(pull.pull_angle), -np.sin(pull.pull_angle), 0.0])
    forward, up = pull.touch_point(MEN)
    line = np.array([forward, up, pull.hand_offset(MEN)])
    off = one.hand.values - line
    assert_allclose(np.cross(off, along), 0.0, atol=1e-12)
    from_centre = (one.hand - one.gh_centre).values
    assert_allclose(one.hand_offset, from_centre[:, 2], atol=1e-12)
    assert_allclose(one.line_offset, from_centre @ across, atol=1e-12)
    assert np.linalg.norm(from_centre[0]) == pytest.approx(MEN.reach, rel=1e-9)


@pytest.mark.identity
@pytest.mark.parametrize("name", [n for n in LINES if "close" not in n])
@pytest.mark.parametrize("sex", ["men", "women"])
def test_a_held_blade_is_the_planar_model_in_closed_form(name, sex):
    lifter, pull = sm.Lifter.average(sex), sm.pulls[name].change(girdle_travel=0.0)
    one = sm.rep(lifter, pull, muscles=False, arm_weight=False)
    w, a = pull.hand_offset(lifter), pull.line_offset(lifter)
    along = np.array([np.sin(pull.pull_angle), np.cos(pull.pull_angle), 0.0])
    across = np.array([np.cos(pull.pull_angle), -np.sin(pull.pull_angle), 0.0])
    bent = np.sqrt(
        lifter.upper_arm**2 + lifter.forearm**2 + 2 * lifter.upper_arm * lifter.forearm * np.cos(ELBOW_LIMIT)
    )
    touch, square = pull.touch_along(lifter), w * w + a * a
    end = touch if square >= bent**2 else max(touch, np.sqrt(bent**2 - square))
    place = np.linspace(np.sqrt(lifter.reach**2 - square), end, 41)
    hand = a * across + [0.0, 0.0, w] + place[:, None] * along
    assert_allclose(one.hand, hand, atol=1e-12)
    assert not one.gh_centre.values.any() and not one.elbow_past_ribs.values.any()
    force = float(one.force)
    law = force * np.array([w * np.cos(pull.pull_angle), a, w * np.sin(pull.pull_angle)])
    assert_allclose(one.shoulder_torque, np.broadcast_to(law, (41, 3)), atol=1e-10)
    outer = across * a / np.hypot(a, w) + np.array([0.0, 0.0, w]) / np.hypot(
        a, w
    )  # in the plane, from shoulder to line
    distance = np.linalg.norm(hand, axis=1)
    cos = (distance**2 + lifter.upper_arm**2 - lifter.forearm**2) / (2 * distance * lifter.upper_arm)
    unit = hand / distance[:, None]
    away = outer - (unit @ outer)[:, None] * unit  # the elbow lies on the line's own side
    away = np.where(np.linalg.norm(away, axis=1, keepdims=True) > 1e-9, away, -along)
    away /= np.linalg.norm(away, axis=1, keepdims=True)
    sin = np.sqrt(np.maximum(1 - cos**2, 0))[:, None]
    either = [lifter.upper_arm * (cos[:, None] * unit + sign * sin * away) for sign in (1, -1)]
    off = [np.abs(one.elbow.values - elbow).max() for elbow in either]
    assert min(off) < 1e-7


@pytest.mark.identity
def test_a_turn_without_spin_carries_the_centre():
    progress = np.linspace(0, 1, 2001)
    at = girdle_at(MEN, -0.3 + 0.6 * progress, 0.35 - 0.4 * progress)
    turn = girdle_turn(MEN, at.gh)
    out = (at.gh - sc_joint(MEN))[1:]
    spin = np.stack([turn[1:, 1], 0 * turn[1:, 1], 0 * turn[1:, 1]], axis=1) - np.array([0, 1, 0]) * turn[1:, :1]
    assert_allclose(np.diff(at.gh, axis=0), np.cross(spin, out), atol=2e-7)
    assert turn[:, 0].sum() > 0.5 and turn[:, 1].sum() > 0.3  # back and down


@pytest.mark.identity
@settings(max_examples=50)
@given(st.floats(-2, 2), st.floats(-2, 2), st.floats(-2, 2))
def test_the_turn_of_a_bone_takes_it_from_point_to_point(x, y, z):
    vector = np.array([x, y, z]) / 2
    bones = np.stack([Rotation.from_rotvec(k * vector).as_matrix() for k in range(3)])
    turn = turn_since(bones)
    assert_allclose(turn[0], 0.0)
    assert_allclose(turn[1:], np.stack([vector, vector]), atol=1e-9)


@pytest.mark.parametrize("name", list(sm.pulls))
def test_bars_reach_the_body_with_a_blade_that_travels(name):
    short = {
        held: float(sm.rep(MEN, sm.pulls[name].change(girdle_travel=held), muscles=False).short_of_touch)
        for held in (0.0, 1.0)
    }
    assert short[1.0] <= short[0.0] + 1e-12
    assert short[1.0] < 0.03  # behind the neck the elbow's limit still ends the rep 3 cm before


def test_the_lead_of_overhead_pulls_is_that_of_the_arm_s_elevation():
    # as mechanics/girdle.py says: with the blade held, a lead of 0.0 to 0.4, 0.2 in the mean
    leads = []
    for name in LINES:
        pull = sm.pulls[name]
        if pull.reach_elevation:
            elevation, s = (
                sm.rep(MEN, pull.change(girdle_travel=0.0), muscles=False).elevation.values,
                np.linspace(0, 1, 41),
            )
            share, bend = (elevation - elevation[0]) / (elevation[-1] - elevation[0]), s * (1 - s)
            leads.append((share - s) @ bend / (bend @ bend))
    assert len(leads) == 5 and min(leads) > 0 and max(leads) < 0.45
    assert np.mean(leads) == pytest.approx(sm.pulls["front pulldown"].girdle_lead, abs=0.05)


def test_every_angle_lies_within_the_joint_s_range():
    # textbook range, from memory (MM): protraction and retraction 15 to 30, elevation up to 48, depression 10 to 15
    for pull in sm.pulls.values():
        for angle in (pull.reach_retraction, pull.end_retraction):
            assert abs(np.degrees(angle)) <= 30
        for angle in (pull.reach_elevation, pull.end_elevation):
            assert -15 <= np.degrees(angle) <= 48


def test_a_rep_ends_where_the_elbow_would_have_to_bend_too_far_on_the_way():
    # a narrow grip, leaning back: the blade carries the shoulder down onto the hand before the end
    grid = sm.sweep(
        MEN,
        sm.pulls["front pulldown"],
        muscles=False,
        grip_ratio=np.linspace(1, 2, 11),
        trunk_lean=np.radians([0, 20, 40]),
    )
    bent = np.degrees(grid.elbow_flexion.max("point"))
    assert bent.max() < 143.2 and np.all(bent.where(~grid.touched) > 142.5, where=~grid.touched.values)
    assert grid.touched.any() and not grid.touched.all()
    assert np.all(grid.short_of_touch.where(~grid.touched, 1.0) > 0)


def test_a_blade_that_outruns_the_hand_is_refused():
    pull = sm.pulls["seated row wide"].change(touch_forward=0.45, girdle_travel=1.5, girdle_lead=1.0)
    with pytest.raises(
        sm.InputError, match="girdle_travel: the blade draws the shoulder back faster than the hand comes"
    ):
        sm.rep(MEN, pull)


@pytest.mark.parametrize("field", ["girdle_travel", "end_elevation", "reach_retraction"])
def test_travel_sweeps(field):
    values = [0.0, 0.1, 0.2]
    grid = sm.sweep(MEN, sm.pulls["front pulldown"], points=7, **{field: values})
    for k, value in enumerate(values):
        one = sm.rep(MEN, sm.pulls["front pulldown"].change(**{field: value}), points=7)
        for name in ("hand", "shoulder_torque", "girdle_moment_arm", "largest_load_kg", "girdle_turn"):
            assert_allclose(grid[name][k], one[name], rtol=1e-9, atol=1e-12)
