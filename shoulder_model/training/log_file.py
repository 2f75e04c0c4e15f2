"""A log's file as rows of cells, as a phone or a spreadsheet writes it; nothing in it is worked out.

Letters in UTF-8, UTF-16 or cp1252; cells parted by comma, semicolon or tab; columns in any order and any case, with others
among them. What cannot be read is refused in one line.
"""

import csv
import io
import re

from ..inputs import InputError
from ..tables import as_typed

HEADS = (
    "date", "weekday", "day", "pull", "set", "grip [cm]", "load [kg]", "repetitions", "repetitions left", "pain 0-10",
    "comfort 0-10", "note",
)  # fmt: skip
NEEDED = ("pull", "set", "repetitions", "pain 0-10")  # without the last, pain would be overlooked
SHORT = {"reps": "repetitions", "reps left": "repetitions left"}
DELIMITERS = (",", ";", "\t")
LARGEST, MOST_LINES, LONGEST_CELL = 1_000_000, 5_000, 300  # bytes or letters of a file, lines, letters of a cell
SHOWN = 24  # letters of a value in a refusal
FROM_BLANK = "start from a blank log"
NOTHING = f"there is nothing in it; {FROM_BLANK}"
SEPARATOR_LINE = re.compile(r'"?sep=([,;\t])"?', re.IGNORECASE)  # a spreadsheet's own first line
UNIT = re.compile(r"[\[(]([^\])]*)[\])]")
SCALE = re.compile(r"\b0 *(?:-|–|to) *10\b")
FEWEST_ZEROS = 0.3  # share of bytes; letters of two bytes have a zero in nearly each second one
A_NUMBER = re.compile(r" *\d+([.,]\d+)? *")  # as a note it looks like one from another cell
NO_TEXT = re.compile(r"[\x00-\x08\x0b\x0c\x0e-\x1f\x7f]")


def wrong(why, line=None, column=None):
    """A refusal of a log: ``why`` in words, the ``line``, a whole number, and the ``column``, a name."""
    where = [f"line {line}" if line else "", f"column {column!r}" if column else ""]
    return InputError("log", f"{', '.join(['log', *(part for part in where if part)])}: {why}")


def said(cell):
    """A ``cell`` (text) as it stands in a refusal: in quotes, shortened.

    >>> said("x" * 40)
    "'xxxxxxxxxxxxxxxxxxxxxxxx…'"
    """
    shown = cell[:SHOWN] + "…" * (len(cell) > SHOWN)
    return repr(shown) if shown.isprintable() else ascii(shown)


def decoded(content):
    """The text of a file, ``content`` bytes or text, with one kind of line end and without a byte order mark.

    Raises
    ------
    InputError
        Too long, or no text.
    """
    if not isinstance(content, str | bytes):
        raise wrong("give the file's text or bytes")
    if len(content) > LARGEST:
        raise wrong(f"more than {LARGEST} letters, too long for a log; {FROM_BLANK}")
    text = content if isinstance(content, str) else _from_bytes(bytes(content))
    text = text.removeprefix("\ufeff").replace("\r\n", "\n").replace("\r", "\n")
    if NO_TEXT.search(text):
        raise wrong("this is no text file; save the table as CSV")
    if text.count("\n") > MOST_LINES:
        raise wrong(f"more than {MOST_LINES} lines, too long for a log; {FROM_BLANK}")
    return text


def _from_bytes(content):
    for encoding in (*_two_bytes(content), "utf-8-sig", "cp1252"):
        try:
            return content.decode(encoding)
        except UnicodeDecodeError:
            continue
    raise wrong("its letters cannot be read; save the table as CSV UTF-8")


def _two_bytes(content):
    """Encodings with two bytes a letter that fit, by their mark or by their zeros."""
    if content[:2] in (b"\xff\xfe", b"\xfe\xff"):
        return ("utf-16",)
    if len(content) % 2 or content.count(0) < FEWEST_ZEROS * len(content):
        return ()
    return ("utf-16-le",) if content[1::2].count(0) > content[::2].count(0) else ("utf-16-be",)


