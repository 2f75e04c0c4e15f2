import sys

import numpy as np
import pytest
from numpy.testing import assert_allclose

import shoulder_model as sm
from shoulder_model.inputs import InputError
from shoulder_model.muscles import MUSCLES, drawn_bodies, expected_strength, reference_body
from shoulder_model.repetition import (
    GROUP_MUSCLES,
    KINDS,
    active_cross_section,
    first_counted,
    group_shares,
    muscle_shares,
    muscle_work,
    work_done,
)
from shoulder_model.repetition.balance import BALANCES
from shoulder_model.repetition.shares import BAND, BODIES, POINTS, SEED

MEN = sm.Lifter.average("men")
PULL, CHIN_UP = sm.pulls["front pulldown"], sm.pulls["chin-up"]  # the second with the hands turned


def test_groups_hold_every_muscle_once():
    named = [name for members in GROUP_MUSCLES.values() for name in members]
    assert sorted(named) == sorted(MUSCLES)
    assert set(GROUP_MUSCLES["mid-back"]) == {"trapezius upper", "trapezius middle", "trapezius lower", "rhomboids"}


@pytest.mark.parametrize("kind", KINDS)
@pytest.mark.parametrize("name", list(sm.pulls))
def test_shares_are_shares(name, kind):
    found = muscle_shares(MEN, sm.pulls[name], kind=kind, band=False)
    for balance in ("value", "all_axes"):
        assert sum(getattr(share, balance) for share in found.of.values()) == pytest.approx(1.0)
    for share in found.of.values():
        assert 0 <= share.low <= share.value <= share.high <= 1
        assert (share.low, share.high) == (min(share[:2]), max(share[:2]))
    assert set(found.load_kg) == set(BALANCES) and min(found.load_kg.values()) > 5
    assert all(share.low < 0 and share.high <= 0 for share in found.taken_out.values())
    assert kind == "work" or not found.taken_out  # nobody is active by less than nothing


@pytest.mark.identity
@pytest.mark.parametrize("balance", BALANCES)
def test_a_share_of_active_muscle_is_active_size_over_all_of_it(balance):
    half = PULL.change(load_kg=0.5 * float(sm.rep(MEN, PULL, points=POINTS, balance=balance).whole_rep_load_kg))
    one = sm.rep(MEN, half, points=POINTS, balance=balance)
    active = (one.activation.values[4:] * reference_body().cross_section).sum(axis=0)
    lat = active[[MUSCLES.index(f"latissimus dorsi {part}") for part in ("superior", "middle", "inferior")]].sum()
    found = muscle_shares(MEN, PULL, kind="active muscle", band=False)
    assert getattr(found.of["lat"], {"plane": "value"}.get(balance, "all_axes")) == pytest.approx(lat / active.sum())
    assert found.load_kg[balance] == pytest.approx(half.load_kg)


@pytest.mark.identity
@pytest.mark.parametrize("balance", BALANCES)
def test_a_share_of_work_is_the_muscles_work_over_all_that_is_put_in(balance):
    found = muscle_shares(MEN, PULL, band=False)
    work = work_done(MEN, PULL.change(load_kg=found.load_kg[balance]), counted=True, points=POINTS, balance=balance)
    each = work.muscle_work.sum("at").to_series()
    put_in, biceps = each[each > 0].sum(), each["biceps brachii"] + each["brachialis"] + each["brachioradialis"]
    assert getattr(found.of["elbow flexors"], {"plane": "value"}.get(balance, "all_axes")) == pytest.approx(
        biceps / put_in
    )


@pytest.mark.identity
def test_the_pull_s_own_load_does_not_matter():
    pull = sm.pulls["seated row wide"]
    light, heavy = (muscle_shares(MEN, pull.change(load_kg=kg), band=False) for kg in (5.0, 200.0))
    assert light == heavy


def test_what_is_kept_from_an_earlier_call_is_what_it_was(forgetful):
    first = [muscle_shares(MEN, PULL, kind=kind, band=False) for kind in KINDS]
    assert first == [muscle_shares(MEN, PULL, kind=kind, band=False) for kind in KINDS]
    first[0].load_kg.clear()
    forgetful()
    assert first[1] == muscle_shares(MEN, PULL, kind="active muscle", band=False)
    with pytest.raises(InputError, match="has a field that is an array"):
        muscle_shares(MEN, PULL.change(grip_ratio=np.array([1.0, 2.0])), band=False)


@pytest.fixture
def forgetful():
    """Nothing kept from before, nothing kept for later."""
    kept = sys.modules["shoulder_model.repetition.shares"]._of_bodies
    kept.cache_clear()
    yield kept.cache_clear
    kept.cache_clear()


