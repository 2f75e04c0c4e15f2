"""Walks the states of a real panel, and keeps what it shows and says in each, for a wide page and for a narrow one."""

import os
from dataclasses import dataclass
from functools import lru_cache, partial

import numpy as np

from ..inputs import InputError
from ..processes import processes
from .grids import Grid
from .packing import Table

LAYOUTS = ("wide", "narrow")
LINES = ("verdict", "small", "trouble", "words", "set_up")  # what is said in a state
WORDS = "words"
PROCESSES, WORTH_TWO = 2, 300  # states from which a second process is worth its start
PIECES, LEAST = 24, 40  # of the walk, with progress after each; states in one
APART = " "  # between an element's number and the name of its attribute


@dataclass(frozen=True)
class Still:
    """What never changes in one layout: ``frame`` (SVG text), ``layer`` (list of dict, as the page builds it), ``size`` [points]."""

    frame: str
    layer: list
    size: tuple


@dataclass
class Record:
    """All states of a grid.

    ``grid`` (`grids.Grid`); ``stills`` (dict): layout -> `Still`; ``tables`` (dict): layout, and "words", -> `packing.Table`
    with a row a state. A state that the panel refuses has the trouble line and nothing else.
    """

    grid: Grid
    stills: dict
    tables: dict


def record(set_up, *, finer=False, processes=PROCESSES, progress=None):
    """Record a panel.

    Parameters
    ----------
    set_up : set_up.SetUp
        How it stands at the start.
    finer : bool
        On the finer grid.
    processes : int
        At most so many, a whole number.
    progress : callable, optional
        Called with how many states are done, and of how many: two whole numbers.

    Returns
    -------
    Record
        All of it, in tables of text.

    Raises
    ------
    inputs.InputError
        A set-up that the panel refuses, or one that has changed what does not move in its picture.
    """
    walker = Walker(set_up, finer)
    grid, tables = walker.grid, {name: Table() for name in (*LAYOUTS, WORDS)}
    done = 0
    for piece, rows in _walked(walker, _pieces(grid), processes if grid.size >= WORTH_TWO else 1):
        for name, table in piece.items():
            tables[name].join(table)
        done += rows
        if progress:
            progress(done, grid.size)
    rows = np.argsort(grid.walk)
    return Record(grid, walker.stills, {name: table.in_order(rows) for name, table in tables.items()})


def _pieces(grid):
    """The walk in pieces, each with whole turns of the innermost control."""
    turns = grid.walk.reshape(-1, grid.inner)
    return [piece.ravel() for piece in np.array_split(turns, min(PIECES, len(turns), 1 + grid.size // LEAST))]


def _walked(walker, pieces, workers):
    """Tables and number of rows of each piece, in order."""
    if min(workers, os.cpu_count() or 1) < 2:
        for piece in pieces:
            yield walker.walk(piece), len(piece)
        return
    with processes(workers) as pool:
        some = pool.map(partial(_walk, walker.set_up, walker.grid.finer), pieces)
        yield from zip(some, map(len, pieces), strict=True)


@lru_cache(maxsize=1)
def _walker(set_up, finer):
    """One for a whole process."""
    return Walker(set_up, finer)


def _walk(set_up, finer, piece):
    return _walker(set_up, finer).walk(piece)


class Walker:
    """A panel twice, drawn for a wide page and for a narrow one, taken from state to state.

    Parameters
    ----------
    set_up : set_up.SetUp
    finer : bool
        On the finer grid.
    """

    def __init__(self, set_up, finer=False):
        self.set_up = set_up
        self.panels = {layout: set_up.panel(layout == "narrow") for layout in LAYOUTS}
        self.grid = Grid(set_up.kind, self.panels["wide"], finer)
        self.stills = self._stills()

    def _stills(self):
        return {
            layout: Still(panel.stage.frame(), panel.stage.layer(), (panel.stage.width, panel.stage.height))
            for layout, panel in self.panels.items()
        }

    def walk(self, numbers):
        """Tables, a dict of names -> `packing.Table`, of the states with these ``numbers`` (whole ones, in order)."""
        tables = {name: Table() for name in (*LAYOUTS, WORDS)}
        for number in numbers:
            for name, texts in self.state(number).items():
                tables[name].add(texts)
        if self._stills() != self.stills:
            raise InputError("panel", f"the still layer of the {self.set_up.kind} panel moves: it cannot be recorded")
        return tables

    def state(self, number):
        """What is seen and said in the state with this ``number`` (a whole one): a dict of names -> texts by key."""
        wide, narrow = (self.panels[layout] for layout in LAYOUTS)
        self.grid.put(number, wide, narrow)
        wide.update()
        trouble = wide.picture.said["trouble"]
        if trouble:
            return {"wide": {}, "narrow": {}, WORDS: {"trouble": trouble}}
        narrow.state = wide.state
        narrow.draw(narrow.state)
        said = wide.picture.said | {"set_up": wide.set_up(wide.state)}
        seen = {layout: _texts(panel.stage.attributes()) for layout, panel in self.panels.items()}
        return seen | {WORDS: {line: said[line] for line in LINES}}


def _texts(attributes):
    """Attributes of all elements as texts by element and name."""
    return {
        f"{place}{APART}{name}": page_text(value)
        for place, one in enumerate(attributes)
        for name, value in one.items()
        if value is not None
    }


def page_text(value):
    """A ``value`` (str or number without unit) as a page writes it into an attribute: a text.

    >>> page_text(12.0), page_text(1.5), page_text("bold")
    ('12', '1.5', 'bold')
    """
    return value if isinstance(value, str) else str(value).removesuffix(".0")
