"""A reader's own trial: a blank table to fill in, and its way back as results among the published ones.

One row a person, with the two readings; the table works nothing out and nothing in it is executed. A row that names its trial
says what was compared; a row that leaves the trial blank goes on with the one above. Means, spreads and the correlation come
from the people, so nothing has to be assumed.
"""

import csv
import io
import re
from functools import cache
from importlib.resources import files

import numpy as np

from ..given_file import letters_of
from ..inputs import InputError, checked_call, choice, thing
from ..table_file import DELIMITERS, most_frequent, next_row, one_line_end
from ..tables import Number, as_typed, table_text
from .trials import HELD_WORDS, SIDES, Comparison, comparisons

SAME = (
    "trial", "question", "muscle or load", "unit", "phase", "first", "second", "load", "also changed", "trained", "limits",
)  # fmt: skip
OF_PERSON = ("person", "value first", "value second")
HEADS = SAME + OF_PERSON
MAY_BE_BLANK = ("phase", "also changed", "trained", "limits")
KEY = ("trial", "question", "muscle or load", "phase", "first", "second")  # tells one result from another
CHOICES = {
    "question": tuple(SIDES),
    "phase": ("whole", "concentric", "eccentric"),
    "load": tuple(HELD_WORDS.values()),
    "trained": ("trained", "novice", "not stated"),
}
LONGEST = {
    "trial": 40,
    "first": 24,
    "second": 24,
    "unit": 12,
    "also changed": 60,
    "limits": 120,
    "person": 12,
}  # letters
LARGEST, MOST_ROWS, FEWEST_PEOPLE = 200_000, 1000, 3  # characters, people in all, people in one result
HIGHEST_CORRELATION = 0.99  # a few people can lie on a line by chance; the interval stays a little too long then
READING = re.compile(r"[+\-−]?\d{1,6}([.,]\d{1,6})?")
FROM_BLANK = "start from a blank trial table"


@cache
def measured():
    """What a trial may have measured, a tuple of names: the muscles of the published trials, and the largest load."""
    return tuple(dict.fromkeys(row.muscle for row in comparisons()))


def template_rows():
    """A blank trial table as rows of text, with what may stand in it in lines that begin with #."""
    sides = "; ".join(
        f"{question}: first is {first}, second is {second}" for question, (first, second) in SIDES.items()
    )
    notes = (
        "One row a person. Fill in the first row of a trial; leave the cells of the trial blank in the rows below it.",
        f"question, and which set-up comes first: {sides}",
        f"muscle or load: {'; '.join(measured())}",
        *(f"{column}: {'; '.join(names)}" for column, names in CHOICES.items() if column != "question"),
        "also changed: what else differed between the two set-ups; blank if nothing did",
        "person: a number, never a name",
    )
    return [*([f"# {note}"] for note in notes), HEADS]


@checked_call
def trial_template(delimiter=","):
    """The rows of `template_rows` as CSV text.

    ``delimiter`` is the text between cells: "," or, where a spreadsheet wants it so, ";"; tab too, else `InputError`.
    """
    choice("delimiter", delimiter, DELIMITERS)
    return table_text(template_rows(), delimiter)


def example_rows():
    """An invented class's filled-in trial table, as rows of text and numbers."""
    rows = csv.reader(io.StringIO(example_trial()))
    return [[Number(cell) if READING.fullmatch(cell) else cell for cell in row] for row in rows]


def example_trial():
    """An invented class's filled-in trial table, as CSV text."""
    return files(__package__).joinpath("../data/invented_class.csv").read_text(encoding="utf-8")


@checked_call
def read_trials(content, name="trial table"):
    """The results of a filled-in trial table, as a tuple of `Comparison`, means in the table's own unit.

    Parameters
    ----------
    content : str or bytes
        The file. A byte order mark, cells parted by ; or tab, and decimal commas are fine.
    name : str
        Of the file, for refusals.

    Raises
    ------
    InputError
        One line: file, line, column, what is wrong and what to do.
    """
    found, place = {}, _Place(thing("name", name, str))
    for cells in _rows(_text(content, place), place):
        if cells["trial"]:
            about = {column: _checked(column, cells[column], place) for column in SAME}
        elif not found:
            raise place.wrong("blank in the first row of a trial; name the trial", "trial")
        else:
            _same_as_above(about, cells, place)
        key = tuple(about[column] for column in KEY)
        first = found.setdefault(key, (place.line, about, {}))
        _same_as_above(first[1], about, place)
        _add_person(first[2], cells, place)
    if not found:
        raise place.wrong("no person in it; fill in one row a person")
    return tuple(_result(*one, place) for one in found.values())


class _Place:
    """Where a refusal points: the file's ``name`` and the ``line`` that is being read."""

    def __init__(self, name):
        self.name, self.line = " ".join(name.split())[:40] or "trial table", None

    def wrong(self, why, column=None):
        where = [self.name, f"line {self.line}" if self.line else "", f"column {column!r}" if column else ""]
        return InputError("trial table", f"{', '.join(part for part in where if part)}: {why}")


def _text(content, place):
    """The file as text with one kind of line end."""
    if not isinstance(content, (str, bytes)):
        raise place.wrong(f"neither text nor bytes; {FROM_BLANK}")
    if len(content) > LARGEST:
        raise place.wrong(f"more than {LARGEST} characters, too long for a trial; {FROM_BLANK}")
    try:
        return one_line_end(letters_of(content))
    except UnicodeDecodeError:
        raise place.wrong("not plain text in UTF-8; save it as CSV UTF-8") from None


