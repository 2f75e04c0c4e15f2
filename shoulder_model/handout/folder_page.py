"""The start page of a folder of hand-outs: what lies in it, how large it is, and which way is for which class."""

from html import escape, unescape
from pathlib import Path

from ..checkout import chapter_path, chapters
from ..recorded.grids import KINDS
from .page import WORKBOOK
from .start_page import Shelf, chapter_words, link, start_page

PAGE = "index.html"
LINES = [
    "These pages need nothing but a browser: no network, no server, no installation. Open them from this folder, send them, or put "
    "them on a web page."
]


def folder_page(folder, home):
    """Write the start page of ``folder``, from the chapters of the checkout ``home`` (paths).

    Returns
    -------
    str
        Its name with its folder, or words that say why there is none.
    """
    path = Path(folder) / PAGE
    if path.exists() and f"<title>{WORKBOOK}</title>" not in path.read_text(encoding="utf-8", errors="replace"):
        return f"{path}: not written, another page of this name lies there"
    path.write_text(start_page(LINES, shelves(Path(folder), home)), encoding="utf-8")
    return str(path)


def shelves(folder, home):
    """What lies in ``folder``, after the chapters of the checkout ``home`` (paths): a list of `start_page.Shelf`, in words."""
    named = [(chapter_words(chapter_path(home, name)), _links(folder, name)) for name in chapters(home)]
    sheet = _links(folder, "worksheet")
    return [
        panel_shelf(folder.glob("panel_*.html"), ""),
        Shelf("Chapters", "", tuple((words, links) for words, links in named if links)),
        Shelf(
            "Work sheet",
            "",
            (("One sheet for thirty people with tape measures, and its key.", sheet),) if sheet else (),
        ),
    ]


def panel_shelf(paths, room):
    """Panels that lie at ``paths``, in the folder called ``room`` (text) below the page or "": a `start_page.Shelf`, in words."""
    order = [f"panel_{kind.replace('-', '_')}.html" for kind in KINDS]
    paths = sorted(paths, key=lambda path: (order.index(path.name) if path.name in order else len(order), path.name))
    rows = tuple((escape(title_of(path)), link(room + path.name, "Open", path.stat().st_size)) for path in paths)
    return Shelf("Panels that open at once", "<p>One page each. They suit a phone.</p>", rows)


def title_of(path):
    """The title of the page at ``path``, without the workbook's, as text."""
    text = path.read_text(encoding="utf-8")
    return unescape(text[text.index("<title>") + len("<title>") : text.index("</title>")]).removesuffix(
        f" · {WORKBOOK}"
    )


def _links(folder, name):
    """Links to what there is of one chapter, as HTML."""
    found = []
    for end, words in (
        (".html", "Read"),
        (".pdf", "as PDF"),
        ("_slides.html", "Slides"),
        ("_slides.pdf", "slides as PDF"),
    ):
        path = folder / f"{name}{end}"
        if path.exists():
            found.append(link(path.name, words, path.stat().st_size))
    return "<br>".join(found)
