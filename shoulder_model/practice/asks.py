"""How an item is answered: a number, one of several, an order, places on a picture, a choice with its reason.

Every answer is a short text, so that a page, a sheet of paper and a table can all carry it: ``12,5 N m``, ``b``, ``c a d b``,
``B E``, ``b 2``. Each kind reads its own (``read``); `verdict.judge` compares it with the key.
"""

import re
from dataclasses import dataclass
from typing import ClassVar

from ..inputs import InputError
from ..words import written
from .quantity import read_quantity

LETTERS, DIGITS = "abcdefgh", "12345678"


def letter_of(options, option):
    """The letter of an ``option`` (text) among ``options`` (texts in the order shown), text."""
    return LETTERS[options.index(option)]


def letters_by(values):
    """Letters in the order of their ``values`` (sequence of numbers in any unit), the smallest first, as text.

    >>> letters_by([3.0, 1.0, 2.0])
    'bca'
    """
    return "".join(LETTERS[place] for place in sorted(range(len(values)), key=lambda place: values[place]))


def _signs(text, allowed, wanted):
    """The letters or digits in an answer, in order and in lower case; words around them are refused."""
    bare = re.sub(r"[\s,;.:()>\-–→/]|\band\b|\bline\b|\bthen\b", "", str(text).casefold())
    if not bare or any(sign not in allowed.casefold() for sign in bare):
        raise InputError("answer", f"answer: {wanted}")
    return tuple(bare)


def _only(signs, count, wanted):
    if len(signs) != count or len(set(signs)) != count:
        raise InputError("answer", f"answer: {wanted}")
    return signs


@dataclass(frozen=True)
class Number:
    """A number in a ``unit``; right within ``share`` of the key, or within ``within`` (in the unit), whichever is more.

    ``key`` is what the model computes, in the ``unit``; ``low`` and ``high`` are the range that this template may give; ``digits`` are
    those the key is printed with. Two slips apply to any: an answer in another unit, see `quantity`.
    """

    kind: ClassVar[str] = "number"
    key: float
    unit: str
    low: float
    high: float
    share: float = 0.03
    within: float = 0.0
    digits: int = 1

    @property
    def tolerance(self):
        """How far off an answer may be, in the unit of the key."""
        return self.allowed(self.key)

    def allowed(self, value):
        """How far from a ``value`` a number still counts as the same, both in the unit of the key."""
        return max(self.share * abs(value), self.within)

    def read(self, text):
        """The `quantity.Quantity` in a ``text``, in the asked unit; raises `InputError` where there is none."""
        return read_quantity(text, self.unit)

    def shown(self, answer):
        """An ``answer``, a number in the unit, as text."""
        return f"{written(answer, self.digits)} {self.unit}".strip().replace(" °", "°")


@dataclass(frozen=True)
class Choice:
    """One of ``options`` (texts, in the order shown); ``key`` is its letter, "a" the first.

    ``numbered`` options are the lines of a text above: they have numbers in place of letters.
    """

    kind: ClassVar[str] = "choice"
    options: tuple
    key: str
    numbered: bool = False

    @property
    def signs(self):
        """What the options are called, in order, text."""
        return (DIGITS if self.numbered else LETTERS)[: len(self.options)]

    def read(self, text):
        """The sign of the option that a ``text`` names, by its sign or in full; raises `InputError`."""
        said = " ".join(str(text).casefold().split())
        if not said:
            raise InputError("answer", "answer: choose one answer first")
        for sign, option in zip(self.signs, self.options, strict=True):
            if said == option.casefold():
                return sign
        wanted = f"give {'the number of a line' if self.numbered else 'a letter'}, {self.signs[0]} to {self.signs[-1]}"
        return _only(_signs(said, self.signs, wanted), 1, wanted)[0]

    def shown(self, answer):
        """An ``answer``, a sign, with its option in words."""
        option = self.options[self.signs.index(answer)]
        return option if self.numbered else f"{answer}: {option}"


@dataclass(frozen=True)
class Order:
    """``things`` (texts, in the order shown) to be put in order; ``key`` is their letters in the right order; ``ends`` says which end is first."""

    kind: ClassVar[str] = "order"
    things: tuple
    key: str
    ends: str

    @property
    def signs(self):
        """What the things are called, in the order shown, text."""
        return LETTERS[: len(self.things)]

    def read(self, text):
        """The letters in the order of a ``text``; raises `InputError` unless each is there once."""
        wanted = f"give the letters {' '.join(self.signs)} in your order, each once"
        return "".join(_only(_signs(text, self.signs, wanted), len(self.things), wanted))

    def shown(self, answer):
        """An ``answer``, letters, as the things in words."""
        return ", then ".join(self.things[self.signs.index(sign)] for sign in answer)


@dataclass(frozen=True)
class Pick:
    """One place of a picture, or two that are joined by a line; ``key`` is their letters in the order of the alphabet.

    ``letters`` (text) are those of the picture's marks.
    """

    kind: ClassVar[str] = "pick"
    letters: str
    key: str

    @property
    def count(self):
        """How many places are picked, a whole number."""
        return len(self.key)

    def read(self, text):
        """The letters that a ``text`` names, in the order of the alphabet; raises `InputError`."""
        wanted = f"give {'a letter' if self.count == 1 else 'two letters'} of the picture, {self.letters[0]} to {self.letters[-1]}"
        return "".join(sorted(_only(_signs(text, self.letters, wanted), self.count, wanted))).upper()

    def shown(self, answer):
        """An ``answer``, letters, as text."""
        return " and ".join(answer)


@dataclass(frozen=True)
class Reasoned:
    """One of ``options`` with one of ``reasons`` (texts, in the order shown); ``key`` is a letter and a digit, as "b2".

    The right choice for another reason counts half.
    """

    kind: ClassVar[str] = "reasoned"
    options: tuple
    reasons: tuple
    key: str

    @property
    def signs(self):
        """What options and reasons are called, text, a pair."""
        return LETTERS[: len(self.options)], DIGITS[: len(self.reasons)]

    def read(self, text):
        """A letter and a digit from a ``text`` in either order, as text; raises `InputError`."""
        letters, digits = self.signs
        if len(str(text).strip()) < 2:
            raise InputError("answer", "answer: choose an answer and a reason")
        wanted = (
            f"give a letter, {letters[0]} to {letters[-1]}, and the number of a reason, {digits[0]} to {digits[-1]}"
        )
        found = sorted(_only(_signs(text, letters + digits, wanted), 2, wanted), reverse=True)
        if found[0] not in letters or found[1] not in digits:
            raise InputError("answer", f"answer: {wanted}")
        return "".join(found)

    def shown(self, answer):
        """An ``answer``, letter and digit, in words."""
        letters, digits = self.signs
        return f"{answer}: {self.options[letters.index(answer[0])]}, because {self.reasons[digits.index(answer[1])]}"


KINDS = {ask.kind: ask for ask in (Number, Choice, Order, Pick, Reasoned)}
