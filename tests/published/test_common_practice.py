"""What coaches say about grips and elbows. Common practice, no source: directions only."""

import numpy as np
import pytest

import shoulder_model as sm

pytestmark = pytest.mark.practice
MEN = sm.Lifter.average("men")


def split(pull):
    """Shoulder torque components of the weightless arm, the same all along a straight path."""
    torque = sm.rep(MEN, pull, arm_weight=False).shoulder_torque
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


def shares(lifter, pull, effort=0.5):
    return {group: share.value for group, share in sm.work_shares(lifter, pull, effort=effort, band=False).items()}


@pytest.mark.parametrize("effort", [0.3, 0.5, 0.8])
@pytest.mark.parametrize("wide", [WIDE, WIDE.change(elbow_cue=ELBOWS_HIGH)], ids=["wide", "wide, elbows high"])
@pytest.mark.parametrize("sex", ["men", "women"])
def test_a_close_row_with_elbows_low_favours_the_lat_and_a_wide_one_the_mid_back(sex, wide, effort):
    lifter = sm.Lifter.average(sex)
    close, wide = shares(lifter, CLOSE, effort), shares(lifter, wide, effort)
    assert close["lat"] > 2 * wide["lat"]
    assert wide["mid-back"] > 1.5 * close["mid-back"]


def test_close_and_wide_rows_differ_beyond_what_bodies_leave_open():
    close, wide = sm.work_shares(MEN, CLOSE), sm.work_shares(MEN, WIDE)
    assert close["lat"].low > wide["lat"].high
    assert wide["mid-back"].low > close["mid-back"].high


@pytest.mark.parametrize("sex", ["men", "women"])
def test_the_mid_back_s_share_of_a_row_at_45_degrees_lies_between_close_and_wide(sex):
    # the lat's does not: at 45° it is as small as in the wide row
    lifter = sm.Lifter.average(sex)
    w = WIDE.line_offset(lifter)
    at_45 = WIDE.change(grip_ratio=(2 * w + lifter.gh_breadth) / lifter.biacromial)
    close, between, wide = (shares(lifter, pull)["mid-back"] for pull in (CLOSE, at_45, WIDE))
    assert close < between < wide
