"""An invented class, its homework, and answers as students of different strength give them."""

import random
from functools import cache

from shoulder_model.homework.assignment import assign
from shoulder_model.homework.assignment_file import assignment_text, open_assignment, plain_item
from shoulder_model.homework.class_list import Student
from shoulder_model.homework.sheets import short_key
from shoulder_model.practice.asks import Number

NAMES = (  # a template of each kind of answer
    "grip in centimetres", "adduction by hand", "what a wider grip changes", "order grips by adduction",
    "which line is w",
    "find the slip in adduction", "a grip for a client",
)  # fmt: skip
STUDENTS = (
    Student("1001", "Zoë Müller"),
    Student("0042", "=cmd|' /C calc'!A0"),
    Student("A-7", "'t Hooft, Ann"),
    Student("1004", "אבי כהן"),
    Student("1005", "Bo"),
    Student("1006", "Bo"),
)


def some_students(count):
    """So many invented students."""
    return tuple(Student(str(10_000 + place), f"Student {place}") for place in range(count))


@cache
def homework(students=STUDENTS, names=NAMES, seed="7"):
    """An assignment and its file, opened."""
    assignment = assign(students, seed=seed, names=names, title="Grip & load")
    return assignment, open_assignment(file_of(assignment))


def file_of(assignment):
    """The text of an assignment's file."""
    ids = zip(assignment.students, assignment.sheet_ids, strict=True)
    return assignment_text(
        assignment, [(one, sheet, [plain_item(item) for item in assignment.items(one)]) for one, sheet in ids]
    )


def keys_of(assignment):
    """(student, sheet id, right answers as they are written) of each student."""
    ids = zip(assignment.students, assignment.sheet_ids, strict=True)
    return [(one, sheet, tuple(short_key(item) for item in assignment.items(one))) for one, sheet in ids]


def answered(rng, ask, slips, strength):
    """An answer of somebody with a strength of 0 to 1; ``rng`` is a `random.Random`."""
    chance = rng.random()
    if chance < strength:
        return ask.shown(ask.key) if isinstance(ask, Number) else " ".join(ask.key)
    if chance > 0.97:
        return rng.choice(("", "?", "forty", "=1+1"))
    if slips and chance < strength + 0.7 * (1 - strength):
        answer = rng.choice(slips[:2]).answer
        return ask.shown(answer) if isinstance(ask, Number) else " ".join(answer).replace("*", "a")
    return ask.shown(2.17 * ask.key) if isinstance(ask, Number) else ("a 1" if ask.kind == "reasoned" else "a")


def class_answers(opened, seed=1):
    """Answers of a whole class: for each student a tuple of texts."""
    rng, told = random.Random(seed), []
    for one in opened.given:
        strength = rng.uniform(0.2, 0.95)
        told.append(
            tuple(
                answered(rng, *asked, min(1.0, strength + 0.05 * (place % 5)))
                for place, asked in enumerate(one.questions)
            )
        )
    return told
