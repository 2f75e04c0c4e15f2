"""Pictures: the fast layer against matplotlib's own, and scale."""

import itertools
import re
from dataclasses import replace

import numpy as np
import pytest
from matplotlib.colors import to_hex
from matplotlib.text import Text

import shoulder_model as sm
from shoulder_model.draw.artists import Arrow, rounded
from shoulder_model.draw.body import UPPER_ARM, limb, tapered
from shoulder_model.draw.dimension import Dimension, Window, text_width
from shoulder_model.draw.effort_bars import EffortBars
from shoulder_model.draw.facing_views import BackView, FrontView
from shoulder_model.draw.free_body import FreeBody
from shoulder_model.draw.look import BLUE, GREY, GROUP_LOOK, PALE, VERMILLION, new_figure
from shoulder_model.draw.muscle_bands import NEWTONS_A_POINT, WIDEST, band_width, shoulder_paths
from shoulder_model.draw.muscle_view import MuscleView
from shoulder_model.draw.scene import scene_of
from shoulder_model.draw.side_views import HeldView, SideView
from shoulder_model.draw.stage import Stage
from shoulder_model.draw.stance import HANGING, LYING, ROWING, SEATED, bent, legs_of
from shoulder_model.draw.top_view import TopView
from shoulder_model.draw.torque_curves import TorqueCurves
from shoulder_model.inputs import InputError
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
    ours = re.search(r' d="(M[^"]*)"', stage.overlay("words"))[1]
    theirs = re.search(r'id="moving-line">\s*<path d="([^"]*)"', stage.save("svg").decode())[1]
    np.testing.assert_allclose(
        [float(n) for n in numbers.findall(ours)], [float(n) for n in numbers.findall(theirs)], atol=0.06
    )
    assert "moving-line" not in stage.frame()
    assert line.get_visible()


def test_frame_leaves_out_what_moves_and_the_saved_picture_has_it():
    panel = GripPanel()
    assert "shoulder torque" in panel.stage.frame() and "± " not in panel.stage.frame()
    assert "± " in panel.overlay and "± " in panel.content("svg").decode()


def test_no_style_sheet_of_a_frame_reaches_the_page_around_it():
    stage = GripPanel().stage
    assert "<style" in stage.save("svg").decode() and "<style" not in stage.frame()
    assert 'stroke-linecap="round"' in stage.overlay("words")


def test_moves_are_what_changed_and_add_up_to_what_stands():
    panel = GripPanel()
    page = [dict(one) for one in panel.stage.attributes()]
    panel.stage.moves()
    for value in (0.3, 1.0, 1.05, 2.2):
        with panel.quiet():
            panel.sliders["grip_ratio"].value = value
        panel.draw(panel.read())
        moves = panel.stage.moves()
        assert 0 < len(moves) < len(page)
        for place, attributes in moves:
            page[place] |= attributes
            page[place] = {name: value for name, value in page[place].items() if value is not None}
        assert page == panel.stage.attributes()
    assert panel.stage.moves() == []


@pytest.mark.parametrize("kind", [GripPanel, OneArmPanel])
def test_no_slider_has_the_still_layer_drawn_again(kind):
    panel = kind()
    for control in panel.sliders.values():
        for value in (control.min, control.max, control.start):
            with panel.quiet():
                control.value = value
            assert not panel.draw(panel.read())


def test_every_kind_of_artist_lands_in_the_overlay():
    panel = OneArmPanel()
    assert all(part in panel.overlay for part in ("<text", "stroke-dasharray", "fill-opacity", "<path", 'role="img"'))


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
        for view, offset in ((front, one.hand_offset), (side, one.line_offset)):
            assert np.hypot(*np.diff(view.tape.ends, axis=0)[0]) == pytest.approx(abs(float(offset[point])), abs=1e-12)


