"""Effect sizes, the coding of the trials, what may be claimed, the forest and its panel."""

import csv
import io
from dataclasses import replace
from itertools import pairwise

import numpy as np
import pytest
from numpy.testing import assert_allclose

from shoulder_model import evidence
from shoulder_model.draw.forest import ROWS, Forest, forest_line, short, summary_line
from shoulder_model.draw.look import new_figure
from shoulder_model.evidence import (
    SIDES,
    Comparison,
    choose,
    claim,
    comparisons,
    difference_of_groups,
    difference_within,
    leanings,
    log_ratio_within,
    minimal_detectable_change,
    pooled,
    random_effects,
    smallest_seen,
    together,
    unseen,
)
from shoulder_model.evidence.trials import row_of
from shoulder_model.inputs import InputError
from shoulder_model.panels import EvidencePanel
from shoulder_model.tables import read_table

LAT_ROW = {"question": "row or pulldown", "muscle": "latissimus dorsi"}


AS_READ = {"rear deltoid": "posterior deltoid"}  # our name -> the papers'


def invented(study="one", higher="", means=(12.0, 2.0, 10.0, 2.0), **more):
    """A result nobody found."""
    fields = dict(
        study=study, citation=f"Invented {study}", n=16, phase="whole", first="row", second="pulldown", higher=higher,
        statement="", held="each", also_changed="", trained="trained", normalised="MVIC", flaws="", means=means,
    )  # fmt: skip
    return Comparison(**(LAT_ROW | fields | more))


def asked(question, muscle):
    return [row for row in comparisons() if (row.question, row.muscle) == (question, muscle)]


# effect sizes


@pytest.mark.identity
def test_asked_the_other_way_round_only_the_sign_turns():
    there, back = (
        difference_within(30.1, 26.2, 14.9, 10.1, 12, 0.5),
        difference_within(26.2, 30.1, 10.1, 14.9, 12, 0.5),
    )
    assert_allclose([back.value, back.variance], [-there.value, there.variance], rtol=1e-14)


@pytest.mark.identity
@pytest.mark.parametrize("unit", [0.01, 9.81])
def test_the_unit_does_not_matter(unit):
    numbers = np.array([30.1, 26.2, 14.9, 10.1])
    for form, rest in ((difference_of_groups, (12, 15)), (difference_within, (12, 0.5)), (log_ratio_within, (12, 0.5))):
        plain, scaled = form(*numbers, *rest), form(*(unit * numbers), *rest)
        assert_allclose([scaled.value, scaled.variance], [plain.value, plain.variance], rtol=1e-12)


@pytest.mark.identity
def test_the_correlation_moves_the_interval_and_not_the_estimate():
    g = difference_within(30.1, 26.2, 14.9, 10.1, 12, np.array([0.0, 0.3, 0.5, 0.7]))
    assert np.ptp(g.value) == 0
    widths = np.diff(g.interval, axis=0)[0]
    assert np.all(np.diff(widths) < 0)
    # without correlation the same people twice are two groups, but for the d² part: d²/n against d²/4n
    d, n = 3.9 / ((14.9**2 + 10.1**2) / 2) ** 0.5, 12
    apart, same = difference_of_groups(30.1, 26.2, 14.9, 10.1, n, n), difference_within(30.1, 26.2, 14.9, 10.1, n, 0.0)
    factors = 1 - 3 / (4 * np.array([22, 11]) - 1)
    assert_allclose(same.variance / factors[1] ** 2 - apart.variance / factors[0] ** 2, 0.75 * d**2 / n, rtol=1e-12)


@pytest.mark.parametrize(("true", "correlation"), [(0.0, 0.5), (0.8, 0.3), (0.8, 0.7)])
def test_the_interval_holds_the_truth_about_as_often_as_it_says(true, correlation):
    rng, n = np.random.default_rng(11), 30
    cover = np.array([[1.0, correlation], [correlation, 1.0]])
    people = rng.multivariate_normal([true, 0.0], cover, (4000, n))
    mean, sd = people.mean(axis=1), people.std(axis=1, ddof=1)
    g = difference_within(mean[:, 0], mean[:, 1], sd[:, 0], sd[:, 1], n, correlation)
    low, high = g.interval
    held = np.mean((low < true) & (true < high))
    # 4,000 repetitions give ± 0.7 points; the large-sample form may miss by a few more
    assert 0.92 < held < 0.975
    assert abs(g.value.mean() - true) < 0.02


