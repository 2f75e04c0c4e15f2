"""Verdicts: pain first, then comfort, then the repetition rule on two sessions running, at one load."""

from datetime import date

import pytest

from shoulder_model.training.log import Entry
from shoulder_model.training.sessions import sessions
from shoulder_model.training.verdict import KINDS, verdicts
from shoulder_model.week import rules
from tests.own.week.stand_ins import (
    ADDED,
    ALL,
    BAND_ROW,
    HELPED,
    INVERTED,
    PULL_UP,
    PULLDOWN,
    ROW,
    TABLE_ROW,
    TWO_DUMBBELLS,
    row,
)

NOVICE = rules("novice")  # 8 to 12 repetitions


def logged(pull, *days, **marks):
    """Entries of some days, each (load, repetitions of its sets)."""
    return [
        Entry(pull.name, place, load, count, date=date(2026, 1, 5 + 3 * day), **marks)
        for day, (load, counts) in enumerate(days)
        for place, count in enumerate(counts, 1)
    ]


def verdict(pull, *days, **marks):
    (found,) = verdicts(logged(pull, *days, **marks), [row(pull), row(pull, 2)], NOVICE)
    assert found.kind in KINDS and "\n" not in found.reason and len(found.reason) < 200
    return found


@pytest.mark.parametrize(
    ("counts", "kind", "said"),
    [
        ((13, 14), "add", "13 and 14 repetitions at 50 kg, over 12 twice: add load, to 55 kg"),
        ((13, 7), "keep", "under 8 once at this load"),
        ((7, 13), "keep", "over 12 once at this load; once more, and it goes up"),
        ((13,), "keep", "not enough logged: two sessions are needed, 1 so far"),
        ((), "keep", "not enough logged: two sessions are needed"),
        ((12, 13), "keep", "over 12 once"),
        ((13, 12), "keep", "8 to 12 wanted: one repetition more next time"),
        ((8, 12), "keep", "one repetition more"),
        ((7, 6), "ease", "7 and 6 repetitions at 50 kg, under 8 twice: take load off"),
        ((7, 8), "keep", "one repetition more"),
        ((0, 0), "ease", "under 8 twice"),
        ((6, 13, 13), "add", "13 and 13 repetitions"),
        ((13, 13, 9), "keep", "13 and 9 repetitions"),
    ],
)
def test_the_last_sets_of_the_last_two_sessions_decide(counts, kind, said):
    found = verdict(PULLDOWN, *((50, (9, count)) for count in counts))
    assert found.kind == kind and said in found.reason


def test_pain_in_any_set_stops_the_pull_whatever_else_was_logged():
    entries = [*logged(PULLDOWN, (50, (13,)), (50, (13,))), Entry(PULLDOWN.name, 3, pain=2.0, date=date(2026, 1, 8))]
    (found,) = verdicts(entries, [row(PULLDOWN)], NOVICE)
    assert found.kind == "stop" and found.load is None
    assert found.reason == "pain 2 of 10 in set 3 on 2026-01-08: stop this pull, and see a licensed clinician"
    assert verdict(PULLDOWN, (50, (9,)), pain=0.5).kind == "stop"  # one session is enough for that
    assert verdict(PULLDOWN, (50, (9,)), (50, (9,)), pain=0.0).kind == "keep"


def test_pain_in_a_pull_that_is_not_in_the_week_is_not_lost():
    found = verdicts(logged(ROW, (40, (9,)), pain=1.0), [row(PULLDOWN)], NOVICE)
    assert [(one.pull, one.kind) for one in found] == [(PULLDOWN.name, "keep"), (ROW.name, "stop")]


def test_low_comfort_twice_changes_grip_or_pull():
    days = (50, (13,)), (50, (13,))
    found = verdict(PULLDOWN, *days, comfort=4.0)
    assert (
        found.kind == "change" and found.reason == "comfort 4 and 4 of 10, under 5 twice: change the grip, or the pull"
    )
    assert verdict(PULLDOWN, *days, comfort=5.0).kind == "add"
    first_only = [*logged(PULLDOWN, days[0], comfort=2.0), Entry(PULLDOWN.name, 1, 50, 13, date=date(2026, 2, 1))]
    assert verdicts(first_only, [row(PULLDOWN)], NOVICE)[0].kind == "add"


def test_both_sessions_have_to_be_at_the_present_load():
    assert "once more" in verdict(PULLDOWN, (50, (13,)), (55, (13,))).reason
    assert verdict(PULLDOWN, (55, (13,)), (50, (13,))).kind == "add"
    assert verdict(PULLDOWN, (50, (6,)), (45, (7,))).kind == "keep"  # some load is off already
    assert verdict(PULLDOWN, (45, (7,)), (50, (6,))).kind == "ease"


