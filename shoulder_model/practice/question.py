"""One question while somebody works on it: tries, the hint, the time, and what is kept of it."""

from dataclasses import dataclass, field

from .item import Item
from .record import Answer
from .verdict import Verdict

TRIES = 2  # then the solution is shown
GIVEN_UP = "?"  # the text of an answer that was not given


@dataclass
class Question:
    """An ``item`` (`item.Item`) that somebody works on since ``began`` [s]; ``exam`` (text) is the id of the exam it belongs to.

    What counts is the first answer. After a wrong one there is another try, and then the solution.
    """

    item: Item
    began: float
    exam: str = ""
    given: str = ""
    hinted: bool = False
    verdict: Verdict | None = None
    counted: Verdict | None = field(default=None)
    tries: int = 0
    over: bool = False

    def answer(self, text, now):
        """Judge an answer, ``text``; ``now`` is the time [s since 1970]. The `record.Answer` to keep where it counts, else None."""
        self.given, verdict = text, self.item.judge(text)
        self.verdict = verdict
        if not verdict.is_read:
            return None
        self.tries += 1
        self.over = self.over or verdict.score == 1 or self.tries >= TRIES or bool(self.exam)
        return self._count(verdict, now)

    def show(self, now):
        """Give up: the solution is shown; ``now`` is the time [s since 1970]. The `record.Answer` to keep where none counted yet, else None."""
        self.over = True
        if self.verdict is None or not self.verdict.is_read:
            self.verdict = Verdict(0.0, "Here is the solution.")
        return self._count(Verdict(0.0, "Not answered."), now) if self.counted is None else None

    def _count(self, verdict, now):
        if self.counted is not None and not self.exam:
            return None
        self.counted = verdict
        took = max(0.0, now - self.began)
        item, given = self.item, self.given if self.tries else GIVEN_UP
        return Answer(now, item.template, item.seed, given, verdict.score, verdict.slip, took, self.hinted, self.exam)
