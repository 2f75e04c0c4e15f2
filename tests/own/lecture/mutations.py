"""Run sheets gone wrong in every way that a hand, an editor or a disk may have: lines, values, bytes, nesting, sizes."""

import random
import re

from shoulder_model.lecture.run_sheet import SHEETS, RunSheetError, parse_run_sheet
from shoulder_model.toml_file import Wrong, file_text
from tests.gone_wrong import as_it_is, cut, junk_of
from tests.own.lecture.sheet_checker import obeys

SOURCES = {path.stem: path.read_text(encoding="utf-8") for path in sorted(SHEETS.glob("*.toml"))}
VALUES = (
    "0", "-1", "1e308", "1e999", "nan", "-inf", "true", "false", "9" * 400, "9" * 5000, "0x1f", "0b2", "1_0", "07",
    "1979-05-27", "1979-05-27T07:32:00Z", "07:32:00", '""', '" "', '"x"', "'x'", '"""x\ny"""', "'''x'''",
    '"' + "x" * 3000 + '"', "[]", "{}", "[1, 2]", '["a", "b"]', "[[[[1]]]]", "[" * 200 + "]" * 200, "[" * 2000,
    "{a = {b = {c = 1}}}", "{a.b.c.d.e.f.g = 1}", '"\\u202e"', '"\\u0000"', '"\\u0007"', '"\\ud800"',
    '"\\U0010ffff"', '"\\q"', '"../wide.json"', '"/etc/passwd"', '"grip"', '"lat"', '"evidence"', '"chin-up"',
    '"runa_upright.json"', '"row_or_pulldown_45.toml"', '"tape_law"', '"03_grip_width 3.2"',
    '"03_grip_width Notes"', '"{x}"', '"%s%n"', '"<script>"', "None", "", ",", "]", "}", "=", "#",
    '{ "Grip" = 1.0 }', '{ "Grip" = true }', '{ "Pull" = "chin-up", "Grip" = 2 }', '{ "Load" = -5 }',
    '{ "Load" = 1e9 }', '{ "Elbow cue" = 1e400 }', '{ "Question" = "grip width" }', '{ "Muscle" = "rear deltoid" }',
    '["Along the rep"]', '["Load"]', '["Grip", "Grip"]', "[true]",
)  # fmt: skip
JUNK = (
    b"\x00", b"\xff", b"\xfe\xff", b"\x1b[2J", b"\xc3", b"\xe2\x80\xae", b"\r", b"\x0b", b"\xef\xbb\xbf",
    b"\xed\xa0\x80", b'"', b"'", b"\\", b"[", b"{",
)  # fmt: skip
KEYS = ("title", "minutes", "say", "sliders", "start", "saved", "figure", "quiz", "tittle", "x-y", '"a b"')
LINES = (
    "[[step]]", "[step.panel]", "[lifter]", "[[lifter]]", "[step]", "[panel]", "title = 3", "minutes = 5",
    "quiz = true", "keep = true", "a.b.c.d.e.f = 1", ".".join("a" * 1500) + " = 1", "step = 3",
    'say = "hello"', 'ask = "?"', "answers = [ 1 ]", "answers = [ {}, {} ]",
    'answers = [ { say = "a" }, { say = "b" } ]', 'figure = "lean_split"',
    'section = "09_reading_the_evidence 9.8"', 'saved = "ana_at_63_cm.json"', "[step.panel.start]", '"" = 1',
    "'' = ''", "[]", "[[]]", "[[step.panel]]", "\u2028", "\ufeff",
)  # fmt: skip


def mutated(rng):
    """The bytes of one of the sheets with one to four changes; ``rng`` is a `random.Random`."""
    text = SOURCES[rng.choice(list(SOURCES))]
    for _ in range(rng.choice((1, 1, 1, 2, 4))):
        lines = text.split("\n")
        text = "\n".join(rng.choice(LINE_CHANGES)(rng, lines))
    content = text.replace("\n", rng.choice(("\n", "\n", "\n", "\r\n"))).encode("utf-8", "surrogatepass")
    return rng.choice(BYTE_CHANGES)(rng, content)


