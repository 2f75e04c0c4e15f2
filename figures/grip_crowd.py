"""One grip in centimetres on a crowd: the hand offset they have, and the one a textbook rule gives them."""

import matplotlib as mpl
import numpy as np

import shoulder_model as sm
from shoulder_model.draw.look import BLACK, BLUE, GREY, SKY, STYLE, VERMILLION, at_projector, new_figure
from shoulder_model.draw.stage import Stage
from shoulder_model.sources import fact

GRIP = 0.62  # m
CROWD = sm.draw_lifters(5000, "women", seed=7)
CLIENT = sm.Lifter.from_measures("women", stature=1.68, mass=64.0, biacromial=0.372)
OFFSET = 100 * (GRIP - CROWD.gh_breadth) / 2
BY_RULE = 100 * (GRIP - fact("textbook_biacromial_of_stature") * CROWD.stature) / 2
HERS = 100 * (GRIP - CLIENT.gh_breadth) / 2
BINS = np.arange(6.5, 16.51, 0.25)
WORDS = (
    f"Two histograms of the hand offset w of 5,000 women drawn from the ANSUR II survey, all holding a bar at {100 * GRIP:.0f} cm. "
    f"With their own shoulders: {OFFSET.mean():.1f} cm on average, standard deviation {OFFSET.std():.1f}; the client with 37.2 cm "
    f"stands at {HERS:.1f} cm. With shoulders of {fact('textbook_biacromial_of_stature')} of their stature, the textbook rule: "
    f"{BY_RULE.mean():.1f} cm, standard deviation {BY_RULE.std():.1f}, so {(OFFSET - BY_RULE).mean():.1f} cm too little."
)
LAYOUT = {  # at projector size? -> height of the sheet [inch], axes, their left end, words at the crowd's own shoulders
    False: (3.6, [0.085, 0.175, 0.89, 0.79], 6.5, "their own shoulders"),
    True: (4.3, [0.105, 0.18, 0.885, 0.80], 5.9, "their own\nshoulders"),
}


def stage():
    """Both histograms, their means, the client, and the tape's reading error for scale."""
    height, place, left, own = LAYOUT[at_projector()]
    with mpl.rc_context(STYLE):
        figure = new_figure(9.6, height)
        axes = figure.add_axes(place)
        axes.hist(OFFSET, BINS, color=SKY, edgecolor=BLUE, lw=1)
        axes.hist(BY_RULE, BINS, facecolor="none", edgecolor=VERMILLION, hatch="///", lw=1)
        top = axes.get_ylim()[1]
        for values, colour, words, at, side in (
            (OFFSET, BLUE, own, 13.9, "left"),
            (BY_RULE, VERMILLION, "0.259 × stature\n(textbook rule)", 8.75, "right"),
        ):
            label = f"{words}\n{values.mean():.1f} ± {values.std():.1f} cm"
            axes.text(at, 0.80 * top, label, color=colour, ha=side, va="center", fontweight="bold")
        axes.annotate(
            f"Runa {HERS:.1f} cm", (HERS, 0), (HERS, 1.14 * top), ha="center", va="bottom", fontweight="bold",
            arrowprops={"arrowstyle": "-", "color": BLACK, "lw": 2},
        )  # fmt: skip
        axes.plot(
            [HERS - 1, HERS + 1], [1.09 * top] * 2, color=BLACK, lw=3, marker="|", ms=12, mew=2, solid_capstyle="butt"
        )
        axes.text(HERS + 1.15, 1.09 * top, "tape ± 1 cm", ha="left", va="center")
        axes.set(xlim=(left, 16.5), ylim=(0, 1.3 * top), ylabel="women in 0.25 cm")
        axes.set_xlabel(f"hand offset w with the hands {100 * GRIP:.0f} cm apart [cm]")
        axes.grid(axis="y", color="#eeeeee")
        axes.set_axisbelow(True)
        axes.tick_params(color=GREY)
        return Stage(figure)
