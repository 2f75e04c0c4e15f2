"""Figures of questions against a second way to work them out, and where they are not defined."""

import itertools
import math

import numpy as np
import pytest

from shoulder_model.document.scene import Dot, Label
from shoulder_model.homework.item_analysis import alpha, analyse, item_picture, rules, upper_lower

RNG = np.random.default_rng(3)
ABILITY = RNG.normal(size=(200, 1))
SCORES = (RNG.normal(size=(200, 8)) + ABILITY > np.linspace(-1.5, 1.5, 8)).astype(float)


def test_alpha_is_what_the_covariances_give():
    covariance = np.cov(SCORES.T)
    count = len(covariance)
    mean_variance = np.trace(covariance) / count
    mean_covariance = (covariance.sum() - np.trace(covariance)) / (count * (count - 1))
    standard = count * mean_covariance / (mean_variance + (count - 1) * mean_covariance)
    assert alpha(SCORES) == pytest.approx(standard)


def test_discrimination_is_the_correlation_with_the_other_questions():
    for one, score in zip(analyse(SCORES).items, SCORES.T, strict=True):
        rest = SCORES.sum(axis=1) - score
        right, wrong = rest[score == 1], rest[score == 0]
        share = score.mean()
        point_biserial = (right.mean() - wrong.mean()) / rest.std() * math.sqrt(share * (1 - share))
        assert one.with_rest == pytest.approx(point_biserial) and one.with_rest < one.with_total


def test_upper_less_lower_is_what_all_ways_to_break_ties_give_on_average():
    total, score = np.array([3, 2, 2, 2, 1, 1, 0]), np.array([1.0, 1, 0, 0, 1, 0, 0])
    size = 2
    found = []
    for order in itertools.permutations(range(7)):
        ranked = sorted(order, key=lambda place: -total[place])
        found.append(score[ranked[:size]].mean() - score[ranked[-size:]].mean())
    assert upper_lower(score, total, share=size / 7) == pytest.approx(np.mean(found))


def test_the_order_of_students_has_no_say():
    mixed = SCORES[RNG.permutation(len(SCORES))]
    for one, other in zip(analyse(SCORES).items, analyse(mixed).items, strict=True):
        assert one.upper_lower == pytest.approx(other.upper_lower) and one.with_rest == pytest.approx(other.with_rest)


@pytest.mark.parametrize(
    ("scores", "words"),
    [
        ([[1, 1, 1]] * 30, "Everybody has it right"),
        ([[0, 0, 0]] * 30, "Nobody has it right"),
        ([[1, 0, 1]], "Everybody has it right"),
        ([[1]] * 15 + [[0]] * 15, "cannot be said"),
    ],
)
def test_where_nothing_differs_nothing_is_claimed(scores, words):
    analysis = analyse(scores)
    assert math.isnan(analysis.alpha) and "cannot be worked out" in analysis.words
    assert math.isnan(analysis.items[0].with_rest) and words in analysis.items[0].words
    assert item_picture(analysis).words and not [one for one in item_picture(analysis).shapes if isinstance(one, Dot)]


def test_nobody_at_all_is_no_error():
    analysis = analyse(np.zeros((0, 3)))
    assert analysis.students == 0 and math.isnan(analysis.alpha)


def built(difficulty, turned=False, students=100):
    """Scores of three questions whose first has a difficulty and goes with the others, or against them."""
    strong = np.arange(students) < difficulty * students
    first = strong if not turned else strong[::-1]
    return np.column_stack([first, np.arange(students) < students / 2, np.arange(students) < 0.6 * students]).astype(
        float
    )


@pytest.mark.parametrize(
    ("scores", "words"),
    [
        (built(0.95), "Nearly everybody has it right."),
        (built(0.1), "Hardly anybody has it right"),
        (built(0.5), "It separates well"),
        (built(0.5, turned=True), "the wrong way"),
        (built(0.5, students=10), "Few students"),
    ],
)
def test_each_reading_is_said_in_plain_words(scores, words):
    assert words in analyse(scores).items[0].words


def test_a_question_of_chance_does_not_separate():
    scores = np.column_stack([np.tile([0.0, 1.0], 100), SCORES])
    one = analyse(scores).items[0]
    assert abs(one.with_rest) < rules()["separates"]
    assert "does not separate" in one.words or "wrong way" in one.words


def test_a_common_slip_is_worth_a_word():
    slips = [["half the grip"]] * 30 + [["upside down"]] * 5 + [[""]] * 65
    one = analyse([[0.0]] * 35 + [[1.0]] * 65, ["x"], slips).items[0]
    assert (one.slip, one.slip_share) == ("half the grip", 0.3) and "30 % made one slip, “half the grip”" in one.words


def test_numbers_in_the_picture_stand_apart_and_inside():
    scene = item_picture(analyse(np.column_stack([SCORES] * 4)[:, :30]))
    numbers = [shape for shape in scene.shapes if isinstance(shape, Label) and shape.text.isdecimal() and shape.y < 58]
    assert len([one for one in numbers if one.anchor == "middle"]) == 30
    for shape in scene.shapes:
        if isinstance(shape, Dot | Label):
            assert 0 <= shape.x <= 100 and 0 <= shape.y <= scene.height
    few = item_picture(analyse(SCORES))
    labels = [shape for shape in few.shapes if isinstance(shape, Label) and shape.text.isdecimal() and shape.y < 58]
    assert all(abs(a.x - b.x) > 5 or abs(a.y - b.y) > 4 for a, b in itertools.combinations(labels, 2))
