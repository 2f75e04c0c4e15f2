"""The first page of a site: chapters, panels that open at once, what stays where, and which way is for which class."""

import re

from ..checkout import chapter_path
from ..handout.folder_page import panel_shelf
from ..handout.start_page import Shelf, chapter_words, link, measured, start_page

CONFIG = re.compile(r'<script id="jupyter-config-data".*?</script>', re.DOTALL)  # JupyterLite looks for it at the root
PANELS = "panels"  # folder of the site with recorded panels
PAGE = "notebooks/index.html?path=workbook/{name}.ipynb"


def write_start_page(folder, home, editions):
    """Write ``index.html`` into the site's ``folder``, over the one by which JupyterLite knows its root.

    Parameters
    ----------
    folder, home : path
        Of the site, of the checkout.
    editions : dict
        Name of each chapter -> its edition.
    """
    chapters = [(chapter_words(chapter_path(home, name)), link(PAGE.format(name=name), "Open")) for name in editions]
    panels = panel_shelf((folder / PANELS).glob("*.html"), f"{PANELS}/")
    size = measured()["values"]["site cold MB"]
    words = (
        f"<p>A chapter brings Python into this page. The first one fetches about {size} MB and takes a while; you can read it meanwhile. "
        "Later ones start from what is here, also without a network where the browser allows it.</p>"
    )
    lines = [
        "How wide should I hold the bar? Row or pulldown? This workbook answers with reasons. Nothing has to be installed.",
        "What you save, and your practice answers, stay in this browser on this computer. Whoever clears the browser’s data "
        "removes them, so save a copy now and then: <i>File</i>, <i>Download</i> for a chapter; a button in chapter 11 for the "
        "answers.",
    ]
    page = start_page(lines, [panels, Shelf("Chapters", words, tuple(chapters))])
    root = CONFIG.search((folder / "index.html").read_text(encoding="utf-8"))
    (folder / "index.html").write_text(page.replace("</head>", f"{root[0]}\n</head>", 1), encoding="utf-8")
