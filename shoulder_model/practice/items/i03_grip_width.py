"""Items of chapter 3: grips in centimetres, what changes with a wider grip, both torques by hand, a grip for a person."""

import numpy as np

from ...mechanics import tape_law, tape_law_margin
from ...words import written
from ..asks import Choice, Number, Order, Pick, Reasoned, letter_of, letters_by
from ..bank import template
from ..find_slip import find_the_slip
from ..gym import GRAVITY, held_pull, person
from ..item import Item
from ..pictures.front_view import front_of_pulldown
from ..pictures.marks import line_between
from ..slips import Slip
from ..working import Working


def _pulldown(ratio, load, lean=0):
    """An upright front pulldown, or one that leans back by some degrees, blade held."""
    return held_pull("front pulldown", grip_ratio=ratio, load_kg=load, trunk_lean=np.radians(lean))


@template("03.centimetres", section="3.3")
def grip_in_centimetres(chance):
    name, _, shoulders = person(chance)
    ratio = chance.number(1.1, 2.0, 0.1)
    work = Working()
    grip = work.line("Grip", f"{ratio} × {shoulders} cm", "cm", 0)
    slips = (
        Slip("upside down", shoulders / ratio, 1),
        Slip("half the grip", grip / 2, 1),
        Slip("shoulders added", grip + shoulders, 1),
    )
    question = (
        f"{name}'s shoulders measure {shoulders} cm from one bony edge to the other. "
        f"The grip should be {ratio} × the shoulders. How far apart do the middles of the hands have to be?",
    )
    ask = Number(ratio * shoulders, "cm", 35, 95, within=1.0, digits=0)
    return Item(question, ask, "A grip of 1 × is as wide as the shoulders.", work, slips)


@template("03.centimetres", "10.grip and sets", section="3.3")
def tape_on_the_bar(chance):
    name, _, shoulders = person(chance)
    grip = chance.number(46, 78, 2)
    work = Working()
    ratio = work.line("Grip over shoulders", f"{grip} cm / {shoulders} cm", "×", 2)
    slips = (
        Slip("upside down", shoulders / grip, 1),
        Slip(
            "half the grip", ratio / 2, 1, "That is half the grip over the shoulders. The grip goes from hand to hand."
        ),
        Slip("share for per cent", 100 * ratio, 1, "A grip is counted in shoulder breadths, not in per cent."),
    )
    question = (
        f"On the bar {name}'s hands are {grip} cm apart, middle to middle. The shoulders measure {shoulders} cm. "
        "How wide is the grip, in shoulder breadths?",
    )
    ask = Number(grip / shoulders, "×", 0.9, 2.4, digits=2)
    return Item(question, ask, "Ask how many times the shoulders fit into the grip.", work, slips)


def _offset(work, grip, shoulders):
    """Lines for w: half the grip less half the shoulders."""
    return work.line("w, from the shoulder joint to the line of pull", f"{grip} cm / 2 − {shoulders} cm / 2", "cm", 1)


@template("03.both torques", "02.line", section="3.3")
def adduction_by_hand(chance):
    name, lifter, shoulders = person(chance)
    grip, load = shoulders + chance.number(8, 36, 2), chance.number(20, 60, 5)
    pull = _pulldown(grip / shoulders, load)
    work = Working()
    force = work.line("Pull on one hand", f"{load} kg / 2 × {GRAVITY} N/kg", "N", 1)
    w = _offset(work, grip, shoulders)
    torque = work.line("Adduction", f"{force} N × {w / 100:.3f} m", "N m", 1)
    slips = (
        Slip("whole load", 2 * torque, 1),
        Slip("mass for force", torque / GRAVITY, 1),
        Slip("shoulders forgotten", force * grip / 200, 2),
        Slip("whole grip", force * grip / 100, 2),
        Slip("cm for m", 100 * torque, 3),
    )
    question = (
        f"{name} sits upright and pulls {load} kg down with both hands. "
        f"The hands are {grip} cm apart, and the shoulders measure {shoulders} cm. "
        "How much adduction does the load ask of each shoulder? (Take 9.81 N/kg. Leave out the arm's own weight.)",
    )
    key = tape_law(pull.force(lifter), pull.hand_offset(lifter), pull.line_offset(lifter), pull.pull_angle)[0]
    ask = Number(float(key), "N m", 3, 80, share=0.03, within=0.15)
    return Item(
        question, ask, "Find the pull on one hand first, then how far outside the shoulder it runs.", work, slips
    )


