"""From numbers to a week: a client in; a week of pulls, a clash of wishes, or a referral out.

The week comes from a small integer programme (`session_programme`) over versions of the catalogue's
pulls (`session_pulls`). Its rules stand in ``data/session_rules.csv``, each with source and mark, and
can be changed. A client with pain, numbness, a past dislocation or surgery gets a referral, never a plan.
"""

from dataclasses import dataclass, field

import numpy as np

from .inputs import Allowed, InputError, choice, number
from .lifter import Lifter, one_person
from .pull import Pull
from .session_programme import Programme, Target, Wish, deal
from .session_pulls import (
    BEHIND,
    COUNTED,
    DIRECTIONS,
    EXPERIENCE,
    GROUPS,
    Numbers,
    Rules,
    candidates,
    counted,
    equipment,
    fit,
    model_shares,
    numbers,
    rules,
)
from .session_words import reason, start_words
from .words import listed

HEALTH = ("pain", "numbness", "past dislocation", "past surgery")
DAYS = Allowed(1, 6, "days a week", "give the days with a pulling session")
OWN = Allowed(0, 100, "repetitions", "count clean pull-ups in a row, none is 0")
GOAL = Allowed(0.0, 1.0, "", "0 is all for the lat, 1 all for the mid-back")
OWN_WEIGHT = ("pull-up", "chin-up")
REFERRAL = (
    "Stop what brings it on, and do not test it with a load.",
    "See a licensed clinician (a physician or physiotherapist), and come back with what they allow.",
    "Sudden weakness, a joint that looks out of place, or numbness that stays: go today.",
)


@dataclass(frozen=True)
class Client:
    """Whom the week is for.

    Parameters
    ----------
    lifter : Lifter
        One person.
    experience : "novice", "intermediate" or "advanced"
    days : int
        Pulling sessions a week, 1 to 6.
    goal : float
        0 is all for the lat, 1 all for the mid-back.
    equipment : tuple of str
        What there is, of `session_pulls.equipment`.
    leave_out : tuple of str
        Names of candidates, or of catalogue pulls with all their versions.
    limit_low_back : bool
    health : tuple of str
        What applies of `HEALTH`; anything at all makes the answer a referral.
    own_weight_repetitions : int
        Clean pull-ups in a row; pull-ups and chin-ups need the lower end of the repetitions.
    behind_neck, wide_grip : bool
        Whether behind-the-neck pulls, or pulldowns and pull-ups wider than 1.5 ×, may be in the week at all.

    Raises
    ------
    InputError
    """

    lifter: Lifter
    experience: str = "novice"
    days: int = 2
    goal: float = 0.5
    equipment: tuple = field(default_factory=equipment)
    leave_out: tuple = ()
    limit_low_back: bool = False
    health: tuple = ()
    own_weight_repetitions: int = 0
    behind_neck: bool = False
    wide_grip: bool = False

    def __post_init__(self):
        one_person(self.lifter, "a week")
        choice("experience", self.experience, EXPERIENCE)
        for name, allowed in (("days", DAYS), ("own_weight_repetitions", OWN)):
            value = number(name, getattr(self, name), allowed)
            if value != int(value):
                raise InputError(name, f"{name} = {value:g} {allowed.unit}: give a whole number")
            object.__setattr__(self, name, int(value))
        object.__setattr__(self, "goal", number("goal", self.goal, GOAL))
        names = [name for one in candidates() for name in (one.name, one.pull.name)]
        for name, known in (("equipment", equipment()), ("leave_out", names), ("health", HEALTH)):
            given = getattr(self, name)
            if isinstance(given, str):
                raise InputError(name, f"{name} = {given!r} is one text; give a list of names")
            object.__setattr__(self, name, tuple(choice(name, one, tuple(known)) for one in given))


@dataclass(frozen=True)
class Row:
    """One pull on one day.

    ``set_counts`` says what one of its sets counts for each muscle group; ``grip_cm`` is between the
    middles of the hands.
    """

    day: int
    name: str
    pull: Pull
    grip_cm: float
    elbow_words: str
    sets: int
    repetitions: tuple
    start: str
    reason: str
    numbers: Numbers
    direct: tuple
    set_counts: dict


