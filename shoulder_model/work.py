"""Who supplies what a rep asks, and the largest load of every posture: the part of a rep that knows strength.

Takes the torques that the load cases ask and the muscles' arms and lengths, both from `repetition`, and hands
them in blocks to `balance` and `sharing`.
"""

from dataclasses import dataclass, fields

import numpy as np

from .balance import BALANCES, JOINTS, SIDE_FORCES, Asked, by_joint, columns, rows, side_force_of, work_of
from .body import MUSCLES
from .capacity import Strength, capacity, expected_strength
from .hand_turn import driven
from .inputs import choice, number
from .muscle import BLOCK
from .sharing import POWER
from .sources import fact
from .statics import anatomical

COUNTED_FROM = fact(
    "rep_counted_from"
)  # share of the rep: before it the arm is all but straight and hangs on bone and ligament; our assumption


@dataclass(frozen=True)
class Sharing:
    """How the work is shared; the fields are `rep`'s options."""

    strength: Strength | float | None = None
    balance: str = "plane"
    side_force: str = "zero"
    power: float = 2.0
    by_size: bool = False
    body: object = None

    def __post_init__(self):
        number("power", self.power, POWER)
        choice("balance", self.balance, BALANCES)
        choice("side_force", self.side_force, SIDE_FORCES)

    def strength_of(self, lifter):
        """The strength to reckon with."""
        if self.strength is None:
            return expected_strength(lifter)
        if isinstance(self.strength, Strength):
            return self.strength
        usual = fact("elbow_over_shoulder_strength")
        return Strength(self.strength, self.strength, self.strength, usual, "a given factor")


SHARING = tuple(field.name for field in fields(Sharing))


def work_variables(lifter, pull, normal, cases, kg, found, body, sharing):
    """Who supplies the torques, and the largest load, worked out in blocks of postures.

    ``cases``: what the arm's weight, 1 kg on the bar and 1 N of side force ask.
    """
    side_force = side_force_of(pull, sharing.side_force)
    strength = sharing.strength_of(lifter)
    weight = np.append(body.cross_section, body.cross_section.mean()) if sharing.by_size else None
    arms = [found[name][1] for name in ("muscle_moment_arm", "elbow_moment_arm", "girdle_moment_arm")]
    count, factor = len(MUSCLES), np.asarray(strength.factor)
    lead = np.broadcast_shapes(arms[0].shape[:-2], cases[0].elbow.shape, cases[1].elbow.shape, kg.shape, factor.shape)

    def flat(array, *tail):
        return np.broadcast_to(array, (*lead, *tail)).reshape(-1, *tail)

    cases = [Asked(flat(case.shoulder, 3), flat(case.elbow), flat(case.girdle, 2)) for case in cases]
    arms = [flat(array, *tail) for array, tail in zip(arms, ((count, 3), (count,), (count, 2)), strict=True)]
    normal, kg, factor, at_elbow = flat(anatomical(normal), 3), flat(kg), flat(factor), flat(strength.elbow)
    force = capacity(flat(found["muscle_length"][1], count), factor, body) * driven(MUSCLES, pull.hand_turn)
    active, adds = np.empty_like(force), np.empty_like(force)
    short, largest, aside = (np.empty(len(kg)) for _ in range(3))
    price = np.empty((len(kg), len(JOINTS)))
    for start in range(0, len(kg), BLOCK):
        at = slice(start, start + BLOCK)
        of_muscles = columns(
            MUSCLES,
            force[at],
            at_elbow[at],
            pull.hand_turn,
            *(array[at] for array in arms),
            normal[at],
            sharing.balance,
        )
        held, per_kg, side = (rows(case, at, normal[at], sharing.balance) for case in cases)
        newtons_per_kg = fact("gravity") / pull.hands
        shared, most = work_of(
            of_muscles, held, per_kg, kg[at], side, side_force, newtons_per_kg, sharing.power, weight
        )
        active[at], short[at], aside[at] = shared.activation[:, :count], shared.shortfall, shared.side_force
        largest[at], adds[at] = most.load, most.adds[:, :count]
        lean = np.nan_to_num(most.side_force / np.maximum(most.load, 1e-9))  # side force that goes with 1 kg
        price[at] = by_joint(most.normal * (per_kg + lean[:, None] * side), sharing.balance)
    largest = largest.reshape(lead)
    counted = largest[..., int(np.ceil(COUNTED_FROM * (lead[-1] - 1))) :]
    at_point, at_muscle = ("point",), ("point", "muscle")
    return {
        "capacity": (at_muscle, force.reshape(*lead, count)),
        "activation": (at_muscle, active.reshape(*lead, count)),
        "shortfall": (at_point, short.reshape(lead)),
        "side_force": (at_point, aside.reshape(lead)),
        "largest_load_kg": (at_point, largest),
        "adds_kg": (at_muscle, adds.reshape(*lead, count)),
        "gives_out": (("point", "joint"), price.reshape(*lead, len(JOINTS))),
        "whole_rep_load_kg": ((), counted.min(axis=-1, keepdims=True)),
    }
