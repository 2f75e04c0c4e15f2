"""What a week has to hold and what it should come near to, as wishes and targets of the integer programme."""

import numpy as np

from ..words import counted
from .candidates import BEHIND, COUNTED, DIRECTIONS, GROUPS, equipment, fit
from .programme import Programme, Target, Wish

OWN_WEIGHT = ("pull-up", "chin-up")


def programme(client, rules, fitted):
    """The integer `Programme` of one ``client`` over ``fitted`` pulls under some ``rules``; counts in sets."""
    size = rules.sets_per_visit
    per_visit = {name: size * counts for name, counts in counts_by_name(fitted, rules).items()}
    most = max(1, min(client.days, rules.pull_sets // size))
    aims = bands(client, rules)
    return Programme(
        most=np.full(len(fitted), most),
        least=np.ones(len(fitted), int),
        wishes=(*_own_wishes(client, rules, fitted), *_set_wishes(client, rules, per_visit, fitted)),
        targets=tuple(Target(group, per_visit[group], aims[group][2]) for group in GROUPS),
        visit_cost=(100 - np.round(100 * fit(fitted, client.goal))).astype(int),
    )


def counts_by_name(fitted, rules):
    """What one set of each of the ``fitted`` pulls counts under ``rules``: dict of group or direction -> (pulls,), in sets."""
    each = [one.counts(rules) for one in fitted]
    return {name: np.array([counts[name] for counts in each]) for name in (*COUNTED, *DIRECTIONS)}


def bands(client, rules):
    """Weekly sets (low, high, wanted) of each group with a target, as the ``rules`` say.

    The goal of the ``client`` slides the wanted ones, in half sets.
    """
    low, high = rules.weekly_sets_low, rules.weekly_sets_high
    part = {"lat": 1 - client.goal, "mid-back": client.goal}
    return {group: (low, high, round(2 * (low + (high - low) * part[group])) / 2) for group in GROUPS}


def is_wide(pull, rules):
    """Whether a ``pull`` is a pulldown or pull-up to the front with a wider grip than the ``rules``' limit (× biacromial)."""
    return pull.grip_ratio > rules.grip_high and np.cos(pull.pull_angle) > 0.5 and pull.name != BEHIND


def _none_of(name, out, firm=False):
    return Wish(name, np.array(out, float), high=0.0, firm=firm)


def _own_wishes(client, rules, fitted):
    """What the client brings; named first, so that a clash names these before the general ones."""
    wishes = [Wish(f"pulls on each of {counted(client.days, 'day')}", np.ones(len(fitted)), low=client.days)]
    for piece in equipment():
        if piece not in client.equipment:
            wishes.append(_none_of(f"no {piece} there", [piece in one.candidate.equipment for one in fitted]))
    for name in client.leave_out:
        wishes.append(_none_of(f"the {name} left out", [name in (one.name, one.pull.name) for one in fitted]))
    return wishes + _safety_wishes(client, rules, fitted)


def _safety_wishes(client, rules, fitted):
    """What is kept for safety and never offered as a way out."""
    wishes = []
    if client.limit_low_back:
        grade = np.array([one.candidate.low_back for one in fitted])
        wishes.append(_none_of("no row with the largest load on the low back", grade == 2, firm=True))
        some = f"at most {counted(rules.low_back_sets, 'weekly set')} that load the low back some"
        wishes.append(Wish(some, rules.sets_per_visit * (grade == 1.0), high=rules.low_back_sets, firm=True))
    if client.own_weight_repetitions < rules.repetitions_low:
        name = f"no pull-ups or chin-ups before {rules.repetitions_low} in a row"
        wishes.append(_none_of(name, [one.pull.name in OWN_WEIGHT for one in fitted], firm=True))
    if not client.wide_grip:
        name = f"no pulldown or pull-up wider than {rules.grip_high:g} ×"
        wishes.append(_none_of(name, [is_wide(one.pull, rules) for one in fitted], firm=True))
    if not client.behind_neck:
        behind = [one.pull.name == BEHIND for one in fitted]
        wishes.append(_none_of("behind-the-neck pulls left out", behind, firm=True))
    return wishes


def _set_wishes(client, rules, per_visit, fitted):
    """What every week has to hold."""
    low, high = rules.weekly_sets_low, rules.weekly_sets_high
    fewest, most = (counted(sets, "weekly set") for sets in (low, high))
    wishes = [Wish(f"at least {fewest} for the {group}", per_visit[group], low=low) for group in GROUPS]
    least = rules.direction_sets
    sets = counted(least, "weekly set")
    wishes += [Wish(f"at least {sets} of {name}", per_visit[name], low=least) for name in DIRECTIONS]
    wishes += [Wish(f"at most {most} for the {group}", per_visit[group], high=high) for group in GROUPS]
    every = np.ones(len(fitted))
    visits = client.days * (rules.session_sets // rules.sets_per_visit)  # dealt out evenly over the days
    wishes.append(Wish(f"at most {counted(rules.session_sets, 'set')} in a session", every, high=visits))
    variety = f"{rules.pulls_low} to {rules.pulls_high} different pulls"
    wishes.append(Wish(variety, per_use=every, low=rules.pulls_low, high=rules.pulls_high))
    names = list(dict.fromkeys(one.pull.name for one in fitted))
    same = np.array([[one.pull.name == name for one in fitted] for name in names], float)
    wishes.append(Wish("one version of each pull", per_use=same, high=1.0))
    return wishes
