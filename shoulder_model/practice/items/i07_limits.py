"""Items of chapter 7, continued: which joint sets the limit, a largest load with its span, a pull for a client."""

from functools import cache
from itertools import combinations, product

import numpy as np

from ...mechanics import pulls
from ...people import Lifter
from ...repetition import from_repetition_maximum, load_span, rep, weakest_point
from ...sharing import largest_load
from ..asks import Number, Pick
from ..bank import template
from ..choosing import apart, one_of_these, sentences, with_a_reason
from ..gym import person
from ..item import Item
from ..pictures.girdle_and_spans import torque_places, two_torques
from ..slips import Slip
from ..working import Working

OPINIONS = ("plane", "all axes")
CAUTION = "It is there to compare. It is no load to try."
HELPS = 5  # N m of the invented biceps at the shoulder, as in the chapter


def _limit(columns, per_kg):
    """Largest load of some muscles, torques (m, 2) at full effort, in a pull that asks so much a kilogram. [kg]"""
    return float(largest_load(columns.T[None], np.zeros((1, 2)), per_kg[None]).load[0])


@cache
def _three_muscles():
    """Invented muscles (m, 2) and pulls (2,) whose limit one joint sets alone; whether the shoulder; the load."""
    found = []
    for back, biceps, brachialis, elbow in product((60, 70, 80, 90), (20, 30), (30, 40, 50), (0.4, 0.6, 0.8, 1.0, 1.2)):
        columns, per_kg = np.array([[back, 0.0], [HELPS, biceps], [0.0, brachialis]]), np.array([1.0, elbow])
        joints = columns.sum(axis=0) / per_kg
        kg = _limit(columns, per_kg)
        if abs(kg - joints.min()) < 1e-6 and max(joints) > 1.12 * min(joints):
            found.append((columns, per_kg, bool(joints[0] < joints[1]), kg))
    return tuple(found)


def _told(columns, per_kg):
    """The three muscles and the pull in words."""
    (back, _), (_, biceps), (_, brachialis) = columns
    return (
        f"Take three invented muscles. At full effort the back muscle makes {back:.0f} N m at the shoulder. The biceps "
        f"makes {HELPS} N m at the shoulder and {biceps:.0f} N m at the elbow. The brachialis makes {brachialis:.0f} N m "
        "at the elbow.",
        f"For every kilogram, a pull asks 1 N m of the shoulder and {per_kg[1]:g} N m of the elbow.",
    )


@template("07.limit", section="7.4")
def largest_load_of_three_muscles(chance):
    columns, per_kg, shoulder_first, kg = chance.one_of(_three_muscles())
    (back, _), (_, biceps), (_, brachialis) = columns
    allowed = {
        "shoulder": (f"({back:.0f} + {HELPS}) / 1.0", (back + HELPS) / 1.0, back),
        "elbow": (f"({biceps:.0f} + {brachialis:.0f}) / {per_kg[1]:g}", (biceps + brachialis) / per_kg[1],
                  brachialis / per_kg[1]),
    }  # fmt: skip
    order = ("elbow", "shoulder") if shoulder_first else ("shoulder", "elbow")
    work = Working()
    for joint in order:
        work.line(f"Load at which the {joint}'s muscles are full", allowed[joint][0], "kg", 1)
    work.say(f"The {order[1]}'s muscles are full first, so the {order[1]} sets the limit. {CAUTION}")
    slips = (
        Slip("wrong joint", allowed[order[0]][1], 1, f"At this load the {order[1]}'s muscles are no longer enough."),
        Slip("muscle forgotten", allowed[order[1]][2], 2),
        Slip(
            "more than there is",
            allowed["shoulder"][1] + allowed["elbow"][1],
            3,
            "You cannot add the two joints' loads. The lower one is the limit.",
        ),
    )
    question = (*_told(columns, per_kg), "What is the largest load of this pull? (It is there to compare, not to try.)")
    ask = Number(kg, "kg", 30, 110)
    return Item(
        question, ask, "Work out for each joint the load at which its muscles are full.", work, apart(slips, ask)
    )


