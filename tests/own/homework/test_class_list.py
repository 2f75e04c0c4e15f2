"""Class lists as offices and spreadsheets write them."""

import csv
import io

import pytest

from shoulder_model.homework.class_list import (
    CLASS_LIST,
    LONGEST_NAME,
    MOST_STUDENTS,
    Student,
    bare,
    cells_of,
    read_class,
    same,
    typed_text,
)
from shoulder_model.inputs import InputError
from shoulder_model.tables import table_text

from .invented import STUDENTS


def refusal(content):
    with pytest.raises(InputError) as caught:
        read_class(content)
    said = str(caught.value)
    assert said.startswith("class list") and len(said.splitlines()) == 1 and len(said) <= 300
    return said


@pytest.mark.parametrize("delimiter", [",", ";", "\t"])
@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "utf-16", "utf-16-le"])
def test_what_is_written_back_is_read_the_same_in_every_form(delimiter, encoding):
    text = table_text([("id", "name"), *map(cells_of, STUDENTS)], delimiter)
    assert read_class(text.encode(encoding)) == STUDENTS
    assert read_class(f"sep={delimiter}\n{text}".encode(encoding)) == STUDENTS


def test_no_cell_that_is_written_back_is_a_formula():
    for row in csv.reader(io.StringIO(table_text(map(cells_of, STUDENTS)))):
        assert not any(cell.startswith(("=", "+", "-", "@")) for cell in row)
    assert table_text([cells_of(Student("-7", "@SUM(A1)"))]) == "'-7,'@SUM(A1)\n"


@pytest.mark.parametrize(
    ("content", "wanted"),
    [
        ("Name\nZoë\n\n \nBo\n", (Student("", "Zoë"), Student("", "Bo"))),
        ("NAME;Matriculation No.\nBo;17\n", (Student("17", "Bo"),)),
        ("student;student_id;mail\nBo;17;b@x\n", (Student("17", "Bo"),)),
        ("Student,Name\n17,Bo\n", (Student("17", "Bo"),)),
        ("student\nBo\n", (Student("", "Bo"),)),
        ("No.;Name;Matriculation\n1;Bo;17\n", (Student("17", "Bo"),)),
        ("No.;Name\n1;Bo\n", (Student("", "Bo"),)),
        ("No.;group\n17;1\n", (Student("17"),)),
        ("Surname,First name,group\nMüller,Zoë,=1+1\n", (Student("", "Zoë Müller"),)),
        ('"id","name"\n"1","Müller, Zoë"\n', (Student("1", "Müller, Zoë"),)),
        ("id;name\n1;Bo\u200f\n2;\u202eAnn\n", (Student("1", "Bo"), Student("2", "Ann"))),
        ("id;name\n1;Bo\n1;Bo\n", (Student("1", "Bo"),)),
        ("id;name\n1;Bo\n2;Bo\n", (Student("1", "Bo"), Student("2", "Bo"))),
        ("name;id\nBo;\nAnn;\n", (Student("", "Bo"), Student("", "Ann"))),
        ("name\nMüller, Zoë\n\u2060\nBo\n", (Student("", "Müller, Zoë"), Student("", "Bo"))),
        ("id\n0042\n42\n", (Student("0042"), Student("42"))),
        ("id;name\n1;'=1+1\n2;'t Hooft\n", (Student("1", "=1+1"), Student("2", "'t Hooft"))),
    ],
)
def test_lists_are_read_as_they_are_meant(content, wanted):
    assert read_class(content) == wanted
    assert read_class(content.replace("\n", "\r\n").encode("utf-8-sig")) == wanted


def test_letters_of_an_old_spreadsheet_are_read():
    assert read_class("id;name\n1;Zoë Müller\n".encode("cp1252")) == (Student("1", "Zoë Müller"),)


def test_a_letter_made_of_two_is_the_same_student():
    assert read_class("name\nZoe\u0308\n") == read_class("name\nZoë\n") and same("STRASSE ") == same("straße")
    assert read_class("id;name\n1;Zoë\n1;Zoe\u0308\n") == (Student("1", "Zoë"),)


def test_the_same_name_twice_may_be_two_people():
    with pytest.raises(InputError, match=r"line 3: 'Zoë' stands in line 2 too.*column id"):
        read_class("name\nZoë\nZoe\u0308\n")


@pytest.mark.parametrize(
    ("content", "parts"),
    [
        ("", ["there is nothing in it"]),
        ("\n;;\n", ["there is nothing in it"]),
        ("Zoë\nBo\n", ["line 1", "no column with id or name"]),
        ("id;name\n", ["no student in it"]),
        ("id;id;name\n1;2;Bo\n", ["line 1", "column 'id'", "twice"]),
        ("id;name\n1;Bo\n1;Ann\n", ["line 3", "'1' stands in line 2"]),
        ("name;group\nBo;1\nBo;2\n", ["line 3", "line 2", "column id"]),
        ("id;name;group\n1;Bo;1\n;Ann;2\n", ["line 3", "column 'id'", "blank"]),
        ("id;name;group\n;;2\n", ["line 2", "column 'id'", "blank"]),
        ("name,group\nMüller, Zoë,1\n", ["line 2", "3 cells under 2 heads", "quotation marks"]),
        (f"name\n{'x' * (LONGEST_NAME + 1)}\n", ["line 2", "column 'name'", "letters"]),
        ("id\n1.23E+11\n", ["line 2", "column 'id'", "shortened"]),
        ('name\n"Bo\n', ["quotation mark"]),
        (b"PK\x03\x04\x00", ["no text file"]),
        (7, ["text or bytes"]),
        ("name\n" + "".join(f"S{place}\n" for place in range(MOST_STUDENTS + 1)), [f"more than {MOST_STUDENTS}"]),
    ],
)  # fmt: skip
def test_what_cannot_be_read_is_refused_in_one_line(content, parts):
    said = refusal(content)
    assert all(part in said for part in parts), said


def test_two_thousand_students_are_read():
    students = tuple(Student(str(place), f"Name {place}") for place in range(MOST_STUDENTS))
    assert read_class(table_text([("id", "name"), *map(cells_of, students)])) == students


def test_heads_are_told_by_their_words():
    assert bare(" Matr.-No. ") == "matr no" and bare("NAME (official)") == "name"


@pytest.mark.parametrize("text", ["=1+1", "'t Hooft", "''", "'", "-3", "+49", "@a", "'=x"])
def test_a_text_comes_back_from_a_table_as_it_was(text):
    cell = next(csv.reader(io.StringIO(table_text([cells_of(Student("", text))]))))[1]
    assert typed_text(cell) == typed_text(typed_text(cell)) or text.startswith("'")
    assert typed_text(cell) == text
    assert CLASS_LIST.name == "class list"
