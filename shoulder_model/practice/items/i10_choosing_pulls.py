"""Items of chapter 10: pulls for a gym, a home and one bar, sets for two aims, and which wish gives way."""

from functools import cache

from ...week import GROUPS, WISHES, candidates, rules
from ...week.health import LIMITS, LOW_BACK
from ...words import counted, listed
from ..asks import Choice, Number, Reasoned, letter_of
from ..bank import template
from ..gym import people
from ..item import Item
from ..slips import Slip
from ..working import Working

PLACES = (  # where, what there is
    ("at home with bands, dumbbells and a sturdy table", ("bands", "dumbbells", "sturdy table")),
    ("at home with bands and nothing else", ("bands",)),
    ("in a park with one pull-up bar", ("pull-up bar",)),
    ("at home with a pull-up bar and bands", ("pull-up bar", "bands")),
    ("in a park with a pull-up bar, a towel and a sound post", ("pull-up bar", "towel and post")),
    ("in a small gym with a pulldown, dumbbells and an incline bench", ("pulldown", "dumbbells", "incline bench")),
    ("in a gym with a pulldown and a low cable", ("pulldown", "low cable")),
)
ONLY_HELPS = "It can be done there, but for this aim it only helps: there its set counts half."
NOT_THERE = "It cannot be done there. What there is never gives way."
AIMS = (("lat",), ("mid-back",), GROUPS)


@cache
def _offered():
    """The pulls of somebody without a full pull-up: no wide grip on a bar, not behind the neck."""
    widest = rules("novice").grip_high
    return tuple(
        one
        for one in candidates()
        if one.pull_ups in ("", "fewer") and one.pull.name != "behind-the-neck pulldown"
        if not (one.overhead and one.pull.grip_ratio > widest)
    )


def _needs(one):
    return f"{one.name} (needs: {', '.join(' or '.join(one_of) for one_of in one.equipment)})"


def _three_kinds(chance):
    """A place and an aim; a pull that fits, and others that cannot be done there or only help."""
    while True:
        (where, there), aim = chance.one_of(PLACES), chance.one_of(AIMS)
        fits, elsewhere, helps = [], [], []
        for one in _offered():
            full, can = set(aim) <= set(one.direct), one.can_be_done_with(there)
            (fits if full and can else elsewhere if full else helps if can else []).append(one)
        if fits and len(elsewhere) >= 2 and helps:
            return where, aim, chance.one_of(fits), (*chance.some(elsewhere, 2), chance.one_of(helps))


@template("10.week", "10.grip and sets", section="10.6")
def a_pull_for_what_there_is(chance):
    (name,) = people(chance, 1)
    where, aim, best, others = _three_kinds(chance)
    words = listed([f"the {group}" for group in aim])
    options = chance.shuffled([_needs(one) for one in (best, *others)])
    why = f"it can be done there, and a set counts 1 for {words}"
    proof = f"a trial proved that it grows {words} most"
    span, wish = "the model gives it the highest share of muscle", "equipment is a wish, and wishes may give way"
    reasons = chance.shuffled((why, proof, span, wish))
    key = letter_of(options, _needs(best)) + "1234"[reasons.index(why)]
    work = Working()
    for one in (best, *others[:2], others[2]):
        can = "can be done there" if one is best or one is others[2] else "cannot be done there"
        full = listed([f"the {group}" for group in one.direct])
        work.say(f"{one.name[0].upper()}{one.name[1:]}: {can}; a set counts 1 for {full}.")
    work.say("What there is, and what is safe, are facts. They never give way.")
    work.say("Which pull grows which muscle more is open, and the model's spans overlap. It decides nothing here.")
    slips = [
        Slip("proof from nowhere", f"*{reasons.index(proof) + 1}", 6),
        Slip("overlap overlooked", f"*{reasons.index(span) + 1}", 6),
        Slip("fact for a wish", f"*{reasons.index(wish) + 1}", 5),
        Slip("helpers in full", f"{letter_of(options, _needs(others[2]))}*", 4, ONLY_HELPS),
    ]
    slips += [Slip("fact for a wish", f"{letter_of(options, _needs(one))}*", 5, NOT_THERE) for one in others[:2]]
    question = (
        f"{name} trains {where}, and cannot do a full pull-up yet.",
        f"You want a pull whose sets count in full for {words}. Which one do you choose, and why?",
    )
    hint = "First cross out what cannot be done there, then count."
    return Item(question, Reasoned(options, reasons, key), hint, work, tuple(slips))


