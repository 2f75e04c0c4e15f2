"""The coach's wall table: the lat's and the mid-back's share of the muscular work, pull by pull, with bands."""

import matplotlib as mpl
import numpy as np

import shoulder_model as sm
from shoulder_model.draw.look import BLUE, GREY, PALE, STYLE, VERMILLION, new_figure
from shoulder_model.draw.stage import Stage

MAN, P = sm.Lifter.average("men"), sm.pulls
PULLS = {
    "close-grip pulldown": P["close-grip pulldown"],
    "front pulldown, 2.0 ×": P["front pulldown"].change(grip_ratio=2.0),
    "front pulldown": P["front pulldown"],
    "front pulldown, 1.0 ×": P["front pulldown"].change(grip_ratio=1.0),
    "front pulldown, upright": P["front pulldown"].change(trunk_lean=0.0),
    "front pulldown, lean 30°": P["front pulldown"].change(trunk_lean=np.radians(30)),
    "front pulldown, elbows in": P["front pulldown"].change(elbow_cue=np.radians(-20)),
    "front pulldown, elbows out": P["front pulldown"].change(elbow_cue=np.radians(20)),
    "pull-up": P["pull-up"],
    "chin-up": P["chin-up"],
    "straight-arm pulldown": P["straight-arm pulldown"],
    "seated row close": P["seated row close"],
    "seated row wide": P["seated row wide"],
    "wide row, elbows in": P["seated row wide"].change(elbow_cue=np.radians(-20)),
    "wide row, elbows out": P["seated row wide"].change(elbow_cue=np.radians(20)),
    "inverted row": P["inverted row"],
}
LOOK = {"lat": (BLUE, "o", -0.17), "mid-back": (VERMILLION, "s", 0.17)}
SHARES = {name: sm.work_shares(MAN, pull) for name, pull in PULLS.items()}
WORDS = (
    "Share of the muscular work over one rep at half of each pull's largest load, in per cent with the band of 40 random "
    "bodies, first the lat, then the mid-back. "
    + " ".join(
        f"{name}: "
        + ", ".join(
            f"{100 * share.value:.0f} ({100 * share.low:.0f} to {100 * share.high:.0f})" for share in shares.values()
        )
        + "."
        for name, shares in SHARES.items()
    )
)


def stage():
    """One row a pull, two dots with their bands."""
    with mpl.rc_context(STYLE):
        figure = new_figure(11.2, 6.4)
        axes = figure.add_axes([0.235, 0.1, 0.74, 0.83])
        for row, shares in enumerate(SHARES.values()):
            if row % 2:
                axes.axhspan(row - 0.5, row + 0.5, color=PALE, alpha=0.35, lw=0)
            for group, (colour, marker, shift) in LOOK.items():
                share = shares[group]
                at = row + shift
                axes.plot(
                    [100 * share.low, 100 * share.high], [at, at], color=colour, lw=4, alpha=0.45, solid_capstyle="butt"
                )
                axes.plot(100 * share.value, at, marker, color=colour, ms=8, label=group if row == 0 else None)
        axes.set(xlim=(-1, 62), ylim=(len(SHARES) - 0.4, -0.6), xlabel="share of all muscles' work [%]")
        axes.set_yticks(range(len(SHARES)), list(SHARES), fontsize=11.5)
        axes.tick_params(axis="y", length=0)
        axes.grid(axis="x", color=GREY, lw=0.4, alpha=0.6)
        handles, words = axes.get_legend_handles_labels()
        axes.legend(
            handles,
            ["lat (all parts)", "mid-back (middle trapezius, rhomboids, rear deltoid, infraspinatus)"][: len(words)],
            loc="lower left",
            bbox_to_anchor=(-0.01, 1.0),
            ncols=2,
            fontsize=11.5,
        )
        return Stage(figure)
