"""Results as a table that a spreadsheet opens."""

import numpy as np

from ..inputs import checked_call, scalar
from ..tables import table_text
from ..words import listed
from .effect_size import CORRELATION
from .trials import ASSUMED, BAND, HELD_WORDS, some_trials

HEADS = (
    "citation", "people", "question", "muscle", "phase", "first", "second", "kind", "trial's own test points to", "untested",
    "as printed", "g",
)  # fmt: skip
MORE_HEADS = ("load", "scales", "also changed", "counts", "trained", "scaled to", "limits")


@checked_call
def comparison_rows(trials, correlation=ASSUMED):
    """The results as rows of a table: g and its interval at the correlation and at both ends of its band, else blanks.

    ``trials`` (`trials.Comparison`) and ``correlation``, which is assumed between conditions, else `InputError`; g in SD between people.
    """
    trials, correlation = some_trials(trials), scalar("correlation", correlation, CORRELATION)
    band = (correlation, *BAND)
    ends = [f"g {end} 95% at correlation {r:.2f}" for r in band for end in ("low", "high")]
    return [(*HEADS, *ends, *MORE_HEADS), *(_row(row, band) for row in trials)]


@checked_call
def comparison_table(trials, correlation=ASSUMED):
    """The rows of `comparison_rows` as CSV text; ``trials`` and ``correlation`` as there, g in SD between people."""
    return table_text(comparison_rows(trials, correlation))


def _row(row, band):
    numbers = [""] * 7
    if row.kind == "difference":
        numbers = [row.effect().value, *np.ravel([row.effect(r).interval for r in band])]
        numbers = [round(float(value), 4) for value in numbers]
    return (
        row.citation, row.who, row.question, row.muscle, row.phase, row.first, row.second, row.kind,
        row.higher or "not printed", row.untested, row.statement, *numbers, HELD_WORDS[row.held], row.scales,
        row.also_changed, f"no: {listed(row.doubts)}" if row.doubts else "yes", row.trained, row.normalised, row.flaws,
    )  # fmt: skip
