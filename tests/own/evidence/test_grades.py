"""What may be claimed: by precision and by what else changed."""

from dataclasses import replace

import pytest

from shoulder_model import evidence
from shoulder_model.evidence import NARROW, SIDES, SMALL, comparisons, grade, pooled, random_effects, together, unseen
from shoulder_model.inputs import InputError

from .invented import asked, invented, pointing


def numbers(study, points, n=16, correlation=None, **more):
    """A result whose means differ by so many points, SD 10 in both."""
    return invented(study, means=(30.0 + points, 10.0, 30.0, 10.0), n=n, correlation=correlation, **more)


@pytest.mark.parametrize(
    ("rows", "name", "side"),
    [
        ([], "no trial", ""),
        (pointing("a", "first"), "hint", "first"),
        (pointing("a", "second", "none"), "hint", "second"),
        (pointing("a", "first") + pointing("b", "second"), "both ways", ""),
        (pointing("a", "first", "second"), "both ways", ""),
        (pointing("a", "none") + pointing("b", "none"), "none seen", ""),
        (pointing("a", ""), "no direction", ""),
        (pointing("a", "first", untested="highest of all"), "no direction", ""),
        # something else changed, or may have: it counts for nothing, whichever way it points
        (pointing("a", "first", also_changed="width"), "something else", ""),
        (pointing("a", "first", scales="body mass against stack"), "something else", ""),
        *((pointing("a", "first", held=held), "something else", "") for held in ("one", "differ", "not stated")),
        (pointing("a", "first", held="differ") + pointing("b", "second"), "hint", "second"),
        ([numbers("a", 20, also_changed="width")], "something else", ""),
        ([numbers("a", 20, n=200, held="one")], "something else", ""),
        # a paper that cannot be found counts for nothing, and does not stand against one that can
        (pointing("a", "first", located=False), "something else", ""),
        ([numbers("a", 20, n=200, located=False)], "something else", ""),
        (pointing("a", "first", located=False) + pointing("b", "second"), "hint", "second"),
        # numbers: clear of zero and short, clear and long, around zero and short, around zero and long
        ([numbers("a", 5, n=100)], "sure", "first"),
        ([numbers("a", -5, n=100)], "sure", "second"),
        ([numbers("a", 15, n=12)], "likely", "first"),
        ([numbers("a", 0, n=100)], "small", ""),
        ([numbers("a", 2, n=12)], "none seen", ""),
        # its own test found it, but at the band's lowest correlation the interval reaches zero
        ([numbers("a", 6, n=12, higher="first")], "hint", "first"),
        # its own test saw nothing: the interval alone does not speak
        ([numbers("a", 15, n=12, higher="none")], "none seen", ""),
        ([numbers("a", 15, n=12, higher="second")], "hint", "second"),
        # an estimate against an order
        ([numbers("a", 5, n=100), *pointing("b", "second")], "both ways", ""),
        ([numbers("a", 5, n=100), *pointing("b", "none")], "sure", "first"),
    ],
)
def test_the_rule(rows, name, side):
    found = grade(rows)
    assert (found.name, found.side) == (name, side)
    words = together(rows, "row or pulldown")
    assert words.startswith("No claim") == (name in ("something else", "both ways", "none seen", "no direction"))
    assert ("a row" in words or "a pulldown" in words) == (name in ("sure", "likely", "hint", "both ways"))


def test_no_number_of_trials_makes_a_hint_more_than_one():
    many = [row for k in range(50) for row in pointing(f"t{k}", "first")]
    assert grade(many) == grade(many[:1]) and grade(many).name == "hint"
    assert (
        together(many, "row or pulldown")
        == together(many[:1], "row or pulldown")
        == "A hint, no more: more with a row."
    )
    confounded = [replace(row, also_changed="width") for row in many]
    assert grade(confounded).name == "something else"
    # nor do votes count against an interval, or many who saw nothing against one hint
    flat = [row for k in range(50) for row in pointing(f"f{k}", "none")]
    assert grade([*flat, *many[:1]]).name == "hint" and grade([*flat, numbers("a", 5, n=100)]).name == "sure"


def test_more_people_in_one_trial_make_it_surer():
    names = [grade([numbers("a", 5, n=n)]).name for n in (8, 12, 30, 60, 200)]
    assert names == ["none seen", "none seen", "likely", "sure", "sure"]
    ends = grade([numbers("a", 5, n=200)]).ends
    assert 0 < ends[0] < 0.5 * 0.99 < ends[1] and ends[1] - ends[0] < NARROW


def test_the_widest_interval_of_the_band_decides_and_a_printed_correlation_needs_none():
    assumed, printed = numbers("a", 5, n=20), numbers("a", 5, n=20, correlation=0.9)
    assert grade([assumed], correlation=0.9).name != "sure" and grade([printed]).name == "sure"


def test_comparable_trials_are_graded_by_their_summary():
    rows = [numbers(study, 2 + k / 5, n=40) for k, study in enumerate("abcdef")]
    assert all(grade([row]).name == "none seen" for row in rows)
    low, high = pooled(rows, 0.3).interval
    assert low > 0 and high - low < NARROW and grade(rows).name == "sure" and grade(rows).ends == (low, high)
    assert f"by {low:.2f} to {high:.2f} SD" in together(rows, "row or pulldown")


def test_what_may_be_said_of_the_published_trials_is_a_hint_at_most():
    found = {}
    for question in SIDES:
        for muscle in evidence.muscles(question):
            found.setdefault(grade(asked(question, muscle)).name, []).append((question, muscle))
    assert set(found) == {"hint", "both ways", "something else", "none seen"}
    assert all(question != "row or pulldown" for question, _ in found["hint"])
    assert ("front or behind the neck", "rear deltoid") in found["both ways"]
    assert ("grip width", "largest load") in found["hint"] and ("one or two arms", "erector spinae") in found["hint"]


def test_the_sentence_names_the_doubts_and_the_small_print_what_counts_for_nothing():
    rows = pointing("a", "first", also_changed="width", held="one") + pointing("b", "second", also_changed="width")
    assert together(rows, "row or pulldown") == (
        "No claim: in every result something else may have made the difference (width and effort)."
    )
    assert evidence.cautions(rows) == ""
    clean = pointing("c", "first", second="other")
    assert evidence.cautions(rows[:1] + clean) == (
        "1 result (grey) counts for nothing: something else may have made the difference (width and effort). "
        "No two trials made the same comparison."
    )


def test_seeing_none_is_said_with_what_would_be_missed_where_the_result_counts():
    assert "with 16 people, one trial in five misses a difference of 0.7 SD" in unseen(pointing("a", "none"))
    assert unseen(pointing("a", "none", held="one")) == unseen(pointing("a", "first")) == ""


def test_a_turned_result_points_the_other_way():
    row = numbers("a", 5, n=100)
    back = replace(row, means=(*row.means[2:], *row.means[:2]))
    assert (grade([row]).side, grade([back]).side) == ("first", "second")
    assert float(back.effect().value) == pytest.approx(-float(row.effect().value))
    assert -SMALL < float(row.effect().value) < SMALL


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
        ([invented("a"), invented("b"), invented("c", scales="two")], "not compare the same things"),
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


def test_only_means_and_spreads_become_a_number():
    assert {row.kind for row in comparisons()} == {"difference", "order", "p-value"}
    assert all((row.effect() is None) == (row.kind != "difference") for row in comparisons())
