"""The mock exam: its blueprint, what is drawn, what the result says."""

import math
import random
import tomllib
from collections import Counter
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shoulder_model.inputs import InputError
from shoulder_model.practice import blueprint, exam
from shoulder_model.practice.asks import Choice
from shoulder_model.practice.bank import Template, templates
from shoulder_model.practice.blueprint import STANDARD, Blueprint, parse_blueprint, read_blueprint
from shoulder_model.practice.exam import OFFICIAL, draw, new_seed, result, share_interval
from shoulder_model.practice.item import Item
from shoulder_model.practice.objectives import chapters
from shoulder_model.practice.question import Question
from shoulder_model.practice.record import Record
from shoulder_model.practice.slips import Slip

BANK = {
    f"{objective} {place}": Template(
        f"{objective} {place}", (objective, "10.week"), f"{objective[1]}.{place}", False, None
    )
    for objective, count in (("02.line", 3), ("02.arm weight", 2), ("03.wider", 4), ("03.choose", 1), ("a1.edges", 2))
    for place in range(1, count + 1)
}
TEXT = 'title = "Test"\nminutes = 30\nitems = 10\n[chapters]\n02 = 2\n[objectives]\n"03.wider" = 1\n"03.choose" = 1\n'


def made(name, seed):
    """An invented item: b is right, c is a slip."""
    ask = Choice(("one", "two", "three"), "b")
    return Item((f"{name} with {seed}",), ask, "", (), (Slip("whole load", "c", 0),), template=name, seed=seed)


@pytest.fixture
def bank(monkeypatch):
    """A small bank of invented templates."""
    for module in (blueprint, exam):
        monkeypatch.setattr(module, "templates", lambda: BANK)
    monkeypatch.setattr(exam, "make", made)


def names(drawn):
    return [item.template for item in drawn.items]


def test_each_chapter_or_objective_has_its_share(bank):
    drawn = draw(parse_blueprint(TEXT), "K7Q")
    count = Counter(BANK[name].objectives[0] for name in names(drawn))
    assert count["02.line"] + count["02.arm weight"] == 5 and count["03.wider"] == 3 and count["03.choose"] == 2
    assert drawn.id == "Test/K7Q/10" and drawn.minutes == 30 and drawn.title == "Test"


@given(st.lists(st.integers(1, 50), min_size=1, max_size=12), st.integers(1, 200))
def test_largest_remainders(weights, items):
    shares = {str(place): float(weight) for place, weight in enumerate(weights)}
    counts = Blueprint("Test", 60.0, items, shares).counts()
    assert list(counts) == list(shares) and sum(counts.values()) == items
    exact = {name: items * weight / sum(weights) for name, weight in shares.items()}
    assert all(abs(counts[name] - exact[name]) < 1 for name in shares)
    up = [exact[name] % 1 for name in shares if counts[name] > exact[name] + 1e-6]
    down = [exact[name] % 1 for name in shares if counts[name] < exact[name] - 1e-6]
    assert not up or not down or min(up) >= max(down) - 1e-6


def test_largest_remainders_by_hand():
    # 10 seats for 53, 24 and 23: 5.3, 2.4 and 2.3; one is left and goes to the second
    assert Blueprint("Test", 60.0, 10, {"a": 53.0, "b": 24.0, "c": 23.0}).counts() == {"a": 5, "b": 3, "c": 2}
    assert Blueprint("Test", 60.0, 2, dict.fromkeys("abc", 1.0)).counts() == {"a": 1, "b": 1, "c": 0}


def test_no_template_comes_twice_while_another_is_left(bank):
    for seed in range(20):
        count = Counter(names(draw(parse_blueprint(TEXT), seed)))
        assert max(count[name] for name in BANK if name.startswith("02")) == 1  # 5 of 5
        assert max(count[name] for name in BANK if name.startswith("03.wider")) == 1  # 3 of 4
        assert count["03.choose 1"] == 2
    big = draw(parse_blueprint(TEXT.replace("items = 10", "items = 40")), "K7Q")
    count = Counter(names(big))
    assert {count[name] for name in BANK if name.startswith("02")} == {4}
    assert len({item.question for item in big.items}) == 40, "the same question twice"


def test_objectives_of_a_chapter_take_turns(bank):
    for seed in range(20):
        drawn = draw(parse_blueprint(TEXT.replace("items = 10", "items = 8")), seed)
        assert Counter(name.rpartition(" ")[0] for name in names(drawn))["02.line"] == 2  # of 4 in the chapter


def test_the_same_seed_gives_the_same_exam_and_another_another(bank):
    plan = parse_blueprint(TEXT)
    assert draw(plan, "K7Q") == draw(plan, "K7Q")
    other = draw(plan, "K7R")
    assert names(other) != names(draw(plan, "K7Q"))
    assert not {item.question for item in other.items} & {item.question for item in draw(plan, "K7Q").items}
    assert draw(replace(plan, title="Other"), "K7Q") != draw(plan, "K7Q")
    assert len({frozenset(names(draw(plan, seed))) for seed in range(20)}) > 3
    for wrong in ("", "a/b", "x" * 41, "é", "a b"):
        with pytest.raises(InputError):
            draw(plan, wrong)


