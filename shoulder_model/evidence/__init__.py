"""Evidence: published trials of pulling, what each of them says, and what they say together."""

from .effect_size import (
    Effect,
    Summary,
    difference_of_groups,
    difference_within,
    log_ratio_within,
    minimal_detectable_change,
    random_effects,
    small_sample_factor,
    smallest_seen,
)
from .summary import (
    cautions,
    claim,
    comparison_table,
    contrast,
    difference_words,
    leanings,
    pooled,
    together,
)
from .trials import ASSUMED, BAND, HELD, HELD_WORDS, SIDES, Comparison, choose, comparisons, muscles

__all__ = [
    "ASSUMED",
    "BAND",
    "HELD",
    "HELD_WORDS",
    "SIDES",
    "Comparison",
    "Effect",
    "Summary",
    "cautions",
    "choose",
    "claim",
    "comparison_table",
    "comparisons",
    "contrast",
    "difference_of_groups",
    "difference_within",
    "difference_words",
    "leanings",
    "log_ratio_within",
    "minimal_detectable_change",
    "muscles",
    "pooled",
    "random_effects",
    "small_sample_factor",
    "smallest_seen",
    "together",
]
