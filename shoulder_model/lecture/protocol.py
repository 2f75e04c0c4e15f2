"""What a class did: the hands it showed, question by question, as a table that opens again.

One row an answer: the lecture, its date, the minute in which the answer was shown, step, question, answer, whether it is
the right one, and how many hands. No name of anybody is in it.
"""

import re
from dataclasses import dataclass, field

from ..inputs import echo
from ..table_file import Kind
from ..tables import as_typed, table_text

HEADS = ("lecture", "date", "minute", "step", "question", "answer", "right", "votes")
MOST_HANDS, LONGEST_LECTURE = 999, 24 * 60
FILE = Kind("protocol", "choose a .csv file that a lecture saved", longest_cell=1000)
DAY = re.compile(r"\d{4}-\d{2}-\d{2}")


@dataclass
class Hands:
    """What is known of a class on a ``date`` (str, year-month-day).

    ``votes`` (name of a question -> list of int, one an answer), ``minutes`` (name -> int, when its answer was shown).
    """

    date: str = ""
    votes: dict = field(default_factory=dict)
    minutes: dict = field(default_factory=dict)


def questions(steps):
    """What ``steps`` (list of `screens.Step`) ask: title of the step (text), ask screen (dict), place of the right answer or None."""
    for step in steps:
        rights = {screen["ask"]: screen["right"] for screen in step.screens if screen["kind"] == "answer"}
        for screen in step.screens:
            if screen["kind"] == "ask" and screen["answers"]:
                yield step.title, screen, rights.get(screen["name"])


def protocol_csv(title, steps, hands):
    """The protocol as CSV text: the lecture's ``title`` (str), its ``steps`` (list of `screens.Step`), its ``hands`` (`Hands`).

    A question for which no hand was counted and whose answer was not shown is left out.
    """
    rows = [HEADS]
    for step, ask, right in questions(steps):
        name = ask["name"]
        if name not in hands.votes and name not in hands.minutes:
            continue
        counts = hands.votes.get(name, [0] * len(ask["answers"]))
        for place, (answer, count) in enumerate(zip(ask["answers"], counts, strict=True)):
            mark = "" if right is None else "yes" if place == right else "no"
            said = title, hands.date, hands.minutes.get(name, ""), step, ask["question"], answer, mark, count
            rows.append(said)
    return table_text(rows)


def read_protocol(content, title, steps):
    """The `Hands` of a saved protocol, ``content`` (CSV as text or bytes), of the lecture with this ``title`` (str) and these ``steps``.

    Raises
    ------
    InputError
        In one line: a file that is no protocol, one of another lecture, a question or a count that does not fit.
    """
    rows = _rows(content)
    asked = {(step, ask["question"]): ask for step, ask, _ in questions(steps)}
    hands = Hands()
    for line, row in rows:
        if row["lecture"] != title:
            raise FILE.wrong(f"it is of {echo(row['lecture'])}; open that lecture first", line)
        ask = asked.get((row["step"], row["question"]))
        if ask is None or row["answer"] not in ask["answers"]:
            raise FILE.wrong("this lecture has no such question with this answer; was its run sheet changed?", line)
        hands.date, name = _day(row["date"], line), ask["name"]
        counts = hands.votes.setdefault(name, [0] * len(ask["answers"]))
        counts[ask["answers"].index(row["answer"])] = _count("votes", row["votes"], MOST_HANDS, line)
        if row["minute"]:
            hands.minutes[name] = _count("minute", row["minute"], LONGEST_LECTURE, line)
    return hands


def _rows(content):
    """Pairs of line number and row (dict by head) of a protocol."""
    heads = None
    for row in FILE.rows(FILE.decoded(content)):
        if heads is None:
            heads = row.cells
            if heads != HEADS:
                raise FILE.wrong(f"its first line is not {','.join(HEADS)}; {FILE.instead}")
        elif len(row.cells) != len(HEADS):
            raise FILE.wrong(f"{len(row.cells)} cells in a row of {len(HEADS)}", row.line)
        else:
            yield row.line, dict(zip(HEADS, map(as_typed, row.typed), strict=True))


def _day(cell, line):
    """A date as it is written here, or none."""
    if cell and not DAY.fullmatch(cell):
        raise FILE.wrong(f"date = {echo(cell)} is none; write it as 2026-01-31", line)
    return cell


def _count(what, cell, most, line):
    """A whole number from 0 to ``most``."""
    if not (cell.isascii() and cell.isdigit() and len(cell) <= 6 and int(cell) <= most):
        raise FILE.wrong(f"{what} = {echo(cell)} is no whole number from 0 to {most}", line)
    return int(cell)
