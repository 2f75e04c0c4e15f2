"""Makes ``shoulder_model/data/landmarks.csv`` from ``landmarks_start.csv``: ``python tests/fit_landmarks.py``.

The starting landmarks are placed from general anatomy (mark ML) or fitted to measured lines of action
(D). They are moved as little as possible (standard deviations below) until the published statements of
sign, order and band hold with a margin. Nothing else is fitted: no torque, no load, no trial. Needs scipy.

Landmarks and radii move by least squares against the hinges of `misses`.
"""

import csv
from importlib.resources import files

import numpy as np
from scipy.optimize import least_squares

from shoulder_model.arm import raised_arm
from shoulder_model.muscle import MUSCLE_AXES, Group, group_of, moment_arms
from shoulder_model.scapula import turned_scapula
from shoulder_model.sources import read_table

ORIGIN_SD, INSERTION_SD, RADIUS_SD = 0.012, 0.006, 0.002  # m; how far a landmark may reasonably lie from its start
MARGIN = 0.0015  # m; every inequality is asked to hold by this much
TARGETS = files("shoulder_model").joinpath("data", "landmarks.csv")
LD = [f"latissimus dorsi {part}" for part in ("superior", "middle", "inferior")]
PM = [f"pectoralis major {part}" for part in ("clavicular", "sternal", "costal")]
DELTOID = {part: f"deltoid {part}" for part in ("posterior", "middle", "anterior")}
DEG = np.radians(1.0)
RAISED = np.arange(0, 121, 15) * DEG


def postures(elevation, plane):
    """Humerus and scapula for an arm raised without axial turn."""
    elevation, plane = np.broadcast_arrays(np.asarray(elevation, float), np.asarray(plane, float))
    return raised_arm(elevation, plane), turned_scapula(elevation, plane)


ABDUCTION, FLEXION = postures(RAISED, 0.0), postures(RAISED, 90 * DEG)
AROUND = postures(90 * DEG, np.arange(0, 121, 15) * DEG)  # arm level, from the side to the front and across
NEAR_SIDE = postures(np.array([5, 15, 30]) * DEG, 40 * DEG)
LINES = postures(np.array([0, 30, 90]) * DEG, 0.0)

# J Anat 2009;215:184, Table A2 at 0, 30, 90° of abduction: medial negative, anterior, superior. Its axes are taken as
# those of the scapula (inferred), whose plane stands 35° in front of the frontal (midway between 30 and 40°).
MEASURED_LINES = {
    LD[0]: [(-0.990, -0.016, -0.141), (-0.980, -0.045, -0.194), (-0.989, 0.132, 0.067)],
    LD[1]: [(-0.716, 0.045, -0.697), (-0.708, 0.040, -0.705), (-0.874, 0.033, -0.485)],
    LD[2]: [(-0.554, 0.067, -0.830), (-0.533, 0.062, -0.844), (-0.766, 0.041, -0.642)],
}
SCAPULA_AXES = np.array([[np.sin(35 * DEG), 0, np.cos(35 * DEG)], [np.cos(35 * DEG), 0, -np.sin(35 * DEG)], [0, 1, 0]])
# adduction arms at 0, 30, 60, 90, 120° of abduction [m], derived from those lines and a 48 mm insertion
DERIVED_ARMS = {LD[1]: (0.034, 0.044, 0.048, 0.041, 0.027), LD[2]: (0.027, 0.038, 0.047, 0.045, 0.033)}
PLAUSIBLE = [  # mean arm over the range [m], from memory (ML): a weak wish, a third of the weight of a statement
    *(("adduction", part, 0.015, 0.050) for part in LD),
    *(("extension", part, 0.015, 0.050) for part in LD),
    ("adduction", "teres major", 0.025, 0.050),
    ("extension", "deltoid posterior", 0.020, 0.045),
    ("adduction", PM[1], 0.020, 0.040),
    ("extension", "triceps long head", 0.015, 0.030),
]
DERIVED_BAND = np.array([0.015, 0.010, 0.010, 0.010, 0.010])


def above(high, low):
    """How far each of ``high`` falls short of lying above all of ``low`` by the margin; 0 where it does. [m]"""
    return np.maximum(np.ravel(np.max(low, axis=0) + MARGIN - np.asarray(high)), 0.0)


