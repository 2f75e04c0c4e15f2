"""The ratios that the evidence table derives, and what its printed numbers allow."""

import csv
import re
from importlib.resources import files

import numpy as np
import pytest
from numpy.testing import assert_allclose

from shoulder_model.evidence import (
    comparisons,
    log_ratio_within,
    minimal_detectable_change,
)

pytestmark = pytest.mark.published


def table():
    """The evidence table, read here on its own."""
    text = files("shoulder_model").joinpath("data", "evidence.csv").read_text(encoding="utf-8")
    return list(csv.DictReader(text.splitlines()))


def citation(study):
    """Where a trial of the table was printed."""
    return next(row["citation"] for row in table() if row["study_id"] == study)


def printed(study, outcome, condition):
    (row,) = [r for r in table() if (r["study_id"], r["outcome"], r["condition"]) == (study, outcome, condition)]
    return float(row["mean"])


# rows marked D in the table: outcome, condition, and the two conditions they are the ratio of
RATIOS = [
    ("jscr2014a", "6RM_ratio", "wide vs narrow", "6RM_kg", "wide", "narrow", 0.963),
    ("jscr2014a", "6RM_ratio", "wide vs medium", "6RM_kg", "wide", "medium", 0.966),
    ("jscr2014a", "6RM_ratio", "medium vs narrow", "6RM_kg", "medium", "narrow", 0.996),
    *(
        ("dynmed2004a", f"emg_ratio_{muscle}", f"row {how} / wide pulldown", f"emg_{muscle}", f"seated row, scapulae {how}",
         "wide pronated pulldown", ratio)
        for muscle, how, ratio in (
            ("latissimus_dorsi", "free", 1.15), ("latissimus_dorsi", "retracted", 1.41),
            ("middle_trapezius", "free", 1.31), ("middle_trapezius", "retracted", 1.56),
        )
    ),
]  # fmt: skip


@pytest.mark.parametrize("row", RATIOS, ids=lambda row: f"{row[1]}-{row[2]}".replace(" ", "_"))
def test_derived_ratios_follow_from_the_means_in_the_same_table(row, outside):
    study, outcome, condition, source, over, under, by_hand = row
    ratio = printed(study, source, over) / printed(study, source, under)
    digits = 3 if outcome.startswith("6RM") else 2
    outside(by_hand, ratio, source=citation(study))
    assert round(ratio, digits) == by_hand == printed(study, outcome, condition)
    pair = (printed(study, source, over), printed(study, source, under))
    (row,) = [
        r for r in comparisons()
        if r.study == study and r.kind == "difference" and r.means[::2] == pair and r.question in ("grip width", "row or pulldown")
    ]  # fmt: skip
    first, sd_first, second, sd_second = row.means
    assert_allclose(np.exp(log_ratio_within(first, second, sd_first, sd_second, row.n, 0.5).value), ratio)


@pytest.mark.identity
def test_every_ratio_with_its_division_beside_it():
    rows = [(r, re.match(r"([\d.]+)/([\d.]+)(?:;|$)", r["note"])) for r in table() if r["mark"] == "D"]
    found = [(float(r["mean"]), r["mean"], float(m[1]) / float(m[2])) for r, m in rows if m]
    assert len(found) == 12
    for value, text, ratio in found:
        digits = len(text.partition(".")[2])
        # half of the last digit; 0.85 stands for 0.8528
        assert abs(value - ratio) <= 0.5 * 10**-digits, text


def test_detectable_change_of_one_persons_reading(outside):
    # New Zealand J Physiother 2018;46(2):67-72 (read): same-day SEM 8.6 to 18.9 %MVIC; MDC95 24 to 52 derived
    (sem,) = [r["mean"] for r in table() if r["study_id"] == "nzjp2018a" and r["outcome"] == "SEM" and "concentric" in r["condition"]]  # fmt: skip
    (mdc,) = [r["mean"] for r in table() if r["study_id"] == "nzjp2018a" and r["outcome"] == "MDC95"]
    assert sem == "8.6-18.9" and mdc == "24-52"
    found = minimal_detectable_change([float(end) for end in sem.split("-")])
    outside([float(end) for end in mdc.split("-")], found, "%MVIC")
    assert [round(float(value)) for value in found] == [float(end) for end in mdc.split("-")]
    assert_allclose(found, [1.96 * 2**0.5 * 8.6, 1.96 * 2**0.5 * 18.9], rtol=1e-4)


@pytest.mark.identity
def test_a_printed_effect_size_does_not_say_its_formula():
    # J Electromyogr Kinesiol 2017;32:30-36 (read): pronated 48.0 [21.2], neutral 27.4 [10.7], "d = 1.29"; the
    # means and SDs give 1.23 with either SD weighing alike, so a printed d is never drawn as ours
    (row,) = [r for r in comparisons() if r.study == "jek2017a" and r.kind == "difference"]
    first, sd_first, second, sd_second = row.means
    d = (first - second) / ((sd_first**2 + sd_second**2) / 2) ** 0.5
    assert round(d, 2) == 1.23 != 1.29
    # corrected for 18 degrees of freedom: 1.227 x (1 - 3/71)
    assert_allclose(row.effect().value, 1.175, atol=1e-3)


@pytest.mark.identity
def test_the_only_printed_correlations_are_used_and_not_assumed():
    # J Strength Cond Res 2009;23(3):1022-1028 (read): pull-up with pulldown, r 0.78 in 35 men and 0.44 in 23 women
    rows = {r.n: r for r in comparisons() if r.correlation is not None}
    assert {n: row.correlation for n, row in rows.items()} == {35: 0.78, 23: 0.44}
    for n, row in rows.items():
        assert row.effect(0.0).interval == row.effect(0.9).interval
        (typed,) = [
            r["mean"] for r in table() if r["study_id"] == "jscr2009d" and r["outcome"] == "r" and r["n"] == str(n)
        ]
        assert float(typed) == row.correlation


FLIPPED = [  # one pair of the same twelve men stands under two questions
    ("dynmed2004a", "biceps brachii", "wide pronated", "narrow supinated"),
    ("dynmed2004a", "biceps brachii", "pronated, wide", "supinated, narrow"),
    ("dynmed2004a", "latissimus dorsi", "row, blades free", "supinated pulldown"),
]


@pytest.mark.identity
def test_student_s_t_takes_three_intervals_across_zero_that_the_normal_leaves_clear():
    """At a correlation of 0.5, the yardstick of each trial's own people; 1.96 against t of n - 1."""
    flipped = []
    for row in comparisons():
        if row.kind == "difference":
            effect = row.effect()
            by_normal = abs(effect.value) > 1.96 * effect.standard_error
            low, high = effect.interval
            if by_normal != bool(low > 0 or high < 0):
                flipped.append((row.study, row.muscle, row.first, row.second))
    assert flipped == FLIPPED
