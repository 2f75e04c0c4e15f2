"""Checks against the outside: what was printed, by whom, what the model gives today, and whether that holds.

The rows are what the tests in ``tests/published`` compare; ``python -m shoulder_model.recipes.outside_checks`` writes them,
and each run of those tests holds them against ``data/outside_checks.csv``. A row with ``counts`` "no" rests on a number from
memory, or from a paper that cannot be located: it is shown and decides nothing.
"""

from collections import Counter
from dataclasses import dataclass, fields
from functools import cache

from ..tables import read_table
from ..words import counted

FILE = "outside_checks.csv"


@dataclass(frozen=True)
class OutsideCheck:
    """One row, all text: ``off`` is how far the model lies from a printed number that it misses, as a share of it, or ""."""

    topic: str
    check: str
    printed: str
    spread: str
    unit: str
    model: str
    result: str
    off: str
    counts: str
    source: str
    why: str

    @property
    def pair(self):
        """Printed and model, in words."""
        return f"printed {self.as_printed}, model {self.model} {self.unit}".rstrip()

    @property
    def as_printed(self):
        """What was printed, with its spread and unit; an order or a direction has none."""
        unit = self.unit if self.printed[0].isdigit() else ""
        return " ".join(part for part in (self.printed, self.spread, unit) if part)


HEADS = tuple(field.name for field in fields(OutsideCheck))


@cache
def outside_checks():
    """All rows, a tuple of `OutsideCheck`, in the order of the tests."""
    return tuple(OutsideCheck(**row) for row in read_table(FILE))


def by_topic(checks):
    """How ``checks`` (sequence of `OutsideCheck`) end, by topic: rows (topic, hold, miss, worst miss), numbers and text.

    The worst miss is the one with the largest share off; where none has a share, the first.
    """
    rows = []
    for topic in dict.fromkeys(one.topic for one in checks):
        here = [one for one in checks if one.topic == topic and one.counts == "yes"]
        if not here:
            continue
        ends = Counter(one.result for one in here)
        missed = [one for one in here if one.result == "misses"]
        worst = max(missed, key=lambda one: float(one.off or 0), default=None)
        rows.append((topic, ends["holds"], ends["misses"], _miss(worst) if worst else ""))
    return rows


def _miss(one):
    """A miss in words: what was compared, what was printed, and what the model does instead; a direction says itself what it is."""
    what = "" if one.check.startswith("direction [") else f"{one.check.replace('[', '(').replace(']', ')')}: "
    why = one.why or f"the model {one.model}"
    return f"{what}printed {one.as_printed}. {why[0].upper()}{why[1:]}"


def short_form(checks):
    """The table of `by_topic` as text in Markdown, for ``checks`` (sequence of `OutsideCheck`), and what counts for nothing."""
    counting = [one for one in checks if one.counts == "yes"]
    missed = sum(one.result == "misses" for one in counting)
    rest = len(checks) - len(counting)
    lines = [
        f"{counted(len(counting), 'comparison')} with what others printed: {len(counting) - missed} hold, {missed} miss. "
        f"{counted(rest, 'more rests', 'more rest')} on a number from memory or a paper that cannot be located, and "
        f"{'counts' if rest == 1 else 'count'} for nothing.",
        "",
        "| topic | hold | miss | the worst miss |",
        "|---|---|---|---|",
    ]
    lines += [f"| {topic} | {hold} | {miss} | {worst} |" for topic, hold, miss, worst in by_topic(checks)]
    return "\n".join(lines)
