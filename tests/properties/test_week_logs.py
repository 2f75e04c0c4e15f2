"""Loads and logs for any input: ranges in order and on the steps; a log reads back the same; nonsense ends in one line."""

from collections import Counter
from datetime import date

from hypothesis import given, settings
from hypothesis import strategies as st

from shoulder_model.training.log import Entry, log_text, read_log
from shoulder_model.training.verdict import KINDS, verdicts
from shoulder_model.week import rules
from shoulder_model.week.load import Known, Step, first_load, liftable, next_load, repetitions_needed, steps
from tests.own.training.mutations import NAMES, logs_as_written, logs_gone_wrong, moved_logs, outcome, strangers
from tests.own.week.stand_ins import ADDED, ALL, PULLDOWN, row

MANY = 400
LEVELS = st.sampled_from(("novice", "intermediate", "advanced")).map(rules)
LOADS = st.floats(0.5, 300.0)
COUNTS = st.integers(1, 12)
GRID = st.builds(
    Step, st.just("stack"), st.sampled_from((1.0, 2.5, 5.0, 20.0)), st.sampled_from((0.5, 1.25, 2.0, 5.0, 10.0))
)
NOTE = st.text(st.characters(codec="utf-16", exclude_categories=("C", "Z")), max_size=12)
ENTRIES = st.lists(
    st.builds(
        Entry,
        st.sampled_from(NAMES),
        st.integers(1, 50),
        st.none() | st.integers(0, 2000).map(lambda quarter: quarter / 4),
        st.none() | st.integers(0, 100),
        st.none() | st.integers(0, 20).map(lambda half: half / 2),
        st.none() | st.integers(0, 20).map(lambda half: half / 2),
        st.none() | st.integers(0, 10).map(float),
        st.dates(min_value=date(2000, 1, 1), max_value=date(2100, 12, 31)),
        st.none() | st.integers(1, 7),
        st.none() | st.integers(0, 300).map(float),
        NOTE,
    ).filter(
        lambda one: any(
            value not in (None, "")
            for value in (one.load_kg, one.repetitions, one.left, one.pain, one.comfort, one.note)
        )
    ),
    max_size=12,
)


def on_the_grid(kg, step):
    return abs((kg - step.smallest_kg) / step.step_kg - round((kg - step.smallest_kg) / step.step_kg)) < 1e-6


@given(LOADS, COUNTS, LEVELS)
def test_a_first_load_is_in_order_on_the_steps_and_not_more_than_was_lifted(kg, count, level):
    load = first_load(PULLDOWN, level, (Known(PULLDOWN.name, kg, count),))
    wanted = level.repetitions_low + level.repetitions_left_high
    low, high = liftable(kg, count, wanted)
    assert low <= high
    if load.low_kg is None:
        assert high < steps()["pulldown"].smallest_kg
    else:
        assert 5 <= load.low_kg <= load.high_kg <= high * (1 + 1e-6) and all(
            on_the_grid(at, steps()["pulldown"]) for at in (load.low_kg, load.high_kg)
        )
        assert wanted < count or load.high_kg <= kg * (1 + 1e-6)


@given(LOADS, LOADS, COUNTS, COUNTS, COUNTS)
def test_who_lifts_more_or_more_often_is_never_given_less(kg, other, count, more, wanted):
    light, heavy = sorted((kg, other))
    few, many = sorted((count, more))
    weaker, stronger = liftable(light, few, wanted), liftable(heavy, many, wanted)
    assert all(low <= high * (1 + 1e-9) for low, high in zip(weaker, stronger, strict=True))


@given(LOADS, COUNTS, st.floats(0.0, 200.0), LEVELS)
def test_added_load_is_never_more_than_was_added(kg, count, mass, level):
    load = first_load(ADDED, level, (Known(ADDED.name, kg, count),), mass_kg=mass)
    wanted = level.repetitions_low + level.repetitions_left_high
    if load.low_kg is not None:
        assert 1.25 <= load.low_kg <= load.high_kg and (wanted < count or load.high_kg <= kg * (1 + 1e-6))


@given(st.just(0.0) | st.floats(0.01, 400.0), GRID, LEVELS, st.integers(0, 100))
def test_a_next_load_is_two_to_ten_per_cent_more_or_says_what_to_do(kg, step, level, done):
    load = next_load(kg, level, step, done)
    if load.notes:
        assert load.low_kg == load.high_kg == kg and len(load.notes) == 4 and step.above(kg) > 1.1 * kg * (1 - 1e-9)
    else:
        assert kg < load.low_kg <= load.high_kg and on_the_grid(load.low_kg, step) and on_the_grid(load.high_kg, step)
        assert kg == 0 or load.high_kg <= 1.1 * kg * (1 + 1e-6)


@given(st.floats(2.0, 200.0), st.floats(1.001, 1.5), COUNTS)
def test_more_load_asks_for_more_repetitions_first(kg, more, wanted):
    low, high = repetitions_needed(kg, more * kg, wanted)
    assert 1 <= low <= high
    assert repetitions_needed(kg, 1.1 * more * kg, wanted)[0] >= low - 1e-6


@given(
    ENTRIES,
    st.sampled_from(",;\t"),
    st.sampled_from(".,"),
    st.sampled_from(("utf-8", "utf-8-sig", "utf-16", "utf-16-le")),
)
@settings(max_examples=150)
def test_a_log_written_and_read_is_the_same(entries, delimiter, decimal, encoding):
    content = log_text(entries, delimiter, decimal).encode(encoding)
    assert read_log(content, NAMES) == tuple(entries)


@given(ENTRIES, LEVELS)
@settings(max_examples=150)
def test_every_log_has_a_verdict_for_every_pull_and_pain_always_stops(entries, level):
    found = verdicts(entries, [row(one) for one in ALL], level)
    assert [one.pull for one in found] == [one.name for one in ALL] and all(one.kind in KINDS for one in found)
    hurt = {one.pull for one in entries if one.pain}
    assert {one.pull for one in found if one.kind == "stop"} == hurt
    assert all(one.reason == one.reason.strip() and "\n" not in one.reason and len(one.reason) < 220 for one in found)


@given(st.binary(max_size=300) | st.text(max_size=300))
def test_any_bytes_are_refused_in_one_line_or_read(content):
    assert outcome(content)


def test_logs_as_programs_write_them_are_read_with_the_same_in_them():
    for entries, content in logs_as_written(5, MANY):
        assert read_log(content, NAMES) == entries


def test_a_log_gone_wrong_is_refused_in_one_line_or_read_within_all_limits():
    seen = Counter(outcome(content) for content in logs_gone_wrong(4, MANY))
    assert 20 < seen["read"] < MANY / 2 and len(seen) > 12  # neither all harmless nor all wrong in one way


def test_what_was_moved_or_cut_off_is_not_read_as_something_else():
    found = [strangers(entries, content) for entries, content in moved_logs(6, MANY)]
    assert sum(map(bool, found)) <= MANY / 200 and sum(one is not None for one in found) > MANY / 10
