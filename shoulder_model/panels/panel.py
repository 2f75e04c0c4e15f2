"""What every panel shares: one picture and one sentence that follow the controls; keep, save, open."""

import contextlib
import threading
from dataclasses import dataclass, field
from math import isfinite, nan

import ipywidgets as w
import matplotlib as mpl

from ..draw.look import PHONE, STYLE, at_projector, by_sheet, new_figure, phone
from ..draw.stage import Stage
from ..inputs import InputError, choice, echo
from ..people import Lifter, expected_measures
from ..tables import spreadsheet_bytes
from .file_door import FileDoor
from .group_name import GroupName
from .of_cell import OfCell, of_all
from .picture import Picture
from .slider import Slider
from .with_bands import WithBands, one_at_a_time

DECIMALS = {"point": ".", "comma": ","}  # words for a table's decimal sign
MIME = {"svg": "image/svg+xml", "png": "image/png", "csv": "text/csv", "json": "application/json"}
TEXT = "font-size:var(--jp-content-font-size1,14px);line-height:1.4;"
LEAST_CM = 3.0  # no measure of a body in centimetres is below; metres are
PROJECTED_HEIGHT = 3.4  # inch, of 11.2 in width: what sliders and words leave of a lecture's screen
WIDE = {"description_width": "initial"}
WRAP = of_all(
    w.Layout(flex_flow="row wrap", width="100%", align_items="center")
)  # one for all rows; what is hidden has its own


def own_wrap():
    """A layout as `WRAP`, for a row that may be hidden by itself."""
    return w.Layout(flex_flow="row wrap", width="100%", align_items="center")


def dropdown(words, options, value, width):
    """A choice with its label in front, ``width`` in em; a panel's rows wrap, so it keeps its size."""
    layout = w.Layout(width=f"{width}em", flex="0 0 auto")
    return w.Dropdown(options=list(options), value=value, description=words, style=WIDE, layout=layout)


def button(words, act, tip):
    """A button as wide as its words; ``act()`` is called when it is pressed, ``tip`` says what it does."""
    made = w.Button(description=words, tooltip=tip, layout=w.Layout(width="auto"))
    made.on_click(lambda _: act())
    return made


def folding(words, rows, tip):
    """A button that shows ``rows`` and hides them again, and the box they are in, hidden at first."""
    box = w.VBox(rows, layout=w.Layout(display="none", width="100%", order="1"))
    toggle = w.ToggleButton(False, description=words, tooltip=tip, layout=w.Layout(width="auto"))
    toggle.observe(lambda change: setattr(box.layout, "display", "flex" if change["new"] else "none"), "value")
    return toggle, box


@dataclass(frozen=True)
class Sheet:
    """Where a picture's parts stand on one kind of sheet.

    ``height`` (float) of the sheet [inch]; ``places`` (dict) of the axes by name, as left, bottom, width and height in shares of
    the sheet, without those that there is no room for; ``labels`` (dict) of axes by name; ``width`` (float) of the sheet, which
    for a projector is that of `draw.look.new_figure` [inch].
    """

    height: float
    places: dict
    labels: dict = field(default_factory=dict)
    width: float = 11.2

    @classmethod
    def phone(cls, height, places, labels=None):
        """A sheet for a phone: ``height`` (float) and ``places`` (dict) in points from its lower left corner; ``labels`` (dict)."""
        whole = 72 * PHONE, height
        shares = {name: [value / whole[k % 2] for k, value in enumerate(box)] for name, box in places.items()}
        return cls(height / 72, shares, labels or {}, PHONE)

    def axes(self, figure, name):
        """New axes of a ``figure`` in the place called ``name`` (str)."""
        return figure.add_axes(self.places[name])


