"""Several clients in one panel: choose one, add one, take one out; all of them go into one file."""

import ipywidgets as w

from ..people import Lifter
from ..printed import plain
from ..week import Client
from ..week.record import record_of, records_text
from .panel import button, dropdown


class ClientBook(w.HBox):
    """The records of several clients, one of them shown.

    ``record`` is the first one's (`week.record.record_of`); ``show(record)`` is called when another is to be shown.
    """

    def __init__(self, record, show):
        self.records, self.place, self.show, self.is_quiet = [record], 0, show, False
        self.who = dropdown("Client", [("client 1", 0)], 0, 14)
        self.who.observe(lambda change: self._choose(change["new"]), "value")
        self.doubted = False
        new = button("New client", self.add, "a blank client; the others stay in this panel")
        self.gone = button("Remove", self.remove, "take this client out of this panel; press twice")
        super().__init__([self.who, new, self.gone], layout=w.Layout(width="auto"))
        self._name()

    def keep(self, record):
        """Take what the panel shows now as the record of the present client; one that was changed is not to be removed by one press."""
        if record != self.records[self.place]:
            self._doubt(False)
        self.records[self.place] = record
        self._name()

    def _doubt(self, doubted):
        self.doubted = doubted
        self.gone.description = "Press again to remove" if doubted else "Remove"

    def _name(self):
        """Names in the list; a client without one is counted."""
        names = [(plain(one["name"]) or f"client {place + 1}", place) for place, one in enumerate(self.records)]
        if names != list(self.who.options) or self.who.value != self.place:
            self.is_quiet, before = True, self.is_quiet
            self.who.options, self.who.value = names, self.place
            self.is_quiet = before

    def _choose(self, place):
        if place is not None and place != self.place and not self.is_quiet:
            self._go(place)

    def _go(self, place):
        self.place = place
        self._doubt(False)
        self._name()
        self.show(self.records[place])

    def add(self):
        """A blank client: the health questions stand open."""
        self.records.append(record_of(Client(Lifter.average("women"), "intermediate", days=3), {}))
        self._go(len(self.records) - 1)

    def remove(self):
        """Take the present client out, at the second press; after the last one there is a blank one."""
        if not self.doubted:
            self._doubt(True)
            return
        self._doubt(False)
        self.records.pop(self.place)
        if self.records:
            self._go(max(0, self.place - 1))
        else:
            self.add()

    @property
    def text(self):
        """All clients as the text of a file."""
        return records_text(self.records, self.place)

    def take(self, records, place):
        """All clients of a saved file, a list of ``records`` that have been checked; that at ``place`` (int) is to be shown."""
        self.records, self.place = list(records), place
        self._name()
        return self.records[self.place]
