"""What a rep says about capacity, activation and the largest load, put back into the torques it has to supply."""

from dataclasses import replace

import numpy as np
import pytest
import xarray as xr
from numpy.testing import assert_allclose

import shoulder_model as sm
from shoulder_model.inputs import InputError
from shoulder_model.muscles import (
    MUSCLES,
    capacity,
    capacity_band,
    cross_sections,
    drawn_bodies,
    expected_strength,
    leverage,
    reference_body,
)
from shoulder_model.muscles.elbow import FLEXORS
from shoulder_model.repetition.balance import BALANCES
from shoulder_model.repetition.rep_and_sweep import MOST_POSTURES
from shoulder_model.sources import fact

MEN, WOMEN = sm.Lifter.average("men"), sm.Lifter.average("women")
PULL = sm.pulls["front pulldown"]
WORK = ("activation", "capacity", "largest_load_kg", "whole_rep_load_kg", "shortfall", "adds_kg", "side_force")
every_pull = pytest.mark.parametrize("name", list(sm.pulls))
both_balances = pytest.mark.parametrize("balance", BALANCES)


def one_of(crowd, k):
    return sm.Lifter(crowd.sex, **{name: getattr(crowd, name)[k] for name in sm.people.MEASURES})


def supplied(one, pull, arms):
    """Activation x capacity x arm, summed over muscles; the hand turn's drive is in the capacity."""
    return np.einsum("pm,pm...->p...", one.activation.values * one.capacity.values, arms)


def plane_normal(pull, one):
    """Normals (point, 3) of the plane of pull, that of shoulder and line of pull (an arc: the sagittal plane), as a torque's components."""
    along = np.array([np.sin(pull.pull_angle), np.cos(pull.pull_angle), 0.0])
    normal = np.cross(along, (one.hand - one.gh_centre).values)
    if pull.path == "arc":
        normal = np.broadcast_to([0.0, 0.0, -1.0], normal.shape)
    return sm.mechanics.anatomical(normal / np.linalg.norm(normal, axis=1, keepdims=True))


@pytest.mark.identity
@both_balances
@every_pull
def test_activations_supply_what_is_asked(name, balance):
    pull = sm.pulls[name].change(load_kg=8.0)  # everybody holds that
    one = sm.rep(MEN, pull, points=21, balance=balance, side_force="zero")
    assert not one.shortfall.values.any()
    assert one.activation.min() >= 0 and one.activation.max() <= 1
    torque, found = one.shoulder_torque.values, supplied(one, pull, one.muscle_moment_arm.values)
    size = max(1.0, np.abs(torque).max())
    if balance == "all axes":
        assert_allclose(found, torque, atol=1e-7 * size)
    else:
        normal = plane_normal(pull, one)
        assert_allclose(np.sum(found * normal, axis=1), np.sum(torque * normal, axis=1), atol=1e-7 * size)
        assert np.abs(found - torque).max() > 0.5  # the other axes are left alone
    at_elbow = np.where(np.isin(MUSCLES, FLEXORS), leverage(pull.hand_turn), 1.0) * fact("elbow_over_shoulder_strength")
    assert_allclose(supplied(one, pull, one.elbow_moment_arm.values * at_elbow), one.elbow_torque, atol=1e-7 * size)
    girdle = supplied(one, pull, one.girdle_moment_arm.values)
    assert_allclose(girdle[:, 0], one.girdle_torque[:, 0], atol=1e-7 * size)
    assert np.all(girdle[:, 1] >= one.girdle_torque[:, 1] - 1e-7 * size)  # ribs and ligaments take the rest


