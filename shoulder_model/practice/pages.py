"""Screens with more to read than to do: how a set went, before and after a mock exam, what is weak, before erasing."""

from collections import Counter

from ..words import counted
from . import exam, progress, schedule
from .slips import slip_table
from .views import HOME, link_to, read_again, screen

NOT_OFFICIAL = "It is a mock exam of this workbook, and nobody's official exam."
MOST_READ = 6  # sections to read again
WEAK = "What is weak"


def page(title, lines, *, parts=(), buttons=(), svg="", **common):
    """A page as a dict: its ``title``, ``lines`` of text, ``parts`` (dicts), ``buttons`` (words, what the page sends, kind), an ``svg`` picture as text.

    ``common`` is what every `views.screen` has, by name.
    """
    told = {"lines": list(lines), "parts": list(parts), "buttons": [list(one) for one in buttons], "svg": svg}
    return screen("page", title, say=" ".join(lines), **common, **told)


def set_page(questions, answers, now, notes):
    """How a set went.

    Parameters
    ----------
    questions : list of question.Question
    answers : sequence of record.Answer
        All of the record.
    now : float
        [s since 1970]
    notes : sequence of str
        In words, what has to be known about the record.
    """
    first = {question.item.template: question for question in reversed(questions)}  # of each kind the first one
    right = sum(question.counted.score for question in first.values())
    if not first:
        lines = ["There is nothing to practise here at the moment."]
        return page("Nothing to do", lines, buttons=[(*HOME, "main")], notes=notes)
    lines = [f"{right:g} of {len(first)} right at the first try."]
    due, later = schedule.next_due(answers, now)
    if due:
        lines.append(f"{due} more to see again today.")
    elif later is not None:
        lines.append(f"The next question is due {progress.when(later, now)}.")
    slips = Counter(question.counted.slip for question in questions if question.counted.slip)
    parts = [slips_part(slips.most_common())] if slips else []
    weak = [read_again(name) for name, question in first.items() if question.counted.score < 1]
    if weak:
        parts.append({"words": "Read again", "links": list({link["words"]: link for link in weak}.values())})
    buttons = [(*HOME, "main"), ("What is weak", "progress", "")]
    return page("That was the set", lines, parts=parts, buttons=buttons, notes=notes)


def slips_part(counts):
    """The slips by frequency, a dict; ``counts`` are pairs of a slip's name and how often, a whole number."""
    rows = [[slip_table()[name][0].capitalize(), slip_table()[name][1], f"{count}"] for name, count in counts]
    return {"words": "Your slips", "table": {"heads": ["What happened", "What to do", "times"], "rows": rows}}


def exam_page(blueprint, begun, notes):
    """What a mock exam is, before it starts: ``blueprint`` is a `blueprint.Blueprint`, ``begun`` whether one is open, ``notes`` text."""
    lines = [
        f"{blueprint.items} questions in {blueprint.minutes:g} minutes, over all chapters. {NOT_OFFICIAL}",
        "You see what was right only at the end. Until you hand in, you can change an answer and go back and forth.",
        "A second attempt has other questions and other numbers.",
    ]
    if begun:
        lines.append("An exam is open. Its clock has gone on; your answers are still there.")
    start = ("Go on" if begun else "Start the clock", "start", "main")
    return page("Mock exam", lines, buttons=[start, (*HOME, "")], notes=notes)


def hand_in_page(left_open, left, notes):
    """Before handing in: ``left_open`` is a count of questions, a whole number, ``left`` the time [s], ``notes`` text."""
    counted = {0: "Every question is answered.", 1: "One question is still open. It would count as wrong."}
    lines = [counted.get(left_open, f"{left_open} questions are still open. They would count as wrong.")]
    buttons = [("Hand in", "hand_in", "main"), ("Back to the questions", "back", "")]
    return page("Hand in?", lines, buttons=buttons, notes=notes, left=left)


def result_page(answers, notes):
    """The result of a mock exam: ``answers`` are its `record.Answer`s, ``notes`` text."""
    found = exam.result(answers)
    head, *rows = found.rows
    parts = [
        {
            "words": "By chapter and objective",
            "table": {"heads": list(head), "rows": [list(map(str, row)) for row in rows]},
        }
    ]
    if found.slips:
        parts.insert(0, slips_part(found.slips))
    if found.readings:
        links = [link_to(one.section, one.title, one.notebook) for one in found.readings[:MOST_READ]]
        parts.insert(0, {"words": "Read again", "links": links})
    buttons = [(*HOME, "main"), ("What is weak", "progress", "")]
    return page("The result", found.words, parts=parts, buttons=buttons, notes=notes)


def fetching_page():
    """While the page has not sent yet what it keeps: a dict."""
    return page("Fetching your record …", ["If nothing else comes within half a minute, load this page again."])


def progress_page(record, now, notes, told=""):
    """What is weak: ``record`` is a `record.Record`, ``now`` the time [s], ``notes`` text, ``told`` text that comes first."""
    answers = record.answers()
    head, *rows = progress.rows(progress.standings(answers), now)
    picture = progress.picture(answers)
    parts = [{"words": "Weakest first", "table": {"heads": list(head), "rows": [list(map(str, row)) for row in rows]}}]
    buttons = [(*HOME, "main"), ("Save my record (CSV)", "export", ""), ("Erase my record", "ask_erase", "")]
    svg = picture.svg("progress") if picture else ""
    lines = [*([told] if told else []), *progress.words(answers, now), *record.shelf.keeping()]
    return page(WEAK, lines, parts=parts, buttons=buttons, svg=svg, notes=notes)


def erase_page(count, where, notes):
    """Before the record is erased: ``count`` of its answers, a whole number, ``where`` they are and ``notes``, text."""
    lines = [
        f"This erases {counted(count, 'answer')} {where}. There is no way back.",
        "Save them first if you want to keep them.",
    ]
    buttons = [("Keep them", "progress", "main"), ("Save my record (CSV)", "export", ""), ("Erase all", "erase", "")]
    return page("Erase your record?", lines, buttons=buttons, notes=notes)
