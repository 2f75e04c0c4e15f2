"""The register has every number of every table, says where it is used, and is found by a coach's words."""

from importlib.resources import files

import pytest

from shoulder_model.panels import RegisterPanel
from shoulder_model.panels.register import MOST
from shoulder_model.register import COLUMNS, find, numbers, uses
from shoulder_model.register.shapes import NO_NUMBERS, SHAPES
from shoulder_model.register.used import names_in
from shoulder_model.sources import MARKS
from shoulder_model.tables import read_table

TABLES = {path.name for path in files("shoulder_model").joinpath("data").iterdir() if path.name.endswith(".csv")}


def is_number(cell):
    try:
        float(cell)
    except ValueError:
        return False
    return True


def test_every_table_has_a_shape_or_holds_no_numbers():
    assert TABLES == set(SHAPES) | set(NO_NUMBERS) and not set(SHAPES) & set(NO_NUMBERS)


COUNTS = {"n", "sd", "band", "low", "high", "pcsa_low", "pcsa_high", "band_mm", "wrap", "sign", "grip_ratio", "rank"}


@pytest.mark.parametrize("file", SHAPES)
def test_no_column_of_numbers_is_left_out(file):
    shape, rows = SHAPES[file], read_table(file)
    taken = {*shape.keys, *shape.values, *(part for _, parts in shape.spread for part in parts)}
    own = dict(shape.own_marks)
    assert {one for one in rows[0] if one.endswith("_mark")} == set(own.values())
    for column in set(rows[0]) - taken - COUNTS:
        cells = [row[column] for row in rows if row[column]]
        assert not (cells and all(map(is_number, cells))), column


@pytest.mark.parametrize("file", SHAPES)
def test_every_number_has_a_mark_and_a_source_and_is_used(file):
    rows = [number for number in numbers() if number.table == file]
    assert rows
    for number in rows:
        assert number.mark in MARKS and len(number.source) > 4 and number.name and number.value, number
        assert number.used, f"{number.name} is used nowhere"


def test_a_use_is_found_in_code_and_not_in_words():
    texts, patterns, attributes = names_in(
        'a = fact("gravity")\nb = constant(f"pulldown_{sex}")\nc = f"{d}_x"\ne = rules.load_step_high\n# fact("no_such")'
    )
    assert "gravity" in texts and ("facts", "pulldown_.+") in patterns and "load_step_high" in attributes
    assert "no_such" not in texts and len(patterns) == 1


def test_uses_are_modules_and_chapters():
    assert {"mechanics/pull.py", "02_one_arm_one_plane"} <= set(uses("facts.csv", "gravity"))
    assert uses("capacity.csv") == ("muscles/table.py",)
    assert "pulls.csv" in uses("facts.csv", "inverted_row_body_share")
    assert uses("facts.csv", "no_such_fact") == ()


@pytest.mark.parametrize(
    ("asked", "table", "some"),
    [
        ("Winter", "facts.csv", "upper arm mass"),
        ("rear deltoid", "capacity.csv", "deltoid posterior: pcsa"),
        ("LAT  fibre", "capacity.csv", "latissimus dorsi middle: fibre"),
        ("cannot be located tension", "facts.csv", "specific tension"),
        ("novice repetitions position stand", "week_rules.csv", "repetitions low, novice"),
        ("biacromial men ANSUR", "ansur2_men_summary.csv", "biacromial mm: mean"),
    ],
)
def test_a_coach_s_words_find_rows(asked, table, some):
    assert (some, table) in {(number.name, number.table) for number in find(asked)}
    assert find("") == numbers() and find("no such words here") == ()


def test_a_value_with_a_mark_of_its_own_has_it():
    ends = {
        one.name: one.mark
        for one in find("deltoid anterior")
        if one.name.startswith("deltoid anterior: ") and one.table == "capacity.csv"
    }
    assert ends == {"deltoid anterior: pcsa": "D", "deltoid anterior: fibre": "ML"}


def test_words_in_a_name_come_first():
    assert find("rear deltoid fibre")[0].name == "deltoid posterior: fibre"


def test_the_panel_answers_what_is_typed():
    panel = RegisterPanel("Winter")
    assert panel.found["heads"] == list(COLUMNS) and len(panel.found["rows"]) == len(find("Winter"))
    panel.asked = ""
    assert len(panel.found["rows"]) == MOST and f"{len(numbers())} numbers" in panel.found["words"]
    panel.asked = "<b>nothing</b>"
    assert panel.found["rows"] == [] and "nothing" in panel.found["words"]
