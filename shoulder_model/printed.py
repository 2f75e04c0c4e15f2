r"""Somebody's words as they are printed: with no letter that steers a page instead of standing on it.

Whatever reaches a page passes here, once for each medium: `markup` for HTML and SVG, `unsteered` for PDF. Matplotlib takes texts as
they are (`draw.look.STYLE`).
"""

import unicodedata
from html import escape

TURNS = ("LRE", "RLE", "LRO", "RLO", "PDF", "LRI", "RLI", "FSI", "PDI")  # characters that turn the line round
MARKS = ("\u200e", "\u200f", "\u061c")  # marks of direction that stand alone
NOT_PRINTED = ("Cc", "Cs", "Co", "Cn")  # control characters, halves of characters, characters that nobody has defined
BREAKS = "\t\n\v\f\r\x1c\x1d\x1e\x1f\x85\u2028\u2029"  # ends of lines and cells, which become blanks


def unsteered(text):
    r"""Any ``text`` on one line, without control characters and those that turn the direction of what follows.

    >>> unsteered("Ann\n<b>\u202e")
    'Ann <b>'
    """
    text = str(text)
    if text.isascii() and text.isprintable():
        return text
    return "".join(" " if letter in BREAKS else letter for letter in text if letter in BREAKS or _stays(letter))


def _stays(letter):
    hidden = unicodedata.bidirectional(letter) in TURNS or letter in MARKS
    return not hidden and unicodedata.category(letter) not in NOT_PRINTED


def plain(text):
    r"""Any ``text`` as `unsteered` has it, with single blanks between its words.

    >>> plain("Ann\n  <b>\u202e")
    'Ann <b>'
    """
    return " ".join(unsteered(text).split())


def markup(text):
    r"""Any ``text`` as HTML or SVG text that shows it letter by letter; also inside the quotes of an attribute.

    >>> markup("<b>\n$x_{$ & \u202ey")
    '&lt;b&gt; $x_{$ &amp; y'
    """
    return escape(unsteered(text))
