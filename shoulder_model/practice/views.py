"""What the page of practice shows, as plain values: one dict a screen, every word of it ready to be read."""

from .asks import Number, Order, Pick, Reasoned
from .bank import templates
from .objectives import chapters, objectives

HOME, STOP = ("Back to the start", "home"), ("Stop here", "home")
MARKS = {1.0: "right", 0.5: "half", 0.0: "wrong"}


def screen(kind, title, *, about="Practice", say="", focus="title", away=(), notes=(), left=None, **more):
    """A screen as a dict: its ``kind`` and ``title``, what it is ``about``, and what is common to all.

    Parameters
    ----------
    kind, title, about : str
    say : str
        What a screen reader hears when it comes.
    focus : str
        Where the keyboard goes, in a word: title, answer or next.
    away : sequence
        Pairs of words and what the page sends: buttons in the top line.
    notes : sequence of str
        What has to be known about the record.
    left : float, optional
        Time left. [s]
    more : dict
        What belongs to the kind.
    """
    common = {"screen": kind, "title": title, "about": about, "say": say, "focus": focus, "left": left}
    return common | {"away": [list(pair) for pair in away], "notes": list(notes)} | more


def tile(what, words, more, off=False):
    """A way to begin, a dict: ``what`` the page sends, its ``words``, one line ``more``; ``off`` where there is nothing to do, or not."""
    return {"what": what, "words": words, "more": more, "off": off}


def choosers():
    """The two lists to choose from, a list of dicts: a chapter, and one thing to be able to do."""
    of_chapter = [[number, title] for number, title in chapters().items()]
    of_objective = [[one.id, f"{one.chapter}: {one.words}"] for one in objectives().values()]
    return [
        {"what": "chapter", "words": "A chapter", "options": of_chapter},
        {"what": "objective", "words": "One skill", "options": of_objective},
    ]


def asked(ask, picture, given):
    """How an ``ask`` is answered, as the page needs it, a dict without the key; ``picture`` is its `document.scene.Scene` or None, ``given`` an answer as text."""
    told = {"kind": ask.kind, "given": given}
    if isinstance(ask, Number):
        return told | {"unit": ask.unit}
    if isinstance(ask, Pick):
        marks = [[mark.letter, mark.words] for mark in picture.marks]
        return told | {"count": ask.count, "marks": marks, "given": [letter for letter in given if letter.isalpha()]}
    if isinstance(ask, Order):
        return told | {
            "things": list(ask.things),
            "signs": ask.signs,
            "ends": ask.ends,
            "given": given.replace(" ", ""),
        }
    if isinstance(ask, Reasoned):
        return told | {"options": list(ask.options), "reasons": list(ask.reasons), "signs": list(ask.signs)}
    return told | {"options": list(ask.options), "signs": ask.signs, "numbered": ask.numbered}


def read_again(name):
    """Where to read again about the template called ``name`` (text), as `link_to` has it."""
    template = templates()[name]
    objective = objectives()[template.objectives[0]]
    return link_to(template.section, objective.title, objective.notebook)


def link_to(section, title, notebook):
    """A link to a ``section`` ("3.3") of a chapter with its ``title`` ("3 Grip width") and ``notebook``, all text: a dict for the page."""
    return {"words": f"section {section}, {title.partition(' ')[2]}", "notebook": notebook, "section": section}


def question_screen(question, place, count, *, exam=None, skill=None, kept="", **common):
    """The screen of one question.

    Parameters
    ----------
    question : question.Question
    place, count : int
        Which one of how many, 1 the first.
    exam : dict, optional
        In a mock exam: which are answered, and the place of this one; nothing is then said to an answer.
    skill : str, optional
        The id of the objective that was chosen; without it the one that the template serves most.
    kept : str
        What is said of an answer of an exam that was kept.
    common : dict
        Of `screen`.
    """
    item, objective = question.item, objectives()[skill or templates()[question.item.template].objectives[0]]
    verdict = None if exam else _verdict(question)
    trouble = "" if question.verdict is None or question.verdict.is_read else question.verdict.words
    title, about = f"Question {place} of {count}", f"{objective.title} · {objective.words}"
    hint = item.hint if question.hinted and not exam else ""
    say = _said(verdict) if verdict else trouble or kept or hint
    return screen(
        "question", title, about="Mock exam" if exam else about, say=say, question=list(item.question), lines=list(item.lines),
        svg=item.picture.svg() if item.picture else "", ask=asked(item.ask, item.picture, question.given), verdict=verdict,
        trouble=trouble, hint=hint, at=item.seed, has_hint=not exam, exam=exam,
        focus=_focus(question, verdict, trouble, exam), **common,
    )  # fmt: skip


def _said(verdict):
    """A verdict as it is heard: with the answer once it is shown."""
    return f"{verdict['words']} The answer is {verdict['key']}." if verdict["key"] else verdict["words"]


def _focus(question, verdict, trouble, exam):
    if verdict and verdict["over"]:
        return "next"
    return "answer" if verdict or trouble or (question.hinted and not exam) else "title"


def _verdict(question):
    """What is said to the last answer, with the solution once the question is over; None before."""
    verdict, item = question.verdict, question.item
    if verdict is None or not verdict.is_read:
        return None
    told = {
        "mark": MARKS[verdict.score] if question.tries else "shown",
        "words": verdict.words,
        "over": question.over,
        "key": "",
        "solution": [],
        "line": 0,
        "read": None,
        "right": "",
    }
    if not question.over:
        words = verdict.words.replace(f" See line {verdict.line} of the solution.", "")  # it is not there yet
        return told | {"words": f"{words} Try again, or press Show me."}
    counts = "" if question.counted.score == verdict.score else " Your first answer is the one that counts."
    shown = {"words": verdict.words + counts, "key": item.right_answer, "solution": list(item.solution)}
    shown["right"] = "" if isinstance(item.ask, Number) else item.ask.key
    return told | shown | {"line": 0 if verdict.score == 1 else verdict.line, "read": read_again(item.template)}
