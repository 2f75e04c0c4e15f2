"""Sharing and the largest load against general-purpose optimizers, on postures of the real model and random tables."""

from dataclasses import dataclass, replace
from functools import cache
from itertools import combinations
from unittest import mock

import numpy as np
import pytest
from numpy.testing import assert_allclose
from scipy.optimize import linprog, minimize

import shoulder_model as sm
from shoulder_model.inputs import InputError
from shoulder_model.repetition import supply
from shoulder_model.repetition.balance import BALANCES, PASSIVE
from shoulder_model.repetition.supply import effort_and_limit
from shoulder_model.sharing import facet_walk, largest_load, least_effort
from shoulder_model.sharing.facet_walk import boxed_programme
from shoulder_model.sharing.largest_load import BLOCK
from shoulder_model.sources import fact

REPS, POINTS = 50, 5  # for each balance: 2 x 50 x 5 = 500 postures in all
SIDES = ("zero", "grip", "free")


@dataclass(frozen=True)
class Cases:
    """Tables that the model itself hands on: columns (n, k, m); held, load, side (n, k); friction [N per kg] (n, 1)."""

    columns: np.ndarray
    held: np.ndarray
    load: np.ndarray
    side: np.ndarray
    per_kg: np.ndarray

    def __len__(self):
        return len(self.held)

    def part(self, at):
        return Cases(*(getattr(self, name)[at] for name in ("columns", "held", "load", "side", "per_kg")))


def random_pull(random):
    """Any pull of the catalogue, changed in everything that moves the posture."""
    pull = random.choice(list(sm.pulls.values()))
    change = {
        "room_angle": np.clip(pull.room_angle + random.uniform(-0.4, 0.4), 0, np.pi),
        "trunk_lean": np.clip(pull.trunk_lean + random.uniform(-0.4, 0.4), -1.5, 1.5),
        "hand_turn": str(random.choice(["pronated", "neutral", "supinated"])),
        "grip_ratio": random.uniform(0.3, 2.2),
        "elbow_cue": random.uniform(-0.5, 0.5),
    }
    return pull.change(**change) if pull.path == "line" else pull.change(hand_turn=change["hand_turn"])


@cache
def model_cases(balance, reps=REPS, seed=5):
    """What reps of random lifters and pulls hand to the solver."""
    random, tables = np.random.default_rng(seed), []

    def keep(balance, kg, *, newtons_per_kg, **more):
        friction = np.full((len(kg), 1), fact("grip_friction") * newtons_per_kg)
        tables.append((balance.columns, balance.unloaded, balance.per_kg, balance.per_side_newton, friction))
        return effort_and_limit(balance, kg, newtons_per_kg=newtons_per_kg, **more)

    crowd = {sex: sm.draw_lifters(reps, sex, seed=seed) for sex in ("men", "women")}
    with mock.patch.object(supply, "effort_and_limit", keep):
        while len(tables) < reps:
            sex = str(random.choice(["men", "women"]))
            measures = {name: getattr(crowd[sex], name)[len(tables)] for name in sm.people.MEASURES}
            try:
                sm.rep(sm.Lifter(sex, **measures), random_pull(random), points=POINTS, balance=balance)
            except InputError:  # out of reach
                continue
    return Cases(*(np.concatenate(parts) for parts in zip(*tables, strict=True)))


@cache
def random_cases(n=200, k=3, m=9, seed=8, holdable=True):
    """Tables without any anatomy; ``holdable`` ones can all be held without a load."""
    random = np.random.default_rng(seed)
    columns = random.normal(0, 20, (n, k, m)) * random.uniform(0.05, 3, (n, 1, m))
    easy = (columns @ random.uniform(0, 0.4, (n, m, 1)))[..., 0]
    return Cases(
        columns=columns,
        held=easy if holdable else random.normal(0, 40, (n, k)),
        load=random.normal(0, 2, (n, k)),
        side=random.normal(0, 0.3, (n, k)),
        per_kg=random.uniform(0.5, 3, (n, 1)),
    )


