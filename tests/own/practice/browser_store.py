"""A browser's store and its pages, as `panels/keeper.js` works them, so that a record can be tried without a browser."""

from itertools import count

from shoulder_model.practice.page_shelf import PageShelf
from shoulder_model.practice.record import Record


class Store:
    """What all pages of one browser share: entries by their place, what was set aside, and a version."""

    def __init__(self):
        self.entries, self.aside, self.version, self.places = {}, [], 0, count(1)
        self.full = False

    def add(self, rows):
        known = {uid for uid, _ in self.entries.values()}
        self.entries |= {next(self.places): (uid, text) for uid, text in rows if uid not in known}

    def do(self, message):
        """One step, all or nothing; whether it was done, and what the version was before."""
        before = self.version
        if message["kind"] == "order" and message["base"] != before:
            return False, before
        if message["kind"] in ("order", "erase"):
            self.entries = {}
        if message["kind"] == "erase":
            self.aside = []
        for place in message["places"]:
            if place in self.entries:
                self.aside.append(self.entries.pop(place))
        self.add(message["rows"])
        self.version += 1
        return True, before


class Page:
    """A page of a browser with a record; messages of the kernel lie until `work`."""

    def __init__(self, store, part=2):
        self.store, self.part, self.seen, self.told = store, part, -1, []
        self.record = Record(shelf=PageShelf())
        self.record.shelf.say = self.told.append

    def opens(self):
        """The page sends what is kept, or that nothing can be kept; returns itself."""
        if self.store is None:
            self.record.shelf.hear({"kind": "refused"})
        else:
            self.send_all("all")
        self.work()
        return self

    def send_all(self, again):
        found = [[place, text] for place, (_, text) in sorted(self.store.entries.items())]
        parts = [found[at : at + self.part] for at in range(0, len(found), self.part)] or [[]]
        self.seen = self.store.version
        more = {"kind": "rows", "page": "p", "version": self.seen, "aside": len(self.store.aside), "again": again}
        for number, entries in enumerate(parts, 1):
            self.record.shelf.hear({**more, "entries": entries, "more": number < len(parts)})

    def look(self):
        """What a page does that comes into sight again."""
        if self.store.version != self.seen:
            self.send_all(0)
        self.work()

    def work(self):
        """Do what the kernel has sent, and tell it."""
        while self.told:
            message = self.told.pop(0)
            if self.store.full and message["rows"]:
                self.record.shelf.hear({"kind": "failed", "step": message["step"]})
                continue
            done, before = self.store.do(message)
            if not done:
                self.send_all(message["step"])
                continue
            if before == self.seen:
                self.seen = self.store.version
            else:
                self.send_all(0)
            self.record.shelf.hear({"kind": "kept", "step": message["step"], "version": self.seen})
