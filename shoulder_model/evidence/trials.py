"""What published trials say about a question and a muscle, and what they leave open.

``data/evidence.csv`` holds what was read, ``data/comparisons.csv`` says for each row what it compares and what
was held constant. A result is one of three kinds: a difference (means and standard deviations were read), an
order (words only) or a p-value. Only a difference has a number here; nothing turns a p-value or an order into one. The
correlation between conditions is assumed unless it is printed, and shown over a band.
"""

import re
from dataclasses import dataclass
from functools import cache

from ..inputs import Allowed, checked_call, choice, flag, scalar, several
from ..sources import NOT_LOCATED, constant
from ..tables import read_table
from ..words import counted
from .effect_size import CORRELATION, difference_within

BETWEEN = constant("correlation_between_conditions")  # an assumption: trials seldom print it
ASSUMED, BAND = BETWEEN.value, (BETWEEN.low, BETWEEN.high)
SIDES = {  # question -> what a result may point to
    "row or pulldown": ("a row", "a pulldown"),
    "grip width": ("a wider grip", "a narrower grip"),
    "hand turn": ("palms away", "palms turned"),
    "front or behind the neck": ("the bar in front", "the bar behind"),
    "blades held or free": ("blades held", "blades free"),
    "pull-up or pulldown": ("a pull-up", "a pulldown"),
    "after a cue or before": ("the cue", "no cue"),
    "which row": ("a bent-over row", "another row"),
    "elbows high or low in a row": ("elbows high", "elbows low"),
    "trunk lean": ("leaning back", "leaning forward"),
    "one or two arms": ("one arm", "two arms"),
}
HELD = {  # choice -> codes of the column ``held`` it lets through
    "any load": ("each", "relative", "one", "differ", "not stated"),
    "relative load": ("each", "relative"),
    "relative, found for each": ("each",),
    "one load for all": ("one",),
}
LOAD_DOUBTS = {"differ": ("load",), "not stated": ("load not stated",)}  # ``held`` -> what else may have changed
LOST = "paper not found"  # what is against a result whose citation leads nowhere
SCALE = "scale of the load"  # what else differs where loads are counted in two ways
PEOPLE = {"M": ("man", "men"), "F": ("woman", "women")}  # letter of the evidence -> one of them, and several
HELD_WORDS = {
    "each": "load found for each",
    "relative": "relative load",
    "one": "one load for all",
    "differ": "loads differ",
    "not stated": "load not stated",
}


def lowest_correlation(correlation):
    """The least favourable correlation of the band and of the one assumed, ``correlation``; both without unit."""
    return min(*BAND, correlation)