class OptionalNumber(w.Text):
    """A number a reader may leave out; blank stands for the placeholder's value."""

    def __init__(self, words, field, width="11.5em", per_si=1.0):
        super().__init__(
            description=words, continuous_update=False, style=WIDE, layout=w.Layout(width=width, flex="0 0 auto")
        )
        self.field, self.per_si = field, per_si
        self.unit = words.partition("[")[2].removesuffix("]")
        self._put = "", None

    @property
    def number(self):
        """The number in SI units, or None where it is blank; text that is no number raises `InputError`.

        What was `put` there comes back with every digit, those too that are not shown.
        """
        if self.value == self._put[0]:
            return self._put[1]
        text = self.value.strip().removesuffix(self.unit).strip().replace(",", ".")
        if not text:
            return None
        try:
            number = float(text)
        except ValueError:
            number = nan
        if not isfinite(number):
            raise InputError(
                self.field, f"{self.field}: {echo(self.value)} is not a number; type digits or leave it blank"
            )
        if self.unit == "cm" and 0 < number < LEAST_CM:
            raise InputError(self.field, f"{self.field}: {number:g} cm? Type centimetres, perhaps {100 * number:g}")
        return number / self.per_si

    def put(self, value):
        """Show an SI value, or blank for None."""
        self._put = "" if value is None else f"{value * self.per_si:.6g}", value
        self.value = self._put[0]


class MeasureBoxes(dict):
    """Boxes for what was measured of one person, by the names of `Lifter`'s fields; blank ones show what is expected.

    Parameters
    ----------
    measured : dict
        What is known at the start. [m], mass [kg]
    """

    SHOWN = (
        ("stature", "stature [cm]", 11.8, 100.0),
        ("mass", "mass [kg]", 11.0, 1.0),
        ("biacromial", "biacromial [cm]", 13.1, 100.0),
    )

    def __init__(self, measured):
        super().__init__(
            (name, OptionalNumber(words, name, f"{width}em", per_si)) for name, words, width, per_si in self.SHOWN
        )
        self.put(measured)

    def put(self, measures):
        """Show some measures; one that is missing or None leaves its box blank. [m], mass [kg]

        Raises `inputs.UnknownName` for a measure that has no box.
        """
        for name in measures:
            choice("measure", name, tuple(self))
        for name, box in self.items():
            box.put(measures.get(name))

    def read(self, sex):
        """What the boxes hold, and the `Lifter` with it; blank boxes show what is expected of this ``sex``. [m], mass [kg]"""
        measures = {name: box.number for name, box in self.items() if box.number is not None}
        expected = expected_measures(sex, **measures)
        for name, box in self.items():
            box.placeholder = f"≈ {expected[name][0] * box.per_si:.1f}"
        return measures, Lifter.from_measures(sex, **measures)


