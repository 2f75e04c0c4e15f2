"""Effect sizes, their intervals, summaries and power: by hand, against scipy and against statsmodels."""

import numpy as np
import pytest
from numpy.testing import assert_allclose
from scipy import stats
from statsmodels.stats import meta_analysis
from statsmodels.stats.power import TTestPower
from statsmodels.stats.weightstats import DescrStatsW

from shoulder_model.evidence import (
    difference_of_groups,
    difference_within,
    log_ratio_within,
    minimal_detectable_change,
    pooled,
    power_of,
    random_effects,
    six_invented,
    smallest_seen,
    t_quantile,
)
from shoulder_model.inputs import InputError


@pytest.mark.identity
def test_asked_the_other_way_round_only_the_sign_turns():
    there, back = (
        difference_within(30.1, 26.2, 14.9, 10.1, 12, 0.5),
        difference_within(26.2, 30.1, 10.1, 14.9, 12, 0.5),
    )
    assert_allclose([back.value, back.variance], [-there.value, there.variance], rtol=1e-14)


@pytest.mark.identity
@pytest.mark.parametrize("unit", [0.01, 9.81])
def test_the_unit_does_not_matter(unit):
    numbers = np.array([30.1, 26.2, 14.9, 10.1])
    for form, rest in ((difference_of_groups, (12, 15)), (difference_within, (12, 0.5)), (log_ratio_within, (12, 0.5))):
        plain, scaled = form(*numbers, *rest), form(*(unit * numbers), *rest)
        assert_allclose([scaled.value, scaled.variance], [plain.value, plain.variance], rtol=1e-12)


@pytest.mark.identity
def test_the_correlation_moves_the_interval_and_not_the_estimate():
    g = difference_within(30.1, 26.2, 14.9, 10.1, 12, np.array([0.0, 0.3, 0.5, 0.7]))
    assert np.ptp(g.value) == 0
    widths = np.diff(g.interval, axis=0)[0]
    assert np.all(np.diff(widths) < 0)
    # without correlation the same people twice are two groups, but for the d² part: d²/n against d²/4n
    d, n = 3.9 / ((14.9**2 + 10.1**2) / 2) ** 0.5, 12
    apart, same = difference_of_groups(30.1, 26.2, 14.9, 10.1, n, n), difference_within(30.1, 26.2, 14.9, 10.1, n, 0.0)
    factors = 1 - 3 / (4 * np.array([22, 11]) - 1)
    assert_allclose(same.variance / factors[1] ** 2 - apart.variance / factors[0] ** 2, 0.75 * d**2 / n, rtol=1e-12)


@pytest.mark.parametrize("freedom", [2, 7, 11, 19, 58, 1000])
def test_t_is_scipys(freedom):
    assert_allclose(t_quantile(freedom), stats.t.ppf(0.975, freedom), rtol=1e-10)


@pytest.mark.parametrize(
    ("effect", "freedom"),
    [
        (difference_within(36, 30, 8, 8, 12, 0.5), 11),
        (difference_of_groups(36, 30, 8, 9, 11, 10), 19),
        (log_ratio_within(36, 30, 8, 8, 12, 0.5), 11),
        (random_effects([0.1, 0.4, 0.9, 0.2], [0.04, 0.05, 0.06, 0.07]), 3),
    ],
)
def test_an_interval_goes_by_t_with_its_degrees_of_freedom(effect, freedom):
    low, high = stats.t.interval(0.95, freedom, effect.value, np.sqrt(effect.variance))
    assert effect.freedom == freedom
    assert_allclose(effect.interval, [low, high], rtol=1e-12)


def test_two_groups_by_hand_and_by_statsmodels():
    """d = 6/8, 19 degrees of freedom, factor 1 - 3/75 = 0.96; variance 0.96² x (21/110 + 0.75²/42)."""
    g = difference_of_groups(36, 30, 8, 8, 11, 10)
    assert_allclose([g.value, g.variance], [0.72, 0.9216 * (21 / 110 + 0.5625 / 42)], rtol=1e-12)
    theirs, variance = meta_analysis.effectsize_smd(36, 8, 11, 30, 8, 10)
    assert_allclose(g.value, theirs, rtol=1e-12)
    # theirs is another large-sample form of the variance, n - 3.94 below g² and no factor: a few per cent apart
    assert_allclose(g.variance, variance, rtol=0.1)


def test_a_difference_of_one_persons_spread_is_the_paired_interval_where_the_effect_is_nothing():
    """At a difference of nothing g's interval is the paired t interval over the SD between people, times the factor."""
    rng = np.random.default_rng(3)
    pairs = rng.multivariate_normal([0, 0], [[1, 0.6], [0.6, 1]], 14)
    pairs -= pairs.mean(axis=0)
    spread = pairs.std(axis=0, ddof=1)
    g = difference_within(0, 0, *spread, 14, np.corrcoef(pairs.T)[0, 1])
    low, high = DescrStatsW(pairs[:, 0] - pairs[:, 1]).tconfint_mean(0.05)
    between = np.sqrt((spread**2).mean())
    # exact only for equal spreads: 2 (1 - r) s² stands for s1² + s2² - 2 r s1 s2
    exact = np.sqrt((2 * (1 - np.corrcoef(pairs.T)[0, 1]) * between**2) / np.var(pairs[:, 0] - pairs[:, 1], ddof=1))
    assert_allclose(g.interval, np.array([low, high]) / between * (1 - 3 / 51) * exact, rtol=1e-10)
    assert exact == pytest.approx(1, abs=0.05)


