"""The table of sizes: its own ratios, fibres that fit their paths, and what bounds each value from memory."""

import numpy as np
import pytest

from shoulder_model.muscles import MUSCLES, cross_sections, muscle_table, reference_body
from shoulder_model.muscles.elbow import POLYNOMIALS
from shoulder_model.muscles.girdle import girdle_muscles
from shoulder_model.muscles.table import optimal_fibres

ROWS = {row["muscle"]: row for row in muscle_table()}


def test_deltoid_parts_stand_in_the_ratios_that_were_read():
    # middle 3.5 x anterior, 5.2 x posterior
    size = dict(zip(MUSCLES, cross_sections()[0], strict=True))
    assert size["deltoid middle"] / size["deltoid anterior"] == pytest.approx(20.52 / 5.9, rel=0.02)
    assert size["deltoid middle"] / size["deltoid posterior"] == pytest.approx(20.52 / 3.9, rel=0.02)
    assert sum(size[f"deltoid {part}"] for part in ("anterior", "middle", "posterior")) == pytest.approx(
        np.sqrt(25.9 * 38), rel=0.01
    )


def test_fibres_that_were_read():
    fibre = dict(zip(MUSCLES, 100 * optimal_fibres(), strict=True))
    assert (fibre["deltoid middle"], fibre["deltoid posterior"], fibre["triceps long head"]) == pytest.approx(
        (5.55, 12.31, 8.53), abs=0.02
    )
    assert fibre["triceps short heads"] == pytest.approx((6.45 + 6.65) / 2)


@pytest.mark.parametrize("name", [name for name in MUSCLES if name not in (*POLYNOMIALS, "latissimus dorsi superior")])
def test_no_fibre_is_longer_than_its_path(name):
    # the lat's superior path starts where its lines point, short of the spine; its fascicles are those of the whole muscle
    at = MUSCLES.index(name)
    assert optimal_fibres()[at] < 1.02 * reference_body().reference_length[at]  # to the path's own 1 to 2 cm


def test_girdle_muscles_stand_in_one_order():
    assert MUSCLES[-len(girdle_muscles()) :] == girdle_muscles()
    assert "levator scapulae" in girdle_muscles()


@pytest.mark.parametrize("name", MUSCLES)
def test_a_size_or_fibre_from_memory_says_what_bounds_it(name):
    row = ROWS[name]
    if "M" in row["mark"] + row["fibre_mark"]:
        assert len(row["bounded_by"]) > 10
    low, value, high = (float(row[key]) for key in ("pcsa_low", "pcsa_cm2", "pcsa_high"))
    assert low < value < high
