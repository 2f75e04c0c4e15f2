"""Makes ``data/landmarks.csv`` from ``landmarks_start.csv``: ``python -m shoulder_model.recipes.landmarks``.

Two steps. First the latissimus: its lines of action were measured while the arm is raised to the side and to the front
(``lat_lines.csv``), and each part's effective origin is the point that fits both best (`effective_origin`). How well either
plane predicts the other is printed and kept in ``lat_planes.csv``.

Then all landmarks, placed from general anatomy (mark ML) or fitted so (D), are moved as little as possible (standard
deviations below) until every row of ``muscle_statements.csv`` holds with a margin. Nothing else is fitted: no torque, no
load, no trial. A statement is a hinge: 0 where it holds with the margin, else by how much it is missed; landmarks and radii
move by least squares against the hinges.

Measured lat lines are compared in scapula axes, taken 35° in front of the frontal plane (inferred), while the scapula
turns about the normal of a plane at 40°, as the rhythm was measured.
"""

from functools import cache
from importlib.resources import files

import numpy as np

from ..axes import AXES, MUSCLE_AXES
from ..mechanics import anatomical, raised_arm
from ..muscles import moment_arms, turned_scapula
from ..muscles.paths import path_sets_of
from ..muscles.scapula import SCAPULAR_PLANE
from ..sources import fact
from ..tables import data_text, read_table

ORIGIN_SD, INSERTION_SD, RADIUS_SD = 0.012, 0.006, 0.002  # m; how far a landmark may reasonably lie from its start
MARGIN = 0.0015  # m; every inequality is asked to hold by this much
TARGET = files("shoulder_model").joinpath("data", "landmarks.csv")
HEADS = ("muscle", "fitted_to", "lines_in", "angle_median_deg", "angle_largest_deg", "arm_median_mm", "arm_largest_mm")
PREDICTED = TARGET.with_name("lat_planes.csv")
ENDS = [f"{end}_{axis}" for end in ("origin", "insertion") for axis in "xyz"]
DEG = np.radians(1.0)
RAISED = np.arange(0, 121, 15) * DEG
SWEEPS = {  # elevation and plane of the arm, not turned about its shaft
    "abduction": (RAISED, 0.0),
    "flexion": (RAISED, 90 * DEG),
    "level": (90 * DEG, RAISED),  # from the side to the front and across
    "near the side": (np.array([5, 15, 30]) * DEG, SCAPULAR_PLANE),
}
LINES = read_table("lat_lines.csv")
PLANES = {"abduction": 0.0, "flexion": 90.0}  # of the measured lines [deg]
LINE_SD = 15 * DEG  # how sure a measured line is, because the axes are inferred
EFFECTIVE_SD = 0.05  # m; how far an effective origin may reasonably lie from where it starts
LINES_PLANE = fact("lat_lines_plane_deg") * DEG
SCAPULA_AXES = np.array(
    [[np.sin(LINES_PLANE), 0, np.cos(LINES_PLANE)], [np.cos(LINES_PLANE), 0, -np.sin(LINES_PLANE)], [0, 1, 0]]
)


def postures(elevation, plane):
    """Humerus and scapula, two (..., 3, 3), for an arm raised by ``elevation`` in ``plane`` without axial turn. [rad]"""
    elevation, plane = np.broadcast_arrays(np.asarray(elevation, float), np.asarray(plane, float))
    return raised_arm(elevation, plane), turned_scapula(elevation, plane)


def statements():
    """Rows of ``data/muscle_statements.csv`` as dicts of text; values in millimetres, of a line in degrees."""
    return tuple(read_table("muscle_statements.csv"))


def above(high, low):
    """How far each of ``high`` falls short of lying above all of ``low`` by the margin; 0 where it does. [m]"""
    return np.maximum(np.ravel(np.max(low, axis=0) + MARGIN - np.asarray(high)), 0.0)


def within(value, target, band):
    """How far ``value`` lies outside ``target`` ± ``band`` less the margin; 0 where it does not. [m]"""
    return np.maximum(np.abs(np.asarray(value) - target) - band + MARGIN, 0.0)