@pytest.mark.parametrize("name", ["front pulldown", "seated row wide", "seated row close", "bent-over row"])
def test_the_tapes_run_from_the_shoulder_to_the_line_of_pull(name):
    """The line of pull stands still in the trunk; the shoulder, and with it the tapes' near ends, does not."""
    front, side, _ = views()
    lines = []
    for scene in scenes(sm.pulls[name], 0, 20, 40):
        front.show(scene)
        side.show(scene)
        for view in (front, side):
            near, far = view.tape.ends
            shoulder, hand = drawn(view)[0], np.transpose(view.arm.get_data())[2]
            length, shift = far - near, near - shoulder
            assert length @ shift == pytest.approx(0, abs=1e-12)  # drawn off the body, square to itself
            assert (hand - shoulder - length) @ length == pytest.approx(0, abs=1e-12)
            thin = np.transpose(view.tape.thin.get_data())
            np.testing.assert_allclose(thin[0], shoulder, atol=1e-12)  # its thin lines start at the joint ...
            np.testing.assert_allclose(thin[-1], shoulder + length, atol=1e-12)  # ... and on the line of pull
        lines.append(front.tape.ends[1, 0])
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
    size = np.ptp(top.trunk.get_path().vertices, axis=0)
    np.testing.assert_allclose(size, [MEN.chest_breadth, MEN.chest_depth], rtol=1e-3)
    head = top.head.get_path().vertices
    assert (
        -head[:, 1].min() > head[:, 1].max() and abs(head[np.argmin(head[:, 1]), 0]) < 0.02
    )  # the nose points down the page


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
        assert top.ribs_words.get_text() == says
    assert (degrees.max() > 0.5) == (name != "front pulldown")


def test_a_held_weight_has_no_blade_in_its_picture():
    figure = new_figure()
    view = HeldView(figure.add_axes([0, 0, 1, 1]))
    view.show(MEN, sm.mechanics.held_weight(MEN, 5.0, 0.0, 1.0, muscle_arm=0.04))
    assert not view.girdle.blade.get_visible() and not len(view.girdle.collarbone.get_xdata())


EXTREMES = list(itertools.product((0.3, 2.2), (-90, -40, 0, 40, 90), (-40, 40)))
SIZES = {"women": 1.50, "men": 2.00}  # m


def drawn_parts(axes):
    """Animated artists of ``axes`` with a path, visible ones."""
    return [a for a in axes.get_children() if a.get_animated() and a.get_visible() and not isinstance(a, Text)]


def overshoot(view, seen):
    """How far anything visible reaches past the picture's edge. [points]"""
    x0, x1, y0, y1 = view.window.limits
    points = np.concatenate([artist.get_path().vertices for artist in seen if len(artist.get_path().vertices)])
    points = points[np.isfinite(points).all(axis=1)]
    (low_x, low_y), (high_x, high_y) = points.min(axis=0), points.max(axis=0)
    return view.window.scale * max(x0 - low_x, high_x - x1, y0 - low_y, high_y - y1)


def words_overshoot(view):
    """How far any word reaches past the picture's left or right edge, by its width. [points]"""
    x0, x1, *_ = view.window.limits
    worst = -np.inf
    for text in (*view.tape.words.rows, *(view.force.rows if hasattr(view, "force") else ())):
        wide = text_width(text.get_text(), text.get_fontsize(), text.get_fontweight()) / view.window.scale
        left = text.get_position()[0] - {"left": 0.0, "center": 0.5, "right": 1.0}[text.get_ha()] * wide
        worst = max(worst, x0 - left, left + wide - x1)
    return worst * view.window.scale