class Panel(WithBands, OfCell, w.VBox):
    """Controls, words and picture.

    The picture is two layers (`draw.stage`); a move is one message to the page (`picture`). An input the model refuses becomes
    one line above the picture, which stays as it was. Shown in a cell, it closes what that cell showed before (`of_cell`).

    Made inside `draw.look.projector` it is a panel for a lecture: ``projected`` says where the picture's parts stand, the small
    print is brief, and only the main slider and those of `show_sliders` are in sight.

    A panel of its own supplies ``page``, ``projected`` and ``phone`` (`Sheet`), ``ghosts`` (artists with ``keep`` and ``drop``), calls
    `make_figure` and then `follow` with its controls, and has these hooks:

    - ``make_views(figure)``: the picture's axes, in the places of ``sheet``, and its artists

    - ``read()``: the controls' values as the model's input and result; raises `InputError`
    - ``draw(state)``: moves the artists and nothing else; True when the still layer has to be drawn again
    - ``tell(state)``: sets what follows beside the picture, a table for example
    - ``verdict(state)``: the answer in one sentence, two lines at most
    - ``small(state)``: accuracy, limits and cautions, for the small print below it
    - ``brief(state)``: the same for a projector, two lines at most in large letters; ``small(state)`` without it
    - ``set_up(state)``: the set-up in a few words, for those who do not see the controls
    - ``compare(state, kept)``: the difference to the kept state in a sentence, said in place of the verdict
    - ``table(state)``: the numbers as rows of a table, its heads first
    - ``setup(state)``: the set-up as JSON text
    - ``checked(content)``: what such a file holds, all of it checked as far as the model's answer; moves nothing, raises `InputError`
    - ``put(checked)``: that into the controls
    - ``ask(state)``: the `bands.Question` of its bands; a panel without this hook has none. Then also ``draw_bands(state,
      answers)``, which moves their artists (``draw`` takes them away), ``say_bands(state, answers, kept, its)``: one sentence,
      about the change where there is a ``kept`` state with ``its`` answers, and ``band_columns(state, answers)``: of a table
    - ``files()``: what can be saved, kind of file -> words on the button

    Parameters
    ----------
    name : str
        Of the files that it saves; with underscores, of the figure that stands for it on a page that is not running.
    figure : matplotlib.figure.Figure
        Of `make_figure`.
    controls : list of widgets
        Row by row.
    folded : dict, optional
        More controls, hidden until their button is pressed: words on the button -> rows.
    """

    picture_first = False  # whether the picture is sent before the words are worked out

    def __init__(self, name, figure, controls, folded=()):
        super().__init__(layout=w.Layout(width="100%"))
        self.add_class("pull-panel")
        self.name, self.stage, self.kept, self._quiet = name, Stage(figure), None, 0
        self.lock = threading.RLock()
        self.on_projector = at_projector()
        self.picture = Picture(self.stage, name.replace("-", "_"))
        self.picture.ahead, self.picture.fit, self.is_narrow = self.ahead, self.fit, False
        self.make_bands()
        self.door = FileDoor(lambda name, content: self.open_text(content, name), self.refuse, path=True)
        self.decimal = dropdown("Decimal sign in tables", DECIMALS, "point", 17)
        self.buttons = self._button_row(folded)
        self.children = [
            *controls,
            self.picture,
            self.buttons,
            GroupName(
                f"Panel: {name.removesuffix('-panel').replace('-', ' ')}",
                tips={one.description: one.tooltip for one in self.band_switches},
            ),
        ]

    def _button_row(self, folded):
        """The bands' switch, keep and drop, and buttons that show the controls that are ``folded``."""
        self.keep_button = button(
            "Keep this one", self.keep, "hold this set-up in grey; the next ones are compared with it"
        )
        self.drop_button = button("Drop the kept one", self.drop, "forget the kept set-up")
        sections = [folding(words, rows, f"show or hide: {words}") for words, rows in dict(folded).items()]
        sections.append(folding("Save and open", self._save_rows(), "save or open a set-up, a picture or numbers"))
        return w.HBox(
            [
                *self.band_switches,
                self.keep_button,
                self.drop_button,
                *(part for section in sections for part in section),
            ],
            layout=own_wrap(),
        )  # each section just behind its button, as Tab goes; `folding` puts it below the row

    def make_figure(self):
        """A figure of this panel's size, for a page, a projector or a phone, with ``make_views(figure)`` done; sets ``sheet``."""
        self.sheet = by_sheet(self.page, self.projected, self.phone)
        with mpl.rc_context(STYLE):
            figure = new_figure(self.sheet.width, self.sheet.height)
            self.make_views(figure)
        return figure

    @one_at_a_time
    def fit(self, narrow):
        """Draw the same picture again for a ``narrow`` (bool) page, on the sheet for a phone, or for a wide one."""
        if narrow == self.is_narrow or self.on_projector:
            return
        self.is_narrow = narrow
        with phone() if narrow else contextlib.nullcontext():
            self.stage = Stage(self.make_figure())
        if self.kept is not None:
            self.draw(self.kept)
            for artist in self.ghosts:
                artist.keep()
        self._redraw()
        self.picture.take(self.stage)

    def show_sliders(self, names):
        """Keep sliders in sight in a lecture, beside the main one.

        Parameters
        ----------
        names : sequence of str
            With the unit or without it, as in "Trunk lean [° back]". One that the panel does not have raises
            `inputs.UnknownName`.
        """
        sliders = self.picture.sliders
        for name in [choice("slider", name.partition(" [")[0], tuple(sliders)) for name in names]:
            sliders[name].add_class("in-lecture")

    def brief(self, state):
        """The small print for a projector."""
        return self.small(state)

    def files(self):
        """What can be saved: kind of file -> words on the button."""
        return {kind: f"Save {kind.upper()}" for kind in MIME}

    def _save_rows(self):
        saves = [
            button(words, lambda kind=kind: self.save(kind), words[0].lower() + words[1:])
            for kind, words in self.files().items()
        ]
        return [w.HBox([*saves, self.decimal, self.door], layout=WRAP)]

    @property
    def words(self):
        """What the picture says to a screen reader, and what stands for it: set-up, verdict, small print."""
        return self.picture.said["words"]

    @property
    def overlay(self):
        """The moving layer as it stands, as SVG text."""
        return self.stage.overlay(self.words)

    def follow(self, *controls):
        """Redraw when one of ``controls`` changes, and draw the first time."""
        self.picture.sliders = {control.description: control for control in controls if isinstance(control, Slider)}
        for control in (*controls, *self.band_switches):
            control.observe(lambda _: self.update(), "value")
        self.update()

    @one_at_a_time
    def update(self):
        """Compute, move the artists, say it in words; a refused input changes the trouble line only."""
        if self.is_quiet:
            return
        try:
            self.state = self.read()
            frame_moved, found = self._draw_found(self.state)
        except InputError as error:
            self.refuse(str(error))
            self.wrong_entry()
            return
        self._drop_bands(found)
        shown = self.picture
        if self.picture_first:
            shown.show(new_frame=frame_moved, in_words=False)
        shown.said = self._said(self.state, found)
        if self.picture_first:
            shown.say()
        else:
            shown.show(new_frame=frame_moved)
        self.tell(self.state)

    def tell(self, state):
        """Nothing stands beside the picture, unless a panel says so."""

    def wrong_entry(self):
        """The picture stays as it was when an entry is refused, unless a panel says otherwise."""

    def _said(self, state, found=None):
        """Everything that the page says in one ``state``, by where it stands, with the bands that are ``found``."""
        verdict = self.verdict(state) if self.kept is None else self.compare(state, self.kept)
        small = self.brief(state) if self.on_projector else self.small(state)
        words = f"{self.set_up(state)}: {verdict} {small}".strip()
        said = {"verdict": verdict, "small": small, "bands": "", "trouble": "", "words": words}
        return self._said_too(said, state, found) if found else said

    @one_at_a_time
    def ahead(self, name, value):
        """What would change with the slider ``name`` (str) at ``value`` (float, in its unit), all else as it is.

        Returns the picture's moves from here and what would be said, or None where the model refuses or the still layer would
        change. Controls, state and page stay as they are.
        """
        try:
            with self.picture.sliders[name].imagined(value):
                there = self.read()
            frame_moved, found = self._draw_found(there)
            return None if frame_moved else (self.stage.moves_ahead(), self._said(there, found))
        except InputError:
            return None
        finally:
            self._redraw()

    def refuse(self, text):
        """One plain line above the picture, which stays as it is."""
        self.picture.said = self.picture.said | {"trouble": text}
        self.picture.say()

    @one_at_a_time
    def keep(self):
        """Hold the present set-up as a grey ghost; the verdict is the difference to it from now on."""
        self.kept = self.state
        self._ghosts("keep")

    @one_at_a_time
    def drop(self):
        """Forget the kept set-up."""
        self.kept = None
        self._ghosts("drop")

    def _ghosts(self, act):
        """Let every ghost "keep" or "drop"; beside a wrong entry too, the picture that stayed and its words follow."""
        for artist in self.ghosts:
            getattr(artist, act)()
        if self.bands and self.bands.shown:
            self._drop_bands()
            self._redraw()
        self.update()
        trouble = self.picture.said["trouble"]
        if trouble and self.state is not None:
            self.picture.show(in_words=False)
            self.picture.said = self._said(self.state) | {"trouble": trouble}
            self.picture.say()

    @one_at_a_time
    def content(self, kind):
        """The bytes that "svg", "png", "csv" or "json" saves."""
        if kind in ("svg", "png"):
            return self.stage.save(kind)
        return self.csv(self._table_rows()) if kind == "csv" else self.setup(self.state).encode()

    def csv(self, rows):
        """A table's ``rows`` as the bytes of a file that a spreadsheet opens, with the decimal sign that is chosen."""
        return spreadsheet_bytes(rows, DECIMALS[self.decimal.value])

    def save(self, kind):
        """Hand one file to the browser's downloads."""
        self.door.save(f"{self.name}.{kind}", self.content(kind), MIME[kind])

    def apply(self, content):
        """Take the controls to a saved set-up, text or bytes; raises `InputError` before anything moves."""
        self.put(self.checked(content))

    @one_at_a_time
    def open_text(self, content, name=""):
        """Take the controls to a saved set-up, ``content`` text or bytes of a file called ``name``; what is none leaves all as it was."""
        try:
            with self.quiet():
                self.apply(content)
        except InputError as error:
            self.refuse(str(error))
            return
        self.update()

    @contextlib.contextmanager
    def quiet(self):
        """Set several controls without a redraw for each; nests, and draws nothing at its end."""
        with self.lock:
            self._quiet += 1
            try:
                yield
            finally:
                self._quiet -= 1

    @property
    def is_quiet(self):
        """Whether controls are being set without a redraw."""
        return self._quiet > 0