@pytest.mark.identity
@both_balances
@every_pull
def test_what_the_largest_load_says_is_what_can_be_held(name, balance):
    pull = sm.pulls[name]
    whole = float(sm.rep(MEN, pull, balance=balance).whole_rep_load_kg)
    largest = sm.rep(MEN, pull, balance=balance).largest_load_kg
    below_and_above = set()
    for load in (0.5 * whole, whole, 1.001 * whole, 1.5 * whole, min(3 * whole, 400.0)):
        one = sm.rep(MEN, pull.change(load_kg=load), balance=balance)
        assert_allclose(one.largest_load_kg, largest, rtol=1e-9)  # whatever load is on the bar
        held = one.largest_load_kg.values >= load * (1 + 1e-9)
        fails = one.largest_load_kg.values < load * (1 - 1e-9)
        assert not one.shortfall.values[held].any() and np.all(one.shortfall.values[fails] > 0)
        assert np.all((one.shortfall.values >= 0) & (one.shortfall.values < 1))
        assert one.activation.min() >= 0 and one.activation.max() <= 1
        assert np.all(one.activation.values[fails].max(axis=1, initial=0) > 0.99)  # something gives out
        at_limit = sm.rep(
            MEN, pull.change(load_kg=min(20 * load, 500.0)), balance=balance
        )  # and it stays as it stands there
        assert_allclose(at_limit.activation.values[fails], one.activation.values[fails], atol=1e-6)
        assert_allclose(one.shortfall.values[fails], 1 - largest.values[fails] / load, rtol=1e-9)
        below_and_above |= {bool(held.any()), not fails.any()}
    assert below_and_above == {True, False}


@every_pull
def test_the_whole_rep_holds_the_smallest_load_after_its_first_fifth(name):
    for points, first in ((41, 8), (21, 4), (16, 3), (7, 2), (2, 1)):
        one = sm.rep(MEN, sm.pulls[name], points=points)
        assert one.whole_rep_load_kg == one.largest_load_kg[first:].min()


@pytest.mark.identity
@both_balances
def test_what_gives_out_adds_up(balance):
    one = sm.rep(MEN, PULL, balance=balance)
    full = one.adds_kg.values > 1e-6
    at_limit = [sm.rep(MEN, PULL.change(load_kg=float(kg)), balance=balance) for kg in one.largest_load_kg[10::10]]
    for limit, k in zip(
        at_limit, range(10, 41, 10), strict=True
    ):  # taken at 0.9999 of it: nearly all that they add is there
        missing = (1 - limit.activation.values[k]) @ one.adds_kg.values[k]
        assert 0 <= missing < 2e-4 * (float(one.largest_load_kg[k]) + 20)
    assert np.all(one.adds_kg >= 0) and full.sum(axis=1).min() >= 1
    weightless = sm.rep(MEN, PULL, balance=balance, arm_weight=False)
    assert_allclose(weightless.adds_kg.sum("muscle"), weightless.largest_load_kg, rtol=1e-9)
    twice = sm.rep(MEN, PULL, balance=balance, arm_weight=False, strength=expected_strength(MEN).times(2, 2, 2, ""))
    assert_allclose(twice.largest_load_kg, 2 * weightless.largest_load_kg, rtol=1e-9)


# ---------------------------------------------------------------- side force


@pytest.mark.identity
@both_balances
@pytest.mark.parametrize("grip_ratio", [0.4, 1.0, 2.0])
def test_a_bar_that_may_be_pulled_apart_holds_no_less(balance, grip_ratio):
    pull = PULL.change(grip_ratio=grip_ratio, girdle_travel=0.0)
    zero, grip, free = (
        sm.rep(MEN, pull, balance=balance, side_force=side).largest_load_kg for side in ("zero", "grip", "free")
    )
    assert np.all(grip >= zero * (1 - 1e-9)) and np.all(free >= grip * (1 - 1e-9))
    if balance == "plane" and grip_ratio == 1.0:  # the plane is sagittal, and a sideways force has no lever in it
        assert_allclose(free, zero, rtol=1e-6)
        return
    assert np.any(free > 1.05 * zero)
    held = sm.rep(MEN, pull.change(load_kg=20), balance=balance, side_force="grip")
    assert np.all(np.abs(held.side_force) <= fact("grip_friction") * held.force + 1e-9)
    assert np.abs(held.side_force).max() > 1
    usual = sm.rep(MEN, pull.change(load_kg=20), balance=balance)
    xr.testing.assert_equal(usual, held)  # two hands on one bar push as far as they grip
    assert not sm.rep(MEN, pull, balance=balance, side_force="zero").side_force.any()


