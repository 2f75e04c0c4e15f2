"""What coaches say about grips and elbows. Common practice, no source: directions only."""

import numpy as np
import pytest

import shoulder_model as sm
from shoulder_model.repetition import KINDS

pytestmark = pytest.mark.practice
MEN = sm.Lifter.average("men")


def split(pull):
    """Shoulder torque components of the weightless arm, the same all along a straight path with the blade held."""
    torque = sm.rep(MEN, pull.change(girdle_travel=0.0), arm_weight=False).shoulder_torque
    return {axis: float(torque.sel(axis=axis)[0]) for axis in torque.axis.values}


def test_widening_a_pulldown_turns_extension_into_adduction():
    pull = sm.pulls["front pulldown"]
    narrow, wide = split(pull.change(grip_ratio=1.0)), split(pull.change(grip_ratio=2.0))
    assert narrow["extension"] > 2 * abs(narrow["adduction"])
    assert wide["adduction"] > 1.2 * wide["extension"]


def test_widening_a_row_turns_extension_into_horizontal_abduction():
    pull = sm.pulls["seated row wide"]
    narrow, wide = split(pull.change(grip_ratio=1.0)), split(pull.change(grip_ratio=2.0))
    assert narrow["extension"] > 2 * abs(narrow["horizontal_abduction"])
    assert wide["horizontal_abduction"] > 1.2 * wide["extension"]


def test_elbows_at_45_degrees_ask_both_of_a_row():
    pull = sm.pulls["seated row wide"]
    w = pull.line_offset(MEN)  # w = a: the plane of pull, and with it the elbow, at 45°
    both = split(pull.change(grip_ratio=(2 * w + MEN.gh_breadth) / MEN.biacromial))
    assert both["extension"] == pytest.approx(both["horizontal_abduction"], rel=1e-9)
    total = np.hypot(both["extension"], both["horizontal_abduction"])
    assert both["extension"] > 0.7 * total


def test_close_handles_ask_for_horizontal_adduction():
    assert split(sm.pulls["seated row close"])["horizontal_abduction"] < 0


ELBOWS_LOW, ELBOWS_HIGH = np.radians(-30), np.radians(20)
CLOSE, WIDE = sm.pulls["seated row close"].change(elbow_cue=ELBOWS_LOW), sm.pulls["seated row wide"]


def shares(lifter, pull, kind, effort=0.5):
    return sm.muscle_shares(lifter, pull, kind=kind, effort=effort, band=False).of


@pytest.mark.parametrize("kind", KINDS)
@pytest.mark.parametrize("effort", [0.3, 0.5, 0.8])
@pytest.mark.parametrize("sex", ["men", "women"])
def test_a_wide_row_with_elbows_high_favours_the_mid_back_over_a_close_one(sex, effort, kind):
    lifter = sm.Lifter.average(sex)
    close, wide = (
        shares(lifter, pull, kind, effort)["mid-back"] for pull in (CLOSE, WIDE.change(elbow_cue=ELBOWS_HIGH))
    )
    assert wide.value > close.value and wide.all_axes > close.all_axes


@pytest.mark.parametrize("kind", KINDS)
@pytest.mark.parametrize("sex", ["men", "women"])
def test_a_close_row_with_elbows_low_favours_the_lat_over_a_wide_one(sex, kind):
    lifter = sm.Lifter.average(sex)
    close, wide = (shares(lifter, pull, kind)["lat"] for pull in (CLOSE, WIDE))
    assert close.value > wide.value and close.all_axes > wide.all_axes


OVERLAP = "the lat's share of the active muscle is 12 to 20 % in the pulldown, 1 to 13 % in the wide row"


@pytest.mark.parametrize(
    "kind", ["work", pytest.param("active muscle", marks=pytest.mark.xfail(strict=True, reason=OVERLAP))]
)
def test_pulldowns_favour_the_lat_over_wide_rows_beyond_what_the_model_leaves_open(kind):
    pulldown, wide = (sm.muscle_shares(MEN, pull, kind=kind).of["lat"] for pull in (sm.pulls["front pulldown"], WIDE))
    assert pulldown.low > wide.high
