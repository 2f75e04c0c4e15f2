"""Candidate pulls of a week: what each needs, counts and feels like, and what it asks of one person.

What counts as a direct or a helper set stands in ``data/week_pulls.csv``. The muscle model's figures only choose among pulls
that count alike, and only where they are clear (`spans`): counting by them would call a pulldown a helper of the lat.
"""

from dataclasses import dataclass
from functools import cache, cached_property, lru_cache

import numpy as np

from ..axes import AXES
from ..inputs import InputError, checked_call, scalar, several, thing
from ..mechanics import Pull, pulls
from ..mechanics.pull import ALLOWED
from ..people import Lifter, one_person
from ..repetition import muscle_shares, rep
from ..sources import fact
from ..tables import read_table
from .groups import GROUPS, KIND
from .spans import span_of

COUNTED = (*GROUPS, "elbow flexors")
DIRECTIONS = AXES[:2]  # adduction, extension
POINTS = 21  # along a rep
BEHIND = "behind-the-neck pulldown"


@dataclass(frozen=True)
class Candidate:
    """One version of a catalogue pull: what to set up and say, what it needs, what it loads beside the shoulder.

    Parameters
    ----------
    name, family : str
        Of one family only one version is in a week.
    pull : mechanics.Pull
    cue, feel, watch : str
        What to say about the elbows, what to feel, what to watch.
    equipment : tuple of tuple of str
        Everything that is needed; of each inner tuple one is enough.
    position : str
        Of the body: "seated", "standing", "kneeling", "hanging", "face up" or "face down".
    loading : str
        How it is made heavier: "stack", "barbell", "dumbbells" (one in each hand), "dumbbell" (one), "band", "body", "added" (body
        plus load), "help" (body less help), "lowering" or "lean" (body at an angle).
    pull_ups : str
        Whom it is for by pull-ups in a row: "fewer" than the least repetitions of a set and two left, "enough" for them, "more" than
        the most repetitions of a set; "" for all.
    direct : tuple of str
        Muscle groups that a set counts 1 for.
    low_back : int
        2 the largest lumbar load, 1 some, 0 little.
    easier, harder : str
        The candidate that leads to it, and the one that follows it; "" for none.
    stands_for : str
        Whose figures the model's are, where they are not its own; else "".
    """

    name: str
    family: str
    pull: Pull
    cue: str
    feel: str
    watch: str
    equipment: tuple
    position: str
    loading: str
    pull_ups: str
    direct: tuple
    low_back: int
    easier: str
    harder: str
    stands_for: str

    @property
    def overhead(self):
        """Whether the load pulls up along the trunk more than to the front."""
        return bool(np.cos(self.pull.pull_angle) > 0.5)

    def can_be_done_with(self, there):
        """Whether the equipment ``there``, names, is enough."""
        return all(any(piece in there for piece in one_of) for one_of in self.equipment)

    @property
    def own_load(self):
        """Whether no load is chosen on a stack, bar or dumbbell."""
        return self.loading in ("body", "help", "lowering", "lean", "band")


@dataclass(frozen=True)
class FittedPull:
    """One candidate with what it asks of one lifter.

    Parameters
    ----------
    candidate : Candidate
    lifter : people.Lifter
    grip_cm : float
        Between the middles of the hands; one hand: twice its distance from the midline. [cm]
    torque : ndarray, shape (3,)
        Of the load alone, mean over a rep, one side: adduction, extension, horizontal abduction. [N m]
    load_kg : float
        Load on the bar that ``torque`` belongs to. [kg]
    directions : dict of direction -> share of the mean torque's size, -1 to 1
    elbow_bends : bool
    """

    candidate: Candidate
    lifter: Lifter
    grip_cm: float
    torque: np.ndarray
    load_kg: float
    directions: dict
    elbow_bends: bool

    @property
    def name(self):
        """The candidate's name."""
        return self.candidate.name

    @property
    def pull(self):
        """The candidate's `Pull`, its name and set-up."""
        return self.candidate.pull

    @property
    def torque_per_hand(self):
        """Mean torque of 10 kg on each hand, one side, (3,), so that one- and two-handed pulls compare. [N m]"""
        return 10 * self.pull.hands / self.load_kg * self.torque

    @cached_property
    def shares(self):
        """Shares of the active muscle: dict of group -> (value, low, high), 0 to 1; `model_shares` for this lifter."""
        return model_shares(self.lifter, self.candidate)

    def counts(self, rules):
        """What one set counts under some ``rules`` (`rules.Rules`): dict of muscle group or direction -> sets.

        A muscle group: 1 direct, ``helper_set`` for a helper, else 0. Lat and mid-back help in every pull where they are
        not direct: both were active in every pull measured (Dynamic Medicine 2004;3:4). The elbow flexors help wherever
        the elbow bends. A direction: 1 where it is a large enough part of the mean torque, else 0.
        """
        helper, direct = rules.helper_set, self.candidate.direct
        sets = {group: 1.0 if group in direct else helper for group in GROUPS}
        sets["elbow flexors"] = helper if self.elbow_bends else 0.0
        return sets | {name: float(self.directions[name] >= rules.direction_share) for name in DIRECTIONS}


