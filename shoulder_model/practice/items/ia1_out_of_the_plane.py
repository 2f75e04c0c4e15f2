"""Items of appendix a1: directions asked for and given, what else the lat does. Where the model ends: `ia1_edges`."""

from functools import cache

import numpy as np

from ...mechanics import pulls
from ...mechanics.statics import tension_to_hold
from ...muscles import moment_arm
from ...people import Lifter
from ...repetition import rep
from ...words import written
from ..asks import Choice, Number, Pick
from ..bank import template
from ..choosing import one_of_these, with_a_reason
from ..find_slip import find_the_slip
from ..gym import person
from ..item import Item
from ..pictures.row_and_lever import arrows
from ..slips import Slip
from ..working import Working

OPTIONS = "abcdefgh"
LAT = "latissimus dorsi middle"
MUSCLES = {"the middle lat": LAT, "teres major": "teres major", "the rear deltoid": "deltoid posterior"}
PARTS = ("adduction", "extension", "horizontal abduction")


@cache
def _along(pull, muscle):
    """The load's torque [N m] and a muscle's levers [mm] along a catalogue pull, both (41, 3); average man."""
    one = rep(Lifter.average("men"), pulls[pull], points=41, arm_weight=False, work=False)
    return one.shoulder_torque.values, 1000 * one.muscle_moment_arm.sel(muscle=MUSCLES[muscle]).values


def _fit(asked, gives):
    """The cosine between what is asked and what is given, both (3,), whatever their units."""
    return float(np.dot(asked, gives) / np.linalg.norm(asked) / np.linalg.norm(gives))


def _squares(parts):
    return f"√({' + '.join(f'{abs(part):g}²' for part in parts)})"


def _terms(asked, gives):
    """The sum of the products as it is printed; parts of which nothing is asked are left out."""
    pairs = [(one, other) for one, other in zip(asked, gives, strict=True) if one]
    text = " ".join(f"{'−' if one * other < 0 else '+'} {abs(one):g} × {abs(other):g}" for one, other in pairs)
    return text.removeprefix("+ ")


@template("a1.direction", section="a1.1")
def fit_by_hand(chance):
    pull = chance.one_of(("front pulldown", "seated row close", "seated row wide"))
    muscle = chance.one_of(tuple(MUSCLES))
    point = chance.one_of((10, 14, 18, 20, 22, 26))
    asked, gives = (np.round(part[point], 1) + 0.0 for part in _along(pull, muscle))
    asked[np.abs(asked) < 0.15] = 0.0
    total, size, long = float(np.dot(asked, gives)), np.linalg.norm(asked), np.linalg.norm(gives)
    work = Working()
    whole = work.line("Multiply line by line and add", _terms(asked, gives), "", 0)
    load = work.line("Length of the load's arrow", _squares(asked[asked != 0]), "", 1)
    own = work.line("Length of the muscle's arrow", _squares(gives), "", 1)
    work.line("Divide by both", f"{whole:.0f} / ({load} × {own})", "", 2)
    slips = (
        Slip("minus dropped", float(np.dot(np.abs(asked), np.abs(gives)) / size / long), 1),
        Slip("not divided", total / size, 4, "Divide by both lengths, the load's and the muscle's."),
        Slip("added for root", total / float(np.sum(np.abs(asked)) * np.sum(np.abs(gives))), 2, _ROOT),
        Slip("upside down", size * long / total, 4, "No fit is larger than 1. Divide the sum by the two lengths."),
    )
    pairs = zip(PARTS, asked, gives, strict=True)
    rows = [f"{name.capitalize()}: {written(one, 1)} N m and {written(other, 1)} mm." for name, one, other in pairs]
    question = (
        f"{pull.capitalize()}, after {2.5 * point:g} % of the way. "
        f"Here is what the load asks for, with the lever of {muscle}:",
        *rows,
        "A minus means the opposite direction. How large is the fit?",
    )
    ask = Number(_fit(asked, gives), "", 0.1, 1.0, share=0.02, within=0.01, digits=2)
    return Item(question, ask, "Multiply, add up, and divide by the lengths of both arrows.", work, slips)


_ROOT = "The length of an arrow is not the sum of its parts: square, add, take the root."


