"""Counts: quantiles within their stated error, the same whatever was added first, and more of them merge."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from numpy.testing import assert_allclose

from shoulder_model.spread.tally import ERROR, Tally

SHARES = [0.01, 0.05, 0.25, 0.5, 0.75, 0.95, 0.99]


def counted(values, grain=1e-3):
    tally = Tally.empty(values.shape[1], grain)
    tally.add(values)
    return tally


@settings(max_examples=60, deadline=None)
@given(
    st.lists(st.floats(-1e5, 1e5) | st.floats(-1e-2, 1e-2), min_size=1, max_size=60),
    st.sampled_from([1e-3, 0.01, 1.0]),
)
def test_a_quantile_is_one_of_the_answers_within_the_stated_error(values, grain):
    column = np.array(values)[:, None]
    found = counted(column, grain).quantiles(SHARES)[0]
    exact = np.sort(values)[np.maximum(1, np.ceil(np.array(SHARES) * len(values))).astype(int) - 1]
    reached = np.clip(exact, -1e6 * grain, 1e6 * grain)
    assert np.all(np.abs(found - reached) <= 1.01 * ERROR * np.hypot(reached, grain))


def test_the_share_below_a_quantile_is_that_share():
    values = np.random.default_rng(3).gamma(2.0, 20.0, (50_000, 2))
    found = counted(values).quantiles(SHARES)
    for cell in range(2):
        assert_allclose(
            [(values[:, cell] <= one).mean() for one in found[cell]], SHARES, atol=4 * 0.5 / np.sqrt(50_000) + ERROR
        )


def test_parts_add_up_to_the_whole_in_any_order():
    values = np.random.default_rng(1).normal(0, 5, (999, 4))
    values[5, 2] = np.nan
    whole, parts = counted(values), [counted(part) for part in np.array_split(values, 7)]
    added = Tally.empty(4, 1e-3)
    for part in parts[::-1]:
        added.merge(part)
    assert np.array_equal(whole.counts, added.counts) and np.array_equal(whole.missing, added.missing)
    assert whole.missing.tolist() == [0, 0, 1, 0] and np.all(whole.counts.sum(axis=1) + whole.missing == 999)


def test_a_part_is_added_where_it_belongs():
    tally = Tally.empty(5, 0.01)
    tally.part(slice(2, 4)).add(np.array([[1.0, np.nan], [3.0, 4.0]]))
    assert tally.counts.sum(axis=1).tolist() == [0, 0, 2, 1, 0] and tally.missing.tolist() == [0, 0, 0, 1, 0]
    assert np.isnan(tally.quantiles([0.5])[0, 0])


@pytest.mark.parametrize("value", [0.0, -0.0, 5e-324, 1e300, -1e300])
def test_what_is_off_the_scale_stays_at_its_end(value):
    found = counted(np.array([[value]])).quantiles([0.5])[0, 0]
    assert abs(found) <= 1e3 * (1 + 2 * ERROR) and np.sign(np.round(found, 3)) == np.sign(np.round(value, 3))
