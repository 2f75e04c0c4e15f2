"""The compiled lengths and arms against the plain ones, which are the reference."""

import sys
from dataclasses import fields, replace

import numpy as np
import pytest
from numpy.testing import assert_array_equal
from scipy.spatial.transform import Rotation

import shoulder_model as sm
from shoulder_model.inputs import InputError
from shoulder_model.mechanics import Posture, girdle_at
from shoulder_model.muscles import MuscleGeometry, drawn_bodies, muscle_geometry, path_sets, paths, reference_body
from tests.own.repetition.test_blocks import ALONE, SEVEN, assert_same_bits

pytest.importorskip("numba")
COUNT, ELBOW_LIMIT = 2000, sm.people.ELBOW_LIMIT
NAMES = [field.name for field in fields(MuscleGeometry)]
TOLERANCE = 1e-12  # of a metre or a radian
MAN = sm.Lifter.average("men")


def random_postures(seed):
    """The arm turned any way, in front of the trunk and behind it, and a girdle that has travelled."""
    rng, humerus = np.random.default_rng(seed), Rotation.random(COUNT, random_state=seed).as_matrix()
    hand = np.zeros((COUNT, 3))  # muscles do not ask where it is
    posture = Posture(-0.3 * humerus[..., 1], hand, rng.uniform(0.0, ELBOW_LIMIT, COUNT), humerus)
    return posture, girdle_at(MAN, rng.uniform(-0.4, 0.4, COUNT), rng.uniform(-0.2, 0.7, COUNT))


def random_bodies():
    """The tables' body, random ones whose scapulae turn more or less, one whose paths are all straight."""
    straight = tuple(replace(one, wrap=0 * one.wrap) for one in path_sets())
    rhythms = (0.0, 0.7, 1.0, 1.6, 2.0)
    drawn = [replace(body, rhythm=rhythm) for body, rhythm in zip(drawn_bodies(5, 1), rhythms, strict=True)]
    return [reference_body(), replace(reference_body(), paths=straight), *drawn]


@pytest.mark.identity
@pytest.mark.parametrize("seed, body", [*enumerate(random_bodies())])
def test_random_postures_of_random_bodies(seed, body):
    posture, girdle = random_postures(seed)
    plain, compiled = (muscle_geometry(posture, girdle, body, compiled=how) for how in (False, True))
    for name in NAMES:
        ours, reference = getattr(compiled, name), getattr(plain, name)
        assert ours.shape == reference.shape
        assert np.abs(ours - reference).max() <= TOLERANCE, name


def test_the_random_postures_are_of_every_kind():
    posture, girdle = random_postures(0)
    torque = paths(posture.humerus, np.eye(3), girdle=girdle)[1]
    around = np.isclose(np.linalg.norm(torque, axis=-1), np.concatenate([one.wrap for one in path_sets()]), atol=1e-9)
    assert 0.1 < around.mean() < 0.9  # wrapped and straight
    assert 0.2 < (posture.plane_of_elevation < 0).mean() < 0.8  # behind the trunk and in front


@pytest.mark.identity
@pytest.mark.parametrize("balance", ["plane", "all axes"])
def test_a_crowd_with_work(balance):
    crowd, wanted = sm.draw_lifters(5, "women", seed=2), {"grip_ratio": [0.8, 1.6], "points": 5, "balance": balance}
    plain, compiled = (
        sm.sweep(crowd, sm.pulls["seated row close"], work=True, compiled=how, **wanted) for how in (False, True)
    )
    for name in plain.data_vars:
        np.testing.assert_allclose(compiled[name], plain[name], rtol=1e-7, atol=1e-7, err_msg=name)


@pytest.mark.identity
def test_a_posture_has_the_same_bits_whoever_stands_beside_it():
    posture, girdle = random_postures(3)
    whole = muscle_geometry(posture, girdle, reference_body(), compiled=True)
    for here in (slice(5, 6), slice(11, 18), slice(1, COUNT)):
        part = Posture(*(getattr(posture, field.name)[here] for field in fields(Posture)))
        alone = muscle_geometry(part, girdle.at(here), reference_body(), compiled=True)
        for name in NAMES:
            assert_array_equal(getattr(alone, name).view(np.int64), getattr(whole, name)[here].view(np.int64))


@pytest.mark.identity
def test_blocks_of_1_and_7_of_every_pull():
    crowd = sm.draw_lifters(11, "men", seed=7)
    for pull in sm.pulls.values():
        assert_same_bits(crowd, (ALONE, SEVEN), pull, compiled=True, work=False, grip_ratio=[0.7, 1.4], points=7)


def test_it_is_compiled_once_whatever_the_shapes():
    from shoulder_model.muscles.compiled import _all_postures

    for people in (MAN, sm.draw_lifters(3, "men", seed=1)):
        for pull in (sm.pulls["one-arm row"], sm.pulls["chin-up"].change(girdle_travel=0.0)):
            sm.rep(people, pull, points=3, compiled=True, work=False)
    muscle_geometry(
        sm.mechanics.posed_arm(MAN, 0.5, 0.3, 1.0), girdle_at(MAN, 0.0, 0.0), reference_body(), compiled=True
    )
    assert len(_all_postures.signatures) == 1


def test_without_numba_it_says_what_to_do(monkeypatch):
    monkeypatch.setitem(sys.modules, "numba", None)
    monkeypatch.delitem(sys.modules, "shoulder_model.muscles.compiled", raising=False)
    with pytest.raises(InputError, match=r"^compiled = True needs numba, .*pip install 'numba>=0.60'.*$") as refused:
        sm.rep(MAN, sm.pulls["chin-up"], compiled=True)
    assert refused.value.field == "compiled"
    sm.rep(MAN, sm.pulls["chin-up"], points=3)


@pytest.mark.parametrize("how", [False, True])
def test_what_is_no_posture_is_refused_either_way(how):
    posture, girdle = random_postures(0)
    for wrong in ({"elbow_flexion": posture.elbow_flexion + 1.0}, {"humerus": np.nan * posture.humerus}):
        with pytest.raises(InputError):
            muscle_geometry(replace(posture, **wrong), girdle, reference_body(), compiled=how)
    few = replace(reference_body(), girdle=tuple(ends[:3] for ends in reference_body().girdle))
    with pytest.raises(ValueError):
        muscle_geometry(posture, girdle, few, compiled=how)
