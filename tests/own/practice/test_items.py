"""Every template with two hundred seeds: numbers in range, options apart, solutions that add up, slips that differ from the key."""

import math
import re
import xml.etree.ElementTree as ET

import numpy as np
import pytest

from shoulder_model.checkout import HOME
from shoulder_model.practice.asks import KINDS, Choice, Number, Order, Pick, Reasoned
from shoulder_model.practice.bank import make, templates
from shoulder_model.practice.item import as_plain, from_plain
from shoulder_model.practice.objectives import objectives
from shoulder_model.practice.slips import slip_table
from shoulder_model.practice.verdict import judge

SEEDS = range(200)
TEMPLATES = templates()
LEFT_OVER = re.compile(r"[{}]|\bNone\b|\bnan\b|\binf\b|  |\(\)|\bTODO\b|<[a-z]|np\.|\d\.\d{6}|(?<!\w)-\d")
LONGEST_SENTENCE = 32  # words


@pytest.fixture(scope="module", params=TEMPLATES)
def items(request):
    """The items of one template, by seed."""
    return [make(request.param, seed) for seed in SEEDS]


def test_the_key_is_right_and_in_its_range(items):
    for item in items:
        ask = item.ask
        if isinstance(ask, Number):
            assert math.isfinite(ask.key) and ask.low <= ask.key <= ask.high, item.seed
            assert 0 < ask.tolerance and ask.allowed(0) < abs(ask.key), f"{item.seed}: nothing would be right too"
        typed = ask.shown(ask.key) if isinstance(ask, Number) else ask.key
        assert item.judge(typed).score == 1, f"{item.seed}: {typed} is marked as wrong"


def test_the_solution_reaches_the_key(items):
    for item in items:
        assert item.solution and item.hint
        if isinstance(item.ask, Number):
            last = next(line for line in reversed(item.working) if line.value is not None)
            assert last.unit == item.ask.unit, f"{item.seed}: the solution ends in {last.unit}"
            assert abs(last.value - item.ask.key) <= item.ask.tolerance / 2 + 0.51 * 10**-last.digits, (
                f"{item.seed}: {last.text}"
            )


def calculator(printed):
    """What a reader gets who types a printed sum; worked out apart from the package."""
    text = re.sub(
        r"(?<=[\d)])\s*(N/cm²|N/kg|N m|kg|cm²|cm|mm|N|J|m|SD|sets?|weeks?|repetitions?|reps|points?|%( MVIC)?)(?![\w²])",
        "",
        printed,
    )
    text = re.sub(r"(\d[\d.]*)\s*×(?=\s*($|[/+−)]))", r"\1", text)  # 1.5 × alone is a grip
    for sign, meant in {"×": "*", "·": "*", "−": "-", "²": "**2", "√": "sqrt"}.items():
        text = text.replace(sign, meant)
    text = re.sub(r"\b(cos|sin|tan|atan)\s*\(?(\d[\d.]*)°\)?", r"\1(radians(\2))", text)
    names = {name: getattr(np, name) for name in ("sqrt", "cos", "sin", "tan", "radians")}
    return eval(
        text, {"__builtins__": {}}, names | {"atan": lambda x: np.degrees(np.arctan(x)), "log": np.log, "exp": np.exp}
    )


def test_each_printed_line_of_a_solution_multiplies_out(items):
    for item in items[::10]:
        for line in item.working:
            if line.sum:
                assert abs(calculator(line.sum) - line.value) <= 0.5 * 10**-line.digits + 1e-9, (
                    f"{item.seed}: {line.text}"
                )


def test_each_slip_is_wrong_and_named(items):
    for item in items:
        for slip in item.slips:
            assert slip.name in slip_table(), slip.name
            assert 0 <= slip.line <= len(item.working), f"{item.seed}: {slip.name} in line {slip.line}"
            answer = slip.answer
            if isinstance(item.ask, Number):
                assert abs(answer - item.ask.key) > item.ask.tolerance, f"{item.seed}: {slip.name}"
            elif "*" in answer:
                place = answer.index("*")
                answer = answer.replace("*", item.ask.key[place])
            verdict = item.judge(str(answer))
            assert verdict.score < 1 and verdict.slip == slip.name, f"{item.seed}: {slip.name} {answer}: {verdict}"