def test_less_load_comes_from_the_equations_and_is_always_less():
    load = verdict(PULLDOWN, (50, (7,)), (50, (6,))).load
    assert load.low_kg <= load.high_kg < 50 and load.low_kg % 5 == load.high_kg % 5 == 0
    for kg in (2.25, 9, 10.5):
        eased = verdict(ADDED, (kg, (5,)), (kg, (7,))).load
        assert eased.high_kg is None or eased.high_kg < kg
    lightest = verdict(PULLDOWN, (5, (6,)), (5, (6,)))
    assert lightest.load is None and lightest.instead == "band pulldown" and lightest.kind == "ease"
    assert lightest.reason.endswith("it goes no lighter here, take the band pulldown")


def test_another_version_is_named_only_where_it_can_be_done():
    heavy = logged(PULLDOWN, (5, (6,)), (5, (6,)))
    (found,) = verdicts(heavy, [row(PULLDOWN)], NOVICE, offered={PULLDOWN.name})
    assert found.kind == "change" and found.instead == "" and found.reason.endswith("change the pull")
    light = logged(BAND_ROW, (None, (13,)), (None, (13,)))
    (found,) = verdicts(light, [row(BAND_ROW)], NOVICE, offered={BAND_ROW.name})
    assert found.instead == "" and found.reason.endswith("or further from the anchor")


def test_a_step_that_is_too_large_stays_and_says_so():
    found = verdict(PULLDOWN, (40, (13,)), (40, (13,)))
    assert found.kind == "add" and found.load.low_kg == found.load.high_kg == 41.25
    assert "45 kg, is 12.5 % more" in found.reason and "41.25 kg" in found.reason


def test_pulls_without_a_chosen_load_name_the_way_and_the_harder_or_easier_version():
    up = verdict(PULL_UP, (None, (13,)), (0, (13,)))
    assert up.instead == ADDED.name and ADDED.name in up.reason and "kg" not in up.reason
    down = verdict(PULL_UP, (None, (5,)), (None, (5,)))
    assert down.kind == "ease" and down.instead == HELPED.name
    assert "less help" in verdict(HELPED, (None, (13,)), (None, (13,))).reason
    assert "thicker band" in verdict(BAND_ROW, (None, (13,)), (None, (13,))).reason
    assert verdict(TABLE_ROW, (None, (13,)), (None, (13,))).instead == "inverted row"
    assert verdict(INVERTED, (None, (13,)), (None, (13,))).instead == ""


def test_where_no_load_was_written_down_the_share_is_named():
    assert verdict(ROW, (None, (13,)), (None, (14,))).reason.endswith("add load, 2 to 10 % more")
    assert verdict(ROW, (None, (3,)), (None, (4,))).reason.endswith("take some load off")


def test_every_pull_has_a_verdict_for_every_log():
    for one in ALL:
        for days in ((), ((20, (9,)),), ((20, (9,)), (20, (9,))), ((20, (14,)), (20, (13,))), ((20, (2,)), (20, (1,)))):
            assert verdict(one, *days).pull == one.name


def test_kept_loads_are_named_with_their_place():
    assert verdict(TWO_DUMBBELLS, (16, (9,)), (16, (10,))).load.words == "16 kg in each hand"


def test_one_date_is_one_session_and_the_weaker_side_counts():
    on = date(2026, 1, 5)
    both_sides = [Entry(ROW.name, 2, 20, count, date=on) for count in (10, 8)]
    (only,) = sessions([Entry(ROW.name, 1, 20, 12, date=on, comfort=6.0), *both_sides], ROW.name)
    assert (only.repetitions, only.best, only.load_kg, only.comfort) == (8, 12, 20, 6.0)


def test_sessions_are_in_the_order_of_their_dates():
    late, early = (Entry(ROW.name, 1, 20, count, date=date(2026, 1, day)) for count, day in ((9, 9), (5, 5)))
    between = Entry(ROW.name, 2, 20, 8, date=date(2026, 1, 9))
    assert [one.repetitions for one in sessions([late, early, between], ROW.name)] == [5, 8]


def test_without_dates_a_session_begins_where_the_sets_begin_again_or_the_day_changes():
    sets = [Entry(ROW.name, place, 20, 8 + place, day=day) for day, place in ((1, 1), (1, 2), (2, 1), (2, 2), (1, 1))]
    assert [one.repetitions for one in sessions(sets, ROW.name)] == [10, 10, 9]
    assert sessions([Entry(ROW.name, 1, pain=0.0, note="machine taken")], ROW.name) == ()
