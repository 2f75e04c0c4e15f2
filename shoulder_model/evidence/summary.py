"""What several results say together, in numbers where they can be pooled and in words always.

Nothing is pooled below three comparable trials, nothing claimed where results point both ways.
"""

import numpy as np

from ..inputs import InputError
from ..tables import table_text
from ..words import counted, listed, written
from .effect_size import FEWEST, random_effects, smallest_seen
from .trials import ASSUMED, BAND, HELD_WORDS, SIDES


def contrast(row):
    """What has to be the same for two results to be comparable, a tuple of names: never the unit, never raw %MVIC.

    ``row`` a `trials.Comparison`.
    """
    return row.question, row.muscle, row.phase, row.first, row.second, row.held, row.also_changed


def pooled(trials, correlation=ASSUMED):
    """One random-effects summary of comparable differences, or a refusal that says why.

    Comparable: same question, muscle, phase, contrast, loading, and the same thing changed along with it; one
    result a group of people.

    Parameters
    ----------
    trials : iterable of trials.Comparison
    correlation : float
        Assumed between conditions.

    Returns
    -------
    effect_size.Summary
        In SD between people.

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
            f"no pooled number: the {len(numbers)} differences do not compare the same things (grips, loading or muscle differ)",
        )
    count = len({row.study for row in numbers})
    if count < FEWEST:
        raise InputError(
            "trials", f"no pooled number: {counted(count, 'trial')} with means of one contrast, {FEWEST} are needed"
        )
    if len({(row.study, row.subgroup) for row in numbers}) < len(numbers):
        raise InputError("trials", "no pooled number: the same people are counted twice; keep one result a trial")
    effects = [row.effect(correlation) for row in numbers]
    return random_effects([g.value for g in effects], [g.variance for g in effects])


def leanings(trials, correlation=ASSUMED):
    """What each trial points to, by name; ``trials`` and ``correlation`` as for `pooled`.

    Returns
    -------
    dict of study -> str
        "first", "second" (all its results), "first in part", "second in part" (the rest of them saw no difference),
        "none", "both" or "unknown". Results at loads that differ count as unknown: they show the load.
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
    """What the trials allow to be said, in a word: "first", "second", "none seen", "open" or "no trial".

    ``trials`` and ``correlation`` as for `leanings`.

    Own rule, stated so that it can be argued with: as soon as two trials, or two results of one trial, point
    opposite ways, or nothing points anywhere, the answer is open. Otherwise it is the side that some trial points
    to, at least in part, while none points to the other.
    """
    ways = {leaning.removesuffix(" in part") for leaning in leanings(trials, correlation).values()}
    if not ways:
        return "no trial"
    if "both" in ways or {"first", "second"} <= ways:
        return "open"
    return next((side for side in ("first", "second") if side in ways), "none seen" if "none" in ways else "open")


def _trials(count):
    return counted(count, "trial")


def _for_side(leans, side):
    """How many trials point to a side: "2 trials", "part of 1 trial", "2 trials and part of another"."""
    full, part = leans.count(side), leans.count(f"{side} in part")
    if full and part:
        return f"{_trials(full)} and part of {'another' if part == 1 else f'{part} others'}"
    return _trials(full) if full else f"part of {_trials(part)}" if part else ""


def unseen(trials, correlation=ASSUMED):
    """What a trial that saw no difference could have missed, in words; empty where every trial saw one.

    ``trials`` and ``correlation`` as for `leanings`.
    """
    sizes = [row.n for row in trials if row.direction(correlation) == "none" and row.held != "differ"]
    if not sizes:
        return ""
    large = float(smallest_seen(max(sizes)))
    return (
        f"Seeing none does not prove that there is none: with {max(sizes)} people, one trial in five misses a difference of "
        f"{large:.1f} SD (of the differences)."
    )


