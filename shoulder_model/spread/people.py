"""How strong people are: the spread of strength between lifters of one sex and mass.

One repetition of the pulldown was 0.93 ± 0.17 of body mass in men and 0.55 ± 0.11 in women (J Strength Cond Res
2009;23(3):1022-1028). A log-normal factor with that mean and standard deviation, so nobody has no strength at all.
"""

import numpy as np

from ..inputs import Allowed, checked_call, choice, number, thing, whole
from ..muscles import Strength, expected_strength
from ..people import Crowd, Lifter
from ..people.lifter import SEED, SEXES
from ..sources import constant

STREAM = "strength"
DEVIATE = Allowed(-9.0, 9.0, "SD", "give how many standard deviations from the median person")


@checked_call
def relative_spread(sex):
    """Standard deviation of strength between people of one ``sex`` ("men", "women") over its mean, a ratio; `InputError` for another one."""
    known = constant(f"pulldown_1rm_of_mass_{choice('sex', sex, SEXES)}")
    return (known.high - known.low) / 4 / known.value


@checked_call
def strength_of(crowd, deviates):
    """The `muscles.Strength` of each of a crowd.

    Parameters
    ----------
    crowd : people.Lifter
        One lifter, or arrays (n,).
    deviates : float or ndarray, shape (n,)
        Standard normal; 0 is the median person.

    Returns
    -------
    muscles.Strength
        Factors (n,); ratios.
    """
    usual = expected_strength(thing("crowd", crowd, Lifter, "sm.Lifter.average('men')"))
    spread = np.sqrt(np.log1p(relative_spread(crowd.sex) ** 2))
    deviates = np.asarray(number("deviates", deviates, DEVIATE))
    factor = usual.factor * np.exp(spread * deviates - spread**2 / 2)
    factor = float(factor) if factor.ndim == 0 else factor
    return Strength(factor, factor, factor, usual.elbow, f"drawn about sex and body mass ({crowd.sex})")


@checked_call
def drawn_strength(crowd, seed):
    """A strength drawn for each of a ``crowd`` (`people.Lifter` with arrays (n,)) by a ``seed``: a `muscles.Strength`, ratios (n,).

    The first of more people have the strengths of fewer.
    """
    seed = whole("seed", seed, SEED)
    count = np.shape(thing("crowd", crowd, Lifter, "sm.draw_lifters(100, 'men', seed=1)").stature)
    if not count:
        return strength_of(crowd, 0.0)
    return strength_of(crowd, Crowd(count[0], crowd.sex, seed).deviates(None, STREAM))