def _place(rng, lines):
    return rng.randrange(len(lines))


def _delete(rng, lines):
    at = _place(rng, lines)
    return lines[:at] + lines[at + rng.choice((1, 1, 3)) :]


def _double(rng, lines):
    at = _place(rng, lines)
    return lines[: at + 1] + [lines[at]] * rng.choice((1, 1, 80)) + lines[at + 1 :]


def _swap(rng, lines):
    i, j = _place(rng, lines), _place(rng, lines)
    lines[i], lines[j] = lines[j], lines[i]
    return lines


def _insert(rng, lines):
    at = _place(rng, lines)
    return [*lines[:at], rng.choice(LINES), *lines[at:]]


def _value(rng, lines):
    """Another value behind a key."""
    keyed = [i for i, line in enumerate(lines) if "=" in line]
    at = rng.choice(keyed or [0])
    key = lines[at].partition("=")[0]
    lines[at] = f"{key}= {rng.choice(VALUES)}"
    return lines


def _inner(rng, lines):
    """Another value inside a line: of an answer, of a control."""
    keyed = [i for i, line in enumerate(lines) if line.count("=") > 1]
    if keyed:
        at = rng.choice(keyed)
        parts = list(re.finditer(r"= *(\"[^\"]*\"|[\w.]+)", lines[at]))
        if parts:
            part = rng.choice(parts)
            lines[at] = lines[at][: part.start(1)] + rng.choice(VALUES) + lines[at][part.end(1) :]
    return lines


def _letter(rng, lines):
    at = _place(rng, lines)
    if lines[at]:
        place = rng.randrange(len(lines[at]))
        other = rng.choice(("", '"', "=", "x", "\u202e", "\u200f", "é", "\t", "{", "]", "\\"))
        lines[at] = lines[at][:place] + other + lines[at][place + 1 :]
    return lines


def _rename(rng, lines):
    keyed = [i for i, line in enumerate(lines) if "=" in line]
    if keyed:
        at = rng.choice(keyed)
        lines[at] = f"{rng.choice(KEYS)} ={lines[at].partition('=')[2]}"
    return lines


LINE_CHANGES = (_delete, _double, _swap, _insert, _value, _value, _inner, _inner, _letter, _rename)


def _large(rng, content):
    return content + b"# x\n" * rng.choice((10, 30_000, 250_000))


BYTE_CHANGES = (*[as_it_is] * 12, junk_of(JUNK), junk_of(JUNK), cut, _large)


def outcome(content, folder):
    """What becomes of a sheet of these bytes in a ``folder`` (path): "read", or the refusal without places and names.

    Anything but a sheet within all limits or one line of at most 300 characters is an AssertionError or what it raises.
    """
    path = folder / "mutated.toml"
    path.write_bytes(content)
    try:
        try:
            text = file_text(path)
        except Wrong as wrong:
            return f"file: {wrong.words[:30]}"
        obeys(parse_run_sheet(text, folder, file="mutated.toml"))
    except RunSheetError as error:
        said = str(error)
        assert said.splitlines() == [said] and len(said) <= 300 and re.match(r"mutated\.toml, line \d+: \S", said), said
        assert 1 <= int(re.search(r"line (\d+)", said)[1]) <= content.count(b"\n") + 2, said
        return re.sub(r"\d+|'.*?'", "·", said.partition(": ")[2])[:40]
    return "read"


def folder_of(tmp_path):
    """A folder with the set-ups that the sheets name, and no more."""
    for path in SHEETS.glob("*.json"):
        (tmp_path / path.name).write_bytes(path.read_bytes())
    return tmp_path


def sheets_gone_wrong(seed, count):
    """``count`` mutated sheets, bytes, the same for each seed."""
    rng = random.Random(seed)
    return (mutated(rng) for _ in range(count))
