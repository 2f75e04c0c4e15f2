"""What published trials say about a question and a muscle, and what they leave open.

``data/evidence.csv`` holds what was read, ``data/comparisons.csv`` says for each row what it compares and what
was held constant. A result is one of three kinds: a difference (means and standard deviations were read), an
order (words only) or a p-value. Only a difference has a number here; nothing turns a p-value or an order into one.
"""

import csv
import io
import re
from dataclasses import dataclass
from functools import cache

import numpy as np

from .effect_size import FEWEST, difference_within, random_effects, smallest_seen
from .inputs import Allowed, InputError, choice, number
from .sources import read_table
from .words import listed, signed_change

ASSUMED, BAND = 0.5, (0.3, 0.7)  # correlation between conditions, an assumption: the trials do not print it
SIDES = {  # question -> what a result may point to
    "row or pulldown": ("a row", "a pulldown"),
    "grip width": ("a wider grip", "a narrower grip"),
    "hand turn": ("palms away", "palms turned"),
    "front or behind the neck": ("the bar in front", "the bar behind"),
    "blades held or free": ("blades held", "blades free"),
    "pull-up or pulldown": ("a pull-up", "a pulldown"),
    "after a cue or before": ("the cue", "no cue"),
}
HELD = {  # choice -> codes of the column ``held`` it lets through
    "any load": ("each", "relative", "one", "differ", "not stated"),
    "relative load": ("each", "relative"),
    "relative, found for each": ("each",),
    "one load for all": ("one",),
}
HELD_WORDS = {
    "each": "load found for each",
    "relative": "relative load",
    "one": "one load for all",
    "differ": "loads differ",
    "not stated": "load not stated",
}


@dataclass(frozen=True)
class Comparison:
    """One result of one trial, for one muscle.

    ``higher`` is what the trial's own test says: "first", "second", "none", or "" where no direction is printed.
    ``means`` is (mean first, SD first, mean second, SD second) or None. ``correlation`` is None unless printed.
    """

    study: str
    citation: str
    n: int
    question: str
    muscle: str
    phase: str
    first: str
    second: str
    higher: str
    statement: str
    held: str
    also_changed: str
    trained: str
    normalised: str
    flaws: str
    means: tuple | None = None
    correlation: float | None = None
    group: str = ""

    @property
    def kind(self):
        """ "difference", "p-value" or "order"."""
        if self.means is not None:
            return "difference"
        return "p-value" if re.search(r"\bp\s*[<=]", self.statement, re.I) else "order"

    def effect(self, correlation=ASSUMED):
        """Hedges' g of first against second, or None where no means and standard deviations were read."""
        if self.means is None:
            return None
        first, sd_first, second, sd_second = self.means
        used = correlation if self.correlation is None else self.correlation
        return difference_within(first, second, sd_first, sd_second, self.n, used)

    def direction(self, correlation=ASSUMED):
        """What the result points to: the trial's own test, else the interval of a difference, else "unknown"."""
        if self.higher or self.means is None:
            return self.higher or "unknown"
        low, high = self.effect(correlation).interval
        return "first" if low > 0 else "second" if high < 0 else "none"


def _found(rows, coded, condition, exercise):
    """The one row of the evidence that a coded row points to."""
    fit = [
        row
        for row in rows
        if (row["study_id"], row["outcome"], row["condition"]) == (coded["study_id"], coded["outcome"], condition)
        and exercise in ("", row["exercise"])
        and coded["sex"] in ("", row["sex"])
    ]
    if len(fit) > 1:
        fit = [row for row in fit if row["phase"] == coded["phase"]]
    if len(fit) != 1:
        raise LookupError(f"{coded['study_id']}, {condition}: {len(fit)} rows of evidence.csv fit, one is meant")
    return fit[0]


