"""Every number of the package as a row: what it is, value, unit, spread, mark, source, and where it is used."""

import re
from dataclasses import dataclass
from functools import cache, cached_property

from ..sources import MARKS
from ..tables import read_table, table_notes
from .shapes import SHAPES
from .used import BY_ATTRIBUTE, BY_NAME, uses

UNITS = ("deg", "mm", "cm2", "cm", "kg", "m")  # endings of heads
OPEN_MARK = {"M": "MH"}  # a mark without its grade stands in a note; all of them are good
BLANK = ("", "-")
ASKED_BY_NAME = (*BY_NAME, *BY_ATTRIBUTE)
ALSO = {  # what a coach says, what the tables say
    "rear deltoid": "posterior deltoid",
    "side deltoid": "middle deltoid",
    "front deltoid": "anterior deltoid",
    "lat": "latissimus",
    "lats": "latissimus",
    "traps": "trapezius",
    "shoulder blade": "scapula",
    "collarbone": "clavicle",
}


@dataclass(frozen=True)
class Number:
    """One number; every field is text but ``used``, a tuple of places: modules, and chapters by their names."""

    name: str
    value: str
    unit: str
    spread: str
    mark: str
    source: str
    table: str
    used: tuple

    @property
    def known(self):
        """How it is known, in words."""
        return MARKS[self.mark]

    @property
    def cells(self):
        """What a table shows of it, texts as `COLUMNS` names them."""
        return (
            self.name,
            self.value,
            self.unit,
            self.spread,
            self.known,
            self.source,
            self.table,
            ", ".join(self.used),
        )

    @cached_property
    def searched(self):
        """All its words in lower case, text."""
        return " ".join(self.cells).casefold()


COLUMNS = ("number", "value", "unit", "spread", "known", "source", "table", "used in")


@cache
def numbers():
    """All numbers, a tuple of `Number`, table by table: single facts first."""
    return tuple(number for file in SHAPES for row in read_table(file) for number in _of_row(file, row))


def _of_row(file, row):
    """The numbers of one row of a table."""
    shape, spreads = SHAPES[file], dict(SHAPES[file].spread)
    keys = [f"{row[key]} {_ending(key)}".strip() for key in shape.keys if row[key] not in BLANK]
    for column in shape.values:
        if row[column] in BLANK:
            continue
        heads = dict(shape.own_marks).get(column, shape.mark)
        mark = row[heads] if heads in row else heads
        name = ", ".join(keys) if len(shape.values) == 1 else f"{', '.join(keys)}: {_head(column)}"
        yield Number(
            _plain(name),
            row[column],
            _unit(shape, row, column),
            _spread([row[part] for part in spreads.get(column, ())]),
            OPEN_MARK.get(mark, mark),
            row[shape.source] if shape.source else _note(file, shape.note),
            file,
            uses(file, row["name"]) if file in ASKED_BY_NAME else uses(file),
        )


def _plain(name):
    return name.replace("_", " ").replace(" :", ":")


def _ending(head):
    """The unit that a head ends in, or nothing."""
    last = head.rpartition("_")[2]
    return last if last in UNITS else ""


def _head(column):
    """A column's head without its unit; a correlation says what it is."""
    bare = column.removesuffix(f"_{_ending(column)}") if _ending(column) else column
    return f"correlation with {bare.removeprefix('r_')}" if bare.startswith("r_") else bare


def _unit(shape, row, column):
    if column.startswith("r_"):
        return ""
    if shape.unit == "measure":
        return _ending(row["measure"])
    return _ending(column) or row.get(shape.unit, shape.unit)


def _spread(parts):
    """ "± 0.2", "0.1 to 0.3", or nothing."""
    given = [part for part in parts if part]
    if len(parts) == 1:
        return f"± {given[0]}" if given else ""
    return " to ".join(given)


@cache
def _note(file, place):
    """The note at the head of a table that holds its source."""
    return table_notes(file)[place]


def find(text):
    """Numbers whose row has every word of a ``text``, or of what the tables say for it (`ALSO`), a tuple of `Number`.

    Case and order do not count; numbers with the words in their names come first.

    >>> [number.value for number in find("winter UPPER mass")]
    ['0.028']
    """
    said = " ".join(text.casefold().split())
    asked = [said, *(re.sub(rf"\b{one}\b", other, said) for one, other in ALSO.items())]
    wanted = {tuple(way.split()) for way in asked}
    found = [one for one in numbers() if any(all(word in one.searched for word in way) for way in wanted)]
    return tuple(
        sorted(found, key=lambda one: -max(sum(word in one.name.casefold() for word in way) for way in wanted))
    )
