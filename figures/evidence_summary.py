"""Six invented trials and their random-effects summary, as a forest plot."""

import matplotlib as mpl

from shoulder_model.draw.forest import Forest
from shoulder_model.draw.forest_lines import ForestLine, ForestTrial, interval_words, summary_trial
from shoulder_model.draw.look import STYLE, at_projector, new_figure
from shoulder_model.draw.stage import Stage
from shoulder_model.evidence import pooled, six_invented

TRIALS = six_invented()
ONES = [trial.effect() for trial in TRIALS]
SUMMARY = pooled(TRIALS)
LARGEST = max(range(len(TRIALS)), key=lambda k: TRIALS[k].n)


def _ends(effect):
    return f"{effect.value:.2f} ({effect.interval[0]:.2f} to {effect.interval[1]:.2f})".replace("-", "−")


WORDS = (
    "Forest plot of six invented trials, g with 95 % intervals: "
    + ", ".join(f"{trial.n} people {_ends(one)}" for trial, one in zip(TRIALS, ONES, strict=True))
    + f". A hatched bar below them is their random-effects summary: {_ends(SUMMARY)}. The largest trial has the shortest "
    f"interval and {100 * SUMMARY.weights[LARGEST]:.0f} % of the weight."
)
LAYOUT = {  # at projector size? -> place of the axes; where the words begin left and right of them, in shares of their width
    False: ([0.24, 0.14, 0.47, 0.80], -0.48, 1.03),
    True: ([0.31, 0.16, 0.37, 0.77], -0.8, 1.03),
}


def stage():
    """Six rings with capped bars, and a hatched bar."""
    lines = [
        ForestLine(
            (k,), f"trial {'ABCDEF'[k]}, {trial.n} people", interval_words(float(one.value), one.interval),
            f"weight {100 * SUMMARY.weights[k]:.0f} %", "difference", value=float(one.value), ends=one.interval,
        )
        for k, (trial, one) in enumerate(zip(TRIALS, ONES, strict=True))
    ]  # fmt: skip
    place, left, right = LAYOUT[at_projector()]
    with mpl.rc_context(STYLE):
        figure = new_figure(9.6, 4.4)
        forest = Forest(figure.add_axes(place), "standardised difference g", left, right)
        forest.show(
            [ForestTrial("", "", tuple(lines)), summary_trial(SUMMARY)], ("more with pull A", "more with pull B")
        )
        return Stage(figure)
