"""What is different where Python itself runs in the reader's page (a site, `shoulder_model.site`): some libraries are fetched late.

Nothing here does anything elsewhere.
"""

import asyncio
import sys
from importlib.abc import MetaPathFinder

from .inputs import InputError, choice

IN_PAGE = sys.platform == "emscripten"
LATE = {"scipy": 14, "pint": 1, "fsrs": 0}  # fetched where first needed; MB as the site has them, rounded
OWN, MACHINERY = "shoulder_model.", "importlib."


class Fetching(InputError):
    """A library is on its way; the text says what to do meanwhile."""


def wait_words(*names):
    """What is said while libraries are fetched, ``names`` (str) of them, as text.

    >>> wait_words("scipy", "pint")
    'More is fetched for this: scipy, pint, 15 MB. The next time it is here already.'
    """
    return f"More is fetched for this: {', '.join(names)}, {sum(LATE[name] for name in names)} MB. The next time it is here already."


async def ready(*names):
    """Have libraries, ``names`` (str) of them, in the page before a chapter's first cell; what is here already costs nothing.

    Raises
    ------
    inputs.UnknownName
        It is none of those that are fetched late.
    """
    for name in names:
        choice("library", name, tuple(LATE))
    if not IN_PAGE:
        return
    import pyodide_js
    from IPython.display import clear_output

    if missing := [name for name in names if not hasattr(pyodide_js.loadedPackages, name)]:
        print(wait_words(*missing), flush=True)
        await _fetch(*missing)
        clear_output()


def _fetch(*names):
    import pyodide_js
    from pyodide.ffi import to_js

    return pyodide_js.loadPackage(to_js(names))


class _Late(MetaPathFinder):
    """Asked last of all: what this package needs and is not here yet is sent for, and the reader is told.

    Other libraries only try whether it is there.
    """

    def __init__(self):
        self.sent_for = {}

    def find_spec(self, name, path=None, target=None):
        """None, or `Fetching` raised, where ``name`` (text) is a late library; ``path`` and ``target`` are Python's, text and module."""
        if name not in LATE or not _asker().startswith(OWN):
            return None
        if name not in self.sent_for:
            self.sent_for[name] = asyncio.ensure_future(_fetch(name))
        raise Fetching("library", f"{wait_words(name)} Do that again in a moment.")


def _asker():
    """Name of the module whose ``import`` is being done."""
    frame = sys._getframe(2)
    while frame is not None and frame.f_globals.get("__name__", "").startswith(MACHINERY):
        frame = frame.f_back
    return "" if frame is None else frame.f_globals.get("__name__", "")


def say_what_is_late():
    """In a page, have a cell or a panel that needs a late library say so in words; elsewhere nothing is changed."""
    if IN_PAGE and not any(isinstance(one, _Late) for one in sys.meta_path):
        sys.meta_path.append(_Late())
