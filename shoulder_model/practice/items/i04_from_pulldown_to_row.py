"""Items of chapter 4: the pull angle, three torques, grip and touch point of a row, two gym rules, trials."""

from dataclasses import replace
from functools import cache

import numpy as np

from ...evidence import comparisons
from ...mechanics import tape_law
from ...people import Lifter
from ...tables import read_table
from ...words import listed, written
from ..asks import Choice, Number, Order, Pick, Reasoned
from ..bank import template
from ..find_slip import find_the_slip
from ..gym import GRAVITY, held_pull, person
from ..item import Item
from ..pictures.forest import forest
from ..pictures.marks import line_between
from ..pictures.row_and_lever import dial, side_of_row
from ..slips import Slip
from ..working import Line, Working

OPTIONS, REASONS = "abcdefgh", "12345678"


def _asked(pull, lifter):
    """What a straight pull asks: adduction, extension, horizontal abduction. [N m]"""
    return tape_law(pull.force(lifter), pull.hand_offset(lifter), pull.line_offset(lifter), pull.pull_angle)


def _lean_words(lean):
    return f"leans {'back' if lean > 0 else 'forward'} by {abs(lean)}°"


SET_UPS = (  # what is pulled, the catalogue's pull, the load's direction in the room, leans
    ("sits at a cable that pulls straight ahead", "seated row wide", 90, (-20, -15, -10, 10, 15, 20)),
    ("rows a barbell while bent over", "bent-over row", 180, (-70, -60, -50, -45, -40)),
    ("rows two dumbbells with the chest on a bench", "chest-supported row", 180, (-60, -50, -45, -35, -30)),
    ("sits at a cable that pulls at 45° from straight up", "seated row wide", 45, (5, 10, 15, 20, 25, 30)),
)


@template("04.three directions", section="4.2")
def pull_angle_of_a_set_up(chance):
    name, _, _ = person(chance)
    words, pull, room, leans = chance.one_of(SET_UPS)
    lean = chance.one_of(leans)
    set_up = held_pull(pull, room_angle=np.radians(room), trunk_lean=np.radians(lean))
    work = Working()
    down = {180: " A free weight pulls straight down.", 90: " Straight ahead is a quarter turn."}.get(room, "")
    work.say(f"In the room the load pulls at {room}° from straight up.{down}")
    sign = "+" if lean > 0 else "−"
    work.line("Add a lean back, take off a lean forward", f"{room} {sign} {abs(lean)}", "°", 0)
    slips = (
        Slip("wrong sign", room - lean, 2, "A lean back is added, a lean forward is taken off."),
        Slip(
            "room for trunk",
            room,
            2,
            "That is the angle in the room. The pull angle counts from the trunk, which leans.",
        ),
        Slip(
            "one part alone", abs(lean), 1, "That is only the lean. Start from the direction of the load in the room."
        ),
    )
    question = (f"{name} {words}. The trunk {_lean_words(lean)}. What is the pull angle?",)
    ask = Number(float(np.degrees(set_up.pull_angle)), "°", 40, 160, share=0.0, within=1.0, digits=0)
    return Item(question, ask, "Which way does the load pull in the room? How does the lean change that?", work, slips)


@template("04.three directions", section="4.2")
def arrow_at_a_pull_angle(chance):
    lean = chance.one_of((-60, -30, 30))
    angle = chance.one_of([one for one in (30, 60, 90, 120, 150) if 0 <= one + lean <= 180])
    others = [one for one in range(0, 181, 30) if one not in (angle, angle + lean)]
    picture, letters = dial(chance, lean, (angle, angle + lean, *chance.some(others, 3)))
    work = Working()
    work.say("0° is straight up along the trunk, towards the head. 90° is straight ahead of the chest.")
    work.say(f"The trunk {_lean_words(lean)}, and 0° leans with it. From there go round to the front by {angle}°.")
    work.say(f"That is arrow {letters[angle]}.")
    told = f"This arrow is {angle}° from straight up in the room, but the trunk leans."
    slips = [Slip("room for trunk", letters[angle + lean], 2, told)]
    other = letters.get(180 - angle, letters[angle])
    if other not in (letters[angle], letters[angle + lean]):
        slips.append(Slip("wrong direction", other, 1, "You counted from the feet. 0° is towards the head."))
    question = (
        f"The lifter looks to the right and {_lean_words(lean)}. Which arrow shows a load with a pull angle of {angle}°?",
    )
    ask = Pick("ABCDE", letters[angle])
    return Item(question, ask, "Find 0° first. It lies along the trunk.", work, tuple(slips), picture)