class Landmarks:
    """Landmarks to hold against the statements: rows like those of ``data/landmarks.csv``, lengths in metres."""

    def __init__(self, rows):
        self.rows, self.names = rows, [row["muscle"] for row in rows]
        self.sets = path_sets_of(rows)
        self.arms = {sweep: moment_arms(*postures(*angles), self.sets) for sweep, angles in SWEEPS.items()}

    def misses(self):
        """What every statement is missed by times its weight, one array of hinges. [m], of lines [deg] times metres per degree"""
        return np.concatenate([float(row["weight"]) * self.missed(row) for row in statements()])

    def missed(self, statement):
        """Hinges of one ``statement`` (a row of `statements`), without its weight. [m], of a line [deg]"""
        hinges = {
            "lead": self._lead, "one leads": self._one_leads, "positive": self._positive, "peak": self._peak,
            "mean": self._mean, "ceiling": self._ceiling, "arms": self._arms, "line": self._line,
        }  # fmt: skip
        return np.ravel(hinges[statement["kind"]](statement, statement["muscles"].split("+")))

    def _arm(self, statement, muscles):
        """Arms about the statement's axis and sign over its sweep, (posture, muscle). [m]"""
        places = [self.names.index(name) for name in muscles]
        return int(statement["sign"]) * self.arms[statement["sweep"]][:, places, MUSCLE_AXES.index(statement["axis"])]

    def _means(self, statement, muscles):
        """Mean arms of the muscles, and of all others."""
        others = [name for name in self.names if name not in muscles]
        return (self._arm(statement, some).mean(axis=0) for some in (muscles, others))

    def _lead(self, statement, muscles):
        return above(*self._means(statement, muscles))

    def _one_leads(self, statement, muscles):
        theirs, others = self._means(statement, muscles)
        return above([theirs.max()], others)

    def _positive(self, statement, muscles):
        return above(self._arm(statement, muscles), [0.0])

    def _peak(self, statement, muscles):
        target, band = float(statement["value"]) / 1000, float(statement["band"]) / 1000
        return within(self._arm(statement, muscles).max(), target, band)

    def _mean(self, statement, muscles):
        target, band = float(statement["value"]) / 1000, float(statement["band"]) / 1000
        return within(np.abs(self._arm(statement, muscles).mean(axis=0)), target, band)

    def _ceiling(self, statement, muscles):
        places = [self.names.index(name) for name in muscles]
        arms = np.abs(self.arms[statement["sweep"]][:, places, : len(AXES)])
        return above([float(statement["value"]) / 1000], arms.ravel()[:, None])

    def _arms(self, statement, muscles):
        plane = str(int(PLANES[statement["sweep"]]))
        rows = [row for row in read_table("lat_arms.csv") if row["muscle"] in muscles and row["plane_deg"] == plane]
        degrees, target, band = np.array(
            [[float(row[k]) for k in ("elevation_deg", "arm_mm", "band_mm")] for row in rows]
        ).T
        points = [int(np.flatnonzero(np.isclose(RAISED, angle * DEG))[0]) for angle in degrees]
        return within(self._arm(statement, muscles)[points, 0], target / 1000, band / 1000)

    def _line(self, statement, muscles):
        return np.maximum(np.median(self.line_angles(*muscles, statement["sweep"])) - float(statement["value"]), 0.0)

    def line_angles(self, muscle, plane):
        """Angles between the model's and the measured lines of one ``muscle`` in a ``plane``. (line,) [deg]"""
        row = self.rows[self.names.index(muscle)]
        return plane_errors(row, np.array([float(row[key]) for key in ENDS[:3]]), plane)[0]


@cache
def measured_lines(muscle, *planes):
    """Humerus (line, 3, 3) and unit line (line, 3) in thorax axes of a ``muscle``'s measured lines in the named ``planes``."""
    rows = [
        row
        for row in LINES
        if row["muscle"] == muscle and float(row["plane_deg"]) in [PLANES[plane] for plane in planes]
    ]
    elevation, plane = (np.array([float(row[f"{name}_deg"]) for row in rows]) * DEG for name in ("elevation", "plane"))
    humerus, scapula = postures(elevation, plane)
    line = np.array([[float(row[axis]) for axis in "xyz"] for row in rows]) @ SCAPULA_AXES
    return humerus, np.einsum("nij,nj->ni", scapula, line / np.linalg.norm(line, axis=1, keepdims=True))


def effective_origin(row, planes):
    """Origin (3,) of a lat part that fits its measured lines in the named ``planes`` best, not far from where it starts. [m]

    ``row`` as of ``landmarks_start.csv``.
    """
    from scipy.optimize import least_squares  # here: it is slow to import

    start, insertion = (np.array([float(row[key]) for key in ENDS[part : part + 3]]) for part in (0, 3))
    humerus, measured = measured_lines(row["muscle"], *planes)

    def residual(origin):
        line = origin - humerus @ insertion
        line /= np.linalg.norm(line, axis=1, keepdims=True)
        return np.r_[((line - measured) / LINE_SD).ravel(), (origin - start) / EFFECTIVE_SD]

    return least_squares(residual, start).x


