"""What the printed page of a week says: its headings, the words of its cells, and how to read it."""

from dataclasses import replace

from ..training.dose import MINUTE
from ..week.candidates import COUNTED, candidates, equipment
from ..week.health import REFERRAL, TODAY, questions
from ..week.load_words import EASIER, HARDER
from ..week.reach import piece_words
from ..week.wishes import can_be_done
from ..week.words import CAUTIONS, DIRECTION_WORDS, share_words
from ..words import counted, listed, written

TITLE = "A week of pulls"
TWO_TITLE = "Two weeks of pulls, side by side"
NO_WEEK = {  # kind of `week.health.NoWeek` -> title
    "ask": "Health questions first",
    REFERRAL: "A clinician first",
    TODAY: "A physician first. It may be urgent: read every line",
    "nothing": "No pull fits what there is",
}
FIRST = "Read this first"
WEEK_HEADS = ("day", "pull", "grip", "hands", "elbows", "sets × repetitions", "first load", "rest")
LOG_HEADS = ("day and date", "pull", "set", "load", "reps", "left", "pain 0–10", "comfort 0–10", "note")
FIGURE_HEADS = (
    "pull", "adduction [N m]", "extension [N m]", "horizontal abduction [N m]", "lat", "mid-back", "figures of",
)  # fmt: skip
SET_HEADS = ("counted", "sets a week", "band", "aimed at")
HOW_TO_READ_FIGURES = (
    "Torque: what 10 kg on each hand ask of that shoulder, mean over a rep, the arm's own weight left out. A pull with one "
    "hand and one with two compare. A minus sign is the other way: abduction, flexion, horizontal adduction.",
    "Lat and mid-back: share of the active muscle in the model, with its span over both ways to balance the arm, many bodies "
    "and the strength of either sex.",
    "Read down a column, never across: a lat and a mid-back share do not compare. Where spans overlap, no choice "
    "rests on them.",
    "Sets are counted by what was found in training, not by these shares.",
)
HOW_TO_LOG = (
    "One line a set, filled in on the day. Load: what is on the stack or the bar, or one dumbbell. Left: repetitions that were "
    "still there at the end. Pain: 0 none, 10 the worst; above 0, stop that pull. Comfort: 0 cannot bear it, 10 feels right."
)
FIND_KG = "find it: ____ kg"
SHORT_START = {  # how a pull is loaded -> what stands in the table where no first load is known
    "stack": FIND_KG,
    "barbell": FIND_KG,
    "dumbbell": FIND_KG,
    "dumbbells": "find it: 2 × ____ kg",
    "added": "own body, and ____ kg",
    "body": "own body",
    "help": "own body, with plenty of help",
    "lowering": "own body, slowly down",
    "band": "a thin band",
    "lean": "own body, steep",
}


def load_cell(row, load, client):
    """First load of one ``row`` (`week.plan.Row`) in a few words, for a table: the ``load`` (`week.load.Load`), or where to write it.

    ``client`` tells whether a load of this pull is known; then its words say why there is no range.
    """
    if load.low_kg is not None:
        return load.words
    if any(one.pull == row.name for one in client.known) and row.candidate.loading in ("stack", "barbell", "dumbbells"):
        return "read how, below"
    return SHORT_START[row.candidate.loading]


def rest_cell(rules):
    """Rest between sets under some ``rules``, in a few words for a table: "1–2 min"."""
    low, high = rules.rest_low_s / MINUTE, rules.rest_high_s / MINUTE
    return f"{low:g} min" if low == high else f"{low:g}–{high:g} min"


