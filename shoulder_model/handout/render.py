"""Blocks of paper as HTML: links that lead somewhere on the page, notes, words, pictures with their captions."""

import re
from dataclasses import dataclass, field
from functools import lru_cache
from html import escape
from pathlib import Path

from ..lesson import Code, Lines, Page, Text, cells, inlined
from ..lesson.chapter import NUMBERED
from .paper import Question, Still

NOTE = re.compile(r"\[(\d+)\]\(#Notes\)")
WORD = re.compile(r"\[([^\]]+)\]\((?:00_start\.ipynb)?#Glossary\)")
CHAPTER = re.compile(r"(\w+)\.ipynb(#.*)?")
ENTRY = re.compile(r"^- \*\*(.+?)\*\*: (.+)$", re.MULTILINE)
SUBHEADING = re.compile(r"<h3>(.*?)</h3>")
FIGURE = re.compile(r'(<svg class="picture".*?</svg>)\s*((?:<p><em>(?:(?!</p>).)*</em></p>\s*)*)', re.DOTALL)
MOVES = "In the workbook this picture moves."
GLOSSARY = "00_start"


@dataclass
class Press:
    """Makes HTML of one paper's blocks.

    Parameters
    ----------
    paper : paper.Paper
    figures : list of path-like
        Folders in which figures are looked for, in this order.
    glossary : dict of str
        Term -> what it means, Markdown (`glossary_of`).
    made : container of str
        Names of the chapters whose pages come into the same folder; links to others become words.
    recorded : dict of recorded.fragment.Fragment
        Panels that move on the page, by their `id`.
    """

    paper: object
    figures: list
    glossary: dict
    made: object = ()
    recorded: dict = field(default_factory=dict)
    words: dict = field(default_factory=dict)

    def __post_init__(self):
        self.page = Page(tuple(self.figures), self._address)
        self.anchors = {_slug(part.title): anchor(part.title) for part in self.paper.parts}
        self.anchors |= {"Notes": "notes", "Glossary": "words"}
        self._subheadings()

    def _subheadings(self):
        """Anchors of the headings within sections, each name once."""
        for block in self.paper.every_block():
            if isinstance(block, Text):
                for title in re.findall(r"^### (.+)$", block.markdown, re.MULTILINE):
                    self.anchors.setdefault(_slug(title), anchor(title))
        self.left = set(self.anchors.values())  # anchors that no heading has taken yet

    def _address(self, target):
        if target.startswith("#"):
            return f"#{self.anchors.get(target[1:], target[1:])}"
        chapter = CHAPTER.fullmatch(target)
        return f"{chapter[1]}.html" if chapter and chapter[1] in self.made and chapter[1] != self.paper.name else None

    def prose(self, markdown):
        """``markdown`` (str) as HTML (str): notes and words lead to the end of the page, headings can be reached."""
        text = NOTE.sub(r"[\1](#note-\1)", markdown)
        text = WORD.sub(self._word, text)
        return SUBHEADING.sub(self._heading, self.page.html(text))

    def _word(self, match):
        term = self.term(match[1])
        return f"[{match[1]}](#{anchor(term)})" if term else match[1]

    def _heading(self, match):
        name = self.anchors.get(_slug(re.sub(r"<.*?>", "", match[1])))
        if name not in self.left:
            return match[0]
        self.left.discard(name)
        return f'<h3 id="{name}">{match[1]}</h3>'

    def term(self, words):
        """The glossary's term (str) that ``words`` of a link mean, or None."""
        key = _key(words)
        for term in self.glossary:
            if key in {_key(part) for part in re.split(r", | \(|\)", term) if part} | {_key(term)}:
                return term
        return next((term for term in self.glossary if key and _key(term).startswith(key)), None)

    def terms(self):
        """Terms that the paper uses, a list of names: those that it links, and those of two words that it writes."""
        if self.paper.glossary:
            return list(self.glossary)
        text = "\n".join(block.markdown for block in self.paper.every_block() if isinstance(block, Text))
        linked = {self.term(words) for words in WORD.findall(text)}
        plain = re.sub(r"\s+", " ", text.lower())
        return [
            term
            for term in self.glossary
            if term in linked or (" " in term and re.search(rf"\b{re.escape(term.split(' (')[0].lower())}s?\b", plain))
        ]

    def definitions(self):
        """The words part, as text of a ``<dl>``."""
        entries = [
            f'<dt id="{anchor(term)}">{self.page.html(term)[3:-5]}</dt><dd>{self.page.html(self.glossary[term])[3:-5]}</dd>'
            for term in self.terms()
        ]
        return f"<dl>{''.join(entries)}</dl>" if entries else ""

    def notes(self):
        """The notes as HTML text, each with its number as anchor."""
        text = "\n\n".join(block.markdown for block in self.paper.notes)
        heads = NUMBERED.sub("", text).strip()
        items = "".join(
            f'<li id="note-{number}" value="{number}">{self.prose(words)[3:-5]}</li>'
            for number, words in NUMBERED.findall(text)
        )
        return self.prose(heads) + (f'<ol class="notes">{items}</ol>' if items else "")

    def plain_block(self, block):
        """A ``block`` that every version shows alike (prose, printed lines, code), as HTML text."""
        if isinstance(block, Text):
            return self.prose(block.markdown)
        if isinstance(block, Lines):
            return f"<pre>{escape(block.text, quote=False)}</pre>\n"
        if isinstance(block, Code):
            return f'<pre class="code">{escape(block.source, quote=False)}</pre>\n'
        raise TypeError(f"{type(block).__name__} is no plain block")


