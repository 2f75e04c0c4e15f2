"""What is not known, drawn: standard normal numbers in, a body, a grip and a way to do the pull out.

Each input of the register has a stream of random numbers of its own, from the seed and the draw's number. So a draw can be
had alone, and one input of it can be exchanged for that of another draw, which is how indices of what matters are made.

**Strength is anchored.** What a lifter can pull was measured (`muscles.expected_strength`); muscle sizes were not, in the
same people. A drawn body with larger muscles would pull more than the people who were measured. So each drawn body gets the
factor with which the survey's mean man or woman still holds what college lifters held in the front pulldown. What is left of
muscle sizes is how the muscles share; specific tension cancels.
"""

from dataclasses import dataclass
from functools import cache, cached_property, lru_cache

import numpy as np

from ..inputs import Allowed, checked_call, choice, flag, thing, whole
from ..mechanics import pulls
from ..mechanics.pull import ALLOWED, a_pull
from ..muscles import Strength, body_from, deviations, expected_strength, reference_body
from ..people import Lifter
from ..people.lifter import SEED, SEXES
from ..repetition import ManyReps, options_of
from ..repetition.strength import REFERENCE, expected_pulldown
from ..sources import constant, fact
from .uncertain import names_of

NOT_KNOWN = names_of("not known")
DRAWS = Allowed(1, 1_000_000, "draws", "draw at least one")
NUMBER = Allowed(0, 2**62, "", "count draws from 0")
OF_THE_BODY = (
    "landmarks",
    "muscle sizes",
    "fibre lengths",
    "scapular rhythm",
    "grip friction",
)  # what moves the anchor
POINTS = 21  # along the pulldown that anchors strength
ROUNDS = 3  # of scaling; the load follows the factor almost in proportion
OF_ONE = {
    "specific tension": 1,
    "scapular rhythm": 1,
    "blade travel": 2,
    "touch point": 2,
    "trunk lean": 1,
    "grip friction": 1,
}


@cache
def _counts():
    """How many standard normal numbers each input takes, by name."""
    return {
        "landmarks": deviations()["landmarks"],
        "muscle sizes": deviations()["sizes"],
        "fibre lengths": deviations()["fibres"],
    } | OF_ONE


def _between(name, deviate):
    """A log-normal value with the range of the constant ``name`` as ± 2 SD, for a standard normal ``deviate``."""
    known = constant(name)
    return float(np.sqrt(known.low * known.high) * np.exp(deviate * np.log(known.high / known.low) / 4))


def _about(name, deviate):
    """A normal value with the range of the constant ``name`` as ± 2 SD."""
    known = constant(name)
    return float((known.low + known.high) / 2 + deviate * (known.high - known.low) / 4)


