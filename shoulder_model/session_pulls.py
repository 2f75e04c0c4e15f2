"""Candidate pulls of a week and what each asks of one person: grip, muscle shares, torques, counted sets."""

from dataclasses import dataclass, fields
from functools import cache, lru_cache

import numpy as np

from .inputs import InputError, choice
from .pull import Pull, pulls
from .repetition import rep
from .sources import read_table

EXPERIENCE = ("novice", "intermediate", "advanced")
GROUPS = ("lat", "mid-back")  # those with a target; the elbow flexors are counted beside them
COUNTED = (*GROUPS, "elbow flexors")
DIRECTIONS = ("adduction", "extension")
POINTS = 21  # along a rep
ELBOW_WORKS = np.radians(20.0)  # an elbow that bends less is held, and its flexors get no helper set
BEHIND = "behind-the-neck pulldown"


@dataclass(frozen=True)
class Candidate:
    """One version of a catalogue pull: what to set up, what it needs, what it loads beside the shoulder.

    ``direct`` names the muscle groups a set counts 1 for; ``low_back`` is a grade: 2 the largest lumbar
    load, 1 some, 0 little. Sources: `data/session_pulls.csv`.
    """

    name: str
    pull: Pull
    elbow_words: str
    equipment: tuple
    direct: tuple
    low_back: int


@dataclass(frozen=True)
class Numbers:
    """What one candidate asks of one lifter.

    Parameters
    ----------
    grip_cm : float
        Between the middles of the hands; one hand: twice its distance from the midline.
    shares : dict of group -> (value, low, high)
        Share of the muscular work over a rep.
    torque : ndarray, shape (3,)
        Of the load alone, mean over a rep, one side: adduction, extension, horizontal abduction. [N m]
    per_kg : float
        Load on the bar that ``torque`` belongs to. [kg]
    directions : dict of direction -> share of the mean torque's size, -1 to 1
    elbow_bends : bool
    """

    grip_cm: float
    shares: dict
    torque: np.ndarray
    per_kg: float
    directions: dict
    elbow_bends: bool


@dataclass(frozen=True)
class Rules:
    """Numbers of the plan, from `data/session_rules.csv`; every one may be changed with `dataclasses.replace`."""

    days_low: int
    days_high: int
    repetitions_low: int
    repetitions_high: int
    weekly_sets_low: float
    weekly_sets_high: float
    helper_set: float
    grip_high: float
    direction_share: float
    direction_sets: float
    sets_per_visit: int
    session_sets: int
    pull_sets: int
    pulls_low: int
    pulls_high: int
    low_back_sets: float
    repetitions_left_low: int
    repetitions_left_high: int
    load_step_low: float
    load_step_high: float
    repetitions_over: int
    trial_weeks: int


@cache
def rules(experience):
    """The rules for "novice", "intermediate" or "advanced".

    >>> rules("novice").repetitions_low, rules("novice").repetitions_high
    (8, 12)
    """
    choice("experience", experience, EXPERIENCE)
    kinds = {field.name: field.type for field in fields(Rules)}
    rows = [row for row in read_table("session_rules.csv") if row["experience"] in ("any", experience)]
    return Rules(**{row["name"]: kinds[row["name"]](float(row["value"])) for row in rows})


@cache
def candidates():
    """All rows of ``data/session_pulls.csv`` as a tuple of `Candidate`."""
    return tuple(_candidate(row) for row in read_table("session_pulls.csv"))


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
    """Every piece of equipment that a candidate needs, in the table's order."""
    return tuple(dict.fromkeys(piece for candidate in candidates() for piece in candidate.equipment))


def grip_cm(lifter, grip_ratio):
    """Distance between the middles of the hands for this lifter. [cm]

    >>> from shoulder_model import Lifter
    >>> round(grip_cm(Lifter.average("men"), 1.5), 1)
    62.4
    """
    return 100 * grip_ratio * lifter.biacromial


@cache
def share_bands():
    """Bands of the model's shares: (sex, candidate, group) -> how far below and above the value they reach.

    Of the survey's mean man and woman, from `data/session_bands.csv`, which `tests/make_session_bands.py`
    writes: a band takes 40 random bodies, too long for every client.
    """
    rows = read_table("session_bands.csv")
    return {(row["sex"], row["name"], row["group"]): (float(row["below"]), float(row["above"])) for row in rows}


def model_shares(lifter, candidate):
    """Shares of the muscular work from the muscle model: dict of group -> (value, low, high)."""
    from .shares import work_shares  # here: a plan on a table of shares needs no muscle model

    shares = {}
    for group, share in work_shares(lifter, candidate.pull, band=False).items():
        below, above = share_bands()[lifter.sex, candidate.name, group]
        shares[group] = (share.value, max(share.value - below, 0.0), min(share.value + above, 1.0))
    return shares


@lru_cache(maxsize=16)
def numbers(lifter, listed=None, shares=model_shares):
    """`Numbers` of every candidate for one lifter; None for one that the arm cannot do.

    Parameters
    ----------
    lifter : Lifter
    listed : tuple of Candidate, optional
        Without it all of `candidates`.
    shares : callable (lifter, candidate) -> dict of group -> (value, low, high)
    """
    return tuple(_numbers(lifter, candidate, shares) for candidate in listed or candidates())


def _numbers(lifter, candidate, shares):
    pull = candidate.pull
    try:
        one = rep(lifter, pull, POINTS, arm_weight=False, muscles=False)
        share = shares(lifter, candidate)
    except InputError:
        return None
    each = one.shoulder_torque.values
    torque, size = each.mean(axis=0), np.linalg.norm(each, axis=1).mean()
    bend = float(np.ptp(one.elbow_flexion.values))
    return Numbers(
        grip_cm=grip_cm(lifter, pull.grip_ratio),
        shares={group: tuple(float(value) for value in share[group]) for group in GROUPS},
        torque=torque,
        per_kg=float(pull.mass_on_bar(lifter)),
        directions={name: float(torque[i] / size) for i, name in enumerate(DIRECTIONS)},
        elbow_bends=bend > ELBOW_WORKS,
    )


def counted(candidate, found, given):
    """What one set counts for each muscle group: 1 direct, ``helper_set`` for a helper, else 0.

    Lat and mid-back help in every pull where they are not direct: both were active in every pull measured
    (Dynamic Medicine 2004;3:4). The elbow flexors help wherever the elbow bends.

    Parameters
    ----------
    candidate : Candidate
    found : Numbers
    given : Rules
    """
    sets = {group: 1.0 if group in candidate.direct else given.helper_set for group in GROUPS}
    return sets | {"elbow flexors": given.helper_set if found.elbow_bends else 0.0}


def fit(found, goal):
    """How well each candidate serves the goal, (pulls,), 0 to 1: its shares against the largest of each group.

    The groups differ in size, so their shares cannot be compared with one another; pulls can.
    """
    share = {group: np.array([one.shares[group][0] for one in found]) for group in GROUPS}
    lat, mid_back = (values / max(values.max(), 1e-9) for values in share.values())
    return (1 - goal) * lat + goal * mid_back
