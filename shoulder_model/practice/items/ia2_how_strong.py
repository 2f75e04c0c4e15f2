"""Items of appendix a2: one hard set and the seven equations, the model's kilograms, its misses."""

from dataclasses import replace
from functools import cache

import numpy as np

from ...mechanics import pulls
from ...muscles import MUSCLES, cross_sections, expected_strength
from ...people import Lifter
from ...repetition import from_torques, isometric_torque, load_for, one_repetition_maximum, rep, repetitions_at, sweep
from ...sources import constant, fact
from ...tables import read_table
from ...words import written
from ..asks import Number, Order, Pick
from ..bank import template
from ..choosing import apart, one_of_these, with_a_reason
from ..find_slip import find_the_slip
from ..gym import GRAVITY, person
from ..item import Item
from ..pictures.girdle_and_spans import results_on_a_line
from ..slips import Slip
from ..working import Working
from .said_of_strength import SAY_NOT_OF_KILOGRAMS, SAY_NOT_OF_MISSES, SAY_OF_KILOGRAMS, SAY_OF_MISSES, WAYS_FOR

RULES = {30: "w (1 + r/30)", 40: "w (1 + 0.025 r)"}  # the part of the load that a repetition adds -> equation
SPOKEN = {30: "a thirtieth", 40: "a fortieth"}
NOT_TO_TRY = "It helps you to choose loads. Nobody has to try it."


def _set(chance):
    """A hard set: load on the bar [kg], repetitions."""
    kg = chance.number(30, 90, 2.5)
    return int(kg) if kg == int(kg) else kg, chance.number(5, 10, 1)


def _maximum(rule, kg, reps):
    """1RM by one of the two plain rules. [kg]"""
    return one_repetition_maximum(kg, reps).each[RULES[rule]]


@template("a2.one set", "10.first load", section="a2.2")
def maximum_from_one_set(chance):
    name, _, _ = person(chance)
    (kg, reps), rule = _set(chance), chance.one_of(tuple(RULES))
    other = next(one for one in RULES if one != rule)
    work = Working()
    once = work.line("1RM", f"{kg} kg × (1 + {reps}/{rule})", "kg", 1)
    work.say(NOT_TO_TRY)
    slips = (
        Slip("equations mixed", _maximum(other, kg, reps), 1, f"This adds {SPOKEN[other]} for every repetition."),
        Slip("only the addition", once - kg, 1),
        Slip("taken off for added", kg * (1 - reps / rule), 1, "Each repetition adds to the set's load."),
        Slip("upside down", kg * (1 + rule / reps), 1),
    )
    question = (
        f"{name} does {reps} clean front pulldowns with {kg} kg and not one more. "
        f"One equation adds {SPOKEN[rule]} of the load for every repetition. Which 1RM does it give?",
    )
    ask = Number(_maximum(rule, kg, reps), "kg", 30, 130, share=0.01)
    return Item(question, ask, "Work out how much all the repetitions add together.", work, apart(slips, ask))


@template("a2.one set", "10.first load", section="a2.7")
def load_for_another_number_of_repetitions(chance):
    name, _, _ = person(chance)
    (kg, reps), rule = _set(chance), chance.one_of(tuple(RULES))
    other = next(one for one in RULES if one != rule)
    wanted = chance.one_of([one for one in (5, 6, 8, 10) if abs(one - reps) >= 2])
    work = Working()
    once = work.line("1RM", f"{kg} kg × (1 + {reps}/{rule})", "kg", 1)
    work.line(f"Load for {wanted}", f"{once} kg / (1 + {wanted}/{rule})", "kg", 1)
    work.say("Use the same equation for both steps, and start at this load or below.")
    slips = (
        Slip("equations mixed", load_for(once, wanted).each[RULES[other]], 2),
        Slip("maximum for a load", once, 2, "This is the 1RM. Nobody should train with it."),
        Slip(
            "multiplied for divided", once * (1 + wanted / rule), 2, "A load for several repetitions is below the 1RM."
        ),
    )
    question = (
        f"{name} does {reps} front pulldowns with {kg} kg and not one more. One equation adds {SPOKEN[rule]} of the "
        f"load for every repetition. Which load does it give for {wanted} repetitions?",
    )
    ask = Number(load_for(_maximum(rule, kg, reps), wanted).each[RULES[rule]], "kg", 20, 120, share=0.01)
    return Item(question, ask, "Work out the 1RM first, then come down from it.", work, apart(slips, ask))


