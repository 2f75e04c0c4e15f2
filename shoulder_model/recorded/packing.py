"""Tables of texts in few bytes: what thousands of states of a picture say, packed into one piece of text.

A table has a column for each text that a state consists of (an attribute of an element, a sentence), and a row for each state.
Most columns take few values, and most values differ in their numbers only. So of each column there is kept

- its pattern: which of its values stands in each row. A value gets its number when it first occurs. Many columns share one.
- its templates: the values with their numbers cut out. A control character stands for a number, U+0001 for a whole one, U+0002
  for one with a digit behind the point, and so on.
- the numbers, as whole ones (12.3 is 123), each as its difference to the one in the value before with the same template. Where
  it is shorter, so are those differences: each less the one two places before it, as x and y of an outline that moves as a whole.

The packed text is base64 of bytes deflated by zlib: the length of a head (4 bytes, the lowest first), the head as JSON, and
then a stream of whole numbers. A number n is written as 2 n, or −2 n − 1 below zero, 7 bits a byte, the lowest first; the high
bit says that more follow. The head is an object with whatever its user wants, and under "tables"::

    {"rows": how many, "patterns": how many, "columns": [[key, pattern, [template, ...], [way, ...]], ...]}

The stream has for each table first its patterns, a number a row: the place of the row's value among the values, less the place
of that in the row before. Then its columns. A column with one value keeps it whole as its only template and has nothing in the
stream. Any other has, where there are several templates, a number a value: its template; then for each template the differences,
all of the first number that it cuts out, all of the second, and so on. Its way is 0 for plain differences, 1 where they are less
those two places before. The template null is a text that is not there.
"""

import base64
import json
import re
import struct
import zlib

import numpy as np

NUMBER = re.compile(r"(?<![\d.])(?!-0(?:\.0+)?(?![\d.]))(-?(?:0|[1-9]\d{0,6})(?:\.\d{1,2})?)(?![\d.])")
SEVEN, LONGEST = 7, 5  # bits a byte; bytes a number


class Table:
    """Rows of texts by key, as they come in.

    ``rows`` (whole number) says how many; ``columns`` (dict) has for each key its values, text -> number, and its pattern, a list.
    """

    def __init__(self):
        self.rows, self.columns = 0, {}

    def add(self, texts):
        """One more row, ``texts`` (dict): key -> text. A key that is missing has none."""
        for key in texts.keys() - self.columns.keys():
            self.columns[key] = {None: 0} if self.rows else {}, [0] * self.rows
        for key, (values, pattern) in self.columns.items():
            pattern.append(values.setdefault(texts.get(key), len(values)))
        self.rows += 1

    def join(self, later):
        """Put the rows of another `Table` of texts, ``later``, behind these; names of columns may differ."""
        for key in later.columns.keys() - self.columns.keys():
            self.columns[key] = {None: 0} if self.rows else {}, [0] * self.rows
        for key, (values, pattern) in self.columns.items():
            new, its = later.columns.get(key, ({None: 0}, [0] * later.rows))
            places = [values.setdefault(text, len(values)) for text in new]
            pattern += [places[place] for place in its]
        self.rows += later.rows

    def in_order(self, rows):
        """The same `Table` with its rows as the whole numbers in ``rows`` (array) say."""
        other = Table()
        other.rows = self.rows
        for key, (values, pattern) in self.columns.items():
            pattern = np.array(pattern)[rows]
            places, first = np.unique(pattern, return_index=True)
            order, texts = places[np.argsort(first)], list(values)
            new = np.empty(len(texts), int)
            new[order] = np.arange(len(order))
            other.columns[key] = {texts[place]: number for number, place in enumerate(order)}, new[pattern].tolist()
        return other

    def letters(self):
        """Every character that its texts have, a set of text."""
        return set().union(*(text for values, _ in self.columns.values() for text in values if text))


def packed(head, tables):
    """Some tables and a head as one text.

    Parameters
    ----------
    head : dict
        Whatever JSON can hold.
    tables : list of Table

    Returns
    -------
    str
        As the module's text says: base64, on one line.
    """
    stream, heads = [], []
    for table in tables:
        heads.append(_table(table, stream))
    text = json.dumps({**head, "tables": heads}, ensure_ascii=False, separators=(",", ":")).encode()
    whole = struct.pack("<I", len(text)) + text + b"".join(stream)
    return base64.b64encode(zlib.compress(whole, 9)).decode()


def _table(table, stream):
    patterns = {
        pattern: number for number, pattern in enumerate(dict.fromkeys(tuple(p) for _, p in table.columns.values()))
    }
    stream += [_bytes(np.diff(pattern, prepend=0)) for pattern in patterns]
    columns = [
        [key, patterns[tuple(pattern)], *_column(list(values), stream)]
        for key, (values, pattern) in table.columns.items()
    ]
    return {"rows": table.rows, "patterns": len(patterns), "columns": columns}


def _column(values, stream):
    """The templates of a column and the ways of their numbers, which go into the ``stream``."""
    if len(values) == 1:
        return values, []
    cut = [(None, []) if text is None else cut_out(text) for text in values]
    templates = {template: place for place, template in enumerate(dict.fromkeys(template for template, _ in cut))}
    if len(templates) > 1:
        stream.append(_bytes(np.array([templates[template] for template, _ in cut])))
    rows = {template: [] for template in templates}
    for template, numbers in cut:
        rows[template].append(numbers)
    ways = []
    for numbers in rows.values():
        way, written = _shorter(np.diff(np.array(numbers, dtype=np.int64), axis=0, prepend=0))
        ways.append(way)
        stream.append(written)
    return list(templates), ways


def _shorter(differences):
    """Differences (value, number) as bytes, plain or less those two places before, whichever gets shorter."""
    plain = _bytes(differences.T.ravel())
    if differences.shape[1] < 3:
        return 0, plain
    less = differences.copy()
    less[:, 2:] -= differences[:, :-2]
    less = _bytes(less.T.ravel())
    return (1, less) if len(zlib.compress(less, 6)) < len(zlib.compress(plain, 6)) else (0, plain)


def cut_out(text):
    """A text as its template and the numbers cut out of it.

    Parameters
    ----------
    text : str

    Returns
    -------
    tuple
        The template, text, and a list of whole numbers without unit.

    >>> cut_out("26 N m at -1.5")
    ('\\x01 N m at \\x02', [26, -15])
    """
    parts = NUMBER.split(text)
    numbers = parts[1::2]
    parts[1::2] = [chr(1 + (len(one) - 1 - one.find(".") if "." in one else 0)) for one in numbers]
    return "".join(parts), [int(one.replace(".", "")) for one in numbers]


def _bytes(numbers):
    """Whole numbers as bytes, seven bits in each."""
    numbers = np.where(numbers < 0, -2 * numbers - 1, 2 * numbers).astype(np.uint64).reshape(-1, 1)
    shifted = numbers >> np.arange(0, SEVEN * (LONGEST + 1), SEVEN, dtype=np.uint64)
    written = (shifted[:, :-1] & 127) | np.where(shifted[:, 1:] > 0, 128, 0).astype(np.uint64)
    is_there = np.arange(LONGEST) == 0
    return written[is_there | (shifted[:, :-1] > 0)].astype(np.uint8).tobytes()
