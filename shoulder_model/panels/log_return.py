"""The log comes back: what it says of each pull, and the next block made from it."""

import ipywidgets as w

from ..inputs import InputError
from ..printed import markup
from ..training.block import next_block
from ..training.log import read_log
from ..week import Plan, candidates
from .file_door import FileDoor
from .panel import TEXT, WRAP, button

HEADS = ("pull", "verdict", "why")


class LogReturn(w.VBox):
    """A door for a filled-in log, the verdicts, and a button for the next block.

    ``panel`` is the `session.SessionPanel` whose week was logged.
    """

    def __init__(self, panel):
        self.panel, self.plan, self.block = panel, None, None
        self.door, self.told = FileDoor(lambda name, content: self.take(content), panel.refuse), w.HTML()
        self.door.words = ("Open a filled-in log: drop it here or ", ".csv,.txt")
        self.next = button(
            "Make the next block", self.make_next, "change this client by what the log says, and plan again"
        )
        self.next.disabled = True
        super().__init__([w.HBox([self.door, self.next], layout=WRAP), self.told], layout=w.Layout(width="100%"))

    def follow(self, state):
        """Another week is on the screen: what was said of the one before goes."""
        plan = state.answer if isinstance(state.answer, Plan) else None
        if plan is not self.plan:
            self.plan, self.block, self.next.disabled, self.told.value = plan, None, True, ""

    def take(self, content):
        """Read a log (text or bytes) and say what it says of each pull; one that cannot be read is refused in one line."""
        if self.plan is None:
            self.panel.refuse("log: there is no week to compare it with; answer the health questions first")
            return
        try:
            entries = read_log(content, tuple(one.name for one in candidates()))
        except InputError as error:
            self.panel.refuse(str(error))
            return
        self.block = next_block(self.plan, entries)
        if self.block.referral:  # no week stays on the screen
            self.panel.put_client(self.block.client)
            return
        self.next.disabled = False
        self.told.value = self._table()

    def _table(self):
        """A row a pull."""
        heads = "".join(f'<th scope="col">{head}</th>' for head in HEADS)
        rows = "".join(
            f'<tr><th scope="row">{markup(one.pull)}</th><td>{one.kind}</td><td>{markup(one.reason)}.</td></tr>'
            for one in self.block.verdicts
        )
        table = f"<table><thead><tr>{heads}</tr></thead><tbody>{rows}</tbody></table>"
        return f'<div class="week-table" style="{TEXT}">{table}</div>'

    def make_next(self):
        """Take the panel's client to the next block."""
        if self.block is not None:
            self.panel.put_client(self.block.client)