def _normalised(row):
    """To what an amplitude was scaled, as far as the unit says it."""
    unit = row["unit"]
    if unit in ("%MVIC", "%MVC"):
        return "MVIC"
    if not row["outcome"].startswith(("emg", "es_")):
        return "a load"
    return "best technique" if "best technique" in unit else "not stated"


def _statement(row, coded):
    if coded["says"]:
        return coded["says"]
    if row["outcome"].startswith("es_"):
        return f"printed effect size {row['mean']}"
    return row["finding"]


def _comparison(rows, coded):
    row = _found(rows, coded, coded["condition"], coded["exercise"])
    means = None
    if coded["against"]:
        other = _found(rows, coded, coded["against"], coded["exercise_against"])
        means = tuple(float(part[field]) for part in (row, other) for field in ("mean", "sd"))
    same = ("question", "muscle", "phase", "first", "second", "higher", "held", "also_changed", "trained", "flaws")
    return Comparison(
        study=coded["study_id"], citation=row["citation"], n=int(row["n"]), statement=_statement(row, coded),
        normalised=_normalised(row), means=means, group=coded["sex"],
        correlation=float(coded["correlation"]) if coded["correlation"] else None,
        **{name: coded[name] for name in same},
    )  # fmt: skip


@cache
def comparisons():
    """All coded comparisons, as a tuple of `Comparison`."""
    rows = read_table("evidence.csv")
    return tuple(_comparison(rows, coded) for coded in read_table("comparisons.csv"))


def muscles(question, trials=None):
    """Muscles (and "largest load") that some trial looked at under this question, most results first.

    >>> muscles("blades held or free")
    ('latissimus dorsi', 'middle trapezius', 'posterior deltoid', 'biceps brachii')
    """
    choice("question", question, tuple(SIDES))
    found = [row.muscle for row in (comparisons() if trials is None else trials) if row.question == question]
    return tuple(sorted(dict.fromkeys(found), key=lambda muscle: -found.count(muscle)))


def choose(trials, *, held="any load", trained_only=False, one_change_only=False, mvic_only=False, minimum_n=0):
    """Split results by what was held constant.

    Parameters
    ----------
    trials : iterable of Comparison
    held : str
        One of ``HELD``.
    trained_only, one_change_only, mvic_only : bool
        Leave out people not said to be trained; contrasts in which something else changed too;
        amplitudes not scaled to a maximal voluntary contraction (loads stay in).
    minimum_n : float
        Leave out smaller trials.

    Returns
    -------
    shown : tuple of Comparison
    left_out : dict of str to int
        The first reason that applies, and how many results it took out.

    Raises
    ------
    InputError
        A choice that is not in ``HELD``, a number outside 0 to 1000.
    """
    choice("held", held, tuple(HELD))
    least = number("minimum_n", minimum_n, Allowed(0, 1000, "people", "trials of pulling have 7 to 35"))
    tests = {
        "other loading": lambda row: row.held not in HELD[held],
        "not said to be trained": lambda row: trained_only and row.trained != "trained",
        "something else changed too": lambda row: one_change_only and bool(row.also_changed),
        "not scaled to MVIC": lambda row: mvic_only and row.normalised not in ("MVIC", "a load"),
        f"fewer than {least:.0f} people": lambda row: row.n < least,
    }
    shown, left_out = [], {}
    for row in trials:
        reason = next((words for words, test in tests.items() if test(row)), None)
        if reason is None:
            shown.append(row)
        else:
            left_out[reason] = left_out.get(reason, 0) + 1
    order = ("difference", "p-value", "order")
    return tuple(sorted(shown, key=lambda row: order.index(row.kind))), left_out


def contrast(row):
    """What has to be the same for two results to be comparable: never the unit, never raw %MVIC."""
    return row.question, row.muscle, row.phase, row.first, row.second, row.held, row.also_changed


