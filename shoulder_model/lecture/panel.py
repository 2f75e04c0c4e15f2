"""The lecture: one screen at a time, the clock against the plan, a show of hands against the answer.

The page steps by itself (``lecture.js``); the model makes the live panels, one after the other while the first screens are
already up, and keeps where the lecture stands, so that a kernel that is started again goes on from there.
"""

import asyncio
import contextlib
import hashlib
import json
import os
import time
from dataclasses import replace
from datetime import date
from pathlib import Path

import anywidget
import ipywidgets as w

from ..checkout import HOME, LECTURE, LECTURE_STATE, chapter_path, chapters
from ..given_file import read_path
from ..inputs import Allowed, InputError, scalar
from ..json_file import JsonKind
from ..lesson import chapter_title, titles
from ..panels.file_door import FileDoor
from ..printed import markup
from ..tables import BOM
from .protocol import Hands, protocol_csv, read_protocol
from .run_sheet import read_run_sheet, sheet_path, sheets
from .screens import WAIT, Stagehand, Step, chapter_steps, sheet_step, text, waiting_steps

HERE = Path(__file__).parent
ACROSS = HERE.parent / "lesson" / "screens.js"  # spreads a text over screens
LONGEST_TROUBLE = 300  # letters of what went wrong
PAGE_OPENS = 5.0  # s that the page may take to ask for the lecture
FORGOTTEN = 12 * 3600  # s after which a lecture that was left is begun anew
LEFT = JsonKind("lecture", "what a lecture left cannot be read; it begins anew")
TIMES = Allowed(0.0, 1e12, "s")


class Deck(anywidget.AnyWidget):
    """The page's part: screens, keys, clock, hands."""

    _esm = ACROSS.read_text(encoding="utf-8") + (HERE / "lecture.js").read_text(encoding="utf-8")
    _css = (HERE / "lecture.css").read_text(encoding="utf-8")


