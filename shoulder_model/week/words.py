"""A week of pulls in a coach's words, a line each: what a pull counts for, why this one, how to set it up."""

from ..inputs import checked_call
from ..words import counted, lean_words, listed
from .candidates import COUNTED, DIRECTIONS
from .client import a_client
from .groups import GROUPS
from .health import LOW_BACK
from .spans import clearly_less

PART = {0.5: "½", 1.0: "1"}
DIRECTION_WORDS = {"adduction": "the arm in to the side (adduction)", "extension": "the arm back (extension)"}
NOT_MEDICAL = "For teaching and exercise choice, not for diagnosis or treatment."
MISSED_DIRECTION = {"adduction": "a pull in to the side", "extension": "a pull back"}
CAUTIONS = (
    NOT_MEDICAL,
    "Pain, numbness, dizziness or pain in the chest: stop, and see a licensed clinician. If it is sudden or does not go away: "
    "today, at an emergency department.",
    "Start light and add in small steps. Keep control of the weight on the way back. Check cable, pin, band and bar, and use "
    "safeties. Follow the facility's rules and local codes.",
)
HONEST = (
    "A start to test on the person, not a proven best. Which pull grows which back muscle more is an open question. Comfort, a "
    "full controlled range and steady progress come first."
)


def grip_words(row):
    """Grip of one ``row`` (`plan.Row`): centimetres where a grip can be chosen on a bar, else how to hold."""
    loading = row.candidate.loading
    if row.pull.hands == 1:
        return "one hand"
    if loading in ("dumbbells", "dumbbell"):
        return "one dumbbell, both hands" if loading == "dumbbell" else "two dumbbells"
    if row.pull.hand_turn == "neutral":
        return {"band": "hands close", "lean": "ends of the towel"}.get(loading, "close handles")
    return f"{row.grip_cm:.0f} cm"


def set_words(row):
    """Sets and repetitions of one ``row`` (`plan.Row`): "3 × 8–12", each side where it is done with one hand."""
    low, high = row.repetitions
    return f"{row.sets} × {low}–{high}{' each side' if row.pull.hands == 1 else ''}"


def turn_words(pull):
    """How the hands of a ``pull`` are turned, in words as said in a gym."""
    if pull.hands == 1 and pull.hand_turn == "neutral":
        return "palm facing in"
    return {"pronated": "overhand", "neutral": "palms facing", "supinated": "underhand"}[pull.hand_turn]


def touch_words(candidate):
    """Where a ``candidate`` (`candidates.Candidate`) ends, in words: "to the lower ribs", "until the chin is over the bar"."""
    touch, under = candidate.pull.touch, _lies_under(candidate)
    if candidate.loading == "lowering":
        return "from the chin over the bar to straight arms"
    if under:
        return f"until the {touch} {'are' if touch.endswith('s') else 'is'} at the {under}"
    if candidate.position == "face up":
        return "until the hands are above the chest"
    free = {
        "under the chin": "until the chin is over the bar",
        "behind the neck": "behind the neck",
        "thigh": "to the thighs",
    }
    return free.get(touch, f"to the {touch}")


def position_words(candidate):
    """How the body of a ``candidate`` (`candidates.Candidate`) is placed, in words, with what it lies on or hangs from."""
    under = _lies_under(candidate)
    if candidate.position == "face up":
        return f"face up under the {under}" if under else "on the back on the bench"
    lying = {"face down": "face down on the incline bench", "hanging": "hanging from the bar"}
    return lying.get(candidate.position) or f"{candidate.position}, {lean_words(candidate.pull.trunk_lean)}"


def _lies_under(candidate):
    """What a body that lies face up hangs under, in a word; "" where it lies on something."""
    under = {"low bar": "bar", "sturdy table": "edge of the table"}
    pieces = [piece for one_of in candidate.equipment for piece in one_of if candidate.position == "face up"]
    return next((under[piece] for piece in pieces if piece in under), "")


def set_up_words(row):
    """The set-up of one ``row`` (`plan.Row`) in words: position, trunk, where the hands end."""
    verb = "lower yourself" if row.candidate.loading == "lowering" else "pull"
    return f"{position_words(row.candidate)}; {verb} {touch_words(row.candidate)}"


