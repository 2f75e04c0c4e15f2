"""Wrong calls of the public functions: each is refused by name in one short line, and the right ones work."""

import inspect
from collections import Counter

import pytest

import shoulder_model as sm
from tests.wrong_calls import CALLS, outcome, works, wrong_calls

FEWEST = 20_000  # wrong calls
ROOMS = (
    sm,
    sm.spread,
    sm.people,
    sm.mechanics,
    sm.muscles,
    sm.sharing,
    sm.repetition,
    sm.evidence,
    sm.week,
    sm.training,
)
RESULTS = {  # what functions give; nobody has to make one
    "Balance", "Band", "Body", "Candidate", "Comparison", "Effect", "FittedPull", "GirdlePosture", "Grade", "HandPath", "HeldWeight",
    "InputError", "JointTorques", "JointTurns", "LargestLoad", "LeastEffort", "Line", "Load", "LoadCases", "LoadSpan",
    "MuscleGeometry", "NextBlock", "NoWeek", "Plan", "Posture", "Programme", "Question", "RepMechanics", "Row", "Rules",
    "Drawn", "ManyReps", "Matter", "Matters", "Share", "Shares", "Spread", "Standing", "UncertainInput", "Start", "Summary", "Survey", "Target", "TorquePolygon", "Verdict", "WaistBand", "Week",
}  # fmt: skip
OF_THE_MODEL = {  # between the model's own parts: arrays and records that another function made
    "arm_at", "arm_weights", "balance_tables", "counts_words", "elbow_torque", "forearm_turn", "girdle_paths", "girdle_torque",
    "girdle_turn", "joint_force", "largest_load", "least_effort", "moment_arms", "needed_torque", "one_person", "path_points",
    "paths", "plane_of_pull", "programme", "records_text", "set_words", "share_words", "turn_since", "a_lifter",
    "body_from",
    "conditional",
    "spread_of",
    "indices",
    "number_of",
    "options_of",
    "merged",
}  # fmt: skip


def test_every_public_function_with_arguments_is_tried():
    tried = {row.function.__qualname__ for row in CALLS}
    for room in ROOMS:
        for name in room.__all__:
            thing = getattr(room, name)
            if callable(thing) and name not in RESULTS | OF_THE_MODEL and inspect.signature(thing).parameters:
                assert name in tried, f"{room.__name__}.{name} is in no row"


@pytest.mark.parametrize("row", CALLS, ids=lambda row: row.function.__qualname__)
def test_the_right_call_works(row):
    row.function(**works(row))


def test_wrong_calls_are_refused_by_name_in_one_short_line():
    ended = Counter()
    wrong_ones = []
    for wrong in wrong_calls():
        end = outcome(wrong)
        ended[end] += 1
        if end != "refused":
            wrong_ones.append(f"{wrong}: {end}")
    assert not wrong_ones, wrong_ones[:20]
    assert ended["refused"] > FEWEST