class LecturePanel(w.VBox):
    """A run sheet or a chapter, to step through.

    Parameters
    ----------
    name : str, optional
        A run sheet's name or path, or a chapter's name; without it the page offers all that there are.
    state : path, optional
        Folder in which the lecture keeps where it stands.
    home : path
        The checkout with workbook and figures.
    at_once : bool
        Make every panel before returning; otherwise they are made while the first screens are up.
    """

    def __init__(self, name=None, state=None, home=HOME, at_once=False):
        super().__init__()
        self.add_class("lecture")
        self.home, self.state, self.at_once = Path(home), state and Path(state), at_once
        self.deck, self.door, self.holder = Deck(), FileDoor(self._take, self._say), w.VBox()
        self.door.words = "Open a protocol: drop it here or ", ".csv"
        self.door.add_class("lecture-door")
        self.holder.add_class("lecture-panels")
        self.children = [self.deck, self.holder, self.door]
        self.title, self.audience, self.minutes, self.steps, self.progress = "", "", None, [], {}
        self.edition = ""  # tells a run sheet or chapter from a later one of the same name
        self.deck.on_msg(lambda _, content, __: self._answer(content))
        self.name, self.making, self.trouble, self.page_is_there = None, None, "", False
        if name:
            self.begin(name)

    @classmethod
    def from_launcher(cls):
        """The `LecturePanel` of the run sheet or chapter whose name the command line gave."""
        return cls(os.environ.get(LECTURE) or None, os.environ.get(LECTURE_STATE) or None)

    def begin(self, name):
        """Take up the run sheet or chapter called ``name`` (str); what cannot be read is said in one line on the page."""
        try:
            making = self._chapter(name) if name in chapters(self.home) else self._sheet(name)
        except InputError as error:
            self.deck.send({"kind": "said", "text": str(error)})
            self.trouble = str(error)
            return
        self.name, self.trouble = name, ""
        self.progress = self._left()
        if self.at_once:
            for _ in making:
                pass
        else:
            self.making = asyncio.ensure_future(self._slowly(making))
        if self.page_is_there:  # a page that opens asks
            self.tell()

    def _sheet(self, name):
        """Read a run sheet; the generator that is returned makes its panels, step by step."""
        sheet = read_run_sheet(name, self.home)
        self.title, self.audience, self.minutes = sheet.title, sheet.audience, sheet.minutes
        self.edition = _short_sum(repr(replace(sheet, name="")).encode())
        self.steps = waiting_steps(sheet, self.home)
        return self._make_steps(sheet, Stagehand(self.home, sheet))

    def _make_steps(self, sheet, hand):
        for place, step in enumerate(sheet.steps):
            if not self.steps[place].ready:
                try:
                    live = hand.make(step.shows, sheet.lifter)
                except Exception as error:  # a chapter's check that fails must not end the lecture
                    live = [_not_shown(error)]
                self.steps[place] = sheet_step(step, place, self.home, live)
                self._show_panels(hand.panels)
                self.deck.send({"kind": "step", "place": place, "step": self.steps[place].told()})
            yield

    def _chapter(self, name):
        """Take a chapter's headings; the generator that is returned runs it."""
        path = chapter_path(self.home, name)
        self.title, self.audience, self.minutes = chapter_title(path), "", None
        self.edition = _short_sum(path.read_bytes())
        self.steps = [Step(title, screens=[WAIT], ready=False) for title in (self.title, *titles(path))]
        return self._run_chapter(name)

    def _run_chapter(self, name):
        hand = Stagehand(self.home)
        try:
            chapter = hand.chapter(name)
        except Exception as error:  # whatever a cell raises is said where the chapter would stand
            self.steps = [Step(self.title, screens=[_not_shown(error)])]
        else:
            self.audience, self.steps = chapter.question, chapter_steps(chapter, hand)
            self._show_panels(hand.panels)
        if self.page_is_there:
            self.tell()
        yield

    async def _slowly(self, making):
        """Take one turn of ``making`` after the other, once the page has its first screen; it has its say in between."""
        patience = time.monotonic() + PAGE_OPENS
        while not self.page_is_there and time.monotonic() < patience:
            await asyncio.sleep(0.02)
        for _ in making:
            await asyncio.sleep(0.02)

    def _show_panels(self, panels):
        for panel in panels[len(self.holder.children) :]:
            box = w.Box([panel])
            box.add_class("lecture-panel")
            self.holder.children = (*self.holder.children, box)

    def _answer(self, content):
        kind = content.get("kind")
        if kind == "ready":
            self.page_is_there = True
            self.tell()
        elif kind == "choose":
            self.begin(content["name"])
        elif kind in ("state", "save"):
            self.progress = content["state"]
            self._remember()
            if kind == "save":
                self.save_protocol()

    def tell(self, opened=False):
        """Give the page all of the lecture, or names to choose from; ``opened`` where it is to show a protocol."""
        if self.name is None:
            titled = {name: chapter_title(chapter_path(self.home, name)) for name in chapters(self.home)}
            offered = [*sheets().items(), *((name, f"Chapter: {title}") for name, title in titled.items())]
            self.deck.send({"kind": "choose", "offered": offered, "text": self.trouble})
            return
        told = {"title": self.title, "audience": self.audience, "minutes": self.minutes, "edition": self.edition}
        steps = [step.told() for step in self.steps]
        self.deck.send({"kind": "lecture", **told, "steps": steps, "state": self.progress, "opened": opened})

    @property
    def hands(self):
        """What the class has shown so far: `protocol.Hands`, by names of questions."""
        day = self.progress.get("date") or date.today().isoformat()
        return Hands(day, self.progress.get("votes", {}), self.progress.get("minutes", {}))

    @property
    def protocol(self):
        """The protocol as CSV text."""
        return protocol_csv(self.title, self.steps, self.hands)

    def save_protocol(self):
        """Hand the protocol, as text, to the browser's downloads."""
        name = "".join(letter if letter.isalnum() else "_" for letter in self.title.lower()).strip("_")
        self.door.save(f"{name}_{self.hands.date}.csv", (BOM + self.protocol).encode(), "text/csv")

    def _take(self, name, content):
        self.open_protocol(content)

    def _say(self, words):
        self.deck.send({"kind": "said", "text": words})

    def open_protocol(self, content):
        """Show the hands of a saved protocol (``content``, CSV as text or bytes); one that does not fit changes nothing and gets one line."""
        try:
            hands = read_protocol(content, self.title, self.steps)
        except InputError as error:
            self._say(str(error))
            return
        self.progress = {"votes": hands.votes, "minutes": hands.minutes, "date": hands.date, "at": [-1, 0, 0]}
        self._remember()
        self.tell(opened=True)

    @property
    def _file(self):
        safe = "".join(letter if letter.isalnum() else "_" for letter in str(self.name))[-80:]
        return self.state / f"{safe}.json"

    def _remember(self):
        """Keep where the lecture stands, for a kernel that is started again; the page keeps it too, so a full disk stops nobody."""
        if self.state is None or self.name is None:
            return
        fresh, kept = (
            self._file.with_suffix(".new"),
            {"saved": time.time(), "edition": self.edition, "progress": self.progress},
        )
        with contextlib.suppress(OSError):
            self.state.mkdir(parents=True, exist_ok=True)
            fresh.write_text(json.dumps(kept), encoding="utf-8")
            fresh.replace(self._file)

    def _left(self):
        """Where this lecture was left, if that is not long ago."""
        if self.state is None:
            return {}
        try:
            kept = LEFT.read(read_path(self._file, LEFT.largest))
            LEFT.names("it", kept, ("saved", "edition", "progress"))
            begun = time.time() - scalar("saved", kept["saved"], TIMES)
        except InputError:
            return {}
        fits = kept["edition"] == self.edition and 0 <= begun < FORGOTTEN and isinstance(kept["progress"], dict)
        return kept["progress"] if fits else {}


def lecture_name(name, home=HOME):
    """``name`` (str) of a run sheet or chapter as `LecturePanel` finds it from any folder, once it has been read.

    ``home`` (path) is the checkout.

    Raises
    ------
    InputError
        In one line, what is wrong with the run sheet.
    """
    if name in chapters(home):
        return name
    read_run_sheet(name, home)
    return name if name in sheets() else str(sheet_path(name).resolve())


def _not_shown(error):
    """The screen that stands for what could not be made."""
    return text(f"<p>This cannot be shown: {markup(f'{type(error).__name__}: {error}'[:LONGEST_TROUBLE])}</p>")


def _short_sum(content):
    return hashlib.sha256(content).hexdigest()[:16]
