"""Items of chapter 10: health first, a grip by forearm, weekly sets with a pencil."""

from functools import cache

from ...week import all_no, candidates, questions, rules
from ...week.groups import GROUPS
from ...week.health import LOW_BACK, REFERRAL, TODAY, before_any_week, limits_of
from ...words import counted, listed
from ..asks import Choice, Number, letter_of
from ..bank import template
from ..find_slip import find_the_slip
from ..gym import WOMEN, people, person
from ..item import Item
from ..slips import Slip
from ..working import Working

STORIES = (  # question of data/health_questions.csv, what somebody tells; "" where it is a yes to none
    ("shoulder", "{name}'s left shoulder hurts at night. Training does not make it worse."),
    ("shoulder", "{name}'s shoulder hurt when the arm went up two months ago, and sometimes still does."),
    ("arm", "{name}'s wrist hurts whenever it holds a bar."),
    ("arm", "{name}'s neck hurts on most mornings, but not in training."),
    ("chest or fainting", "{name} fainted once, ten months ago. Nobody found out why."),
    ("chest or fainting", "{name} gets short of breath on one flight of stairs."),
    ("numbness", "Two fingers of {name}'s right hand tingle again and again at night."),
    ("dislocation", "{name}'s shoulder came out years ago, went back by itself and has been fine since."),
    ("surgery", "A surgeon repaired {name}'s shoulder six years ago. It feels strong."),
    ("pregnancy", "{name} gave birth four months ago and feels well."),
    ("low back", "{name}'s low back is stiff from digging, with nothing down the leg."),
    ("low back", "{name}'s low back is sore after a long drive, with nothing down the leg."),
    ("", "{name}'s shoulder muscles are tired on the day after training. Nothing hurts."),
    ("", "{name} has never trained and says no to all eight questions."),
)
FOLLOWS = {
    "week": "a week without a limit",
    LOW_BACK: "a week without the rows that load the low back most",
    REFERRAL: "no week now; a clinician first",
}
LIGHT = "a light week first, and a clinician if it gets worse"
NO_CLINICIAN = {  # where no clinician comes first -> what is said of any other answer
    "week": "All eight questions get a no here, so there is a week without a limit.",
    LOW_BACK: "A sore low back, with nothing down the leg, leaves out the rows that load it most. That is all.",
}


def _taken(follows, option):
    """The slip of a wrong answer where no clinician comes first."""
    return "limit forgotten" if (follows, option) == (LOW_BACK, FOLLOWS["week"]) else "health question misread"


def _storyteller(chance, question):
    return chance.one_of(WOMEN) if question == "pregnancy" else people(chance, 1)[0]


@template("10.health", section="10.1", model=False)
def what_an_answer_brings(chance):
    wanted = chance.one_of(("a clinician", "a clinician", "a week"))
    fit = [one for one in STORIES if (one[0] in ("", "low back")) == (wanted == "a week")]
    question, story = chance.one_of(fit)
    name = _storyteller(chance, question)
    answers = all_no() | ({question: "yes"} if question else {})
    follows = REFERRAL if before_any_week(answers) else (*limits_of(answers), "week")[0]
    options = chance.shuffled((*FOLLOWS.values(), LIGHT))
    work = Working()
    asked = next((one for one in questions() if one.name == question), None)
    work.say(f"This is a yes to “{asked.words}”" if asked else "This is a no to all eight questions.")
    work.say(
        "A sore low back limits the choice of rows. Every other yes means a clinician first, and no week until then."
    )
    work.say(f"So: {FOLLOWS[follows]}.")
    slips = [Slip("judged by the coach", letter_of(options, FOLLOWS[other]), 2) for other in ("week", LOW_BACK)]
    slips.append(Slip("tested with a load", letter_of(options, LIGHT), 2))
    if follows != REFERRAL:
        wrong = [one for one in options if one != FOLLOWS[follows]]
        slips = [Slip(_taken(follows, one), letter_of(options, one), 2, NO_CLINICIAN[follows]) for one in wrong]
    question_text = (f"You ask the eight health questions. {story.format(name=name)}", "What comes next?")
    hint = "Ask which of the eight questions gets a yes here."
    return Item(question_text, Choice(options, letter_of(options, FOLLOWS[follows])), hint, work, tuple(slips))


