"""The identity of work, and what follows from it."""

import numpy as np
import pytest
from numpy.testing import assert_allclose

import shoulder_model as sm
from shoulder_model.inputs import InputError
from shoulder_model.muscles import MUSCLES
from shoulder_model.repetition import joint_work, muscle_work, work_done

pytestmark = pytest.mark.identity
MEN = sm.Lifter.average("men")
every_pull = pytest.mark.parametrize("name", list(sm.pulls))
LIGHT = 6.0  # kg, held by everybody


def along(pull):
    return np.array([np.sin(pull.pull_angle), np.cos(pull.pull_angle), 0.0])


def weight_lifted(lifter, pull, one):
    """Work against the arm's weight, from the heights of its two centres. [J]"""
    down = -np.array([np.sin(pull.trunk_lean), np.cos(pull.trunk_lean), 0.0])
    gh, elbow, hand = one.gh_centre.values, one.elbow.values, one.hand.values
    upper = gh + 0.436 * (elbow - gh)
    fore = elbow + 0.682 * lifter.radiale_stylion * (hand - elbow) / lifter.forearm
    g = lifter.mass * 9.80665
    return -sum(share * g * (centre[-1] - centre[0]) @ down for share, centre in ((0.028, upper), (0.022, fore)))


@every_pull
@pytest.mark.parametrize("sex", ["men", "women"])
def test_force_times_way_and_the_lifted_arm_are_torque_times_turn(name, sex):
    lifter, pull = sm.Lifter.average(sex), sm.pulls[name].change(load_kg=LIGHT)
    off = []
    for points in (51, 501):
        one = sm.rep(lifter, pull, points=points, muscles=False)
        asked = -float(one.force) * (one.hand.values[-1] - one.hand.values[0]) @ along(pull)
        asked += weight_lifted(lifter, pull, one)
        off.append(abs(float(joint_work(one).sum()) - asked))
    scale = float(one.force) * 0.5
    assert off[0] < 3e-4 * scale and off[1] < 3e-6 * scale  # it converges
    assert off[1] < 0.15 * off[0] or off[0] < 1e-5 * scale


@every_pull
def test_the_identity_holds_step_by_step_with_elbows_turned_and_a_lead(name):
    pull = sm.pulls[name].change(load_kg=LIGHT, elbow_cue=0.2, girdle_lead=-0.5, girdle_travel=0.7)
    one = sm.rep(MEN, pull, points=2001, muscles=False, arm_weight=False)
    asked = -float(one.force) * np.diff(one.hand.values, axis=0) @ along(pull)
    assert_allclose(joint_work(one).sum("joint")[100:], asked[100:], rtol=1e-4, atol=1e-7)


@every_pull
@pytest.mark.parametrize("side_force", ["zero", "grip"])
def test_with_all_axes_balanced_each_joint_s_work_is_its_muscles(name, side_force):
    pull = sm.pulls[name].change(load_kg=LIGHT)
    work = work_done(MEN, pull, balance="all axes", side_force=side_force)
    by_muscles, size = work.muscle_work.sum("muscle"), float(abs(work.joint_work).max())
    asked = work.joint_work + work.side_work
    for joint in ("shoulder", "elbow"):
        assert float(by_muscles.sel(at=joint)) == pytest.approx(float(asked.sel(joint=joint)), abs=1e-6 * size)
    rest = float(asked.sel(joint="girdle") - by_muscles.sel(at="girdle"))
    assert rest == pytest.approx(float(work.rest_work), abs=1e-9)
    assert side_force == "grip" or not work.side_work.any()
    assert float(work.load_work + work.arm_work) == pytest.approx(float(work.joint_work.sum()), rel=1e-12)


@every_pull
def test_a_sideways_push_asks_for_no_work_in_sum(name):
    work = work_done(MEN, sm.pulls[name].change(load_kg=LIGHT), points=401)
    assert float(work.side_work.sum()) == pytest.approx(0.0, abs=2e-4 * float(abs(work.joint_work).sum()))


