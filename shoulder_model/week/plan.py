"""From numbers to a week: a client in; the nearest week of pulls, or the reason why there is none.

Health comes first (`health`). Then equipment, safety and the client's own pull-ups leave some candidates (`wishes.can_be_done`);
an integer programme takes the week that is nearest to the wishes (`programme`); its visits are put on days of a real week
(`days`). Rules stand in ``data/week_rules.csv``, each with source and mark, and can be changed.
"""

from dataclasses import dataclass
from functools import cached_property

import numpy as np

from ..inputs import checked_call, several, thing
from ..mechanics import Pull
from ..words import counted, listed
from . import words
from .candidates import BEHIND, COUNTED, DIRECTIONS, Candidate, FittedPull, candidates, fitted_pulls
from .client import Client, a_client
from .days import WEEKDAYS, deal, weekdays
from .groups import GROUPS
from .health import NoWeek, after_pain, before_any_week
from .reach import what_would_help
from .rules import Rules, some_rules
from .rules import rules as rules_for
from .spans import checked_spans
from .wishes import bands, can_be_done, counts_by_name, is_wide, preferred_in_vain, programme, worth_trying


@dataclass(frozen=True)
class Row:
    """One pull on one ``day``, 1 the first that has pulls.

    ``weekday`` in words; ``fitted`` the pull with its numbers; ``sets`` of ``repetitions`` (low, high); ``set_counts`` says
    what one of its sets counts for each muscle group; ``why`` why this pull, in a line.
    """

    day: int
    weekday: str
    fitted: FittedPull
    sets: int
    repetitions: tuple
    set_counts: dict
    why: str

    @property
    def name(self) -> str:
        """The candidate's name."""
        return self.fitted.name

    @property
    def candidate(self) -> Candidate:
        """The `candidates.Candidate`, with the names of its equipment and its cues."""
        return self.fitted.candidate

    @property
    def pull(self) -> Pull:
        """The candidate's `Pull`, its name and set-up."""
        return self.fitted.pull

    @property
    def grip_cm(self) -> float:
        """Between the middles of the hands. [cm]"""
        return self.fitted.grip_cm

    @property
    def direct(self) -> tuple:
        """Names of the muscle groups that a set counts 1 for."""
        return self.candidate.direct

    @property
    def counts_for(self) -> str:
        """What a set counts for, in words."""
        return words.counts_words(self.set_counts)


@dataclass(frozen=True)
class Plan:
    """A week: its rows by day, the sets it counts, the bands it aims at, and what to say beside it.

    Parameters
    ----------
    client : Client
    rules : Rules
    rows : tuple of Row
    sets : dict of group -> weekly sets, helper sets counted as the rules say
    bands : dict of group -> (low, high, wanted) weekly sets
    directions : dict of direction -> weekly sets that ask for it
    weekdays : tuple of str
        The days that have pulls.
    missing : dict of wish -> how far the week is from it, in the wish's unit; only what is missed
    candidates : tuple of candidates.Candidate
        What could have been chosen.
    notes : tuple of str
    """

    client: Client
    rules: Rules
    rows: tuple
    sets: dict
    bands: dict
    directions: dict
    weekdays: tuple
    missing: dict
    candidates: tuple
    notes: tuple

    def day(self, day):
        """Rows of one ``day``, 1 the first: a tuple of `Row`."""
        return tuple(row for row in self.rows if row.day == day)

    @property
    def days(self):
        """How many days have pulls, a whole number."""
        return len(self.weekdays)

    @cached_property
    def short(self):
        """What the week does not reach and what would help, a tuple of lines of words; empty where every wish is met."""
        if not self.missing and not preferred_in_vain(self.client, fitted_pulls(self.client.lifter, self.candidates)):
            return ()
        return tuple(self._short())

    def _short(self):
        helps = what_would_help(self.client, self.rules, self.missing)
        for name in self.missing:
            told = f"{words.missed_words(self, name)}."
            yield f"{told} {helps[name]}" if helps.get(name) else told
        for name in preferred_in_vain(self.client, fitted_pulls(self.client.lifter, self.candidates)):
            yield f"Does not hold the {name} that you prefer: it cannot be done here, or is kept out above."

    @property
    def misses(self):
        """What the week misses in a few words each, a tuple of text; `short` says it in full, with what would help."""
        in_vain = preferred_in_vain(self.client, fitted_pulls(self.client.lifter, self.candidates))
        return (*(words.missed_briefly(self, name) for name in self.missing), *(f"the {name}" for name in in_vain))

    @property
    def verdict(self):
        """Days, pulls and sets, and what is not reached, in a few sentences."""
        pulls = listed(list(dict.fromkeys(row.name for row in self.rows)))
        sets = listed([f"{self.sets[group]:g} for the {group}" for group in GROUPS])
        said = f"{listed(list(self.weekdays))}: {pulls}. Weekly sets: {sets}."
        return f"{said} Misses: {'; '.join(self.misses)}." if self.misses else said

    @property
    def counting(self):
        """How sets count, and what else they count for, in two sentences."""
        helper = "halves" if self.rules.helper_set == 0.5 else f"{self.rules.helper_set:.2g} of a set"
        others = listed([f"{self.sets[name]:g} for the {name}" for name in COUNTED if name not in GROUPS])
        asked = listed([words.direction_sets_words(name, sets) for name, sets in self.directions.items()])
        return f"With helper sets as {helper} that makes {others}. {asked}."

    @property
    def sentence(self):
        """The week in words."""
        return " ".join([self.verdict, *self.short, self.counting])


