"""The desk without a page: sets, verdicts, what is kept, a mock exam from start to end, and the record erased."""

import itertools
import json

import pytest

from shoulder_model.inputs import InputError
from shoulder_model.practice.asks import Number
from shoulder_model.practice.bank import make, templates
from shoulder_model.practice.desk import MOST, Desk
from shoulder_model.practice.record import Record

START, MINUTE = 1_700_000_000.0, 60.0


class Clock:
    """A clock that goes on by itself, and can be set."""

    def __init__(self, at=START):
        self.at = at

    def __call__(self):
        self.at += 1.0
        return self.at


@pytest.fixture
def clock():
    return Clock()


@pytest.fixture
def desk(tmp_path, clock):
    return a_desk(tmp_path, clock)


def a_desk(folder, clock):
    """A desk whose seeds are counted."""
    seeds = map(str, itertools.count(1))
    return Desk(Record(folder / "practice.sqlite"), clock, lambda: next(seeds))


def open_question(desk):
    """The item on the desk."""
    return desk.questions[desk.place if desk.sitting else -1].item


def right(item):
    """The right answer as somebody types it."""
    return item.ask.shown(item.ask.key) if isinstance(item.ask, Number) else item.ask.key


def wrong(item):
    """A wrong answer that can be read."""
    ask = item.ask
    if isinstance(ask, Number):
        return f"{3 * ask.key + 7:.3f}"
    if ask.kind == "order":
        return ask.key[::-1]
    if ask.kind == "pick":
        return next(
            "".join(pair) for pair in itertools.combinations(ask.letters, ask.count) if "".join(pair) != ask.key
        )
    if ask.kind == "reasoned":
        return next(a + b for a in ask.signs[0] for b in ask.signs[1] if a != ask.key[0])
    return next(sign for sign in ask.signs if sign != ask.key)


def test_the_first_evening_has_new_questions_and_nothing_weak(desk):
    view = desk.view
    assert view["screen"] == "home" and view["title"] == "What do you want to practise?"
    tiles = {tile["what"]: tile for tile in view["tiles"]}
    assert tiles["today"]["more"] == "6 new" and not tiles["today"]["off"]
    assert tiles["wrong"]["off"] and not tiles["progress"]["off"] and not tiles["exam"]["off"]
    assert len(view["choosers"][0]["options"]) == 14 and len(view["choosers"][1]["options"]) == 53


def test_a_set_from_first_to_last(desk):
    view, seen = desk.act("today"), []
    while view["screen"] == "question":
        assert view["verdict"] is None and view["hint"] == "" and view["focus"] == "title"
        assert view["title"] == f"Question {len(seen) + 1} of 6"
        seen.append(open_question(desk).template)
        view = desk.act("answer", text=right(open_question(desk)))
        verdict = view["verdict"]
        assert verdict["mark"] == "right" and verdict["key"] and verdict["solution"] and view["focus"] == "next"
        view = desk.act("next")
    assert view["title"] == "That was the set" and view["lines"][0] == "6 of 6 right at the first try."
    assert [answer.template for answer in desk.record.answers()] == seen
    assert all(answer.score == 1 and answer.seconds > 0 and not answer.hint for answer in desk.record.answers())


def test_what_is_wrong_gets_another_try_and_comes_once_more(desk):
    desk.act("chapter", value="03")
    item, size = open_question(desk), desk.size
    view = desk.act("answer", text=wrong(item))
    assert view["verdict"]["mark"] == "wrong" and view["verdict"]["key"] == "" == "".join(view["verdict"]["solution"])
    assert view["verdict"]["words"].endswith("Try again, or press Show me.") and view["focus"] == "answer"
    assert desk.act("next")["title"].startswith("Question 1 of"), "not before it is over"
    view = desk.act("answer", text=right(item))
    assert (
        view["verdict"]["words"].endswith("Your first answer is the one that counts.") and view["verdict"]["solution"]
    )
    assert [answer.score for answer in desk.record.answers()] == [0.0]
    view = desk.act("next")
    assert view["title"] == f"Question 2 of {size + 1}" and desk.waiting[-1] == item.template
    while view["screen"] == "question":
        item = open_question(desk)
        desk.act("answer", text=right(item))
        view = desk.act("next")
    asked = [question.item for question in desk.questions]
    assert asked[-1].template == asked[0].template and asked[-1].seed != asked[0].seed
    assert view["lines"][0].startswith(f"{size - 1} of {size} right")