@template("07.limit", section="7.4")
def what_a_stronger_muscle_adds(chance):
    columns, per_kg, shoulder_first, kg = chance.one_of(_three_muscles())
    place, more = chance.one_of((0, 2)), chance.one_of((2, 4))
    stronger = columns.copy()
    stronger[place, min(place, 1)] += more
    joint = min(place, 1)
    gain, full = _limit(stronger, per_kg) - kg, more / per_kg[joint]
    right = "nothing" if gain < 0.01 else f"{gain:.1f} kg"
    muscle, other = ("back muscle", "elbow") if place == 0 else ("brachialis", "shoulder")
    why = f"The {other} sets the limit, and the {muscle} does not cross the {other}."
    if gain > 0.01:
        why = f"The {muscle} crosses the joint of the limit: {more} N m at {per_kg[joint]:g} N m for each kilogram."
    options = {"nothing": "wrong joint", f"{full:.1f} kg": "wrong joint"}
    for kg_more, slip in ((more * per_kg[joint], "multiplied for divided"), (full / 2, "factor forgotten"),
                          (2 * full, "factor forgotten")):  # fmt: skip
        options.setdefault(f"{kg_more:.1f} kg", slip)
    wrong = [(text, slip, why) for text, slip in options.items() if text != right][:3]
    ask, slips = one_of_these(chance, right, wrong, 2)
    work = Working()
    work.say(f"The {'shoulder' if shoulder_first else 'elbow'} sets the limit, at {kg:.1f} kg.")
    work.say(why)
    work.say(f"So it adds {right}.")
    question = (
        *_told(columns, per_kg),
        f"The {muscle} gets {more} N m stronger. How much does that add to the largest load of this pull?",
    )
    return Item(question, ask, "First find the joint that sets the limit.", work, slips)


@cache
def _in_pictures():
    """Those of `_three_muscles` whose places on the picture lie well apart."""

    def clear(setup):
        places = [np.array(place) for place in torque_places(setup[0], setup[1], setup[3])[0].values()]
        inside = all(place[0] < 94 and place[1] > 6 for place in places)
        return inside and min(np.hypot(*(one - other)) for one, other in combinations(places, 2)) > 7.5

    return tuple(setup for setup in _three_muscles() if clear(setup))


@template("07.limit", section="7.4")
def where_the_line_leaves_the_area(chance):
    columns, per_kg, shoulder_first, kg = chance.one_of(_in_pictures())
    picture, letters = two_torques(chance, columns, per_kg, kg)
    joint, side = ("shoulder", "right") if shoulder_first else ("elbow", "top")
    work = Working()
    work.say("As the load grows, you move along the dotted line, away from the corner at the bottom left.")
    work.say(f"The largest load is where the line leaves the area: {letters['leaves']}.")
    work.say(f"That is on the {side} edge, so the {joint}'s muscles are full there.")
    slips = (
        Slip("more than there is", letters["outside"], 2, "The muscles cannot give that pair of torques."),
        Slip("more than there is", letters["corner"], 2, "There both joints are full. The line does not pass there."),
        Slip(
            "one muscle blamed", letters["back"], 2, "There only the back muscle is full. The line does not pass there."
        ),
        Slip("less than there is", letters["inside"], 2, "There the muscles can still give more."),
    )
    question = (
        "The area shows every pair of torques that three invented muscles can give. The dotted line shows what a "
        "pull asks as its load grows.",
        "Which place shows the largest load of this pull?",
    )
    return Item(
        question,
        Pick("ABCDE", letters["leaves"]),
        "What can the muscles still give, and what can they not give?",
        work,
        slips,
        picture,
    )


@cache
def _average(sex):
    return Lifter.average(sex)


@cache
def _joints(sex, name):
    """For each opinion the joint that gives most of the limit, and how much of it in whole per cent."""
    found = []
    for opinion in OPINIONS:
        one = rep(_average(sex), pulls[name], balance=opinion)
        share = one.gives_out[weakest_point(one)]
        found.append((str(share.joint.values[share.values.argmax()]), round(100 * float(share.values.max()))))
    return tuple(found)


def _spoken(name):
    """A catalogue name as one says it."""
    return f"{name.split()[-1]} row" if name.startswith("seated row") else name


LIMITS = ("front pulldown", "pull-up", "chin-up", "seated row close", "seated row wide", "bent-over row")


