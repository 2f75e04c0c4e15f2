"""Loads of a week: what equipment can be set to, the first load from a known one, and the next load.

A first load comes from the published equations of repetitions and load, as a range over all of them (`repetition`), and only
where a load of that same pull is known. Where nothing is known no load is invented: words say how to find it. Nobody is asked
for a maximum: a load from a normal set will do.
"""

from dataclasses import dataclass
from functools import cache
from math import ceil, floor, inf

from ..inputs import Allowed, InputError, checked_call, choice, flag, mapping, scalar, several, text, thing, whole
from ..repetition import repetition_maximum as published
from ..tables import read_table
from .candidates import a_candidate
from .load_words import found_by, range_words, too_large_lines
from .rules import some_rules

KILOGRAMS = Allowed(
    0.5, 500.0, "kg", "give what was lifted: the pin of the stack, the bar with its plates, one dumbbell"
)
LIFTED = Allowed(
    published.REPETITIONS.low,
    published.REPETITIONS.high,
    "repetitions",
    "give a normal set with a load you can lift 12 times or fewer, never a maximum",
)
ON_TOP = Allowed(0.0, 500.0, "kg", "give the load on the stack, the bar or the belt, or of one dumbbell")
STEP = Allowed(0.1, 50.0, "kg", "give the smallest step of load that there is")
BODY = Allowed(0.0, 300.0, "kg", "give the mass of the body")
PULL_UPS = Allowed(0, 100, "repetitions", "count clean pull-ups in a row, none is 0")
ASKED_ABOVE = Allowed(0.01, 5000.0, "kg", "give a load above zero")
ASKED = Allowed(-5000.0, 5000.0, "kg", "give the load on the stack, the bar or the belt, or of one dumbbell")
DONE = Allowed(0, 1000, "repetitions", "count those of the last set")
CHOSEN = ("stack", "barbell", "dumbbells", "dumbbell", "added")  # ways of loading that are set in kilograms
LONGEST_NAME, LONGEST_WORDS = 60, 200  # letters
CLOSE = 1e-9  # a part of a step; floats of one and the same load differ by less


@checked_call
@dataclass(frozen=True)
class Known:
    """A load that this person has lifted in a normal set, not a maximum.

    Parameters
    ----------
    pull : str
        Name of a candidate.
    load_kg : float
        On the stack, the bar with its plates, one dumbbell, or the load added to the body. [kg]
    repetitions : int
        1 to 12 in that set. Where some were left, the first load comes out lighter than it could be.

    Raises
    ------
    InputError
        Names the field, its value, the allowed range, and what to do.
    """

    pull: str
    load_kg: float
    repetitions: int

    def __post_init__(self):
        if not text("pull", self.pull, LONGEST_NAME):
            raise InputError("pull", f"pull: give the name of a pull, at most {LONGEST_NAME} letters")
        object.__setattr__(self, "load_kg", scalar("load_kg", self.load_kg, KILOGRAMS))
        object.__setattr__(self, "repetitions", whole("repetitions", self.repetitions, LIFTED))


@checked_call
@dataclass(frozen=True)
class Carried:
    """A load that a log has given for the next block: ``pull`` by name, from ``low_kg`` to ``high_kg`` [kg], and its ``words``.

    Both ends are None where no load can be named. `InputError` where a name, a number or the words are not of that kind.
    """

    pull: str
    low_kg: float | None
    high_kg: float | None
    words: str

    def __post_init__(self):
        for name, most in (("pull", LONGEST_NAME), ("words", LONGEST_WORDS)):
            text(name, getattr(self, name), most)
        for name in ("low_kg", "high_kg"):
            if getattr(self, name) is not None:
                object.__setattr__(self, name, scalar(name, getattr(self, name), ON_TOP))
        if (self.low_kg is None) is not (self.high_kg is None) or (self.low_kg or 0) > (self.high_kg or 0):
            raise InputError("low_kg", "low_kg and high_kg: give both, the lower one first, or neither")


