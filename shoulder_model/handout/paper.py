"""A chapter in the order that paper needs: what is asked stands in the text, what answers it stands at the end.

Every guess has a number. Its verdict, its panel and all that the notebook folds as "Answer" below it become the answer of that
number, with lines printed right after it and text that looks back at its table or picture. An "Answer" that follows no guess
is the answer to a step by hand, and gets the next number; solutions are counted by exercise. Other folds stay open where they
are.
"""

import re
from dataclasses import dataclass, field

from ..lesson import Ask, Chapter, Code, Fold, Lines, Live, Text
from ..panels import Guess
from ..panels.panel import Panel
from .prose import for_paper, labels, works_the_page

EXERCISE = re.compile(r"^\*\*(\d+)\.\*\*", re.MULTILINE)
LOOKS_BACK = re.compile(
    r"\b(that|the) (table|picture)\b", re.IGNORECASE
)  # said after an answer: its own table or picture is meant
THE_PICTURE = re.compile(r"\b[Tt]he picture\b")
SUBHEADING = re.compile(r"^###", re.MULTILINE)
IN_THE_WORKBOOK = "*In the workbook:*"


@dataclass(frozen=True)
class Still:
    """A panel's picture as the chapter leaves it."""

    panel: Panel


@dataclass(frozen=True)
class Question:
    """A guess, and the number of its answer."""

    number: int
    guess: Guess


@dataclass(frozen=True)
class Pointer:
    """Where the reply to what stands above is found: ``kind`` "answer" or "solution", and its number."""

    kind: str
    number: int


@dataclass
class Reply:
    """An answer or a solution, with its number and the title of its section.

    ``guess`` is the one it answers, or None; ``seen`` its panel and what is said of the picture, ``told`` what the notebook
    folds below it, ``code`` the code of both.
    """

    number: int
    section: str
    guess: Guess | None = None
    seen: list = field(default_factory=list)
    told: list = field(default_factory=list)
    code: list = field(default_factory=list)

    @property
    def blocks(self):
        """All of it in order: a tuple of blocks."""
        return (*self.seen, *self.told, *self.code)


@dataclass
class Part:
    """A section as paper has it; ``kind`` is "section", "exercises" or "more"."""

    title: str
    kind: str = "section"
    blocks: list = field(default_factory=list)


@dataclass
class Paper:
    """A chapter in paper's order. ``parts`` begins with what stands above the first section."""

    name: str
    title: str
    question: str
    parts: list = field(default_factory=list)
    answers: list = field(default_factory=list)
    solutions: list = field(default_factory=list)
    notes: list = field(default_factory=list)
    glossary: bool = False

    def every_block(self):
        """All its blocks but the notes, one after the other: a list, as text, pictures and the like."""
        return [block for part in (*self.parts, *self.answers, *self.solutions) for block in part.blocks]


def paper_of(chapter, code=False):
    """``chapter`` (`lesson.Chapter`) as a `Paper`; ``code`` (bool) says whether its code is shown.

    Code that makes a guess, or prints a folded answer, goes with the answer. Every block appears, but for words that only make
    sense in the notebook (`prose`).
    """
    return _Sorter(chapter, code).paper


