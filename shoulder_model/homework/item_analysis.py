"""How the questions of a homework worked: how hard each was, whether it tells students apart, which slip was made most.

Difficulty is the mean score. Discrimination is the correlation of a question's score with the sum of the others, and
the mean score of the upper 27 per cent of the class less that of the lower 27. Cronbach's alpha says how well the
questions go together. What cannot be worked out, as with one student or where everybody has the same score, is NaN
and said in words.
"""

from collections import Counter
from dataclasses import dataclass
from functools import cache

import numpy as np

from ..document.scene import Dot, Label, Scene, Stroke
from ..tables import read_table
from ..words import counted, written

EXACT = 1e-9  # spreads below it are rounding


@cache
def rules():
    """The rules of reading: a dict from name to number, in the units of ``data/marking_rules.csv``."""
    return {row["name"]: float(row["value"]) for row in read_table("marking_rules.csv")}


@dataclass(frozen=True)
class ItemReading:
    """How one question worked.

    Parameters
    ----------
    number : int
        1 the first.
    name : str
        Of its template.
    difficulty : float
        Mean score, 0 to 1: a high one is easy.
    with_rest, with_total : float
        Correlation of its score with the sum of the others, and with the sum of all; NaN where there is no spread.
    upper_lower : float
        Mean score of the upper group less that of the lower; NaN with one student.
    slip : str
        The commonest named slip, "" without one.
    slip_share : float
        Share of the students who made it.
    students : int
    """

    number: int
    name: str
    difficulty: float
    with_rest: float
    with_total: float
    upper_lower: float
    slip: str
    slip_share: float
    students: int

    @property
    def words(self):
        """What that means, in plain words."""
        return " ".join(_words(self))


def _words(one):
    rule = rules()
    if one.difficulty >= 1:
        yield "Everybody has it right, so it separates nobody."
        return
    if one.difficulty <= 0:
        yield "Nobody has it right: look at the key, the wording and what was taught."
    elif one.difficulty >= rule["nearly_everybody"]:
        yield "Nearly everybody has it right."
    elif one.difficulty < rule["hardly_anybody"]:
        yield "Hardly anybody has it right: look at the wording and what was taught."
    if 0 < one.difficulty < 1:
        yield _separates(one.with_rest, rule)
    if one.slip_share >= rule["common_slip"]:
        yield f"{100 * one.slip_share:.0f} % made one slip, “{one.slip}”: worth a word in class."
    if one.students < rule["few_students"]:
        yield "Few students, so take this as a hint."


def _separates(with_rest, rule):
    if np.isnan(with_rest):
        return "Whether it separates cannot be said: the rest of the score does not differ."
    if with_rest < 0:
        return "It separates the wrong way: those who know the rest miss it. Check the key and the wording."
    if with_rest < rule["separates"]:
        return "It does not separate: those who know the rest do little better."
    well = " well" if with_rest >= rule["separates_well"] else ""
    return f"It separates{well} those who know the rest from those who do not."


@dataclass(frozen=True)
class Analysis:
    """A whole homework: ``items``, a tuple of `ItemReading`; ``alpha``, Cronbach's, without unit; how many
    ``students``.
    """

    items: tuple
    alpha: float
    students: int

    @property
    def words(self):
        """What alpha means, in plain words."""
        if np.isnan(self.alpha):
            return "Cronbach's alpha cannot be worked out: it takes two questions, two students and scores that differ."
        told = f"Cronbach's alpha is {written(self.alpha, 2)}: "
        if self.alpha < rules()["alpha_low"]:
            return (
                told + "the questions ask for different things or are few, so two students' sums compare only roughly."
            )
        return told + "the questions hang together, so the total score is worth using."


def alpha(scores):
    """Cronbach's alpha of ``scores``, shape (student, question), without unit; NaN where it is not defined."""
    students, count = scores.shape
    if min(students, count) < 2:
        return float("nan")
    whole = scores.sum(axis=1).var(ddof=1)
    if whole < EXACT:
        return float("nan")
    return float(count / (count - 1) * (1 - scores.var(axis=0, ddof=1).sum() / whole))


def correlation(one, other):
    """The correlation of two arrays ``one`` and ``other``, shape (n,), without unit; NaN where one has no spread."""
    if len(one) < 2 or min(np.ptp(one), np.ptp(other)) < EXACT:
        return float("nan")
    return float(np.corrcoef(one, other)[0, 1])


def upper_lower(score, total, share=None):
    """Mean score of the upper group less that of the lower, without unit.

    Students with the same total at the edge of a group count in it in equal parts, so the order of the rows has no say.

    Parameters
    ----------
    score, total : numpy.ndarray, shape (student,)
        Of one question, and of what the groups are made by.
    share : float, optional
        Of the students in each group; 27 per cent without it.

    Returns
    -------
    float
        NaN with fewer than two students.
    """
    if len(score) < 2:
        return float("nan")
    size = max(1.0, (rules()["group_share"] if share is None else share) * len(score))
    return float(_group_mean(score, -total, size) - _group_mean(score, total, size))


def _group_mean(score, total, size):
    """Mean score of those with the lowest totals, so many of them; the last ones in parts."""
    edge = np.sort(total)[int(np.ceil(size)) - 1]
    below, at = total < edge - EXACT, np.abs(total - edge) <= EXACT
    weight = below + at * (size - below.sum()) / at.sum()
    return (weight * score).sum() / size


