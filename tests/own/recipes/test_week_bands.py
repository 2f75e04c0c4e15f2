"""The stored bands of the week against the recipe that makes them, on a few candidates.

Only pulls whose load every drawn body holds at every point: where one falls short, its activations are those of a
facet's corner, which ties leave open, so another processor may name another corner.
"""

from functools import partial

import pytest

import shoulder_model as sm
from shoulder_model.muscles import drawn_bodies
from shoulder_model.recipes import week_bands
from shoulder_model.recipes.week_bands import band_rows
from shoulder_model.repetition import work_shares
from shoulder_model.repetition.work_shares import BODIES, POINTS, SEED
from shoulder_model.week import candidates, share_bands

EVERYBODY_HOLDS = [("women", "front pulldown leaning back"), ("men", "chin-up"), ("men", "inverted row")]


@pytest.mark.parametrize(("sex", "name"), EVERYBODY_HOLDS)
def test_the_stored_bands_are_those_the_recipe_makes(sex, name):
    (candidate,) = [one for one in candidates() if one.name == name]
    lifter = sm.Lifter.average(sex)
    most = sm.rep(lifter, candidate.pull, points=POINTS, balance="all axes").whole_rep_load_kg
    half = candidate.pull.change(load_kg=0.5 * float(most))
    for body in drawn_bodies(BODIES, SEED):
        assert not sm.rep(lifter, half, points=POINTS, balance="all axes", by_size=True, body=body).shortfall.any()
    for row_sex, row_name, group, below, above in band_rows(sex, candidate):
        assert (float(below), float(above)) == pytest.approx(share_bands()[row_sex, row_name, group], abs=2e-4)


def test_the_recipe_writes_the_table_with_its_note(tmp_path, monkeypatch):
    target = tmp_path / "bands.csv"
    target.write_text("# a note\nold,table\n", encoding="utf-8")
    (candidate,) = [one for one in candidates() if one.name == "chin-up"]
    monkeypatch.setattr(week_bands, "TARGET", target)
    monkeypatch.setattr(week_bands, "candidates", lambda: [candidate])
    monkeypatch.setattr(week_bands, "work_shares", partial(work_shares, band=False))
    week_bands.main()
    lines = target.read_text(encoding="utf-8").splitlines()
    assert lines[:2] == ["# a note", "sex,name,group,below,above"]
    assert lines[2:] == [
        f"{sex},chin-up,{group},0.0000,0.0000" for sex in ("men", "women") for group in ("lat", "mid-back")
    ]