def together(trials, question, correlation=ASSUMED):
    """What these results say together on a ``question`` of `SIDES`, and how sure, in words.

    ``trials`` and ``correlation`` as for `leanings`.
    """
    sides, leans = SIDES[question], list(leanings(trials, correlation).values())
    said = claim(trials, correlation)
    if said == "no trial":
        return "No trial is left, so nothing can be said."
    if said == "open":
        ways = [(_for_side(leans, name), side) for name, side in zip(("first", "second"), sides, strict=True)]
        ways += [(_trials(leans.count("both")) if "both" in leans else "", "both")]
        ways = [f"{count} to {side}" for count, side in ways if count]
        return f"They point both ways: {listed(ways)}. No claim." if ways else "No direction can be read off. No claim."
    if said == "none seen":
        return f"{_trials(leans.count('none'))} saw no difference."
    flat = leans.count("none")
    also = f"{_trials(flat)} saw no difference, " if flat else ""
    sure = "a lean, no more" if leans.count(said) > max(1, flat) else "a hint at most"
    side = sides[("first", "second").index(said)]
    words = f"{_for_side(leans, said)} found more with {side}, {also}none found the opposite. How sure: {sure}."
    return words[0].upper() + words[1:]


def cautions(trials):
    """What weakens all of the ``trials`` (`trials.Comparison`), in words; empty where nothing was flagged."""
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
    """The numbers there are, in words: yardstick, what is assumed, then the pooled number or why there is none.

    ``trials`` and ``correlation`` as for `leanings`.
    """
    numbers = [row for row in trials if row.kind == "difference"]
    if not numbers:
        return "No numbers: orders and p-values only."
    effects = [row.effect(correlation) for row in numbers]
    ends = sorted({written(g.value, 2, sign=True): float(g.value) for g in effects}.items(), key=lambda end: end[1])
    span = " to ".join(dict.fromkeys((ends[0][0], ends[-1][0])))
    clear = sum(bool(g.interval[0] > 0 or g.interval[1] < 0) for g in effects)
    marked = sum(row.higher in ("first", "second") for row in numbers)
    printed = all(row.correlation is not None for row in numbers)
    assumed = "correlation as printed" if printed else f"correlation {correlation:.2f}, an assumption"
    words = (
        f"Effect size g {span}; {clear} of {counted(len(effects), 'interval')} {'leaves' if clear == 1 else 'leave'} out zero "
        f"({assumed}); by the trials' own tests {marked} differ{'s' * (marked == 1)}."
    )
    try:
        summary = pooled(trials, correlation)
    except InputError as refusal:
        return f"{words} {str(refusal).capitalize()}."
    value, low, high = (written(x, 2, sign=True) for x in (summary.value, *summary.interval))
    return f"{words} Pooled: g {value} ({low} to {high})."


def comparison_table(trials, correlation=ASSUMED):
    """The results as CSV text: g and its interval at the correlation and at both ends of its band, else blanks.

    ``trials`` and ``correlation`` as for `leanings`; g in SD between people.
    """
    band = (correlation, *BAND)
    ends = [f"g {end} 95% at correlation {r:.2f}" for r in band for end in ("low", "high")]
    heads = [
        "citation", "n", "question", "muscle", "phase", "first", "second", "kind", "trial's own test points to",
        "as printed", "g", *ends, "load", "also changed", "people", "scaled to", "limits",
    ]  # fmt: skip
    return table_text([heads, *(_table_row(row, band) for row in trials)])


def _table_row(row, band):
    numbers = [""] * 7
    if row.kind == "difference":
        numbers = [row.effect().value, *np.ravel([row.effect(r).interval for r in band])]
        numbers = [f"{value:.4f}" for value in numbers]
    return [
        row.citation, row.n, row.question, row.muscle, row.phase, row.first, row.second, row.kind,
        row.higher or "not printed", row.statement, *numbers, HELD_WORDS[row.held], row.also_changed,
        row.trained, row.normalised, row.flaws,
    ]  # fmt: skip
