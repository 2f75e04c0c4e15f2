"""A week of pulls in words: the reason for each row, how to start, log and change it."""

from dataclasses import dataclass

import numpy as np

from ..inputs import Allowed, InputError, number
from ..tables import table_text
from ..words import counted, lean_words, listed, torque_words
from .candidates import COUNTED, DIRECTIONS, GROUPS

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


def grip_words(row):
    """Grip of one ``row`` (`plan.Row`) in centimetres and as a ratio."""
    if row.pull.hands == 1:
        return "one hand, in line with the shoulder"
    return f"{row.grip_cm:.0f} cm ({row.pull.grip_ratio:g} ×)"


def set_words(row):
    """Sets and repetitions of one ``row`` (`plan.Row`): "3 × 8–12"."""
    low, high = row.repetitions
    return f"{row.sets} × {low}–{high}"


def turn_words(pull):
    """How the hands of a ``pull`` are turned, in words as said in a gym."""
    return {"pronated": "overhand", "neutral": "palms facing", "supinated": "underhand"}[pull.hand_turn]


def set_up_words(row):
    """The whole set-up of one ``row`` (`plan.Row`) in words, for a page: grip in centimetres, hands, lean, touch point."""
    return f"{grip_words(row)}, {turn_words(row.pull)}, {lean_words(row.pull.trunk_lean)}, to the {row.pull.touch}"


def start_words(pull, rules):
    """How to find the first load of a ``pull`` under some ``rules``, in words; no load is invented."""
    left = f"{rules.repetitions_left_low} to {rules.repetitions_left_high} repetitions left"
    if pull.load_from == "body":
        easier = "stand steeper" if pull.body_share < 1 else "take help from a band, a machine or the feet"
        return f"own body; {easier} until every set ends with {left}"
    return f"start light, add between sets until a set of {rules.repetitions_low} ends with {left}; write it down"


def share_words(share):
    """A ``share`` (value, low, high), 0 to 1, with its band: "46 % (38–55)"."""
    value, low, high = share
    return f"{100 * value:.0f} % ({100 * low:.0f}–{100 * high:.0f})"


def load_words(fitted):
    """What the load of a ``fitted`` pull asks of one shoulder, in words: of 10 kg on the bar or of the body's own weight."""
    if fitted.pull.load_from == "body":
        return f"the body's own weight asks one shoulder for {torque_words(fitted.torque)}"
    return f"10 kg of load ask one shoulder for {torque_words(fitted.torque_per_10_kg)}"


def reason(fitted, chosen, rules, client):
    """Why a pull is in the week, in words with its numbers.

    Parameters
    ----------
    fitted : candidates.FittedPull
    chosen : list of candidates.FittedPull
        All of the week's, this one among them.
    rules : rules.Rules
    client : client.Client
    """
    counts, shares = fitted.counts(rules), fitted.shares
    parts = [f"{PART.get(counts[name], f'{counts[name]:.2g}')} for the {name}" for name in COUNTED if counts[name]]
    return (
        f"{_because(fitted, chosen, rules, client)}: lat {share_words(shares['lat'])} and mid-back "
        f"{share_words(shares['mid-back'])} of the active muscle; {load_words(fitted)}. A set counts {', '.join(parts)}."
    )


def _because(fitted, chosen, rules, client):
    """The first reason that holds, the sharpest first."""
    for direction in DIRECTIONS:
        if fitted.counts(rules)[direction] and sum(one.counts(rules)[direction] > 0 for one in chosen) == 1:
            return f"the week's only {direction}".capitalize()
    for group in GROUPS:
        if all(fitted.shares[group][0] >= one.shares[group][0] for one in chosen):
            return f"Largest {group} share of the week"
    if client.limit_low_back and fitted.candidate.low_back == 0:
        return "Spares the low back"
    return f"Fills up the {listed(list(fitted.candidate.direct))}"


