"""Pictures: the fast layer against matplotlib's own, and scale."""

import re

import numpy as np
import pytest
from matplotlib.colors import to_hex

import shoulder_model as sm
from shoulder_model.draw.artists import Arrow, rounded
from shoulder_model.draw.effort_bars import EffortBars
from shoulder_model.draw.lifter_views import FrontView, HeldView, SideView
from shoulder_model.draw.look import BLUE, GREY, PALE, VERMILLION, new_figure
from shoulder_model.draw.scene import scene_of
from shoulder_model.draw.stage import Stage
from shoulder_model.draw.top_view import TopView
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


def scenes(pull, *points):
    """Scenes of one rep of the mean man."""
    one = sm.rep(MEN, pull, muscles=False)
    return [scene_of(MEN, pull, one, point) for point in points]


def views():
    """The three views of a lifter, each in axes of its own."""
    figure = new_figure()
    kinds = enumerate((FrontView, SideView, TopView))
    return [kind(figure.add_axes([0.33 * k, 0, 0.3, 0.9])) for k, kind in kinds]


def drawn(view):
    """What the view shows of the shoulder: where the arm starts, the collarbone, the blade."""
    arm, bone = (np.transpose(line.get_data()) for line in (view.arm, view.girdle.collarbone))
    return arm[0], bone, view.girdle.blade.get_xy()


@pytest.mark.parametrize("travel", [0.0, 1.0])
@pytest.mark.parametrize("name", list(sm.pulls))
def test_views_are_to_scale(name, travel):
    front, side, top = views()
    pull = sm.pulls[name].change(girdle_travel=travel)
    one = sm.rep(MEN, pull)
    for point in (0, 20, 40):
        scene = scene_of(MEN, pull, one, point)
        for view in (front, side, top):
            view.show(scene)
            x, y = view.arm.get_data()
            upper_arm = np.hypot(x[1] - x[0], y[1] - y[0])
            assert upper_arm <= MEN.upper_arm + 1e-9  # a projection never lengthens
            assert view.axes.get_aspect() == 1.0
        assert np.ptp(front.tape.get_xdata()) == pytest.approx(abs(float(one.hand_offset[point])))
        assert np.hypot(*np.ptp(side.tape.get_data(), axis=1)) == pytest.approx(abs(float(one.line_offset[point])))


@pytest.mark.parametrize("name", ["front pulldown", "seated row wide", "seated row close", "bent-over row"])
def test_the_tapes_run_from_the_shoulder_to_the_line_of_pull(name):
    """The line of pull stands still in the trunk; the shoulder, and with it the tapes' near ends, does not."""
    front, side, _ = views()
    lines = []
    for scene in scenes(sm.pulls[name], 0, 20, 40):
        front.show(scene)
        side.show(scene)
        for view in (front, side):
            near = np.array(view.tape.get_data())[:, 0]
            np.testing.assert_allclose(near, drawn(view)[0], atol=1e-12)
        on_side = np.transpose(side.tape.get_data())
        to_hand = np.subtract(np.array(side.arm.get_data())[:, 2], on_side[1])
        assert to_hand @ (on_side[1] - on_side[0]) == pytest.approx(0, abs=1e-12)
        lines.append(front.tape.get_xdata()[1])
    np.testing.assert_allclose(lines, lines[0], atol=1e-12)


def test_a_travelling_blade_moves_in_every_view_and_a_held_one_stays():
    row = sm.pulls["seated row wide"]
    held = row.change(girdle_travel=0.0)
    for view in views():
        seen = []
        for pull in (row, held):
            for scene in scenes(pull, 0, 40):
                view.show(scene)
                seen.append((*drawn(view), view.girdle.rest.get_xdata()))
        (reach, end), (held_reach, held_end) = seen[:2], seen[2:]
        assert np.hypot(*(end[0] - reach[0])) > 0.02 and not np.allclose(end[1][1], reach[1][1])
        np.testing.assert_allclose(end[1][0], reach[1][0])  # the breastbone's end of the collarbone stays
        for moving in (reach, end):
            np.testing.assert_allclose(moving[0], moving[1][1])  # the arm hangs on the collarbone's outer end
            assert len(moving[3]) == 1
        for still in (held_reach, held_end):
            np.testing.assert_allclose(still[0], held_reach[0])
            np.testing.assert_allclose(still[1], held_reach[1])
            assert len(still[3]) == 0  # no ring where nothing travels


def test_with_the_blade_held_the_old_picture_is_left():
    """The arm starts where the GH centre rests, w and a are the tape's own, in every point of the rep."""
    front, side, _ = views()
    pull = sm.pulls["front pulldown"].change(girdle_travel=0.0)
    for scene in scenes(pull, 0, 20, 40):
        front.show(scene)
        side.show(scene)
        np.testing.assert_allclose(drawn(front)[0], [-MEN.gh_breadth / 2, 0], atol=1e-12)
        np.testing.assert_allclose(drawn(side)[0], [0, 0], atol=1e-12)
        assert scene.w == pytest.approx(pull.hand_offset(MEN)) and scene.a == pytest.approx(pull.line_offset(MEN))