def figures_with_captions(html):
    """``html`` (text) with each picture and the captions below it in one ``<figure>``."""

    def framed(match):
        captions = match[2].replace("<p><em>", "<p>").replace("</em></p>", "</p>")
        return (
            f"<figure>{match[1]}{f'<figcaption>{captions.strip()}</figcaption>' if captions.strip() else ''}</figure>\n"
        )

    return FIGURE.sub(framed, html)


def still(block):
    """A panel's picture (``block``, a `paper.Still`) as an SVG element in text, what the panel says of it as alt text."""
    return inlined(block.panel.content("svg").decode(), block.panel.words)


def ticks(question, before):
    """The choices of a guess (``question``, a `paper.Question`) to tick, or a line after ``before`` (words), as HTML text."""
    guess = question.guess
    if guess.choices is None:
        unit = f" {escape(guess.unit)}" if guess.unit else ""
        return f'<p class="write">{escape(before)}: <span class="line"></span>{unit}</p>'
    items = "".join(f"<li><span class='box'></span>{escape(choice)}</li>" for choice in guess.choices)
    return f'<ul class="ticks">{items}</ul>'


def verdict(guess):
    """What a ``guess`` (`panels.Guess`) says once it is made: the answer in bold and why, as HTML text."""
    return f'<p class="verdict"><b>{escape(guess.shown)}.</b> {escape(guess.because)}</p>\n'


@lru_cache(maxsize=4)
def glossary_of(workbook):
    """Terms and what they mean, from the start chapter in the folder ``workbook`` (path): a dict of Markdown text."""
    texts = [source for kind, source in cells(Path(workbook) / f"{GLOSSARY}.ipynb") if kind == "markdown"]
    start = next(number for number, text in enumerate(texts) if text.startswith("## Glossary"))
    return {term: meaning for text in texts[start:] for term, meaning in ENTRY.findall(text)}


def anchor(title):
    """A name in the page for a ``title`` (str), letters, digits and hyphens only; the answer is a name as text."""
    return re.sub(r"[^a-z0-9]+", "-", title.lower().replace("²", "2")).strip("-") or "top"


def _slug(title):
    """A heading's name in a link of the notebook."""
    return title.strip().replace(" ", "-")


def _key(words):
    return re.sub(r"s$", "", re.sub(r"[^a-z0-9%]+", " ", words.lower()).strip())


def is_question(block):
    """Whether a ``block`` is a guess."""
    return isinstance(block, Question)


def is_still(block):
    """Whether a ``block`` is a panel's picture."""
    return isinstance(block, Still)
