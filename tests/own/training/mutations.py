"""Logs as a phone or a spreadsheet writes them, and logs gone wrong in every way that a hand or a disk may have."""

import csv
import io
import random
import re
from dataclasses import replace
from datetime import date, timedelta
from pathlib import Path

from shoulder_model.inputs import InputError
from shoulder_model.training.log import HEADS, Entry, log_text, read_log
from tests.gone_wrong import as_it_is, cut, junk_of
from tests.own.week.stand_ins import ALL

NAMES = tuple(one.name for one in ALL)
MADE = Path("made_by_a_cell")  # no cell may make it
NOTES = (
    "",
    "",
    "fine",
    "left elbow turned out; slower",
    "=1+1",
    "@SUM(A1:A9)",
    "-",
    "+49 30 1",
    "'tis",
    "a, b",
    'said "ouch"',
    "×",
)
FORMULAS = (
    "=1+1", "=40", "+40", "-40", "@A1", "=cmd|' /C calc'!A0", f"=open('{MADE}','w')", f"__import__('pathlib').Path('{MADE}').touch()",
    "{=1}", "=HYPERLINK(\"http://x\")", "${jndi:x}", "%s%n", "{0.__class__}", "`id`", "$(id)", "<script>",
)  # fmt: skip
VALUES = (
    "", " ", "0", "1", "8", "-1", "11", "12,5", "12.5", "1.000", "1,000.5", "1.000,5", "1e3", "1e999", "nan", "inf", "0x1f",
    "9" * 400, "４０", "½", "forty", "40 lb", "40 kg", "40kg", "8-12", "3/4/2026", "13/4/2026", "4.13.2026", "31.2.2026",
    "2026-02-30", "2026-1-5", "05.01.26", "Jan 5", "45000", "true", "None", "x" * 301, "row", "Pull-up at 1.5 ×", "pull-up at 1.5 x",
    "\u202e", "\u200b8", "8\xa0", "\t", '"', '""', "'", "''8", "8\n8", "\x00", "\x1b[2J", "\ud800",
)  # fmt: skip
JUNK = (
    b"\x00", b"\xff", b"\xfe\xff", b"\xff\xfe", b"\xef\xbb\xbf", b"\xc3", b"\x81", b'"', b"\r", b"\x0b", b"\n\n", b",", b";",
    b"sep=;\n", b"\xed\xa0\x80",
)  # fmt: skip


def some_entries(rng):
    """A few sets on a few days; ``rng`` is a `random.Random`."""
    entries, on = [], date(2026, 1, 1) + timedelta(rng.randrange(300))
    for day in range(1, rng.randrange(2, 5)):
        on += timedelta(rng.randrange(1, 4))
        for pull in rng.sample(NAMES, rng.randrange(1, 4)):
            load = rng.choice((None, 40.0, 42.5, 7.25, 0.0))
            for place in range(1, rng.randrange(2, 5)):
                done = rng.randrange(1, 16), rng.choice((None, 0.0, 1.0)), rng.choice((None, 0.0, 0.0, 3.0))
                comfort, grip = rng.choice((None, 8.0, 4.5)), rng.choice((None, 62.0))
                entries.append(Entry(pull, place, load, *done, comfort, on, day, grip, rng.choice(NOTES)))
    return tuple(entries)


def as_written(rng, entries):
    """The bytes of a log as some program writes it: other letters, cells, order and case, with the same in it."""
    delimiter = rng.choice(",;\t")
    table = list(csv.reader(io.StringIO(log_text(entries, ",", rng.choice(".,")))))
    if rng.random() < 0.3:
        order = rng.sample(range(len(HEADS)), len(HEADS))
        table = [[row[place] for place in order] for row in table]
    if rng.random() < 0.3:
        table = [[*row, "shoes" if row is table[0] else rng.choice(("red", "", "=1+1"))] for row in table]
    if rng.random() < 0.3:
        change = rng.choice(
            (str.upper, str.title, lambda head: head.replace("[", "(").replace("]", ")"), lambda head: f" {head} ")
        )
        table[0] = [change(head) for head in table[0]]
    if rng.random() < 0.3:
        table = _other_dates(rng, table)
    if delimiter != "," and rng.random() < 0.3:
        table = [table[0], *([*row[: max(place for place, cell in enumerate(row) if cell) + 1]] for row in table[1:])]
    for _ in range(rng.choice((0, 0, 2))):
        table.insert(rng.randrange(1, len(table) + 1), rng.choice(([], [""], [""] * len(table[0]))))
    return _as_bytes(rng, table, delimiter)


