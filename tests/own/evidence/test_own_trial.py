"""A reader's own trial: the blank table, what is read of a filled one, and how a wrong one is refused."""

import csv
import io

import numpy as np
import pytest

from shoulder_model.evidence import comparisons, example_trial, grade, read_trials, trial_template
from shoulder_model.evidence.own_trial import HEADS, LARGEST, MOST_ROWS
from shoulder_model.inputs import InputError

from .trial_tables import outcome, sources, tables_gone_wrong

FIRST = [50, 35, 57.5, 40, 52.5, 30, 70, 45, 60, 37.5]  # the example's readings, typed again
SECOND = [50, 40, 62.5, 40, 57.5, 32.5, 72.5, 45, 57.5, 40]


def test_the_example_is_read_as_by_hand():
    (row,) = read_trials(example_trial())
    assert read_trials(example_trial().encode("utf-16")) == (row,)
    first, second = np.array(FIRST), np.array(SECOND)
    together = np.cov(first, second, ddof=1)
    assert (row.n, row.question, row.muscle, row.held, row.own) == (10, "grip width", "largest load", "each", True)
    np.testing.assert_allclose(row.means, [first.mean(), together[0, 0] ** 0.5, second.mean(), together[1, 1] ** 0.5])
    assert row.correlation == pytest.approx(together[0, 1] / np.sqrt(together[0, 0] * together[1, 1]))
    yardstick = np.sqrt((together[0, 0] + together[1, 1]) / 2)
    assert row.effect().value == pytest.approx((first.mean() - second.mean()) / yardstick * (1 - 3 / 35))
    assert row.effect(0.0).interval == row.effect(0.9).interval  # nothing is assumed
    assert grade([row]).name == "sure" and "invented" in row.citation


def test_a_blank_table_filled_in_is_read():
    for delimiter in (",", ";"):
        blank = trial_template(delimiter)
        assert blank.rstrip().endswith(delimiter.join(HEADS))
        store = io.StringIO()
        rows = [
            [
                "Monday",
                "one or two arms",
                "erector spinae",
                "% MVIC",
                "",
                "one arm",
                "two arms",
                "relative load",
                "",
                "",
                "",
            ]
        ]
        rows = [[*row, "1", "3,5", "4"] for row in rows] + [[""] * 11 + [str(k), str(k), str(k % 3)] for k in (2, 3, 4)]
        csv.writer(store, delimiter=delimiter).writerows(rows)
        (row,) = read_trials(blank + store.getvalue())
        assert (
            row.normalised == "MVIC"
            and row.n == 4
            and row.means[0] == pytest.approx((3.5 + 2 + 3 + 4) / 4)
            and row.held == "relative"
        )
    with pytest.raises(InputError, match="no person in it"):
        read_trials(blank)


def test_tables_of_other_spreadsheets_are_the_same():
    plain, other, two, *_ = sources()
    assert read_trials(plain) == read_trials(other) == read_trials(plain.encode("utf-8-sig"))
    assert read_trials(plain.replace("\n", "\r")) == read_trials(plain.replace(",", "\t").replace("day\t", "day,"))
    assert [row.first for row in read_trials(two)] == ["2.0 ×", "1.5 ×"]
    assert read_trials(two)[0].means == read_trials(two)[1].means


def test_cells_that_a_spreadsheet_would_execute_stay_text():
    for inert in ("'=1+1", "=1+1"):
        (row,) = read_trials(example_trial().replace("2.0 ×", inert))
        assert row.first == "=1+1"


def test_what_else_changed_takes_an_own_trial_down_too():
    (row,) = read_trials(example_trial().replace("each,,not", "each,hand turn; trunk lean,not"))
    assert row.doubts == ("hand turn", "trunk lean") and grade([row]).name == "something else"


def test_every_muscle_of_the_published_trials_can_be_entered():
    for muscle in dict.fromkeys(row.muscle for row in comparisons()):
        assert read_trials(example_trial().replace("largest load", muscle))[0].muscle == muscle


def changed(old, new, count=1):
    assert old in example_trial()
    return example_trial().replace(old, new, count)


LONG = "\n".join([example_trial().rstrip(), *(f",,,,,,,,,,,{k},1,2" for k in range(11, MOST_ROWS + 12))])