def log_sheet(plan):
    """A blank log of one ``plan`` (`plan.Plan`) as CSV text: a line for every set, to be copied for each week."""
    lines = [
        ["", row.day, row.name, f"{row.grip_cm:.0f}", "", place, "", "", "", ""]
        for row in plan.rows
        for place in range(1, row.sets + 1)
    ]
    return table_text([LOG_HEADS, *lines])


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
        if np.shape(self.repetitions) != (2,):
            raise InputError("repetitions", f"repetitions = {self.repetitions!r}: give those of the last two sessions")
        number("comfort", self.comfort, Allowed(0, 10, "of 10", "0 is unbearable, 10 feels right"))


def next_load(load_kg, rules):
    """Range of the next load (low, high) [kg] after ``load_kg`` [kg], a step of 2 to 10 % as the ``rules`` say.

    Source: position stand, Med Sci Sports Exerc 2009;41(3):687-708.
    """
    return (1 + rules.load_step_low) * load_kg, (1 + rules.load_step_high) * load_kg


def change_words(logged, rules):
    """What to change after the trial weeks, in words: one thing at a time.

    Parameters
    ----------
    logged : Logged
    rules : rules.Rules

    Examples
    --------
    >>> from shoulder_model.week import rules
    >>> change_words(Logged(40.0, (13, 14)), rules("novice"))
    'Over 12 repetitions twice: add load, to 40.8 to 44.0 kg, and leave the rest as it is.'
    """
    low, high = rules.repetitions_low, rules.repetitions_high
    if logged.pain:
        return "Stop this pull and see a licensed clinician; the plan waits."
    if logged.comfort < rules.comfort_low:
        return "Not comfortable: change the grip by one step, or the pull; same load or less, nothing else."
    if min(logged.repetitions) >= high + rules.repetitions_over:
        light, heavy = next_load(logged.load_kg, rules)
        if not logged.load_kg:
            return f"Over {high} repetitions twice: make it harder by one step, and leave the rest as it is."
        return (
            f"Over {high} repetitions twice: add load, to {light:.1f} to {heavy:.1f} kg, and leave the rest as it is."
        )
    if max(logged.repetitions) < low:
        return f"Under {low} repetitions twice: take load off until {low} come with one or two left."
    return "Inside the range: change nothing; aim for one repetition more."


def after_words(rules):
    """What to do with the log under some ``rules``, in words for the page."""
    return (
        f"Log every set: {', '.join(LOG_HEADS)}. After {counted(rules.trial_weeks, 'week')} change one thing at a time: over "
        f"{rules.repetitions_high} repetitions by one or two, add {100 * rules.load_step_low:.0f} to "
        f"{100 * rules.load_step_high:.0f} % (Med Sci Sports Exerc 2009;41(3):687-708); not comfortable, change the grip or the "
        "pull; pain or numbness, stop and see a licensed clinician."
    )


def by_pull(plan):
    """The pulls of a ``plan`` in the order they come: a tuple of pairs, the first row and all its days."""
    days = {}
    for row in plan.rows:
        days.setdefault(row.name, (row, []))[1].append(row.day)
    return tuple((row, tuple(on)) for row, on in days.values())


def pull_ups_words(client):
    """How many pull-ups in a row a ``client`` does, in words: "1 pull-up in a row"."""
    return f"{counted(client.own_weight_repetitions, 'pull-up')} in a row"


def asked_words(client):
    """What the ``client`` asks for, in a few words."""
    days, goal = counted(client.days, "day"), f"{100 * client.goal:.0f} % mid-back"
    return f"{client.experience.capitalize()}, {days}, goal {goal}, {pull_ups_words(client)}"


def client_words(client):
    """Who the week is for, in a line: the ``client``'s measures in centimetres and kilograms."""
    lifter = client.lifter
    goal = f"{100 * (1 - client.goal):.0f} % lat, {100 * client.goal:.0f} % mid-back"
    return (
        f"{client.experience.capitalize()}, {counted(client.days, 'day')} a week, goal {goal}; "
        f"{'a woman' if lifter.sex == 'women' else 'a man'} of {100 * lifter.stature:.0f} cm and {lifter.mass:.0f} kg, "
        f"shoulders {100 * lifter.biacromial:.1f} cm (biacromial), {pull_ups_words(client)}"
        f"{'; low back to be spared' if client.limit_low_back else ''}"
    )
