"""A reader without a plan, walking over a panel: moves of every control, and what must hold after each.

A move goes in where the page's own would: as changed values or a message of the widget. A page is kept beside the panel that
knows only what was sent.
"""

import json
import logging
import re
from html import unescape

import ipywidgets as w

from shoulder_model.panels.file_door import FileDoor
from shoulder_model.panels.panel import OptionalNumber
from shoulder_model.panels.picture import Picture
from shoulder_model.panels.slider import Slider

NO_NUMBER = re.compile(r"(?<![A-Za-z])(nan|NaN|inf|Infinity|None)(?![A-Za-z])")
SENTENCES = ("None is preferred, none left out.", "None yet. A normal set")  # in which that is an English word
HOSTILE = (
    "1,75", "abc", "", "1e400", "-", "١٢", "nan", "inf", "-inf", "NaN", "0", "-3", "1e-300", "1e5", " 180 cm", "１８０", "1.2.3",
    "0x10", "None", "true", "[1]", "{}", "=1+1", "$x_{$", "<b>1</b>", "\\", "\x00", "1" * 400, "−5", "½", "\u202e12",
)  # fmt: skip
PLAUSIBLE = ("1", "8", "12", "20", "37,5", "40", "62", "64.5 kg", "90", "101", "168", "172,5", "183")
NAMES = tuple(text for text in HOSTILE if not NO_NUMBER.search(text))  # a person may be called so
FILES = ("", "{", "[]", "nonsense", "null", '{"kind": "pull set-up", "version": 2}', "\ufeff{}", "kind,version\n1,2\n")
SAVES = ("Save", "Page", "Week as", "Blank log")
BYTES = (".png", ".pdf")  # not to be read
VALUES = (Slider, w.Text, w.Dropdown, w.RadioButtons, w.Checkbox)
KINDS = {  # what is moved -> how often
    "slider": 40, "text": 16, "choice": 10, "tick": 8, "fold": 4, "press": 8, "ahead": 8, "settle": 8, "save": 4, "open": 2,
}  # fmt: skip


class Page:
    """What a page knows of one picture: it has only what was sent to it."""

    def __init__(self, picture):
        self.elements, self.said, self.frame, self.sent = [], {}, "", []
        picture.send = self.receive
        picture.show_all()

    def receive(self, message):
        """Take one message, as the page does."""
        self.sent.append(json.dumps(message, allow_nan=False))
        if message["kind"] == "all":
            self.elements, self.frame = [{} for _ in message["layer"]], message["frame"]
        if message["kind"] != "ahead":
            for place, changed in message["moves"]:
                self.elements[place] |= changed
            self.said = message["said"] or self.said

    @property
    def layer(self):
        """The moving layer as it stands on the page."""
        return [{name: value for name, value in one.items() if value is not None} for one in self.elements]


class Alarm(logging.Handler):
    """What a widget's callback raised: ipywidgets logs it and goes on."""

    def __init__(self):
        super().__init__(logging.WARNING)
        self.heard = []

    def emit(self, record):
        """Remember it."""
        self.heard.append(self.format(record))


def parts(widget):
    """A widget and all that is in it, in a steady order."""
    yield widget
    for one in getattr(widget, "children", ()):
        yield from parts(one)


def controls(panel):
    """Every control of a panel by what is done with it, `KINDS`."""
    found = {kind: [] for kind in KINDS}
    for one in parts(panel):
        if isinstance(one, Slider):
            found["slider"].append(one)
        elif isinstance(one, w.Text):
            found["text"].append(one)
        elif isinstance(one, (w.Dropdown, w.RadioButtons)):
            found["choice"].append(one)
        elif isinstance(one, w.Checkbox):
            found["tick"].append(one)
        elif isinstance(one, w.ToggleButton):
            found["fold"].append(one)
        elif isinstance(one, w.Button):
            found["save" if one.description.startswith(SAVES) else "press"].append(one)
        elif isinstance(one, FileDoor):
            found["open"].append(one)
        elif isinstance(one, Picture) and one.sliders:
            found["ahead"].append(one)
            found["settle"] += [one] * (one.settle is not None)
    return {kind: some for kind, some in found.items() if some}


def without_bands(said):
    """What is ``said`` before the bands are there."""
    told = said.get("bands", "")
    return said | {"bands": "", "words": said["words"].removesuffix(told).strip()}


def values(panel):
    """What the reader has set, control by control."""
    return [one.value for one in parts(panel) if isinstance(one, VALUES)]


def set_values(panel, wanted):
    """Take the controls there, one after the other."""
    mine = [one for one in parts(panel) if isinstance(one, VALUES)]
    for one, value in zip(mine, wanted, strict=True):
        one.value = value


def told(panel):
    """Every other word beside the picture: tables, lines, grey numbers in boxes, names on buttons."""
    shown = [one for one in parts(panel) if not isinstance(one, (Picture, FileDoor))]
    return [
        (getattr(one, "description", ""), getattr(one, "placeholder", ""), one.value if isinstance(one, w.HTML) else "")
        for one in shown
    ]


def without_echo(text, typed):
    """``text`` without what the reader has ``typed`` (texts), which a refusal says back, and without plain English."""
    text = unescape(text)
    for part in sorted({part for one in typed for part in (repr(one), repr(one)[:60])}, key=len, reverse=True):
        text = text.replace(part, "")
    for sentence in SENTENCES:
        text = text.replace(sentence, "")
    return text


def no_number(text, typed=()):
    """The place where ``text`` shows that a number is missing, or None."""
    found = NO_NUMBER.search(text := without_echo(text, typed))
    return text[max(0, found.start() - 60) : found.end() + 30] if found else None


def page_moves(control, chance):
    """The changes that a page would send for one move of a ``control``; what is no value of it is not sent."""
    if isinstance(control, Slider):
        step = chance.choice((-1, 1, -5, 5, 0.3)) * control.step
        ends = control.min, control.max, control.start, 1e9, -1e9
        return {
            "value": chance.choice((control.value + step, *ends, *([chance.uniform(control.min, control.max)] * 5)))
        }
    if isinstance(control, w.Text):
        return {"value": chance.choice(HOSTILE + 3 * PLAUSIBLE if isinstance(control, OptionalNumber) else NAMES)}
    if isinstance(control, (w.Dropdown, w.RadioButtons)):
        return {"index": chance.randrange(len(control.options))}
    return {"value": not control.value}
