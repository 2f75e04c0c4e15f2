"""What is packed comes out again, letter for letter, by a second reader of the format."""

import random

import pytest

from shoulder_model.recorded.packing import Table, cut_out, packed

from .unpack import filled, unpacked

ODD = [
    "", "0", "-0", "-0.0", "-0.04", "007", "0.50", "1e-05", "−3", "-3", "1.2.3", "12.", ".5", "1.234", "99999999", "1234567.89",
    "#0072b2", "M-1.0,2.5L3.0,-4.5Z", "M1.0,2.5L3.0,4.5Z", "26 N m, ± 2", "a\x00b", "<b>&</b>", "½ × “x”", None,
]  # fmt: skip


def rows_of(table):
    texts = {key: list(values) for key, (values, _) in table.columns.items()}
    return [{key: texts[key][pattern[row]] for key, (_, pattern) in table.columns.items()} for row in range(table.rows)]


def test_every_text_comes_out_as_it_went_in():
    chance, table, given = random.Random(1), Table(), []
    for row in range(200):
        texts = {f"k{key}": chance.choice(ODD) for key in range(6)}
        texts |= {"path": f"M{row / 10:.1f},{-row / 7:.2f}L{row % 7},{row}", "same": "as ever 1.0"}
        given.append(texts)
        table.add(texts)
    head, (rows,) = unpacked(packed({"more": [1, "×"]}, [table]))
    assert head == {"more": [1, "×"]} and rows == given


def test_a_key_that_comes_late_or_goes_is_not_there_in_the_other_rows():
    table = Table()
    for texts in ({"a": "1"}, {"a": "1", "b": "2"}, {}, {"b": "3"}):
        table.add(texts)
    expected = [{"a": "1", "b": None}, {"a": "1", "b": "2"}, {"a": None, "b": None}, {"a": None, "b": "3"}]
    assert unpacked(packed({}, [table]))[1] == [expected]


def test_pieces_join_to_the_whole_and_rows_can_be_put_in_order():
    rows = [{"a": str(n // 3), "b": f"{n % 4}.5"} | ({"c": "x"} if n > 5 else {}) for n in range(12)]
    whole, first, second = Table(), Table(), Table()
    for number, row in enumerate(rows):
        whole.add(row)
        (first if number < 4 else second).add(row)
    first.join(second)
    assert rows_of(first) == rows_of(whole) and first.columns == whole.columns
    order = [11, 3, 7, 0, 1, 2, 4, 5, 6, 8, 9, 10]
    assert rows_of(whole.in_order(order)) == [rows_of(whole)[number] for number in order]
    empty = Table()
    empty.join(whole)
    assert rows_of(empty) == rows_of(whole)


@pytest.mark.parametrize("text", [one for one in ODD if one])
def test_numbers_that_are_cut_out_can_be_put_back(text):
    template, numbers = cut_out(text)
    assert filled(template, numbers) == text and all(isinstance(number, int) for number in numbers)
