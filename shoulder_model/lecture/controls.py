"""Controls of the panels by the words on them, and a live panel as a step of a run sheet wants it.

A run sheet names a control as the panel does, without its unit ("Grip" for "Grip [× shoulders]"), and gives its value in the
panel's own unit.
"""

from dataclasses import dataclass
from functools import cache, lru_cache

import ipywidgets as w

from ..inputs import Allowed, InputError, choice, number
from ..mechanics import pulls
from ..panels import (
    EvidencePanel,
    GirdlePanel,
    GripPanel,
    LatPanel,
    MyLifterPanel,
    OneArmPanel,
    RatioPanel,
    TrunkPanel,
    WorkPanel,
)
from ..panels.panel import OptionalNumber
from ..panels.pull_panel import PullPanel
from ..panels.slider import Slider

PANELS = {
    "grip": GripPanel,
    "trunk": TrunkPanel,
    "one arm": OneArmPanel,
    "lat": LatPanel,
    "girdle": GirdlePanel,
    "work": WorkPanel,
    "ratio": RatioPanel,
    "evidence": EvidencePanel,
    "my lifter": MyLifterPanel,
}
PULLED = tuple(kind for kind, panel in PANELS.items() if issubclass(panel, PullPanel))  # they take a pull and a lifter
BRING_THEIR_OWN = ("Pull", "Question")  # another one of these resets other controls, so they are set first
BOX = 1e6  # a number box takes what the model takes; this keeps out what is no measure of anything


@dataclass(frozen=True)
class PanelOf:
    """A live panel that a step shows.

    ``kind`` (str) is a key of `PANELS`, ``pull`` (str) the catalogue's name or empty. ``start`` and ``then`` are the controls'
    values by their words, in the panel's units (dict); ``keep`` says whether the start stays as the grey outline. ``sliders``
    are names of one more slider in sight (tuple). ``saved`` is the text of a set-up that a panel saved, or empty.
    """

    kind: str
    pull: str = ""
    start: dict = None
    keep: bool = False
    then: dict = None
    sliders: tuple = ()
    saved: str = ""


@dataclass(frozen=True)
class Takes:
    """What a control takes: one of ``choices``, or a number from ``low`` to ``high`` in ``unit``, or true and false.

    ``words`` (str) are those on the panel, with the unit. ``choices`` is a tuple of str, empty where there are none; ``low``
    and ``high`` are None for a switch and for a choice. ``slider`` says whether it is one.
    """

    words: str
    unit: str = ""
    choices: tuple = ()
    low: float | None = None
    high: float | None = None
    slider: bool = False

    def checked(self, name, value):
        """The ``value`` of a run sheet for the control ``name`` (str); raises `InputError` with what it takes, in its unit."""
        if self.choices:
            return choice(name, value, self.choices)
        if self.low is None:
            if not isinstance(value, bool):
                raise InputError(name, f"{name} is true or false, without quotes")
            return value
        unit = f" {self.unit}" if self.unit else ""
        if isinstance(value, bool) or not isinstance(value, (int, float)):
            raise InputError(name, f"{name} takes a number without quotes, {self.low:g} to {self.high:g}{unit}")
        try:
            return number(name, float(value), Allowed(self.low, self.high, self.unit, "the panel's control ends there"))
        except OverflowError:
            raise InputError(name, f"{name} takes a number, {self.low:g} to {self.high:g}{unit}") from None


def words_of(control):
    """Words on a ``control`` (a widget) without its unit, and the unit: two texts."""
    name, _, unit = control.description.removesuffix("]").partition(" [")
    return name, unit or getattr(control, "unit", "")


def controls(panel):
    """The sliders, drop-downs, number boxes and tick boxes of a ``panel``, by their words without the unit (dict); not how it saves."""
    found = {}

    def walk(widget):
        if widget is not panel.decimal and isinstance(widget, (Slider, w.Dropdown, OptionalNumber, w.Checkbox)):
            found[words_of(widget)[0]] = widget
        for child in getattr(widget, "children", ()):
            walk(child)

    walk(panel)
    return found


@cache
def _sample(kind):
    """A panel of this kind that nobody sees, and its set-up as it was made."""
    panel = PANELS[kind]()
    return panel, panel.setup(panel.state)


@cache
def known_controls(kind):
    """What each control of a panel takes: words without the unit -> `Takes`, a dict; ``kind`` is a name in `PANELS`."""
    panel = _sample(kind)[0]
    known = {name: _takes(control) for name, control in controls(panel).items()}
    if kind == "evidence":  # its muscles are those of the question; which ones go together is seen when they are set
        known["Muscle"] = Takes("Muscle", choices=tuple(dict.fromkeys(row.muscle for row in panel.trials)))
    return known


