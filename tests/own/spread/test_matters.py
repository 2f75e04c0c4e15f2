"""Indices: a function with a known answer through the same path, and what has to hold for the model's."""

import numpy as np
import pytest
from numpy.testing import assert_allclose

import shoulder_model as sm
from shoulder_model.inputs import InputError
from shoulder_model.spread import SETS, indices, matters, names_of, number_of, what_matters
from shoulder_model.spread.matters import FIRST, SECOND

A, B = 7.0, 0.1


def ishigami(x):
    return np.sin(x[0]) + A * np.sin(x[1]) ** 2 + B * x[2] ** 4 * np.sin(x[0])


def closed_form():
    """First and total indices for independent inputs, uniform from -π to π, integrals worked out."""
    one = (1 + B * np.pi**4 / 5) ** 2 / 2
    two, both = A**2 / 8, B**2 * np.pi**8 * (1 / 18 - 1 / 50)
    whole = one + two + both
    return np.array([one, two, 0.0]) / whole, np.array([one + both, two, both]) / whole


@pytest.mark.identity
def test_the_closed_form_is_that_of_the_integrals():
    """By a fine grid: the function's variance and what is left of it when one input is known."""
    x = -np.pi + 2 * np.pi * (np.arange(80) + 0.5) / 80
    values = ishigami(np.meshgrid(x, x, x, indexing="ij"))
    first, total = closed_form()
    for axis in range(3):
        others = tuple(one for one in range(3) if one != axis)
        assert_allclose(values.mean(axis=others).var() / values.var(), first[axis], atol=2e-3)
        assert_allclose(values.var(axis=axis).mean() / values.var(), total[axis], atol=2e-3)


def test_a_function_with_known_indices_through_the_same_path(monkeypatch):
    """Ishigami's function, a = 7, b = 0.1 (its use as a test from memory); within 0.06, and inside wide intervals."""
    names, n = ("one", "two", "three"), 2048
    monkeypatch.setattr(matters, "SETS", {name: (name,) for name in names})
    values = np.random.default_rng(5).uniform(-np.pi, np.pi, (2 * n, 3))

    def answers(design):
        picked = [[number_of(case, design, name, n) for case in range(n)] for name in names]
        return ishigami([values[numbers, k] for k, numbers in enumerate(picked)])

    found = indices(np.array([answers(design) for design in (FIRST, SECOND, *names)])[..., None], names)
    for kind, wanted in zip(("first", "total"), closed_form(), strict=True):
        assert_allclose(found[kind].values[:, 0], wanted, atol=0.06, err_msg=kind)
        band = found[f"{kind}_band"].values[:, 0]
        assert np.all((band[:, 0] - 0.03 < wanted) & (wanted < band[:, 1] + 0.03))


def test_a_design_takes_from_the_second_half_what_it_names():
    assert number_of(3, FIRST, "landmarks", 8) == 3 and number_of(3, SECOND, "landmarks", 8) == 11
    assert number_of(3, "landmarks", "landmarks", 8) == 11 and number_of(3, "landmarks", "trunk lean", 8) == 3
    assert number_of(3, "people", "strength", 8) == 11 and number_of(3, "people", "landmarks", 8) == 3
    assert set(SETS) == {*names_of(), "people", "not known"}


@pytest.fixture(scope="module")
def men():
    answers = ["whole_rep_load_kg", "most_shoulder_torque", "best_grip_by_most_shoulder_torque"]
    return what_matters(
        sm.Crowd(1, "men", 1), sm.pulls["front pulldown"], answers=answers, grip_ratio=[1.0, 1.5], n=16, points=5, progress=False,
    )  # fmt: skip


def test_what_cannot_matter_does_not(men):
    """Muscles do not change what a load asks; with an anchored strength specific tension cancels."""
    torque = men.sel(answer="most_shoulder_torque")
    for name in (
        "strength",
        "landmarks",
        "muscle sizes",
        "fibre lengths",
        "specific tension",
        "scapular rhythm",
        "grip friction",
    ):
        assert float(torque.total.sel(input=name)) == 0.0 and float(torque.first.sel(input=name)) == 0.0
    assert float(men.total.sel(input="specific tension", answer="whole_rep_load_kg")) == 0.0
    assert float(men.total.sel(input="strength", answer="whole_rep_load_kg")) > 0.2


def test_cases_are_told_with_their_spread_and_units(men):
    load = men.sel(answer="whole_rep_load_kg")
    assert load.unit == "kg" and load.low < load["mean"] < load.high and load.sd > 0
    known = np.clip(load.first.values, 0, 1)
    assert_allclose(load.narrower.values, 1 - np.sqrt(1 - known))


@pytest.mark.parametrize(
    ("changed", "said"),
    [
        ({"n": 100}, "no power of 2"),
        ({"answers": "best_grip_by_lat_share"}, "several grips"),
        ({"crowd": sm.Lifter.average("men")}, "crowd"),
        ({"pull": sm.pulls["front pulldown"].change(touch_forward=0.59), "answers": "force", "n": 8}, "cannot reach"),
    ],
)
def test_wrong_calls_are_refused(changed, said):
    asked = {"crowd": sm.Crowd(1, "men", 1), "pull": sm.pulls["front pulldown"], "progress": False} | changed
    with pytest.raises(InputError, match=said):
        what_matters(**asked)
