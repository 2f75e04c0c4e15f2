"""Crowds on one core: ``python tests/benchmarks/crowd_speed.py``. Figures, not tests.

20 lifters x 21 grips x 21 points of front pulldowns, the blade travelling: postures a second of the mechanics, of all muscles'
lengths and arms by plain arrays and compiled, of shared work; and of a loop over MuJoCo's own kinematics and tendon stages on the
same landmarks and postures in the same run. Then what the first use of the compiled arms takes in a new process, and the
peak memory of a crowd in blocks.
"""

import os

os.environ.update(OMP_NUM_THREADS="1", OPENBLAS_NUM_THREADS="1", MKL_NUM_THREADS="1")  # before numpy

import resource
import subprocess
import sys
import time
from dataclasses import replace
from pathlib import Path

import mujoco
import numpy as np
from scipy.spatial.transform import Rotation

sys.path.insert(0, str(Path(__file__).parents[2]))
import shoulder_model as sm
from shoulder_model.mechanics import GirdlePosture, rep_mechanics
from shoulder_model.muscles import MUSCLES, girdle_muscles, muscle_geometry, reference_body, turned_scapula
from shoulder_model.muscles.elbow import elbow_excursions
from shoulder_model.people import MEASURES
from tests.benchmarks.timing import ROUNDS
from tests.own.muscles.test_against_engine import engine_model, engine_postures

BLOCK, POINTS, GRIPS, LOOPED = 20, 21, np.linspace(0.8, 1.8, 21), 8_820
PULL = sm.pulls["front pulldown"]
FIRST_USE = """
import time, numpy as np, shoulder_model as sm
begun = time.perf_counter()
sm.rep(sm.Lifter.average("men"), sm.pulls["front pulldown"], work=False, compiled=True)
print(time.perf_counter() - begun)
"""


def block(crowd, start):
    """Lifters of a crowd and the pull with all grips, on axes of their own: lifter, grip, point."""
    here = {name: getattr(crowd, name)[start : start + BLOCK, None, None] for name in MEASURES}
    return replace(crowd, **here), PULL.change(grip_ratio=GRIPS[:, None])


def arms(whole, compiled):
    """All lengths and arms of a block."""
    return muscle_geometry(whole.posture, whole.path.girdle, reference_body(), compiled)


def both(crowd, start, compiled):
    """From the measures of a block to all lengths and arms."""
    return arms(rep_mechanics(*block(crowd, start), POINTS), compiled)


def as_engine_postures(whole):
    """The postures of a block as the engine's coordinates."""
    lead, girdle, posture = whole.posture.humerus.shape[:-2], whole.path.girdle, whole.posture
    scapula = turned_scapula(posture.elevation, posture.plane_of_elevation, girdle.retraction)
    clavicle, gh = (np.broadcast_to(a, (*lead, *a.shape[-k:])) for a, k in ((girdle.clavicle, 2), (girdle.gh, 1)))
    there = GirdlePosture(None, None, clavicle.reshape(-1, 3, 3), gh.reshape(-1, 3), None)
    bones = (Rotation.from_matrix(bone.reshape(-1, 3, 3)) for bone in (posture.humerus, scapula))
    return engine_postures(*bones, there)


def engine(model, data, postures):
    """Lengths and Jacobians of all tendons, one posture after the other; they stay in the engine's own arrays."""
    for posture in postures:
        data.qpos[:] = posture
        mujoco.mj_kinematics(model, data)
        mujoco.mj_comPos(model, data)
        mujoco.mj_tendon(model, data)


def rates(calls):
    """Postures a second of each of ``calls``, name -> (call, postures): the best of rounds that take turns."""
    best = dict.fromkeys(calls, 0.0)
    for _ in range(3 * ROUNDS):
        for name, (call, count) in calls.items():
            begun = time.perf_counter()
            call()
            best[name] = max(best[name], count / (time.perf_counter() - begun))
    return best


def peak_mb(lifters):
    """Peak memory of this process after so many lifters in blocks, five points a rep, compiled. [MB]"""
    crowd = sm.draw_lifters(lifters, "men", 1)
    for start in range(0, lifters, BLOCK):
        arms(rep_mechanics(*block(crowd, start), 5), True)
    return resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1e3


def largest_difference(model, postures, whole):
    """Between the engine's lengths and the compiled ones, what the elbow adds left out; every 97th posture. [m]"""
    lengths = arms(whole, True).length - elbow_excursions(MUSCLES, whole.posture.elbow_flexion)
    ours = lengths.reshape(-1, len(MUSCLES))
    count, data, off = len(girdle_muscles()), mujoco.MjData(model), 0.0
    for k in range(0, len(postures), 97):
        engine(model, data, postures[k : k + 1])
        across = np.r_[ours[k, : model.ntendon - count], ours[k, -count:]]
        off = max(off, np.abs(data.ten_length - across).max())
    return off


def main():
    crowd = sm.draw_lifters(BLOCK, "men", 1)
    whole, few, model = rep_mechanics(*block(crowd, 0), POINTS), sm.draw_lifters(2, "men", 1), engine_model()
    postures, count = as_engine_postures(whole)[:LOOPED], BLOCK * len(GRIPS) * POINTS
    data, shared = mujoco.MjData(model), 2 * len(GRIPS) * POINTS
    found = rates(
        {
            "mechanics": (lambda: rep_mechanics(*block(crowd, 0), POINTS), count),
            "arms, plain arrays": (lambda: arms(whole, False), count),
            "arms, compiled": (lambda: arms(whole, True), count),
            "mechanics and plain arms": (lambda: both(crowd, 0, False), count),
            "mechanics and compiled arms": (lambda: both(crowd, 0, True), count),
            "all of it with shared work": (
                lambda: sm.sweep(few, PULL, grip_ratio=GRIPS, points=POINTS, work=True, compiled=True),
                shared,
            ),
            "the engine's loop": (lambda: engine(model, data, postures), len(postures)),
        }
    )
    loop = found["the engine's loop"]
    print(f"{'one core':<32}{'postures/s':>12}{'over the loop':>15}")
    for name, rate in found.items():
        print(f"{name:<32}{rate:>12,.0f}{rate / loop:>15.1f}")
    off = largest_difference(model, postures, whole)
    print(f"largest difference of lengths from the engine's: {off:.0e} m")
    print("wanted: mechanics and compiled arms at least 220,000; compiled arms at least 8 times the loop")
    taken = sorted(float(subprocess.check_output([sys.executable, "-c", FIRST_USE], text=True)) for _ in range(3))
    print(
        f"first use of the compiled arms in a new process: {taken[1]:.1f} s, numba's import included (wanted: under 5)"
    )
    for lifters in (10_000, 50_000):
        print(f"peak memory, {lifters:,} lifters in blocks of {BLOCK}: {peak_mb(lifters):,.0f} MB", flush=True)


if __name__ == "__main__":
    main()