def _takes(control):
    name, unit = words_of(control)
    words = f"{name} [{unit}]" if unit else name
    if isinstance(control, w.Dropdown):
        return Takes(words, choices=tuple(control.options))
    if isinstance(control, w.Checkbox):
        return Takes(words)
    if isinstance(control, Slider):
        return Takes(words, unit, low=control.min, high=control.max, slider=True)
    return Takes(words, unit, low=0.0, high=BOX)


def put(panel, values):
    """Set several controls of a ``panel``, with one redraw.

    Parameters
    ----------
    panel : panels.panel.Panel
    values : dict
        Words without the unit -> value in the panel's unit. A number is rounded to the slider's step.

    Raises
    ------
    InputError
        A control that the panel does not have, a value that it does not take, a set-up that the model refuses.
    """
    _put(panel, values)
    panel.update()
    _settled(panel)


def _put(panel, values):
    """The same without the redraw."""
    found = controls(panel)
    checked = {choice("control", name, tuple(found)): value for name, value in values.items()}
    with panel.quiet():
        for name in sorted(checked, key=lambda name: name not in BRING_THEIR_OWN):
            _set(panel, found[name], _takes(found[name]).checked(name, checked[name]))


def _set(panel, control, value):
    """One control to a checked value, as if a hand had set it."""
    if isinstance(control, Slider):
        control.value = round(round(value / control.step) * control.step, control.digits)
    elif isinstance(control, OptionalNumber):
        control.put(value / control.per_si)
    else:
        control.value = value
        if isinstance(panel, PullPanel) and control is panel.pull_choice:
            panel.base = pulls[value]
            panel.put_pull(panel.base)


def _settled(panel):
    """Raise what the panel says in its trouble line."""
    trouble = panel.picture.said.get("trouble")
    if trouble:
        raise InputError("panel", trouble)


def make_panel(set_up, lifter=None):
    """A live panel as a step wants it: at its start, kept, moved on, with its extra slider in sight.

    Parameters
    ----------
    set_up : PanelOf
    lifter : dict, optional
        ``sex`` and the measures of the person on the panel, by the names of `Lifter`; other entries are not used. [m], [kg]

    Raises
    ------
    InputError
        As `put`.
    """
    panel = _made(set_up, _person(lifter))
    if set_up.saved:
        panel.open_text(set_up.saved)
        _settled(panel)
    put(panel, set_up.start or {})
    for control in controls(panel).values():
        if isinstance(control, Slider):
            control.start = control.value
    if set_up.keep:
        panel.keep()
    if set_up.then:
        put(panel, set_up.then)
    if set_up.sliders and hasattr(panel, "show_sliders"):
        panel.show_sliders([known_controls(set_up.kind)[name].words for name in set_up.sliders])
    return panel


def _person(lifter):
    """Sex and measures of a run sheet's lifter, as a panel takes them."""
    return {name: value for name, value in (lifter or {}).items() if name != "name"}


def _made(set_up, person):
    made = PANELS[set_up.kind]
    if set_up.kind in PULLED:
        return made(set_up.pull or None, **person)
    return made(person.get("sex", "men")) if made in (OneArmPanel, RatioPanel) else made()


def refusal(set_up, lifter=None):
    """What is wrong with a panel of a run sheet, in words; empty where it can be shown.

    Tried on a panel that nobody sees, without drawing anything.

    Parameters
    ----------
    set_up : PanelOf
    lifter : dict, optional
        As for `make_panel`. [m], [kg]

    Returns
    -------
    tuple of str
        Where it is wrong ("saved", "start", "then") and the words; both empty where nothing is.
    """
    person = tuple(_person(lifter).items())
    start, then = (tuple((part or {}).items()) for part in (set_up.start, set_up.then))
    return _refusal(set_up.kind, set_up.pull, start, then, set_up.saved, person)


@lru_cache(maxsize=1024)
def _refusal(kind, pull, start, then, saved, person):
    panel, as_made = _sample(kind)
    person = dict(person)
    with panel.quiet():
        panel.apply(as_made)
        if kind in PULLED:
            panel.sex.value = person.pop("sex", panel.sex.value)
            panel.measures.put(person)
        try:
            if saved:
                panel.apply(saved)
                panel.read()
        except InputError as error:
            return "saved", str(error)
        pulled = {"Pull": pull} if pull else {}
        for where, values in (("start", pulled | dict(start)), ("then", dict(then))):
            try:
                _put(panel, values)
                panel.read()
            except InputError as error:
                return where, str(error)
    return "", ""
