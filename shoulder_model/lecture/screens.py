"""From a run sheet, or a chapter, to what stands on a projector, screen by screen.

A step is a list of screens, and a screen is a dict that the page draws:

- ``kind`` "text": ``html``, which the page spreads over as many screens as it needs
- ``kind`` "ask": ``html`` above the ``question``, ``answers`` (list of str; empty where each writes down a number), and its
  ``name`` in the protocol
- ``kind`` "answer": the ``ask`` it belongs to, ``right`` (place in the list, or None), ``replies`` (list of str), ``html``
- ``kind`` "panel": ``panel``, its place among the lecture's live panels
- ``kind`` "wait": what it waits for is still being made
"""

import re
from dataclasses import dataclass, field
from functools import cache
from html import escape
from pathlib import Path

from ..checkout import HOME, chapter_path, chapters
from ..draw.look import projector
from ..handout.prose import for_the_notebook
from ..lesson import Ask, Code, Fold, Lines, Live, Page, Text, cells, notes, plain_html, read_chapter, titles
from .controls import PanelOf, make_panel
from .sheet_parts import FigureOf, SectionOf

WAIT = {"kind": "wait"}
NOTE = re.compile(r"\[\[(\d+)\]\(#Notes\)\]")
WRITE = "Everybody writes down a number first."


@dataclass
class Step:
    """One step of a lecture as the page has it.

    Parameters
    ----------
    title : str
    minutes : float or None
        Planned; a chapter has no plan for its sections.
    note : str
        For the tutor, shown when asked for.
    quiz : bool
        Whether it belongs to the exit quiz.
    screens : list of dict
    ready : bool
        False while its panel or section is still to be made.
    """

    title: str
    minutes: float | None = None
    note: str = ""
    quiz: bool = False
    screens: list = field(default_factory=list)
    ready: bool = True

    def told(self):
        """The step as the page takes it, a dict."""
        return {name: getattr(self, name) for name in ("title", "minutes", "note", "quiz", "screens", "ready")}


def page_of(home):
    """The `lesson.Page` that turns Markdown and figures into text for a projector; ``home`` (path) is the checkout."""
    return Page(Path(home) / "figures" / "projector")


@cache
def figure_words(home, name):
    """What the figure ``name`` (str) shows, as a chapter that embeds it says (text); ``home`` (path) is the checkout."""
    embedded = re.compile(rf"!\[([^\]]*)\]\(\.\./figures/{re.escape(name)}\.svg\)")
    found = (embedded.search(source) for chapter in chapters(home) for _, source in cells(chapter_path(home, chapter)))
    return next((match[1] for match in found if match), name.replace("_", " "))


def text(html):
    """A screen of text, from ``html`` (str)."""
    return {"kind": "text", "html": html}


def sheet_step(step, number, home, live=None):
    """A step of a run sheet as the page has it.

    Parameters
    ----------
    step : sheet_parts.Step
    number : int
        Its place in the sheet, which names its question in the protocol.
    home : path
    live : list of dict, optional
        Screens of the panel or section that it shows; without them the step waits for it.
    """
    made = Step(step.title, step.minutes, step.note, step.quiz)
    said = plain_html(step.say)
    if step.ask:
        made.screens.append(ask_screen(f"step {number + 1}", step.ask, [answer.say for answer in step.answers], said))
    elif said:
        made.screens.append(text(said))
    if isinstance(step.shows, FigureOf):
        made.screens.append(text(page_of(home).picture(step.shows.name, figure_words(Path(home), step.shows.name))))
    elif step.shows is not None:
        made.screens += live or [WAIT]
        made.ready = live is not None
    if step.ask:
        rights = [place for place, answer in enumerate(step.answers) if answer.right]
        replies = [answer.reply for answer in step.answers]
        made.screens.append(
            answer_screen(f"step {number + 1}", rights[0] if rights else None, replies, plain_html(step.reveal))
        )
    elif step.reveal:
        made.screens.append(text(plain_html(step.reveal)))
    return made


def ask_screen(name, question, answers, html=""):
    """The ``question`` (str) called ``name`` (str), with its ``answers`` (list of str); ``html`` (str) stands above it."""
    return {"kind": "ask", "name": name, "question": question, "answers": list(answers), "html": html}


def answer_screen(ask, right, replies, html):
    """The answer to the question ``ask`` (name): place of the ``right`` one or None, ``replies`` (list of text), ``html`` (text)."""
    return {"kind": "answer", "ask": ask, "right": right, "replies": replies, "html": html}


