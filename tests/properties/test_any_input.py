"""Over the whole input range: a finite answer or a ValueError that names the field. Warnings are errors here."""

import numpy as np
from hypothesis import given, settings
from hypothesis import strategies as st

import shoulder_model as sm
from shoulder_model.axes import AXES
from shoulder_model.mechanics.pull import ALLOWED, TOUCHES
from shoulder_model.repetition.balance import BALANCES, SIDE_FORCES

MAY_BE_NOTHING = (
    "largest_load_kg",
    "whole_rep_load_kg",
    "adds_kg",
    "gives_out",
)  # NaN where the posture cannot even hold the arm
LINES = sorted(name for name, pull in sm.pulls.items())
SURVEYS = {sex: sm.survey(sex) for sex in ("men", "women")}


def within(allowed):
    """Floats over an allowed range, ends and a little beyond them included, and the impossible ones."""
    width = allowed.high - allowed.low
    return st.one_of(
        st.floats(allowed.low - 0.02 * width, allowed.high + 0.02 * width),
        st.sampled_from([allowed.low, allowed.high, 0.0]),
        st.sampled_from([float("nan"), float("inf"), -1.0]),
    )


pull_fields = st.fixed_dictionaries({}, optional={name: within(allowed) for name, allowed in ALLOWED.items()})
measures = st.fixed_dictionaries(
    {}, optional={name: within(SURVEYS["men"].allowed(name)) for name in SURVEYS["men"].names}
)


def finite_or_named(compute, given_names):
    """Run ``compute``; a refusal has to name a field, an answer has to be finite everywhere."""
    try:
        result = compute()
    except sm.InputError as error:
        assert error.field in given_names and error.field in str(error)
        return None
    for name, variable in result.data_vars.items():
        if name not in MAY_BE_NOTHING:
            assert np.isfinite(variable).all(), name
    assert ((result.activation >= 0) & (result.activation <= 1)).all()
    assert ((result.shortfall >= 0) & (result.shortfall <= 1)).all() and not (result.adds_kg < 0).any()
    held = result.largest_load_kg
    assert not np.isinf(held).any() and (held.notnull() | (result.shortfall > 0)).all()
    return result


@settings(max_examples=500, deadline=None)
@given(
    st.sampled_from(LINES),
    st.sampled_from(["men", "women"]),
    measures,
    pull_fields,
    st.sampled_from(TOUCHES),
    st.booleans(),
    st.sampled_from(BALANCES),
    st.sampled_from(SIDE_FORCES),
)
def test_rep_is_finite_or_names_the_field(name, sex, body, fields, touch, arm_weight, balance, side_force):
    names = {*ALLOWED, *SURVEYS[sex].names, "hand"}
    finite_or_named(
        lambda: sm.rep(
            sm.Lifter.from_measures(sex, **body),
            sm.pulls[name].change(touch=touch, **fields),
            points=9,
            arm_weight=arm_weight,
            balance=balance,
            side_force=side_force,
        ),
        names,
    )


@settings(max_examples=100, deadline=None)
@given(
    st.sampled_from(LINES),
    st.lists(within(ALLOWED["grip_ratio"]), min_size=1, max_size=4),
    st.lists(within(ALLOWED["trunk_lean"]), min_size=1, max_size=4),
)
def test_sweep_is_finite_or_names_the_field(name, grips, leans):
    lifter = sm.Lifter.average("women")
    finite_or_named(
        lambda: sm.sweep(lifter, sm.pulls[name], points=5, grip_ratio=grips, trunk_lean=leans), {*ALLOWED, "hand"}
    )


@settings(max_examples=200, deadline=None)
@given(
    st.floats(0.0, np.pi),
    st.floats(-np.pi, np.pi),
    st.sampled_from([name for name in sm.muscles.shoulder_muscles() if "latissimus" in name]),
    st.sampled_from(AXES),
)
def test_moment_arms_are_finite_and_under_the_insertion_distance(elevation, plane, name, axis):
    arm = sm.moment_arm(name, elevation, plane, axis)
    assert np.isfinite(arm) and abs(arm) < 0.066