URGENT = (  # question, what somebody tells, whether it is what makes it urgent there
    ("shoulder", "{name} fell on one arm. The shoulder looks out of place.", True),
    ("shoulder", "{name} cannot lift the arm since a jerk at the cable this morning.", True),
    ("shoulder", "{name}'s shoulder has hurt at night for a month.", False),
    ("arm", "After a fall {name}'s wrist is swollen and out of shape.", True),
    ("arm", "{name}'s elbow has hurt for weeks when it holds a bar.", False),
    ("chest or fainting", "{name} sits on the bench and has pain in the chest right now.", True),
    ("chest or fainting", "{name}'s chest pain of this morning comes back during the warm-up.", True),
    ("numbness", "{name}'s fingers went numb all at once in a set of pull-ups.", True),
    ("numbness", "{name}'s hand began to tingle in the last set. It does not go away.", True),
    ("numbness", "{name}'s little finger tingles now and again at night.", False),
    ("dislocation", "{name}'s shoulder slipped out at the top of a pull-up, and it is still out.", True),
    ("low back", "{name}'s low back hurts, and one leg has become weak.", True),
    ("low back", "{name}'s low back hurts, and it is numb between the legs.", True),
)
WHERE = {
    "call": "call the emergency number",
    "emergency": "go to an emergency department today",
    "clinician": "see a clinician before any week; it need not be today",
    "light": "train light today and watch it",
}


@template("10.health", "00.caution", section="10.1", model=False)
def what_cannot_wait(chance):
    kind = chance.one_of(("call", "emergency", "clinician"))
    wanted = [one for one in URGENT if _where(one) == kind]
    question, story, urgent = chance.one_of(wanted)
    (name,) = people(chance, 1)
    one = next(one for one in questions() if one.name == question)
    options = chance.shuffled(WHERE.values())
    work = Working()
    work.say(f"The question: “{one.words}”")
    work.say(f"What cannot wait: {one.today}." if one.today else "Nothing here is said to be urgent.")
    work.say(
        f"So stop at once, and {WHERE[kind]}." if urgent else f"So {WHERE[kind]}. Until then stop what brings it on."
    )
    slips = [Slip("tested with a load", letter_of(options, WHERE["light"]), 3)]
    if urgent:
        slips.append(Slip("put off", letter_of(options, WHERE["clinician"]), 2, f"This cannot wait: {one.today}."))
    if kind == "call":
        words = "Pain in the chest that is there now or comes back: call the emergency number."
        slips.append(Slip("put off", letter_of(options, WHERE["emergency"]), 3, words))
    hint = "Look for what is sudden, lasting, out of place, weak, or in the chest."
    ask = Choice(options, letter_of(options, WHERE[kind]))
    return Item((f"{story.format(name=name)} What do you do?",), ask, hint, work, tuple(slips))


def _where(row):
    """Where one row of `URGENT` leads, by what the question's own row says of a yes."""
    question, _, urgent = row
    follows = next(one.follows for one in questions() if one.name == question)
    return ("call" if follows == TODAY else "emergency") if urgent else "clinician"


ANSWERS = (  # what somebody answers: changes to "no" eight times, in words
    ({}, "says no to all eight"),
    ({"low back": "yes"}, "says yes to a sore low back and no to the rest"),
    ({"dislocation": "yes"}, "says yes to an old dislocation and no to the rest"),
    ({"surgery": "yes"}, "says yes to an old shoulder surgery and no to the rest"),
    ({"numbness": "yes"}, "says yes to numb fingers and no to the rest"),
    (
        {"dislocation": "cleared"},
        "has been cleared after a dislocation, with the limits written down, and says no to the rest",
    ),
    (
        {"shoulder": "cleared"},
        "has been cleared for a sore shoulder, with the limits written down, and says no to the rest",
    ),
    ({"pregnancy": None}, "says no to seven questions and leaves one open"),
)