def at_effort(cases, low, high, seed=3):
    """Torques asked at a random share of the largest load, of the cases that hold the arm without a load too.

    (Where only a load can hold the arm up, small loads are as impossible as large ones.)
    """
    most = largest_load(cases.columns, cases.held, cases.load).load
    arm = largest_load(cases.columns, 0 * cases.held, cases.held, most=1.0).load
    kept = np.isfinite(most) & (most > 0.1) & (arm > 1 - 1e-9)
    cases, most = cases.part(kept), most[kept]
    kg = np.random.default_rng(seed).uniform(low, high, len(cases)) * most
    return cases, kg, cases.held + kg[:, None] * cases.load


def reference_sharing(columns, torque, p=2.0, weight=None):
    """Activations by sequential quadratic programming with exact derivatives.

    Counted in a rough size of the activations: the optimizer stops at absolute differences.
    """
    m, size = columns.shape[1], np.abs(torque).max()
    weight = np.ones(m) if weight is None else weight / weight.mean()
    unit = np.clip(np.abs(np.linalg.lstsq(columns, torque)[0]).max(), 1e-6, 1.0)
    balance = {
        "type": "eq",
        "fun": lambda a: (unit * columns @ a - torque) / size,
        "jac": lambda a: unit * columns / size,
    }
    found = minimize(
        lambda a: weight @ a**p, np.full(m, 0.3), jac=lambda a: p * weight * a ** (p - 1), bounds=[(0, 1 / unit)] * m,
        constraints=balance, method="SLSQP", options={"ftol": 1e-16, "maxiter": 500},
    )  # fmt: skip
    assert np.abs(balance["fun"](found.x)).max() < 1e-8  # the reference stops here; what it is compared by is coarser
    return unit * found.x


def optimality(columns, torque, activation, multiplier, p=2.0, weight=None):
    """How far from optimal: worst imbalance over the torque, worst natural residual of stationarity."""
    weight = np.ones(activation.shape[1]) if weight is None else weight / weight.mean()
    missing = torque - np.einsum("nkm,nm->nk", columns, activation)
    slope = p * weight * activation ** (p - 1) - np.einsum("nk,nkm->nm", multiplier, columns)
    scale = np.maximum(1.0, p * weight)  # so that a step of the residual is at most a change of the activation
    off = activation - np.clip(activation - slope / scale, 0.0, 1.0)
    return (np.abs(missing).max(axis=1) / np.abs(torque).max(axis=1)).max(), np.abs(off).max()


def lp_largest(columns, held, load, side=None, per_load=None):
    """The largest load by HiGHS, NaN where there is none; a side force either free or bounded by ``per_load``."""
    m = columns.shape[1]
    worth, bounds = np.r_[np.zeros(m), -1.0], [(0, 1)] * m + [(0, None)]
    table, limits = np.c_[columns, -load], {}
    if side is not None:
        worth, bounds, table = np.r_[worth, 0.0], [*bounds, (None, None)], np.c_[table, -side]
        if per_load is not None:
            lean = np.zeros((2, m + 2))
            lean[:, m], lean[:, m + 1] = -per_load, (1, -1)
            limits = {"A_ub": lean, "b_ub": np.zeros(2)}
    found = linprog(worth, A_eq=table, b_eq=held, bounds=bounds, method="highs", **limits)
    return -found.fun if found.status == 0 else np.nan


# ---------------------------------------------------------------- sharing


@pytest.mark.identity
@pytest.mark.parametrize("balance", [*BALANCES, "random tables"])
def test_activations_are_those_of_a_general_optimizer(balance):
    cases, _, torque = at_effort(random_cases() if balance == "random tables" else model_cases(balance), 0.05, 0.98)
    assert len(cases) > 150
    found = least_effort(cases.columns, torque)
    assert not found.shortfall.any()
    for columns, asked, activation in zip(cases.columns, torque, found.activation, strict=True):
        expected = reference_sharing(columns, asked)
        assert activation @ activation == pytest.approx(expected @ expected, rel=1e-6)
        assert_allclose(activation, expected, rtol=0, atol=1e-6 * activation.max())


