"""What to practise: due first, then new; replayed from the answers, whatever the clock does."""

import random
from dataclasses import replace
from datetime import datetime, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shoulder_model.inputs import InputError
from shoulder_model.practice import schedule
from shoulder_model.practice.bank import Template
from shoulder_model.practice.record import Answer
from shoulder_model.practice.schedule import (
    DAY,
    NEW_A_DAY,
    cards,
    next_due,
    now_for,
    of_chapter,
    of_objective,
    rating,
    steady_times,
    today,
    what_i_get_wrong,
)

NOON = datetime(2026, 3, 4, 12).timestamp()
BANK = {
    name: Template(name, ids, section, False, None)
    for name, ids, section in (
        ("line one", ("02.line",), "2.1"),
        ("line two", ("02.line",), "2.1"),
        ("weight", ("02.arm weight", "03.wider"), "2.4"),
        ("grip one", ("03.centimetres",), "3.3"),
        ("grip two", ("03.centimetres",), "3.3"),
        ("grip three", ("03.centimetres",), "3.3"),
        ("wider", ("03.wider",), "3.2"),
        ("torques", ("03.both torques", "02.line"), "3.3"),
        ("last", ("a2.misses",), "a2.4"),
    )
}


@pytest.fixture(autouse=True)
def bank(monkeypatch):
    """A small bank of invented templates."""
    monkeypatch.setattr(schedule, "templates", lambda: BANK)


def said(name, at, score=1.0, **more):
    return Answer(at, name, "1", "x", score, **more)


def test_ratings():
    given = [(0.0, False), (0.0, True), (0.5, False), (0.5, True), (1.0, True), (1.0, False)]
    assert [rating(said("wider", 1, score, hint=hint)) for score, hint in given] == [1, 1, 2, 2, 2, 3]


def test_new_ones_come_by_chapter_and_spread_over_objectives():
    assert today((), NOON) == ("line one", "weight", "line two", "grip one", "wider", "torques")
    assert today((), NOON, most=2) == ("line one", "weight") and today((), NOON, most=0) == ()


def test_no_more_than_some_new_ones_a_day():
    answers = [said(name, NOON - 60) for name in ("line one", "weight")]
    names = today(answers, NOON)
    assert len(names) == NEW_A_DAY - 2 and names == ("line two", "grip one", "wider", "torques")
    night = NOON - 13 * 3600  # of the day before
    assert len(today([replace(one, at=night) for one in answers], night + 1)) == NEW_A_DAY - 2
    later = today([replace(one, at=night) for one in answers], NOON)
    assert later == ("line one", "weight", *names, "grip two", "grip three")  # the two are due again, and six new


def test_due_ones_come_first_and_the_longest_overdue_before():
    answers = [said("wider", NOON), said("torques", NOON + 1, 0.0), said("grip one", NOON + 2, 0.5)]
    known = cards(answers)
    assert [round(known[one.template].due - one.at) for one in answers] == [600, 60, 330]
    assert today(answers, NOON + 30)[0] not in known
    assert today(answers, NOON + 62)[:1] == ("torques",) and today(answers, NOON + 62)[1] not in known
    assert today(answers, NOON + 700)[:3] == ("torques", "grip one", "wider")
    assert today(answers, NOON + 700, most=1) == ("torques",)
    assert next_due(answers, NOON) == (0, NOON + 61) and next_due(answers, NOON + 400) == (2, NOON + 600)
    assert next_due((), NOON) == (0, None)


def test_an_answer_of_an_exam_counts_and_an_open_item_does_not():
    exam = [
        said("wider", NOON, exam="Mock exam/A/2"),
        replace(said("torques", NOON, 0.0, exam="Mock exam/A/2"), text=""),
    ]
    assert set(cards(exam)) == {"wider"} and "torques" in today(exam, NOON)


def test_a_template_that_is_gone_is_not_asked():
    answers = [said("no longer there", NOON, 0.0), said("wider", NOON)]
    later = NOON + 90 * DAY
    for names in (today(answers, later), of_chapter("03", answers, later), what_i_get_wrong(answers, later)):
        assert "no longer there" not in names
    assert next_due(answers, later)[0] == 1


def test_one_chapter_and_one_objective():
    answers = [said("grip two", NOON), said("grip one", NOON, 0.0), said("wider", NOON + 5)]
    now = NOON + 100
    assert of_chapter("03", answers, now) == ("grip one", "grip three", "torques", "grip two", "wider")
    assert of_objective("03.wider", answers, now) == ("weight", "wider")
    assert of_objective("02.line", (), now) == ("line one", "line two", "torques")
    assert of_objective("10.week", (), now) == ()
    for ask, name in ((of_chapter, "3"), (of_objective, "03")):
        with pytest.raises(InputError):
            ask(name, answers, now)


