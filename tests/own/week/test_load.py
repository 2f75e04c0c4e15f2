"""Loads: a known one is checked, a first one lies on the equipment's steps, a step that is too large says what to do."""

from dataclasses import replace
from math import inf

import pytest

from shoulder_model.inputs import InputError
from shoulder_model.tables import read_table
from shoulder_model.week import rules
from shoulder_model.week.load import Known, Step, first_load, next_load, repetitions_needed, step_of, steps
from tests.own.week.stand_ins import (
    ADDED,
    ALL,
    BAND_ROW,
    BENCH_ROW,
    HELPED,
    PULL_UP,
    PULLDOWN,
    ROW,
    TWO_DUMBBELLS,
)

NOVICE, INTERMEDIATE = rules("novice"), rules("intermediate")


@pytest.mark.parametrize(
    ("given", "field", "said"),
    [
        (("row", 40, 13), "repetitions", "12 times or fewer, never a maximum"),
        (("row", 40, 0), "repetitions", "outside 1 repetitions"),
        (("row", 40, 2.5), "repetitions", "whole number"),
        (("row", float("nan"), 8), "load_kg", "0.5 kg to 500 kg"),
        (("row", "heavy", 8), "load_kg", "not a number"),
        (("row", [40, 50], 8), "load_kg", "one number"),
        (("", 40, 8), "pull", "name of a pull"),
        ((3, 40, 8), "pull", "pull = 3 is not text"),
        (("x" * 61, 40, 8), "pull", "60 letters"),
    ],
)
def test_a_known_load_is_refused_with_its_field(given, field, said):
    with pytest.raises(InputError, match=said) as refused:
        Known(*given)
    assert refused.value.field == field and len(str(refused.value).splitlines()) == 1


def test_every_step_says_that_it_has_no_source():
    assert set(steps()) == {"pulldown", "low cable", "barbell", "dumbbells", "pull-up bar"}
    for row in read_table("week_steps.csv"):
        assert row["mark"] == "none" and row["source"].startswith("common practice, no source")
        assert float(row["smallest_kg"]) > 0 and float(row["step_kg"]) > 0 and row["hand"] in ("one", "both")


def test_steps_go_down_up_and_above():
    bar = steps()["barbell"]
    assert (bar.down(19.9), bar.down(20), bar.down(24.9)) == (None, 20, 22.5)
    assert (bar.up(3), bar.up(22.5), bar.up(22.6)) == (20, 22.5, 25)
    assert (bar.above(3), bar.above(20), bar.above(24.9)) == (20, 22.5, 25)
    assert steps()["dumbbells"].one_hand and not bar.one_hand


def test_a_clients_own_step_takes_the_place_of_the_tables():
    assert step_of(PULLDOWN, {"pulldown": 2.5}).down(39) == 37.5
    assert step_of(PULLDOWN, {"low cable": 2.5}).down(39) == 35
    assert step_of(PULLDOWN, {"pulldown": 4}).smallest_kg == 4  # one plate of the stack
    assert steps()["barbell"].every(5).smallest_kg == 20  # the bar itself
    with pytest.raises(InputError, match="smallest step"):
        steps()["barbell"].every(0)


def test_only_what_is_set_in_kilograms_has_a_step():
    has = {one.name for one in ALL if step_of(one)}
    assert has == {one.name for one in (PULLDOWN, ROW, BENCH_ROW, TWO_DUMBBELLS, ADDED)}
    assert step_of(replace(PULLDOWN, equipment=(("a lever",),))) is None


def test_a_first_load_is_a_range_on_the_steps_and_names_the_hand():
    load = first_load(PULLDOWN, NOVICE, (Known(PULLDOWN.name, 40, 8),))
    assert (load.low_kg, load.high_kg, load.words) == (30, 40, "30–40 kg on the stack")  # for 8 and 3 left
    fine = first_load(PULLDOWN, NOVICE, (Known(PULLDOWN.name, 40, 8),), given={"pulldown": 2.5})
    assert (fine.low_kg, fine.high_kg) == (32.5, 40)
    assert first_load(TWO_DUMBBELLS, NOVICE, (Known(TWO_DUMBBELLS.name, 16, 10),)).words.endswith("kg in each hand")
    assert first_load(BENCH_ROW, NOVICE, (Known(BENCH_ROW.name, 16, 10),)).words.startswith("a dumbbell of")


