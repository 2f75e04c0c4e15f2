"""A week of pulls in words: the reason for each row, how to start, log and change it."""

import csv
import io
from dataclasses import dataclass

from .inputs import Allowed, number
from .words import lean_words, listed, torque_words

PART = {0.5: "½", 1.0: "1"}
CAUTIONS = (
    "For teaching and exercise choice, not for diagnosis or treatment. Pain, numbness, a past dislocation or surgery: "
    "stop, and see a licensed clinician. Start light, add in small steps, keep control of the weight on the way back, "
    "check cable, pin and bar, use safeties, and follow the facility's rules and local codes."
)
HONEST = (
    "A start to test on the person, not a proven best: which pull grows which back muscle more is an open question, and "
    "the muscle shares rest on a model whose landmarks are from memory. Comfort, full controlled range and steady "
    "progress come first."
)
LOG_HEADS = (
    "date", "day", "pull", "grip [cm]", "load [kg]", "set", "repetitions", "repetitions left", "comfort 0-10", "note",
)  # fmt: skip
UNCOMFORTABLE = 5  # of 10; common practice, no source


def grip_words(row):
    """Grip of one row in centimetres and as a ratio."""
    if row.pull.hands == 1:
        return "one hand, in line with the shoulder"
    return f"{row.grip_cm:.0f} cm ({row.pull.grip_ratio:g}×)"


def set_words(row):
    """Sets and repetitions: "3 × 8–12"."""
    low, high = row.repetitions
    return f"{row.sets} × {low}–{high}"


def turn_words(pull):
    """How the hands are turned, as said in a gym."""
    return {"pronated": "overhand", "neutral": "palms facing", "supinated": "underhand"}[pull.hand_turn]


def set_up_words(row):
    """The whole set-up of one row, for a page."""
    return f"{grip_words(row)}, {turn_words(row.pull)}, {lean_words(row.pull.trunk_lean)}, to the {row.pull.touch}"


def start_words(pull, given):
    """How to find the first load; no load is invented."""
    left = f"{given.repetitions_left_low} to {given.repetitions_left_high} repetitions left"
    if pull.load_from == "body":
        easier = "stand steeper" if pull.body_share < 1 else "take help from a band, a machine or the feet"
        return f"own body; {easier} until every set ends with {left}"
    return f"start light, add between sets until a set of {given.repetitions_low} ends with {left}; write it down"


def share_words(share):
    """A share with its band: "46 % (38–55)"."""
    value, low, high = share
    return f"{100 * value:.0f} % ({100 * low:.0f}–{100 * high:.0f})"


def load_words(found, pull):
    """What the load asks of one shoulder, by 10 kg on the bar or by the body's own weight."""
    if pull.load_from == "body":
        return f"the body's own weight asks one shoulder for {torque_words(found.torque)}"
    return f"10 kg of load ask one shoulder for {torque_words(10 / found.per_kg * found.torque)}"


def reason(i, chosen, pulls, found, counts, client):
    """Why candidate ``i`` is among the ``chosen``, in a sentence with its numbers."""
    shares = found[i].shares
    told = (
        f"{_because(i, chosen, pulls, found, counts, client)}: lat {share_words(shares['lat'])} and mid-back "
        f"{share_words(shares['mid-back'])} of the muscular work; {load_words(found[i], pulls[i].pull)}. "
    )
    parts = [
        f"{PART.get(counts[g][i], f'{counts[g][i]:.2g}')} for the {g}"
        for g in ("lat", "mid-back", "elbow flexors")
        if counts[g][i]
    ]
    return f"{told}A set counts {', '.join(parts)}."


def _because(i, chosen, pulls, found, counts, client):
    """The first reason that holds, the sharpest first."""
    for direction in ("adduction", "extension"):
        if counts[direction][i] and sum(counts[direction][k] > 0 for k in chosen) == 1:
            return f"the week's only {direction}".capitalize()
    for group in ("lat", "mid-back"):
        if all(found[i].shares[group][0] >= found[k].shares[group][0] for k in chosen):
            return f"Largest {group} share of the week"
    if client.limit_low_back and pulls[i].low_back == 0:
        return "Spares the low back"
    return f"Fills up the {listed(list(pulls[i].direct))}"


