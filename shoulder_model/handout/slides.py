"""The slide version of a chapter: pages of 13.33 × 7.5 inches with letters for a projector, spread when the page opens."""

import re
from html import escape
from pathlib import Path

from .. import lesson
from .page import CAUTION, WORKBOOK, style, whole_page
from .paper import Pointer
from .render import MOVES, Press, anchor, is_question, is_still, still, ticks, verdict

HERE = Path(__file__).parent
CAPTION = re.compile(r"<p>(<em>(?:(?!</?em>|</p>).)*</em>)</p>", re.DOTALL)
EVERYBODY = "Everybody writes down"


def slides_page(paper, figures, glossary, made=()):
    """The slide version as an HTML page.

    Parameters
    ----------
    paper : paper.Paper
        Read for a projector (`draw.look.projector`).
    figures : list of path-like
        Folders in which figures are looked for, those for a projector first.
    glossary : dict of str
        Term -> meaning, Markdown (`render.glossary_of`).
    made : container of str
        Names of the chapters whose slides come into the same folder.

    Returns
    -------
    str
        Text of the page.
    """
    deck = _Deck(Press(paper, figures, glossary, made))
    title = f"{paper.title} · {WORKBOOK}"
    body = f'<main id="deck" data-title="{escape(title)}">\n{"".join(deck.groups())}</main>'
    scripts = (Path(lesson.__file__).with_name("screens.js"), HERE / "slides.js")
    script = "\n".join(path.read_text(encoding="utf-8") for path in scripts)
    return whole_page(f"{title}, slides", body, style("slides"), script)


class _Deck:
    """A paper's groups in the order of a lecture: a guess, then its answer; an exercise, then its solution."""

    def __init__(self, press):
        self.press, self.paper = press, press.paper
        self.replies = {("answer", reply.number): reply for reply in self.paper.answers}
        self.replies |= {("solution", reply.number): reply for reply in self.paper.solutions}

    def groups(self):
        """Groups of HTML text, each with its heading."""
        yield self._title()
        head, *parts = self.paper.parts
        if head.blocks:
            yield _group("What it is about", self._html(head.blocks))
        more = [part for part in parts if part.kind == "more"]
        for part in [part for part in parts if part.kind != "more"] + more:
            yield from self._part(part)
        yield _group("Words", self.press.definitions(), "words")
        yield _group("Notes", self.press.notes(), "notes")

    def _title(self):
        question = f"<p class='question'>“{escape(self.paper.question)}”</p>" if self.paper.question else ""
        return (
            f'<div class="group" data-kind="title"><h1>{escape(self.paper.title)}</h1>{question}'
            f"<p class='small'>{escape(CAUTION)}</p><p class='small'>{WORKBOOK}. Licence: MIT.</p></div>\n"
        )

    def _part(self, part):
        """A section, cut where a guess, an answer or a solution takes a slide of its own."""
        rest, name = [], anchor(part.title)
        for block in part.blocks:
            if is_question(block) or isinstance(block, Pointer):
                if rest:
                    yield _group(part.title, self._html(rest), name)
                    rest, name = [], ""
                if is_question(block):
                    yield _group(f"Guess {block.number}", _asked(block))
                    yield self._reply("answer", block.number)
                else:
                    yield self._reply(block.kind, block.number)
            else:
                rest.append(block)
        if rest:
            yield _group(part.title, self._html(rest), name)

    def _reply(self, kind, number):
        reply = self.replies[kind, number]
        said = verdict(reply.guess) if reply.guess else ""
        return _group(f"{kind.capitalize()} {number}", said + self._html(reply.blocks), f"{kind}-{number}")

    def _html(self, blocks):
        html = "".join(_still(block) if is_still(block) else self.press.plain_block(block) for block in blocks)
        return CAPTION.sub(r'<p class="caption">\1</p>', html)


def _group(title, html, name=""):
    named = f' id="{name}"' if name else ""
    return f'<div class="group"><h2{named}>{escape(title)}</h2>\n{html}</div>\n' if html else ""


def _asked(block):
    return f"<p class='big'>{escape(block.guess.question)}</p>{ticks(block, EVERYBODY)}"


def _still(block):
    said = block.panel.picture.said
    small = f"<p class='small'>{escape(said['small'])}</p>" if said["small"] else ""
    return f"{still(block)}<p><b>{escape(said['verdict'])}</b></p>{small}<p class='small'>{MOVES}</p>\n"
