"""The shipped landmarks against the recipe that makes them, and the recipe on a small case."""

import numpy as np
import pytest

from shoulder_model.muscles import landmarks
from shoulder_model.recipes import landmarks as recipe
from shoulder_model.recipes.landmarks import ENDS, INSERTION_SD, MARGIN, ORIGIN_SD, Landmarks, fit, moved, statements
from shoulder_model.tables import read_table

START = recipe.with_effective_origins(read_table("landmarks_start.csv"))


def shift(end):
    """How far each muscle's end moved from its start (muscle, 3). [m]"""
    keys = [key for key in ENDS if key.startswith(end)]
    return np.array(
        [[float(new[key]) - float(old[key]) for key in keys] for new, old in zip(landmarks(), START, strict=True)]
    )


@pytest.mark.parametrize("statement", statements(), ids=lambda row: f"{row['kind']}-{row['muscles'].split('+')[0]}")
def test_every_statement_holds_with_most_of_its_margin(statement):
    assert (float(statement["weight"]) * Landmarks(landmarks()).missed(statement)).max() < 0.2 * MARGIN


def test_every_statement_names_its_source_and_mark():
    for row in statements():
        assert row["source"] and row["mark"] in ("R", "D", "MM", "ML", "U")


def test_the_start_misses_some_so_the_fit_has_work_to_do():
    assert Landmarks(START).misses().max() > 2 * MARGIN


def test_no_landmark_moved_further_than_its_doubt_allows():
    assert np.abs(shift("origin")).max() < 2.5 * ORIGIN_SD
    assert np.abs(shift("insertion")).max() < 2.5 * INSERTION_SD


def test_a_step_of_nothing_moves_nothing():
    for old, new in zip(START, moved(START, np.zeros(7 * len(START))), strict=True):
        assert [float(old[key]) for key in ENDS] == [new[key] for key in ENDS]


def test_a_few_steps_of_the_fit_bring_the_start_closer():
    rows, step = fit(START, most_steps=3)
    assert len(rows) == len(START) and 0 < np.abs(step).max() < 3
    assert np.sum(Landmarks(rows).misses() ** 2) < 0.5 * np.sum(Landmarks(START).misses() ** 2)


def test_the_recipe_writes_the_table_with_its_notes(tmp_path, monkeypatch, capsys):
    target = tmp_path / "landmarks.csv"
    target.write_text("# a note\n# another\nold,table\n", encoding="utf-8")
    monkeypatch.setattr(recipe, "TARGET", target)
    planes = tmp_path / "lat_planes.csv"
    planes.write_text("# one note\n# two\nold\n", encoding="utf-8")
    monkeypatch.setattr(recipe, "PREDICTED", planes)
    monkeypatch.setattr(recipe, "fit", lambda rows: fit(rows, most_steps=1))
    recipe.main()
    said = capsys.readouterr().out
    assert "largest move" in said and "fitted to abduction: lines in flexion within" in said
    assert planes.read_text(encoding="utf-8").splitlines()[:3] == ["# one note", "# two", ",".join(recipe.HEADS)]
    lines = target.read_text(encoding="utf-8").splitlines()
    assert lines[:2] == ["# a note", "# another"] and lines[2].startswith("muscle,frame,origin_x")
    assert [line.split(",")[0] for line in lines[3:]] == [row["muscle"] for row in START]


def test_the_table_of_the_two_planes_is_what_the_recipe_makes():
    kept = [tuple(row.values()) for row in read_table("lat_planes.csv")]
    assert kept == recipe.plane_table(read_table("landmarks_start.csv"))


@pytest.mark.parametrize("muscle", ["superior", "middle", "inferior"])
def test_each_plane_fits_itself_best_and_both_lie_between(muscle):
    error = {
        (row["fitted_to"], row["lines_in"]): float(row["angle_median_deg"])
        for row in read_table("lat_planes.csv")
        if muscle in row["muscle"]
    }
    for plane, other in (("abduction", "flexion"), ("flexion", "abduction")):
        assert error[plane, plane] < error[other, plane]
        assert error["abduction and flexion", plane] < error[other, plane] + 1.0


def test_an_effective_origin_finds_a_known_one():
    row = START[1]
    humerus, _ = recipe.measured_lines(row["muscle"], "abduction")
    where, insertion = np.array([-0.12, -0.5, -0.22]), np.array([float(row[key]) for key in ENDS[3:]])
    line = where - humerus @ insertion
    line /= np.linalg.norm(line, axis=1, keepdims=True)
    angles, arms = recipe.plane_errors(row, where, "abduction")
    assert angles.shape == arms.shape == (3,)
    near = recipe.plane_errors(row, recipe.effective_origin(row, ["abduction"]), "abduction")[0]
    assert np.sum(near**2) < np.sum(angles**2)  # no other point near the start fits its lines better