def test_real_items_are_drawn_with_numbers_of_their_own():
    plan = parse_blueprint('title = "Test"\nminutes = 10\nitems = 12\n[chapters]\n03 = 1')
    first, second = draw(plan, "A"), draw(plan, "B")
    assert first == draw(plan, "A")
    assert len({(*item.question, str(item.ask)) for item in (*first.items, *second.items)}) >= 22
    for drawn in (first, second):
        for place, item in enumerate(drawn.items):
            typed = item.ask.key if isinstance(item.ask.key, str) else item.ask.shown(item.ask.key)
            assert an_answer(drawn, place, typed, 5.0).score == 1


def test_a_new_seed_is_one_that_was_not_used(bank, monkeypatch):
    plan = parse_blueprint(TEXT)
    used = [an_answer(draw(plan, "AAAAAA"), 0, "b", 1.0)]
    letters = iter("AAAAAA" + "AAAAAB")
    monkeypatch.setattr(exam.secrets, "choice", lambda _: next(letters))
    assert new_seed(used) == "AAAAAB"
    monkeypatch.undo()
    assert draw(plan_of_chapter_3(), new_seed(())).items


def plan_of_chapter_3():
    return parse_blueprint('title = "Test"\nminutes = 5\nitems = 2\n[chapters]\n03 = 1')


def an_answer(drawn, place, text, at):
    """The answer to one item of an exam, after 30 s, as the desk keeps it."""
    return Question(drawn.items[place], at - 30.0, drawn.id).answer(text, at)


def answered(drawn, typed):
    """Answers to the first items."""
    return [an_answer(drawn, place, text, 1e9 + place) for place, text in enumerate(typed)]


def test_open_items_count_as_wrong_and_are_told(bank, tmp_path):
    drawn, record = draw(parse_blueprint(TEXT), "K7Q"), Record(tmp_path / "practice.sqlite")
    given = answered(drawn, "bbbbca")
    record.add_all(given)
    assert record.exams() == {} and list(record.open_exams()) == [drawn.id]
    others = [replace(one, exam=exam) for one in given for exam in ("", "Test/OTHER/10")]
    assert len(drawn.left_open(others, 2e9)) == 10
    rest = drawn.left_open(record.answers(), 2e9)
    assert [one.template for one in rest] == names(drawn)[6:] and all(one.is_open and not one.score for one in rest)
    record.add_all(rest)
    assert drawn.left_open(record.answers(), 2e9) == ()
    found = result(record.exams()[drawn.id])
    assert (found.whole.points, found.whole.asked, found.left_open, found.seconds) == (4, 10, 4, 180)
    assert found.slips == (("whole load", 1),)
    assert found.words[0].startswith("You have 4 of 10 points: 40 %.")
    assert found.words[1] == "4 questions were left open and count as wrong."
    assert found.words[-1] == OFFICIAL and "nobody's official exam" in OFFICIAL


def test_points_add_up_over_chapters_and_objectives(bank):
    chance = random.Random(2)
    plan = parse_blueprint(TEXT.replace("items = 10", "items = 33"))
    for seed in range(10):
        drawn = draw(plan, seed)
        given = [
            replace(one, score=chance.choice((0, 0.5, 1)))
            for one in answered(drawn, [chance.choice("abc") for _ in drawn.items])
        ]
        found = result(given)
        for parts in (found.chapters, found.objectives):
            assert sum(part.asked for part in parts) == 33 and sum(part.points for part in parts) == found.whole.points
            assert all(part.low <= part.share <= part.high for part in parts)
        assert [part.id for part in found.chapters] == ["02", "03"]
        assert sum(one.lost for one in found.readings) == 33 - found.whole.points
        lost = [one.lost for one in found.readings]
        assert lost == sorted(lost, reverse=True)
        assert found.rows[0][0] == "chapter, skill" and len(found.rows) == 2 + len(found.chapters) + len(
            found.objectives
        )
        assert all(len(row) == 5 and all(isinstance(cell, str) for cell in row) for row in found.rows)
        assert all(sentence.endswith((".", "!")) and "  " not in sentence for sentence in found.words)


def test_what_to_read_again_names_section_and_notebook(bank):
    drawn = draw(parse_blueprint(TEXT), "K7Q")
    typed = ["a" if item.template == "03.choose 1" else "b" for item in drawn.items]
    found = result(answered(drawn, typed))
    assert [(one.section, one.notebook, one.lost) for one in found.readings] == [("3.1", "03_grip_width", 2)]
    assert "Weakest: 3 Grip width (3 of 5)." in found.words
    assert "Everything was right." in result(answered(drawn, "b" * 10)).words


def test_the_last_of_two_answers_counts_and_one_of_another_version_is_kept(bank):
    drawn = draw(parse_blueprint(TEXT), "K7Q")
    given = answered(drawn, "b" * 10)
    assert result([*given, an_answer(drawn, 0, "a", 2e9)]).whole.points == 9
    found = result([replace(given[0], template="renamed since"), *given[1:]])
    assert found.whole.points == 10 and found.chapters[-1].words == "items of another version"
    with pytest.raises(InputError):
        result(())


