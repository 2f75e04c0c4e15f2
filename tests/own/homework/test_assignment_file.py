"""The assignment's file: marking needs nothing else, and nothing of a changed file is believed."""

import json
import random
import subprocess
import sys
from dataclasses import replace

import pytest

from shoulder_model.homework import assignment_file
from shoulder_model.homework.assignment_file import open_assignment
from shoulder_model.homework.marking import mark
from shoulder_model.inputs import InputError
from shoulder_model.practice.asks import Number

from .invented import STUDENTS, class_answers, file_of, homework

ASSIGNMENT, OPENED = homework()
TEXT = file_of(ASSIGNMENT)


def refusal(content):
    with pytest.raises(InputError) as caught:
        open_assignment(content)
    said = str(caught.value)
    assert said.startswith("assignment: ") and len(said.splitlines()) == 1 and len(said) <= 300
    return said


def test_what_was_asked_comes_back():
    assert OPENED.names == ASSIGNMENT.names and [one.student for one in OPENED.given] == list(STUDENTS)
    assert tuple(one.sheet_id for one in OPENED.given) == ASSIGNMENT.sheet_ids
    for one in OPENED.given:
        for (ask, slips), item in zip(one.questions, ASSIGNMENT.items(one.student), strict=True):
            assert [slip.name for slip in slips] == [slip.name for slip in item.slips]
            if isinstance(ask, Number):
                assert ask.key == pytest.approx(item.ask.key, rel=1e-9) and ask.unit == item.ask.unit
            else:
                assert ask == item.ask and slips == item.slips
    assert open_assignment(TEXT.encode("utf-8-sig")) == OPENED


def test_marking_computes_nothing():
    code = (
        "import sys\nfrom shoulder_model.homework.assignment_file import open_assignment\n"
        "from shoulder_model.homework.marking import mark\n"
        "opened = open_assignment(sys.stdin.read())\n"
        "mark('id;q1\\n1001;44 cm\\n', opened)\n"
        "import shoulder_model.practice.bank as bank\n"
        "print(bank._TEMPLATES, [name for name in sys.modules if '.practice.items' in name])"
    )
    run = subprocess.run([sys.executable, "-c", code], input=TEXT, capture_output=True, text=True, encoding="utf-8")
    assert run.stdout.strip() == "{} []", run.stderr


@pytest.mark.parametrize(
    "content", ["", "{", "[]", "null", "7", '"x"', "{}", "[" * 100_000, '{"format": NaN}', b"\xff\xfe\x00", 7, None]
)
def test_what_is_no_assignment_is_refused(content):
    refusal(content)


def test_one_that_is_too_long_or_of_another_version_is_refused(monkeypatch):
    assert "version" in refusal(TEXT.replace('"version":1', '"version":2'))
    assert "'people', which is not known" in refusal(TEXT.replace('"students":', '"people":'))
    assert "'title' stands there twice" in refusal(TEXT.replace('"students":', '"title":'))
    assert "another version" in refusal(TEXT.replace('"version":1', '"version":true'))
    monkeypatch.setattr(assignment_file, "FILE", replace(assignment_file.FILE, largest=100))
    assert "too long" in refusal(TEXT)


VALUES = (
    None,
    True,
    False,
    -1,
    0,
    1,
    2.5,
    10**30,
    "",
    "x",
    "a",
    "b2",
    "z9",
    "\u202e",
    "x" * 700,
    "=1+1",
    [],
    ["a"],
    ["a", "a"],
    {},
    {"a": 1},
    [[]],
    "number",
)


def places(value, path=()):
    """Paths to every value of a file."""
    yield path
    if isinstance(value, dict | list):
        for key, inner in value.items() if isinstance(value, dict) else enumerate(value):
            yield from places(inner, (*path, key))


def changed(rng, value):
    """The file with one value changed, dropped or doubled."""
    made = json.loads(value)
    path = rng.choice([one for one in places(made) if one])
    holder = made
    for key in path[:-1]:
        holder = holder[key]
    way = rng.random()
    if way < 0.7:
        holder[path[-1]] = rng.choice(VALUES)
    elif way < 0.9:
        del holder[path[-1]]
    else:
        other = rng.choice([one for one in places(made) if one])
        inner = made
        for key in other:
            inner = inner[key]
        holder[path[-1]] = inner
    return json.dumps(made)


def test_a_changed_file_is_refused_or_marks_without_an_error():
    rng, refused = random.Random(5), 0
    answers = "id,q1,q2,q3,q4,q5,q6,q7\n" + "".join(
        ",".join([one.student.id, *texts]) + "\n"
        for one, texts in zip(OPENED.given, class_answers(OPENED), strict=True)
    )
    for _ in range(120):
        try:
            opened = open_assignment(changed(rng, TEXT))
        except InputError as error:
            assert len(str(error).splitlines()) == 1 and len(str(error)) <= 300
            refused += 1
            continue
        try:
            marks = mark(answers, opened)
        except InputError:
            continue  # a head or an id that is another one now
        assert all(verdict.score in (0, 0.5, 1) for one in marks.marked for verdict in one.verdicts)
    assert 40 < refused < 120