def _rows(text, place):
    """Rows (dicts by column) of the people in it; ``place`` keeps the line."""
    heads, count = None, 0
    delimiter = _delimiter(text)
    reader = csv.reader(io.StringIO(text), delimiter=delimiter, strict=True)

    def broken():
        place.line = reader.line_num
        return place.wrong(f"no table can be read here (a quotation mark, perhaps); {FROM_BLANK}")

    while (cells := next_row(reader, broken)) is not None:
        place.line, cells = reader.line_num, [as_typed(cell.strip()).strip() for cell in cells]
        if not any(cells) or cells[0].startswith("#"):
            continue
        if heads is None:
            heads = _heads(cells, place)
            continue
        count += 1
        if count > MOST_ROWS:
            raise place.wrong(f"more than {MOST_ROWS} people; make it two tables")
        if len(cells) < len(heads) or any(cells[len(heads) :]):
            raise place.wrong(
                f"{len(cells)} cells in a row of {len(heads)}; put cells with {delimiter!r} in them in quotes"
            )
        yield dict(zip(heads, cells, strict=False))


def _delimiter(text):
    """What parts the cells: what stands most often in the first line that is no note."""
    heads = next((line for line in text.split("\n") if line.strip() and not line.lstrip('" ').startswith("#")), "")
    return most_frequent(heads)


def _heads(cells, place):
    """The columns, in the order of this table."""
    while cells and not cells[-1]:
        cells = cells[:-1]
    heads = [" ".join(cell.lower().split()) for cell in cells]
    missing = [head for head in HEADS if head not in heads]
    unknown = [head for head in heads if heads.count(head) > 1 or head not in HEADS]
    if missing:
        raise place.wrong(f"column {missing[0]!r} is missing; {FROM_BLANK}")
    if unknown:
        raise place.wrong(f"column {unknown[0][:30]!r} is not known or there twice; take it out or {FROM_BLANK}")
    return heads


def _checked(column, cell, place):
    """One cell that is the same for all people of a result."""
    if not cell.isprintable():
        raise place.wrong("signs in it that cannot be printed; type it again", column)
    if not cell:
        if column not in MAY_BE_BLANK:
            raise place.wrong("blank; fill it in", column)
        return "not stated" if column == "trained" else ""
    names = measured() if column == "muscle or load" else CHOICES.get(column)
    if names:
        return _chosen(column, cell, names, place)
    if len(cell) > LONGEST[column]:
        raise place.wrong(f"{len(cell)} letters, {LONGEST[column]} at most; say it shorter", column)
    return cell


def _chosen(column, cell, names, place):
    try:
        return choice(column, cell.lower()[:30], names)
    except InputError as refusal:
        hint = str(refusal).rpartition("; ")[2]
        hint = hint if len(hint) < 150 else "choose one that the notes of a blank trial table list"
        raise place.wrong(f"{cell[:30]!r} is not known; {hint}", column) from None


def _same_as_above(about, cells, place):
    """Refuse a cell that says something else than its result's first row; blank ones say the same."""
    for column in SAME:
        cell = cells[column]
        if cell and cell != about[column] and _checked(column, cell, place) != about[column]:
            raise place.wrong(
                f"{cell[:30]!r}, but {about[column][:30]!r} above; leave it blank or name the trial", column
            )


def _add_person(people, cells, place):
    """Put one person's two readings to the others of the result."""
    person = cells["person"]
    if not person or len(person) > LONGEST["person"] or not person.isprintable():
        raise place.wrong(f"blank or longer than {LONGEST['person']} letters; number the people", "person")
    if person in people:
        raise place.wrong(f"{person!r} is there twice in one result; give each person one row", "person")
    people[person] = tuple(_reading(column, cells[column], place) for column in OF_PERSON[1:])


def _reading(column, cell, place):
    if not (cell.isascii() or "−" in cell) or not READING.fullmatch(cell):
        raise place.wrong(f"{cell[:20]!r} is no number; type digits only, no unit and no formula", column)
    return float(cell.replace(",", ".").replace("−", "-"))


def _result(line, about, people, place):
    """The `Comparison` of one result's people."""
    place.line = line
    if len(people) < FEWEST_PEOPLE:
        raise place.wrong(f"only {len(people)} in this result; it takes {FEWEST_PEOPLE} people or more", "person")
    readings = np.transpose(list(people.values()))
    spreads = readings.std(axis=1, ddof=1)
    for column, spread in zip(OF_PERSON[1:], spreads, strict=True):
        if spread < 1e-6:
            raise place.wrong("the same for everybody, so there is no spread to count in; check it", column)
    (first, second), (sd_first, sd_second) = readings.mean(axis=1).tolist(), spreads.tolist()
    together = float(np.clip(np.corrcoef(readings)[0, 1], -HIGHEST_CORRELATION, HIGHEST_CORRELATION))
    held = next(code for code, words in HELD_WORDS.items() if words == about["load"])
    scaled = "a load" if about["muscle or load"] == "largest load" else "not stated"
    scaled = "MVIC" if about["unit"].replace(" ", "").upper().startswith("%MV") else scaled
    also = "; ".join(re.split(r"[,;] *", about["also changed"]))
    return Comparison(
        study=f"own: {about['trial']}", citation=about["trial"], n=len(people), question=about["question"],
        muscle=about["muscle or load"], phase=about["phase"], first=about["first"], second=about["second"], higher="",
        statement=f"own readings in {about['unit']}", held=held, also_changed=also,
        trained=about["trained"], normalised=scaled, flaws=about["limits"] or "none stated",
        means=(first, sd_first, second, sd_second), correlation=together, own=True,
    )  # fmt: skip
