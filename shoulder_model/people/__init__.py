"""People: body measures in, lengths and masses out; what a girth or a breadth says about a person."""

from .lifter import ELBOW_LIMIT, MEASURES, SEXES, Lifter, Survey, draw_lifters, expected_measures, one_person, survey
from .silhouette import (
    WaistBand,
    ellipse_girth,
    girth_gain,
    means,
    percentile,
    ratio_change,
    survey_quantities,
    survey_quantity,
    waist_bands,
    waist_worth,
)

__all__ = [
    "ELBOW_LIMIT",
    "MEASURES",
    "SEXES",
    "Lifter",
    "Survey",
    "WaistBand",
    "draw_lifters",
    "ellipse_girth",
    "expected_measures",
    "girth_gain",
    "means",
    "one_person",
    "percentile",
    "ratio_change",
    "survey",
    "survey_quantities",
    "survey_quantity",
    "waist_bands",
    "waist_worth",
]
