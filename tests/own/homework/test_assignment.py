"""Who gets which questions, and that the same list and seed give the same sheets."""

import hashlib
import subprocess
import sys
from dataclasses import replace

import pytest

from shoulder_model.document.html import document_html
from shoulder_model.homework.assignment import MOST_ITEMS, SHORTEST_SHEET_ID, Assignment, assign
from shoulder_model.homework.class_list import Student
from shoulder_model.homework.sheets import sheet_document
from shoulder_model.inputs import InputError
from shoulder_model.practice.bank import make, templates

from .invented import NAMES, STUDENTS, homework, some_students

KNOWN = templates()


def test_each_student_has_the_numbers_of_seed_and_student():
    assignment, _ = homework()
    for one in STUDENTS:
        assert assignment.items(one) == tuple(make(name, f"7/{one.key}") for name in assignment.names)
    first, second = (assignment.items(one) for one in STUDENTS[:2])
    assert first != second


def test_others_in_the_class_change_nothing():
    assignment, _ = homework()
    alone = replace(assignment, students=STUDENTS[2:3])
    assert alone.items(STUDENTS[2]) == assignment.items(STUDENTS[2])
    assert alone.sheet_ids == assignment.sheet_ids[2:3]


def test_sheets_have_names_of_their_own_that_nobody_mixes_up():
    ids = Assignment("t", "1", NAMES, some_students(2000)).sheet_ids
    assert len(set(ids)) == 2000 and {len(one) for one in ids} <= {SHORTEST_SHEET_ID, SHORTEST_SHEET_ID + 1}
    assert not set("".join(ids)) & set("01OIL")


def test_another_process_makes_the_same_sheet():
    assignment, _ = homework()
    code = (
        "import hashlib\nfrom tests.own.homework.invented import *\n"
        "from tests.own.homework.test_assignment import pages_of\n"
        "print(hashlib.sha256(pages_of(homework()[0]).encode()).hexdigest())"
    )
    run = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True)
    assert run.stdout.strip() == hashlib.sha256(pages_of(assignment).encode()).hexdigest(), run.stderr


def pages_of(assignment):
    """The HTML of all sheets."""
    pairs = zip(assignment.students, assignment.sheet_ids, strict=True)
    return "".join(
        document_html(sheet_document(assignment.title, one, sheet, assignment.items(one))) for one, sheet in pairs
    )


def names_of(**wanted):
    return assign(STUDENTS, seed="s", **wanted).names


def test_questions_are_chosen_by_name_chapter_objective_or_count():
    assert names_of(names=NAMES[::-1]) == tuple(name for name in KNOWN if name in NAMES)
    of_three = tuple(name for name, one in KNOWN.items() if one.chapter == "03")
    assert names_of(in_chapters=["3"]) == names_of(in_chapters=["03"])
    assert set(of_three) <= set(names_of(in_chapters=["03"]))
    served = names_of(in_objectives=["03.wider"])
    assert served == tuple(name for name, one in KNOWN.items() if "03.wider" in one.objectives)
    assert len(names_of(in_chapters=["03"], count=4)) == 4 and len(names_of(count=5)) == 5
    assert NAMES[0] in names_of(names=NAMES[:1], in_chapters=["03"], count=3)


def test_a_count_takes_turns_among_objectives_and_hangs_on_the_seed():
    drawn = names_of(in_chapters=["03"], count=4)
    assert len({KNOWN[name].objectives[0] for name in drawn}) == 4
    assert drawn == names_of(in_chapters=["03"], count=4)
    assert len({assign(STUDENTS, seed=seed, in_chapters=["03"], count=4).names for seed in "abcdefgh"}) > 1


@pytest.mark.parametrize(
    "wanted",
    [
        {}, {"names": ["grip in inches"]}, {"in_chapters": ["99"]}, {"in_objectives": ["03.nothing"]}, {"count": 0},
        {"in_chapters": ["03"], "count": 1000}, {"names": NAMES, "count": 2}, {"in_chapters": ["03"], "count": -1},
        {"in_chapters": ["03"], "title": " "}, {"in_chapters": ["03"], "title": "x" * 81},
    ],
)  # fmt: skip
def test_a_wrong_choice_is_refused_in_one_line(wanted):
    with pytest.raises(InputError) as caught:
        names_of(**wanted)
    assert len(str(caught.value).splitlines()) == 1
    with pytest.raises(InputError):
        assign(STUDENTS, seed="s" * 41, in_chapters=["03"])
    assert MOST_ITEMS < 100 and Student("1", "Bo").label == "Bo, 1"
