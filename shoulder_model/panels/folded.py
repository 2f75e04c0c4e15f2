"""An answer that stays folded until the reader opens it, also after "Run everything"."""

import contextlib
import io
from html import escape

from IPython.display import Markdown, display


@contextlib.contextmanager
def folded(title="Answer"):
    """Collect what is printed inside and show it under a line to click.

    >>> with folded("Answer"):  # doctest: +SKIP
    ...     print("25.5 N m")
    """
    printed = io.StringIO()
    with contextlib.redirect_stdout(printed):
        yield
    lines = escape(printed.getvalue().rstrip("\n"), quote=False)
    display(Markdown(f"<details><summary>{escape(title)}</summary><pre>{lines}</pre></details>"))
