"""Makes ``data/outside_checks.csv`` and the README's short form of it: ``python -m shoulder_model.recipes.outside_checks``.

Runs the tests in ``tests/published`` of this checkout; each of them leaves what is printed and what the model gives. Needs
the test extra.
"""

import json
import os
import subprocess
import sys
import tempfile
from importlib.resources import files
from pathlib import Path

from ..checkout import HOME
from ..register import HEADS, OutsideCheck, short_form
from ..tables import data_text

TARGET = files("shoulder_model").joinpath("data", "outside_checks.csv")
README = HOME / "README.md"
ENDS = ("<!-- outside checks -->", "<!-- end of outside checks -->")


def rows_of_a_run():
    """What the published tests leave, rows of text as ``register.HEADS`` names them.

    Raises
    ------
    subprocess.CalledProcessError
        A test fails.
    """
    with tempfile.TemporaryDirectory() as folder:
        left = Path(folder) / "rows"
        checks = ["tests/published", "--ignore", "tests/published/test_outside_table.py"]
        run = [sys.executable, "-m", "pytest", *checks, "-q", "-p", "no:cacheprovider"]
        subprocess.run(run, cwd=HOME, env=os.environ | {"SHOULDER_MODEL_OUTSIDE_CHECKS": str(left)}, check=True)
        return [json.loads(line) for line in left.read_text(encoding="utf-8").splitlines()]


def with_short_form(text, checks):
    """The README's ``text`` with the short form of ``checks`` (sequence of `OutsideCheck`) between its two marks.

    >>> with_short_form("a <!-- outside checks --> b <!-- end of outside checks --> c", ()).split()[-2:]
    ['-->', 'c']
    """
    before, _, rest = text.partition(ENDS[0])
    return f"{before}{ENDS[0]}\n{short_form(checks)}\n{ENDS[1]}{rest.partition(ENDS[1])[2]}"


def main():
    """Run the tests, write the table, put its short form into the README."""
    rows = rows_of_a_run()
    TARGET.write_text(data_text([HEADS, *rows]), encoding="utf-8")
    checks = tuple(OutsideCheck(*row) for row in rows)
    README.write_text(with_short_form(README.read_text(encoding="utf-8"), checks), encoding="utf-8")
    print(f"{len(rows)} rows in {TARGET}")


if __name__ == "__main__":
    main()