def pooled(trials, correlation=ASSUMED):
    """One random-effects summary of comparable differences, or a refusal that says why.

    Comparable: same question, muscle, phase, contrast, loading, and the same thing changed along with it; one
    result a group of people.

    Returns
    -------
    effect_size.Summary

    Raises
    ------
    InputError
        No means and standard deviations; different contrasts; fewer than three trials.
    """
    trials = list(trials)
    numbers = [row for row in trials if row.kind == "difference"]
    if not numbers:
        raise InputError("trials", "no pooled number: no result comes with means and standard deviations")
    if len({contrast(row) for row in numbers}) > 1:
        raise InputError(
            "trials",
            f"no pooled number: the {len(numbers)} differences are not one contrast (grips, loading or muscle differ)",
        )
    count = len({row.study for row in numbers})
    if count < FEWEST:
        raise InputError(
            "trials", f"no pooled number: {_trials(count)} with means of one contrast, {FEWEST} are needed"
        )
    if len({(row.study, row.group) for row in numbers}) < len(numbers):
        raise InputError("trials", "no pooled number: the same people are counted twice; keep one result a trial")
    effects = [row.effect(correlation) for row in numbers]
    return random_effects([one.value for one in effects], [one.variance for one in effects])


def leanings(trials, correlation=ASSUMED):
    """What each trial points to.

    Returns a dict from study to "first", "second" (all its results), "first in part", "second in part" (the rest of
    them saw no difference), "none", "both" or "unknown". Results at loads that differ count as unknown: they show
    the load.
    """
    seen = {}
    for row in trials:
        points = "unknown" if row.held == "differ" else row.direction(correlation)
        seen.setdefault(row.study, set()).add(points)
    return {study: _leaning(directions - {"unknown"}) for study, directions in seen.items()}


def _leaning(directions):
    if {"first", "second"} <= directions:
        return "both"
    side = next((name for name in ("first", "second") if name in directions), None)
    if side is None:
        return "none" if directions else "unknown"
    return f"{side} in part" if "none" in directions else side


def claim(trials, correlation=ASSUMED):
    """What the trials allow to be said: "first", "second", "none seen", "open" or "no trial".

    Own rule, stated so that it can be argued with: as soon as two trials, or two results of one trial, point
    opposite ways, or nothing points anywhere, the answer is open. Otherwise it is the side that some trial points
    to, at least in part, while none points to the other.
    """
    found = {leaning.removesuffix(" in part") for leaning in leanings(trials, correlation).values()}
    if not found:
        return "no trial"
    if "both" in found or {"first", "second"} <= found:
        return "open"
    return next((side for side in ("first", "second") if side in found), "none seen" if "none" in found else "open")


def _trials(count):
    return f"{count} trial{'s' * (count != 1)}"


def _for_side(found, side):
    """How many trials point to a side: "2 trials", "1 trial in part", "2 trials and 1 in part"."""
    full, part = found.count(side), found.count(f"{side} in part")
    if full and part:
        return f"{_trials(full)} and {part} in part"
    return _trials(full) if full else f"{_trials(part)} in part" if part else ""


def _unseen(trials, correlation):
    """What a trial that saw no difference could have missed."""
    sizes = [row.n for row in trials if row.direction(correlation) == "none" and row.held != "differ"]
    if not sizes:
        return ""
    large = float(smallest_seen(max(sizes)))
    return f" Seeing none is not proof of none: {max(sizes)} people miss a difference of {large:.1f} SD (of the differences) one time in five."


def together(trials, question, correlation=ASSUMED):
    """What these results say together, and how sure."""
    sides, found = SIDES[question], list(leanings(trials, correlation).values())
    said = claim(trials, correlation)
    if said == "no trial":
        return "No trial is left, so nothing can be said."
    if said == "open":
        ways = [(_for_side(found, name), side) for name, side in zip(("first", "second"), sides, strict=True)]
        ways += [(_trials(found.count("both")) if "both" in found else "", "both")]
        ways = [f"{count} to {side}" for count, side in ways if count]
        return (
            f"They point both ways ({listed(ways)}). No claim." if ways else "No direction can be read off. No claim."
        )
    if said == "none seen":
        return f"{_trials(found.count('none'))} saw no difference.{_unseen(trials, correlation)}"
    flat = found.count("none")
    also = f", {_trials(flat)} saw none" if flat else ""
    sure = "a lean, no more" if found.count(said) > max(1, flat) else "a hint at most"
    side = sides[("first", "second").index(said)]
    return f"{_for_side(found, said)} found more with {side}{also}, none the opposite. How sure: {sure}.{_unseen(trials, correlation)}"


