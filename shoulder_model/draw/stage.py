"""Fast pictures: a still frame drawn once, and the moving artists laid over it.

Matplotlib draws frame, axes, ticks and still artists once as SVG. Artists made with
``animated=True`` are left out; on each move only they become SVG, in the same coordinates. Saving a
picture lets matplotlib draw all of it.
"""

import io
from functools import cached_property
from html import escape

import matplotlib as mpl
import numpy as np
from matplotlib.colors import to_hex
from matplotlib.lines import Line2D
from matplotlib.patches import Patch
from matplotlib.path import Path
from matplotlib.text import Text

from .look import STYLE

LETTER = {Path.MOVETO: "M", Path.LINETO: "L", Path.CURVE3: "Q", Path.CURVE4: "C"}
DASHES = {"--": "lines.dashed_pattern", "-.": "lines.dashdot_pattern", ":": "lines.dotted_pattern"}
ANCHOR = {"left": "start", "center": "middle", "right": "end"}
DROP = {"top": "0.8em", "center": "0.35em", "center_baseline": "0.35em", "bottom": "-0.2em", "baseline": "0"}
FONTS = "'DejaVu Sans', Verdana, sans-serif"


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
        figure.draw_without_rendering()  # settles the axes' boxes before the first overlay

    @cached_property
    def animated(self):
        """Every animated artist, back to front; all have to be made before the first picture."""
        return sorted(self.figure.findobj(lambda artist: artist.get_animated()), key=lambda artist: artist.get_zorder())

    @property
    def moving(self):
        """Visible animated artists, back to front."""
        return [artist for artist in self.animated if artist.get_visible()]

    def frame(self):
        """Everything that does not move, as one ``<svg>`` element."""
        moving = self.moving
        for artist in moving:
            artist.set_visible(False)
        try:
            text = self.save("svg").decode()
        finally:
            for artist in moving:
                artist.set_visible(True)
        body = text[text.index(">", text.index("<svg")) + 1 :]
        return f'<svg aria-hidden="true" {self._box()}>{body}'

    def overlay(self, words):
        """The moving artists as one ``<svg>`` element that says ``words`` to a screen reader."""
        parts = [self._element(artist) for artist in self.moving]
        return f'<svg role="img" aria-label="{escape(words)}" {self._box()}>{"".join(parts)}</svg>'

    def save(self, kind, dpi=200):
        """The whole picture as bytes of ``kind`` "svg" or "png"."""
        store = io.BytesIO()
        metadata = {"Date": None} if kind == "svg" else {}
        with mpl.rc_context(STYLE):
            self.figure.savefig(store, format=kind, dpi=dpi, metadata=metadata)
        return store.getvalue()

    def _box(self):
        return (
            f'xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {self.width:.0f} {self.height:.0f}" '
            f'style="display:block;width:100%;height:auto"'
        )

    def _element(self, artist):
        if isinstance(artist, Text):
            return self._text(artist)
        draw = {Line2D: self._line, Patch: self._patch}[Line2D if isinstance(artist, Line2D) else Patch]
        if artist.axes is None or not artist.get_clip_on():
            return draw(artist)
        x0, y0, x1, y1 = artist.axes.bbox.extents
        box = f"{x0:.1f} {self.height - y1:.1f} {x1 - x0:.1f} {y1 - y0:.1f}"
        x, y, w, h = box.split()
        return f'<svg x="{x}" y="{y}" width="{w}" height="{h}" viewBox="{box}">{draw(artist)}</svg>'

    def _line(self, line):
        if not len(line.get_xdata()):
            return ""
        place = line.get_transform()
        path = place.transform_path(line.get_path())
        out = []
        if line.get_linestyle() != "None":
            out.append(
                f'<path d="{self._d(path)}" fill="none" {_stroke(line, line.get_color(), line.get_linewidth())}/>'
            )
        if line.get_marker() not in ("", "None", None):
            out += [self._marker(line, point) for point in path.vertices if np.isfinite(point).all()]
        return "".join(out)

    def _marker(self, line, point):
        shape = mpl.markers.MarkerStyle(line.get_marker())
        outline = shape.get_transform().scale(line.get_markersize()).translate(*point).transform_path(shape.get_path())
        fill = to_hex(line.get_markerfacecolor()) if line.get_markerfacecolor() != "none" else "none"
        edge, wide = to_hex(line.get_markeredgecolor()), line.get_markeredgewidth()
        return f'<path d="{self._d(outline)}" fill="{fill}" stroke="{edge}" stroke-width="{wide:.1f}"/>'

    def _patch(self, patch):
        path = patch.get_transform().transform_path(patch.get_path())
        face = patch.get_facecolor()
        fill = f'fill="{to_hex(face)}" fill-opacity="{face[3]:.2f}"' if patch.get_fill() and face[3] else 'fill="none"'
        edge = patch.get_edgecolor()
        stroke = _stroke(patch, edge, patch.get_linewidth()) if edge[3] and patch.get_linewidth() else ""
        return f'<path d="{self._d(path)}" {fill} {stroke}/>'

    def _text(self, text):
        if not text.get_text():
            return ""
        x, y = text.get_transform().transform(text.get_position())
        halo = 'stroke="white" stroke-width="3" stroke-linejoin="round" paint-order="stroke"'
        return (
            f'<text x="{x:.1f}" y="{self.height - y:.1f}" dy="{DROP[text.get_va()]}" '
            f'text-anchor="{ANCHOR[text.get_ha()]}" font-family="{FONTS}" font-size="{text.get_fontsize():.1f}" '
            f'font-weight="{text.get_fontweight()}" fill="{to_hex(text.get_color())}" {halo}>{escape(text.get_text())}</text>'
        )

    def _d(self, path):
        """SVG path data of a matplotlib path in display coordinates; a point that is not finite breaks the line."""
        vertices, codes = path.vertices, path.codes
        closed = codes is not None and codes[-1] == Path.CLOSEPOLY
        corners = vertices[:-1] if closed else vertices
        if _only_straight(codes) and np.isfinite(corners).all():
            flat = np.column_stack([corners[:, 0], self.height - corners[:, 1]]).ravel().tolist()
            return "M" + "L".join(["%.1f,%.1f"] * len(corners)) % tuple(flat) + ("Z" if closed else "")
        out = []
        for points, code in path.iter_segments(remove_nans=True, simplify=False, curves=True):
            if code == Path.CLOSEPOLY:
                out.append("Z")
            elif code in LETTER:
                x, y = points[0::2], self.height - points[1::2]
                out.append(LETTER[code] + " ".join(f"{a:.1f},{b:.1f}" for a, b in zip(x, y, strict=True)))
        return "".join(out)


def _only_straight(codes):
    """Whether a path is one line from corner to corner, closed or not."""
    if codes is None:
        return True
    return codes[0] == Path.MOVETO and (codes[1:-1] == Path.LINETO).all() and codes[-1] in (Path.LINETO, Path.CLOSEPOLY)


def _stroke(artist, colour, width):
    style = artist.get_linestyle()
    dash = ""
    if style in DASHES:
        dash = f' stroke-dasharray="{" ".join(f"{d * width:.1f}" for d in mpl.rcParams[DASHES[style]])}"'
    cap = "butt" if dash else "round"
    alpha = artist.get_alpha()
    opacity = "" if alpha is None else f' stroke-opacity="{alpha:.2f}"'
    return f'stroke="{to_hex(colour)}" stroke-width="{width:.1f}" stroke-linecap="{cap}" stroke-linejoin="round"{dash}{opacity}'