@template("03.both torques", "04.three directions", section="3.3")
def which_line_is_w(chance):
    _, _, shoulders = person(chance)
    grip = round(chance.number(1.4, 1.9, 0.1) * shoulders)
    picture, letters = front_of_pulldown(chance, shoulders, grip, chance.number(22, 27, 1))
    work = Working()
    work.say("The cable pulls the hand straight up, along the dashed line.")
    work.say(
        "For a torque about the shoulder take the shortest way from the shoulder joint to that line, at a right angle."
    )
    work.say(f"That is the line from {letters['shoulder']} to {letters['line']}.")

    def join(one, other):
        return line_between(letters, one, other)

    slips = (
        Slip("distance to the hand", join("shoulder", "hand"), 2),
        Slip("wrong joint", join("elbow", "line"), 2),
        Slip("wrong joint", join("elbow", "hand"), 2),
        Slip("shoulders forgotten", join("chest", "line"), 2, "That is half the grip. Start at the shoulder joint."),
        Slip("shoulders forgotten", join("middle", "hand"), 2, "That is half the grip. Start at the shoulder joint."),
    )
    question = (
        "The picture shows half of a lifter under a pulldown bar, from the front. The cable pulls straight up. "
        "Which two places do you join to get w? (The pull on one hand times w gives adduction.)",
    )
    ask = Pick("ABCDEF", join("shoulder", "line"))
    return Item(
        question, ask, "Does the height of the hand matter, or only where the line of pull runs?", work, slips, picture
    )


WIDER = {  # what is moved -> what that does to the two lengths
    "grip": "Only w changed, and w makes adduction. The line of pull runs as far in front of the shoulder as before.",
    "bar": "Only a changed, and a makes extension. The line of pull runs as far outside the shoulder as before.",
}


@template("03.wider", section="3.2")
def what_a_wider_grip_changes(chance):
    (name, lifter, _), moved = person(chance), chance.one_of(tuple(WIDER))
    load, forward = chance.number(20, 60, 5), chance.number(2, 5, 1)
    narrow, wide = chance.one_of(((1.0, 1.5), (1.2, 1.8), (1.5, 2.0)))
    first, wider = (_pulldown(ratio, load) for ratio in (narrow, wide))
    then, more_a = (wider, 0) if moved == "grip" else (first, forward / 100)
    asked = [
        tape_law(pull.force(lifter), pull.hand_offset(lifter), pull.line_offset(lifter) + more, pull.pull_angle)
        for pull, more in ((first, 0), (then, more_a))
    ]
    grows = [bool(part > 0.5) for part in np.subtract(asked[1], asked[0])[:2]]
    said = {(True, False): "only adduction grows", (False, True): "only extension grows", (True, True): "both grow"}
    options = chance.shuffled((*said.values(), "neither changes"))
    right = said[tuple(grows)]
    work = Working()
    for words, torque in zip(("Before", "Afterwards"), asked, strict=True):
        work.say(f"{words}: adduction {written(torque[0])} N m, extension {written(torque[1])} N m.")
    work.say(WIDER[moved])
    wrong = [letter for letter, option in zip("abcd", options, strict=True) if option != right]
    slips = tuple(Slip("wrong length", letter, 3, WIDER[moved]) for letter in wrong)
    change = {
        "grip": f"The grip goes from {narrow} × to {wide} × the shoulders. The bar comes down in the same place.",
        "bar": f"The bar now comes down {forward} cm further in front. The grip stays at {narrow} × the shoulders.",
    }[moved]
    question = (
        f"{name} sits upright and pulls {load} kg down. {change} "
        "What happens to the adduction and the extension that the load asks for?",
    )
    hint = "Which of the two lengths, w or a, has changed?"
    return Item(question, Choice(options, letter_of(options, right)), hint, work, slips)


def tape_of(pull, lifter):
    """The load's adduction, extension and horizontal abduction. [N m]"""
    return tape_law(pull.force(lifter), pull.hand_offset(lifter), pull.line_offset(lifter), pull.pull_angle)


def _four_people(chance):
    """Four people whose grips alone do not give the order: name, lifter, shoulders and grip of each. [cm]"""
    while True:
        rows = [(*person(chance), chance.number(44, 80, 2)) for _ in range(3)]
        rows.append((*person(chance), chance.one_of((12, 16, 44, 56, 68))))
        rows = chance.shuffled(rows)
        sides = np.array([(grip - shoulders) / 2 for _, _, shoulders, grip in rows])
        named = len({name for name, *_ in rows}) == 4
        apart = np.diff(np.sort(sides)).min() >= 2 and sides[sides > 0].size >= 3
        if named and apart and list(np.argsort(sides)) != list(np.argsort([grip for *_, grip in rows], kind="stable")):
            return rows


