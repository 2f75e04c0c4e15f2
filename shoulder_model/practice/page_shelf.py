"""The shelf behind a `record.Record` where no disk outlives the page: rows in memory, which the page keeps in the browser.

    Record ──append, merge, erase──> PageShelf ──say: one step after the other──> the page, which does each as one transaction
                                        ^                                                          │
                                        └──hear: the rows that are kept, each step that is kept────┘

The order of the record is that of the browser's store, and every step of any page gives the store a new version. To put
rows in another order is refused by the page where its store has another version than the rows that were put in order;
it then sends what it has, and they are put in order again. So two pages add and never overwrite.
"""

import json
import zlib
from collections import deque
from collections.abc import Callable
from dataclasses import dataclass
from itertools import count

from ..words import counted
from .answer import as_pair

LONGEST_ENTRY = 40_000  # letters of a row as the page keeps it
REFUSED = (
    "This browser keeps nothing for this page. Your answers are gone when you close the tab. Save them before you do."
)


def as_entry(row):
    """A ``row`` (a tuple of `answer.COLUMNS`) as the page keeps it, text: a checksum, a blank, and the cells as JSON."""
    cells = json.dumps(row)
    return f"{zlib.crc32(cells.encode()):08x} {cells}"


def row_of(entry):
    """The row, a tuple, of what the page has kept, ``entry`` (text); None where that is not what `as_entry` wrote."""
    checksum, _, cells = entry[:LONGEST_ENTRY].partition(" ")
    if checksum != f"{zlib.crc32(cells.encode('utf-8', 'replace')):08x}":
        return None
    try:
        row = tuple(json.loads(cells))
    except (ValueError, TypeError, RecursionError):
        return None
    return row if as_pair(row) else None


def _each_once(rows):
    return list({row[0]: row for row in rows}.values())


@dataclass(frozen=True)
class Step:
    """One step that the page has to do.

    Parameters
    ----------
    number : int
        A whole number, another one for each step.
    what : str
        In a word: add, order, erase, aside.
    change : callable
        Takes all rows, gives them as they are after it, a list.
    given : tuple
        The rows that are added, or places in the store.
    """

    number: int
    what: str
    change: Callable
    given: tuple = ()


class PageShelf:
    """Rows that a page keeps; what a `record_file.RecordFile` does with a file, without waiting for it.

    ``say`` is called with each message for the page, a dict; `hear` takes what the page says.
    """

    failures, path, where = (), None, "in this browser"

    def __init__(self):
        self.notes, self.say = [], lambda message: None
        self.ready = self.refused = (
            False  # whether the page has sent what it keeps, or has said that it can keep nothing
        )
        self._kept, self._steps, self._numbers = [], deque(), count(1)
        self._version, self._sent, self._arriving, self._aside = 0, None, {}, 0

    # what a record asks of a shelf

    def begin(self):
        """Nothing to do, in a word: the page has not sent yet what it keeps."""

    def rows(self):
        """All rows in their order, a list; each is a tuple of `answer.COLUMNS`."""
        rows = self._kept
        for step in self._steps:
            rows = step.change(rows)
        return _each_once(rows)

    def append(self, rows):
        """Put ``rows``, each a tuple of `answer.COLUMNS`, behind the others. Those that are there stay."""
        if rows:
            self._take("add", lambda old: [*old, *rows], tuple(rows))

    def merge(self, merged):
        """Put the rows in a new order; ``merged`` (callable) takes all rows, each a tuple, and gives the list that replaces them."""
        self._take("order", merged)

    def erase(self):
        """Take every row away, with what was set aside, and the words about it."""
        self._steps.clear()
        self.notes.clear()
        self._sent, self._aside = None, 0
        if self.refused:
            self._kept, self.notes[:] = [], [REFUSED]
        self._take("erase", lambda old: [])

    def aside(self):
        """What is left after `erase`: nothing, a list without names."""
        return []

    @property
    def waiting(self):
        """How many rows the page has not kept yet, a whole number."""
        return sum(len(step.given) for step in self._steps if step.what == "add")

    @property
    def stays(self):
        """Where answers stay, in words; "" where ``notes`` say that they stay nowhere."""
        return "" if self.refused else "Your answers stay in this browser, on this computer. Save them now and then."

    def keeping(self):
        """How much is kept, and what takes it away, a tuple of sentences."""
        if self.refused:
            return ()
        rows = self.rows()
        size = max(1, round(sum(len(as_entry(row)) for row in rows) / 1000)) if rows else 0
        told = f"This browser keeps your record for this site: {counted(len(rows), 'answer')}, about {size} kB."
        aside = f" {counted(self._aside, 'entry', 'entries')} that cannot be read {'is' if self._aside == 1 else 'are'} set aside."
        gone = (  # what browsers do with the data of a site: from memory
            "Clearing the browser's data removes it, and so does closing a private window. Some browsers remove it to make "
            "room, or when you stay away for a week. So save it now and then."
        )
        return (told + aside * bool(self._aside), gone)

    # between shelf and page

    def _take(self, what, change, given=()):
        self._steps.append(Step(next(self._numbers), what, change, given))
        if self._sent is None:
            self._send()

    def _send(self):
        """Hand the first step to the page; the next one waits until that is kept."""
        if not self._steps or not self.ready or self.refused:
            return
        step = self._steps[0]
        rows = _each_once(step.change(self._kept)) if step.what == "order" else step.given if step.what == "add" else ()
        message = {"kind": step.what, "step": step.number, "base": self._version}
        message["rows"] = [[row[0], as_entry(row)] for row in rows]
        message["places"] = list(step.given) if step.what == "aside" else []
        self._sent = step.number
        self.say(message)

    def hear(self, message):
        """Take a ``message`` of the page, a dict; returns whether the rows may be others now, or are here at all.

        Its ``kind`` is a word: rows (what is kept, in parts), refused (nothing can be kept), kept or failed (a step).
        """
        kind = message.get("kind")
        if kind == "rows":
            return self._rows_came(message)
        if kind == "refused":
            self.refused = self.ready = True
            self.notes[:] = [REFUSED]
            return True
        if self._steps and message.get("step") == self._steps[0].number == self._sent:
            self._sent = None
            if kind == "kept":
                self._kept, self._version = _each_once(self._steps.popleft().change(self._kept)), message["version"]
                self._send()
        return False

    def _rows_came(self, message):
        """Take a part of what a page keeps; after the last part it takes the place of what was known."""
        arriving = self._arriving.setdefault(message["page"], [])
        arriving += message["entries"]
        if message["more"]:
            return False
        del self._arriving[message["page"]]
        if self.refused:
            self.notes.remove(REFUSED)
        self.ready, self.refused = True, False
        self._version, self._aside = message["version"], message["aside"]
        read = [(place, row_of(entry)) for place, entry in arriving]
        self._kept = _each_once(row for _, row in read if row)
        self._set_aside(tuple(place for place, row in read if row is None))
        again = message["again"]
        if again == "all" or again == self._sent or self._sent is None:
            self._send()
        return True

    def _set_aside(self, places):
        """Have entries that cannot be read put aside, by their places in the store."""
        if not places or any(step.what == "aside" for step in self._steps):
            return
        self._aside += len(places)
        those = "It was" if len(places) == 1 else "They were"
        self.notes.append(
            f"{counted(len(places), 'answer')} in this browser cannot be read any more. {those} set aside; all others are whole."
        )
        self._steps.append(Step(next(self._numbers), "aside", lambda old: old, places))
