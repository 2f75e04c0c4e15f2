"""The forest of trials and its panel: what stands where, what is said, and how a reader's own trial joins."""

import csv
import io
from itertools import pairwise

import numpy as np
import pytest
from matplotlib.colors import to_hex
from numpy.testing import assert_allclose

from shoulder_model import evidence
from shoulder_model.draw.forest import Forest
from shoulder_model.draw.forest_lines import forest_line, forest_trials, short, summary_trial
from shoulder_model.draw.look import BLUE, GREY, LETTERS, PROJECTOR, SMALL, new_figure, projector
from shoulder_model.evidence import SIDES, comparisons, example_trial, pooled, random_effects, six_invented
from shoulder_model.panels import EvidencePanel

from .invented import asked, invented


@pytest.fixture(scope="module")
def panel():
    return EvidencePanel()


@pytest.fixture(scope="module")
def projected():
    with projector():
        return EvidencePanel()


def every_case():
    return [(question, muscle) for question in SIDES for muscle in evidence.muscles(question)]


EVERY = pytest.mark.parametrize(("question", "muscle"), every_case(), ids=lambda words: words.replace(" ", "_"))


def boxes_of(forest):
    """Drawn texts of a forest with something in them, as (words, box)."""
    rows = [*forest.texts, *forest.heads, forest.sides, [forest.more]]
    return [(text.get_text(), text.get_window_extent()) for row in rows for text in row if text.get_text()]


def put(panel, question, muscle):
    panel.question.value, panel.muscle.value = question, muscle
    panel.stage.figure.draw_without_rendering()
    return panel.forest


@EVERY
@pytest.mark.parametrize("where", ["panel", "projected"])
def test_every_case_fits_the_picture_without_overlap(where, question, muscle, request):
    panel = request.getfixturevalue(where)
    forest = put(panel, question, muscle)
    assert panel.picture.said["trouble"] == "" and len(forest.shown) == len(panel.state.shown)
    boxes = boxes_of(forest)
    for words, box in boxes:
        assert box.x0 >= 0 and box.x1 <= panel.stage.figure.bbox.width, words
    for k, (words, one) in enumerate(boxes):
        for others, other in boxes[k + 1 :]:
            across = min(one.x1, other.x1) - max(one.x0, other.x0)
            up = min(one.y1, other.y1) - max(one.y0, other.y0)
            assert min(across, up) < 1.5, (words, others)
    for row in forest.texts:
        for text in row[:2]:
            if text.get_text():
                assert text.get_window_extent().x1 < forest.axes.bbox.x0 + 2, text.get_text()
    sizes = {text.get_fontsize() for row in forest.texts for text in row}
    assert sizes == {SMALL} and SMALL * PROJECTOR >= 15.9 and LETTERS > SMALL


@EVERY
def test_results_of_one_trial_stand_under_one_head_with_group_load_and_limits(panel, question, muscle):
    forest = put(panel, question, muscle)
    trials = forest_trials(panel.state.shown, 0.5)
    heads = [pair[0].get_text() for pair in forest.heads if pair[0].get_text()]
    assert len(heads) == len(trials) and sum(len(trial.lines) for trial in trials) == len(panel.state.shown)
    rows = {row.study: row for row in panel.state.shown}
    for row in rows.values():
        assert any(row.who in head and evidence.HELD_WORDS[row.held] in head for head in heads), heads
    for pair, trial in zip(forest.heads, trials, strict=False):
        said = "".join(text.get_text() for text in pair)
        assert f"limits: {trial.limits[:20]}" in said
    ys = [y for y, _ in forest.shown]
    assert all(upper < lower for upper, lower in pairwise(ys))


