"""What a log says of each pull: add, keep, ease, change or stop, with a reason in a line.

Pain comes first. Then comfort. Then the repetition rule of the position stand (Med Sci Sports Exerc 2009;41(3):687-708): over the
target on two sessions running, at the present load, adds 2 to 10 %, at any time. The last set of a session counts.
"""

from dataclasses import dataclass

from ..inputs import checked_call, scalar, several
from ..week.load import BODY, KILOGRAMS, LIFTED, Known, Load, checked_steps, first_load, next_load, step_of
from ..week.load_words import EASIER, HARDER, range_words
from ..week.plan import Row
from ..week.rules import some_rules
from ..words import counted, listed
from .log import Entry
from .sessions import sessions

KINDS = ("add", "keep", "ease", "change", "stop")


@dataclass(frozen=True)
class Verdict:
    """What to do with one ``pull`` (name) in the next block.

    ``kind`` is one of `KINDS` and ``reason`` says why in a line of words. ``load`` is the next `week.load.Load`, None where there is
    none; ``instead`` the name of an easier or harder candidate, "" for none.
    """

    pull: str
    kind: str
    reason: str
    load: Load | None = None
    instead: str = ""


@checked_call
def verdicts(entries, rows, rules, *, given=None, mass_kg=0.0, offered=None):
    """One `Verdict` for every pull of some ``rows`` (of `week.plan.Row`), in their order, and one for any other pull that hurt: a tuple.

    Parameters
    ----------
    entries : sequence of log.Entry
    rows : sequence of plan.Row
    rules : rules.Rules
    given : dict of equipment -> smallest step, optional
        Where it is not the table's. [kg]
    mass_kg : float
        Of the body. [kg]
    offered : set of str, optional
        Names of the pulls that can be done here; without it any easier or harder version may be named.

    Raises
    ------
    InputError
        What is not of its kind or outside its range; names it.
    """
    entries, rows = (
        several("entries", entries, Entry, "training.read_log(...)"),
        several("rows", rows, Row, "plan.rows"),
    )
    some_rules(rules)
    given, mass_kg = checked_steps("given", given), scalar("mass_kg", mass_kg, BODY)
    offered = None if offered is None else set(several("offered", offered, str))
    by_name = {}
    for row in rows:
        by_name.setdefault(row.name, row)
    here = _Here(rules, given, mass_kg, offered)
    found = [_verdict(entries, row, here) for row in by_name.values()]
    others = dict.fromkeys(one.pull for one in entries if one.pull not in by_name)
    return (*found, *(verdict for pull in others if (verdict := _pain(entries, pull))))


@dataclass(frozen=True)
class _Here:
    """What holds for all pulls: rules, steps that replace the table's, the body's mass [kg], names of pulls that can be done."""

    rules: object
    given: dict | None
    mass_kg: float
    offered: set | None

    def named(self, name):
        """The name of another version, "" where it cannot be done here."""
        return name if self.offered is None or name in self.offered else ""


def _verdict(entries, row, here):
    rules, pain = here.rules, _pain(entries, row.name)
    if pain:
        return pain
    done = sessions(entries, row.name)
    asked = rules.sessions_running
    if len(done) < asked:
        so_far = f", {len(done)} so far" if done else ""
        said = f"not enough logged: {_number_word(asked)} sessions are needed{so_far}"
        return Verdict(row.name, "keep", said, _same_load(row, done))
    recent = done[-asked:]
    marks = [one.comfort for one in recent]
    if all(mark is not None and mark < rules.comfort_low for mark in marks):
        said = f"comfort {_and(marks)} of 10, under {rules.comfort_low:g} {_times(asked)}: change the grip, or the pull"
        return Verdict(row.name, "change", said)
    return _by_repetitions(row, recent, here)


def _pain(entries, pull):
    """The verdict on a pull that hurt in any set; else None."""
    hurt = [one for one in entries if one.pull == pull and one.pain]
    if not hurt:
        return None
    worst = max(hurt, key=lambda one: one.pain)
    when = f" on {worst.date.isoformat()}" if worst.date else ""
    said = f"pain {worst.pain:g} of 10 in set {worst.set}{when}: stop this pull, and see a licensed clinician"
    return Verdict(pull, "stop", said)


