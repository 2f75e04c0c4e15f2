"""Items of chapter 5: a lever, levers along a pull, how sure they are. Lever, length and load told apart: `i05_lever_length_load`."""

from functools import cache

import numpy as np

from ...mechanics import pulls
from ...mechanics.statics import tension_to_hold
from ...people import Lifter
from ...repetition import rep
from ...words import written
from ..asks import Number, Order, Pick, letters_by
from ..bank import template
from ..choosing import apart, sentences
from ..find_slip import find_the_slip
from ..gym import person
from ..item import Item
from ..pictures.marks import line_between
from ..pictures.row_and_lever import muscle_line
from ..slips import Slip
from ..working import Working

LAT = "latissimus dorsi middle"
NAMES = ("front pulldown", "pull-up", "close-grip pulldown", "seated row close", "one-arm row", "seated row wide")
PARTS = ("adduction", "extension", "horizontal abduction")


@cache
def _along(name):
    """The load's torque [N m] and the middle lat's levers [mm] along a catalogue pull, both (41, 3); average man."""
    one = rep(Lifter.average("men"), pulls[name], points=41, arm_weight=False, work=False)
    return one.shoulder_torque.values, 1000 * one.muscle_moment_arm.sel(muscle=LAT).values


@cache
def _lever(name):
    """The middle lat's lever along a pull, in the direction that the load asks for. (41,) [mm]"""
    asked, gives = _along(name)
    return np.sum(asked * gives, axis=1) / np.linalg.norm(asked, axis=1)


@template("05.lever", "02.muscle force", section="5.1")
def force_from_a_lever(chance):
    name, _, _ = person(chance)
    torque, lever = chance.number(10, 45, 2.5), chance.number(15, 48, 1)
    work = Working()
    metres = work.line("The lever in metres", f"{lever} / 1000", "m", 3)
    force = work.line("Torque over lever", f"{torque} N m / {metres} m", "N", 0)
    slips = (
        Slip("mm for m", torque / lever, 1),
        Slip("cm for m", force / 10, 1, "A millimetre is a thousandth of a metre, not a hundredth."),
        Slip("upside down", torque * lever / 1000, 2, "Torque is force times lever. So force is torque over lever."),
    )
    question = (
        f"The load asks {name}'s shoulder for {torque} N m. In that direction the lat has a lever of {lever} mm. "
        "What force would the lat need if it worked alone?",
    )
    ask = Number(float(tension_to_hold(torque, lever / 1000)), "N", 180, 3200, digits=0)
    return Item(question, ask, "A muscle turns a joint by its force times its lever.", work, slips)


@template("05.lever", "02.line", section="5.1")
def which_line_is_the_lever(chance):
    raised = chance.number(70, 95, 5)
    origin = chance.number(28, 34, 1), chance.number(26, 32, 1)
    picture, letters = muscle_line(chance, raised, origin, chance.number(21, 25, 1))

    def join(one, other):
        return line_between(letters, one, other)

    work = Working()
    work.say("The lever is the distance at which the muscle's line passes the joint.")
    work.say("Go from the joint to the line at a right angle. That is the shortest way.")
    work.say(f"That is the line from {' to '.join(join('joint', 'line'))}.")
    slips = (
        Slip("wrong length", join("joint", "insertion"), 2, "The muscle ends there, but its line passes closer by."),
        Slip("length for lever", join("origin", "insertion"), 1, "That is the muscle's length, not its lever."),
        Slip("wrong length", join("joint", "origin"), 2, "The muscle starts there, but its line passes closer by."),
        Slip("wrong joint", join("line", "elbow"), 2, "Start from the shoulder joint, not from the elbow."),
        Slip("wrong length", join("joint", "spine"), 2, "That goes to the spine, not to the muscle's line."),
    )
    question = (
        f"You see an arm from behind, raised {raised}° to the side. The black line is the line of pull of the lat. "
        "Which two places do you join to draw the lat's lever at the shoulder?",
    )
    hint = "At what distance does the line pass the joint?"
    return Item(question, Pick("ABCDEF", join("joint", "line")), hint, work, slips, picture)


def _told_levers(asked, gives, used):
    """The load's parts [N m] and the lat's levers [mm], a line each."""
    for place, part in enumerate(PARTS):
        if place in used:
            yield (
                f"{part.capitalize()}: the load asks for {written(asked[place], 1)} N m, "
                f"the lat's lever is {written(gives[place], 1)} mm."
            )
        else:
            yield f"{part.capitalize()}: the load asks for almost none, so leave it out."