@checked_call
def plan_week(client, rules=None, *, known_spans=None, listed_pulls=None):
    """The week for a client.

    Parameters
    ----------
    client : Client
    rules : Rules, optional
        Targets and limits; without it those of the client's experience.
    known_spans : dict of (candidate's name, group) -> (low, high), optional
        Shares of the active muscle, 0 to 1; without it `spans.spans`. An empty dict leaves the muscle model out.
    listed_pulls : tuple of Candidate, optional
        Without it all of `candidates.candidates`.

    Returns
    -------
    Plan or NoWeek
        Each with a ``sentence``. Questions that are open, or a yes that needs a clinician, come before anything is computed.

    Raises
    ------
    InputError
        What is no client, no rules, no dict of spans, no list of candidates.

    Notes
    -----
    A start to test on the person, not a proven best: which pull makes which back muscle grow more is
    an open question.
    """
    a_client(client), rules is None or some_rules(rules)
    known_spans = None if known_spans is None else checked_spans(known_spans)
    if listed_pulls is not None:
        listed_pulls = several("listed_pulls", listed_pulls, Candidate, "sm.week.candidates()")
    before = after_pain(client.hurt, client.health) or before_any_week(client.health)
    if before is not None:
        return before
    rules = rules or rules_for(client.experience)
    offered = tuple(one for one in listed_pulls or candidates() if can_be_done(client, rules, one))
    fitted = fitted_pulls(client.lifter, offered)
    tried = worth_trying(client, rules, fitted, known_spans)
    search = programme(client, rules, tried, known_spans)
    week = search.solve()
    if week is None:
        return NoWeek("nothing", words.nothing_lines(client))
    total = {name: float(counts @ week.sets) for name, counts in counts_by_name(tried, rules).items()}
    rows = _rows(client, rules, (tried, fitted), week, known_spans)
    return Plan(
        client=client,
        rules=rules,
        rows=rows,
        sets={group: total[group] for group in COUNTED},
        bands=bands(client, rules),
        directions={name: total[name] for name in DIRECTIONS},
        weekdays=tuple(WEEKDAYS[day] for day in weekdays(week.days)),
        missing=search.shortfalls(week),
        candidates=tuple(one.candidate for one in fitted),
        notes=_notes(client, rules, rows),
    )


def _rows(client, rules, pulls, week, known_spans):
    """The week's rows by day; on a day what serves the goal most comes first, then what is heaviest on the low back.

    ``pulls``: those that the ``week`` counts, and all that could have been chosen.
    """
    used, (tried, fitted) = np.flatnonzero(week.visits), pulls
    chosen = [tried[i] for i in used]
    dealt = deal(week.visits[used], week.sets[used], week.days, [one.candidate.overhead for one in chosen])
    on = [WEEKDAYS[day] for day in weekdays(week.days)]
    why = {one.name: words.why(one, chosen, fitted, client, rules, known_spans) for one in chosen}

    def serves(place):
        counts = chosen[place].counts(rules)
        return (
            -((1 - client.goal) * counts["lat"] + client.goal * counts["mid-back"]),
            -chosen[place].candidate.low_back,
            place,
        )

    return tuple(
        Row(
            day=day + 1,
            weekday=on[day],
            fitted=chosen[place],
            sets=int(dealt[place, day]),
            repetitions=(rules.repetitions_low, rules.repetitions_high),
            set_counts={group: chosen[place].counts(rules)[group] for group in COUNTED},
            why=why[chosen[place].name],
        )
        for day in range(week.days)
        for place in sorted(np.flatnonzero(dealt[:, day]), key=serves)
    )


def a_plan(plan):
    """Return ``plan`` if it is a `Plan`, else raise `InputError` in words that say how to make one."""
    return thing("plan", plan, Plan, "sm.plan_week(client)")


@checked_call
def by_pull(plan):
    """The pulls of a ``plan`` in the order they come: a tuple of pairs, the first row and all its days; `InputError` for no plan."""
    days = {}
    for row in a_plan(plan).rows:
        days.setdefault(row.name, (row, []))[1].append(row.day)
    return tuple((row, tuple(on)) for row, on in days.values())


def _notes(client, rules, rows):
    """What the week does not say by itself."""
    notes = []
    if not rules.days_low <= client.days <= rules.days_high:
        notes.append(
            f"{counted(client.days, 'day')}: the position stand names {rules.days_low} to {rules.days_high} for "
            f"{client.experience} lifters (Med Sci Sports Exerc 2009;41(3):687-708). At equal weekly sets the number "
            "of days changes size little (SportRxiv 2024)."
        )
    if any(is_wide(row.pull, rules) for row in rows):
        notes.append(
            "A wide pulldown or pull-up: the arm passes 90° of abduction, turned out, and the blade moves less (J Sci Med "
            "Sport 2016;19(8):629-635; 11 people, no injuries counted). A possible risk, not a proven one. Go narrower "
            "if the shoulder complains."
        )
    if any(row.pull.name == BEHIND for row in rows):
        notes.append(
            "Behind the neck: signs of instability at the front of the shoulder were more frequent in lifters who did "
            "these (J Strength Cond Res 2013;27(5):1333-1339; self-report, one moment in time). A possible risk, not a proven "
            "one. Never force the end range. Stop at the first odd feeling in the shoulder."
        )
    return tuple(notes)