def _other_dates(rng, table):
    """The same dates as a spreadsheet shows them."""
    place = next(place for place, head in enumerate(table[0]) if head.strip().lower() == "date")
    ways = ["{2}.{1}.{0}", "{0}-{1}-{2}T00:00:00", "{0}/{1}/{2}", "{0}-{1}-{2} 00:00"]
    way = rng.choice(ways)
    return [
        [*row[:place], way.format(*row[place].split("-")), *row[place + 1 :]] if row is not table[0] else row
        for row in table
    ]


def _as_bytes(rng, table, delimiter):
    store = io.StringIO()
    quoting = rng.choice((csv.QUOTE_MINIMAL, csv.QUOTE_MINIMAL, csv.QUOTE_ALL))
    csv.writer(store, delimiter=delimiter, lineterminator=rng.choice(("\n", "\r\n", "\r")), quoting=quoting).writerows(
        table
    )
    text = store.getvalue()
    if rng.random() < 0.1:
        text = f"sep={delimiter}\n{text}"
    return text.encode(rng.choice(("utf-8", "utf-8", "utf-8-sig", "utf-16", "utf-16-le", "utf-16-be", "cp1252")))


def mutated(rng):
    """The bytes of a log with one to four changes."""
    lines = list(csv.reader(io.StringIO(log_text(some_entries(rng)))))
    for _ in range(rng.choice((1, 1, 1, 2, 4))):
        lines = rng.choice(CHANGES)(rng, [list(line) for line in lines]) or [[""]]
    text = _joined(lines, rng.choice(",;\t"), quoted=rng.random() < 0.9)
    content = text.encode(rng.choice(("utf-8", "utf-8", "utf-16")), "surrogatepass")
    return rng.choice(BYTE_CHANGES)(rng, content)


def moved(rng):
    """Entries, and the bytes of their log in which cells or lines stand at another place, are left out, or the end is cut off."""
    entries = some_entries(rng)
    lines = list(csv.reader(io.StringIO(log_text(entries))))
    lines = rng.choice(MOVES)(rng, [list(line) for line in lines]) or [[""]]
    text = _joined(lines, rng.choice(",;\t"), quoted=True)
    return entries, (text[: rng.randrange(len(text) + 1)] if rng.random() < 0.3 else text).encode()


def _joined(lines, delimiter, quoted):
    if not quoted:
        return "\n".join(delimiter.join(line) for line in lines)
    store = io.StringIO()
    csv.writer(store, delimiter=delimiter, lineterminator="\n").writerows(lines)
    return store.getvalue()


def _cell(rng, lines):
    line = rng.choice(lines)
    if line:
        line[rng.randrange(len(line))] = rng.choice(VALUES + FORMULAS)
    return lines


def _cell_of_a_set(rng, lines):
    """Never in the first line."""
    line = rng.choice(lines[1:] or lines)
    if line:
        line[rng.randrange(len(line))] = rng.choice(VALUES + FORMULAS)
    return lines


def _split_number(rng, lines):
    """A decimal comma that was not put in quotes."""
    line = rng.choice(lines)
    place = rng.randrange(len(line) + 1)
    line.insert(place, "5")
    return lines


def _drop_cell(rng, lines):
    line = rng.choice(lines)
    if line:
        line.pop(rng.randrange(len(line)))
    return lines


def _drop_line(rng, lines):
    lines.pop(rng.randrange(len(lines)))
    return lines


