"""Thousands of moves over the panels, in no order that a person would choose: no exception, no missing number, no wrong picture.

`SHOULDER_MODEL_TRIES` asks for more moves.
"""

import json
import os
import random
import threading
from collections import Counter

import ipywidgets as w
import pytest
from traitlets.log import get_logger

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
from shoulder_model.panels.file_door import FileDoor
from shoulder_model.panels.with_bands import WithBands
from shoulder_model.week import all_no
from tests.panel_walk import (
    BYTES,
    FILES,
    KINDS,
    NAMES,
    Alarm,
    Page,
    controls,
    no_number,
    page_moves,
    parts,
    set_values,
    told,
    values,
    without_bands,
)  # fmt: skip

TRIES = int(os.environ.get("SHOULDER_MODEL_TRIES", 10_000))
SHARES = {  # panel -> its share of the moves; what takes longest to compute has fewest
    RatioPanel: 0.37, EvidencePanel: 0.35, OneArmPanel: 0.15, LatPanel: 0.03, GripPanel: 0.024, TrunkPanel: 0.024,
    GirdlePanel: 0.016, WorkPanel: 0.012, SessionPanel: 0.02, MyLifterPanel: 0.004,
}  # fmt: skip
ANEW, LOOKS = 300, 4  # most moves between two looks at a panel made anew; how many looks there are at least
WHILE_BROKEN = ("slider", "text", "tick", "fold", "ahead", "settle")  # what else is moved while an entry is wrong
LEFT_BROKEN = 0.4  # share of the wrong entries that are left so for a while
FEW, PATIENCE = (8, 2), 60  # people and draws of the bands; seconds for them
THREADS, HAMMERED = 3, 25  # how many, and how many moves each
DEAR = 0.04  # share of the saves that may be pictures or pages; the others are tables and set-ups


def made(kind, like=None):
    """A panel of a ``kind``, with the trials of the one that it is to be ``like``."""
    if kind is SessionPanel:
        return kind(health=all_no())
    return kind(trials=like.trials) if kind is EvidencePanel and like else kind()


class Walk:
    """One panel and its page, and what was done with them."""

    def __init__(self, kind, chance, folder):
        self.kind, self.chance, self.folder = kind, chance, folder
        self.panel, self.done, self.counts, self.saved = made(kind), [], Counter(), []
        self.page = Page(self.panel.picture)
        self.texts = [self.panel.content("json").decode()]
        self.opened = self.kept = None  # the set-up opened last; how the kept one was reached
        self.typed = []
        self.broken = None  # values and words before an entry that was refused and still stands
        for one in parts(self.panel):
            if isinstance(one, FileDoor):
                one.save = lambda name, content, mime: self.saved.append((name, content))

    def move(self):
        """One move of one control, and what must hold after it."""
        found, self.page.sent, self.saved = controls(self.panel), [], []
        kinds = [name for name in found if self.broken is None or name in WHILE_BROKEN]
        kind = self.chance.choices(kinds, [KINDS[name] for name in kinds])[0]
        before, said = self.broken or (values(self.panel), dict(self.panel.picture.said))
        self.typed = [*self.typed[-9:], self.do(kind, self.chance.choice(found[kind])) or ""]
        trouble = self.panel.picture.said["trouble"]
        for text in (*self.page.sent, *self.saved_texts()):
            assert no_number(text.replace(json.dumps(trouble)[1:-1], "")) is None
        assert no_number(trouble, self.typed) is None
        self.counts["tried"] += 1
        if trouble:
            self.counts["refused"] += 1
            self.refused(trouble, said)
        if trouble and kind in WHILE_BROKEN and self.chance.random() < LEFT_BROKEN:
            self.broken = before, said
        elif trouble or self.broken:
            self.mend(kind, before, said)

    def do(self, kind, control):
        """One move of a ``kind``, sent as the page would; what was typed, if anything."""
        self.done.append((kind, getattr(control, "description", "")))
        if kind == "ahead":
            slider = self.chance.choice([*control.sliders.values()])
            value = slider.value + self.chance.choice((-1, 1)) * slider.step
            control._handle_custom_msg({"kind": "ahead", "slider": slider.description, "value": value}, [])
        elif kind == "settle":  # the page asks once, or until the bands are there
            for _ in range(self.chance.choice((1, 99))):
                control._handle_custom_msg({"kind": "settled"}, [])
        elif kind in ("press", "save"):
            if kind == "save" and self.is_dear(control) and self.chance.random() > DEAR:
                return ""
            if not control.disabled:
                self.press(control)
        elif kind == "open":
            return self.open(control)
        else:
            changes = page_moves(control, self.chance)
            self.done[-1] += (changes,)
            if control is getattr(self.panel, "pull_choice", None) and changes["index"] != control.index:
                self.opened = None
            control.set_state(changes)
            return changes.get("value") if kind == "text" else ""
        return ""

    @staticmethod
    def is_dear(button):
        """Whether a save is a picture or a page."""
        return not any(word in button.description for word in ("JSON", "CSV", "clients", "table", "log", "trial"))

    def press(self, button):
        """Press a button; remember what was kept, and how it was reached."""
        if button is self.panel.keep_button and self.panel.state is not None:
            here = self.panel.content("json").decode() if self.kind is SessionPanel else values(self.panel)
            self.kept = self.opened, here
        button._handle_button_msg(button, {"event": "click"}, [])
        if button is self.panel.drop_button:
            self.kept = None

    def saved_texts(self):
        """What was saved, as text."""
        for name, content in self.saved:
            assert content
            if name.endswith(".json"):
                self.texts = [*self.texts[-5:], content.decode()]
            if not name.endswith(BYTES):
                yield content.decode("utf-8-sig")

    def open(self, control):
        """Open something, mostly a set-up of this panel, by the door or by its path."""
        text = self.chance.choice((*self.texts, *FILES))
        if control.path and self.chance.random() < 0.5:
            path = self.folder / "some.json"
            path.write_text(text)
            typed = self.chance.choice((str(path), *NAMES))
            control._handle_custom_msg({"kind": "path", "typed": typed}, [])
        else:
            control._handle_custom_msg({"kind": "opened", "name": "some.json"}, [text.encode()])
        if not self.panel.picture.said["trouble"] and text in self.texts:
            self.opened = text
        return text

    def refused(self, trouble, said):
        """A refusal is one line, and the picture is as it was."""
        assert "\n" not in trouble.strip() and trouble.strip()
        assert self.panel.stage.moves_ahead() == []
        assert not any(message["moves"] for message in map(json.loads, self.page.sent) if message["kind"] == "move")
        now, said = without_bands(self.panel.picture.said), without_bands(said)
        assert all(now[name] == said[name] or not now[name] for name in ("verdict", "small", "words"))

    def mend(self, kind, before, said):
        """The entry as it was: no trouble, and the same words as before."""
        if kind not in (*WHILE_BROKEN, "choice"):
            self.panel.update()
        else:
            set_values(self.panel, before)
        assert without_bands(self.panel.picture.said) == without_bands(said) | {"trouble": ""}
        self.broken = None
        self.counts["mended"] += 1

    def look_anew(self, *, frame=False):
        """What the page shows is what a panel made anew shows in the same state."""
        fresh = made(self.kind, self.panel)
        for opened, here in filter(None, (self.kept, (self.opened, self.here))):
            self.take_there(fresh, opened, here)
            if self.kept and here is self.kept[1]:
                fresh.keep()
        for one in (self.panel, fresh) if fresh.bands else ():
            one.settle(PATIENCE)
        assert self.page.said == self.panel.picture.said == fresh.picture.said
        assert sorted(told(fresh)) == sorted(told(self.panel))  # wishes that are not wished stand in any order
        assert self.page.layer == self.panel.stage.attributes() == fresh.stage.attributes()
        if frame:
            assert self.page.frame == fresh.stage.frame()
        self.counts["looked anew"] += 1

    @property
    def here(self):
        return self.panel.content("json").decode() if self.kind is SessionPanel else values(self.panel)

    def take_there(self, fresh, opened, here):
        """A ``fresh`` panel to where this one is, or was when it was kept."""
        if self.kind is SessionPanel:
            fresh.open_text(here)
            return
        if hasattr(fresh, "pull_choice"):
            at = [
                one
                for one in parts(fresh)
                if isinstance(one, (w.Text, w.Dropdown, w.Checkbox)) or hasattr(one, "place")
            ]
            name = here[at.index(fresh.pull_choice)]
            fresh.pull_choice.value = next(other for other in fresh.pull_choice.options if other != name)
            fresh.pull_choice.value = name
        if opened:
            fresh.open_text(opened)
        with fresh.quiet():
            set_values(fresh, here)
        fresh.update()


