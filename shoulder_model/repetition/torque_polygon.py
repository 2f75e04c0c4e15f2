"""What shoulder and elbow can supply together: the polygon of two torques, and the load's ray through it.

The two torques are the shoulder's about the normal of the plane of pull and the elbow's flexion. Muscles at full
or no activation make the polygon's corners; a muscle that crosses both joints slants its sides. The girdle is
left out of the polygon: where the ray ends inside, the girdle has given out first, or another axis.
"""

from dataclasses import dataclass

import numpy as np

from ..inputs import checked_call
from ..people import one_person
from ..sharing import largest_load
from .balance import possible_side_force, side_force_of
from .one_posture import posture_tables
from .options import options_of

ANGLES = np.linspace(0.0, 2 * np.pi, 73)


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


@checked_call
def torque_polygon(lifter, pull, rep, point, **options):
    """The polygon at one point of a rep. [N m]

    Parameters
    ----------
    lifter : people.Lifter
        One lifter.
    pull : mechanics.Pull
    rep : xarray.Dataset
        The rep of both, with work.
    point : int
        Index along the rep.
    **options
        Those that ``rep`` was made with (`rep_and_sweep.rep`).

    Raises
    ------
    InputError
        As `rep_and_sweep.rep`; a crowd, a rep of something else, a point that there is not.

    Notes
    -----
    The outline joins the boundary in 72 directions and that of the limit, so a corner elsewhere may be cut by a degree or two. With all axes
    balanced, the shoulder's other two components are held at nothing.
    """
    one_person(lifter, "a torque polygon")
    options = options_of(options)
    tables, normal = posture_tables(lifter, pull, rep, point, options)
    side, limit = side_force_of(
        tables, possible_side_force(pull, options.side_force), pull.newtons_per_kg, options.friction
    )
    most = largest_load(tables.columns, tables.unloaded, tables.per_kg, side=side, side_limit=limit)
    asked = (
        tables.asked(np.array([float(pull.mass_on_bar(lifter))]))
        + float(rep.side_force.values[int(point)]) * tables.per_side_newton
    )
    columns, onto = tables.columns[0], _two_rows(normal[0], tables)
    held = np.isfinite(most.load[0])
    supplied = columns @ most.activation[0] if held else np.full(len(onto.T), np.nan)
    limit = onto @ supplied
    outline = _outline(columns, onto, tables.shoulder_rows, np.arctan2(limit[1], limit[0]) if held else 0.0)
    return TorquePolygon(outline, onto @ tables.unloaded[0], onto @ asked[0], limit)


def _two_rows(normal, tables):
    """Matrix (2, k) that takes a posture's torques to those two."""
    shoulder = normal if tables.shoulder_rows == 3 else np.ones(1)
    onto = np.zeros((2, len(shoulder) + 3))
    onto[0, : len(shoulder)], onto[1, len(shoulder)] = shoulder, 1.0
    return onto


def _outline(columns, onto, shoulder_rows, also):
    """Where the muscles' torques end in every direction, one of them ``also`` [rad]; the shoulder's other components, if any, at nothing."""
    angles = np.sort(np.append(ANGLES, np.mod(also, 2 * np.pi)))
    if shoulder_rows == 3:
        across = np.linalg.svd(onto[:1, :3])[2][1:]
        onto = np.vstack([onto, np.pad(across, ((0, 0), (0, 3)))])
    ours = onto @ columns[:, :-1]
    toward = np.zeros((len(angles), len(ours)))
    toward[:, 0], toward[:, 1] = np.cos(angles), np.sin(angles)
    reach = largest_load(np.broadcast_to(ours, (len(toward), *ours.shape)), 0 * toward, toward)
    return reach.load[:, None] * toward[:, :2]