def misses(table, names):
    """Every statement as hinges in metres: 0 where it holds with the margin."""
    at = {name: i for i, name in enumerate(names)}
    abduction, flexion, around, near = (moment_arms(*where, table) for where in (ABDUCTION, FLEXION, AROUND, NEAR_SIDE))

    def arm(where, axis, muscles):
        return where[:, [at[name] for name in muscles], MUSCLE_AXES.index(axis)]

    def mean(where, axis, muscles):
        return arm(where, axis, muscles).mean(axis=0)

    def others(*muscles):
        return [name for name in names if name not in muscles]

    adductors = ["teres major", LD[1], LD[2], PM[1], PM[2]]
    extensors = ["teres major", DELTOID["posterior"]]
    flexors, abductors = [PM[0], DELTOID["anterior"]], [DELTOID["middle"], DELTOID["anterior"]]
    level = [DELTOID["posterior"], "infraspinatus"]
    found = [
        above(mean(abduction, "adduction", adductors), mean(abduction, "adduction", others(*adductors))),
        above(mean(flexion, "extension", extensors), mean(flexion, "extension", others(*extensors))),
        above(-mean(flexion, "extension", flexors), -mean(flexion, "extension", others(*flexors))),
        above(-mean(abduction, "adduction", abductors), -mean(abduction, "adduction", others(*abductors))),
        above(
            [np.max(-mean(around, "horizontal_abduction", PM))],
            -mean(around, "horizontal_abduction", others(*PM)),
        ),
        above(mean(around, "horizontal_abduction", level), mean(around, "horizontal_abduction", others(*level))),
        above(arm(abduction, "adduction", [*LD, "teres major"]), [0.0]),
        above(arm(flexion, "extension", [*LD, "teres major"]), [0.0]),
        above(arm(abduction, "internal_rotation", [*LD, *PM]), [0.0]),
        above(arm(flexion, "internal_rotation", [*LD, *PM]), [0.0]),
        above(arm(near, "adduction", [DELTOID["posterior"]]), [0.0]),
        within(arm(abduction, "adduction", [DELTOID["middle"]]).min(), -0.030, 0.010),
    ]
    for muscle, turns, peaks in (
        ("subscapularis", 1, (0.0244, 0.0270)),
        ("infraspinatus", -1, (0.0283, 0.0233)),
        ("teres minor", -1, (0.0265, 0.0221)),
    ):
        for where, peak in zip((abduction, flexion), peaks, strict=True):
            found.append(within((turns * arm(where, "internal_rotation", [muscle])).max(), peak, 0.010))
    for muscle, arms in DERIVED_ARMS.items():
        found.append(within(arm(abduction, "adduction", [muscle])[::2, 0], np.array(arms), DERIVED_BAND))
    found += [
        above([0.066], np.abs(moment_arms(*ABDUCTION, table)[:, at[muscle], :3]).ravel()[:, None]) for muscle in LD
    ]
    for axis, muscle, low, high in PLAUSIBLE:
        middle = np.abs(mean(abduction if axis == "adduction" else flexion, axis, [muscle]))
        found.append(0.3 * within(middle, (low + high) / 2, (high - low) / 2))
    found += [
        0.02 * np.maximum(line_angles(table, at, muscle) - bar, 0.0) for muscle, bar in zip(LD, (13, 9, 9), strict=True)
    ]
    return np.concatenate([np.ravel(part) for part in found])


def within(value, target, band):
    """How far ``value`` lies outside ``target`` ± ``band`` less the margin. [m]"""
    return np.maximum(np.abs(np.asarray(value) - target) - band + MARGIN, 0.0)


def line_angles(table, at, muscle):
    """The median angle between the model's and the measured lines, in scapula axes. [rad per degree: deg]"""
    humerus, scapula = LINES
    angles = []
    for group, frame in zip(table, (np.broadcast_to(np.eye(3), scapula.shape), scapula), strict=True):
        for row in np.flatnonzero(group.rows == at[muscle]):
            origin, insertion = frame @ group.origin[row], humerus @ group.insertion[row]
            line = np.einsum("nji,nj->ni", scapula, origin - insertion)
            measured = np.array(MEASURED_LINES[muscle]) @ SCAPULA_AXES
            cos = np.sum(line * measured, axis=1) / np.linalg.norm(line, axis=1) / np.linalg.norm(measured, axis=1)
            angles = np.degrees(np.arccos(np.clip(cos, -1, 1)))
    return np.median(angles, keepdims=True)


def moved(rows, step):
    """Rows with their landmarks and radii moved by ``step`` standard deviations."""
    new, step = [], step.reshape(len(rows), 7)
    for row, move in zip(rows, step, strict=True):
        shifts = (
            dict(zip("xyz", move[:3] * ORIGIN_SD, strict=True)),
            dict(zip("xyz", move[3:6] * INSERTION_SD, strict=True)),
        )
        changed = {
            f"{end}_{k}": float(row[f"{end}_{k}"]) + d[k]
            for end, d in zip(("origin", "insertion"), shifts, strict=True)
            for k in "xyz"
        }
        ends = [np.linalg.norm([changed[f"{end}_{k}"] for k in "xyz"]) for end in ("origin", "insertion")]
        radius = float(row["wrap"])
        wrap = min(max(radius + move[6] * RADIUS_SD, 0.015), min(ends) - 0.001) if radius else 0.0  # ends lie outside
        new.append(row | changed | {"wrap": wrap})
    return new


def table_of(rows) -> tuple[Group, Group]:
    """Rows as the two groups that `moment_arms` takes."""
    return group_of(rows, "t"), group_of(rows, "s")


def fit():
    """The fitted rows, rounded to half a millimetre, and what each statement still misses."""
    rows = read_table("landmarks_start.csv")
    names = [row["muscle"] for row in rows]

    def residual(step):
        return np.r_[0.02 * step, 1e3 * misses(table_of(moved(rows, step)), names)]

    best = least_squares(residual, np.zeros(7 * len(rows)), diff_step=1e-3, max_nfev=200)
    fitted = moved(rows, best.x)
    keys = [f"{end}_{k}" for end in ("origin", "insertion") for k in "xyz"] + ["wrap"]
    fitted = [row | {key: f"{round(2000 * row[key]) / 2000:.4f}" for key in keys} for row in fitted]
    return fitted, best.x, misses(table_of(fitted), names)


if __name__ == "__main__":
    rows, step, left = fit()
    print(
        f"largest move {np.abs(step).max():.2f} sd; statements still missed by up to {1000 * left.max():.2f} mm of the margin"
    )
    note = [line for line in TARGETS.read_text(encoding="utf-8").splitlines() if line.startswith("#")]
    with open(str(TARGETS), "w", encoding="utf-8", newline="") as file:
        file.write("\n".join(note) + "\n")
        writer = csv.DictWriter(file, rows[0], lineterminator="\n")
        writer.writeheader()
        writer.writerows(rows)
