"""Pictures: the fast layer against matplotlib's own, and scale."""

import re

import numpy as np
import pytest

import shoulder_model as sm
from shoulder_model.draw.artists import Arrow, rounded
from shoulder_model.draw.lifter_views import FrontView, SideView
from shoulder_model.draw.look import new_figure
from shoulder_model.draw.scene import scene_of
from shoulder_model.draw.stage import Stage
from shoulder_model.draw.torque_curves import LADDER, TorqueCurves, rung
from shoulder_model.panels import GripPanel, OneArmPanel
from shoulder_model.words import written

MEN = sm.Lifter.average("men")


def test_overlay_coordinates_are_those_of_matplotlibs_svg():
    figure = new_figure(4, 3)
    axes = figure.add_axes([0.1, 0.2, 0.8, 0.7])
    axes.set(xlim=(0, 2), ylim=(-1, 1))
    (line,) = axes.plot([0.5, 1.0, 1.5], [-0.5, 0.5, 0.0], animated=True, gid="moving-line", color="#0072B2")
    stage = Stage(figure)
    numbers = re.compile(r"-?\d+\.?\d*")
    ours = re.search(r'<path d="(M[^"]*)"', stage.overlay("words"))[1]
    theirs = re.search(r'id="moving-line">\s*<path d="([^"]*)"', stage.save("svg").decode())[1]
    np.testing.assert_allclose(
        [float(n) for n in numbers.findall(ours)], [float(n) for n in numbers.findall(theirs)], atol=0.06
    )
    assert "moving-line" not in stage.frame()
    assert line.get_visible()


def test_frame_leaves_out_what_moves_and_the_saved_picture_has_it():
    panel = GripPanel()
    assert "adduction" in panel.frame.value and "± " not in panel.frame.value
    assert "± " in panel.overlay.value and "± " in panel.content("svg").decode()


def test_every_kind_of_artist_lands_in_the_overlay():
    panel = OneArmPanel()
    assert all(
        part in panel.overlay.value for part in ("<text", "stroke-dasharray", "fill-opacity", "<path", 'role="img"')
    )


@pytest.mark.parametrize("name", list(sm.pulls))
def test_views_are_to_scale(name):
    figure = new_figure()
    front, side = FrontView(figure.add_axes([0, 0, 0.4, 0.9])), SideView(figure.add_axes([0.5, 0, 0.4, 0.9]))
    pull = sm.pulls[name]
    one = sm.rep(MEN, pull)
    scene = scene_of(MEN, pull, one, 20)
    front.show(scene)
    side.show(scene)
    for view in (front, side):
        x, y = view.arm.get_data()
        upper_arm = np.hypot(x[1] - x[0], y[1] - y[0])
        assert upper_arm <= MEN.upper_arm + 1e-9  # a projection never lengthens
        assert view.axes.get_aspect() == 1.0
    tape = np.ptp(front.tape.get_xdata())
    assert tape == pytest.approx(abs(float(one.hand_offset)))
    assert np.hypot(*np.ptp(side.tape.get_data(), axis=1)) == pytest.approx(abs(scene.a))


def test_the_line_of_pull_stands_upright_in_the_room_whatever_the_lean():
    figure = new_figure()
    side = SideView(figure.add_axes([0, 0, 1, 1]))
    for degrees in (-30, 0, 25):
        pull = sm.pulls["front pulldown"].change(trunk_lean=np.radians(degrees))
        side.show(scene_of(MEN, pull, sm.rep(MEN, pull), 10))
        x, y = side.pull.line.get_data()
        assert x[1] == pytest.approx(x[0]) and y[1] > y[0]


def test_curves_say_when_the_frame_has_to_follow():
    figure = new_figure()
    curves = TorqueCurves(figure.add_axes([0.1, 0.1, 0.8, 0.6]), "x", (0, 1))
    x, flat = np.array([0.0, 1.0]), np.ones((2, 3))
    assert curves.show(x, 30 * flat, flat, 0.5, 30 * flat[0], flat[0])
    assert not curves.show(x, 31 * flat, flat, 0.5, 31 * flat[0], flat[0])
    assert curves.show(x, 300 * flat, flat, 0.5, 300 * flat[0], flat[0])
    assert curves.axes.get_ylim()[1] >= 301


def test_the_ladder_holds_every_size():
    for size in (0.0, 9.9, 10.0, 10.1, 4999.0, 6000.0):
        assert rung(size) >= size
    assert rung(10.1) in LADDER


def test_signed_numbers_have_no_minus_zero():
    assert (written(-0.4), written(-12.6), written(12.34, 1)) == ("0", "−13", "12.3")


def test_rounded_outlines_stay_inside_their_corners():
    square = np.array([(0, 0), (1, 0), (1, 1), (0, 1)], dtype=float)
    points = rounded(square)
    assert points.shape == (16, 2) and points.min() >= 0 and points.max() <= 1


def test_an_arrow_out_of_the_page_is_a_ring():
    axes = new_figure().add_axes([0, 0, 1, 1])
    arrow = Arrow(axes)
    arrow.show((0, 0), (0, 0))
    assert len(arrow.line.get_xdata()) == 0 and len(arrow.point.get_xy()) > 20
    arrow.show((0, 0), (0, 1))
    assert len(arrow.line.get_xdata()) == 2


def test_a_point_that_is_no_number_breaks_the_line():
    figure = new_figure(4, 3)
    axes = figure.add_axes([0, 0, 1, 1])
    axes.plot([0, 1, 2, 3, 4], [0, 1, np.nan, 1, 0], animated=True)
    path = re.search(r'<path d="([^"]*)"', Stage(figure).overlay("words"))[1]
    assert path.count("M") == 2 and "nan" not in path
