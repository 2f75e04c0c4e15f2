"""Shoulder-to-waist values of ANSUR II (NATICK/TR-15/007), and what the trials of chapter 01 printed."""

import numpy as np
import pytest
from numpy.testing import assert_allclose

from shoulder_model.people import silhouette, waist_bands

pytestmark = pytest.mark.published

# ANSUR II 2012 public release, NATICK/TR-15/007, computed from the individual records (mark D);
# retyped here, apart from the package's table: mean, SD [cm, or ratio]
ANSUR = {
    "men": {
        "biacromial_breadth": (41.57, 1.92), "bideltoid_breadth": (51.04, 3.25), "shoulder_circumference": (117.86, 6.36),
        "chest_circumference": (105.87, 8.74), "waist_circumference": (94.06, 11.17), "waist_breadth": (32.64, 3.47),
        "biacromial_to_stature": (0.237, 0.010), "shoulder_to_waist_circumference": (1.265, 0.113),
        "chest_to_waist_circumference": (1.132, 0.067), "bideltoid_to_waist_breadth": (1.573, 0.110),
        "shoulder_to_hip_circumference": (1.159, 0.056),
    },
    "women": {
        "biacromial_breadth": (36.53, 1.83), "bideltoid_breadth": (45.03, 2.87), "shoulder_circumference": (102.82, 5.29),
        "chest_circumference": (94.69, 8.27), "waist_circumference": (86.09, 9.99), "waist_breadth": (29.99, 3.30),
        "biacromial_to_stature": (0.224, 0.010), "shoulder_to_waist_circumference": (1.205, 0.106),
        "chest_to_waist_circumference": (1.105, 0.069), "bideltoid_to_waist_breadth": (1.512, 0.110),
        "shoulder_to_hip_circumference": (1.010, 0.053),
    },
}  # fmt: skip
PEOPLE = {"men": 4082, "women": 1986}
SEXES = pytest.mark.parametrize("sex", ["men", "women"])


@SEXES
def test_means_and_spreads_are_the_surveys(sex, outside):
    for name, printed in ANSUR[sex].items():
        scale = 100 if name.endswith(("breadth", "circumference")) and "_to_" not in name else 1
        found = np.multiply(scale, silhouette.survey_quantity(sex, name))
        outside(printed[0], found[0], "cm" if scale == 100 else "", spread=printed[1], what=name.replace("_", " "))
        assert_allclose(found, printed, rtol=1e-12)


@pytest.mark.identity
@SEXES
def test_the_two_tables_of_the_survey_agree(sex):
    for name, other in {"stature": "stature", "biacromial_breadth": "biacromial"}.items():
        people = silhouette.survey(sex)
        at = people.names.index(other)
        # one table rounds to 0.1 mm, the other to 0.01 mm
        assert_allclose(silhouette.survey_quantity(sex, name), (people.mean[at], people.sd[at]), atol=0.00006)


@pytest.mark.identity
@SEXES
def test_the_bands_add_up_to_the_whole_sample(sex):
    bands, (mean, sd) = waist_bands(sex), ANSUR[sex]["shoulder_to_waist_circumference"]
    people, means, sds = (np.array([getattr(band, name) for band in bands]) for name in ("people", "mean", "sd"))
    assert people.sum() == PEOPLE[sex]
    pooled = people @ means / people.sum()
    # band means are rounded to 0.0005, and so is the whole
    assert abs(pooled - mean) < 0.001
    assert abs(np.sqrt(people @ (sds**2 + (means - pooled) ** 2) / people.sum()) - sd) < 0.001


def test_band_ends_as_printed(outside):
    # ANSUR II, NATICK/TR-15/007, derived
    men, women = (waist_bands(sex) for sex in ("men", "women"))
    outside((1.438, 1.119), (men[0].mean, men[-1].mean), what="men")
    outside((1.367, 1.047), (women[0].mean, women[-1].mean), what="women")
    assert (men[0].high, men[0].mean, men[-1].low, men[-1].mean) == (0.46, 1.438, 0.60, 1.119)
    assert (women[0].mean, women[-1].mean) == (1.367, 1.047)


@pytest.mark.identity
@SEXES
def test_spread_and_mean_of_the_ratio_fit_one_correlation(sex):
    """SD of the ratio tells how shoulder and waist go together; the same correlation has to give its mean."""
    (shoulder, shoulder_sd), (waist, waist_sd), (mean, sd) = (
        ANSUR[sex][name]
        for name in ("shoulder_circumference", "waist_circumference", "shoulder_to_waist_circumference")
    )
    s, w, q = shoulder_sd / shoulder, waist_sd / waist, sd / mean
    r = (s**2 + w**2 - q**2) / (2 * s * w)
    assert 0.65 < r < 0.75  # big people are big in both places
    # second order in the spread of the waist, whose third power is 0.0017: 0.002 of the mean
    assert abs(shoulder / waist * (1 + w**2 - r * s * w) - mean) < 0.002 * mean


@SEXES
def test_waist_to_stature_is_nearly_normal(sex, outside):
    """ANSUR II, NATICK/TR-15/007: counted people below each band edge against the normal that chapter 01 uses: within 3 points."""
    mean, sd = silhouette.survey_quantity(sex, "waist_to_stature")
    bands = waist_bands(sex)
    counted = 100 * np.cumsum([band.people for band in bands]) / PEOPLE[sex]
    outside(counted[:-1], [silhouette.percentile(band.high, mean, sd) for band in bands[:-1]], "% of people")
    for band, share in zip(bands[:-1], counted, strict=False):
        assert abs(silhouette.percentile(band.high, mean, sd) - share) < 3.05


def test_contest_bodybuilders_stand_apart(outside):
    # J Sports Sci 1991;9(1):23-32: 36 men on contest day, chest / abdomen 1.345 ± 0.059 (another waist site)
    mean, sd = silhouette.survey_quantity("men", "chest_to_waist_circumference")
    outside("1.345 on contest day, 3 SD above", mean, spread=0.059)
    assert 3 < (1.345 - mean) / sd < 3.4 and (1.345 - mean) / 0.059 > 3


@SEXES
def test_muscle_and_fat_outside_the_frame_are_a_fifth(sex, outside):
    # ANSUR II, NATICK/TR-15/007, derived
    wide, bone = silhouette.means(sex, "bideltoid_breadth", "biacromial_breadth")
    printed = {"men": 9.5, "women": 8.5}[sex]
    outside(printed, 100 * (wide - bone), "cm")
    assert round(100 * (wide - bone), 1) == printed
    assert 0.18 < 1 - bone / wide < 0.20
