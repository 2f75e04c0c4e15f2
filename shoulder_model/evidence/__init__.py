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
    t_quantile,
)
from .grades import NARROW, RULE, SMALL, Grade, grade
from .own_trial import example_rows, example_trial, read_trials, template_rows, trial_template
from .pooling import contrast, pooled
from .power import power_of, smallest_seen
from .results_table import comparison_rows, comparison_table
from .sentences import cautions, difference_words, together, unseen
from .six_invented import six_invented
from .trials import ASSUMED, BAND, HELD, HELD_WORDS, LOST, SCALE, SIDES, Comparison, choose, comparisons, muscles

__all__ = [
    "ASSUMED",
    "BAND",
    "HELD",
    "HELD_WORDS",
    "LOST",
    "NARROW",
    "RULE",
    "SCALE",
    "SIDES",
    "SMALL",
    "Comparison",
    "Effect",
    "Grade",
    "Summary",
    "cautions",
    "choose",
    "comparison_rows",
    "comparison_table",
    "comparisons",
    "contrast",
    "difference_of_groups",
    "difference_within",
    "difference_words",
    "example_rows",
    "example_trial",
    "grade",
    "log_ratio_within",
    "minimal_detectable_change",
    "muscles",
    "pooled",
    "power_of",
    "random_effects",
    "read_trials",
    "six_invented",
    "small_sample_factor",
    "smallest_seen",
    "t_quantile",
    "template_rows",
    "together",
    "trial_template",
    "unseen",
]
