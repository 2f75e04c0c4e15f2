"""The week on one page: HTML and CSV text. The PDF of the same parts is `page_pdf`."""

from html import escape

import numpy as np

from ..tables import table_text
from ..words import counted, lean_words
from .plan import Plan
from .words import (
    CAUTIONS,
    HONEST,
    after_words,
    by_pull,
    client_words,
    grip_words,
    set_up_words,
    set_words,
    turn_words,
)

TITLE = "A week of pulls"
HEADS = ("pull", "days", "grip", "hands", "elbows", "trunk", "to", "sets × repetitions", "first load", "why")
CSV_HEADS = (
    "day", "pull", "grip [cm]", "grip ratio", "hands", "elbows", "trunk lean [deg]", "touch point", "sets",
    "repetitions low", "repetitions high", "first load", "why",
)  # fmt: skip
PAGE_STYLE = (
    "body{font:10.5pt/1.35 'DejaVu Sans',Verdana,sans-serif;max-width:76em;margin:1.5em auto;padding:0 1em;color:#000}"
    "table{border-collapse:collapse;width:100%;font-size:9.5pt}th,td{border:1px solid #8a8a8a;padding:.3em .4em;"
    "text-align:left;vertical-align:top}th{background:#ece6df}h1{font-size:16pt}h2{font-size:12pt}"
    "@page{size:A4 landscape;margin:12mm}"
)


def day_lines(plan):
    """A ``plan`` (`Plan`) day by day, a line of words a day."""
    days = range(1, plan.client.days + 1)
    return [f"Day {day}: " + "; ".join(f"{row.name}, {set_words(row)}" for row in plan.day(day)) for day in days]


def set_lines(plan):
    """Counted sets of a ``plan`` against their bands, a line of words for each muscle group or direction."""
    lines = []
    for group, sets in plan.sets.items():
        low, high, wanted = plan.bands.get(group, (None, None, None))
        band = "no target" if low is None else f"band {low:g} to {high:g}, wanted {wanted:g}"
        lines.append(f"{group}: {counted(sets, 'weekly set')} ({band})")
    return lines + [
        f"{name}: {counted(sets, 'weekly set')} (at least {plan.rules.direction_sets:g})"
        for name, sets in plan.directions.items()
    ]


def pull_lines(plan):
    """Each pull of a ``plan`` once: heading and what to say about it, in words."""
    lines = []
    for row, days in by_pull(plan):
        head = f"{row.name}: day {', '.join(map(str, days))}, {set_words(row)}"
        lines.append((head, f"{set_up_words(row)}; elbows {row.elbow_words}. First load: {row.start}. {row.reason}"))
    return lines


def table_html(plan):
    """The pulls of a ``plan`` as an HTML table, in words with the reason for each."""
    body = []
    for row, days in by_pull(plan):
        cells = (
            row.name, ", ".join(map(str, days)), grip_words(row), turn_words(row.pull), row.elbow_words,
            lean_words(row.pull.trunk_lean), row.pull.touch, set_words(row), row.start, row.reason,
        )  # fmt: skip
        head, *rest = (escape(cell) for cell in cells)
        body.append(f'<tr><th scope="row">{head}</th>' + "".join(f"<td>{cell}</td>" for cell in rest) + "</tr>")
    heads = "".join(f'<th scope="col">{escape(head)}</th>' for head in HEADS)
    return f"<table><thead><tr>{heads}</tr></thead><tbody>{''.join(body)}</tbody></table>"


def bullets(lines):
    """``lines`` of text as an HTML list."""
    return "<ul>" + "".join(f"<li>{escape(line)}</li>" for line in lines) + "</ul>"


def page_html(answer):
    """A whole page to print, as HTML text, of a `Plan`; of a clash or a referral ``answer`` it says why there is no week."""
    parts = [f"<h1>{TITLE}</h1>"]
    if isinstance(answer, Plan):
        parts += [
            f"<p>{escape(client_words(answer.client))}.</p>",
            bullets(day_lines(answer)),
            table_html(answer),
            "<h2>Counted sets</h2>",
            bullets(set_lines(answer)),
            *(f"<p>{escape(note)}</p>" for note in answer.notes),
            f"<h2>Afterwards</h2><p>{escape(after_words(answer.rules))}</p>",
            f"<p>{escape(HONEST)}</p>",
        ]
    else:
        parts += [f"<p><strong>{escape(line)}</strong></p>" for line in answer.lines]
    parts.append(f"<p><strong>Care.</strong> {escape(CAUTIONS)}</p>")
    return (
        f'<!doctype html>\n<html lang="en"><head><meta charset="utf-8"><title>{TITLE}</title>'
        f"<style>{PAGE_STYLE}</style></head><body>\n" + "\n".join(parts) + "\n</body></html>\n"
    )


def page_csv(answer):
    """The week as CSV text, a line for each pull on each day; of another ``answer`` one line that says why there is none."""
    if not isinstance(answer, Plan):
        return table_text([["no week"], [answer.sentence]])
    return table_text([CSV_HEADS, *(_csv_cells(row) for row in answer.rows)])


def _csv_cells(row):
    pull, (low, high) = row.pull, row.repetitions
    lean = f"{np.degrees(pull.trunk_lean):.0f}"
    one_hand = pull.hands == 1
    grip = ("", "") if one_hand else (f"{row.grip_cm:.1f}", f"{pull.grip_ratio:g}")
    set_up = (row.day, row.name, *grip, turn_words(pull), row.elbow_words, lean, pull.touch)
    return [*set_up, row.sets, low, high, row.start, row.reason]
