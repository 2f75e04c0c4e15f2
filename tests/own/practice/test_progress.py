"""What is weak, and how it went: order, words, and a picture for one answer as for years."""

import random
import xml.etree.ElementTree as ET
from dataclasses import replace
from datetime import datetime

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from shoulder_model.document.scene import Dot, Label
from shoulder_model.practice import progress, schedule
from shoulder_model.practice.bank import Template
from shoulder_model.practice.exam import share_interval
from shoulder_model.practice.objectives import objectives
from shoulder_model.practice.progress import MOST_POINTS, over_time, picture, rows, standings, when, words
from shoulder_model.practice.record import Answer
from shoulder_model.practice.schedule import DAY, cards
from shoulder_model.practice.slips import slip_table

NOON = datetime(2026, 3, 4, 12).timestamp()
BANK = {
    name: Template(name, ids, "3.3", False, None)
    for name, ids in (("line", ("02.line",)), ("wider", ("03.wider", "02.line")), ("choose", ("03.choose",)))
}


@pytest.fixture(autouse=True)
def bank(monkeypatch):
    """A small bank of invented templates."""
    for module in (progress, schedule):
        monkeypatch.setattr(module, "templates", lambda: BANK)


def said(name, scores, start=NOON, slip=""):
    return [
        Answer(start + 60 * place, name, "1", "x", score, "" if score == 1 else slip)
        for place, score in enumerate(scores)
    ]


def test_the_last_ten_answers_count_for_every_objective_that_a_template_serves():
    answers = said("wider", [0] * 5 + [1] * 10, slip="whole load") + said("line", [0, 0.5], NOON + 1000, "cm for m")
    line, wider = standings(answers)
    assert (wider.objective, wider.answered, wider.asked, wider.points, wider.slip) == ("03.wider", 15, 10, 10, "")
    assert (line.objective, line.answered, line.asked, line.points) == ("02.line", 17, 10, 8.5)
    assert (line.slip, line.slips) == ("cm for m", 2) and line.share == 0.85
    assert (line.low, line.high) == share_interval(8.5, 10)
    known = cards(answers)
    assert wider.due == known["wider"].due and line.due == min(known["wider"].due, known["line"].due)


def test_the_weakest_comes_first_and_so_does_what_is_hardly_known():
    answers = said("line", [1, 0] * 5) + said("choose", [1], NOON + 1000)  # from 24 %, and from 21 %
    assert [one.objective for one in standings(answers)] == ["03.choose", "02.line"]
    answers = said("line", [1] * 9 + [0]) + said("choose", [0] * 9 + [1], NOON + 1000)
    assert [one.objective for one in standings(answers)] == ["03.choose", "02.line"]
    lows = [one.low for one in standings(answers)]
    assert lows == sorted(lows)


def test_of_two_slips_the_commonest_is_told_and_of_equals_the_latest():
    answers = said("choose", [0, 0], NOON, "whole load") + said("choose", [0], NOON + 900, "cm for m")
    assert standings(answers)[0].slip == "whole load"
    answers += said("choose", [0], NOON + 950, "cm for m")
    assert (standings(answers)[0].slip, standings(answers)[0].slips) == ("cm for m", 2)
    assert slip_table()["cm for m"][0] in " ".join(words(answers, NOON + 2000))


def test_open_items_and_templates_that_are_gone_count_as_nothing():
    answers = [replace(said("line", [0])[0], text=""), *said("renamed", [0, 1])]
    assert standings(answers) == () and words(answers, NOON) == ("There are no answers yet.",)
    assert standings(()) == () and words((), NOON) == ("There are no answers yet.",) and picture(()) is None
    assert picture(answers[:1]) is None and len(over_time(answers)[1]) == 1


def test_words_and_rows():
    answers = said("wider", [1, 0.5, 0], slip="whole load") + said("choose", [1] * 4, NOON + 500)
    told = words(answers, NOON + 5 * DAY)
    assert told[0] == f"7 answers so far, on 3 of {len(objectives())} skills. 3 are due now."
    assert "1.5 of 3 answers right." in told[1] and told[-1].startswith("The range says")
    table = rows(standings(answers), NOON + 5 * DAY)
    assert len(table) == 4 and {len(row) for row in table} == {7}
    assert table[1][3] == "1.5 of 3" and table[1][5] == "now" and table[1][6].endswith("(2 ×)")
    assert all(isinstance(cell, str) for row in table for cell in row)