@pytest.mark.parametrize(("true", "correlation"), [(0.0, 0.5), (0.8, 0.3), (0.8, 0.7)])
@pytest.mark.parametrize("n", [8, 12, 30])
def test_the_interval_holds_the_truth_about_as_often_as_it_says(true, correlation, n):
    rng = np.random.default_rng(11)
    cover = np.array([[1.0, correlation], [correlation, 1.0]])
    people = rng.multivariate_normal([true, 0.0], cover, (4000, n))
    mean, sd = people.mean(axis=1), people.std(axis=1, ddof=1)
    g = difference_within(mean[:, 0], mean[:, 1], sd[:, 0], sd[:, 1], n, correlation)
    low, high = g.interval
    held = np.mean((low < true) & (true < high))
    # t stands for a spread that is estimated; with the true correlation given the interval is a little too long
    assert 0.945 < held < 0.992
    assert abs(g.value.mean() - true) < 0.05
    own = [np.corrcoef(one.T)[0, 1] for one in people[:1500]]
    low, high = difference_within(*mean[:1500].T, *sd[:1500].T, n, np.clip(own, -0.99, 0.99)).interval
    assert 0.91 < np.mean((low < true) & (true < high)) < 0.98  # 1,500 repetitions: ± 1.1 points


def test_a_summary_of_equal_effects_is_that_effect_and_of_unequal_ones_is_wider():
    same = random_effects([0.3] * 4, [0.04] * 4)
    assert_allclose([same.value, same.variance, same.between, same.inconsistency], [0.3, 0.01, 0, 0], atol=1e-15)
    spread = random_effects([-0.7, 0.1, 0.5, 1.3], [0.04] * 4)
    # equal weights: between = sample variance - 0.04, so the variance of the mean is sample variance / 4
    assert_allclose([spread.value, spread.variance], [0.3, np.var([-0.7, 0.1, 0.5, 1.3], ddof=1) / 4], rtol=1e-12)
    assert spread.weights.sum() == pytest.approx(1)


# the six invented trials


def test_six_invented_trials_by_hand():
    """Every step of `six_invented`'s docstring, in arithmetic of its own and to the digits that it prints."""
    people, points = np.array([20, 20, 5, 95, 20, 20]), np.array([4, 0, 10, 2, 8, 5])
    d, factor = points / 10, 1 - 3 / (4 * (people - 1) - 1)
    g, variance = factor * d, factor**2 * (1 + d**2 / 2) / people
    assert_allclose(factor, [0.96, 0.96, 0.8, 0.992, 0.96, 0.96], atol=1e-15)
    assert_allclose(g, [0.384, 0, 0.8, 0.1984, 0.768, 0.48], atol=1e-15)
    assert_allclose(variance, [0.04977, 0.04608, 0.192, 0.01057, 0.06083, 0.05184], atol=5e-6)
    weight = 1 / variance
    assert_allclose(weight, [20.09, 21.70, 5.21, 94.65, 16.44, 19.29], atol=5e-3)
    assert_allclose([weight.sum(), (weight * g).sum()], [177.38, 52.546], atol=5e-3)
    q = (weight * g**2).sum() - (weight * g).sum() ** 2 / weight.sum()
    scale = weight.sum() - (weight**2).sum() / weight.sum()
    assert_allclose([q, scale], [8.597, 118.17], atol=5e-3)
    between = (q - 5) / scale
    weight = 1 / (variance + between)
    assert between == pytest.approx(0.0304, abs=5e-5)
    assert_allclose(weight, [12.47, 13.07, 4.50, 24.39, 10.96, 12.15], atol=5e-3)
    value, error = (weight * g).sum() / weight.sum(), weight.sum() ** -0.5
    assert_allclose([value, error, 2.571 * error], [0.354, 0.1136, 0.292], atol=5e-4)
    ours = pooled(six_invented())
    assert_allclose([ours.value, ours.standard_error, ours.between, ours.q], [value, error, between, q], rtol=1e-12)
    assert_allclose(ours.weights, weight / weight.sum(), rtol=1e-12)
    assert_allclose(ours.interval, [value - 2.5706 * error, value + 2.5706 * error], atol=1e-5)


