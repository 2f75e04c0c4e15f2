"""The table of outside checks, and the finders: a check without a source, and one that rests on a value from memory.

Where a check runs, `conftest` holds its rows against the stored ones; here is what a single check cannot see.
"""

import ast
import re
from dataclasses import replace
from pathlib import Path

import pytest

from shoulder_model.checkout import HOME
from shoulder_model.evidence import ASSUMED, comparisons, grade, pooled
from shoulder_model.inputs import InputError
from shoulder_model.recipes.outside_checks import with_short_form
from shoulder_model.register import HEADS, outside_checks
from shoulder_model.sources import NOT_LOCATED
from shoulder_model.tables import read_table

from . import beside, conftest
from .test_trial_directions import DIRECTIONS

FILES = sorted(Path(__file__).parent.glob("test_*.py"))


def functions(path):
    """Tests of a file that hold the model against the outside: published, and no identity."""
    tree, _ = beside.parts(path)
    marks = {
        ast.unparse(node.value)
        for node in tree.body
        if isinstance(node, ast.Assign) and ast.unparse(node.targets[0]) == "pytestmark"
    }
    for node in tree.body:
        if isinstance(node, ast.FunctionDef) and node.name.startswith("test_"):
            own = marks | {ast.unparse(mark) for mark in node.decorator_list}
            if "pytest.mark.published" in own and "pytest.mark.identity" not in own:
                yield node


def without_source(path):
    """Checks of a file without a citation beside them; one that is handed on with ``source=`` has it in the table."""
    for node in functions(path):
        handed = any(isinstance(one, ast.keyword) and one.arg == "source" for one in ast.walk(node))
        undecided = "outside.undecided" in ast.unparse(node)
        if not (handed or undecided or beside.sources(path, node.name)):
            yield node.name


def decided_from_memory(path):
    """Checks of a file that rest on a value from memory, or on one that cannot be located, and assert something."""
    for node in functions(path):
        if beside.is_weak(path, node.name) and any(isinstance(one, ast.Assert) for one in ast.walk(node)):
            yield node.name


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.stem)
def test_every_check_names_its_source(path):
    assert list(without_source(path)) == []


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.stem)
def test_no_value_from_memory_decides(path):
    assert list(decided_from_memory(path)) == []


OFFENDERS = '''
import pytest
pytestmark = pytest.mark.published
# J Anat 2009;215:184
GOOD = 3
# from memory (MM), J Anat 2009;215:184
WEAK = 4
LOOSE = 5

def test_with_a_source():
    assert GOOD == 3

def test_pages_alone():
    # J Anat 2009;215:184 (pages from memory)
    assert GOOD == 3

def test_without_any():
    assert LOOSE == 5

def test_from_memory():
    assert WEAK == 4

def test_lost():
    """The paper cannot be located; J Anat 2009;215:184 says otherwise."""
    assert LOOSE == 5

def test_shown_only(outside):
    outside.undecided(WEAK, 4, holds=True)

@pytest.mark.identity
def test_of_our_own():
    assert LOOSE == 5
'''


def test_the_finders_find_artificial_offenders(tmp_path):
    path = tmp_path / "test_offenders.py"
    path.write_text(OFFENDERS, encoding="utf-8")
    assert list(without_source(path)) == ["test_without_any"]
    assert list(decided_from_memory(path)) == ["test_from_memory", "test_lost"]


def in_words(name):
    """A test's or a file's name as the table has it."""
    return name.removeprefix("test_").replace("_", " ")


def without_place(check):
    """A row's check without what of several it is."""
    return re.sub(r" \((?!.*\]).*\)$", "", check)


def test_the_table_has_the_checks_there_are_and_no_others():
    stored = {(row.topic, without_place(row.check).partition(" [")[0]) for row in outside_checks()}
    assert stored == {(in_words(path.stem), in_words(node.name)) for path in FILES for node in functions(path)}


def test_the_table_has_the_cases_there_are_and_no_others(request):
    """Of each check that is collected here with all its cases."""
    config, stored, collected = request.config, {}, {}
    if config.option.keyword or any("::" in arg for arg in config.args):
        pytest.skip("a part of the checks was chosen")
    for row in outside_checks():
        check = without_place(row.check)
        stored.setdefault((row.topic, check.partition(" [")[0]), set()).add(check.partition(" [")[2].removesuffix("]"))
    for item in request.session.items:
        if Path(__file__).parent in item.path.parents and conftest.is_check(item):
            case = item.callspec.id if hasattr(item, "callspec") else ""
            collected.setdefault((in_words(item.path.stem), in_words(item.originalname)), set()).add(case)
    for check, cases in collected.items():
        assert cases == stored[check], check


def test_a_changed_row_is_stale():
    row = [getattr(outside_checks()[0], head) for head in HEADS]
    assert conftest.stale([row]) == ""
    for head, other in (
        ("printed", "99"),
        ("model", "99"),
        ("result", "misses"),
        ("source", "elsewhere"),
        ("check", "new"),
    ):
        changed = list(row)
        changed[HEADS.index(head)] = other
        assert conftest.STALE in conftest.stale([changed]), head


def test_numbers_may_be_rounded_otherwise_and_nothing_else():
    assert conftest.same("219.5 / 249", "219.6 / 249") and not conftest.same("219.5 / 249", "239.5 / 249")
    assert not conftest.same("219.5 / 249", "219.5") and not conftest.same("1.25 kg", "1.25 N")


def test_the_readme_has_the_short_form():
    text = (HOME / "README.md").read_text(encoding="utf-8")
    assert with_short_form(text, outside_checks()) == text


# ---------------------------------------------------------------- papers that cannot be located


def test_no_check_no_direction_no_rule_hangs_on_a_paper_that_cannot_be_located():
    lost = {row["study_id"] for row in read_table("evidence.csv") if row["mark"] == NOT_LOCATED}
    assert lost and not lost & {direction.study for direction in DIRECTIONS.values()}
    assert all(row.counts == "no" for row in outside_checks() if "cannot be located" in row.source)
    for table in ("week_rules.csv", "marking_rules.csv"):
        assert NOT_LOCATED not in {row["mark"] for row in read_table(table)}


def test_what_results_say_together_does_not_hang_on_a_paper_that_cannot_be_located():
    for pair in {(row.question, row.muscle) for row in comparisons()}:
        rows = [row for row in comparisons() if (row.question, row.muscle) == pair]
        kept = [row for row in rows if row.located]
        if kept:
            assert grade(rows) == grade(kept), pair
        else:
            assert grade(rows).name == "something else", pair


def test_no_pooled_result_hangs_on_a_paper_that_cannot_be_located():
    row = next(row for row in comparisons() if row.kind == "difference")
    three = [replace(row, study=name) for name in "abc"]
    assert pooled(three, ASSUMED).value
    with pytest.raises(InputError):
        pooled([*three[:2], replace(three[2], located=False)], ASSUMED)


NAMED = re.compile(r"(?:J|Jpn J|Man Ther|Proc Biol Sci)\b[A-Za-z ]* (?:19|20)\d\d")  # a journal and a year
NUMBERED = (";", "PMC", "Conf Proc")  # a volume, or the number of a document


def test_a_citation_without_a_journal_or_a_year_has_the_mark():
    """Journal (or series) and year, or a doi, or the number of a document: with less nobody finds a paper."""
    for row in read_table("evidence.csv"):
        citation = row["citation"]
        vague = not (row["doi"] or NAMED.match(citation) or any(sign in citation for sign in NUMBERED))
        assert vague == (row["mark"] == NOT_LOCATED), citation
