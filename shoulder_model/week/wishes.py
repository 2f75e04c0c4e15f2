"""One client's facts and wishes as lines of the programme, and what decides among pulls that count alike."""

import numpy as np

from ..inputs import checked_call
from .candidates import BEHIND, COUNTED, DIRECTIONS, a_candidate
from .client import a_client
from .groups import GROUPS
from .health import LOW_BACK
from .programme import Line, Programme, Target
from .rules import some_rules
from .spans import clearly_less

PREFERENCE = {  # cost of a visit; own order, no source
    "not the preferred one": 1000,
    "low-back grade, a back to be spared": 100,
    "wide or behind the neck": 50,
    "slow to recover from": 30,
    "easier than this client needs": 20,
    "help to be set up": 3,
    "a second visit": 10,
    "low-back grade": 6,
    "clearly less in the model": 2,
}


def programme(client, rules, fitted, known_spans=None):
    """The integer `Programme` of one ``client`` over ``fitted`` pulls, all of which can be done, under some ``rules``; counts in sets.

    ``known_spans`` replaces `spans.spans`, a dict (name, group) -> (low, high).
    """
    counts = counts_by_name(fitted, rules)
    aims = bands(client, rules)
    return Programme(
        visit_sets=(rules.visit_sets_low, rules.visit_sets_high),
        pull_sets=rules.pull_sets,
        days=client.days,
        session_sets=rules.session_sets,
        lines=(*_facts(client, rules, fitted), *_wishes(client, rules, fitted, counts)),
        targets=tuple(Target(group, counts[group], aims[group][2]) for group in GROUPS),
        visit_cost=visit_costs(client, rules, fitted, known_spans),
        repeat_cost=PREFERENCE["a second visit"],
    )


def counts_by_name(fitted, rules):
    """What one set of each of the ``fitted`` pulls counts under ``rules``: dict of group or direction -> (pulls,), in sets."""
    each = [one.counts(rules) for one in fitted]
    return {name: np.array([counts[name] for counts in each]) for name in (*COUNTED, *DIRECTIONS)}


@checked_call
def bands(client, rules):
    """Weekly sets (low, high, wanted) of each group with a target, as the ``rules`` say.

    The goal of the ``client`` slides the wanted ones, in half sets. `InputError` for no client or no rules.
    """
    a_client(client), some_rules(rules)
    low, high = rules.weekly_sets_low, rules.weekly_sets_high
    part = {"lat": 1 - client.goal, "mid-back": client.goal}
    return {group: (low, high, round(2 * (low + (high - low) * part[group])) / 2) for group in GROUPS}


def is_wide(pull, rules):
    """Whether a ``pull`` is a pulldown or pull-up to the front with a wider grip than the ``rules``' limit (× biacromial)."""
    return bool(pull.grip_ratio > rules.grip_high and np.cos(pull.pull_angle) > 0.5 and pull.name != BEHIND)


def only_allowed(pull, rules):
    """Whether a ``pull`` is never chosen over another that counts alike under ``rules``: a wide grip, or behind the neck."""
    return is_wide(pull, rules) or pull.name == BEHIND


@checked_call
def can_be_done(client, rules, candidate):
    """Whether equipment, health and pull-ups of a ``client`` leave a ``candidate`` under ``rules``: facts, whatever is wished.

    What is no client, no rules, no candidate raises `InputError`.
    """
    a_client(client), some_rules(rules), a_candidate(candidate)
    in_a_row, high = client.own_weight_repetitions, rules.repetitions_high
    enough = rules.repetitions_low + rules.repetitions_left_low
    return (
        candidate.can_be_done_with(client.equipment)
        and not client.wants(candidate, client.leave_out)
        and {"": True, "fewer": in_a_row < enough, "enough": in_a_row >= enough, "more": in_a_row > high}[
            candidate.pull_ups
        ]
        and (client.wide_grip or not is_wide(candidate.pull, rules))
        and (client.behind_neck or candidate.pull.name != BEHIND)
        and not any(_kept_out(limit, candidate) for limit in client.holds)
    )


def _kept_out(limit, candidate):
    """Whether a ``limit`` of `health.LIMITS` keeps a candidate out altogether."""
    return {
        LOW_BACK: candidate.low_back == 2,
        "nothing overhead": candidate.overhead,
        "no hanging": candidate.position == "hanging",
        "no lying": candidate.position in ("face up", "face down"),
    }[limit]