def test_what_cannot_be_read_is_asked_for_again_and_not_kept(desk):
    desk.act("objective", value="03.centimetres")
    view = desk.act("answer", text="wide")
    assert (
        view["trouble"]
        and view["verdict"] is None
        and view["ask"]["given"] == "wide"
        and view["say"] == view["trouble"]
    )
    assert desk.record.answers() == ()


def test_the_hint_counts_and_giving_up_is_wrong(desk):
    desk.act("today")
    view = desk.act("hint")
    assert view["hint"] == open_question(desk).hint
    desk.act("answer", text=right(open_question(desk)))
    desk.act("next")
    view = desk.act("show")
    assert view["verdict"]["solution"] and view["verdict"]["words"].startswith("Here is the solution.")
    first, second = desk.record.answers()
    assert (first.hint, first.score) == (True, 1.0) and (second.score, second.text, second.is_open) == (0.0, "?", False)


def test_no_view_tells_the_answer_before_it_is_over(desk):
    for name in templates():
        desk.waiting, desk.size, desk.sitting = [name], 1, None
        view = desk._next_question()
        item = open_question(desk)
        told = json.dumps({key: view[key] for key in ("ask", "verdict", "hint", "say", "trouble")})
        assert '"key"' not in told and item.solution[-1] not in json.dumps(view)
        json.loads(json.dumps(view))


def test_wrong_ones_come_under_what_i_get_wrong(desk, clock):
    desk.act("today")
    item = open_question(desk)
    desk.act("answer", text=wrong(item))
    desk.act("show")
    desk.act("home")
    view = desk.act("wrong")
    assert view["title"] == "Question 1 of 1" and open_question(desk).template == item.template
    assert open_question(desk).seed != item.seed


def test_a_chapter_and_an_objective_have_their_own_questions(desk):
    desk.act("chapter", value="09")
    assert 1 <= desk.size <= MOST
    assert {templates()[name].chapter for name in [open_question(desk).template, *desk.waiting]} == {"09"}
    desk.act("objective", value="10.log")
    assert all("10.log" in templates()[name].objectives for name in [open_question(desk).template, *desk.waiting])


@pytest.mark.parametrize(
    ("what", "more"),
    [("dance", {}), ("chapter", {"value": "99"}), ("objective", {"value": ""}), ("answer", {"text": "1"}), ("go", {"place": 3}),
     ("hint", {}), ("show", {}), ("next", {})],
)  # fmt: skip
def test_what_makes_no_sense_is_refused(desk, what, more):
    with pytest.raises(InputError):
        desk.act(what, **more)


def test_a_whole_mock_exam(desk):
    assert "nobody's official exam" in desk.act("exam")["lines"][0]
    view = desk.act("start")
    assert view["title"] == "Question 1 of 40" and 59 * MINUTE < view["left"] <= 60 * MINUTE and not view["has_hint"]
    for place in range(40):
        item = open_question(desk)
        view = desk.act("answer", text=right(item) if place % 2 else wrong(item))
        assert view["verdict"] is None and view["hint"] == "" and view["say"] == f"Answer {place + 1} is kept."
    assert desk.place == 39, "it stays at the last one"
    assert desk.act("go", place=0)["ask"]["given"]
    desk.act("answer", text=right(open_question(desk)))  # changed
    assert desk.act("finish")["lines"] == ["Every question is answered."]
    view = desk.act("hand_in")
    assert view["title"] == "The result" and view["lines"][0].startswith("You have 21 of 40 points: 52 %")
    whole, *parts = view["parts"][-1]["table"]["rows"]
    assert whole[:3] == ["all", "40", "21"] and len(parts) > 12
    assert desk.act("home")["tiles"][2]["more"] == "40 questions in 60 minutes"
    again = desk.act("start")
    assert again["title"] == "Question 1 of 40" and len({answer.exam for answer in desk.record.answers()}) == 1
    assert desk.sitting.id != desk.record.answers()[-1].exam


