"""How large a difference has to be before a small trial sees it."""

import numpy as np

from ..inputs import Allowed, checked_call, fitting, number
from ..sources import fact
from .effect_size import PEOPLE, t_quantile

POWER = Allowed(
    0.06, 0.99, "", "a share of repeated trials; a test that sees nothing still says yes one time in twenty"
)
SIZE = Allowed(-100.0, 100.0, "SD", "give the mean difference over the SD of the differences")
HALVINGS = 50  # of a range up to `FURTHEST`: far below rounding
FURTHEST = 16.0  # standard errors: 3 people find that in all but 4 of a million trials
USUAL = fact("usual_power")


@checked_call
def power_of(n, size):
    """Share of repeated paired t tests (two-sided, 5 %) of ``n`` people that find a true difference.

    ``n`` people; ``size`` is the true mean difference in SDs **of the differences**; both numbers or arrays. Exact: the test
    value follows Student's t with n − 1 degrees of freedom and non-centrality size √n (Biometrika 1940;31(3/4):362-389, from
    memory, MM). `InputError` for fewer than 3 people, and for what is no number.

    >>> round(float(power_of(12, 0.89)), 2)
    0.8
    """
    from scipy.special import nctdtr  # lazy: scipy makes importing the package slow

    n, size = number("n", n, PEOPLE), number("size", size, SIZE)
    fitting(n=n, size=size)
    n, size = np.broadcast_arrays(n, size)
    needed = np.vectorize(t_quantile)(n - 1)
    shift = size * np.sqrt(n)
    wrong_way = np.nan_to_num(nctdtr(n - 1, shift, -needed))  # scipy gives NaN where it is below 1e-20
    return 1 - nctdtr(n - 1, shift, needed) + wrong_way


@checked_call
def smallest_seen(n, power=USUAL):
    """Mean difference that a paired t test of ``n`` people finds with this power, in SDs **of the differences**.

    ``n`` people, a number or array; ``power`` the share of repeated trials that find it. The size at which `power_of` reaches
    ``power``, by halving; `InputError` as there, and for a power outside 0.06 to 0.99.

    >>> [round(float(smallest_seen(n)), 2) for n in (8, 10, 12)]
    [1.16, 1.0, 0.89]
    """
    n, share = np.asarray(number("n", n, PEOPLE), float), number("power", power, POWER)
    fitting(n=n, power=share)
    n, share = np.broadcast_arrays(n, share)
    low, high = np.zeros(n.shape), FURTHEST / np.sqrt(n)
    for _ in range(HALVINGS):
        middle = (low + high) / 2
        enough = power_of(n, middle) >= share
        low, high = np.where(enough, low, middle), np.where(enough, middle, high)
    return (low + high) / 2
