"""A class's answers as they come back: a table with a row a student, or with a row an answer.

Columns are found by their heads. Answers are data: nothing in them is executed, a formula is an answer like any other
that cannot be read. What cannot be told apart is refused in one line; what is missing or unknown is told.
"""

import re
from collections import Counter
from dataclasses import dataclass

from ..practice.verdict import judge
from ..table_file import Kind, said
from ..words import counted
from .class_list import LONGEST_ID, LONGEST_NAME, bare, columns_of, same, student_of, typed_text

ANSWERS = Kind(
    "answers", "start from the blank table of the homework", 8_000_000, 100_000, 200,
    "put an answer with a comma in it in quotation marks, or save the table with semicolons",
)  # fmt: skip
SHEET_HEADS = ("sheet", "sheet id", "sheet number")
QUESTION_HEADS = ("question", "item", "question number", "question no", "q")
ANSWER_HEADS = ("answer", "answers", "response")
NUMBERED = re.compile(r"(?:q|question|item|no|nr)? ?0*(\d{1,4})")
UNENDED = "The table ends without an end of line. If it was cut off, the last answer may lack something."
MOST_TOLD = 400  # lines of what is told


@dataclass(frozen=True)
class Answers:
    """What came back: ``texts``, a tuple for each student of the assignment (None: nothing came), and ``told``, lines
    of words for the tutor.
    """

    texts: tuple
    told: tuple


def read_answers(content, opened):
    """The answers of a class.

    Parameters
    ----------
    content : str or bytes
        The file: UTF-8, UTF-16 or cp1252; commas, semicolons or tabs. Either a row a student with a column a question
        (1 or q1), or a row an answer with the columns question and answer; in both the columns id, name or sheet say
        whose it is.
    opened : assignment_file.Opened

    Returns
    -------
    Answers

    Raises
    ------
    InputError
        In one line: line, column, what to do. Its text names them.
    """
    reader, columns, text = _Reader(opened), None, ANSWERS.decoded(content)
    for row in ANSWERS.rows(text):
        if columns is None:
            columns = _Columns(row, len(opened.names))
            continue
        place = reader.student(row, columns)
        if place is not None:
            reader.long(row, columns, place) if columns.is_long else reader.wide(row, columns, place)
    if not columns.is_long:
        absent = [str(place) for place in range(1, len(opened.names) + 1) if place not in columns.questions]
        reader.told += [f"There is no column for question {', '.join(absent)}: each counts 0."] if absent else []
    if not text.endswith("\n"):
        reader.told.append(UNENDED)
    return reader.answers()


class _Columns:
    """Where the columns stand, by their heads."""

    def __init__(self, row, count):
        def refuse(why, head):
            return ANSWERS.wrong(why, row.line, head)

        self.width, self.of_student = len(row.cells), columns_of(row.cells, refuse)
        heads = [bare(cell) for cell in row.cells]
        self.sheet = _only(heads, SHEET_HEADS, refuse)
        self.question, self.answer = (_only(heads, names, refuse) for names in (QUESTION_HEADS, ANSWER_HEADS))
        self.is_long = self.question is not None and self.answer is not None
        self.questions = {} if self.is_long else _numbered(heads, count, refuse)
        if not self.of_student and self.sheet is None:
            raise ANSWERS.wrong("no column says whose the answers are; there has to be id, name or sheet", row.line)
        if not self.is_long and not self.questions:
            raise ANSWERS.wrong(f"no column of a question, as q1; {ANSWERS.instead}", row.line)


def _only(heads, names, refuse):
    places = [place for place, head in enumerate(heads) if head in names]
    if len(places) > 1:
        raise refuse("this column is there twice; take one out", heads[places[1]])
    return places[0] if places else None


def _numbered(heads, count, refuse):
    """Columns of questions: number -> place."""
    found = {}
    for place, head in enumerate(heads):
        number = NUMBERED.fullmatch(head)
        if not number:
            continue
        number = int(number[1])
        if not 1 <= number <= count:
            raise refuse(f"there is no such question; this homework has {counted(count, 'question')}", head)
        if number in found:
            raise refuse("this question is there twice; take one column out", head)
        found[number] = place
    return found


