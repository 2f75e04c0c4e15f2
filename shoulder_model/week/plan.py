"""From numbers to a week: a client in; a week of pulls, a clash of wishes, or a referral out.

The week comes from a small integer programme (`wishes`, `programme`) over versions of the catalogue's pulls
(`candidates`). Its rules stand in ``data/week_rules.csv``, each with source and mark, and can be changed. A client
with pain, numbness, a past dislocation or surgery gets a referral, never a plan.
"""

from dataclasses import dataclass

import numpy as np

from ..mechanics import Pull
from ..words import counted, listed
from . import words
from .candidates import BEHIND, COUNTED, DIRECTIONS, GROUPS, FittedPull, fit, fitted_pulls, model_shares
from .client import Client, Referral
from .programme import deal
from .rules import Rules
from .rules import rules as rules_for
from .wishes import bands, counts_by_name, is_wide, programme


@dataclass(frozen=True)
class Row:
    """One pull on one ``day``, 1 the first.

    ``fitted`` the pull with its numbers; ``sets`` of ``repetitions`` (low, high); ``start`` and ``reason`` in words;
    ``set_counts`` says what one of its sets counts for each muscle group.
    """

    day: int
    fitted: FittedPull
    sets: int
    repetitions: tuple
    start: str
    reason: str
    set_counts: dict

    @property
    def name(self) -> str:
        """The candidate's name."""
        return self.fitted.name

    @property
    def pull(self) -> Pull:
        """The candidate's `Pull`, its name and set-up."""
        return self.fitted.pull

    @property
    def grip_cm(self) -> float:
        """Between the middles of the hands. [cm]"""
        return self.fitted.grip_cm

    @property
    def elbow_words(self) -> str:
        """Which way to send the elbows, in words."""
        return self.fitted.candidate.elbow_words

    @property
    def direct(self) -> tuple:
        """Names of the muscle groups that a set counts 1 for."""
        return self.fitted.candidate.direct


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
    notes : tuple of str
    """

    client: Client
    rules: Rules
    rows: tuple
    sets: dict
    bands: dict
    directions: dict
    notes: tuple

    def day(self, day):
        """Rows of one ``day``, 1 the first: a tuple of `Row`."""
        return tuple(row for row in self.rows if row.day == day)

    @property
    def verdict(self):
        """Days, pulls and the sets that were wanted, in two sentences."""
        pulls = listed(list(dict.fromkeys(row.name for row in self.rows)))
        sets = listed([f"{self.sets[group]:g} for the {group} (wanted {self.bands[group][2]:g})" for group in GROUPS])
        low, high = self.rows[0].repetitions
        days, size = counted(self.client.days, "day"), counted(self.rows[0].sets, "set")
        return f"{days}, {size} of {low} to {high} each: {pulls}. Weekly sets: {sets}."

    @property
    def counting(self):
        """How sets count, and what else they count for, in two sentences."""
        helper = "halves" if self.rules.helper_set == 0.5 else f"{self.rules.helper_set:.2g} of a set"
        others = listed([f"{self.sets[name]:g} for the {name}" for name in COUNTED if name not in GROUPS])
        asked = listed([f"{sets:g} ask{'s' * (sets == 1)} for {name}" for name, sets in self.directions.items()])
        return f"With helper sets as {helper} that makes {others}. Of all sets {asked}."

    @property
    def sentence(self):
        """The week in words."""
        return f"{self.verdict} {self.counting}"


@dataclass(frozen=True)
class Clash:
    """Wishes that cannot hold together and of which none can be spared, by name.

    ``ways_out`` are those whose giving up alone is enough; ``firm`` those kept for safety.
    """

    client: Client
    wishes: tuple
    ways_out: tuple
    firm: tuple = ()

    @property
    def lines(self):
        """What cannot be met in words, wish by wish, and what would help."""
        told = [f"{name} (kept for safety)" if name in self.firm else name for name in self.wishes]
        if len(self.wishes) == 1:
            return ("No week meets this wish, whatever else is given up:", *told)
        help_words = "No single wish that may be given up is enough."
        if self.ways_out:
            help_words = f"Giving up one is enough: {' or '.join(f'“{name}”' for name in self.ways_out)}."
        return ("No week meets all of these together:", *told, help_words)

    @property
    def sentence(self):
        """The same words in one or two sentences."""
        head, *rest = self.lines
        count = len(self.wishes)
        wishes = "; ".join(f"“{name}”" for name in rest[:count])
        return " ".join([head, f"{wishes}.", *rest[count:]])


def plan_week(client, rules=None, *, shares=model_shares, listed_pulls=None):
    """The week for a client.

    Parameters
    ----------
    client : Client
    rules : Rules, optional
        Targets and limits; without it those of the client's experience.
    shares : callable (lifter, candidate) -> dict of group -> (value, low, high)
        Of the active muscle over a rep, 0 to 1; without it the muscle model's.
    listed_pulls : tuple of Candidate, optional
        Without it all of `candidates.candidates`.

    Returns
    -------
    Plan, Clash or Referral
        Each with a ``sentence``. A client with a health tick gets the `Referral` before anything is computed.

    Notes
    -----
    A start to test on the person, not a proven best: which pull makes which back muscle grow more is
    an open question, and the shares rest on a model with landmarks from memory.
    """
    if client.health:
        return Referral(client.health)
    rules = rules or rules_for(client.experience)
    fitted = fitted_pulls(client.lifter, listed_pulls, shares)
    search = programme(client, rules, fitted)
    visits = search.solve()
    if visits is not None:
        return _plan(client, rules, fitted, visits)
    clash = search.clash()
    parts = clash, search.ways_out(clash), [wish for wish in clash if wish.firm]
    return Clash(client, *(tuple(wish.name for wish in part) for part in parts))


def _plan(client, rules, fitted, visits):
    """The solver's ``visits`` (pulls,) as a `Plan`."""
    total = {
        name: float(rules.sets_per_visit * counts @ visits) for name, counts in counts_by_name(fitted, rules).items()
    }
    rows = _rows(client, rules, fitted, visits)
    return Plan(
        client=client,
        rules=rules,
        rows=rows,
        sets={group: total[group] for group in COUNTED},
        bands=bands(client, rules),
        directions={name: total[name] for name in DIRECTIONS},
        notes=_notes(client, rules, rows),
    )