@dataclass(frozen=True)
class Comparison:
    """One result of one trial, for one muscle.

    ``higher`` is what the trial's own test says: "first", "second", "none", or "" where no direction is printed.
    ``untested`` is "" or says why nobody tested this pair ("highest of all"). ``means`` is (mean first, SD first, mean second,
    SD second), in the trial's own unit, or None. ``correlation`` is None unless printed. ``held`` says what was held constant,
    a key of `HELD_WORDS`, ``also_changed`` what else differs or is not stated, parted by "; ", and ``scales`` how loads were
    counted in two ways. ``sex`` counts people ("21M 4F"), ``subgroup`` says which, where a trial has several; ``own`` is true
    for a reader's own trial. ``located`` is false where the paper cannot be found from what is known of it.
    """

    study: str
    citation: str
    n: int
    question: str
    muscle: str
    phase: str
    first: str
    second: str
    higher: str
    statement: str
    held: str
    also_changed: str
    trained: str
    normalised: str
    flaws: str
    means: tuple | None = None
    correlation: float | None = None
    subgroup: str = ""
    sex: str = ""
    untested: str = ""
    scales: str = ""
    own: bool = False
    located: bool = True

    @property
    def who(self):
        """The people, in words: "12 men"."""
        parts = [(int(count or self.n), PEOPLE[letter]) for count, letter in re.findall(r"(\d*)([MF])\b", self.sex)]
        return ", ".join(counted(count, *words) for count, words in parts) or counted(self.n, "person", "people")

    @property
    def unlike(self):
        """What else changed, or may have, beside the thing asked about: a tuple of words."""
        scale = (SCALE,) if self.scales else ()
        return (*filter(None, self.also_changed.split("; ")), *scale, *LOAD_DOUBTS.get(self.held, ()))

    @property
    def doubts(self):
        """Why the result counts for nothing, a tuple of words: all that may have made the difference instead (one load for all
        makes the efforts differ), and a paper that cannot be found.
        """
        return (*self.unlike, *(("effort",) if self.held == "one" else ()), *(() if self.located else (LOST,)))

    @property
    def kind(self):
        """What was read of it, in a word: "difference", "p-value" or "order"."""
        if self.means is not None:
            return "difference"
        return "p-value" if re.search(r"\bp\s*[<=]", self.statement, re.I) else "order"

    @checked_call
    def effect(self, correlation=ASSUMED):
        """Hedges' g of first against second [SD between people] at an assumed ``correlation`` between conditions.

        None where no means and standard deviations were read; `InputError` for a correlation outside -0.99 to 0.99.
        """
        correlation = scalar("correlation", correlation, CORRELATION)
        if self.means is None:
            return None
        first, sd_first, second, sd_second = self.means
        used = correlation if self.correlation is None else self.correlation
        return difference_within(first, second, sd_first, sd_second, self.n, used)

    @checked_call
    def band(self, correlation=ASSUMED):
        """Ends of the widest interval that the band of the correlation allows [SD between people], or None.

        ``correlation`` as for `effect`; a printed one has no band.
        """
        correlation = scalar("correlation", correlation, CORRELATION)
        return None if self.means is None else self.effect(lowest_correlation(correlation)).interval

    @checked_call
    def direction(self, correlation=ASSUMED):
        """What the result points to, in a word: the trial's own test, else the interval of a difference, else "unknown".

        ``correlation`` as for `effect`. An order that nobody tested points nowhere.
        """
        correlation = scalar("correlation", correlation, CORRELATION)
        if self.untested:
            return "unknown"
        if self.higher or self.means is None:
            return self.higher or "unknown"
        low, high = self.effect(correlation).interval
        return "first" if low > 0 else "second" if high < 0 else "none"


def some_trials(trials):
    """The ``trials`` as a tuple of `Comparison`; anything else that is given raises `InputError`."""
    return several("trials", trials, Comparison, "evidence.comparisons()")


def row_of(rows, coded, condition, exercise):
    """The one of ``rows`` of the evidence, dicts of text, that a ``coded`` comparison points to.

    ``condition`` and ``exercise`` are texts as the evidence has them; an empty exercise fits any.

    Raises
    ------
    LookupError
        None fits, or several do.
    """
    fit = [
        row
        for row in rows
        if (row["study_id"], row["outcome"], row["condition"]) == (coded["study_id"], coded["outcome"], condition)
        and exercise in ("", row["exercise"])
        and coded["sex"] in ("", row["sex"])
    ]
    if len(fit) > 1:
        fit = [row for row in fit if row["phase"] == coded["phase"]]
    if len(fit) != 1:
        raise LookupError(f"{coded['study_id']}, {condition}: {len(fit)} rows of evidence.csv fit, one is meant")
    return fit[0]


def _normalised(row):
    """To what an amplitude was scaled, as far as the unit says it."""
    unit = row["unit"]
    if unit in ("%MVIC", "%MVC"):
        return "MVIC"
    if not row["outcome"].startswith(("emg", "es_")):
        return "a load"
    return "best technique" if "best technique" in unit else "not stated"


def _statement(row, coded):
    if coded["says"]:
        return coded["says"]
    if row["outcome"].startswith("es_"):
        return f"printed effect size {row['mean']}"
    return row["finding"]


