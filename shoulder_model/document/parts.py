"""What a page is made of: headings, lines, boxes, tables, questions, pictures. HTML and PDF are two ways to put it on
paper.
"""

from dataclasses import dataclass
from itertools import groupby

from .scene import Label, Scene

PICTURE_MM = 80  # width of a picture on paper


@dataclass(frozen=True)
class Fields:
    """Lines with a label and a value, ``pairs`` of text; an empty value is a line to write on."""

    pairs: tuple


@dataclass(frozen=True)
class Heading:
    """A heading, ``text``."""

    text: str


@dataclass(frozen=True)
class Line:
    """A paragraph, ``text``; ``strong`` is in bold."""

    text: str
    strong: bool = False


@dataclass(frozen=True)
class Points:
    """A list with a mark before each of its ``lines``, text."""

    lines: tuple


@dataclass(frozen=True)
class Box:
    """A frame with a ``title`` and ``lines`` of text: what has to be read first."""

    title: str
    lines: tuple


@dataclass(frozen=True)
class Entry:
    """One thing with what there is to say of it: a ``head``, and ``pairs`` (label, text)."""

    head: str
    pairs: tuple


@dataclass(frozen=True)
class Table:
    """A table: ``heads`` of text, ``rows`` of as many texts, ``widths`` of its columns in any unit.

    Neighbouring rows with the same first cell are one group: the cell stands there once, and no page ends inside the
    group. ``to_write`` makes its lines tall enough to write on by hand.
    """

    heads: tuple
    rows: tuple
    widths: tuple
    to_write: bool = False

    @property
    def groups(self):
        """The rows by their first cell: a tuple of (cell, tuple of the rows' other cells), text."""
        groups = groupby(self.rows, key=lambda row: row[0])
        return tuple((first, tuple(tuple(row[1:]) for row in rows)) for first, rows in groups)


@dataclass(frozen=True)
class Picture:
    """A drawing, ``scene`` (`scene.Scene`), ``width`` millimetres wide on paper; ``caption`` (text) stands below it."""

    scene: Scene
    width: float = PICTURE_MM
    caption: str = ""


@dataclass(frozen=True)
class Question:
    """A question with room for its answer; no page ends inside.

    Parameters
    ----------
    number : str
    paragraphs : tuple of str
    lists : tuple
        Of a title (text, may be empty) and pairs (sign, text): options, reasons, lines to look through.
    picture : Picture, optional
    answer : str
        What stands before the line to write on.
    unit : str
        What stands behind it.
    space : float
        Room to work it out, above that line. [mm]
    """

    number: str
    paragraphs: tuple
    lists: tuple = ()
    picture: Picture | None = None
    answer: str = "Answer"
    unit: str = ""
    space: float = 0.0


@dataclass(frozen=True)
class Numbered:
    """A ``head`` with numbered ``lines`` of text below it, 1 the first; no page ends inside."""

    head: str
    lines: tuple


@dataclass(frozen=True)
class NewPage:
    """What follows starts on a new page."""


@dataclass(frozen=True)
class Document:
    """A whole page or several: a ``title`` in words and its ``parts``, in order; ``footer`` (text) stands below each
    page.
    """

    title: str
    parts: tuple
    footer: str = ""

    @property
    def texts(self):
        """Every text that stands on it, in order, a tuple; a table's heads once."""
        return (self.title, *(text for part in self.parts for text in _texts(part) if text))


def _texts(part):
    """The texts of one part, in the order they are read."""
    return _TEXTS[type(part)](part)


def _of_table(part):
    yield from part.heads
    for first, rows in part.groups:
        yield first
        for row in rows:
            yield from row


def _of_entry(part):
    return (part.head, *(text for pair in part.pairs for text in pair))


def _of_picture(part):
    scene = part.scene
    labels = (shape.text for shape in scene.shapes if isinstance(shape, Label))
    return (*labels, *(mark.letter for mark in scene.marks), part.caption)


def _of_question(part):
    yield part.number
    yield from part.paragraphs
    if part.picture:
        yield from _of_picture(part.picture)
    for title, pairs in part.lists:
        yield title
        for pair in pairs:
            yield from pair
    yield from (part.answer, part.unit)


def _of_numbered(part):
    yield part.head
    for place, line in enumerate(part.lines, 1):
        yield from (str(place), line)


_TEXTS = {
    Table: _of_table, Entry: _of_entry, Picture: _of_picture, Question: _of_question, Numbered: _of_numbered,
    Fields: lambda part: (text for pair in part.pairs for text in pair), Box: lambda part: (part.title, *part.lines),
    Points: lambda part: part.lines, Heading: lambda part: (part.text,), Line: lambda part: (part.text,),
    NewPage: lambda part: (),
}  # fmt: skip
