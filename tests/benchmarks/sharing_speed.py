"""Load sharing and largest loads for 20,000 random postures: ``python tests/benchmarks/sharing_speed.py``.

The 15 shoulder muscles that do not cross the elbow and the shoulder's three torques (largest loads: with the elbow
and its muscles as a fourth too), real moment arms and capacities. Against loops over general-purpose optimizers in
the same run, one core for both. Figures, not tests.
"""

import os

os.environ.update(OMP_NUM_THREADS="1", OPENBLAS_NUM_THREADS="1", MKL_NUM_THREADS="1")  # before numpy

import sys
from pathlib import Path

import numpy as np
from scipy.optimize import linprog, minimize

sys.path.insert(0, str(Path(__file__).parents[2]))
from shoulder_model.mechanics import anatomical, raised_arm
from shoulder_model.muscles import MUSCLES, cross_sections, elbow_arms, paths, shoulder_muscles, turned_scapula
from shoulder_model.muscles.elbow import POLYNOMIALS
from shoulder_model.sharing import largest_load, least_effort
from shoulder_model.sources import fact
from tests.benchmarks.timing import per_second

POSTURES, LOOPED = 20_000, 300


def postures(count, with_elbow):
    """Torque of each muscle at full activation for random postures, (count, 3 or 4, muscle). [N m]"""
    rng = np.random.default_rng(0)
    elevation, plane, flexion = rng.uniform(0, 2.6, count), rng.uniform(-0.5, 2.0, count), rng.uniform(0.2, 2.3, count)
    shoulder = np.zeros((count, len(MUSCLES), 3))
    torque = paths(raised_arm(elevation, plane), turned_scapula(elevation, plane), lengths=False)[1]
    shoulder[:, : len(shoulder_muscles())] = anatomical(torque)
    crosses = np.array([name in POLYNOMIALS for name in MUSCLES])
    kept = np.arange(len(MUSCLES)) < len(shoulder_muscles())
    kept = kept | crosses if with_elbow else kept & ~crosses
    arms = np.concatenate([shoulder, elbow_arms(MUSCLES, flexion)[..., None]], axis=2)[:, kept]
    force = cross_sections()[0][kept] * fact("specific_tension")
    return (arms * force[:, None]).swapaxes(1, 2)[:, : 4 if with_elbow else 3]


def feasible(columns, shares):
    """Torques that some activations drawn up to ``shares`` supply."""
    drawn = np.random.default_rng(1).uniform(0, shares, (len(columns), columns.shape[2], 1))
    return (columns @ drawn)[..., 0]


def sequential(columns, torques):
    """Sum of squares by sequential quadratic programming, exact gradient and Jacobians, one posture after the other."""
    found, m = np.empty((len(columns), columns.shape[2])), columns.shape[2]
    for i, (table, torque) in enumerate(zip(columns, torques, strict=True)):
        found[i] = minimize(
            lambda a: a @ a, np.full(m, 0.3), jac=lambda a: 2 * a, bounds=[(0, 1)] * m, method="SLSQP",
            constraints={"type": "eq", "fun": lambda a, M=table, t=torque: M @ a - t, "jac": lambda a, M=table: M},
            options={"ftol": 1e-9},
        ).x  # fmt: skip
    return found


def programmes(columns, held, load):
    """Largest loads by one linear programme a posture."""
    worth, bounds = np.r_[np.zeros(columns.shape[2]), -1.0], [(0, 1)] * columns.shape[2] + [(0, None)]
    return np.array(
        [
            linprog(worth, A_eq=np.c_[table, -along], b_eq=arm, bounds=bounds, method="highs").x[-1]
            for table, arm, along in zip(columns, held, load, strict=True)
        ]
    )


def report(what, fast, slow, off, wanted):
    print(f"{what}, one core: {fast:,.0f} postures/s here, {slow:,.0f} in the loop; largest difference {off:.1e}")
    print(f"  ratio {fast / slow:.0f} (wanted: {wanted})")


def main():
    columns = postures(POSTURES, with_elbow=False)
    few, torque = columns[:LOOPED], feasible(columns, 0.7)
    off = np.abs(least_effort(few, torque[:LOOPED]).activation - sequential(few, torque[:LOOPED])).max()
    fast = per_second(lambda: least_effort(columns, torque), POSTURES)
    slow = per_second(lambda: sequential(few, torque[:LOOPED]), LOOPED)
    report(
        f"sharing, {columns.shape[2]} muscles, 3 torques", fast, slow, off, "at least 25, and about 100,000 postures/s"
    )
    for with_elbow, wanted in ((False, "at least 100"), (True, "at least 20")):
        columns = postures(POSTURES, with_elbow)
        held = feasible(columns, 0.1)
        load = feasible(columns, 1.0) / 50
        few = columns[:LOOPED]
        ours, theirs = (
            largest_load(few, held[:LOOPED], load[:LOOPED]).load,
            programmes(few, held[:LOOPED], load[:LOOPED]),
        )
        off = np.abs(ours / theirs - 1).max()
        fast = per_second(lambda: largest_load(columns, held, load), POSTURES)  # noqa: B023
        slow = per_second(lambda: programmes(few, held[:LOOPED], load[:LOOPED]), LOOPED)  # noqa: B023
        report(f"largest load, {columns.shape[2]} muscles, {columns.shape[1]} torques", fast, slow, off, wanted)


if __name__ == "__main__":
    main()
