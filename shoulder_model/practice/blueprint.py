"""The blueprint of a mock exam: a small TOML file with its length and the share of each chapter or objective.

Everything in it is checked before it is used; what is wrong is said in one line. Nothing in it is run, and it names
no other file.
"""

import math
import re
from dataclasses import dataclass
from pathlib import Path

from ..given_file import path_of
from ..inputs import InputError, choice, echo
from ..toml_file import Wrong, file_text, is_number, tables
from .bank import templates
from .objectives import chapters, objectives

STANDARD = Path(__file__).parent / "mock_exam.toml"
LONGEST_TITLE, LONGEST_ERROR = 60, 300  # characters
MOST_ITEMS, MOST_MINUTES, LEAST_WEIGHT, LARGEST_WEIGHT = 200, 600, 0.001, 1000
KEYS = ("title", "minutes", "items", "chapters", "objectives")


@dataclass(frozen=True)
class Blueprint:
    """How a mock exam is made.

    Parameters
    ----------
    title : str
    minutes : float
        How long it takes. [min]
    items : int
        A whole number.
    shares : dict
        Number of a chapter, or id of an objective, in words of `objectives` -> its weight, without unit.
    """

    title: str
    minutes: float
    items: int
    shares: dict

    def counts(self):
        """How many items each chapter or objective gets, a dict of whole numbers, by the largest remainder.

        Each share is rounded down; what is left goes to the largest remainders, to the earlier of two that are equal.
        """
        weights = [weight / sum(self.shares.values()) for weight in self.shares.values()]
        exact = [self.items * weight for weight in weights]
        whole = [math.floor(share + 1e-9) for share in exact]
        order = sorted(range(len(exact)), key=lambda place: (-round(exact[place] - whole[place], 9), place))
        for place in order[: self.items - sum(whole)]:
            whole[place] += 1
        return dict(zip(self.shares, whole, strict=True))


def served_by(share):
    """Names of the templates of a ``share`` (number of a chapter or id of an objective), a tuple.

    A template belongs to its first objective and to that one's chapter, so no template belongs to two shares.
    """
    return tuple(name for name, one in templates().items() if share in (one.chapter, one.objectives[0]))


def read_blueprint(path=None):
    """A blueprint from a file.

    Parameters
    ----------
    path : path-like, optional
        Name of a TOML file; the one that comes with the package without it.

    Returns
    -------
    Blueprint

    Raises
    ------
    InputError
        One line: the file, where in it, what is wrong.
    """
    path = STANDARD if path is None else path_of(path)
    try:
        text = file_text(path)
    except Wrong as wrong:
        raise _said(path.name, wrong) from None
    return parse_blueprint(text, path.name)


def parse_blueprint(text, file="blueprint"):
    """A blueprint from its text.

    Parameters
    ----------
    text : str
        TOML.
    file : str
        What to call it where something is wrong.

    Returns
    -------
    Blueprint

    Raises
    ------
    InputError
        As `read_blueprint`.
    """
    try:
        table = tables(text.removeprefix("\ufeff"))
    except Wrong as wrong:
        raise _said(file, wrong) from None
    try:
        return _blueprint(table)
    except InputError as error:
        raise _wrong(file, str(error), error.field) from None


def _blueprint(table):
    for key in table:
        choice("key", key, KEYS)
    title = " ".join(table["title"].split()) if isinstance(table.get("title"), str) else ""
    if not title or len(title) > LONGEST_TITLE or not title.isprintable() or "/" in title:
        raise InputError("title", f'title: give a text of at most {LONGEST_TITLE} characters without "/"')
    minutes = _number(table, "minutes", 1, MOST_MINUTES)
    items = _number(table, "items", 1, MOST_ITEMS)
    if items != int(items):
        raise InputError("items", f"items = {items:g} is no whole number")
    return Blueprint(title, minutes, int(items), _shares(table))


def _shares(table):
    """The weights of all chapters and objectives."""
    found = {}
    for kind, known in (("chapters", chapters()), ("objectives", objectives())):
        weights = table.get(kind, {})
        if not isinstance(weights, dict):
            raise InputError(kind, f"{kind}: this is a table, [{kind}], with a weight for each line")
        for name in weights:
            choice(kind, name, tuple(known))
            if not served_by(name):
                raise InputError(kind, f"{kind}, {name}: there are no items for it; leave it out")
            found[name] = _number(weights, name, LEAST_WEIGHT, LARGEST_WEIGHT, f"{kind}, ")
    for name in found:
        number = name.partition(".")[0]
        if number != name and number in found:
            raise InputError("objectives", f"objectives, {name}: chapter {number} is given too; keep one of the two")
    if not found:
        raise InputError("chapters", "chapters: give at least one chapter or objective with its weight")
    return found


def _number(table, key, low, high, place=""):
    value = table.get(key)
    if not is_number(value) or not low <= value <= high:
        said = "is missing" if value is None else f"= {echo(value)} cannot be used"
        raise InputError(key, f"{place}{key} {said}; give a number from {low:g} to {high:g}")
    return float(value)


def _said(file, wrong):
    return _wrong(file, f"line {wrong.line}: {wrong.words}")


def _wrong(file, words, field="blueprint"):
    line = re.sub(r"[\s\x00-\x1f\x7f-\x9f]+", " ", f"{file}: {words}")
    return InputError(field, line[:LONGEST_ERROR])