def test_estimates_are_rings_with_capped_bars_where_the_numbers_are_and_nowhere_else(panel):
    forest = put(panel, "row or pulldown", "latissimus dorsi")
    grey, blue = forest.estimates[False], forest.estimates[True]
    x, y = grey.rings.get_data()
    assert len(x) == 4 and len(panel.state.shown) == 6 and len(blue.rings.get_xdata()) == 0
    # by hand: (30.10 - 26.23) / 12.73 x (1 - 3/43)
    assert x[0] == pytest.approx(3.87 / ((14.9**2 + 10.1**2) / 2) ** 0.5 * 40 / 43)
    assert grey.rings.get_marker() == "o" and grey.rings.get_markerfacecolor() == "white"
    bars = np.reshape(grey.bars.get_data(), (2, -1, 3))[:, :, :2]  # pieces of two points: bar, cap, cap
    assert bars.shape[1] == 3 * 4
    for k, row in enumerate(row for row in panel.state.shown if row.means):
        bar, low, high = bars[:, 3 * k : 3 * k + 3].transpose(1, 0, 2)
        assert_allclose(bar[0], row.effect().interval)
        assert_allclose([low[0], high[0]], np.transpose([bar[0]] * 2))
        assert np.ptp(low[1]) == np.ptp(high[1]) > 4 and np.ptp(bar[1]) == 0
    dashes = forest.dashes.get_ydata()[0::3]
    assert len(dashes) == 2 and not set(np.round(dashes, 3)) & set(np.round(y, 3))


def test_no_difference_an_order_and_the_highest_of_several_have_marks_of_their_own(panel):
    forest = put(panel, "row or pulldown", "middle trapezius")
    signs = forest.signs[False]
    assert len(signs.tops.get_xdata()) == 1 and signs.tops.get_xdata()[0] > 0.5  # a row had most of all
    assert not any(len(arrow.get_xdata()) for each in forest.signs.values() for arrow in each.arrows.values())
    forest = put(panel, "grip width", "latissimus dorsi")
    counting, others = forest.signs[True], forest.signs[False]
    none = [row for row in panel.state.shown if row.direction() == "none" and row.means is None]
    assert len(none) == 4  # two that count, two in which something else changed
    assert [len(signs.crosses.get_xdata()) for signs in (counting, others)] == [2, 2]
    assert set(counting.crosses.get_xdata()) == {0.5} and counting.crosses.get_marker() == "x"
    assert len(others.tops.get_xdata()) == 1
    assert [len(counting.arrows[kind, "first"].get_xdata()) for kind in ("order", "p-value")] == [1, 1]


def test_what_counts_for_nothing_is_grey(panel):
    forest = put(panel, "grip width", "largest load")
    for counts, colour in ((True, BLUE), (False, GREY)):
        assert to_hex(forest.estimates[counts].rings.get_color()) == colour.lower()
    assert len(forest.estimates[True].rings.get_xdata()) == 3
    assert len(forest.signs[False].arrows["p-value", "second"].get_xdata()) == 1


def test_load_scales_that_differ_are_said_at_the_line(panel):
    forest = put(panel, "pull-up or pulldown", "largest load")
    below = [row[1].get_text() for row in forest.texts if row[0].get_text()]
    assert below == ["also differs: load counts body mass against stack"] * 2


def test_only_means_and_spreads_become_a_number():
    for row in comparisons():
        line = forest_line(row, 0.5)
        assert (line.value is None) == (line.ends is None) == (row.kind != "difference")
        assert line.result.startswith("g ") == (row.kind == "difference")
        assert line.counts == (not row.doubts)


def test_three_comparable_trials_get_a_hatched_bar():
    panel = EvidencePanel(trials=six_invented())
    bar = panel.forest.summary
    low, high = pooled(six_invented()).interval
    x, y = bar.hatching.get_data()
    assert (np.nanmin(x), np.nanmax(x)) == pytest.approx((low, high)) and len(x) > 3 * 8  # a box and strokes in it
    assert np.nanmin(y) >= panel.forest.shown[-1][0] - 6.01 and np.nanmax(y) <= panel.forest.shown[-1][0] + 6.01
    assert bar.middle.get_xdata()[0] == pytest.approx(float(pooled(six_invented()).value))
    assert "Pooled: g +0.35 (+0.06 to +0.65)" in panel.words and "random effects" in panel.overlay
    assert len(EvidencePanel().forest.summary.hatching.get_xdata()) == 0


