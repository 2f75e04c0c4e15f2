"""The practice panel: questions, a mock exam, what is weak. It passes on what the page sends and shows what the desk says."""

import contextlib
from pathlib import Path

import anywidget
import ipywidgets as w
import traitlets

from ..inputs import InputError
from ..practice.desk import Desk
from ..practice.page_shelf import PageShelf
from ..practice.pages import WEAK
from ..practice.record import own_record
from ..practice.record_table import LARGEST
from .file_door import FileDoor
from .keeper import Keeper
from .of_cell import OfCell

HERE = Path(__file__).parent


class PracticePage(anywidget.AnyWidget):
    """The page: ``view`` is what it shows, `practice.views`."""

    _esm = (HERE / "practice.js").read_text("utf-8")
    _css = (HERE / "practice.css").read_text("utf-8")
    view = traitlets.Dict().tag(sync=True)


class PracticePanel(OfCell, w.VBox):
    """Practice at a desk.

    Parameters
    ----------
    desk : practice.desk.Desk, optional
        By default one with the user's own record.
    blueprint : path-like, optional
        Of a mock exam of your own; the default one is ``practice/mock_exam.toml``.
    keep : str, optional
        Where a desk of its own keeps the record, a name: file, or page for the browser's own store. By default a file
        wherever there is a disk.
    """

    on_paper = (
        "You practise on a screen, in the workbook itself. For practice on paper a tutor makes a sheet for each student, "
        "with numbers of their own."
    )

    def __init__(self, desk=None, blueprint=None, keep=None):
        self.desk = desk or Desk(own_record(keep), blueprint=blueprint)
        self.page, self.door = PracticePage(view=self.desk.view), FileDoor(self._take, self._refuse, largest=LARGEST)
        self.door.words = ("A record saved elsewhere: drop it here or ", ".csv")
        shelf = self.desk.record.shelf
        keepers = [Keeper(shelf, self._look_again)] if isinstance(shelf, PageShelf) else []
        super().__init__([*keepers, self.page, self.door], layout=w.Layout(width="100%"))
        self.page.on_msg(lambda _, content, buffers: self.act(content))
        self.show(self.desk.view)

    def _look_again(self):
        self.show(self.desk.look_again())

    def _take(self, name, content):
        self.show(self.desk.act("take", content=content))

    def _refuse(self, words):
        self.show(self.desk.act("refuse_file", words=words))

    def show(self, view):
        """Show a ``view`` of the desk; the door for files stands below the page of what is weak."""
        self.page.view = view
        self.door.layout.display = None if view["title"] == WEAK else "none"

    def act(self, content):
        """Do what the page sent, a dict with ``do`` and more; what makes no sense, as from an older page, changes nothing."""
        asked = dict(content)
        what = asked.pop("do", "")
        if what == "export":
            self.door.save("my-practice.csv", self.desk.record.export(), "text/csv")
            return
        with contextlib.suppress(InputError, TypeError):
            self.show(self.desk.act(what, **asked))
