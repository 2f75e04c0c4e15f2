"""What a stored result was made with: a digest of the model's tables and code.

Results that are kept in a file carry it, so that nobody mixes two states of the model unnoticed.
"""

import hashlib
from functools import cache
from pathlib import Path

HOME = Path(__file__).parents[1]
ROOMS = (
    "axes.py",
    "blocks.py",
    "sources.py",
    "tables.py",
    "people",
    "mechanics",
    "muscles",
    "sharing",
    "repetition",
)
OF_SPREAD = ("uncertain.py", "drawn.py", "people.py", "answers.py", "matters.py")  # the others keep and show
NOT_THE_MODEL = ("outside_checks.csv", "objectives.csv", "slips.csv", "evidence.csv", "comparisons.csv", "stored_")


@cache
def fingerprint():
    """Sixteen letters, text, that change with the model's tables or code: rooms from `axes` to `spread`, and what they read."""
    digest = hashlib.sha256()
    for path in sorted(_files(), key=_place):
        digest.update(_place(path).encode() + b"\n")
        digest.update(path.read_bytes().replace(b"\r\n", b"\n"))
    return digest.hexdigest()[:16]


def _place(path):
    return path.relative_to(HOME).as_posix()


def _files():
    for room in ROOMS:
        found = [HOME / room] if room.endswith(".py") else (HOME / room).rglob("*.py")
        yield from (path for path in found if path.name != "__init__.py")
    yield from (HOME / "spread" / name for name in OF_SPREAD)
    for table in (HOME / "data").glob("*.csv"):
        if not table.name.startswith(NOT_THE_MODEL) and not table.name.startswith(
            ("week_", "health_", "marking_", "invented_")
        ):
            yield table
