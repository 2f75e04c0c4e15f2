"""Shoulder-to-waist arithmetic: formulas against other ways to the same number, and what is refused."""

import numpy as np
import pytest
from numpy.testing import assert_allclose
from scipy.special import ellipe

from shoulder_model.inputs import InputError
from shoulder_model.people import silhouette, waist_bands

SHAPES = pytest.mark.parametrize(
    ("breadth", "depth"), [(0.30, 0.30), (0.289, 0.254), (0.25, 0.32), (0.75, 0.15), (0.2, 1.0)]
)


@SHAPES
def test_ellipse_girth_against_the_elliptic_integral(breadth, depth):
    a, b = max(breadth, depth) / 2, min(breadth, depth) / 2
    assert_allclose(silhouette.ellipse_girth(breadth, depth), 4 * a * ellipe(1 - (b / a) ** 2), rtol=1e-9)


@SHAPES
def test_ellipse_girth_against_a_polygon(breadth, depth):
    turn = np.linspace(0, 2 * np.pi, 20_001)
    around = np.hypot(np.diff(breadth / 2 * np.cos(turn)), np.diff(depth / 2 * np.sin(turn))).sum()
    assert_allclose(silhouette.ellipse_girth(breadth, depth), around, rtol=1e-7)


@SHAPES
def test_a_layer_all_round_adds_two_pi_times_its_thickness(breadth, depth):
    """The outline moved outward along its normals, measured as a polygon; nothing of the package's formula in it."""
    turn, t = np.linspace(0, 2 * np.pi, 20_001), 0.01
    normal = np.array([depth * np.cos(turn), breadth * np.sin(turn)])
    points = np.array([breadth / 2 * np.cos(turn), depth / 2 * np.sin(turn)])
    outer = points + t * normal / np.hypot(*normal)
    gained = np.hypot(*np.diff(outer)).sum() - np.hypot(*np.diff(points)).sum()
    assert_allclose(silhouette.girth_gain(breadth, depth, t), gained, rtol=1e-6)


@SHAPES
def test_sides_gain_less_than_all_round_and_less_than_four_times_the_thickness(breadth, depth):
    gain = silhouette.girth_gain(breadth, depth, 0.01, "sides")
    assert 0 < gain < 0.04 < silhouette.girth_gain(breadth, depth, 0.01)


def test_sides_gain_pi_times_the_thickness_on_a_circle_and_four_on_a_plate():
    # a circle is met halfway: broader than deep by as much as it was narrower
    assert_allclose(silhouette.girth_gain(0.30 - 1e-4, 0.30, 1e-4, "sides"), np.pi * 1e-4, rtol=1e-6)
    assert_allclose(silhouette.girth_gain(2.9, 0.10, 0.01, "sides") / 0.01, 4.0, atol=0.02)


@pytest.mark.parametrize("sex", ["men", "women"])
def test_formula_for_the_sides_holds_for_the_surveys_chests(sex):
    breadth, depth = silhouette.means(sex, "chest_breadth", "chest_depth")
    a, b = breadth / 2 + 0.005, depth / 2
    by_formula = np.pi * 0.01 * (1 + (a - b) / (a + b) / 2)
    # the next term is -(1/4) of the square of (a - b) / (a + b), 0.08 at most
    assert_allclose(silhouette.girth_gain(breadth, depth, 0.01, "sides"), by_formula, rtol=0.0025)


@pytest.mark.parametrize(("sex", "short_cm"), [("men", 20.4), ("women", 13.5)])
def test_the_chest_is_no_ellipse_of_its_breadth_and_depth(sex, short_cm):
    breadth, depth, tape = silhouette.means(sex, "chest_breadth", "chest_depth", "chest_circumference")
    assert round(100 * (tape - silhouette.ellipse_girth(breadth, depth)), 1) == short_cm
    assert tape < 2 * (breadth + depth)  # a box of that breadth and depth is round enough


@pytest.mark.parametrize("sex", ["men", "women"])
@pytest.mark.parametrize("part", ["chest", "shoulder"])
def test_like_for_like_the_waist_leads_by_the_ratio_after_it(sex, part):
    """S + t over W against S over W - t: the second change is the new ratio times the first, whatever t is."""
    upper, waist = silhouette.means(sex, f"{part}_circumference", "waist_circumference")
    for thickness in (0.001, 0.01, 0.03):
        layer = silhouette.side_layer(sex, thickness)
        on, off = silhouette.ratio_change(upper, waist, layer), silhouette.ratio_change(upper, waist, 0.0, -layer)
        assert_allclose(off / on, upper / (waist - layer), rtol=1e-9)
        assert off > on


