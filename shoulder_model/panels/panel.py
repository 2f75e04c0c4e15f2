"""What every panel shares: one picture that follows the controls, one sentence, keep, save, open."""

import contextlib
from html import escape
from pathlib import Path

import ipywidgets as w

from ..draw.stage import Stage
from ..inputs import InputError, choice
from ..people import Lifter, expected_measures
from .file_door import FileDoor

MIME = {"svg": "image/svg+xml", "png": "image/png", "csv": "text/csv", "json": "application/json"}
TEXT = "font-size:var(--jp-content-font-size1,14px);line-height:1.4;"
WIDE = {"description_width": "initial"}
WRAP = w.Layout(flex_flow="row wrap", width="100%", align_items="center")


def slider(words, value, low, high, step):
    """A slider with its whole label in front and its number behind, to as many digits as a step needs."""
    digits = next(digits for digits in range(4) if round(step, digits) == step)
    return w.FloatSlider(
        value, min=low, max=high, step=step, description=words, readout_format=f".{digits}f",
        style=WIDE, layout=w.Layout(flex="1 1 20em", width="auto"),
    )  # fmt: skip


def dropdown(words, options, value, width):
    """A choice with its label in front, ``width`` in em; a panel's rows wrap, so it keeps its size."""
    layout = w.Layout(width=f"{width}em", flex="0 0 auto")
    return w.Dropdown(options=list(options), value=value, description=words, style=WIDE, layout=layout)


class OptionalNumber(w.Text):
    """A number a reader may leave out; blank stands for the placeholder's value."""

    def __init__(self, words, field, width="11.5em", per_si=1.0):
        super().__init__(
            description=words, continuous_update=False, style=WIDE, layout=w.Layout(width=width, flex="0 0 auto")
        )
        self.field, self.per_si = field, per_si

    @property
    def number(self):
        """The number in SI units, or None where it is blank; text that is no number raises `InputError`."""
        text = self.value.strip().replace(",", ".")
        if not text:
            return None
        try:
            return float(text) / self.per_si
        except ValueError:
            raise InputError(
                self.field, f"{self.field}: {self.value!r} is not a number; type digits or leave it blank"
            ) from None

    def put(self, value):
        """Show an SI value, or blank for None."""
        self.value = "" if value is None else f"{value * self.per_si:.6g}"


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


