"""A JSON file that somebody gives, read within limits: its size and depth before it is parsed, its numbers, letters and names after.

Set-ups, clients, homework and what a lecture left are read with it. Nothing in a file is run. What cannot be used is refused in one
line, in the words of the kind of file it is (`JsonKind`).
"""

import json
import math
import re
from dataclasses import dataclass

from .given_file import letters_of
from .inputs import InputError, echo

MOST_DIGITS = 18  # of a whole number
STRINGS = re.compile(r'"[^"\\]*(?:\\.[^"\\]*)*(?:"|\\?\Z)', re.DOTALL)  # an open one goes on to the end
NO_BRACKETS = re.compile(r"[^][{}]+")
NOT_WRITTEN = re.compile(
    r"[\x00\ud800-\udfff]"
)  # halves of letters and the letter that ends a text: no file can hold them
ESCAPED = re.compile(r"\\u(?:d[89a-f]|0000)", re.IGNORECASE)


@dataclass(frozen=True)
class JsonKind:
    """A kind of JSON file.

    Parameters
    ----------
    name : str
        Begins each refusal.
    not_one : str
        What is wrong with a file that is none, and what to do.
    again : str
        What to do about a file that lacks something.
    largest, deepest : int
        Bytes or letters of a file; brackets inside brackets.
    """

    name: str
    not_one: str
    again: str = "save it again from a panel"
    largest: int = 1_000_000
    deepest: int = 8

    def wrong(self, why):
        """A refusal, ``why`` in words."""
        return InputError(self.name, f"{self.name}: {why}")

    def read(self, content):
        """What stands in a file's ``content``, bytes or text: a dict of names and plain values.

        Raises
        ------
        InputError
            One line: too large, too deep, no JSON, a name twice, or a number or letter that no other program could read.
        """
        if not isinstance(content, str | bytes | bytearray | memoryview):
            raise self.wrong("give the file's text or bytes")
        if len(content) > self.largest:
            raise self.wrong(f"the file has more than {self.largest // 1000} kB, too long; {self.not_one}")
        try:
            text = letters_of(content)
        except UnicodeDecodeError:
            raise self.wrong(self.not_one) from None
        if depth_of(text) > self.deepest:
            raise self.wrong(f"brackets stand inside brackets too often; {self.not_one}")
        try:
            value = json.loads(
                text, object_pairs_hook=self._once, parse_int=self._whole, parse_float=self._float,
                parse_constant=self._float,
            )  # fmt: skip
        except InputError:
            raise
        except (ValueError, RecursionError):
            raise self.wrong(self.not_one) from None
        if not isinstance(value, dict):
            raise self.wrong(self.not_one)
        if (ESCAPED.search(text) or NOT_WRITTEN.search(text)) and not all(map(is_written, texts_in(value))):
            raise self.wrong(f"a letter in it is none; {self.not_one}")
        return value

    def _once(self, pairs):
        found = dict(pairs)
        if len(found) < len(pairs):
            names = [name for name, _ in pairs]
            twice = next(name for name in names if names.count(name) > 1)
            raise self.wrong(f"{echo(twice)} stands there twice; keep one of them")
        return found

    def _whole(self, digits):
        if len(digits.lstrip("-")) > MOST_DIGITS:
            raise self.wrong(f"the number {digits[:12]}… has too many digits")
        return int(digits)

    def _float(self, digits):
        value = float(digits)
        if not math.isfinite(value):
            raise self.wrong(f"{digits[:12]} is no number that can be used")
        return value

    def names(self, where, given, needed, also=()):
        """Refuse a part of a file whose names are not those that it has to have.

        Parameters
        ----------
        where : str
            What the part is called.
        given : dict
        needed, also : sequence of str
            Names that have to be there, and names that may be.

        Raises
        ------
        InputError
            One line that names what is missing or not known.
        """
        if not isinstance(given, dict):
            raise self.wrong(f"{where} is {echo(given)}; it holds names with values")
        unknown = [name for name in given if name not in needed and name not in also]
        missing = [name for name in needed if name not in given]
        if unknown:
            raise self.wrong(f"{where} has {echo(unknown[0])}, which is not known; take it out")
        if missing:
            raise self.wrong(f"{where} lacks {missing[0]!r}; {self.again}")


def is_same(value, wanted):
    """Whether a ``value`` of a file is the text or count that is ``wanted``; true is not 1.

    >>> is_same(True, 1), is_same(1, 1)
    (False, True)
    """
    return type(value) is type(wanted) and value == wanted


def begins_with_brace(content):
    """Whether a file's ``content``, text or bytes, may be JSON with names in it: its first letter is a brace."""
    try:
        return letters_of(content[:400] if isinstance(content, str) else bytes(content[:400])).lstrip().startswith("{")
    except UnicodeDecodeError:  # the last letter may be cut in two
        return bytes(content[:400]).lstrip(b"\xef\xbb\xbf \r\n\t").startswith(b"{")


def depth_of(text):
    """How often brackets stand inside brackets in a JSON ``text``, a count; those in quotes do not count."""
    depth = deepest = 0
    for bracket in NO_BRACKETS.sub("", STRINGS.sub("", text)):
        depth += 1 if bracket in "[{" else -1
        deepest = max(deepest, depth)
    return deepest


def texts_in(value):
    """Every text in a JSON ``value`` (dict, list or plain), names included, one after the other."""
    waiting = [value]
    while waiting:
        one = waiting.pop()
        if isinstance(one, str):
            yield one
        elif isinstance(one, list):
            waiting += one
        elif isinstance(one, dict):
            waiting += [*one, *one.values()]


def is_written(text):
    """Whether a file can hold ``text``: halves of letters, and the letter that ends a text, cannot be written."""
    return NOT_WRITTEN.search(text) is None
