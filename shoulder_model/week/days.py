"""Which days of a real week, and which pull on which of them.

Days with pulls are never three running where that can be avoided, the week going round from Sunday to Monday; nor is one
pull on three running days, nor on two where it can have a day between.
"""

from functools import cache
from itertools import combinations

import numpy as np

WEEKDAYS = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday")
WEEKEND = 5  # the first of its days
MOST_TRIED = 20_000  # ways to deal that are carried on from one pull to the next


def running(days):
    """Length of the longest run of ``days`` (whole numbers, 0 Monday), the week going round.

    >>> running((0, 1, 3)), running((0, 5, 6))
    (2, 3)
    """
    here = np.isin(np.arange(14) % 7, list(days))
    longest = now = 0
    for there in here:
        now = now + 1 if there else 0
        longest = max(longest, now)
    return min(longest, 7)


@cache
def weekdays(count):
    """The ``count`` days of the week (1 to 7) that leave most rest between them, and the weekend free where they can: a tuple, 0 Monday.

    >>> [WEEKDAYS[day] for day in weekdays(3)]
    ['Monday', 'Wednesday', 'Friday']
    """

    def order(days):
        gaps = [(after - day) % 7 or 7 for day, after in zip(days, (*days[1:], days[0]), strict=True)]
        return max(running(days), 2), sum(day >= WEEKEND for day in days), -min(gaps), gaps.count(1), days

    return min(combinations(range(7), count), key=order)


def deal(visits, sets, days, kinds=None):
    """Which pull is on which day.

    Parameters
    ----------
    visits, sets : array_like of int, shape (pulls,)
        A week's visits and sets of each pull; no pull has more visits than there are days.
    days : int
        Days with pulls, 1 to 6.
    kinds : array_like of bool, shape (pulls,), optional
        Tells pulls of two kinds apart, pulldowns from rows: a day has both where it can.

    Returns
    -------
    ndarray of int, shape (pulls, days)
        Sets of each pull on each day, 0 where it is not.
    """
    visits, sets = np.asarray(visits, int), np.asarray(sets, int)
    kinds = np.zeros(len(visits), bool) if kinds is None else np.asarray(kinds, bool)
    order, tried = np.argsort(-visits, kind="stable"), np.zeros((1, 0, days), int)
    for place, pull in enumerate(order, 1):
        ways = _ways(visits[pull], sets[pull], days)
        tried = np.concatenate(
            [np.repeat(tried, len(ways), axis=0), np.tile(ways, (len(tried), 1))[:, None, :]], axis=1
        )
        tried = tried[np.lexsort(_badness(tried, kinds[order[:place]])[::-1])[:MOST_TRIED]]
    dealt = np.zeros((len(visits), days), int)
    dealt[order] = tried[0]
    return dealt


def _ways(visits, sets, days):
    """All ways to put one pull on so many of the days, its sets spread evenly, the larger ones first: (ways, days)."""
    if not visits:
        return np.zeros((1, days), int)
    each = np.full(visits, sets // visits)
    each[: sets % visits] += 1
    ways = []
    for chosen in combinations(range(days), visits):
        way = np.zeros(days, int)
        way[list(chosen)] = each
        ways.append(way)
    return np.array(ways)


def _badness(dealt, kinds):
    """What speaks against each of many ways (ways, pulls, days), the worst first: a list of arrays (ways,)."""
    there, on = dealt > 0, weekdays(dealt.shape[2])
    next_to = [(i, j) for i, day in enumerate(on) for j, other in enumerate(on) if (other - day) % 7 == 1 and i != j]
    threes = [(i, j, k) for i, j in next_to for first, k in next_to if first == j and k != i]
    a_day, sets = there.sum(axis=1), dealt.sum(axis=1)
    same = [(there[:, :, list(run)].all(axis=2)).sum(axis=1) for run in next_to]
    thrice = [(there[:, :, list(run)].all(axis=2)).sum(axis=1) for run in threes]
    one_kind = ~(there[:, kinds].any(axis=1) & there[:, ~kinds].any(axis=1))
    none = np.zeros(len(dealt), int)
    return [np.ptp(a_day, axis=1), sum(thrice, none), sum(same, none), one_kind.sum(axis=1), np.ptp(sets, axis=1)]
