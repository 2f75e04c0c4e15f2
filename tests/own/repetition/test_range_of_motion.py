import numpy as np
import pytest
from numpy.testing import assert_allclose

import shoulder_model as sm
from shoulder_model.mechanics import raised_arm
from shoulder_model.muscles import path_points, paths, shoulder_muscles, turned_scapula
from shoulder_model.repetition import coverage, full_span

MEN = sm.Lifter.average("men")


def test_the_full_span_holds_every_length_on_its_grid():
    shortest, longest = full_span()
    for elevation, plane in ((0.0, 0.0), (150.0, 90.0), (75.0, 45.0)):
        posture = np.radians([elevation, plane])
        length = paths(raised_arm(*posture), turned_scapula(*posture))[0]
        assert np.all((length >= shortest - 1e-12) & (length <= longest + 1e-12))


def test_coverage_is_the_reps_own_lengths_on_the_span():
    pull, which = sm.pulls["pull-up"], shoulder_muscles().index("latissimus dorsi middle")
    found, one = coverage(MEN, pull), sm.rep(MEN, pull)
    length = one.muscle_length.values[:, which]
    shortest, longest = (end[which] for end in full_span())
    assert float(found.covered) == pytest.approx(np.ptp(length) / (longest - shortest))
    assert float(found.longest) == pytest.approx((length.max() - shortest) / (longest - shortest))


def test_asked_when_long_is_a_share_and_goes_with_the_pull():
    shares = {name: float(coverage(MEN, pull).asked_when_long) for name, pull in sm.pulls.items()}
    assert all(0 <= share <= 1 for share in shares.values())
    assert shares["pull-up"] > 0.5 > 0.1 > shares["seated row close"]


def test_no_load_asks_nothing():
    nothing = coverage(MEN, sm.pulls["front pulldown"].change(load_kg=0.0), points=5)
    assert np.isfinite(float(nothing.asked_when_long))


def test_an_unknown_muscle_gives_the_nearest():
    with pytest.raises(ValueError, match="muscle 'latissimus' is not known; nearest: latissimus dorsi"):
        coverage(MEN, sm.pulls["pull-up"], "latissimus")


@pytest.mark.identity
@pytest.mark.parametrize("name", shoulder_muscles())
@pytest.mark.parametrize("degrees", [(5.0, 0.0), (80.0, 20.0), (130.0, 90.0)])
def test_drawn_paths_have_the_length_of_the_path(name, degrees):
    posture = np.radians(degrees)
    humerus, scapula = raised_arm(*posture), turned_scapula(*posture)
    points = path_points(name, humerus, scapula, count=2000)
    drawn = np.linalg.norm(np.diff(points, axis=0), axis=1).sum()
    assert_allclose(drawn, paths(humerus, scapula)[0][shoulder_muscles().index(name)], rtol=1e-6)
