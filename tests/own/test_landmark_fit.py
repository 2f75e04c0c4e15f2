"""The shipped landmarks against the recipe that makes them (tests/fit_landmarks.py), without running the fit again."""

import numpy as np

from shoulder_model.muscle import landmarks
from shoulder_model.sources import read_table

from ..fit_landmarks import INSERTION_SD, MARGIN, ORIGIN_SD, misses, moved, table_of


def shift(end):
    """How far each muscle's end moved from its start (muscle, 3). [m]"""
    start = read_table("landmarks_start.csv")
    keys = [f"{end}_{axis}" for axis in "xyz"]
    return np.array(
        [[float(new[key]) - float(old[key]) for key in keys] for new, old in zip(landmarks(), start, strict=True)]
    )


def test_every_statement_holds_with_most_of_its_margin():
    names = [row["muscle"] for row in landmarks()]
    assert misses(table_of(landmarks()), names).max() < 0.2 * MARGIN


def test_the_start_misses_some_so_the_fit_has_work_to_do():
    rows = read_table("landmarks_start.csv")
    assert misses(table_of(rows), [row["muscle"] for row in rows]).max() > 2 * MARGIN


def test_no_landmark_moved_further_than_its_doubt_allows():
    assert np.abs(shift("origin")).max() < 2.5 * ORIGIN_SD
    assert np.abs(shift("insertion")).max() < 2.5 * INSERTION_SD


def test_a_step_of_nothing_moves_nothing():
    rows = read_table("landmarks_start.csv")
    for old, new in zip(rows, moved(rows, np.zeros(7 * len(rows))), strict=True):
        assert [float(old[f"origin_{k}"]) for k in "xyz"] == [new[f"origin_{k}"] for k in "xyz"]