def test_what_ribs_and_ligaments_bear_is_only_against_depression():
    pull = sm.pulls["seated row wide"].change(load_kg=LIGHT)
    one = sm.rep(MEN, pull, balance="all axes", side_force="zero")
    tension = (one.activation * one.capacity).transpose("point", "muscle").values
    borne = one.girdle_torque.values - np.einsum("pm,pmg->pg", tension, one.girdle_moment_arm.values)
    assert_allclose(borne[:, 0], 0.0, atol=1e-6)
    assert np.all(borne[:, 1] < 1e-6)
    assert borne[:, 1].min() < -1  # and it is used


@every_pull
def test_a_muscle_s_row_is_force_times_shortening(name):
    pull = sm.pulls[name].change(load_kg=LIGHT)
    one = sm.rep(MEN, pull, points=201)
    found = muscle_work(one, pull, 1.0).sum("at")
    tension = (one.activation * one.capacity).transpose("point", "muscle").values
    shorter = -np.diff(one.muscle_length.values, axis=0)
    plain = [i for i, muscle in enumerate(MUSCLES) if muscle not in ("biceps brachii", "brachialis", "brachioradialis")]
    by_hand = ((tension[1:] + tension[:-1]) / 2 * shorter).sum(axis=0)
    assert_allclose(found[plain], by_hand[plain], rtol=1e-9, atol=1e-9)


def test_muscles_from_trunk_to_arm_have_no_part_in_the_scapula_s_turn():
    # their ends do not turn with it, so arms about shoulder and girdle say all of their shortening
    pull = sm.pulls["front pulldown"].change(load_kg=20.0)
    one = sm.rep(MEN, pull, points=801)
    work = muscle_work(one, pull, 1.0, first=40)
    lat = work.sel(muscle="latissimus dorsi inferior")
    assert float(lat.sum()) > 1.0 and abs(float(lat.sel(at="scapula"))) < 1e-3 * float(lat.sum())
    assert abs(float(work.sel(muscle="teres major", at="scapula"))) > 0.01


def test_a_held_blade_does_no_work_and_carries_nothing():
    work = work_done(MEN, sm.pulls["seated row wide"].change(load_kg=LIGHT, girdle_travel=0.0))
    assert float(work.joint_work.sel(joint="girdle")) == 0 and float(work.way.sel(joint="girdle")) == 0
    assert not work.muscle_work.sel(at="girdle").any()


@every_pull
def test_the_bar_s_way_is_the_sum_of_what_the_joints_bring(name):
    pull = sm.pulls[name].change(load_kg=LIGHT)
    one, work = sm.rep(MEN, pull), work_done(MEN, pull)
    assert float(work.way.sum()) == pytest.approx(
        float(-(one.hand.values[-1] - one.hand.values[0]) @ along(pull)), rel=1e-9
    )
    carried = -(one.gh_centre.values[-1] - one.gh_centre.values[0]) @ along(pull)
    assert float(work.way.sel(joint="girdle")) == pytest.approx(float(carried)) and carried > 0.03


def test_the_counted_part_is_a_part_of_the_whole():
    pull = sm.pulls["pull-up"].change(load_kg=LIGHT)
    part, whole = work_done(MEN, pull, counted=True), work_done(MEN, pull)
    assert float(part.load_work) == pytest.approx(0.8 * float(whole.load_work), rel=1e-3)


@pytest.mark.parametrize(
    ("lifter", "pull", "says"),
    [
        (MEN, sm.pulls["one-arm row"].change(load_kg=200.0), "load_kg: one-arm row cannot be held with it all the way"),
        (sm.draw_lifters(3, "men", seed=1), sm.pulls["pull-up"], "the work of a rep is for one person"),
    ],
)
def test_what_has_no_work_is_refused(lifter, pull, says):
    with pytest.raises(InputError, match=says):
        work_done(lifter, pull)