def _fit_lines(asked, gives, slip=""):
    """A fit by hand of two parts, the second lever a minus, with one slip in it or none."""
    work = Working()
    sign = "+" if slip == "minus dropped" else "−"
    whole = work.line("Multiply and add", f"{asked[0]} × {gives[0]} {sign} {asked[1]} × {gives[1]}", "", 0)
    load = work.line(
        "The load's arrow", f"{asked[0]} + {asked[1]}" if slip == "added for root" else _squares(asked), "", 1
    )
    own = work.line("The muscle's arrow", _squares(gives), "", 1)
    work.line("Divide", f"{whole:.0f} / {load}" if slip == "not divided" else f"{whole:.0f} / ({load} × {own})", "", 2)
    return work


@template("a1.direction", section="a1.1")
def find_the_slip_in_a_fit(chance):
    name, _, _ = person(chance)
    asked = chance.number(15, 35, 1), chance.number(15, 35, 1)
    gives = chance.number(25, 45, 1), chance.number(3, 9, 1)
    slip, line = chance.one_of((("minus dropped", 1), ("added for root", 2), ("not divided", 4)))
    right, wrong = (_fit_lines(asked, gives, one) for one in ("", slip))
    question = (
        f"A load asks {name}'s shoulder for {asked[0]} N m of extension and {asked[1]} N m of horizontal abduction. "
        f"A muscle's levers for these are {gives[0]} mm and −{gives[1]} mm, and it has no lever to adduct.",
        "A classmate works out the fit.",
    )
    return find_the_slip(question, wrong, right, line, slip)


READINGS = (  # what one asks for, the fit that comes nearest to it, the hint
    ("fits the load best", 1, "Compare directions, not lengths."),
    ("is no help", 0, "What is the fit of a muscle that is no help?"),
    ("works against you the most", -1, "What is the fit of a muscle that pulls against you?"),
)
ARROWS = {  # name -> length in the picture, slip and what is said where it is picked wrongly
    "near": (20, "wrong direction", "This one points nearly the way that the load asks for."),
    "far": (35, "lever for fit", "This arrow is long, but its direction is what counts."),
    "right angle": (29, "wrong direction", "This one stands at a right angle to the grey arrow: its fit is 0."),
    "against": (24, "wrong sign", "This one points away from what the load asks for: its fit is below 0."),
}


@template("a1.direction", section="a1.1")
def arrow_with_this_fit(chance):
    asked, side = chance.one_of((20, 30, 45, 60, 70)), chance.one_of((-1, 1))
    turns = {"near": chance.one_of((12, 16)), "far": -chance.one_of((45, 52))}
    turns |= {"right angle": 90, "against": -chance.one_of((135, 150, 160))}
    picture, letters = arrows(
        chance, asked, {one: (asked + side * turn, ARROWS[one][0]) for one, turn in turns.items()}
    )
    fits = {name: float(np.cos(np.radians(turn))) for name, turn in turns.items()}
    words, wanted, hint = chance.one_of(READINGS)
    key = min(fits, key=lambda name: abs(fits[name] - wanted))
    work = Working()
    for letter, name in sorted((letters[name], name) for name in fits):
        work.say(f"{letter}: {abs(turns[name])}° from the grey arrow, fit {written(fits[name], 2)}")
    work.say("The fit compares directions. How long an arrow is does not count.")
    slips = tuple(Slip(ARROWS[one][1], letters[one], 5, ARROWS[one][2]) for one in fits if one != key)
    question = (
        "The grey arrow is the torque that a load asks for. The black arrows are the levers of four muscles. "
        f"There is no adduction in any of them. Which muscle {words}?",
    )
    return Item(question, Pick("ABCD", letters[key]), hint, work, slips, picture)