VERSIONS = {
    "fewer": "the pull-up with help",
    "enough": "the full pull-up",
    "more": "the pull-up with added load",
}
TAKEN = {  # right version -> the slip that it invites, and the version that it gives
    "fewer": ("left forgotten", "enough"),
    "enough": ("help not needed", "fewer"),
    "more": ("load not added", "enough"),
}
TWOS = "many short sets of full pull-ups"


@template("10.week", section="10.7")
def a_version_of_the_pull_up(chance):
    (name,) = people(chance, 1)
    level, wanted = chance.one_of(("novice", "intermediate")), chance.one_of(tuple(VERSIONS))
    rule = rules(level)
    enough, most = rule.repetitions_low + rule.repetitions_left_low, rule.repetitions_high
    ends = {"fewer": (1, enough - 1), "enough": (enough, most), "more": (most + 1, most + 5)}
    in_a_row = chance.number(*ends[wanted], 1)
    options = chance.shuffled((*VERSIONS.values(), TWOS))
    work = Working()
    work.say(
        f"A set asks for {rule.repetitions_low} to {most} repetitions, with {rule.repetitions_left_low} left or more."
    )
    work.line("A full pull-up needs this many in a row", f"{rule.repetitions_low} + {rule.repetitions_left_low}", "", 0)
    work.say(f"More than {most} in a row call for added load. {name} does {in_a_row}, so: {VERSIONS[wanted]}.")
    short = f"A set asks for {rule.repetitions_low} repetitions or more. Short sets end far below that."
    slips = [Slip("sets cut short", letter_of(options, TWOS), 1, short)]
    (slip, other), words = TAKEN[wanted], ""
    if in_a_row < rule.repetitions_low:
        slip, words = (
            "sets cut short",
            f"{name} does {in_a_row} in a row. A set asks for {rule.repetitions_low} or more.",
        )
    slips.append(Slip(slip, letter_of(options, VERSIONS[other]), 2 if wanted == "fewer" else 3, words))
    question = (
        f"{name} is at the {level} level and has one pull-up bar. Sets should have {rule.repetitions_low} "
        f"to {most} repetitions. {name} can do {counted(in_a_row, 'clean pull-up')} in a row.",
        "Which version does the planner take?",
    )
    hint = "A set should end with some repetitions left."
    return Item(question, Choice(options, letter_of(options, VERSIONS[wanted])), hint, work, tuple(slips))


def _missed(chance, name):
    """How far a week is from a wish: half sets, whole days or pulls."""
    return chance.one_of((0.5, 1, 1.5, 2, 3, 4, 5) if WISHES[name][1] == "set" else (1, 2, 3))


def _missed_words(name, amount):
    return f"“{name}” by {'half a set' if amount == 0.5 else counted(amount, WISHES[name][1])}"


def _two_misses(chance, wanted):
    """Wishes, two of them, places between these, how far each is missed; the sums compare as ``wanted``."""
    while True:
        order, places = chance.some(tuple(WISHES), 4), chance.one_of(((0, 1), (1, 2), (2, 3), (0, 2), (1, 3)))
        pair, apart = tuple(order[place] for place in places), places[1] - places[0]
        above, below = (_missed(chance, one) for one in pair)
        if (above * 2**apart > below) - (above * 2**apart < below) == wanted:
            return order, pair, apart, (above, below)


WEEKS = ("week A", "week B", "both are equally far")