@dataclass(frozen=True)
class Plan:
    """A week: its rows by day, the sets it counts, the bands it aims at, and what to say beside it.

    Parameters
    ----------
    rows : tuple of Row
    sets : dict of group -> weekly sets, helper sets counted as halves
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
        """Rows of one day, 1 the first."""
        return tuple(row for row in self.rows if row.day == day)

    @property
    def sentence(self):
        """The week in two sentences."""
        pulls = dict.fromkeys(row.name for row in self.rows)
        sets = listed(
            [f"{self.sets[name]:g}{' weekly sets' if not i else ''} for the {name}" for i, name in enumerate(COUNTED)]
        )
        wanted = " and ".join(f"{self.bands[group][2]:g}" for group in GROUPS)
        asked = listed([f"{count:g} ask for {name}" for name, count in self.directions.items()])
        low, high = self.rows[0].repetitions
        return (
            f"{self.client.days} days, {self.rows[0].sets} sets of {low} to {high} each: {listed(list(pulls))}. That counts "
            f"{sets}, helper sets as halves; wanted are {wanted}. Of the sets {asked}."
        )


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
        """What cannot be met, wish by wish, and what would help."""
        told = [f"{name} (kept for safety)" if name in self.firm else name for name in self.wishes]
        if len(self.wishes) == 1:
            return ("No week meets this wish, whatever else is given up:", *told)
        help_words = "No single wish that may be given up is enough."
        if self.ways_out:
            help_words = f"Giving up one is enough: {' or '.join(f'“{name}”' for name in self.ways_out)}."
        return ("No week meets all of these together:", *told, help_words)

    @property
    def sentence(self):
        """The same in one or two sentences."""
        head, *rest = self.lines
        count = len(self.wishes)
        wishes = "; ".join(f"“{name}”" for name in rest[:count])
        return " ".join([head, f"{wishes}.", *rest[count:]])


@dataclass(frozen=True)
class Referral:
    """No plan: what was ticked, and what to do."""

    health: tuple

    @property
    def lines(self):
        """What to do, line by line."""
        return (f"No plan. First: {listed(list(self.health))}.", *REFERRAL)

    @property
    def sentence(self):
        """The same in one text."""
        return " ".join(self.lines)


def week(client, given=None, shares=model_shares, listed_pulls=None):
    """The week for a client.

    Parameters
    ----------
    client : Client
    given : Rules, optional
        Targets and limits; without it those of the client's experience.
    shares : callable (lifter, candidate) -> dict of group -> (value, low, high)
        Of the muscular work over a rep; without it the muscle model's.
    listed_pulls : tuple of Candidate, optional
        Without it all of `session_pulls.candidates`.

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
    given = given or rules(client.experience)
    pulls, found = able(client, shares, listed_pulls)
    one = programme(client, given, pulls, found)
    visits = one.solve()
    if visits is None:
        clash = one.clash()
        ways_out, firm = one.ways_out(clash), [wish for wish in clash if wish.firm]
        return Clash(client, *(tuple(wish.name for wish in part) for part in (clash, ways_out, firm)))
    return _plan(client, given, pulls, found, visits)


def able(client, shares=model_shares, listed_pulls=None):
    """Candidates that the client's arm can do, and their `Numbers`."""
    pulls = tuple(listed_pulls or candidates())
    found = numbers(client.lifter, pulls, shares)
    kept = [i for i, one in enumerate(found) if one is not None]
    return tuple(pulls[i] for i in kept), tuple(found[i] for i in kept)


def set_counts(pulls, found, given):
    """What one set of each candidate counts: dict of muscle group or direction -> ndarray (pulls,)."""
    each = [counted(one, number, given) for one, number in zip(pulls, found, strict=True)]
    counts = {group: np.array([one[group] for one in each]) for group in COUNTED}
    for name in DIRECTIONS:
        counts[name] = np.array([float(one.directions[name] >= given.direction_share) for one in found])
    return counts


def bands(client, given):
    """Weekly sets (low, high, wanted) of each group with a target; the goal slides the wanted ones, in half sets."""
    low, high = given.weekly_sets_low, given.weekly_sets_high
    wish = {"lat": 1 - client.goal, "mid-back": client.goal}
    return {group: (low, high, round(2 * (low + (high - low) * wish[group])) / 2) for group in GROUPS}