@template("10.health", section="10.1", model=False)
def who_gets_a_week(chance):
    names = people(chance, 3)
    answers = chance.some(ANSWERS, 3)
    gets = tuple(before_any_week(all_no() | changed) is None for changed, _ in answers)
    subsets = [tuple(bool(code >> place & 1) for place in range(3)) for code in range(8)]

    def words(subset):
        chosen = [name for name, taken in zip(names, subset, strict=True) if taken]
        return "all three" if all(subset) else f"only {listed(chosen)}" if chosen else "nobody"

    options = chance.shuffled((words(gets), *map(words, chance.some([one for one in subsets if one != gets], 3))))
    work = Working()
    for name, (_, said), taken in zip(names, answers, gets, strict=True):
        work.say(f"{name} {said}: {'a week' if taken else 'no week now'}.")
    work.say("A yes means a clinician first, except for a sore low back. An open answer means no week.")
    slips = tuple(
        _first_misjudged(subset, gets, names, letter_of(options, words(subset)))
        for subset in subsets
        if words(subset) in options and subset != gets
    )
    told = " ".join(f"{name} {said}." for name, (_, said) in zip(names, answers, strict=True))
    question = (f"You ask the eight health questions. {told}", "Who gets a week now?")
    hint = "Go through them one by one: no, yes, cleared or still open."
    return Item(question, Choice(options, letter_of(options, words(gets))), hint, work, slips)


def _first_misjudged(subset, gets, names, letter):
    """The slip of naming these three as True or False where ``gets`` is right."""
    line = next(place for place in range(3) if subset[place] != gets[place])
    if subset[line]:
        words = f"{names[line]} gets no week now. A yes means a clinician first, and an open answer means no week."
        return Slip("judged by the coach", letter, line + 1, words)
    words = f"{names[line]} gets a week too. Read the answer again."
    return Slip("health question misread", letter, line + 1, words)


@template("10.grip and sets", "03.centimetres", section="10.2")
def a_grip_by_forearm(chance):
    name, lifter, shoulders = person(chance)
    ratio, forearm = chance.one_of((1.2, 1.3, 1.4, 1.5)), chance.number(40, 50, 1)
    work = Working()
    grip = work.line("Grip", f"{ratio} × {shoulders} cm", "cm", 1)
    rest = work.line("Grip less one forearm", f"{grip} cm − {forearm} cm", "cm", 1)
    slips = (
        Slip("whole grip", grip, 2, "This is the grip. One forearm of it is measured already."),
        Slip("shoulders added", grip + shoulders - forearm, 1),
        Slip("wrong sign", -rest, 2, "Take the forearm off the grip, not the grip off the forearm."),
    )
    question = (
        f"{name}'s shoulders are {shoulders} cm wide. From elbow to fingertips the forearm measures {forearm} cm. "
        f"You want a grip of {ratio} ×, and the bar has no marks.",
        "The grip is one forearm and how many centimetres more?",
    )
    ask = Number(100 * ratio * lifter.biacromial - forearm, "cm", 3, 30, within=0.7)
    return Item(question, ask, "Turn the grip into centimetres first.", work, slips)


FOR_LAT = ("front pulldown at 1.5 ×", "close-grip pulldown", "pull-up at 1.5 ×", "chin-up")
FOR_MID_BACK = ("chest-supported row", "supported one-arm row", "bent-over row")
FOR_BOTH = ("band row", "table row", "towel row")


@cache
def _by_name():
    return {one.name: one for one in candidates()}


def _counts(name, group, level="novice"):
    """What one set of a pull counts for a muscle group: 1 where it is chosen for it, else what a helper counts."""
    return 1.0 if group in _by_name()[name].direct else rules(level).helper_set


@template("10.grip and sets", "10.week", section="10.3")
def count_weekly_sets(chance):
    (name,) = people(chance, 1)
    group = chance.one_of(GROUPS)
    pulls = [chance.one_of(FOR_LAT), chance.one_of(FOR_MID_BACK)]
    if chance.place(2):
        pulls.append(chance.one_of(FOR_BOTH))
    sets = [chance.number(2, 8, 1) for _ in pulls]
    each = [_counts(pull, group) for pull in pulls]
    work = Working()
    for pull, worth in zip(pulls, each, strict=True):
        work.say(f"{pull[0].upper()}{pull[1:]}: a set counts {'1' if worth == 1 else '½'} for the {group}.")
    work.line("Together", " + ".join(f"{n} × {w:g}" for n, w in zip(sets, each, strict=True)), "sets", 1)
    key = sum(n * w for n, w in zip(sets, each, strict=True))
    other = next(one for one in GROUPS if one != group)
    line = len(pulls) + 1
    slips = (
        Slip("helpers in full", sum(sets), line),
        Slip("helpers for nothing", sum(n for n, w in zip(sets, each, strict=True) if w == 1), line),
        Slip(
            "wrong muscle",
            sum(n * _counts(pull, other) for n, pull in zip(sets, pulls, strict=True)),
            line,
            f"This is the count for the {other}. You are asked about the {group}.",
        ),
    )
    told = listed([f"{n} sets of the {pull}" for n, pull in zip(sets, pulls, strict=True)])
    both = f" The {pulls[2]} is chosen for both lat and mid-back." if len(pulls) > 2 else ""
    question = (f"{name} does {told} a week.{both}", f"How many weekly sets is that for the {group}?")
    ask = Number(key, "sets", 2, 24, share=0, within=0.2)
    return Item(question, ask, "A helper's set counts half.", work, slips)


