"""A TOML file somebody wrote by hand: its text, its tables, and the line on which something stands.

Nothing in it is ever run or formatted. What is wrong with it is said with its line, for people who never heard of TOML.
"""

import math
import re
import tomllib
import unicodedata
from functools import cached_property

from .given_file import letters_of, read_path
from .inputs import InputError

LARGEST = 100_000  # bytes of a file
LONGEST_LINE = 4_000  # characters
TURNING = {
    *"\u061c\u200e\u200f\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069"
}  # turn the order of what follows
STRINGS = re.compile(  # texts of several lines, texts of one (which may be keys), comments
    r'"""(?:\\.|[^\\])*?"""|\'\'\'.*?\'\'\'|"(?:\\.|[^"\\\n])*"(?P<key>\s*[=.])?'
    r"|'[^'\n]*'(?P<key2>\s*[=.])?|#[^\n]*",
    re.DOTALL,
)
DOTTED = re.compile(r"[\w-](?:[ \t]*\.[ \t]*[\w-]+){4}")  # outside text: no key of ours has so many parts
SLIPS = {  # in tomllib's words -> in plain ones, with what to do
    "Cannot overwrite": "the same key stands twice; keep one of them",
    "Cannot declare": "the same table stands twice; keep one of them",
    "Cannot mutate": "this table is given twice; keep one of them",
    "Cannot redefine": "the same table stands twice; keep one of them",
    "Duplicate inline table key": "the same key stands twice; keep one of them",
    "Expected '='": "a key needs = and a value behind it; put text in quotes, and # before a comment",
    "Unclosed": "a bracket is open, perhaps further up; check brackets and the commas between the values",
    "Unterminated": 'a quote is open, perhaps further up; end the text with "',
    "Expected newline or end of document": "only one key stands on a line; check quotes, and write 1.5 and not 1,5",
    "Illegal character": 'a text goes on over the end of its line, or a character in it cannot be seen; long texts go between """',
    "Invalid initial character": "a key begins with a letter; check quotes and brackets just before",
    "Invalid statement": "a line begins with a key or a [[step]]; check quotes and brackets just before",
    "Unescaped": r"write \\ for a backslash in a text",
    "Invalid value": 'put text in "quotes", write numbers as 1.5, and true or false in small letters',
    "Invalid date": "put text in quotes",
}
UNREAD = "check quotes, commas and brackets there"


class Wrong(Exception):
    """What is wrong on a ``line`` (int) with ``words`` (str), about the key ``field`` (str)."""

    def __init__(self, line, words, field="file"):
        super().__init__(words)
        self.line, self.words, self.field = line, words, field


def one_line(words, most):
    """``words`` (str) as one line of at most ``most`` characters (a whole number); characters that cannot be seen become spaces."""
    seen = "".join(
        " " if hidden(character) or character in "\n\t" else character for character in str(words)[: 4 * most]
    )
    seen = " ".join(seen.split())
    return seen if len(seen) <= most else f"{seen[: most - 1]}…"


def hidden(character):
    """Whether a ``character`` of a text steers a screen instead of standing on it: controls but newline and tab, turned writing."""
    return (
        (unicodedata.category(character) in ("Cc", "Cs", "Zl", "Zp") and character not in "\n\t")
        or character in TURNING
        or character == "\ufeff"
    )


def file_text(path):
    """The text of the regular file at ``path`` (path-like), UTF-8 or UTF-16, with or without a byte-order mark.

    Raises
    ------
    Wrong
        No such file, no regular one, too large, empty, not UTF-8; in words, with the line.
    """
    try:
        content = read_path(path, LARGEST)
    except InputError as error:
        raise Wrong(1, str(error)) from None
    if not content.strip():
        raise Wrong(1, "the file is empty; start from a template")
    try:
        return letters_of(content)
    except UnicodeDecodeError as error:
        line = content.count(b"\n", 0, error.start) + 1
        raise Wrong(line, "there is a letter that is not UTF-8; save the file as UTF-8 in your editor") from None