@template("a2.one set", section="a2.2")
def repetitions_that_a_rule_expects(chance):
    share, rule = chance.number(76, 90, 2), chance.one_of(tuple(RULES))
    other = next(one for one in RULES if one != rule)
    expected = {one: repetitions_at(share / 100).each[RULES[one]] for one in RULES}
    work = Working()
    work.say(f"With r repetitions the load is 1 / (1 + r/{rule}) of the 1RM.")
    more = work.line("The 1RM divided by the load, less 1", f"100 / {share} − 1", "", 4)
    work.line("Repetitions", f"{rule} × {more}", "repetitions", 1)
    slips = (
        Slip("equations mixed", expected[other], 3),
        Slip("difference for ratio", rule * (1 - share / 100), 2, "Divide the 1RM by the load, then take off 1."),
        Slip("change for rest", rule * 100 / share, 2, "Take off 1 before you multiply."),
    )
    question = (
        f"One equation adds {SPOKEN[rule]} of the load for every repetition. "
        f"How many repetitions does it expect with {share} % of the 1RM? Give one digit after the point.",
    )
    ask = Number(expected[rule], "repetitions", 3, 10.1, share=0.02, within=0.1)
    hint = f"The 1RM is the load × (1 + r/{rule}). Solve that for r."
    return Item(question, ask, hint, work, apart(slips, ask))


def _lines(kg, reps, rule, wanted, slip=""):
    """1RM and a load for another number of repetitions, with one slip in it or none."""
    other = next(one for one in RULES if one != rule)
    work = Working()
    work.say(f"Each repetition adds 1/{rule} of the load.")
    sign = "−" if slip == "taken off for added" else "+"
    parts = f"{reps}/{rule}" if slip == "only the addition" else f"(1 {sign} {reps}/{rule})"
    once = work.line("1RM", f"{kg} kg × {parts}", "kg", 1)
    back = other if slip == "equations mixed" else rule
    sign = "×" if slip == "multiplied for divided" else "/"
    work.line(f"Load for {wanted}", f"{once} kg {sign} (1 + {wanted}/{back})", "kg", 1)
    return work


@template("a2.one set", section="a2.7")
def find_the_slip_in_a_maximum(chance):
    name, _, _ = person(chance)
    (kg, reps), rule = _set(chance), chance.one_of(tuple(RULES))
    wanted = chance.one_of([one for one in (5, 6, 8, 10) if abs(one - reps) >= 2])
    slip, line = chance.one_of(
        (("taken off for added", 2), ("only the addition", 2), ("equations mixed", 3), ("multiplied for divided", 3))
    )
    right, wrong = (_lines(kg, reps, rule, wanted, one) for one in ("", slip))
    question = (
        f"{name} does {reps} pulldowns with {kg} kg and not one more. A classmate works out a load for {wanted} "
        f"repetitions. The equation adds {SPOKEN[rule]} of the load for every repetition.",
    )
    return find_the_slip(
        question, wrong, right, line, slip, "Ask whether each result is above or below the set's load."
    )