class Panel(w.VBox):
    """Controls, picture and words.

    The picture is two layers: a frame drawn once by matplotlib, and an overlay that is set anew on
    every move (`draw.stage`). An input the model refuses becomes one line under the controls; the
    last good picture stays.

    A panel of its own supplies ``ghosts`` (artists with ``keep`` and ``drop``), calls `follow` with its controls, and has
    these hooks:

    - ``read()``: the controls' values as the model's input and result; raises `InputError`
    - ``draw(state)``: moves the artists; True when the frame has to be drawn again
    - ``describe(state)``: the result in a sentence or two
    - ``compare(state, kept)``: the difference to the kept state in a sentence
    - ``table(state)``: the numbers as CSV text
    - ``setup(state)``, ``apply(text)``: the set-up as JSON text, and back into the controls; ``apply``
      checks all of it before it moves anything
    - ``buttons()``: the row under the sentence, if it wants more than `Panel` has
    """

    def __init__(self, name, figure, controls):
        super().__init__(layout=w.Layout(width="100%"))
        self.name, self.stage, self.kept, self._quiet = name, Stage(figure), None, 0
        self.frame, self.overlay = (
            w.HTML(layout=w.Layout(grid_area="1 / 1 / 2 / 2", width="100%", margin="0")) for _ in "ab"
        )
        self.picture = w.GridBox(
            [self.frame, self.overlay], layout=w.Layout(width="100%", grid_template_columns="100%")
        )
        self.trouble, self.sentence, self.difference = w.HTML(), w.HTML(), w.HTML()
        self.door = FileDoor()
        self.path = w.Text(
            placeholder="or its path, then Enter",
            continuous_update=False,
            layout=w.Layout(width="14em", flex="0 0 auto"),
        )
        self.children = [*controls, self.trouble, self.picture, self.sentence, self.difference, self.buttons()]
        self.words = ""
        self.door.observe(lambda change: self.open_text(change["new"]["text"]), "opened")
        self.path.observe(lambda change: self._open_path(change["new"]), "value")

    def buttons(self):
        """Keep, drop, save, open."""

        def button(words, act, tip):
            made = w.Button(description=words, tooltip=tip, layout=w.Layout(width="auto"))
            made.on_click(lambda _: act())
            return made

        saves = [
            button(f"Save {kind.upper()}", lambda kind=kind: self.save(kind), f"save as {kind.upper()}")
            for kind in MIME
        ]
        self.keep_button = button(
            "Keep this one", self.keep, "hold this set-up in grey and compare the next ones with it"
        )
        self.drop_button = button("Let it go", self.drop, "forget the kept set-up")
        row = [self.keep_button, self.drop_button, *saves, self.door, self.path]
        return w.HBox(row, layout=WRAP)

    def follow(self, *controls):
        """Redraw when one of ``controls`` changes, and draw the first time."""
        for control in controls:
            control.observe(lambda _: self.update(), "value")
        self.update()
        self.frame.value = self.stage.frame()

    def update(self):
        """Compute, move the artists, say it in words; a refused input changes the trouble line only."""
        if self.is_quiet:
            return
        try:
            self.state = self.read()
            frame_moved = self.draw(self.state)
        except InputError as error:
            self.refuse(str(error))
            return
        self.trouble.value = ""
        self.words = self.describe(self.state)
        if frame_moved:
            self.frame.value = self.stage.frame()
        self.overlay.value = self.stage.overlay(self.words)
        self.sentence.value = f'<div role="status" style="{TEXT}">{escape(self.words)}</div>'
        self._say_difference()

    def refuse(self, text):
        """One plain line under the controls; the picture stays as it is."""
        self.trouble.value = f'<div role="alert" style="{TEXT}color:#a33c00">⚠ {escape(text)}</div>'

    def _say_difference(self):
        words = self.compare(self.state, self.kept) if self.kept is not None else ""
        self.difference.value = f'<div role="status" style="{TEXT}color:#555">{escape(words)}</div>' if words else ""

    def keep(self):
        """Hold the present set-up as a grey ghost; the difference to it is spelled out from now on."""
        self.kept = self.state
        for artist in self.ghosts:
            artist.keep()
        self.update()

    def drop(self):
        """Forget the kept set-up."""
        self.kept = None
        for artist in self.ghosts:
            artist.drop()
        self.update()

    def content(self, kind):
        """The bytes that "svg", "png", "csv" or "json" saves."""
        if kind in ("svg", "png"):
            return self.stage.save(kind)
        return (self.table(self.state) if kind == "csv" else self.setup(self.state)).encode()

    def save(self, kind):
        """Hand one file to the browser's downloads."""
        self.door.save(f"{self.name}.{kind}", self.content(kind), MIME[kind])

    def open_text(self, text):
        """Take the controls to a saved set-up; text that is none leaves everything as it was."""
        try:
            with self.quiet():
                self.apply(text)
        except InputError as error:
            self.refuse(str(error))
            return
        self.update()

    def _open_path(self, typed):
        if not typed.strip():
            return
        path = Path(typed.strip().removeprefix("file://")).expanduser()
        try:
            text = path.read_text(encoding="utf-8")
        except (OSError, UnicodeDecodeError):
            self.refuse(f"no readable file at {path}; drop the file or check the path")
            return
        self.open_text(text)

    @contextlib.contextmanager
    def quiet(self):
        """Set several controls without a redraw for each; nests, and draws nothing at its end."""
        self._quiet += 1
        try:
            yield
        finally:
            self._quiet -= 1

    @property
    def is_quiet(self):
        """Whether controls are being set without a redraw."""
        return self._quiet > 0
