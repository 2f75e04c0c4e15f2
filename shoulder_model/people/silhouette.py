"""Shoulder-to-waist arithmetic: what a centimetre here or there does to a ratio, a girth, a place in the survey.

Means and standard deviations are those of the ANSUR II survey (4,082 men, 1,986 women; NATICK/TR-15/007,
computed from the individual records, mark D). Soldiers, measured once: they show how people differ, not
what training does to one of them. A ratio describes an outline, not health or worth.
"""

from functools import cache
from statistics import NormalDist

import numpy as np

from ..inputs import Allowed, InputError, checked_call, choice, fitting, number, scalar
from ..tables import read_table
from .lifter import SEXES, survey

WHOLE = "whole sample"
LENGTH = Allowed(0.10, 3.0, "m", "give a girth or a breadth in metres")
CHANGE = Allowed(-0.50, 0.50, "m", "give a change in metres, minus for smaller")
THICKNESS = Allowed(0.0, 0.10, "m", "give the muscle's extra thickness in metres, 0.01 for a centimetre")
ANGLES = np.linspace(0.0, 2 * np.pi, 720, endpoint=False)
PLACES = ("all round", "sides")
SIDES_GAIN = (np.pi, 4.0)  # times the thickness: what a layer at both sides adds to a round outline, and to a flat one


def survey_rows(sex):
    """Rows of the survey's table for one ``sex``, "men" or "women": a list of dicts of text, units in each row."""
    letter = {"men": "M", "women": "F"}[choice("sex", sex, SEXES)]
    return [row for row in read_table("silhouette_ansur2.csv") if row["sex"] == letter]


@checked_call
def survey_quantities(sex):
    """Mean and standard deviation of every quantity of one sex, by name.

    Parameters
    ----------
    sex : "men" or "women"

    Returns
    -------
    dict of name -> (mean, sd)
        Lengths in metres, ratios without unit.

    Raises
    ------
    InputError
        Another sex.

    Notes
    -----
    A mean ratio is the mean over people, not the ratio of two means. Waist at the navel. Source: ANSUR II
    (D). Chest breadth and depth come from the table behind `lifter.survey`.
    """
    return dict(_quantities(choice("sex", sex, SEXES)))


@cache
def _quantities(sex):
    quantities = {}
    for row in survey_rows(sex):
        if row["group"] == WHOLE:
            units = {"mm": 1000.0, "ratio": 1.0}[row["unit"]]
            quantities[row["quantity"]] = (float(row["mean"]) / units, float(row["sd"]) / units)
    people = survey(sex)
    for name in ("chest_breadth", "chest_depth"):
        quantities[name] = (people.mean_of(name), people.sd_of(name))
    return quantities


@checked_call
def survey_quantity(sex, name):
    """Mean and standard deviation of one quantity, lengths in metres.

    Parameters
    ----------
    sex : "men" or "women"
    name : str
        One of `survey_quantities`, such as ``"waist_circumference"``.

    Returns
    -------
    mean, sd : float, float
        [m], or without unit for a ratio.

    Raises
    ------
    InputError
        An unknown sex or name, with the nearest ones.

    Notes
    -----
    Validity and source as in `survey_quantities` (ANSUR II, D).

    >>> survey_quantity("men", "shoulder_to_waist_circumference")
    (1.265, 0.113)
    """
    known = survey_quantities(sex)
    return known[choice("quantity", name, tuple(known))]


@checked_call
def means(sex, *names):
    """The means of several quantities of one ``sex``, in the order of ``names``: a list of float, lengths in metres.

    Names, source and refusals as in `survey_quantity`.

    >>> means("women", "shoulder_to_waist_circumference", "waist_breadth")
    [1.205, 0.2999]
    """
    known = survey_quantities(sex)
    return [known[choice("names", name, tuple(known))][0] for name in names]


@checked_call
def ratio_change(upper, waist, upper_change=0.0, waist_change=0.0):
    """How much upper / waist changes when either length does; exact, not a slope.

    Parameters
    ----------
    upper, waist : float or ndarray
        Both girths, or both breadths: shoulders (or chest) and waist. [m]
    upper_change, waist_change : float or ndarray
        Minus for smaller. [m]

    Returns
    -------
    float or ndarray
        New ratio less old ratio.

    Raises
    ------
    InputError
        A length outside 10 cm to 3 m, before or after the change, or a change beyond 50 cm.

    Notes
    -----
    Valid for any two lengths; it does not know that a body that loses fat loses it in both places.

    >>> round(ratio_change(1.1786, 0.9406, waist_change=-0.05), 3)
    0.07
    """
    upper, waist = number("upper", upper, LENGTH), number("waist", waist, LENGTH)
    upper_change, waist_change = (
        number("upper_change", upper_change, CHANGE),
        number("waist_change", waist_change, CHANGE),
    )
    fitting(upper=upper, waist=waist, upper_change=upper_change, waist_change=waist_change)
    new_upper = number("upper, changed", upper + upper_change, LENGTH)
    new_waist = number("waist, changed", waist + waist_change, LENGTH)
    return new_upper / new_waist - upper / waist


