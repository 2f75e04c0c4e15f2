"""Makes shoulder_model/data/session_bands.csv: ``python tests/make_session_bands.py`` (about 20 seconds).

How far the band of each candidate's muscle shares reaches below and above its value, for the survey's mean
man and woman. Run it after a change of the muscle model or of session_pulls.csv; a test works a few rows out
again.
"""

import csv
import io
from pathlib import Path

from shoulder_model import Lifter
from shoulder_model.session_pulls import candidates
from shoulder_model.shares import work_shares

HERE = Path(__file__).parents[1] / "shoulder_model" / "data" / "session_bands.csv"
NOTE = "# Band of the muscle model's shares about their value, share of the muscular work (D): from tests/make_session_bands.py"


def band_rows(sex, candidate):
    """The table's rows for one candidate: sex, name, group, below, above."""
    shares = work_shares(Lifter.average(sex), candidate.pull)
    return [
        [sex, candidate.name, group, f"{one.value - one.low:.4f}", f"{one.high - one.value:.4f}"]
        for group, one in shares.items()
    ]


if __name__ == "__main__":
    store = io.StringIO()
    writer = csv.writer(store, lineterminator="\n")
    writer.writerow(["sex", "name", "group", "below", "above"])
    for sex in ("men", "women"):
        for candidate in candidates():
            writer.writerows(band_rows(sex, candidate))
    HERE.write_text(f"{NOTE}\n{store.getvalue()}", encoding="utf-8")
