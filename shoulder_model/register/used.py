"""Where a number is used: found in the code of the package and of the chapters, never typed.

A row of ``facts.csv`` is used where its name stands as text in the code (``fact("…")``, ``constant("…")``), a rule also where
it is asked for by its name (``rules.load_step_high``), and a table where it is read (``read_table("…")``). A name that is put
together from parts counts where a part in braces may be anything.
"""

import ast
import json
import re
from functools import cache
from pathlib import Path

from ..checkout import HOME, NoWorkbook, chapter_path, chapters
from ..inputs import InputError
from ..tables import read_table

PACKAGE = Path(__file__).parents[1]
BY_NAME = ("facts.csv",)
BY_ATTRIBUTE = {"week_rules.csv": ("week", "training", "week_page"), "marking_rules.csv": ("homework",)}
BODY_SHARES = "pulls.csv"  # names a row of facts.csv
NOT_SEARCHED = ("register",)
CALLS = {"fact": "facts", "constant": "facts", "read_table": "tables"}
SIGNS = ("fact(", "constant(", ".csv", "rules")  # code without any of them names no number
FEWEST = 6  # letters that a pattern has to know


@cache
def _sources():
    """Code by place: modules as paths in the package, checks against the outside, chapters by their names."""
    found = {
        path.relative_to(PACKAGE).as_posix(): path.read_text(encoding="utf-8")
        for path in sorted(PACKAGE.rglob("*.py"))
        if path.relative_to(PACKAGE).parts[0] not in NOT_SEARCHED
    }
    checks = sorted((HOME / "tests" / "published").glob("test_*.py"))
    found |= {f"tests/published/{path.name}": path.read_text(encoding="utf-8") for path in checks}
    try:
        names = chapters()
    except NoWorkbook:
        names = []
    for name in names:
        cells = json.loads(chapter_path(HOME, name).read_text(encoding="utf-8"))["cells"]
        found[name] = "\n".join("".join(cell["source"]) for cell in cells if cell["cell_type"] == "code")
    return {place: text for place, text in found.items() if any(sign in text for sign in SIGNS)}


def names_in(text):
    """What a code's ``text`` names: texts that stand in it, patterns (kind, text) of texts put together in a call, attributes; three sets."""
    texts, patterns, attributes = set(), set(), set()
    for node in ast.walk(ast.parse(text)):
        if isinstance(node, ast.Constant) and isinstance(node.value, str):
            texts.add(node.value)
        elif isinstance(node, ast.Attribute):
            attributes.add(node.attr)
        elif isinstance(node, ast.Call):
            kind = CALLS.get(getattr(node.func, "attr", getattr(node.func, "id", "")))
            joined = [part for part in node.args if isinstance(part, ast.JoinedStr)] if kind else ()
            patterns |= {(kind, _pattern(part)) for part in joined if _known(part) >= FEWEST}
    return texts, patterns, attributes


def _known(joined):
    """How many letters of a text put together are known."""
    return sum(len(part.value) for part in joined.values if isinstance(part, ast.Constant))


def _pattern(joined):
    """A text put together, as a pattern."""
    parts = (re.escape(part.value) if isinstance(part, ast.Constant) else ".+" for part in joined.values)
    return "".join(parts)


@cache
def _names():
    return {place: names_in(text) for place, text in _sources().items()}


@cache
def uses(file, name=""):
    """Places that use a row of a table: a tuple of modules and chapters.

    Parameters
    ----------
    file : str
        Of ``data/``.
    name : str
        Of the row, where rows are asked for one by one.

    Raises
    ------
    InputError
        A row of a table of single numbers without a name.
    """
    if file in BY_NAME and not name:
        raise InputError("name", f"name: a row of {file} is asked for by its name")
    wanted = name if file in BY_NAME or file in BY_ATTRIBUTE else file
    tables = (BODY_SHARES,) if file in BY_NAME and name in _body_shares() else ()
    return (*tables, *(place for place in _names() if _has(place, file, wanted)))


@cache
def _body_shares():
    """Facts that a pull of the catalogue names."""
    return {row["body_share"] for row in read_table(BODY_SHARES)}


def _has(place, file, wanted):
    texts, patterns, attributes = _names()[place]
    kind = "facts" if file in BY_NAME else "tables"
    if wanted in texts or any(re.fullmatch(text, wanted) for of, text in patterns if of == kind):
        return True
    rooms = BY_ATTRIBUTE.get(file, ())
    return wanted in attributes and place.partition("/")[0] in rooms
