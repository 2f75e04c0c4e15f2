"""People: body measures in, lengths and masses out; what a girth or a breadth says about a person."""

from .by_waist import WaistBand, held_ratios, waist_bands
from .crowd import Crowd, draw_lifters
from .lifter import (
    ELBOW_LIMIT,
    MEASURES,
    SEXES,
    Lifter,
    Survey,
    a_lifter,
    conditional,
    expected_measures,
    one_person,
    survey,
)
from .silhouette import (
    SIDES_GAIN,
    ellipse_girth,
    girth_gain,
    means,
    percentile,
    ratio_change,
    side_layer,
    survey_quantities,
    survey_quantity,
    waist_worth,
)

__all__ = [
    "ELBOW_LIMIT",
    "MEASURES",
    "SEXES",
    "SIDES_GAIN",
    "Crowd",
    "Lifter",
    "Survey",
    "WaistBand",
    "a_lifter",
    "conditional",
    "draw_lifters",
    "ellipse_girth",
    "expected_measures",
    "girth_gain",
    "held_ratios",
    "means",
    "one_person",
    "percentile",
    "ratio_change",
    "side_layer",
    "survey",
    "survey_quantities",
    "survey_quantity",
    "waist_bands",
    "waist_worth",
]
