"""The derivation in symbols against the arrays, and against another library's geometry."""

import itertools

import numpy as np
import pytest
import sympy as sp
from numpy.testing import assert_allclose
from sympy.physics.mechanics import Point, ReferenceFrame, WrappingSphere

from shoulder_model import symbolic
from shoulder_model.mechanics import raised_arm
from shoulder_model.muscles import landmarks, paths, turned_scapula
from shoulder_model.muscles.paths import PathSet

pytestmark = pytest.mark.identity
NOTHING = PathSet(np.array([], dtype=int), np.zeros((0, 3)), np.zeros((0, 3)), np.zeros(0))


def planar(o, i, radius, angle):
    """Length and arm of a path in one plane through the package's arrays: origin up, insertion turned by ``angle``."""
    group = PathSet(np.array([0]), np.array([[0.0, o, 0.0]]), np.array([[0.0, i, 0.0]]), np.array([radius]))
    cos, sin, zero, one = np.cos(angle), np.sin(angle), 0 * angle, 1 + 0 * angle
    turn = np.moveaxis(np.array([[one, zero, zero], [zero, cos, -sin], [zero, sin, cos]]), -1, 0)
    length, torque = paths(turn, np.eye(3), (group, NOTHING, NOTHING))
    return length[:, 0], -torque[:, 0, 0]


def test_the_straight_arm_is_the_distance_of_the_line():
    assert sp.simplify(symbolic.moment_arm(symbolic.straight_length()) - symbolic.line_distance()) == 0


def test_the_wrapped_arm_is_the_radius():
    assert symbolic.moment_arm(symbolic.wrapped_length()) == symbolic.R


def test_nothing_jumps_where_the_line_touches_the_sphere():
    assert symbolic.wrapped_minus_straight_at_touch() == 0


@pytest.mark.parametrize(("o", "i", "radius"), [(0.06, 0.105, 0.024), (0.12, 0.027, 0.026), (0.09, 0.07, 0.03)])
def test_arrays_follow_the_symbols(o, i, radius):
    angle = np.linspace(0.05, np.pi - 0.05, 60)
    values = {symbolic.o: o, symbolic.i: i, symbolic.R: radius}
    expected = sp.lambdify(symbolic.gamma, symbolic.length().subs(values))(angle)
    length, arm = planar(o, i, radius, angle)
    assert_allclose(length, expected, rtol=1e-12)
    wraps = angle > float(symbolic.wrap_angle().subs(values))
    distance = sp.lambdify(symbolic.gamma, symbolic.line_distance().subs(values))(angle)
    assert_allclose(arm, np.where(wraps, radius, distance), rtol=1e-9)
    assert wraps.any() and not wraps.all()


def tangent(end, other, radius):
    """Where the tangent from ``end`` towards ``other`` touches the sphere about the centre."""
    distance = np.linalg.norm(end)
    normal = np.cross(end, other)
    across = np.cross(normal / np.linalg.norm(normal), end / distance)
    angle = np.arccos(radius / distance)
    return radius * (np.cos(angle) * end / distance + np.sin(angle) * across)


def sphere_geodesic():
    """Length of the shortest way on a sphere as a function of radius and angle, by the other library."""
    frame, centre = ReferenceFrame("N"), Point("centre")
    radius, angle = sp.symbols("radius angle", positive=True)
    first = centre.locatenew("first", radius * frame.x)
    second = centre.locatenew("second", radius * frame.orientnew("T", "Axis", [angle, frame.z]).x)
    return sp.lambdify((radius, angle), WrappingSphere(radius, centre).geodesic_length(first, second))


def test_wrapped_lengths_are_those_of_another_librarys_geodesics():
    geodesic, compared = sphere_geodesic(), 0
    for k, row in enumerate(landmarks()):
        radius = float(row["wrap"])
        for elevation, plane in itertools.product((0.1, 0.6, 1.2, 1.9, 2.4), (0.0, 0.8, 1.5)):
            humerus, scapula = raised_arm(elevation, plane), turned_scapula(elevation, plane)
            origin = np.array([float(row[f"origin_{axis}"]) for axis in "xyz"])
            origin = scapula @ origin if row["frame"] == "s" else origin
            insertion = humerus @ np.array([float(row[f"insertion_{axis}"]) for axis in "xyz"])
            length = paths(humerus, scapula)[0][k]
            straight = np.linalg.norm(origin - insertion)
            if radius == 0 or length - straight < 1e-9:
                assert length == pytest.approx(straight, abs=1e-12)
                continue
            compared += 1
            ends = [tangent(origin, insertion, radius), tangent(insertion, origin, radius)]
            arc = geodesic(radius, np.arccos(ends[0] @ ends[1] / radius**2))
            tangents = np.linalg.norm(origin - ends[0]) + np.linalg.norm(insertion - ends[1])
            assert length == pytest.approx(tangents + arc, abs=1e-9)
    assert compared > 10
