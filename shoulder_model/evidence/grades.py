"""How sure results make us: by how precise they are and by what else changed, never by how many trials there are.

The rule is our own and has no source. It is stated here so that it can be argued with:

1. A result counts only where nothing else may have made the difference (`Comparison.doubts`): nothing else changed, loads
   are on one scale, and each person's load was chosen by what that person could lift. A paper that cannot be found counts
   for nothing.
2. Where results that count point opposite ways, nothing is claimed.
3. An estimate whose interval is clear of zero at every correlation of the band makes a direction likely. Where that interval
   is no longer than `NARROW`, it makes it fairly sure. An estimate that the trial's own test contradicts does neither.
4. An interval inside ± `SMALL` makes it fairly sure that any difference is small.
5. An order or a p-value has no precision, so it is a hint at most; so is an estimate whose interval reaches zero but whose
   own test found a difference.

Three comparable estimates or more are pooled first (`pooling.pooled`), and the summary's interval is graded. "Fairly sure"
is about people like those of the trials, at what they did, on that day.
"""

from dataclasses import dataclass

from ..inputs import InputError, checked_call, scalar
from ..sources import fact
from .effect_size import CORRELATION
from .pooling import pooled
from .trials import ASSUMED, lowest_correlation, some_trials

NARROW = fact("narrow_interval")  # SD; a longer interval cannot tell a small difference from a large one (own rule)
SMALL = fact("small_difference")  # SD (own rule)
RULE = (
    "A result counts only where nothing else changed: a narrow interval then makes us sure, and an order or a p-value is a "
    "hint at most."
)


@dataclass(frozen=True)
class Grade:
    """What may be said.

    ``name``: "sure", "likely" or "hint" of a ``side`` ("first" or "second"); "small" (any difference is), "none seen", "both
    ways", "something else" (no result counts), "no direction", "no trial", all without a side. ``ends`` are those of the
    interval that says so [SD between people], or None.
    """

    name: str
    side: str = ""
    ends: tuple | None = None


@checked_call
def grade(trials, correlation=ASSUMED):
    """What results allow to be said, by the rule of this module: a `Grade`, whose name is a word or two.

    ``trials`` are `trials.Comparison`, ``correlation`` is assumed between conditions, without unit; others raise `InputError`.
    """
    trials, correlation = some_trials(trials), scalar("correlation", correlation, CORRELATION)
    counting = [row for row in trials if not row.doubts]
    if not counting:
        return Grade("something else" if trials else "no trial")
    estimates = _estimates(counting, correlation)
    found = [
        (high - low, _side(low, high), low, high)
        for low, high, tested in estimates
        if _side(low, high) in _sides(tested)
    ]
    seen = {row.direction(correlation) for row in counting} | {side for _, side, _, _ in found}
    if {"first", "second"} <= seen:
        return Grade("both ways")
    if found:
        width, side, *ends = min(found)
        return Grade("sure" if width <= NARROW else "likely", side, tuple(ends))
    for side in ("first", "second"):
        if side in seen:
            return Grade("hint", side)
    if any(-SMALL < low and high < SMALL for low, high, _ in estimates):
        return Grade("small")
    return Grade("none seen" if "none" in seen else "no direction")


def _estimates(rows, correlation):
    """Low end, high end and own test of every estimate, at the least favourable correlation; one where they can be pooled."""
    try:
        return [(*pooled(rows, lowest_correlation(correlation)).interval, "")]
    except InputError:
        return [(*row.band(correlation), row.higher) for row in rows if row.kind == "difference"]


def _side(low, high):
    return "first" if low > 0 else "second" if high < 0 else "none"


def _sides(tested):
    """The sides that an estimate may speak for, given what the trial's own test said."""
    return {"": ("first", "second")}.get(tested, (tested,) if tested != "none" else ())
