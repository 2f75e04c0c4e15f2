"""Makes ``data/stored_what_matters.csv``: ``python -m shoulder_model.recipes.what_matters`` (about ten minutes on two cores).

Which uncertain input moves the answers of a pull how much, for men and women of whom no measure is known. Run it after a
change of the model; a test says when it is due.
"""

from importlib.resources import files
from os import cpu_count

import numpy as np

from ..mechanics import pulls
from ..people import SEXES, Crowd
from ..spread import what_matters
from ..spread.fingerprint import fingerprint
from ..spread.stored import MADE_WITH, NUMBERS, OF_ANSWER, TABLE
from ..tables import data_text

TARGET = files("shoulder_model").joinpath("data", TABLE)
PULLS = ("front pulldown", "seated row wide")
ANSWERS = ("lat_share", "mid_back_share", "whole_rep_load_kg", "most_shoulder_torque", "best_grip_by_whole_rep_load_kg")
GRIPS = np.linspace(1.0, 2.0, 6)
CASES, SEED, POINTS = 256, 8, 11
HEADS = ("sex", "pull", "answer", "unit", *OF_ANSWER, "input", *NUMBERS)
NOTES = (
    f"# First and total variance-based indices of uncertain inputs, with 90 % intervals, and what the answer is (D): {CASES} cases, "
    f"{POINTS} points a rep. From shoulder_model.recipes.what_matters",
    f"# {MADE_WITH}",
)


def rows_of(sex, name):
    """The table's rows for one ``sex`` and the pull called ``name`` (texts): texts, in the units of the answers."""
    asked = {"answers": ANSWERS, "grip_ratio": GRIPS, "n": CASES, "seed": SEED, "points": POINTS}
    found = what_matters(Crowd(1, sex, SEED), pulls[name], workers=cpu_count() or 1, **asked)
    for answer in ANSWERS:
        of = found.sel(answer=answer)
        head = (sex, name, answer, str(of.unit.values), *(f"{float(of[one]):.5g}" for one in OF_ANSWER))
        for one in found.input.values:
            at = of.sel(input=one)
            numbers = (value for kind in ("first", "total") for value in (at[kind], *at[f"{kind}_band"]))
            yield (*head, str(one), *(f"{float(value):.4f}" for value in numbers))


def main():
    """Write the table with its notes."""
    rows = [row for sex in SEXES for name in PULLS for row in rows_of(sex, name)]
    with open(str(TARGET), "w", encoding="utf-8", newline="") as file:
        notes = "\n".join(NOTES) + fingerprint()
        file.write(f"{notes}\n{data_text([HEADS, *rows])}")


if __name__ == "__main__":
    main()
