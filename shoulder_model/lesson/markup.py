"""Markdown as HTML that needs no network: formulas and pictures stand in the page itself.

A formula is drawn by matplotlib, and stands as MathML beside it for a screen reader. A picture is the project's own SVG, in the
page's text, so that its letters are the page's, with its alt text. Links to other chapters lead to their pages where there are
some, and are plain words where there are none.
"""

import io
import re
from collections.abc import Callable
from dataclasses import dataclass
from functools import lru_cache
from html import escape, unescape
from pathlib import Path

import matplotlib as mpl
import mistune
from latex2mathml.converter import convert
from matplotlib.font_manager import FontProperties
from matplotlib.mathtext import math_to_image

from ..draw.look import STYLE
from ..draw.stage import STYLE_SHEET

FORMULA = re.compile(r"\$\$(?P<block>.+?)\$\$|\$(?P<inline>[^$\n]+)\$", re.DOTALL)
LETTER = re.compile(r"&#(\d{3,});")  # a letter beyond ASCII, as figures are stored
MATH_POINTS = 12.0  # of a formula's letters, drawn; the page scales it with its text


@dataclass(frozen=True)
class Page:
    """What a piece of Markdown becomes part of.

    Parameters
    ----------
    figures : path-like or tuple of path-like
        Folder with the figures' SVG files; of several, the first that has a figure gives it.
    address : callable
        ``address(target)`` for a link's target (str) as the chapter has it: its address on this page (str), or None where it
        leads nowhere from here.
    """

    figures: Path | tuple
    address: Callable = lambda target: None

    def html(self, markdown):
        """``markdown`` (str) as HTML text."""
        formulas = []

        def put_aside(match):
            formulas.append(formula(match["block"] or match["inline"], bool(match["block"])))
            return f"\x02{len(formulas) - 1}\x03"

        page = mistune.create_markdown(renderer=_Renderer(self), plugins=["table", "strikethrough"])
        text = page(FORMULA.sub(put_aside, markdown))
        return re.sub("\x02(\\d+)\x03", lambda match: formulas[int(match[1])], text)

    def picture(self, name, words):
        """The figure ``name`` (str) as an SVG element that says ``words`` (str) to a screen reader."""
        folders = self.figures if isinstance(self.figures, tuple) else (self.figures,)
        places = [Path(folder) / f"{name}.svg" for folder in folders]
        file = next((place for place in places if place.is_file()), places[-1])
        return inlined(file.read_text(encoding="utf-8"), words)


def plain_html(markdown):
    """``markdown`` (str) of somebody else as HTML (str): HTML in it is shown, not used; links and pictures are their words."""
    return mistune.create_markdown(renderer=_PlainRenderer(), plugins=["table"])(markdown)


class _PlainRenderer(mistune.HTMLRenderer):
    """What a stranger wrote, escaped."""

    def image(self, text, url, title=None):
        return escape(text)

    def link(self, text, url, title=None):
        return text


class _Renderer(mistune.HTMLRenderer):
    """Chapters are the project's own, so HTML in them stays; pictures and links are the page's."""

    def __init__(self, page):
        super().__init__(escape=False)
        self.page = page

    def image(self, text, url, title=None):
        return self.page.picture(Path(url).stem, unescape(text))  # mistune has escaped it once

    def link(self, text, url, title=None):
        there = url if url.startswith("https://") else self.page.address(url)
        return f'<a href="{escape(there)}">{text}</a>' if there else text

    def paragraph(self, text):
        return f"{text}\n" if text.startswith("<svg") and text.rstrip().endswith("</svg>") else f"<p>{text}</p>\n"


def inlined(svg, words):
    """A saved picture (``svg``, text) as one element of a page, with ``words`` (str) as its alt text."""
    start = svg.index("<svg")
    head, body = svg[start : svg.index(">", start)], svg[svg.index(">", start) + 1 :]
    box = re.search(r'viewBox="[^"]*"', head)[0]
    links = 'xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink"'
    body = STYLE_SHEET.sub("", re.sub(r"<metadata>.*?</metadata>|<!--.*?-->", "", body, flags=re.DOTALL))
    body = LETTER.sub(lambda match: chr(int(match[1])), body)
    return f'<svg class="picture" role="img" aria-label="{escape(words)}" stroke-linejoin="round" {links} {box}>{body.strip()}'


@lru_cache(maxsize=512)
def formula(tex, block=False):
    """A formula as HTML text: a drawing, and beside it MathML for a screen reader.

    Parameters
    ----------
    tex : str
        LaTeX without its dollar signs.
    block : bool
        On a line of its own.
    """
    tex = " ".join(tex.split())
    drawn = re.sub(r"\\tfrac(\d)(\d)", r"\\frac{\1}{\2}", tex).replace("°", r"\degree ")
    drawn = drawn.replace(r"\frac{", r"\dfrac{") if block and r"\tfrac" not in tex else drawn
    store = io.BytesIO()
    with mpl.rc_context(STYLE | {"svg.fonttype": "path", "mathtext.fontset": "dejavusans"}):
        depth = math_to_image(f"${drawn}$", store, prop=FontProperties(size=MATH_POINTS), dpi=72, format="svg")
    svg = store.getvalue().decode()
    width, height = (float(re.search(rf'{side}="([\d.]+)pt"', svg)[1]) / MATH_POINTS for side in ("width", "height"))
    size = f"width:{width:.3f}em;height:{height:.3f}em;vertical-align:{-depth / MATH_POINTS:.3f}em"
    picture = inlined(svg, "").replace('class="picture" role="img" aria-label=""', f'aria-hidden="true" style="{size}"')
    kind, spoken = ("block", "div") if block else ("inline", "span")
    return f'<{spoken} class="formula {kind}">{picture}<span class="spoken">{convert(tex)}</span></{spoken}>'