@checked_call
def waist_worth(upper, waist):
    r"""Centimetres of the upper length that one centimetre of waist is worth: the ratio itself.

    Both small changes leave the ratio where it was when :math:`dS / W = S\,dW / W^2`, so
    :math:`dS / dW = S / W`.

    Parameters
    ----------
    upper, waist : float or ndarray
        Both girths, or both breadths. [m]

    Returns
    -------
    float or ndarray
        Above 1 the waist's centimetre moves the ratio more, below 1 the shoulder's.

    Raises
    ------
    InputError
        A length outside 10 cm to 3 m.

    Notes
    -----
    A slope: for changes that are small beside the waist. `ratio_change` is exact.

    >>> waist_worth(1.25, 1.00)
    1.25
    """
    upper, waist = number("upper", upper, LENGTH), number("waist", waist, LENGTH)
    fitting(upper=upper, waist=waist)
    return upper / waist


@checked_call
def ellipse_girth(breadth, depth):
    r"""Length of a tape round an ellipse: :math:`2\pi` times the mean half-width over all directions.

    That holds for every outline without hollows (Cauchy's formula; from memory, MH); an ellipse's half-width
    in the direction :math:`\varphi` is :math:`\sqrt{a^2\cos^2\varphi + b^2\sin^2\varphi}`.

    Parameters
    ----------
    breadth, depth : float or ndarray
        Whole axes, 2a and 2b. [m]

    Returns
    -------
    float or ndarray
        [m]

    Raises
    ------
    InputError
        An axis outside 10 cm to 3 m.

    Notes
    -----
    Good to 1e-9 of the girth where neither axis is under a fifth of the other. With the survey's chest
    breadth and depth it comes out 20.4 cm (men) and 13.5 cm (women) short of the chest tape: use it for what a
    girth *gains*.

    >>> round(ellipse_girth(1.0, 1.0), 6)
    3.141593
    """
    breadth, depth = number("breadth", breadth, LENGTH), number("depth", depth, LENGTH)
    fitting(breadth=breadth, depth=depth)
    a, b = (np.asarray(axis)[..., None] / 2 for axis in (breadth, depth))
    girth = 2 * np.pi * np.hypot(a * np.cos(ANGLES), b * np.sin(ANGLES)).mean(axis=-1)
    return float(girth) if girth.ndim == 0 else girth


@checked_call
def girth_gain(breadth, depth, thickness, where="all round"):
    r"""What a layer of muscle adds to the tape round an ellipse.

    All round, every outline without hollows gains exactly :math:`2\pi t` (a tape bends once round). Only
    at the sides, the ellipse gets :math:`2t` broader and no deeper; that gains about :math:`\pi t` on a
    round outline and up to :math:`4t` on a flat one.

    Parameters
    ----------
    breadth, depth : float or ndarray
        Whole axes of the outline, their ratio matters only. [m]
    thickness : float or ndarray
        Extra muscle on each side. [m]
    where : "all round" or "sides"

    Returns
    -------
    float or ndarray
        [m]

    Raises
    ------
    InputError
        An axis outside 10 cm to 3 m, a thickness outside 0 to 10 cm, an unknown place.

    Notes
    -----
    Geometry only: no muscle is known to thicken evenly. A layer on a part of the outline gains ``t`` times
    the angle through which the tape turns on that part.

    >>> round(100 * girth_gain(0.30, 0.25, 0.01, "sides"), 1)
    3.3
    """
    breadth, depth = number("breadth", breadth, LENGTH), number("depth", depth, LENGTH)
    t = number("thickness", thickness, THICKNESS)
    fitting(breadth=breadth, depth=depth, thickness=t)
    if choice("where", where, PLACES) == "all round":
        return 2 * np.pi * t + 0.0 * (breadth + depth)
    return ellipse_girth(breadth + 2 * t, depth) - ellipse_girth(breadth, depth)


@checked_call
def side_layer(sex, thickness):
    """What a layer at both sides adds to a tape, or takes off it: chest, shoulders and waist treated alike.

    Parameters
    ----------
    sex : "men" or "women"
    thickness : float or ndarray
        Of the layer on each side. [m]

    Returns
    -------
    float or ndarray
        [m]

    Raises
    ------
    InputError
        An unknown sex, a thickness outside 0 to 10 cm.

    Notes
    -----
    `girth_gain` at the sides of the survey's mean chest, whose breadth and depth are both known. No depth is known for
    shoulders or waist, so they are taken to be as flat as that chest. On other outlines it is `SIDES_GAIN` times the thickness.

    >>> round(100 * side_layer("men", 0.01), 2), round(100 * side_layer("women", 0.01), 2)
    (3.27, 3.23)
    """
    return girth_gain(*means(sex, "chest_breadth", "chest_depth"), thickness, "sides")


@checked_call
def percentile(value, mean, sd):
    """Share of people below ``value``, in percent, if they spread like a normal distribution.

    Parameters
    ----------
    value, mean, sd : float
        In one unit.

    Returns
    -------
    float
        0 to 100.

    Raises
    ------
    InputError
        A spread that is not positive, or anything that is not finite.

    Notes
    -----
    Waist / stature of the survey agrees with the normal to 3 points at every band edge (tested).

    >>> round(percentile(1.378, 1.265, 0.113))
    84
    """
    finite = Allowed(-1e6, 1e6, "", "give a plain number in the unit of the mean")
    value, mean, sd = scalar("value", value, finite), scalar("mean", mean, finite), scalar("sd", sd, finite)
    if sd <= 0:
        raise InputError("sd", f"sd = {sd:.4g} is not positive; give the standard deviation")
    return 100 * NormalDist(mean, sd).cdf(value)
