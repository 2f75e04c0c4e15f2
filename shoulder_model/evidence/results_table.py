"""Results as a table that a spreadsheet opens."""

import numpy as np

from ..tables import inert, table_text
from ..words import listed
from .trials import ASSUMED, BAND, HELD_WORDS

HEADS = (
    "citation", "people", "question", "muscle", "phase", "first", "second", "kind", "trial's own test points to", "untested",
    "as printed", "g",
)  # fmt: skip
MORE_HEADS = ("load", "scales", "also changed", "counts", "trained", "scaled to", "limits")


def comparison_table(trials, correlation=ASSUMED):
    """The results as CSV text: g and its interval at the correlation and at both ends of its band, else blanks.

    ``trials`` (`trials.Comparison`) and ``correlation``, which is assumed between conditions; g in SD between people.
    """
    band = (correlation, *BAND)
    ends = [f"g {end} 95% at correlation {r:.2f}" for r in band for end in ("low", "high")]
    return table_text([(*HEADS, *ends, *MORE_HEADS), *(_row(row, band) for row in trials)])


def _row(row, band):
    numbers = [""] * 7
    if row.kind == "difference":
        numbers = [row.effect().value, *np.ravel([row.effect(r).interval for r in band])]
        numbers = [round(float(value), 4) for value in numbers]
    cells = (
        row.citation, row.who, row.question, row.muscle, row.phase, row.first, row.second, row.kind,
        row.higher or "not printed", row.untested, row.statement, *numbers, HELD_WORDS[row.held], row.scales,
        row.also_changed, f"no: {listed(row.doubts)}" if row.doubts else "yes", row.trained, row.normalised, row.flaws,
    )  # fmt: skip
    return [inert(cell) for cell in cells]