@template("04.three directions", "03.both torques", section="4.3")
def part_from_w_at_an_angle(chance):
    name, _, _ = person(chance)
    load, angle = chance.number(20, 60, 5), chance.one_of((15, 20, 25, 30, 35, 50, 55, 60, 70, 75))
    w, a = chance.number(6, 16, 1), chance.number(8, 20, 1)
    asked, function, other = chance.one_of((("adduction", "cos", "sin"), ("horizontal abduction", "sin", "cos")))
    work = Working()
    force = work.line("Pull on one hand", f"{load} kg / 2 × {GRAVITY} N/kg", "N", 1)
    whole = work.line("The part from w", f"{force} N × {w / 100:.2f} m", "N m", 2)
    work.line(asked.capitalize(), f"{whole:.2f} N m × {function} {angle}°", "N m", 1)
    share = {one: float(getattr(np, one)(np.radians(angle))) for one in ("sin", "cos")}
    told = f"{asked.capitalize()} goes with the {'cosine' if function == 'cos' else 'sine'} of the pull angle."
    slips = (
        Slip("sine for cosine", whole * share[other], 3, told),
        Slip("degrees for radians", whole * float(getattr(np, function)(angle)), 3),
        Slip("wrong length", force * a / 100 * share[function], 2, "You took a, which makes extension. Take w here."),
        Slip("whole load", 2 * whole * share[function], 1),
    )
    question = (
        f"{name} pulls {load} kg with both hands at a pull angle of {angle}°, with w = {w} cm and a = {a} cm. "
        f"How much {asked} does the load ask of each shoulder? (Take {GRAVITY} N/kg. Leave out the arm's own weight.)",
    )
    pull = held_pull("seated row wide", load_kg=load, room_angle=np.radians(angle))
    torque = tape_law(float(pull.force(Lifter.average("men"))), w / 100, a / 100, pull.pull_angle)
    ask = Number(float(torque[0 if function == "cos" else 2]), "N m", 1.5, 50, within=0.1)
    return Item(question, ask, "w makes adduction overhead and horizontal abduction ahead.", work, slips)


@template("04.row", "04.three directions", "02.line", section="4.2")
def which_line_is_a_in_a_row(chance):
    picture, letters = side_of_row(chance, chance.number(9, 19, 1), chance.one_of((0, 2, 4, 6)))
    work = Working()
    work.say("The cable pulls straight ahead, along the dashed line.")
    work.say("In a row, a is measured from the shoulder joint downward, at a right angle to the line of pull.")
    work.say(f"That is the line from {letters['shoulder']} to {letters['line']}.")

    def join(one, other):
        return line_between(letters, one, other)

    slips = (
        Slip("distance to the hand", join("shoulder", "hand"), 2),
        Slip("wrong length", join("shoulder", "touch"), 2, "This does not meet the line at a right angle."),
        Slip("wrong length", join("line", "hand"), 2, "This runs along the line of pull, not from the joint to it."),
        Slip("wrong joint", join("elbow", "touch"), 2),
        Slip("wrong joint", join("hip", "line"), 2),
    )
    question = (
        "The picture shows a seated row from the side. The cable pulls straight ahead. Which two places do you join to get a? "
        "(The pull on one hand times a gives extension.)",
    )
    return Item(
        question,
        Pick("ABCDEF", join("shoulder", "line")),
        "Start from the joint. Which way does a run in a row?",
        work,
        slips,
        picture,
    )


def _row_lines(load, room, lean, w, slip=""):
    """Horizontal abduction in a high row, by hand, with one slip in it or none."""
    work = Working()
    part = f"{load} kg" if slip == "whole load" else f"{load} kg / 2"
    force = work.line("Pull on one hand", f"{part} × {GRAVITY} N/kg", "N", 1)
    sign = "−" if slip == "wrong sign" else "+"
    angle = work.line("Pull angle", f"{room} {sign} {lean}", "°", 0)
    arm = f"{w} m" if slip == "cm for m" else f"{w / 100:.2f} m"
    whole = work.line("The part from w", f"{force} N × {arm}", "N m", 2)
    function = "cos" if slip == "sine for cosine" else "sin"
    work.line("Horizontal abduction", f"{whole:.2f} N m × {function} {angle:.0f}°", "N m", 1)
    return work