@template("05.lever", "a1.direction", section="5.3")
def three_levers_become_one(chance):
    name, point = chance.one_of(NAMES), chance.one_of((12, 16, 20, 24, 28))
    asked, gives = (np.round(part[point], 1) + 0.0 for part in _along(name))
    used = [place for place in range(3) if abs(asked[place]) >= 0.5]
    total, size = float(np.dot(asked[used], gives[used])), float(np.linalg.norm(asked[used]))
    work = Working()
    products = [float(asked[place] * gives[place]) for place in used]
    signs = ["−" if value < 0 else "+" for value in products]
    terms = [f"{sign} {abs(asked[place]):g} × {abs(gives[place]):g}" for sign, place in zip(signs, used, strict=True)]
    whole = work.line("Multiply part by part, add up", " ".join(terms).removeprefix("+ "), "", 0)
    squares = " + ".join(f"{abs(asked[place]):g}²" for place in used)
    length = work.line("Size of the torque", f"√({squares})", "N m", 1)
    work.line("Divide", f"{whole:.0f} / {length}", "mm", 1)
    slips = (
        Slip("minus dropped", sum(map(abs, products)) / size, 1),
        Slip("not divided", total, 3, "Divide by the size of the torque."),
        Slip("added for root", total / sum(abs(asked[used])), 2, "Do not add the parts: square, add, take the root."),
        Slip("upside down", size / total, 3, "Divide the sum by the size of the torque, not the other way round."),
    )
    question = (
        f"{name.capitalize()}, after {2.5 * point:.0f} % of the way, with the middle part of the lat:",
        *_told_levers(asked, gives, used),
        "A minus means the opposite direction. How long is the lat's lever in the direction that the load asks for?",
    )
    ask = Number(total / size, "mm", 5, 60, within=0.4)
    return Item(question, ask, "Multiply part by part, add up, and divide by the size of the torque.", work, slips)


def _lever_lines(asked, gives, slip=""):
    """The solution by hand of two parts, with one slip in it or none."""
    work = Working()
    sign = "+" if slip == "minus dropped" else "−"
    products = f"{asked[0]} × {gives[0]} {sign} {asked[1]} × {gives[1]}"
    whole = work.line("Multiply part by part, add up", products, "", 0)
    inside = f"{asked[0]} + {asked[1]}" if slip == "added for root" else f"√({asked[0]}² + {asked[1]}²)"
    size = work.line("Size of the torque", inside, "N m", 1)
    parts = (size, f"{whole:.0f}") if slip == "upside down" else (f"{whole:.0f}", size)
    work.line("Divide", f"{parts[0]} / {parts[1]}", "mm", 2 if slip == "upside down" else 1)
    return work


@template("05.lever", section="5.3")
def find_the_slip_in_a_lever(chance):
    name, _, _ = person(chance)
    asked = chance.number(20, 35, 1), chance.number(8, 18, 1)
    gives = chance.number(25, 45, 1), chance.number(5, 12, 1)
    slip, line = chance.one_of((("minus dropped", 1), ("added for root", 2), ("upside down", 3)))
    right, wrong = (_lever_lines(asked, gives, one) for one in ("", slip))
    question = (
        f"A load asks {name}'s shoulder for {asked[0]} N m of extension and {asked[1]} N m of horizontal abduction. "
        f"The lat's levers for these are {gives[0]} mm and −{gives[1]} mm.",
        "A classmate works out the lat's lever in the direction that the load asks for.",
    )
    return find_the_slip(question, wrong, right, line, slip)


@template("05.lever", "05.range", section="5.1")
def arc_round_a_ball(chance):
    radius, turn = chance.number(15, 30, 1), chance.number(20, 80, 5)
    work = Working()
    work.say(f"Round a ball the lever is the radius, {radius} mm, at every angle. The straight ends keep their length.")
    radians = work.line("The turn in radians", f"{turn} × 3.1416 / 180", "", 3)
    work.line("Lever times turn", f"{radius} mm × {radians}", "mm", 1)
    turned = float(np.radians(turn))
    slips = (
        Slip("degrees for radians", radius * turn, 2, "It is the radius for each radian, not for each degree."),
        Slip("length for lever", radius, 1, "This is the lever. The growth is the lever times the turn."),
        Slip("upside down", radius / turned, 3, "The growth is the lever times the turn. You divided by the turn."),
    )
    question = (
        f"A muscle wraps around a ball with a radius of {radius} mm. The joint is at the middle of the ball. "
        f"The arm turns by {turn}°, so that more of the muscle lies on the ball. By how much does the muscle get longer?",
    )
    ask = Number(radius * turned, "mm", 4, 45, within=0.2)
    return Item(question, ask, "The arc grows by the radius for each radian.", work, apart(slips, ask))