def test_what_is_open_at_the_end_counts_as_wrong(desk):
    desk.act("start")
    desk.act("answer", text=right(open_question(desk)))
    assert desk.act("finish")["lines"][0].startswith("39 questions are still open.")
    assert desk.act("back")["title"] == "Question 2 of 40"
    lines = desk.act("hand_in")["lines"]
    assert (
        lines[0].startswith("You have 1 of 40 points") and lines[1] == "39 questions were left open and count as wrong."
    )
    assert [answer.is_open for answer in desk.record.answers()].count(True) == 39


def test_the_clock_ends_an_exam_and_not_before(desk, clock):
    desk.act("start")
    desk.act("answer", text=right(open_question(desk)))
    assert desk.act("time")["title"].startswith("Question"), "a page whose clock runs fast"
    clock.at += 60 * MINUTE
    assert desk.act("time")["title"] == "The result"
    assert desk.act("time")["title"] == "The result", "said twice"


def test_an_exam_goes_on_with_another_kernel(desk, clock, tmp_path):
    desk.act("start")
    first = open_question(desk)
    desk.act("answer", text=right(first))
    clock.at += 20 * MINUTE
    other = a_desk(tmp_path, clock)
    assert other.view["tiles"][2]["more"] == "one is open, 40 minutes left"
    assert "An exam is open." in " ".join(other.act("exam")["lines"])
    view = other.act("start")
    assert view["exam"]["answered"] == [True] + 39 * [False] and 39 * MINUTE < view["left"] < 40 * MINUTE
    view = other.act("go", place=0)
    assert open_question(other) == first
    given, was_given = view["ask"]["given"], desk.questions[0].given
    if first.ask.kind == "pick":
        assert given == [letter for letter in was_given if letter.isalpha()]
    else:
        assert given == (was_given.replace(" ", "") if first.ask.kind == "order" else was_given)
    clock.at += 50 * MINUTE
    assert a_desk(tmp_path, clock).view["tiles"][2]["more"] == "40 questions in 60 minutes", "its time is over"


def test_a_second_click_hits_no_other_question_and_loses_no_result(desk):
    desk.act("start")
    item = open_question(desk)
    desk.act("answer", text=right(item), at=item.seed)
    before = desk.view
    assert desk.act("answer", text=right(item), at=item.seed) == before and desk.place == 1
    desk.act("finish")
    result = desk.act("hand_in")
    assert desk.act("hand_in") == result and result["title"] == "The result"


def test_what_was_chosen_is_kept_when_another_question_is_shown(desk):
    desk.act("start")
    item = open_question(desk)
    view = desk.act("go", place=3, text=right(item), at=item.seed)
    assert view["exam"]["answered"][:4] == [True, False, False, False]
    view = desk.act("go", place=5, text="half a th", at=open_question(desk).seed)
    assert view["exam"]["answered"][3] is False, "what is no answer is left"


def test_an_exam_that_was_handed_in_elsewhere_is_over(desk, clock, tmp_path):
    desk.act("start")
    desk.act("answer", text=right(open_question(desk)))
    other = a_desk(tmp_path, clock)
    assert other.act("start")["title"] == "Question 2 of 40", "it goes on at the first open question"
    other.act("hand_in")
    assert desk.act("answer", text=right(open_question(desk)))["title"] == "The result"
    assert sum(answer.score for answer in desk.record.answers()) == 1


def test_after_the_time_no_answer_is_taken(desk, clock):
    desk.act("start")
    clock.at += 61 * MINUTE
    assert desk.act("answer", text=right(open_question(desk)))["title"] == "The result"


def test_after_a_second_wrong_answer_the_solution_is_shown(desk):
    desk.act("chapter", value="03")
    item = open_question(desk)
    desk.act("answer", text=wrong(item))
    assert desk.act("answer", text=wrong(item))["verdict"]["solution"]


