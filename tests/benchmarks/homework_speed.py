"""A class of 500 with 20 questions each: ``python tests/benchmarks/homework_speed.py [STUDENTS] [QUESTIONS]`` prints
how long it takes.

Where there are fewer templates than questions, all there are are taken, and the times are scaled to the questions
asked for. Aims: the HTML sheets within 60 s on two cores, marking within 5 s.
"""

import os
import sys
import tempfile
import time
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[2]))
from shoulder_model.document.html import document_html
from shoulder_model.homework.assignment import MOST_ITEMS, assign
from shoulder_model.homework.assignment_file import open_assignment
from shoulder_model.homework.class_list import Student
from shoulder_model.homework.make_set import ASSIGNMENT, Wanted, make_set
from shoulder_model.homework.marking import details_csv, mark, marks_csv
from shoulder_model.homework.report import report_document
from shoulder_model.practice.bank import templates
from shoulder_model.tables import table_text
from tests.own.homework.invented import class_answers


def timed(what, call, scale=1.0):
    """Run and print the time, scaled."""
    start, busy = time.perf_counter(), sum(os.times()[:4])
    result = call()
    took, busy = time.perf_counter() - start, sum(os.times()[:4]) - busy
    more = f"; for all questions {took * scale:.1f} s" if scale != 1 else ""
    print(f"{what}: {took:.1f} s, of one processor {busy:.1f} s{more}")
    return result


def marked(opened, table):
    """Everything that `homework mark` writes."""
    marks = mark(table, opened)
    return marks_csv(marks), details_csv(marks), document_html(report_document(marks))


if __name__ == "__main__":
    students, wanted = (
        int(sys.argv[place]) if len(sys.argv) > place else default for place, default in ((1, 500), (2, 20))
    )
    count = min(wanted, len(templates()), MOST_ITEMS)
    scale = wanted / count
    people = tuple(Student(str(10_000 + place), f"Student {place}") for place in range(students))
    assignment = assign(people, seed="speed", count=count)
    print(f"{students} students, {count} questions ({wanted} wanted)")
    with tempfile.TemporaryDirectory() as folder:
        timed("sheets, keys and tables as HTML", lambda: make_set(assignment, folder), scale)
        content = (Path(folder) / ASSIGNMENT).read_bytes()
        size = sum(path.stat().st_size for path in Path(folder).rglob("*") if path.is_file())
        print(f"the folder has {size / 1e6:.0f} MB, the assignment's file {len(content) / 1e6:.1f} MB")
    opened = timed("opening the assignment's file", lambda: open_assignment(content), scale)
    rows = [(one.student.id, *texts) for one, texts in zip(opened.given, class_answers(opened), strict=True)]
    table = table_text([("id", *(f"q{place}" for place in range(1, count + 1))), *rows])
    timed("marking, with tables and report", lambda: marked(opened, table), scale)
    with tempfile.TemporaryDirectory() as folder:
        few = assign(people[:20], seed="speed", count=count)
        timed("20 students with PDF", lambda: make_set(few, folder, Wanted(pdf=True)), scale)
