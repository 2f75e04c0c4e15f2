"""A table's file as rows of cells, as a phone or a spreadsheet writes it; nothing in it is worked out.

Letters in UTF-8, UTF-16 or cp1252; cells parted by comma, semicolon or tab. What cannot be read is refused in one
line, in the words of the kind of table it is (`Kind`). A training log, a reader's own trial, a class list and answers
are read with it.
"""

import contextlib
import csv
import io
import re
from dataclasses import dataclass

from .given_file import letters_of
from .inputs import InputError
from .tables import as_typed

DELIMITERS = (",", ";", "\t")
SHOWN = 24  # letters of a value in a refusal
SEPARATOR_LINE = re.compile(r'"?sep=([,;\t])"?', re.IGNORECASE)  # a spreadsheet's own first line
NO_TEXT = re.compile(r"[\x00-\x08\x0b\x0c\x0e-\x1f\x7f]")


def said(cell):
    """A ``cell`` (text) as it stands in a refusal: in quotes, shortened.

    >>> said("x" * 40)
    "'xxxxxxxxxxxxxxxxxxxxxxxx…'"
    """
    shown = cell[:SHOWN] + "…" * (len(cell) > SHOWN)
    return repr(shown) if shown.isprintable() else ascii(shown)


def one_line_end(text):
    r"""A file's ``text`` without a byte order mark, its lines parted by \n."""
    return text.removeprefix("\ufeff").replace("\r\n", "\n").replace("\r", "\n")


def most_frequent(heads):
    """What parts the cells of a line with ``heads``, text: comma, semicolon or tab."""
    return max(DELIMITERS, key=heads.count)


def next_row(reader, broken):
    """The next row of a ``reader`` (of the module `csv`), or None at the end; ``broken()`` is the error, in words,
    for what is no table.
    """
    try:
        return next(reader, None)
    except csv.Error:
        raise broken() from None


def clean(cell):
    """A ``cell`` (text) without outer blanks and without the mark that keeps it from being a formula.

    >>> clean(" '=1+1 ")
    '=1+1'
    """
    if not cell.isprintable():
        cell = "".join(sign if sign.isprintable() else " " for sign in cell)
    return as_typed(" ".join(cell.split())).strip()


@dataclass(frozen=True)
class Row:
    """One row of a table: its ``line`` (a whole number), ``cells`` and what was ``typed`` in them, text, and the
    table's ``delimiter``.
    """

    line: int
    cells: tuple
    typed: tuple
    delimiter: str

    def at(self, place):
        """The clean text in the column at ``place``, a whole number or None; "" where there is none."""
        return self.cells[place] if place is not None and place < len(self.cells) else ""


@dataclass(frozen=True)
class Kind:
    """A kind of table: what it is called and how long it may be.

    Parameters
    ----------
    name : str
        Begins each refusal.
    instead : str
        What to do where it cannot be read.
    largest, most_lines, longest_cell : int
        Bytes or letters of a file, lines, letters of a cell.
    whole : str
        How a cell with a comma in it is kept whole, in words.
    last_may_lack : bool
        Whether the last cell of a row may be left out between commas.
    """

    name: str
    instead: str
    largest: int = 1_000_000
    most_lines: int = 5_000
    longest_cell: int = 300
    whole: str = "write 42.5 where a comma would split it"
    last_may_lack: bool = False

    def wrong(self, why, line=None, column=None):
        """A refusal: ``why`` in words, the ``line``, a whole number, and the ``column``, a name."""
        where = [f"line {line}" if line else "", f"column {column!r}" if column else ""]
        return InputError(self.name, f"{', '.join([self.name, *(part for part in where if part)])}: {why}")

    def nothing(self):
        """The refusal, in words, of a file without a table."""
        return self.wrong(f"there is nothing in it; {self.instead}")

    def decoded(self, content):
        """The text of a file, ``content`` bytes or text, with one kind of line end and without a byte order mark.

        Raises
        ------
        InputError
            Too long, or no text.
        """
        if not isinstance(content, str | bytes):
            raise self.wrong("give the file's text or bytes")
        if len(content) > self.largest:
            raise self.wrong(f"more than {self.largest} letters, too long for a {self.name}; {self.instead}")
        text = one_line_end(content if isinstance(content, str) else self._from_bytes(bytes(content)))
        if NO_TEXT.search(text):
            raise self.wrong("this is no text file; save the table as CSV")
        if text.count("\n") > self.most_lines:
            raise self.wrong(f"more than {self.most_lines} lines, too long for a {self.name}; {self.instead}")
        return text

    def _from_bytes(self, content):
        for read in (letters_of, lambda given: given.decode("cp1252")):
            with contextlib.suppress(UnicodeDecodeError):
                return read(content)
        raise self.wrong("its letters cannot be read; save the table as CSV UTF-8")

    def rows(self, text):
        """Rows of a table's ``text`` (`Row`), the heads first; rows without anything in them are passed over.

        Raises
        ------
        InputError
            In one line: no table, or cells that do not fit the heads.
        """
        delimiter, skipped, text = self._delimiter(text)
        reader = csv.reader(io.StringIO(text), delimiter=delimiter, strict=True)

        def broken():
            why = f"no table can be read here; is a quotation mark missing? Or {self.instead}"
            return self.wrong(why, reader.line_num + skipped)

        width, last = 0, text.count("\n")
        while (typed := next_row(reader, broken)) is not None:
            row = Row(reader.line_num + skipped, tuple(map(clean, typed)), tuple(typed), delimiter)
            if not any(row.cells):
                continue
            if width:
                self._check_width(row, width)
                if len(typed) < width and reader.line_num > last:
                    raise self.wrong("the file ends in the middle of this line; save it again", row.line)
            width = width or len(typed)
            yield row
        if not width:
            raise self.nothing()

    def _delimiter(self, text):
        """What parts the cells, lines before the table, and the table."""
        first, _, rest = text.partition("\n")
        told = SEPARATOR_LINE.fullmatch(first.strip(" "))
        if told:
            return told[1], 1, rest
        heads = next((line for line in text.split("\n") if line.strip(' \t,;"')), None)
        if heads is None:
            raise self.nothing()
        if not any(sign in heads for sign in DELIMITERS):  # one column, whose cells may have commas in them
            return next((sign for sign in DELIMITERS if sign not in text), DELIMITERS[0]), 0, text
        return most_frequent(heads), 0, text

    def _check_width(self, row, width):
        """More cells than heads, or fewer that do not just end early, may stand under the wrong heads."""
        cells = row.cells
        fewest = width - self.last_may_lack if row.delimiter == "," else 1
        if not fewest <= len(cells) <= width or (len(cells) < width and not cells[-1]):
            told = f"{len(cells)} cells under {width} heads; keep empty cells, and {self.whole}"
            raise self.wrong(told, row.line)
        for cell in cells:
            if len(cell) > self.longest_cell:
                letters = f"{len(cell)} letters, {self.longest_cell} at most"
                raise self.wrong(f"{said(cell)} has {letters}; say it shorter", row.line)
