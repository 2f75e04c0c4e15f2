"""Chapters and figures as the site has them: for its kernel, with the edition they are of, and with what they need fetched first."""

import json
import shutil
from pathlib import Path

import nbformat

from ..checkout import chapter_path, chapters
from ..lab.trust import digest

KERNEL = {"display_name": "Python (in this page)", "language": "python", "name": "python"}
NEEDS = {  # chapters whose answers need libraries that are fetched late
    "09_reading_the_evidence": ("scipy",),
    "10_from_numbers_to_a_session": ("scipy",),
    "11_practice": ("scipy", "pint", "fsrs"),
}
EDITION = "edition"  # in a chapter's metadata: which text of the chapter this is, or was made from


def lay_out_chapters(folder, home):
    """Put chapters and their figures into ``folder`` (path), from the checkout ``home`` (path).

    Returns
    -------
    dict
        Name of each chapter -> its edition, text.
    """
    (folder / "workbook").mkdir(parents=True)
    (folder / "figures").mkdir()
    for path in (home / "figures").glob("*.svg"):
        shutil.copyfile(path, folder / "figures" / path.name)
    editions = {}
    for name in chapters(home):
        content = chapter_path(home, name).read_bytes()
        notebook = for_page(nbformat.reads(content.decode("utf-8"), as_version=4), NEEDS.get(name, ()))
        editions[name] = notebook.metadata[EDITION] = digest(content)[:16]
        (folder / "workbook" / f"{name}.ipynb").write_text(as_text(notebook), encoding="utf-8")
    return editions


def for_page(notebook, needs=()):
    """``notebook`` (nbformat's node) for the kernel of a page; ``needs`` names libraries (str) to be fetched before the first cell."""
    notebook.metadata.kernelspec = nbformat.from_dict(KERNEL)
    if needs:
        first = next(place for place, cell in enumerate(notebook.cells) if cell.cell_type == "code")
        source = f"from shoulder_model.in_page import ready\n\nawait ready({', '.join(map(repr, needs))})"
        cell = nbformat.v4.new_code_cell(source, id="fetched-first", metadata={"jupyter": {"source_hidden": True}})
        notebook.cells.insert(first, cell)
    return notebook


def as_text(notebook):
    """A ``notebook`` as text, each source and output one string: JupyterLite shows a list of lines with commas."""
    return json.dumps(notebook, ensure_ascii=False, indent=1)


def size(folder):
    """How many files are in ``folder`` (path) and below, and how many bytes: two whole numbers."""
    sizes = [path.stat().st_size for path in Path(folder).rglob("*") if path.is_file()]
    return len(sizes), sum(sizes)
