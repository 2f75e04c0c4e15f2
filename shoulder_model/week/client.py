"""Whom a week is for, and when there is none: health comes before any plan."""

from dataclasses import dataclass, field

from ..inputs import Allowed, InputError, choice, number
from ..people import Lifter, one_person
from ..words import listed
from .candidates import candidates, equipment
from .rules import EXPERIENCE

HEALTH = ("pain", "numbness", "past dislocation", "past surgery")
DAYS = Allowed(1, 6, "days a week", "give the days with a pulling session")
OWN = Allowed(0, 100, "repetitions", "count clean pull-ups in a row, none is 0")
GOAL = Allowed(0.0, 1.0, "", "0 is all for the lat, 1 all for the mid-back")
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
    lifter : people.Lifter
        One person.
    experience : "novice", "intermediate" or "advanced"
    days : int
        Pulling sessions a week, 1 to 6.
    goal : float
        0 is all for the lat, 1 all for the mid-back.
    equipment : tuple of str
        What there is, of `candidates.equipment`.
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
        Names the field, its value, the allowed range, and what to do.
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
            values = getattr(self, name)
            if isinstance(values, str):
                raise InputError(name, f"{name} = {values!r} is one text; give a list of names")
            object.__setattr__(self, name, tuple(choice(name, value, tuple(known)) for value in values))


@dataclass(frozen=True)
class Referral:
    """No plan: what was ticked, and what to do."""

    health: tuple

    @property
    def lines(self):
        """What to do in words, line by line."""
        return (f"No plan. First: {listed(list(self.health))}.", *REFERRAL)

    @property
    def sentence(self):
        """The same in one text."""
        return " ".join(self.lines)
