"""Candidate pulls of a week, and what each of them asks of one person: grip, muscle shares, torques, counted sets.

What counts as a direct or a helper set stands in ``data/week_pulls.csv``. The model's shares only rank pulls that count
alike: counting by them would call a pulldown a helper of the lat. Bands of the shares are stored, because a band takes 40
random bodies (`recipes.week_bands`).
"""

from dataclasses import dataclass
from functools import cache, lru_cache

import numpy as np

from ..axes import AXES
from ..inputs import InputError
from ..mechanics import Pull, pulls
from ..repetition import muscle_shares, rep
from ..sources import fact
from ..tables import read_table

GROUPS = ("lat", "mid-back")  # muscle groups with a target; the elbow flexors are counted beside them
KIND = (
    "active muscle"  # of the model's figures, the one that ranks pulls: a muscle that holds the blade is trained, too
)
COUNTED = (*GROUPS, "elbow flexors")
DIRECTIONS = AXES[:2]  # adduction, extension
POINTS = 21  # along a rep
BEHIND = "behind-the-neck pulldown"


@dataclass(frozen=True)
class Candidate:
    """One version of a catalogue pull: what to set up, what it needs, what it loads beside the shoulder.

    ``direct`` names the muscle groups a set counts 1 for; ``low_back`` is a grade: 2 the largest lumbar
    load, 1 some, 0 little. Sources: ``data/week_pulls.csv``.
    """

    name: str
    pull: Pull
    elbow_words: str
    equipment: tuple
    direct: tuple
    low_back: int


@dataclass(frozen=True)
class FittedPull:
    """One candidate with what it asks of one lifter.

    Parameters
    ----------
    candidate : Candidate
    grip_cm : float
        Between the middles of the hands; one hand: twice its distance from the midline. [cm]
    shares : dict of group -> (value, low, high)
        Share of the active muscle over a rep, 0 to 1.
    torque : ndarray, shape (3,)
        Of the load alone, mean over a rep, one side: adduction, extension, horizontal abduction. [N m]
    load_kg : float
        Load on the bar that ``torque`` belongs to. [kg]
    directions : dict of direction -> share of the mean torque's size, -1 to 1
    elbow_bends : bool
    """

    candidate: Candidate
    grip_cm: float
    shares: dict
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
    def torque_per_10_kg(self):
        """Mean torque of 10 kg on the bar, one side, (3,). [N m]"""
        return 10 / self.load_kg * self.torque

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
    needs, direct = (tuple(row[name].split("+")) for name in ("equipment", "direct"))
    return Candidate(row["name"], pull, row["elbow_words"], needs, direct, int(row["low_back"]))


def equipment():
    """Names of every piece of equipment that a candidate needs, in the table's order."""
    return tuple(dict.fromkeys(piece for candidate in candidates() for piece in candidate.equipment))


def grip_cm(lifter, grip_ratio):
    """Distance between the middles of the hands at a ``grip_ratio`` (× biacromial) for this ``lifter``. [cm]

    >>> from shoulder_model import Lifter
    >>> round(grip_cm(Lifter.average("men"), 1.5), 1)
    62.4
    """
    return 100 * grip_ratio * lifter.biacromial


@cache
def share_bands():
    """Bands of the model's shares: (sex, candidate, group) -> how far below and above the value they reach, ratios.

    Of the survey's mean man and woman, from ``data/week_bands.csv``, which `recipes.week_bands` writes: a band takes
    40 random bodies, too long for every client.
    """
    rows = read_table("week_bands.csv")
    return {(row["sex"], row["name"], row["group"]): (float(row["below"]), float(row["above"])) for row in rows}


def model_shares(lifter, candidate):
    """Shares of the active muscle from the muscle model: dict of group -> (value, low, high), 0 to 1.

    ``lifter`` one `people.Lifter`, ``candidate`` a `Candidate`.
    """
    shares = {}
    of_groups = muscle_shares(lifter, candidate.pull, kind=KIND, band=False).of
    for group in GROUPS:
        share = of_groups[group]
        below, above = share_bands()[lifter.sex, candidate.name, group]
        shares[group] = (share.value, max(share.value - below, 0.0), min(share.value + above, 1.0))
    return shares


@lru_cache(maxsize=16)
def fitted_pulls(lifter, listed=None, shares=model_shares):
    """`FittedPull` of every candidate that the lifter's arm can do, in the order given.

    Parameters
    ----------
    lifter : people.Lifter
        One person.
    listed : tuple of Candidate, optional
        Without it all of `candidates`.
    shares : callable (lifter, candidate) -> dict of group -> (value, low, high)
    """
    fitted = (_fitted(lifter, candidate, shares) for candidate in listed or candidates())
    return tuple(one for one in fitted if one is not None)


def _fitted(lifter, candidate, shares):
    """The candidate with its numbers; None where it is out of reach."""
    pull = candidate.pull
    try:
        asked = rep(lifter, pull, points=POINTS, arm_weight=False, muscles=False)
        share = shares(lifter, candidate)
    except InputError:
        return None
    each = asked.shoulder_torque.values
    torque, size = each.mean(axis=0), np.linalg.norm(each, axis=1).mean()
    bend = float(np.ptp(asked.elbow_flexion.values))
    return FittedPull(
        candidate=candidate,
        grip_cm=grip_cm(lifter, pull.grip_ratio),
        shares={group: tuple(float(value) for value in share[group]) for group in GROUPS},
        torque=torque,
        load_kg=float(pull.mass_on_bar(lifter)),
        directions={name: float(torque[i] / size) for i, name in enumerate(DIRECTIONS)},
        elbow_bends=bend > np.radians(fact("elbow_works_from_deg")),
    )


def fit(fitted, goal):
    """How well each of the ``fitted`` pulls serves the goal, (pulls,), a ratio: its shares against the largest of each group.

    ``goal`` 0 is all for the lat, 1 all for the mid-back. The groups differ in size, so their shares cannot be compared
    with one another; pulls can.
    """
    share = {group: np.array([one.shares[group][0] for one in fitted]) for group in GROUPS}
    lat, mid_back = (values / max(values.max(), 1e-9) for values in share.values())
    return (1 - goal) * lat + goal * mid_back
