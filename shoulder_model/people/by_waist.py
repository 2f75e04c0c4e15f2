"""Shoulder / waist girth of people sorted by their waist, and how much of its fall is arithmetic.

The waist is the denominator of shoulder / waist and the numerator of waist / stature. So with unchanged shoulders the first
has to fall where the second grows:

    shoulder / waist = (shoulder / stature) / (waist / stature)

The table gives the left side of every band. `held_ratios` is the right side with everybody's shoulders at one share of their
stature: the fall that is arithmetic. What the survey's fall lacks of it goes with the shoulders' tape, which is larger where
the waist is.
"""

from dataclasses import dataclass

import numpy as np

from ..inputs import checked_call
from .silhouette import WHOLE, means, survey_quantity, survey_rows

BAND = "waist/stature band "
REACH = 6.0  # standard deviations: where an open band ends


@dataclass(frozen=True)
class WaistBand:
    """The people whose waist / stature lies in ``low`` to ``high``; everything without unit.

    ``people`` is their number, ``mean`` and ``sd`` are of their shoulder / waist girth (D). ``waist`` is their typical
    waist / stature; the table does not list it, so it comes from `typical_waist`.
    """

    low: float
    high: float
    people: int
    mean: float
    sd: float
    waist: float

    @property
    def shoulders(self):
        """Typical shoulder girth as a share of stature."""
        return self.mean * self.waist


def typical_waist(sex, low, high):
    """The waist / stature that people between ``low`` and ``high`` have typically, if all spread like a normal distribution.

    Parameters
    ----------
    sex : "men" or "women"
    low, high : float
        Ends of the band, without unit; ``high`` may be infinite.

    Returns
    -------
    float
        The harmonic mean, because the waist divides in the ratio; without unit.

    Notes
    -----
    An estimate. The normal curve counts the people below each edge of the survey's bands to 3 points (tested).

    >>> round(typical_waist("men", 0.0, 0.46), 3)
    0.428
    """
    mean, sd = survey_quantity(sex, "waist_to_stature")
    waists = np.linspace(max(low, mean - REACH * sd), min(high, mean + REACH * sd), 2001)
    people = np.exp(-0.5 * ((waists - mean) / sd) ** 2)
    return float(people.sum() / (people / waists).sum())


def _edges(text):
    """Both ends of a band as the table writes it: "<0.46", "0.46-0.50", ">=0.60"."""
    edge = text.lstrip("<>=")
    if text[0] in "<>":
        return (0.0, float(edge)) if text[0] == "<" else (float(edge), np.inf)
    low, high = map(float, edge.split("-"))
    return low, high


@checked_call
def waist_bands(sex):
    """Shoulder / waist girth in bands of waist / stature, narrowest first.

    Parameters
    ----------
    sex : "men" or "women"

    Returns
    -------
    list of WaistBand

    Raises
    ------
    InputError
        Another sex.

    Notes
    -----
    Cross-sectional: other people in every band, not one person changing. Source: ANSUR II (D).

    >>> [band.mean for band in waist_bands("women")]
    [1.367, 1.281, 1.211, 1.139, 1.047]
    """
    bands = []
    for row in survey_rows(sex):
        if row["group"] != WHOLE:
            low, high = _edges(row["group"].removeprefix(BAND))
            measured = int(row["n"]), float(row["mean"]), float(row["sd"])
            bands.append(WaistBand(low, high, *measured, typical_waist(sex, low, high)))
    return sorted(bands, key=lambda band: band.low)


@checked_call
def held_ratios(sex):
    """Shoulder / waist girth of each of `waist_bands`, had everybody the survey's mean shoulders for their stature.

    Parameters
    ----------
    sex : "men" or "women"

    Returns
    -------
    ndarray, shape (band,)
        Ratios without unit; their fall is arithmetic, nothing else changes.

    Raises
    ------
    InputError
        Another sex.

    Notes
    -----
    Mean shoulder girth over mean stature (ANSUR II, D), divided by each band's typical waist.

    >>> held_ratios("men").round(2).tolist()
    [1.57, 1.39, 1.29, 1.18, 1.06]
    """
    girth, stature = means(sex, "shoulder_circumference", "stature")
    return girth / stature / np.array([band.waist for band in waist_bands(sex)])