class Stagehand:
    """Makes what the steps of a run sheet or a chapter show, in order, and keeps the live panels.

    Parameters
    ----------
    home : path
        The checkout.
    sheet : sheet_parts.RunSheet, optional
        Its chapters are run once, as far as its last section of each.
    """

    def __init__(self, home=HOME, sheet=None):
        self.home, self.page, self.panels, self.chapters = Path(home), page_of(home), [], {}
        self.wanted = [step.shows for step in sheet.steps if isinstance(step.shows, SectionOf)] if sheet else []

    def make(self, shows, lifter):
        """Screens of what a step of a run sheet shows: nothing for one without a panel or section.

        Parameters
        ----------
        shows : controls.PanelOf, sheet_parts.SectionOf, sheet_parts.FigureOf or None
        lifter : dict or None
            The sheet's.
        """
        if isinstance(shows, PanelOf):
            with projector():
                return [self.on_stage(make_panel(shows, lifter))]
        if isinstance(shows, SectionOf):
            section = self.chapter(shows.chapter).section(shows.section)
            return self.section_screens(f"{shows.chapter} ", section) + self._sources(shows.chapter, section)
        return []

    def _sources(self, name, section):
        """A screen with the notes that a ``section`` points at; in a lecture on the whole chapter they have a step of their own."""
        told = " ".join(block.markdown for block in section.blocks if isinstance(block, (Text, Fold)))
        numbered = notes(chapter_path(self.home, name))
        used = [f"[{number}] {numbered[number]}" for number in sorted(set(NOTE.findall(told)), key=int)]
        return [text("<h3>Notes</h3>" + "".join(map(self.page.html, used)))] if used else []

    def chapter(self, name):
        """The chapter called ``name`` (str), run once."""
        if name not in self.chapters:
            path = chapter_path(self.home, name)
            wanted = {shows.section for shows in self.wanted if shows.chapter == name}
            last = [title for title in titles(path) if {title, title.split()[0]} & wanted][-1:]
            with projector():
                self.chapters[name] = read_chapter(path, *last)
        return self.chapters[name]

    def on_stage(self, panel):
        """The screen (dict) of a live ``panel``, which joins the others."""
        if panel not in self.panels:
            self.panels.append(panel)
        return {"kind": "panel", "panel": self.panels.index(panel)}

    def section_screens(self, name, section):
        """Screens (list of dicts) of a chapter's ``section``; with ``name`` (str) the names of its questions begin."""
        screens, written, asked = [], [], 0

        def flush():
            if written:
                screens.append(text("".join(written)))
                written.clear()

        for block in section.blocks:
            if isinstance(block, Text):
                written.append(self._html(block.markdown))
            elif isinstance(block, Lines):
                written.append(f"<pre>{escape(block.text)}</pre>")
            elif not isinstance(block, Code):
                flush()
                asked += isinstance(block, Ask)
                screens += self._alone(block, f"{name}{section.number}, guess {asked}")
                if isinstance(block, Live):
                    block.panel.show_sliders(named_sliders(block.panel, section)[:1])
        flush()
        return screens

    def _html(self, markdown):
        """A chapter's text without what is for the notebook only."""
        paragraphs = [one for one in re.split(r"\n\s*\n", markdown) if not for_the_notebook(one)]
        return self.page.html("\n\n".join(paragraphs))

    def _alone(self, block, name):
        """Screens of a block that shares none: a guess with its answer, a live panel, a fold."""
        if isinstance(block, Live):
            return [self.on_stage(block.panel)]
        if isinstance(block, Fold):
            return [text(f"<h3>{escape(block.title)}</h3>{self._html(block.markdown)}")]
        guess = block.guess
        because = f"<p>{escape(guess.because)}</p>"
        if guess.choices is None:
            shown = f"<p><b>{escape(guess.shown)}</b></p>"
            return [ask_screen(name, f"{guess.question} {WRITE}", []), answer_screen(name, None, [], shown + because)]
        right = guess.choices.index(guess.answer)
        return [ask_screen(name, guess.question, guess.choices), answer_screen(name, right, [], because)]


def named_sliders(panel, section):
    """Names of a ``panel``'s sliders, but the main one, that a chapter's ``section`` tells the reader to move, as *Touch point*."""
    told = " ".join(block.markdown for block in section.blocks if isinstance(block, Text))
    return [name for name in list(panel.picture.sliders)[1:] if f"*{name}*" in told]


def chapter_steps(chapter, hand):
    """The sections of a ``chapter``, a list of `Step` with names and text; ``hand`` (`Stagehand`) keeps its panels."""
    return [
        Step(section.title, screens=hand.section_screens(f"{chapter.name} ", section) or [text("")])
        for section in chapter.sections
    ]


def waiting_steps(sheet, home):
    """Steps (list of `Step`, as text) of a run ``sheet`` before any panel has been made; ``home`` (path) is the checkout."""
    return [sheet_step(step, number, home) for number, step in enumerate(sheet.steps)]
