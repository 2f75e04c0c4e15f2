"""What a page is made of: headings, lines, boxes, tables. Made once (`parts`); HTML and PDF are two ways to put it on paper."""

import unicodedata
from dataclasses import dataclass
from itertools import groupby

TURNS = ("LRE", "RLE", "LRO", "RLO", "PDF", "LRI", "RLI", "FSI", "PDI")  # characters that turn the line round
MARKS = ("\u200e", "\u200f", "\u061c")  # marks of direction that stand alone
NOT_PRINTED = ("Cc", "Cs", "Co", "Cn")  # control characters, halves of characters, characters that nobody has defined


def plain(text):
    """Any ``text`` as one line of printable text, without characters that turn the direction of what follows.

    >>> plain("Ann\\n  <b>\\u202e")
    'Ann <b>'
    """

    def stays(letter):
        hidden = unicodedata.bidirectional(letter) in TURNS or letter in MARKS
        return not hidden and unicodedata.category(letter) not in NOT_PRINTED

    spaced = " ".join(str(text).split())
    return " ".join("".join(letter for letter in spaced if stays(letter)).split())


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

    Neighbouring rows with the same first cell are one group: the cell stands there once, and no page ends inside the group.
    ``to_write`` makes its lines tall enough to write on by hand.
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
class NewPage:
    """What follows starts on a new page."""


@dataclass(frozen=True)
class Document:
    """A whole page or several: a ``title`` in words and its ``parts``, in order."""

    title: str
    parts: tuple

    @property
    def texts(self):
        """Every text that stands on it, in order, a tuple; a table's heads once."""
        return (self.title, *(text for part in self.parts for text in _texts(part) if text))


def _texts(part):
    """The texts of one part, in the order they are read."""
    if isinstance(part, Table):
        yield from part.heads
        for first, rows in part.groups:
            yield first
            for row in rows:
                yield from row
    elif isinstance(part, Entry):
        yield part.head
        for pair in part.pairs:
            yield from pair
    elif isinstance(part, Fields):
        for pair in part.pairs:
            yield from pair
    elif isinstance(part, Box):
        yield from (part.title, *part.lines)
    elif isinstance(part, Points):
        yield from part.lines
    elif isinstance(part, Heading | Line):
        yield part.text
