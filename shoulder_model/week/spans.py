"""Where the muscle model is clear about two pulls: its spans, whatever the balance, the strength and the sex.

A span reaches over both ways to balance the arm, 40 random bodies, the survey's mean man and woman, and the strength of
either. It is stored (``data/week_spans.csv``, made by `recipes.week_spans`) and the same for everybody, so no week hangs on a
client's sex through the muscles. One pull is clearly above another where the two spans do not touch.
"""

from functools import cache

from ..inputs import Allowed, InputError, checked_call, choice, mapping, vectors
from ..tables import read_table

SHARE = Allowed(0.0, 1.0, "", "give a share, 0 to 1")


@cache
def spans():
    """All of ``data/week_spans.csv``: (candidate's name, muscle group) -> (low, high), shares of the active muscle, 0 to 1."""
    rows = read_table("week_spans.csv")
    return {(row["name"], row["group"]): (float(row["low"]), float(row["high"])) for row in rows}


@checked_call
def span_of(name, group):
    """The stored span (low, high) of the candidate ``name`` (str) for a muscle ``group`` (str), shares 0 to 1; else `InputError`."""
    choice("name", name, tuple(one for one, _ in spans())), choice("group", group, tuple(of for _, of in spans()))
    return spans()[name, group]


def checked_spans(known):
    """The spans ``known``, a dict of the same kind as `spans`; anything else raises `InputError`."""
    found = {}
    for key, span in mapping("known_spans", known, "(name of a candidate, muscle group) to (low, high)").items():
        if not isinstance(key, tuple) or len(key) != 2 or not all(isinstance(part, str) for part in key):
            raise InputError(
                "known_spans", "known_spans: each key is the name of a candidate and a muscle group, in a tuple"
            )
        found[key] = tuple(vectors("known_spans", span, SHARE, 2).tolist())
    return found


def clearly_less(name, others, groups, known=None):
    """Whether the model puts the candidate ``name`` clearly below one of ``others`` (names) in the ``groups`` that count.

    Below in at least one group and above in none. ``known`` replaces `spans`, a dict of the same kind; a pull that is not in it
    is never clearly anything.
    """
    known = spans() if known is None else known
    return any(_below(name, other, groups, known) for other in others)


def _below(name, other, groups, known):
    pairs = [(known.get((name, group)), known.get((other, group))) for group in groups]
    pairs = [pair for pair in pairs if None not in pair]
    less = any(mine[1] < theirs[0] for mine, theirs in pairs)
    more = any(mine[0] > theirs[1] for mine, theirs in pairs)
    return less and not more
