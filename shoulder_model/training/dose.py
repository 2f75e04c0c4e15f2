"""How a set is done: warm-up steps, rest between sets, repetitions left by week, each side.

All in small parts that a page can print in short lines. Numbers stand in ``data/week_rules.csv`` with source and mark.
"""

from dataclasses import dataclass

from ..inputs import checked_call
from ..week.load import Load, first_load, step_of
from ..week.load_words import WARM_UP
from ..week.plan import a_plan
from ..week.rules import some_rules
from ..words import counted, listed

MINUTE = 60  # s
WEEKS = ("week 1", "week 2", "from week 3")


@dataclass(frozen=True)
class Start:
    """How one ``pull`` (name) starts: its first ``load`` (`week.load.Load`), ``warm_up`` lines, whether ``each_side`` is trained alone."""

    pull: str
    load: Load
    warm_up: tuple
    each_side: bool


@checked_call
def starts(plan):
    """How every pull of a ``plan`` (`week.plan.Plan`) starts: dict of name -> `Start`.

    What the last block's log has given (``week.client.carried``) comes before any first load. `InputError` for no plan.
    """
    client, rules = a_plan(plan).client, plan.rules
    carried = {one.pull: Load(one.low_kg, one.high_kg, one.words) for one in client.carried}
    by_name = {}
    for row in plan.rows:
        if row.name in by_name:
            continue
        load = carried.get(row.name) or first_load(
            row.candidate,
            rules,
            client.known,
            given=client.steps,
            mass_kg=float(client.lifter.mass),
            pull_ups=client.own_weight_repetitions,
        )
        step = step_of(row.candidate, client.steps)
        by_name[row.name] = Start(row.name, load, warm_up(row.candidate, load, rules, step), row.pull.hands == 1)
    return by_name


def warm_up(candidate, load, rules, step):
    """Warm-up sets of a ``candidate`` (`week.candidates.Candidate`) before its first ``load`` (`week.load.Load`), a tuple of lines in words.

    ``rules`` as everywhere; ``step`` the equipment's `week.load.Step` or None. Common practice, no source.
    """
    light, heavy = rules.warm_up_light_repetitions, rules.warm_up_heavy_repetitions
    if candidate.loading in ("stack", "barbell", "dumbbells", "dumbbell"):
        if load.low_kg is None or step is None:
            parts = rules.warm_up_light, rules.warm_up_heavy
            return tuple(
                f"{reps} at about {100 * part:.0f} % of the load"
                for reps, part in zip((light, heavy), parts, strict=True)
            )
        return _on_the_steps(load.low_kg, rules, step)
    return (WARM_UP.get(candidate.loading, "{light} made easier").format(light=light, heavy=heavy),)


def _on_the_steps(load_kg, rules, step):
    """The warm-up loads that the equipment has below ``load_kg``, lightest first."""
    sets = {}
    for part, repetitions in (
        (rules.warm_up_light, rules.warm_up_light_repetitions),
        (rules.warm_up_heavy, rules.warm_up_heavy_repetitions),
    ):
        kg = step.down(part * load_kg)
        kg = step.smallest_kg if kg is None else kg
        if kg < load_kg:
            sets.setdefault(kg, repetitions)
    if not sets:
        return ("a few slow ones without any load",)
    return tuple(f"{repetitions} at {kg:g} kg" for kg, repetitions in sets.items())


@checked_call
def rest_words(rules):
    """Rest between sets under some ``rules``, in words; here and below `InputError` for no rules.

    >>> from shoulder_model.week import rules
    >>> rest_words(rules("novice"))
    '1 to 2 minutes'
    """
    low, high = some_rules(rules).rest_low_s / MINUTE, rules.rest_high_s / MINUTE
    return counted(low, "minute") if low == high else f"{low:g} to {high:g} minutes"


@checked_call
def left_by_week(rules):
    """Repetitions left at the end of a set, by week: a tuple of (weeks in words, fewest, most) under some ``rules``.

    >>> from shoulder_model.week import rules
    >>> left_by_week(rules("novice"))
    (('week 1', 3, 3), ('week 2', 2, 2), ('from week 3', 1, 2))
    """
    later, low, high = some_rules(rules).repetitions_left_later, rules.repetitions_left_low, rules.repetitions_left_high
    return tuple(zip(WEEKS, (high, low, later), (high, low, low), strict=True))


@checked_call
def left_words(rules):
    """The same under some ``rules`` in one line of words.

    >>> from shoulder_model.week import rules
    >>> left_words(rules("novice"))
    'Stop each set with good repetitions in reserve: 3 in week 1, 2 in week 2 and 1 to 2 from week 3'
    """
    parts = [
        f"{low if low == high else f'{low} to {high}'} {weeks if weeks.startswith('from') else f'in {weeks}'}"
        for weeks, low, high in left_by_week(rules)
    ]
    return f"Stop each set with good repetitions in reserve: {listed(parts)}"


@checked_call
def progress_words(rules):
    """When to change the load under some ``rules``, in words for a page, with the source."""
    high, over, low = some_rules(rules).repetitions_high, rules.repetitions_over, rules.repetitions_low
    return (
        f"At any time, not only after the block: {high + over} or more in the last set on {rules.sessions_running} sessions running, "
        f"add {100 * rules.load_step_low:.0f} to {100 * rules.load_step_high:.0f} % (Med Sci Sports Exerc 2009;41(3):687-708). "
        f"Under {low} on {rules.sessions_running} sessions running, take some off. Otherwise one repetition more next time. "
        "Pain or numbness: stop, and see a licensed clinician."
    )
