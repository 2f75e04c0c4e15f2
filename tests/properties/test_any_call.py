"""Public functions with random arguments, right and wrong mixed: a finite answer or an `InputError`, nothing else.

10,000 calls with a fixed seed; ``SHOULDER_MODEL_RANDOM_CALLS`` in the environment is another count, and the seed moves with it.
"""

import os
import random
import warnings
from collections import Counter
from dataclasses import fields, is_dataclass
from functools import cache

import numpy as np
import xarray as xr

import shoulder_model as sm
from tests.wrong_calls import CALLS, CROWD, HOSTILE, MANY, Rude, works

USUAL = 10_000
COUNT = int(os.environ.get("SHOULDER_MODEL_RANDOM_CALLS", USUAL))
SEED = 20 + COUNT - USUAL
DEAR = {  # calls that take 20 ms and more when they are right; one in so many is drawn
    "plan_week", "muscle_shares", "model_shares", "from_repetition_maximum", "work_done", "load_span", "coverage", "sweep",
    "Client", "next_block", "read_records", "client_of", "from_torques", "torque_polygon", "rep", "activation_at",
}  # fmt: skip
RARE = 25
MAY_BE_NOTHING = {  # NaN where the posture cannot even hold the arm
    "largest_load_kg", "whole_rep_load_kg", "adds_kg", "gives_out", "by", "value", "low", "high", "limit",
}  # fmt: skip
MAY_BE_ENDLESS = {"repetitions_needed"}  # where an equation is asked beyond its loads


@cache
def plausible():
    """Numbers, arrays and more that may be right, and may not go together."""
    plain = [
        0,
        1,
        2,
        3,
        5,
        8,
        0.0,
        -0.0,
        0.1,
        0.3,
        -0.2,
        1.0,
        1.5,
        -1.0,
        7.5,
        12.0,
        40.0,
        90.0,
        1e-300,
        1e6,
        True,
        False,
    ]
    arrays = [
        np.full(shape, value) for shape in ((1,), (2,), (3,), (5,), (2, 1), (2, 3), (0,)) for value in (0.1, 1.0, 12)
    ]
    return [
        *plain,
        *arrays,
        np.float32(1.2),
        np.int8(3),
        [0.1, 0.2],
        (1.0, 2.0, 3.0),
        range(3),
        MANY,
        CROWD,
        "men",
        None,
    ]


@cache
def hostile(kind):
    """What is wrong for a kind, made once."""
    return HOSTILE[kind]()


def drawn(rng, row):
    """Arguments for a row of `CALLS`, some of them changed."""
    given = works(row)
    for argument in rng.sample(list(given), min(len(given), rng.choice((0, 1, 1, 2, 3)))):
        pool = rng.choice((plausible(), plausible(), hostile(row.given[argument].kind), hostile(rng.choice(KINDS))))
        given[argument] = rng.choice(pool)
    return given


KINDS = tuple(HOSTILE)
OFTEN = [row for row in CALLS if row.function.__qualname__ not in DEAR]
SELDOM = [row for row in CALLS if row.function.__qualname__ in DEAR]


def leaves(value, name=""):
    """Every number in an answer, with the name of the field that it stands in."""
    if isinstance(value, xr.Dataset):
        for key, variable in value.data_vars.items():
            yield key, variable.values
    elif is_dataclass(value) and not isinstance(value, type):
        for field in fields(value):
            yield from leaves(getattr(value, field.name), field.name)
    elif isinstance(value, dict):
        for key, part in value.items():
            yield from leaves(part, key if isinstance(key, str) and not name else name)
    elif isinstance(value, (list, tuple)):
        for part in value:
            yield from leaves(part, name)
    elif isinstance(value, (float, int, np.ndarray, np.number)):
        yield name, value


def ends(row, given):
    """What a call ends in: "refused", "answered", or what is wrong."""
    try:
        with np.errstate(all="ignore"), warnings.catch_warnings():
            warnings.simplefilter("ignore")
            answer = row.function(**given)
    except sm.InputError as refusal:
        return "refused" if len(str(refusal)) <= 300 and "\n" not in str(refusal) else "refused in many words"
    except Exception as error:
        return f"raw {type(error).__name__}: {str(error)[:80]}"
    if row.function.__qualname__ not in MAY_BE_ENDLESS:
        for name, number in leaves(answer):
            if np.asarray(number).dtype.kind in "fc" and name not in MAY_BE_NOTHING and not np.isfinite(number).all():
                return f"answered, but {name or 'the answer'} is not finite"
    return "answered"


def said(row, given):
    """A call that went wrong, in a line."""
    changed = {name: value for name, value in given.items() if value is not row.given[name].value}
    shown = {
        name: type(value).__name__ if isinstance(value, Rude) else repr(value)[:60] for name, value in changed.items()
    }
    return f"{row.function.__qualname__} {shown}"


def test_random_calls_end_in_a_finite_answer_or_a_refusal():
    rng, ended, wrong = random.Random(SEED), Counter(), []
    for _ in range(COUNT):
        row = rng.choice(OFTEN if rng.randrange(RARE) else SELDOM)
        given = drawn(rng, row)
        end = ends(row, given)
        ended[end.split()[0]] += 1
        if end not in ("refused", "answered"):
            wrong.append(f"{said(row, given)}: {end}")
    assert not wrong, f"{len(wrong)}: {wrong[:10]}"
    assert min(ended["refused"], ended["answered"]) > COUNT / 10, ended