@pytest.mark.identity
@pytest.mark.parametrize("balance", [*BALANCES, "random tables"])
@pytest.mark.parametrize("weighted", [False, True])
@pytest.mark.parametrize(
    ("p", "allowed"),
    [(2.0, 1e-8), (1.5, 1e-6), (3.0, 1e-6), (5.0, 1e-6)],
)
def test_nothing_better_exists_nearby(balance, p, allowed, weighted):
    """The conditions that hold at the one minimum of a convex problem and nowhere else."""
    cases, _, torque = at_effort(random_cases() if balance == "random tables" else model_cases(balance), 0.05, 0.98)
    weight = np.random.default_rng(2).uniform(1.9, 26.3, cases.columns.shape[2]) if weighted else None
    found = least_effort(cases.columns, torque, power=p, weight=weight)
    assert not found.shortfall.any()
    assert found.activation.min() >= 0 and found.activation.max() <= 1 + (0 if p == 2 else 1e-12)
    imbalance, slope = optimality(cases.columns, torque, found.activation, found.multiplier, p, weight)
    assert imbalance < allowed and slope < allowed, (imbalance, slope)


@pytest.mark.identity
@pytest.mark.parametrize("balance", BALANCES)
@pytest.mark.parametrize("p", [1.5, 3.0, 5.0])
def test_other_powers_cost_what_a_general_optimizer_finds(balance, p):
    cases, _, torque = at_effort(model_cases(balance), 0.05, 0.98)
    cases, torque = cases.part(slice(None, None, 6)), torque[::6]
    found = least_effort(cases.columns, torque, power=p).activation
    for columns, asked, activation in zip(cases.columns, torque, found, strict=True):
        expected = reference_sharing(columns, asked, p)
        assert (activation**p).sum() == pytest.approx((expected**p).sum(), rel=1e-6)


@pytest.mark.identity
@pytest.mark.parametrize("balance", [*BALANCES, "random tables"])
def test_what_cannot_be_held_is_missing_by_what_a_linear_programme_says(balance):
    cases, _, torque = at_effort(random_cases() if balance == "random tables" else model_cases(balance), 1.001, 1.6)
    found = least_effort(cases.columns, torque)
    short = found.shortfall > 0
    assert short.all()
    assert np.all((found.activation >= 0) & (found.activation <= 1))
    reached = np.einsum("nkm,nm->nk", cases.columns, found.activation)
    assert_allclose(reached, (1 - found.shortfall)[:, None] * torque, rtol=0, atol=1e-9 * np.abs(torque).max())
    for i in np.flatnonzero(short)[::2]:
        share_held = lp_largest(cases.columns[i], np.zeros(torque.shape[1]), torque[i])
        assert found.shortfall[i] == pytest.approx(1 - share_held, rel=1e-6, abs=1e-12)


@pytest.mark.identity
def test_a_free_side_force_is_the_best_there_is():
    cases, _, torque = at_effort(model_cases("plane"), 0.1, 0.9)
    cases, torque = cases.part(slice(None, None, 4)), torque[::4]
    none = least_effort(cases.columns, torque)
    free = least_effort(cases.columns, torque, side=cases.side)
    tight = least_effort(cases.columns, torque, side=cases.side, side_limit=0.5 * np.abs(free.side_force))
    cost = [(found.activation**2).sum(axis=1) for found in (free, tight, none)]
    assert np.all(cost[0] <= cost[1] * (1 + 1e-9)) and np.all(cost[1] <= cost[2] * (1 + 1e-9))
    assert (cost[0] < 0.99 * cost[2]).mean() > 0.5
    assert_allclose(np.abs(tight.side_force), 0.5 * np.abs(free.side_force), rtol=1e-9)
    for found in (free, tight):
        asked = torque + found.side_force[:, None] * cases.side
        assert_allclose(np.einsum("nkm,nm->nk", cases.columns, found.activation), asked, atol=1e-6)
        for columns, t, activation in list(zip(cases.columns, asked, found.activation, strict=True))[::4]:
            assert_allclose(activation, reference_sharing(columns, t), atol=1e-6)
    assert_allclose(
        np.einsum("nk,nk->n", free.multiplier, cases.side), 0.0, atol=1e-9
    )  # no side force would be worth more