def programme(client, given, pulls, found):
    """The integer programme of one client over ``pulls`` with their `Numbers`."""
    size, counts = given.sets_per_visit, set_counts(pulls, found, given)
    per_visit = {name: size * count for name, count in counts.items()}
    most = max(1, min(client.days, given.pull_sets // size))
    aims = bands(client, given)
    return Programme(
        most=np.full(len(pulls), most),
        least=np.ones(len(pulls), int),
        wishes=(*_own_wishes(client, given, pulls, size), *_set_wishes(client, given, per_visit, size, pulls)),
        targets=tuple(Target(group, per_visit[group], aims[group][2]) for group in GROUPS),
        visit_cost=(100 - np.round(100 * fit(found, client.goal))).astype(int),
    )


def _own_wishes(client, given, pulls, size):
    """What the client brings; named first, so that a clash names these before the general ones."""

    def none_of(name, out, firm=False):
        return Wish(name, np.array(out, float), high=0.0, firm=firm)

    wishes = [Wish(f"pulls on each of {client.days} days", np.ones(len(pulls)), low=client.days)]
    for piece in equipment():
        if piece not in client.equipment:
            wishes.append(none_of(f"no {piece} there", [piece in one.equipment for one in pulls]))
    for name in client.leave_out:
        wishes.append(none_of(f"the {name} left out", [name in (one.name, one.pull.name) for one in pulls]))
    if client.limit_low_back:
        grade = np.array([one.low_back for one in pulls])
        wishes.append(none_of("no row with the largest load on the low back", grade == 2, firm=True))
        some = f"at most {given.low_back_sets:g} weekly sets that load the low back some"
        wishes.append(Wish(some, size * (grade == 1.0), high=given.low_back_sets, firm=True))
    if client.own_weight_repetitions < given.repetitions_low:
        name = f"no pull-ups or chin-ups before {given.repetitions_low} in a row"
        wishes.append(none_of(name, [one.pull.name in OWN_WEIGHT for one in pulls], firm=True))
    if not client.wide_grip:
        name = f"no pulldown or pull-up wider than {given.grip_high:g} ×"
        wishes.append(none_of(name, [_wide(one.pull, given) for one in pulls], firm=True))
    if not client.behind_neck:
        wishes.append(none_of("behind-the-neck pulls left out", [one.pull.name == BEHIND for one in pulls], firm=True))
    return wishes


def _wide(pull, given):
    """Whether this is a pulldown or pull-up to the front with a grip wider than the rules' limit."""
    return pull.grip_ratio > given.grip_high and np.cos(pull.pull_angle) > 0.5 and pull.name != BEHIND


def _set_wishes(client, given, per_visit, size, pulls):
    """What every week has to hold."""
    low, high = given.weekly_sets_low, given.weekly_sets_high
    wishes = [Wish(f"at least {low:g} weekly sets for the {group}", per_visit[group], low=low) for group in GROUPS]
    least = given.direction_sets
    wishes += [Wish(f"at least {least:g} weekly sets of {name}", per_visit[name], low=least) for name in DIRECTIONS]
    wishes += [Wish(f"at most {high:g} weekly sets for the {group}", per_visit[group], high=high) for group in GROUPS]
    every = np.ones(len(pulls))
    visits = client.days * (given.session_sets // size)  # dealt out evenly, so no day gets more than its part
    wishes.append(Wish(f"at most {given.session_sets} sets in a session", every, high=visits))
    variety = f"{given.pulls_low} to {given.pulls_high} different pulls"
    wishes.append(Wish(variety, per_use=every, low=given.pulls_low, high=given.pulls_high))
    names = list(dict.fromkeys(one.pull.name for one in pulls))
    same = np.array([[one.pull.name == name for one in pulls] for name in names], float)
    wishes.append(Wish("one version of each pull", per_use=same, high=1.0))
    return wishes


def _plan(client, given, pulls, found, visits):
    counts, size = set_counts(pulls, found, given), given.sets_per_visit
    total = {name: float(size * count @ visits) for name, count in counts.items()}
    chosen = np.flatnonzero(visits)
    placed = deal(visits, client.days)
    serves = fit(found, client.goal)
    rows = []
    for day in range(client.days):
        for i in sorted(
            np.flatnonzero(placed[:, day]), key=lambda i: -serves[i]
        ):  # what serves the goal most comes first
            rows.append(
                Row(
                    day=day + 1,
                    name=pulls[i].name,
                    pull=pulls[i].pull,
                    grip_cm=found[i].grip_cm,
                    elbow_words=pulls[i].elbow_words,
                    sets=size,
                    repetitions=(given.repetitions_low, given.repetitions_high),
                    start=start_words(pulls[i].pull, given),
                    reason=reason(i, chosen, pulls, found, counts, client),
                    numbers=found[i],
                    direct=pulls[i].direct,
                    set_counts={group: float(counts[group][i]) for group in COUNTED},
                )
            )
    return Plan(
        client=client,
        rules=given,
        rows=tuple(rows),
        sets={group: total[group] for group in COUNTED},
        bands=bands(client, given),
        directions={name: total[name] for name in DIRECTIONS},
        notes=_notes(client, given, rows),
    )


def _notes(client, given, rows):
    """What the week does not say by itself."""
    notes = []
    if not given.days_low <= client.days <= given.days_high:
        notes.append(
            f"{client.days} days: the position stand names {given.days_low} to {given.days_high} for "
            f"{client.experience} lifters (Med Sci Sports Exerc 2009;41(3):687-708); at equal weekly sets the number "
            "of days changes size little (SportRxiv 2024)."
        )
    if any(_wide(row.pull, given) for row in rows):
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
