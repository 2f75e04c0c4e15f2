"""Which uncertain inputs move the largest load, and which move the lat's share, of one pull."""

import matplotlib as mpl

from shoulder_model.draw.look import LETTERS, STYLE, at_projector, new_figure
from shoulder_model.draw.stage import Stage
from shoulder_model.draw.what_matters import key_of, ranked_bars
from shoulder_model.spread import stored_matters, uncertain_inputs

SEX, PULL = "men", "front pulldown"
KINDS = {one.name: one.kind for one in uncertain_inputs()}
TITLES = {  # on a page, on a projector
    "whole_rep_load_kg": ("What moves his largest load?", "his largest load"),
    "lat_share": ("What moves his lat's share?", "his lat's share"),
}
FOUND = {answer: stored_matters(SEX, PULL, answer) for answer in TITLES}


def _told(matters):
    """The three largest inputs of an answer, in words."""
    return ", ".join(f"{one.input} {100 * one.total:.0f} %" for one in list(matters.inputs.values())[:3])


WORDS = (
    f"Two rankings of uncertain inputs for {SEX} of whom nothing is measured, {PULL}: what part of the spread would stay if only "
    f"that input were not known. The largest load: {_told(FOUND['whole_rep_load_kg'])}. The lat's share of the active muscle: "
    f"{_told(FOUND['lat_share'])}. So the load is a matter of people, and the share of what nobody has measured."
)
LAYOUT = {  # at projector size? -> height of the sheet [inch], the axes, how many bars
    False: (3.5, ([0.125, 0.24, 0.34, 0.63], [0.635, 0.24, 0.34, 0.63]), 6),
    True: (4.4, ([0.19, 0.26, 0.27, 0.60], [0.70, 0.26, 0.27, 0.60]), 4),
}


def stage():
    """Both rankings side by side, and the key of the two kinds."""
    height, places, most = LAYOUT[at_projector()]
    with mpl.rc_context(STYLE):
        figure = new_figure(9.6, height)
        for place, (answer, titles) in zip(places, TITLES.items(), strict=True):
            axes = figure.add_axes(place)
            ranked_bars(axes, FOUND[answer], KINDS, most)
            axes.set_title(titles[at_projector()], fontsize=LETTERS, fontweight="bold", loc="left", pad=8)
            axes.set_xlabel("of its spread (variance)")
        key_of(figure)
        return Stage(figure)
