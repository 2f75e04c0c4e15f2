"""What a study is made of, and how it is cut into blocks.

    draws x pulls x people x grips x leans x points        draw 0 is the tables as they stand

A block is one draw, one pull and some people who follow each other, with all grips, leans and points. Whoever does it, in
whatever order and of whatever size, its bits are the same: people come from pages (`people.crowd`), draws from streams of
their own (`drawn`), and every posture is worked out by itself.
"""

from dataclasses import dataclass, replace
from functools import cached_property

import numpy as np

from ..inputs import InputError
from ..mechanics import Pull
from ..muscles import Strength, expected_strength
from ..people import MEASURES, Crowd, Lifter
from ..repetition import ManyReps, RepOptions, options_of
from .answers import BEST, GRIP, answer_called, best_of
from .drawn import as_tabled, draw
from .people import STREAM, strength_of

BYTES = {"mechanics": 2_000, "arms": 4_000, "work": 5_000}  # of working memory a posture takes at most, measured
POSTURES = 40_000  # of a block where memory allows more: larger ones are no faster
STRENGTHS = ("drawn", "expected")
MECHANICS_ONLY = ("gh_centre", "hand", "elbow", "elbow_flexion", "elbow_past_ribs", "girdle_posture", "elevation",
    "plane_of_elevation", "forearm_turn", "hand_offset", "line_offset", "touched", "short_of_touch", "force", "shoulder_torque",
    "elbow_torque", "girdle_torque", "shoulder_turn", "elbow_turn", "girdle_turn", "most_shoulder_torque",
    "best_grip_by_most_shoulder_torque")  # fmt: skip
ARMS = (
    "lat_moment_arm",
    "best_grip_by_lat_moment_arm",
    "muscle_moment_arm",
    "elbow_moment_arm",
    "girdle_moment_arm",
    "muscle_length",
    "scapular_upward_rotation",
)


@dataclass(frozen=True)
class Block:
    """One ``draw`` (whole number), the place of one ``pull``, and a slice of people, ``start`` to ``stop``."""

    draw: int
    pull: int
    start: int
    stop: int


@dataclass(frozen=True)
class Plan:
    """Everything that decides a study's numbers, and the size of its blocks.

    ``crowd`` (`people.Crowd` or `people.Lifter`); ``pulls`` (tuple of `mechanics.Pull`); ``fields``, a tuple of pairs of name and
    values; ``answers`` (names); ``draws`` beside the tables; ``seed``; ``strength`` one of `STRENGTHS`; ``anchored`` as of
    `drawn.Drawn.strength`; ``options`` of a rep, a tuple of pairs; ``rows`` people in a block; ``tails`` of `tails_of`, which are worked out once.
    """

    crowd: object
    pulls: tuple
    fields: tuple
    answers: tuple
    draws: int
    seed: int
    strength: str
    anchored: bool
    options: tuple
    rows: int
    tails: tuple = ()

    @cached_property
    def people(self):
        """How many, a whole number."""
        return self.crowd.n if isinstance(self.crowd, Crowd) else int(np.size(self.crowd.stature))

    @cached_property
    def blocks(self):
        """All blocks in order, a list of `Block` with whole numbers: draw by draw, pull by pull."""
        cuts = [(start, min(start + self.rows, self.people)) for start in range(0, self.people, self.rows)]
        return [
            Block(number, pull, *cut)
            for number in range(self.draws + 1)
            for pull in range(len(self.pulls))
            for cut in cuts
        ]

    @property
    def a_person(self):
        """Postures of one person in a block, a whole number."""
        return int(np.prod([len(values) for _, values in self.fields] or [1])) * dict(self.options)["points"]

    @property
    def postures(self):
        """All postures, a whole number."""
        return (self.draws + 1) * len(self.pulls) * self.people * self.a_person

    def lifters(self, start, stop):
        """The people from ``start`` to ``stop``: a `people.Lifter` with arrays. [m], mass [kg]"""
        if isinstance(self.crowd, Crowd):
            return self.crowd.lifters(slice(start, stop))
        measures = {name: np.atleast_1d(value)[start:stop] for name, value in vars(self.crowd).items() if name != "sex"}
        return Lifter(self.crowd.sex, **measures)

    def strength_of(self, lifters, start, stop):
        """The `muscles.Strength` of these ``lifters``, who have the numbers ``start`` to ``stop``; ratios."""
        if self.strength == "expected":
            return expected_strength(lifters)
        own = self.crowd if isinstance(self.crowd, Crowd) else Crowd(self.people, self.crowd.sex, self.seed)
        return strength_of(lifters, own.deviates(slice(start, stop), STREAM))


def need_of(answers):
    """What has to be worked out for some ``answers`` (names): "mechanics", "arms" of muscles too, or the "work"."""
    if set(answers) <= set(MECHANICS_ONLY):
        return "mechanics"
    return "arms" if set(answers) <= {*MECHANICS_ONLY, *ARMS} else "work"