@pytest.mark.parametrize("name", list(sm.pulls))
def test_nothing_leaves_its_box_at_any_end_of_the_sliders(name):
    figure = new_figure()
    places = (0.003, 0.215), (0.25, 0.215), (0.5, 0.28), (0.79, 0.205)
    made = [
        kind(figure.add_axes([left, 0.01, wide, 0.93]))
        for kind, (left, wide) in zip((FrontView, BackView, SideView, TopView), places, strict=True)
    ]
    shown = 0
    for (sex, stature), (grip, lean, cue) in itertools.product(SIZES.items(), EXTREMES):
        lifter = sm.Lifter.from_measures(sex, stature=stature)
        pull = sm.pulls[name].change(grip_ratio=grip, trunk_lean=np.radians(lean), elbow_cue=np.radians(cue))
        try:
            one = sm.rep(lifter, pull, muscles=False, points=21)
        except InputError:  # out of reach
            continue
        for point in (0, 10, 20):
            scene = scene_of(lifter, pull, one, point)
            for view in made:
                view.show(scene)
                shown += 1
                assert overshoot(view, drawn_parts(view.axes)) <= 0, (type(view).__name__, sex, grip, lean, cue, point)
                assert words_overshoot(view) <= 0, (type(view).__name__, sex, grip, lean, cue, point)
    assert shown > 200


@pytest.mark.parametrize("name", list(sm.pulls))
def test_the_lifter_fills_the_picture(name):
    """Trunk, head, arms and legs at the start take two thirds of the box one way, on a rowing seat 0.6, most pulls 0.75."""
    figure = new_figure()
    made = FrontView(figure.add_axes([0.003, 0.01, 0.215, 0.93])), SideView(figure.add_axes([0.222, 0.01, 0.28, 0.93]))
    for view in made:
        scene = scenes(sm.pulls[name], 0)[0]
        view.show(scene)
        legs = view.legs if hasattr(view, "legs") else [view.leg]
        outlines = [view.trunk, view.hair, *view.drawn_arm.outlines, *(part for leg in legs for part in leg.outlines)]
        points = np.concatenate([outline.get_path().vertices for outline in outlines])
        if hasattr(view, "legs"):
            points = np.concatenate([points, points * [-1, 1]])
        share = np.ptp(points, axis=0) * view.window.scale / (view.window.wide, view.window.high)
        assert share.max() > (0.6 if scene.body == ROWING else 0.66), (type(view).__name__, share)


def test_the_picture_fits_the_box_and_keeps_one_scale():
    figure = new_figure()
    view = SideView(figure.add_axes([0.222, 0.01, 0.28, 0.93]))
    view.show(scenes(sm.pulls["seated row wide"], 20)[0])
    figure.draw_without_rendering()
    x0, x1, y0, y1 = view.window.limits
    width, height = view.axes.bbox.width, view.axes.bbox.height
    assert width / (x1 - x0) == pytest.approx(height / (y1 - y0)) == pytest.approx(view.window.scale)
    assert (width, height) == pytest.approx((0.28 * 11.2 * 72, 0.93 * 4.0 * 72))


def test_limits_that_are_given_stay():
    view = SideView(new_figure().add_axes([0, 0, 0.5, 1.0]), limits=(-0.6, 0.9, -0.7, 0.8))
    for name in ("front pulldown", "pull-up"):
        view.show(scenes(sm.pulls[name], 20)[0])
        assert view.axes.get_xlim() == (-0.6, 0.9) and view.axes.get_ylim() == (-0.7, 0.8)


def test_from_behind_is_the_front_mirrored():
    figure = new_figure()
    front, back = (kind(figure.add_axes([k, 0, 0.4, 0.9])) for k, kind in ((0, FrontView), (0.5, BackView)))
    for scene in scenes(sm.pulls["front pulldown"], 0, 30):
        front.show(scene)
        back.show(scene)
        np.testing.assert_allclose(np.transpose(back.arm.get_data()), np.transpose(front.arm.get_data()) * [-1, 1])
        np.testing.assert_allclose(back.tape.ends, front.tape.ends * [-1, 1], atol=1e-9)
        assert back.arm.get_xdata()[0] > 0 and back.title.get_text().startswith("from behind")
        assert len(front.eyes.get_xdata()) == 2 and not len(back.eyes.get_xdata())


