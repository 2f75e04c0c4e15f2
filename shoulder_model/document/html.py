"""A document as HTML that stands alone; it prints on A4 and Letter in black and white."""

import re

from ..inputs import choice
from ..printed import markup
from .parts import Box, Entry, Fields, Heading, Line, NewPage, Numbered, Picture, Points, Question, Table

PAPERS = ("A4", "Letter")
RANGE = re.compile(r"[\d.]+–[\d.]+")
STYLE = """
@page { size: %s; margin: 12mm; @bottom-center { content: "%s" counter(page) " / " counter(pages);
  font: 8pt 'DejaVu Sans', Verdana, sans-serif; } }
body { font: 10.5pt/1.35 'DejaVu Sans', Verdana, sans-serif;
  color: #000; background: #fff; max-width: 186mm; margin: 6mm auto; }
h1 { font-size: 16pt; margin: 0 0 2mm; }
h2 { font-size: 12pt; margin: 3mm 0 1mm; break-after: avoid; } p { margin: 1.5mm 0; }
.field { display: flex; gap: 2mm; align-items: baseline; margin: 1mm 0; } .field b { min-width: 25mm; }
.field bdi:empty { flex: 0 1 100mm; border-bottom: .3mm solid #000; height: 6mm; }
.box { border: .6mm solid #000; padding: 2mm 3mm; margin: 2mm 0; break-inside: avoid; } .box b { font-size: 11pt; }
ul { margin: 1.5mm 0; padding-left: 5mm; } li { break-inside: avoid; }
section { break-inside: avoid; margin: 2.5mm 0; }
section dl { display: grid; grid-template-columns: 25mm 1fr; margin: 0; }
dt { font-weight: bold; } dd { margin: 0; }
table { border-collapse: collapse; width: 100%%; font-size: 9.5pt; line-height: 1.25; margin: 2mm 0; }
thead { display: table-header-group; } tbody, tr { break-inside: avoid; }
th, td { border: .2mm solid #000; padding: .8mm 1mm; text-align: left; vertical-align: top; overflow-wrap: break-word; }
thead th { background: #e6e6e6; } tbody { border-top: .6mm solid #000; }
.to-write td { height: 6.2mm; vertical-align: middle; font-size: 8.5pt; } .to-write th { font-size: 8.5pt; }
.range { white-space: nowrap; }
.question { display: grid; grid-template-columns: 9mm 1fr; margin: 5mm 0; }
.question > b { font-size: 12pt; line-height: 1.2; }
.question > div > :first-child { margin-top: 0; } .question p.list { font-weight: bold; margin: 2mm 0 0; }
.signs { list-style: none; margin: 1mm 0; padding: 0; }
.signs li { display: grid; grid-template-columns: 7mm 1fr; margin: .8mm 0; }
.answer { margin: 4mm 0 0; }
.answer i { display: inline-block; width: 62mm; margin: 0 2mm; border-bottom: .3mm solid #000; }
figure { margin: 2mm 0; break-inside: avoid; } figure svg { display: block; width: 100%%; }
figcaption { font-size: 9pt; }
.new-page { break-before: page; }
@media print { body { margin: 0; max-width: none; } }
"""


def document_html(document, paper="A4"):
    """A whole document as HTML text.

    Parameters
    ----------
    document : parts.Document
    paper : "A4" or "Letter"
        Its name.

    Raises
    ------
    InputError
        The paper is another.
    """
    choice("paper", paper, PAPERS)
    writer = _Writer()
    body = "\n".join(writer.part(part) for part in document.parts)
    title, footer = markup(document.title), f"{_css(document.footer)} \\2003 " if document.footer else ""
    return (
        f'<!doctype html>\n<html lang="en"><head><meta charset="utf-8"><title>{title}</title>'
        f"<style>{STYLE % (paper, footer)}</style></head><body>\n<h1>{title}</h1>\n{body}\n</body></html>\n"
    )


def table_html(table):
    """One ``table`` (`parts.Table`) as HTML text, to be shown inside another page."""
    return _table(table)


def _css(words):
    """Words inside the quotes of a style sheet."""
    return "".join(sign if sign.isalnum() or sign == " " else f"\\{ord(sign):06x} " for sign in words)


def _text(words):
    """Words as HTML; a range of numbers is never broken in two."""
    return RANGE.sub(r'<span class="range">\g<0></span>', markup(words))


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


def _signs(pairs):
    return (
        '<ul class="signs">'
        + "".join(f"<li><b>{_text(sign)}</b> <span>{_text(words)}</span></li>" for sign, words in pairs)
        + "</ul>"
    )


def _numbered(part):
    lines = _signs((str(place), line) for place, line in enumerate(part.lines, 1))
    return f"<section><p><b>{_text(part.head)}</b></p>{lines}</section>"


class _Writer:
    """Parts as HTML; counts the pictures, whose arrow heads need names of their own on a page."""

    def __init__(self):
        self._pictures = 0

    def part(self, part):
        if isinstance(part, Picture):
            return self._picture(part)
        return self._question(part) if isinstance(part, Question) else _WRITTEN[type(part)](part)

    def _picture(self, part):
        self._pictures += 1
        caption = f"<figcaption>{_text(part.caption)}</figcaption>" if part.caption else ""
        return f'<figure style="width:{part.width:g}mm">{part.scene.svg(f"picture{self._pictures}")}{caption}</figure>'

    def _question(self, part):
        told = "".join(f"<p>{_text(words)}</p>" for words in part.paragraphs)
        told += self._picture(part.picture) if part.picture else ""
        for title, pairs in part.lists:
            told += (f'<p class="list">{_text(title)}</p>' if title else "") + _signs(pairs)
        told += f'<div style="height:{part.space:g}mm"></div>' if part.space else ""
        told += f'<p class="answer"><b>{_text(part.answer)}</b><i></i>{_text(part.unit)}</p>'
        return f'<section class="question"><b>{_text(part.number)}</b><div>{told}</div></section>'


_WRITTEN = {
    Fields: _fields, Heading: _heading, Line: _line, Points: _points, Box: _box, Entry: _entry, Table: _table,
    NewPage: _new_page, Numbered: _numbered,
}  # fmt: skip