@template("05.best lever", section="5.2")
def order_pulls_by_best_place(chance):
    row = chance.one_of(("seated row close", "one-arm row"))
    others = ("front pulldown", "pull-up", "close-grip pulldown", "seated row wide")
    names = chance.shuffled((row, *chance.some(others, 3)))
    best = [int(_lever(name).argmax()) for name in names]
    order = letters_by(best)
    work = Working()
    for place, name in sorted(zip(best, names, strict=True)):
        work.say(f"{name.capitalize()}: longest after {2.5 * place:.0f} % of the way, {_lever(name).max():.0f} mm")
    work.say("Pulls from overhead give the lat its lever late, rows give it early.")
    work.say("Trust the order, not the millimetres. They depend most on how far the blade travels.")
    told = "Rows give the lat its lever early, pulls from overhead give it late."
    question = (
        "An average man does these four pulls, each from straight arms to the end. His shoulder blades travel as usual. "
        "How far into each pull does the middle part of the lat reach its longest lever? Put the pulls in order.",
    )
    ask = Order(names, order, "earliest in the pull first")
    slips = (Slip("order turned round", order[::-1], 5, told),)
    return Item(question, ask, "Where in each pull does the lat's line run far from the joint?", work, slips)


@template("05.best lever", section="5.4")
def insertion_lower_or_higher(chance):
    name, _, _ = person(chance)
    lever, distance = chance.number(25, 45, 1), chance.number(47, 55, 1)
    shift, where = chance.number(4, 12, 1), chance.one_of(("lower", "higher"))
    sign = 1 if where == "lower" else -1
    work = Working()
    new = work.line("New distance", f"{distance} {'+' if sign > 0 else '−'} {shift}", "mm", 0)
    work.line("In step with the distance", f"{lever} mm × {new:.0f} / {distance}", "mm", 1)
    turned = "Lower means further from the joint." if sign > 0 else "Higher means closer to the joint."
    slips = (
        Slip(
            "added for product", lever + sign * shift, 2, "Change the lever by the same share, not by the same amount."
        ),
        Slip("wrong sign", lever * (distance - sign * shift) / distance, 1, turned),
        Slip("upside down", lever * distance / new, 2, "The new distance belongs on top, the old one below."),
    )
    question = (
        f"In the model the lat attaches to the arm {distance} mm below the middle of the joint, "
        f"and its lever is {lever} mm. {name}'s lat attaches {shift} mm {where}. "
        f"The lever grows in step with that distance. How long is {name}'s lever?",
    )
    ask = Number(lever * (distance + sign * shift) / distance, "mm", 15, 70, share=0.015)
    hint = "How far from the joint does it attach now? Compare that with the model."
    return Item(question, ask, hint, work, apart(slips, ask))


SAFE = (  # what one may say
    "In a pulldown your lat has its best lever from halfway until shortly before your chest.",
    "In a close row your lat has its best lever at full reach.",
    "How far the blade travels decides how much lever is left at the end.",
    "Nobody we know of has measured the lat's lever during a pulldown.",
    "The order of these levers is safer than their millimetres.",
)
BOLD = (  # what goes too far, the slip, why
    ("In the last tenth of a pulldown your lat still has a good lever.",
     "model trusted too far", "The end of the pull depends on how far the blade travels. Promise nothing there."),
    ("A pulldown builds more lat than a row, because it loads the lat while it is long.",
     "proof from nowhere", "We found no such trial on the lat."),
    ("At the very top your lat is strongest, because it is long there.",
     "lever or length alone", "It is long there, but it has almost no lever."),
    ("Squeeze at the end of a row: there the lat has its best lever.",
     "wrong place", "At the end of a row the lat has little or no lever left."),
    ("In a good pulldown your lat gets a lever of 10 cm.",
     "wrong length", "No lever is longer than the way from the joint to the muscle's end on the arm. That is about 5 cm."),
    ("All three parts of the lat reach their best lever at the same point of the pull.",
     "model trusted too far", "The three parts reach it at different points."),
)  # fmt: skip


@template("05.best lever", "05.range", section="5.4", model=False)
def what_you_may_tell_a_client(chance):
    name, _, _ = person(chance)
    question = f"{name} asks you about the lat. Which of these may you say?"
    return sentences(chance, question, SAFE, BOLD, "Which one claims no more than is known?")
