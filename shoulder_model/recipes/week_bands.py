"""Makes ``data/week_bands.csv``: ``python -m shoulder_model.recipes.week_bands`` (about a minute).

How far the band of each candidate's muscle shares reaches below and above its value, for the survey's mean man and
woman. Run it after a change of the muscle model or of ``week_pulls.csv``.
"""

from importlib.resources import files

from ..people import SEXES, Lifter
from ..repetition import muscle_shares
from ..tables import table_text
from ..week import GROUPS, candidates
from ..week.candidates import KIND

TARGET = files("shoulder_model").joinpath("data", "week_bands.csv")
HEADS = ("sex", "name", "group", "below", "above")


def band_rows(sex, candidate):
    """The table's rows for one ``sex`` and ``candidate`` (`week.Candidate`): sex, name, group, below, above, the last two as ratios."""
    shares = muscle_shares(Lifter.average(sex), candidate.pull, kind=KIND).of
    return [
        (sex, candidate.name, group, f"{share.value - share.low:.4f}", f"{share.high - share.value:.4f}")
        for group, share in ((group, shares[group]) for group in GROUPS)
    ]


def main():
    """Write the table with the note it has."""
    note = TARGET.read_text(encoding="utf-8").splitlines()[0]
    rows = [row for sex in SEXES for candidate in candidates() for row in band_rows(sex, candidate)]
    with open(str(TARGET), "w", encoding="utf-8", newline="") as file:
        file.write(f"{note}\n{table_text([HEADS, *rows])}")


if __name__ == "__main__":
    main()
