"""What every hand-out shares: the frame of the page, its look, its fonts, its foot."""

import re
from html import escape
from pathlib import Path

from ..draw.stage import own_names
from .fonts import font_faces

HERE = Path(__file__).parent
WORKBOOK = "Shoulder model workbook"
CAUTION = (
    "For teaching and for choosing exercises, not for diagnosis or treatment. Pain, numbness, a past dislocation or surgery: "
    "stop, and see a licensed clinician."
)
NO_PDF = (
    "There is no PDF of this page, because no browser was found that could make it. To make one, press Ctrl+P (on a Mac ⌘P) "
    "and choose “Save as PDF” as the printer."
)
NOTHING_FROM_OUTSIDE = (
    "default-src 'none'; script-src 'unsafe-inline'; style-src 'unsafe-inline'; font-src data:; img-src data:; "
    "base-uri 'none'; form-action 'none'"
)
SVG = re.compile(r"<svg\b.*?</svg>", re.DOTALL)


def style(*names):
    """The style sheets of these ``names``, one after the other, as text."""
    return "\n".join((HERE / f"{name}.css").read_text(encoding="utf-8") for name in names)


def foot(title):
    """What stands at the foot of a hand-out called ``title``, as HTML text."""
    return (
        f"<footer><p><b>{WORKBOOK}</b> · {escape(title)} · licence: MIT</p>"
        f'<p class="caution">{escape(CAUTION)}</p></footer>'
    )


def whole_page(title, body, css, script="", *, letters="", offline=False):
    """A page that needs nothing else.

    Parameters
    ----------
    title : str
    body : str
        HTML.
    css, script : str
        Text of the style sheet and of the script.
    letters : str
        Characters that the script may put on the page.
    offline : bool
        Whether the page tells the browser that it may ask for nothing.

    Returns
    -------
    str
        HTML, with fonts that have each of its characters.
    """
    body = apart(body)
    end = f"<script>\n{script}\n</script>\n" if script else ""
    policy = f'<meta http-equiv="Content-Security-Policy" content="{NOTHING_FROM_OUTSIDE}">\n' if offline else ""
    fonts = font_faces(title + body + css + script + letters)
    return (
        f'<!DOCTYPE html>\n<html lang="en">\n<head>\n<meta charset="utf-8">\n{policy}<title>{escape(title)}</title>\n'
        '<meta name="viewport" content="width=device-width, initial-scale=1">\n'
        f"<style>\n{fonts}\n{css}\n</style>\n</head>\n<body>\n{body}\n{end}</body>\n</html>\n"
    )


def with_note(page):
    """A ``page`` (HTML text) that says at its top, on a screen only, how it becomes a PDF; the answer is HTML text."""
    return page.replace("<body>\n", f'<body>\n<p class="no-pdf" role="note">{escape(NO_PDF)}</p>\n', 1)


def apart(html):
    """``html`` (text) with its pictures kept apart: names in an SVG that nothing needs go, others get its number."""
    count = iter(range(html.count("<svg") + 1))
    return SVG.sub(lambda match: own_names(match[0], f"p{next(count)}-"), html)
