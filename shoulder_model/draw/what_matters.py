"""Which input moves an answer how much: bars of the total index, the largest on top, the part of each alone filled."""

from matplotlib.patches import Rectangle

from .look import BLACK, BLUE, GREY, LETTERS, VERMILLION, readable

COLOURS = {"people": BLUE, "not known": VERMILLION}
HATCHES = {"people": "", "not known": "///"}
HEIGHT = 0.62


def ranked_bars(axes, matters, kind_of, most=7):
    """Draw the inputs of one answer into ``axes``.

    Parameters
    ----------
    axes : matplotlib.axes.Axes
    matters : spread.stored.Matters
        Indices without unit.
    kind_of : dict
        Name of an input -> "people" or "not known".
    most : int
        How many bars, a whole number; the smallest are left out.
    """
    shown = list(matters.inputs.values())[:most]
    for row, one in enumerate(shown):
        colour = COLOURS[kind_of[one.input]]
        place, alone = (0.0, row - HEIGHT / 2), max(min(one.first, one.total), 0.0)
        axes.add_patch(Rectangle(place, one.total, HEIGHT, facecolor="none", edgecolor=colour, lw=1.5))
        filled = {
            "facecolor": colour,
            "edgecolor": colour,
            "alpha": 0.55,
            "lw": 0,
            "hatch": HATCHES[kind_of[one.input]],
        }
        axes.add_patch(Rectangle(place, alone, HEIGHT, **filled))
        low, high = (max(end, 0.0) for end in one.total_band)
        axes.plot([low, high], [row, row], color=BLACK, lw=1.2, marker="|", ms=7, zorder=3)
        axes.text(
            max(high, one.total) + 0.02,
            row,
            f"{100 * one.total:.0f} %",
            va="center",
            fontsize=LETTERS,
            color=readable(colour),
        )
    _labelled(axes, [one.input for one in shown], most)


def _labelled(axes, names, most):
    axes.set(ylim=(most - 0.4, -0.6), xlim=(0, 1.1))
    axes.set_yticks(range(len(names)), names)
    axes.set_xticks([0, 0.25, 0.5, 0.75, 1.0], ["0", "25", "50", "75", "100 %"])
    axes.tick_params(axis="y", length=0)
    axes.tick_params(color=GREY)
    axes.grid(axis="x", color="#eeeeee")
    axes.set_axisbelow(True)


def key_of(figure):
    """Write the key of the two kinds at the foot of a ``figure``: colour and hatching with their words."""
    marks = [
        Rectangle((0, 0), 1, 1, facecolor=COLOURS[kind], alpha=0.55, hatch=HATCHES[kind], edgecolor=COLOURS[kind])
        for kind in COLOURS
    ]
    words = {"people": "people differ", "not known": "not known"}
    figure.legend(
        marks,
        [words[kind] for kind in COLOURS],
        loc="lower center",
        ncols=2,
        frameon=False,
        fontsize=LETTERS,
        borderaxespad=0.2,
    )
