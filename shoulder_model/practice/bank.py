"""All templates of items, by name, and the making of an item from a template and a seed.

A template is a function in ``items/`` that draws its numbers from a `chance.Chance` and gives an `item.Item`. Numbers that would
let a slip pass for the key are drawn again.
"""

from collections.abc import Callable
from dataclasses import dataclass, replace
from importlib import import_module
from pkgutil import iter_modules

from ..inputs import choice
from .chance import Chance
from .item import troubles
from .objectives import objectives

TRIES = 200  # draws before a template counts as broken
_TEMPLATES = {}


@dataclass(frozen=True)
class Template:
    """One kind of question.

    Parameters
    ----------
    name : str
    objectives : tuple of str
        Ids, see `objectives`; the first is the one it serves most.
    section : str
        Where to read again, as "3.3".
    model : bool
        Whether the model computes its answer.
    make : callable
        Takes a `chance.Chance`, gives an `item.Item`.
    """

    name: str
    objectives: tuple
    section: str
    model: bool
    make: Callable

    @property
    def chapter(self):
        """The number of the chapter of its first objective, text."""
        return self.objectives[0].partition(".")[0]


def template(*ids, section, model=True):
    """A decorator that puts a function among the templates, under its name in words.

    Parameters
    ----------
    ids : str
        Objectives.
    section : str
        Where to read again.
    model : bool
        Whether the model computes the answer.
    """

    def put(function):
        name = function.__name__.replace("_", " ")
        if name in _TEMPLATES:
            raise ValueError(f"two templates are called {name!r}")
        _TEMPLATES[name] = Template(
            name, tuple(choice("objective", one, tuple(objectives())) for one in ids), section, model, function
        )
        return function

    return put


def templates():
    """All templates: a dict from name to `Template`, chapter by chapter."""
    package = import_module(".items", __package__)
    for module in sorted(iter_modules(package.__path__), key=lambda module: module.name):
        import_module(f"{package.__name__}.{module.name}")
    return dict(sorted(_TEMPLATES.items(), key=lambda pair: tuple(objectives()).index(pair[1].objectives[0])))


def make(name, seed):
    """The item of a template with the numbers of a seed.

    Parameters
    ----------
    name : str
        Of the template.
    seed : str
        The same seed gives the same numbers everywhere.

    Raises
    ------
    InputError
        A name that there is not, with the nearest.
    RuntimeError
        The template finds no numbers that keep key and slips apart.
    """
    known = templates()
    function = known[choice("item", name, tuple(known))].make
    for attempt in range(TRIES):
        item = function(Chance(f"{name}/{seed}/{attempt}"))
        if not troubles(item):
            return replace(item, template=name, seed=str(seed))
    raise RuntimeError(f"{name}: no numbers in {TRIES} draws, the last: {'; '.join(troubles(item))}")