@pytest.mark.parametrize("name", ["front pulldown", "seated row close"])
def test_the_span_holds_both_balances_and_the_bodies(name, monkeypatch, forgetful):
    found, alone = muscle_shares(MEN, sm.pulls[name]), muscle_shares(MEN, sm.pulls[name], band=False)
    for group, share in found.of.items():
        assert share[:2] == alone.of[group][:2]
        assert share.low <= alone.of[group].low and share.high >= alone.of[group].high
    assert found.of["lat"].high - found.of["lat"].low > alone.of["lat"].high - alone.of["lat"].low + 0.01
    monkeypatch.setattr(sys.modules["shoulder_model.repetition.shares"], "_bodies", lambda: [reference_body()] * 3)
    forgetful()
    again = muscle_shares(MEN, sm.pulls[name]).of["lat"]
    assert_allclose(again, alone.of["lat"], rtol=1e-9)


@pytest.mark.parametrize("kind", KINDS)
def test_the_span_reaches_from_5_to_95_percent_of_random_bodies(kind):
    """Of reps that are worked out apart, one for each body."""
    assert BAND == (5, 95) and BODIES >= 40
    first, elbow, ends = first_counted(POINTS), expected_strength(MEN).elbow, []
    found = muscle_shares(MEN, CHIN_UP, kind=kind)
    for balance in BALANCES:
        loaded, drawn = CHIN_UP.change(load_kg=found.load_kg[balance]), []
        for body in (reference_body(), *drawn_bodies(BODIES, SEED)):
            one = sm.rep(MEN, loaded, points=POINTS, balance=balance, body=body)
            work = muscle_work(one, loaded, elbow, first).sum("at").values
            amounts = {"work": work, "active muscle": active_cross_section(one, body)}[kind]
            drawn.append({group: float(share) for group, share in group_shares(amounts)[0].items()})
        for_balance = {group: [one[group] for one in drawn] for group in GROUP_MUSCLES}
        ends.append({group: [values[0], *np.percentile(values, BAND)] for group, values in for_balance.items()})
    for group, share in found.of.items():
        both = [one[group] for one in ends]
        assert share.low == pytest.approx(np.min(both), abs=1e-12)
        assert share.high == pytest.approx(np.max(both), abs=1e-12)


@pytest.mark.identity
def test_shares_of_a_sweep_are_those_of_its_reps():
    grid = sm.sweep(MEN, PULL, points=POINTS, grip_ratio=[1.0, 1.8])
    together, _ = group_shares(active_cross_section(grid))
    for i, grip in enumerate((1.0, 1.8)):
        one = sm.rep(MEN, PULL.change(grip_ratio=grip), points=POINTS)
        for group, value in group_shares(active_cross_section(one))[0].items():
            assert together[group][i] == pytest.approx(value, rel=1e-9)


def test_groups_by_hand():
    work = np.zeros((2, len(MUSCLES)))
    work[0, MUSCLES.index("latissimus dorsi middle")] = 3.0
    work[0, MUSCLES.index("rhomboids")] = 1.0
    work[1, MUSCLES.index("biceps brachii")] = 2.0
    work[1, MUSCLES.index("infraspinatus")] = -1.0
    put_in, taken_out = group_shares(work)
    assert_allclose(put_in["lat"], [0.75, 0.0])
    assert_allclose(put_in["mid-back"], [0.25, 0.0])
    assert_allclose(put_in["elbow flexors"], [0.0, 1.0])
    assert_allclose(taken_out["rotator cuff"], [0.0, -0.5])


@pytest.mark.parametrize(
    ("change", "field", "says"),
    [
        ({"effort": 1.0}, "effort", "effort = 1 of the largest load is outside 0.05 .* to 0.95 .*: give the share of the largest load"),
        ({"effort": 0.0}, "effort", "effort = 0 of the largest load"),
        ({"effort": "half"}, "effort", "effort = 'half' is not a number"),
        ({"kind": "worth"}, "kind", "kind 'worth' is not known; nearest: work"),
    ],
)  # fmt: skip
def test_wrong_input_is_refused_by_name(change, field, says):
    with pytest.raises(InputError, match=says) as caught:
        muscle_shares(MEN, PULL, band=False, **change)
    assert caught.value.field == field


def test_a_pull_that_cannot_be_held_has_no_shares():
    with pytest.raises(InputError, match="pull front pulldown: there is a point where the model cannot hold"):
        muscle_shares(MEN, PULL, strength=0.01)


def test_a_strength_of_ones_own_replaces_that_of_the_sex():
    usual, strong = (muscle_shares(MEN, PULL, band=False, strength=strength) for strength in (None, 5.0))
    assert strong.load_kg["plane"] > usual.load_kg["plane"]
    assert strong.of["lat"].value != usual.of["lat"].value
