"""A lifter: body measures in, the lengths and masses of the arm out.

Measures are those of the ANSUR II survey (4,082 men, 1,986 women; NATICK/TR-15/007).
What was not measured is filled in with its expected value given what was: the conditional
mean of a multivariate normal.
"""

from dataclasses import dataclass, fields
from functools import cache

import numpy as np

from ..inputs import Allowed, InputError, checked_call, choice, number, scalar, thing
from ..sources import fact
from ..tables import read_table

SEXES = ("men", "women")
ELBOW_LIMIT = np.radians(fact("elbow_flexion_limit_deg"))  # nobody's elbow bends further here
SPREAD = 5.0  # allowed: the survey's mean ± this many standard deviations ...
SEED = Allowed(0, 2**63, "", "give a whole number, 0 or more; the same one draws the same people")
FLOOR = 0.4  # ... and never under this share of the mean (body mass is skewed; the normal is not)


@dataclass(frozen=True)
class Survey:
    """Means, standard deviations and correlations of one sex.

    ``names`` (measure,); ``mean``, ``sd`` (measure,) [m], mass [kg]; ``correlation`` (measure, measure).
    """

    names: tuple
    mean: np.ndarray
    sd: np.ndarray
    correlation: np.ndarray

    @property
    def covariance(self):
        """Covariances (measure, measure), in the products of the measures' units."""
        return self.correlation * np.outer(self.sd, self.sd)

    def mean_of(self, name):
        """Mean of the measure ``name``. [m], mass [kg]"""
        return float(self.mean[self.names.index(name)])

    def sd_of(self, name):
        """Standard deviation of the measure ``name``. [m], mass [kg]"""
        return float(self.sd[self.names.index(name)])

    def allowed(self, name):
        """Range of the measure ``name``, `SPREAD` standard deviations about the mean and over `FLOOR`. [m], mass [kg]"""
        mean, sd = self.mean_of(name), self.sd_of(name)
        low = max(mean - SPREAD * sd, FLOOR * mean)
        return Allowed(low, mean + SPREAD * sd, "kg" if name == "mass" else "m", "check the reading and its unit")


@checked_call
def survey(sex):
    """The ANSUR II summary of one ``sex``, "men" or "women", as a `Survey`; another one is an `InputError`. [m], mass [kg]

    Source: NATICK/TR-15/007, computed from the individual records (mark D).
    """
    return _survey(choice("sex", sex, SEXES))


@cache
def _survey(sex):
    rows = read_table(f"ansur2_{sex}_summary.csv")
    columns = [row["measure"] for row in rows]
    to_si = np.array([1.0 if name.endswith("_kg") else 1e-3 for name in columns])
    return Survey(
        names=tuple(name.removesuffix("_mm").removesuffix("_kg") for name in columns),
        mean=np.array([float(row["mean"]) for row in rows]) * to_si,
        sd=np.array([float(row["sd"]) for row in rows]) * to_si,
        correlation=np.array([[float(row[f"r_{name}"]) for name in columns] for row in rows]),
    )


@checked_call
@dataclass(frozen=True)
class Lifter:
    """Body measures of one lifter, or of many when the fields are arrays of one shape.

    Parameters
    ----------
    sex : "men" or "women"
        Which half of the survey stands behind the expected values.
    stature, biacromial, acromion_radiale, radiale_stylion, elbow_grip, hand : float or ndarray
        Lengths, as ANSUR II measures them. [m]
    chest_breadth, chest_depth, waist_circumference : float or ndarray
        Trunk, as ANSUR II measures it. [m]
    mass : float or ndarray
        Body mass. [kg]

    Raises
    ------
    InputError
        A measure that is no number, not finite, or further than 5 standard deviations from the survey's mean; arrays of
        different shapes.
    """

    sex: str
    stature: float
    mass: float
    biacromial: float
    acromion_radiale: float
    radiale_stylion: float
    elbow_grip: float
    hand: float
    chest_breadth: float
    chest_depth: float
    waist_circumference: float

    def __post_init__(self):
        people = survey(self.sex)
        for name in people.names:
            object.__setattr__(self, name, number(name, getattr(self, name), people.allowed(name)))
        shapes = {name: getattr(getattr(self, name), "shape", ()) for name in people.names}
        name = next((name for name, shape in shapes.items() if len(shape) == 1), None)  # a sweep's have more axes
        if name and len(set(shapes.values())) > 1:
            other = next(one for one, shape in shapes.items() if shape != shapes[name])
            said = f"{name} has shape {shapes[name]}, {other} has {shapes[other]}; give every measure of as many people"
            raise InputError(name, said)

    @classmethod
    @checked_call
    def average(cls, sex):
        """The survey's mean man or woman: ``sex`` is "men" or "women", else `InputError`. Lengths [m], mass [kg]."""
        return cls.from_measures(sex)

    @classmethod
    @checked_call
    def from_measures(cls, sex, **measured):
        """The lifter with these measures; every other one is its expected value given these.

        Parameters
        ----------
        sex : "men" or "women"
        **measured : float
            Any fields of `Lifter`. [m], mass [kg]

        Raises
        ------
        InputError
            As `expected_measures`.

        >>> lifter = Lifter.from_measures("women", stature=1.68, mass=64.0, biacromial=0.372)
        >>> round(lifter.acromion_radiale, 3)
        0.321
        """
        return cls(sex, **{name: mean for name, (mean, _) in expected_measures(sex, **measured).items()})

    @property
    def gh_breadth(self):
        """Distance between the two GH centres [m]: taken as the biacromial breadth, ± 7 mm a side (mark D)."""
        return self.biacromial

    @property
    def upper_arm(self):
        """GH centre to elbow axis [m]: acromion-radiale less the drop from acromion to GH centre (mark D).

        295 mm for the mean man; five dissected arms gave 313 ± 16 mm (D). Surface lengths chained from the acromion are
        known to overshoot half the arm span, by 97 mm in men and 86 mm in women (D).
        """
        return self.acromion_radiale - fact("gh_below_acromion")

    @property
    def forearm(self):
        """Elbow axis to the middle of the grip [m]: elbow-grip less the elbow's back-to-axis depth (ML)."""
        return self.elbow_grip - fact("elbow_back_to_axis")

    @property
    def reach(self):
        """GH centre to the middle of the grip with a straight elbow. [m]"""
        return self.upper_arm + self.forearm

    def trunk_site(self, level):
        """Point on the front of the trunk, forward and up from the GH centre. [m], [m]

        ``level`` runs from 0 at the height of the axilla to 1 at the tenth rib (ANSUR II heights,
        scaled with stature). Forward is half the chest depth from the mid-chest down, and 0.40 of
        it at the axilla, where the chest is shallower (``data/facts.csv``; from memory, ML).
        """
        scale = self.stature / survey(self.sex).mean_of("stature")
        axilla, rib = (fact(f"{site}_below_acromion_{self.sex}") * scale for site in ("axilla", "tenth_rib"))
        depths = fact("axilla_front_of_depth"), fact("chest_front_of_depth")
        forward = self.chest_depth * np.interp(level, [0.0, _mid_chest_level()], depths)
        return forward, fact("gh_below_acromion") - (axilla + level * (rib - axilla))


