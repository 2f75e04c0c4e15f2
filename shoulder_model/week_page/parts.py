"""What stands on the page of a week: cautions, one table of the days, how to do each pull, a log, and a tutor's appendix.

Made here once, as a `document.parts.Document`; `document.html` and `document.pdf` put the same on paper.
"""

from ..document.parts import Box, Document, Entry, Fields, Heading, Line, NewPage, Points, Table
from ..inputs import InputError
from ..printed import plain
from ..training.dose import left_words, progress_words, rest_words, starts
from ..week.health import NoWeek
from ..week.plan import Plan, by_pull
from ..week.words import (
    HONEST,
    NOT_MEDICAL,
    client_words,
    grip_words,
    health_words,
    set_up_words,
    set_words,
    turn_words,
)
from .side_by_side import pair_parts
from .wording import (
    FIGURE_HEADS,
    FIRST,
    HOW_TO_LOG,
    HOW_TO_READ_FIGURES,
    LOG_HEADS,
    NO_WEEK,
    SET_HEADS,
    TITLE,
    TWO_TITLE,
    WEEK_HEADS,
    caution_lines,
    equipment_words,
    figures_row,
    has_limits,
    load_cell,
    names_words,
    rest_cell,
    sentence_case,
    sets_rows,
    step_words,
)

LONGEST_DATE = 40  # letters
WEEK_WIDTHS = (26, 33, 22, 22, 30, 25.5, 25, 18)
LOG_WIDTHS = (26, 42, 8, 18, 13, 11, 15, 18, 37)
FIGURE_WIDTHS = (36, 24, 24, 26, 25, 26, 36)
SET_WIDTHS = (70, 26, 26, 26)


def document(answer, date=""):
    """What stands on the page of an answer.

    Parameters
    ----------
    answer : plan.Plan, health.NoWeek, or a tuple of two of them
        Of two, both stand side by side; where one is no week, only the reasons stand there.
    date : str
        As it is to be printed, at most 40 letters; without it there is a line to write on.

    Returns
    -------
    document.parts.Document

    Raises
    ------
    InputError
        The answer is neither, or the date is no text or too long.
    """
    if not isinstance(date, str) or len(date) > LONGEST_DATE:
        raise InputError("date", f"date: give a text of at most {LONGEST_DATE} letters")
    answers = answer if isinstance(answer, tuple) else (answer,)
    if len(answers) not in (1, 2) or not all(isinstance(one, Plan | NoWeek) for one in answers):
        raise InputError("answer", "answer: give what plan_week returned, or a tuple of two of them")
    without = [one for one in answers if isinstance(one, NoWeek)]
    if without:
        return _no_week(without, plain(date))
    if len(answers) == 2:
        cautions = dict.fromkeys(line for plan in answers for line in caution_lines(plan.client))
        return Document(
            TWO_TITLE, (Fields((("Date", plain(date)),)), Box(FIRST, tuple(cautions)), *pair_parts(*answers))
        )
    return _week(answer, plain(date))


def _no_week(without, date):
    """The reasons, and nothing of any week."""
    parts = [Fields((("Name", ""), ("Date", date)))]
    parts += [Box(NO_WEEK[one.kind], tuple(map(plain, one.lines))) for one in dict.fromkeys(without)]
    return Document(TITLE, (*parts, Line(NOT_MEDICAL)))


def _week(plan, date):
    started = starts(plan)
    fields = (("Name", plain(plan.client.name)), ("Date", date), ("Days", ", ".join(plan.weekdays)))
    return Document(
        TITLE,
        (
            Fields(fields),
            Box(FIRST, caution_lines(plan.client)),
            Line(plain(health_words(plan.client)), strong=has_limits(plan.client)),
            week_table(plan, started),
            *_below(plan),
            Heading("How to do each pull"),
            *(_entry(row, plan, started) for row, _ in by_pull(plan)),
            Line(HONEST),
            NewPage(),
            *_log(plan),
            NewPage(),
            *_appendix(plan),
        ),
    )


def week_table(plan, started=None):
    """The days of a ``plan`` (`week.plan.Plan`) as a `document.parts.Table` in words, a row for each pull on each day.

    ``started`` is a dict as `training.dose.starts` gives it; without it it is made here.
    """
    started = starts(plan) if started is None else started
    rest = rest_cell(plan.rules)
    rows = tuple(
        (
            row.weekday, row.name, grip_words(row), turn_words(row.pull), row.candidate.cue, set_words(row),
            load_cell(row, started[row.name].load, plan.client), rest,
        )
        for row in plan.rows
    )  # fmt: skip
    return Table(WEEK_HEADS, rows, WEEK_WIDTHS)


def _below(plan):
    """What stands right below the table: how to read it, what is not reached, what else there is to know."""
    yield Line(names_words([row.name for row in plan.rows]))
    left, rest = left_words(plan.rules), rest_words(plan.rules)
    yield Line(f"{left}. Rest {rest} between sets. Warm up before the first set of each pull.")
    if plan.short:
        yield Points(plan.short)
    if plan.notes:
        yield Points(plan.notes)


def _entry(row, plan, started):
    """How to do one pull, and why it is there."""
    candidate, start = row.candidate, started[row.name]
    each = " Each side alone, the weaker one first." if start.each_side else ""
    pairs = [
        ("Set up", f"{set_up_words(row)}; {grip_words(row)}, {turn_words(row.pull)}.{each}"),
        ("Feel", candidate.feel),
        ("Watch", candidate.watch),
        ("First load", "; ".join((start.load.words, *start.load.notes))),
        ("Warm-up", ", then ".join(start.warm_up)),
        ("Easier", step_words(candidate, "easier", plan.client, plan.rules)),
        ("Harder", step_words(candidate, "harder", plan.client, plan.rules)),
        ("Counts", f"each set {row.counts_for}"),
        ("Why", row.why),
    ]
    return Entry(sentence_case(row.name), tuple((label, sentence_case(words)) for label, words in pairs))


def _log(plan):
    """A log for one week: a line for every set of every day."""
    rows = tuple(
        (row.weekday, row.name, str(count), *[""] * (len(LOG_HEADS) - 3))
        for row in plan.rows
        for count in range(1, row.sets + 1)
    )
    return (
        Heading("Log of one week"),
        Fields((("Name", plain(plan.client.name)), ("Week from", ""))),
        Line(HOW_TO_LOG),
        Table(LOG_HEADS, rows, LOG_WIDTHS, to_write=True),
        Line(progress_words(plan.rules)),
    )


def _appendix(plan):
    """Figures for whoever teaches: the model's per hand, and the counted sets."""
    return (
        Heading("For the tutor: figures behind this week"),
        Line(f"Planned for: {plain(client_words(plan.client))}. There is: {equipment_words(plan.client)}."),
        Points(HOW_TO_READ_FIGURES),
        Table(FIGURE_HEADS, tuple(figures_row(row.fitted) for row, _ in by_pull(plan)), FIGURE_WIDTHS),
        Heading("Counted sets"),
        Table(SET_HEADS, sets_rows(plan), SET_WIDTHS),
        Line(plan.counting),
    )
