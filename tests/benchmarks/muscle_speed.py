"""Moment arms of the shoulder muscles for 200,000 random postures: ``python tests/benchmarks/muscle_speed.py``.

Against a loop over MuJoCo's own kinematics and tendon stages on the same landmarks in the same run, one
core for both, with a girdle that travels; and a rep with work beside it. Figures, not tests.
"""

import os

os.environ.update(OMP_NUM_THREADS="1", OPENBLAS_NUM_THREADS="1", MKL_NUM_THREADS="1")  # before numpy

import sys
import tracemalloc
from pathlib import Path

import mujoco
import numpy as np
from scipy.spatial.transform import Rotation

sys.path.insert(0, str(Path(__file__).parents[2]))
import shoulder_model as sm
from shoulder_model.mechanics import girdle_at, raised_arm
from shoulder_model.muscles import paths, shoulder_muscles, turned_scapula
from shoulder_model.muscles.paths import BLOCK
from tests.benchmarks.timing import per_second
from tests.own.muscles.test_against_engine import engine_model, engine_postures

POSTURES, LOOPED, REPS = 200_000, 20_000, 200
MEN = sm.Lifter.average("men")


def ours(elevation, plane):
    """All moment arms, block by block into the same two arrays, so that nothing grows with the number of postures."""
    length, torque = np.empty((BLOCK, len(shoulder_muscles()))), np.empty((BLOCK, len(shoulder_muscles()), 3))
    for start in range(0, len(elevation), BLOCK):
        up, front = elevation[start : start + BLOCK], plane[start : start + BLOCK]
        girdle = girdle_at(MEN, 0.2 * front, 0.1 * up)
        out = length[: len(up)], torque[: len(up)]
        paths(
            raised_arm(up, front), turned_scapula(up, front, girdle.retraction), girdle=girdle, out=out, lengths=False
        )
    return torque


def engine(model, data, postures):
    """The same through the engine, one posture after the other; lengths and Jacobians stay in its own arrays."""
    for posture in postures:
        data.qpos[:] = posture
        mujoco.mj_kinematics(model, data)
        mujoco.mj_comPos(model, data)
        mujoco.mj_tendon(model, data)


def peak_memory(count):
    """Peak of our working memory for ``count`` postures. [MB]"""
    rng = np.random.default_rng(1)
    elevation, plane = rng.uniform(0, 2.6, count), rng.uniform(-0.5, 2.0, count)
    tracemalloc.start()
    ours(elevation, plane)
    peak = tracemalloc.get_traced_memory()[1] / 1e6
    tracemalloc.stop()
    return peak


def main():
    rng = np.random.default_rng(0)
    elevation, plane = rng.uniform(0, 2.6, POSTURES), rng.uniform(-0.5, 2.0, POSTURES)
    humerus = Rotation.from_matrix(raised_arm(elevation[:LOOPED], plane[:LOOPED]))
    scapula = Rotation.from_matrix(turned_scapula(elevation[:LOOPED], plane[:LOOPED]))
    model, girdle = engine_model(), girdle_at(MEN, 0.2 * plane[:LOOPED], 0.1 * elevation[:LOOPED])
    data, postures = mujoco.MjData(model), engine_postures(humerus, scapula, girdle)
    fast = per_second(lambda: ours(elevation, plane), POSTURES)
    slow = per_second(lambda: engine(model, data, postures), LOOPED)
    print(f"{len(shoulder_muscles())} muscles, one core: {fast:,.0f} postures/s here, {slow:,.0f} in the engine's loop")
    print(f"ratio {fast / slow:.1f} (wanted: at least 6)")
    reps = per_second(lambda: [sm.rep(MEN, sm.pulls["front pulldown"]) for _ in range(REPS)], REPS)
    print(f"a rep with work {1000 / reps:.2f} ms (wanted: below 6), as long as {slow / reps:.0f} postures of the loop")
    print(f"working memory {peak_memory(20_000):.1f} MB for 20,000 postures, {peak_memory(200_000):.1f} MB for 200,000")


if __name__ == "__main__":
    main()
