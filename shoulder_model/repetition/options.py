"""How a rep is worked out: the options of `rep` and `sweep`, their defaults and their checks."""

import inspect
from dataclasses import dataclass, fields

import numpy as np

from ..inputs import Allowed, InputError, checked_call, choice, flag, number, scalar, thing, whole
from ..mechanics.hand_path import POINTS
from ..muscles import Body, Strength, expected_strength, reference_body
from ..muscles.capacity import FACTOR
from ..muscles.geometry import compiled_rows
from ..sharing.least_effort import POWER
from ..sources import fact
from .balance import BALANCES, SIDE_FORCES

FRICTION = Allowed(0.0, 3.0, "", "sideways force over the pull on the hand; 0.3 to 0.8 on a knurled bar")
FLAGS = ("arm_weight", "muscles", "by_size", "compiled")


@checked_call
@dataclass(frozen=True)
class RepOptions:
    """The options of `rep_and_sweep.rep`, where each is explained; here are their defaults. `InputError` for any other."""

    points: int = 41
    arm_weight: bool = True
    muscles: bool = True
    work: bool | None = True
    strength: Strength | float | None = None
    balance: str = "plane"
    side_force: str = "grip"
    power: float = 2.0
    by_size: bool = True
    body: object = None
    friction: float | None = None
    compiled: bool = False

    def __post_init__(self):
        object.__setattr__(self, "points", whole("points", self.points, POINTS))
        object.__setattr__(self, "power", scalar("power", self.power, POWER))
        for name in FLAGS if self.work is None else (*FLAGS, "work"):
            object.__setattr__(self, name, flag(name, getattr(self, name)))
        if self.compiled:
            compiled_rows()
        if self.strength is not None and not isinstance(self.strength, Strength):
            object.__setattr__(self, "strength", number("strength", self.strength, FACTOR))
        if self.body is not None:
            thing("body", self.body, Body)
        usual = fact("grip_friction") if self.friction is None else self.friction
        object.__setattr__(self, "friction", scalar("friction", usual, FRICTION))
        choice("balance", self.balance, BALANCES)
        choice("side_force", self.side_force, SIDE_FORCES)

    def strength_of(self, lifter):
        """The `muscles.Strength`, ratios without unit, used for a ``lifter``."""
        if self.strength is None:
            return expected_strength(lifter)
        if isinstance(self.strength, Strength):
            return self.strength
        usual = fact("elbow_over_shoulder_strength")
        return Strength(self.strength, self.strength, self.strength, usual, "a given factor")

    def body_of(self):
        """The `muscles.Body` that is used: landmarks in metres, sizes in square centimetres."""
        return reference_body() if self.body is None else self.body

    @property
    def weights(self):
        """What each muscle's term counts in the sharing, the girdle's rest last, (muscle + 1,), cross-sections in the unit [cm²]; None where all count alike."""
        size = self.body_of().cross_section
        return np.append(size, size.mean()) if self.by_size else None

    def strength_along(self, crowd, lay_along):
        """A given strength with any arrays, one value a lifter, laid along the ``crowd``'s axis by ``lay_along``; ratios.

        Raises `InputError` for arrays of another shape than the ``crowd``'s.
        """
        arrays = {field: value for field, value in vars(self.strength).items() if np.ndim(value)}
        wrong = [field for field, value in arrays.items() if np.shape(value) != crowd]
        if wrong:
            shape = np.shape(arrays[wrong[0]])
            raise InputError(
                "strength",
                f"strength: {wrong[0]} has shape {shape}; give one number, or one for each lifter of a crowd",
            )
        return lay_along(self.strength, arrays) if arrays else self.strength


OPTIONS = tuple(field.name for field in fields(RepOptions))


def options_of(named):
    """`RepOptions` of a dict ``named``; an unknown name raises `inputs.UnknownName` with the nearest ones."""
    return RepOptions(**{choice("option", name, OPTIONS): value for name, value in named.items()})


def signature_with_options(*last, **defaults):
    """Signature of a call that takes a lifter, a pull and the options by name, for help and tab completion.

    ``last`` are `inspect.Parameter` that follow, ``defaults`` this call's own ones.
    """
    first = [inspect.Parameter(name, inspect.Parameter.POSITIONAL_OR_KEYWORD) for name in ("lifter", "pull")]
    named = [
        inspect.Parameter(f.name, inspect.Parameter.KEYWORD_ONLY, default=defaults.get(f.name, f.default))
        for f in fields(RepOptions)
    ]
    return inspect.Signature([*first, *named, *last])
