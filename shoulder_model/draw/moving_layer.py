"""What moves in a picture, as SVG elements whose attributes change: one or two elements an artist, made once.

Matplotlib's artists hold the values (`draw.artists`); here they become attributes in the picture's own points, about as fast
as the numbers can be written. A page that has the elements needs only those attributes that changed.
"""

from functools import cache
from html import escape

import matplotlib as mpl
import numpy as np
from matplotlib.artist import Artist
from matplotlib.colors import to_hex
from matplotlib.lines import Line2D
from matplotlib.patches import Polygon, Rectangle
from matplotlib.path import Path
from matplotlib.text import Text

from .look import readable

LETTER = {Path.MOVETO: "M", Path.LINETO: "L", Path.CURVE3: "Q", Path.CURVE4: "C"}
DASHES = {"--": "lines.dashed_pattern", "-.": "lines.dashdot_pattern", ":": "lines.dotted_pattern"}
ANCHOR = {"left": "start", "center": "middle", "right": "end"}
DROP = {"top": "0.8em", "center": "0.35em", "center_baseline": "0.35em", "bottom": "-0.2em", "baseline": "0"}
FONTS = "'DejaVu Sans', Verdana, sans-serif"
HALO = {"stroke": "white", "stroke-width": "3", "stroke-linejoin": "round", "paint-order": "stroke"}
NOTHING = {"d": ""}


class Element:
    """One SVG element for one artist.

    ``tag`` its name; ``fixed`` attributes that never change; ``clip`` the box (x, y, width, height) it is seen in, or None.
    """

    tag = "path"

    def __init__(self, artist, height):
        self.artist, self.height, self.fixed = artist, height, {}
        self.clip = self._clip()
        self._key, self._made = None, None

    def now(self, places):
        """What changes, as attributes; the very dict of last time where the artist is as it was then."""
        key = self.key(places)
        if key is None or key != self._key:
            self._key, self._made = key, self.attributes(places)
        return self._made

    def place(self, places):
        """The affine map from data to the picture's points, (2, 3), y downwards; ``places`` remembers it during one drawing."""
        transform = Artist.get_transform(self.artist)
        matrix = places.get(id(transform))
        if matrix is None:
            matrix = transform.get_affine().get_matrix()
            matrix = np.vstack([matrix[0], [0, 0, self.height] - matrix[1]])
            places[id(transform)] = matrix, matrix.tobytes()
        return places[id(transform)]

    def _clip(self):
        artist = self.artist
        if artist.axes is None or not artist.get_clip_on() or isinstance(artist, Text):
            return None
        x0, y0, x1, y1 = artist.axes.bbox.extents
        return [round(float(value), 1) for value in (x0, self.height - y1, x1 - x0, y1 - y0)]

    def points(self, xy, places):
        """Data ``xy`` (n, 2) in the picture's points."""
        matrix, _ = self.place(places)
        return xy @ matrix[:, :2].T + matrix[:, 2]

    def markup(self, attributes):
        """The element as text, with these ``attributes`` (dict) beside the fixed ones."""
        given = self.fixed | attributes
        text = escape(given.pop("text", ""))
        body = " ".join(f'{name}="{escape(str(value))}"' for name, value in given.items())
        inside = f"<{self.tag} {body}>{text}</{self.tag}>"
        if self.clip is None:
            return inside
        x, y, w, h = self.clip
        return f'<svg x="{x}" y="{y}" width="{w}" height="{h}" viewBox="{x} {y} {w} {h}">{inside}</svg>'


class Stroke(Element):
    """The line of a Line2D."""

    def __init__(self, artist, height):
        super().__init__(artist, height)
        self.fixed = {"fill": "none"}

    def key(self, places):
        """All that the attributes hang on."""
        line = self.artist
        look = line.get_color(), line.get_linewidth(), line.get_linestyle(), line.get_alpha()
        return (self.place(places)[1], _data(line).tobytes(), *look)

    def attributes(self, places):
        """What changes: the path and how it is drawn."""
        line = self.artist
        xy = _data(line)
        if not len(xy) or line.get_linestyle() == "None":
            return NOTHING
        style = stroke(line.get_color(), line.get_linewidth(), line.get_linestyle(), line.get_alpha())
        return {"d": polyline(self.points(xy, places))} | style


class Marks(Element):
    """The markers of a Line2D, all in one path."""

    def key(self, places):
        """All that the attributes hang on."""
        line = self.artist
        look = line.get_marker(), line.get_markersize(), *_marks_key(line)
        return (self.place(places)[1], _data(line).tobytes(), *look)

    def attributes(self, places):
        """What changes: the path and its colours."""
        line = self.artist
        xy = _data(line)
        if not len(xy):
            return NOTHING
        shape = marker(line.get_marker(), line.get_markersize())
        xy = self.points(xy, places)
        d = "".join(shape.format(x=x, y=y) for x, y in xy[np.isfinite(xy).all(axis=1)].round(1).tolist())
        return {"d": d} | _marks_look(*_marks_key(line))


class Shape(Element):
    """A patch: polygon, rectangle, circle or whatever else has a path."""

    def key(self, places):
        """All that the attributes hang on; None for a patch whose own transform may change."""
        patch = self.artist
        if not isinstance(patch, Polygon):
            return None
        return (self.place(places)[1], patch.get_xy().tobytes(), *self._look())

    def _look(self):
        patch = self.artist
        return (
            tuple(patch.get_facecolor()), tuple(patch.get_edgecolor()), patch.get_linewidth(), patch.get_linestyle(),
            patch.get_fill(),
        )  # fmt: skip

    def attributes(self, places):
        """What changes: the path, fill and edge."""
        patch = self.artist
        if isinstance(patch, Polygon):
            d = polyline(self.points(patch.get_xy()[:-1], places), closed=True)
        elif isinstance(patch, Rectangle):
            d = polyline(self.points(_corners(patch), places), closed=True)
        else:
            d = curved(patch.get_transform().transform_path(patch.get_path()), self.height)
        return {"d": d} | _patch_look(*self._look())


