"""The rules of a week: doses, limits and small habits, from ``data/week_rules.csv`` with source and mark."""

from dataclasses import dataclass, fields
from functools import cache

from ..inputs import checked_call, choice, thing
from ..tables import read_table

EXPERIENCE = ("novice", "intermediate", "advanced")


@dataclass(frozen=True)
class Rules:
    """Numbers of the plan; every one may be changed with `dataclasses.replace`. Units and sources stand in the table."""

    days_low: int
    days_high: int
    repetitions_low: int
    repetitions_high: int
    weekly_sets_low: float
    weekly_sets_high: float
    helper_set: float
    grip_high: float
    direction_share: float
    direction_sets: float
    visit_sets_low: int
    visit_sets_high: int
    session_sets: int
    pull_sets: int
    pulls_low: int
    pulls_high: int
    low_back_sets: float
    repetitions_left_low: int
    repetitions_left_high: int
    known_load_most: float
    load_step_low: float
    load_step_high: float
    repetitions_over: int
    comfort_low: float
    repetitions_left_later: int
    sessions_running: int
    warm_up_light: float
    warm_up_light_repetitions: int
    warm_up_heavy: float
    warm_up_heavy_repetitions: int
    rest_low_s: float
    rest_high_s: float
    lowering_s: float


@checked_call
def rules(experience):
    """The `Rules` for an ``experience``, "novice", "intermediate" or "advanced", else `InputError`; units in ``data/week_rules.csv``.

    >>> rules("novice").repetitions_low, rules("novice").repetitions_high
    (8, 12)
    """
    return _rules(choice("experience", experience, EXPERIENCE))


def some_rules(rules):
    """Return ``rules`` if they are `Rules`, else raise `InputError` in words that say where they are found."""
    return thing("rules", rules, Rules, "sm.week.rules('novice')")


@cache
def _rules(experience):
    kinds = {field.name: field.type for field in fields(Rules)}
    rows = [row for row in read_table("week_rules.csv") if row["experience"] in ("any", experience)]
    return Rules(**{row["name"]: kinds[row["name"]](float(row["value"])) for row in rows})
