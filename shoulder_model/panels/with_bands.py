"""How a panel shows its bands: awaited after each move, worked out while nothing moves, gone with the next move."""

from functools import wraps

from ..tables import number_rows
from .band_words import band_words
from .bands import DRAWS, PEOPLE, SLICE, Bands, tip_words


def one_at_a_time(method):
    """A panel's ``method``, alone: JupyterLab may hand two controls' moves to two threads."""

    @wraps(method)
    def alone(panel, *given, **named):
        with panel.lock:
            return method(panel, *given, **named)

    return alone


class WithBands:
    """The part of a `panel.Panel` that has to do with bands; one without the hook ``ask`` has none."""

    ask, counts = None, (PEOPLE, DRAWS)  # how many people and draws
    bands_first = False  # True in a panel about bands: no switch, and a move looks up those that are there

    def make_bands(self):
        """The switch of the bands, on but on a projector, and the page's way to ask for them."""
        is_on = self.bands_first or not self.on_projector
        self.bands = Bands(self.ask, is_on, tip_words(*self.counts)) if self.ask else None
        if self.bands:
            self.picture.bands, self.picture.settle = lambda: self.bands.stand, self.settle

    @property
    def band_switches(self):
        """The bands' switch, in a list; none for a panel without bands, or about them."""
        return [self.bands.switch] if self.bands and not self.bands_first else []

    def both_bands(self, *given, **named):
        """As `band_words.band_words`, in few words on a projector."""
        return band_words(*given, brief=self.on_projector, **named)

    def _draw_found(self, state):
        """Draw a ``state``, with bands that are there already where the panel looks them up.

        Returns whether the still layer has to be drawn again, and the `bands.Answers` of this state and of the kept one, or None.
        """
        frame_moved = self.draw(state)
        found = self.bands.ready(self._compared(state)) if self.bands_first else None
        if found:
            self.draw_bands(state, found[0])
        return frame_moved, found

    def _compared(self, state):
        return [state] if self.kept is None else [state, self.kept]

    def _said_too(self, said, state, found):
        """What is ``said`` (dict), with the sentence about the bands."""
        told = self.say_bands(state, found[0], self.kept, found[-1])
        return said | {"bands": told, "words": f"{said['words']} {told}"}

    def _redraw(self):
        """The picture of the present state, with the bands where they are there."""
        self.draw(self.state)
        if self.bands and self.bands.shown:
            self.draw_bands(self.state, self.bands.shown)

    def _drop_bands(self, found=None):
        """From now on the bands are awaited, unless they were ``found``; `draw` has taken their artists away."""
        if self.bands:
            self.bands.shown = found and found[0]

    @one_at_a_time
    def settle(self, seconds=SLICE):
        """Work on the bands for so many ``seconds`` (float), and show them once they are there."""
        if self.bands.stand != "awaited" or getattr(self, "state", None) is None:
            return
        found = self.bands.worked_out(self._compared(self.state), seconds)
        if found:
            self.bands.shown = found[0]
            self.draw_bands(self.state, found[0])
            self.picture.said = self._said_too(self.picture.said, self.state, found)
        self.picture.show_bands()

    def _table_rows(self):
        """The table with the bands' columns behind it, where they are switched on."""
        rows = self.table(self.state)
        if not self.bands or not self.bands.is_on:
            return rows
        (answers,) = self.bands.worked_out([self.state])
        columns = number_rows(self.band_columns(self.state, answers))
        return [(*row, *more) for row, more in zip(rows, columns, strict=True)]
