"""What shoulder and elbow can supply together: the polygon of two torques, and the load's ray through it.

The two torques are the shoulder's about the normal of the plane of pull and the elbow's flexion. Muscles at full
or no activation make the polygon's corners; a muscle that crosses both joints slants its sides. The girdle is
left out of the polygon: where the ray ends inside, the girdle has given out first, or another axis.
"""

from dataclasses import dataclass

import numpy as np

from .balance import Asked, allowed_side, columns, rows, side_force_of
from .body import MUSCLES
from .repetition import load_cases
from .sharing import largest_load
from .sources import fact
from .statics import anatomical

DIRECTIONS = np.linspace(0.0, 2 * np.pi, 73)


@dataclass(frozen=True)
class TorquePolygon:
    """Points (2,) and (n, 2) as shoulder torque in the plane of pull and elbow flexion torque of the muscles. [N m]

    ``outline`` closed; ``unloaded`` what the arm alone asks, ``asked`` what the load asks, less what a side force
    takes; ``limit`` what the muscles supply at the largest load, NaN where nothing holds.
    """

    outline: np.ndarray
    unloaded: np.ndarray
    asked: np.ndarray
    limit: np.ndarray


def torque_polygon(lifter, pull, one, point, strength, arm_weight=True, balance="plane", side_force="zero"):
    """The polygon at one point of a rep.

    Parameters
    ----------
    lifter : Lifter
        One lifter.
    pull : Pull
    one : xarray.Dataset
        The rep of both, with work.
    point : int
    strength : capacity.Strength
    arm_weight, balance, side_force : as for `repetition.rep`, as ``one`` was made

    Notes
    -----
    The outline joins the boundary in 72 directions, so a corner may be cut by a degree or two. With all axes
    balanced, the shoulder's other two components are held at nothing.
    """
    path, _, cases = load_cases(lifter, pull, one.sizes["point"], arm_weight)
    normal = anatomical(path.normal).reshape(1, 3)
    names = ("capacity", "muscle_moment_arm", "elbow_moment_arm", "girdle_moment_arm")
    capacity, *arms = (one[name].values[point : point + 1] for name in names)
    table = columns(MUSCLES, capacity, strength.elbow, pull.hand_turn, *arms, normal, balance)
    at = [Asked(case.shoulder[[point]], case.elbow[[point]], case.girdle[[point]]) for case in cases]
    held, per_kg, aside = (rows(case, slice(None), normal, balance) for case in at)
    onto = _two_rows(normal[0], balance)
    side, limit = allowed_side(aside, side_force_of(pull, side_force), fact("gravity") / pull.hands)
    most = largest_load(table, held, per_kg, side, limit)
    asked = held + float(pull.mass_on_bar(lifter)) * per_kg + float(one.side_force[point]) * aside
    supplied = table[0] @ most.activation[0] if np.isfinite(most.load[0]) else np.full(len(onto.T), np.nan)
    return TorquePolygon(_outline(table[0], onto, balance), onto @ held[0], onto @ asked[0], onto @ supplied)


def _two_rows(normal, balance):
    """Matrix (2, k) that takes a posture's torques to those two."""
    shoulder = normal if balance == "all axes" else np.ones(1)
    onto = np.zeros((2, len(shoulder) + 3))
    onto[0, : len(shoulder)], onto[1, len(shoulder)] = shoulder, 1.0
    return onto


def _outline(table, onto, balance):
    """Where the muscles' torques end in every direction; the shoulder's other components, if any, at nothing."""
    if balance == "all axes":
        across = np.linalg.svd(onto[:1, :3])[2][1:]
        onto = np.vstack([onto, np.pad(across, ((0, 0), (0, 3)))])
    ours = onto @ table[:, :-1]
    toward = np.zeros((len(DIRECTIONS), len(ours)))
    toward[:, 0], toward[:, 1] = np.cos(DIRECTIONS), np.sin(DIRECTIONS)
    reach = largest_load(np.broadcast_to(ours, (len(toward), *ours.shape)), 0 * toward, toward)
    return reach.load[:, None] * toward[:, :2]
