"""Warm-up, rest, repetitions left, each side: short, on the equipment's steps, from the table of rules."""

from dataclasses import replace

from shoulder_model.training.dose import left_by_week, left_words, progress_words, rest_words, starts, warm_up
from shoulder_model.week import rules
from shoulder_model.week.load import Carried, Known, Load, steps
from tests.own.week.stand_ins import ADDED, ALL, BAND_ROW, BENCH_ROW, HELPED, PULLDOWN, ROW, Person, plan

NOVICE = rules("novice")


def test_warm_up_loads_lie_on_the_steps_below_the_first_load():
    stack, bar = steps()["pulldown"], steps()["barbell"]
    assert warm_up(PULLDOWN, Load(40, 45, ""), NOVICE, stack) == ("8 at 20 kg", "4 at 30 kg")
    assert warm_up(PULLDOWN, Load(10, 10, ""), NOVICE, stack) == ("8 at 5 kg",)  # both would be the same plate
    assert warm_up(PULLDOWN, Load(5, 5, ""), NOVICE, stack) == ("a few slow ones without any load",)
    assert warm_up(PULLDOWN, Load(30, 30, ""), NOVICE, bar)[0] == "8 at 20 kg"  # never less than the bar
    assert warm_up(PULLDOWN, Load(None, None, ""), NOVICE, stack) == (
        "8 at about 50 % of the load",
        "4 at about 75 % of the load",
    )


def test_warm_up_without_a_chosen_load_is_the_same_pull_made_easier():
    none = Load(None, None, "")
    assert warm_up(HELPED, none, NOVICE, None) == ("8 with plenty of help",)
    assert warm_up(BAND_ROW, none, NOVICE, None) == ("8 with a thinner band, or closer to the anchor",)
    assert warm_up(ADDED, none, NOVICE, steps()["pull-up bar"]) == ("4 without added load",)
    assert all(len(warm_up(one, none, NOVICE, None)[0]) > 5 for one in ALL)


def test_rest_and_repetitions_left_come_from_the_rules():
    assert rest_words(rules("advanced")) == "1 to 3 minutes"
    assert rest_words(replace(NOVICE, rest_low_s=90, rest_high_s=90)) == "1.5 minutes"
    weeks = left_by_week(replace(NOVICE, repetitions_left_later=0))
    assert [low for _, low, _ in weeks] == [3, 2, 0] and "0 to 2 from week 3" in left_words(
        replace(NOVICE, repetitions_left_later=0)
    )


def test_every_pull_of_a_plan_has_a_start():
    client = Person(known=(Known(PULLDOWN.name, 40, 8),), steps={"pulldown": 2.5})
    whole = plan(*ALL, client=client)
    begun = starts(whole)
    assert list(begun) == [one.name for one in ALL]
    assert begun[PULLDOWN.name].load.words == "32.5–40 kg on the stack"
    assert begun[BENCH_ROW.name].each_side and not begun[ROW.name].each_side
    carried = plan(*ALL, client=replace(client, carried=(Carried(ROW.name, 50, 50, "50 kg"),)))
    assert starts(carried)[ROW.name].load == Load(50, 50, "50 kg")


def test_progress_is_said_with_its_numbers_and_its_source():
    said = progress_words(NOVICE)
    assert "13 or more" in said and "2 to 10 %" in said and "41(3):687-708" in said and "At any time" in said