def test_a_summary_of_equal_effects_is_that_effect_and_of_unequal_ones_is_wider():
    same = random_effects([0.3] * 4, [0.04] * 4)
    assert_allclose([same.value, same.variance, same.between, same.inconsistency], [0.3, 0.01, 0, 0], atol=1e-15)
    spread = random_effects([-0.7, 0.1, 0.5, 1.3], [0.04] * 4)
    # equal weights: between = sample variance - 0.04, so the variance of the mean is sample variance / 4
    assert_allclose([spread.value, spread.variance], [0.3, np.var([-0.7, 0.1, 0.5, 1.3], ddof=1) / 4], rtol=1e-12)
    assert spread.weights.sum() == pytest.approx(1)


def test_a_larger_trial_sees_smaller_differences():
    assert_allclose(smallest_seen(12), (1.95996 + 0.84162) / 12**0.5, rtol=1e-4)
    assert smallest_seen(48) == pytest.approx(smallest_seen(12) / 2)


@pytest.mark.parametrize(
    ("call", "says"),
    [
        (lambda: difference_of_groups(1, 2, 0, 1, 9, 9), "sd_first = 0 is outside 1e-09"),
        (lambda: difference_of_groups(1, 2, 1, 1, 9, 2), "n_second = 2 people is outside 3 people"),
        (lambda: difference_within(1, np.nan, 1, 1, 9, 0.5), "second = nan is outside"),
        (lambda: difference_within(1, 2, 1, 1, 9, 1.0), "correlation = 1 is outside -0.99 to 0.99: the same people"),
        (lambda: difference_within(1, 2, "wide", 1, 9, 0.5), "sd_first = 'wide' is not a number"),
        (lambda: log_ratio_within(-1, 2, 1, 1, 9, 0.5), "first = -1 is outside 1e-09 to 1e"),
        (lambda: random_effects([0.1, 0.2], [0.1, 0.1]), "trials = 2, a summary needs 3 comparable ones"),
        (lambda: random_effects([0.1, 0.2, 0.3], [0.1, 0.1]), "variances: 2 for 3 effects"),
        (lambda: random_effects([0.1, 0.2, 0.3], [0.1, 0.1, 0]), "variances = 0 is outside"),
        (lambda: minimal_detectable_change(-1), "sem = -1 is outside 0"),
        (lambda: smallest_seen(2), "n = 2 people is outside 3 people"),
        (lambda: smallest_seen(12, power=1), "power = 1 is outside 0.05 to 0.99"),
    ],
)
def test_numbers_no_formula_can_use_are_refused(call, says):
    with pytest.raises(InputError) as caught:
        call()
    assert says in str(caught.value)


# the coding


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
        assert row.also_changed in ("", "width", "hand turn")
        assert row.normalised in ("MVIC", "best technique", "not stated", "a load")


def test_a_row_that_fits_nothing_or_twice_is_reported():
    rows, coded = read_table("evidence.csv"), dict(read_table("comparisons.csv")[0])
    with pytest.raises(LookupError, match="jscr2014a, no such grip: 0 rows"):
        row_of(rows, coded, "no such grip", "")
    with pytest.raises(LookupError, match=r"2 rows of evidence\.csv fit"):
        row_of([*rows, *rows], coded, coded["condition"], "")


def test_only_means_and_spreads_become_a_number():
    kinds = {row.kind for row in comparisons()}
    assert kinds == {"difference", "order", "p-value"}
    for row in comparisons():
        line = forest_line(row, 0.5)
        assert (row.effect() is None) == (row.kind != "difference") == (line.value is None)
        assert (line.ends is None) == (line.value is None)
        if row.kind != "difference":
            assert "g " not in line.result and line.result.startswith(row.kind)


