"""Crowds: page by page, conditional draws against the closed form, and nobody impossible."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from numpy.testing import assert_allclose

import shoulder_model as sm
from shoulder_model.inputs import InputError
from shoulder_model.people import MEASURES, conditional
from shoulder_model.people.crowd import PAGE

RUNA = {"stature": 1.68, "mass": 64.0}


def table(lifters):
    return np.array([np.atleast_1d(getattr(lifters, name)) for name in MEASURES])


@pytest.mark.parametrize("measured", [{}, RUNA])
def test_any_part_of_a_crowd_is_that_part_of_the_whole(measured):
    crowd = sm.Crowd(2 * PAGE + 10, "women", 3, measured)
    whole = table(crowd.lifters())
    for part in (
        slice(0, 1),
        slice(7, 14),
        slice(PAGE - 1, PAGE + 2),
        slice(PAGE, 2 * PAGE),
        slice(2 * PAGE + 3, None),
    ):
        assert np.array_equal(table(crowd.lifters(part)), whole[:, part])
        assert np.array_equal(crowd.deviates(part, "strength"), crowd.deviates(None, "strength")[part])
    assert np.array_equal(table(sm.draw_lifters(50, "women", 3, **measured)), whole[:, :50])
    assert not np.array_equal(crowd.deviates(None, "strength"), crowd.deviates(None, "something else"))


def test_the_ten_millionth_person_can_be_had_alone():
    far = sm.Crowd(10**9, "men", 1).lifters(slice(10**9 - 2, None))
    assert far.stature.shape == (2,) and 1.3 < far.stature.min()


@pytest.mark.parametrize("sex", sm.people.SEXES)
@pytest.mark.parametrize("measured", [RUNA, {"biacromial": 0.40, "chest_depth": 0.24, "waist_circumference": 0.9}])
def test_conditional_draws_follow_the_closed_form(sex, measured):
    """Mean and covariance of the rest, given what was measured, within five standard errors of 60,000 people."""
    n = 60_000
    crowd = sm.draw_lifters(n, sex, 11, **measured)
    for name, value in measured.items():
        assert np.all(getattr(crowd, name) == value)
    in_order = {name: measured[name] for name in sm.survey(sex).names if name in measured}
    names, mean, covariance = conditional(sex, in_order)
    drawn = np.array([getattr(crowd, name) for name in names])
    sds = np.sqrt(np.diag(covariance))
    assert np.all(np.abs(drawn.mean(axis=1) - mean) < 5 * sds / np.sqrt(n))
    correlation = covariance / np.outer(sds, sds)
    error = (1 + np.abs(correlation)) / np.sqrt(n)
    assert np.all(np.abs(np.cov(drawn) / np.outer(sds, sds) - correlation) < 5 * error)
    expected = sm.expected_measures(sex, **measured)
    assert_allclose([expected[name][0] for name in names], mean)
    assert_allclose([expected[name][1] for name in names], sds)


@pytest.mark.identity
def test_with_one_measure_known_the_rest_is_the_regression_on_it():
    people = sm.survey("women")
    i, k = people.names.index("biacromial"), people.names.index("stature")
    r = people.correlation[i, k]
    mean, sd = sm.expected_measures("women", stature=1.70)["biacromial"]
    assert_allclose(sd, people.sd[i] * np.sqrt(1 - r**2))
    assert_allclose(mean, people.mean[i] + r * people.sd[i] / people.sd[k] * (1.70 - people.mean[k]))


@settings(max_examples=60, deadline=None)
@given(
    st.sampled_from(sm.people.SEXES),
    st.integers(0, 2**40),
    st.dictionaries(st.sampled_from(MEASURES), st.floats(-4.5, 4.5), max_size=3),
)
def test_nobody_impossible_is_drawn(sex, seed, in_sd):
    people = sm.survey(sex)
    measured = {
        name: float(
            np.clip(people.mean_of(name) + z * people.sd_of(name), people.allowed(name).low, people.allowed(name).high)
        )
        for name, z in in_sd.items()
    }
    try:
        crowd = sm.draw_lifters(200, sex, seed, **measured)
    except InputError as refused:
        assert "go together" in str(refused) or "together" in str(refused)
        return
    for name in MEASURES:
        allowed, values = people.allowed(name), getattr(crowd, name)
        assert np.all((values >= allowed.low) & (values <= allowed.high)), name
    for length in (crowd.upper_arm, crowd.forearm, crowd.gh_breadth, crowd.chest_depth):
        assert np.all(length > 0)


@pytest.mark.parametrize("rows", [slice(5, 5), slice(0, 10, 2), slice(99, 120)])
def test_rows_that_are_none_are_refused(rows):
    with pytest.raises(InputError, match="rows"):
        sm.Crowd(50, "men", 1).lifters(rows)
