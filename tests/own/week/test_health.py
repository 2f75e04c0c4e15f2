"""Health comes first: nothing is planned before every question has an answer, nor where a clinician is needed."""

import itertools

import pytest

import shoulder_model as sm
from shoulder_model.inputs import InputError
from shoulder_model.week import Client, NoWeek, Plan, all_no, candidates, plan_week, questions
from shoulder_model.week.health import LIMITS, LOW_BACK, before_any_week

WOMAN = sm.Lifter.average("women")
NAMES = [question.name for question in questions()]
REFERRED = [question.name for question in questions() if question.follows not in LIMITS]


def ask(**fields):
    return plan_week(Client(WOMAN, "intermediate", 3, **fields))


def test_the_questions_ask_for_what_the_trade_asks():
    told = " ".join(f"{one.name} {one.words} {one.means}".lower() for one in questions())
    for word in ("shoulder", "arm", "chest", "faint", "numb", "dislocat", "surgery", "neck", "pregnan", "low back"):
        assert word in told
    assert all(one.means and one.where for one in questions())


def test_without_answers_there_is_no_week():
    answer = ask()
    assert isinstance(answer, NoWeek) and answer.kind == "ask" and "Health first" in answer.sentence


@pytest.mark.parametrize("name", NAMES)
def test_one_open_question_is_named(name):
    answer = ask(health=all_no() | {name: None})
    assert answer.kind == "ask" and name in answer.sentence
    left_out = {other: "no" for other in NAMES if other != name}
    assert ask(health=left_out) == answer


@pytest.mark.parametrize("name", REFERRED)
def test_a_yes_sends_to_a_clinician_and_says_where_today(name):
    one = next(question for question in questions() if question.name == name)
    answer = ask(health=all_no() | {name: "yes"})
    assert answer.kind in ("referral", "today") and one.where in answer.sentence
    assert not one.today or (one.today in answer.sentence and "emergency" in answer.sentence)
    assert not any(candidate.name in answer.sentence for candidate in candidates())
    assert ask(health={name: "yes"}).kind == answer.kind  # before the others are even answered


def test_chest_pain_is_for_today():
    assert ask(health=all_no() | {"chest or fainting": "yes"}).kind == "today"


def test_cleared_needs_what_was_said_and_then_gives_a_week():
    answers = all_no() | {"dislocation": "cleared"}
    with pytest.raises(InputError, match="who cleared"):
        ask(health=answers)
    with pytest.raises(InputError, match="who cleared"):
        ask(health=answers, cleared="  \n")
    plan = ask(health=answers, cleared="surgeon, nothing overhead", limits=("nothing overhead",))
    assert isinstance(plan, Plan) and plan.client.cleared == "surgeon, nothing overhead"
    assert not any(row.candidate.overhead for row in plan.rows)


def test_a_sore_low_back_limits_and_does_not_refer():
    plan = ask(health=all_no() | {"low back": "yes"}, equipment=("pulldown", "barbell", "low cable", "dumbbells"))
    assert isinstance(plan, Plan) and plan.client.holds == (LOW_BACK,)
    grades = [row.candidate.low_back for row in plan.rows]
    assert 2 not in grades
    assert sum(row.sets for row in plan.rows if row.candidate.low_back == 1) <= plan.rules.low_back_sets


@pytest.mark.parametrize("limit", LIMITS)
def test_limits_are_facts(limit):
    wanted = tuple(dict.fromkeys(one.family for one in candidates()))
    out = {
        LOW_BACK: lambda one: one.low_back == 2,
        "nothing overhead": lambda one: one.overhead,
        "no hanging": lambda one: one.position == "hanging",
        "no lying": lambda one: one.position in ("face up", "face down"),
    }[limit]
    assert any(out(one) for one in candidates())
    plan = ask(health=all_no(), limits=(limit,), prefer=wanted, own_weight_repetitions=9)
    assert not any(out(row.candidate) for row in plan.rows)


def test_every_mix_of_answers_ends_in_a_referral_a_question_or_a_week():
    for answers in itertools.product(("no", "yes", "cleared", None), repeat=3):
        health = all_no() | dict(zip(("shoulder", "pregnancy", "low back"), answers, strict=True))
        before = before_any_week(health)
        if "yes" in answers[:2]:
            assert before.kind == "referral"
        elif None in answers:
            assert before.kind == "ask"
        else:
            assert before is None


def test_wrong_answers_are_refused():
    for health, says in (({"shoulder": "maybe"}, "nearest|choose"), ({"knee": "no"}, "knee"), ("no", "dict")):
        with pytest.raises(InputError, match=says):
            Client(WOMAN, health=health)
    with pytest.raises(InputError, match="cleared"):
        Client(WOMAN, cleared="x" * 301)