@template("a1.the rest", "02.muscle force", section="a1.2")
def hold_against_the_turn(chance):
    degrees, torque = chance.one_of((30, 45, 60, 75, 90)), chance.number(15, 40, 2.5)
    muscle = chance.one_of(("infraspinatus", "teres minor"))
    inward, adducts, out = _turning(degrees, muscle)
    work = Working()
    turn = work.line("Torque inward", f"{torque} N m × {inward} / {adducts}", "N m", 2)
    work.line(f"Divide by the lever of {muscle}", f"{turn} N m / {out / 1000:.4f} m", "N", 0)
    slips = (
        Slip("not divided", turn, 2, f"That is the torque inward. Divide it by the lever of {muscle}."),
        Slip("mm for m", turn / out, 2),
        Slip("upside down", 1000 * torque * adducts / inward / out, 1, _SMALLER),
        Slip(
            "load arm for muscle arm",
            1000 * turn / inward,
            2,
            f"You divided by the lat's lever. Take the lever of {muscle}.",
        ),
    )
    question = (
        f"The arm is raised {degrees}° to the side, and the lat gives {torque} N m of adduction. "
        f"Its levers are {adducts} mm to adduct and {inward} mm to turn the arm in.",
        f"Suppose that {muscle} alone holds against the turn inward, with a lever of {out} mm. How hard must it pull?",
    )
    key = float(tension_to_hold(torque * inward / adducts, out / 1000))
    ask = Number(key, "N", 40, 900, digits=0)
    hint = "First find the torque inward. The lat pulls with one force, whichever of its two levers you look at."
    return Item(question, ask, hint, work, slips)


_SMALLER = "The lever to turn in is the shorter one, so the torque inward is smaller than the adduction torque."


@cache
def _turning(degrees, muscle):
    """Levers with the arm raised to the side: the lat's to turn in and to adduct, a muscle's to turn out. [mm]"""
    raised, lat = np.radians(degrees), LAT
    arms = [moment_arm(lat, raised, 0.0, axis) for axis in ("internal_rotation", "adduction")]
    return tuple(round(1000 * arm, 1) for arm in (*arms, -moment_arm(muscle, raised, 0.0, "internal_rotation")))


@cache
def _turns_in(degrees):
    """Muscle -> whether it turns the arm inward, arm raised to the side."""
    names = {one: one for one in ("teres major", "subscapularis", "infraspinatus", "teres minor")}
    names["pectoralis major"] = "pectoralis major sternal"
    return {words: moment_arm(name, np.radians(degrees), 0.0, "internal_rotation") > 0 for words, name in names.items()}


@template("a1.the rest", section="a1.2")
def who_holds_against_the_lat(chance):
    degrees, inward = chance.one_of((30, 45, 60, 90)), chance.one_of((True, False))
    found = _turns_in(degrees)
    right = chance.one_of([name for name, turns in found.items() if turns is inward])
    others = chance.some([name for name, turns in found.items() if turns is not inward], 3 - inward)
    options = chance.shuffled((right, *others))
    work = Working()
    work.say("The lat starts at the back and ends on the front of the upper arm. So it also turns the arm inward.")
    work.say("Infraspinatus and teres minor lie at the back of the shoulder blade. They turn the arm outward.")
    work.say(f"{right.capitalize()} turns the arm {'inward, as the lat does' if inward else 'outward'}.")
    told = f"This muscle turns the arm {'outward' if inward else 'inward, as the lat does'}."
    slips = tuple(Slip("wrong direction", OPTIONS[options.index(one)], 2 if inward else 1, told) for one in others)
    what = "turns it the same way" if inward else "can hold against that turn"
    question = (
        f"The arm is raised {degrees}° to the side. The lat adducts it, and it also turns it about its own length. "
        f"Which muscle {what}?",
    )
    ask = Choice(options, OPTIONS[options.index(right)])
    return Item(question, ask, "Where does the muscle start, and on which side of the arm does it end?", work, slips)