def test_a_printed_p_value_is_told_from_an_order():
    no_means = {"means": None, "higher": "first"}
    for statement, kind in (
        ("p=0.03", "p-value"), ("P<0.05", "p-value"), ("p <= 0.04", "p-value"), ("significant", "order"),
        ("no difference", "order"), ("alpha 0.05", "order"), ("printed effect size 0.97", "order"),
    ):  # fmt: skip
        assert invented(statement=statement, **no_means).kind == kind


# what may be claimed


def pointing(study, *ways, **more):
    return [invented(study, higher=way, means=None, **more) for way in ways]


@pytest.mark.parametrize(
    ("rows", "said"),
    [
        ([], "no trial"),
        (pointing("a", "first"), "first"),
        (pointing("a", "second", "none"), "second"),
        (pointing("a", "first") + pointing("b", "none"), "first"),
        (pointing("a", "first") + pointing("b", "second"), "open"),
        (pointing("a", "first") + pointing("b", "second", "none"), "open"),
        (pointing("a", "first", "second") + pointing("b", "first"), "open"),
        (pointing("a", "none") + pointing("b", "none"), "none seen"),
        (pointing("a", ""), "open"),
        (pointing("a", "first", held="differ"), "open"),
        (pointing("a", "first", held="differ") + pointing("b", "second"), "second"),
    ],
)
def test_nothing_is_claimed_where_results_point_both_ways(rows, said):
    assert claim(rows) == said
    words = together(rows, "row or pulldown")
    assert ("No claim" in words) == (said == "open")
    assert ("How sure" in words) == (said in ("first", "second"))


def test_more_trials_of_one_side_make_a_lean_and_never_more():
    many = [row for k in range(20) for row in pointing(f"t{k}", "first")]
    words = together(many, "row or pulldown")
    assert words == "20 trials found more with a row, none found the opposite. How sure: a lean, no more."
    assert "a hint at most" in together(many[:1], "row or pulldown")
    even = many[:2] + pointing("x", "none") + pointing("y", "none")
    words = together(even, "row or pulldown")
    assert "2 trials saw no difference, none" in words and "a hint at most" in words
    assert "with 16 people, one trial in five misses" in unseen(even) and unseen(many) == ""


@pytest.mark.parametrize(
    ("rows", "said"),
    [
        (pointing("a", "first"), ""),
        (pointing("a", "first") + pointing("b", "first"), ""),
        (pointing("a", "first") + pointing("b", "first", second="other"), "No two trials made the same comparison."),
        (pointing("a", "first", also_changed="width", held="differ"),
         "Something else changed too in 1 trial and 1 trial compared different loads and counts for nothing."),
    ],
)  # fmt: skip
def test_what_weakens_the_results_is_said(rows, said):
    assert evidence.cautions(rows) == said


def test_a_difference_without_a_test_of_its_own_speaks_by_its_interval():
    clear, open_, back = (invented(means=(mean, 2.0, 10.0, 2.0)) for mean in (13.0, 10.1, 7.0))
    assert [row.direction() for row in (clear, open_, back)] == ["first", "none", "second"]
    assert invented(higher="none", means=(13.0, 2.0, 10.0, 2.0)).direction() == "none"


@pytest.mark.parametrize(("question", "muscle", "studies"), [
    # by hand from the notes: behind-neck raised the rear deltoid in one trial, lowered it in two
    ("front or behind the neck", "rear deltoid", {"jscr2002a": "first", "jscr2009a": "second", "jhk2024a": "first"}),
    # one trial turns round between the bar's way down and up
    ("front or behind the neck", "latissimus dorsi", {"jscr2002a": "first", "jscr2009a": "none", "jhk2024a": "both", "jpfsm2005a": "none"}),
    # chin-up at body weight against part of it shows the load
    ("pull-up or pulldown", "latissimus dorsi", {"hh2017a": "unknown", "hh2017b": "none", "kpts2018a": "unknown"}),
    ("grip width", "largest load", {"jscr2014a": "second in part", "bjb2012a": "second"}),
])  # fmt: skip
def test_leanings_of_known_cases(question, muscle, studies):
    assert leanings(asked(question, muscle)) == studies