@template("04.three directions", "04.row", section="4.3")
def find_the_slip_in_a_high_row(chance):
    name, _, _ = person(chance)
    load, room, lean = chance.number(20, 60, 5), chance.one_of((50, 60, 70)), chance.one_of((5, 10, 15, 20))
    w = chance.number(8, 16, 1)
    slip, line = chance.one_of((("whole load", 1), ("wrong sign", 2), ("cm for m", 3), ("sine for cosine", 4)))
    right, wrong = (_row_lines(load, room, lean, w, one) for one in ("", slip))
    question = (
        f"{name} rows {load} kg with both hands. The cable pulls at {room}° from straight up. "
        f"The trunk leans back by {lean}°, and w = {w} cm.",
        "A classmate works out how much horizontal abduction the load asks of each shoulder.",
    )
    item = find_the_slip(question, wrong, right, line, slip)
    if slip != "sine for cosine":
        return item
    told = f"The slip was in line {line}: the cosine is for adduction. Horizontal abduction goes with the sine."
    return replace(item, working=(*item.working[:-1], Line(told)))


@template("04.row", section="4.4")
def order_rows_by_extension(chance):
    name, lifter, _ = person(chance)
    load, grips = chance.number(20, 50, 5), chance.some((1.0, 1.2, 1.5, 1.8, 2.0), 4)
    touches = chance.shuffled(("upper chest", "mid chest", "lower chest", "lower ribs"))
    rows = tuple(zip(touches, grips, strict=True))
    ways = [held_pull("seated row wide", touch=touch, grip_ratio=grip, load_kg=load) for touch, grip in rows]
    asked = [float(_asked(pull, lifter)[1]) for pull in ways]
    order, by_grip = ("".join(OPTIONS[place] for place in np.argsort(value)) for value in (asked, grips))
    work = Working()
    for torque, (touch, grip) in sorted(zip(asked, rows, strict=True)):
        work.say(f"To the {touch}, grip {grip} ×: {written(torque)} N m of extension")
    work.say("In a row, a is how far below the shoulder the line runs. A lower touch point means more extension.")
    work.say("The grip sets w, and w makes horizontal abduction here.")
    told = "You went by the grip. The grip sets horizontal abduction."
    wrong = {by_grip, by_grip[::-1]} - {order, order[::-1]}
    slips = (Slip("order turned round", order[::-1], 5), *(Slip("wrong length", one, 6, told) for one in sorted(wrong)))
    question = (
        f"{name} does a seated row with {load} kg in four ways. Put them in order of the extension that the load asks for.",
    )
    things = tuple(f"to the {touch}, grip {grip} ×" for touch, grip in rows)
    ask = Order(things, order, "least extension first")
    return Item(question, ask, "Which of the two lengths makes extension?", work, slips)


@template("04.rules", "04.three directions", section="4.5")
def how_much_of_a_row_is_a_lean(chance):
    name, lifter, _ = person(chance)
    lean = chance.one_of((10, 15, 20, 25, 30, 35, 40))
    words, function, part, full = chance.one_of((
        ("How much of the upright pulldown's adduction is left, in per cent?", "cos", 0, 0),
        ("How much of the horizontal abduction of a full row with the same grip is there now, in per cent?", "sin", 2, 90),
    ))  # fmt: skip
    other = {"cos": "sin", "sin": "cos"}[function]
    leaning = [held_pull("front pulldown", load_kg=40, trunk_lean=np.radians(one)) for one in (lean, full)]
    here, whole = (float(_asked(pull, lifter)[part]) for pull in leaning)
    work = Working()
    work.say(f"The cable pulls straight up, so the pull angle is the lean, {lean}°.")
    work.line("Share", f"100 × {function} {lean}°", "%", 0)
    linear = 100 * lean / 90
    told = "Adduction goes with the cosine of the pull angle, horizontal abduction with the sine."
    slips = (
        Slip("sine for cosine", 100 * float(getattr(np, other)(np.radians(lean))), 2, told),
        Slip("degrees for radians", 100 * float(getattr(np, function)(lean)), 2),
        Slip("share for per cent", here / whole, 2),
        Slip("straight proportion", linear if function == "sin" else 100 - linear, 2),
    )
    question = (
        f"“Lean back and your pulldown becomes a row,” says a coach. So {name} leans back by {lean}° under a pulldown "
        f"and stays there. {words}",
    )
    ask = Number(100 * here / whole, "%", 10, 99, share=0.02, within=1.0, digits=0)
    return Item(question, ask, "Which of sine and cosine is 1 at 0°, and which is 1 at 90°?", work, slips)


