"""The first page of a folder of hand-outs, or of a site: what is where, how large, and which way is for which class."""

import json
import tomllib
from dataclasses import dataclass
from functools import cache
from html import escape
from pathlib import Path
from urllib.parse import quote

from ..lesson import chapter_question, chapter_title
from .page import WORKBOOK, foot, style, whole_page

HERE = Path(__file__).parent
HEADS = {
    "when": "Take it for", "needs": "A reader needs", "size": "Size", "wait": "Wait", "without": "What it does not do",
}  # fmt: skip


@dataclass(frozen=True)
class Shelf:
    """Part of the page: its ``title``, ``words`` above (HTML), and ``rows``, pairs of HTML: what it is, and where."""

    title: str
    words: str
    rows: tuple


@cache
def measured():
    """What ``tests/benchmarks/ways.py`` has measured: "how" in a sentence, and "values", name -> number as it is printed."""
    return json.loads((HERE / "measured.json").read_text(encoding="utf-8"))


def ways():
    """The ways to the workbook with their numbers, a list of dicts of text."""
    table = tomllib.loads((HERE / "ways.toml").read_text(encoding="utf-8"))["way"]
    return [{name: text.format_map(measured()["values"]) for name, text in row.items()} for row in table]


def megabytes(size):
    """A ``size`` in bytes as it is printed, text.

    >>> megabytes(160_000), megabytes(63_400_000)
    ('0.16 MB', '63 MB')
    """
    return f"{size / 1e6:.2f} MB" if size < 1e6 else f"{size / 1e6:.1f} MB" if size < 1e7 else f"{size / 1e6:.0f} MB"


def link(address, words, size=None):
    """A link's HTML, its ``address`` relative to the page (text); ``words`` are text, ``size`` in bytes stands behind it."""
    return f'<a href="{escape(quote(address, safe="/?=&#.-_"))}">{escape(words)}</a>' + (
        f" ({megabytes(size)})" if size else ""
    )


def chapter_words(path):
    """Title and question of the notebook at ``path``, as HTML text."""
    return f"<b>{escape(chapter_title(path))}</b><br>“{escape(chapter_question(path))}”"


def start_page(lines, shelves):
    """The page.

    Parameters
    ----------
    lines : list of str
        Paragraphs at its top, HTML.
    shelves : list of Shelf

    Returns
    -------
    str
        HTML text.
    """
    top = "".join(f"<p>{line}</p>" for line in lines)
    parts = "\n".join(_shelf(shelf) for shelf in shelves if shelf.rows)
    body = f"<header><h1>{WORKBOOK}</h1>{top}</header>\n<main>\n{parts}\n{_ways()}</main>{foot('start page')}"
    return whole_page(WORKBOOK, body, style("page", "start_page"))


def _shelf(shelf):
    rows = "".join(f"<tr><td>{what}</td><td>{where}</td></tr>" for what, where in shelf.rows)
    return f"<section><h2>{escape(shelf.title)}</h2>{shelf.words}<table class='shelf'><tbody>{rows}</tbody></table></section>"


def _ways():
    parts = []
    for way in ways():
        said = "".join(f"<dt>{head}</dt><dd>{escape(way[name])}</dd>" for name, head in HEADS.items())
        parts.append(f"<section class='way'><h3>{escape(way['name'])}</h3><dl>{said}</dl></section>")
    return (
        "<section><h2>For a tutor: which way for which class</h2>"
        f"<div class='ways'>{''.join(parts)}</div><p class='measured'>{escape(measured()['how'])}</p></section>"
    )