class _Sorter:
    """Goes through a chapter once and puts every block where paper has it."""

    def __init__(self, chapter: Chapter, code):
        self.with_code, self.paper = code, Paper(chapter.name, chapter.title, chapter.question)
        panels = [block.panel for section in chapter.sections for block in section.blocks if isinstance(block, Live)]
        self.controls = labels(panels)
        for section in chapter.sections:
            if section.title == "Notes":
                self.paper.notes = [Text(block.markdown) for block in section.blocks if isinstance(block, Text)]
            elif section.title == "Glossary":
                self.paper.glossary = True
            else:
                self._section(section)

    def _section(self, section):
        first = re.sub(r"^\w+\.\d+ ", "", section.title).split()[0]
        self.part = Part(section.title, {"Exercises": "exercises", "More,": "more"}.get(first, "section"))
        self.reply = None  # the answer that is open
        self.solution = self.exercise = None  # the solution that is open, and the exercise's number
        self.code = []  # of the cell at hand, until it is known where its output goes
        self.paper.parts.append(self.part)
        for number, block in enumerate(section.blocks):
            self._put(block, section.blocks[number + 1 :])
        self.part.blocks += self.code

    def _put(self, block, ahead):
        home = self.part.blocks
        if isinstance(block, Code):
            home += self.code
            self.code = [Code(block.source)] if self.with_code else []
            return
        code, self.code = self.code, []
        if isinstance(block, Ask):
            self._open(block.guess).code += code
            home.append(Question(self.reply.number, block.guess))
        elif isinstance(block, Fold) and block.kind in ("Answer", "Solution"):
            reply = self._reply_to(block.kind)
            reply.code += code
            reply.told.append(Text(self._of_fold(block.markdown)))
        else:
            home += code
            self._in_place(block, ahead)

    def _in_place(self, block, ahead):
        home = self.part.blocks
        if isinstance(block, Text):
            self._text(block.markdown, ahead)
        elif isinstance(block, Lines):
            (self.reply.told if self.reply and self.reply.told else home).append(Lines(block.text))
        elif isinstance(block, Fold):
            home += [Text(f"**{block.title}**"), Text(self._of_fold(block.markdown))]
        elif isinstance(block, Live):
            (self.reply.seen if block.asked else home).append(Still(block.panel))

    def _of_fold(self, markdown):
        """What stays of a fold; a solution of an exercise says what it says."""
        return markdown if self.part.kind == "exercises" else for_paper(markdown, self.controls)[0]

    def _open(self, guess=None):
        """A new answer, open for what follows."""
        self.reply = Reply(len(self.paper.answers) + 1, self.part.title, guess)
        self.paper.answers.append(self.reply)
        return self.reply

    def _reply_to(self, kind):
        """The answer or solution that a fold belongs to, with a pointer to it where it is a new one."""
        if kind == "Answer":
            if self.reply is None:
                self.part.blocks.append(Pointer("answer", self._open().number))
            return self.reply
        if self.solution is None:
            self.solution = Reply(self.exercise or len(self.paper.solutions) + 1, self.part.title)
            self.paper.solutions.append(self.solution)
            self.part.blocks.append(Pointer("solution", self.solution.number))
        return self.solution

    def _text(self, markdown, ahead):
        self.solution = None
        if self.part.kind == "exercises":
            found = EXERCISE.findall(markdown)
            self.exercise = int(found[-1]) if found else self.exercise
            self.part.blocks.append(Text(markdown))
            return
        stays = for_paper(markdown, self.controls)[0]
        meant = self._answer_meant(stays)
        if meant is not None:
            meant.append(Text(stays))
            return
        if self.reply and (self.reply.told or SUBHEADING.search(markdown)):
            self.reply = None
        if not self.paper.question or len(self.paper.parts) > 1 or self.part.blocks:
            opening = markdown
        else:
            opening = re.sub(r"^\*\*.*", "", markdown, count=1).strip()  # the question stands in the chapter's head
        stays, of_picture = for_paper(opening, self.controls)
        answered = _answer_ahead(ahead)
        if self.reply and self.reply.seen:
            self.reply.seen += [Text(words) for words in (of_picture, stays if answered else "") if words]
            stays = "" if answered else stays
        elif answered and not self.reply and works_the_page(opening, self.controls):
            stays = f"{IN_THE_WORKBOOK} {opening}"
        if stays:
            self.part.blocks.append(Text(stays))

    def _answer_meant(self, markdown):
        """The blocks of the answer that a text after it looks back at, or None; a panel's picture is known from further off."""
        if SUBHEADING.search(markdown) or re.search(r"!\[|^\|", markdown, re.MULTILINE):
            return None
        if self.reply and self.reply.told and LOOKS_BACK.search(markdown):
            return self.reply.told
        has_picture = any(
            isinstance(one, Still) or (isinstance(one, Text) and "![" in one.markdown) for one in self.part.blocks
        )
        last = self.paper.answers[-1].seen if self.paper.answers else []
        return last if THE_PICTURE.search(markdown) and last and not has_picture else None


def _answer_ahead(blocks):
    """Whether an answer follows before the next guess, panel, printed line or heading."""
    for block in blocks:
        if isinstance(block, Fold):
            return block.kind == "Answer"
        if isinstance(block, (Ask, Live, Lines)) or (isinstance(block, Text) and SUBHEADING.search(block.markdown)):
            return False
    return False