def analyse(scores, names=(), slips=()):
    """The `Analysis` of a marked homework.

    Parameters
    ----------
    scores : array_like, shape (student, question)
        0 to 1.
    names : sequence of str
        Of the questions.
    slips : sequence
        For each student the names of the slips, a text a question, "" where there is none.
    """
    scores = np.asarray(scores, dtype=float)
    students, count = scores.shape
    names = names or [""] * count
    total = scores.sum(axis=1)
    items = []
    for place, (name, score) in enumerate(zip(names, scores.T, strict=True)):
        made = Counter(slip for slip in (some[place] for some in slips) if slip)
        slip, times = min(made.items(), key=lambda pair: (-pair[1], pair[0]), default=("", 0))
        with_rest, with_total = correlation(score, total - score), correlation(score, total)
        mean = float(score.mean()) if students else float("nan")
        index = upper_lower(score, total)
        items.append(
            ItemReading(place + 1, name, mean, with_rest, with_total, index, slip, times / max(students, 1), students)
        )
    return Analysis(tuple(items), alpha(scores), students)


def analysis_of(marks):
    """The `Analysis` of ``marks`` (`marking.ClassMarks`), with the names of its questions and slips."""
    slips = [[verdict.slip for verdict in one.verdicts] for one in marks.marked]
    return analyse(marks.scores, marks.names, slips)


LEFT, RIGHT, TOP, BOTTOM = 12.0, 96.0, 9.0, 58.0  # edges of the plot in a picture 100 wide
HEIGHT, FOOT = 71.0, 1.5  # of the picture; from the middle of a number down to its foot
WIDE, HIGH, FREE = 5.6, 4.4, 3.6  # room of a number, and from a dot to a number's middle
RADII, TURNS = np.arange(4.0, 22.0, 1.5), np.radians(np.arange(0, 360, 20))  # where a number may stand around its dot


def item_picture(analysis):
    """A picture of an ``analysis`` (`Analysis`): each question by its mean score and its correlation with the rest,
    as a `Scene` with words.
    """
    shown = [one for one in analysis.items if not np.isnan(one.with_rest)]
    low = min([-0.2, *(np.floor(5 * one.with_rest) / 5 for one in shown)])
    line = rules()["separates"]

    def at(difficulty, with_rest):
        return LEFT + (RIGHT - LEFT) * difficulty, BOTTOM - (BOTTOM - TOP) * (with_rest - low) / (1 - low)

    shapes = [Stroke((at(0, low), at(1, low)), "axis"), Stroke((at(0, low), at(0, 1)), "axis")]
    shapes += [Stroke((at(0, line), at(1, line)), "guide"), *_ticks(at, low)]
    dots = [at(one.difficulty, one.with_rest) for one in shown]
    shapes += _numbers([str(one.number) for one in shown], dots) + [Dot(*dot) for dot in dots]
    shapes += [Label((LEFT + RIGHT) / 2, HEIGHT - 2, "mean score (right: easier)", "middle")]
    shapes += [Label(2, 4.2, "correlation with the rest")]
    return Scene(_picture_words(analysis, shown), HEIGHT, tuple(shapes))


def _ticks(at, low):
    """Numbers along both axes."""
    for tick in (0, 0.25, 0.5, 0.75, 1):
        x, y = at(tick, low)
        yield from (Stroke(((x, y), (x, y + 1)), "axis"), Label(x, y + 5.4, f"{tick:g}", "middle"))
    for tick in np.arange(low, 1.01, 0.2):
        x, y = at(0, tick)
        yield from (Stroke(((x - 1, y), (x, y)), "axis"), Label(x - 1.8, y + 1.5, written(tick, 1), "end"))


def _numbers(texts, dots):
    """Numbers beside their dots, with a thin line to the dot, where nothing else stands if there is such a place."""
    taken, shapes = [], []
    for text, (x, y) in zip(texts, dots, strict=True):
        spots = [(x + radius * np.cos(turn), y - radius * np.sin(turn)) for radius in RADII for turn in TURNS]
        spot = next((spot for spot in spots if _is_free(spot, dots, taken)), spots[0])
        taken.append(spot)
        near = (0.55 * spot[0] + 0.45 * x, 0.55 * spot[1] + 0.45 * y)
        shapes += [Stroke(((x, y), near), "axis"), Label(spot[0], spot[1] + FOOT, text, "middle")]
    return shapes


def _is_free(spot, dots, taken):
    """Whether a number can stand at a spot, away from the edges, all dots and other numbers."""
    x, y = spot
    inside = LEFT + 2 < x < RIGHT + 1 and TOP - 3 < y < BOTTOM - 3
    return (
        inside
        and all(np.hypot(x - a, y - b) > FREE for a, b in dots)
        and all(abs(x - a) > WIDE or abs(y - b) > HIGH for a, b in taken)
    )


def _picture_words(analysis, shown):
    """What the picture shows, for who does not see it."""
    told = "Each question by its mean score and by how its score goes with the rest of the score. "
    told += " ".join(
        f"Question {one.number}: mean score {written(one.difficulty, 2)}, correlation {written(one.with_rest, 2)}."
        for one in shown
    )
    left = len(analysis.items) - len(shown)
    return told + (
        f" {counted(left, 'question')} without spread {'is' if left == 1 else 'are'} not in it." if left else ""
    )