@template("07.limit", section="7.4")
def which_joint_by_two_opinions(chance):
    sex, name = chance.one_of(("men", "women")), chance.one_of(LIMITS)
    (first, much), (second, other_much) = _joints(sex, name)
    told = {joint: f"The {joint} sets the limit, by both opinions." for joint in ("shoulder", "elbow")}
    unsure = "The model cannot say. Change the grip or the hand, and look again."
    right = told[first] if first == second else unsure
    agree = (f"Both opinions name the {first}.", "model trusted too little")
    differ = ("Each joint is named by one opinion only.", "one opinion heard")
    why, slip = agree if first == second else differ
    wrong = [(text, slip if text == unsure or first != second else "wrong joint", why) for text in (*told.values(), unsure)
             if text != right]  # fmt: skip
    muscle = ("The lat sets the limit, by both opinions.", "one muscle blamed", "")
    ask, slips = one_of_these(chance, right, (*wrong, muscle), 1)
    work = Working()
    work.say(f"In the plane it is the {first}. About all axes it is the {second}.")
    work.say("Where the two opinions agree, name the joint. Where they differ, the model does not know.")
    question = (
        f"Take the model's average {'man' if sex == 'men' else 'woman'} in a {_spoken(name)}. By the first opinion, in "
        f"the plane, {much} % of the limit comes from the {first}. "
        f"By the second, about all axes, {other_much} % of it comes from the {second}.",
        "What do you say about the limit of this pull?",
    )
    return Item(question, ask, "Compare the two opinions first.", work, slips)


SETS = {"men": (50, 55, 60, 65), "women": (25, 27.5, 30, 32.5)}  # kg for REPETITIONS, in a log
REPETITIONS = 8


@cache
def _load_span(sex, name, logged_kg=None):
    """The span of a largest load; with a hard set of front pulldowns in the log, the strength is known from that. [kg]"""
    known = {}
    if logged_kg:
        known["strength"] = from_repetition_maximum(_average(sex), pulls["front pulldown"], logged_kg, REPETITIONS)
    return load_span(_average(sex), pulls[name], **known)


DOUBTS = {"how strong the client is": "strength", "how the shoulder is balanced": "balance"}
NARROWER = {
    "how strong the client is": "a set of ten or fewer that the client did anyway",
    "how the shoulder is balanced": "a measurement that decides between the two opinions",
}
RISKY = ("a heaviest single, with somebody close by", "load as target", "Do not make anyone test a maximum for it.")
NO_RULE = ("a better rule for how muscles share a load", "span misread", "A largest load does not depend on that rule.")


@template("07.limit", "10.first load", section="7.4")
def a_largest_load_with_its_span(chance):
    client, lifter, _ = person(chance)
    name, logged = chance.one_of(LIMITS[:5]), chance.one_of((None, chance.one_of(SETS[lifter.sex])))
    span = _load_span(lifter.sex, name, logged)
    ends = {words: tuple(round(end) for end in span.by[key]) for words, key in DOUBTS.items()}
    widest, other = sorted(ends, key=lambda words: ends[words][0] - ends[words][1])
    wrong = ((NARROWER[other], "span misread", f"Less of the width comes from {other}."), NO_RULE, RISKY)
    ask, slips = one_of_these(chance, NARROWER[widest], wrong, 3)
    work = Working()
    for words, (low, high) in ends.items():
        work.line(f"Width from {words}", f"{high} − {low}", "kg", 0)
    work.say(f"Most of it comes from {widest}. {CAUTION}")
    known = (
        f"The log has a hard set of front pulldowns: {logged} kg for {REPETITIONS}." if logged else "There is no log."
    )
    question = (
        f"{client} is of average build. {known} For the {_spoken(name)} the panel names {span.value:.0f} kg, "
        f"with a span of {span.low:.0f} to {span.high:.0f} kg. (It is there to compare, not to try.)",
        *(
            f"With the doubt about {words} alone, the span would be {low} to {high} kg."
            for words, (low, high) in ends.items()
        ),
        "What would narrow this span most, without any risk to the client?",
    )
    return Item(question, ask, "Find out where most of the width comes from.", work, slips)


