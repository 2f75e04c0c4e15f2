"""A small picture made of lines and letters, for questions: drawn in black, kept as text, with its words.

It is SVG without a drawing library, so that thousands of sheets can have their own, and its marks can be pressed.
"""

from dataclasses import dataclass, field

from ..printed import markup

INK, SOFT, FILL = "#111", "#666", "#d9d9d9"
KINDS = {  # kind of line -> (colour, width, dashes)
    "body": ("#8a8a8a", 1.6, ""),
    "load": (INK, 1.2, ""),
    "guide": (SOFT, 0.5, "2 1.6"),
    "axis": (INK, 0.5, ""),
    "interval": (INK, 0.9, ""),
}
DOT, LETTER = 1.1, 4.2  # radius of a dot, height of letters, of a picture 100 wide


@dataclass(frozen=True)
class Stroke:
    """A line through ``points``, pairs (x, y) of a picture 100 wide, y down; its ``kind`` in a word, of `KINDS`;
    ``arrow`` at its end or not.
    """

    points: tuple
    kind: str = "body"
    arrow: bool = False


@dataclass(frozen=True)
class Dot:
    """A dot at ``x``, ``y``; ``open`` is a ring, ``radius`` in the picture's unit."""

    x: float
    y: float
    open: bool = False
    radius: float = DOT


@dataclass(frozen=True)
class Label:
    """A ``text`` that begins ("start"), ends ("end") or is in the middle at ``x``, ``y`` as ``anchor`` says in a
    word.
    """

    x: float
    y: float
    text: str
    anchor: str = "start"


@dataclass(frozen=True)
class Mark:
    """A place that can be picked: its ``letter``, where it is, ``x`` and ``y``, and ``words`` that say where, without
    the answer.
    """

    letter: str
    x: float
    y: float
    words: str


@dataclass(frozen=True)
class Scene:
    """A picture 100 wide and ``height`` high.

    ``words`` (text) say what it shows to who does not see it; ``shapes`` (tuple) are drawn in order; ``marks`` (tuple
    of `Mark`) can be picked.
    """

    words: str
    height: float
    shapes: tuple
    marks: tuple = field(default=())

    @property
    def full_words(self):
        """The words with those of the marks, one text."""
        return " ".join([self.words, *(f"{mark.letter}: {mark.words}." for mark in self.marks)])

    def svg(self, name="picture"):
        """The picture as SVG text; ``name`` (text, one a page) keeps its arrow head apart from others."""
        head = (
            f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 100 {self.height:g}" role="img" '
            f'aria-label="{markup(self.full_words)}" font-family="DejaVu Sans, Verdana, sans-serif" '
            f'font-size="{LETTER}">'
            f'<defs><marker id="{markup(name)}-tip" viewBox="0 0 6 6" refX="5" refY="3" markerWidth="5" '
            f'markerHeight="5" orient="auto"><path d="M0 0L6 3L0 6z" fill="{INK}"/></marker></defs>'
        )
        body = "".join(_SVG[type(shape)](shape, name) for shape in self.shapes)
        return head + body + "".join(map(_mark, self.marks)) + "</svg>"


def _stroke(shape, name):
    colour, width, dashes = KINDS[shape.kind]
    points = " ".join(f"{x:.2f},{y:.2f}" for x, y in shape.points)
    dashed = f' stroke-dasharray="{dashes}"' if dashes else ""
    tip = f' marker-end="url(#{markup(name)}-tip)"' if shape.arrow else ""
    line = f'stroke="{colour}" stroke-width="{width}" stroke-linecap="round" stroke-linejoin="round"{dashed}{tip}'
    return f'<polyline points="{points}" fill="none" {line}/>'


def _dot(shape, name):
    fill = "#fff" if shape.open else INK
    ring = f'cx="{shape.x:.2f}" cy="{shape.y:.2f}" r="{shape.radius:g}"'
    return f'<circle {ring} fill="{fill}" stroke="{INK}" stroke-width="0.5"/>'


def _label(shape, name):
    place = f'x="{shape.x:.2f}" y="{shape.y:.2f}" text-anchor="{shape.anchor}"'
    return f'<text {place} fill="{INK}">{markup(shape.text)}</text>'


def _mark(mark):
    return (
        f'<g class="mark" data-letter="{markup(mark.letter)}"><circle cx="{mark.x:.2f}" cy="{mark.y:.2f}" r="3" '
        f'fill="#fff" stroke="{INK}" stroke-width="0.5"/><text x="{mark.x:.2f}" y="{mark.y + 1.5:.2f}" '
        f'text-anchor="middle" fill="{INK}">'
        f"{markup(mark.letter)}</text></g>"
    )


_SVG = {Stroke: _stroke, Dot: _dot, Label: _label}