def share_words(share):
    """A ``share`` (value, low, high), 0 to 1, with its span: "46 % (38–55)"."""
    value, low, high = share
    return f"{100 * value:.0f} % ({100 * low:.0f}–{100 * high:.0f})"


def counts_words(counts):
    """What one set counts, in words; ``counts`` dict of muscle group -> sets.

    >>> counts_words({"lat": 1.0, "mid-back": 0.5, "elbow flexors": 0.5})
    '1 for the lat, ½ for the mid-back and the elbow flexors'
    """
    by_amount = {}
    for name in COUNTED:
        if counts[name]:
            by_amount.setdefault(counts[name], []).append(f"the {name}")
    return ", ".join(f"{PART.get(amount, f'{amount:.2g}')} for {listed(names)}" for amount, names in by_amount.items())


def pull_line(row):
    """What one ``row`` (`plan.Row`) counts for, why it is there, what to feel and to watch, in a line of words."""
    return f"{row.name}: a set counts {row.counts_for}. Why: {row.why}. Feel {row.candidate.feel}. Watch: {row.candidate.watch}."


def why(one, chosen, fitted, client, rules, known_spans=None):
    """Why a pull is in the week, in a line: the first reason that holds.

    Parameters
    ----------
    one : candidates.FittedPull
    chosen : list of candidates.FittedPull
        All of the week's, this one among them.
    fitted : tuple of candidates.FittedPull
        All that could have been chosen.
    client : client.Client
    rules : rules.Rules
    known_spans : dict, optional
        As for `plan.plan_week`.
    """
    reasons = (
        _asked_for(one, client),
        _only_direction(one, chosen, rules),
        _version(one, client),
        _only_kind(one, chosen),
        _spares_the_back(one, fitted, client, rules),
        _clearly_more(one, fitted, rules, known_spans),
    )
    return next((words for words in reasons if words), f"another pull for the {listed(list(one.candidate.direct))}")


def _asked_for(one, client):
    if any(carried.pull == one.name for carried in client.carried):
        return "goes on from the last block"
    return "your choice" if client.wants(one.candidate, client.prefer) else ""


def _only_direction(one, chosen, rules):
    for direction in DIRECTIONS:
        if one.counts(rules)[direction] and sum(other.counts(rules)[direction] > 0 for other in chosen) == 1:
            return f"the week's only pull that brings {DIRECTION_WORDS[direction]}"
    return ""


def _version(one, client):
    if not one.candidate.pull_ups:
        return ""
    return f"the version for {pull_ups_words(client)}"


def _only_kind(one, chosen):
    direct = one.candidate.direct
    if len(direct) > 1 and sum(len(other.candidate.direct) > 1 for other in chosen) == 1:
        return f"one pull that counts in full for both {listed(list(direct))}"
    if sum(set(other.candidate.direct) >= set(direct) for other in chosen) == 1:
        return f"the week's only pull that counts in full for the {direct[0]}"
    return ""


def _spares_the_back(one, fitted, client, rules):
    heavier = any(other.candidate.low_back > one.candidate.low_back and _same(one, other, rules) for other in fitted)
    if not heavier or one.candidate.low_back:
        return ""
    return (
        "easy on the low back" if LOW_BACK in client.holds else "easier on the low back than others that count the same"
    )


def _clearly_more(one, fitted, rules, known_spans):
    for other in fitted:
        if other is one or not _same(one, other, rules):
            continue
        if clearly_less(other.name, [one.name], one.candidate.direct, known_spans):
            return f"clearly more {listed(list(one.candidate.direct))} in the model than the {other.name}"
    return ""


def _same(one, other, rules):
    return one.counts(rules) == other.counts(rules)


