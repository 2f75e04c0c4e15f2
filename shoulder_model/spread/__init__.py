"""How results spread: from person to person, and over what nobody knows."""

from .bands import Band, Spread, band_of, spread_of
from .by_grip import GRIPS, Standing, standing
from .drawn import NOT_KNOWN, Drawn, as_tabled, draw, drawn_inputs
from .matters import SETS, indices, number_of, what_matters
from .people import drawn_strength, relative_spread, strength_of
from .stored import Matter, Matters, stored_matters, stored_pulls
from .studies import merged, study
from .uncertain import KINDS, LEVEL, UncertainInput, names_of, uncertain_inputs

__all__ = [
    "GRIPS",
    "KINDS",
    "LEVEL",
    "NOT_KNOWN",
    "SETS",
    "Band",
    "Drawn",
    "Matter",
    "Matters",
    "Spread",
    "Standing",
    "UncertainInput",
    "as_tabled",
    "band_of",
    "draw",
    "drawn_inputs",
    "drawn_strength",
    "indices",
    "merged",
    "names_of",
    "number_of",
    "relative_spread",
    "spread_of",
    "standing",
    "stored_matters",
    "stored_pulls",
    "strength_of",
    "study",
    "uncertain_inputs",
    "what_matters",
]