def test_options_differ_and_the_right_one_has_no_place_of_its_own(items):
    kind = type(items[0].ask)
    for item in items:
        for options in (getattr(item.ask, name, ()) for name in ("options", "things", "reasons")):
            assert len({option.casefold() for option in options}) == len(options)
            assert 2 <= len(options) <= 8 or not options
    if kind in (Choice, Reasoned, Pick) and not getattr(items[0].ask, "numbered", False):
        keys = [item.ask.key for item in items]
        assert len(set(keys)) > 1 and max(keys.count(key) for key in set(keys)) < 0.75 * len(keys), set(keys)


def test_seeds_give_different_questions(items):
    told = {(item.question, item.lines, item.ask, item.picture) for item in items}
    assert len(told) >= 6, f"{len(told)} different questions in {len(items)} seeds"


def test_no_text_has_a_leftover(items):
    for item in items:
        for text in item.texts:
            assert text.strip() == text and text, f"{item.seed}: {text!r}"
            assert not LEFT_OVER.search(text), f"{item.seed}: {LEFT_OVER.search(text)[0]!r} in {text!r}"


def test_sentences_are_short(items):
    for item in items[:20]:
        for text in (*item.question, item.hint, *(line.words for line in item.working)):
            for sentence in re.split(r"(?<=[.?!]) ", text):
                assert len(sentence.split()) <= LONGEST_SENTENCE, sentence


def test_a_picture_has_words_and_its_marks_are_those_asked_for(items):
    for item in items:
        if item.picture is None:
            assert not isinstance(item.ask, Pick)
            continue
        assert len(item.picture.words) > 20
        tree = ET.fromstring(item.picture.svg())
        for node in tree.iter():
            for name, most in (("cx", 100), ("x", 100), ("cy", item.picture.height), ("y", item.picture.height)):
                if name in node.attrib:
                    assert 0 <= float(node.attrib[name]) <= most, f"{item.seed}: {node.attrib}"
        letters = "".join(sorted(mark.letter for mark in item.picture.marks))
        if isinstance(item.ask, Pick):
            assert letters == item.ask.letters
            places = [(mark.x, mark.y) for mark in item.picture.marks]
            near = min(np.hypot(*np.subtract(one, other)) for k, one in enumerate(places) for other in places[:k])
            assert near > 6, f"{item.seed}: two marks lie on each other"


def test_marking_needs_only_plain_values(items):
    for item in items[:20]:
        ask, slips = from_plain(as_plain(item))
        assert ask == item.ask and slips == item.slips
        assert all(judge(ask, slips, str(slip.answer)) == item.judge(str(slip.answer)) for slip in slips)


def test_the_same_seed_gives_the_same_item(items):
    assert make(items[3].template, items[3].seed) == items[3]


def test_there_are_enough_templates_of_every_kind():
    kinds = {name: type(make(name, 0).ask) for name in TEMPLATES}
    assert len(TEMPLATES) >= 60
    assert set(kinds.values()) == set(KINDS.values())
    without = sum(not template.model for template in TEMPLATES.values()) / len(TEMPLATES)
    assert 0.25 < without < 0.5, f"{without:.2f} need no model"
    made = [make(name, 0) for name in TEMPLATES]
    assert sum(bool(item.lines) for item in made) >= 3, "find the slip"
    assert sum("forest" in item.picture.words for item in made if item.picture) >= 3, "read a forest plot"
    assert sum(isinstance(item.ask, Order) for item in made) >= 5


@pytest.mark.parametrize("objective", objectives())
def test_every_objective_has_three_templates(objective):
    serving = [template.name for template in TEMPLATES.values() if objective in template.objectives]
    assert len(serving) >= 3, serving


@pytest.mark.parametrize("name", TEMPLATES)
def test_the_section_to_read_again_is_there(name):
    template = TEMPLATES[name]
    notebook = objectives()[template.objectives[0]].notebook
    text = (HOME / "workbook" / f"{notebook}.ipynb").read_text(encoding="utf-8")
    assert f'"## {template.section} ' in text, template.section