def _double_line(rng, lines):
    at = rng.randrange(len(lines))
    return lines[:at] + [lines[at]] * rng.choice((2, 2, 2, 6000)) + lines[at + 1 :]


def _swap(rng, lines):
    i, j = (rng.randrange(len(lines)) for _ in range(2))
    lines[i], lines[j] = lines[j], lines[i]
    return lines


def _drop_column(rng, lines):
    place = rng.randrange(len(HEADS))
    return [line[:place] + line[place + 1 :] for line in lines]


def _double_column(rng, lines):
    place = rng.randrange(len(HEADS))
    return [line[: place + 1] + line[place:] for line in lines]


def _head(rng, lines):
    if lines[0]:
        heads = ("load [lb]", "load", "repetition", "reps", "pain", "", "=1+1", "grip [in]", "date", "x" * 400)
        lines[0][rng.randrange(len(lines[0]))] = rng.choice(heads)
    return lines


CHANGES = (
    _cell, *[_cell_of_a_set] * 5, _split_number, _drop_cell, _drop_line, _double_line, _swap, _drop_column, _double_column, _head,
)  # fmt: skip
MOVES = (_split_number, _split_number, _drop_cell, _drop_cell, _drop_line, _swap, lambda rng, lines: lines)


def _large(rng, content):
    return content * rng.choice((1, 3, 2000))


BYTE_CHANGES = (*[as_it_is] * 12, junk_of(JUNK), junk_of(JUNK), cut, _large)


def outcome(content):
    """What becomes of a log of these bytes: "read", or the refusal without places and values.

    Anything but whole entries within all limits or one line of at most 300 signs is an AssertionError or what it raises.
    """
    try:
        entries = read_log(content, NAMES)
    except InputError as error:
        said = str(error)
        assert said.splitlines() == [said] and len(said) <= 300 and said.startswith("log") and said.isprintable(), said
        assert type(error) is InputError and error.field == "log"
        return re.sub(r"\d+|'.*?'|\".*?\"", "·", said.rpartition(": ")[2])[:44]
    finally:
        assert not MADE.exists()
    for entry in entries:
        assert obeys(entry), entry
    again = log_text(entries)
    assert not any(cell.startswith(("=", "+", "-", "@")) for row in csv.reader(io.StringIO(again)) for cell in row), (
        again
    )
    assert read_log(again, NAMES) == entries
    return "read"


def obeys(entry):
    """Whether an entry is within all limits."""
    numbers = ((entry.load_kg, 500), (entry.left, 50), (entry.pain, 10), (entry.comfort, 10), (entry.repetitions, 100))
    whole = isinstance(entry.set, int) and isinstance(entry.repetitions, int | None)
    return (
        entry.pull in NAMES
        and whole
        and 1 <= entry.set <= 50
        and all(value is None or 0 <= value <= most for value, most in numbers)
        and (entry.date is None or 2000 <= entry.date.year <= 2100)
        and entry.note.isprintable()
        and len(entry.note) <= 300
    )


def logs_gone_wrong(seed, count):
    """``count`` mutated logs, bytes, the same for each seed."""
    rng = random.Random(seed)
    return (mutated(rng) for _ in range(count))


def logs_as_written(seed, count):
    """``count`` pairs of entries and the bytes that some program writes of them, the same for each seed."""
    rng = random.Random(seed)
    for _ in range(count):
        entries = some_entries(rng)
        yield entries, as_written(rng, entries)


def moved_logs(seed, count):
    """``count`` pairs of entries and the bytes of their log with something moved, the same for each seed."""
    rng = random.Random(seed)
    return (moved(rng) for _ in range(count))


def strangers(entries, content):
    """Entries of a log of these bytes that were not in it, apart from their dates and notes; none where it is refused."""
    try:
        found = read_log(content, NAMES)
    except InputError:
        return None
    known = {replace(one, date=None, note="") for one in entries}
    return [one for one in found if replace(one, date=None, note="") not in known]