@pytest.fixture(autouse=True)
def few(monkeypatch):
    """Bands of few people and draws, which are there sooner."""
    for kind, counts in ((WithBands, FEW), (WorkPanel, FEW), (LatPanel, (0, FEW[1])), (OneArmPanel, (FEW[0], 0))):
        monkeypatch.setattr(kind, "counts", counts)


@pytest.fixture
def alarm():
    """Whatever a callback raises; ipywidgets only logs it."""
    log, alarm = get_logger(), Alarm()
    log.addHandler(alarm)
    yield alarm
    log.removeHandler(alarm)


@pytest.mark.parametrize("kind", SHARES, ids=lambda kind: kind.__name__)
def test_after_any_walk_the_page_shows_what_a_panel_made_anew_shows(kind, alarm, tmp_path):
    walk = Walk(kind, random.Random(f"walk {kind.__name__}"), tmp_path)
    tries = round(SHARES[kind] * TRIES)
    for count in range(1, tries + 1):
        try:
            walk.move()
            if count % min(ANEW, tries // LOOKS) == 0 and walk.broken is None:
                walk.look_anew()
            assert not alarm.heard
        except Exception as error:
            raise AssertionError(f"after {walk.done[-8:]}, move {count}: {alarm.heard}") from error
    while walk.broken:
        walk.move()
    walk.look_anew(frame=True)
    print(kind.__name__, dict(walk.counts))


@pytest.mark.parametrize("kind", [RatioPanel, OneArmPanel, GripPanel])
def test_after_several_threads_have_moved_several_controls_the_page_shows_what_a_panel_made_anew_shows(
    kind, alarm, tmp_path
):
    walk = Walk(kind, random.Random("threads"), tmp_path)
    some = [
        one for name, those in controls(walk.panel).items() if name in ("slider", "choice", "tick") for one in those
    ]

    def hammer(number):
        chance = random.Random(number)
        for _ in range(HAMMERED):
            control = chance.choice(some[number::THREADS])
            control.set_state(page_moves(control, chance))

    threads = [threading.Thread(target=hammer, args=(number,)) for number in range(THREADS)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert not alarm.heard and not walk.panel.is_quiet
    trouble = walk.panel.picture.said["trouble"]
    if trouble:  # the last moves ended where the arm does not reach
        for slider in walk.panel.sliders.values():
            slider.value = slider.start
    walk.look_anew()