def test_the_blade_is_a_rigid_bone_where_its_muscles_are():
    row = sm.pulls["seated row wide"]
    reach, end = scenes(row, 0, 40)
    spans = [np.linalg.norm(scene.blade[:, None] - scene.blade, axis=-1) for scene in (reach, end)]
    np.testing.assert_allclose(*spans, atol=1e-12)
    one = sm.rep(MEN, row, muscles=False)
    for point, scene in ((0, reach), (40, end)):
        turned = sm.muscles.turned_scapula(
            float(one.elevation[point]), float(one.plane_of_elevation[point]), float(one.girdle_posture[point, 0])
        )
        origin = next(row for row in sm.muscles.landmarks() if row["muscle"] == "teres major")
        at_rest = [float(origin[f"origin_{axis}"]) for axis in "xyz"]
        np.testing.assert_allclose(scene.blade[3], one.gh_centre.values[point] + turned @ at_rest, atol=1e-12)


def test_the_other_side_mirrors_the_blade():
    for view in views()[::2]:
        view.show(scenes(sm.pulls["front pulldown"], 40)[0])
        ours, theirs = view.girdle.blade.get_xy(), view.other_girdle.blade.get_xy()
        np.testing.assert_allclose(ours * [-1, 1], theirs)


def test_from_above_forward_is_down_and_right_is_where_the_front_view_has_it():
    front, _, top = views()
    reach, end = scenes(sm.pulls["seated row wide"], 0, 40)
    heights = []
    for scene in (reach, end):
        front.show(scene)
        top.show(scene)
        np.testing.assert_allclose(top.arm.get_xdata(), front.arm.get_xdata())
        np.testing.assert_allclose(top.arm.get_ydata(), [-scene.gh[0], -scene.elbow[0], -scene.hand[0]])
        heights.append(top.arm.get_ydata()[0])
    assert heights[1] > heights[0]  # drawn back is up the page
    size = np.ptp(top.trunk.get_xy(), axis=0)
    np.testing.assert_allclose(size, [MEN.chest_breadth, MEN.chest_depth], rtol=1e-3)
    assert top.nose.get_xy()[:, 1].min() < top.head.get_center()[1] - top.head.get_radius()


@pytest.mark.parametrize("name", ["seated row close", "close-grip pulldown", "front pulldown"])
def test_an_elbow_turned_out_to_clear_the_ribs_is_said_in_the_picture(name):
    _, side, top = views()
    one = sm.rep(MEN, sm.pulls[name], muscles=False)
    degrees = np.degrees(one.elbow_past_ribs.values)
    for point, scene in zip(range(41), scenes(sm.pulls[name], *range(41)), strict=True):
        for view in (side, top):
            view.show(scene)
        says = f"elbow turned out {degrees[point]:.0f}° past the ribs" if degrees[point] > 0.5 else ""
        assert side.ribs_words.get_text() == says
        assert " ".join(words.get_text() for words in top.ribs_words).strip() == says
    assert (degrees.max() > 0.5) == (name != "front pulldown")


def test_a_held_weight_has_no_blade_in_its_picture():
    figure = new_figure()
    view = HeldView(figure.add_axes([0, 0, 1, 1]))
    view.show(MEN, sm.mechanics.held_weight(MEN, 5.0, 0.0, 1.0, muscle_arm=0.04))
    assert not view.girdle.blade.get_visible() and not len(view.girdle.collarbone.get_xdata())


def test_effort_bars_mark_the_other_balance_and_turn_grey_where_the_load_is_not_held():
    bars = EffortBars(new_figure().add_axes([0.3, 0.2, 0.3, 0.7]), ["one", "two"])
    effort, other = np.array([0.4, 1.0]), np.array([0.7, 0.1])
    bars.show(effort, other, "another")
    x, y = bars.other.get_data()
    np.testing.assert_allclose(x.reshape(2, 3)[:, 0], 100 * other)
    assert np.isnan(y.reshape(2, 3)[:, 2]).all()
    np.testing.assert_allclose(y.reshape(2, 3)[:, :2].mean(axis=1), [0, 1])
    assert "another" in bars.other_words.get_text()
    assert [words.get_text() for words in bars.words] == ["40", "100"]
    assert [words.get_fontweight() for words in bars.words] == ["normal", "bold"]
    colours = [[to_hex(bar.get_facecolor()).lower() for bar in bars.bars]]
    bars.show(effort, other, "another", held=False)
    colours.append([to_hex(bar.get_facecolor()).lower() for bar in bars.bars])
    assert colours == [[BLUE.lower(), VERMILLION.lower()], [PALE.lower(), GREY.lower()]]
    assert all(bar.get_width() <= bars.axes.get_xlim()[1] == 100 for bar in bars.bars)


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


def test_curves_keep_the_kept_value_in_sight_and_have_a_word_for_no_value():
    curves = TorqueCurves(new_figure().add_axes([0.1, 0.1, 0.8, 0.6]), "x", (0, 1))
    x, flat = np.array([0.0, 1.0]), np.ones((2, 3))
    curves.show(x, -90 * flat, flat, 0.5, -90 * flat[0], flat[0])
    curves.keep()
    curves.show(x, 5 * flat, flat, 0.5, [5.0, np.nan, 5.0], flat[0])
    assert curves.axes.get_ylim()[0] <= -90
    assert [value.get_text() for value, *_ in curves.parts] == ["5 ± 1 N m", "none", "5 ± 1 N m"]
    curves.drop()
    curves.show(x, 5 * flat, flat, 0.5, 5 * flat[0], flat[0])
    assert curves.axes.get_ylim()[0] > -90


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