@checked_call
@dataclass(frozen=True)
class Step:
    """What loads a piece of ``equipment`` (name) can be set to: ``smallest_kg`` and up from there by ``step_kg``. [kg]

    ``add_on_kg`` [kg] is a small plate on top, 0 for none; ``one_hand`` whether the number is for one hand. ``mark`` and
    ``source`` as in ``data/week_steps.csv``. `InputError` for a load that is none, or ``one_hand`` neither True nor False.
    """

    equipment: str
    smallest_kg: float
    step_kg: float
    add_on_kg: float = 0.0
    one_hand: bool = False
    mark: str = "none"
    source: str = "common practice, no source"

    def __post_init__(self):
        thing("equipment", self.equipment, str)
        for name, allowed in (("smallest_kg", ON_TOP), ("step_kg", STEP), ("add_on_kg", ON_TOP)):
            object.__setattr__(self, name, scalar(name, getattr(self, name), allowed))
        object.__setattr__(self, "one_hand", flag("one_hand", self.one_hand))

    @checked_call
    def down(self, kg):
        """The heaviest load that is not above ``kg`` [kg], or None where even the smallest is. [kg]

        Here and below `InputError` for what is no load.
        """
        kg = scalar("kg", kg, ASKED)
        return self._at(floor((kg - self.smallest_kg) / self.step_kg + CLOSE))

    @checked_call
    def up(self, kg):
        """The lightest load that is not below ``kg`` [kg]. [kg]"""
        kg = scalar("kg", kg, ASKED)
        return self._at(max(ceil((kg - self.smallest_kg) / self.step_kg - CLOSE), 0))

    @checked_call
    def above(self, kg):
        """The next load above ``kg`` [kg]. [kg]"""
        kg = scalar("kg", kg, ASKED)
        return self._at(max(floor((kg - self.smallest_kg) / self.step_kg + CLOSE) + 1, 0))

    def _at(self, count):
        return None if count < 0 else round(self.smallest_kg + count * self.step_kg, 6)

    @checked_call
    def every(self, kg):
        """The same with a step of ``kg`` [kg]; a smallest load that was one step is one step again."""
        kg = scalar("kg", kg, STEP)
        smallest = kg if self.smallest_kg == self.step_kg else self.smallest_kg
        return Step(self.equipment, smallest, kg, self.add_on_kg, self.one_hand, "none", "as given for this client")


@dataclass(frozen=True)
class Load:
    """A load, as a range: from ``low_kg`` to ``high_kg`` [kg], both None where no load can be named.

    ``words`` say it in a few words, or how to find it; ``notes`` is a tuple of lines of what else there is to say.
    """

    low_kg: float | None
    high_kg: float | None
    words: str
    notes: tuple = ()


@cache
def steps():
    """Every piece of equipment whose load is set in kilograms: dict of name -> `Step`, from ``data/week_steps.csv``."""
    return {
        row["equipment"]: Step(
            row["equipment"],
            *(float(row[name]) for name in ("smallest_kg", "step_kg", "add_on_kg")),
            one_hand=row["hand"] == "one",
            mark=row["mark"],
            source=row["source"],
        )
        for row in read_table("week_steps.csv")
    }


def checked_steps(field, given):
    """The smallest steps ``given`` for ``field``, a dict of equipment -> kg or None for none, as a dict; else `InputError`."""
    given = {} if given is None else mapping(field, given, "equipment to its smallest step in kg")
    return {choice(field, name, tuple(steps())): scalar(field, kg, STEP) for name, kg in given.items()}


@checked_call
def step_of(candidate, given=None):
    """The `Step` of the equipment that loads a ``candidate`` (`candidates.Candidate`), None where no load is set in kilograms.

    ``given`` is a dict of equipment -> smallest step [kg], where it is not the table's. `InputError` for other kinds.
    """
    given = checked_steps("given", given)
    if a_candidate(candidate).loading not in CHOSEN:
        return None
    pieces = [piece for one_of in candidate.equipment for piece in ((one_of,) if isinstance(one_of, str) else one_of)]
    piece = next((piece for piece in pieces if piece in steps()), None)
    if piece is None:
        return None
    return steps()[piece].every(given[piece]) if piece in given else steps()[piece]


@checked_call
def first_load(candidate, rules, known=(), *, given=None, mass_kg=0.0, pull_ups=0):
    """The first load of a pull, as a range on the equipment's steps, or words how to find it.

    The range is what can be lifted for the fewest repetitions of a set plus those left at first, by the published equations:
    its low end from the lowest of them, its high end from the highest, both rounded down. It is never more than what was lifted
    for as many repetitions or fewer.

    Parameters
    ----------
    candidate : candidates.Candidate
    rules : rules.Rules
    known : tuple of Known
        Only one of this same pull is used, the last of them.
    given : dict of equipment -> smallest step, optional
        Where it is not the table's. [kg]
    mass_kg : float
        Of the body; carried, too, in a pull with added load. [kg]
    pull_ups : int
        Clean pull-ups in a row.

    Returns
    -------
    Load

    Raises
    ------
    InputError
        What is not of its kind or outside its range; names it.
    """
    some_rules(rules)
    mass_kg, pull_ups = scalar("mass_kg", mass_kg, BODY), whole("pull_ups", pull_ups, PULL_UPS)
    step, known = step_of(candidate, given), several("known", known, Known, "sm.week.Known(...)")
    lifted = next((one for one in reversed(known) if one.pull == candidate.name), None)
    wanted = rules.repetitions_low + rules.repetitions_left_high
    if step is None or lifted is None or wanted > published.REPETITIONS.high:
        notes = (
            ()
            if lifted is None or step is None
            else (f"The equations end at {published.REPETITIONS.high:g} repetitions.",)
        )
        return Load(None, None, found_by(candidate, rules, step, pull_ups), notes)
    body = mass_kg if candidate.loading == "added" else 0.0
    low, high = liftable(lifted.load_kg + body, lifted.repetitions, wanted)
    low, high = step.down(low - body), step.down(high - body)
    if high is None:
        least = f"{step.smallest_kg:g} kg, the smallest load, is more than this asks for"
        instead = (
            f"take the {candidate.easier} first" if candidate.easier else "take fewer repetitions, or another pull"
        )
        return Load(None, None, f"{least}; {instead}")
    low = step.smallest_kg if low is None else low
    return Load(low, high, range_words(candidate, low, high))