def _count_lines(down, row, slip=""):
    work = Working()
    helper = rules("novice").helper_set
    lat = work.line("Pulldowns for the lat", f"{down} × 1", "sets", 1)
    as_helper = 1 if slip == "helpers in full" else helper
    more = work.line("Rows for the lat", f"{row} × {as_helper:g}", "sets", 1)
    work.line("Together for the lat", f"{lat:g} + {more:g}", "sets", 1)
    as_helper = 0 if slip == "helpers for nothing" else helper
    mid = work.line("Pulldowns for the mid-back", f"{down} × {as_helper:g}", "sets", 1)
    each = helper if slip == "chosen for half" else 1
    more = work.line("Rows for the mid-back", f"{row} × {each:g}", "sets", 1)
    work.line("Together for the mid-back", f"{mid:g} + {more:g}", "sets", 1)
    return work


@template("10.grip and sets", section="10.3")
def find_the_slip_in_a_count(chance):
    (name,) = people(chance, 1)
    down, row = chance.number(3, 9, 1), chance.number(3, 9, 1)
    pulldown, chest = chance.one_of(FOR_LAT[:2]), chance.one_of(FOR_MID_BACK)
    slip, line = chance.one_of((("helpers in full", 2), ("helpers for nothing", 4), ("chosen for half", 5)))
    right, wrong = (_count_lines(down, row, one) for one in ("", slip))
    question = (
        f"{name} does {down} sets of the {pulldown} and {row} of the {chest} a week. "
        "A classmate counts the sets for the lat and for the mid-back.",
    )
    return find_the_slip(question, wrong, right, line, slip, "Ask of each line: chosen for this muscle, or a helper?")


RANGES = ("both are in the range", "the lat falls short", "the mid-back falls short", "the lat is over the range")


@template("10.grip and sets", "10.week", section="10.3")
def does_it_reach_the_range(chance):
    (name,) = people(chance, 1)
    level, wanted = chance.one_of(("novice", "intermediate", "advanced")), chance.one_of(RANGES)
    rule = rules(level)
    low, high = rule.weekly_sets_low, rule.weekly_sets_high
    while True:
        down, row = chance.number(2, 14, 1), chance.number(0, 12, 1)
        lat, mid = down + rule.helper_set * row, rule.helper_set * down + row
        if _in_range(lat, mid, low, high) == wanted and row:
            break
    options = chance.shuffled(RANGES)
    work = Working()
    lat = work.line("For the lat", f"{down} × 1 + {row} × {rule.helper_set:g}", "sets", 1)
    mid = work.line("For the mid-back", f"{down} × {rule.helper_set:g} + {row} × 1", "sets", 1)
    work.say(f"The range is {low:g} to {high:g} for each. So {wanted}.")
    slips = {}
    for name_of, helper in (("helpers for nothing", 0), ("helpers in full", 1)):
        other = _in_range(down + helper * row, helper * down + row, low, high)
        slips.setdefault(other, Slip(name_of, letter_of(options, other), 1) if other in options else None)
    if wanted != RANGES[0]:
        slips.setdefault(RANGES[0], Slip("range misread", letter_of(options, RANGES[0]), 3))
    slips = tuple(slip for text, slip in slips.items() if slip and text != wanted)
    question = (
        f"{name} is at the {level} level: {low:g} to {high:g} weekly sets for the lat, and as many for the mid-back. "
        f"The plan has {down} sets of pulldowns and {counted(row, 'set')} of a chest-supported row.",
        "How do its weekly sets compare with the range?",
    )
    hint = "Count both muscles. Each pull helps the other one."
    return Item(question, Choice(options, letter_of(options, wanted)), hint, work, slips)


def _in_range(lat, mid, low, high):
    """The one of `RANGES` that fits these counts, "" where none or several do. [sets]"""
    true = (low <= lat <= high and low <= mid <= high, lat < low, mid < low, lat > high)
    return RANGES[true.index(True)] if sum(true) == 1 and mid <= high else ""