def test_when():
    cases = {0: "now", -5: "now", 1: "in 1 minute", 600: "in 10 minutes", 7200: "in 2 hours", 2 * DAY: "in 2 days"}
    cases |= {90 * DAY: "in 3 months", 800 * DAY: "in 2 years", 36_500 * DAY: "in 100 years"}
    assert {left: when(NOON + left, NOON) for left in cases} == cases


def look(answers):
    """The picture of some answers: well-formed, inside its frame, with words; and its points."""
    scene = picture(answers)
    ET.fromstring(scene.svg())
    dots = [shape for shape in scene.shapes if isinstance(shape, Dot)]
    assert all(0 <= dot.x <= 100 and 0 <= dot.y <= scene.height for dot in dots)
    for shape in scene.shapes:
        if isinstance(shape, Label):
            assert 0 <= shape.x <= 100 and 0 < shape.y <= scene.height
    assert 1 <= len(dots) == len(over_time(answers)[1]) <= MOST_POINTS
    assert len(scene.words) < 900 and scene.words.startswith("Share of right answers, a point for each ")
    return scene, dots


def test_a_picture_of_one_answer_and_of_one_day():
    scene, [dot] = look(said("line", [1]))
    assert "4 Mar 100 % of 1. In all 100 % of 1 answer." in scene.words and dot.x > 50
    scene, _ = look(said("line", [1, 0.5, 0, 0]))
    assert "4 Mar 38 % of 4. In all 38 % of 4 answers." in scene.words


@pytest.mark.parametrize(
    ("days", "name"), [(26, "day"), (28, "week"), (182, "week"), (200, "four weeks"), (2400, "year")]
)
def test_a_picture_of_days_weeks_and_years(days, name):
    answers = [one for day in range(days) for one in said("line", [day % 2, 1], NOON + day * DAY)]
    scene, dots = look(answers)
    assert f"a point for each {name} with answers" in scene.words and "In all 75 %" in scene.words
    assert [dot.x for dot in dots] == sorted(dot.x for dot in dots)
    span, points = over_time(answers)
    assert sum(point.answers for point in points) == 2 * days and sum(point.points for point in points) == 1.5 * days
    if name == "week":
        assert points[0].answers == 14 and (points[1].start - points[0].start).days == span == 7


def test_a_pause_leaves_a_gap_and_higher_is_better():
    answers = said("line", [0]) + said("line", [1], NOON + DAY) + said("line", [0.5], NOON + 10 * DAY)
    _, dots = look(answers)
    assert dots[1].y < dots[2].y < dots[0].y
    assert dots[2].x - dots[1].x == pytest.approx(9 * (dots[1].x - dots[0].x))


def test_a_clock_that_was_set_back_keeps_the_order():
    answers = said("line", [0, 0], NOON) + said("line", [1], NOON - 900 * DAY) + said("line", [1], NOON - 898 * DAY)
    scene, dots = look(answers)
    assert [dot.y for dot in dots] == sorted((dot.y for dot in dots), reverse=True)
    assert "17 Sep" in scene.words or "18 Sep" in scene.words  # of 2023, by the clock of the last answer
    assert len(dots) == 2


@settings(max_examples=50, deadline=None)
@given(
    st.lists(
        st.tuples(st.floats(-1e12, 1e12), st.sampled_from([*BANK, "gone"]), st.sampled_from([0, 0.5, 1])), min_size=1
    ),
    st.floats(0, 3e10),
)
def test_no_clock_is_too_wild(answers, now):
    answers = [Answer(at, name, "1", "x", score) for at, name, score in answers]
    look(answers)
    assert words(answers, now) and rows(standings(answers), now)


def test_many_answers_are_quick_enough_to_be_tried():
    chance = random.Random(1)
    answers = [Answer(NOON + place * 3000, chance.choice(list(BANK)), "1", "x", 1.0) for place in range(2000)]
    assert sum(one.answered for one in standings(answers)) > 2000
    look(answers)
