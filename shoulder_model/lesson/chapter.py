"""A chapter as a lesson: sections, and in each what a reader meets, in order.

The notebook's own page folds answers below a guess. Those who show a chapter elsewhere need the same order of thought without
a notebook, so a chapter is taken apart here, once, into these blocks: text, lines that a cell prints, a fold (an answer, a
solution, more), a guess, a panel, code.
"""

import re
from dataclasses import dataclass, field
from pathlib import Path

from ..inputs import choice
from ..panels import Guess, PracticePanel, RegisterPanel
from ..panels.panel import Panel
from .notebook import cells
from .play import Player

FOLD = re.compile(r"<details><summary>(?P<title>.*?)</summary>\s*(?P<body>.*?)\s*</details>", re.DOTALL)
QUESTION = re.compile(r"^\*\*(.+?)\*\*", re.MULTILINE)
HEADING = re.compile(r"^(#{1,3}) (.+)$", re.MULTILINE)
NUMBERED = re.compile(r"^(\d+)\. (.+)$", re.MULTILINE)


@dataclass(frozen=True)
class Text:
    """Markdown as it stands in a text cell, without its folds and without the section's heading."""

    markdown: str


@dataclass(frozen=True)
class Lines:
    """What a cell prints, line by line."""

    text: str


@dataclass(frozen=True)
class Fold:
    """A part that the page keeps folded, under its title: "Answer", "Solution", "More" and the like."""

    title: str
    markdown: str

    @property
    def kind(self):
        """Its first word, which says what it is."""
        return self.title.split()[0].rstrip(",")


@dataclass(frozen=True)
class Ask:
    """A guess; its panel, if it has one, follows as a `Live`."""

    guess: Guess


@dataclass(frozen=True)
class Live:
    """A panel as the chapter leaves it; ``asked`` where it waits for a guess."""

    panel: Panel
    asked: bool = False


@dataclass(frozen=True)
class Code:
    """The text of a code cell."""

    source: str


@dataclass
class Section:
    """A ``##`` heading and the blocks below it; the part above the first one has the chapter's title."""

    title: str
    blocks: list = field(default_factory=list)

    @property
    def number(self):
        """What its title begins with, such as "3.2", as text; empty where there is none."""
        match = re.match(r"(\w+\.\d+) ", self.title)
        return match[1] if match else ""


@dataclass(frozen=True)
class Chapter:
    """Name of the notebook, its title and question, and its sections."""

    name: str
    title: str
    question: str
    sections: tuple

    def section(self, wanted):
        """The section whose number or title is ``wanted`` (text); raises `inputs.UnknownName` with the nearest ones."""
        names = {section.number or section.title: section for section in self.sections}
        names |= {section.title: section for section in self.sections}
        return names[choice("section", wanted, tuple(names))]


def titles(path):
    """Titles (text) of the ``##`` sections of the notebook at ``path``, without running anything."""
    text = "\n".join(source for kind, source in cells(path) if kind == "markdown")
    return [title for marks, title in HEADING.findall(text) if marks == "##"]


def notes(path):
    """Notes of the notebook at ``path``, number -> text in Markdown (a dict), without running anything."""
    text = "\n\n".join(source for kind, source in cells(path) if kind == "markdown")
    return dict(NUMBERED.findall(text.partition("\n## Notes")[2]))


def chapter_title(path):
    """Title (text) of the notebook at ``path``, without running anything."""
    text = "\n".join(source for kind, source in cells(path) if kind == "markdown")
    return next((title for marks, title in HEADING.findall(text) if marks == "#"), Path(path).stem)


def chapter_question(path):
    """The question (text) that the notebook at ``path`` opens with, "" where there is none, without running anything."""
    return _question(next(source for kind, source in cells(path) if kind == "markdown"))


def _question(opening):
    found = QUESTION.search(opening)
    return found[1].replace('"', "") if found else ""


def read_chapter(path, until=None):
    """Run the notebook at ``path`` and take it apart.

    Parameters
    ----------
    path : path-like
        Of the notebook; its name is the chapter's.
    until : str, optional
        Stop before the section after this one, by number or title: what lies further on is not run.

    Returns
    -------
    Chapter

    Raises
    ------
    Exception
        What a cell raises, an AssertionError of a worked number that no longer holds among them.
    """
    path = Path(path)
    player, sections = Player(), [Section("")]
    for kind, source in cells(path):
        if kind == "code":
            sections[-1].blocks += _shown_by(source, player)
            continue
        for title, blocks in _parts(source):
            if title is not None:
                if until and until in (sections[-1].number, sections[-1].title):
                    return _chapter(path.stem, sections)
                sections.append(Section(title))
            sections[-1].blocks += blocks
    return _chapter(path.stem, sections)


def _chapter(name, sections):
    head, opening = sections[0], sections[0].blocks[0].markdown
    head.title = HEADING.search(opening)[2]
    head.blocks[0] = Text(HEADING.sub("", opening, count=1).strip())
    for section in sections:
        section.blocks = _settled(section.blocks)
    return Chapter(name, head.title, _question(opening), tuple(sections))


def _parts(markdown):
    """A text cell cut at its ``##`` headings: pairs of title, or None for what continues the section, and blocks."""
    cuts = [match for match in HEADING.finditer(markdown) if match[1] == "##"]
    ends = [cut.start() for cut in cuts] + [len(markdown)]
    if markdown[: ends[0]].strip():
        yield None, list(_text_and_folds(markdown[: ends[0]]))
    for cut, end in zip(cuts, ends[1:], strict=True):
        yield cut[2].strip(), list(_text_and_folds(markdown[cut.end() : end]))


def _text_and_folds(markdown):
    """Text and folds of a piece of a text cell, in order."""
    at = 0
    for fold in FOLD.finditer(markdown):
        if markdown[at : fold.start()].strip():
            yield Text(markdown[at : fold.start()].strip())
        yield Fold(fold["title"], fold["body"])
        at = fold.end()
    if markdown[at:].strip():
        yield Text(markdown[at:].strip())


def _shown_by(source, player):
    """Blocks of one code cell: its code, then what it shows."""
    shown = player.play(source)
    yield Code(source)
    if shown.lines.strip():
        yield Lines(shown.lines.rstrip("\n"))
    for text in shown.markdown:
        yield from _text_and_folds(text)
    if isinstance(shown.result, Guess):
        yield Ask(shown.result)
        for panel in shown.result.then.children:
            yield Live(panel, asked=True)
    elif isinstance(shown.result, Panel):
        yield Live(shown.result)
    elif isinstance(shown.result, PracticePanel | RegisterPanel):
        yield Text(shown.result.on_paper)
    elif shown.result is not None:
        yield Lines(str(shown.result))


def _settled(blocks):
    """Blocks without the figures that stand for a panel which is itself among them."""
    stills = {block.panel.picture.still for block in blocks if isinstance(block, Live)}
    stand_in = re.compile(
        rf"!\[[^\]]*\]\(\.\./figures/(?:{'|'.join(map(re.escape, stills))})\.svg\)\s*(?:^\*(?!\*).*\*\s*$)?",
        re.MULTILINE,
    )
    return [_without(block, stand_in) for block in blocks] if stills else blocks


def _without(block, pattern):
    """A text or fold with what ``pattern`` finds left out."""
    if isinstance(block, Text):
        return Text(pattern.sub("", block.markdown).strip())
    if isinstance(block, Fold):
        return Fold(block.title, pattern.sub("", block.markdown).strip())
    return block
