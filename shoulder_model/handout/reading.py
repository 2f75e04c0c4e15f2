"""The reading version of a chapter: an A4 page to read on paper or on a screen, its answers at the end."""

import re
from html import escape

from ..recorded import fragment
from .page import WORKBOOK, foot, style, whole_page
from .paper import Pointer
from .render import MOVES, Press, anchor, figures_with_captions, is_question, is_still, still, ticks, verdict

LEADS = re.compile(r"<p>(?=(?:(?!</p>).)*:</p>)", re.DOTALL)  # a line that leads to what follows
POINTS_TO = {"answer": "Work it out, then see", "solution": "See"}


def reading_page(paper, figures, glossary, made=(), recorded=()):
    """The reading version as an HTML page.

    Parameters
    ----------
    paper : paper.Paper
    figures : list of path-like
        Folders in which figures are looked for.
    glossary : dict of str
        Term -> meaning, Markdown (`render.glossary_of`).
    made : container of str
        Names of the chapters whose pages come into the same folder.
    recorded : dict of recorded.fragment.Fragment, optional
        Panels that move on the page, by their `id` (`moving.recorded_panels`).

    Returns
    -------
    str
        Text of the page.
    """
    recorded = dict(recorded)
    press = Press(paper, figures, glossary, made, recorded)
    head, *parts = paper.parts
    content = [f"<header><p class='from'>{WORKBOOK}</p><h1 id='top'>{escape(paper.title)}</h1>"]
    content += [f"<p class='question'>{escape(paper.question)}</p>" if paper.question else ""]
    content += [_blocks(press, head.blocks), "</header>"]
    content.append("<main>")
    content += [_section(anchor(part.title), escape(part.title), _blocks(press, part.blocks)) for part in parts]
    content += [_replies(press, "answer", "Answers"), _replies(press, "solution", "Solutions")]
    content += [_section("words", "Words", press.definitions()), _section("notes", "Notes", press.notes())]
    content += ["</main>", foot(f"chapter {paper.title}" if paper.title[0].isdigit() else paper.title)]
    margin = f'@page {{ @top-left {{ content: "{WORKBOOK}"; }} @top-right {{ content: "{paper.title}"; }} }}\n'
    title, body = f"{paper.title} · {WORKBOOK}", "\n".join(part for part in content if part)
    if not recorded:
        return whole_page(title, body, style("page") + margin)
    css, letters = f"{style('page')}{margin}\n{fragment.style()}", "".join(one.letters for one in recorded.values())
    return whole_page(title, body, css, fragment.script("in_text"), letters=letters, offline=True)


def _section(name, title, html):
    return f'<section aria-labelledby="{name}">\n<h2 id="{name}">{title}</h2>\n{html}</section>\n' if html else ""


def _blocks(press, blocks):
    return "".join(_block(press, block) for block in blocks)


def _block(press, block):
    if isinstance(block, Pointer):
        name = f"{block.kind} {block.number}"
        return (
            f'<p class="where" id="to-{block.kind}-{block.number}">{POINTS_TO[block.kind]} '
            f'<a href="#{block.kind}-{block.number}">{name}</a> at the end.</p>\n'
        )
    if is_question(block):
        return _question(block)
    if is_still(block):
        return _moving(press, block) or _still(block)
    return LEADS.sub('<p class="leads">', figures_with_captions(press.plain_block(block)))


def _question(block):
    number = block.number
    return (
        f'<div class="guess" role="group" aria-labelledby="to-answer-{number}">'
        f'<p class="label" id="to-answer-{number}">Guess {number}</p>'
        f"<p class='asked'>{escape(block.guess.question)}</p>{ticks(block, 'My guess')}"
        f'<p class="where"><a href="#answer-{number}">Answer {number}</a> is at the end.</p></div>\n'
    )


def _still(block):
    said = block.panel.picture.said
    small = f" {escape(said['small'])}" if said["small"] else ""
    return (
        f'<figure class="panel">{still(block)}<figcaption><p><b>{escape(said["verdict"])}</b>{small}</p>'
        f"<p>{MOVES}</p></figcaption></figure>\n"
    )


def _moving(press, block):
    """The panel as it moves, or nothing for one that was not recorded."""
    recorded = press.recorded.get(id(block.panel))
    return f'<figure class="panel">{recorded.html}</figure>\n' if recorded else ""


def _replies(press, kind, title):
    """The answers or solutions, numbered, each with a link back to what it answers."""
    replies = press.paper.answers if kind == "answer" else press.paper.solutions
    parts = []
    for reply in replies:
        name = f"{kind}-{reply.number}"
        said = verdict(reply.guess) if reply.guess else ""
        back = f'<p class="back"><a href="#to-{name}">Back to {"guess" if reply.guess else kind} {reply.number}</a></p>'
        if kind == "answer" and not reply.guess:
            back = back.replace(f"answer {reply.number}", escape(reply.section))
        if kind == "solution":
            back = back.replace(f"solution {reply.number}", escape(reply.section))
        head = (
            f'<h3 id="{name}">{kind.capitalize()} {reply.number} <span class="of">· {escape(reply.section)}</span></h3>'
        )
        parts.append(f'<div class="reply">{head}{said}{_blocks(press, reply.blocks)}{back}</div>\n')
    return _section(f"{kind}s", title, "".join(parts))
