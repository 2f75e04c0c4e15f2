"""Counts of many answers, so fine that quantiles can be read off, which add up whatever came first.

Answers are counted in bins as wide as the answer's grain near zero and as wide as a fixed part of the answer further out: bins
of equal width in

    y = arcsinh(answer / grain)

so a quantile is off by at most half a grain or 0.2 % of itself, whichever is larger (`ERROR`). Counts are whole numbers: those
of two parts add up to those of both, in any order, to the last bit, which no sum of decimals does. That is why quantiles come
from counts here and not from a sketch that draws lots or keeps means. The bins are filled by boost-histogram.
"""

from dataclasses import dataclass

import numpy as np

from ..inputs import InputError

BINS, REACH = 8192, np.arcsinh(1e6)  # bins, and up to how many grains they go, in y
STEP = 2 * REACH / BINS
ERROR = STEP / 2  # of a quantile, over the larger of the answer and its grain


def histograms():
    """The library that fills the bins; `InputError` in words that say how to get it."""
    try:
        import boost_histogram
    except ImportError:
        raise InputError(
            "keep", "keep = 'summary' needs boost-histogram; install it with: pip install 'shoulder-model[study]'"
        ) from None
    return boost_histogram


@dataclass
class Tally:
    """Counts of the answers in some cells.

    ``grain`` in the answer's unit; ``counts`` (cell, bin + 2), the first and the last for what lies beyond the bins; ``missing``
    (cell,) how many were NaN. Whole numbers.
    """

    grain: float
    counts: np.ndarray
    missing: np.ndarray

    @classmethod
    def empty(cls, cells, grain):
        """Nothing counted yet in so many ``cells`` (whole number); ``grain`` (float) in the answer's unit."""
        return cls(grain, np.zeros((cells, BINS + 2), np.int64), np.zeros(cells, np.int64))

    def part(self, cells):
        """The tally of some ``cells``, a slice of whole numbers; what is added to it is added here."""
        return Tally(self.grain, self.counts[cells], self.missing[cells])

    def add(self, values):
        """Count ``values`` (n, cell), in the answer's unit."""
        library = histograms()
        known = np.isfinite(values)
        cells = np.broadcast_to(np.arange(values.shape[1]), values.shape)[known]
        axes = (
            library.axis.Integer(0, values.shape[1], underflow=False, overflow=False),
            library.axis.Regular(BINS, -REACH, REACH),
        )
        filled = library.Histogram(*axes, storage=library.storage.Int64())
        filled.fill(cells, np.arcsinh(values[known] / self.grain))
        self.counts += filled.view(flow=True)
        self.missing += (~known).sum(axis=0)

    def merge(self, other):
        """Add the counts of ``other`` (`Tally`), of the same cells and grain in the same unit."""
        self.counts += other.counts
        self.missing += other.missing

    def quantiles(self, shares):
        """Values below which the ``shares`` (q,), 0 to 1, of all that answered lie, (cell, q), in the answer's unit; NaN where none did."""
        below = np.cumsum(self.counts, axis=1)
        total = below[:, -1:]
        places = np.array(
            [[np.searchsorted(row, max(1, int(np.ceil(share * row[-1])))) for share in shares] for row in below]
        )
        middles = (np.clip(places, 1, BINS) - 0.5) * STEP - REACH
        return np.where(total > 0, self.grain * np.sinh(middles), np.nan)
