"""Choices between texts: the right one shuffled in among wrong ones, each wrong one with its slip."""

from .asks import DIGITS, LETTERS, Choice, Reasoned
from .item import Item
from .slips import Slip
from .working import Working


def one_of_these(chance, right, wrong, line=0):
    """A choice of texts and the slips of the wrong ones.

    Parameters
    ----------
    chance : chance.Chance
    right : str
    wrong : sequence
        Of text, name of its slip, and words for it ("" for those of the table).
    line : int
        Of the solution, where the slips happen; 0 for none.

    Returns
    -------
    asks.Choice, and tuple of slips.Slip
    """
    options = chance.shuffled((right, *(text for text, _, _ in wrong)))
    slips = tuple(Slip(name, LETTERS[options.index(text)], line, words) for text, name, words in wrong)
    return Choice(options, LETTERS[options.index(right)]), slips


def with_a_reason(chance, right, wrong, reason, other_reasons):
    """A choice of texts with a reason for it, and the slips of the wrong ones.

    Parameters
    ----------
    chance : chance.Chance
    right, reason : str
    wrong, other_reasons : sequence
        Of text, name of its slip, and words for it ("" for those of the table).

    Returns
    -------
    asks.Reasoned, and tuple of slips.Slip
    """
    options = chance.shuffled((right, *(text for text, _, _ in wrong)))
    reasons = chance.shuffled((reason, *(text for text, _, _ in other_reasons)))
    key = f"{LETTERS[options.index(right)]}{DIGITS[reasons.index(reason)]}"
    slips = [Slip(name, f"{LETTERS[options.index(text)]}*", 0, words) for text, name, words in wrong]
    slips += [Slip(name, f"*{DIGITS[reasons.index(text)]}", 0, words) for text, name, words in other_reasons]
    return Reasoned(options, reasons, key), tuple(slips)


def sentences(chance, question, rights, wrongs, hint):
    """An item with four sentences of which one holds; its solution says of every other one why not.

    Parameters
    ----------
    chance : chance.Chance
    question, hint : str
    rights : sequence of str
        One of them is drawn.
    wrongs : sequence
        Of sentence, name of its slip, and words for it; three of them are drawn.
    """
    right, wrong = chance.one_of(rights), chance.some(wrongs, 3)
    ask, slips = one_of_these(chance, right, wrong)
    work = Working()
    work.say(f"{ask.key} holds: “{right}”")
    for slip in sorted(slips, key=lambda slip: slip.answer):
        work.say(f"Not {slip.answer}: {slip.words}")
    return Item((question,), ask, hint, work, slips)


def apart(slips, ask):
    """The slips whose numbers can be told from the key and from those before them.

    ``slips`` is a sequence of `slips.Slip`, ``ask`` the `asks.Number` with its unit.
    """
    kept = []
    for slip in slips:
        far = abs(slip.answer - ask.key) > 2 * ask.tolerance
        if far and all(abs(slip.answer - one.answer) > 2 * ask.allowed(slip.answer) for one in kept):
            kept.append(slip)
    return tuple(kept)