@cache
def _drawable():
    """Hard sets whose results lie well apart on the line, and those results. [kg]"""
    found = []
    for kg in np.arange(40, 91, 2.5):
        for reps in (6, 7, 8, 9, 10):
            each = sorted(one_repetition_maximum(kg, reps).each.values())
            room = 84 / (5 * (each[-1] // 5 + 1) - 5 * (kg // 5))  # of the picture, a kilogram
            places = (kg, each[0], each[3], each[-1])
            if min(np.diff(places)) * room > 5 and (each[-1] - each[0]) * room > 8 and (each[0] - kg) * room > 8:
                found.append((float(kg), reps, tuple(each)))
    return tuple(found)


@template("a2.one set", "10.first load", section="a2.6")
def where_to_start_on_the_line(chance):
    name, _, _ = person(chance)
    kg, reps, each = chance.one_of(_drawable())
    picture, letters = results_on_a_line(chance, kg, each)
    work = Working()
    work.say(f"The seven equations give a 1RM from {each[0]:.1f} to {each[-1]:.1f} kg.")
    work.say("They describe an average lifter, so start at the low end. Test again when it gets easy.")
    work.say(f"That is {letters['low']}. {NOT_TO_TRY}")
    slips = (
        Slip("high end first", letters["high"], 2),
        Slip("one number for a span", letters["middle"], 2, "The middle is no more sure than the ends."),
        Slip("maximum for a load", letters["set"], 1, "This is the load of the set itself. The 1RM is above it."),
    )
    question = (
        f"{name} did {reps} front pulldowns with {kg:g} kg and not one more. The ring is that set. "
        "The dots are the 1RM by seven equations.",
        "From which mark do you work out the loads of the first week?",
    )
    return Item(
        question, Pick("ABCD", letters["low"]), "All seven equations describe an average lifter.", work, slips, picture
    )


@template("a2.one set", "a2.kilograms", "00.caution", section="a2.6", model=False)
def how_to_find_out_how_strong(chance):
    name, _, _ = person(chance)
    who, right, wrong, reason, other = chance.one_of(WAYS_FOR)
    told = ("a trial showed that singles are safe for everybody", "proof from nowhere", "No such trial is cited.")
    ask, slips = with_a_reason(chance, right, wrong, reason, (other, told))
    work = Working()
    work.say(f"{right[0].upper()}{right[1:]}: {reason}.")
    work.say("A hard set needs a client who knows the lift, safeties, and somebody close by.")
    work.say("Pain, numbness, a past dislocation or surgery: stop, and see a licensed clinician.")
    question = (f"{name} {who}. What do you choose, and why?",)
    slips = tuple(replace(slip, line=1) for slip in slips)
    return Item(question, ask, "Ask what is safe first, and then what leaves the least doubt.", work, slips)


MOVEMENTS = {  # in words, the plane of the arm [rad], and torques that clients make [N m]
    "adduction": ("pulling the arm down", 0.0, (40, 90)),
    "extension": ("pulling the arm back", np.pi / 2, (26, 60)),
}


@cache
def _adult(movement):
    """What the muscle table's adult makes with the arm at 45°. [N m]"""
    return float(isometric_torque(movement, np.pi / 4, MOVEMENTS[movement][1]))


@template("a2.kilograms", section="a2.3")
def factor_from_a_dynamometer(chance):
    name, lifter, _ = person(chance)
    movement = chance.one_of(tuple(MOVEMENTS))
    (words, _, torques), bridge = MOVEMENTS[movement], round(fact("pull_over_isometric_strength"), 2)
    torque, adult = chance.number(*torques, 2), round(_adult(movement), 1)
    work = Working()
    static = work.line("Compared with the table's adult", f"{torque} N m / {adult} N m", "", 3)
    work.line("Times the bridge", f"{static} × {bridge}", "×", 2)
    slips = (
        Slip("factor forgotten", static, 2, f"The bridge was left out: multiply by {bridge}."),
        Slip("upside down", adult / torque * bridge, 1),
        Slip(
            "divided for multiplied",
            static / bridge,
            2,
            "People move more than dynamometer strength explains: multiply.",
        ),
    )
    question = (
        f"A dynamometer reads {torque} N m for {name} {words} at 45°. The adult of the muscle table makes "
        f"{adult} N m there. The bridge from a dynamometer to pulls is {bridge}.",
        "Which strength factor does the model take for pulls?",
    )
    ask = Number(float(from_torques(lifter, **{movement: torque}).factor), "×", 0.8, 4, digits=2)
    return Item(question, ask, "First compare the reading with the table's adult.", work, apart(slips, ask))


PARTS = {"lat": "latissimus dorsi", "teres major": "teres major", "rear deltoid": "deltoid posterior",
         "side deltoid": "deltoid middle", "front deltoid": "deltoid anterior", "biceps": "biceps brachii"}  # fmt: skip
SIZE = dict(zip(MUSCLES, cross_sections()[0], strict=True))


@template("a2.kilograms", section="a2.3")
def newtons_of_one_muscle(chance):
    name, _, _ = person(chance)
    muscle, factor = chance.one_of(tuple(PARTS)), chance.number(0.8, 2.6, 0.1)
    size = float(sum(area for one, area in SIZE.items() if one.startswith(PARTS[muscle])))
    tension = constant("specific_tension").value
    work = Working()
    adult = work.line("The table's adult", f"{size:.1f} cm² × {tension} N/cm²", "N", 1)
    work.line(f"{name}, times the factor", f"{adult} N × {factor}", "N", 0)
    slips = (
        Slip("factor forgotten", adult, 2, "The strength factor was left out."),
        Slip("divided for multiplied", adult / factor, 2, "Factor 2 means twice as strong: multiply."),
        Slip("mass for force", adult * factor / GRAVITY, 2, "You divided by 9.81. A muscle's pull is in newtons."),
    )
    question = (
        f"In the muscle table the {muscle} has {size:.1f} cm² on one side. At its best length 1 cm² pulls with "
        f"{tension} N. {name} has strength factor {factor}.",
        f"How hard does the {muscle} of one side pull at its best length, in the model?",
    )
    ask = Number(size * tension * factor, "N", 70, 1600, digits=0)
    return Item(question, ask, "At the best length the length factor is 1.", work, apart(slips, ask))


@template("a2.kilograms", "a2.one set", section="a2.3")
def order_ways_by_doubt(chance):
    name, lifter, _ = person(chance)
    widest = bool(chance.place(2))  # whether the widest span comes first
    (kg, reps), torque = _set(chance), chance.number(40, 90, 2)
    once, doubt = one_repetition_maximum(kg, reps), fact("one_rm_variation")
    known = {
        "sex and body mass, nothing else": expected_strength(lifter),
        f"a dynamometer: {torque} N m for pulling the arm down": from_torques(lifter, adduction=torque),
    }
    ends = {words: (float(one.low), float(one.high)) for words, one in known.items()}
    ends[f"one hard set: {reps} pulldowns with {kg} kg"] = (once.low * (1 - doubt), once.high * (1 + doubt))
    times = {words: high / low for words, (low, high) in ends.items()}
    things = chance.shuffled(times)
    ranked = sorted(times, key=times.get, reverse=widest)
    order = "".join("abc"[things.index(words)] for words in ranked)
    work = Working()
    for words in ranked:
        work.say(f"{words[0].upper()}{words[1:]}. High end over low end: {written(times[words], 1)}.")
    work.say("A hard set leaves the least doubt, because it is the very pull that you ask about.")
    machine = next(place for place, words in enumerate(things) if words.startswith("a dynamometer"))
    rest = order.replace("abc"[machine], "")
    trusting = rest + "abc"[machine] if widest else "abc"[machine] + rest
    words = "A dynamometer's torque is multiplied by the bridge, and nobody knows why the bridge is needed."
    slips = (Slip("order turned round", order[::-1], 4), Slip("factor forgotten", trusting, 2, words))
    question = (
        f"You want {name}'s strength factor for the pulldown, and three ways to find it give three spans. "
        "Put them in order of how wide the span is: its high end divided by its low end.",
    )
    ask = Order(things, order, f"{'widest' if widest else 'narrowest'} span first")
    return Item(question, ask, "Ask how close each one comes to the pulldown itself.", work, slips)


@template("a2.kilograms", section="a2.3", model=False)
def where_the_kilograms_come_from(chance):
    return _sentences(chance, SAY_OF_KILOGRAMS, SAY_NOT_OF_KILOGRAMS, "about the model's kilograms")


@template("a2.misses", section="a2.5", model=False)
def what_may_you_use(chance):
    return _sentences(chance, SAY_OF_MISSES, SAY_NOT_OF_MISSES, "about the model and its tests")


def _sentences(chance, rights, wrongs, about):
    """Four sentences of which one is right."""
    right, wrong = chance.one_of(rights), chance.some(wrongs, 3)
    ask, slips = one_of_these(chance, right, wrong)
    work = Working()
    for text, _, words in wrong:
        work.say(f"Wrong: “{text}” {words}")
    work.say(f"Right: “{right}”")
    slips = tuple(replace(slip, line=place) for place, slip in enumerate(slips, 1))
    question = (f"Here are four sentences {about}. Which one is right?",)
    return Item(question, ask, "Ask what was compared with people, and how it came out.", work, slips)


LEANS, GRIPS = {0: "upright", 15: "leaning 15° back", 30: "leaning 30° back"}, (1.5, 2.0)
ASKED = {"plane": "in the plane of pull", "all axes": "about all axes"}
HOLDS = {"bar": "on one bar", "handles": "on two handles"}


@cache
def _held(opinion, hold, lean):
    """The model's largest loads of the mean man at two grips. [kg]"""
    pull = pulls["front pulldown"].change(hold=hold, trunk_lean=np.radians(lean))
    return tuple(sweep(Lifter.average("men"), pull, grip_ratio=list(GRIPS), balance=opinion).whole_rep_load_kg.values)


@cache
def _men():
    """What fifteen men pulled six times at the same two grips [kg], and the citation."""
    rows = [row for row in read_table("evidence.csv") if row["outcome"] == "6RM_kg" and row["n"] == "15"]
    pulled = {float(row["grip_ratio"]): float(row["mean"]) for row in rows}
    return tuple(pulled[grip] for grip in GRIPS), rows[0]["citation"]


@template("a2.misses", section="a2.4")
def loss_on_a_wide_grip(chance):
    opinion, hold, lean = chance.one_of(tuple(ASKED)), chance.one_of(tuple(HOLDS)), chance.one_of(tuple(LEANS))
    (medium, wide), ((men, men_wide), citation) = _held(opinion, hold, lean), _men()
    work = Working()
    left = work.line("Part that the model keeps", f"{wide:.1f} kg / {medium:.1f} kg", "", 3)
    lost_by_men = work.line("The men lost", f"(1 − {men_wide} / {men}) × 100", "%", 1)
    work.line("The model loses", f"(1 − {left}) × 100", "%", 1)
    work.say("That is a miss: do not quote the model for wide grips.")
    slips = (
        Slip("change for rest", 100 * left, 3, "This is what is left, not what is lost."),
        Slip("wrong base", 100 * (medium / wide - 1), 1, "Count the loss from the load at 1.5 ×."),
        Slip("model for measurement", lost_by_men, 2, "This is what the men lost. You are asked about the model."),
    )
    question = (
        f"Fifteen men pulled {men} kg six times at 1.5 ×, and {men_wide} kg at 2 × ({citation}). "
        f"In the model, balanced {ASKED[opinion]}, {HOLDS[hold]} and {LEANS[lean]}, the largest load falls from "
        f"{medium:.1f} to {wide:.1f} kg.",
        "These loads are there to compare. Nobody should try them. How many per cent does the model lose?",
    )
    ask = Number(float(100 * (1 - wide / medium)), "%", 2, 40, share=0.04, within=0.3)
    return Item(
        question, ask, "Divide the load at 2 × by the load at 1.5 ×. What is missing to 1?", work, apart(slips, ask)
    )


COLLEGE, SEX = "jscr2009d", {"men": "M", "women": "F"}  # in the table of trials


@cache
def _largest(sex, name, opinion):
    """Of the model's mean man or woman. [kg]"""
    return float(rep(Lifter.average(sex), pulls[name], balance=opinion).whole_rep_load_kg)


@cache
def _of_body_mass(sex):
    """What college students lifted once, pull-up and pulldown, of body mass, and the citation."""
    rows = [row for row in read_table("evidence.csv") if row["study_id"] == COLLEGE and row["sex"] == SEX[sex]]
    rows = [row for row in rows if row["outcome"] == "1RM_per_BM"]
    pulled = {row["exercise"]: float(row["mean"]) for row in rows}
    return (pulled["pull-up"], pulled["lat pulldown"]), rows[0]["citation"]


@template("a2.misses", "07.palms", section="a2.5")
def pull_up_over_pulldown(chance):
    opinion = chance.one_of(tuple(ASKED))
    name, lifter, _ = person(chance)
    (up, down), citation = _of_body_mass(lifter.sex)
    held = [_largest(lifter.sex, pull, opinion) for pull in ("pull-up", "front pulldown")]
    told = [round(kg, 1) for kg in held]
    work = Working()
    people = work.line("People, pull-up over pulldown", f"{up} / {down}", "×", 2)
    model = work.line("The model", f"{told[0]} kg / {told[1]} kg", "×", 2)
    work.line("The model's ratio is too low by", f"(1 − {model} / {people}) × 100", "%", 0)
    work.say("That is a miss. Do not use the model to turn a pulldown into a pull-up.")
    slips = (
        Slip("difference for ratio", 100 * (people - model), 3, "Divide one ratio by the other, then take it off 1."),
        Slip("wrong base", 100 * (people / model - 1), 3, "Count from what people did."),
        Slip("model for measurement", 100 * (people - 1), 1, "This is how much more people lift in the pull-up."),
    )
    question = (
        f"College {lifter.sex} lifted {up} times their body mass in one pull-up, and {down} times in one pulldown "
        f"({citation}). {name} is of average build. Balanced {ASKED[opinion]}, the model gives {told[0]} kg "
        f"in the pull-up and {told[1]} kg in the pulldown.",
        "These loads are there to compare. Nobody should try them. "
        "By how many per cent is the model's ratio of pull-up to pulldown lower than that of people?",
    )
    ask = Number(100 * (1 - held[0] / held[1] / (up / down)), "%", 10, 45, share=0.04, within=1.0, digits=0)
    return Item(question, ask, "Work out both ratios: pull-up divided by pulldown.", work, apart(slips, ask))