def _rows(client, rules, fitted, visits):
    """The week's rows by day; on a day what serves the goal most comes first."""
    placed, serves = deal(visits, client.days), fit(fitted, client.goal)
    chosen = [fitted[i] for i in np.flatnonzero(visits)]
    rows = []
    for day in range(client.days):
        for i in sorted(np.flatnonzero(placed[:, day]), key=lambda i: -serves[i]):
            counts = fitted[i].counts(rules)
            rows.append(
                Row(
                    day=day + 1,
                    fitted=fitted[i],
                    sets=rules.sets_per_visit,
                    repetitions=(rules.repetitions_low, rules.repetitions_high),
                    start=words.start_words(fitted[i].pull, rules),
                    reason=words.reason(fitted[i], chosen, rules, client),
                    set_counts={group: counts[group] for group in COUNTED},
                )
            )
    return tuple(rows)


def _notes(client, rules, rows):
    """What the week does not say by itself."""
    notes = []
    if not rules.days_low <= client.days <= rules.days_high:
        notes.append(
            f"{counted(client.days, 'day')}: the position stand names {rules.days_low} to {rules.days_high} for "
            f"{client.experience} lifters (Med Sci Sports Exerc 2009;41(3):687-708); at equal weekly sets the number "
            "of days changes size little (SportRxiv 2024)."
        )
    if any(is_wide(row.pull, rules) for row in rows):
        notes.append(
            "A wide pulldown or pull-up: the arm passes 90° of abduction, turned out, and the blade moves less (J Sci Med "
            "Sport 2016;19(8):629-635; 11 people, no injuries counted): a possible risk, not a proven one. Narrower "
            "if the shoulder complains."
        )
    if any(row.pull.name == BEHIND for row in rows):
        notes.append(
            "Behind the neck: signs of instability at the front of the shoulder were more frequent in lifters who did "
            "these (J Strength Cond Res 2013;27(5):1333-1339; self-report, one moment in time): a possible risk, not a proven "
            "one. Never force the end range; stop at the first odd feeling in the shoulder."
        )
    return tuple(notes)