@pytest.mark.identity
def test_the_answer_does_not_depend_on_how_the_table_is_written():
    cases, _, torque = at_effort(random_cases(), 0.2, 0.9)
    random = np.random.default_rng(1)
    order = random.permutation(cases.columns.shape[2])
    turn = np.linalg.qr(random.normal(size=(3, 3)))[0] * [[2.0], [-1.0], [0.3]]  # other axes, other units, mirrored
    plain = least_effort(cases.columns, torque).activation
    turned = least_effort(turn @ cases.columns[:, :, order], torque @ turn.T).activation
    assert_allclose(turned, plain[:, order], atol=1e-8)
    twice = least_effort(np.concatenate([cases.columns / 2] * 2, axis=2), torque, weight=np.full(2 * len(order), 0.5))
    assert_allclose(twice.activation, np.concatenate([plain, plain], axis=1), atol=1e-8)  # cut in half, counted by size


def test_a_large_power_spreads_the_work_and_a_small_one_does_not():
    cases, _, torque = at_effort(model_cases("plane"), 0.3, 0.6)
    top = [least_effort(cases.columns, torque, power=p).activation.max(axis=1).mean() for p in (1.2, 2.0, 4.0)]
    assert top[0] > top[1] > top[2]


def test_nothing_asked_is_nothing_done():
    cases = random_cases()
    found = least_effort(cases.columns, 0 * cases.held)
    assert not found.activation.any() and not found.shortfall.any()
    empty = least_effort(cases.columns[:0], cases.held[:0])
    assert empty.activation.shape == (0, 9)


@pytest.mark.identity
def test_blocks_change_nothing():
    cases, _, torque = at_effort(random_cases(BLOCK + 40), 0.2, 1.3)
    assert len(cases) > BLOCK
    many = least_effort(cases.columns, torque)
    for i in (0, BLOCK - 1, BLOCK, len(cases) - 1):
        one = least_effort(cases.columns[i : i + 1], torque[i : i + 1])
        assert_allclose(one.activation[0], many.activation[i], atol=1e-9)
        assert one.shortfall[0] == pytest.approx(many.shortfall[i], abs=1e-9)


@pytest.mark.parametrize(
    ("p", "says"),
    [(1.0, "power = 1 is outside 1.05 to 10: the power of the sharing rule; 2 is usual"), (11, "power = 11 is outside 1.05 to 10"),
     (float("nan"), "power = nan is outside"), ("two", "power = 'two' is not a number")],
)  # fmt: skip
def test_wrong_powers_are_refused_by_name(p, says):
    with pytest.raises(InputError, match=says) as caught:
        least_effort(random_cases().columns, random_cases().held, power=p)
    assert caught.value.field == "power"


@pytest.mark.identity
def test_the_largest_power_balances_up_to_the_largest_load():
    cases, _, torque = at_effort(model_cases("plane"), 0.98, 0.99999)
    found = least_effort(cases.columns, torque, power=10.0)
    assert optimality(cases.columns, torque, found.activation, found.multiplier, 10.0)[0] < 1e-6


# ---------------------------------------------------------------- largest load


