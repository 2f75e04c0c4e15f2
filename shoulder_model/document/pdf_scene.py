"""A small picture of lines and letters on a PDF, drawn as `scene.Scene.svg` draws it."""

import math

from .scene import INK, KINDS, LETTER, Dot, Label, Stroke

POINT = 25.4 / 72  # mm
HEAD, BACK = 5.0, 5 / 6  # of an arrow: its length in widths of the line; where on it the line ends
RING, MIDDLE, PLACE = (
    0.5,
    1.5,
    3.0,
)  # of a picture 100 wide: a ring's line, a letter's middle above its foot, radius of a place


def draw(sheet, scene, left, top, width, letters):
    """Draw a picture on a page.

    Parameters
    ----------
    sheet : fpdf.FPDF
        With millimetres as its unit.
    scene : scene.Scene
    left, top, width : float
        Where it stands and how wide it is. [mm]
    letters : tuple
        The name of the font, and a function that puts a text into the order of its letters on paper.
    """
    _Pen(sheet, left, top, width / 100, letters).all(scene)
    sheet.set_draw_color(0)
    sheet.set_fill_color(0)
    sheet.set_line_width(0.2)


class _Pen:
    """Puts shapes of a picture 100 wide on a page."""

    def __init__(self, sheet, left, top, scale, letters):
        self.sheet, self.left, self.top, self.scale = sheet, left, top, scale
        self.family, self.shown = letters

    def all(self, scene):
        for shape in scene.shapes:
            _DRAWN[type(shape)](self, shape)
        for mark in scene.marks:
            self._ring(mark.x, mark.y, PLACE)
            self._letters(mark.letter, mark.x, mark.y + MIDDLE, "middle")

    def _at(self, x, y):
        return self.left + self.scale * x, self.top + self.scale * y

    def _line(self, shape):
        colour, width, dashes = KINDS[shape.kind]
        self.sheet.set_draw_color(colour)
        self.sheet.set_line_width(self.scale * width)
        if dashes:
            self.sheet.set_dash_pattern(*(self.scale * float(part) for part in dashes.split()))
        points = [self._at(*point) for point in shape.points]
        if shape.arrow:
            points[-1] = self._arrow(points[-2], points[-1], self.scale * width * HEAD)
        self.sheet.polyline(points)
        self.sheet.set_dash_pattern()

    def _arrow(self, before, end, size):
        """An arrow's head at the end of a line; returns where the line has to stop, so that it does not show at the
        tip.
        """
        long = math.dist(before, end) or 1.0
        along = [(there - here) / long for here, there in zip(before, end, strict=True)]
        tip = [place + (1 - BACK) * size * way for place, way in zip(end, along, strict=True)]
        base = [place - size * way for place, way in zip(tip, along, strict=True)]
        sides = [(base[0] - half * along[1], base[1] + half * along[0]) for half in (size / 2, -size / 2)]
        self.sheet.set_fill_color(INK)
        self.sheet.polygon((tuple(tip), *sides), style="F")
        return tuple(base)

    def _dot(self, shape):
        self._ring(shape.x, shape.y, shape.radius, "#fff" if shape.open else INK)

    def _ring(self, x, y, radius, fill="#fff"):
        self.sheet.set_draw_color(INK)
        self.sheet.set_fill_color(fill)
        self.sheet.set_line_width(self.scale * RING)
        corner = self._at(x - radius, y - radius)
        self.sheet.ellipse(*corner, 2 * radius * self.scale, 2 * radius * self.scale, style="DF")

    def _label(self, shape):
        self._letters(shape.text, shape.x, shape.y, shape.anchor)

    def _letters(self, text, x, y, anchor):
        self.sheet.set_font(self.family, "", self.scale * LETTER / POINT)
        words = self.shown(text)
        wide = self.sheet.get_string_width(words)
        x, y = self._at(x, y)
        self.sheet.text(x - {"start": 0, "middle": wide / 2, "end": wide}[anchor], y, words)


_DRAWN = {Stroke: _Pen._line, Dot: _Pen._dot, Label: _Pen._label}
