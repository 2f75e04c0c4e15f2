"""A mean difference between grips and the spread between people, on one axis: a trial's, and the model's own."""

import matplotlib as mpl
import numpy as np

import shoulder_model as sm
from shoulder_model.draw.look import BLACK, BLUE, GREY, STYLE, VERMILLION, at_projector, new_figure
from shoulder_model.draw.stage import Stage

TRIAL = {
    1.0: (80.3, 7.2),
    1.5: (80.0, 7.1),
    2.0: (77.3, 6.3),
}  # kg, SD; 15 men, J Strength Cond Res 2014;28(4):1135-1142
STANDING = sm.spread.standing(sm.pulls["front pulldown"], "men")
CROWD = {
    grip: STANDING.everybody["whole_rep_load_kg"][:, sm.spread.GRIPS.index(grip)] for grip in TRIAL
}  # kg, men of the survey
MODEL = {grip: (float(loads.mean()), float(loads.std(ddof=1))) for grip, loads in CROWD.items()}
PARTS = {"trial, 15 men": (TRIAL, BLUE, "o"), "model, 100 men": (MODEL, VERMILLION, "s")}


def relative(rows):
    """Mean and SD of each grip in percent of the mean at 1 ×."""
    first = rows[1.0][0]
    return {grip: (100 * mean / first, 100 * sd / first) for grip, (mean, sd) in rows.items()}


WORDS = (
    "Loads of a front pulldown at three grips, in percent of the mean at 1 times the shoulders' width; a dot for the mean, a bar from "
    "one standard deviation below to one above. "
    + " ".join(
        f"{part.capitalize()}: "
        + "; ".join(f"{grip:.1f} × {mean:.0f} ± {sd:.0f}" for grip, (mean, sd) in relative(rows).items())
        + "."
        for part, (rows, _, _) in PARTS.items()
    )
    + " In the trial the largest difference between two grips is less than half of one standard deviation between men."
)
LAYOUT = {False: (3.7, [0.2, 0.17, 0.775, 0.8]), True: (4.6, [0.25, 0.2, 0.725, 0.78])}


def stage():
    """One row a grip: the trial's three above, the model's three below."""
    height, place = LAYOUT[at_projector()]
    with mpl.rc_context(STYLE):
        figure = new_figure(9.6, height)
        axes = figure.add_axes(place)
        axes.axvline(100, color=GREY, lw=1, zorder=0)
        names = []
        for rows, colour, marker in PARTS.values():
            for grip, (mean, sd) in relative(rows).items():
                row = len(names) + (len(names) >= len(TRIAL)) * 0.6
                axes.plot([mean - sd, mean + sd], [row, row], color=colour, lw=6, alpha=0.4, solid_capstyle="butt")
                axes.plot(mean, row, marker, color=colour, ms=9)
                axes.text(mean + sd + 1, row, f"{mean:.0f} ± {sd:.0f}", va="center", color=BLACK)
                names.append(
                    (row, f"{next(n for n, p in PARTS.items() if p[0] is rows) if grip == 1.0 else ''}  {grip:.1f} ×")
                )
        axes.set_yticks(*zip(*names, strict=True))
        axes.set(
            ylim=(names[-1][0] + 0.5, -0.5),
            xlim=(50, 140),
            xlabel="load, % of the mean at 1 ×; bar: mean ± SD of people",
        )
        axes.set_xticks(np.arange(60, 141, 20))
        axes.tick_params(axis="y", length=0)
        axes.tick_params(color=GREY)
        return Stage(figure)