@template("03.wider", "00.signs", section="3.2")
def order_grips_by_adduction(chance):
    rows, load = _four_people(chance), chance.number(20, 50, 10)
    asked = [float(tape_of(_pulldown(grip / wide, load), lifter)[0]) for _, lifter, wide, grip in rows]
    order, by_grip = (letters_by(values) for values in (asked, [grip for *_, grip in rows]))
    work = Working()
    for _, (name, _, wide, grip) in sorted(zip(asked, rows, strict=True), key=lambda pair: pair[0]):
        work.line(f"{name}'s w", f"{grip} cm / 2 − {wide} cm / 2", "cm", 1)
    work.say("The pull is the same for all four. So the larger w is, the more adduction the load asks for.")
    if min(asked) < 0:
        work.say("Where w is negative, the hands are inside the shoulders, and the load asks for abduction instead.")
    question = (
        f"Four people sit upright and pull {load} kg down, each with a grip of their own. "
        "Put them in order of the adduction that the load asks of each shoulder.",
    )
    slips = [Slip("order turned round", order[::-1], 5)]
    if by_grip != order[::-1]:
        told = "You went by the grip alone. Take off half of the shoulder width."
        slips.append(Slip("shoulders forgotten", by_grip, 1, told))
    things = tuple(f"{name}: hands {grip} cm apart, shoulders {wide} cm" for name, _, wide, grip in rows)
    hint = "Work out w for each: half the grip less half the shoulders."
    return Item(question, Order(things, order, "least adduction first"), hint, work, tuple(slips))


def _adduction_lines(load, grip, shoulders, slip=""):
    """The solution by hand, with one slip in it or none."""
    work = Working()
    part = f"{load} kg" if slip == "whole load" else f"{load} kg / 2"
    force = work.line("Pull on one hand", f"{part} × {GRAVITY} N/kg", "N", 1)
    if slip == "shoulders forgotten":
        w = work.line("w", f"{grip} cm / 2", "cm", 1)
    else:
        w = work.line("w", f"{grip} cm / 2 − {shoulders} cm / 2", "cm", 1)
    arm = f"{w} m" if slip == "cm for m" else f"{w / 100:.3f} m"
    work.line("Adduction", f"{force} N × {arm}", "N m", 1)
    return work


@template("03.both torques", section="3.3")
def find_the_slip_in_adduction(chance):
    name, _, shoulders = person(chance)
    load, grip = chance.number(20, 60, 5), 2 * round(0.75 * shoulders) + chance.number(0, 10, 2)
    slip, line = chance.one_of((("whole load", 1), ("shoulders forgotten", 2), ("cm for m", 3)))
    right, wrong = (_adduction_lines(load, grip, shoulders, one) for one in ("", slip))
    question = (
        f"{name} sits upright and pulls {load} kg down with both hands. The hands are {grip} cm apart, and the "
        f"shoulders measure {shoulders} cm. A classmate works out how much adduction the load asks of each shoulder.",
    )
    return find_the_slip(question, wrong, right, line, slip)


@template("03.choose", section="3.6")
def how_sure_is_a_torque(chance):
    _, lifter, _ = person(chance)
    load = f"{chance.number(20, 60, 2.5):g}"
    pull = _pulldown(1.5, float(load))
    work = Working()
    force = work.line("Pull on one hand", f"{load} kg / 2 × {GRAVITY} N/kg", "N", 1)
    error = work.line("Both errors together", "√(1.0² + 0.7²)", "cm", 2)
    margin = work.line("Give or take", f"{force} N × {error / 100:.4f} m", "N m", 1)
    slips = (
        Slip("whole load", 2 * margin, 1),
        Slip("added for root", force * 0.017, 2, "The two were added in full. Square them, add, and take the root."),
        Slip("cm for m", 100 * margin, 3),
    )
    question = (
        f"Somebody sits upright and pulls {load} kg down with both hands. The tape may be 1.0 cm off, and the joint may "
        "lie 0.7 cm to one side. The two seldom add up in full, so take the root of the sum of their squares. "
        "By how much may the adduction of each shoulder be off?",
    )
    key = float(tape_law_margin(pull.force(lifter), pull.pull_angle)[0])
    ask = Number(key, "N m", 0.8, 4.5, share=0.04)
    return Item(question, ask, "If w is off by 1 cm, by how much is force times w off?", work, slips)