def test_six_invented_trials_by_statsmodels():
    effects = [row.effect() for row in six_invented()]
    values, variances = (np.array([getattr(one, name) for one in effects]) for name in ("value", "variance"))
    ours = random_effects(values, variances)
    theirs = meta_analysis.combine_effects(values, variances, method_re="dl", use_t=True)
    assert_allclose([ours.value, ours.q, ours.between], [theirs.mean_effect_re, theirs.q, theirs.tau2], rtol=1e-10)
    assert_allclose([ours.inconsistency, ours.standard_error], [theirs.i2, theirs.sd_eff_w_re], rtol=1e-10)
    assert_allclose(ours.interval, theirs.conf_int(0.05)[1], rtol=1e-10)


def test_votes_mislead_more_the_more_trials_there_are_and_a_summary_does_not():
    """Twelve people, a true difference of 0.4: a majority of significant trials gets rarer, the summary surer."""
    rng, n, true = np.random.default_rng(5), 12, 0.4
    people = rng.multivariate_normal([true, 0.0], [[1.0, 0.5], [0.5, 1.0]], (200, 45, n))
    gap = people[..., 0] - people[..., 1]
    significant = gap.mean(axis=-1) / (gap.std(axis=-1, ddof=1) / n**0.5) > t_quantile(11)
    votes = [np.mean(significant[:, :k].mean(axis=1) > 0.5) for k in (5, 15, 45)]
    mean, sd = people.mean(axis=2), people.std(axis=2, ddof=1)
    g = difference_within(mean[..., 0], mean[..., 1], sd[..., 0], sd[..., 1], n, 0.5)
    found = [
        np.mean([random_effects(v[:k], w[:k]).interval[0] > 0 for v, w in zip(g.value, g.variance, strict=True)])
        for k in (5, 15, 45)
    ]
    assert votes[0] > votes[1] > votes[2] and votes[2] < 0.01
    assert found[0] < found[1] <= found[2] and found[2] > 0.99


# power


@pytest.mark.parametrize("power", [0.1, 0.5, 0.8, 0.95])
@pytest.mark.parametrize("n", [3, 8, 10, 12, 30, 200])
def test_the_smallest_difference_seen_is_that_of_statsmodels(n, power):
    size = float(smallest_seen(n, power))
    assert_allclose(TTestPower().power(size, n, 0.05), power, rtol=1e-7)
    assert_allclose(size, TTestPower().solve_power(nobs=n, alpha=0.05, power=power), rtol=1e-4)  # as far as theirs goes


def test_power_is_scipys_noncentral_t():
    for n, size in ((8, 1.0), (12, 0.5), (25, 0.0)):
        needed = stats.t.ppf(0.975, n - 1)
        shape = stats.nct(n - 1, size * np.sqrt(n)) if size else stats.t(n - 1)
        assert_allclose(power_of(n, size), shape.sf(needed) + shape.cdf(-needed), rtol=1e-9)


def test_small_trials_see_large_differences_only():
    # 1.16, 1.00, 0.89 SD of the differences: four trials in five find it, run 20,000 times
    rng = np.random.default_rng(11)
    for n, size in ((8, 1.16), (10, 1.00), (12, 0.89)):
        assert smallest_seen(n) == pytest.approx(size, abs=0.005)
        people = rng.normal(size, 1.0, (20_000, n))
        test = people.mean(axis=1) / (people.std(axis=1, ddof=1) / n**0.5)
        assert np.mean(np.abs(test) > stats.t.ppf(0.975, n - 1)) == pytest.approx(0.8, abs=0.01)
    assert np.all(np.diff(smallest_seen(np.arange(3, 60))) < 0)


@pytest.mark.parametrize(
    ("call", "says"),
    [
        (lambda: difference_of_groups(1, 2, 0, 1, 9, 9), "sd_first = 0 is outside 1e-09"),
        (lambda: difference_of_groups(1, 2, 1, 1, 9, 2), "n_second = 2 people is outside 3 people"),
        (lambda: difference_within(1, np.nan, 1, 1, 9, 0.5), "second = nan is outside"),
        (lambda: difference_within(1, 2, 1, 1, 9, 1.0), "correlation = 1 is outside -0.99 to 0.99: the same people"),
        (lambda: difference_within(1, 2, "wide", 1, 9, 0.5), "sd_first = 'wide' is not a number"),
        (lambda: log_ratio_within(-1, 2, 1, 1, 9, 0.5), "first = -1 is outside 1e-09 to 1e"),
        (lambda: random_effects([0.1, 0.2], [0.1, 0.1]), "trials = 2, a summary needs 3 comparable ones"),
        (lambda: random_effects([0.1, 0.2, 0.3], [0.1, 0.1]), "variances: 2 for 3 effects"),
        (lambda: random_effects([0.1, 0.2, 0.3], [0.1, 0.1, 0]), "variances = 0 is outside"),
        (lambda: minimal_detectable_change(-1), "sem = -1 is outside 0"),
        (lambda: smallest_seen(2), "n = 2 people is outside 3 people"),
        (lambda: smallest_seen(12, power=1), "power = 1 is outside 0.06 to 0.99"),
    ],
)
def test_numbers_no_formula_can_use_are_refused(call, says):
    with pytest.raises(InputError) as caught:
        call()
    assert says in str(caught.value)