def test_titles_say_whose_axes_a_leaning_trunk_is_seen_in():
    front, side, _ = views()
    for lean, (along, room) in ((0, ("", "")), (20, (", along the trunk", ", as the room is"))):
        pull = sm.pulls["front pulldown"].change(trunk_lean=np.radians(lean))
        scene = scenes(pull, 5)[0]
        front.show(scene)
        side.show(scene)
        assert front.title.get_text() == "from the front" + along and side.title.get_text() == "from the side" + room
        assert text_width(front.title.get_text(), front.title.get_fontsize()) <= front.window.wide


def test_the_words_of_a_tape_stand_at_it():
    front, side, _ = views()
    for name in sm.pulls:
        for scene in scenes(sm.pulls[name], 0, 20, 40):
            for view, letter, offset in ((front, "w", scene.w), (side, "a", scene.a)):
                view.show(scene)
                value, where = (row.get_text() for row in view.tape.words.rows)
                assert value == f"{letter} {abs(100 * offset):.1f} cm" and where
                away = np.subtract(view.tape.words.rows[0].get_position(), view.tape.ends)
                assert np.hypot(*away.T).min() * view.window.scale < 95, (name, letter)  # points, to the nearer end


@pytest.mark.parametrize("length", [0.0, 1e-6, -0.07, 0.2])
def test_a_dimension_has_its_length_and_its_shift(length):
    axes = new_figure().add_axes([0, 0, 1, 1])
    window = Window(axes)
    dimension = Dimension(axes)
    dimension.show((0.1, 0.2), (0.1 + length, 0.2), (0.0, -0.3), window)
    np.testing.assert_allclose(dimension.ends, [(0.1, -0.1), (0.1 + length, -0.1)], atol=1e-12)
    dimension.hide()
    assert not len(dimension.line.get_xdata()) and dimension.words.rows[0].get_text() == ""


def test_words_are_pushed_back_into_the_picture():
    axes = new_figure(3, 3).add_axes([0, 0, 1, 1])
    window, dimension = Window(axes), Dimension(axes)
    for at, side in (((-5.0, 0.0), -1.0), ((5.0, 9.0), 1.0), ((0.0, -9.0), 0.0)):
        dimension.words.show(("a 10.0 cm", "in front"), at, window, side)
        first = dimension.words.rows[0]
        wide = text_width(first.get_text(), first.get_fontsize(), "bold") / window.scale
        left = first.get_position()[0] - {"left": 0.0, "center": 0.5, "right": 1.0}[first.get_ha()] * wide
        assert window.limits[0] <= left and left + wide <= window.limits[1]
        assert window.limits[2] <= first.get_position()[1] <= window.limits[3]


def test_widths_of_words_are_those_of_matplotlib():
    figure = new_figure()
    for size, weight, text in ((11.5, "bold", "w 9.3 cm"), (10.0, "normal", "elbow turned out 31° past the ribs")):
        drawn_text = figure.text(0, 0, text, fontsize=size, fontweight=weight, family="DejaVu Sans")
        figure.draw_without_rendering()
        assert text_width(text, size, weight) == pytest.approx(drawn_text.get_window_extent().width, rel=0.06)


def worked(name, point=20, named=("lat",), **changes):
    """Scene of one rep with its muscles at work, and the rep."""
    pull = sm.pulls[name].change(**changes)
    one = sm.rep(MEN, pull)
    return replace(scene_of(MEN, pull, one, point, bands=True), named=named), one