CLIENTS = (  # who, what is best, the reason, other choices with other reasons
    (
        "is new to the pulldown and has no complaint",
        "1 to 1.5 ×, in front of the head",
        "this width suits most people, and nobody has shown that a wider one is better",
    ),
    (
        "wants more adduction, has trained for years and accepts a lighter load",
        "1.8 ×, in front of the head",
        "a wider grip adds adduction and takes nothing off extension",
    ),
    (
        "feels better with the elbows in front of the body than out at the sides",
        "close handles, in front of the head",
        "with the hands inside the shoulders the elbows can stay in front",
    ),
)


@template("03.choose", "10.grip and sets", section="3.8", model=False)
def a_grip_for_a_client(chance):
    name, _, _ = person(chance)
    who, best, why = chance.one_of(CLIENTS)
    options = chance.shuffled((*(choice for _, choice, _ in CLIENTS), "1.5 ×, behind the neck"))
    reasons = chance.shuffled(
        (*(reason for _, _, reason in CLIENTS), "a trial proved that this grip builds a wider back")
    )
    key = f"{'abcd'[options.index(best)]}{'1234'[reasons.index(why)]}"
    proved = next(place for place, reason in enumerate(reasons) if reason.startswith("a trial"))
    work = Working()
    work.say(f"{best[0].upper()}{best[1:]}: {why}.")
    work.say(
        "We know of no trial that measured how a back grows with one grip or another. "
        "In fifteen men the lat's signal did not differ between grips over the whole rep."
    )
    work.say("Signs of an unstable shoulder were more common in those who train behind the neck. So choose the front.")
    behind = next(letter for letter, option in zip("abcd", options, strict=True) if option.endswith("neck"))
    slips = (
        Slip("proof from nowhere", f"*{proved + 1}", 2),
        Slip("caution skipped", f"{behind}*", 3, "Choose the front of the head."),
    )
    question = (f"{name} {who}. Which grip do you offer first, and why?",)
    return Item(
        question,
        Reasoned(options, reasons, key),
        "Start from what the client wants, then ask what is known.",
        work,
        slips,
    )


MAY_SAY = (  # of grips, as the chapter has it
    "Wider adds adduction. Nobody has shown that it builds more back.",
    "Near one and a half shoulder widths adduction becomes the larger.",
    "Elbows in or out, the load asks the same of your shoulder.",
    "Fifteen men showed no difference. There may still be one.",
    "We start at one to one and a half times your shoulders.",
)
MUST_NOT = (  # what must not be said, what is wrong with it, the slip
    ("Twice the grip is twice as hard, whatever the shoulders are like.",
     "The rule fails below shoulder width. The whole torque goes with the root of w² + a².", "straight proportion"),
    ("A trial has proved that wide and narrow train the lat the same.",
     "It found no difference in fifteen men. That does not prove that there is none.", "no proof of no difference"),
    ("Go wide: the lat's signal was higher on the way up, so it grows.",
     "A signal is not growth, and with fifteen men this is only a hint.", "signal for torque"),
    ("Keep your elbows in, and the load asks for less adduction.",
     "The cue turns the arm. The line of pull stays, and so does what the load asks.", "elbows for line"),
    ("The load asks more of your shoulder the further down the bar is.",
     "The line of pull stays where it is, so the load asks the same all the way.", "distance to the hand"),
    ("With close handles the lat rests, because adduction is gone.",
     "There the shoulder turns the arm inward, and the lat does that too.", "rule of thumb"),
    ("By its torque a grip of 2 × lets you pull only half as much.",
     "In the trial the men pulled nearly as much. What a load asks is not what muscles can do.", "model trusted too far"),
)  # fmt: skip


@template("03.choose", "03.wider", section="3.7", model=False)
def what_may_you_say_about_a_grip(chance):
    name, _, _ = person(chance)
    right, wrong = chance.one_of(MAY_SAY), chance.some(MUST_NOT, 3)
    options = chance.shuffled((right, *(told for told, _, _ in wrong)))
    work = Working()
    work.say(f"You may say: “{right}”")
    for told, why, _ in wrong:
        work.say(f"Not: “{told}” {why}")
    slips = tuple(Slip(slip, letter_of(options, told), place, why) for place, (told, why, slip) in enumerate(wrong, 2))
    question = (f"{name} asks how wide to hold the pulldown bar. Which of these sentences may a coach say?",)
    ask = Choice(options, letter_of(options, right))
    return Item(question, ask, "What does the load ask for, and what has anybody measured?", work, slips)
