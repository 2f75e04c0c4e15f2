"""Tables for spreadsheets: nothing in them is worked out, and everything reads back as it was typed."""

import ast
import csv
import io
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

import shoulder_model as sm
from shoulder_model.evidence import example_trial, read_trials
from shoulder_model.panels import EvidencePanel, LatPanel
from shoulder_model.table_file import Kind
from shoulder_model.tables import Number, as_typed, inert, is_worked_out, number_rows, spreadsheet_bytes, table_text

HOME = Path(sm.__file__).parent
HOSTILE = (
    "=1+1",
    "@SUM(A1)",
    "+1",
    "-1",
    "\t=1",
    "\r=1",
    " =1",
    "\n=1",
    "\uff1d1+1",
    "\uff20x",
    "\u200b=1",
    "\ufeff=1",
    "'x",
    "''",
)


@pytest.mark.parametrize("words", HOSTILE)
@pytest.mark.parametrize("delimiter", [",", ";", "\t"])
def test_what_a_spreadsheet_would_work_out_is_inert_and_reads_back_as_typed(words, delimiter):
    ((cell, other),) = csv.reader(io.StringIO(table_text([(words, "row")], delimiter), newline=""), delimiter=delimiter)
    assert cell.startswith("'") and as_typed(cell) == words and other == "row"


@given(st.text(st.characters(exclude_categories=["Cs"], exclude_characters="\0"), max_size=20))
def test_any_words_read_back_as_typed(words):
    ((cell,),) = csv.reader(io.StringIO(table_text([(words or " ",)]), newline=""))
    assert as_typed(cell) == (words or " ") if cell.startswith("'") else not is_worked_out(cell)
    assert inert(inert(words)) == inert(words)


def test_numbers_stay_numbers_with_the_decimal_sign_that_is_asked_for():
    rows = [*number_rows({"a [m]": [-0.5, 1.0]}), (Number("2.5"), -3, None, "1.5 ×")]
    assert table_text(rows, ";", ",") == "a [m]\n-0,5000\n1,0000\n2,5;-3;;1.5 ×\n"
    assert spreadsheet_bytes(rows).startswith(b"\xef\xbb\xbfa [m]\n-0.5000\n")
    table = Kind("table", "choose another")
    assert [row.cells[0] for row in table.rows(table.decoded(spreadsheet_bytes(rows, ",")))][1] == "-0,5000"


def writers(path):
    """Calls in a file that write CSV by themselves, or data that is not made inert."""
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Attribute) and node.attr in ("writer", "DictWriter", "to_csv", "savetxt"):
            yield node.attr
        if isinstance(node, ast.Name) and node.id in ("DictWriter", "data_text") and isinstance(node.ctx, ast.Load):
            yield node.id
        if isinstance(node, ast.FunctionDef) and node.name == "data_text":
            yield node.name


def test_nobody_writes_a_table_past_the_one_place():
    found = {path.relative_to(HOME).as_posix(): set(writers(path)) for path in HOME.rglob("*.py")}
    assert found.pop("tables.py") == {"writer", "data_text"}
    recipes = {name for name, calls in found.items() if calls}
    assert recipes == {
        "recipes/landmarks.py",
        "recipes/outside_checks.py",
        "recipes/week_spans.py",
        "recipes/what_matters.py",
    }  # own data
    assert all(found[name] == {"data_text"} for name in recipes)


@pytest.mark.parametrize(
    ("sign", "begins"), [("point", b"elevation [deg],adduction"), ("comma", b"elevation [deg];adduction")]
)
def test_a_panels_table_opens_in_a_spreadsheet_with_either_decimal_sign(sign, begins):
    panel = LatPanel()
    panel.decimal.value = sign
    content = panel.content("csv")
    assert content.startswith(b"\xef\xbb\xbf" + begins)
    table = Kind("table", "choose another")
    heads, *rows = (row.cells for row in table.rows(table.decoded(content)))
    plain = [head for head in heads if "not known" not in head]
    assert (
        len(plain) == 6
        and len(heads) == 6 + 2 * 4
        and len(rows) == 31
        and rows[1][0] == ("5.0000" if sign == "point" else "5,0000")
    )


def test_tables_to_fill_in_are_read_back_with_either_decimal_sign(monkeypatch):
    panel, sent = EvidencePanel(), []
    monkeypatch.setattr(panel.door, "save", lambda name, content, mime: sent.append(content))
    for sign in ("point", "comma"):
        panel.decimal.value = sign
        panel.save("example")
        panel.save("template")
    assert read_trials(sent[0]) == read_trials(sent[2]) == read_trials(example_trial())
    assert b"57,5;62,5" in sent[2] and b"57.5,62.5" in sent[0] and all(one.startswith(b"\xef\xbb\xbf") for one in sent)
