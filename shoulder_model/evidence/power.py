"""How large a difference has to be before a small trial sees it."""

import numpy as np

from ..inputs import Allowed, number
from .effect_size import PEOPLE, t_quantile

POWER = Allowed(
    0.06, 0.99, "", "a share of repeated trials; a test that sees nothing still says yes one time in twenty"
)
HALVINGS = 50  # of a range up to `FURTHEST`: far below rounding
FURTHEST = 16.0  # standard errors: 3 people find that in all but 4 of a million trials


def power_of(n, size):
    """Share of repeated paired t tests (two-sided, 5 %) of ``n`` people that find a true difference.

    ``n`` people; ``size`` is the true mean difference in SDs **of the differences**; both numbers or arrays. Exact: the test
    value follows Student's t with n − 1 degrees of freedom and non-centrality size √n (Biometrika 1940;31(3/4):362-389, from
    memory, MM).

    >>> round(float(power_of(12, 0.89)), 2)
    0.8
    """
    from scipy.special import nctdtr  # lazy: scipy makes importing the package slow

    n, size = np.broadcast_arrays(number("n", n, PEOPLE), np.asarray(size, float))
    needed = np.vectorize(t_quantile)(n - 1)
    shift = size * np.sqrt(n)
    wrong_way = np.nan_to_num(nctdtr(n - 1, shift, -needed))  # scipy gives NaN where it is below 1e-20
    return 1 - nctdtr(n - 1, shift, needed) + wrong_way


def smallest_seen(n, power=0.8):
    """Mean difference that a paired t test of ``n`` people finds with this power, in SDs **of the differences**.

    ``n`` people, a number or array; ``power`` the share of repeated trials that find it. The size at which `power_of` reaches
    ``power``, by halving.

    >>> [round(float(smallest_seen(n)), 2) for n in (8, 10, 12)]
    [1.16, 1.0, 0.89]
    """
    n, share = np.asarray(number("n", n, PEOPLE), float), number("power", power, POWER)
    low, high = np.zeros(n.shape), FURTHEST / np.sqrt(n)
    for _ in range(HALVINGS):
        middle = (low + high) / 2
        enough = power_of(n, middle) >= share
        low, high = np.where(enough, low, middle), np.where(enough, middle, high)
    return (low + high) / 2