RULES = (  # what is said, verdict, the reason that fits
    ("Lean back by {lean}° and your pulldown becomes a row.", "half true",
     "most of the adduction is left, and some of a row's horizontal abduction is added"),
    ("Pulldowns are for the lat, and rows are not.", "not true",
     "grip and touch point say what the load asks of the shoulder, and the name does not"),
    ("Rows are for the mid-back, the wide row most of all.", "mostly true",
     "a load from ahead asks you to draw the blades back, and wider hands ask for more"),
)  # fmt: skip


@template("04.rules", section="4.6", model=False)
def judge_a_gym_rule(chance):
    name, _, _ = person(chance)
    said, verdict, why = chance.one_of(RULES)
    options = chance.shuffled(("mostly true", "half true", "not true"))
    claimed = "a trial has shown which of the two makes the muscle grow more"
    reasons = chance.shuffled((*(reason for _, _, reason in RULES), claimed))
    work = Working()
    work.say(f"{verdict.capitalize()}: {why}.")
    work.say("As for growth: we found no trial that says which of the two makes a lat grow more.")
    slips = (Slip("proof from nowhere", f"*{reasons.index(claimed) + 1}", 2),)
    said = said.format(lean=chance.one_of((20, 25, 30)))
    question = (f"{name} has heard a rule: “{said}” Is it true, and why or why not?",)
    ask = Reasoned(options, reasons, f"{OPTIONS[options.index(verdict)]}{REASONS[reasons.index(why)]}")
    return Item(question, ask, "Ask what the load asks of the shoulder, and of the blade.", work, slips)


NAMED = (  # the catalogue's pull, its kind, grips
    ("chin-up", "from overhead", (1.0,)), ("pull-up", "from overhead", (1.5, 1.8)),
    ("front pulldown", "from overhead", (1.0, 1.5, 2.0)), ("seated row wide", "row", (1.0, 1.5, 1.8)),
    ("one-arm row", "row", (1.0,)), ("bent-over row", "row", (1.0, 1.6)),
)  # fmt: skip
OUTSIDE = "Here the hands are outside the shoulders, so w is not 0. There is more than extension."
SHORT = {"seated row wide": "seated row", "one-arm row": "one-arm row, hand level with the shoulder"}


@cache
def _named():
    """All of `NAMED` with their grips: words, kind and whether the load asks for extension alone."""
    lifter, found = Lifter.average("men"), []
    for name, kind, grips in NAMED:
        for grip in grips:
            torque = np.abs(_asked(held_pull(name, grip_ratio=grip, load_kg=40), lifter))
            words = SHORT.get(name, name) + ("" if name == "one-arm row" else f", hands at {grip} × the shoulders")
            found.append((words, kind, torque[0] + torque[2] < 0.01 * torque[1]))
    return found


@template("04.rules", "04.three directions", section="4.6")
def same_torque_under_another_name(chance):
    alone = chance.shuffled([one for one in _named() if one[2]])
    given = alone[0]
    right = next(one for one in alone if one[1] != given[1])
    mixed = chance.shuffled([one for one in _named() if not one[2]])
    same_kind = [one for one in mixed if one[1] == given[1]][:2]
    options = chance.shuffled((right, *same_kind, next(one for one in mixed if one[1] != given[1])))
    words = tuple(one[0] for one in options)
    work = Working()
    work.say(f"In the {given[0]}, the hand is in line with the shoulder, so w = 0. Only extension is left.")
    work.say(f"In the {right[0]}, w = 0 too.")
    work.say("In the others w is not 0. So there is adduction, abduction or horizontal abduction as well.")
    wrong = [(letter, one[1] == given[1]) for letter, one in zip(OPTIONS, options, strict=False) if one is not right]
    slips = tuple(Slip("name for cause" if like else "wrong length", letter, 3, OUTSIDE) for letter, like in wrong)
    question = (f"Think of this pull: {given[0]}. Which other pull asks the shoulder for the same kind of torque?",)
    ask = Choice(words, OPTIONS[options.index(right)])
    return Item(question, ask, "What is w in each of them, and which torques are left?", work, slips)


