"""Forest plots of invented and of published results for questions, with letters to pick or to talk about."""

from dataclasses import dataclass, replace
from functools import cache

from ...document.scene import Mark
from ...evidence import Comparison, comparisons
from .forest import forest, row_height

LETTERS = "ABCDE"
CORRELATIONS = (0.3, 0.5, 0.7)  # assumed between conditions
CLEAR = 0.06  # SD; an end of an interval that is nearer to zero cannot be read off a picture
BESIDE = 31.5  # where a letter stands


def invented_trial(name, people, means, sd, correlation, **changed):
    """A trial that nobody ran, pull A against pull B, a `Comparison` with the lat's mean reading in % MVIC.

    Parameters
    ----------
    name : str
    people : int
        In the trial, the same in both pulls.
    means : tuple of float
        Of pull A and pull B. [% MVIC]
    sd : float
        Standard deviation in both pulls. [% MVIC]
    correlation : float
        Between the pulls, without unit.
    changed : str
        Fields of `Comparison` that are not those of a fair trial.
    """
    fair = Comparison(
        study=name, citation=f"Invented trial {name}", n=people, question="row or pulldown", muscle="latissimus dorsi",
        phase="whole", first="pull A", second="pull B", higher="", statement="invented", held="each", also_changed="",
        trained="not stated", normalised="MVIC", flaws="nobody ran it", means=(means[0], sd, means[1], sd),
        correlation=correlation,
    )  # fmt: skip
    return replace(fair, **changed)


def rows_of_forest(trials, names, correlation=0.5):
    """What `forest` draws of some ``trials`` (of `Comparison`): tuples of name, g, low and high. [SD]

    ``names`` are texts, one a trial; ``correlation`` is assumed where a trial prints none, without unit.
    """
    found = []
    for name, trial in zip(names, trials, strict=True):
        effect = trial.effect(correlation)
        low, high = effect.interval
        found.append((name, float(effect.value), float(low), float(high)))
    return tuple(found)


def forest_to_pick(rows, first, second):
    """A forest plot with a letter at each line, from A at the top.

    Parameters
    ----------
    rows : sequence
        Of name (text), value, low and high. [SD]
    first, second : str
        What had more on the right and on the left of zero.

    Returns
    -------
    document.scene.Scene, and str
        The picture, and its letters.
    """
    letters = LETTERS[: len(rows)]
    plain = forest(rows, first, second)
    marks = tuple(
        Mark(letter, BESIDE, row_height(place), f"the line of {rows[place][0]}") for place, letter in enumerate(letters)
    )
    return replace(plain, marks=marks), letters


@dataclass(frozen=True)
class Published:
    """Results of published trials that are drawn together.

    ``asked`` (text) is what they compare, ``trials`` a tuple of `Comparison`, ``first`` and
    ``second`` (texts) what had more on the right and on the left.
    """

    asked: str
    trials: tuple
    first: str
    second: str


MUSCLES = {"latissimus dorsi": "lat", "middle trapezius": "middle trapezius", "biceps brachii": "biceps"}


@cache
def published():
    """The groups of published differences that a forest plot can show, a tuple of `Published`."""
    drawn = [one for one in comparisons() if one.means is not None]
    groups = []
    for muscle, words in MUSCLES.items():
        rows = tuple(one for one in drawn if (one.question, one.muscle) == ("row or pulldown", muscle))
        groups.append(Published(f"row and pulldown by the EMG of the {words}", rows, "the row", "the pulldown"))
    loads = tuple(one for one in drawn if (one.question, one.muscle) == ("grip width", "largest load"))
    asked = "grips of the pulldown by the largest load for six repetitions"
    groups.append(Published(asked, loads, "the wider grip", "the narrower grip"))
    held = tuple(one for one in drawn if one.question == "blades held or free")
    groups.append(
        Published(
            "rows with the blades drawn back or free by EMG",
            held,
            "the row with the blades back",
            "the row with the blades free",
        )
    )
    return tuple(groups)


def drawn_published(chance, groups=None):
    """Some published differences that a forest plot can show, in a new order, called A, B and so on.

    ``chance`` is a `practice.chance.Chance`; ``groups`` are of `published`, all of them if None. Returns the `Published`,
    its `Comparison` in the order drawn, the rows of
    `forest` [SD], the correlation that is assumed, and words that say what is compared.
    """
    while True:
        group, correlation = chance.one_of(groups or published()), chance.one_of(CORRELATIONS)
        trials = chance.some(group.trials, min(len(group.trials), chance.number(3, 4, 1)))
        rows = rows_of_forest(trials, LETTERS[: len(trials)], correlation)
        if all(min(abs(low), abs(high)) > CLEAR for _, _, low, high in rows):
            break
    several = len({one.muscle for one in trials}) > 1
    lines = (
        f"{row[0]}: {one.first}, against {one.second}{f' ({MUSCLES[one.muscle]})' if several else ''}"
        for row, one in zip(rows, trials, strict=True)
    )
    words = f"A trial of {trials[0].who} compared {group.asked} ({trials[0].citation}). {'; '.join(lines)}."
    return group, trials, rows, correlation, words
