"""A whole set of homework in a folder: sheets, keys, tables, the assignment's file; big classes by two processes."""

import os
import re
import unicodedata
from dataclasses import dataclass
from functools import partial
from pathlib import Path

from ..document.html import document_html
from ..processes import processes
from ..tables import BOM, table_text
from ..words import counted
from .assignment_file import assignment_text, plain_item
from .class_list import cells_of
from .sheets import blank_answers, key_document, key_table, marking_table, sheet_document, short_key

ASSIGNMENT, ANSWERS, SHEETS, KEYS, README = "assignment.json", "answers.csv", "sheets", "keys", "README.txt"
AT_ONCE, PROCESSES, FEW = 10, 2, 20  # students in one go; processes; students for whom one process does
LONGEST_STEM = 30  # letters of a name in the name of a file


@dataclass(frozen=True)
class Wanted:
    """What is made: the ``paper`` by its name, ``pdf`` or not, the ``delimiter`` text between cells of tables."""

    paper: str = "A4"
    pdf: bool = False
    delimiter: str = ","


def stem(place, width, student, sheet_id):
    """The name of a student's files, text: ``place`` in the class (a whole number, ``width`` digits wide), name, sheet.

    ``student`` is a `class_list.Student`, ``sheet_id`` text. Only plain letters and digits are in it.
    """
    bare = unicodedata.normalize("NFKD", student.name or student.id).encode("ascii", "ignore").decode().lower()
    words = "_".join(re.findall(r"[a-z0-9]+", bare))[:LONGEST_STEM].strip("_")
    return "_".join(part for part in (f"{place:0{width}d}", words, sheet_id) if part)


def make_set(assignment, folder, wanted=None, progress=None):
    """Write a whole set.

    Parameters
    ----------
    assignment : assignment.Assignment
    folder : path
        An empty folder.
    wanted : Wanted, optional
    progress : callable, optional
        Called with how many students are done, a whole number.

    Raises
    ------
    RuntimeError
        A template finds no numbers for a student.
    """
    folder, wanted = Path(folder), wanted or Wanted()
    for name in (SHEETS, KEYS):
        (folder / name).mkdir()
    made = []
    for some in _all_made(assignment, folder, wanted):
        made += some
        if progress:
            progress(len(made))
    students = list(zip(assignment.students, assignment.sheet_ids, made, strict=True))
    _write(
        folder / ASSIGNMENT, assignment_text(assignment, [(one, sheet, items) for one, sheet, (items, _) in students])
    )
    sheets = [(one, sheet, keys) for one, sheet, (_, keys) in students]
    _write(folder / ANSWERS, blank_answers(sheets, wanted.delimiter))
    _write(folder / "key.csv", key_table(sheets, wanted.delimiter))
    _write(folder / "class.csv", _class_csv(assignment, wanted.delimiter))
    _put(folder / "marking_table", marking_table(assignment.title, sheets), wanted)
    _write(folder / README, readme(assignment))


def _all_made(assignment, folder, wanted):
    """What `_students` gives for each chunk of the class, in order."""
    places = range(len(assignment.students))
    chunks = [places[first : first + AT_ONCE] for first in range(0, len(places), AT_ONCE)]
    make = partial(_students, assignment, folder, wanted)
    if len(places) <= FEW:
        yield from map(make, chunks)
        return
    with processes(min(PROCESSES, os.cpu_count() or 1)) as pool:
        yield from pool.map(make, chunks)


def _students(assignment, folder, wanted, places):
    """Write sheet and key of some students; for each the plain items and the right answers as text."""
    ids, width = assignment.sheet_ids, len(str(len(assignment.students)))
    made = []
    for place in places:
        student, sheet_id = assignment.students[place], ids[place]
        items = assignment.items(student)
        name = stem(place + 1, width, student, sheet_id)
        _put(folder / SHEETS / name, sheet_document(assignment.title, student, sheet_id, items), wanted)
        _put(folder / KEYS / f"{name}_key", key_document(assignment.title, student, sheet_id, items), wanted)
        made.append(([plain_item(item) for item in items], tuple(short_key(item) for item in items)))
    return made


def _put(path, document, wanted):
    """A document as HTML, and as PDF where that is wanted."""
    _write(path.with_name(f"{path.name}.html"), document_html(document, wanted.paper))
    if wanted.pdf:
        from ..document.pdf import document_pdf

        path.with_name(f"{path.name}.pdf").write_bytes(document_pdf(document, wanted.paper))


def _write(path, text):
    path.write_bytes(text.encode("utf-8"))  # the same line ends on every machine


def _class_csv(assignment, delimiter):
    width, heads = len(str(len(assignment.students))), ("id", "name", "sheet", "file")
    pairs = enumerate(zip(assignment.students, assignment.sheet_ids, strict=True), 1)
    rows = ((*cells_of(one), sheet, stem(place, width, one, sheet)) for place, (one, sheet) in pairs)
    return BOM + table_text([heads, *rows], delimiter)


def readme(assignment):
    """What lies in the folder of an ``assignment`` (`assignment.Assignment`) and how to go on, text."""
    students, questions = counted(len(assignment.students), "student"), counted(len(assignment.names), "question")
    lines = (
        f"{assignment.title}: {students}, {questions}, seed {assignment.seed}.",
        "",
        f"{SHEETS}/  a sheet for each student, with numbers of its own. Hand these out; print them from a browser.",
        f"{KEYS}/  the key to each sheet with worked solutions. For the tutor only.",
        "class.csv  who has which sheet.",
        "marking_table.html, key.csv  the right answers of all sheets, to mark by hand.",
        f"{ANSWERS}  a blank table. Type in the answers, one row for each student.",
        "  Decimal commas in it need quotation marks, or semicolons between cells: make the set with --semicolon.",
        f"{ASSIGNMENT}  what marking needs. Keep it, and do not change it.",
        "",
        "To mark what came back:",
        f"  python -m shoulder_model homework mark FOLDER FOLDER/{ANSWERS}    (FOLDER is the one that this file is in)",
        "",
        "Questions:",
        *(f"  {place}. {name}" for place, name in enumerate(assignment.names, 1)),
        "",
        "The same class list, seed and questions give the same sheets again.",
        "",
    )
    return "\n".join(lines)
