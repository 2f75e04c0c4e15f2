import subprocess
import sys

import numpy as np
import pytest
import xarray as xr
from numpy.testing import assert_allclose

import shoulder_model as sm
from shoulder_model.axes import AXES

MEN = sm.Lifter.average("men")
PULL = sm.pulls["front pulldown"]


def test_names_dims_and_units():
    one = sm.rep(MEN, PULL)
    assert one.shoulder_torque.dims == ("point", "axis")
    assert list(one.axis.values) == ["adduction", "extension", "horizontal_abduction"]
    assert one.muscle_moment_arm.dims == ("point", "muscle", "axis")
    assert one.sizes["point"] == 41
    assert one.shoulder_torque.units == "N m" and one.elevation.units == "rad"
    assert all(variable.dtype.kind in "fb" for variable in one.data_vars.values())


def test_a_sweep_holds_the_same_reps():
    grips, leans = np.linspace(1, 2, 3), np.radians([0, 10, 20, 30])
    grid = sm.sweep(MEN, PULL, points=7, grip_ratio=grips, trunk_lean=leans)
    assert grid.shoulder_torque.dims == ("grip_ratio", "trunk_lean", "point", "axis")
    for i, grip in enumerate(grips):
        for j, lean in enumerate(leans):
            one = sm.rep(MEN, PULL.change(grip_ratio=grip, trunk_lean=lean), points=7)
            xr.testing.assert_allclose(grid.isel(grip_ratio=i, trunk_lean=j, drop=True), one, rtol=1e-12)


@pytest.mark.parametrize(
    ("field", "values"),
    [
        ("load_kg", [20, 40]), ("touch_up", [-0.2, -0.1]), ("touch_forward", [0.1, 0.12]), ("elbow_cue", [-0.3, 0.3]),
        ("room_angle", [0.0, 0.8, 1.5]), ("biacromial", [0.38, 0.42]), ("mass", [60, 90]), ("held_elbow_flexion", [0.1, 0.4]),
    ],
)  # fmt: skip
@pytest.mark.parametrize("name", ["seated row wide", "straight-arm pulldown"])
def test_every_numeric_field_sweeps(field, values, name):
    grid = sm.sweep(MEN, sm.pulls[name], points=5, **{field: values})
    assert grid.shoulder_torque.sizes == {field: len(values), "point": 5, "axis": 3}
    one = grid.isel({field: -1})
    if field in ("biacromial", "mass"):
        from dataclasses import replace

        again = sm.rep(replace(MEN, **{field: values[-1]}), sm.pulls[name], points=5)
    else:
        again = sm.rep(MEN, sm.pulls[name].change(**{field: values[-1]}), points=5)
    assert_allclose(one.shoulder_torque, again.shoulder_torque, rtol=1e-12, atol=1e-12)


def test_a_crowd_is_its_lifters():
    crowd = sm.draw_lifters(4, "women", seed=9)
    many = sm.rep(crowd, PULL, points=5)
    assert many.shoulder_torque.dims == ("lifter", "point", "axis")
    third = sm.Lifter("women", **{name: getattr(crowd, name)[2] for name in sm.people.MEASURES})
    assert_allclose(many.shoulder_torque[2], sm.rep(third, PULL, points=5).shoulder_torque, rtol=1e-12)
    grid = sm.sweep(crowd, PULL, points=5, grip_ratio=[1.0, 1.5])
    assert grid.elbow_torque.dims == ("lifter", "grip_ratio", "point")
    assert_allclose(grid.elbow_torque[2, 1], sm.rep(third, PULL, points=5).elbow_torque, rtol=1e-9, atol=1e-9)


def test_every_catalogue_pull_reps_for_ordinary_people():
    for sex in ("men", "women"):
        crowd = sm.draw_lifters(500, sex, seed=11)
        for pull in sm.pulls.values():
            many = sm.rep(crowd, pull, points=5)
            assert all(np.isfinite(variable).all() for variable in many.data_vars.values()), pull.name


@pytest.mark.parametrize(
    ("call", "says"),
    [
        (lambda: sm.rep(MEN, PULL, points=1), "points = 1 points is outside 2 points to"),
        (lambda: sm.sweep(MEN, PULL, grip=[1, 2]), "field 'grip' is not known; nearest: grip_ratio"),
        (lambda: sm.sweep(MEN, PULL, grip_ratio=[[1, 2]]), "grip_ratio has shape"),
        (lambda: sm.sweep(MEN, PULL, grip_ratio=[]), "grip_ratio is empty; give at least one number"),
        (lambda: sm.sweep(MEN, PULL, grip_ratio=[1, 4]), "grip_ratio = 4 x biacromial is outside"),
        (lambda: sm.rep(MEN, PULL.change(grip_ratio=[1.0, 2.0])), "give the numbers to sweep"),
    ],
)
def test_wrong_calls_are_refused_by_name(call, says):
    with pytest.raises(ValueError, match=says):
        call()


def test_importing_the_package_draws_nothing():
    code = "import shoulder_model, sys; print([m for m in ('matplotlib', 'ipywidgets', 'IPython') if m in sys.modules])"
    out = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert out.stdout.strip() == "[]"


def test_leaving_the_muscles_out_changes_nothing_else():
    full, bare = sm.rep(MEN, PULL), sm.rep(MEN, PULL, muscles=False)
    assert "muscle_moment_arm" in full and "muscle_moment_arm" not in bare
    for name in bare.data_vars:
        assert_allclose(bare[name], full[name], rtol=0, atol=0)
    grid = sm.sweep(MEN, PULL, muscles=False, grip_ratio=[1.0, 1.5])
    assert_allclose(grid.shoulder_torque[1], full.shoulder_torque, rtol=1e-12)


def test_what_one_rep_does_to_its_labels_leaves_the_next_alone():
    first = sm.rep(MEN, sm.pulls["front pulldown"], points=5)
    first.coords["axis"] = ["a", "b", "c"]
    with pytest.raises(ValueError, match="read-only"):
        first.progress.values[0] = 9.0
    assert list(sm.rep(MEN, sm.pulls["front pulldown"], points=5).axis.values) == list(AXES)
