"""Trial tables gone wrong in every way that a hand, a spreadsheet or a disk may have, and what has to become of them."""

import csv
import io
import math
import random

from shoulder_model.evidence import SIDES, example_trial, muscles, read_trials, trial_template
from shoulder_model.inputs import InputError

MOST = 300  # letters of a refusal
CELLS = (
    "", " ", "0", "-1", "1e308", "1e999", "nan", "inf", "9" * 400, "1_0", "0x1f", "62,5", "62.5", "1.234,5", "−5", "٣",
    "12 kg", "=1+1", "+5", "-5", "@SUM(A1)", "=cmd|' /C calc'!A0", "'=1+1", "#REF!", "#", "x" * 3000, "\u202e", "\u0000",
    "<script>", "{x}", "%s%n", "row or pulldown", "Grip Width", "grip", "largest load", "latissimus", "load found for each",
    "one load for all", "trained", "concentric", "Evening class (invented)", "other class", '"', "a\nb", "a\rb", ";", "\t",
    "2.0 ×", "1", "2", "3", "True", "None", "__import__('os').system('true')",
)  # fmt: skip
JUNK = (
    b"\x00", b"\xff", b"\xfe\xff", b"\x1b[2J", b"\xc3", b"\xe2\x80\xae", b"\r", b"\x0b", b"\xef\xbb\xbf", b'"', b",", b";",
    b"\xed\xa0\x80",
)  # fmt: skip


def sources():
    """Tables that are right: the example, the same for another spreadsheet, and one of two results."""
    example = example_trial()
    rows = list(csv.reader(io.StringIO(example)))[1:]
    semicolons = io.StringIO()
    csv.writer(semicolons, delimiter=";", lineterminator="\r\n").writerows(
        [[cell.replace(".", ",") if cell.replace(".", "").isdigit() else cell for cell in row] for row in rows]
    )
    two = io.StringIO()
    again = [[cell.replace("2.0 ×", "1.5 ×") for cell in row] for row in rows[1:]]
    csv.writer(two, lineterminator="\n").writerows([*rows, *again])
    return [example, "\ufeff" + semicolons.getvalue(), two.getvalue(), trial_template(), trial_template(";")]


def tables_gone_wrong(seed, count):
    """So many mutated tables, as bytes."""
    rng, good = random.Random(seed), sources()
    for _ in range(count):
        text = rng.choice(good[:3] if rng.random() < 0.95 else good)
        for _ in range(rng.choice((1, 1, 1, 2, 4))):
            text = rng.choice((*[_cell] * 8, _column, _line, _line, _head))(rng, text)
        content = text.encode("utf-8", "surrogatepass")
        if rng.random() < 0.2:
            at = rng.randrange(len(content) + 1)
            content = content[:at] + rng.choice(JUNK) + content[at + rng.choice((0, 1, 40)) :]
        yield content


def _table(text):
    delimiter = max(",;\t", key=text.count)
    return list(csv.reader(io.StringIO(text, newline=""), delimiter=delimiter)), delimiter


def _written(rows, delimiter):
    store = io.StringIO()
    csv.writer(store, delimiter=delimiter, lineterminator="\n").writerows(rows)
    return store.getvalue()


def _cell(rng, text):
    rows, delimiter = _table(text)
    row = rng.choice([row for row in rows if row] or [[""]])
    row[rng.randrange(len(row))] = rng.choice(CELLS)
    return _written(rows, rng.choice((delimiter, delimiter, ";")))


def _column(rng, text):
    rows, delimiter = _table(text)
    at = rng.randrange(max(map(len, rows), default=1))
    kind, filler = rng.choice(("take", "double", "fill")), rng.choice(CELLS)
    for row in rows:
        if at < len(row):
            row[at : at + 1] = {"take": [], "double": [row[at]] * 2, "fill": [filler]}[kind]
    return _written(rows, delimiter)


def _line(rng, text):
    lines = text.split("\n")
    at = rng.randrange(len(lines))
    kind = rng.choice(("take", "double", "swap", "cut"))
    if kind == "take":
        del lines[at : at + rng.choice((1, 1, 6))]
    elif kind == "double":
        lines[at:at] = [lines[at]] * rng.choice((1, 1, 1200))
    elif kind == "swap":
        other = rng.randrange(len(lines))
        lines[at], lines[other] = lines[other], lines[at]
    else:
        lines[at] = lines[at][: rng.randrange(len(lines[at]) + 1)]
    return "\n".join(lines)


def _head(rng, text):
    word = rng.choice(("person", "trial", "value first", "muscle or load", "load", "unit"))
    return text.replace(word, rng.choice(("", word.upper(), f" {word} ", "tral", "person", "x")), 1)


def outcome(content):
    """ "read" or the kind of refusal; raises AssertionError where a table was neither read right nor refused in one line."""
    try:
        rows = read_trials(content, "mine.csv")
    except InputError as refusal:
        said = str(refusal)
        assert said.startswith("mine.csv") and len(said) <= MOST and said.isprintable(), said
        return said.rpartition("': ")[2][:60] if "': " in said else said.partition(": ")[2][:60]
    assert rows and len(
        {(row.study, row.question, row.muscle, row.phase, row.first, row.second) for row in rows}
    ) == len(rows)
    read = _readings(content)
    for row in rows:
        assert row.own and row.question in SIDES and 3 <= row.n <= 1000 and abs(row.correlation) <= 0.99
        assert row.muscle in {muscle for question in SIDES for muscle in muscles(question)}
        low, high = row.effect().interval
        assert math.isfinite(low) and low < row.effect().value < high
        assert row.citation.isprintable() and len(row.citation) <= 40
    assert sum(row.n for row in rows) == len(read)
    # every reading went into a mean: the two sums agree
    for column, place in ((-2, 0), (-1, 2)):
        ours = sum(row.means[place] * row.n for row in rows)
        assert math.isclose(ours, sum(pair[column] for pair in read), rel_tol=1e-9, abs_tol=1e-6)
    return "read"


def _readings(content):
    """The pairs of numbers in a table, read on their own: by the two columns' names, however they are parted."""
    text = content.decode().removeprefix("\ufeff").replace("\r\n", "\n").replace("\r", "\n")
    for delimiter in ",;\t":
        rows = list(csv.reader(io.StringIO(text), delimiter=delimiter))
        rows = [row for row in rows if any(cell.strip() for cell in row) and not row[0].strip(" '").startswith("#")]
        heads = [" ".join(cell.strip().removeprefix("'").lower().split()) for cell in rows[0]]
        if "value first" in heads:
            break
    places = [heads.index(name) for name in ("value first", "value second")]
    pairs = []
    for row in rows[1:]:
        cells = [row[place].strip().removeprefix("'").strip() for place in places]
        pairs.append([float(cell.replace(",", ".").replace("−", "-")) for cell in cells])
    return pairs
