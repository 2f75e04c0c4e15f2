"""The coach's wall table: who does how much of each pull, as bars to 100 %, in two kinds of figure, with spans."""

import matplotlib as mpl
import numpy as np

import shoulder_model as sm
from shoulder_model.draw.look import (
    BLACK,
    ENOUGH,
    GROUP_LOOK,
    LETTERS,
    SMALL,
    STYLE,
    at_projector,
    contrast,
    new_figure,
)
from shoulder_model.draw.stage import Stage

MAN, P = sm.Lifter.average("men"), sm.pulls
PULLS = {
    "straight-arm pulldown": P["straight-arm pulldown"],
    "front pulldown, 1.0 ×": P["front pulldown"].change(grip_ratio=1.0),
    "front pulldown, 1.5 ×": P["front pulldown"],
    "front pulldown, 2.0 ×": P["front pulldown"].change(grip_ratio=2.0),
    "behind-the-neck pulldown": P["behind-the-neck pulldown"],
    "close-grip pulldown": P["close-grip pulldown"],
    "pull-up": P["pull-up"],
    "chin-up": P["chin-up"],
    "45° row, wide": P["seated row wide"].change(room_angle=np.pi / 4),
    "inverted row": P["inverted row"],
    "seated row close": P["seated row close"],
    "one-arm row": P["one-arm row"],
    "bent-over row": P["bent-over row"],
    "seated row wide": P["seated row wide"],
    "chest-supported row": P["chest-supported row"],
}
HATCHES = {"elbow flexors": "///", "pectoralis major": "\\\\\\", "rotator cuff": "...", "triceps": "xx"}
LOOK = {
    group: (colour, HATCHES.get(group, ""), "white" if contrast(colour) >= ENOUGH else BLACK)
    for group, colour in GROUP_LOOK.items()
}  # colour, hatch, letters
PANELS = {"work": "work [share of joules]", "active muscle": "active muscle [share of cm²]"}  # kind -> title
PRINTED = ("lat", "mid-back")
LAYOUT = {  # at projector size? -> where things stand, and what there is room for
    False: {  # on a page
        "height": 6.4, "lefts": (0.262, 0.662), "place": (0.06, 0.216, 0.755), "lettered": 0.07, "names": 11, "loads": True,
        "spans": (1.13, 1.36), "titles": LETTERS, "pad": 20, "scale": True, "bar": (0.78, 1.0), "short": {}, "name at": -0.21,
        "key": {"handleheight": 1.1},
    },
    True: {  # at projector size
        "height": 6.4, "lefts": (0.272, 0.63), "place": (0.0, 0.195, 0.775), "lettered": 0.14, "names": SMALL, "loads": False,
        "spans": (1.2, 1.57), "titles": SMALL, "pad": 15, "scale": False, "bar": (0.92, 0.2), "name at": -0.04,
        "short": {"front and side deltoid": "front, side deltoid", "serratus, pectoralis minor, others": "others"},
        "key": {"handlelength": 1.2, "handletextpad": 0.4, "columnspacing": 0.9, "labelspacing": 0.2}
        | dict.fromkeys(("borderpad", "borderaxespad"), 0.1),
    },
}  # fmt: skip
SHARES = {kind: {name: sm.muscle_shares(MAN, pull, kind=kind) for name, pull in PULLS.items()} for kind in PANELS}


def percent(share):
    """Value and span of a `Share` in words."""
    return f"{100 * share.value:.0f} ({100 * share.low:.0f} to {100 * share.high:.0f})"


def braked(shares):
    """All negative work over all that is put in, in the plane."""
    return sum(share.value for share in shares.taken_out.values())


MOST = min(SHARES["work"], key=lambda name: braked(SHARES["work"][name]))
WORDS = (
    "Bars to 100 % for each pull, split by muscle group, work on the left, active muscle on the right, at half of each "
    "pull's own largest load. Share in per cent and its span, for each pull work of lat, work of mid-back; active lat, "
    "active mid-back. "
    + " ".join(
        f"{name}, {SHARES['work'][name].load_kg['plane']:.0f} kg: "
        + "; ".join(", ".join(percent(SHARES[kind][name].of[group]) for group in PRINTED) for kind in PANELS)
        + "."
        for name in PULLS
    )
    + " Not in the bars: work that muscles take out while they are lengthened, up to "
    + f"{-100 * braked(SHARES['work'][MOST]):.0f} % ({MOST})."
)


def bars(axes, kind, lettered, tall, pad):
    """One bar a pull, left to right in the order of `LOOK`, its number where there is room."""
    for row, shares in enumerate(SHARES[kind].values()):
        left = 0.0
        for group, (colour, hatch, ink) in LOOK.items():
            value = shares.of[group].value
            label = group if row == 0 else None
            axes.barh(row, value, tall, left, color=colour, hatch=hatch, edgecolor=BLACK, lw=0.5, label=label)
            if value >= lettered:
                box = {"facecolor": colour, "edgecolor": "none", "pad": pad} if hatch else None
                at = left + value / 2
                axes.text(at, row, f"{100 * value:.0f}", color=ink, ha="center", va="center", fontsize=10, bbox=box)
            left += value


def spans(axes, kind, places):
    """Low to high of the two printed groups, right of the bars."""
    for at, group in zip(places, PRINTED, strict=True):
        axes.text(at, -0.75, group, color=LOOK[group][0], ha="center", va="bottom", fontsize=10, fontweight="bold")
        for row, shares in enumerate(SHARES[kind].values()):
            share = shares.of[group]
            words = f"{100 * share.low:.0f}–{100 * share.high:.0f}"
            axes.text(at, row, words, color=LOOK[group][0], ha="center", va="center", fontsize=10)


def names(axes, here):
    """Each pull's name left of its bar, and its load where there is room."""
    for row, (name, shares) in enumerate(SHARES["work"].items()):
        axes.text(here["name at"], row, name, ha="right", va="center", fontsize=here["names"])
        if here["loads"]:
            axes.text(-0.03, row, f"{shares.load_kg['plane']:.0f} kg", ha="right", va="center", fontsize=10)


def stage():
    """Two parts, one a kind; names and loads on the left, spans on the right of each."""
    here = LAYOUT[at_projector()]
    with mpl.rc_context({**STYLE, "hatch.linewidth": 0.6}):
        figure = new_figure(11.2, here["height"])
        low, wide, high = here["place"]
        for (kind, title), left in zip(PANELS.items(), here["lefts"], strict=True):
            axes = figure.add_axes([left, low, wide, high])
            bars(axes, kind, here["lettered"], *here["bar"])
            spans(axes, kind, here["spans"])
            axes.set(xlim=(0, 1), ylim=(len(PULLS) - 0.5, -0.55))
            axes.set_xticks([0, 0.5, 1], ["0", "50", "100 %"])
            axes.set_yticks([])
            axes.tick_params(bottom=here["scale"], labelbottom=here["scale"])
            axes.set_title(title, loc="left", pad=here["pad"], fontsize=here["titles"])
            axes.spines[["left", "bottom"]].set_visible(False)
            if kind == "work":
                names(axes, here)
                handles, words = axes.get_legend_handles_labels()
        words = [here["short"].get(group, group) for group in words]
        figure.legend(
            handles, words, loc="upper center", bbox_to_anchor=(0.5, 1.0), ncols=5, fontsize=10, **here["key"]
        )
        return Stage(figure)
