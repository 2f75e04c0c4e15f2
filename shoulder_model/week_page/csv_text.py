"""The week as rows of a table, one for each pull on each day."""

import numpy as np

from ..inputs import InputError
from ..tables import table_text
from ..training.dose import starts
from ..week.health import NoWeek
from ..week.plan import Plan
from ..week.words import grip_words, touch_words, turn_words

CSV_HEADS = (
    "day", "weekday", "pull", "grip", "hands", "elbows", "trunk lean [deg]", "touch point", "sets", "repetitions low",
    "repetitions high", "first load low [kg]", "first load high [kg]", "first load", "why",
)  # fmt: skip


def page_rows(answer):
    """The week as rows of cells, text or numbers in the units of their heads; of a `week.health.NoWeek` the lines that say why there is none.

    Parameters
    ----------
    answer : plan.Plan or health.NoWeek

    Raises
    ------
    InputError
        It is neither; two weeks have no table.
    """
    if isinstance(answer, NoWeek):
        return [["no week"], *([line] for line in answer.lines)]
    if not isinstance(answer, Plan):
        raise InputError("answer", "answer: give what plan_week returned, one week")
    started = starts(answer)
    return [CSV_HEADS, *(_cells(row, started[row.name].load) for row in answer.rows)]


def page_csv(answer):
    """The rows of `page_rows` of an ``answer`` (plan.Plan or health.NoWeek) as CSV text."""
    return table_text(page_rows(answer))


def _cells(row, load):
    pull, (low, high) = row.pull, row.repetitions
    lean = f"{np.degrees(pull.trunk_lean):.0f}"
    return (
        row.day, row.weekday, row.name, grip_words(row), turn_words(pull), row.candidate.cue, float(lean),
        touch_words(row.candidate), row.sets, low, high, _kg(load.low_kg), _kg(load.high_kg), load.words, row.why,
    )  # fmt: skip


def _kg(load):
    return "" if load is None else load
