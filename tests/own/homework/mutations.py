"""Class lists and answers as programs write them, and gone wrong in every way that a hand or a disk may have."""

import csv
import io
import random
import re
from pathlib import Path

from shoulder_model.homework.answers import UNENDED, read_answers
from shoulder_model.homework.class_list import (
    LONGEST_ID,
    LONGEST_NAME,
    MOST_STUDENTS,
    Student,
    cells_of,
    read_class,
    same,
)
from shoulder_model.inputs import InputError
from shoulder_model.tables import data_text, inert, is_worked_out, table_text
from tests.gone_wrong import as_it_is, cut, junk_of

from .invented import homework

_, OPENED = homework()
COUNT = len(OPENED.names)
MADE = Path("made_by_a_cell")  # no cell may make it
NAMES = (
    "Zoë Müller",
    "Ann",
    "Bo",
    "=cmd|' /C calc'!A0",
    "'t Hooft",
    "Müller, Jan",
    "O'Neil",
    "-",
    "+49",
    "@home",
    "Łukasz",
    "Şule",
    'Jo "J" Ray',
)
ENCODINGS = ("utf-8", "utf-8", "utf-8-sig", "utf-16", "utf-16-le", "utf-16-be")
VALUES = (
    "", " ", "0", "12,5", "12.5 N m", "1,000.5", "9" * 300, "４０", "½", "b", "b 2", "c a d b", "C,A,D,B", "=1+1",
    "+1", "@A1", "'=x",
    f"=open('{MADE}','w')", f"__import__('pathlib').Path('{MADE}').touch()", "=cmd|' /C calc'!A0", "{0.__class__}",
    "$(id)", "<script>",
    "1001", "0042", "42", "42.0", "Bo", "nobody", "q1", "id", "\u202e", "\u200b8", "8\xa0", "\t", '"', '""', "'",
    "8\n8", "\x00", "\x1b[2J",
    "\ud800", "x" * 500, "1.2E+11", "nan", "None", "#REF!",
)  # fmt: skip
HEADS = (
    "id",
    "name",
    "student",
    "q1",
    "q2",
    "1",
    "question",
    "answer",
    "sheet",
    "",
    "q99",
    "Q 3",
    "first name",
    "x" * 300,
    "=1+1",
    "№",
)
JUNK = (
    b"\x00",
    b"\xff",
    b"\xfe\xff",
    b"\xef\xbb\xbf",
    b"\xc3",
    b"\x81",
    b'"',
    b"\r",
    b"\n\n",
    b",",
    b";",
    b"sep=;\n",
    b"\xed\xa0\x80",
)


def some_class(rng):
    """Students of an invented class; ``rng`` is a `random.Random`."""
    ids = rng.sample(range(1, 10**6), rng.randrange(1, 12))
    kind = rng.choice(("both", "both", "id", "name"))
    names = rng.sample(NAMES, min(len(ids), len(NAMES))) if kind == "name" else [rng.choice(NAMES) for _ in ids]
    pairs = zip(ids, names, strict=False)
    return tuple(Student("" if kind == "name" else f"{one:06d}", "" if kind == "id" else name) for one, name in pairs)


def class_table(rng, students):
    """Rows of a class list with heads as an office may write them."""
    ids, names = (
        rng.choice(("id", "Student ID", "matriculation_no", "ID Number")),
        rng.choice(("name", "Full name", "STUDENT NAME")),
    )
    rows = [[ids, names], *([*map(inert, cells_of(one))] for one in students)]
    places = [0, 1] if any(one.id and one.name for one in students) else [0] if students[0].id else [1]
    if rng.random() < 0.4:
        places = places[::-1]
    return [[row[place] for place in places] for row in rows]


def answer_texts(rng):
    """For each student an answer to each question that tells whose it is, or none."""
    return [
        [f"s{one} q{place}" if rng.random() < 0.9 else "" for place in range(1, COUNT + 1)]
        for one in range(len(OPENED.given))
    ]


