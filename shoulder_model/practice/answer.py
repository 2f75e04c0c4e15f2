"""One answer as the record keeps it, and as a row of cells with an id."""

import re
from dataclasses import astuple, dataclass

from ..inputs import Allowed, scalar

COLUMNS = ("uid", "at", "template", "seed", "text", "score", "slip", "seconds", "hint", "exam")  # of a row
LONGEST = 500  # characters of an answer that are kept
LAST_TIME = 32_503_680_000.0  # the year 3000, in seconds since 1970
UID = re.compile("[0-9a-f]{32}")
POINTS = Allowed(0.0, 1.0, "", "a score is 0, 0.5 or 1")
ANY = Allowed(float("-inf"), float("inf"), "s", "give seconds")


@dataclass(frozen=True)
class Answer:
    """One answer.

    Texts are put on one line, and what cannot be kept in UTF-8 is replaced. A clock that stands before 1970 or after
    the year 3000 is read as the nearer of them, and a clock that was set back while somebody answered makes the time
    taken 0.

    Parameters
    ----------
    at : float
        When it was given. [s since 1970, UTC]
    template, seed : str
        Which item, see `bank.make`.
    text : str
        The answer as typed; "" for an item of a mock exam that was left open.
    score : float
        0, 0.5 or 1.
    slip : str
        The name of the slip that gives this answer, "" where none does.
    seconds : float
        Time taken. [s]
    hint : bool
        Whether the hint was shown.
    exam : str
        The mock exam it belongs to, see `record.exam_id`; "" for practice.

    Raises
    ------
    InputError
        A score outside 0 to 1, a time that is no number.
    """

    at: float
    template: str
    seed: str
    text: str
    score: float
    slip: str = ""
    seconds: float = 0.0
    hint: bool = False
    exam: str = ""

    def __post_init__(self):
        for name in ("template", "seed", "text", "slip", "exam"):
            object.__setattr__(self, name, one_line(getattr(self, name)))
        for name, allowed, most in (("at", ANY, LAST_TIME), ("seconds", ANY, LAST_TIME), ("score", POINTS, 1.0)):
            object.__setattr__(self, name, min(max(0.0, scalar(name, getattr(self, name), allowed)), most))
        object.__setattr__(self, "hint", bool(self.hint))

    @property
    def is_open(self):
        """Whether this is no answer but an item that was left open."""
        return not self.text


def one_line(text):
    """A ``text`` as it can be kept: one line of UTF-8 without signs that cannot be seen."""
    kept = str(text)[: 4 * LONGEST].encode("utf-8", "replace").decode("utf-8")
    return " ".join("".join(sign if sign.isprintable() else " " for sign in kept).split())[:LONGEST].strip()


def as_row(uid, answer):
    """The row, a tuple of `COLUMNS`, of an ``answer`` (`Answer`) with the id ``uid``, text."""
    *cells, hint, exam = astuple(answer)
    return (uid, *cells, int(hint), exam)


def as_pair(row, strict=False):
    """The id and the answer of a ``row``, a tuple of `COLUMNS`; for one that makes no sense None, or a `ValueError` if ``strict`` (whether to raise)."""
    try:
        uid, at, template, seed, text, score, slip, seconds, hint, exam = row
        if not UID.fullmatch(uid):
            raise ValueError("its first cell is no id of an answer; leave that column as it was")
        return uid, Answer(at, template, seed, text, score, slip, seconds, hint, exam)
    except (TypeError, ValueError):
        if strict:
            raise
        return None
