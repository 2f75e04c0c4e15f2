"""One person's two readings: how far they differ when nothing differs, for two published errors."""

import matplotlib as mpl
import numpy as np

from shoulder_model.draw.look import BLACK, BLUE, SKY, STYLE, VERMILLION, at_projector, new_figure
from shoulder_model.draw.stage import Stage
from shoulder_model.evidence import minimal_detectable_change

SEMS = (8.6, 18.9)  # %MVIC, same day, New Zealand J Physiother 2018;46(2):67-72 (read)
GAP = 10.0  # %MVIC
RNG = np.random.default_rng(7)
SEEN = {sem: RNG.normal(0, sem, 20_000) - RNG.normal(0, sem, 20_000) for sem in SEMS}
SHARE = {sem: 100 * float(np.mean(np.abs(seen) >= GAP)) for sem, seen in SEEN.items()}
MDC = {sem: float(minimal_detectable_change(sem)) for sem in SEMS}
WORDS = (
    "Two histograms of the difference between two EMG readings of one person under the same condition, 20,000 simulated pairs each. "
    + " ".join(
        f"With an error of {sem} % MVIC a reading, {SHARE[sem]:.0f} % of the pairs differ by {GAP:.0f} or more though nothing "
        f"differs, and only a gap beyond {MDC[sem]:.0f} is rare by chance."
        for sem in SEMS
    )
)
LAYOUT = {  # at projector size? -> height of the sheet [inch], bottom and height of the axes, name of the axis
    False: (3.5, 0.18, 0.73, "reading 1 − reading 2 [% MVIC], nothing differs"),
    True: (4.3, 0.25, 0.67, "reading 1 − reading 2 [% MVIC],\nnothing differs"),
}


def stage():
    """One histogram an error, with the detectable change marked."""
    height, low, high, x = LAYOUT[at_projector()]
    with mpl.rc_context(STYLE):
        figure = new_figure(9.6, height)
        for k, (sem, colour) in enumerate(zip(SEMS, (BLUE, VERMILLION), strict=True)):
            axes = figure.add_axes([0.05 + 0.485 * k, low, 0.44, high])
            counts, _, _ = axes.hist(
                SEEN[sem], np.arange(-75, 75.1, 2.5), color=SKY if k == 0 else "#f0c2a0", edgecolor=colour
            )
            top = 1.3 * counts.max()
            for side in (-1, 1):
                axes.plot([side * GAP] * 2, [0, 0.84 * top], color=BLACK, lw=1.5, ls="--")
                axes.plot([side * MDC[sem]] * 2, [0, 0.5 * top], color=colour, lw=3)
                axes.text(
                    side * (MDC[sem] + 2),
                    0.44 * top,
                    f"{MDC[sem]:.0f}",
                    color=colour,
                    ha=("right", "left")[side > 0],
                    fontweight="bold",
                )
            axes.text(
                0,
                0.87 * top,
                f"{SHARE[sem]:.0f} % lie outside ± {GAP:.0f}",
                ha="center",
                va="bottom",
                fontweight="bold",
            )
            axes.set(xlim=(-75, 75), ylim=(0, top), xlabel=x, yticks=[])
            axes.spines["left"].set_visible(False)
            axes.set_title(f"error of one reading {sem} % MVIC")
        return Stage(figure)
