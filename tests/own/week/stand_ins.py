"""Small candidates, rows and plans, with what loads and logs need of them, and a stand-in for a client."""

from dataclasses import dataclass, field
from types import SimpleNamespace

from shoulder_model.mechanics import Pull
from shoulder_model.week import Candidate, FittedPull, Plan, Row, rules


def pulled(
    name, loading="stack", equipment=(("pulldown",),), family="", easier="", harder="", pull_ups="", hands=2,
    hand_turn="pronated",
):  # fmt: skip
    """One candidate."""
    return Candidate(
        name=name, family=family, pull=Pull(name, 0.0, "upper chest", hands=hands, hand_turn=hand_turn), cue="", feel="",
        watch="", equipment=equipment, position="seated", loading=loading, pull_ups=pull_ups, direct=(), low_back=0,
        easier=easier, harder=harder, stands_for="",
    )  # fmt: skip


PULLDOWN = pulled(
    "front pulldown at 1.5 ×", family="front pulldown", easier="band pulldown", harder="pull-up with help"
)
ROW = pulled(
    "seated row close", equipment=(("low cable",),), family="seated row", easier="band row", hand_turn="neutral"
)
BENCH_ROW = pulled(
    "supported one-arm row", "dumbbell", (("dumbbells",), ("bench", "incline bench")), "one-arm row", hands=1
)
TWO_DUMBBELLS = pulled("chest-supported row", "dumbbells", (("dumbbells",), ("incline bench",)), "chest-supported row")
HELPED = pulled("pull-up with help", "help", (("pull-up bar",),), "pull-up", PULLDOWN.name, "pull-up at 1.5 ×", "fewer")
PULL_UP = pulled(
    "pull-up at 1.5 ×", "body", (("pull-up bar",),), "pull-up", HELPED.name, "pull-up with added load", "enough"
)
ADDED = pulled("pull-up with added load", "added", (("pull-up bar",),), "pull-up", PULL_UP.name, "", "more")
BAND_ROW = pulled("band row", "band", (("bands",),), "band row", "", ROW.name)
TABLE_ROW = pulled("table row", "lean", (("sturdy table",),), "table row", "towel row", "inverted row")
TOWEL_ROW = pulled("towel row", "lean", (("towel and post",),), "towel row", "band row", "table row")
INVERTED = pulled("inverted row", "lean", (("low bar",),), "inverted row")
ALL = (PULLDOWN, ROW, BENCH_ROW, TWO_DUMBBELLS, HELPED, PULL_UP, ADDED, BAND_ROW, TABLE_ROW, TOWEL_ROW, INVERTED)


@dataclass(frozen=True)
class Person:
    """A client, with the fields that a next block changes."""

    lifter: object = field(default_factory=lambda: SimpleNamespace(mass=80.0))
    leave_out: tuple = ()
    prefer: tuple = ()
    known: tuple = ()
    carried: tuple = ()
    hurt: tuple = ()
    own_weight_repetitions: int = 0
    health: object = None
    equipment: tuple = tuple(piece for one in ALL for one_of in one.equipment for piece in one_of)
    steps: object = None


def row(candidate, day=1, weekday="Monday", sets=2, repetitions=(8, 12)):
    """One row of a plan."""
    fitted = FittedPull(candidate, None, 62.4, None, 40.0, {}, True)
    return Row(day, weekday, fitted, sets, repetitions, {}, "")


def plan(*candidates, client=None, level="novice"):
    """A plan of these pulls on Monday and again on Thursday."""
    days = ((1, "Monday"), (2, "Thursday"))
    rows = tuple(row(one, day, weekday) for day, weekday in days for one in candidates)
    return Plan(client or Person(), rules(level), rows, {}, {}, {}, ("Monday", "Thursday"), {}, (), ())
