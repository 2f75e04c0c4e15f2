"""A chapter outside the notebook: taken apart into what a reader meets, and its Markdown as HTML without a network."""

from .chapter import (
    Ask,
    Chapter,
    Code,
    Fold,
    Lines,
    Live,
    Section,
    Text,
    chapter_question,
    chapter_title,
    notes,
    read_chapter,
    titles,
)
from .markup import Page, formula, inlined, plain_html
from .notebook import cells

__all__ = [
    "Ask",
    "Chapter",
    "Code",
    "Fold",
    "Lines",
    "Live",
    "Page",
    "Section",
    "Text",
    "cells",
    "chapter_question",
    "chapter_title",
    "formula",
    "inlined",
    "notes",
    "plain_html",
    "read_chapter",
    "titles",
]