def test_only_a_load_of_the_same_pull_counts_and_the_last_of_them():
    nothing = first_load(PULLDOWN, NOVICE)
    assert nothing.low_kg is nothing.high_kg is None
    assert first_load(PULLDOWN, NOVICE, (Known(ROW.name, 40, 8),)) == nothing
    twice = Known(PULLDOWN.name, 90, 8), Known(PULLDOWN.name, 40, 8)
    assert first_load(PULLDOWN, NOVICE, twice) == first_load(PULLDOWN, NOVICE, twice[1:])


def test_where_nothing_is_known_words_say_how_to_find_it():
    assert "start light, add between sets until a set of 8 ends with 3 left" in first_load(PULLDOWN, NOVICE).words
    assert "band" in first_load(BAND_ROW, NOVICE).words and "feet" in first_load(HELPED, NOVICE).words
    for one in ALL:
        assert first_load(one, NOVICE).words and first_load(one, NOVICE).low_kg is None


def test_pull_ups_in_a_row_say_how_many_in_a_set():
    assert first_load(PULL_UP, NOVICE, pull_ups=10).words == "own body, 8 in a set: 10 in a row, less 2 left"
    assert first_load(PULL_UP, NOVICE, pull_ups=40).words.startswith("own body, 12 in a set")
    assert "in a row" not in first_load(PULL_UP, NOVICE, pull_ups=2).words


def test_in_a_pull_up_with_added_load_the_body_is_carried_too():
    known = (Known(ADDED.name, 10, 6),)
    body, plate_alone = (first_load(ADDED, INTERMEDIATE, known, mass_kg=mass) for mass in (90.0, 0.0))
    assert body.low_kg < plate_alone.low_kg <= 10  # three repetitions more take a part of the whole, the body included
    own_body = first_load(ADDED, NOVICE, (Known(ADDED.name, 5, 2),), mass_kg=80.0)
    assert own_body.low_kg is None and PULL_UP.name in own_body.words


def test_below_the_smallest_load_another_version_is_named():
    load = first_load(PULLDOWN, NOVICE, (Known(PULLDOWN.name, 5, 5),))
    assert (
        load.low_kg is None
        and load.words == "5 kg, the smallest load, is more than this asks for; take the band pulldown first"
    )


def test_beyond_the_equations_no_load_is_named():
    load = first_load(PULLDOWN, replace(NOVICE, repetitions_low=10), (Known(PULLDOWN.name, 40, 12),))
    assert load.low_kg is None and load.notes == ("The equations end at 12 repetitions.",)


def test_the_next_load_is_two_to_ten_per_cent_more_on_the_steps():
    assert [next_load(kg, NOVICE, steps()["pulldown"]).words for kg in (50, 60, 100)] == [
        "55 kg",
        "65 kg",
        "105–110 kg",
    ]
    assert next_load(300, NOVICE, steps()["pulldown"]).low_kg == 310  # 305 would be less than 2 %
    assert next_load(0, NOVICE, steps()["pull-up bar"]).words == "1.25 kg"


def test_a_step_that_is_too_large_says_four_other_things():
    load = next_load(40, NOVICE, steps()["pulldown"])
    assert (load.low_kg, load.high_kg, load.words) == (41.25, 41.25, "41.25 kg, with a small plate on top")
    said = " ".join(load.notes)
    for words in ("45 kg, is 12.5 % more", "12 or more at 40 kg", "41.25 kg", "3 seconds", "1 more set"):
        assert words in said
    tried = " ".join(next_load(40, NOVICE, steps()["pulldown"], done=13).notes)
    assert "With 13 done, 8 at 45 kg are in reach by some of the equations, not by all: try one set with it" in tried
    assert "more than 12 at 20 kg" in " ".join(next_load(20, NOVICE, steps()["pulldown"]).notes)
    assert "if there is one" in " ".join(next_load(10, NOVICE, steps()["pull-up bar"]).notes)


def test_an_add_on_plate_is_named_only_where_it_is_a_fair_step():
    heavy = Step("stack", 5, 5, add_on_kg=4)
    assert "44 kg" in " ".join(next_load(40, NOVICE, heavy).notes)
    assert "if there is one" in " ".join(next_load(30, NOVICE, heavy).notes)


def test_repetitions_needed_grow_with_the_step_and_end_where_the_equations_do():
    low, high = repetitions_needed(50, 55, 6)
    assert 6 < low < high < inf
    assert repetitions_needed(50, 57.5, 6)[0] > low
    assert repetitions_needed(20, 30, 8)[1] == inf