def test_filters_leave_out_what_they_say():
    rows = asked("grip width", "latissimus dorsi")
    for filters, test in (
        ({"one_change_only": True}, lambda row: not row.also_changed),
        ({"mvic_only": True}, lambda row: row.normalised == "MVIC"),
        ({"trained_only": True}, lambda row: row.trained == "trained"),
        ({"minimum_n": 12}, lambda row: row.n >= 12),
        ({"held": "relative, found for each"}, lambda row: row.held == "each"),
    ):
        shown, left_out = choose(rows, **filters)
        assert 0 < len(shown) < len(rows)
        assert set(shown) == {row for row in rows if test(row)}
        assert sum(left_out.values()) == len(rows) - len(shown) and len(left_out) == 1


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


# one number for several trials


def test_three_comparable_trials_are_pooled_as_by_hand():
    rows = [invented(study, means=(10.0 + k, 2.0, 10.0, 2.0)) for k, study in enumerate("abc")]
    one, effects = pooled(rows), [row.effect() for row in rows]
    by_hand = random_effects([e.value for e in effects], [e.variance for e in effects])
    assert (one.value, one.variance) == (by_hand.value, by_hand.variance)


@pytest.mark.parametrize(
    ("rows", "says"),
    [
        ([invented("a"), invented("b")], "2 trials with means of one contrast, 3 are needed"),
        ([invented("a", means=None, higher="first")] * 3, "no result comes with means"),
        ([invented("a"), invented("b"), invented("c", held="one")], "not compare the same things"),
        ([invented("a"), invented("b"), invented("c", muscle="biceps brachii")], "not compare the same things"),
        ([invented("a"), invented("b"), invented("c", also_changed="width")], "not compare the same things"),
        ([invented("a"), invented("b"), invented("c"), invented("c")], "the same people are counted twice"),
    ],
)
def test_what_is_not_comparable_is_not_pooled(rows, says):
    with pytest.raises(InputError) as caught:
        pooled(rows)
    assert says in str(caught.value)


def test_no_question_of_the_workbook_has_three_comparable_trials():
    for question in SIDES:
        for muscle in evidence.muscles(question):
            with pytest.raises(InputError, match="no pooled number"):
                pooled(asked(question, muscle))


def test_votes_mislead_more_the_more_trials_there_are_and_a_summary_does_not():
    """Twelve people, a true difference of 0.4: a majority of significant trials gets rarer, the summary surer."""
    rng, n, true = np.random.default_rng(5), 12, 0.4
    people = rng.multivariate_normal([true, 0.0], [[1.0, 0.5], [0.5, 1.0]], (200, 45, n))
    gap = people[..., 0] - people[..., 1]
    significant = gap.mean(axis=-1) / (gap.std(axis=-1, ddof=1) / n**0.5) > 2.201  # t, 11 degrees of freedom, 5 %
    votes = [np.mean(significant[:, :k].mean(axis=1) > 0.5) for k in (5, 15, 45)]
    mean, sd = people.mean(axis=2), people.std(axis=2, ddof=1)
    g = difference_within(mean[..., 0], mean[..., 1], sd[..., 0], sd[..., 1], n, 0.5)
    found = [
        np.mean([random_effects(v[:k], w[:k]).interval[0] > 0 for v, w in zip(g.value, g.variance, strict=True)])
        for k in (5, 15, 45)
    ]
    assert votes[0] > votes[1] > votes[2] and votes[2] < 0.01
    assert found[0] < found[1] <= found[2] and found[2] > 0.99


# picture and panel


@pytest.fixture(scope="module")
def panel():
    return EvidencePanel()


def every_case():
    return [(question, muscle) for question in SIDES for muscle in evidence.muscles(question)]