def rows(text):
    """Pairs of line, a whole number, and row, a dict of column name -> text, of a log's ``text``.

    A row has every column of `HEADS`, "" where it is missing; rows without anything in them are passed over.

    Raises
    ------
    InputError
        In one line: no log, a column missing or there twice, cells that do not fit the columns.
    """
    delimiter, skipped, text = _delimiter(text)
    reader = csv.reader(io.StringIO(text), delimiter=delimiter, strict=True)
    columns, width = None, 0
    while (cells := _next(reader, skipped)) is not None:
        line = reader.line_num + skipped
        typed, cells = cells, [_clean(cell) for cell in cells]
        if not any(cells):
            continue
        if columns is None:
            columns, width = _columns(cells, line), len(cells)
            continue
        _check_width(cells, width, delimiter, line)
        if len(cells) < width and reader.line_num > text.count("\n"):
            raise wrong("the file ends in the middle of this line; save it again", line)
        row = dict.fromkeys(HEADS, "") | {name: cells[place] for name, place in columns.items() if place < len(cells)}
        _check_moved(row, _at(columns.get("note"), typed), delimiter, line)
        yield line, row
    if columns is None:
        raise wrong(NOTHING)


def _delimiter(text):
    """What parts the cells, lines before the table, and the table."""
    first, _, rest = text.partition("\n")
    told = SEPARATOR_LINE.fullmatch(first.strip(" "))
    if told:
        return told[1], 1, rest
    heads = next((line for line in text.split("\n") if line.strip(' \t,;"')), None)
    if heads is None:
        raise wrong(NOTHING)
    return max(DELIMITERS, key=heads.count), 0, text


def _next(reader, skipped):
    try:
        return next(reader, None)
    except csv.Error:
        raise wrong(
            f"no table can be read here; is a quotation mark missing? Or {FROM_BLANK}", reader.line_num + skipped
        ) from None


def _clean(cell):
    """A cell without outer blanks and without the mark that keeps it from being a formula."""
    return as_typed(" ".join("".join(sign if sign.isprintable() else " " for sign in cell).split()))


def _columns(cells, line):
    """Where each known column stands: dict of name -> place."""
    known = {_bare(head): head for head in HEADS}
    columns = {}
    for place, cell in enumerate(cells):
        bare = _bare(cell)
        name = known.get(SHORT.get(bare, bare))
        if name is None:
            continue
        if name in columns:
            raise wrong("this column is there twice; take one out", line, name)
        unit, wanted = UNIT.search(cell), UNIT.search(name)
        if wanted and unit and unit[1].strip().lower() != wanted[1]:
            raise wrong(f"{said(cell)} is in another unit; write it in {wanted[1]}", line, name)
        columns[name] = place
    missing = [name for name in NEEDED if name not in columns]
    if missing:
        raise wrong(f"the column is missing; the first line has the heads of a log, or {FROM_BLANK}", line, missing[0])
    return columns


def _bare(head):
    """A head without unit, scale and case."""
    return " ".join(SCALE.sub("", UNIT.sub("", head.lower().replace("_", " "))).split())


def _check_width(cells, width, delimiter, line):
    """More cells than heads, or fewer that do not just end early, may stand under the wrong heads."""
    fewest = width - 1 if delimiter == "," else 1  # between commas only the note may be left out
    if not fewest <= len(cells) <= width or (len(cells) < width and not cells[-1]):
        raise wrong(
            f"{len(cells)} cells under {width} heads; keep empty cells, and write 42.5 where a comma would split it",
            line,
        )
    for cell in cells:
        if len(cell) > LONGEST_CELL:
            raise wrong(f"{said(cell)} has {len(cell)} letters, {LONGEST_CELL} at most; say it shorter", line)


def _at(place, cells):
    return cells[place] if place is not None and place < len(cells) else ""


def _check_moved(row, note, delimiter, line):
    """A decimal comma between commas moves what follows by one cell: into the ``note``, or repetitions into those left."""
    load, done, left = (row[name] for name in ("load [kg]", "repetitions", "repetitions left"))
    whole = all(cell.isascii() and cell.isdecimal() for cell in (load, done, left))
    commas = delimiter == ","
    if A_NUMBER.fullmatch(note) or (commas and whole and int(left[:9]) > int(done[:9])):
        instead = (
            "write 42.5 with a point, or put “42,5” in quotation marks" if commas else "or write words in the note"
        )
        raise wrong(f"the cells look moved by one; {instead}", line)
