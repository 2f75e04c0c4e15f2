import numpy as np
import pytest

import shoulder_model as sm
from shoulder_model.inputs import InputError
from shoulder_model.muscles import Strength, expected_strength
from shoulder_model.repetition.balance import BALANCES

MEN = sm.Lifter.average("men")


def held(pull, first=8, **options):
    return float(sm.rep(MEN, pull, **options).largest_load_kg[first:].min())


@pytest.mark.identity
@pytest.mark.parametrize("name", ["front pulldown", "seated row close", "one-arm row"])
def test_the_span_is_that_of_the_reps_one_by_one(name):
    pull, known = sm.pulls[name], expected_strength(MEN)
    found = sm.load_span(MEN, pull)
    assert found.value == pytest.approx(held(pull), rel=1e-9)
    every = {
        (balance, first, factor): held(
            pull, first, balance=balance, strength=Strength(factor, factor, factor, known.elbow, "")
        )
        for balance in BALANCES
        for first in (0, 4, 8, 12)
        for factor in (known.factor, known.low, known.high)
    }
    assert (found.low, found.high) == pytest.approx((min(every.values()), max(every.values())), rel=1e-9)
    alone = {
        "balance": [every[balance, 8, known.factor] for balance in BALANCES],
        "counted part": [every["plane", first, known.factor] for first in (0, 4, 8, 12)],
        "strength": [every["plane", 8, factor] for factor in (known.low, known.high)],
    }
    for what, loads in alone.items():
        assert found.by[what] == pytest.approx((min(loads), max(loads)), rel=1e-9)


def test_options_reach_the_span():
    pull = sm.pulls["front pulldown"]
    other = sm.load_span(MEN, pull, balance="all axes", side_force="zero", points=21)
    assert other.value == pytest.approx(held(pull, 4, balance="all axes", side_force="zero", points=21), rel=1e-9)
    exact = sm.load_span(MEN, pull, strength=2.0)
    assert exact.by["strength"] == (exact.value, exact.value) and exact.low < exact.value


def test_where_not_even_the_arm_is_held_there_is_no_load():
    assert np.isnan(sm.load_span(MEN, sm.pulls["one-arm row"], strength=0.01).value)


def test_a_crowd_has_no_span():
    with pytest.raises(InputError, match="the span of a load is for one person"):
        sm.load_span(sm.draw_lifters(2, "men", seed=1), sm.pulls["pull-up"])