def missed_words(plan, name):
    """What a ``plan`` (`plan.Plan`) does not reach of the wish ``name``, in words with its numbers."""
    few, many = f"Does not reach {plan.rules.pulls_low}", f"Does not stay within {plan.rules.pulls_high}"
    different = len({row.name for row in plan.rows})
    one_pull = sum(len(plan.day(day + 1)) == 1 for day in range(plan.days))
    return {
        "enough sets": lambda: _sets_short(plan, "Does not reach", 0),
        "not too many sets": lambda: _sets_short(plan, "Does not stay within", 1),
        "both directions": lambda: _directions_short(plan),
        "preferred pulls": lambda: f"Does not hold {counted(plan.missing[name], 'pull')} that you prefer",
        "two pulls a day": lambda: f"On {counted(one_pull, 'day')} there is only one pull",
        "every day": lambda: f"Does not reach {counted(plan.client.days, 'day')} with pulls: it has {plan.days}",
        "different pulls": lambda: (
            f"{few if different < plan.rules.pulls_low else many} different pulls: it has {different}"
        ),
    }[name]()


def missed_briefly(plan, name):
    """What a ``plan`` (`plan.Plan`) misses of the wish ``name``, in a few words for the verdict."""
    (low, high, _), amount = plan.bands[GROUPS[0]], plan.missing[name]
    few = {group: low - plan.sets[group] for group in GROUPS if plan.sets[group] < low}
    return {
        "enough sets": listed([f"{counted(less, 'set')} for the {group}" for group, less in few.items()] or [""]),
        "not too many sets": f"{counted(amount, 'set')} over {high:g}",
        "both directions": listed(_missed_directions(plan) or [""]),
        "preferred pulls": "a pull that you prefer",
        "two pulls a day": "two pulls on each day",
        "every day": f"{counted(amount, 'day')} of {plan.client.days}",
        "different pulls": f"{plan.rules.pulls_low} to {plan.rules.pulls_high} different pulls",
    }[name]


def _missed_directions(plan):
    return [MISSED_DIRECTION[name] for name, sets in plan.directions.items() if sets < plan.rules.direction_sets]


def direction_sets_words(name, sets):
    """How many ``sets`` pull in the direction called ``name``, in words: "4 sets pull the arm in to the side"."""
    way = {"adduction": "in to the side", "extension": "back"}[name]
    return f"{counted(sets, 'set')} pull{'s' * (sets == 1)} the arm {way}"


def _sets_short(plan, head, end):
    """Groups that are under the low ``end`` (0) or over the high one (1) of their band."""
    off = {group: (plan.bands[group][end], plan.sets[group]) for group in GROUPS}
    off = {group: (edge, sets) for group, (edge, sets) in off.items() if (sets < edge if end == 0 else sets > edge)}
    parts = [f"{counted(edge, 'set')} for the {group}: it has {sets:g}" for group, (edge, sets) in off.items()]
    return f"{head} {', and '.join(parts)}"


def _directions_short(plan):
    least = plan.rules.direction_sets
    parts = [
        f"{counted(least, 'set')} that bring {DIRECTION_WORDS[name]}: it has {f'{sets:g}' if sets else 'none'}"
        for name, sets in plan.directions.items()
        if sets < least
    ]
    return f"Does not reach {', and '.join(parts)}"


def nothing_lines(client):
    """What to say to a ``client`` for whom no pull is left, a tuple of lines of words."""
    kept = f" with these limits: {listed(list(client.holds))}" if client.holds else ""
    return (
        f"No pull of this workbook can be done here{kept}.",
        f"There is: {listed(list(client.equipment)) if client.equipment else 'no equipment'}.",
        "A band, or a towel round a post that cannot give way, is enough for a start.",
    )


def pull_ups_words(client):
    """How many pull-ups in a row a ``client`` does, in words: "1 pull-up in a row"."""
    count = client.own_weight_repetitions
    return f"{counted(count, 'pull-up')} in a row" if count else "no full pull-up yet"


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
    )


@checked_call
def health_words(client):
    """What was asked about health and what holds, in words, for the page of a ``client``, else `InputError`."""
    a_client(client)
    cleared = [name for name, answer in client.health.items() if answer == "cleared"]
    told = "Health questions asked and answered."
    if cleared:
        told += f" Cleared, with these limits ({listed(cleared)}): {client.cleared.rstrip('.')}."
    if client.holds:
        told += f" The week keeps to: {listed(list(client.holds))}."
    if cleared:
        told += " The planner does not read that note: whatever else it says, you have to see to."
    return told
