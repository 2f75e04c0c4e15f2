"""Between a record's shelf and the browser that keeps it; it shows a line only where something is not kept."""

from pathlib import Path

import anywidget
import traitlets

STYLE = """
.practice-kept { margin: 0 0 6px; color: #a33c00; font-weight: 600; max-width: 60em;
  font-size: var(--jp-content-font-size1, 14px); line-height: 1.45; }
.practice-kept:empty { display: none; }
[data-jp-theme-light="false"] .practice-kept { color: #ffb38a; }
"""


class Keeper(anywidget.AnyWidget):
    """The page's part of a shelf; ``line`` is what the page says of a step that is not kept, text.

    Parameters
    ----------
    shelf : practice.page_shelf.PageShelf
    changed : callable
        Called without arguments when other rows may have come in.
    """

    _esm = Path(__file__).with_name("keeper.js").read_text("utf-8")
    _css = STYLE
    line = traitlets.Unicode("").tag(sync=True)

    def __init__(self, shelf, changed):
        super().__init__()
        self.shelf, self.changed = shelf, changed
        shelf.say = self.send
        self.on_msg(self._hear)

    def _hear(self, _, content, buffers):
        if self.shelf.hear(content):
            self.changed()
