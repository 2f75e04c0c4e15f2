"""An item that shows a solution with one slip in it and asks for the line."""

from .asks import Choice
from .item import Item
from .slips import slip_table


def find_the_slip(question, wrong, right, line, slip, hint="Work each line out again, from the top."):
    """The item: lines of a ``wrong`` solution to look through, and which one it is.

    Parameters
    ----------
    question : tuple of str
        Paragraphs: what was to be worked out.
    wrong, right : working.Working
        The solution with the slip, and without it; the first line that differs holds it.
    line : int
        The number of that line, 1 the first.
    slip : str
        Its name, of ``data/slips.csv``.
    hint : str

    Raises
    ------
    ValueError
        Another line is the first that differs.
    """
    differs = next(
        place for place, (one, other) in enumerate(zip(wrong, right, strict=True), 1) if one.text != other.text
    )
    if differs != line:
        raise ValueError(f"the slip is in line {differs}, not {line}")
    signs = tuple(f"line {place}" for place in range(1, len(wrong) + 1))
    happened, advice = slip_table()[slip]
    told = type(right)(right)
    told.say(f"The slip was in line {line}: {happened}. {advice}")
    return Item(
        (*question, "Which line holds the first slip?"),
        Choice(signs, str(line), numbered=True),
        hint,
        tuple(told),
        lines=tuple(one.text for one in wrong),
    )
