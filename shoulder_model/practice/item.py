"""One question with its numbers: what is asked, a hint, the worked solution, and what common slips would give."""

from dataclasses import asdict, dataclass

from ..document.scene import Scene
from .asks import KINDS, Choice, Number, Order, Pick, Reasoned
from .slips import Slip
from .verdict import judge

APART = 2.0  # a slip lies at least so many tolerances from the key, else a rounded answer could be either


@dataclass(frozen=True)
class Item:
    """One question with its numbers.

    Parameters
    ----------
    question : tuple of str
        Its paragraphs.
    ask : asks.Number, Choice, Order, Pick or Reasoned
        How it is answered, with the key.
    hint : str
        What helps without telling the answer.
    working : sequence of working.Line
        The solution line by line.
    slips : tuple of slips.Slip
    picture : scene.Scene, optional
    lines : tuple of str
        A solution to look through, line by line; they are numbered. Of an item that asks for a slip.
    template, seed : str
        Where it comes from.
    """

    question: tuple
    ask: Number | Choice | Order | Pick | Reasoned
    hint: str
    working: tuple
    slips: tuple[Slip, ...] = ()
    picture: Scene | None = None
    lines: tuple = ()
    template: str = ""
    seed: str = ""

    def judge(self, text):
        """The `verdict.Verdict` on an answer, ``text`` as typed."""
        return judge(self.ask, self.slips, text)

    @property
    def right_answer(self):
        """The right answer in words; a number as the last line of the solution has it, so that the two are the same."""
        if isinstance(self.ask, Number):
            last = next((line for line in reversed(self.working) if line.value is not None), None)
            if last is not None:
                return last.result
        return self.ask.shown(self.ask.key)

    @property
    def solution(self):
        """The lines of the solution as they are printed, a tuple of text."""
        return tuple(line.text for line in self.working)

    @property
    def texts(self):
        """Every text that a reader meets, a tuple: question, options, hint, solution, what is said to slips, the picture's words."""
        ask = self.ask
        options = [*getattr(ask, "options", ()), *getattr(ask, "things", ()), *getattr(ask, "reasons", ())]
        said = [slip.words for slip in self.slips if slip.words]
        picture = [self.picture.full_words] if self.picture else []
        return (*self.question, *self.lines, *options, self.hint, *self.solution, *said, *picture)


def troubles(item):
    """What is wrong with an ``item`` (`Item`), a list of text; what chance may bring about, so that the numbers are drawn again.

    A slip too near to the key or to another one, an option twice, numbers outside their range.
    """
    ask, found = item.ask, []
    if isinstance(ask, Number):
        if not ask.low <= ask.key <= ask.high:
            found.append(f"{ask.key:g} outside {ask.low:g} to {ask.high:g}")
        for place, slip in enumerate(item.slips):
            if abs(slip.answer - ask.key) <= APART * ask.tolerance:
                found.append(f"slip {slip.name!r} gives nearly the key")
            for other in item.slips[:place]:
                if abs(slip.answer - other.answer) <= ask.allowed(slip.answer):
                    found.append(f"slips {slip.name!r} and {other.name!r} give the same")
    for options in (getattr(ask, "options", ()), getattr(ask, "things", ()), getattr(ask, "reasons", ())):
        if len(set(options)) < len(options):
            found.append("an option stands twice")
    return found


def as_plain(item):
    """What marking needs of an ``item`` (`Item`) as a dict of plain values: what is asked, with the key, and the slips."""
    slips = [[slip.name, slip.answer, slip.line, slip.words] for slip in item.slips]
    return {"kind": item.ask.kind, **asdict(item.ask), "slips": slips}


def from_plain(plain):
    """What is asked and the slips, a pair, of a dict that `as_plain` made: ``plain``.

    Raises
    ------
    ValueError
        It is no such dict.
    """
    values = dict(plain)
    try:
        kind, slips = KINDS[values.pop("kind")], values.pop("slips")
        made = kind(**{name: tuple(value) if isinstance(value, list) else value for name, value in values.items()})
        return made, tuple(Slip(*slip) for slip in slips)
    except (KeyError, TypeError) as error:
        raise ValueError("this is no item") from error
