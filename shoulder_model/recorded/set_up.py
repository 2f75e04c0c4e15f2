"""A panel's set-up as text, so that the same panel can be made again, in another process too."""

from dataclasses import dataclass

from ipywidgets import Checkbox

from ..inputs import InputError
from ..panels.panel import OptionalNumber, Panel
from ..panels.slider import Slider
from ..words import written
from .grids import KINDS, kind_of


@dataclass(frozen=True)
class SetUp:
    """How a panel stands.

    Parameters
    ----------
    kind : str
        Among `KINDS`.
    content : str
        What the panel saves, JSON.
    kept : str
        The same of what it keeps in grey, or empty.
    """

    kind: str
    content: str
    kept: str = ""

    @classmethod
    def of(cls, panel):
        """That of ``panel`` (`panels.panel.Panel`), a `SetUp`; raises `InputError` where the panel refuses what is set (text of the refusal)."""
        if panel.picture.said["trouble"]:
            raise InputError("panel", panel.picture.said["trouble"])
        kept = "" if panel.kept is None else panel.setup(panel.kept)
        return cls(kind_of(panel), panel.setup(panel.state), kept)

    def panel(self, narrow=False):
        """The panel, drawn for a ``narrow`` (bool) page or a wide one, whether or not this one was; raises `InputError` in words."""
        panel = KINDS[self.kind].make()
        if self.kept:
            _open(panel, self.kept)
            panel.keep()
        _open(panel, self.content)
        panel.fit(narrow)
        return panel


def _open(panel, content):
    with panel.quiet():
        panel.apply(content)
    panel.update()
    if panel.picture.said["trouble"]:
        raise InputError("set-up", panel.picture.said["trouble"])


def fixed_words(panel, moving):
    """What is set on the controls that do not move, as a list of text.

    Parameters
    ----------
    panel : panels.panel.Panel
    moving : container of widgets
        The controls that do move, without unit here.
    """
    nowhere = (panel.decimal, *panel.band_switches)  # not on a recorded page
    said = [_said(one) for one in _controls(panel) if one not in moving and not any(one is other for other in nowhere)]
    return [words for words in said if words]


def _controls(widget):
    """Every control of a panel, in order, the folded ones too."""
    for one in getattr(widget, "children", ()):
        if getattr(one, "description", "") and hasattr(one, "value"):
            yield one
        elif not isinstance(one, Panel):
            yield from _controls(one)


def _said(control):
    """A control's label with what it is set to; nothing for a blank box that expects nothing, or a button."""
    label = control.description
    if isinstance(control, Slider):
        return f"{label}: {written(control.value, control.digits)} {control.unit}".strip().replace(" °", "°")
    name, _, unit = label.removesuffix("]").partition(" [")
    if isinstance(control, OptionalNumber):
        value = control.value.strip().removesuffix(control.unit).strip()
        if not value and control.unit:
            value = control.placeholder.strip("\N{ZERO WIDTH SPACE}")
        is_number = value.lstrip("≈ ").replace(".", "").replace(",", "").isdigit()
        return f"{name}: {value} {unit if is_number else ''}".strip() if value else ""
    if hasattr(control, "options"):
        return f"{label}: {control.label}"
    return f"{label}: {'yes' if control.value else 'no'}" if isinstance(control, Checkbox) else ""