def answer_table(rng, texts):
    """Rows of an answer table, wide or long; ``texts`` is a list of texts for each student."""
    given = list(zip(OPENED.given, texts, strict=True))
    rng.shuffle(given)
    heads = rng.choice((["id"], ["id", "name"], ["sheet", "name"], ["Sheet ID"]))

    def who(one):
        cells = {"id": one.student.id, "name": one.student.name}
        return [inert(cells.get(head, one.sheet_id)) for head in heads]

    if rng.random() < 0.4:
        rows = [[*who(one), str(place), inert(text)] for one, some in given for place, text in enumerate(some, 1)]
        return [[*heads, rng.choice(("question", "Item")), "answer"], *rows]
    order = rng.sample(range(COUNT), COUNT)
    way = rng.choice(("q{}", "{}", "Question {}", "Q{}"))
    return [
        [*heads, *(way.format(place + 1) for place in order)],
        *([*who(one), *(inert(some[place]) for place in order)] for one, some in given),
    ]


def as_bytes(rng, table, encodings=ENCODINGS):
    """The bytes of a table as some program writes it."""
    for _ in range(rng.choice((0, 0, 2))):
        table.insert(rng.randrange(1, len(table) + 1), rng.choice(([], [""], [""] * len(table[0]))))
    if rng.random() < 0.3:
        table = [[*row, "group" if row is table[0] else "x"] if row and any(row) else row for row in table]
    has_ids = any(part in head.lower() for head in table[0] for part in ("id", "matric", "sheet"))
    if rng.random() < 0.2 and has_ids:  # the same name twice may be two people
        table = [*table, table[-1]]
    delimiter, store = rng.choice(",;\t"), io.StringIO()
    quoting = rng.choice((csv.QUOTE_MINIMAL, csv.QUOTE_MINIMAL, csv.QUOTE_ALL))
    csv.writer(store, delimiter=delimiter, lineterminator=rng.choice(("\n", "\r\n")), quoting=quoting).writerows(table)
    text = store.getvalue()
    return (f"sep={delimiter}\n" * (rng.random() < 0.1) + text).encode(rng.choice(encodings))


def _cell(rng, rows):
    row = rng.choice(rows[1:] or rows)
    if row:
        row[rng.randrange(len(row))] = rng.choice(VALUES)
    return rows


def _head(rng, rows):
    if rows[0]:
        rows[0][rng.randrange(len(rows[0]))] = rng.choice(HEADS)
    return rows


def _add_cell(rng, rows):
    row = rng.choice(rows)
    row.insert(rng.randrange(len(row) + 1), rng.choice(("5", "b", "")))
    return rows


def _drop_cell(rng, rows):
    row = rng.choice(rows)
    if row:
        row.pop(rng.randrange(len(row)))
    return rows


def _drop_row(rng, rows):
    rows.pop(rng.randrange(len(rows)))
    return rows


def _double_row(rng, rows):
    at = rng.randrange(len(rows))
    return rows[:at] + [list(rows[at]) for _ in range(rng.choice((2, 2, 2, 3000)))] + rows[at + 1 :]


def _swap(rng, rows):
    i, j = (rng.randrange(len(rows)) for _ in range(2))
    rows[i], rows[j] = rows[j], rows[i]
    return rows


def _drop_column(rng, rows):
    place = rng.randrange(len(rows[0]) or 1)
    return [row[:place] + row[place + 1 :] for row in rows]


def _double_column(rng, rows):
    place = rng.randrange(len(rows[0]) or 1)
    return [row[: place + 1] + row[place:] for row in rows]


CHANGES = (
    *[_cell] * 5,
    _head,
    _head,
    _add_cell,
    _drop_cell,
    _drop_row,
    _double_row,
    _swap,
    _drop_column,
    _double_column,
)
MOVES = (_add_cell, _drop_cell, _drop_row, _swap)
BYTE_CHANGES = (*[as_it_is] * 10, junk_of(JUNK), junk_of(JUNK), cut)


def gone_wrong(rng, table):
    """The bytes of a table with one to four changes."""
    for _ in range(rng.choice((1, 1, 1, 2, 4))):
        table = rng.choice(CHANGES)(rng, [list(row) for row in table]) or [[""]]
    delimiter = rng.choice(",;\t")
    text = data_text(table, delimiter) if rng.random() < 0.9 else "\n".join(delimiter.join(row) for row in table)
    return rng.choice(BYTE_CHANGES)(rng, text.encode(rng.choice(("utf-8", "utf-8", "utf-16")), "surrogatepass"))


