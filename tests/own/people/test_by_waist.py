"""The fall of shoulder / waist over bands of the waist: what is arithmetic, by other ways to the same number."""

from statistics import NormalDist

import numpy as np
import pytest
from numpy.testing import assert_allclose

from shoulder_model.people import held_ratios, means, survey_quantity, waist_bands
from shoulder_model.people.by_waist import typical_waist

SEXES = pytest.mark.parametrize("sex", ["men", "women"])


@SEXES
def test_a_bands_typical_waist_is_the_harmonic_mean_of_drawn_people(sex):
    mean, sd = survey_quantity(sex, "waist_to_stature")
    people = np.array(NormalDist(mean, sd).samples(400_000, seed=5))
    for band in waist_bands(sex):
        inside = people[(people >= band.low) & (people < band.high)]
        assert_allclose(band.waist, 1 / np.mean(1 / inside), atol=0.0005)
        assert band.low < band.waist < band.high


@SEXES
def test_the_whole_curve_is_one_band(sex):
    mean, sd = survey_quantity(sex, "waist_to_stature")
    assert_allclose(typical_waist(sex, 0.0, np.inf), mean * (1 - (sd / mean) ** 2), rtol=0.001)  # second order


@SEXES
def test_shoulders_of_all_bands_together_are_the_surveys(sex):
    """Nothing of the survey's shoulder girth went into them."""
    girth, stature = means(sex, "shoulder_circumference", "stature")
    bands = waist_bands(sex)
    together = np.average([band.shoulders for band in bands], weights=[band.people for band in bands])
    assert_allclose(together, girth / stature, rtol=0.005)


@SEXES
def test_the_shoulders_growth_from_band_to_band_is_that_of_the_tapes_correlation(sex):
    """The correlation comes from the spread of the ratio over everybody, so from other rows of the table."""
    (shoulder, shoulder_sd), (waist, waist_sd), (ratio, ratio_sd) = (
        survey_quantity(sex, name)
        for name in ("shoulder_circumference", "waist_circumference", "shoulder_to_waist_circumference")
    )
    s, w, q = shoulder_sd / shoulder, waist_sd / waist, ratio_sd / ratio
    slope = (s**2 + w**2 - q**2) / (2 * s * w) * shoulder_sd / waist_sd
    waists, shoulders = np.transpose([(band.waist, band.shoulders) for band in waist_bands(sex)])
    assert_allclose(np.polyfit(waists, shoulders, 1)[0], slope, atol=0.08)


@SEXES
def test_with_equal_shoulders_the_ratio_falls_further_than_in_the_survey(sex):
    bands, held = waist_bands(sex), held_ratios(sex)
    girth, stature = means(sex, "shoulder_circumference", "stature")
    assert_allclose(held * [band.waist for band in bands], girth / stature, rtol=1e-12)
    fall = bands[0].mean - bands[-1].mean
    assert held[0] - held[-1] > 1.4 * fall
    assert (np.diff([band.shoulders for band in bands]) > 0).all()


@SEXES
def test_by_the_middles_of_the_inner_bands_it_is_the_same(sex):
    """No normal curve in it."""
    girth, stature = means(sex, "shoulder_circumference", "stature")
    inner = waist_bands(sex)[1:-1]
    middles = np.array([(band.low + band.high) / 2 for band in inner])
    assert_allclose(held_ratios(sex)[1:-1], girth / stature / middles, rtol=0.012)
    by_middles = girth / stature * (1 / middles[0] - 1 / middles[-1])
    assert by_middles > 1.3 * (inner[0].mean - inner[-1].mean)
