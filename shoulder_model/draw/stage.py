"""Fast pictures: a still frame drawn once, and a moving layer over it.

Matplotlib draws frame, axes, ticks and still artists once as SVG. Artists made with ``animated=True`` are left out; they are
the elements of the moving layer (`draw.moving_layer`), in the same coordinates, and a move is the list of attributes that
changed. Saving a picture lets matplotlib draw all of it.
"""

import io
import re
import warnings
from functools import cached_property
from html import escape

import matplotlib as mpl
from matplotlib.text import Text

from .look import STYLE, readable
from .moving_layer import elements

EMPTY = {"path": {"d": ""}, "text": {"text": ""}}  # of an artist that is not visible
NEEDED = re.compile(r'url\(#([^)"]+)\)|href="#([^"]+)"')
STYLE_SHEET = re.compile(r"<style.*?</style>", re.DOTALL)  # matplotlib's holds for the whole page that it stands in


class Stage:
    """One figure whose animated artists move over a still frame.

    Parameters
    ----------
    figure : matplotlib.figure.Figure
        At 72 dpi, with its axes in place.
    """

    def __init__(self, figure):
        self.figure = figure
        self.width, self.height = figure.get_size_inches() * 72
        for text in figure.findobj(Text):
            text.set_color(readable(text.get_color()))
        figure.draw_without_rendering()  # settles the axes' boxes before the first picture
        self._sent = []

    @cached_property
    def animated(self):
        """Every animated artist, back to front; all have to be made before the first picture."""
        return sorted(self.figure.findobj(lambda artist: artist.get_animated()), key=lambda artist: artist.get_zorder())

    @cached_property
    def elements(self):
        """The elements of the moving layer, back to front."""
        return elements(self.animated, self.height)

    def attributes(self):
        """What each element is like now: a list of dicts, in the order of ``elements``; a hidden one is empty."""
        places = {}
        return [
            element.now(places) if element.artist.get_visible() else EMPTY[element.tag] for element in self.elements
        ]

    def layer(self):
        """The moving layer as a page builds it: for each element its tag, fixed attributes and box; no state."""
        return [{"tag": one.tag, "fixed": one.fixed, "clip": one.clip} for one in self.elements]

    def moves(self):
        """What changed since the last call, as pairs [element, {attribute: value}]; all of it the first time."""
        now = self.attributes()
        changed, self._sent = self._difference(now), now
        return changed

    def moves_ahead(self):
        """What ``moves`` would give, without counting as a call."""
        return self._difference(self.attributes())

    def _difference(self, now):
        changed = []
        for place, (new, old) in enumerate(zip(now, self._sent or [{}] * len(now), strict=True)):
            if new is not old and new != old:
                changed.append([place, {name: value for name, value in new.items() if old.get(name) != value}])
                changed[-1][1] |= {name: None for name in old if name not in new}
        return changed

    def frame(self):
        """Everything that does not move, as one ``<svg>`` element."""
        shown = [artist for artist in self.animated if artist.get_visible()]
        for artist in shown:
            artist.set_visible(False)
        try:
            text = self.save("svg").decode()
        finally:
            for artist in shown:
                artist.set_visible(True)
        body = text[text.index(">", text.index("<svg")) + 1 :]
        return f'<svg aria-hidden="true" stroke-linejoin="round" {self.box}>{STYLE_SHEET.sub("", body)}'

    def overlay(self, words):
        """The moving layer as one ``<svg>`` element that says ``words`` to a screen reader."""
        parts = [one.markup(now) for one, now in zip(self.elements, self.attributes(), strict=True)]
        return f'<svg role="img" aria-label="{escape(words)}" {self.box}>{"".join(parts)}</svg>'

    def save(self, kind, dpi=200):
        """The whole picture as bytes of ``kind`` "svg" or "png"."""
        store = io.BytesIO()
        metadata = {"Date": None} if kind == "svg" else {}
        with mpl.rc_context(STYLE), warnings.catch_warnings():
            warnings.filterwarnings(
                "ignore", message="Glyph .* missing from font"
            )  # of somebody's name: a box stands for it
            self.figure.savefig(store, format=kind, dpi=dpi, metadata=metadata)
        return store.getvalue()

    @property
    def box(self):
        """Name space and view box of both layers, as SVG attributes."""
        return f'xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {self.width:.0f} {self.height:.0f}"'


def own_names(svg, prefix):
    """``svg`` (text) with names of its own on a page of several: each begins with ``prefix`` (str), those that nothing needs go."""
    needed = {name for pair in NEEDED.findall(svg) for name in pair if name}
    svg = re.sub(r'\s+id="([^"]*)"', lambda match: f' id="{prefix}{match[1]}"' if match[1] in needed else "", svg)
    svg = re.sub(r"url\(#", f"url(#{prefix}", svg)
    return re.sub(r'href="#', f'href="#{prefix}', svg)