def tables(text):
    """The tables of a TOML ``text`` (str), a dict.

    Raises
    ------
    Wrong
        Text that is no TOML, with the line and what to do.
    """
    lines = text.split("\n")
    for number, line in enumerate(lines, 1):
        if len(line) > LONGEST_LINE:
            raise Wrong(
                number, f'the line has {len(line)} characters; break it up, long texts stand between """ and """'
            )
    dotted = DOTTED.search(without_texts(text))
    if dotted:
        raise Wrong(line_at(text, dotted.start()), "a key has too many points; put text in quotes")
    try:
        return tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        found = re.search(r"at line (\d+)", str(error))
        words = next((plain for said, plain in SLIPS.items() if str(error).startswith(said)), UNREAD)
        raise Wrong(int(found[1]) if found else len(text.rstrip().split("\n")), words) from None
    except RecursionError:
        raise Wrong(1, "brackets stand inside brackets too often; three are enough") from None
    except ValueError:
        raise Wrong(1, "a number in it has too many digits; give plain numbers") from None


def without_texts(text):
    """``text`` (str) of the same length and lines, with spaces for comments and for what stands in quotes, but for keys."""

    def blank(found):
        if found["key"] or found["key2"]:
            return found[0]
        return "\n".join(" " * len(line) for line in found[0].split("\n"))

    return STRINGS.sub(blank, text)


def line_at(text, place):
    """The line, a whole number from 1, of a ``place`` (int) in ``text`` (str)."""
    return text.count("\n", 0, place) + 1


class Places:
    """Where keys stand in a TOML ``text`` (str) that can be read."""

    def __init__(self, text):
        self.given = text

    @cached_property
    def text(self):
        """The text without what stands in quotes, made when something is wrong."""
        return without_texts(self.given.replace("\r\n", "\n"))

    def line(self, table="", item=0, key="", entry=None):
        """The line, a whole number from 1, of a key; that of its table, or 1, where it is not found.

        Parameters
        ----------
        table : str
            Name of the table it stands in, such as "step"; empty for the top of the file.
        item : int
            Which one of several tables of this name, from 0.
        key : str
        entry : int, optional
            Which one of the entries in braces behind the key, from 0.
        """
        start, end = self._range(table, item)
        place = self._find(key, start, end)
        if place is None and not table:  # it may be the head of a table
            place = self._find(key, 0, len(self.text), heads_only=True)
        if place is None:
            return line_at(self.text, start)
        for _ in range(0 if entry is None else entry + 1):
            brace = self.text.find("{", place + 1, end)
            place = place if brace < 0 else brace
        return line_at(self.text, place)

    def _range(self, table, item):
        heads = [
            found.start(1) for found in re.finditer(r"^[ \t]*(\[\[?)", self.text, re.MULTILINE) if self._is_head(found)
        ]
        named = [place for place in heads if re.match(rf"\[\[?\s*{re.escape(table)}\s*\]", self.text[place:])]
        if not table or item >= len(named):
            return 0, heads[0] if heads and not table else len(self.text)
        later = [place for place in heads if place > named[item] and not self.text[place:].startswith(f"[{table}.")]
        return named[item], later[0] if later else len(self.text)

    def _is_head(self, found):
        line = self.text[found.start(1) :].partition("\n")[0]
        return re.fullmatch(r"\[\[?\s*[A-Za-z_][\w. -]*\]\]?\s*", line)

    def _find(self, key, start, end, heads_only=False):
        if not key:
            return None
        name, head = rf"[\"']?{re.escape(key)}[\"']?\s*[=.]", rf"^[ \t]*\[\[?([\w. \t]+\.)?[ \t]*{re.escape(key)}\s*\]"
        for pattern in (head,) if heads_only else (rf"^[ \t]*{name}", head, rf"(?<![\w-]){name}"):
            found = re.compile(pattern, re.MULTILINE).search(self.text, start, end)
            if found:
                return found.start() + len(found[0]) - len(found[0].lstrip())
        return None


def is_number(value):
    """Whether a ``value`` of a table is a number that a float can hold; true, false, NaN and infinity are none."""
    if isinstance(value, bool) or not isinstance(value, (int, float)):
        return False
    try:
        return math.isfinite(float(value))
    except OverflowError:
        return False
