"""The sets of a log as sessions: one pull on one day, with its last set and what was marked."""

from dataclasses import dataclass
from datetime import date as Date


@dataclass(frozen=True)
class Session:
    """One pull on one day: its last set, and what was marked.

    ``date`` is a date or None; ``load_kg`` [kg] and ``repetitions`` of the last set, ``best`` the most repetitions of a set;
    ``comfort`` the least marked, 0 to 10, or None.
    """

    date: Date | None
    load_kg: float | None
    repetitions: int
    best: int
    comfort: float | None


def sessions(entries, pull):
    """Sessions of one ``pull`` (name) in some ``entries`` (of `log.Entry`), oldest first: a tuple of `Session`.

    One date is one session. Where dates are missing a new one begins on another day, or where the sets begin again. A day without
    a number of repetitions is none.
    """
    groups = []
    for entry in (one for one in entries if one.pull == pull):
        if groups and _same_session(groups[-1][-1], entry):
            groups[-1].append(entry)
        else:
            groups.append([entry])
    found = [_session(group) for group in _joined(groups) if any(one.repetitions is not None for one in group)]
    return tuple(sorted(found, key=lambda one: one.date) if all(one.date for one in found) else found)


def _same_session(before, entry):
    if before.date or entry.date:
        return before.date == entry.date
    return before.day == entry.day and entry.set > before.set


def _joined(groups):
    """Groups of one date as one, wherever they stand in the file."""
    by_date = {}
    for place, group in enumerate(groups):
        by_date.setdefault(group[0].date or place, []).extend(group)
    return list(by_date.values())


def _session(group):
    """The last set is that of the highest number; of two sides the weaker one counts."""
    done = [one for one in group if one.repetitions is not None]
    last = [one for one in done if one.set == max(other.set for other in done)]
    weakest = min(last, key=lambda one: one.repetitions)
    comfort = [one.comfort for one in group if one.comfort is not None]
    return Session(
        group[0].date,
        weakest.load_kg,
        weakest.repetitions,
        max(one.repetitions for one in done),
        min(comfort, default=None),
    )
