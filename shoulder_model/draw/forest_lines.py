"""What a forest plot says of each result: its words, its interval and its mark, made of results as they are."""

from dataclasses import dataclass, replace

import numpy as np

from ..evidence import HELD_WORDS, LOST, SCALE, SIDES
from ..words import counted, written

SEEN = {"none": "no difference seen", "unknown": "direction not printed"}


@dataclass(frozen=True)
class ForestLine:
    """One line: two texts on the left, two on the right, and between them an estimate or a mark.

    ``ends`` is the interval, ``band`` the widest interval of what is assumed; all three None where no number is. ``points`` is
    "first", "second", "none" (looked for, not seen), "top first" or "top second" (highest of several, no pair tested), or ""
    for no mark. ``also`` lists what else may have made the difference.
    """

    key: tuple
    top: str
    result: str
    remark: str
    kind: str
    points: str = ""
    value: float | None = None
    ends: tuple | None = None
    band: tuple | None = None
    also: str = ""

    @property
    def counts(self):
        """Whether nothing else may have made the difference."""
        return not self.also

    @property
    def below(self):
        """The second text on the left."""
        return "paper not found" if self.also == LOST else f"also differs: {self.also}" if self.also else ""

    @property
    def brief(self):
        """The result without a number in two or three words."""
        if self.points in ("first", "second"):
            return self.kind
        return self.result.partition(":")[0] if self.points.startswith("top") else self.result.rpartition(": ")[2]


@dataclass(frozen=True)
class ForestTrial:
    """The lines of one trial's results; above them two rows of words, ``head`` and ``limits``; ``who`` in the fewest words."""

    head: str
    limits: str
    lines: tuple
    who: str = ""

    def cut(self, most):
        """The same with ``most`` lines (int) at most."""
        return replace(self, lines=self.lines[:most])


def interval_words(value, ends):
    """ "g +0.28 (−0.27 to +0.83)"."""
    return f"g {written(value, 2, sign=True)} ({written(ends[0], 2, sign=True)} to {written(ends[1], 2, sign=True)})"


def short(text, most):
    """Text cut at a word to at most ``most`` letters."""
    return text if len(text) <= most else text[: most - 1].rsplit(" ", 1)[0].rstrip(",;") + " …"


def forest_trials(rows, correlation):
    """Blocks of `evidence.Comparison` ``rows`` that stand together, a `ForestTrial` for each group of people and way to load.

    ``correlation`` is assumed between conditions, without unit.
    """
    blocks = {}
    for row in rows:
        blocks.setdefault((row.study, row.subgroup, row.held, row.flaws), []).append(row)
    return [
        ForestTrial(_head(ones[0]), ones[0].flaws, tuple(forest_line(row, correlation) for row in ones), ones[0].who)
        for ones in blocks.values()
    ]


def _head(row):
    """Whose result it is: where it is printed, who, what was held constant."""
    trained = "" if row.trained == "not stated" else f" ({row.trained})"
    whose = "YOUR OWN: " if row.own else ""
    return (
        f"{whose}{row.citation if row.own else row.citation.split(' (')[0]}: {row.who}{trained}, {HELD_WORDS[row.held]}"
    )


def forest_line(row, correlation):
    """The line of one `evidence.Comparison`; ``correlation`` is assumed between conditions, without unit."""
    direction = row.direction(correlation)
    left = {
        "key": (row.study, row.subgroup, row.first, row.second, row.phase),
        "top": _contrast_words(row),
        "also": _also(row),
        "kind": row.kind,
    }
    if row.kind != "difference":
        words, points = _found_words(row, direction)
        kind = "p-value: " if row.kind == "p-value" and not row.untested else ""
        return ForestLine(
            **left, result=f"{kind}{words}", remark=short(row.statement.replace("<=", " ≤ "), 38), points=points
        )
    effect, tested = row.effect(correlation), {"none": "no contrast marked", "": "none printed"}.get(row.higher)
    ends, band = (tuple(float(end) for end in pair) for pair in (effect.interval, row.band(correlation)))
    remark = f"own test: {tested or _more_with(row, row.higher)}"
    if row.own:
        remark = f"correlation of these people {row.correlation:.2f}"
    value = float(effect.value)
    return ForestLine(**left, result=interval_words(value, ends), remark=remark, value=value, ends=ends, band=band)


def _more_with(row, side):
    return f"more with {SIDES[row.question][('first', 'second').index(side)]}"


def _found_words(row, direction):
    """What a result without a number found, and its mark."""
    if row.untested:
        side = SIDES[row.question][("first", "second").index(row.higher)]
        return f"{row.untested}: {side}", f"top {row.higher}"
    if direction in SEEN:
        return SEEN[direction], "none" if direction == "none" else ""
    return _more_with(row, direction), direction


def _contrast_words(row):
    """What a result compares, and in which phase."""
    against = f" vs {row.second}" if row.second else ""
    phase = f", {row.phase}" if row.phase not in ("", "whole") else ""
    return f"{row.first}{against}{phase}"


def _also(row):
    """What else may have made the difference; two scales of the load are spelled out, a lost paper is enough."""
    if not row.located:
        return LOST
    return ", ".join(f"load counts {row.scales}" if doubt == SCALE else doubt for doubt in row.doubts)


def summary_trial(summary, words="random effects"):
    """The block of an `evidence.Summary`, without a head."""
    ends, value = tuple(float(end) for end in summary.interval), float(summary.value)
    remark = f"spread between trials {np.sqrt(summary.between):.2f}"
    line = ForestLine(
        (words,), f"{words}, {counted(len(summary.weights), 'trial')}", interval_words(value, ends), remark, "summary",
        value=value, ends=ends,
    )  # fmt: skip
    return ForestTrial("", "", (line,))
