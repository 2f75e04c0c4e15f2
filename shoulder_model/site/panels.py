"""Panels that open at once, beside the chapters: recorded as their chapters show them, and kept for the next build."""

import hashlib
import shutil
from pathlib import Path

from ..handout.panel_command import recorded_page
from ..handout.panel_page import of_chapter
from ..recorded.grids import KINDS
from .start_page import PANELS

PACKAGE = Path(__file__).parents[1]
TEXTS = (".py", ".js", ".css", ".csv")


def record_panels(folder, home, store):
    """Put a page for each panel that can be recorded into the site's ``folder``.

    Parameters
    ----------
    folder, home : path
        Of the site, of the checkout.
    store : download.Store
        Keeps them, by the text of the package and of the chapters.

    Returns
    -------
    str
        A sentence for whoever builds, in words.
    """
    kept = store.folder / "panels" / _text_of(home)
    new = 0
    for kind in KINDS:
        page = kept / f"panel_{kind.replace('-', '_')}.html"
        if not page.exists():
            chapter = of_chapter(kind, home)
            kept.mkdir(parents=True, exist_ok=True)
            part = page.with_suffix(".part")
            part.write_text(recorded_page(kind, chapter.panel, chapter), encoding="utf-8")
            part.rename(page)
            new += 1
    shutil.copytree(kept, folder / PANELS, ignore=shutil.ignore_patterns("*.part"))
    return f"{len(KINDS)} panels are recorded, {new} of them now."


def _text_of(home):
    """A short name for the text of package and chapters."""
    made = hashlib.sha256()
    files = [path for path in PACKAGE.rglob("*") if path.suffix in TEXTS]
    for path in sorted([*files, *(home / "workbook").glob("*.ipynb")]):
        made.update(path.read_bytes())
    return made.hexdigest()[:16]