def test_the_other_question_keeps_the_muscle_where_it_can():
    panel = EvidencePanel("grip width", "latissimus dorsi")
    panel.question.value = "hand turn"
    assert panel.muscle.value == "latissimus dorsi" and panel.words.startswith("Hand turn, latissimus dorsi")
    panel.muscle.value = "lower trapezius"
    panel.question.value = "after a cue or before"
    assert panel.muscle.value == "latissimus dorsi" and "lower" not in panel.words


def test_switches_and_choices_change_what_is_shown_and_said():
    panel = EvidencePanel("grip width", "latissimus dorsi")
    before = panel.words
    panel.switches["one_change_only"].value = True
    assert "5 (something else changed too)" in panel.words and panel.words != before
    panel.held.value = "one load for all"
    assert "other loading" in panel.words
    panel.sliders["minimum_n"].value = 30
    assert panel.state.shown == () and "No trial is left" in panel.words and "no result left" in panel.overlay


def test_that_a_signal_is_not_growth_is_said_wherever_a_signal_was_measured(panel):
    for question, muscle in every_case():
        put(panel, question, muscle)
        signal = muscle not in ("largest load", "lumbar spine load")
        assert ("EMG in one session is not growth" in panel.words) == signal


def test_kept_intervals_stay_on_their_lines():
    panel = EvidencePanel()
    panel.keep()
    wide = np.array(panel.forest.ghost.get_xdata())
    panel.sliders["correlation"].value = 0.9
    assert_allclose(panel.forest.ghost.get_xdata(), wide)
    spans = np.reshape(wide, (-1, 3))
    now = [row.effect(0.9).interval for row in panel.state.shown if row.means]
    narrower = np.mean(spans[:, 1] - spans[:, 0]) - np.mean([high - low for low, high in now])
    assert (
        f"correlation 0.50): the same results; intervals {narrower:.2f} SD narrower on average; the same conclusion."
        in panel.picture.said["verdict"]
    )
    panel.question.value = "front or behind the neck"
    assert len(panel.forest.ghost.get_xdata()) == 0
    assert (
        "6 results of 4 trials instead of 6 results of 2 trials; there it was: No claim"
        in panel.picture.said["verdict"]
    )


def test_a_difference_off_the_axis_gets_a_wider_axis():
    panel = EvidencePanel(trials=[invented(means=(30.0, 2.0, 10.0, 2.0), n=6, flaws="invented")])
    low, high = panel.forest.axes.get_xlim()
    assert high >= np.nanmax(panel.forest.estimates[True].bars.get_xdata()) and low == -high


def test_the_table_has_every_line_blanks_where_no_number_is_and_nothing_that_is_executed():
    panel = EvidencePanel("grip width", "latissimus dorsi")
    rows = list(csv.DictReader(io.StringIO(panel.content("csv").decode("utf-8-sig"))))
    assert len(rows) == len(panel.state.shown) == 10
    for row, result in zip(rows, panel.state.shown, strict=True):
        assert (row["g"] == "") == (result.kind != "difference") and row["citation"] == result.citation
        assert row["limits"] and row["as printed"] and row["counts"].startswith("no: ") == bool(result.doubts)
    (number,) = [row for row in rows if row["g"]]
    ends = [float(number[f"g low 95% at correlation {r}"]) for r in ("0.30", "0.50", "0.70")]
    assert ends == sorted(ends) and float(number["g"]) == pytest.approx(3.86 / 9.613 * 40 / 43, abs=2e-4)  # by hand
    text = evidence.comparison_table([invented(study="x", first="=1+1", flaws="@SUM(A1)", means=(9.0, 2.0, 10.0, 2.0))])
    (row,) = csv.DictReader(io.StringIO(text))
    assert row["first"] == "'=1+1" and row["limits"] == "'@SUM(A1)" and float(row["g"]) < 0


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


# a reader's own trial