def classes_as_written(seed, count):
    """``count`` pairs of students and the bytes of their list, the same for each seed."""
    rng = random.Random(seed)
    for _ in range(count):
        students = some_class(rng)
        yield students, as_bytes(rng, class_table(rng, students))


def answers_as_written(seed, count):
    """``count`` pairs of texts and the bytes of their table, the same for each seed."""
    rng = random.Random(seed)
    for _ in range(count):
        texts = answer_texts(rng)
        yield texts, as_bytes(rng, answer_table(rng, texts))


def classes_gone_wrong(seed, count):
    """``count`` mutated class lists, bytes."""
    rng = random.Random(seed)
    return (gone_wrong(rng, class_table(rng, some_class(rng))) for _ in range(count))


def answers_gone_wrong(seed, count):
    """``count`` mutated tables of answers, bytes."""
    rng = random.Random(seed)
    return (gone_wrong(rng, answer_table(rng, answer_texts(rng))) for _ in range(count))


def moved_answers(seed, count):
    """``count`` pairs of texts and the bytes of their table in which cells or rows stand at another place or the end
    is cut off.
    """
    rng = random.Random(seed)
    for _ in range(count):
        texts = answer_texts(rng)
        table = rng.choice(MOVES)(rng, [list(row) for row in answer_table(rng, texts)])
        text = data_text(table, rng.choice(",;\t"))
        yield texts, (text[: rng.randrange(len(text) + 1)] if rng.random() < 0.3 else text).encode()


def _kind(error, field):
    """A refusal without places and values; anything but one line of at most 300 signs is an AssertionError."""
    said = str(error)
    assert type(error) is InputError and error.field == field
    assert said.splitlines() == [said] and len(said) <= 300 and said.startswith(field) and said.isprintable(), said
    return re.sub(r"\d+|'.*?'|\".*?\"", "·", said.rpartition(": ")[2])[:44]


def class_outcome(content):
    """What becomes of a class list of these bytes: "read", or the refusal without places and values."""
    try:
        students = read_class(content)
    except InputError as error:
        return _kind(error, "class list")
    finally:
        assert not MADE.exists()
    assert 1 <= len(students) <= MOST_STUDENTS and len({same(one.key) for one in students}) == len(students)
    for one in students:
        assert one.key and len(one.id) <= LONGEST_ID and len(one.name) <= LONGEST_NAME
        assert len(one.key.splitlines()) == 1 and "\u202e" not in one.label and "\x1b" not in one.label
    again = table_text([("id", "name"), *map(cells_of, students)])
    assert not any(
        is_worked_out(cell.removeprefix("'")) > cell.startswith("'")
        for row in csv.reader(io.StringIO(again))
        for cell in row
    )
    assert read_class(again) == students, again
    return "read"


def answers_outcome(content):
    """What becomes of answers of these bytes: "read", or the refusal without places and values."""
    try:
        found = read_answers(content, OPENED)
    except InputError as error:
        return _kind(error, "answers")
    finally:
        assert not MADE.exists()
    assert len(found.texts) == len(OPENED.given)
    for texts in found.texts:
        assert texts is None or (len(texts) == COUNT and any(texts) and all(len(text) <= 200 for text in texts))
    assert all(len(line.splitlines()) == 1 and "\x1b" not in line for line in found.told)
    return "read"


def strangers(texts, content):
    """Answers that stand with another student or question than they were given by; None where the table is refused.

    The last answer of a file that was cut off may be a part of the one given; that has to be told.
    """
    try:
        found = read_answers(content, OPENED)
    except InputError:
        return None
    pairs = zip(found.texts, texts, strict=True)
    pairs = [(here, there) for some, own in pairs if some for here, there in zip(some, own, strict=True)]
    part = {here for here, there in pairs if there.startswith(here)} if UNENDED in found.told else set()
    return [here for here, there in pairs if here not in ("", there) and here.startswith("s") and here not in part]