def _by_repetitions(row, recent, here):
    rules = here.rules
    low, high = row.repetitions
    counts, loads = [one.repetitions for one in recent], [one.load_kg for one in recent]
    over, under = min(counts) >= high + rules.repetitions_over, max(counts) < low
    rose, fell = _moved(loads)
    done = f"{_and(counts)} repetitions{_at(loads)}"
    if over and not rose:
        load, instead, how = _more(row, recent[-1], here)
        return Verdict(row.name, "add", f"{done}, over {high} {_times(len(recent))}: {how}", load, instead)
    if under and not fell:
        load, instead, how = _less(row, recent[-1], here)
        if load is None and not instead:
            return Verdict(row.name, "change", f"{done}, under {low} {_times(len(recent))}: {how}")
        return Verdict(row.name, "ease", f"{done}, under {low} {_times(len(recent))}: {how}", load, instead)
    if counts[-1] >= high + rules.repetitions_over:
        how = f"over {high} once at this load; once more, and it goes up"
    elif counts[-1] < low:
        how = f"under {low} once at this load; try for {low} again"
    else:
        how = "one repetition more next time"
    return Verdict(row.name, "keep", f"{done}, {low} to {high} wanted: {how}", _same_load(row, recent))


def _moved(loads):
    """Whether the load rose, and whether it fell, over the last sessions."""
    known = [kg for kg in loads if kg is not None]
    if len(known) < len(loads):
        return False, False
    return known[-1] > min(known), known[-1] < max(known)


def _more(row, last, here):
    """The next load, a harder candidate, and what to do in words."""
    candidate, step, rules = row.candidate, step_of(row.candidate, here.given), here.rules
    if step is None:
        way = HARDER.get(candidate.loading, "make it harder by one step")
        instead = here.named(candidate.harder)
        if instead and candidate.loading == "body":
            return Load(None, None, way), instead, f"go on to the {instead}"
        return Load(None, None, way), instead, f"{way}{f', then the {instead}' if instead else ''}"
    if last.load_kg is None:
        part = f"{100 * rules.load_step_low:.0f} to {100 * rules.load_step_high:.0f} % more"
        return Load(None, None, f"{part} than last time"), "", f"add load, {part}"
    load = next_load(last.load_kg, rules, step, done=last.repetitions)
    if load.notes:
        return load, "", f"{load.notes[0][0].lower()}{load.notes[0][1:]} {load.notes[1]}".rstrip(".")
    words = range_words(candidate, load.low_kg, load.high_kg)
    return Load(load.low_kg, load.high_kg, words), "", f"add load, to {range_words(None, load.low_kg, load.high_kg)}"


def _less(row, last, here):
    """A lighter load or an easier candidate, and what to do in words."""
    candidate, step = row.candidate, step_of(row.candidate, here.given)
    instead = here.named(candidate.easier)
    if step is None:
        way = EASIER.get(candidate.loading, "make it easier by one step")
        return Load(None, None, way), instead, f"{way}{f', or the {instead}' if instead else ''}"
    if last.load_kg is None:
        return Load(None, None, "less than last time"), "", "take some load off"
    load = _lighter(candidate, last, here, step)
    if load is None:
        return None, instead, f"it goes no lighter here, {f'take the {instead}' if instead else 'change the pull'}"
    return load, "", f"take load off, to {range_words(None, load.low_kg, load.high_kg)}"


def _lighter(candidate, last, here, step):
    """A load for the wanted repetitions by the equations, always less than the last one; None where there is none."""
    most = step.down(last.load_kg)
    if most is not None and most >= last.load_kg:
        most = step.down(last.load_kg - step.step_kg)
    if most is None:
        return None
    low = high = most
    if last.load_kg >= KILOGRAMS.low and 1 <= last.repetitions <= LIFTED.high:
        known = (Known(candidate.name, last.load_kg, last.repetitions),)
        load = first_load(candidate, here.rules, known, given=here.given, mass_kg=here.mass_kg)
        if load.low_kg is not None:
            low, high = min(load.low_kg, most), min(load.high_kg, most)
    return Load(low, high, range_words(candidate, low, high))


def _same_load(row, done):
    """The load of the last session, to be kept; None where none was written down or chosen."""
    kg = done[-1].load_kg if done else None
    if kg is None or step_of(row.candidate) is None:
        return None
    return Load(kg, kg, range_words(row.candidate, kg, kg))


def _and(values):
    return listed([f"{value:g}" for value in values])


def _at(loads):
    """The loads in words, where they are known."""
    if any(kg is None for kg in loads) or not any(loads):
        return ""
    return f" at {listed([f'{kg:g}' for kg in dict.fromkeys(loads)])} kg"


def _number_word(count):
    return {1: "one", 2: "two", 3: "three"}.get(count, f"{count:g}")


def _times(count):
    return {1: "once", 2: "twice"}.get(count, counted(count, "time"))
