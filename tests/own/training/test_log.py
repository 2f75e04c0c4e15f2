"""A log: blank, written, and read back as a phone or a spreadsheet writes it; what cannot be read is refused in one line."""

import csv
import io
from datetime import date

import pytest

from shoulder_model.inputs import InputError
from shoulder_model.training.log import Entry, blank_log, log_text, read_log
from shoulder_model.training.log_file import HEADS, LOG
from tests.own.week.stand_ins import ALL, BENCH_ROW, PULLDOWN, ROW, TWO_DUMBBELLS, plan

NAMES = tuple(one.name for one in ALL)
LINE = f"2026-01-05;Monday;1;{PULLDOWN.name};1;62;42,5;8;2;0;7;fine"
FILLED = f"{';'.join(HEADS)}\n{LINE}\n"
ENTRY = Entry(PULLDOWN.name, 1, 42.5, 8, 2.0, 0.0, 7.0, date(2026, 1, 5), 1, 62.0, "fine")


def refusal(content):
    with pytest.raises(InputError) as refused:
        read_log(content, NAMES)
    said = str(refused.value)
    assert refused.value.field == "log" and said.splitlines() == [said] and len(said) <= 300
    return said


def test_a_blank_log_has_one_line_a_set_by_day():
    table = list(csv.DictReader(io.StringIO(blank_log(plan(PULLDOWN, ROW, BENCH_ROW)))))
    assert tuple(table[0]) == HEADS
    assert [(row["weekday"], row["pull"], row["set"]) for row in table[:4]] == [
        ("Monday", PULLDOWN.name, "1"), ("Monday", PULLDOWN.name, "2"), ("Monday", ROW.name, "1"), ("Monday", ROW.name, "2"),
    ]  # fmt: skip
    assert len(table) == 2 * 3 * 2 and table[-1]["weekday"] == "Thursday" and table[-1]["day"] == "2"
    assert not any(row[column] for row in table for column in ("date", "load [kg]", "repetitions", "pain 0-10", "note"))


def test_a_grip_stands_only_where_it_can_be_chosen():
    table = csv.DictReader(io.StringIO(blank_log(plan(PULLDOWN, BENCH_ROW, TWO_DUMBBELLS))))
    grips = {row["pull"]: row["grip [cm]"] for row in table}
    assert grips == {PULLDOWN.name: "62", BENCH_ROW.name: "", TWO_DUMBBELLS.name: ""}


@pytest.mark.parametrize("delimiter", [",", ";"])
def test_a_blank_log_read_back_has_no_entries(delimiter):
    assert read_log(blank_log(plan(*ALL), delimiter), NAMES) == ()


@pytest.mark.parametrize(
    "content",
    [
        FILLED,
        FILLED.encode("utf-8-sig"),
        FILLED.encode("utf-16"),
        FILLED.encode("utf-16-le"),
        FILLED.encode("utf-16-be"),
        FILLED.encode("cp1252"),
        FILLED.replace(";", "\t"),
        FILLED.replace("42,5", '"42,5"').replace(";", ","),
        FILLED.replace("42,5", "42.50").replace(";", ","),
        FILLED.replace("\n", "\r\n"),
        FILLED.replace("\n", "\r"),
        f"sep=;\n{FILLED}",
        f"\n;;;\n{FILLED}\n;;;;\n",
        FILLED.replace("load [kg]", " LOAD (KG) ").replace("repetitions;", "Reps;").replace("pain 0-10", "Pain 0–10"),
        FILLED.replace("42,5", "42,5 kg").replace(";62;", ";62 cm;").replace(";8;", ";8.0;"),
        FILLED.replace(";62;", ";\xa062 ;"),
        FILLED.replace("note\n", "note;shoes\n").replace("fine\n", "fine;=red\n"),
        FILLED.replace("2026-01-05", "2026-01-05T18:30:00"),
        FILLED.replace("2026-01-05", "5.1.2026"),
        FILLED.replace("2026-01-05", "05. 01. 2026"),
        f"{FILLED};Monday;1;{ROW.name};1\n",  # not done
    ],
)
def test_however_it_is_written_the_same_is_read(content):
    assert read_log(content, NAMES) == (ENTRY,)


def test_columns_may_stand_in_any_order_and_few_are_needed():
    assert read_log(f"repetitions,set,pain,pull\n8,1,,{ROW.name}\n", NAMES) == (Entry(ROW.name, 1, repetitions=8),)


@pytest.mark.parametrize(
    ("cell", "read"),
    [
        ("1/31/2026", date(2026, 1, 31)),
        ("31/1/2026", date(2026, 1, 31)),
        ("2/2/2026", date(2026, 2, 2)),
        ("2026/1/5", date(2026, 1, 5)),
    ],
)
def test_a_date_that_can_be_read_in_one_way_is_read(cell, read):
    assert read_log(FILLED.replace("2026-01-05", cell), NAMES)[0].date == read


