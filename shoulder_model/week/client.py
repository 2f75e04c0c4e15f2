"""Whom a week is for: measures, level, what there is, what is wished, and what health allows."""

from dataclasses import dataclass, field

from ..inputs import (
    Allowed,
    InputError,
    checked_call,
    choice,
    choices,
    flag,
    mapping,
    scalar,
    several,
    text,
    thing,
    whole,
)
from ..json_file import is_written
from ..people import Lifter, one_person
from .candidates import candidates, equipment
from .health import LIMITS, LONGEST_NOTE, checked_answers, limits_of
from .load import Carried, Known, checked_steps
from .rules import EXPERIENCE, rules
from .wish_names import WISHES

DAYS = Allowed(1, 6, "days a week", "give the days with a pulling session")
OWN = Allowed(0, 100, "repetitions", "count clean pull-ups in a row, none is 0")
GOAL = Allowed(0.0, 1.0, "", "0 is all for the lat, 1 all for the mid-back")
LONGEST_NAME = 60  # letters


@checked_call
@dataclass(frozen=True)
class Client:
    """Whom the week is for.

    Parameters
    ----------
    lifter : people.Lifter
        One person.
    experience : "novice", "intermediate" or "advanced"
    days : int
        Pulling sessions a week, 1 to 6.
    goal : float
        0 is all for the lat, 1 all for the mid-back.
    health : dict of question -> "no", "yes", "cleared" or None
        Answers to `health.questions`; one that is missing or None is not answered yet, and then there is no week.
    cleared : str
        Who cleared this person and with which limits, as it is to stand on the page; needed where an answer is "cleared".
    limits : tuple of str
        Names of `health.LIMITS` that hold; a sore low back brings its own.
    equipment : tuple of str
        What there is, of `candidates.equipment`.
    leave_out, prefer : tuple of str
        Names of candidates or of families, with all their versions; what the coach would rather have.
    own_weight_repetitions : int
        Clean pull-ups in a row; they say which version of the pull-up this person can do.
    behind_neck, wide_grip : bool
        Whether behind-the-neck pulls, or pulldowns and pull-ups wider than 1.5 ×, may be in the week at all.
    wishes : tuple of str
        Names of `wish_names.WISHES`, the most important first; what is left out is not wished.
    known : tuple of load.Known
        Loads that this person has lifted.
    carried : tuple of load.Carried
        Loads that the last block's log has given; they come before any first load.
    steps : dict of equipment -> kg
        Smallest step of load where it is not the table's (`load.steps`).
    hurt : tuple of str
        Pulls that hurt in a log, names of candidates; then there is no week before an answer is "cleared".
    name : str
        As it is to stand on the page.

    Raises
    ------
    InputError
        Names the field, its value, the allowed range, and what to do.
    """

    lifter: Lifter
    experience: str = "novice"
    days: int = 2
    goal: float = 0.5
    health: dict = field(default_factory=dict, hash=False)
    cleared: str = ""
    limits: tuple = ()
    equipment: tuple = field(default_factory=equipment)
    leave_out: tuple = ()
    prefer: tuple = ()
    own_weight_repetitions: int = 0
    behind_neck: bool = False
    wide_grip: bool = False
    wishes: tuple = tuple(WISHES)
    known: tuple = ()
    carried: tuple = ()
    steps: dict = field(default_factory=dict, hash=False)
    hurt: tuple = ()
    name: str = ""

    def __post_init__(self):
        one_person(self.lifter, "a week")
        choice("experience", self.experience, EXPERIENCE)
        for name, allowed in (("days", DAYS), ("own_weight_repetitions", OWN)):
            self._put(name, whole(name, getattr(self, name), allowed))
        self._put("goal", scalar("goal", self.goal, GOAL))
        for name in ("behind_neck", "wide_grip"):
            self._put(name, flag(name, getattr(self, name)))
        self._check_names()
        self._check_health()
        self._check_loads()

    def _put(self, name, value):
        object.__setattr__(self, name, value)

    def _check_names(self):
        pulls = tuple(dict.fromkeys(name for one in candidates() for name in (one.name, one.family)))
        known = {
            "equipment": equipment(),
            "leave_out": pulls,
            "hurt": pulls,
            "prefer": pulls,
            "limits": tuple(LIMITS),
            "wishes": tuple(WISHES),
        }
        for name, names in known.items():
            self._put(name, choices(name, getattr(self, name), names))
        if len(thing("name", self.name, str)) > LONGEST_NAME or not is_written(self.name):
            raise InputError("name", f"name: give a text of at most {LONGEST_NAME} letters")

    def _check_health(self):
        self._put("health", checked_answers(self.health))
        if len(thing("cleared", self.cleared, str)) > LONGEST_NOTE:
            raise InputError("cleared", f"cleared: give a text of at most {LONGEST_NOTE} letters")
        self._put("cleared", text("cleared", " ".join(self.cleared.split()), LONGEST_NOTE))
        if "cleared" in self.health.values() and not self.cleared:
            raise InputError("cleared", "cleared: write down who cleared this person, and with which limits")

    def _check_loads(self):
        names = tuple(one.name for one in candidates())
        for name, kind in (("known", Known), ("carried", Carried)):
            loads = several(name, getattr(self, name), kind, f"sm.week.{kind.__name__}(...)")
            for one in loads:
                choice(name, one.pull, names)
            self._put(name, loads)
        most = rules(self.experience).known_load_most * float(self.lifter.mass)
        for one in self.known:
            if one.load_kg > most:
                raise InputError(
                    "known", f"known: {one.load_kg:g} kg for the {one.pull}? That is over {most:.0f} kg; check it"
                )
        self._put("steps", checked_steps("steps", mapping("steps", self.steps, "equipment to its smallest step in kg")))

    @property
    def holds(self):
        """Every limit that holds, a tuple of names of `health.LIMITS`: those given and those the answers bring."""
        return tuple(dict.fromkeys((*limits_of(self.health), *self.limits)))

    def wants(self, candidate, names):
        """Whether ``candidate`` (`candidates.Candidate`) is among some ``names`` of candidates or families."""
        return candidate.name in names or candidate.family in names


def a_client(client):
    """Return ``client`` if it is a `Client`, else raise `InputError` in words that say how to make one."""
    return thing("client", client, Client, "sm.Client(lifter, ...)")
