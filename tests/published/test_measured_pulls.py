"""What people were measured to pull, against the model: pull-ups and pulldowns, widths, one load for two pulls.

Nothing here is used to make the model, but for the mean lifter's 1RM pulldown, which is its strength.
"""

import pytest

import shoulder_model as sm
from shoulder_model.evidence import comparisons, difference_within, smallest_seen
from shoulder_model.people import SEXES
from shoulder_model.repetition.balance import BALANCES

pytestmark = pytest.mark.published
MEN = sm.Lifter.average("men")
FRONT, PULL_UP = sm.pulls["front pulldown"], sm.pulls["pull-up"]
SUPINATED = FRONT.change(grip_ratio=1.0, hand_turn="supinated")
ROW = sm.pulls["seated row close"].change(grip_ratio=1.0)
both_balances = pytest.mark.parametrize("balance", BALANCES)


def held(lifter, pull, balance="plane"):
    return float(sm.rep(lifter, pull, balance=balance).whole_rep_load_kg)


def lat(pull, balance="plane"):
    """Mean activation of the lat's three parts over the counted part of a rep."""
    one = sm.counted_part(sm.rep(MEN, pull, balance=balance))
    assert not one.shortfall.any()
    return float(one.activation.mean("point").to_series().filter(like="latissimus").mean())


# J Strength Cond Res 2009;23(3):1022-1028: 1RM over body mass, pull-up 1.16 +- 0.15 and 0.73 +- 0.09, pulldown 0.93 and
# 0.55; the ratios are derived (D)
PULL_UP_OVER_PULLDOWN = {"men": 1.25, "women": 1.33}


BELOW = "0.94 in the plane, 1.01 about all axes, men and women: the model's elbow and low lat give out at the start of the pull-up"


@pytest.mark.xfail(strict=True, reason=BELOW)
@pytest.mark.parametrize("sex", SEXES)
def test_pull_up_over_pulldown_lies_in_the_span_of_the_two_balances(sex, outside):
    lifter = sm.Lifter.average(sex)
    found = [held(lifter, PULL_UP, balance) / held(lifter, FRONT, balance) for balance in BALANCES]
    outside(PULL_UP_OVER_PULLDOWN[sex], found)
    assert min(found) < PULL_UP_OVER_PULLDOWN[sex] < max(found), found


@pytest.mark.xfail(strict=True, reason=BELOW)
@pytest.mark.parametrize("sex", SEXES)
def test_more_is_held_in_the_pull_up_than_in_the_pulldown(sex, outside):
    # J Strength Cond Res 2009;23(3):1022-1028, both sexes
    lifter = sm.Lifter.average(sex)
    loads = held(lifter, PULL_UP), held(lifter, FRONT)
    outside("pull-up over pulldown", loads, "kg")
    assert loads[0] > loads[1]


# J Strength Cond Res 2014;28(4):1135-1142: 6RM of 15 men at 1.0, 1.5, 2.0 x biacromial [kg]
SIX_REPETITIONS = {1.0: 80.3, 1.5: 80.0, 2.0: 77.3}


@pytest.mark.parametrize("width", [1.0, 2.0])
def test_six_repetition_loads_by_width_lie_in_the_span(width, outside):
    """Over the medium grip's, so that no strength is needed; span over balance and the counted part of the rep."""
    measured = SIX_REPETITIONS[width] / SIX_REPETITIONS[1.5]
    found = []
    for balance in BALANCES:
        loads = [
            sm.rep(MEN, FRONT.change(grip_ratio=grip), balance=balance).largest_load_kg.values for grip in (width, 1.5)
        ]
        found += [loads[0][first:].min() / loads[1][first:].min() for first in (0, 4, 8, 12)]
    outside(measured, (min(found), max(found)), "of the medium grip's")
    assert min(found) < measured < max(found), found


@pytest.mark.xfail(strict=True, reason="79, 80 and 65 kg: twice the shoulders holds a fifth less, measured 3 % less")
def test_no_width_of_a_pulldown_holds_a_tenth_more_or_less_than_another(outside):
    loads = [held(MEN, FRONT.change(grip_ratio=grip)) for grip in SIX_REPETITIONS]
    outside(list(SIX_REPETITIONS.values()), loads, "kg")
    assert max(loads) / min(loads) < 1.1, loads


@both_balances
def test_lat_by_width_shows_no_difference_that_the_trial_would_have_seen(balance, outside):
    """J Strength Cond Res 2014;28(4):1135-1142: 15 men, no difference found in the lat; the model's, each width at 60 % of its own load.

    What 15 people show in four trials of five, with the relative spread of the lat in Dyn Med 2004;3:4.
    """
    found = []
    for grip in SIX_REPETITIONS:
        pull = FRONT.change(grip_ratio=grip)
        found.append(lat(pull.change(load_kg=0.6 * held(MEN, pull, balance)), balance))
    mean, spread = AT_ONE_LOAD["wide pulldown"]
    outside("no difference", found, "activation")
    assert max(found) / min(found) - 1 < smallest_seen(15) * spread / mean, found


# Dyn Med 2004;3:4, table 1: lat at one load, %MVC of 12 men, mean and SD
AT_ONE_LOAD = {
    "wide pulldown": (26.2, 10.1),
    "supinated pulldown": (22.4, 9.1),
    "row": (30.1, 14.9),
    "row, drawn back": (37.1, 14.0),
}


@pytest.mark.identity
def test_the_trial_s_row_asked_no_less_of_the_lat_than_its_pulldowns():
    rows = {
        row.higher
        for row in comparisons()
        if (row.study, row.muscle, row.question) == ("dynmed2004a", "latissimus dorsi", "row or pulldown")
    }
    assert rows and "second" not in rows
    for row in ("row", "row, drawn back"):
        for pulldown in ("wide pulldown", "supinated pulldown"):
            effect = difference_within(*(AT_ONE_LOAD[name][k] for k in (0, 1) for name in (row, pulldown)), 12, 0.5)
            assert effect.value > 0


ALL_AXES = "0.27 in the row, 0.34 in the wide pulldown when all axes are balanced; in the plane 0.28 and 0.28"
MISSED = pytest.mark.xfail(strict=True, reason=ALL_AXES)


@pytest.mark.parametrize(
    ("pulldown", "balance"),
    [
        pytest.param(FRONT, "plane", id="wide-plane"),
        pytest.param(SUPINATED, "plane", id="supinated-plane"),
        pytest.param(FRONT, "all axes", id="wide-all axes", marks=MISSED),
        pytest.param(SUPINATED, "all axes", id="supinated-all axes"),
    ],
)
def test_the_model_s_row_asks_no_less_of_the_lat_at_one_load(pulldown, balance, outside):
    """Dyn Med 2004;3:4. Standardised differences measured: row less wide pulldown 0.3, less supinated 0.6, drawn back 0.9 and 1.2."""
    row, pulled = (lat(pull.change(load_kg=30.0), balance) for pull in (ROW, pulldown))
    outside("row no less than pulldown", (row, pulled), "activation")
    assert row >= pulled, (row, pulled)
