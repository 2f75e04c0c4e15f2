"""The stored bands of the week against the recipe that makes them, on a few candidates."""

from functools import partial

import pytest

from shoulder_model.recipes import week_bands
from shoulder_model.recipes.week_bands import band_rows
from shoulder_model.repetition import muscle_shares
from shoulder_model.week import candidates, share_bands

# the last is one whose load some bodies cannot hold: they count with what they have at their limit, which is unique
SOME = [("women", "front pulldown leaning back"), ("men", "chin-up"), ("men", "seated row close")]


@pytest.mark.parametrize(("sex", "name"), SOME)
def test_the_stored_bands_are_those_the_recipe_makes(sex, name):
    (candidate,) = [one for one in candidates() if one.name == name]
    for row_sex, row_name, group, below, above in band_rows(sex, candidate):
        assert (float(below), float(above)) == pytest.approx(share_bands()[row_sex, row_name, group], abs=2e-4)


def test_the_recipe_writes_the_table_with_its_note(tmp_path, monkeypatch):
    target = tmp_path / "bands.csv"
    target.write_text("# a note\nold,table\n", encoding="utf-8")
    (candidate,) = [one for one in candidates() if one.name == "chin-up"]
    monkeypatch.setattr(week_bands, "TARGET", target)
    monkeypatch.setattr(week_bands, "candidates", lambda: [candidate])
    monkeypatch.setattr(week_bands, "muscle_shares", partial(muscle_shares, band=False))
    week_bands.main()
    lines = target.read_text(encoding="utf-8").splitlines()
    assert lines[:2] == ["# a note", "sex,name,group,below,above"]
    heads = [line.rsplit(",", 2)[0] for line in lines[2:]]
    assert heads == [f"{sex},chin-up,{group}" for sex in ("men", "women") for group in ("lat", "mid-back")]
