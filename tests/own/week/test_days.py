"""Days of a real week, and which pull is on which of them."""

import itertools

import numpy as np
import pytest
from hypothesis import given as over
from hypothesis import settings
from hypothesis import strategies as st

from shoulder_model.week.days import WEEKDAYS, deal, running, weekdays


@pytest.mark.parametrize("count", range(1, 7))
def test_no_days_leave_shorter_runs(count):
    shortest = min(running(days) for days in itertools.combinations(range(7), count))
    assert running(weekdays(count)) <= max(shortest, 2) and len(set(weekdays(count))) == count


@pytest.mark.parametrize("count", range(1, 5))
def test_up_to_four_days_leave_the_weekend_free_and_never_three_running(count):
    assert running(weekdays(count)) <= 2
    assert all(WEEKDAYS[day] not in ("Saturday", "Sunday") for day in weekdays(count))


def test_the_week_goes_round():
    assert running((0, 5, 6)) == 3 and running(range(7)) == 7 and running((0, 2, 4)) == 1


small = st.lists(st.integers(0, 3), min_size=1, max_size=4)


@settings(max_examples=60, deadline=None)
@over(visits=small, days=st.integers(1, 6), extra=st.integers(0, 2))
def test_every_set_is_dealt_once_and_days_are_even(visits, days, extra):
    visits = np.minimum(visits, days)
    sets = visits * 2 + extra * (visits > 0)
    dealt = deal(visits, sets, days)
    assert (dealt.sum(axis=1) == sets).all() and ((dealt > 0).sum(axis=1) == visits).all()
    a_day = (dealt > 0).sum(axis=0)
    assert a_day.max() - a_day.min() <= 1
    for each in dealt:
        there = each[each > 0]
        assert not len(there) or there.max() - there.min() <= 1


def test_two_visits_have_days_between_and_three_are_not_running():
    dealt = deal([2], [4], 5)
    on = [weekdays(5)[day] for day in np.flatnonzero(dealt[0])]
    assert min((on[1] - on[0]) % 7, (on[0] - on[1]) % 7) > 1
    dealt = deal([3, 3], [6, 6], 5)
    for each in dealt:
        on = [weekdays(5)[day] for day in np.flatnonzero(each)]
        assert running(on) < 3


def test_a_day_has_a_pulldown_and_a_row_where_it_can():
    dealt = deal([2, 2, 2, 2], [4, 4, 4, 4], 4, [True, True, False, False])
    for day in dealt.T > 0:
        assert day[:2].any() and day[2:].any()