@pytest.mark.parametrize(
    ("cell", "said"),
    [
        ("3/4/2026", "line 2, column 'date': '3/4/2026' can be read in two ways"),
        ("30.2.2026", "is no date; write it as 2026-01-31"),
        ("5.1.26", "is no date"),
        ("1926-01-05", "is no date"),
        ("=TODAY()", "is no date"),
    ],
)
def test_any_other_date_is_refused(cell, said):
    assert said in refusal(FILLED.replace("2026-01-05", cell))


@pytest.mark.parametrize(
    ("old", "new", "said"),
    [
        ("42,5", "=40+2", "log, line 2, column 'load [kg]': '=40+2' is no number; write digits only"),
        ("42,5", "forty", "is no number"),
        ("42,5", "42,5 lb", "is no number"),
        ("42,5", "42,5 cm", "is no number"),
        ("42,5", "1.000", "is no number"),  # one or a thousand
        ("42,5", "501", "not a number from 0 to 500"),
        (";8;", ";8,5;", "not a whole number from 0 to 100"),
        (";0;7;", ";11;7;", "column 'pain 0-10': '11' is not a number from 0 to 10"),
        (";0;7;", ";yes;7;", "column 'pain 0-10'"),
        (";1;62", ";;62", "number of the set is missing"),
        (PULLDOWN.name, "front pulldown at 1.5 x", f"is not one of the pulls; is it {PULLDOWN.name!r}?"),
        (PULLDOWN.name, "qqqq", "copy the name from the blank log"),
        (PULLDOWN.name, "", "the name of the pull is missing"),
        ("load [kg]", "load [lb]", "column 'load [kg]': 'load [lb]' is in another unit; write it in kg"),
        ("weekday", "Date", "column 'date': this column is there twice"),
        ("pain 0-10", "pain 0-100", "column 'pain 0-10': the column is missing"),  # else pain would be overlooked
        (";pull;", ";exercise;", "column 'pull': the column is missing"),
        ("fine", "x" * 301, "301 letters, 300 at most"),
        ("fine", "4,5", "look moved by one; or write words in the note"),
        ("fine", "fine;5", "13 cells under 12 heads"),
        ("fine\n", '"fine\n', "is a quotation mark missing"),
    ],
)
def test_a_value_that_cannot_be_is_refused_with_its_place(old, new, said):
    assert said in refusal(FILLED.replace(old, new))


@pytest.mark.parametrize("content", ["", "\n\n", ";;;\n", "\ufeff"])
def test_an_empty_file_is_refused(content):
    assert "there is nothing in it" in refusal(content)


def test_what_is_no_text_or_too_long_is_refused():
    assert "no text file" in refusal(b"PK\x03\x04\x00\x00")
    assert "letters cannot be read" in refusal(b"\x81\x8d\xff")
    assert "too long" in refusal("x" * (LOG.largest + 1))
    assert "lines, too long" in refusal("\n" * (LOG.most_lines + 1))
    assert "text or bytes" in refusal(12)
    assert LOG.decoded("a\r\nb\rc") == "a\nb\nc"


def test_a_decimal_comma_between_commas_is_never_read_as_two_cells():
    text = f"{','.join(HEADS)}\n2026-01-05,Monday,1,{ROW.name},1,62,42,5,8,2,0,7"
    assert "13 cells under 12 heads" in refusal(f"{text},\n")
    assert "look moved by one" in refusal(f"{text}\n")  # the note left out: its place holds the comfort
    assert "look moved by one" in refusal(f"{text[:-2]},\n")  # the comfort left out, too: eight left after five


def test_rows_that_end_early_are_read_and_those_with_a_cell_left_out_are_not():
    short = FILLED.replace(";0;7;fine", "")
    assert read_log(short, NAMES)[0].left == 2 and read_log(short, NAMES)[0].pain is None
    assert "cells under 12 heads" in refusal(FILLED.replace(";62;", ";").replace("fine", ""))
    assert "ends in the middle of this line" in refusal(FILLED[:-10])


def test_a_date_left_out_is_the_one_above_on_the_same_day_only():
    lines = [
        "date;day;pull;set;pain;repetitions",
        f"5.1.2026;1;{ROW.name};1;;8",
        f";1;{ROW.name};2;;8",
        f";1;{PULLDOWN.name};1;;8",
        f";2;{ROW.name};1;;8",  # another day
        f"12.1.2026;1;{ROW.name};1;;8",
        f";1;{ROW.name};1;;8",  # the same set again: another week
    ]
    dates = [one.date and one.date.day for one in read_log("\n".join(lines), NAMES)]
    assert dates == [5, 5, 5, None, 12, None]


def test_formulas_are_text_in_a_note_and_stay_so():
    found = read_log(FILLED.replace("fine", "=cmd|' /C calc'!A0"), NAMES)
    assert found[0].note == "=cmd|' /C calc'!A0"
    written = log_text(found)
    assert ",'=cmd" in written and read_log(written, NAMES) == found


def test_a_mark_without_repetitions_is_an_entry():
    only = read_log(f"pull;set;repetitions;pain\n{ROW.name};1;;4\n", NAMES)
    assert only == (Entry(ROW.name, 1, pain=4.0),)
