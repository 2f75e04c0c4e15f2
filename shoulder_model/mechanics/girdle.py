"""The shoulder girdle: it hangs on the trunk at the sternoclavicular (SC) joint, and carries the GH centre with it.

The collarbone turns by ``retraction`` and ``elevation`` from where it rests; the GH centre, at its outer end, travels on a
sphere about the SC joint:

    GH = SC + turn(retraction, elevation) (GH at rest - SC)

Along a rep both angles go from their values at the reach to those at the end of the pull, scaled by its ``girdle_travel``;
``girdle_lead`` spreads the way over the rep:

    share of the travel = s + lead · s (1 - s)        s: share of the hand's way

With a lead of 1 the blade has half of its way behind it after 29 % of the hand's, with -1 after 71 %. Nobody measured it in
pulls. While an arm is raised the collarbone goes with the arm's elevation (J Orthop Sports Phys Ther 2004;34:140), and with
the blade held the arm's elevation in the five overhead pulls falls with a lead of 0.0 to 0.4 on a straight way, 0.2 in the
mean: so they start a little with the blade, with 0.2. In rows the elevation goes down and up again and says nothing: 0.

A turn without spin about Z suffices to carry the centre, so two torques, retraction and depression, meet exactly the
power that its way takes (`girdle_turn`).
"""

from dataclasses import dataclass, fields

import numpy as np

from ..inputs import Allowed, checked_call, fitting, number
from ..people import a_lifter
from ..sources import fact
from .pull import a_pull
from .vectors import stack, turned

TURN = Allowed(-np.pi, np.pi, "rad", "give radians from rest")
SHARE = Allowed(-1.0, 2.0, "", "give a share of the hand's way, 0 to 1")
LEAD = Allowed(-1.0, 1.0, "", "0 is even over the rep, 1 early, -1 late")


@checked_call
def sc_joint(lifter):
    """The ``lifter``'s sternoclavicular joint from the resting GH centre. (..., 3) [m]; partly from memory (ML)"""
    inward = a_lifter(lifter).gh_breadth / 2 - fact("sc_from_midline")
    return stack(fact("sc_forward_of_gh"), fact("sc_above_gh"), -inward)


@checked_call
def clavicle_axes(retraction, elevation):
    """Axes of the collarbone as columns, identity at rest. (..., 3, 3)

    Drawn back by ``retraction`` about the trunk's length, then raised by ``elevation`` about the axis that went with it; both (...). [rad]
    """
    retraction, elevation = number("retraction", retraction, TURN), number("elevation", elevation, TURN)
    fitting(retraction=retraction, elevation=elevation)
    retraction, elevation = np.broadcast_arrays(retraction, elevation)
    cr, sr, ce, se = np.cos(retraction), np.sin(retraction), np.cos(elevation), np.sin(elevation)
    axes = np.zeros((3, 3, *retraction.shape))  # as `arm.raised_arm` has it in memory
    axes[0, 0], axes[2, 0] = cr, sr
    axes[0, 1], axes[1, 1], axes[2, 1] = sr * se, ce, -cr * se
    axes[0, 2], axes[1, 2], axes[2, 2] = -sr * ce, se, cr * ce
    return np.moveaxis(axes, (0, 1), (-2, -1))


@dataclass(frozen=True)
class GirdlePosture:
    """Where the girdle stands; fields broadcast over (..., point).

    ``retraction``, ``elevation`` of the collarbone from rest [rad]; ``clavicle`` (..., 3, 3), its axes as columns; ``gh``
    (..., 3) the GH centre from where it rests; ``sc`` (..., 3) the SC joint from the GH centre where it stands [m].
    """

    retraction: np.ndarray
    elevation: np.ndarray
    clavicle: np.ndarray
    gh: np.ndarray
    sc: np.ndarray

    def at(self, here):
        """The postures ``here``, an index or slice of the first axis; units as they are."""
        return GirdlePosture(*(getattr(self, field.name)[here] for field in fields(self)))


@checked_call
def girdle_at(lifter, retraction, elevation):
    """The ``lifter``'s `GirdlePosture` with the collarbone turned by ``retraction`` and ``elevation`` (...) from rest [rad]."""
    sc, axes = sc_joint(lifter), clavicle_axes(retraction, elevation)
    fitting(lifter=lifter.gh_breadth, retraction=retraction, elevation=elevation)
    there = turned(axes, sc)
    return GirdlePosture(retraction, elevation, axes, sc - there, there)


@checked_call
def travelled(progress, lead):
    """Share of the girdle's travel after a share ``progress`` of the hand's way, with a ``lead`` of -1 to 1; (...), without unit.

    >>> travelled(0.5, 0.0), travelled(0.5, 1.0)
    (0.5, 0.75)
    """
    progress, lead = number("progress", progress, SHARE), number("lead", lead, LEAD)
    fitting(progress=progress, lead=lead)
    return progress + lead * progress * (1.0 - progress)


@checked_call
def girdle_along(lifter, pull, progress):
    """The ``lifter``'s `GirdlePosture` at shares ``progress`` (...) of the hand's way in a ``pull``, lengths in metres."""
    a_lifter(lifter)
    done = travelled(progress, a_pull(pull).girdle_lead)
    angles = (
        pull.girdle_travel * (start + (end - start) * done)
        for start, end in (
            (pull.reach_retraction, pull.end_retraction),
            (pull.reach_elevation, pull.end_elevation),
        )
    )
    return girdle_at(lifter, *angles)


@checked_call
def girdle_turn(lifter, gh):
    """Retraction and depression (..., point, 2) of the girdle since the point before, 0 at the first. [rad]

    Parameters
    ----------
    lifter : people.Lifter
    gh : ndarray, shape (..., point, 3) [m]
        The GH centre from where it rests.

    Notes
    -----
    The turn about X and Y alone that carries the centre from one point to the next, to second order in the step.
    """
    out = gh - sc_joint(lifter)
    way, lever = np.diff(gh, axis=-2), (out[..., 1:, 2] + out[..., :-1, 2]) / 2
    turn = np.zeros((*gh.shape[:-1], 2))
    turn[..., 1:, :] = -way[..., :2] / lever[..., None]
    return turn