@pytest.mark.identity
@both_balances
def test_handles_and_one_hand_get_no_side_force(balance):
    for pull in (
        sm.pulls["chest-supported row"],
        sm.pulls["one-arm row"],
        PULL.change(hold="handles"),
        PULL.change(hands=1),
    ):
        zero = sm.rep(MEN, pull, points=11, balance=balance)
        for side in ("grip", "free"):
            xr.testing.assert_equal(sm.rep(MEN, pull, points=11, balance=balance, side_force=side), zero)


@pytest.mark.identity
@pytest.mark.parametrize("side", ["grip", "free"])
def test_with_a_side_force_activations_supply_its_torque_too(side):
    pull = PULL.change(load_kg=20)
    one = sm.rep(MEN, pull, balance="all axes", side_force=side)
    assert not one.shortfall.values.any()
    force = np.zeros((41, 3))
    force[:, 2] = one.side_force
    asked = one.shoulder_torque.values + sm.mechanics.anatomical(
        sm.mechanics.needed_torque([(one.hand - one.gh_centre).values], [force])
    )
    assert_allclose(supplied(one, pull, one.muscle_moment_arm.values), asked, atol=1e-5)


# ---------------------------------------------------------------- sweeps


@pytest.mark.identity
@pytest.mark.parametrize("balance", BALANCES)
def test_a_sweep_shares_the_work_as_its_reps_do(balance):
    options = {"balance": balance, "side_force": "grip", "by_size": True}
    grid = sm.sweep(MEN, PULL, points=7, grip_ratio=[0.8, 1.6], load_kg=[20.0, 90.0], **options)
    assert grid.activation.dims == ("grip_ratio", "load_kg", "point", "muscle")
    assert grid.whole_rep_load_kg.dims == ("grip_ratio", "load_kg")
    for i, grip in enumerate((0.8, 1.6)):
        for j, load in enumerate((20.0, 90.0)):
            one = sm.rep(MEN, PULL.change(grip_ratio=grip, load_kg=load), points=7, **options)
            for name in WORK:
                assert_allclose(grid[name][i, j], one[name], rtol=1e-8, atol=1e-8, err_msg=name)


@pytest.mark.identity
def test_heavier_lifters_are_expected_to_be_stronger_in_a_sweep_too():
    grid = sm.sweep(MEN, PULL, points=7, mass=[60.0, 100.0])
    for i, mass in enumerate((60.0, 100.0)):
        one = sm.rep(replace(MEN, mass=mass), PULL, points=7)
        assert_allclose(grid.largest_load_kg[i], one.largest_load_kg, rtol=1e-9)
    assert grid.whole_rep_load_kg[1] > 1.3 * grid.whole_rep_load_kg[0]


@pytest.mark.identity
def test_a_crowd_shares_the_work_as_its_lifters_do():
    crowd = sm.draw_lifters(5, "women", seed=2)
    many = sm.rep(crowd, PULL, points=7)
    grid = sm.sweep(crowd, PULL, points=5, grip_ratio=[1.0, 1.8])  # as many points as lifters
    for k in range(5):
        one = sm.rep(one_of(crowd, k), PULL, points=7)
        for name in WORK:
            assert_allclose(many[name][k], one[name], rtol=1e-8, atol=1e-8, err_msg=name)
        wide = sm.rep(one_of(crowd, k), PULL.change(grip_ratio=1.8), points=5)
        assert_allclose(grid.largest_load_kg[k, 1], wide.largest_load_kg, rtol=1e-9)


@pytest.mark.identity
@pytest.mark.parametrize("points", [5, 7])
def test_a_crowd_may_bring_its_own_strength(points):
    crowd = sm.draw_lifters(5, "men", seed=1)
    given = sm.rep(crowd, PULL, points=points, strength=expected_strength(crowd))
    assert_allclose(given.whole_rep_load_kg, sm.rep(crowd, PULL, points=points).whole_rep_load_kg, rtol=1e-9)


