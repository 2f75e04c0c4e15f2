"""How each table of ``data/`` becomes rows of the register: which columns name a row, which hold numbers, mark and source.

A table that is not here, and not in `NO_NUMBERS`, is a mistake that ``tests/own/register`` finds.
"""

from dataclasses import dataclass

R, D, NONE = "R", "D", "none"
LENGTHS = tuple(f"{end}_{axis}" for end in ("origin", "insertion") for axis in "xyz")
MEASURES = (
    "stature_mm", "mass_kg", "biacromial_mm", "acromion_radiale_mm", "radiale_stylion_mm", "elbow_grip_mm", "hand_mm",
    "chest_breadth_mm", "chest_depth_mm", "waist_circumference_mm",
)  # fmt: skip
NO_NUMBERS = (  # words, codes, what others made up, and checks of the numbers
    "comparisons.csv",
    "health_questions.csv",
    "invented_class.csv",
    "objectives.csv",
    "outside_checks.csv",
    "slips.csv",
)


@dataclass(frozen=True)
class Shape:
    """One table.

    Parameters
    ----------
    keys : tuple of str
        Columns that name a row.
    values : tuple of str
        Columns with numbers; each becomes a row of the register.
    unit : str
        A column, or words for all; blank: the ending of each head says it.
    spread : tuple
        Pairs of a value's column and a tuple: one column (a standard deviation or a band) or two (the ends of a range).
    mark : str
        A column, or the mark of all.
    own_marks : tuple
        Pairs of a value's column and the column of its own mark.
    source : str
        A column, or blank: the first note at the head of the table.
    note : int
        Place of the note that holds the source, 0 the first.
    """

    keys: tuple
    values: tuple
    unit: str = ""
    spread: tuple = ()
    mark: str = "mark"
    source: str = ""
    note: int = 0
    own_marks: tuple = ()


_survey = Shape(("measure",), ("mean", *(f"r_{name}" for name in MEASURES)), "measure", (("mean", ("sd",)),), R)
_paths = (*LENGTHS, "wrap", "origin_range_mm", "insertion_range_mm")
SHAPES = {
    "facts.csv": Shape(("name",), ("value",), "unit", (("value", ("low", "high")),), source="source"),
    "pulls.csv": Shape(
        ("name",),
        ("room_angle_deg", "grip_ratio", "trunk_lean_deg", "load_kg", "hands", "held_elbow_flexion_deg"),
        mark=NONE,
    ),
    "uncertain_inputs.csv": Shape(("input",), ("sd_from_range",), "standard deviations", source="source"),
    "touch_points.csv": Shape(("touch",), ("level", "forward_m", "up_m"), note=1),
    "girdle_travel.csv": Shape(
        ("girdle",),
        ("reach_retraction_deg", "reach_elevation_deg", "end_retraction_deg", "end_elevation_deg", "girdle_lead"),
        note=1,
    ),
    "landmarks.csv": Shape(("muscle",), _paths, "m", source="source"),
    "landmarks_start.csv": Shape(("muscle",), _paths, "m", source="source"),
    "girdle.csv": Shape(("muscle",), (*LENGTHS, "range_mm"), "m"),
    "capacity.csv": Shape(
        ("muscle",),
        ("pcsa_cm2", "fibre_cm"),
        spread=(("pcsa_cm2", ("pcsa_low", "pcsa_high")),),
        source="source",
        own_marks=(("fibre_cm", "fibre_mark"),),
    ),
    "elbow_polynomials.csv": Shape(
        ("muscle",), tuple(f"c{power}" for power in range(6)), "cm by powers of rad", note=1
    ),
    "muscle_statements.csv": Shape(
        ("kind", "muscles", "sweep"), ("value", "weight"), "unit", (("value", ("band",)),), source="source"
    ),
    "lat_lines.csv": Shape(("muscle", "plane_deg", "elevation_deg"), ("x", "y", "z"), "unit vector", note=1),
    "lat_arms.csv": Shape(
        ("muscle", "plane_deg", "elevation_deg"), ("arm_mm",), spread=(("arm_mm", ("band_mm",)),), mark=D
    ),
    "lat_planes.csv": Shape(
        ("muscle", "fitted_to", "lines_in"),
        ("angle_median_deg", "angle_largest_deg", "arm_median_mm", "arm_largest_mm"),
        mark=D,
    ),
    "scapular_rhythm.csv": Shape(
        ("elevation_deg",), tuple(f"plane_{plane}_deg" for plane in (0, 40, 90)), mark=R, note=1
    ),
    "ansur2_men_summary.csv": _survey,
    "ansur2_women_summary.csv": _survey,
    "silhouette_ansur2.csv": Shape(("sex", "group", "quantity"), ("mean",), "unit", (("mean", ("sd",)),), D),
    "evidence.csv": Shape(
        ("study_id", "exercise", "condition", "outcome"), ("mean",), "unit", (("mean", ("sd",)),), source="citation"
    ),
    "rep_equations.csv": Shape(("equation",), ("expected_reps_at_80pct",), "repetitions", source="source"),
    "week_rules.csv": Shape(("name", "experience"), ("value",), "unit", source="source"),
    "week_pulls.csv": Shape(
        ("name",), ("grip_ratio", "trunk_lean_deg", "low_back"), mark=NONE, own_marks=(("low_back", "low_back_mark"),)
    ),
    "stored_what_matters.csv": Shape(
        ("sex", "pull", "answer", "input"),
        ("mean", "sd", "first", "total"),
        "of the answer, or of its variance",
        (("mean", ("low", "high")), ("first", ("first_low", "first_high")), ("total", ("total_low", "total_high"))),
        D,
    ),
    "week_spans.csv": Shape(("name", "group"), ("low", "high"), "of the active muscle", mark=D),
    "week_steps.csv": Shape(("equipment",), ("smallest_kg", "step_kg", "add_on_kg"), source="source"),
    "marking_rules.csv": Shape(("name",), ("value",), "unit", source="source"),
}
