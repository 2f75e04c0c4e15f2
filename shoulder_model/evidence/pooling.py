"""One number for several trials, or a refusal that says why there is none."""

from ..inputs import InputError, checked_call, scalar, thing
from ..words import counted
from .effect_size import CORRELATION, FEWEST, random_effects
from .trials import ASSUMED, Comparison, some_trials


@checked_call
def contrast(row):
    """What has to be the same for two results to be comparable, a tuple of names: never the unit, never raw %MVIC.

    ``row`` a `trials.Comparison`, else `InputError`.
    """
    thing("row", row, Comparison)
    return row.question, row.muscle, row.phase, row.first, row.second, row.held, row.also_changed, row.scales


@checked_call
def pooled(trials, correlation=ASSUMED):
    """One random-effects summary of comparable differences, or a refusal that says why.

    Comparable: same question, muscle, phase, contrast, loading, and the same thing changed along with it; one
    result a group of people. A paper that cannot be found is left out.

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
        What are no trials; no means and standard deviations; different contrasts; fewer than three trials.
    """
    trials, correlation = some_trials(trials), scalar("correlation", correlation, CORRELATION)
    numbers = [row for row in trials if row.kind == "difference" and row.located]
    if not numbers:
        raise InputError("trials", "no pooled number: no result comes with means and standard deviations")
    if len({contrast(row) for row in numbers}) > 1:
        raise InputError(
            "trials",
            f"no pooled number: the {len(numbers)} differences do not compare the same things (grips, loading or muscle "
            "differ)",
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
