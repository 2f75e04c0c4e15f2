"""Small stand-ins for candidates, rows and plans, with what loads and logs need of them."""

from dataclasses import dataclass, field
from types import SimpleNamespace

from shoulder_model.week import rules


@dataclass(frozen=True)
class Pulled:
    """One candidate."""

    name: str
    loading: str = "stack"
    equipment: tuple = (("pulldown",),)
    family: str = ""
    easier: str = ""
    harder: str = ""
    pull_ups: str = ""
    hands: int = 2
    grip_ratio: float = 1.0
    hand_turn: str = "pronated"

    @property
    def pull(self):
        return SimpleNamespace(hands=self.hands, grip_ratio=self.grip_ratio, hand_turn=self.hand_turn)

    def can_be_done_with(self, there):
        return all(any(piece in there for piece in one_of) for one_of in self.equipment)


PULLDOWN = Pulled(
    "front pulldown at 1.5 ×", family="front pulldown", easier="band pulldown", harder="pull-up with help"
)
ROW = Pulled(
    "seated row close", equipment=(("low cable",),), family="seated row", easier="band row", hand_turn="neutral"
)
BENCH_ROW = Pulled(
    "supported one-arm row", "dumbbell", (("dumbbells",), ("bench", "incline bench")), "one-arm row", hands=1
)
TWO_DUMBBELLS = Pulled("chest-supported row", "dumbbells", (("dumbbells",), ("incline bench",)), "chest-supported row")
HELPED = Pulled("pull-up with help", "help", (("pull-up bar",),), "pull-up", PULLDOWN.name, "pull-up at 1.5 ×", "fewer")
PULL_UP = Pulled(
    "pull-up at 1.5 ×", "body", (("pull-up bar",),), "pull-up", HELPED.name, "pull-up with added load", "enough"
)
ADDED = Pulled("pull-up with added load", "added", (("pull-up bar",),), "pull-up", PULL_UP.name, "", "more")
BAND_ROW = Pulled("band row", "band", (("bands",),), "band row", "", ROW.name)
TABLE_ROW = Pulled("table row", "lean", (("sturdy table",),), "table row", "towel row", "inverted row")
TOWEL_ROW = Pulled("towel row", "lean", (("towel and post",),), "towel row", "band row", "table row")
INVERTED = Pulled("inverted row", "lean", (("low bar",),), "inverted row")
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
    return SimpleNamespace(
        day=day, weekday=weekday, sets=sets, repetitions=repetitions, name=candidate.name, candidate=candidate,
        grip_cm=62.4, pull=candidate.pull,
    )  # fmt: skip


def plan(*candidates, client=None, level="novice"):
    """A plan of these pulls on Monday and again on Thursday."""
    days = ((1, "Monday"), (2, "Thursday"))
    return SimpleNamespace(
        client=client or Person(),
        rules=rules(level),
        rows=tuple(row(one, day, weekday) for day, weekday in days for one in candidates),
    )
