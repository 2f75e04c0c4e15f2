"""Two grips at one load, and each at the same share of its own limit: what the model's muscles do."""

import matplotlib as mpl
import numpy as np

import shoulder_model as sm
from shoulder_model.draw.look import BLUE, STYLE, VERMILLION, at_projector, new_figure
from shoulder_model.draw.stage import Stage

MAN, SHARE = sm.Lifter.average("men"), 0.7
GRIPS = {ratio: sm.pulls["front pulldown"].change(grip_ratio=ratio) for ratio in (1.5, 2.0)}
LIMIT = {ratio: float(sm.rep(MAN, pull).whole_rep_load_kg) for ratio, pull in GRIPS.items()}
ONE_LOAD = SHARE * min(LIMIT.values())
MUSCLES = {
    "latissimus dorsi middle": "lat, middle",
    "latissimus dorsi inferior": "lat, lower",
    "teres major": "teres major",
    "deltoid posterior": "rear deltoid",
    "biceps brachii": "biceps",
}


def activation(ratio, load):
    """Mean over the counted part of the rep, per cent of capacity."""
    rep = sm.rep(MAN, GRIPS[ratio].change(load_kg=load))
    mean = sm.counted_part(rep).activation.mean("point")
    return np.array([100 * float(mean.sel(muscle=name)) for name in MUSCLES])


AT = {
    f"one load, {ONE_LOAD:.0f} kg": {ratio: activation(ratio, ONE_LOAD) for ratio in GRIPS},
    f"{100 * SHARE:.0f} % of each grip's own limit": {
        ratio: activation(ratio, SHARE * LIMIT[ratio]) for ratio in GRIPS
    },
}
WORDS = (
    "Bars of the model's activation, per cent of capacity, in a front pulldown at grip "
    + " and ".join(f"{ratio:.1f} × (limit {limit:.0f} kg)" for ratio, limit in LIMIT.items())
    + ". "
    + " ".join(
        f"At {name}: "
        + ", ".join(
            f"{words} {a:.0f} and {b:.0f}" for words, a, b in zip(MUSCLES.values(), *values.values(), strict=True)
        )
        + "."
        for name, values in AT.items()
    )
)
LAYOUT = {  # at projector size? -> height of the sheet [inch], left edge of the first axes, bottom, width and height of both
    False: (3.6, 0.075, 0.2, 0.43, 0.66),
    True: (4.3, 0.1, 0.17, 0.42, 0.72),
}


def stage():
    """One group of bars a muscle, left at one load, right at one share of the limit."""
    top = 1.38 * max(values.max() for one in AT.values() for values in one.values())
    height, left, *place = LAYOUT[at_projector()]
    with mpl.rc_context(STYLE):
        figure = new_figure(9.6, height)
        for k, (name, values) in enumerate(AT.items()):
            axes = figure.add_axes([left + 0.48 * k, *place])
            for side, (ratio, colour, hatch) in enumerate(zip(GRIPS, (BLUE, VERMILLION), ("", "///"), strict=True)):
                x = np.arange(len(MUSCLES)) + 0.4 * (side - 0.5)
                axes.bar(
                    x,
                    values[ratio],
                    0.38,
                    color=colour if not hatch else "white",
                    edgecolor=colour,
                    hatch=hatch,
                    lw=1.2,
                    label=f"grip {ratio:.1f} ×",
                )
                for at, value in zip(x, values[ratio], strict=True):
                    axes.text(
                        at,
                        value + 0.01 * top,
                        f"{value:.0f}",
                        ha="center",
                        va="bottom",
                        color=colour,
                        fontweight="bold",
                    )
            axes.set(ylim=(0, top), title=name, ylabel="activation, % of capacity" if k == 0 else "")
            axes.set_xticks(
                range(len(MUSCLES)), [words.replace(", ", ",\n").replace(" ", "\n") for words in MUSCLES.values()]
            )
            axes.tick_params(axis="x", length=0)
            axes.legend(loc="upper left", bbox_to_anchor=(0.0, 1.0), ncols=2)
        return Stage(figure)
