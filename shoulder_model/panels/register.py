"""The register's panel: a search box, and the numbers whose rows have every word that is typed."""

from pathlib import Path

import anywidget
import traitlets

from ..register import COLUMNS, find, numbers
from ..words import counted

HERE = Path(__file__).parent
MOST = 50  # rows that are shown
LONGEST = 80  # letters of what is asked


class RegisterPanel(anywidget.AnyWidget):
    """Search all numbers.

    Parameters
    ----------
    asked : str
        What stands in the box at first.
    """

    _esm = (HERE / "register.js").read_text("utf-8")
    _css = (HERE / "register.css").read_text("utf-8")
    asked = traitlets.Unicode("").tag(sync=True)
    found = traitlets.Dict().tag(sync=True)
    on_paper = (
        "In the workbook a search box stands here. Type a muscle, an author, a journal or a table, and get every number "
        "whose row has all the words."
    )

    def __init__(self, asked=""):
        super().__init__(asked=asked, found=answer(asked))
        self.observe(lambda change: setattr(self, "found", answer(change["new"])), "asked")


def answer(asked):
    """What the page shows for what is ``asked``, text: words, heads and rows."""
    rows = find(str(asked)[:LONGEST])
    shown = rows[:MOST]
    words = f"{counted(len(rows), 'number')} of {len(numbers())}"
    if not rows:
        words = f"No number has all of “{str(asked)[:LONGEST]}”. Try one word less, or the word of a table (deltoid posterior)."
    elif len(rows) > len(shown):
        words += f", the first {len(shown)} are shown"
    return {
        "words": words if words.endswith(".") else f"{words}.",
        "heads": list(COLUMNS),
        "rows": [row.cells for row in shown],
    }