def test_an_answer_that_cannot_be_read_is_not_taken(bank):
    drawn = draw(parse_blueprint(TEXT), "K7Q")
    assert an_answer(drawn, 0, "no idea", 1.0) is None


@pytest.mark.parametrize(("points", "asked"), [(0, 3), (3, 3), (7, 10), (27, 40), (1, 1), (0, 1)])
def test_a_range_is_the_score_interval_worked_out_by_hand(points, asked):
    z, share = 1.959963984540054, points / asked
    middle = (share + z * z / (2 * asked)) / (1 + z * z / asked)
    half = z * math.sqrt(share * (1 - share) / asked + z * z / (4 * asked**2)) / (1 + z * z / asked)
    assert share_interval(points, asked) == pytest.approx((max(middle - half, 0), min(middle + half, 1)), abs=1e-9)


def test_half_points_make_a_range_wider_and_never_narrower():
    low, high = share_interval(6.5, 10)
    assert (low, high) == (share_interval(6, 10)[0], share_interval(7, 10)[1])


def test_the_blueprint_that_comes_with_the_package():
    table = tomllib.loads(STANDARD.read_text(encoding="utf-8"))
    assert (table["items"], table["minutes"]) == (40, 60) and list(table["chapters"]) == list(chapters())
    empty = sorted(set(chapters()) - {one.chapter for one in templates().values()})
    if empty:  # of a bank that is not whole
        with pytest.raises(InputError, match=f"chapters, {empty[0]}: there are no items for it"):
            read_blueprint()
        pytest.skip(f"no items for chapters {', '.join(empty)}")
    plan = read_blueprint()
    drawn = draw(plan, "K7Q")
    assert len(drawn.items) == 40 and {templates()[name].chapter for name in names(drawn)} == set(chapters())
    assert plan.counts() == {name: int(weight) for name, weight in table["chapters"].items()}


WRONG = {
    "a = [": "line 1: put text in",
    "= 1": "line 1: a line begins with a key",
    "": "title",
    TEXT.replace('"Test"', '""'): "title",
    TEXT.replace('"Test"', "3"): "title",
    TEXT.replace("Test", "a/b"): "title",
    TEXT.replace("Test", "x" * 61): "title",
    TEXT.replace("Test", r"a\u0007b"): "title",
    TEXT.replace("30", "0"): "minutes",
    TEXT.replace("30", "true"): "minutes",
    TEXT.replace("30", "nan"): "minutes",
    TEXT.replace("30", '"30"'): "minutes",
    TEXT.replace("minutes = 30\n", ""): "minutes is missing",
    TEXT.replace("10", "2.5"): "items",
    TEXT.replace("10", "201"): "items",
    TEXT.replace("02 = 2", "02 = -1"): "chapters, 02",
    TEXT.replace("02 = 2", "02 = inf"): "chapters, 02",
    TEXT.replace("02 = 2", "2 = 2"): "chapters '2'",
    TEXT.replace("02 = 2", "07 = 2"): "chapters, 07: there are no items",
    TEXT.replace("02 = 2", "03 = 2"): "chapter 03 is given too",
    TEXT.replace("03.wider", "03.wide"): "nearest: 03.wider",
    TEXT.replace("03.wider", "10.week"): "objectives, 10.week: there are no items",
    TEXT + "[more]\n": "'more'",
    'title = "Test"\nminutes = 30\nitems = 10': "at least one chapter",
    'title = "Test"\nminutes = 30\nitems = 10\nchapters = 3': "chapters: this is a table",
    "[" * 5000: "line 1: the line has 5000 characters",
    TEXT.replace("items = 10", "items = " + "9" * 3900): "items = ",
}


@pytest.mark.parametrize("text", WRONG, ids=lambda text: WRONG[text])
def test_a_blueprint_gone_wrong_is_refused_in_one_line_that_names_the_place(bank, text):
    with pytest.raises(InputError) as caught:
        parse_blueprint(text, "mine.toml")
    said = str(caught.value)
    assert said.startswith("mine.toml: ") and WRONG[text] in said and said.isprintable() and len(said) <= 300


def test_any_cut_of_a_blueprint_is_read_or_refused(bank):
    for end in range(len(TEXT)):
        try:
            assert parse_blueprint(TEXT[:end]).items
        except InputError as error:
            assert str(error).isprintable()


def test_files_that_are_no_blueprint(bank, tmp_path):
    path = tmp_path / "mine.toml"
    path.write_text("\ufeff" + TEXT, encoding="utf-8")
    assert read_blueprint(path) == parse_blueprint(TEXT)
    path.write_bytes(b"title = \xff")
    with pytest.raises(InputError, match="UTF-8"):
        read_blueprint(path)
    path.write_bytes(b"#" * 200_000)
    with pytest.raises(InputError, match="at most 100 kB"):
        read_blueprint(path)
    for missing, said in (
        (tmp_path, "no file but a folder"),
        (tmp_path / "none.toml", "no such file"),
        ("a\0b", "no path"),
    ):
        with pytest.raises(InputError, match=said):
            read_blueprint(missing)