@pytest.mark.identity
def test_leaving_out_the_work_keeps_the_body():
    body = drawn_bodies(1, seed=3)[0]
    full, bare = (sm.rep(MEN, PULL, points=5, body=body, work=work) for work in (True, False))
    assert_allclose(bare.muscle_moment_arm, full.muscle_moment_arm, rtol=0, atol=0)


def test_work_is_left_out_when_asked_and_when_there_is_too_much():
    full, bare = sm.rep(MEN, PULL, points=11), sm.rep(MEN, PULL, points=11, work=False)
    assert set(WORK) <= set(full.data_vars) and not set(WORK) & set(bare.data_vars)
    for name in bare.data_vars:
        assert_allclose(bare[name], full[name], rtol=0, atol=0)
    assert not set(WORK) & set(sm.rep(MEN, PULL, points=11, muscles=False).data_vars)
    loads = np.linspace(1, 100, MOST_POSTURES // 10)
    assert "activation" in sm.sweep(MEN, PULL, points=10, load_kg=loads)
    many = sm.sweep(MEN, PULL, points=10, load_kg=[*loads, 101.0])
    assert not set(WORK) & set(many.data_vars) and "muscle_moment_arm" in many
    assert "activation" not in sm.sweep(MEN, PULL, points=10, work=False, load_kg=[20.0])


@pytest.mark.identity
def test_every_variable_of_the_work_has_its_unit():
    one = sm.rep(MEN, PULL, points=5)
    units = {
        "activation": "",
        "capacity": "N",
        "largest_load_kg": "kg",
        "adds_kg": "kg",
        "side_force": "N",
        "shortfall": "",
    }
    assert {name: one[name].units for name in units} == units
    assert one.capacity.dims == ("point", "muscle") and list(one.muscle.values) == list(MUSCLES)


# ---------------------------------------------------------------- capacity and bodies


def test_capacity_is_size_times_tension_at_the_optimum():
    length = np.broadcast_to(reference_body().reference_length, (2, len(MUSCLES))).copy()
    assert_allclose(capacity(length, [1.0, 2.5]), np.outer([1.0, 2.5], cross_sections()[0] * 26.8))
    length[0, MUSCLES.index("latissimus dorsi middle")] += np.sqrt(0.45) * 0.264  # one width of the bell: e^-1
    assert_allclose(
        capacity(length)[0] / capacity(length)[1],
        np.where(np.array(MUSCLES) == "latissimus dorsi middle", np.exp(-1), 1.0),
    )


def test_another_body_moves_everything_that_rests_on_it():
    body = drawn_bodies(1, seed=3)[0]
    usual, other = sm.rep(MEN, PULL, points=11), sm.rep(MEN, PULL, points=11, body=body)
    for name in ("muscle_moment_arm", "girdle_moment_arm", "capacity", "largest_load_kg"):
        assert np.abs(other[name] - usual[name]).max() > 1e-3, name
    assert_allclose(other.shoulder_torque, usual.shoulder_torque, rtol=0, atol=0)
    itself = sm.rep(MEN, PULL, points=11, body=reference_body())
    xr.testing.assert_equal(itself, usual)


def test_drawn_bodies_stay_about_the_table_and_repeat_with_their_seed():
    bodies, again = drawn_bodies(300, seed=1), drawn_bodies(300, seed=1)
    assert_allclose(bodies[7].cross_section, again[7].cross_section)
    assert_allclose(bodies[7].paths[0].origin, again[7].paths[0].origin)
    sizes = np.array([body.cross_section for body in bodies])
    _, low, high = cross_sections()
    inside = ((sizes > low) & (sizes < high)).mean(axis=0)
    assert np.all((inside > 0.90) & (inside < 0.99))  # ± 2 SD holds 95 %
    assert_allclose(np.median(sizes, axis=0), np.sqrt(low * high), rtol=0.12)
    lat = [i for i, name in enumerate(MUSCLES) if name.startswith("latissimus")]
    assert_allclose(sizes[:, lat] / sizes[:, lat[:1]], 1.0)  # its parts come from one source and move together
    shift = np.array([body.paths[0].origin - reference_body().paths[0].origin for body in bodies])
    assert_allclose(shift.std(axis=0).mean(axis=1), shift.std(axis=(0, 2)), rtol=0.2)
    assert np.abs(shift.mean(axis=0)).max() < 0.004
    for body in bodies:
        for group in body.paths:
            inner = np.minimum(np.linalg.norm(group.origin, axis=1), np.linalg.norm(group.insertion, axis=1))
            assert np.all(group.wrap < inner)  # no end inside its sphere


def test_stronger_lifters_hold_more_and_know_it():
    weak, strong = (sm.rep(MEN, PULL, points=11, strength=factor).largest_load_kg for factor in (1.0, 2.0))
    assert np.all((strong > 1.7 * weak) & (strong < 2.1 * weak))
    assert strong[5] < 2 * weak[5]  # not quite twice: here the arm's own weight helps to pull down
    given = sm.Strength(1.0, 0.9, 1.1, fact("elbow_over_shoulder_strength"), "a number")
    assert_allclose(sm.rep(MEN, PULL, points=11, strength=given).largest_load_kg, weak)
    chin_up = sm.pulls["chin-up"]  # here it is the elbow that gives out
    usual, elbow = (sm.rep(MEN, chin_up, points=11, strength=some) for some in (given, replace(given, elbow=10.0)))
    assert elbow.whole_rep_load_kg > usual.whole_rep_load_kg + 1


@pytest.mark.parametrize(
    ("call", "field", "says"),
    [
        (lambda: sm.rep(MEN, PULL, balance="planes"), "balance", "balance 'planes' is not known; nearest: plane"),
        (lambda: sm.rep(MEN, PULL, side_force="gripped"), "side_force", "side_force 'gripped' is not known; nearest: grip"),
        (lambda: sm.rep(MEN, PULL, strength=0.0), "strength", r"strength = 0 is outside 0.01 to 30: 1 is the strength of the table's young adult"),
        (lambda: sm.rep(MEN, PULL, strength=31.0), "strength", "strong lifters have 2 to 5"),
        (lambda: sm.rep(MEN, PULL, strength="strong"), "strength", "strength = 'strong' is not a number"),
        (lambda: sm.Strength(1.0, 1.1, 2.0, 2.0, ""), "factor", "outside its own band; give low <= factor <= high"),
        (lambda: sm.Strength(1.0, 0.9, 0.95, 2.0, ""), "factor", "outside its own band"),
        (lambda: sm.Strength(1.0, 0.9, 1.1, -2.0, ""), "elbow", "elbow = -2 is outside 0.01"),
        (lambda: sm.Strength(1.0, np.nan, 1.1, 2.0, ""), "low", "low = nan"),
        (lambda: sm.sweep(MEN, PULL, side_force="none", load_kg=[1, 2]), "side_force", "choose from: zero, grip, free"),
    ],
)  # fmt: skip
def test_wrong_input_is_refused_by_name(call, field, says):
    with pytest.raises(InputError, match=says) as caught:
        call()
    assert caught.value.field == field


def test_a_power_that_cannot_be_is_refused():
    with pytest.raises(InputError, match=r"= 0\.5 is outside 1\.05 to 10: the power of the sharing rule"):
        sm.rep(MEN, PULL, power=0.5)


def test_the_band_of_a_capacity_has_the_value_inside_and_all_ends_in_it():
    strength = sm.Strength(2.0, 1.5, 3.0, 2.2, "")
    length = sm.rep(MEN, PULL, points=5).muscle_length.values
    low, high = capacity_band(length, strength)
    value = capacity(length, strength.factor)
    assert (low < value).all() and (value < high).all()
    lat = MUSCLES.index("latissimus dorsi middle")
    assert_allclose(low[:, lat] / value[:, lat], 1.9 / 3.0 * 23.1 / 26.8 * 1.5 / 2.0)
    assert_allclose(high[:, lat] / value[:, lat], 4.0 / 3.0 * 35.0 / 26.8 * 3.0 / 2.0)