REST = (  # question, answer, wrong answers with what is said to them; the chapter's text
    ("Besides adduction and extension, what does the lat do to the arm?",
     "it turns the arm inward, about its own length",
     (("it turns the arm outward, about its own length", "The lat ends on the front of the arm, so it turns it the other way."),
      ("it lifts the arm out to the side", "That is abduction. The lat adducts."),
      ("it bends the elbow", "The lat does not cross the elbow."))),
    ("In which positions does the lat turn the arm inward?",
     "in every position that was studied",
     (("only with the arm overhead", "It was seen in other positions too."),
      ("only with the arm hanging", "It was seen in other positions too."),
      ("in none of those that were studied", "It turned the arm inward in all of them (J Orthop Res 2011;29:658)."))),
    ("Why does the lat turn the arm inward?",
     "it starts at the back and ends on the front of the upper arm",
     (("it starts at the back and ends on the back of the upper arm", "It ends on the front."),
      ("its line runs straight through the middle of the joint", "Then it could not turn the arm at all."),
      ("it is very wide and pulls from all sides at once", "What counts is where it ends on the arm."))),
    ("What can help infraspinatus and teres minor to hold against the lat's turn?",
     "the hand on the bar, through the elbow",
     (("teres major, just above the lat", "Teres major turns the arm inward, as the lat does."),
      ("subscapularis, on the shoulder blade", "Subscapularis turns the arm inward, as the lat does."),
      ("pectoralis major, in front of the chest", "Pectoralis major turns the arm inward, as the lat does."))),
)  # fmt: skip
SURVEY = (
    "In a survey (J Strength Cond Res 2013;27(5):1333-1339), lifters with signs of an unstable shoulder trained outward "
    "rotation less often. What does that show?",
    "the two went together in these lifters, and no more than that",
    (("too little outward rotation makes a shoulder unstable", "A survey does not show what causes what."),
     ("training outward rotation makes a shoulder stable", "Nobody was trained in this survey."),
     ("an unstable shoulder keeps lifters from outward rotation", "A survey does not show what causes what.")),
)  # fmt: skip


@template("a1.the rest", section="a1.2", model=False)
def what_else_the_lat_does(chance):
    asked, right, wrong = chance.one_of((*REST, SURVEY))
    survey = asked == SURVEY[0]
    slip = "proof from nowhere" if survey else "wrong direction"
    ask, slips = one_of_these(chance, right, [(text, slip, words) for text, words in wrong], 2 if survey else 0)
    work = Working()
    work.say(f"{right[0].upper()}{right[1:]}.")
    if survey:
        work.say("It is a survey at one point in time. It does not prove that one causes the other.")
    else:
        work.say("The lat runs from the back to the front of the upper arm. Something has to hold against its turn.")
    hint = "What can a survey show?" if survey else "Think of where the lat starts and where it ends."
    return Item((asked,), ask, hint, work, slips)


GROWS = ("a good fit promises that the muscle grows", "proof from nowhere", "A good fit does not promise growth.")
CLIENTS = (  # who, what to choose, wrong choices, why, a wrong reason; common practice, no source
    ("wants to work the lat in a row", "a close row, reaching well forward at the start",
     (("a wide row, reaching well forward at the start", "wrong direction",
       "A wide row asks for horizontal abduction too, and the lat has no lever for that."),
      ("either row, because they ask for the same", "wrong direction", "They ask the shoulder for different directions.")),
     "with the arm in front the lat gives just what this load asks for",
     ("the lat has its longest lever for adduction, and that is what counts", "lever for fit", "Its longest lever is for adduction, but neither row asks for that.")),
    ("wants a row for the rear deltoid and not for the lat", "a wide row",
     (("a close row", "wrong direction",
       "At the start of a close row the lat fits just as well as the rear deltoid."),
      ("either row, because they ask for the same", "wrong direction", "They ask the shoulder for different directions.")),
     "the rear deltoid gives both parts that it asks for, the lat only one",
     ("in a close row the rear deltoid is no help at all, not even at full reach", "model trusted too far",
      "It fits the start of the close row well.")),
    ("has heard that only close rows fit the lat, and asks what fits it halfway through a rep",
     "a close row and a front pulldown, one as well as the other",
     (("a close row, and clearly better than a front pulldown", "name for cause", "Halfway the pulldown fits just as well."),
      ("a wide row, and clearly better than a front pulldown", "wrong direction",
       "The wide row asks for what the lat does not give.")),
     "halfway, the load asks in both for what the lat gives",
     ("the lat's fit stays the same all the way through a pulldown", "model trusted too far",
      "At the start of a pulldown the model has the lat point the wrong way.")),
)  # fmt: skip


@template("a1.direction", section="a1.5", model=False)
def a_row_with_the_right_direction(chance):
    name, _, _ = person(chance)
    who, best, wrong, why, other = chance.one_of(CLIENTS)
    ask, slips = with_a_reason(chance, best, wrong, why, (other, GROWS))
    work = Working()
    work.say(f"{best[0].upper()}{best[1:]}: {why}.")
    work.say("A good fit does not promise growth. Start light and control the way back.")
    question = (f"{name} {who}. Nothing hurts. What do you say, and why?",)
    return Item(question, ask, "What does each of these pulls ask the shoulder for?", work, slips)
