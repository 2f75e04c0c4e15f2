"""The plan of practice against what is published: the reference's own intervals, and FSRS-6 written out a second
time."""

import math
import random

import pytest

from shoulder_model.practice.record import Answer
from shoulder_model.practice.schedule import DAY, cards

pytestmark = pytest.mark.published
START = 1_669_725_000.0  # 29 November 2022, 12:30 UTC, as in the reference's test

# The 21 default parameters of FSRS-6, in the order of its formulas, w0 to w20 (read: package fsrs 6.3.2, scheduler.py)
W = (
    0.212, 1.2931, 2.3065, 8.2956, 6.4133, 0.8334, 3.0194, 0.001, 1.8722, 0.1666, 0.796, 1.4835, 0.0614, 0.2629, 1.6483,
    0.6014, 1.8729, 0.5425, 0.0912, 0.0658, 0.1542,
)  # fmt: skip
AGAIN, HARD, GOOD, EASY = 1, 2, 3, 4
SCORES = {AGAIN: 0.0, HARD: 0.5, GOOD: 1.0}


def replayed(ratings, wait=lambda card: card.due):
    """Our card after each of some ratings; the next answer comes when ``wait`` says so."""
    answers, at = [], START
    for rating in ratings:
        answers.append(Answer(at, "a template", str(len(answers)), "x", SCORES[rating]))
        card = cards(answers)["a template"]
        yield card
        at = wait(card)


# Package fsrs 6.3.2, tests/test_basic.py, test_review_card (read)
def test_intervals_are_those_that_the_reference_prints(outside):
    ratings = [GOOD] * 6 + [AGAIN] * 2 + [GOOD] * 5
    days = [math.floor((card.due - card.last) / DAY) for card in replayed(ratings)]
    printed = [0, 2, 11, 46, 163, 498, 0, 0, 2, 4, 7, 12, 21]
    outside(printed, days, "days")
    assert days == printed


# Package fsrs 6.3.2, tests/test_basic.py, test_memo_state (read): Again, then Good after 0, 1, 3, 8 and 21 days
def test_memory_is_that_which_the_reference_prints(outside):
    waits = iter((0, 1, 3, 8, 21, 0))
    last = list(replayed([AGAIN] + [GOOD] * 5, lambda card: card.last + next(waits) * DAY))[-1]
    outside((53.62691, 6.3574867), (last.stability, last.difficulty))
    assert last.stability == pytest.approx(53.62691, abs=1e-4)
    assert last.difficulty == pytest.approx(6.3574867, abs=1e-4)


def remembered(days, stability):
    """The chance of a right answer after so many days: a power law that is 90 % at one stability."""
    return (1 + (0.9 ** (-1 / W[20]) - 1) * days / stability) ** -W[20]


def first(rating):
    return W[rating - 1], min(max(W[4] - math.exp(W[5] * (rating - 1)) + 1, 1), 10)


def harder(difficulty, rating):
    """Moved by the rating, less the nearer it is to 10, and drawn a little to where Easy begins."""
    moved = difficulty - W[6] * (rating - 3) * (10 - difficulty) / 9
    return min(max(W[7] * (W[4] - math.exp(W[5] * (EASY - 1)) + 1) + (1 - W[7]) * moved, 1), 10)


def steadier(stability, difficulty, rating, days):
    """Stability after an answer that comes so many whole days after the last."""
    if days < 1:
        grown = math.exp(W[17] * (rating - 3 + W[18])) * stability ** -W[19]
        return max(stability * (max(grown, 1) if rating >= HARD else grown), 0.001)
    recall = remembered(days, stability)
    if rating == AGAIN:
        forgotten = W[11] * difficulty ** -W[12] * ((stability + 1) ** W[13] - 1) * math.exp(W[14] * (1 - recall))
        return max(min(forgotten, stability / math.exp(W[17] * W[18])), 0.001)
    growth = math.exp(W[8]) * (11 - difficulty) * stability ** -W[9] * (math.exp(W[10] * (1 - recall)) - 1)
    return stability * (1 + growth * (W[15] if rating == HARD else 1))


# KDD 2022, doi 10.1145/3534678.3539081 (title from memory); the formulas of FSRS-6 as in package fsrs 6.3.2 (read)
@pytest.mark.parametrize("seed", range(20))
def test_memory_follows_the_published_formulas(seed, outside):
    chance = random.Random(seed)
    ratings = [chance.choice((AGAIN, HARD, GOOD, GOOD)) for _ in range(25)]
    waits = [chance.choice((0.01, 0.4, 1.2, 3.5, 9.1, 40.7, 300.3)) for _ in ratings]
    plan = iter(waits)
    stability = difficulty = None
    found = list(replayed(ratings, lambda card: card.last + next(plan) * DAY))
    for place, (rating, card) in enumerate(zip(ratings, found, strict=True)):
        if place == 0:
            stability, difficulty = first(rating)
        else:
            days = math.floor(waits[place - 1])
            stability, difficulty = steadier(stability, difficulty, rating, days), harder(difficulty, rating)
        assert card.stability == pytest.approx(stability, rel=1e-6, abs=1e-6)
        assert card.difficulty == pytest.approx(difficulty, abs=1e-6)
        for days in (0, 1, 7, 365):
            assert card.recall(card.last + (days + 0.3) * DAY) == pytest.approx(remembered(days, stability), abs=1e-6)
    outside((stability, difficulty), (card.stability, card.difficulty))
    assert remembered(stability, stability) == pytest.approx(0.9)
