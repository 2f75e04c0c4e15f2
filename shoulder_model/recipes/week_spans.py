"""Makes ``data/week_spans.csv``: ``python -m shoulder_model.recipes.week_spans`` (a few minutes).

How far the muscle shares of each candidate reach over both balances, random bodies, the survey's mean man and woman, and
the strength of either. Run it after a change of the muscle model or of ``week_pulls.csv``.
"""

from functools import cache
from importlib.resources import files

from ..muscles import expected_strength
from ..people import SEXES, Lifter
from ..repetition import muscle_shares
from ..tables import data_text
from ..week.candidates import candidates
from ..week.groups import GROUPS, KIND

TARGET = files("shoulder_model").joinpath("data", "week_spans.csv")
HEADS = ("name", "group", "low", "high")
NOTE = (
    "# Span of the model's shares of the active muscle, 0 to 1 (D): over both balances, 40 random bodies, the survey's mean man "
    "and woman, and the strength of either. From shoulder_model.recipes.week_spans"
)


@cache
def shares_of(pull):
    """Shares of a ``pull`` (`mechanics.Pull`) for each mean person with each strength: a list of dicts group -> `repetition.Share`."""
    people = [Lifter.average(sex) for sex in SEXES]
    strengths = [expected_strength(lifter) for lifter in people]
    return [muscle_shares(lifter, pull, kind=KIND, strength=strength).of for lifter in people for strength in strengths]


def span_rows(candidate):
    """The table's rows for one ``candidate`` (`week.candidates.Candidate`): name, group, low and high, the last two as ratios."""
    found = shares_of(candidate.pull)
    return [
        (
            candidate.name,
            group,
            f"{min(of[group].low for of in found):.4f}",
            f"{max(of[group].high for of in found):.4f}",
        )
        for group in GROUPS
    ]


def main():
    """Write the table with its note."""
    rows = [row for candidate in candidates() for row in span_rows(candidate)]
    with open(str(TARGET), "w", encoding="utf-8", newline="") as file:
        file.write(f"{NOTE}\n{data_text([HEADS, *rows])}")


if __name__ == "__main__":
    main()