@pytest.mark.parametrize("sex", ["men", "women"])
def test_a_layer_at_the_sides_is_between_a_round_and_a_flat_one(sex):
    low, high = silhouette.SIDES_GAIN
    for thickness in (0.001, 0.01, 0.04):
        assert low * thickness < silhouette.side_layer(sex, thickness) < high * thickness
    assert silhouette.side_layer(sex, np.array([0.0, 0.02])).tolist()[0] == 0.0


def test_small_changes_trade_at_the_ratio():
    upper, waist, step = 1.1786, 0.9406, 1e-6
    slope = silhouette.ratio_change(upper, waist, 0, -step) / silhouette.ratio_change(upper, waist, step, 0)
    assert_allclose(slope, silhouette.waist_worth(upper, waist), rtol=1e-5)
    assert silhouette.waist_worth(0.9, 1.0) < 1 < silhouette.waist_worth(1.0, 0.9)


def test_changes_that_keep_the_ratio_keep_it():
    assert_allclose(silhouette.ratio_change(1.2, 0.8, 0.03, 0.02), 0.0, atol=1e-15)
    assert silhouette.ratio_change(1.2, 0.8) == 0


def test_arrays_go_through():
    waists = np.array([0.7, 0.8, 0.9])
    changes = silhouette.ratio_change(1.2, waists, 0.0, -0.05)
    assert changes.shape == (3,) and (np.diff(changes) < 0).all()
    gains = silhouette.girth_gain(np.array([[0.30], [0.28]]), np.array([0.25, 0.26, 0.27]), 0.01, "sides")
    assert gains.shape == (2, 3)
    assert silhouette.girth_gain(np.array([0.30, 0.28]), 0.25, 0.01).shape == (2,)


def test_percentiles_of_a_normal():
    # one, two and three standard deviations: 68.27, 95.45 and 99.73 % inside
    for k, inside in ((1, 68.27), (2, 95.45), (3, 99.73)):
        assert abs(silhouette.percentile(k, 0, 1) - silhouette.percentile(-k, 0, 1) - inside) < 0.005
    assert silhouette.percentile(5, 5, 2) == 50


@pytest.mark.parametrize(
    ("call", "field", "said"),
    [
        (lambda: silhouette.survey_quantity("men", "waist_girth"), "quantity", "nearest: waist_"),
        (lambda: silhouette.survey_quantity("boys", "stature"), "sex", "'boys' is not known"),
        (lambda: waist_bands("M"), "sex", "'M' is not known"),
        (lambda: silhouette.ratio_change(118, 94), "upper", "outside 10.0 cm to 300.0 cm: give a girth or a breadth in metres"),
        (lambda: silhouette.ratio_change(1.18, np.nan), "waist", "nan cm"),
        (lambda: silhouette.ratio_change(1.18, 0.94, 0, -5), "waist_change", "-500.0 cm is outside -50.0 cm to 50.0 cm"),
        (lambda: silhouette.ratio_change(1.18, 0.40, 0, -0.35), "waist, changed", "5.0 cm is outside"),
        (lambda: silhouette.waist_worth(1.18, -0.9), "waist", "-90.0 cm"),
        (lambda: silhouette.ellipse_girth(0.3, 0.0), "depth", "0.0 cm is outside"),
        (lambda: silhouette.girth_gain(0.3, 0.25, 1.0), "thickness", "0.01 for a centimetre"),
        (lambda: silhouette.girth_gain(0.3, 0.25, 0.01, "side"), "where", "nearest: sides"),
        (lambda: silhouette.side_layer("men", 0.2), "thickness", "outside 0.0 cm to 10.0 cm"),
        (lambda: silhouette.side_layer("boys", 0.01), "sex", "'boys' is not known"),
        (lambda: silhouette.percentile(1, 1, 0), "sd", "is not positive"),
        (lambda: silhouette.percentile(np.inf, 1, 1), "value", "give a plain number"),
    ],
)  # fmt: skip
def test_wrong_input_is_refused_with_what_to_do(call, field, said):
    with pytest.raises(InputError) as caught:
        call()
    assert caught.value.field == field and said in str(caught.value)
