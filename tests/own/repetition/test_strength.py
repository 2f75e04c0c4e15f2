import numpy as np
import pytest
from numpy.testing import assert_allclose

import shoulder_model as sm
from shoulder_model.inputs import InputError
from shoulder_model.muscles import expected_strength
from shoulder_model.repetition import (
    calibrated,
    equations,
    from_repetition_maximum,
    from_torques,
    isometric_elbow_torque,
    isometric_torque,
    strength,
)
from shoulder_model.repetition import repetition_maximum as rm
from shoulder_model.repetition.balance import BALANCES
from shoulder_model.repetition.repetition_maximum import SHARES
from shoulder_model.repetition.strength import MEASURED_TORQUES, expected_pulldown
from shoulder_model.sources import constant, fact

MEN, WOMEN = sm.Lifter.average("men"), sm.Lifter.average("women")
PULL = sm.pulls["front pulldown"]


def test_the_kept_numbers_are_those_the_recipe_makes():
    made = calibrated()
    assert len(made) == 4
    for name, value in made.items():
        assert f"{value:.3f}" == f"{fact(name):.3f}", name


@pytest.mark.parametrize(("sex", "share"), [("men", 0.93), ("women", 0.55)])
def test_the_mean_lifter_holds_what_college_lifters_could_lift_once(sex, share):
    # 0.93 and 0.55 of body mass, J Strength Cond Res 2009;23(3):1022-1028; the kept factor has three decimals
    lifter = sm.Lifter.average(sex)
    one = sm.rep(lifter, PULL)
    assert float(one.whole_rep_load_kg) == pytest.approx(share * lifter.mass, rel=1e-3)
    assert expected_pulldown(lifter)[0] == pytest.approx(share * lifter.mass)


def test_expected_strength_grows_with_body_mass_and_covers_two_standard_deviations():
    crowd = sm.draw_lifters(6, "women", seed=4)
    many = expected_strength(crowd)
    for k in range(6):
        alone = expected_strength(sm.Lifter("women", **{name: getattr(crowd, name)[k] for name in sm.people.MEASURES}))
        assert alone.factor == pytest.approx(many.factor[k]) and alone.high == pytest.approx(many.high[k])
    assert_allclose(many.factor / crowd.mass, fact("pulldown_strength_women") / WOMEN.mass)
    assert_allclose([many.low / many.factor, many.high / many.factor], np.outer([0.33 / 0.55, 0.77 / 0.55], np.ones(6)))
    assert "sex and body mass" in many.known_from


# ---------------------------------------------------------------- repetition maximum


@pytest.mark.parametrize("balance", BALANCES)
@pytest.mark.parametrize(("load", "repetitions"), [(60.0, 1), (60.0, 8), (25.0, 5), (140.0, 3)])
@pytest.mark.parametrize("name", ["front pulldown", "seated row wide"])
def test_a_lifter_known_from_a_repetition_maximum_holds_just_that(name, load, repetitions, balance):
    pull = sm.pulls[name]
    strength = from_repetition_maximum(MEN, pull, load, repetitions, balance=balance)
    best = rm.one_repetition_maximum(load, repetitions)
    for factor, kg in (
        (strength.factor, best.value), (strength.low, 0.975 * best.low), (strength.high, 1.025 * best.high)
    ):  # fmt: skip
        one = sm.rep(MEN, pull, strength=factor, balance=balance)
        assert float(one.whole_rep_load_kg) == pytest.approx(kg, rel=1e-6)
    assert strength.low < strength.factor < strength.high
    assert strength.known_from.startswith(f"{load:g} kg for {repetitions} repetition") and name in strength.known_from


@pytest.mark.parametrize("name", list(sm.pulls))
def test_every_pull_of_the_catalogue_can_tell_a_strength(name):
    pull = sm.pulls[name]
    for lifter in (MEN, WOMEN):
        load = 20.0 / (1 if pull.hands == 2 else 2)
        strength = from_repetition_maximum(lifter, pull, load)
        one = sm.rep(lifter, pull, strength=strength)
        assert float(one.whole_rep_load_kg) == pytest.approx(load, rel=1e-6)


