"""The page of a week as HTML that stands alone; it prints on A4 and Letter in black and white."""

import re
from html import escape

from ..inputs import choice
from .document import Box, Entry, Fields, Heading, Line, NewPage, Points, Table
from .parts import document, week_table

PAPERS = ("A4", "Letter")
RANGE = re.compile(r"[\d.]+–[\d.]+")
STYLE = """
@page { size: %s; margin: 12mm; @bottom-center { content: counter(page) " / " counter(pages); font-size: 8pt; } }
body { font: 10.5pt/1.35 'DejaVu Sans', Verdana, sans-serif;
  color: #000; background: #fff; max-width: 186mm; margin: 6mm auto; }
h1 { font-size: 16pt; margin: 0 0 2mm; } h2 { font-size: 12pt; margin: 3mm 0 1mm; break-after: avoid; } p { margin: 1.5mm 0; }
.field { display: flex; gap: 2mm; align-items: baseline; margin: 1mm 0; } .field b { min-width: 25mm; }
.field bdi:empty { flex: 0 1 100mm; border-bottom: .3mm solid #000; height: 6mm; }
.box { border: .6mm solid #000; padding: 2mm 3mm; margin: 2mm 0; break-inside: avoid; } .box b { font-size: 11pt; }
ul { margin: 1.5mm 0; padding-left: 5mm; } li { break-inside: avoid; }
section { break-inside: avoid; margin: 2.5mm 0; } section dl { display: grid; grid-template-columns: 25mm 1fr; margin: 0; }
dt { font-weight: bold; } dd { margin: 0; }
table { border-collapse: collapse; width: 100%%; font-size: 9.5pt; line-height: 1.25; margin: 2mm 0; }
thead { display: table-header-group; } tbody, tr { break-inside: avoid; }
th, td { border: .2mm solid #000; padding: .8mm 1mm; text-align: left; vertical-align: top; overflow-wrap: break-word; }
thead th { background: #e6e6e6; } tbody { border-top: .6mm solid #000; }
.to-write td { height: 6.2mm; vertical-align: middle; font-size: 8.5pt; } .to-write th { font-size: 8.5pt; }
.range { white-space: nowrap; }
.new-page { break-before: page; }
@media print { body { margin: 0; max-width: none; } }
"""


def page_html(answer, *, date="", paper="A4"):
    """A whole page to print, as HTML text.

    Parameters
    ----------
    answer : plan.Plan, health.NoWeek, or a tuple of two of them
    date : str
        As it is to be printed; without it there is a line to write on.
    paper : "A4" or "Letter"

    Raises
    ------
    InputError
        As `parts.document`; or the paper is another.
    """
    choice("paper", paper, PAPERS)
    page = document(answer, date)
    body = "\n".join(_WRITTEN[type(part)](part) for part in page.parts)
    return (
        f'<!doctype html>\n<html lang="en"><head><meta charset="utf-8"><title>{escape(page.title)}</title>'
        f"<style>{STYLE % paper}</style></head><body>\n<h1>{escape(page.title)}</h1>\n{body}\n</body></html>\n"
    )


def _text(words):
    """Words as HTML; a range of numbers is never broken in two."""
    return RANGE.sub(r'<span class="range">\g<0></span>', escape(words))


def table_html(plan):
    """The days of a ``plan`` (`week.plan.Plan`) as an HTML table, in words, to be shown inside another page."""
    return _table(week_table(plan))


def _fields(part):
    return "".join(
        f'<p class="field"><b>{_text(label)}</b> <bdi>{_text(value)}</bdi></p>' for label, value in part.pairs
    )


def _heading(part):
    return f"<h2>{_text(part.text)}</h2>"


def _line(part):
    words = _text(part.text)
    return f"<p><b>{words}</b></p>" if part.strong else f"<p>{words}</p>"


def _points(part):
    return "<ul>" + "".join(f"<li>{_text(line)}</li>" for line in part.lines) + "</ul>"


def _box(part):
    return (
        f'<div class="box"><b>{_text(part.title)}</b>'
        + "".join(f"<p>{_text(line)}</p>" for line in part.lines)
        + "</div>"
    )


def _entry(part):
    pairs = "".join(f"<dt>{_text(label)}</dt><dd>{_text(words)}</dd>" for label, words in part.pairs)
    return f"<section><p><b>{_text(part.head)}</b></p><dl>{pairs}</dl></section>"


def _table(part):
    whole = sum(part.widths)
    columns = "".join(f'<col style="width:{100 * width / whole:.1f}%">' for width in part.widths)
    heads = "".join(f'<th scope="col">{_text(head)}</th>' for head in part.heads)
    bodies = "".join(_group(first, rows) for first, rows in part.groups)
    kind = ' class="to-write"' if part.to_write else ""
    return f"<table{kind}><colgroup>{columns}</colgroup><thead><tr>{heads}</tr></thead>{bodies}</table>"


def _group(first, rows):
    """The rows with one first cell, which stands in front of all of them."""
    head = f'<th scope="rowgroup" rowspan="{len(rows)}">{_text(first)}</th>'
    lines = ("".join(f"<td>{_text(cell)}</td>" for cell in row) for row in rows)
    return "<tbody><tr>" + head + "</tr><tr>".join(lines) + "</tr></tbody>"


def _new_page(part):
    return '<div class="new-page"></div>'


_WRITTEN = {
    Fields: _fields, Heading: _heading, Line: _line, Points: _points, Box: _box, Entry: _entry, Table: _table,
    NewPage: _new_page,
}  # fmt: skip
