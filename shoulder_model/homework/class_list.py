"""A class list as a spreadsheet or a registry writes it: who the students are, by number, by name or by both.

Columns in any order and any case, with others among them. Names and numbers are data: nothing in them is executed,
and what is written back is inert (`tables.table_text`). What cannot be read is refused in one line.
"""

import re
import unicodedata
from dataclasses import dataclass

from ..printed import plain
from ..table_file import Kind, said
from ..tables import is_worked_out

MOST_STUDENTS, LONGEST_ID, LONGEST_NAME = 2_000, 40, 80  # letters
ADVICE = "save one row a student as CSV, with the heads id and name"
CLASS_LIST = Kind("class list", ADVICE, whole="put a cell with a comma in it in quotation marks")
HEADS = {  # head in small letters, without marks -> which column it is
    "id": "id", "student id": "id", "student number": "id", "student no": "id", "matriculation": "id",
    "matriculation number": "id",
    "matriculation no": "id", "matriculation id": "id", "matr no": "id", "matrikelnummer": "id", "matrikel": "id",
    "registration": "id", "registration number": "id", "id number": "id", "number": "number", "no": "number",
    "nr": "number",
    "name": "name", "student name": "name", "full name": "name", "names": "name", "student": "student",
    "students": "student",
    "first name": "first", "given name": "first", "forename": "first", "first": "first", "vorname": "first",
    "last name": "last", "surname": "last", "family name": "last", "last": "last", "nachname": "last",
}  # fmt: skip
SHORTENED = re.compile(r"\d+(?:[.,]\d+)?e\+\d+", re.IGNORECASE)  # a long number as a spreadsheet shows it


@dataclass(frozen=True)
class Student:
    """Somebody in a class: ``id`` and ``name`` are text, one of them may be empty."""

    id: str = ""
    name: str = ""

    @property
    def key(self):
        """What the student's numbers hang on, text: the id, or the name where there is none."""
        return self.id or self.name

    @property
    def label(self):
        """Id and name in one text."""
        return f"{self.name}, {self.id}" if self.id and self.name else self.key


def typed_text(cell):
    """What was meant by a ``cell``, text: one line, no marks of direction, without the mark that `tables.inert` sets.

    >>> typed_text("'=1+1"), typed_text("'t Hooft "), typed_text("''t Hooft")
    ('=1+1', "'t Hooft", "'t Hooft")
    """
    text = unicodedata.normalize("NFC", plain(cell))
    return text[1:] if text[:1] == "'" and is_worked_out(text[1:]) else text


def cells_of(student):
    """Id and name of a ``student`` (`Student`) as cells, a pair of text."""
    return student.id, student.name


def same(text):
    """A ``text`` as it is compared: without case, invisible letters and other forms of the same letter.

    >>> same("Zoë  KÜHN") == same("zoe\u0308 kühn")
    True
    """
    if text.isascii():
        return " ".join(text.casefold().split())
    folded = unicodedata.normalize("NFKC", text).casefold()
    return " ".join("".join(letter for letter in folded if unicodedata.category(letter) != "Cf").split())


def columns_of(cells, refuse):
    """Where the columns of a student stand, in a row of heads.

    Parameters
    ----------
    cells : sequence of str
        The heads.
    refuse : callable
        Makes the error of a reason and a head, both words.

    Returns
    -------
    dict
        "id", "name", "first", "last" -> place; what is missing is not in it.
    """
    columns = {}
    for place, cell in enumerate(cells):
        column = HEADS.get(bare(cell))
        if column in columns:
            raise refuse("a column of this kind is there twice; take one out", said(cell)[1:-1])
        if column:
            columns[column] = place
    if "student" in columns:  # a name where there is none, a number else
        free = "name" if not {"name", "first", "last"} & set(columns) else "id"
        if free in columns:
            del columns["student"]
        else:
            columns[free] = columns.pop("student")
    if (
        "number" in columns
    ):  # of a row, mostly, which is another one once somebody joins; taken where there is nothing else
        place = columns.pop("number")
        columns = columns or {"id": place}
    parts = ("first", "last") if "name" in columns else ()
    return {column: place for column, place in columns.items() if column not in parts}


def bare(head):
    """A ``head`` in small letters, without marks and what stands in brackets; text.

    >>> bare("Student_ID (new)"), bare("Matr.-No.")
    ('student id', 'matr no')
    """
    folded = re.sub(r"[\[(][^\])]*[\])]", " ", same(head))
    return " ".join(re.sub(r"[_.,:#*\-–/]", " ", folded).split())


def student_of(row, columns):
    """The `Student` of a row of a table, blank where its cells are: ``row`` is a `table_file.Row`, ``columns`` a dict
    of `columns_of`.
    """

    def cell(column):
        place = columns.get(column)
        return typed_text(row.typed[place]) if place is not None and place < len(row.typed) else ""

    name = cell("name") or " ".join(part for part in (cell("first"), cell("last")) if part)
    return Student(cell("id"), name)


def read_class(content):
    """The students of a class list, a tuple of `Student` in its order; a row with an id that says the same as one
    above counts once.

    Parameters
    ----------
    content : str or bytes
        The file: UTF-8, UTF-16 or cp1252; commas, semicolons or tabs.

    Raises
    ------
    InputError
        In one line: line, column, what to do. Its text names them.
    """
    columns, found = None, {}
    for row in CLASS_LIST.rows(CLASS_LIST.decoded(content)):
        if columns is None:
            columns = _columns(row)
            continue
        student = _checked(student_of(row, columns), row.line, columns)
        key = same(student.key)
        line, first = found.setdefault(key, (row.line, student))
        if line != row.line and not (student.id and first == student):
            raise CLASS_LIST.wrong(_twice(student, line), row.line)
        if len(found) > MOST_STUDENTS:
            raise CLASS_LIST.wrong(f"more than {MOST_STUDENTS} students; make it two classes", row.line)
    if not found:
        raise CLASS_LIST.wrong("no student in it; write one row a student below the heads")
    students = tuple(student for _, student in found.values())
    if 0 < sum(bool(student.id) for student in students) < len(students):
        line = next(line for line, student in found.values() if not student.id)
        raise CLASS_LIST.wrong("blank, while others have one; fill it in, or take the column out", line, "id")
    return students


def _columns(row):
    def refuse(why, head):
        return CLASS_LIST.wrong(why, row.line, head)

    columns = columns_of(row.cells, refuse)
    if not columns:
        why = f"no column with id or name; the first line is {said(row.cells[0])}; {ADVICE}"
        raise CLASS_LIST.wrong(why, row.line)
    return columns


def _checked(student, line, columns):
    """A student with an id or a name of a length that can be printed."""
    if not student.key:
        column = "id" if "id" in columns else "name"
        raise CLASS_LIST.wrong("blank in a row that has other cells; fill it in, or take the row out", line, column)
    for column, text, most in (("id", student.id, LONGEST_ID), ("name", student.name, LONGEST_NAME)):
        if len(text) > most:
            raise CLASS_LIST.wrong(f"{said(text)} has {len(text)} letters, {most} at most; shorten it", line, column)
        if text and not same(text):
            raise CLASS_LIST.wrong("there is nothing to see in it; type it again", line, column)
    if SHORTENED.fullmatch(student.id):
        told = f"{said(student.id)} is a number that a spreadsheet has shortened; make the column text and fill it in"
        raise CLASS_LIST.wrong(told, line, "id")
    return student


def _twice(student, line):
    if student.id:
        return f"id {said(student.id)} stands in line {line} too, for somebody else; give each student one id"
    return f"{said(student.name)} stands in line {line} too; if they are two people, add a column id, else take one out"
