"""Items of chapter 5, continued: lever, length and load told apart, ranges of length, a choice for a client."""

from functools import cache

import numpy as np

from ...mechanics.arm import raised_arm
from ...muscles import fibre_length, force_length_factor, moment_arm, paths, shoulder_muscles, turned_scapula
from ...people import Lifter
from ...repetition import coverage
from ...words import written
from ..asks import Number
from ..bank import template
from ..choosing import one_of_these, with_a_reason
from ..gym import held_pull, person
from ..item import Item
from ..slips import Slip
from ..working import Working

APART = {  # what is spoken about -> what people say
    "the lever": (
        "Overhead, the lat's line runs almost through the joint.",
        "At full reach in a close row, the lat's line passes the joint at its greatest distance.",
        "At the end of a row, the lat's line passes the joint too closely to turn the arm.",
        "If the lat attached lower on the arm, the same force would turn the arm harder.",
    ),
    "the length": (
        "In a hang the lat is stretched further when the shoulders rise.",
        "The straight-arm pulldown takes the lat from stretched nearly to its shortest.",
        "With the elbows behind the body, the lat has little left to shorten.",
        "Overhead, the lat's fibres are stretched to where they pull best, or beyond.",
    ),
    "the load": (
        "Lower the bar in a row, and the line of pull runs further below the shoulder.",
        "A wide row asks the shoulder mostly for horizontal abduction.",
        "With twice the weight on the stack, the shoulder must give twice the torque.",
        "A straight-arm pulldown asks the most of the shoulder with the arms straight ahead.",
    ),
}
NOT_THIS = {  # what it is about, what was taken -> slip, line of the solution, what to say
    ("the lever", "the length"): ("length for lever", 1, "It says how the line passes the joint, not how long it is."),
    ("the length", "the lever"): ("length for lever", 1, "It says how far the muscle is stretched, not how its line runs."),
    ("the lever", "the load"): ("load arm for muscle arm", 1, "This is about the muscle, not about the weight."),
    ("the length", "the load"): ("load arm for muscle arm", 1, "This is about the muscle, not about the weight."),
    ("the load", "the lever"): ("load arm for muscle arm", 2, "This is what the weight asks, whatever muscle answers."),
    ("the load", "the length"): ("load arm for muscle arm", 2, "This is what the weight asks, whatever muscle answers."),
}  # fmt: skip


@template("05.range", section="5.6", model=False)
def lever_length_or_load(chance):
    name, _, _ = person(chance)
    about = chance.one_of(tuple(APART))
    said = chance.one_of(APART[about])
    wrong = [(one, *NOT_THIS[about, one]) for one in APART if one != about]
    ask, slips = one_of_these(chance, about, [(one, slip, words) for one, slip, _, words in wrong], wrong[0][2])
    work = Working()
    work.say("Lever: how far from the joint the muscle's line passes. Length: how far the muscle is stretched.")
    work.say("Load: what the weight asks of the joint. You can say that without naming a muscle.")
    work.say(f"This sentence is about {about}.")
    question = (f"{name} explains full range of motion: “{said}” Is this about lever, length or load?",)
    return Item(question, ask, "Is it about the muscle's line, the muscle itself, or the weight?", work, slips)


SPANNED = ("front pulldown", "pull-up", "chin-up", "close-grip pulldown", "straight-arm pulldown", "seated row close",
           "seated row wide", "one-arm row", "bent-over row", "inverted row")  # fmt: skip


@cache
def _held_span(name):
    """Which part of the middle lat's range a pull covers with the blade held: from, to. [%]"""
    one = coverage(Lifter.average("men"), held_pull(name))
    return round(100 * float(one.shortest)), round(100 * float(one.longest))


def _gap(pair):
    """How much of the range lies between two spans. [%]"""
    low, high = sorted(map(_held_span, pair))
    return high[0] - low[1]


def _span_words(name):
    low, high = _held_span(name)
    return f"{name} ({written(low)} to {written(high)} %)"


def _pair_words(pair):
    return " and ".join(map(_span_words, pair))


def _both_cover(pair):
    """What is said of two spans without a gap."""
    (a, b), (c, d) = map(_held_span, pair)
    return f"Both cover {written(max(a, c))} to {written(min(b, d))} %, so there is no gap between them."


@template("05.range", section="5.6")
def which_pair_leaves_a_gap(chance):
    pairs = chance.shuffled([(one, other) for place, one in enumerate(SPANNED) for other in SPANNED[place + 1 :]])
    right = next(pair for pair in pairs if _gap(pair) >= 3)
    others = [pair for pair in pairs if _gap(pair) <= -3][:3]
    wrong = [(_pair_words(pair), "overlap overlooked", _both_cover(pair)) for pair in others]
    ask, slips = one_of_these(chance, _pair_words(right), wrong, 1)
    low, high = sorted(right, key=_held_span)
    work = Working()
    work.say(
        f"The {low} ends at {written(_held_span(low)[1])} %. The {high} begins at {written(_held_span(high)[0])} %."
    )
    work.say("Neither of them takes the lat through the part between these two numbers.")
    work.say("That is with the blades held still. A gap can close once they travel.")
    question = (
        "Every pull takes the lat through a part of its range. 100 % is long, with the arm overhead, and 0 % is short. "
        "(With the elbows behind the trunk it can go below 0 %.) The shoulder blades are held still.",
        "Which pair leaves a gap: a part of the range, between the two pulls, that neither of them covers?",
    )
    return Item(question, ask, "Where does the one end, and where does the other begin?", work, slips)