def test_a_hint_keeps_what_was_typed(desk):
    desk.act("objective", value="03.centimetres")
    view = desk.act("hint", text="57 c")
    assert view["ask"]["given"] == "57 c" and view["say"] == view["hint"]
    assert view["about"].endswith("turn a client's shoulder breadth into grips in centimetres")


def test_the_answer_and_the_last_line_of_its_solution_are_the_same():
    for name in templates():
        item = make(name, 3)
        if isinstance(item.ask, Number):
            last = next(line for line in reversed(item.working) if line.value is not None)
            assert last.text.endswith(f"= {item.right_answer}") and item.judge(item.right_answer).score == 1


def test_an_exam_of_ones_own(tmp_path, clock, desk):
    desk.act("start")
    desk.act("answer", text=right(open_question(desk)))
    (tmp_path / "short.toml").write_text('title = "Levers"\nminutes = 10\nitems = 6\n[chapters]\n02 = 1\n05 = 1\n')
    own = Desk(desk.record, clock, blueprint=tmp_path / "short.toml")
    assert own.view["tiles"][2]["more"] == "6 questions in 10 minutes", "the other exam that is open is another one"
    view = own.act("start")
    assert view["title"] == "Question 1 of 6" and {templates()[one.item.template].chapter for one in own.questions} == {
        "02",
        "05",
    }


def test_a_clock_that_is_set_back_does_no_harm(desk, clock):
    desk.act("today")
    desk.act("answer", text=right(open_question(desk)))
    clock.at -= 400 * 24 * 60 * MINUTE
    desk.act("next")
    desk.act("answer", text=wrong(open_question(desk)))
    desk.act("show")
    assert all(answer.seconds >= 0 for answer in desk.record.answers())
    assert desk.act("home")["screen"] == "home" and desk.act("progress")["parts"][0]["table"]["rows"]
    assert desk.act("start")["left"] > 59 * MINUTE


def test_what_is_weak_and_the_record_erased(desk):
    desk.act("today")
    desk.act("answer", text=wrong(open_question(desk)))
    desk.act("show")
    view = desk.act("progress")
    assert view["svg"].startswith("<svg") and view["parts"][0]["table"]["rows"]
    assert desk.act("ask_erase")["lines"][0] == "This erases 1 answer on this computer. There is no way back."
    view = desk.act("erase")
    assert view["say"] == "Your record is erased." and desk.record.answers() == ()


def test_a_record_saved_elsewhere_is_taken_over(desk, tmp_path, clock):
    desk.act("today")
    desk.act("answer", text=right(open_question(desk)))
    other = a_desk(tmp_path / "elsewhere", clock)
    view = other.act("take", content=desk.record.export())
    assert view["title"] == "What is weak" and view["lines"][0].startswith("1 answer taken over")
    assert other.record.answers() == desk.record.answers()
    before = other.record.answers()
    assert other.act("take", content=b"no table")["lines"][0] and other.record.answers() == before


def test_leaving_says_that_the_clock_goes_on_only_where_it_does(desk):
    assert desk.act("start")["away"][0][0] == "Leave"
    view = desk.act("answer", text=right(open_question(desk)))
    assert view["away"][0][0] == "Leave, the clock goes on"


def test_after_the_time_a_draft_is_not_taken(desk, clock):
    desk.act("start")
    item = open_question(desk)
    clock.at += 61 * MINUTE
    assert desk.act("go", place=2, text=right(item), at=item.seed)["title"] == "The result"
    assert all(answer.is_open for answer in desk.record.answers())


def test_a_record_that_cannot_be_written_is_said_on_the_page(desk, monkeypatch):
    monkeypatch.setattr(
        Record, "add", lambda self, answer: "The disk is full; your answer is kept until this page is closed."
    )
    desk.act("today")
    view = desk.act("answer", text=right(open_question(desk)))
    assert view["notes"] == ["The disk is full; your answer is kept until this page is closed."]
    assert view["verdict"]["mark"] == "right", "and practice goes on"


def test_questions_on_the_desk_are_those_of_the_bank(desk):
    desk.act("today")
    item = open_question(desk)
    assert make(item.template, item.seed) == item and desk.view["question"] == list(item.question)