@template("10.week", section="10.7")
def which_week_is_nearer(chance):
    (name,) = people(chance, 1)
    turned, wanted = bool(chance.place(2)), chance.one_of((-1, 0, 1))  # which of the two sums is the larger one
    order, (upper, lower), apart, (above, below) = _two_misses(chance, wanted)
    weight = 2**apart
    work = Working()
    places = counted(apart, "place")
    work.say(f"“{upper}” stands {places} above “{lower}”, so a step of it counts {weight} times as much.")
    one = work.line(f"Missing “{upper}”", f"{above:g} × {weight}", "", 1)
    other = work.line(f"Missing “{lower}”", f"{below:g} × 1", "", 1)
    mine, theirs = (other, one) if turned else (one, other)
    right = WEEKS[2] if mine == theirs else WEEKS[0] if mine < theirs else WEEKS[1]
    work.say(f"The sums are equal: {right}." if mine == theirs else f"The smaller sum is the nearer week: {right}.")
    options = chance.shuffled(WEEKS)
    bare = letter_of(options, _by_amount(above, below, turned))
    slips = () if bare == letter_of(options, right) else (Slip("bare amounts", bare, 1),)
    told = [_missed_words(*pair) for pair in ((upper, above), (lower, below))][:: -1 if turned else 1]
    question = (
        f"{name}'s wishes, the most important first: {'; '.join(order)}. "
        "One step short of a wish counts as two of the next.",
        f"Week A misses {told[0]}. Week B misses {told[1]}. Which week is nearer to the wishes?",
    )
    ask = Choice(options, letter_of(options, right))
    hint = "Count 1 for each step of the lower wish, and double that for each place above it."
    return Item(question, ask, hint, work, tuple(slips))


def _by_amount(above, below, turned):
    """The week that looks nearer to somebody who compares the amounts alone."""
    first, second = (below, above) if turned else (above, below)
    return WEEKS[2] if first == second else WEEKS[0] if first < second else WEEKS[1]


@cache
def _rows(low_back):
    """Names of the rows of the table with this grade of load on the low back."""
    return tuple(one.name for one in candidates() if one.low_back == low_back and "mid-back" in one.direct)


ON_THE_BACK = (  # by grade in the table of pulls: what a row asks of the low back
    "something else carries the trunk, so the load on the low back is small",
    "the low back holds the trunk up, so the load on it is medium",
    "the low back carries the bent-over trunk and the weight, so the load on it is largest",
)


@template("10.health", "10.week", section="10.5", model=False)
def a_sore_low_back(chance):
    (name,) = people(chance, 1)
    spares = bool(chance.place(2))  # whether the row is asked that spares the back, or the one that stays out
    grades = (0, 1, 1, 2) if spares else (2, 1, 0, 0)
    rows = [*chance.some(_rows(grades[0]), 1), *chance.some(_rows(1), 1 + spares)]
    rows += chance.some(_rows(grades[-1]), 4 - len(rows))
    right, options = rows[0], chance.shuffled(rows)
    work = Working()
    work.say(f"A sore low back means: {LIMITS[LOW_BACK]}.")
    for row, grade in zip(rows, grades, strict=True):
        work.say(f"{row[0].upper()}{row[1:]}: {ON_THE_BACK[grade]}.")
    work.say(f"So the {right} {'spares the low back most' if spares else 'stays out'}.")
    slips = [
        Slip("supported for free", letter_of(options, row), line, f"In this row {ON_THE_BACK[grade]}.")
        for line, (row, grade) in enumerate(zip(rows, grades, strict=True), 2)
        if row != right
    ]
    asked = "spares the low back most" if spares else "has to stay out of the week"
    question = (
        f"{name}'s low back is stiff, with nothing down the leg. {name} says no to the other seven questions.",
        f"The gym has everything. Which of these rows {asked}?",
    )
    ask = Choice(options, letter_of(options, right))
    return Item(question, ask, "Ask what carries the trunk in each row.", work, tuple(slips))


@template("10.week", "10.grip and sets", section="10.4")
def sets_for_both_aims(chance):
    (name,) = people(chance, 1)
    aim = chance.number(6, 14, 0.5)
    helper = rules("intermediate").helper_set
    work = Working()
    each = work.line("What one set counts for the two together", f"1 + {helper:g}", "sets", 1)
    both = work.line("Both aims", f"2 × {aim:g}", "sets", 1)
    total = work.line("Sets in all", f"{both:g} / {each:g}", "sets", 1)
    work.say(f"Rounded up: {-int(-round(total, 6) // 1)} sets.")
    slips = (
        Slip("helpers for nothing", both, 1),
        Slip("helpers in full", both / 2, 1),
        Slip("one part alone", aim / each, 2, "This covers one of the two aims only. Add up both."),
    )
    question = (
        f"{name} aims at {aim:g} weekly sets for the lat and {aim:g} for the mid-back. "
        "Each pull is chosen for one of the two and helps the other.",
        "How many sets is that in all, before you round up?",
    )
    ask = Number(2 * aim / (1 + helper), "sets", 7, 20, share=0.01, within=0.1)
    return Item(question, ask, "Ask what one set counts for the two muscles together.", work, slips)
