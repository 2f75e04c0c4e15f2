"""A textbook's six studies and their random-effects summary, as a forest plot."""

import matplotlib as mpl

from shoulder_model.draw.forest import Forest, ForestLine, interval_words, summary_line
from shoulder_model.draw.look import STYLE, at_projector, new_figure
from shoulder_model.draw.stage import Stage
from shoulder_model.evidence import Effect, random_effects

PRINTED = (  # g and its variance as printed, Introduction to Meta-Analysis, Wiley 2009, ch. 14 (from memory, MH)
    (0.095, 0.033), (0.277, 0.031), (0.367, 0.050), (0.664, 0.011), (0.462, 0.043), (0.185, 0.023),
)  # fmt: skip
ONES = [Effect(value, variance) for value, variance in PRINTED]
SUMMARY = random_effects([one.value for one in ONES], [one.variance for one in ONES])
WORDS = (
    "Forest plot of a textbook's six studies, g with 95 % intervals: "
    + ", ".join(f"{one.value:.2f} ({one.interval[0]:.2f} to {one.interval[1]:.2f})" for one in ONES)
    + f". The diamond below them, their random-effects summary: {SUMMARY.value:.2f} ({SUMMARY.interval[0]:.2f} to {SUMMARY.interval[1]:.2f}). "
    "The most precise study, the fourth, has its estimate above the summary's interval."
).replace(" (-", " (−")
LAYOUT = {  # at projector size? -> place of the axes; where the words begin left and right of them, in shares of their width
    False: ([0.20, 0.14, 0.50, 0.80], -0.37, 1.03),
    True: ([0.225, 0.16, 0.46, 0.77], -0.485, 1.03),
}


def stage():
    """Six lines and a diamond."""
    lines = [
        ForestLine(
            (k,), f"study {'ABCDEF'[k]}", f"weight {100 * SUMMARY.weights[k]:.0f} %",
            interval_words(one.value, one.interval), "", "difference", value=one.value, ends=one.interval,
        )
        for k, one in enumerate(ONES)
    ]  # fmt: skip
    place, left, right = LAYOUT[at_projector()]
    with mpl.rc_context(STYLE):
        figure = new_figure(9.6, 4.4)
        forest = Forest(figure.add_axes(place), "standardised difference g", left, right)
        forest.axes.set_xlim(-1.1, 1.1)
        forest.show([*lines, summary_line(SUMMARY)], ("more with treatment", "more without"))
        return Stage(figure)
