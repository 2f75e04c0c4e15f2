import sys

import numpy as np
import pytest
from numpy.testing import assert_allclose

import shoulder_model as sm
from shoulder_model.inputs import InputError
from shoulder_model.muscles import MUSCLES, drawn_bodies, reference_body
from shoulder_model.repetition import GROUP_MUSCLES, active_cross_section, group_shares, work_shares
from shoulder_model.repetition.work_shares import BAND, BODIES, POINTS, SEED

MEN = sm.Lifter.average("men")


@pytest.mark.parametrize("name", list(sm.pulls))
def test_shares_are_shares(name):
    found = work_shares(MEN, sm.pulls[name], band=False)
    assert set(found) == {"lat", "mid-back"}
    for share in found.values():
        assert 0 <= share.value <= 1 and share.low == share.value == share.high
    assert sum(share.value for share in found.values()) < 1


@pytest.mark.identity
def test_a_share_is_active_size_over_all_of_it():
    pull = sm.pulls["front pulldown"]
    strongest = sm.rep(MEN, pull, points=POINTS, balance="all axes")
    half = pull.change(load_kg=0.5 * float(strongest.whole_rep_load_kg))
    one = sm.rep(MEN, half, points=POINTS, balance="all axes", by_size=True)
    assert not one.shortfall[4:].any()
    work = (one.activation.values[4:] * reference_body().cross_section).sum(axis=0)
    lat = work[[MUSCLES.index(f"latissimus dorsi {part}") for part in ("superior", "middle", "inferior")]].sum()
    mid_back = work[
        [MUSCLES.index(name) for name in ("trapezius middle", "rhomboids", "deltoid posterior", "infraspinatus")]
    ].sum()
    found = work_shares(MEN, pull, band=False)
    assert found["lat"].value == pytest.approx(lat / work.sum(), rel=1e-9)
    assert found["mid-back"].value == pytest.approx(mid_back / work.sum(), rel=1e-9)


@pytest.mark.identity
def test_the_pull_s_own_load_does_not_matter():
    pull = sm.pulls["seated row wide"]
    light, heavy = (work_shares(MEN, pull.change(load_kg=kg), band=False) for kg in (5.0, 200.0))
    assert light == heavy


@pytest.mark.parametrize("name", ["front pulldown", "seated row close"])
def test_the_band_holds_the_value_and_comes_from_the_bodies(name, monkeypatch):
    pull = sm.pulls[name]
    found = work_shares(MEN, pull)
    for group, share in found.items():
        assert share.low <= share.value <= share.high and share.high - share.low > 0.01
        assert share.value == work_shares(MEN, pull, band=False)[group].value
    monkeypatch.setattr(sys.modules["shoulder_model.repetition.work_shares"], "_bodies", lambda: [reference_body()] * 3)
    for share in work_shares(MEN, pull).values():
        assert share.high - share.low < 1e-12
    assert work_shares(MEN, pull)["lat"].value == found["lat"].value


def test_the_band_is_from_5_to_95_percent_of_random_bodies():
    assert BAND == (5, 95) and BODIES >= 40
    pull = sm.pulls["front pulldown"]
    load = 0.5 * float(sm.rep(MEN, pull, points=POINTS, balance="all axes").whole_rep_load_kg)
    drawn = []
    for body in drawn_bodies(BODIES, SEED):
        one = sm.rep(MEN, pull.change(load_kg=load), points=POINTS, balance="all axes", body=body, by_size=True)
        drawn.append(float(group_shares(active_cross_section(one, body))["lat"]))
    low, high = np.percentile(drawn, BAND)
    found = work_shares(MEN, pull)["lat"]
    assert found.low == pytest.approx(min(low, found.value)) and found.high == pytest.approx(max(high, found.value))


@pytest.mark.identity
def test_shares_of_a_sweep_are_those_of_its_reps():
    grid = sm.sweep(MEN, sm.pulls["front pulldown"], points=POINTS, grip_ratio=[1.0, 1.8], by_size=True)
    together = group_shares(active_cross_section(grid))
    for i, grip in enumerate((1.0, 1.8)):
        one = sm.rep(MEN, sm.pulls["front pulldown"].change(grip_ratio=grip), points=POINTS, by_size=True)
        for group, value in group_shares(active_cross_section(one)).items():
            assert together[group][i] == pytest.approx(value, rel=1e-9)


def test_groups_by_hand():
    work = np.zeros((2, len(MUSCLES)))
    work[0, MUSCLES.index("latissimus dorsi middle")] = 3.0
    work[0, MUSCLES.index("rhomboids")] = 1.0
    work[1, MUSCLES.index("biceps brachii")] = 2.0
    work[1, MUSCLES.index("infraspinatus")] = 2.0
    found = group_shares(work)
    assert_allclose(found["lat"], [0.75, 0.0])
    assert_allclose(found["mid-back"], [0.25, 0.5])
    assert not set(GROUP_MUSCLES["lat"]) & set(GROUP_MUSCLES["mid-back"])


@pytest.mark.parametrize(
    ("change", "field", "says"),
    [
        ({"effort": 1.0}, "effort", "effort = 1 of the largest load is outside 0.05 .* to 0.95 .*: give the share of the largest load"),
        ({"effort": 0.0}, "effort", "effort = 0 of the largest load"),
        ({"effort": "half"}, "effort", "effort = 'half' is not a number"),
        ({"balance": "axes"}, "balance", "balance 'axes' is not known; nearest: all axes"),
    ],
)  # fmt: skip
def test_wrong_input_is_refused_by_name(change, field, says):
    with pytest.raises(InputError, match=says) as caught:
        work_shares(MEN, sm.pulls["front pulldown"], band=False, **change)
    assert caught.value.field == field


def test_a_pull_that_cannot_be_held_has_no_shares(monkeypatch):
    real = sm.rep

    def weak(*given, **more):
        return real(*given, **more, strength=0.01)

    monkeypatch.setattr(sys.modules["shoulder_model.repetition.work_shares"], "rep", weak)
    with pytest.raises(sm.InputError, match="pull front pulldown: there is a point where the model cannot hold"):
        sm.work_shares(sm.Lifter.average("men"), sm.pulls["front pulldown"])