class _Reader:
    """Puts rows to the students of an assignment."""

    def __init__(self, opened):
        self.given, self.count, self.told, self.strange = opened.given, len(opened.names), [], 0
        self.found = {}  # place of a student -> {number of a question: (line, text)}
        self.lines = {}  # place of a student -> line of a row that has answers
        self.known = {column: _by(opened.given, column) for column in ("sheet", "id", "name")}
        self.bare_ids = _unique(
            (same(one.student.id).lstrip("0"), place) for place, one in enumerate(opened.given) if one.student.id
        )

    def student(self, row, columns):
        """The place of the student of a row, None where there is none; that is told."""
        student = student_of(row, columns.of_student)
        sheet = (
            typed_text(row.typed[columns.sheet]) if columns.sheet is not None and columns.sheet < len(row.typed) else ""
        )
        given = {"sheet": sheet[:LONGEST_ID], "id": student.id[:LONGEST_ID], "name": student.name[:LONGEST_NAME]}
        places = {column: self._places(column, same(text)) for column, text in given.items() if text}
        if sheet and not places["sheet"]:
            self.strange += 1
            self._tell(f"Line {row.line}: sheet {said(sheet)} is not of this homework; the line was not marked.")
            return None
        left = [some for some in places.values() if some]
        if not left:
            whose = next(
                (f"{said(text)} is not in this homework" for text in given.values() if text), "no id, name or sheet"
            )
            self._tell(f"Line {row.line}: {whose}; not marked.")
            return None
        both = set.intersection(*left)
        if not both:
            raise ANSWERS.wrong(f"{' and '.join(places)} belong to different students; put one of them right", row.line)
        if len(both) > 1:
            raise ANSWERS.wrong(
                f"{said(given['name'])} is the name of {len(both)} students; fill in id or sheet", row.line
            )
        lost = [column for column, some in places.items() if not some]
        if lost:
            what = f"{' and '.join(lost)} {said(given[lost[0]])}"
            self._tell(f"Line {row.line}: {what} not found; marked by the rest of the line.")
        return both.pop()

    def _places(self, column, text):
        found = self.known[column].get(text, set())
        if (
            column == "id" and not found and text.removesuffix(".0").lstrip("0") in self.bare_ids
        ):  # as a spreadsheet writes it
            found = {self.bare_ids[text.removesuffix(".0").lstrip("0")]}
        return found

    def _tell(self, line):
        if len(self.told) < MOST_TOLD:
            self.told.append(line)

    def wide(self, row, columns, place):
        """All answers of a student from one row."""
        answers = {number: typed_text(row.typed[at]) for number, at in columns.questions.items() if at < len(row.typed)}
        answers = {number: text for number, text in answers.items() if text}
        if not answers:
            return
        if len(row.typed) < columns.width:
            self._check_short(row, answers, place)
        before = self.found.setdefault(place, {number: (row.line, text) for number, text in answers.items()})
        if {number: text for number, (_, text) in before.items()} != answers:
            self._refuse_twice(row.line, self.lines[place], place)
        self.lines.setdefault(place, row.line)

    def _check_short(self, row, answers, place):
        """A row that ends before the heads do: a cell may have been left out, so that the others moved."""
        for number, text in answers.items():
            if not judge(*self.given[place].questions[number - 1], text).is_read:
                told = f"fewer cells than heads, and {said(text)} is no answer to question {number}; keep empty cells"
                raise ANSWERS.wrong(told, row.line)

    def long(self, row, columns, place):
        """One answer from one row."""
        head = bare(row.at(columns.question))
        number = NUMBERED.fullmatch(head)
        if not number or not 1 <= int(number[1]) <= self.count:
            told = f"{said(row.at(columns.question))} is no question; there are 1 to {self.count}"
            raise ANSWERS.wrong(told, row.line, "question")
        text = typed_text(row.typed[columns.answer]) if columns.answer < len(row.typed) else ""
        if text:
            line, before = self.found.setdefault(place, {}).setdefault(int(number[1]), (row.line, text))
            if before != text:
                self._refuse_twice(row.line, line, place, f"question {int(number[1])} of ")

    def _refuse_twice(self, line, before, place, what=""):
        whose = said(self.given[place].student.label)
        told = f"{what}{whose} was answered in line {before} too, with another answer; take one of the two out"
        raise ANSWERS.wrong(told, line)

    def answers(self):
        """The `Answers`, with what is missing among what is told."""
        if not self.found:
            wrong = (
                f"{counted(self.strange, 'sheet')} of another homework"
                if self.strange
                else "there is no answer in it yet"
            )
            raise ANSWERS.wrong(f"{wrong}; nothing was marked")
        texts = []
        for place, one in enumerate(self.given):
            found = self.found.get(place)
            if found is None:
                self._tell(f"{one.student.label}: no answers came; nothing was marked.")
                texts.append(None)
                continue
            missing = [str(number) for number in range(1, self.count + 1) if number not in found]
            if missing:
                self._tell(f"{one.student.label}: no answer to {', '.join(missing)}; each counts 0.")
            texts.append(tuple(found[number][1] if number in found else "" for number in range(1, self.count + 1)))
        return Answers(tuple(texts), tuple(self.told))


def _by(given, column):
    """Text -> places of students, for one column."""
    places = {}
    for place, one in enumerate(given):
        text = one.sheet_id if column == "sheet" else getattr(one.student, column)
        if text:
            places.setdefault(same(text), set()).add(place)
    return places


def _unique(pairs):
    """A dict of the pairs whose first part is there once."""
    pairs = list(pairs)
    times = Counter(first for first, _ in pairs)
    return {first: second for first, second in pairs if first and times[first] == 1}
