"""Panels at random states, the set-ups that they save there, and set-ups gone wrong in every way that a hand or a disk may have."""

import re

import ipywidgets as w

from shoulder_model.inputs import InputError
from shoulder_model.panels import (
    EvidencePanel,
    GirdlePanel,
    GripPanel,
    LatPanel,
    MyLifterPanel,
    OneArmPanel,
    RatioPanel,
    SessionPanel,
    TrunkPanel,
    WorkPanel,
)
from shoulder_model.panels.panel import OptionalNumber
from shoulder_model.panels.slider import Slider
from shoulder_model.week import all_no
from shoulder_model.week.health import ANSWERS


class AskedPanel(SessionPanel):
    """The planner with a client whose health questions are answered."""

    def __init__(self):
        super().__init__(health=all_no())


PANELS = (
    GripPanel,
    TrunkPanel,
    OneArmPanel,
    LatPanel,
    GirdlePanel,
    WorkPanel,
    RatioPanel,
    EvidencePanel,
    MyLifterPanel,
    AskedPanel,
)
TYPED = {  # what a reader may type into a number box
    "load_kg": ("", "0", "12,5", "37.123456789", "60"), "stature": ("", "171", "1.68", "183,27"), "mass": ("", "64", "81.55"),
    "biacromial": ("", "37.2", "39"),
    "acromion_radiale": ("", "32.5"), "radiale_stylion": ("", "26"), "elbow_grip": ("", "33"), "hand": ("", "18,5"),
    "chest_breadth": ("", "28"), "chest_depth": ("", "25,1"), "waist_circumference": ("", "85"), "upper": ("", "110", "121,3"), "waist": ("", "80", "79.9"),
    "known front pulldown": ("", "50", "62,5"), "known_repetitions": ("", "1", "8"), "steps": ("", "2.5", "1,25"),
    "repetitions": ("", "8"),
}  # fmt: skip
NAMES = ("", "Ana", "x" * 60, "=1+1", "$x_{$", "<b>&amp;", 'O"Neil', "a\nb", "\u202eabc", "Zoë 李", "'quoted'", "{0}")


def controls_of(panel):
    """Every control of a panel that holds a value, in the order of the page."""
    found, waiting = [], [panel]
    while waiting:
        one = waiting.pop(0)
        if isinstance(one, Slider | w.Dropdown | w.Checkbox | w.Text):
            found.append(one)
        waiting = [*getattr(one, "children", ()), *waiting]
    return found


def look(panel):
    """What a panel's controls show and hold."""
    shown = [(one.description, one.value) for one in controls_of(panel)]
    if isinstance(panel, SessionPanel):
        lists = panel.wishes.order, panel.choice.prefer, panel.choice.leave_out, panel.known.known, panel.known.carried
        return [*shown, *map(tuple, lists), panel.hurt, panel.book.text]
    return shown


def _move(rng, panel, control):
    if isinstance(control, Slider):
        steps = round((control.max - control.min) / control.step)
        control.value = round(control.min + rng.randrange(steps + 1) * control.step, 6)
    elif isinstance(control, w.Checkbox):
        control.value = rng.random() < 0.5
    elif isinstance(control, OptionalNumber):
        control.value = rng.choice(TYPED[control.field])
    elif isinstance(control, w.Dropdown):
        control.value = rng.choice([one[1] if isinstance(one, tuple) else one for one in control.options])
    else:
        control.value = rng.choice(NAMES)


def to_some_state(rng, panel):
    """Move some of a panel's controls as a reader does, to a state that the model takes; nothing is drawn."""
    while True:
        chosen = [one for one in controls_of(panel) if rng.random() < 0.4]
        with panel.quiet():
            for control in chosen:
                _move(rng, panel, control)
            if isinstance(panel, SessionPanel) and rng.random() < 0.7:
                panel.health.put(
                    {name: rng.choice((*["no"] * 20, *ANSWERS)) for name in panel.health.boxes}, "Dr. A", ()
                )
            try:
                panel.state = panel.read()
            except InputError:
                continue
            panel.tell(panel.state)
            return


def texts_of(rng, kind, count):
    """A panel of a ``kind``, and the set-ups that it saves at ``count`` random states."""
    panel, texts = kind(), []
    for _ in range(count):
        to_some_state(rng, panel)
        texts.append(panel.content("json").decode())
    return panel, texts


def one_line(said):
    """A refusal without its values; anything but one line of at most 300 letters that can be printed is an AssertionError."""
    assert said.splitlines() == [said] and len(said) <= 300 and said.isprintable(), said
    return re.sub(r"\d[\d.e+-]*|'.*?'|\".*?\"", "·", said)[:40]


def checked_outcome(panel, content):
    """What becomes of a file of these bytes, without a control of ``panel`` moved: "read", or the refusal without its values."""
    try:
        panel.checked(content)
    except InputError as error:
        return one_line(str(error))
    return "read"


def opened_outcome(panel, fresh, content):
    """What becomes of a file of these bytes in a ``panel``: "read", or the refusal without its values.

    A refused one leaves every control and the picture as they were; of one that is opened, the saved text has to open in the
    panel ``fresh`` to the same text.
    """
    before, picture, panel.picture.said = look(panel), panel.overlay, panel.picture.said | {"trouble": ""}
    panel.open_text(content)
    said = panel.picture.said["trouble"]
    if said:
        unmoved = look(panel) == before and panel.overlay == picture
        assert unmoved, content
        return one_line(said)
    saved = panel.content("json")
    fresh.open_text(saved)
    refused, again = fresh.picture.said["trouble"], fresh.content("json")
    assert not refused, (refused, content)
    assert hash(again) == hash(saved), content
    assert hash(fresh.words) == hash(panel.words), content
    return "read"
