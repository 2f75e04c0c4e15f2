"""What a class is given: a title, a seed, some templates, the students; each student's items have numbers of their own.

The same seed, templates and student give the same items on every machine, whoever else is in the class.
"""

import re
from dataclasses import dataclass
from hashlib import sha256

from ..inputs import InputError, choice
from ..practice.bank import make, templates
from ..practice.chance import Chance
from ..practice.objectives import chapters, objectives
from ..printed import plain
from ..words import counted
from .class_list import Student

TITLE = "Homework"
MOST_ITEMS, LONGEST_TITLE, LONGEST_SEED = 40, 80, 40  # letters
SIGNS = "23456789ABCDEFGHJKMNPQRSTVWXYZ"  # without those that look alike
SHORTEST_SHEET_ID = 6  # signs


@dataclass(frozen=True)
class Assignment:
    """One homework.

    Parameters
    ----------
    title, seed : str
    names : tuple of str
        Of the templates, a question each, in the order of the sheet.
    students : tuple of class_list.Student
    """

    title: str
    seed: str
    names: tuple[str, ...]
    students: tuple[Student, ...]

    def items(self, student):
        """The items of one ``student`` (`class_list.Student`), a tuple of `practice.item.Item`, each under the name
        of a template.
        """
        return tuple(make(name, f"{self.seed}/{student.key}") for name in self.names)

    @property
    def sheet_ids(self):
        """What the sheets are called, a tuple of text, as short as keeps them apart."""
        whole = [_signs(f"{self.seed}/{student.key}") for student in self.students]
        return next(short for short in _shortened(whole) if len(set(short)) == len(whole))


def _signs(text):
    """A number that hangs on a text, in signs that nobody mixes up."""
    number, signs = int.from_bytes(sha256(text.encode("utf-8", "surrogatepass")).digest()), ""
    while number:
        number, place = divmod(number, len(SIGNS))
        signs += SIGNS[place]
    return signs


def _shortened(whole):
    for length in range(SHORTEST_SHEET_ID, max(map(len, whole)) + 1):
        yield tuple(signs[:length] for signs in whole)


def assign(students, *, seed, title=TITLE, names=(), in_chapters=(), in_objectives=(), count=None):
    """An `Assignment` for some students.

    Parameters
    ----------
    students : sequence of class_list.Student
    seed, title : str
        At most 40 and 80 letters.
    names : sequence of str
        Of templates that are in it.
    in_chapters : sequence of str
        Numbers, as "03" or "3": all their templates.
    in_objectives : sequence of str
        Ids: all their templates.
    count : int, optional
        So many templates, drawn by the seed so that every objective has its share; those of ``names`` are always in
        it. With nothing but a count they come from all chapters.

    Raises
    ------
    InputError
        A name that there is not, too few or too many templates, a text that is too long.
    """
    seed, title = _text("seed", str(seed), LONGEST_SEED), _text("title", title, LONGEST_TITLE)
    known = templates()
    named = [choice("item", name.strip().lower(), tuple(known)) for name in dict.fromkeys(names)]
    others = [name for name in _served(known, in_chapters, in_objectives) if name not in named]
    if not (names or in_chapters or in_objectives):
        others = list(known) if count is not None else []
    chosen = {*named, *_drawn(others, known, seed, None if count is None else count - len(named))}
    if not 1 <= len(chosen) <= MOST_ITEMS:
        told = f"{counted(len(chosen), 'question')} chosen, 1 to {MOST_ITEMS} fit on a sheet"
        raise InputError("items", f"items: {told}; say which chapters, objectives or names, or how many")
    return Assignment(title, seed, tuple(name for name in known if name in chosen), tuple(students))


def _text(field, text, most):
    """A title or a seed that can be printed."""
    text = plain(text)
    if not 1 <= len(text) <= most:
        raise InputError(field, f"{field}: give a text of 1 to {most} letters")
    return text


def _served(known, in_chapters, in_objectives):
    """Names of the templates of chapters and objectives, in the order of the chapters."""
    asked = [one for number in in_chapters for one in re.split(r"[,; ]+", str(number).strip().lower()) if one]
    numbers = [choice("chapter", one.zfill(2), tuple(chapters())) for one in asked]
    ids = [choice("objective", one, tuple(objectives())) for one in in_objectives]
    return [name for name, one in known.items() if one.chapter in numbers or set(one.objectives) & set(ids)]


def _drawn(names, known, seed, count):
    """So many of some names; the objectives take turns, so that none has all."""
    if count is None:
        return names
    if not 0 <= count <= len(names):
        there = f"there are {len(names)} to choose from" if count > 0 else "more than that are named already"
        raise InputError("items", f"items: that number does not work, {there}; change it, or name more chapters")
    chance, by_objective = Chance(f"{seed}/choice"), {}
    for name in chance.shuffled(names):
        by_objective.setdefault(known[name].objectives[0], []).append(name)
    turns = [(turn, place, name) for place, some in enumerate(by_objective.values()) for turn, name in enumerate(some)]
    return [name for _, _, name in sorted(turns)[:count]]