def test_a_dropped_trial_table_joins_the_results_as_the_readers_own():
    panel = EvidencePanel()
    panel.door.receive("class.csv", example_trial().encode())
    assert panel.picture.said["trouble"] == "" and panel.set_up(panel.state) == "Grip width, largest load"
    assert len(panel.state.shown) == 5 and "5 results of 3 trials" in panel.words
    heads = [pair[0].get_text() for pair in panel.forest.heads if pair[0].get_text()]
    assert [head for head in heads if head.startswith("YOUR OWN: ")] == [
        "YOUR OWN: Evening class (invented): 10 people, load found for each"
    ]
    # by hand: means 47.75 and 49.75, so to the left of nothing
    assert "Fairly sure, for people like these: more with a narrower grip" in panel.picture.said["verdict"]
    panel.open_text(example_trial().replace("50,50", "50,52.5"))  # opened again: it takes the place of the first
    assert len(panel.state.shown) == 5
    panel.question.value = "row or pulldown"
    assert len(panel.state.shown) == 6 and "YOUR OWN" not in panel.overlay


def test_a_wrong_table_is_one_line_above_the_picture_with_the_files_name_and_changes_nothing():
    panel = EvidencePanel()
    before = panel.words, panel.overlay
    panel.door.receive("class.csv", example_trial().replace("grip width", "grips").encode())
    assert (
        panel.picture.said["trouble"]
        == "class.csv, line 3, column 'question': 'grips' is not known; nearest: grip width"
    )
    assert (panel.words, panel.overlay) == before
    panel.open_text("no table")
    assert "column 'trial' is missing; start from a blank trial table" in panel.picture.said["trouble"]


def test_blank_and_example_tables_are_saved(monkeypatch):
    panel, sent = EvidencePanel(), []
    monkeypatch.setattr(panel.door, "send", lambda content, buffers=None: sent.append((content, buffers)))
    for kind in panel.files():
        panel.save(kind)
    names = [content["name"] for content, _ in sent]
    assert names == [
        "my_trial.csv",
        "invented_trial.csv",
        *(f"evidence-panel.{kind}" for kind in ("svg", "png", "csv", "json")),
    ]
    assert sent[1][1][0].decode("utf-8-sig") == example_trial() and ".csv" in panel.door.words[1]


# the picture's parts


def test_more_lines_than_there_is_room_for_are_cut_and_it_says_how_many():
    forest = Forest(new_figure().add_axes([0.4, 0.1, 0.3, 0.8]), "g")
    rows = [invented(f"t{k}", phase=str(k)) for k in range(forest.rows + 3)]
    forest.show(forest_trials(rows, 0.5))
    assert len(forest.shown) == forest.rows and forest.more.get_text() == "and 3 more"
    forest.show(forest_trials(rows[:4], 0.5))
    assert forest.more.get_text() == ""
    assert summary_trial(random_effects([0.1, 0.2, 0.3], [0.1] * 3)).lines[0].top == "random effects, 3 trials"


def test_where_heads_do_not_fit_on_a_projector_the_first_line_says_who(projected):
    forest = put(projected, "grip width", "latissimus dorsi")
    lefts = [row[0].get_text() for row in forest.texts if row[0].get_text()]
    assert len(lefts) == 10 and not any(pair[0].get_text() for pair in forest.heads)
    people = [
        row.who
        for k, row in enumerate(projected.state.shown)
        if k == 0 or row.study != projected.state.shown[k - 1].study
    ]
    assert [left.partition(":")[0] for left in lefts if ":" in left] == people
    forest = put(projected, "row or pulldown", "latissimus dorsi")
    assert sum(bool(pair[0].get_text()) for pair in forest.heads) == 2


def test_long_text_is_cut_at_a_word():
    assert short("differs from both pulldowns (Tukey)", 20) == "differs from both …"
    assert short("p=0.03", 20) == "p=0.03"


def test_asked_for_nothing_it_stays_the_published_results():
    assert EvidencePanel().trials == comparisons() and not any(row.own for row in asked("grip width", "largest load"))