@pytest.mark.parametrize(("question", "muscle"), every_case(), ids=lambda words: words.replace(" ", "_"))
def test_every_case_fits_the_picture_without_overlap(panel, question, muscle):
    panel.question.value, panel.muscle.value = question, muscle
    assert panel.picture.said["trouble"] == "" and len(panel.state.shown) <= ROWS
    figure, forest = panel.stage.figure, panel.forest
    figure.draw_without_rendering()
    width = figure.bbox.width
    arrows = forest.axes.bbox.x0
    boxes = [[text.get_window_extent() for text in row] for row in forest.texts[: len(panel.state.shown)]]
    for top, below, result, remark in boxes:
        assert max(top.x1, below.x1) < arrows and top.x0 >= 0, (question, muscle)
        assert max(result.x1, remark.x1) <= width, (question, muscle)
        assert min(result.x0, remark.x0) > forest.axes.bbox.x1
        assert top.y0 >= below.y0 + 0.5 * below.height and result.y0 > remark.y0
    for (_, upper, *_), (lower, *_) in pairwise(boxes):
        assert upper.y0 >= lower.y1 - 2
    right, left = (side.get_window_extent() for side in forest.sides)
    assert left.x1 < right.x0 and left.x0 > 0 and right.x1 < width


def test_the_other_question_keeps_the_muscle_where_it_can():
    panel = EvidencePanel("grip width", "latissimus dorsi")
    panel.question.value = "hand turn"
    assert panel.muscle.value == "latissimus dorsi" and panel.words.startswith("Hand turn, latissimus dorsi")
    panel.muscle.value = "lower trapezius"
    panel.question.value = "after a cue or before"
    assert panel.muscle.value == "latissimus dorsi" and "lower" not in panel.words


def test_estimates_stand_where_the_numbers_are_and_nowhere_else():
    panel = EvidencePanel("row or pulldown", "latissimus dorsi")
    x, y = panel.forest.points.get_data()
    assert len(x) == 4 and len(panel.state.shown) == 6
    # by hand: (30.10 - 26.23) / 12.73 x (1 - 3/43)
    assert x[0] == pytest.approx(3.87 / ((14.9**2 + 10.1**2) / 2) ** 0.5 * 40 / 43)
    spans = panel.forest.intervals.get_xdata()
    assert np.isnan(spans).sum() == 4 and len(panel.forest.dashes.get_xdata()) == 3 * 2
    assert sum(len(arrow.get_xdata()) for arrow in panel.forest.arrows.values()) == 1
    assert not set(np.round(panel.forest.dashes.get_ydata()[0::3], 3)) & set(np.round(y, 3))


def test_switches_and_choices_change_what_is_shown_and_said():
    panel = EvidencePanel("grip width", "latissimus dorsi")
    before = panel.words
    panel.switches["one_change_only"].value = True
    assert "4 (something else changed too)" in panel.words and panel.words != before
    panel.held.value = "one load for all"
    assert "other loading" in panel.words
    panel.sliders["minimum_n"].value = 30
    assert panel.state.shown == () and "No trial is left" in panel.words and "no result left" in panel.overlay


def test_kept_intervals_stay_on_their_lines():
    panel = EvidencePanel()
    panel.keep()
    wide = np.array(panel.forest.ghost.get_xdata())
    panel.sliders["correlation"].value = 0.9
    assert_allclose(panel.forest.ghost.get_xdata(), wide)
    assert np.nanmax(panel.forest.intervals.get_xdata()) < np.nanmax(wide)
    before, now = (np.reshape(x, (-1, 3)) for x in (wide, panel.forest.intervals.get_xdata()))
    narrower = np.mean(before[:, 1] - before[:, 0]) - np.mean(now[:, 1] - now[:, 0])
    assert (
        f"correlation 0.50): the same results; intervals {narrower:.2f} SD narrower on average; the same conclusion."
        in panel.picture.said["verdict"]
    )
    panel.question.value = "after a cue or before"
    assert len(panel.forest.ghost.get_xdata()) == 0
    assert (
        "1 result of 1 trial instead of 6 results of 2 trials; there it was: They point both ways"
        in panel.picture.said["verdict"]
    )


