"""Runs a chapter's code cells outside the notebook, and keeps what they show: lines, folded answers, guesses, panels."""

import ast
import contextlib
import io
from dataclasses import dataclass

from IPython.core.interactiveshell import InteractiveShell
from IPython.utils.capture import capture_output


@dataclass(frozen=True)
class Shown:
    """What one code cell shows, in its order: ``lines`` (str) that it prints, ``markdown`` (tuple of str), and the ``result``
    of its last line (any object, or None)."""

    lines: str
    markdown: tuple
    result: object


class Player:
    """The names of one chapter while its cells run, each chapter apart from the others."""

    def __init__(self):
        if not InteractiveShell.initialized():  # a plain process has none; without a history it leaves no file
            InteractiveShell.instance().history_manager.enabled = False
        self.names = {"__name__": "__main__"}

    def play(self, source):
        """Run the text of one code cell (``source``, str); returns a `Shown`. What the cell raises is raised here."""
        body = ast.parse(source).body
        last = ast.Expression(body.pop().value) if body and isinstance(body[-1], ast.Expr) else None
        printed, result = io.StringIO(), None
        with capture_output(stdout=False, stderr=False) as captured, contextlib.redirect_stdout(printed):
            exec(compile(ast.Module(body, []), "<cell>", "exec"), self.names)
            if last is not None:
                result = eval(compile(last, "<cell>", "eval"), self.names)
        markdown = tuple(one.data["text/markdown"] for one in captured.outputs if "text/markdown" in one.data)
        return Shown(printed.getvalue(), markdown, result)