MUSCLES = {"latissimus dorsi": "lat", "middle trapezius": "mid-back", "biceps brachii": "biceps"}
SIDES = {  # as the table has them -> as one says them
    "row, blades back": "row with the blades drawn back", "drawn back": "row with the blades drawn back",
    "free": "row with the blades free", "wide pulldown": "wide pulldown", "supinated pulldown": "underhand pulldown",
}  # fmt: skip
PAIRS = (("row, blades back", "wide pulldown"), ("row, blades back", "supinated pulldown"), ("drawn back", "free"))


@cache
def _effects(pair):
    """Muscle -> difference of two sides of the trial with holds, and one of its rows, which says who and where."""
    rows = [one for one in comparisons() if (one.study, one.first, one.second) == ("dynmed2004a", *pair)]
    return {MUSCLES[one.muscle]: one.effect() for one in rows}, rows[0]


MISREAD = {  # what may be read off the forest plot -> the slip where it is wrong
    "for all three": ("zero inside", "A dot right of zero is not enough. Look at both ends of each line."),
    "only for the biceps": ("zero inside", "Zero lies inside the line of the biceps."),
    "only for the lat and mid-back": ("zero inside", "Zero lies inside these two lines as well."),
    "for none of them": ("zero outside for inside", "Two of the lines lie wholly to the right of zero."),
}


@template("04.trials", "09.effect size", section="4.8", model=False)
def forest_of_a_drawn_back_row(chance):
    sides = chance.one_of(PAIRS)
    effects, trial = _effects(sides)
    first, second = (SIDES[one] for one in sides)
    results = [(name, effects[name].value, *effects[name].interval) for name in chance.shuffled(tuple(effects))]
    clear = [name for name in ("lat", "mid-back", "biceps") if np.prod(effects[name].interval) > 0]
    right = f"only for the {listed(clear)}" if clear else "for none of them"
    options = chance.shuffled(tuple(MISREAD))
    work = Working()
    for name, _, low, high in results:
        ends = f"from {written(low, 2, sign=True)} to {written(high, 2, sign=True)}"
        work.say(f"{name.capitalize()}: {ends}, {'on one side of zero' if name in clear else 'zero is inside'}.")
    work.say("The trial does not say how alike the readings of one man are, so the intervals assume a value.")
    work.say("All men held the same load, and all signals were low. A signal is not growth.")
    wrong = [(OPTIONS[place], *MISREAD[one]) for place, one in enumerate(options) if one != right]
    slips = tuple(Slip(slip, letter, 0, told) for letter, slip, told in wrong)
    question = (
        f"{trial.citation}, {trial.who}: the plot compares muscle signals in the {first} and in the {second}. "
        f"A dot to the right of zero means that the {first} had more. The unit is the SD between the men, and the "
        "lines are 95 % intervals.",
        "For which muscles does the whole interval lie on one side of zero?",
    )
    picture = forest(results, f"the {first}", f"the {second}")
    ask = Choice(options, OPTIONS[options.index(right)])
    return Item(question, ask, "Look where the two ends of each line lie.", work, slips, picture)


