"""What a class did: the hands it showed, question by question, as a table that opens again.

One row an answer: the lecture, its date, the minute in which the answer was shown, step, question, answer, whether it is
the right one, and how many hands. No name of anybody is in it.
"""

import csv
import io
from dataclasses import dataclass, field

from ..inputs import InputError
from ..tables import as_typed, inert, table_text

HEADS = ("lecture", "date", "minute", "step", "question", "answer", "right", "votes")
MOST_HANDS, LONGEST_LECTURE = 999, 24 * 60
LARGEST = 1_000_000  # characters of a file


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
            rows.append([inert(cell) for cell in said])
    return table_text(rows)


def read_protocol(content, title, steps):
    """The `Hands` of a saved protocol, ``content`` (CSV text), of the lecture with this ``title`` (str) and these ``steps``.

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
            raise _wrong(f"it is of {row['lecture'][:60]!r}; open that lecture first", line)
        ask = asked.get((row["step"], row["question"]))
        if ask is None or row["answer"] not in ask["answers"]:
            raise _wrong("this lecture has no such question with this answer; was its run sheet changed?", line)
        hands.date, name = row["date"], ask["name"]
        counts = hands.votes.setdefault(name, [0] * len(ask["answers"]))
        counts[ask["answers"].index(row["answer"])] = _count("votes", row["votes"], MOST_HANDS, line)
        if row["minute"]:
            hands.minutes[name] = _count("minute", row["minute"], LONGEST_LECTURE, line)
    return hands


def _rows(content):
    """Pairs of line number and row (dict by head) of a protocol."""
    if len(content) > LARGEST:
        raise _wrong("it is too long for a protocol")
    try:
        table = list(csv.reader(io.StringIO(content.removeprefix("\ufeff")), strict=True))
    except csv.Error:
        raise _wrong("it is no table; choose a .csv file that a lecture saved") from None
    if not table or tuple(table[0]) != HEADS:
        raise _wrong(f"its first line is not {','.join(HEADS)}; choose a .csv file that a lecture saved")
    for line, row in enumerate(table[1:], start=2):
        if len(row) != len(HEADS):
            raise _wrong(f"{len(row)} cells in a row of {len(HEADS)}", line)
        yield line, {head: as_typed(cell) for head, cell in zip(HEADS, row, strict=True)}


def _count(what, cell, most, line):
    """A whole number from 0 to ``most``."""
    if not (cell.isascii() and cell.isdigit() and len(cell) <= 6 and int(cell) <= most):
        raise _wrong(f"{what} = {cell[:20]!r} is no whole number from 0 to {most}", line)
    return int(cell)


def _wrong(why, line=None):
    where = f", row {line}" if line else ""
    return InputError("protocol", f"protocol{where}: {why}")
