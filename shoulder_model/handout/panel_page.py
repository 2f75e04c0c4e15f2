"""One recorded panel as a page of its own, with the chapter's guess before it where there is one."""

import json
from dataclasses import dataclass
from html import escape

from ..checkout import chapter_path
from ..inputs import InputError
from ..lesson import Ask, Live, chapter_title, inlined, read_chapter, titles
from ..panels import Guess
from ..panels.guess import NO_NUMBER, NOT_CHOSEN, NOT_TYPED
from ..panels.panel import Panel
from ..recorded import fragment
from ..recorded.grids import KINDS
from .page import WORKBOOK, foot, style, whole_page


@dataclass(frozen=True)
class OfChapter:
    """A chapter's panel, the guess that it waits for or None, and the chapter's title."""

    panel: Panel
    guess: Guess | None
    title: str


def of_chapter(kind, home):
    """The panel of a ``kind`` (str, among `KINDS`) as its chapter in ``home`` (path) shows it, an `OfChapter`.

    The chapter is run as far as the panel. Raises `InputError` in words where it does not run so far, or has none.
    """
    path = chapter_path(home, KINDS[kind].chapter)
    for until in titles(path):
        guess = None
        for block in read_chapter(path, until).sections[-1].blocks:
            guess = block.guess if isinstance(block, Ask) else guess
            if isinstance(block, Live) and type(block.panel) is KINDS[kind].make:
                return OfChapter(block.panel, guess if block.asked else None, chapter_title(path))
    raise InputError("panel", f"chapter {path.stem} shows no {kind} panel; name a set-up, or open a saved one")


def panel_page(kind, record, panel, chapter=None):
    """The page.

    Parameters
    ----------
    kind : str
        Name of the panel, among `KINDS`.
    record : recorded.recorder.Record
    panel : panels.panel.Panel
        As it starts.
    chapter : OfChapter, optional
        Where the panel is from.

    Returns
    -------
    str
        HTML text.
    """
    title = KINDS[kind].title
    still = inlined(panel.content("svg").decode(), panel.words)
    recorded = fragment.fragment(record, panel, still)
    guess = chapter.guess if chapter else None
    source = f" · from chapter {escape(chapter.title)}" if chapter else ""
    body = (
        f'<header><p class="from">{WORKBOOK}{source}</p><h1>{escape(title)}</h1></header>\n<main>\n'
        f"{guess_form(guess) if guess else ''}"
        f'<div class="then">\n{recorded.html}{COPY}</div>\n</main>\n{foot(title)}'
    )
    css = f"{style('page', 'panel_page')}\n{fragment.style()}"
    return whole_page(
        f"{title} · {WORKBOOK}", body, css, fragment.script("alone"), letters=recorded.letters, offline=True
    )


COPY = (
    '<p class="sharing"><button type="button" class="copy">Copy link to this</button> <span class="copied" role="status"></span>'
    '<input class="link" aria-label="Link to this" readonly hidden></p>\n'
)


def guess_form(guess):
    """The question of a ``guess`` (`panels.Guess`) with what there is to choose or to type, as HTML text; a script works it."""
    asked = f"<b>Your guess first.</b> {escape(guess.question)}"
    unit = escape(guess.unit)
    if guess.choices is None:
        label = f"Your guess in {unit}" if unit else "Your guess"
        answers = f'<input class="typed" aria-label="{label}" placeholder="type a number" autocomplete="off"> {unit}'
    else:
        radio = '<label><input type="radio" name="guess" value="{0}"> {0}</label>'
        answers = "".join(radio.format(escape(choice)) for choice in guess.choices)
    said = {
        "right": guess.said(True), "wrong": guess.said(False), "shown": guess.said(), "no_number": NO_NUMBER,
        "nothing": NOT_TYPED if guess.choices is None else NOT_CHOSEN,
    }  # fmt: skip
    words = json.dumps({"answer": guess.answer, "within": guess.within, "said": said}, ensure_ascii=False)
    role = ' role="radiogroup"' if guess.choices is not None else ""
    return (
        f'<form class="guess" hidden><fieldset{role}><legend>{asked}</legend>{answers}</fieldset>'
        '<p><button>That is my guess</button> <button type="button" class="show">Show me</button></p></form>\n'
        '<p class="guess-verdict" role="status"></p>\n'
        f'<script type="application/json" class="guess-words">{words.replace("<", chr(92) + "u003c")}</script>\n'
    )
