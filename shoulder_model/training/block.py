"""The next block, made from a log: what is left out, preferred and known now, for which a new week is planned.

A block changes what the log gives a reason for, and nothing else. Where anything hurt the health questions are open again, so
that there is no week before they are answered.
"""

from dataclasses import dataclass, replace

from ..inputs import checked_call, several
from ..week.candidates import Candidate, candidates
from ..week.health import after_pain
from ..week.load import KILOGRAMS, LIFTED, Carried, Known, step_of
from ..week.plan import a_plan
from .log import Entry
from .sessions import sessions
from .verdict import verdicts

SET_BY_HAND = ("band", "help", "lean")  # these get harder and easier without another pull


@dataclass(frozen=True)
class NextBlock:
    """What the next block starts from.

    Parameters
    ----------
    client : client.Client
        As before, with what the log changed; `week.plan.plan_week` makes its week.
    verdicts : tuple of verdict.Verdict
    loads : dict of pull -> load.Load
        For pulls that go on; the client carries them, so that they come before any first load.
    referral : tuple of str
        Lines that come before anything else where there was pain; empty where there was none.
    """

    client: object
    verdicts: tuple
    loads: dict
    referral: tuple


@checked_call
def next_block(plan, entries, listed_pulls=None):
    """The next block of a ``plan`` (`week.plan.Plan`), from the ``entries`` (of `log.Entry`) of its log, as a `NextBlock`.

    ``listed_pulls`` is a tuple of `week.candidates.Candidate`, all of `week.candidates.candidates` by default. `InputError` for other
    kinds.
    """
    client, entries = a_plan(plan).client, several("entries", entries, Entry, "training.read_log(...)")
    if listed_pulls is None:
        listed_pulls = candidates()
    listed_pulls = several("listed_pulls", listed_pulls, Candidate, "sm.week.candidates()")
    by_name = {one.name: one for one in listed_pulls}
    offered = {one.name for one in listed_pulls if one.can_be_done_with(client.equipment)}
    found = verdicts(
        entries, plan.rows, plan.rules, given=client.steps, mass_kg=float(client.lifter.mass), offered=offered
    )
    hurt = [one for one in found if one.kind == "stop"]
    moves = {one.pull: one.instead for one in found if _moves(one, by_name)}
    out = _left_out(found, moves, by_name)
    changes = {
        "leave_out": tuple(dict.fromkeys((*client.leave_out, *out))),
        "prefer": _preferred(client, found, moves, out, by_name),
        "known": _known(client, entries, by_name),
        "own_weight_repetitions": _pull_ups(client, entries, by_name, moves),
    }
    loads = {one.pull: one.load for one in found if one.load is not None and one.pull not in moves}
    changes["carried"] = tuple(Carried(pull, one.low_kg, one.high_kg, one.words) for pull, one in loads.items())
    if hurt:
        changes["health"] = {}  # asked again
        changes["hurt"] = tuple(dict.fromkeys((*client.hurt, *(one.pull for one in hurt))))
    after = replace(client, **changes)
    before = after_pain(after.hurt, after.health) if hurt else None
    return NextBlock(after, found, loads, before.lines if before else ())


def _moves(verdict, by_name):
    """Whether the next block goes over to the easier or harder pull, because this one cannot be set as wanted."""
    return (
        verdict.kind in ("add", "ease")
        and verdict.instead in by_name
        and by_name[verdict.pull].loading not in SET_BY_HAND
    )


def _left_out(found, moves, by_name):
    """Names that the next block does without: what hurt with all its versions, what was not comfortable, what was too hard."""
    out = []
    for one in found:
        if one.kind == "stop":
            out.append((one.pull in by_name and by_name[one.pull].family) or one.pull)
        elif one.kind == "change" or (one.kind == "ease" and one.pull in moves):
            out.append(one.pull)
    return out


def _preferred(client, found, moves, out, by_name):
    """What goes on, or what takes its place, and what was preferred before."""
    going_on = [moves.get(one.pull, one.pull) for one in found if one.kind in ("add", "keep", "ease")]
    gone = {*out, *moves, *(one.name for one in by_name.values() if one.family in out)}
    return tuple(name for name in dict.fromkeys((*client.prefer, *going_on)) if name not in gone)


def _known(client, entries, by_name):
    """Known loads, those of the log's last sessions in place of older ones."""
    known = {one.pull: one for one in client.known}
    for pull in dict.fromkeys(one.pull for one in entries):
        done = sessions(entries, pull)
        if not done or pull not in by_name or step_of(by_name[pull]) is None:
            continue
        last = done[-1]
        if last.repetitions and last.load_kg is not None and last.load_kg >= KILOGRAMS.low:
            known[pull] = Known(pull, last.load_kg, min(last.repetitions, int(LIFTED.high)))
    return tuple(known.values())


def _pull_ups(client, entries, by_name, moves):
    """Clean pull-ups in a row by the last sessions with the own body: the last set where that was too hard, else no fewer than before."""
    counts = []
    for pull in dict.fromkeys(one.pull for one in entries):
        done = sessions(entries, pull) if _is_whole_body(by_name.get(pull)) else ()
        if done:
            eased = moves.get(pull) == by_name[pull].easier
            counts.append(done[-1].repetitions if eased else max(done[-1].best, client.own_weight_repetitions))
    return max(counts) if counts else client.own_weight_repetitions


def _is_whole_body(candidate):
    return candidate is not None and candidate.loading == "body" and bool(candidate.pull_ups)
