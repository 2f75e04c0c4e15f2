"""The shipped landmarks against the recipe that makes them, and the recipe on a small case."""

import numpy as np
import pytest

from shoulder_model.muscles import landmarks
from shoulder_model.recipes import landmarks as recipe
from shoulder_model.recipes.landmarks import ENDS, INSERTION_SD, MARGIN, ORIGIN_SD, Landmarks, fit, moved, statements
from shoulder_model.tables import read_table

START = read_table("landmarks_start.csv")


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
        assert row["source"] and row["mark"] in ("R", "D", "MM", "ML")


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
    monkeypatch.setattr(recipe, "fit", lambda rows: fit(rows, most_steps=1))
    recipe.main()
    assert "largest move" in capsys.readouterr().out
    lines = target.read_text(encoding="utf-8").splitlines()
    assert lines[:2] == ["# a note", "# another"] and lines[2].startswith("muscle,frame,origin_x")
    assert [line.split(",")[0] for line in lines[3:]] == [row["muscle"] for row in START]
