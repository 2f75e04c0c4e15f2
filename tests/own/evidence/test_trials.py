"""The coding of the published trials, and how they are split."""

import pytest

from shoulder_model import evidence
from shoulder_model.evidence import SIDES, choose, comparisons
from shoulder_model.evidence.trials import row_of
from shoulder_model.inputs import InputError
from shoulder_model.tables import read_table

from .invented import asked, invented

AS_READ = {"rear deltoid": "posterior deltoid"}  # our name -> the papers'
ALSO = {
    "width", "hand turn", "width not stated", "grip not stated", "trunk lean", "blades held", "order of the sets",
}  # fmt: skip


def test_every_coded_row_points_to_one_row_of_the_evidence_and_agrees_with_it():
    rows = read_table("evidence.csv")
    for coded in read_table("comparisons.csv"):
        for condition, exercise in ((coded["condition"], "exercise"), (coded["against"], "exercise_against")):
            if not condition:
                continue
            found = row_of(rows, coded, condition, coded[exercise])
            assert coded["says"] or found["phase"] in ("", coded["phase"]), (coded["study_id"], condition)
            if coded["muscle"] != "largest load" and not coded["says"]:
                named = {part.strip() for part in found["outcome"].removeprefix("es_").replace("emg_", "").split(",")}
                as_read = AS_READ.get(coded["muscle"], coded["muscle"]).replace(" ", "_")
                assert as_read in {name.split(" and ")[0] for name in named}, condition
            if coded["held"] in ("each", "relative"):
                assert found["loading"] == "relative"


def test_codes_are_known_and_the_limits_of_each_trial_are_named():
    for row in comparisons():
        assert row.question in SIDES and row.held in evidence.HELD_WORDS and row.flaws
        assert row.higher in ("first", "second", "none", "")
        assert row.trained in ("trained", "novice", "not stated")
        assert set(row.also_changed.split("; ")) <= ALSO | {""}
        assert row.normalised in ("MVIC", "best technique", "not stated", "a load")
        assert row.untested in ("", "highest of all", "bands only") and row.scales.startswith(("", "body mass against"))
        assert not row.untested or row.higher in ("first", "second")


def test_no_row_and_pulldown_differ_in_one_thing_only():
    rows = [row for row in comparisons() if row.question == "row or pulldown"]
    assert len(rows) == 16 and all(row.also_changed for row in rows)
    assert choose(rows, one_change_only=True)[0] == ()
    neutral = [row for row in rows if row.study == "dynmed2004a"]  # neutral hands in the row, its width not given
    assert {row.held for row in neutral} == {"one"}
    assert all({"hand turn", "width not stated"} <= set(row.also_changed.split("; ")) for row in neutral)


def test_seventy_per_cent_of_one_maximum_is_a_load_that_is_not_stated_for_each_grip():
    rows = [row for row in comparisons() if row.study == "jscr2010a"]
    assert len(rows) == 6 and {row.held for row in rows} == {"not stated"}
    assert choose(rows, one_change_only=True)[0] == () and all(row.doubts for row in rows)


def test_body_mass_against_a_stack_is_said_wherever_it_is_so():
    for row in comparisons():
        assert bool(row.scales) == (row.question == "pull-up or pulldown" or row.study == "jscr2009c"), row
    rows = asked("pull-up or pulldown", "largest load")
    assert all(row.unlike == (evidence.SCALE,) for row in rows) and choose(rows, one_change_only=True)[0] == ()


def test_an_order_that_nobody_tested_points_nowhere():
    (row,) = asked("row or pulldown", "middle trapezius")[-1:]
    assert row.untested == "highest of all" and row.higher == "first" and row.direction() == "unknown"


def test_people_in_words():
    assert invented(sex="M", n=12).who == "12 men" and invented(n=8).who == "8 people"
    assert invented(sex="21M 4F").who == "21 men, 4 women" and invented(sex="1F", n=1).who == "1 woman"


def test_a_row_that_fits_nothing_or_twice_is_reported():
    rows, coded = read_table("evidence.csv"), dict(read_table("comparisons.csv")[0])
    with pytest.raises(LookupError, match="jscr2014a, no such grip: 0 rows"):
        row_of(rows, coded, "no such grip", "")
    with pytest.raises(LookupError, match=r"2 rows of evidence\.csv fit"):
        row_of([*rows, *rows], coded, coded["condition"], "")


def test_a_printed_p_value_is_told_from_an_order():
    no_means = {"means": None, "higher": "first"}
    for statement, kind in (
        ("p=0.03", "p-value"), ("P<0.05", "p-value"), ("p <= 0.04", "p-value"), ("significant", "order"),
        ("no difference", "order"), ("alpha 0.05", "order"), ("printed effect size 0.97", "order"),
    ):  # fmt: skip
        assert invented(statement=statement, **no_means).kind == kind


def test_a_difference_without_a_test_of_its_own_speaks_by_its_interval():
    clear, open_, back = (invented(means=(mean, 2.0, 10.0, 2.0)) for mean in (13.0, 10.1, 7.0))
    assert [row.direction() for row in (clear, open_, back)] == ["first", "none", "second"]
    assert invented(higher="none", means=(13.0, 2.0, 10.0, 2.0)).direction() == "none"


def test_the_band_is_the_widest_interval_and_a_printed_correlation_has_none():
    row, printed = invented(), invented(correlation=0.6)
    assert row.band(0.5) == row.effect(0.3).interval and row.band(0.1) == row.effect(0.1).interval
    assert printed.band(0.1) == printed.effect(0.9).interval and invented(means=None).band() is None


@pytest.mark.parametrize(("filters", "test"), [
    ({"one_change_only": True}, lambda row: not row.unlike),
    ({"mvic_only": True}, lambda row: row.normalised == "MVIC"),
    ({"trained_only": True}, lambda row: row.trained == "trained"),
    ({"minimum_n": 12}, lambda row: row.n >= 12),
    ({"held": "relative, found for each"}, lambda row: row.held == "each"),
])  # fmt: skip
def test_filters_leave_out_what_they_say(filters, test):
    rows = asked("grip width", "latissimus dorsi")
    shown, left_out = choose(rows, **filters)
    assert 0 < len(shown) < len(rows)
    assert set(shown) == {row for row in rows if test(row)}
    assert sum(left_out.values()) == len(rows) - len(shown) and len(left_out) == 1


def test_results_of_one_trial_stand_together_and_trials_with_numbers_first():
    for question in SIDES:
        for muscle in evidence.muscles(question):
            shown = choose(asked(question, muscle))[0]
            studies = [row.study for row in shown]
            assert len([1 for k, study in enumerate(studies) if study not in studies[:k]]) == len(set(studies))
            starts = [k for k, study in enumerate(studies) if k == 0 or study != studies[k - 1]]
            assert len(starts) == len(set(studies)), studies
            kinds = [row.kind for row in shown]
            if "difference" in kinds:
                assert kinds[0] == "difference"


def test_loads_pass_where_amplitudes_have_to_be_scaled_to_mvic():
    assert len(choose(asked("grip width", "largest load"), mvic_only=True)[0]) == 4


@pytest.mark.parametrize(
    ("call", "says"),
    [
        (lambda: choose([], held="heavy"), "held 'heavy' is not known"),
        (lambda: choose([], minimum_n=-1), "minimum_n = -1 people is outside"),
        (lambda: evidence.muscles("grip"), "nearest: grip width"),
    ],
)
def test_a_filter_nobody_knows_is_refused(call, says):
    with pytest.raises(InputError) as caught:
        call()
    assert says in str(caught.value)