@pytest.mark.identity
@pytest.mark.parametrize("side_force", SIDES)
@pytest.mark.parametrize("table", [*BALANCES, "random tables", "random, often impossible"])
def test_largest_load_is_that_of_a_linear_programme(table, side_force):
    cases = {
        "random tables": random_cases(),
        "random, often impossible": random_cases(100, holdable=False, seed=4),
    }.get(table) or model_cases(table)
    side = None if side_force == "zero" else cases.side
    per_kg = cases.per_kg if side_force == "grip" else None
    found = largest_load(cases.columns, cases.held, cases.load, side=side, side_limit=per_kg)
    expected = np.array(
        [
            lp_largest(columns, held, load, None if side is None else aside, None if per_kg is None else float(lean[0]))
            for columns, held, load, aside, lean in zip(
                cases.columns, cases.held, cases.load, cases.side, cases.per_kg, strict=True
            )
        ]
    )
    assert np.array_equal(np.isnan(found.load), np.isnan(expected))
    assert_allclose(found.load, expected, rtol=1e-6, atol=1e-9)
    if table == "random, often impossible":
        assert 20 < np.isnan(expected).sum() < 80  # both kinds are there
    held = np.isfinite(found.load)
    asked = cases.held + np.where(held, found.load, 0)[:, None] * cases.load + found.side_force[:, None] * cases.side
    off = np.einsum("nkm,nm->nk", cases.columns, found.activation) - asked
    assert np.abs(off[held]).max() < 1e-7  # the side force counted from a million newtons costs digits
    if side_force == "grip":
        assert np.all(np.abs(found.side_force[held]) <= cases.per_kg[held, 0] * found.load[held] + 1e-9)


@pytest.mark.identity
@pytest.mark.parametrize("side_force", ["zero", "free"])
@pytest.mark.parametrize("balance", BALANCES)
def test_what_fully_active_muscles_add_makes_up_the_load(balance, side_force):
    cases = model_cases(balance)
    found = largest_load(cases.columns, cases.held, cases.load, side=cases.side if side_force == "free" else None)
    held = np.isfinite(found.load)
    arm = np.einsum("nk,nk->n", found.normal, cases.held)
    atol = 1e-9 if side_force == "zero" else 1e-6
    assert_allclose((found.adds.sum(axis=1) - arm)[held], found.load[held], rtol=1e-9, atol=atol)
    assert_allclose(np.einsum("nk,nk->n", found.normal, cases.load)[held], 1.0, rtol=1e-12)
    counts = found.adds[held] > 1e-9 * found.load[held, None]
    assert found.activation[held][counts].min() > 1 - 1e-9
    price = np.einsum("nk,nkm->nm", found.normal, cases.columns)[held]
    assert found.activation[held][price < -1e-9 * found.load[held, None]].max() < 1e-9  # what pulls back is at rest
    between = (found.activation[held] > 1e-6) & (found.activation[held] < 1 - 1e-6)
    assert between.sum(axis=1).max() <= cases.columns.shape[1] - 1  # a facet leaves that many free


@pytest.mark.identity
@pytest.mark.parametrize(
    "side_force",
    SIDES,
)
def test_the_normal_is_the_load_s_change_per_newton_metre(side_force):
    cases = random_cases()
    side = None if side_force == "zero" else cases.side
    per_kg = cases.per_kg if side_force == "grip" else None
    found = largest_load(cases.columns, cases.held, cases.load, side=side, side_limit=per_kg)
    slight = 1e-4 * np.random.default_rng(6).normal(size=cases.held.shape)
    again = largest_load(cases.columns, cases.held + slight, cases.load, side=side, side_limit=per_kg)
    change = -np.einsum("nk,nk->n", found.normal, slight)
    close = np.isclose(again.load - found.load, change, rtol=1e-3, atol=1e-8)
    assert close.mean() > 0.97  # the others lie next to an edge


@pytest.mark.identity
@pytest.mark.parametrize("side_force", SIDES)
def test_twice_the_muscles_hold_twice_the_load(side_force):
    cases = model_cases("all axes")
    side = None if side_force == "zero" else cases.side
    per_kg = cases.per_kg if side_force == "grip" else None
    once, twice = (
        largest_load(k * cases.columns, 0 * cases.held, cases.load, side=side, side_limit=per_kg).load for k in (1, 2)
    )
    assert_allclose(twice, 2 * once, rtol=1e-9)
    assert np.median(once) > 1


