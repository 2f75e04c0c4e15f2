"""The stored spans of the week against the recipe that makes them, on a few candidates."""

from functools import partial

import pytest

from shoulder_model.muscles import expected_strength
from shoulder_model.people import Lifter
from shoulder_model.recipes import week_spans
from shoulder_model.repetition import muscle_shares
from shoulder_model.week import candidates, span_of, spans
from shoulder_model.week.groups import GROUPS, KIND

# the last is one whose load some bodies cannot hold: they count with what they have at their limit, which is unique
SOME = ("chin-up", "seated row close")


def named(name):
    return next(one for one in candidates() if one.name == name)


@pytest.mark.parametrize("name", SOME)
def test_the_stored_spans_are_those_the_recipe_makes(name):
    for row_name, group, low, high in week_spans.span_rows(named(name)):
        assert (float(low), float(high)) == pytest.approx(span_of(row_name, group), abs=2e-4)


def test_every_candidate_has_a_span_that_holds_both_mean_people_with_either_strength():
    assert set(spans()) == {(one.name, group) for one in candidates() for group in GROUPS}
    people = [Lifter.average(sex) for sex in ("men", "women")]
    for lifter in people:
        for other in people:
            of = muscle_shares(
                lifter, named("chin-up").pull, kind=KIND, band=False, strength=expected_strength(other)
            ).of
            for group in GROUPS:
                low, high = span_of("chin-up", group)
                assert low - 1e-4 <= of[group].low <= of[group].high <= high + 1e-4


def test_the_recipe_writes_the_table_with_its_note(tmp_path, monkeypatch):
    target = tmp_path / "spans.csv"
    monkeypatch.setattr(week_spans, "TARGET", target)
    monkeypatch.setattr(week_spans, "candidates", lambda: [named("chin-up")])
    monkeypatch.setattr(week_spans, "muscle_shares", partial(muscle_shares, band=False))
    week_spans.shares_of.cache_clear()
    week_spans.main()
    week_spans.shares_of.cache_clear()
    lines = target.read_text(encoding="utf-8").splitlines()
    assert lines[0].startswith("# Span of the model's shares") and lines[1] == "name,group,low,high"
    assert [line.rsplit(",", 2)[0] for line in lines[2:]] == [f"chin-up,{group}" for group in GROUPS]
