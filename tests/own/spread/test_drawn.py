"""Draws of what is not known: each input alone, inside what is possible, as wide as the register says."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from numpy.testing import assert_allclose

import shoulder_model as sm
from shoulder_model.mechanics.pull import ALLOWED
from shoulder_model.muscles import MUSCLES, capacity, cross_sections, muscle_table, path_sets, reference_body
from shoulder_model.repetition.strength import expected_pulldown
from shoulder_model.sources import constant, fact
from shoulder_model.spread import (
    NOT_KNOWN,
    as_tabled,
    draw,
    drawn_inputs,
    drawn_strength,
    names_of,
    relative_spread,
    uncertain_inputs,
)

MAN, PULLDOWN = sm.Lifter.average("men"), sm.pulls["front pulldown"]
DRAWS = drawn_inputs(400, 8)


def test_the_register_has_the_inputs_of_both_kinds_with_source_and_mark():
    assert names_of("people") == ("body measures", "strength")
    assert set(names_of()) == set(names_of("people")) | set(NOT_KNOWN)
    for one in uncertain_inputs():
        assert one.source and one.mark and one.moves
        for table in one.width_from.split(" / "):
            if table.endswith(".csv"):
                assert (sm.sources.__file__ and table) and table in ("landmarks.csv", "girdle.csv", "capacity.csv")
            elif table != "survey":
                assert constant(table).value is not None


def test_as_tabled_changes_nothing():
    tabled = as_tabled()
    assert tabled.pull(PULLDOWN) == PULLDOWN and tabled.body is reference_body()
    strength = sm.expected_strength(MAN)
    assert tabled.strength(strength, "men") is strength and tabled.friction == fact("grip_friction")


@pytest.mark.parametrize("name", NOT_KNOWN)
def test_an_input_alone_moves_what_the_register_says(name):
    one, tabled = draw(3, 0).only(name), as_tabled()
    reference = reference_body()
    moved = {
        "landmarks": any(
            not np.array_equal(a.origin, b.origin) for a, b in zip(one.body.paths, reference.paths, strict=True)
        ),
        "muscle sizes": not np.allclose(one.body.cross_section, reference.cross_section),
        "fibre lengths": not np.allclose(one.body.fibres, reference.fibres),
        "specific tension": one.tension != 1.0,
        "scapular rhythm": one.body.rhythm != 1.0,
        "blade travel": one.pull(PULLDOWN).girdle_travel != PULLDOWN.girdle_travel,
        "touch point": one.pull(PULLDOWN).touch_point(MAN) != PULLDOWN.touch_point(MAN),
        "trunk lean": one.pull(PULLDOWN).trunk_lean != PULLDOWN.trunk_lean,
        "grip friction": one.friction != tabled.friction,
    }
    assert [what for what, is_moved in moved.items() if is_moved] == [name]


def test_an_input_of_another_draw_takes_the_place_of_its_own():
    first, second = draw(3, 0), draw(3, 1)
    mixed = first.with_input("trunk lean", second)
    assert mixed.pull(PULLDOWN).trunk_lean == second.pull(PULLDOWN).trunk_lean
    assert mixed.friction == first.friction and np.array_equal(mixed.body.cross_section, first.body.cross_section)
    assert mixed.with_input("trunk lean", first) == first


def ratio_sd(values):
    return np.std(np.log(values))


def test_draws_are_as_wide_as_their_sources_say():
    """Within four standard errors of the standard deviation; log-normal where a value cannot be negative."""
    error = 4 / np.sqrt(2 * len(DRAWS))
    _, low, high = cross_sections()
    sizes = np.array([one.body.cross_section for one in DRAWS])
    wanted = {
        "friction": (ratio_sd([one.friction for one in DRAWS]), "grip_friction"),
        "tension": (ratio_sd([one.tension for one in DRAWS]), "specific_tension"),
        "rhythm": (ratio_sd([one.body.rhythm for one in DRAWS]), "scapular_rhythm_of_people"),
    }
    for name, (found, row) in wanted.items():
        known = constant(row)
        assert_allclose(found, np.log(known.high / known.low) / 4, rtol=error, err_msg=name)
    for muscle in ("teres major", "latissimus dorsi middle", "rhomboids"):
        k = MUSCLES.index(muscle)
        assert_allclose(ratio_sd(sizes[:, k]), np.log(high[k] / low[k]) / 4, rtol=error, err_msg=muscle)
    fibres = np.array([one.body.fibres for one in DRAWS])
    assert_allclose(ratio_sd(fibres[:, MUSCLES.index("teres major")]), fact("fibre_length_spread"), rtol=error)
    leans = [one.pull(PULLDOWN).trunk_lean for one in DRAWS]
    assert_allclose(np.std(leans), np.radians(fact("lean_by_eye_deg")), rtol=error)
    forward = [one.pull(PULLDOWN).touch_point(MAN)[0] for one in DRAWS]
    assert_allclose(np.std(forward), fact("tape_reading"), rtol=error)


def test_parts_of_one_muscle_are_drawn_together():
    one = draw(5, 2).body
    lat = [MUSCLES.index(name) for name in sm.muscles.LAT]
    ratio = one.cross_section[lat] / reference_body().cross_section[lat]
    assert_allclose(ratio, ratio[0], rtol=0.05)  # their ranges are all but the same


@settings(max_examples=40, deadline=None)
@given(st.integers(0, 2**40), st.integers(0, 10**6), st.sampled_from(sorted(sm.pulls)))
def test_nothing_impossible_is_drawn(seed, number, name):
    one = draw(seed, number)
    for paths_here in one.body.paths:
        origin, insertion = paths_here.ends
        assert np.all(np.minimum(origin, insertion) > paths_here.wrap) and np.all(paths_here.wrap >= 0)
    assert np.all(one.body.cross_section > 0) and np.all(one.body.fibres > 0.01) and 0 < one.body.rhythm < 2
    assert 0 < one.friction < 3 and one.tension > 0
    pull = one.pull(sm.pulls[name])
    for field, allowed in ALLOWED.items():
        value = getattr(pull, field)
        assert value is None or allowed.low <= value <= allowed.high


def test_a_held_blade_stays_held():
    assert draw(1, 1).pull(PULLDOWN.change(girdle_travel=0.0)).girdle_travel == 0.0


@pytest.mark.parametrize("sex", sm.people.SEXES)
def test_each_drawn_body_still_holds_the_measured_pulldown(sex):
    """Anchored: within 0.2 % after three steps."""
    person = sm.Lifter.average(sex)
    wanted = expected_pulldown(person)[0]
    for one in DRAWS[:4]:
        strength = one.strength(sm.expected_strength(person), sex)
        held = sm.rep(person, PULLDOWN, points=21, strength=strength, **one.options).whole_rep_load_kg
        assert_allclose(float(held), wanted, rtol=2e-3)


def test_without_an_anchor_strength_follows_the_drawn_tension():
    one, usual = DRAWS[0], sm.expected_strength(MAN)
    free = one.strength(usual, "men", anchored=False)
    assert_allclose(free.factor / usual.factor, one.tension)
    assert_allclose(
        capacity(reference_body().reference_length, free.factor)
        / capacity(reference_body().reference_length, usual.factor),
        one.tension,
    )


@pytest.mark.parametrize("sex", sm.people.SEXES)
def test_strength_spreads_as_college_lifters_did(sex):
    n = 20_000
    crowd = sm.draw_lifters(n, sex, 5)
    ratio = drawn_strength(crowd, 6).factor / sm.expected_strength(crowd).factor
    assert_allclose(ratio.mean(), 1.0, atol=4 * relative_spread(sex) / np.sqrt(n))
    assert_allclose(ratio.std(), relative_spread(sex), rtol=0.05)
    assert np.array_equal(drawn_strength(sm.draw_lifters(7, sex, 5), 6).factor, drawn_strength(crowd, 6).factor[:7])


def test_every_muscle_and_every_path_is_drawn():
    one = draw(9, 9).body
    assert len(one.cross_section) == len(muscle_table()) and np.all(one.cross_section != reference_body().cross_section)
    for moved, there in zip(one.paths, path_sets(), strict=True):
        assert np.all(moved.origin != there.origin) and np.all(moved.insertion != there.insertion)