def _comparison(rows, coded):
    row = row_of(rows, coded, coded["condition"], coded["exercise"])
    means = None
    if coded["against"]:
        other = row_of(rows, coded, coded["against"], coded["exercise_against"])
        means = tuple(float(part[field]) for part in (row, other) for field in ("mean", "sd"))
    same = (
        "question", "muscle", "phase", "first", "second", "higher", "held", "also_changed", "trained", "flaws", "untested",
        "scales",
    )  # fmt: skip
    return Comparison(
        study=coded["study_id"], citation=row["citation"], n=int(row["n"]), statement=_statement(row, coded),
        normalised=_normalised(row), means=means, subgroup=coded["sex"], sex=row["sex"], located=row["mark"] != NOT_LOCATED,
        correlation=float(coded["correlation"]) if coded["correlation"] else None,
        **{name: coded[name] for name in same},
    )  # fmt: skip


@cache
def comparisons():
    """All coded comparisons, as a tuple of `Comparison`, means in each trial's own unit."""
    rows = read_table("evidence.csv")
    return tuple(_comparison(rows, coded) for coded in read_table("comparisons.csv"))


@checked_call
def muscles(question, trials=None):
    """Names of muscles (and "largest load") that some trial looked at under a ``question`` of `SIDES`, most results first.

    ``trials`` a sequence of `Comparison`, all of them by default. Another question, or what are no trials, raises `InputError`.

    >>> muscles("blades held or free")
    ('latissimus dorsi', 'middle trapezius', 'rear deltoid', 'biceps brachii')
    """
    choice("question", question, tuple(SIDES))
    trials = comparisons() if trials is None else some_trials(trials)
    names = [row.muscle for row in trials if row.question == question]
    return tuple(sorted(dict.fromkeys(names), key=lambda muscle: -names.count(muscle)))


@checked_call
def choose(trials, *, held="any load", trained_only=False, one_change_only=False, mvic_only=False, minimum_n=0):
    """Split results by what was held constant.

    Parameters
    ----------
    trials : iterable of Comparison
    held : str
        One of ``HELD``.
    trained_only, one_change_only, mvic_only : bool
        Leave out people not said to be trained; contrasts in which something else changed too, or in which the loads
        differ or are not stated; amplitudes not scaled to a maximal voluntary contraction (loads stay in).
    minimum_n : float
        Leave out smaller trials.

    Returns
    -------
    shown : tuple of Comparison
        One trial's results stand together, trials with numbers first.
    left_out : dict of str to int
        The first reason that applies, and how many results it took out.

    Raises
    ------
    InputError
        What are no trials, a choice that is not in ``HELD``, a number outside 0 to 1000, a yes or no that is neither True
        nor False.
    """
    trials = some_trials(trials)
    choice("held", held, tuple(HELD))
    least = scalar("minimum_n", minimum_n, Allowed(0, 1000, "people", "trials of pulling have 7 to 35"))
    trained_only, one_change_only = flag("trained_only", trained_only), flag("one_change_only", one_change_only)
    mvic_only = flag("mvic_only", mvic_only)
    tests = {
        "other loading": lambda row: row.held not in HELD[held],
        "not said to be trained": lambda row: trained_only and row.trained != "trained",
        "something else changed too": lambda row: one_change_only and bool(row.unlike),
        "not scaled to MVIC": lambda row: mvic_only and row.normalised not in ("MVIC", "a load"),
        f"fewer than {least:.0f} people": lambda row: row.n < least,
    }
    shown, left_out = [], {}
    for row in trials:
        reason = next((words for words, test in tests.items() if test(row)), None)
        if reason is None:
            shown.append(row)
        else:
            left_out[reason] = left_out.get(reason, 0) + 1
    return _by_trial(shown), left_out


def _by_trial(rows):
    """Results with those of one trial together: numbers first, among the trials and inside each."""
    rank = {kind: place for place, kind in enumerate(("difference", "p-value", "order"))}
    best = {}
    for row in rows:
        best[row.study] = min(best.get(row.study, len(rank)), rank[row.kind])
    places = list(best)
    return tuple(sorted(rows, key=lambda row: (best[row.study], places.index(row.study), rank[row.kind])))
