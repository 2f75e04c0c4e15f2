"""What a reader is able to do after each chapter, with an id for each line; ``data/objectives.csv`` has the chapters' own words."""

from dataclasses import dataclass
from functools import cache

from ..tables import read_table


@dataclass(frozen=True)
class Objective:
    """One line of a chapter's "you will be able to": its ``id``, the ``notebook`` and the ``title`` of its chapter, its ``words``, all text."""

    id: str
    notebook: str
    title: str
    words: str

    @property
    def chapter(self):
        """The chapter's number, text."""
        return self.id.partition(".")[0]


@cache
def objectives():
    """All objectives in the order of the chapters: a dict from id to `Objective`."""
    return {row["id"]: Objective(**row) for row in read_table("objectives.csv")}


@cache
def chapters():
    """The chapters that have objectives: a dict from number to title, both text."""
    return {one.chapter: one.title for one in objectives().values()}
