"""What a run sheet holds once it has been read: steps, questions, answers, and what a step shows."""

from dataclasses import dataclass


@dataclass(frozen=True)
class Answer:
    """One of the answers to a question: what it ``say`` s (str), the ``reply`` to it (str), whether it is ``right``."""

    say: str
    reply: str = ""
    right: bool = False


@dataclass(frozen=True)
class SectionOf:
    """A chapter's section: names of both (str), the section by its number or title."""

    chapter: str
    section: str


@dataclass(frozen=True)
class FigureOf:
    """One of the project's figures, by its ``name`` (str)."""

    name: str


@dataclass(frozen=True)
class Step:
    """One step of a lecture; texts are str, empty where there is none, and ``minutes`` a float.

    ``answers`` is a tuple of `Answer`, and ``shows`` a `SectionOf`, a `FigureOf`, a `lecture.controls.PanelOf` or None.
    """

    title: str
    minutes: float
    say: str = ""
    ask: str = ""
    answers: tuple = ()
    reveal: str = ""
    note: str = ""
    quiz: bool = False
    shows: object = None


@dataclass(frozen=True)
class RunSheet:
    """The plan of a lecture.

    ``lifter`` is whose body the panels show: a dict with ``name``, ``sex`` and the measures in SI units by the names of
    `Lifter`, or None. ``steps`` is a tuple of `Step`. ``name`` (str) is what `read_run_sheet` reads it by.
    """

    title: str
    minutes: float
    audience: str
    lifter: dict | None
    steps: tuple
    name: str = ""
