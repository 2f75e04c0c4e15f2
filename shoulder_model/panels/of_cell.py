"""What a cell shows, and what is given up when the cell is run again.

A widget lives until it is closed, whoever still needs it: ipywidgets keeps them all, and a notebook keeps what its cells
returned. So a panel that is shown in a cell closes what the run of that cell before had shown, with everything in it.

What goes on living is what can still be seen or asked for: what another cell shows, and what has a name in the notebook, itself
or inside a list, tuple, set, dict or other widget with a name. When that ends, the next cell that shows a panel closes it. A
page that gives no cell an id, such as a console, has nothing closed.
"""

import re

import ipywidgets as w
from IPython import get_ipython

HISTORY = re.compile(r"_+|_\d+|_[io]h|_i+\d*|In|Out")  # names that a notebook gives to what its cells returned
LONGEST = 1000  # what holds more is no list of panels
_shown = {}  # cell -> its last run, and what that has shown
_left = []  # not shown any more, but somebody had a name for it
_of_all = []  # widgets that many share


def of_all(widget):
    """The same ``widget``, which many others share: it is never closed."""
    _of_all.append(widget)
    return widget


class OfCell:
    """Beside a widget class, as its first base: shown in a cell, it takes the place of what the cell showed before."""

    def _repr_mimebundle_(self, **kwargs):
        shell = get_ipython()
        parent = shell.get_parent() if hasattr(shell, "get_parent") else {}
        cell = parent.get("metadata", {}).get("cellId")
        if cell:
            take_place(self, cell, parent["header"]["msg_id"], shell.user_ns, shell.user_ns_hidden)
        return super()._repr_mimebundle_(**kwargs)


def take_place(widget, cell, run, names, hidden=None):
    """Note what a cell shows, and close what it showed before.

    Parameters
    ----------
    widget : Widget
    cell, run : str
        Names of the cell and of this run of it.
    names : dict
        The notebook's names, those of its history among them; what is closed is taken out of the history.
    hidden : dict, optional
        Names that the notebook keeps a second time.
    """
    last, before = _shown.get(cell, ("", []))
    if last == run:
        before.append(widget)
        return
    _shown[cell] = run, [widget]
    gone = _give_up([*_left, *before], names)
    returned = names.get("_oh", {})
    for count in [count for count, value in returned.items() if id(value) in gone]:
        del returned[count]
        for some in (names, hidden or {}):
            some.pop(f"_{count}", None)


def _give_up(roots, names):
    """Close all parts of ``roots`` that nobody can see or ask for; those, by id."""
    seen = parts([one for _, some in _shown.values() for one in some])
    named = parts([value for name, value in names.items() if not HISTORY.fullmatch(name)])
    needed, held = seen | named | parts(_of_all), parts(roots)
    gone = {key: one for key, one in held.items() if key not in needed}
    _left[:] = [one for key, one in held.items() if isinstance(one, OfCell) and key in needed and key not in seen]
    for one in gone.values():
        one.close()
    return gone


def parts(held):
    """Every widget in ``held`` (a widget, or lists, tuples, sets and dicts of them), and all that each of those holds, by id."""
    found, looked_into, to_see = {}, set(), [held]
    while to_see:
        one = to_see.pop()
        if isinstance(one, w.Widget):
            found[id(one)], one = one, vars(one)
        if not isinstance(one, (dict, list, tuple, set, frozenset)) or len(one) > LONGEST or id(one) in looked_into:
            continue
        looked_into.add(id(one))
        to_see += one.values() if isinstance(one, dict) else one
    return found