def plane_errors(row, origin, plane):
    """How far the lines from an ``origin`` (3,) [m] lie from those measured in a ``plane``, (line,) [deg], and the arms, (line,) [mm].

    The arm is that of adduction in abduction, of extension in flexion.
    """
    insertion = np.array([float(row[key]) for key in ENDS[3:]])
    humerus, measured = measured_lines(row["muscle"], plane)
    attached = humerus @ insertion
    line = origin - attached
    line /= np.linalg.norm(line, axis=1, keepdims=True)
    angles = np.degrees(np.arccos(np.clip(np.sum(line * measured, axis=1), -1, 1)))
    axis = AXES.index("adduction" if plane == "abduction" else "extension")
    arms = [anatomical(np.cross(attached, pull))[:, axis] for pull in (line, measured)]
    return angles, 1000 * np.abs(arms[0] - arms[1])


def plane_table(rows):
    """Rows of ``lat_planes.csv``: how well origins fitted in one plane, or both, give the lines of either. [deg], [mm]"""
    table = []
    for row in (row for row in rows if row["muscle"].startswith("latissimus")):
        for fitted in (["abduction"], ["flexion"], ["abduction", "flexion"]):
            origin = effective_origin(row, fitted)
            for plane in PLANES:
                angles, arms = plane_errors(row, origin, plane)
                numbers = (f"{found:.1f}" for error in (angles, arms) for found in (np.median(error), error.max()))
                table.append((row["muscle"], " and ".join(fitted), plane, *numbers))
    return table


def with_effective_origins(rows):
    """``rows`` with the lat's origins fitted to the lines of both planes; lengths in metres."""
    return [
        row | dict(zip(ENDS[:3], effective_origin(row, PLANES), strict=True))
        if row["muscle"].startswith("latissimus")
        else row
        for row in rows
    ]


def moved(rows, step):
    """Rows with their landmarks and radii moved by ``step`` (7 rows,), in standard deviations; lengths in metres."""
    sd = np.repeat([ORIGIN_SD, INSERTION_SD], 3)
    new = []
    for row, move in zip(rows, step.reshape(len(rows), 7), strict=True):
        changed = {key: float(row[key]) + shift for key, shift in zip(ENDS, move[:6] * sd, strict=True)}
        inner = min(np.linalg.norm([changed[key] for key in ENDS[part : part + 3]]) for part in (0, 3))
        radius = float(row["wrap"])
        wrap = min(max(radius + move[6] * RADIUS_SD, 0.015), inner - 0.001) if radius else 0.0  # ends lie outside
        new.append(row | changed | {"wrap": wrap})
    return new


def fit(rows, most_steps=200):
    """Landmarks fitted to the statements.

    Parameters
    ----------
    rows : list of dict
        As ``data/landmarks_start.csv``; lengths in metres.
    most_steps : int
        Of the least squares.

    Returns
    -------
    list of dict, ndarray
        The rows, rounded to half a millimetre, and their way in standard deviations.
    """
    from scipy.optimize import least_squares  # here: it is slow to import

    def residual(step):
        return np.r_[0.02 * step, 1e3 * Landmarks(moved(rows, step)).misses()]

    best = least_squares(residual, np.zeros(7 * len(rows)), diff_step=1e-3, max_nfev=most_steps)
    rounded = [
        row | {key: f"{round(2000 * row[key]) / 2000:.4f}" for key in (*ENDS, "wrap")} for row in moved(rows, best.x)
    ]
    return rounded, best.x


def main():
    """Fit, say how well it went, and write the table with the notes it has."""
    start = read_table("landmarks_start.csv")
    rows, step = fit(with_effective_origins(start))
    fitted, missed = Landmarks(rows), {"mm": 0.0, "deg": 0.0}
    for row in statements():
        missed[row["unit"]] = max(missed[row["unit"]], float(fitted.missed(row).max()))
    print(
        f"largest move {np.abs(step).max():.2f} sd; statements still missed by up to {1000 * missed['mm']:.2f} mm (of the "
        f"{1000 * MARGIN:.1f} mm margin asked) and {missed['deg']:.2f} degrees"
    )
    for row in plane_table(start):
        print(
            "{}, fitted to {}: lines in {} within {} deg (median; largest {}), arms within {} mm (largest {})".format(
                *row
            )
        )
    write_rows(start, rows)


def write_rows(start, rows):
    """Write both tables, each with the notes it has; lengths in metres, of ``lat_planes.csv`` in degrees and millimetres."""
    notes = PREDICTED.read_text(encoding="utf-8").splitlines()[:2]
    with open(str(PREDICTED), "w", encoding="utf-8", newline="") as file:
        file.write("\n".join(notes) + "\n" + data_text([HEADS, *plane_table(start)]))
    notes = [line for line in TARGET.read_text(encoding="utf-8").splitlines() if line.startswith("#")]
    with open(str(TARGET), "w", encoding="utf-8", newline="") as file:
        file.write("\n".join(notes) + "\n" + data_text([tuple(rows[0]), *(tuple(row.values()) for row in rows)]))


if __name__ == "__main__":
    main()
