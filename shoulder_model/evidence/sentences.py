"""What several results say together, in sentences."""

from ..inputs import InputError, checked_call, choice, scalar
from ..words import counted, listed, written
from .effect_size import CORRELATION
from .grades import SMALL, grade
from .pooling import pooled
from .power import smallest_seen
from .trials import ASSUMED, LOST, SIDES, some_trials

SAID = {  # grade -> sentence
    "sure": "Fairly sure, for people like these: more with {side}, by {ends} SD.",
    "likely": "Likely more with {side}, but by how much is open: {ends} SD.",
    "hint": "A hint, no more: more with {side}.{part}",
    "small": f"Fairly sure, for people like these: any difference is smaller than {SMALL} SD.",
    "none seen": "No claim: no difference was seen, and none is ruled out.",
    "both ways": "No claim: the results that count point both ways, to {first} and to {second}.",
    "something else": "No claim: in every result something else may have made the difference ({doubts}){or_lost}.",
    "lost": "No claim: the paper cannot be found, so what it says counts for nothing.",
    "no direction": "No claim: no direction can be read off.",
    "no trial": "No trial is left, so nothing can be said.",
}
MOST = 3  # doubts that a sentence names
PART = " Some results that count saw no difference."


@checked_call
def together(trials, question, correlation=ASSUMED):
    """What results say together on a ``question`` of `SIDES`, and how sure, in words.

    ``trials`` are `trials.Comparison`, ``correlation`` is assumed between conditions; others raise `InputError`, here and below.
    """
    trials = some_trials(trials)
    said, (first, second) = grade(trials, correlation), SIDES[choice("question", question, tuple(SIDES))]
    flat = any(not row.doubts and row.direction(correlation) == "none" for row in trials)
    else_made = _doubts(trials)
    lost = any(not row.located for row in trials)
    return SAID["lost" if said.name == "something else" and not else_made else said.name].format(
        first=first, second=second, side=second if said.side == "second" else first, part=PART if flat else "",
        doubts=_shortly(else_made), or_lost=", or the paper cannot be found" * lost, ends=_size(said.ends),
    )  # fmt: skip


def _size(ends):
    """Ends of an interval that is clear of zero, as a size without a sign."""
    return " to ".join(f"{abs(end):.2f}" for end in sorted(ends, key=abs)) if ends else ""


def _shortly(parts):
    """The first of some parts, in words."""
    return listed([*parts[:MOST], "more"] if len(parts) > MOST else parts) if parts else ""


def _doubts(trials):
    """What else may have made the difference, what is so in most results first."""
    every = [doubt for row in trials for doubt in row.doubts if doubt != LOST]
    return sorted(dict.fromkeys(every), key=lambda doubt: -every.count(doubt))


@checked_call
def unseen(trials, correlation=ASSUMED):
    """What a trial that saw no difference could have missed, in words; empty where no result that counts is like that.

    ``trials`` and ``correlation`` as for `together`.
    """
    correlation = scalar("correlation", correlation, CORRELATION)
    sizes = [row.n for row in some_trials(trials) if row.direction(correlation) == "none" and not row.doubts]
    if not sizes:
        return ""
    large = float(smallest_seen(max(sizes)))
    return (
        f"Seeing none does not prove that there is none: with {max(sizes)} people, one trial in five misses a difference of "
        f"{large:.1f} SD (of the differences)."
    )


@checked_call
def cautions(trials):
    """What weakens the ``trials`` (`trials.Comparison`), in words; empty where nothing was flagged."""
    trials = some_trials(trials)
    doubtful = [row for row in trials if set(row.doubts) - {LOST}]
    lost = [row for row in trials if not row.located]
    made = {}
    for row in trials:
        made.setdefault((row.first, row.second), set()).add(row.study)
    alone = len({row.study for row in trials}) > 1 and all(len(studies) == 1 for studies in made.values())
    parts = []
    if doubtful and len(doubtful) < len(trials):
        some = f"{counted(len(doubtful), 'result')} (grey) count{'s' * (len(doubtful) == 1)} for nothing"
        parts.append(f"{some}: something else may have made the difference ({_shortly(_doubts(doubtful))})")
    if lost and len(lost) < len(trials):
        parts.append(
            f"{counted(len(lost), 'result')} (grey) count{'s' * (len(lost) == 1)} for nothing: the paper cannot be found"
        )
    parts += ["no two trials made the same comparison"] * alone
    return " ".join(f"{part[0].upper()}{part[1:]}." for part in parts)


@checked_call
def difference_words(trials, correlation=ASSUMED):
    """The numbers there are, in words: yardstick, what is assumed, then the pooled number or why there is none.

    ``trials`` and ``correlation`` as for `together`.
    """
    trials, correlation = some_trials(trials), scalar("correlation", correlation, CORRELATION)
    numbers = [row for row in trials if row.kind == "difference"]
    if not numbers:
        return "No numbers: orders and p-values only."
    effects = [row.effect(correlation) for row in numbers]
    ends = sorted({written(g.value, 2, sign=True): float(g.value) for g in effects}.items(), key=lambda end: end[1])
    span = " to ".join(dict.fromkeys((ends[0][0], ends[-1][0])))
    printed = all(row.correlation is not None for row in numbers)
    assumed = "correlation as printed" if printed else f"correlation {correlation:.2f}, an assumption"
    words = f"Effect size g {span} ({assumed})."
    try:
        summary = pooled(trials, correlation)
    except InputError as refusal:
        return f"{words} {str(refusal).capitalize()}."
    value, low, high = (written(x, 2, sign=True) for x in (summary.value, *summary.interval))
    return f"{words} Pooled: g {value} ({low} to {high})."
