"""Who supplies what a rep asks, and the largest load of every posture: the part of a rep that knows strength.

Takes the torques that the load cases ask and the muscles' arms and lengths, and hands them in blocks to `balance`
and `sharing`.
"""

from dataclasses import dataclass

import numpy as np

from ..blocks import in_blocks
from ..mechanics import JointTorques, LoadCases
from ..mechanics.statics import shoulder_components
from ..muscles import MUSCLES, capacity
from ..muscles.hand_turn import driven
from ..muscles.paths import BLOCK
from ..sharing import largest_load, least_effort
from .balance import balance_tables, possible_side_force, side_force_of
from .counted_part import first_counted

AT_LIMIT = 0.9999  # of the largest load; at the limit itself the search for the least effort has no room
TINY = 1e-9  # kg


@dataclass(frozen=True)
class Supply:
    """Who supplies the torques of a rep; fields as the variables of `rep_and_sweep.rep`, arrays (..., point), muscles or
    joints behind.
    """

    capacity: np.ndarray
    activation: np.ndarray
    shortfall: np.ndarray
    side_force: np.ndarray
    largest_load_kg: np.ndarray
    adds_kg: np.ndarray
    gives_out: np.ndarray

    @property
    def whole_rep_load_kg(self):
        """The smallest largest load of the counted part, (..., 1). [kg]"""
        first = first_counted(self.largest_load_kg.shape[-1])
        return self.largest_load_kg[..., first:].min(axis=-1, keepdims=True)


def supply(lifter, pull, whole, geometry, options):
    """The `Supply` of a rep: forces in N, loads in kg.

    Parameters
    ----------
    lifter : people.Lifter
    pull : mechanics.Pull
    whole : mechanics.RepMechanics
    geometry : muscles.MuscleGeometry
    options : options.RepOptions
    """
    lead, postures = _postures(lifter, pull, whole, geometry, options)
    side_force = possible_side_force(pull, options.side_force)

    def rows(here):
        tables = postures.tables(here, options.balance, pull.hand_turn)
        effort, most, shortfall = effort_and_limit(
            tables, postures.kg[here], side_force=side_force, newtons_per_kg=pull.newtons_per_kg,
            power=options.power, weight=options.weights, friction=options.friction,
        )  # fmt: skip
        shares = joint_shares(tables, most)
        return effort.activation[:, :-1], shortfall, effort.side_force, most.load, most.adds[:, :-1], shares

    values = postures.capacity, *in_blocks(rows, len(postures.kg), BLOCK)
    return Supply(*(array.reshape(*lead, *array.shape[1:]) for array in values))


def largest_loads(lifter, pull, whole, geometry, options):
    """The largest load of every posture alone, (..., point) [kg].

    ``lifter``, ``pull``, ``whole``, ``geometry`` and ``options`` as for `supply`.
    """
    lead, postures = _postures(lifter, pull, whole, geometry, options)
    side_force = possible_side_force(pull, options.side_force)

    def rows(here):
        tables = postures.tables(here, options.balance, pull.hand_turn)
        side, limit = side_force_of(tables, side_force, pull.newtons_per_kg, options.friction)
        return (largest_load(tables.columns, tables.unloaded, tables.per_kg, side=side, side_limit=limit).load,)

    return in_blocks(rows, len(postures.kg), BLOCK)[0].reshape(lead)


def activations(lifter, pull, whole, geometry, options, kg):
    """Activation of every muscle at a load of ``kg`` (..., 1) on the whole bar, (..., point, muscle), ratios to capacity.

    ``lifter``, ``pull``, ``whole``, ``geometry`` and ``options`` as for `supply`; the load has to be one that is held, or NaN.
    """
    held = pull.change(load_kg=np.where(np.isfinite(kg), kg, 0.0))
    lead, postures = _postures(lifter, held, whole, geometry, options)
    side_force = possible_side_force(pull, options.side_force)

    def rows(here):
        tables = postures.tables(here, options.balance, pull.hand_turn)
        side, limit = side_force_of(tables, side_force, pull.newtons_per_kg, options.friction)
        load = postures.kg[here]
        effort = least_effort(
            tables.columns, tables.asked(load), power=options.power, weight=options.weights, side=side,
            side_limit=np.inf if limit is None else limit * load,
        )  # fmt: skip
        return (effort.activation[:, :-1],)

    found = in_blocks(rows, len(postures.kg), BLOCK)[0].reshape(*lead, len(MUSCLES))
    return np.where(np.isfinite(kg)[..., None], found, np.nan)