@cache
def _worth(part, degrees):
    """Lever to adduct [mm] and share of full force of a part of the lat, the arm raised to the side."""
    name, raised = f"latissimus dorsi {part}", np.radians(degrees)
    lengths = paths(raised_arm(raised, 0.0), turned_scapula(raised, 0.0))[0]
    share = force_length_factor(fibre_length(lengths))[shoulder_muscles().index(name)]
    return round(1000 * moment_arm(name, raised, 0.0, "adduction"), 1), round(float(share), 2)


@template("05.range", "05.lever", section="5.5")
def what_is_left_overhead(chance):
    part, high, low = chance.one_of(("upper", "middle", "lower")), chance.number(110, 150, 5), chance.number(50, 75, 5)
    model = {"upper": "superior", "middle": "middle", "lower": "inferior"}[part]
    (lever, share), (best, full) = (_worth(model, degrees) for degrees in (high, low))
    work = Working()
    above = work.line(f"Lever times force at {high}°", f"{lever} × {share:.2f}", "", 2)
    below = work.line(f"The same at {low}°", f"{best} × {full:.2f}", "", 2)
    work.line("What is left", f"100 × {above} / {below}", "%", 0)
    work.say("We assume that the lat's force is best with the arm hanging.")
    slips = (
        Slip("lever or length alone", 100 * share / full, 1, "That is the force alone. The lever is smaller too."),
        Slip("lever or length alone", 100 * lever / best, 1, "That is the lever alone. The force is smaller too."),
        Slip("upside down", 100 * below / above, 3, f"Divide what is left at {high}° by what there is at {low}°."),
        Slip("share for per cent", above / below, 3),
    )
    question = (
        f"The arm is raised to the side. At {low}° the {part} part of the lat has a lever of {best} mm to adduct. "
        f"At that length it can give {full:.2f} of its full force. "
        f"At {high}° the lever is {lever} mm, and the muscle can give {share:.2f} of its full force.",
        f"How many per cent of its adduction torque at {low}° can it still give at {high}°?",
    )
    ask = Number(100 * lever * share / (best * full), "%", 4, 90, share=0.02, within=0.6, digits=0)
    return Item(question, ask, "Torque is force times lever. Each of the two has changed.", work, slips)


OVERHEAD, ROW = "a front pulldown or a pull-up", "a close row or a one-arm row"
STRAIGHT, BOTH = "a straight-arm pulldown, light", "one pull from overhead and one row"
WHY = {  # what to choose -> why; the chapter's table, common practice, no source
    OVERHEAD: "a pull from overhead starts with the lat long",
    ROW: "in a row the lever is longest at full reach",
    STRAIGHT: "the arm goes from overhead all the way to the thigh",
    BOTH: "the lat is then worked long and short, with its lever late and early",
}
CLIENTS = (  # who, what to choose, what is said to the other choices
    ("wants one exercise that loads the lat while it is long", OVERHEAD,
     {ROW: "A row works a shorter lat. What it has at full reach is the lever.",
      STRAIGHT: "That goes through most of the range. Only about half of its torque falls in the longer half.",
      BOTH: "The client wants one exercise, and in a row the lat is shorter."}),
    ("wants one exercise with the lat's best lever right at the start", ROW,
     {OVERHEAD: "It starts with a long lat, but with almost no lever.",
      STRAIGHT: "It starts overhead, where the lat has almost no lever.",
      BOTH: "The client wants one exercise, and from overhead the lever comes late."}),
    ("holds the blades still and wants most of the lat's range in one exercise", STRAIGHT,
     {OVERHEAD: "With the blades held, it leaves out the short end of the range.",
      ROW: "With the blades held, it leaves out the long end of the range.",
      BOTH: "The client wants one exercise."}),
    ("has time for two exercises for the lat and no special wish", BOTH,
     {OVERHEAD: "There is time for two, and this one gives the lever late only.",
      ROW: "There is time for two, and this one works the lat short only.",
      STRAIGHT: "There is time for two exercises."}),
)  # fmt: skip


@template("05.range", "05.best lever", section="5.7", model=False)
def a_lat_exercise_for_a_client(chance):
    name, _, _ = person(chance)
    who, best, other = chance.one_of(CLIENTS)
    wrong = [
        (text, "lever or length alone" if text != BOTH else "read past it", words) for text, words in other.items()
    ]
    unfit = [
        (why, "wrong place", "That is the reason for another choice.") for text, why in WHY.items() if text != best
    ]
    told = "Trials compared full with partial range, and found little or nothing. We found none on the lat."
    trial = ("a trial on the lat showed that this builds more muscle", "proof from nowhere", told)
    ask, slips = with_a_reason(chance, best, wrong, WHY[best], (trial, *unfit))
    work = Working()
    work.say(f"{best[0].upper()}{best[1:]}: {WHY[best]}.")
    work.say("That is common practice, no source. No trial that we know of shows that one builds more muscle.")
    work.say("Do not choose what hurts. Start light.")
    question = (f"{name} {who}. Nothing hurts. What do you offer, and why?",)
    return Item(question, ask, "Is this wish about lever, about length or about both?", work, slips)
