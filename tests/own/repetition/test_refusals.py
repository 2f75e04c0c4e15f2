"""What rep, sweep and what rests on them refuse, by name."""

import numpy as np
import pytest

import shoulder_model as sm
from shoulder_model.inputs import InputError, UnknownName
from shoulder_model.repetition import from_torques, torque_polygon

MAN, PULL = sm.Lifter.average("men"), sm.pulls["front pulldown"]
MANY = PULL.change(grip_ratio=np.array([1.0, 1.5]))
CROWD = sm.draw_lifters(3, "men", seed=1)


@pytest.mark.parametrize(
    ("call", "field", "says"),
    [
        (lambda: sm.rep(MAN, MANY), "pull", "a field that is an array; give the numbers to sweep"),
        (lambda: sm.sweep(MAN, MANY, trunk_lean=[0.0]), "pull", "a field that is an array; give the numbers to sweep"),
        (lambda: sm.rep(MAN, PULL, points=2.7), "points", "points = 2.7 is not a whole number; give a count"),
        (lambda: sm.rep(MAN, PULL, points=1), "points", "points = 1 points is outside"),
        (lambda: sm.coverage(CROWD, PULL), "lifter", "a range of motion is for one person"),
        (lambda: from_torques(CROWD, adduction=60.0), "lifter", "a strength from torques is for one person"),
        (lambda: torque_polygon(CROWD, PULL, sm.rep(MAN, PULL), 3), "lifter", "a torque polygon is for one person"),
        (lambda: sm.sweep(MAN, PULL, grip_ratio=[[1.0]]), "grip_ratio", r"has shape \(1, 1\)"),
        (
            lambda: sm.rep(MAN, sm.pulls["straight-arm pulldown"].change(grip_ratio=2.5, held_elbow_flexion=2.4)),
            "grip_ratio",
            r"the hands would be 3\d\.\d cm to the side of the shoulder, the held arm reaches",
        ),
    ],
)
def test_it_is_refused_with_its_field(call, field, says):
    with pytest.raises(InputError, match=says) as refused:
        call()
    assert refused.value.field == field


@pytest.mark.parametrize("call", [sm.rep, sm.sweep])
def test_an_option_that_is_none_gets_the_nearest(call):
    with pytest.raises(UnknownName, match=r"nearest: .*points"):
        call(MAN, PULL, point=5)


def test_options_stand_in_the_signature_with_their_defaults():
    import inspect

    rep, sweep = (inspect.signature(call).parameters for call in (sm.rep, sm.sweep))
    assert rep["points"].default == 41 and rep["work"].default is True and sweep["work"].default is None
    assert all(
        parameter.kind is parameter.KEYWORD_ONLY for name, parameter in rep.items() if name not in ("lifter", "pull")
    )
    assert list(rep)[:2] == list(sweep)[:2] == ["lifter", "pull"]
