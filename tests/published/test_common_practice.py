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
