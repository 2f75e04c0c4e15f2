"""The week as one printed page, A4 upright: the PDF of the parts that `page` has as HTML.

The one file here that needs matplotlib; nothing in this folder imports it.
"""

import io
import textwrap

import matplotlib as mpl
import numpy as np
from matplotlib.figure import Figure

from .page import TITLE, day_lines, pull_lines, set_lines
from .plan import Plan
from .words import CAUTIONS, HONEST, after_words, client_words

A4 = (8.27, 11.69)  # inches
GREY = "#8a8a8a"
STYLE = {"font.family": "DejaVu Sans", "pdf.fonttype": 42}
LOG_COLUMNS = (  # heading, left edge as a share of the width
    ("date", 0.0), ("pull", 0.11), ("grip cm", 0.36), ("load kg", 0.45), ("reps", 0.54), ("left", 0.68), ("comfort", 0.76),
    ("note", 0.86),
)  # fmt: skip


def page_figure(answer):
    """The printed page of an ``answer`` of `plan.plan_week` as a figure, A4 upright, in words; without a week it says why."""
    with mpl.rc_context(STYLE):
        figure = Figure(figsize=A4, facecolor="white")
        y = _paragraph(figure, 0.965, TITLE, 15, "bold")
        for words, size, weight in _page_parts(answer):
            y = _paragraph(figure, y, words, size, weight)
        if isinstance(answer, Plan):
            _log(figure, y)
    return figure


def page_pdf(answer):
    """The printed page of an ``answer`` of `plan.plan_week`, in words, as the bytes of a PDF."""
    store = io.BytesIO()
    with mpl.rc_context(STYLE):
        page_figure(answer).savefig(store, format="pdf", metadata={"CreationDate": None, "Title": TITLE})
    return store.getvalue()


def _page_parts(answer):
    """What stands on the page: (words, letter size, weight)."""
    if not isinstance(answer, Plan):
        return [*((line, 11, "normal") for line in answer.lines), (CAUTIONS, 9, "normal")]
    parts = [(f"{client_words(answer.client)}.", 9, "normal")]
    parts += [(line, 9.5, "bold") for line in day_lines(answer)]
    for head, words in pull_lines(answer):
        parts += [(head, 9.5, "bold"), (words, 9, "normal")]
    parts += [("Counted: " + "; ".join(set_lines(answer)) + ".", 9, "normal")]
    return parts + [(words, 9, "normal") for words in (*answer.notes, after_words(answer.rules), HONEST, CAUTIONS)]


def _paragraph(figure, y, words, size, weight):
    """Put wrapped words under ``y`` (share of the page); returns where the next may start."""
    letters = int(0.87 * A4[0] * 72 / (size * (0.66 if weight == "bold" else 0.585)))
    for line in textwrap.wrap(words, letters):
        figure.text(0.065, y, line, fontsize=size, fontweight=weight, va="top")
        y -= 1.3 * size / (72 * A4[1])
    return y - 0.5 * size / (72 * A4[1])


def _log(figure, top):
    """Lines to write on, down to the foot of the page; none where there is no room."""
    low, tall = 0.035, 0.024
    count = int((top - low) / tall)
    if count < 3:
        return
    axes = figure.add_axes([0.065, top - count * tall, 0.87, count * tall])
    axes.set(xlim=(0, 1), ylim=(count, 0))
    axes.axis("off")
    axes.hlines(np.arange(count + 1), 0, 1, color=GREY, lw=0.6, clip_on=False)
    for (head, start), end in zip(LOG_COLUMNS, [*(start for _, start in LOG_COLUMNS[1:]), 1.0], strict=True):
        axes.vlines([start, end], 0, count, color=GREY, lw=0.6, clip_on=False)
        axes.text(start + 0.008, 0.5, head, fontsize=8, va="center")
