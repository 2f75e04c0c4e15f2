import numpy as np
import pytest
from numpy.testing import assert_allclose

import shoulder_model as sm
from shoulder_model.arm import raised_arm
from shoulder_model.muscle import landmarks, paths


@pytest.mark.identity
@pytest.mark.parametrize(("plane_deg", "axis", "sign"), [(0, "adduction", 1.0), (90, "extension", 1.0)])
def test_moment_arm_is_minus_the_slope_of_the_length(plane_deg, axis, sign):
    # raising the arm stretches an adductor (extensor): arm = dL / d(elevation); central difference, error ~ h² + 1e-16/h
    elevation, plane, h = np.radians(np.arange(0, 180, 7.0)), np.radians(plane_deg), 1e-6
    slope = (paths(raised_arm(elevation + h, plane))[0] - paths(raised_arm(elevation - h, plane))[0]) / (2 * h)
    for i, name in enumerate(landmarks()[0]):
        inside = elevation if elevation[0] > 0 else elevation.clip(0)
        assert_allclose(sm.moment_arm(name, inside, plane, axis), sign * slope[:, i], atol=1e-8)


def test_raised_arm_points_where_it_should():
    down = -raised_arm([0.0, np.pi / 2, np.pi / 2], [0.0, 0.0, np.pi / 2])[..., 1]
    assert_allclose(down, [[0, -1, 0], [0, 0, 1], [1, 0, 0]], atol=1e-12)
    turn = raised_arm(1.1, 0.7)
    assert_allclose(turn @ turn.T, np.eye(3), atol=1e-12)


def test_rep_and_single_call_agree_where_the_arm_is_the_same():
    # hanging arm, forearm level ahead: the humerus' axes are the trunk's
    arms = paths(np.eye(3))[1]
    for i, name in enumerate(landmarks()[0]):
        assert sm.moment_arm(name, 0.0, 0.0, "adduction") == pytest.approx(arms[i, 0])


@pytest.mark.parametrize(
    ("change", "says"),
    [
        ({"name": "latissimus"}, "muscle 'latissimus' is not known; nearest: latissimus dorsi"),
        ({"axis": "abduction"}, "axis 'abduction' is not known; nearest: adduction"),
        ({"elevation": 90}, r"elevation = 5156.6° \(90.000 rad\) is outside 0.0°"),
        ({"plane": float("nan")}, "plane = nan°"),
    ],
)
def test_wrong_input_is_refused_by_name(change, says):
    call = {"name": "latissimus dorsi middle", "elevation": 1.0, "plane": 0.0, "axis": "adduction"} | change
    with pytest.raises(ValueError, match=says):
        sm.moment_arm(**call)