@dataclass(frozen=True)
class Drawn:
    """One draw of everything that is not known.

    ``deviates`` (tuple of pairs): a name of the register and its standard normal numbers, a tuple; what is not named stays
    as the tables have it.
    """

    deviates: tuple = ()

    @cached_property
    def _by_name(self):
        return dict(self.deviates)

    def _of(self, name):
        """Standard normal numbers of one input, or None where it stays as it is."""
        return self._by_name.get(name)

    @cached_property
    def body(self):
        """The `muscles.Body`: landmarks [m], cross-sections [cm²], fibres [m], rhythm."""
        if not self.deviates:
            return reference_body()
        rhythm = self._of("scapular rhythm")
        return body_from(
            landmarks=self._of("landmarks"), sizes=self._of("muscle sizes"), fibres=self._of("fibre lengths"),
            rhythm=1.0 if rhythm is None else _between("scapular_rhythm_of_people", rhythm[0]),
        )  # fmt: skip

    @cached_property
    def friction(self):
        """Of the grip, a ratio."""
        drawn = self._of("grip friction")
        return fact("grip_friction") if drawn is None else _between("grip_friction", drawn[0])

    @cached_property
    def tension(self):
        """Specific tension over the table's, a ratio."""
        drawn = self._of("specific tension")
        return 1.0 if drawn is None else _between("specific_tension", drawn[0]) / fact("specific_tension")

    @property
    def options(self):
        """Options by name, a dict, of `repetition.rep` and `sweep`: ``body`` and ``friction``; strength comes from `strength`."""
        return {"body": self.body, "friction": self.friction}

    @checked_call
    def pull(self, pull):
        """The ``pull`` (`mechanics.Pull`) as it is really done: touch point [m], lean [rad] and the blade's travel moved.

        A blade that is held stays held; what would leave the range of a field stops at its end.
        """
        changed, pull = {}, a_pull(pull)
        if (lean := self._of("trunk lean")) is not None:
            changed["trunk_lean"] = pull.trunk_lean + np.radians(fact("lean_by_eye_deg")) * lean[0]
        if (touch := self._of("touch point")) is not None:
            across = np.hypot(fact("tape_reading"), constant("gh_below_acromion").half_range)
            changed["touch_shift_forward"] = pull.touch_shift_forward + fact("tape_reading") * touch[0]
            changed["touch_shift_up"] = pull.touch_shift_up + across * touch[1]
        if (travel := self._of("blade travel")) is not None:
            changed["girdle_travel"] = pull.girdle_travel * max(_about("blade_travel_of_people", travel[0]), 0.0)
            changed["girdle_lead"] = pull.girdle_lead + _about("blade_lead_of_people", travel[1])
        return pull.change(**{name: _kept(name, value) for name, value in changed.items()})

    @checked_call
    def strength(self, strength, sex, anchored=True):
        """A ``strength`` for this body.

        Parameters
        ----------
        strength : muscles.Strength
        sex : "men" or "women"
        anchored : bool
            True: its factor times what lets this body hold the measured pulldown. False: times the drawn specific tension, a
            strength that is counted from muscle sizes alone.

        Returns
        -------
        muscles.Strength
            Ratios.
        """
        thing("strength", strength, Strength, "sm.expected_strength(lifter)")
        sex, anchored = choice("sex", sex, SEXES), flag("anchored", anchored)
        if not self.deviates:
            return strength
        change = _anchor(self.only(*OF_THE_BODY), sex) if anchored else self.tension
        factors = (np.asarray(value) * change for value in (strength.factor, strength.low, strength.high))
        return Strength(*(float(v) if v.ndim == 0 else v for v in factors), strength.elbow, strength.known_from)

    def with_input(self, name, other):
        """This draw with the input ``name`` (text) of the draw ``other``."""
        choice("input", name, NOT_KNOWN)
        parts = {**self._by_name, name: other._of(name)}
        return Drawn(tuple((key, parts[key]) for key in NOT_KNOWN if parts.get(key) is not None))

    def only(self, *names):
        """This draw with the inputs ``names`` (text) alone; the others as the tables have them."""
        kept = [choice("input", name, NOT_KNOWN) for name in names]
        return Drawn(tuple((key, value) for key, value in self.deviates if key in kept))


def _kept(name, value):
    """A field's value or values inside its range."""
    kept = np.clip(value, ALLOWED[name].low, ALLOWED[name].high)
    return float(kept) if np.ndim(kept) == 0 else kept


@lru_cache(maxsize=4096)
def _anchor(drawn, sex):
    """The change of the strength factor with which the drawn body holds the measured pulldown. A ratio.

    The pull stays as it is written: its touch point and lean were those of the people who were measured.
    """
    person = Lifter.average(sex)
    usual, wanted, change = expected_strength(person), expected_pulldown(person)[0], 1.0
    for _ in range(ROUNDS):
        factor = usual.factor * change
        strength = Strength(factor, factor, factor, usual.elbow, usual.known_from)
        options = options_of({"points": POINTS, "strength": strength} | drawn.options)
        change *= wanted / float(ManyReps(person, pulls[REFERENCE], options, {}).load_kg[0])
    return change


def as_tabled():
    """The `Drawn` that changes nothing: all inputs as the tables have them, in their units."""
    return Drawn()


@checked_call
def draw(seed, number):
    """The draw with one ``number`` (from 0) of a ``seed``, whole numbers: a `Drawn`."""
    seed, number = whole("seed", seed, SEED), whole("number", number, NUMBER)
    return Drawn(tuple((name, _deviates(seed, number, name, count)) for name, count in _counts().items()))


def _deviates(seed, number, name, count):
    return tuple(np.random.default_rng([seed, number, *name.encode()]).standard_normal(count).tolist())


@checked_call
def drawn_inputs(n, seed):
    """Draws of everything that is not known.

    Parameters
    ----------
    n : int
        How many, a whole number.
    seed : int
        0 or more; the same one gives the same draws, and fewer of them are the first of more.

    Returns
    -------
    tuple of Drawn

    >>> drawn_inputs(3, 1)[:2] == drawn_inputs(2, 1)
    True
    """
    return tuple(draw(seed, number) for number in range(whole("n", n, DRAWS)))