@dataclass(frozen=True)
class _Postures:
    """Every posture of a rep or sweep as one row of each array."""

    cases: LoadCases
    arms: tuple
    capacity: np.ndarray
    plane_normal: np.ndarray
    kg: np.ndarray
    elbow_factor: np.ndarray

    def tables(self, here, balance, hand_turn):
        """The `balance.Balance` of the rows ``here``."""
        cases, arms = self.cases.map(lambda array: array[here]), tuple(arm[here] for arm in self.arms)
        return balance_tables(
            cases, arms, self.capacity[here], self.plane_normal[here],
            balance=balance, hand_turn=hand_turn, elbow_factor=self.elbow_factor[here],
        )  # fmt: skip


def _postures(lifter, pull, whole, geometry, options):
    """Shape of the postures, and `_Postures` of all of them."""
    strength, muscles = options.strength_of(lifter), len(MUSCLES)
    kg, factor = np.asarray(pull.mass_on_bar(lifter), float), np.asarray(strength.factor)
    cases = whole.cases
    asked = cases.arm_weight, cases.per_kg, cases.side_force
    lead = np.broadcast_shapes(
        geometry.elbow_arm.shape[:-1], asked[0].elbow.shape, asked[1].elbow.shape, kg.shape, factor.shape
    )

    def flat(array, *tail):
        return np.broadcast_to(array, (*lead, *tail)).reshape(-1, *tail)

    arms = (geometry.shoulder_arm, 3), (geometry.elbow_arm,), (geometry.girdle_arm, 2)
    force = capacity(flat(geometry.length, muscles), flat(factor), options.body_of())
    return lead, _Postures(
        cases=LoadCases(*(JointTorques(flat(t.shoulder, 3), flat(t.elbow), flat(t.girdle, 2)) for t in asked)),
        arms=tuple(flat(arm, muscles, *axes) for arm, *axes in arms),
        capacity=force * driven(MUSCLES, pull.hand_turn),
        plane_normal=flat(shoulder_components(whole.path.normal), 3),
        kg=flat(kg),
        elbow_factor=flat(strength.elbow),
    )


def effort_and_limit(tables, kg, *, side_force, newtons_per_kg, friction, power=2.0, weight=None):
    """Activation at a load, the largest load, and what share of the load is too much, for n postures.

    Above the largest load the activations are those at the limit, of least effort like all others.

    Parameters
    ----------
    tables : balance.Balance
    kg : ndarray, shape (n,)
        Load on the whole bar. [kg]
    side_force : "zero", "grip" or "free"
    newtons_per_kg : float
        Pull on one hand for 1 kg on the whole bar. [N/kg]
    friction : float
        Of the grip: sideways force over the pull on the hand, a ratio.
    power : float
        Of the sharing rule.
    weight : ndarray, shape (muscle + 1,), optional
        Weights of the sharing rule.

    Returns
    -------
    sharing.LeastEffort, sharing.LargestLoad, ndarray of shape (n,)
        The load in kg; the share that is too much, 0 where the load is held, 0 to 1 without unit.
    """
    side, limit_per_kg = side_force_of(tables, side_force, newtons_per_kg, friction)
    most = largest_load(tables.columns, tables.unloaded, tables.per_kg, side=side, side_limit=limit_per_kg)
    held = np.fmin(kg, AT_LIMIT * most.load)  # what cannot be held is shown as it stands at the limit
    effort = least_effort(
        tables.columns, tables.asked(held), power=power, weight=weight, side=side,
        side_limit=np.inf if limit_per_kg is None else limit_per_kg * held, holdable=np.isfinite(most.load),
    )  # fmt: skip
    return effort, most, np.where(kg > most.load, 1.0 - most.load / np.maximum(kg, TINY), effort.shortfall)


def joint_shares(tables, most):
    """Each joint's share in limiting the load, (n, joint), without unit, in sum 1: the facet's normal times the torque of 1 kg.

    ``tables`` a `balance.Balance`, ``most`` its `sharing.LargestLoad` in kg; NaN where not even the arm can be held.
    """
    push = most.side_force / np.maximum(most.load, TINY)  # side force that goes with 1 kg [N/kg]
    return tables.by_joint(most.normal * (tables.per_kg + push[:, None] * tables.per_side_newton))