@pytest.mark.parametrize("name", ["front pulldown", "seated row wide", "bent-over row"])
def test_bands_are_as_wide_as_their_force(name):
    scene, one = worked(name)
    view = BackView(new_figure().add_axes([0, 0, 0.3, 0.9]), bands=True)
    view.show(scene)
    visible = {muscle for muscle, line in view.bands.lines.items() if line.get_visible()}
    active = one.activation.isel(point=20)
    assert visible == {str(muscle) for muscle in one.muscle.values if float(active.sel(muscle=muscle)) >= 0.01}
    for band in scene.bands:
        force = float(active.sel(muscle=band.muscle) * one.capacity.isel(point=20).sel(muscle=band.muscle))
        line = view.bands.lines[band.muscle]
        assert line.get_linewidth() == pytest.approx(min(force / NEWTONS_A_POINT, WIDEST))
        assert to_hex(line.get_color()) == GROUP_LOOK[band.group].lower()
    assert band_width(2e5) == WIDEST and band_width(120.0) == 2 * band_width(60.0)


def test_bands_run_where_the_models_paths_do():
    """Path lengths are those of the rep, but for the elbow's muscles; girdle muscles end on the blade."""
    scene, one = worked("seated row wide", 30)
    for band in scene.bands:
        length = float(one.muscle_length.isel(point=30).sel(muscle=band.muscle))
        drawn_length = np.linalg.norm(np.diff(band.path, axis=0), axis=1).sum()
        if float(np.abs(one.elbow_moment_arm.isel(point=30).sel(muscle=band.muscle))) == 0:
            assert drawn_length == pytest.approx(length, rel=0.01), band.muscle
    assert len(scene.bands) > 8


@pytest.mark.parametrize(("elevation", "plane"), [(0.2, 0.1), (1.2, 0.0), (2.4, 1.2), (1.5, -0.3)])
def test_paths_of_the_picture_are_those_of_the_model(elevation, plane):
    from shoulder_model.muscles import shoulder_muscles
    from shoulder_model.muscles.paths import path_points

    humerus = sm.mechanics.raised_arm(elevation, plane)
    scapula = sm.muscles.turned_scapula(elevation, plane, 0.2)
    girdle = sm.mechanics.girdle_at(MEN, 0.2, 0.1)
    ours = shoulder_paths(humerus, scapula, girdle, count=12)
    for name, points in zip(shoulder_muscles(), ours, strict=True):
        np.testing.assert_allclose(points, path_points(name, humerus, scapula, girdle=girdle, count=12), atol=1e-9)


def test_a_scene_without_work_has_no_bands_and_groups_at_work_are_named_from_above_down():
    pull = sm.pulls["front pulldown"]
    one = sm.rep(MEN, pull, muscles=False)
    assert scene_of(MEN, pull, one, 20, bands=True).bands == ()
    scene, _ = worked("front pulldown", named=("lat", "triceps", "teres major"))
    assert not any(band.group == "triceps" for band in scene.bands)
    view = SideView(new_figure().add_axes([0, 0, 0.3, 0.9]), bands=True)
    view.show(scene)
    assert [words.get_text() for words in view.bands.words] == ["teres major", "lat", ""]
    assert set(GROUP_LOOK) == set(sm.repetition.GROUP_MUSCLES)


def test_keep_leaves_trunk_head_and_arm_as_they_stood():
    """From the side the ghost stays on its seat, so its trunk leans as it did."""
    pull = sm.pulls["seated row wide"]
    upright, leaning = (scenes(pull.change(trunk_lean=np.radians(lean)), 20)[0] for lean in (0, 30))
    for view in views():
        view.show(upright)
        before = [outline.get_path().vertices - view.anchor for outline in view.kept_outlines]
        view.keep()
        view.show(leaning)
        assert len(view.ghost.points) == 5
        for line, points in zip(view.ghost.lines, before, strict=True):
            np.testing.assert_allclose(np.transpose(line.get_data()) - view.anchor, points, atol=1e-12)
        assert overshoot(view, drawn_parts(view.axes)) <= 0
        view.drop()
        view.show(leaning)
        assert not len(view.ghost.get_xdata())
    hips = [scene.legs.hip for scene in (upright, leaning)]
    assert hips[0] != hips[1]  # the shoulder moves over the hip, which stays


