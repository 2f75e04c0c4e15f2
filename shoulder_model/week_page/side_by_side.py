"""Two weeks side by side: the same pulls on one line, differences in sets named."""

from ..document.parts import Heading, Line, Points, Table
from ..printed import plain
from ..week.plan import by_pull
from ..week.words import client_words, grip_words, health_words
from .wording import COUNTED, days_words, equipment_words, more_words

PAIR_WIDTHS = (42, 50, 50, 40)


def pair_parts(first, second):
    """The parts of a page with two weeks of words, ``first`` and ``second`` (`week.plan.Plan`): a tuple."""
    names = column_names(first, second)
    parts = []
    for name, plan in zip(names, (first, second), strict=True):
        told = f"{client_words(plan.client)}. There is: {equipment_words(plan.client)}. {health_words(plan.client)}"
        parts += [Heading(name), Line(plain(told))]
        said = (*plan.short, *plan.notes)
        parts += [Points(said)] if said else []
    heads = ("pull", *names, "second against first")
    return (
        *parts,
        Heading("Pulls: days, sets on each, repetitions, grip"),
        Table(heads, tuple(_pull_rows(first, second)), PAIR_WIDTHS),
        Heading("Sets a week"),
        Table(("counted", *heads[1:]), tuple(_set_rows(first, second)), PAIR_WIDTHS),
    )


def column_names(first, second):
    """Two different names for the columns of two weeks ``first`` and ``second`` (`week.plan.Plan`), text."""
    names = [plain(plan.client.name) for plan in (first, second)]
    return tuple(
        f"{place} week{f': {name}' if name else ''}" for place, name in zip(("First", "Second"), names, strict=True)
    )


def _pull_rows(first, second):
    """A row for each pull of either week, those of the first in front."""
    of = [{row.name: row for row, _ in by_pull(plan)} for plan in (first, second)]
    for name in dict.fromkeys((*of[0], *of[1])):
        sets = [sum(row.sets for row in plan.rows if row.name == name) for plan in (first, second)]
        there = [_cell(plan, of[place].get(name)) for place, plan in enumerate((first, second))]
        yield name, *there, _change(sets)


def _cell(plan, row):
    """One pull in one week, in words."""
    if row is None:
        return "not in it"
    on = days_words([(other.weekday, other.sets) for other in plan.rows if other.name == row.name])
    low, high = row.repetitions
    side = " each side" if row.pull.hands == 1 else ""
    return f"{on}; {low}–{high}{side}; {grip_words(row)}"


def _change(sets):
    """What changes in the sets of one pull, in words."""
    if not sets[0]:
        return f"new, {more_words(sets[1])}"
    if not sets[1]:
        return f"gone, {more_words(-sets[0])}"
    return more_words(sets[1] - sets[0])


def _set_rows(first, second):
    """Counted sets of both weeks, a row for each muscle group and for all sets, days and pulls."""
    for group in COUNTED:
        yield (
            group,
            f"{first.sets[group]:g}",
            f"{second.sets[group]:g}",
            more_words(second.sets[group] - first.sets[group]),
        )
    every = [sum(row.sets for row in plan.rows) for plan in (first, second)]
    yield "all sets", f"{every[0]:g}", f"{every[1]:g}", more_words(every[1] - every[0])
    yield "days", ", ".join(first.weekdays), ", ".join(second.weekdays), more_words(second.days - first.days, "day")