def rows_of(need, a_person, people, megabytes, workers):
    """How many people go into a block.

    Parameters
    ----------
    need : str
        "mechanics", "arms" or "work".
    a_person : int
        Postures of one person.
    people : int
        All of them.
    megabytes : float
        What the blocks that are worked on at once may take. [MB]
    workers : int
        How many blocks are worked on at once.

    Raises
    ------
    InputError
        Not even one person fits.
    """
    each = BYTES[need] * a_person
    most = int(megabytes * 1e6 / workers / each)
    if most < 1:
        needed = each * workers / 1e6
        raise InputError("memory_mb", f"memory_mb = {megabytes:g} MB is too little: one person takes {needed:.0f} MB; give that, or fewer grips, leans or points")  # fmt: skip
    return min(most, max(1, POSTURES // a_person), people)


def answers_of(plan, block):
    """The answers of one ``block`` (`Block`) of a ``plan`` (`Plan`): a dict of name -> array (people, fields..., dims), in the answer's unit.

    NaN where a set-up is out of somebody's reach.
    """
    drawn = as_tabled() if block.draw == 0 else draw(plan.seed, block.draw - 1)
    lifters = plan.lifters(block.start, block.stop)
    strength = drawn.strength(plan.strength_of(lifters, block.start, block.stop), lifters.sex, plan.anchored)
    asked = plan.pulls[block.pull]
    block_of = _Set(
        lifters,
        strength,
        drawn.pull(asked),
        _as_drawn(drawn, asked, plan),
        options_of(dict(plan.options) | drawn.options),
    )
    tails = dict(plan.tails)
    found = {name: np.full((*block_of.shape, *tail), np.nan) for name, (_, tail) in tails.items()}
    _fill(found, block_of, tuple(slice(0, length) for length in block_of.shape))
    return {name: _finished(name, found, plan) for name in plan.answers}


def tails_of(plan):
    """Dims and sizes of each answer of a ``plan`` (`Plan`) behind people and fields, of those that others rest on too: name -> (names, whole numbers).

    Raises `InputError` where a pull cannot be done by the survey's mean person at all.
    """
    person = Lifter.average(plan.crowd.sex)
    reps = ManyReps(person, plan.pulls[0], options_of(dict(plan.options)), {})
    tails = []
    for name in _needed(plan.answers):
        dims, values = answer_called(name).of(reps)
        tails.append((name, (dims, np.shape(values))))
    return tuple(tails)


def _needed(answers):
    """Names of the answers that are worked out posture by posture."""
    return tuple(dict.fromkeys(name.removeprefix(BEST) for name in answers))


def _finished(name, found, plan):
    """One answer from those that were worked out."""
    if not answer_called(name).over_grips:
        return found[name]
    names = [field for field, _ in plan.fields]
    return best_of(name, found[name.removeprefix(BEST)], dict(plan.fields)[GRIP], 1 + names.index(GRIP))


def _as_drawn(drawn, pull, plan):
    """The fields' values with what was drawn."""
    return {
        name: np.atleast_1d(getattr(drawn.pull(pull.change(**{name: np.array(values)})), name))
        for name, values in plan.fields
    }


@dataclass(frozen=True)
class _Set:
    """People, how strong they are, and what they do."""

    lifters: Lifter
    strength: Strength
    pull: Pull
    fields: dict
    options: RepOptions

    @property
    def shape(self):
        return (len(self.lifters.stature), *(len(values) for values in self.fields.values()))

    def reps(self, part):
        """The reps of a part: slices of people and of each field's values."""
        people, *values = part
        lifters = Lifter(self.lifters.sex, **{name: getattr(self.lifters, name)[people] for name in MEASURES})
        factors = (
            np.broadcast_to(value, self.shape[:1])[people]
            for value in (self.strength.factor, self.strength.low, self.strength.high)
        )
        strength = Strength(*factors, self.strength.elbow, self.strength.known_from)
        fields = {name: all_values[here] for (name, all_values), here in zip(self.fields.items(), values, strict=True)}
        return ManyReps(lifters, self.pull, replace(self.options, strength=strength), fields)


def _fill(found, block, part):
    """Put the answers of a part of a `_Set` where they belong; what is out of reach is halved until only that stays NaN."""
    try:
        reps = block.reps(part)
        values = {name: answer_called(name).of(reps)[1] for name in found}
    except InputError:
        sizes = [here.stop - here.start for here in part]
        axis = 0 if sizes[0] > 1 else int(np.argmax(sizes))
        if sizes[axis] > 1:
            middle = (part[axis].start + part[axis].stop) // 2
            for half in (slice(part[axis].start, middle), slice(middle, part[axis].stop)):
                _fill(found, block, (*part[:axis], half, *part[axis + 1 :]))
        return
    for name, array in values.items():
        found[name][part] = array