def test_on_a_fixed_bar_the_bar_stays_in_the_picture_and_the_body_rises():
    figure = new_figure()
    for kind, name in itertools.product((FrontView, SideView), ("pull-up", "inverted row")):
        view = kind(figure.add_axes([0.003, 0.01, 0.28, 0.93]))
        at = []
        for scene in scenes(sm.pulls[name].change(girdle_travel=0.0), 0, 40):
            view.show(scene)
            y0 = view.window.limits[2]
            hand = np.transpose(view.arm.get_data())[2]
            at.append([(hand[1] - y0) * view.window.scale, (0.0 - y0) * view.window.scale])
        (bar_start, body_start), (bar_end, body_end) = at
        if kind is SideView or name == "pull-up":
            assert bar_end == pytest.approx(bar_start, abs=8)  # points
            assert body_end - body_start > 25


def test_heels_stay_on_the_floor_under_a_bar_and_the_hip_on_the_seat():
    pull = sm.pulls["inverted row"].change(girdle_travel=0.0)
    floors = []
    for scene in scenes(pull, 0, 20, 40):
        cos, sin = scene.turn
        hand = scene.hand[1] * cos + scene.hand[0] * sin
        floors.append(scene.legs.floor - hand)
        knee = np.subtract(scene.legs.knee, scene.legs.hip)
        assert np.hypot(*knee) == pytest.approx(0.415 * MEN.stature / 1.70, rel=1e-6)
        shank = np.subtract(scene.legs.ankle, scene.legs.knee)
        assert np.hypot(*shank) == pytest.approx(0.405 * MEN.stature / 1.70, rel=1e-6)
    np.testing.assert_allclose(floors, floors[0], atol=1e-9)
    assert (
        legs_of(MEN, 0.0, HANGING).floor is None and legs_of(MEN, 0.0, SEATED).floor < legs_of(MEN, 0.0, SEATED).hip[1]
    )
    assert scenes(pull, 0)[0].body == LYING


def test_two_links_meet_at_the_bent_joint():
    joint = np.array(bent((0.0, 0.0), (0.5, 0.1), 0.4, 0.3, 1.0))
    assert np.hypot(*joint) == pytest.approx(0.4) and np.hypot(*(joint - (0.5, 0.1))) == pytest.approx(0.3)
    assert joint @ (-0.1, 0.5) > 0  # to the left of the way there


def test_a_limb_tapers_and_keeps_its_round_ends_when_it_is_seen_end_on():
    shape = tapered([(0.0, 0.05), (1.0, 0.03)])
    points = limb(shape, (0.0, 0.0), (0.0, -0.30))
    assert np.ptp(points[:, 0]) == pytest.approx(0.10) and np.ptp(points[:, 1]) == pytest.approx(0.38, abs=0.002)
    end_on = limb(UPPER_ARM, (0.2, 0.1), (0.2, 0.1))
    assert np.isfinite(end_on).all() and np.ptp(end_on, axis=0).min() > 0.07


def test_what_carries_the_lifter_goes_with_the_pull():
    bodies = {name: scenes(pull, 0)[0].body for name, pull in sm.pulls.items()}
    assert bodies == {
        "front pulldown": "seated", "behind-the-neck pulldown": "seated", "close-grip pulldown": "seated",
        "straight-arm pulldown": "standing", "pull-up": "hanging", "chin-up": "hanging", "seated row close": "rowing",
        "seated row wide": "rowing", "chest-supported row": "chest supported", "bent-over row": "bent over",
        "inverted row": "lying", "one-arm row": "on a bench",
    }  # fmt: skip