def step_words(candidate, which, client, rules):
    """What is "easier" or "harder" (``which``) than a ``candidate`` (`week.candidates.Candidate`), in words.

    First what changes on the spot, then the next pull by name, if the limits of the ``client`` leave it under these ``rules``;
    what it needs is said where that is not there.
    """
    spot = {"easier": EASIER, "harder": HARDER}[which].get(
        candidate.loading, {"easier": "less load", "harder": "more load"}[which]
    )
    named = next((one for one in candidates() if one.name == getattr(candidate, which)), None)
    if named is None or not _allowed(named, client, rules):
        return spot
    missing = [
        " or ".join(map(piece_words, one_of)) for one_of in named.equipment if not set(one_of) & set(client.equipment)
    ]
    needs = f" (needs {listed(missing)})" if missing else ""
    return f"{spot}; then the {named.name}{needs}"


def _allowed(candidate, client, rules):
    """Whether health, limits and wishes leave a candidate, whatever there is and however many pull-ups come."""
    strong = (0, rules.repetitions_low + rules.repetitions_left_low, rules.repetitions_high + 1)
    anywhere = [replace(client, equipment=equipment(), own_weight_repetitions=count) for count in strong]
    return any(can_be_done(one, rules, candidate) for one in anywhere)


def sentence_case(words):
    """The ``words`` with a capital in front.

    >>> sentence_case("between the blades")
    'Between the blades'
    """
    return words[:1].upper() + words[1:]


def names_words(names):
    """How the ``names`` (of pulls) and grips are to be read, a line of words."""
    told = "Grip: between the middles of the hands."
    if any("×" in name for name in names):
        told += " “×” in a name: the grip as a multiple of the width of the shoulders, bone to bone."
    return told


def sets_rows(plan):
    """Counted sets of a ``plan`` (`week.plan.Plan`) against their bands: rows of words as `SET_HEADS` names them."""
    rows = []
    for group in COUNTED:
        low, high, wanted = plan.bands.get(group, (None, None, None))
        band = ("no target", "") if low is None else (f"{low:g} to {high:g}", f"{wanted:g}")
        rows.append((f"{group}, sets", f"{plan.sets[group]:g}", *band))
    least = f"{plan.rules.direction_sets:g} or more"
    rows += [(DIRECTION_WORDS[name], f"{sets:g}", least, "") for name, sets in plan.directions.items()]
    return tuple(rows)


def figures_row(fitted):
    """Model figures of one ``fitted`` pull (`week.candidates.FittedPull`): words as `FIGURE_HEADS` names them, torques in N m."""
    torque = [written(value) for value in fitted.torque_per_hand]
    shares = [share_words(fitted.shares[group]) for group in ("lat", "mid-back")]
    return (fitted.name, *torque, *shares, fitted.candidate.stands_for or "its own")


def more_words(more, thing="set"):
    """A difference ``more`` of sets or another ``thing`` (a name), in words: "2 sets more", "as many".

    >>> more_words(2), more_words(-0.5), more_words(0)
    ('2 sets more', '0.5 sets fewer', 'as many')
    """
    if not more:
        return "as many"
    return f"{counted(abs(more), thing)} {'more' if more > 0 else 'fewer'}"


def days_words(row_days):
    """On which days a pull is and with how many sets: ``row_days`` is a list of (weekday, sets), in words.

    >>> days_words([("Monday", 2), ("Friday", 3)])
    'Monday 2, Friday 3'
    """
    return ", ".join(f"{day} {sets:g}" for day, sets in row_days)


def caution_lines(client):
    """The cautions for a ``client``, a tuple of lines of words: those for everybody, then when a sore part cannot wait."""
    sore = [one for one in questions() if client.health[one.name] == "yes" and one.today]
    return (
        *CAUTIONS,
        *(f"{one.name.capitalize()}: today, at an emergency department, with {one.today}." for one in sore),
    )


def has_limits(client):
    """Whether a clinician has cleared this ``client`` or some limit holds, so that it has to be seen on the page."""
    return bool(client.holds) or "cleared" in client.health.values()


def equipment_words(client):
    """What there is for a ``client``, in words."""
    return listed(list(client.equipment)) if client.equipment else "no equipment"
