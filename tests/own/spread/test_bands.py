"""Bands hold the share of answers that they say, on truth that is simulated."""

import numpy as np
import pytest
from numpy.testing import assert_allclose

import shoulder_model as sm
from shoulder_model.inputs import InputError
from shoulder_model.spread import LEVEL, band_of, drawn_inputs, drawn_strength, spread_of

PULL = sm.pulls["front pulldown"]


def torque(lifter, drawn):
    return sm.sweep(lifter, drawn.pull(PULL), grip_ratio=[1.0, 2.0], points=5, muscles=False).shoulder_torque.values[
        ..., -1, 1
    ]


def cover(truths, band):
    return np.mean((truths >= band.low) & (truths <= band.high), axis=0)


def sampling_error(level, truths, drawn):
    """Five standard errors of a coverage: of the truths counted, and of the band's ends, which are drawn too."""
    return 5 * np.sqrt(level * (1 - level) * (1 / truths + 1 / drawn))


@pytest.mark.parametrize("level", [0.5, 0.8, LEVEL])
def test_the_people_band_holds_that_share_of_other_people(level):
    crowd, others = (sm.draw_lifters(2000, "women", seed, stature=1.70) for seed in (1, 2))
    person = sm.Lifter.from_measures("women", stature=1.70)
    found = spread_of(torque, person, crowd, drawn_inputs(5, 1), level=level)
    truths = torque(others, sm.spread.as_tabled())
    assert_allclose(cover(truths, found.people), level, atol=sampling_error(level, 2000, 2000))
    assert_allclose(found.value, torque(person, sm.spread.as_tabled()))


@pytest.mark.parametrize("level", [0.5, LEVEL])
def test_the_other_band_holds_that_share_of_other_draws(level):
    person, crowd = sm.Lifter.average("men"), sm.draw_lifters(20, "men", 1)
    found = spread_of(torque, person, crowd, drawn_inputs(200, 1), level=level)
    truths = np.array([torque(person, one) for one in drawn_inputs(200, 2)])
    assert_allclose(cover(truths, found.unknown), level, atol=sampling_error(level, 200, 200))


def test_a_tape_makes_the_people_band_narrower_and_leaves_the_other():
    drawn, sex = drawn_inputs(60, 3), "women"
    whole, tall = (
        spread_of(torque, sm.Lifter.from_measures(sex, **measured), sm.draw_lifters(1000, sex, 1, **measured), drawn)
        for measured in ({}, {"biacromial": 0.365, "chest_depth": 0.247, "stature": 1.63})
    )
    assert np.all(tall.people.width < 0.75 * whole.people.width)
    assert_allclose(tall.unknown.width, whole.unknown.width, rtol=0.1)


def test_strength_is_in_the_band_of_loads():
    crowd = sm.draw_lifters(400, "men", 1)
    strength = drawn_strength(crowd, 1)
    weak, strong = (
        sm.rep(crowd, PULL, points=5, strength=one).whole_rep_load_kg.values
        for one in (sm.expected_strength(crowd), strength)
    )
    assert band_of(strong).width > 1.2 * band_of(weak).width


def test_answers_that_are_missing_are_left_out():
    answers = np.array([[1.0, np.nan], [2.0, np.nan], [np.nan, np.nan], [3.0, np.nan]])
    band = band_of(answers, 0.5)
    assert_allclose([band.low[0], band.high[0]], np.percentile([1.0, 2.0, 3.0], [25, 75]))
    assert np.isnan(band.low[1]) and np.isnan(band.high[1])
    with pytest.raises(InputError, match="answers"):
        band_of(3.0)