def test_the_pull_s_own_load_does_not_matter_and_a_side_force_makes_a_weaker_lifter():
    known = from_repetition_maximum(MEN, PULL, 60.0)
    assert from_repetition_maximum(MEN, PULL.change(load_kg=5.0), 60.0).factor == pytest.approx(known.factor, rel=1e-6)
    assert from_repetition_maximum(MEN, PULL, 60.0, side_force="zero").factor > known.factor


# ---------------------------------------------------------------- torques


def torque_of(name, factor):
    if name == "elbow_flexion":
        return isometric_elbow_torque(factor * fact("elbow_over_shoulder_strength"))
    return float(isometric_torque(name, np.pi / 4, 0.0 if "duction" in name else np.pi / 2, factor))


@pytest.mark.parametrize("name", MEASURED_TORQUES)
def test_a_torque_gives_back_the_factor_that_made_it(name):
    bridge = fact("pull_over_isometric_strength")
    found = from_torques(MEN, **{name: torque_of(name, 1.4)})
    assert found.factor == pytest.approx(1.4 * bridge) and found.elbow == pytest.approx(
        fact("elbow_over_shoulder_strength")
    )
    assert found.low == pytest.approx(1.4 * 0.85) and found.high == pytest.approx(1.4 * 1.15 * bridge)
    assert name.replace("_", " ") in found.known_from


def test_several_torques_meet_in_their_geometric_mean():
    found = from_torques(
        MEN,
        adduction=torque_of("adduction", 1.0),
        extension=torque_of("extension", 2.0),
        elbow_flexion=torque_of("elbow_flexion", 3.0),
    )
    bridge = fact("pull_over_isometric_strength")
    assert found.factor == pytest.approx(np.sqrt(2) * bridge)
    assert found.low == pytest.approx(1.0) and found.high == pytest.approx(2.0 * bridge)
    assert found.elbow == pytest.approx(fact("elbow_over_shoulder_strength") * 3.0 / np.sqrt(2))
    assert found.known_from == "isometric torques: adduction, extension, elbow flexion"


def test_no_torque_leaves_what_sex_and_mass_say():
    assert from_torques(WOMEN) == expected_strength(WOMEN)


@pytest.mark.identity
def test_isometric_torque_is_one_table_times_one_factor():
    elevation = np.radians([0, 45, 90])
    for name in ("adduction", "abduction", "extension", "flexion"):
        once = isometric_torque(name, elevation, 0.0)
        assert_allclose(isometric_torque(name, elevation, 0.0, factor=2.5), 2.5 * once)
        assert once.shape == (3,) and np.all(once > 0)
    assert isometric_elbow_torque(2.0) == pytest.approx(2 * isometric_elbow_torque())


# ---------------------------------------------------------------- repetitions


@pytest.mark.identity
@pytest.mark.parametrize("repetitions", [2, 3, 5, 8, 12])
def test_loads_and_repetitions_go_there_and_back(repetitions):
    best = rm.one_repetition_maximum(50.0, repetitions)
    for name, kg in best.each.items():
        share = rm.share_of_maximum(repetitions).each[name]
        assert rm.load_for(kg, repetitions).each[name] == pytest.approx(50.0)
        if share < 1.0:
            assert rm.repetitions_at(share).each[name] == pytest.approx(repetitions, rel=1e-6)
    assert best.low <= best.value <= best.high and best.low == 50.0 / rm.share_of_maximum(repetitions).high
    assert best.high == pytest.approx(max(best.each.values()))


def test_one_repetition_is_the_maximum_and_more_are_less():
    assert set(rm.share_of_maximum(1).each.values()) == {1.0}
    assert rm.one_repetition_maximum(80.0, 1).high == 80.0
    shares = np.array([list(rm.share_of_maximum(r).each.values()) for r in range(2, 13)])
    assert np.all(np.diff(shares, axis=0) < 0) and shares.min() > 0.6


def test_the_maximum_itself_is_one_repetition():
    assert rm.repetitions_at(1.0).value == pytest.approx(1.0)


