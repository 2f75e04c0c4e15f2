"""What is said to an answer: right or not, and which slip gives just that.

It needs what is asked, the slips and the answer, and nothing of the item else, so a class's table is marked with it too.
"""

from dataclasses import dataclass
from itertools import pairwise

from ..inputs import InputError
from .asks import Number, Order, Reasoned
from .slips import slip_table

HALF = 0.5
ROUNDED = 0.02  # how far from what a slip gives a number may be, as a share: people round


@dataclass(frozen=True)
class Verdict:
    """What is said to an answer.

    Parameters
    ----------
    score : float
        0, 0.5 or 1.
    words : str
        A sentence or two.
    slip : str
        The name of the slip that gives this answer, "" where none does.
    line : int
        The line of the solution where it happens, 0 where there is none.
    is_read : bool
        Whether the answer could be read; where not, ``words`` say what to type and nothing is marked.
    """

    score: float
    words: str
    slip: str = ""
    line: int = 0
    is_read: bool = True


def judge(ask, slips, text):
    """The `Verdict` on an answer.

    Parameters
    ----------
    ask : asks.Number, Choice, Order, Pick or Reasoned
        What is asked, with its key.
    slips : sequence of slips.Slip
    text : str
        The answer as typed.
    """
    try:
        answer = ask.read(text)
    except InputError as error:
        told = str(error).removeprefix("answer: ")
        return Verdict(0.0, f"{told[:1].upper()}{told[1:]}.", is_read=False)
    return _of_number(ask, slips, answer) if isinstance(ask, Number) else _of_signs(ask, slips, answer)


def _of_number(ask, slips, answer):
    key = ask.key
    if answer.given == "wrong":
        told = f"This is {answer.kind}; the answer is in {ask.unit or 'plain numbers'}."
        slip = _nearest(ask, slips, answer.value)
        return _slipped(slip, told) if slip else Verdict(0.0, f"No. {told}")
    if abs(answer.value - key) <= ask.tolerance:
        told = {} if ask.unit == "×" else {"none": f" Write the unit too: {ask.unit}."}
        told["turned"] = f" In {ask.unit} it is {ask.shown(key)}."
        return Verdict(1.0, "Right." + told.get(answer.given, ""))
    slip = _nearest(ask, slips, answer.value)
    return _slipped(slip) if slip else Verdict(0.0, f"No.{_how_far(answer.value, key)}")


def _nearest(ask, slips, value):
    """The slip whose number lies nearest, within what is allowed around it; None without one."""
    near = [slip for slip in slips if abs(slip.answer - value) <= max(ask.share, ROUNDED) * abs(slip.answer)]
    return min(near, key=lambda slip: abs(slip.answer - value), default=None)


def _how_far(value, key):
    """Whether an answer is too large or too small, where that can be said of both signs."""
    if value * key < 0:
        return " The sign is wrong."
    return " It is too large." if abs(value) > abs(key) else " It is too small."


def _of_signs(ask, slips, answer):
    if answer == ask.key:
        return Verdict(1.0, "Right.")
    slip = next((slip for slip in slips if _fits(slip.answer, answer)), None)
    if isinstance(ask, Reasoned) and answer[0] == ask.key[0]:
        why = _words_of(slip) if slip else "The reason is another one."
        return Verdict(
            HALF, f"The choice is right, and counts half. {why}", slip.name if slip else "", slip.line if slip else 0
        )
    if isinstance(ask, Order) and slip is None:
        return Verdict(0.0, f"No. {_first_wrong(ask, answer)}")
    return _slipped(slip) if slip else Verdict(0.0, "No.")


def _fits(pattern, answer):
    """Whether a slip's answer is this one; a * in it stands for any sign, as in "*2", any choice for the second reason."""
    return len(pattern) == len(answer) and all(
        mine in ("*", theirs) for mine, theirs in zip(pattern, answer, strict=True)
    )


def _first_wrong(ask, answer):
    """Which of two neighbours stands wrong, the first such pair."""
    for one, other in pairwise(answer):
        if ask.key.index(one) > ask.key.index(other):
            first, second = (ask.things[ask.signs.index(sign)] for sign in (one, other))
            return f"“{second}” comes before “{first}”."
    return ""


def _words_of(slip):
    happened, advice = slip_table()[slip.name]
    told = slip.words or f"{happened[0].upper()}{happened[1:]}. {advice}"
    return told + (f" See line {slip.line} of the solution." if slip.line else "")


def _slipped(slip, told=""):
    return Verdict(0.0, " ".join(part for part in ("No.", told, _words_of(slip)) if part), slip.name, slip.line)
