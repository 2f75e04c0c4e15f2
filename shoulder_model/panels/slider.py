"""A slider: its name in front, a box to type the number in, for a panel's main one also named stops, Play and Back to start."""

import contextlib
from contextvars import ContextVar
from pathlib import Path

import anywidget
import ipywidgets as w
import traitlets


class Slider(anywidget.AnyWidget):
    """A number between two ends, moved by hand, by keyboard or by typing (decimal point or comma).

    ``value``, ``min``, ``max``, ``step`` (float) in the unit that ``description`` (str) names. "Back to start" goes to where
    the page first showed it, or to ``start`` when that is set anew. ``stops`` (dict) names values under the track; ``also`` is
    (factor, words) to say the value in another unit, or empty. ``main`` (bool) gives it a row of its own with Play and Back to
    start.
    """

    _esm = Path(__file__).with_name("slider.js").read_text("utf-8")
    _css = Path(__file__).with_name("slider.css").read_text("utf-8")
    value = traitlets.Float().tag(sync=True)
    min, max, step = (traitlets.Float().tag(sync=True) for _ in range(3))
    start = traitlets.Float().tag(sync=True)
    description = traitlets.Unicode().tag(sync=True)
    unit = traitlets.Unicode().tag(sync=True)
    digits = traitlets.Int().tag(sync=True)
    stops = traitlets.Dict().tag(sync=True)
    also = traitlets.List().tag(sync=True)
    main = traitlets.Bool().tag(sync=True)

    @traitlets.validate("value")
    def _between_the_ends(self, proposal):
        if not self.min < self.max:  # not set yet
            return proposal["value"]
        return min(max(proposal["value"], self.min), self.max)

    def __init__(self, **traits):
        super().__init__(**traits)
        self._imagined = ContextVar("imagined", default=None)

    @property
    def place(self):
        """Where the slider stands, or is `imagined` to stand: what a panel computes with. [the slider's unit]"""
        imagined = self._imagined.get()
        return self.value if imagined is None else imagined

    @contextlib.contextmanager
    def imagined(self, value):
        """Let ``place`` be ``value`` inside the block, for this thread alone: JupyterLab may move sliders in another one."""
        token = self._imagined.set(min(max(value, self.min), self.max))
        try:
            yield
        finally:
            self._imagined.reset(token)


def slider(words, value, low, high, step, *, stops=(), also=(), main=False):
    """A `Slider` named ``words``, with its unit in brackets at their end; ``value``, ``low``, ``high``, ``step`` in that unit.

    Parameters
    ----------
    words : str
    value, low, high, step : float
    stops : dict, optional
        Name -> value.
    also : tuple, optional
        (factor, words): the value times ``factor`` is said with ``words`` behind.
    main : bool
        The panel's main slider.
    """
    name, _, unit = words.removesuffix("]").partition(" [")
    digits = next(digits for digits in range(4) if round(step, digits) == step)
    return Slider(
        min=low, max=high, step=step, value=value, start=value, description=name, unit=unit, digits=digits,
        stops=dict(stops), also=list(also), main=main,
        layout=w.Layout(flex="1 1 20em", width="100%" if main else "auto", min_width="17em", overflow="visible"),
    )  # fmt: skip
