"""A fair test: predicted six-repetition loads over that at 1.5 ×, beside the measured ones."""

import matplotlib as mpl
import numpy as np

import shoulder_model as sm
from shoulder_model.draw.look import BLACK, BLUE, GREEN, GREY, ORANGE, STYLE, VERMILLION, at_projector, new_figure
from shoulder_model.draw.stage import Stage
from shoulder_model.muscles import drawn_bodies, reference_body

MAN, PULLDOWN = sm.Lifter.average("men"), sm.pulls["front pulldown"]
GRIPS, LEANS = [1.0, 1.5, 2.0], np.radians([0, 15, 30])
MEASURED = {
    1.0: (80.3, 7.2),
    1.5: (80.0, 7.1),
    2.0: (77.3, 6.3),
}  # kg, SD; 15 men, J Strength Cond Res 2014;28(4):1135-1142
MEN = 15
WAYS = {
    ("plane", "zero"): ("plane, handles", BLUE, "o"),
    ("plane", "grip"): ("plane, a bar", ORANGE, "s"),
    ("all axes", "zero"): ("all axes, handles", GREEN, "^"),
    ("all axes", "grip"): ("all axes, a bar", VERMILLION, "D"),
}
BODIES = [reference_body(), *drawn_bodies(40, 20)]
POINTS = 41
COUNTED_FROM = (0.0, 0.1, 0.2, 0.3)  # share of the rep left out at its start: the span of rep_counted_from
USUAL = COUNTED_FROM.index(sm.constant("rep_counted_from").value)


def ratios(balance, side_force):
    """Largest load over that at 1.5 ×, (body, counted part, grip, lean)."""
    options = {"balance": balance, "side_force": side_force}
    kg = np.array([loads(body, options) for body in BODIES])
    return kg / kg[:, :, 1:2]


def loads(body, options):
    """Largest load of one body's rep, (counted part, grip, lean). [kg]"""
    along = sm.sweep(MAN, PULLDOWN, points=POINTS, grip_ratio=GRIPS, trunk_lean=LEANS, body=body, **options)
    along = along.largest_load_kg.transpose("point", ...).values
    return [along[round(share * (POINTS - 1)) :].min(axis=0) for share in COUNTED_FROM]


def predicted():
    """way -> grip -> (value, low, high): the reference body at a lean of 15°, and 5 to 95 % of all that is open."""
    found = {}
    for way in WAYS:
        ratio = ratios(*way)
        found[way] = {
            grip: (ratio[0, USUAL, k, 1], *np.percentile(ratio[1:, :, k], (5, 95)))
            for k, grip in enumerate(GRIPS)
            if grip != 1.5
        }
    return found


def measured(grip):
    """Measured ratio and the most that 15 men's means leave it open: as if other men had done each grip."""
    (kg, sd), (at_medium, sd_medium) = MEASURED[grip], MEASURED[1.5]
    ratio = kg / at_medium
    return ratio, ratio * np.sqrt(((sd / kg) ** 2 + (sd_medium / at_medium) ** 2) / MEN)


FOUND = predicted()
WORDS = (
    "Predicted load at two grips over that at 1.5 ×, four ways to balance, with bands over 40 random bodies, three "
    "leans and the counted part of the rep. "
    + " ".join(
        f"Grip {grip:.1f} ×: "
        + "; ".join("{} {:.2f} ({:.2f} to {:.2f})".format(WAYS[way][0], *FOUND[way][grip]) for way in WAYS)
        + f"; measured in 15 men {measured(grip)[0]:.2f}."
        for grip in (1.0, 2.0)
    )
)
LAYOUT = {  # at projector size? -> sheet's height, first axes, way to the next, scale, gap at a number, break in a name
    False: (3.9, [0.215, 0.17, 0.37, 0.68], 0.4, (0.5, 1.64), 0.015, " "),
    True: (5.05, [0.24, 0.23, 0.355, 0.67], 0.385, (0.42, 1.64), 0.03, "\n"),
}


def stage():
    """One part a grip, one row a way, the measured ratio as a line through all."""
    height, (left, *place), step, scale, gap, turn = LAYOUT[at_projector()]
    with mpl.rc_context(STYLE):
        figure = new_figure(11.2, height)
        for k, grip in enumerate((1.0, 2.0)):
            axes = figure.add_axes([left + step * k, *place])
            ratio, error = measured(grip)
            axes.axvspan(ratio - error, ratio + error, color=GREY, alpha=0.3, lw=0)
            axes.axvline(ratio, color=BLACK, lw=2)
            axes.text(ratio, -0.72, f"measured {ratio:.2f}", ha="center", va="bottom", fontweight="bold")
            for row, (way, (_, colour, marker)) in enumerate(WAYS.items()):
                value, low, high = FOUND[way][grip]
                axes.plot([low, high], [row, row], color=colour, lw=5, alpha=0.45, solid_capstyle="butt")
                axes.plot(value, row, marker, color=colour, ms=10)
                axes.text(
                    min(low, value - 0.02) - gap,
                    row,
                    f"{value:.2f}",
                    ha="right",
                    va="center",
                    color=colour,
                    fontweight="bold",
                )
            axes.set(xlim=scale, ylim=(3.75, -0.75), xlabel=f"load at grip {grip:.1f} × over{turn}load at 1.5 ×")
            axes.set_yticks(range(len(WAYS)), [words for words, _, _ in WAYS.values()] if k == 0 else [""] * len(WAYS))
            axes.tick_params(axis="y", length=0, labelsize=11.5)
        return Stage(figure)