SAY_OF_LIMITS = (
    "I can name a joint that sets the limit, but not one single muscle.",
    "The span is wide because nobody has tested how strong you are.",
    "In the pull-up the model cannot say which joint stops you.",
    "A set that you did anyway, of ten or fewer, narrows the span.",
)
SAY_NOT_OF_LIMITS = (
    ("In a pulldown it is the lat that stops you, and no other muscle.", "one muscle blamed",
     "At the limit several muscles are full together. Name the joint."),
    ("Try the largest load once, carefully, and the span is gone.", "load as target",
     "A largest load is no load to try. Nobody should have to test a maximum for it."),
    ("A stronger back muscle adds to your largest load in any pull.", "wrong joint",
     "It adds nothing where the elbow sets the limit, because it does not cross the elbow."),
    ("For a man of average build, 80 kg in the pulldown is the limit.", "one number for a span",
     "Its span runs from 30 to 107 kg."),
    ("The span is wide because nobody knows how muscles share a load.", "span misread",
     "A largest load does not depend on the sharing rule. Balance and strength make its span."),
)  # fmt: skip


@template("07.limit", section="7.4", model=False)
def what_to_say_of_a_largest_load(chance):
    name, _, _ = person(chance)
    question = f"{name} asks what stops a pull, and how large a load can be. Which of these may you say?"
    hint = "What does the model know of this client, and what does it not know?"
    return sentences(chance, question, SAY_OF_LIMITS, SAY_NOT_OF_LIMITS, hint)


PULLS_FOR = (  # who, what is best, wrong choices, the reason, a wrong reason
    (
        "wants the mid-back to do the work",
        "a wide or a chest-supported row",
        (("a front pulldown with a hard squeeze", "name for cause", "In every pulldown the mid-back's share is lower."),
         ("a straight-arm pulldown", "name for cause", "In every pulldown the mid-back's share is lower.")),
        "the mid-back does a larger share of the work there than in any pulldown",
        ("every row does more for the whole back", "name for cause", "The lat does less of the work in these rows."),
    ),
    (
        "wants the lat, with less elbow work than in a chin-up",
        "a front pulldown",
        (("a chin-up with a hard squeeze", "name for cause", "The chin-up asks more of the elbow flexors."),
         ("a chest-supported row", "name for cause", "The lat does less of the work there.")),
        "the elbow flexors' share is lower there, and the spans do not overlap",
        ("the lat's share is higher there than in every row", "overlap overlooked",
         "Its span overlaps those of the 45° row and the inverted row."),
    ),
    (
        "has tired elbow flexors and wants to rest them",
        "a straight-arm pulldown",
        (("a chin-up", "name for cause", "The chin-up asks a lot of the elbow flexors."),
         ("a front pulldown with palms away", "name for cause", "The elbow flexors work there too.")),
        "it hardly uses the elbow flexors",
        ("the lat does a larger share there than in any other pull", "overlap overlooked",
         "Its span overlaps that of the front pulldown."),
    ),
    (
        "gets stuck near the bottom of narrow pulldowns with palms away",
        "the same pulldown with a neutral grip",
        (("more exercises for the lat", "one muscle blamed", "Elbow flexors and lat are full together there in the model."),
         ("a try at the largest load", "load as target", "")),
        "it tells you whether the elbow set the limit",
        ("the model knows the one muscle that stops a client", "one muscle blamed", ""),
    ),
    (
        "has to stop pulldowns with palms away because the elbow flexors tire first",
        "handles that let the hand be neutral",
        (("palms away with a lighter load", "factor forgotten",
          "With palms away the elbow still has less than half its pull."),
         ("a wide straight bar with the palms to the face", "caution skipped", "The forearm cannot turn that far.")),
        "palms away leave less than half of the elbow's pull",
        ("a neutral hand was shown to build a wider back", "proof from nowhere",
         "No trial that the chapter cites says so."),
    ),
)  # fmt: skip


@template("07.table", "07.limit", section="7.7", model=False)
def a_pull_for_a_client(chance):
    name, _, _ = person(chance)
    who, right, wrong, reason, other = chance.one_of(PULLS_FOR)
    grows = (
        "a trial proved that it makes the back grow fastest",
        "proof from nowhere",
        "The table says nothing of growth.",
    )
    ask, slips = with_a_reason(chance, right, wrong, reason, (other, grows))
    work = Working()
    work.say(f"{right[0].upper()}{right[1:]}: {reason}.")
    work.say("Do not promise growth. Start light and control the way back.")
    work.say("Pain, numbness, a past dislocation or surgery: stop, and see a licensed clinician.")
    question = (f"{name} {who}. Nothing hurts. What do you offer first, and why?",)
    return Item(
        question,
        ask,
        "Ask which differences of the table you can trust, and what a change of grip can tell you.",
        work,
        slips,
    )