@cache
def candidates():
    """All rows of ``data/week_pulls.csv`` as a tuple of `Candidate`; lengths in metres, angles in radians."""
    return tuple(_candidate(row) for row in read_table("week_pulls.csv"))


def _candidate(row):
    pull = pulls[row["pull"]].change(
        grip_ratio=float(row["grip_ratio"]),
        trunk_lean=np.radians(float(row["trunk_lean_deg"])),
        touch=row["touch"],
        hand_turn=row["hand_turn"],
    )
    same = (
        "name",
        "family",
        "cue",
        "feel",
        "watch",
        "position",
        "loading",
        "pull_ups",
        "easier",
        "harder",
        "stands_for",
    )
    return Candidate(
        pull=pull,
        equipment=tuple(tuple(one_of.split("/")) for one_of in row["equipment"].split("+")),
        direct=tuple(row["direct"].split("+")),
        low_back=int(row["low_back"]),
        **{name: row[name] for name in same},
    )


def a_candidate(candidate):
    """Return ``candidate`` if it is a `Candidate`, else raise `InputError` in words that say where one is found."""
    return thing("candidate", candidate, Candidate, "one of sm.week.candidates()")


def equipment():
    """Names of every piece of equipment that a candidate needs, in the table's order, as a tuple."""
    return tuple(dict.fromkeys(piece for one in candidates() for one_of in one.equipment for piece in one_of))


def families():
    """Names of the families of candidates, in the table's order, as a tuple."""
    return tuple(dict.fromkeys(one.family for one in candidates()))


@checked_call
def grip_cm(lifter, grip_ratio):
    """Distance between the middles of the hands at a ``grip_ratio`` (× biacromial) for this ``lifter``; else `InputError`. [cm]

    >>> from shoulder_model import Lifter
    >>> round(grip_cm(Lifter.average("men"), 1.5), 1)
    62.4
    """
    one_person(lifter, "a grip in centimetres")
    grip_ratio = scalar("grip_ratio", grip_ratio, ALLOWED["grip_ratio"])
    return 100 * grip_ratio * lifter.biacromial


@checked_call
def model_shares(lifter, candidate):
    """Shares of the active muscle from the muscle model: dict of group -> (value, low, high), 0 to 1.

    ``lifter`` one `people.Lifter`, ``candidate`` a `Candidate`. The span is the stored one, wherever the lifter's own value lies
    outside it is widened.
    """
    a_candidate(candidate)
    shares = {}
    of_groups = muscle_shares(lifter, candidate.pull, kind=KIND, band=False).of
    for group in GROUPS:
        value = of_groups[group].value
        low, high = span_of(candidate.name, group)
        shares[group] = (value, min(low, value), max(high, value))
    return shares


@checked_call
def fitted_pulls(lifter, listed=None):
    """`FittedPull` of every candidate that the ``lifter``'s arm can do, in the order given, as a tuple.

    ``lifter`` is one `people.Lifter`; ``listed`` a tuple of `Candidate`, all of `candidates` by default. `InputError` for other kinds.
    """
    one_person(lifter, "a fitted pull")
    listed = candidates() if listed is None else several("listed", listed, Candidate, "sm.week.candidates()")
    return _fitted_pulls(lifter, listed)


@lru_cache(maxsize=64)
def _fitted_pulls(lifter, listed):
    fitted = (_fitted(lifter, candidate) for candidate in listed)
    return tuple(one for one in fitted if one is not None)


@lru_cache(maxsize=512)
def _asked(lifter, pull):
    """The load's rep of one pull, without muscles; versions of one set-up share it."""
    return rep(lifter, pull, points=POINTS, arm_weight=False, muscles=False)


def _fitted(lifter, candidate):
    """The candidate with its numbers; None where it is out of reach."""
    pull = candidate.pull
    try:
        asked = _asked(lifter, pull)
    except InputError:
        return None
    each = asked.shoulder_torque.values
    torque, size = each.mean(axis=0), np.linalg.norm(each, axis=1).mean()
    bend = float(np.ptp(asked.elbow_flexion.values))
    return FittedPull(
        candidate=candidate,
        lifter=lifter,
        grip_cm=grip_cm(lifter, pull.grip_ratio),
        torque=torque,
        load_kg=float(pull.mass_on_bar(lifter)),
        directions={name: float(torque[i] / size) for i, name in enumerate(DIRECTIONS)},
        elbow_bends=bend > np.radians(fact("elbow_works_from_deg")),
    )
