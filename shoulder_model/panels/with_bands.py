"""How a panel shows its bands: awaited after each move, worked out while nothing moves, gone with the next move."""

from functools import wraps

from ..tables import number_rows
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

    def make_bands(self):
        """The switch of the bands, on but on a projector, and the page's way to ask for them."""
        self.bands = Bands(self.ask, not self.on_projector, tip_words(*self.counts)) if self.ask else None
        if self.bands:
            self.picture.bands, self.picture.settle = lambda: self.bands.stand, self.settle

    @property
    def band_switches(self):
        """The bands' switch, in a list; none for a panel without bands."""
        return [self.bands.switch] if self.bands else []

    def _redraw(self):
        """The picture of the present state, with the bands where they are there."""
        self.draw(self.state)
        if self.bands and self.bands.shown:
            self.draw_bands(self.state, self.bands.shown)

    def _drop_bands(self):
        """From now on the bands are awaited; `draw` has taken their artists away."""
        if self.bands:
            self.bands.shown = None

    @one_at_a_time
    def settle(self, seconds=SLICE):
        """Work on the bands for so many ``seconds`` (float), and show them once they are there."""
        if self.bands.stand != "awaited" or getattr(self, "state", None) is None:
            return
        states = [self.state] if self.kept is None else [self.state, self.kept]
        found = self.bands.worked_out(states, seconds)
        if found:
            self.bands.shown = found[0]
            self.draw_bands(self.state, found[0])
            told = self.say_bands(self.state, found[0], self.kept, found[-1])
            said = self.picture.said
            self.picture.said = said | {"bands": told, "words": f"{said['words']} {told}"}
        self.picture.show_bands()

    def _table_rows(self):
        """The table with the bands' columns behind it, where they are switched on."""
        rows = self.table(self.state)
        if not self.bands or not self.bands.is_on:
            return rows
        (answers,) = self.bands.worked_out([self.state])
        columns = number_rows(self.band_columns(self.state, answers))
        return [(*row, *more) for row, more in zip(rows, columns, strict=True)]
