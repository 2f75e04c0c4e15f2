"""The muscles of the model: their names, sizes and fibres, from ``data/capacity.csv``.

Where a cadaver study and living volumes over fibre length disagree on a size, both are its range and their geometric mean
its value. At strength factor 1 the model's adduction is then 47 to 55 N m between 0 and 60°, measured 67.9 ± 28.4
(J Biomech 2007;40:2442).
"""

from functools import cache

import numpy as np

from ..tables import read_table


@cache
def muscle_table():
    """Rows of ``data/capacity.csv`` as dicts of text: size [cm²] and fibre length [cm] of every muscle, source and mark."""
    return tuple(read_table("capacity.csv"))


MUSCLES = tuple(row["muscle"] for row in muscle_table())  # shoulder muscles first, girdle muscles last
LAT = tuple(name for name in MUSCLES if name.startswith("latissimus"))


@cache
def cross_sections():
    """PCSA of every muscle and the ends of what sources say, three arrays (muscle,). [cm²]"""
    return tuple(np.array([float(row[k]) for row in muscle_table()]) for k in ("pcsa_cm2", "pcsa_low", "pcsa_high"))


@cache
def optimal_fibres():
    """Optimal fibre length of every muscle (muscle,). [m]"""
    return np.array([float(row["fibre_cm"]) / 100 for row in muscle_table()])