def zonotope_largest(columns, held, load):
    """Where the load's ray leaves the zonotope, by trying the normal of every pair of columns."""
    best = np.inf
    for i, j in combinations(range(columns.shape[1]), 2):
        normal = np.cross(columns[:, i], columns[:, j])
        for out in (normal, -normal):
            if out @ load > 1e-12 * np.linalg.norm(out) * np.linalg.norm(load):
                support = np.maximum(out @ columns, 0.0).sum()
                best = min(best, (support - out @ held) / (out @ load))
    return best


@pytest.mark.identity
@pytest.mark.parametrize("table", ["shoulder", "random tables"])
def test_largest_load_of_three_torques_against_all_facets(table):
    if table == "shoulder":
        cases = model_cases("all axes").part(slice(None, None, 6))
        cases = replace(  # the shoulder alone: three torques of the muscles that cross it
            cases, columns=cases.columns[:, :3, :17], held=cases.held[:, :3], load=cases.load[:, :3]
        )
    else:
        cases = random_cases().part(slice(0, 40))
    found = largest_load(cases.columns, cases.held, cases.load)
    expected = np.array(list(map(zonotope_largest, cases.columns, cases.held, cases.load)))
    assert len(expected) >= 40 and np.isfinite(expected).all()
    assert_allclose(found.load, expected, rtol=1e-9)


@pytest.mark.identity
def test_the_boxed_programme_itself():
    random = np.random.default_rng(12)
    table, target = random.normal(size=(60, 3, 8)), random.normal(0, 0.8, (60, 3))
    worth, room = random.normal(size=8), random.uniform(0.2, 1.5, 8)
    x, u, found = boxed_programme(table, target, worth, room)
    for i in range(60):
        expected = linprog(-worth, A_eq=table[i], b_eq=target[i], bounds=[(0, high) for high in room], method="highs")
        assert found[i] == (expected.status == 0)
        if found[i]:
            assert worth @ x[i] == pytest.approx(-expected.fun, rel=1e-9, abs=1e-9)
            assert_allclose(table[i] @ x[i], target[i], atol=1e-9)
            dual = np.maximum(worth + u[i] @ table[i], 0) @ room - u[i] @ target[i]
            assert dual == pytest.approx(worth @ x[i], rel=1e-9, abs=1e-9)
    assert 0.2 < found.mean() < 0.99


def test_the_girdle_rests_on_more_than_muscles_can_press():
    columns = model_cases("plane").columns
    assert np.maximum(columns[:, -1, :-1], 0).sum(axis=1).max() < PASSIVE
    assert np.all(columns[:, -1, -1] == -PASSIVE) and not columns[:, :-1, -1].any()


@pytest.mark.identity
def test_a_walk_that_does_not_end_is_finished_by_another_solver(monkeypatch):
    cases = random_cases(60, holdable=False, seed=4)
    walked = largest_load(cases.columns, cases.held, cases.load)
    monkeypatch.setattr(facet_walk, "MOST_STEPS", 1)
    other = largest_load(cases.columns, cases.held, cases.load)
    assert np.isnan(walked.load).any() and np.isfinite(walked.load).any()
    for name in ("load", "normal", "adds", "activation"):
        held = np.isfinite(walked.load)
        assert_allclose(getattr(other, name)[held], getattr(walked, name)[held], rtol=1e-7, atol=1e-9)
    np.testing.assert_array_equal(np.isnan(other.load), np.isnan(walked.load))


def test_no_posture_of_the_pull_up_is_lost_to_a_walk_in_a_circle():
    """A pull-up whose facets tie: the walk went round and the load came out as if nothing could be held."""
    rng = np.random.default_rng(5)
    grips = np.sort(rng.uniform(0.3, 2.2, 400))
    grid = sm.sweep(
        sm.Lifter.average("men"),
        sm.pulls["pull-up"],
        points=21,
        grip_ratio=grips,
        balance="all axes",
        side_force="grip",
        work=True,
    )
    assert not grid.largest_load_kg.isnull().any()
