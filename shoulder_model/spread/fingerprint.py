"""What a stored result was made with: a digest of the model's tables and code.

Results that are kept in a file carry it, so that nobody mixes two states of the model unnoticed.
"""

import ast
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
    """Sixteen letters, text, that change with the model's tables or code, not with its comments: rooms from `axes` to `spread`, and what they read."""
    digest = hashlib.sha256()
    for path in sorted(_files(), key=_place):
        digest.update(_place(path).encode() + b"\n")
        digest.update(_content(path))
    return digest.hexdigest()[:16]


def _place(path):
    return path.relative_to(HOME).as_posix()


def _content(path):
    """A table's bytes, or a module's lines without docstrings, comments of their own and blank lines: words change no number."""
    text = path.read_text(encoding="utf-8")
    if path.suffix != ".py":
        return text.encode()
    words = set()
    for node in ast.walk(ast.parse(text)):
        if (
            isinstance(node, (ast.Module, ast.ClassDef, ast.FunctionDef))
            and ast.get_docstring(node, clean=False) is not None
        ):
            words |= set(range(node.body[0].lineno, node.body[0].end_lineno + 1))
    lines = (line for number, line in enumerate(text.splitlines(), start=1) if number not in words)
    return "\n".join(line for line in lines if line.strip() and not line.lstrip().startswith("#")).encode()


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
