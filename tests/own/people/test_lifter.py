import numpy as np
import pytest

import shoulder_model as sm


def test_given_measures_stand_and_the_rest_is_expected():
    lifter = sm.Lifter.from_measures("women", stature=1.68, mass=64.0, biacromial=0.372)
    assert (lifter.stature, lifter.mass, lifter.biacromial) == (1.68, 64.0, 0.372)
    expected = sm.expected_measures("women", stature=1.68, mass=64.0, biacromial=0.372)
    assert expected["stature"] == (1.68, 0.0)
    assert lifter.elbow_grip == expected["elbow_grip"][0]
    assert 0 < expected["elbow_grip"][1] < sm.survey("women").sd[5]  # knowing three narrows the fourth


def test_giving_every_measure_twice_changes_nothing():
    first = sm.Lifter.from_measures("men", stature=1.9, mass=80.0)
    names = sm.survey("men").names
    assert sm.Lifter.from_measures("men", **{n: getattr(first, n) for n in names}) == first


def test_same_seed_same_crowd():
    one, two, other = (sm.draw_lifters(50, "men", seed=s) for s in (1, 1, 2))
    assert np.array_equal(one.stature, two.stature)
    assert not np.array_equal(one.stature, other.stature)


@pytest.mark.parametrize(
    ("measures", "says"),
    [
        ({"mass": -64.0}, r"mass = -64 kg is outside .* kg to .* kg: check the reading and its unit"),
        ({"stature": 168.0}, r"stature = 16800.0 cm is outside 130.7 cm to 194.9 cm"),
        ({"biacromial": float("nan")}, r"biacromial = nan cm"),
        ({"biacromal": 0.37}, r"measure 'biacromal' is not known; nearest: biacromial"),
        (
            {"mass": 118.0, "chest_depth": 0.12},
            r"mass, chest_depth do not go together: they imply stature = 2.*give stature too",
        ),
    ],
)
def test_impossible_measures_are_refused_by_name(measures, says):
    with pytest.raises(ValueError, match=says):
        sm.Lifter.from_measures("women", **measures)


def test_unknown_sex_gives_the_choices():
    with pytest.raises(ValueError, match="sex 'woman' is not known; nearest: women"):
        sm.Lifter.average("woman")


def test_a_crowd_needs_at_least_one():
    with pytest.raises(ValueError, match="n = 0 lifters is outside"):
        sm.draw_lifters(0, "men", seed=1)


def test_trunk_sites_scale_with_stature():
    small, tall = (sm.Lifter.from_measures("men", stature=s, chest_depth=0.25) for s in (1.6, 1.9))
    gh_drop = 0.04
    assert (tall.trunk_site(1.0)[1] - gh_drop) / (small.trunk_site(1.0)[1] - gh_drop) == pytest.approx(1.9 / 1.6)
    assert small.trunk_site(1.0)[0] == pytest.approx(0.125)
