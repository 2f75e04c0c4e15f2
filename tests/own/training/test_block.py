"""The next block: what hurt is out and health is asked again; what goes on is preferred, with its load."""

from datetime import date

from shoulder_model.training.block import next_block
from shoulder_model.training.dose import starts
from shoulder_model.training.log import Entry, blank_log, read_log
from shoulder_model.week.load import Known
from tests.own.week.stand_ins import ADDED, ALL, HELPED, PULL_UP, PULLDOWN, ROW, TABLE_ROW, Person, plan

ASKED = {"shoulder": "no"}


def logged(pull, *days, **marks):
    return [
        Entry(pull.name, place, load, count, date=date(2026, 1, 5 + 3 * day), **marks)
        for day, (load, counts) in enumerate(days)
        for place, count in enumerate(counts, 1)
    ]


def block(entries, *pulls, **client):
    return next_block(plan(*pulls, client=Person(health=ASKED, **client)), entries, ALL)


def test_an_empty_log_changes_nothing_but_keeps_the_pulls():
    after = block((), PULLDOWN, ROW)
    assert [one.kind for one in after.verdicts] == ["keep", "keep"]
    assert after.client == Person(health=ASKED, prefer=(PULLDOWN.name, ROW.name)) and after.loads == {} == dict(
        after.referral
    )


def test_more_load_is_in_the_next_block_with_what_is_known_now():
    after = block(
        logged(PULLDOWN, (50, (12, 13)), (50, (13, 13))),
        PULLDOWN,
        known=(Known(PULLDOWN.name, 30, 8), Known(ROW.name, 20, 8)),
    )
    assert after.loads[PULLDOWN.name].words == "55 kg on the stack"
    assert after.client.known == (Known(PULLDOWN.name, 50, 12), Known(ROW.name, 20, 8))  # 13 and more count as 12
    begun = starts(plan(PULLDOWN, ROW, client=after.client))
    assert begun[PULLDOWN.name].load.low_kg == 55 and begun[ROW.name].load.high_kg <= 20


def test_pain_leaves_out_all_versions_and_opens_the_health_questions():
    after = block(
        logged(PULLDOWN, (50, (12,)), pain=3.0), PULLDOWN, ROW, prefer=(PULLDOWN.name, "front pulldown", ROW.name)
    )
    assert after.client.health == {} and after.client.leave_out == ("front pulldown",)
    assert after.client.prefer == (ROW.name,) and PULLDOWN.name not in after.loads
    assert after.client.hurt == (PULLDOWN.name,)
    assert PULLDOWN.name in after.referral[0] and "First a clinician" in after.referral[0]
    assert block(logged(PULLDOWN, (50, (12,)), pain=0.0), PULLDOWN).client.health == ASKED


def test_what_is_not_comfortable_is_left_out_alone():
    after = block(logged(PULLDOWN, (50, (9,)), (50, (9,)), comfort=3.0), PULLDOWN, ROW, leave_out=("band row",))
    assert after.client.leave_out == ("band row", PULLDOWN.name) and after.client.prefer == (ROW.name,)
    assert after.referral == () and after.client.health == ASKED


def test_enough_pull_ups_lead_to_added_load():
    after = block(logged(PULL_UP, (None, (14, 13)), (None, (14, 13))), PULL_UP, own_weight_repetitions=9)
    assert after.client.own_weight_repetitions == 14
    assert after.client.prefer == (ADDED.name,) and PULL_UP.name not in after.loads


def test_too_few_pull_ups_lead_back_to_help():
    after = block(
        logged(PULL_UP, (None, (8, 6)), (None, (8, 5))), PULL_UP, own_weight_repetitions=9, prefer=(PULL_UP.name,)
    )
    assert after.client.own_weight_repetitions == 5
    assert after.client.prefer == (HELPED.name,) and after.client.leave_out == (PULL_UP.name,)


def test_a_version_that_cannot_be_had_is_not_preferred():
    after = block(logged(PULLDOWN, (5, (5,)), (5, (5,))), PULLDOWN)  # no band pulldown in the list
    assert after.verdicts[0].kind == "change" and after.verdicts[0].instead == ""
    assert after.client.prefer == () and after.client.leave_out == (PULLDOWN.name,)
    no_help = block(logged(PULL_UP, (None, (5,)), (None, (5,))), PULL_UP, equipment=("pulldown",))
    assert no_help.client.prefer == (PULL_UP.name,)


def test_help_bands_and_leans_change_without_another_pull():
    for one in (HELPED, TABLE_ROW):
        for counts in ((14,), (3,)):
            after = block(logged(one, (None, counts), (None, counts)), one)
            assert after.client.prefer == (one.name,) and after.loads[one.name].words


def test_a_block_from_a_file_on_disk():
    week = plan(PULLDOWN, ROW, client=Person(health=ASKED))
    lines = blank_log(week, ";").splitlines()
    done = [line.replace(";62;;;;;;", ";62;50;13;1;0;8;") if PULLDOWN.name in line else line for line in lines]
    text = "\n".join(f"{8 + n}.1.2026{line}" if n else line for n, line in enumerate(done)) + "\n"
    entries = read_log(text.encode("utf-16"), [one.name for one in ALL])
    after = next_block(week, entries, ALL)
    assert [one.kind for one in after.verdicts] == ["add", "keep"]
    assert after.loads[PULLDOWN.name].low_kg == 55