def cautions(trials):
    """What weakens all of it, in a sentence; empty where nothing was flagged."""
    changed, differ = (
        len({row.study for row in trials if flag(row)})
        for flag in (lambda row: row.also_changed, lambda row: row.held == "differ")
    )
    made = {}
    for row in trials:
        made.setdefault((row.first, row.second), set()).add(row.study)
    alone = len({row.study for row in trials}) > 1 and all(len(studies) == 1 for studies in made.values())
    parts = [f"something else changed too in {_trials(changed)}"] * (changed > 0)
    parts += ["no two trials made the same comparison"] * alone
    parts += [f"{_trials(differ)} compared different loads and count{'s' * (differ == 1)} for nothing"] * (differ > 0)
    return f"{listed(parts)}.".capitalize() if parts else ""


def difference_words(trials, correlation=ASSUMED):
    """The numbers there are, their yardstick and what is assumed; then the pooled number or why there is none."""
    numbers = [row for row in trials if row.kind == "difference"]
    if not numbers:
        return "No numbers: orders and p-values only."
    effects = [row.effect(correlation) for row in numbers]
    ends = sorted({signed_change(one.value, 2): float(one.value) for one in effects}.items(), key=lambda one: one[1])
    span = " to ".join(dict.fromkeys((ends[0][0], ends[-1][0])))
    clear = sum(bool(one.interval[0] > 0 or one.interval[1] < 0) for one in effects)
    marked = sum(row.higher in ("first", "second") for row in numbers)
    printed = all(row.correlation is not None for row in numbers)
    assumed = "correlation as printed" if printed else f"correlation {correlation:.2f}, an assumption"
    words = (
        f"g {span}: {clear} of {len(effects)} interval{'s' * (len(effects) > 1)} leave{'s' * (clear == 1)} out zero "
        f"({assumed}), the trials' own tests mark {marked}."
    )
    try:
        one = pooled(trials, correlation)
    except InputError as refusal:
        return f"{words} {str(refusal).capitalize()}."
    low, high = one.interval
    return f"{words} Pooled: g {signed_change(one.value, 2)} ({signed_change(low, 2)} to {signed_change(high, 2)})."


def comparison_table(trials, correlation=ASSUMED):
    """The results as CSV text: g and its interval at the correlation and at both ends of its band, else blanks."""
    store = io.StringIO()
    writer = csv.writer(store, lineterminator="\n")
    band = (correlation, *BAND)
    ends = [f"g {end} 95% at correlation {r:.2f}" for r in band for end in ("low", "high")]
    writer.writerow(
        ["citation", "n", "question", "muscle", "phase", "first", "second", "kind", "trial's own test points to",
         "as printed", "g", *ends, "load", "also changed", "people", "scaled to", "limits"]
    )  # fmt: skip
    for row in trials:
        numbers = [""] * 7
        if row.kind == "difference":
            numbers = [row.effect().value, *np.ravel([row.effect(r).interval for r in band])]
            numbers = [f"{value:.4f}" for value in numbers]
        writer.writerow(
            [row.citation, row.n, row.question, row.muscle, row.phase, row.first, row.second, row.kind,
             row.higher or "not printed", row.statement, *numbers, HELD_WORDS[row.held], row.also_changed,
             row.trained, row.normalised, row.flaws]
        )  # fmt: skip
    return store.getvalue()
