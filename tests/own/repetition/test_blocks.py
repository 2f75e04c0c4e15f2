"""A lifter's numbers are the same to the last bit in whatever block of a crowd they are worked out."""

from dataclasses import replace

import numpy as np
import pytest
from numpy.testing import assert_array_equal

import shoulder_model as sm
from shoulder_model.people import MEASURES

ALONE, SEVEN = slice(10, 11), slice(4, 11)


def part(crowd, here):
    """The lifters ``here`` of a crowd."""
    return replace(crowd, **{name: getattr(crowd, name)[here] for name in MEASURES})


def assert_same_bits(crowd, cuts, pull, **wanted):
    whole = sm.sweep(crowd, pull, **wanted)
    for here in cuts:
        block = sm.sweep(part(crowd, here), pull, **wanted)
        for name in whole.data_vars:
            ours, theirs = block[name].values, whole[name].values[here]
            bits = np.int64 if ours.dtype == float else ours.dtype
            assert_array_equal(
                np.ascontiguousarray(ours).view(bits), np.ascontiguousarray(theirs).view(bits), f"{name} {here}"
            )


@pytest.mark.identity
@pytest.mark.parametrize("name", sm.pulls)
def test_blocks_of_1_and_7_of_every_pull(name):
    random = np.random.default_rng(len(name))
    crowd = sm.draw_lifters(11, "women" if random.random() < 0.5 else "men", seed=int(random.integers(1000)))
    grips, leans = random.uniform(0.6, 1.7, 3), random.uniform(-0.2, 0.5, 2)
    one = sm.pulls[name].change(grip_ratio=grips[0], trunk_lean=leans[0])
    for balance in ("plane", "all axes"):
        wanted = {"points": 7, "work": True, "balance": balance}
        assert_same_bits(crowd, (ALONE, SEVEN), one, **wanted)  # what differed once, did so for a single set-up
        assert_same_bits(crowd, (ALONE, SEVEN), one, grip_ratio=grips, trunk_lean=leans, **wanted)


@pytest.mark.identity
@pytest.mark.parametrize("options", [{"balance": "plane"}, {"balance": "all axes"}, {"power": 3.0}], ids=str)
def test_a_block_of_1000(options):
    crowd = sm.draw_lifters(1003, "men", seed=3)
    cuts = (slice(0, 1000), slice(1000, 1003), slice(611, 612))
    assert_same_bits(crowd, cuts, sm.pulls["front pulldown"], work=True, points=3, **options)