def worth_trying(client, rules, fitted, known_spans=None):
    """The ``fitted`` pulls without those that can never be better, as a tuple of `candidates.FittedPull`.

    Of versions of one family that count alike and are preferred alike the cheapest stays, among equals the first: only one
    version is in a week, so the others change nothing but the time to solve. A wide grip or a pull behind the neck stays only
    for a ``client`` for whom it is preferred, or where nothing else counts as much. ``rules`` and ``known_spans`` as for `programme`.
    """
    best = {}
    for one, cost in zip(fitted, visit_costs(client, rules, fitted, known_spans), strict=True):
        candidate = one.candidate
        met = tuple(name for name in client.prefer if client.wants(candidate, (name,)))
        if only_allowed(one.pull, rules) and not met and _has_a_safer_like(one, fitted, rules):
            continue
        kind = candidate.family, tuple(one.counts(rules).values()), met, candidate.low_back == 1
        if kind not in best or cost < best[kind][1]:
            best[kind] = one, cost
    stays = {id(one) for one, _ in best.values()}
    return tuple(one for one in fitted if id(one) in stays)


def _has_a_safer_like(one, fitted, rules):
    """Whether another pull that is not `only_allowed` counts as much for each group, and no less for each direction."""
    counts = one.counts(rules)
    for other in fitted:
        theirs = other.counts(rules)
        same = all(theirs[name] == counts[name] for name in COUNTED) and all(
            theirs[name] >= counts[name] for name in DIRECTIONS
        )
        if same and not only_allowed(other.pull, rules):
            return True
    return False


def _facts(client, rules, fitted):
    """One version of each pull; few sets that load a low back that is to be spared."""
    families = list(dict.fromkeys(one.candidate.family for one in fitted))
    same = np.array([[one.candidate.family == family for one in fitted] for family in families], float)
    facts = [Line("one version of each pull", per_use=same, high=1.0)]
    if LOW_BACK in client.holds:
        some = np.array([one.candidate.low_back == 1 for one in fitted], float)
        facts.append(Line(LOW_BACK, per_set=some, high=rules.low_back_sets))
    return facts


def _wishes(client, rules, fitted, counts):
    """The client's wishes as lines; one step short of a wish weighs as much as two of the next."""
    every, families = np.ones(len(fitted)), {one.candidate.family for one in fitted}
    low, high = rules.weekly_sets_low, rules.weekly_sets_high
    lines = {
        "enough sets": [{"per_set": counts[group], "low": low} for group in GROUPS],
        "preferred pulls": [{"per_use": asked, "low": 1.0} for asked in _preferred(client, fitted)],
        "not too many sets": [{"per_set": counts[group], "high": high} for group in GROUPS],
        "both directions": [{"per_set": counts[name], "low": rules.direction_sets} for name in DIRECTIONS],
        "two pulls a day": [{"per_visit": every, "per_day": -2.0, "low": 0.0}] * (len(families) > 1),
        "different pulls": [{"per_use": every, "low": rules.pulls_low, "high": rules.pulls_high}],
        "every day": [{"per_day": 1.0, "low": client.days}],
    }
    weights = {name: 2.0**place for place, name in enumerate(reversed(client.wishes))}
    return [Line(name, weight=weights[name], **parts) for name in client.wishes for parts in lines[name]]


def _preferred(client, fitted):
    """Which pulls meet each preferred name, (pulls,); a name that nothing meets is left to `preferred_in_vain`."""
    met = [np.array([client.wants(one.candidate, (name,)) for one in fitted], float) for name in client.prefer]
    return [one for one in met if one.any()]


def preferred_in_vain(client, fitted):
    """Names that the ``client`` prefers and none of the ``fitted`` pulls meets, a tuple of text."""
    return tuple(name for name in client.prefer if not any(client.wants(one.candidate, (name,)) for one in fitted))


def alike(one, fitted, rules):
    """Those of the ``fitted`` pulls whose sets count exactly what those of ``one`` count under ``rules``, itself apart."""
    counts = one.counts(rules)
    return [other for other in fitted if other is not one and other.counts(rules) == counts]


def visit_costs(client, rules, fitted, known_spans=None):
    """What speaks against a visit of each of the ``fitted`` pulls, whole numbers (pulls,): `PREFERENCE`, smaller is better.

    ``client``, ``rules`` and ``known_spans`` as for `programme`.
    """
    costs = []
    grade = "low-back grade, a back to be spared" if LOW_BACK in client.holds else "low-back grade"
    for one in fitted:
        candidate = one.candidate
        others = [other.name for other in alike(one, fitted, rules)]
        ups = [other for other in fitted if candidate.pull_ups and other.candidate.family == candidate.family]
        against = {
            "not the preferred one": bool(client.prefer) and not client.wants(candidate, client.prefer),
            grade: candidate.low_back,
            "wide or behind the neck": only_allowed(one.pull, rules),
            "slow to recover from": candidate.loading == "lowering",
            "help to be set up": candidate.loading == "help",
            "easier than this client needs": any(other.candidate.name == candidate.harder for other in ups),
            "clearly less in the model": clearly_less(one.name, others, candidate.direct, known_spans),
        }
        costs.append(sum(PREFERENCE[name] * int(amount) for name, amount in against.items()))
    return np.array(costs, int)