def log_sheet(plan):
    """A blank log of one week as CSV text: a line for every set, to be copied for each week."""
    store = io.StringIO()
    writer = csv.writer(store, lineterminator="\n")
    writer.writerow(LOG_HEADS)
    for row in plan.rows:
        for one in range(row.sets):
            writer.writerow(["", row.day, row.name, f"{row.grip_cm:.0f}", "", one + 1, "", "", "", ""])
    return store.getvalue()


@dataclass(frozen=True)
class Logged:
    """What a log says of one pull after some weeks: its last two sessions.

    Parameters
    ----------
    load_kg : float
    repetitions : tuple of int
        Of the last set in each of the last two sessions.
    comfort : float
        0 (cannot bear it) to 10 (feels right).
    pain : bool
        Pain or numbness at any time.
    """

    load_kg: float
    repetitions: tuple
    comfort: float = 10.0
    pain: bool = False

    def __post_init__(self):
        number("load_kg", self.load_kg, Allowed(0.0, 500.0, "kg", "give the load on the whole bar"))
        number("repetitions", self.repetitions, Allowed(0, 100, "repetitions", "count those of the last set"))
        number("comfort", self.comfort, Allowed(0, 10, "of 10", "0 is unbearable, 10 feels right"))


def next_load(load_kg, given):
    """Range of the next load (low, high) [kg], a step of 2 to 10 %.

    Source: position stand, Med Sci Sports Exerc 2009;41(3):687-708.
    """
    return (1 + given.load_step_low) * load_kg, (1 + given.load_step_high) * load_kg


def change_words(logged, given):
    """What to change after the trial weeks: one thing at a time.

    Parameters
    ----------
    logged : Logged
    given : session_pulls.Rules

    Examples
    --------
    >>> from shoulder_model.session_pulls import rules
    >>> change_words(Logged(40.0, (13, 14)), rules("novice"))
    'Over 12 repetitions twice: add load, to 40.8 to 44.0 kg, and leave the rest as it is.'
    """
    low, high = given.repetitions_low, given.repetitions_high
    if logged.pain:
        return "Stop this pull and see a licensed clinician; the plan waits."
    if logged.comfort < UNCOMFORTABLE:
        return "Not comfortable: change the grip by one step, or the pull; same load or less, nothing else."
    if min(logged.repetitions) >= high + given.repetitions_over:
        light, heavy = next_load(logged.load_kg, given)
        if not logged.load_kg:
            return f"Over {high} repetitions twice: make it harder by one step, and leave the rest as it is."
        return (
            f"Over {high} repetitions twice: add load, to {light:.1f} to {heavy:.1f} kg, and leave the rest as it is."
        )
    if max(logged.repetitions) < low:
        return f"Under {low} repetitions twice: take load off until {low} come with one or two left."
    return "Inside the range: change nothing; aim for one repetition more."


def after_words(given):
    """What to do with the log, for the page."""
    return (
        f"Log every set: {', '.join(LOG_HEADS)}. After {given.trial_weeks} weeks change one thing at a time: over "
        f"{given.repetitions_high} repetitions by one or two, add {100 * given.load_step_low:.0f} to "
        f"{100 * given.load_step_high:.0f} % (Med Sci Sports Exerc 2009;41(3):687-708); not comfortable, change the grip or the "
        "pull; pain or numbness, stop and see a licensed clinician."
    )


def by_pull(plan):
    """The week's pulls in the order they come: pairs of the first row and all its days."""
    days = {}
    for row in plan.rows:
        days.setdefault(row.name, (row, []))[1].append(row.day)
    return tuple((row, tuple(found)) for row, found in days.values())


def asked_words(client):
    """What the client asks for, in a few words."""
    row = "pull-up" if client.own_weight_repetitions == 1 else "pull-ups"
    return (
        f"{client.experience.capitalize()}, {client.days} days, goal {100 * client.goal:.0f} % mid-back, "
        f"{client.own_weight_repetitions} {row} in a row"
    )


def client_words(client):
    """Who the week is for, in a line."""
    lifter = client.lifter
    goal = f"{100 * (1 - client.goal):.0f} % lat, {100 * client.goal:.0f} % mid-back"
    return (
        f"{client.experience.capitalize()}, {client.days} days a week, goal {goal}; {'a woman' if lifter.sex == 'women' else 'a man'} "
        f"of {100 * lifter.stature:.0f} cm and {lifter.mass:.0f} kg, shoulders {100 * lifter.biacromial:.1f} cm (biacromial), "
        f"{client.own_weight_repetitions} pull-ups in a row"
        f"{'; low back to be spared' if client.limit_low_back else ''}"
    )