@checked_call
def liftable(load_kg, repetitions, wanted):
    """Range (low, high) of the load [kg] for ``wanted`` repetitions of somebody who lifts ``load_kg`` [kg] for ``repetitions``.

    Both 1 to 12, else `InputError`. The widest range that the equations allow; no more than ``load_kg`` where as many or more are wanted.

    >>> low, high = liftable(40.0, 8, 11)
    >>> round(low, 1), round(high, 1)
    (34.5, 40.0)
    """
    wanted = scalar("wanted", wanted, published.REPETITIONS)
    maximum = published.one_repetition_maximum(load_kg, repetitions)
    low, high = published.load_for(maximum.low, wanted).low, published.load_for(maximum.high, wanted).high
    return low, min(high, load_kg) if wanted >= repetitions else high


@checked_call
def step_range(load_kg, rules):
    """Range (low, high) of the next load [kg] after ``load_kg`` [kg]: 2 to 10 % more, as the ``rules`` say.

    Source: position stand, Med Sci Sports Exerc 2009;41(3):687-708 (read; pages from memory). `InputError` for other kinds.
    """
    kg, rules = scalar("load_kg", load_kg, ON_TOP), some_rules(rules)
    return (1 + rules.load_step_low) * kg, (1 + rules.load_step_high) * kg


@checked_call
def next_load(load_kg, rules, step, done=0):
    """The next load after ``load_kg`` [kg], 2 to 10 % more as the ``rules`` say, on the steps of the equipment.

    ``step`` is a `Step`; ``done`` the repetitions of the last set, a whole number. Where the next load is more than that, the load
    stays, or grows by a small plate, and the `Load`'s notes say what to do instead. Other kinds raise `InputError`.
    """
    thing("step", step, Step, "one of sm.week.steps()")
    done, load_kg = whole("done", done, DONE), scalar("load_kg", load_kg, ON_TOP)
    light, heavy = step_range(load_kg, rules)
    low, high = step.up(light), step.down(heavy)
    if high is not None and low <= high:
        return Load(low, high, range_words(None, low, high))
    low = step.above(load_kg)
    if load_kg == 0 or low <= heavy:  # a first plate, or a step of less than 2 %
        return Load(low, low, range_words(None, low, low))
    needed = repetitions_needed(load_kg, low, rules.repetitions_low)
    top = load_kg + step.add_on_kg
    add_on = top if step.add_on_kg and top <= heavy * (1 + CLOSE) else None
    notes = too_large_lines(load_kg, low, needed, add_on, done, rules)
    if add_on:
        return Load(add_on, add_on, f"{add_on:g} kg, with a small plate on top", notes)
    return Load(load_kg, load_kg, f"stay at {load_kg:g} kg", notes)


@checked_call
def repetitions_needed(load_kg, next_kg, wanted):
    """Repetitions (low, high) to be done with ``load_kg`` before ``next_kg`` can be lifted ``wanted`` times, by the equations.

    Not rounded; infinite where an equation is asked beyond its loads. Loads in kilograms, ``wanted`` 1 to 12 repetitions; others raise `InputError`.

    >>> low, high = repetitions_needed(50.0, 55.0, 6)
    >>> round(low, 1), round(high, 1)
    (8.8, 15.6)
    """
    wanted = scalar("wanted", wanted, published.REPETITIONS)
    load_kg, next_kg = scalar("load_kg", load_kg, ASKED_ABOVE), scalar("next_kg", next_kg, ASKED_ABOVE)
    least = published.repetitions_at(published.SHARE.low).each
    each = []
    for name, share in published.share_of_maximum(wanted).each.items():
        asked = share * load_kg / next_kg
        each.append(
            (published.repetitions_at(asked).each[name],) * 2 if asked >= published.SHARE.low else (least[name], inf)
        )
    return min(low for low, _ in each), max(high for _, high in each)