@pytest.mark.parametrize(
    ("content", "where", "why"),
    [
        ("", "", "no person in it; fill in one row a person"),
        ("{}", "line 1", "column 'trial' is missing; start from a blank trial table"),
        (b"\xffabc", "", "not plain text in UTF-8; save it as CSV UTF-8"),
        ("x" * (LARGEST + 1), "", f"more than {LARGEST} characters"),
        (changed("grip width", "grip"), "line 3, column 'question'", "'grip' is not known; nearest: grip width"),
        (changed("largest load", "lats"), "line 3, column 'muscle or load'", "'lats' is not known; nearest"),
        (changed("1.0 ×,load found for each", "1.0 ×,heavy"), "line 3, column 'load'", "'heavy' is not known; choose from: "),
        (changed("not stated", "champion"), "line 3, column 'trained'", "'champion' is not known; nearest: trained"),
        (changed(",kg,", ",,"), "line 3, column 'unit'", "blank; fill it in"),
        (changed("Evening class (invented)", ""), "line 3, column 'trial'", "blank in the first row of a trial; name "),
        (changed("Evening class", "E" * 41), "line 3, column 'trial'", "52 letters, 40 at most; say it shorter"),
        (changed("2.0 ×", "2\u202e"), "line 3, column 'first'", "signs in it that cannot be printed; type it again"),
        (changed("4,40,40", "4,40 kg,40"), "line 6, column 'value first'", "'40 kg' is no number; type digits only, no unit"),
        (changed("4,40,40", "4,40,=1+1"), "line 6, column 'value second'", "'=1+1' is no number; type digits only"),
        (changed("4,40,40", '4,40,"1.234,5"'), "line 6, column 'value second'", "'1.234,5' is no number"),
        (changed("4,40,40", "4,40,"), "line 6, column 'value second'", "'' is no number"),
        (changed("4,40,40", "4,40,1e308"), "line 6, column 'value second'", "'1e308' is no number"),
        (changed("4,40,40", "3,40,40"), "line 6, column 'person'", "'3' is there twice in one result; give each "),
        (changed(",4,40,40", ",,40,40"), "line 6, column 'person'", "blank or longer than 12 letters; number the people"),
        (changed("4,40,40", "4,40"), "line 6", "13 cells in a row of 14; put cells with ',' in them in quotes"),
        (changed("4,40,40", "4,40,40,7"), "line 6", "15 cells in a row of 14"),
        (changed("4,40,40", '4,40,"40'), "line 12", "no table can be read here (a quotation mark, perhaps)"),
        (changed(",,,,,,,,,,,4", ",,,lb,,,,,,,,4"), "line 6, column 'unit'", "'lb', but 'kg' above; leave it blank or "),
        (changed("value first", "first value"), "line 2", "column 'value first' is missing"),
        (changed("person,", "person,age,"), "line 2", "column 'age' is not known or there twice; take it out"),
        (changed("phase,first", "phase,first,first"), "line 2", "column 'first' is not known or there twice"),
        ("\n".join(example_trial().split("\n")[:4]), "line 3, column 'person'", "only 2 in this result; it takes 3 "),
        (LONG, f"line {MOST_ROWS + 3}", f"more than {MOST_ROWS} people; make it two tables"),
    ],
)  # fmt: skip
def test_a_wrong_table_is_refused_in_one_line_that_says_where_and_what_to_do(content, where, why):
    with pytest.raises(InputError) as caught:
        read_trials(content, "mine.csv")
    said = str(caught.value)
    assert said.startswith(f"mine.csv, {where}: " if where else "mine.csv: ") and why in said, said
    assert said.isprintable() and len(said) <= 300


def test_readings_without_a_spread_are_refused():
    rows = example_trial().split("\n")
    same = "\n".join([*rows[:2], *(row.rsplit(",", 2)[0] + f",50,{k}" for k, row in enumerate(rows[2:12]))])
    with pytest.raises(InputError, match="line 3, column 'value first': the same for everybody, so there is no spread"):
        read_trials(same)


def test_mutated_tables_are_refused_in_one_line_or_read_right():
    """Three hundred here; ten thousand by ``python tests/benchmarks/trial_table_mutations.py``."""
    seen = [outcome(content) for content in tables_gone_wrong(7, 300)]
    assert 20 < seen.count("read") < 250 and len(set(seen)) > 10