def test_muscle_and_forearm_keep_their_outlines():
    figure = new_figure()
    muscle = MuscleView(figure.add_axes([0, 0, 0.2, 0.9]), "from behind")
    muscle.show(np.zeros((4, 3)), np.array([0.0, -0.3, 0.0]))
    forearm = FreeBody(figure.add_axes([0.5, 0, 0.3, 0.9]))
    forearm.show(sm.mechanics.held_weight(MEN, 5.0, 0.0, 1.0, muscle_arm=0.04), 0.04)
    for view in (muscle, forearm):
        assert not len(view.ghost.get_xdata())
        view.keep()
        assert len(view.ghost.get_xdata()) > 20
        view.drop()
        assert not len(view.ghost.get_xdata())


def test_effort_bars_mark_the_other_balance_and_turn_grey_where_the_load_is_not_held():
    bars = EffortBars(new_figure().add_axes([0.3, 0.2, 0.3, 0.7]), 5)
    effort, other = np.array([0.4, 1.0]), np.array([0.7, 0.1])
    bars.show(["one", "two"], [BLUE, VERMILLION], effort, other, "another")
    x, y = bars.other.get_data()
    np.testing.assert_allclose(x.reshape(2, 3)[:, 0], 100 * other)
    assert np.isnan(y.reshape(2, 3)[:, 2]).all()
    np.testing.assert_allclose(y.reshape(2, 3)[:, :2].mean(axis=1), [0.25, 0.75])
    assert "another" in bars.other_words.get_text()
    assert [words.get_text() for words in bars.words if words.get_visible()] == ["40", "100"]
    assert [words.get_fontweight() for words in bars.words[:2]] == ["normal", "bold"]
    colours = [[to_hex(bar.get_facecolor()).lower() for bar in bars.bars[:2]]]
    bars.show(["one", "two"], [BLUE, VERMILLION], effort, other, "another", held=False)
    colours.append([to_hex(bar.get_facecolor()).lower() for bar in bars.bars[:2]])
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


def test_the_scale_holds_every_curve_and_only_its_numbers_change():
    figure = new_figure()
    curves = TorqueCurves(figure.add_axes([0.1, 0.1, 0.8, 0.6]), "x", (0, 1))
    x, flat = np.array([0.0, 1.0]), np.ones((2, 3))
    places = [words.get_position() for _, words in curves.scale.labels]
    for size in (0.2, 9.9, 31.0, 301.0, 4999.0, -90.0):
        curves.show(x, size * flat, flat, 0.5, size * flat[0], flat[0])
        low, high = curves.axes.get_ylim()
        assert low <= size - 1 and size + 1 <= high and low == pytest.approx(-high / 2)
        numbers = [float(words.get_text().replace("−", "-")) for _, words in curves.scale.labels]
        np.testing.assert_allclose(numbers, np.linspace(low, high, 7))
        assert [words.get_position() for _, words in curves.scale.labels] == places


def test_curves_keep_the_kept_value_in_sight_and_have_a_word_for_no_value():
    curves = TorqueCurves(new_figure().add_axes([0.1, 0.1, 0.8, 0.6]), "x", (0, 1))
    x, flat = np.array([0.0, 1.0]), np.ones((2, 3))
    curves.show(x, -90 * flat, flat, 0.5, -90 * flat[0], flat[0])
    curves.keep()
    curves.show(x, 5 * flat, flat, 0.5, [5.0, np.nan, -5.0], [1.0, 1.0, 0.2])
    assert curves.axes.get_ylim()[0] <= -90
    said = [value.get_text() for _, value, *_ in curves.parts]
    assert said == ["5 ± 1 N m adduction", "none extension", "5 N m horizontal adduction"]
    curves.drop()
    curves.show(x, 5 * flat, flat, 0.5, 5 * flat[0], flat[0])
    assert curves.axes.get_ylim()[0] > -90


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
    path = re.search(r' d="([^"]*)"', Stage(figure).overlay("words"))[1]
    assert path.count("M") == 2 and "nan" not in path