def test_the_lightest_share_allowed_is_no_end_of_a_search():
    for name, found in rm.repetitions_at(0.65).each.items():
        assert rm.SHARES[name](found) == pytest.approx(0.65)


def test_every_equation_of_the_table_is_worked_with():
    assert len(equations()) == 7 and {row["equation"] for row in equations()} == set(SHARES)
    assert all(row["source"] and row["mark"] == "MH" for row in equations())


# ---------------------------------------------------------------- refusals


@pytest.mark.parametrize(
    ("call", "field", "says"),
    [
        (lambda: from_repetition_maximum(MEN, PULL, 0.5), "load_kg", "load_kg = 0.5 kg is outside 1 kg to 500 kg: give the load on the whole bar"),
        (lambda: from_repetition_maximum(MEN, PULL, float("nan")), "load_kg", "load_kg = nan kg is outside"),
        (lambda: from_repetition_maximum(MEN, PULL, 1.0), "load_kg", "no strength makes the model hold that in front pulldown"),
        (lambda: from_repetition_maximum(MEN, PULL, 40.0, 13), "repetitions", "repetitions = 13 repetitions is outside 1 .* to 12 .*: beyond about ten"),
        (lambda: from_repetition_maximum(MEN, PULL, 40.0, 0), "repetitions", "repetitions = 0"),
        (lambda: from_repetition_maximum(MEN, PULL, 40.0, balance="all"), "balance", "balance 'all' is not known"),
        (lambda: from_torques(MEN, aduction=70), "torque", "torque 'aduction' is not known; nearest: adduction"),
        (lambda: from_torques(MEN, adduction=0.0), "adduction", "adduction = 0 N m is outside 1 N m to 500 N m: give the isometric torque of one side"),
        (lambda: from_torques(MEN, adduction=70, elbow_flexion=600), "elbow_flexion", "elbow_flexion = 600 N m is outside"),
        (lambda: rm.share_of_maximum(20), "repetitions", "repetitions = 20"),
        (lambda: rm.one_repetition_maximum(0.1, 5), "load_kg", "load_kg = 0.1 kg is outside 0.5 kg to 500 kg: give the load"),
        (lambda: rm.load_for(900, 5), "one_rm_kg", "one_rm_kg = 900 kg is outside 0.5 kg to 800 kg: give the one-repetition maximum"),
        (lambda: rm.repetitions_at(1.1), "share", "share = 1.1 of the 1RM is outside 0.65 of the 1RM to 1 of the 1RM"),
    ],
)  # fmt: skip
def test_wrong_input_is_refused_by_name(call, field, says):
    with pytest.raises(InputError, match=says) as caught:
        call()
    assert caught.value.field == field


def test_facts_about_strength_name_their_source_and_mark():
    for name in calibrated():
        assert constant(name).mark == "D" and "repetition.calibrated" in constant(name).source


def test_one_lifter_and_one_number_are_asked_for_by_name():
    crowd = sm.draw_lifters(3, "men", seed=1)
    for call, says in (
        (
            lambda: strength.from_repetition_maximum(crowd, sm.pulls["front pulldown"], 50),
            "a known lift is for one person",
        ),
        (lambda: sm.muscle_shares(crowd, sm.pulls["front pulldown"]), "a share of the work is for one person"),
        (lambda: strength.from_torques(MEN, adduction=[60, 70]), r"adduction has shape \(2,\); give one number"),
        (lambda: rm.share_of_maximum([1, 2]), r"repetitions has shape \(2,\)"),
        (lambda: strength.isometric_torque("aduction", 0.0, 0.0), "nearest: adduction"),
        (lambda: strength.isometric_torque("adduction", 100.0, 0.0), "elevation = 5729.6"),
        (lambda: sm.sweep(MEN, sm.pulls["front pulldown"], strenght=[2.0]), "nearest: strength"),
        (lambda: sm.rep(MEN, sm.pulls["front pulldown"], strength=sm.expected_strength(crowd)), "factor has shape"),
    ):
        with pytest.raises(InputError, match=says):
            call()