def test_what_i_get_wrong_has_the_last_wrong_ones_with_most_points_lost_first():
    answers = [said("wider", NOON + place, 0.0) for place in range(3)]
    answers += [said("torques", NOON + 10 + place, 0.0) for place in range(2)]
    answers += [said("last", NOON + 20, 0.0), said("last", NOON + 21), said("grip one", NOON + 30, 0.5)]
    assert what_i_get_wrong(answers, NOON + 40) == ("wider", "torques", "grip one")
    assert what_i_get_wrong(answers, NOON + 40, most=1) == ("wider",)
    assert what_i_get_wrong([*answers, said("wider", NOON + 50)], NOON + 60) == ("torques", "grip one")
    assert what_i_get_wrong((), NOON) == ()
    equal = [said("torques", NOON - 90 * DAY, 0.0), said("wider", NOON, 0.0)]
    assert what_i_get_wrong(equal, NOON) == ("torques", "wider")  # the one that is less likely to be right now


def test_the_plan_comes_from_the_answers_alone():
    chance = random.Random(5)
    answers = [
        said(
            chance.choice(list(BANK)),
            NOON + place * 90_000,
            chance.choice((0, 0.5, 1, 1, 1)),
            hint=chance.random() < 0.2,
        )
        for place in range(200)
    ]
    assert cards(answers) == cards(tuple(answers))
    assert sum(card.due - card.last > 5 * DAY for card in cards(answers).values()) > 3
    now = NOON + 210 * 90_000
    moved = [replace(one, at=one.at + 1000 * DAY) for one in answers]
    assert today(answers, now) == today(moved, now + 1000 * DAY)
    for name, card in cards(answers).items():
        alone = cards([one for one in answers if one.template == name])[name]
        assert (alone.due, alone.stability, alone.difficulty) == (card.due, card.stability, card.difficulty)
        assert 0 < card.recall(now + DAY) < card.recall(now) <= 1 or card.recall(now) == 1


def test_recall_falls_with_time_and_is_ninety_per_cent_after_the_stability():
    for days in range(3):
        [card] = cards([said("wider", NOON + place * DAY * days) for place in range(5)]).values()
        whole = round(card.stability)
        assert card.recall(card.last + whole * DAY + 1) == pytest.approx(0.9, abs=0.03)
        assert card.recall(NOON - DAY) == card.recall(card.last) == 1


def test_a_clock_that_is_set_back_makes_nothing_due_and_nothing_lost():
    answers = [said("wider", NOON), said("wider", NOON + 3 * DAY)]
    due = cards(answers)["wider"].due
    back = [*answers, said("torques", NOON - 400 * DAY)]
    assert steady_times(back) == [NOON - 403 * DAY, NOON - 400 * DAY, NOON - 400 * DAY]
    assert cards(back)["wider"].due == due - 403 * DAY  # the same days from now
    assert cards(back)["wider"].stability == cards(answers)["wider"].stability
    assert now_for(back, NOON - 500 * DAY) == NOON - 400 * DAY and now_for((), 5.0) == 5.0
    assert today(back, NOON - 500 * DAY) == today(back, NOON - 400 * DAY)


def test_a_clock_that_ran_ahead_once_does_not_stop_practice_for_years():
    ahead = [said("wider", NOON), said("wider", NOON + 70 * 365 * DAY), said("torques", NOON + DAY, 0.0)]
    assert steady_times(ahead)[:2] == [NOON + DAY - 3660 * DAY, NOON + DAY]  # ten years, however far it ran
    known = cards(ahead)
    assert known["wider"].due < NOON + 9000 * DAY and known["torques"].due == NOON + DAY + 60
    assert today(ahead, NOON + DAY + 61)[0] == "torques"


@given(
    st.lists(st.tuples(st.floats(-1e12, 1e12), st.sampled_from(list(BANK)), st.sampled_from([0, 0.5, 1])), max_size=25),
    st.floats(0, 3e10),
)
def test_no_clock_is_too_wild(rows, now):
    answers = [said(name, at, score) for at, name, score in rows]
    times = steady_times(answers)
    assert times == sorted(times) and len(times) == len(answers)
    assert not answers or times[-1] == pytest.approx(answers[-1].at, abs=1e-3)
    names = today(answers, now)
    assert len(set(names)) == len(names) <= schedule.MOST and set(names) <= set(BANK)
    assert set(of_chapter("03", answers, now)) == {name for name, one in BANK.items() if one.chapter == "03"}
    assert set(what_i_get_wrong(answers, now)) <= set(cards(answers))
    for card in cards(answers).values():
        assert card.due > card.last >= card.began and card.stability > 0 and 1 <= card.difficulty <= 10
        assert datetime(1800, 1, 1) < datetime(1970, 1, 1) + timedelta(seconds=card.due)