def test_three_comparable_trials_get_a_diamond():
    rows = [invented(study, means=(10.0 + k, 2.0, 10.0, 2.0)) for k, study in enumerate("abc")]
    panel = EvidencePanel(trials=rows)
    assert panel.forest.diamond.get_visible() and "Pooled: g +0.4" in panel.words
    assert panel.forest.diamond.get_xy()[1][0] == pytest.approx(float(pooled(rows).value))
    assert panel.state.summary is not None and "random effects" in panel.overlay
    assert not EvidencePanel().forest.diamond.get_visible()


def test_a_difference_off_the_axis_gets_a_wider_axis():
    panel = EvidencePanel(trials=[invented(means=(30.0, 2.0, 10.0, 2.0), n=6)])
    low, high = panel.forest.axes.get_xlim()
    assert high >= max(panel.forest.intervals.get_xdata()[:2]) and low == -high


def test_the_table_has_every_line_and_blanks_where_no_number_is():
    panel = EvidencePanel("grip width", "latissimus dorsi")
    rows = list(csv.DictReader(io.StringIO(panel.content("csv").decode())))
    assert len(rows) == len(panel.state.shown) == 10
    for row, result in zip(rows, panel.state.shown, strict=True):
        assert (row["g"] == "") == (result.kind != "difference") and row["citation"] == result.citation
        assert row["limits"] and row["as printed"]
    (number,) = [row for row in rows if row["g"]]
    ends = [float(number[f"g low 95% at correlation {r}"]) for r in ("0.30", "0.50", "0.70")]
    assert ends == sorted(ends) and float(number["g"]) == pytest.approx(3.86 / 9.613 * 40 / 43, abs=2e-4)  # by hand


def test_pictures_have_something_in_them():
    panel = EvidencePanel()
    assert panel.content("svg").startswith(b"<?xml") and b"own test" in panel.content("svg")
    assert panel.content("png").startswith(b"\x89PNG")


def test_a_muscle_of_another_question_moves_nothing():
    panel = EvidencePanel()
    before = panel.content("json"), panel.words
    panel.open_text(panel.content("json").decode().replace("latissimus dorsi", "teres major"))
    assert (
        "no trial of row or pulldown looked at teres major; choose from: latissimus dorsi"
        in panel.picture.said["trouble"]
    )
    assert (panel.content("json"), panel.words) == before
    panel.open_text(panel.content("json").decode().replace("latissimus dorsi", "gluteus"))
    assert "'gluteus' is not known" in panel.picture.said["trouble"]


def test_a_set_up_of_another_question_opens():
    other = EvidencePanel("front or behind the neck", "rear deltoid")
    other.switches["trained_only"].value = True
    panel = EvidencePanel()
    panel.open_text(other.content("json").decode())
    assert panel.picture.said["trouble"] == "" and panel.words == other.words and panel.overlay == other.overlay


def test_more_lines_than_there_is_room_for_are_cut_and_a_summary_line_says_how_many():
    forest = Forest(new_figure().add_axes([0.4, 0.1, 0.3, 0.8]), "g")
    lines = [forest_line(invented(f"t{k}", phase=str(k)), 0.5) for k in range(ROWS + 3)]
    forest.show(lines)
    assert len(forest.points.get_xdata()) == ROWS
    assert summary_line(random_effects([0.1, 0.2, 0.3], [0.1] * 3)).below == "3 trials"


def test_long_text_is_cut_at_a_word():
    assert short("differs from both pulldowns (Tukey)", 20) == "differs from both …"
    assert short("p=0.03", 20) == "p=0.03"


def test_a_turned_result_points_the_other_way():
    row = asked("row or pulldown", "latissimus dorsi")[1]
    back = replace(row, higher="second", means=(*row.means[2:], *row.means[:2]))
    assert claim([row]) == "first" and claim([back]) == "second"
    assert float(back.effect().value) == pytest.approx(-float(row.effect().value))