class Words(Element):
    """A text, with a white halo."""

    tag = "text"

    def __init__(self, artist, height):
        super().__init__(artist, height)
        self.fixed = {"font-family": FONTS} | HALO

    def key(self, places):
        """All that the attributes hang on."""
        text = self.artist
        look = text.get_va(), text.get_ha(), text.get_fontsize(), text.get_fontweight(), text.get_color()
        return (self.place(places)[1], text.get_text(), *text.get_position(), *look)

    def attributes(self, places):
        """What changes: the words, where they stand and how."""
        text = self.artist
        if not text.get_text():
            return {"text": ""}
        ((x, y),) = self.points(np.array([text.get_position()]), places).round(1).tolist()
        return {
            "x": x,
            "y": y,
            "dy": DROP[text.get_va()],
            "text-anchor": ANCHOR[text.get_ha()],
            "font-size": round(text.get_fontsize(), 1),
            "font-weight": text.get_fontweight(),
            "fill": readable(text.get_color()),
            "text": text.get_text(),
        }


def elements(artists, height):
    """The elements of animated ``artists``, in their order; ``height`` of the picture in points."""
    made = []
    for artist in artists:
        if isinstance(artist, Text):
            made.append(Words(artist, height))
        elif isinstance(artist, Line2D):
            made += [Stroke(artist, height)] if artist.get_linestyle() != "None" else []
            made += [Marks(artist, height)] if artist.get_marker() not in ("", "None", None) else []
        else:
            made.append(Shape(artist, height))
    return made


def polyline(xy, *, closed=False):
    """SVG path data through ``xy`` (n, 2); a point that is not finite breaks the line."""
    finite = np.isfinite(xy).all(axis=1)
    if finite.all():
        return "M" + "L".join(["%.1f,%.1f"] * len(xy)) % tuple(xy.ravel().tolist()) + ("Z" if closed else "")
    parts = np.split(xy, np.flatnonzero(~finite))
    return "".join(polyline(part) for part in (part[np.isfinite(part).all(axis=1)] for part in parts) if len(part) > 1)


def curved(path, height):
    """SVG path data of any matplotlib ``path`` in display coordinates."""
    out = []
    for points, code in path.iter_segments(remove_nans=True, simplify=False, curves=True):
        if code == Path.CLOSEPOLY:
            out.append("Z")
        elif code in LETTER:
            x, y = points[0::2], height - points[1::2]
            out.append(LETTER[code] + " ".join(f"{a:.1f},{b:.1f}" for a, b in zip(x, y, strict=True)))
    return "".join(out)


@cache
def marker(kind, size):
    """SVG path data of one marker about (x, y), to be filled with `str.format`; y downwards."""
    shape = mpl.markers.MarkerStyle(kind)
    outline = shape.get_transform().scale(size).transform_path(shape.get_path())
    first, out = None, []
    for points, code in outline.iter_segments(simplify=False, curves=True):
        xy = np.reshape(points, (-1, 2)) * [1, -1]
        if code == Path.MOVETO:
            out.append(f"M{{x}},{{y}}m{xy[0, 0]:.2f},{xy[0, 1]:.2f}")
        elif code == Path.CLOSEPOLY:
            out.append("z")
        else:
            steps = " ".join(f"{x:.2f},{y:.2f}" for x, y in xy - first)
            out.append(f"{LETTER[code].lower()}{steps}")
        first = xy[-1]
    return "".join(out)


@cache
def colour(given):
    """A colour as SVG writes it."""
    return "none" if given == "none" else to_hex(given)


@cache
def stroke(given, width, style="-", alpha=None):
    """Attributes of a line: colour, width in points, style, opacity."""
    made = {"stroke": colour(given), "stroke-width": f"{width:.1f}", "stroke-linejoin": "round"}
    if style in DASHES:
        made["stroke-dasharray"] = " ".join(f"{length * width:.1f}" for length in mpl.rcParams[DASHES[style]])
    made["stroke-linecap"] = "butt" if style in DASHES else "round"
    return made if alpha is None else made | {"stroke-opacity": f"{alpha:.2f}"}


@cache
def _patch_look(face, edge, width, style, filled):
    fill = {"fill": to_hex(face), "fill-opacity": f"{face[3]:.2f}"} if filled and face[3] else {"fill": "none"}
    return fill | (stroke(edge, width, style) if edge[3] and width else {"stroke": "none"})


@cache
def _marks_look(face, edge, width, alpha):
    opacity = {} if alpha is None else {"opacity": f"{alpha:.2f}"}
    return {"fill": colour(face), "stroke": colour(edge), "stroke-width": f"{width:.1f}"} | opacity


def _marks_key(line):
    return line.get_markerfacecolor(), line.get_markeredgecolor(), line.get_markeredgewidth(), line.get_alpha()


def _data(line):
    """What was put into a line, (n, 2), without matplotlib's own copies of it."""
    x, y = line.get_data(orig=True)
    return np.column_stack([np.asarray(x, float), np.asarray(y, float)]) if len(x) else np.empty((0, 2))


def _corners(rectangle):
    x, y = rectangle.get_xy()
    w, h = rectangle.get_width(), rectangle.get_height()
    return np.array([(x, y), (x + w, y), (x + w, y + h), (x, y + h)])