@cache
def _mid_chest_level():
    """Level of the mid chest on the front of the trunk, as ``data/touch_points.csv`` has it."""
    return next(float(row["level"]) for row in read_table("touch_points.csv") if row["touch"] == "mid chest")


@checked_call
def expected_measures(sex, **measured):
    r"""Expected value and standard deviation of every measure, given some of them.

    Conditional normal: :math:`\mu_u + C_{um} C_{mm}^{-1} (x_m - \mu_m)`.

    Parameters
    ----------
    sex : "men" or "women"
    **measured : float
        Measures by the names of `Lifter`'s fields. [m], mass [kg]

    Returns
    -------
    dict of name -> (mean, sd)
        ``sd`` is 0 for what was measured. [m], mass [kg]

    Raises
    ------
    InputError
        An unknown or impossible measure, or measures that cannot belong to one person.
    """
    known = _known(sex, measured)
    people, (rest, mean, covariance) = survey(sex), conditional(sex, known)
    means, sds = dict(zip(rest, mean, strict=True)), dict(zip(rest, np.sqrt(np.diag(covariance)), strict=True))
    expected = {name: (float(known.get(name, means.get(name))), float(sds.get(name, 0.0))) for name in people.names}
    for name, (value, _) in expected.items():
        allowed = people.allowed(name)
        if not allowed.low <= value <= allowed.high:
            raise InputError(
                name,
                f"{', '.join(known)} do not go together: they imply {name} = {value:.3f} {allowed.unit}, "
                f"outside {allowed.low:.3f} to {allowed.high:.3f}; measure again, or give {name} too",
            )
    return expected


def _known(sex, measured):
    """Tape readings ``measured`` of one person, checked one by one, in the survey's order. [m], mass [kg]"""
    people = survey(sex)
    checked = {
        name: scalar(name, value, people.allowed(choice("measure", name, people.names)))
        for name, value in measured.items()
    }
    return {name: checked[name] for name in people.names if name in checked}


def conditional(sex, known):
    """What a tape leaves open: names, mean and covariance of the other measures of people who share ``known`` ones.

    For measures x with mean m and covariance S, of which the part k is known, the rest r spreads normally with

        mean        m_r + S_rk S_kk^-1 (x_k - m_k)
        covariance  S_rr - S_rk S_kk^-1 S_kr

    Parameters
    ----------
    sex : "men" or "women"
    known : dict
        Measures of one person, in the survey's order. [m], mass [kg]

    Returns
    -------
    names : tuple of str
    mean : ndarray, shape (rest,) [m], mass [kg]
    covariance : ndarray, shape (rest, rest)
        In the products of these units.
    """
    people = survey(sex)
    given = np.array([name in known for name in people.names])
    names, covariance = tuple(name for name in people.names if name not in known), people.covariance
    if not known:
        return names, people.mean, covariance
    offset = np.array([*known.values()]) - people.mean[given]
    slope = np.linalg.solve(covariance[np.ix_(given, given)], covariance[np.ix_(given, ~given)])
    spread = covariance[np.ix_(~given, ~given)] - covariance[np.ix_(~given, given)] @ slope
    return names, people.mean[~given] + offset @ slope, spread


def a_lifter(lifter):
    """Return ``lifter`` if it is a `Lifter` (one or a crowd), else raise `InputError` in words that say how to make one."""
    return thing("lifter", lifter, Lifter, "sm.Lifter.average('men')")


@checked_call
def one_person(lifter, what):
    """Refuse a ``lifter`` who is none, or is a crowd, where ``what`` (in words) is for one person: `InputError`."""
    if any(type(getattr(a_lifter(lifter), name)) is not float for name in MEASURES):
        raise InputError("lifter", f"lifter: this is a crowd; {what} is for one person")


MEASURES = tuple(field.name for field in fields(Lifter) if field.name != "sex")