FREE_WEIGHT = "bilateral free-weight vs bilateral machine"  # as evidence.csv has it
TRIALS = (  # study, citation as the chapter has it, what somebody makes of it, the fair answer, misreadings
    ("dynmed2004a", "Dynamic Medicine 2004;3:4",
     "The lat's signal was {row} % in the row with blades drawn back and {pulldown} % in the pulldown. So I drop pulldowns.",
     "all held one and the same load, and the men differed as much as the exercises",
     ("right, because so much more signal has to make the lat grow more as well",
      "right, because so much more signal means that the lat pulls with more torque")),
    ("jpfsm2005a", "Jpn J Phys Fitness Sports Med 2005;54(2):159-168",
     "The seated row had as much lat signal as the pulldown, so both build the same lat.",
     "few men, only the order is given, and a signal is not growth",
     ("right, because a muscle with the same signal grows by the same amount",
      "no, but it does show that the lat pulls with the same torque in both")),
    ("jscr2009c", "J Strength Cond Res 2009;23(2):350-358",
     "The inverted row had the most lat signal of three rows, so it builds the most lat.",
     "the loads were not matched, so the row itself may not be the reason",
     ("right, because the muscle with the most signal is the one that grows most",
      "no, but it does show that the lat pulls with the most torque there")),
    ("ijsm2015a", "Int J Sports Med 2015;36(11):900-905",
     "The free-weight row had {more} % more signal in the back extensors, so their torque is {more} % larger.",
     "trust the order and not the per cent, because a signal is not a torque",
     ("right, and with so much more torque these muscles will also grow more",
      "right, because signal and torque of a muscle rise by the same share")),
)  # fmt: skip


@cache
def _read():
    """What the trials of `TRIALS` printed, by the names that stand in the claims. [%]"""
    means = _effects(PAIRS[0])[1].means
    more = next(row["mean"] for row in read_table("evidence.csv") if row["condition"] == FREE_WEIGHT)
    return {"row": f"{means[0]:.0f}", "pulldown": f"{means[2]:.0f}", "more": more.removeprefix("+")}


@template("04.trials", "09.four questions", section="4.8", model=False)
def answer_a_reader_of_trials(chance):
    name, _, _ = person(chance)
    study, citation, claim, fair, (growth, torque) = chance.one_of(TRIALS)
    who = next(one for one in comparisons() if one.study == study).who
    no_use = "a trial on so few people says nothing at all, so we can leave it out"
    options = chance.shuffled((fair, growth, torque, no_use))
    work = Working()
    work.say("EMG is a muscle's electrical signal. It is not a torque, and it does not say what grows.")
    work.say(f"So a fair answer is: {fair}.")
    slips = tuple(Slip("signal for torque", OPTIONS[options.index(one)], 1) for one in (growth, torque))
    few = Slip("small for nothing", OPTIONS[options.index(no_use)], 2)
    question = (
        f"{name} has read a trial on {who} ({citation}). {name} says: “{claim.format(**_read())}”",
        "What is a fair answer?",
    )
    ask = Choice(options, OPTIONS[options.index(fair)])
    return Item(question, ask, "What was measured, and what else differed?", work, (*slips, few))


CLIENTS = (  # who, what to choose, why (the chapter's table); common practice, no source
    ("wants extension from a row", "row to the lower ribs, hands at shoulder width",
     "a low touch point makes the length a large, and with w = 0 nothing else is left"),
    ("wants to load the rear deltoid and the mid-back", "wide row to the chest",
     "wide hands ask for horizontal abduction and for blades drawn back"),
    ("wants adduction and extension", "pulldown, 0 to 30° back",
     "the load pulls from above, so w makes adduction, and a makes extension"),
    ("wants to row although the low back is tired", "inverted or chest-supported row",
     "it loads the low back less than a bent-over row"),
)  # fmt: skip


@template("04.row", "04.trials", section="4.9", model=False)
def a_row_or_pulldown_for_a_client(chance):
    name, _, _ = person(chance)
    who, best, why = chance.one_of(CLIENTS)
    options = chance.shuffled(tuple(one[1] for one in CLIENTS))
    claimed = "a trial proved that this pull makes muscles grow more than the others do"
    reasons = chance.shuffled((why, *chance.some([one[2] for one in CLIENTS if one[2] != why], 2), claimed))
    work = Working()
    work.say(f"{best.capitalize()}: {why}.")
    work.say("As for growth: we found no trial that says which of them makes a muscle grow more.")
    work.say("Start light, go up in small steps, and stop when it hurts.")
    slips = (Slip("proof from nowhere", f"*{reasons.index(claimed) + 1}", 2),)
    question = (f"{name} {who}, and has no pain. Which of these do you offer first, and why?",)
    ask = Reasoned(options, reasons, f"{OPTIONS[options.index(best)]}{REASONS[reasons.index(why)]}")
    return Item(question, ask, "What does the load have to ask for?", work, slips)
