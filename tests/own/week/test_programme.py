"""The programme against every week tried in plain Python, shortfalls too."""

import itertools

import numpy as np
import pytest
from hypothesis import given as over
from hypothesis import settings
from hypothesis import strategies as st

from shoulder_model.inputs import InputError
from shoulder_model.week.programme import Line, Programme, Target, Week

FEW, MANY, PULL_SETS, SESSION = 1, 2, 3, 3


def weeks(pulls, days):
    """Every week of a small catalogue within the limits of visits, sets and sessions: (sets, visits, days)."""
    each = [(0, 0)] + [
        (sets, visits)
        for visits in range(1, days + 1)
        for sets in range(FEW * visits, min(MANY * visits, PULL_SETS) + 1)
    ]
    for chosen in itertools.product(each, repeat=pulls):
        sets, visits = zip(*chosen, strict=True)
        for on in range(1, days + 1):
            if max(visits) <= on <= sum(visits) and sum(sets) <= SESSION * on:
                yield sets, visits, on


def by_hand(problem):
    """The smallest (weighted shortfall, half sets missed, cost, row numbers) over every week, without the package's own sums."""
    best = None
    for sets, visits, on in weeks(len(problem["lat"]), problem["days"]):
        used = [n > 0 for n in visits]
        if sum(u for u, f in zip(used, problem["family"], strict=True) if f) > 1:
            continue
        lat = sum(c * n for c, n in zip(problem["lat"], sets, strict=True))
        mid = sum(c * n for c, n in zip(problem["mid"], sets, strict=True))
        short = 4 * (max(problem["low"] - lat, 0) + max(problem["low"] - mid, 0)) + 4 * max(lat - problem["high"], 0)
        short += 2 * max(2 * on - sum(visits), 0) + 1 * max(problem["days"] - on, 0)
        missed = abs(2 * lat - 2 * problem["wanted"]) + abs(2 * mid - 2)
        cost = sum(c * n for c, n in zip(problem["cost"], visits, strict=True))
        cost += sum(3 * max(n - 1, 0) + 3 * max(n - 2, 0) for n in visits)
        rows = sum(i * n for i, n in enumerate(visits, 1))
        found = (short, missed, cost, rows)
        best = found if best is None else min(best, found)
    return best


def programme_of(problem):
    lat, mid, every = np.array(problem["lat"]), np.array(problem["mid"]), np.ones(len(problem["lat"]))
    return Programme(
        visit_sets=(FEW, MANY),
        pull_sets=PULL_SETS,
        days=problem["days"],
        session_sets=SESSION,
        lines=(
            Line("one of a family", per_use=np.array(problem["family"], float), high=1),
            Line("enough", per_set=lat, low=problem["low"], weight=4),
            Line("enough", per_set=mid, low=problem["low"], weight=4),
            Line("not too many", per_set=lat, high=problem["high"], weight=4),
            Line("two a day", per_visit=every, per_day=-2, low=0, weight=2),
            Line("every day", per_day=1, low=problem["days"], weight=1),
        ),
        targets=(Target("lat", lat, problem["wanted"]), Target("mid-back", mid, 1)),
        visit_cost=np.array(problem["cost"]),
        repeat_cost=3,
    )


@st.composite
def problems(draw):
    count = draw(st.integers(1, 3))

    def each(values):
        return draw(st.lists(values, min_size=count, max_size=count))

    return {
        "lat": each(st.sampled_from([0.0, 0.5, 1.0])),
        "mid": each(st.sampled_from([0.0, 0.5, 1.0])),
        "cost": each(st.integers(0, 20)),
        "family": each(st.booleans()),
        "days": draw(st.integers(1, 3)),
        "low": draw(st.sampled_from([0, 2, 5])),
        "high": draw(st.sampled_from([1, 3, 20])),
        "wanted": draw(st.sampled_from([0.5, 2, 4.5])),
    }


@settings(max_examples=60, deadline=None)
@over(problem=problems())
def test_the_programme_equals_exhaustive_search_with_shortfalls_too(problem):
    programme = programme_of(problem)
    week = programme.solve()
    assert programme.allows(week)
    assert programme.cost(week) == pytest.approx(by_hand(problem))
    assert programme.cost(programme.nearest())[:2] == pytest.approx(by_hand(problem)[:2])


@settings(max_examples=30, deadline=None)
@over(problem=problems())
def test_what_is_said_to_be_missing_is_missing(problem):
    programme = programme_of(problem)
    week = programme.solve()
    short = programme.shortfalls(week)
    lat, mid = (float(np.dot(problem[name], week.sets)) for name in ("lat", "mid"))
    assert short.get("enough", 0) == max(problem["low"] - lat, 0) + max(problem["low"] - mid, 0)
    assert short.get("not too many", 0) == max(lat - problem["high"], 0)
    assert short.get("two a day", 0) == max(2 * week.days - week.visits.sum(), 0)
    assert short.get("every day", 0) == problem["days"] - week.days
    assert all(amount > 0 for amount in short.values())


def test_limits_are_kept_and_seen():
    programme = programme_of(
        {"lat": [1.0], "mid": [0.5], "cost": [0], "family": [False], "days": 2, "low": 2, "high": 9, "wanted": 2}
    )

    def week(sets, visits, days):
        return Week(np.array([sets]), np.array([visits]), days)

    assert programme.allows(week(2, 1, 1))
    for wrong in (week(3, 1, 1), week(2, 2, 1), week(1, 1, 2), week(0, 0, 1), week(4, 2, 2), week(2, 1, 3)):
        assert not programme.allows(wrong)


def test_no_pull_gives_no_week():
    empty = Programme((1, 2), 3, 2, 3, (), (), np.zeros(0, int))
    assert empty.solve() is None and empty.nearest() is None


def test_a_target_that_is_no_half_set_is_refused():
    with pytest.raises(InputError, match="half sets"):
        Programme((1, 2), 3, 2, 3, (), (Target("lat", np.array([0.3]), 2),), np.zeros(1, int))
