"""Items of chapter 0: the panel, the way through the chapters, signs and marks, when to stop."""

import numpy as np

from ...axes import AXES, OPPOSITE, movement
from ...mechanics import tape_law, tape_law_margin
from ...sources import constant
from ...week.health import questions
from ...words import set_up_change_words, torque_change_words, written
from ..asks import Choice, Number, Order, Pick, Reasoned, letter_of
from ..bank import template
from ..find_slip import find_the_slip
from ..gym import GRAVITY, held_pull, people, person
from ..item import Item
from ..objectives import chapters
from ..pictures.arm_and_back import turning_arm
from ..slips import Slip
from ..working import Working

CONTROLS = {  # part of a panel -> what it does, what somebody wants who uses it
    "Keep this one": (
        "makes a grey outline of what you see",
        ("see the next grips beside the one on the screen now", "find out how much torque a narrower grip would save"),
    ),
    "Drop the kept one": (
        "takes the grey outline away",
        ("read what a single grip asks for, and no difference", "get rid of the grey outline"),
    ),
    "Play": (
        "runs through all grips by itself",
        ("watch what happens at every grip without touching the slider", "show a class all grips, hands free"),
    ),
    "Back to start": (
        "puts the slider back to where it was",
        ("undo what was done with the slider", "give the next client the panel as it was when it opened"),
    ),
    "Lifter": (
        "takes a client's measures",
        ("work with the body of a real client", "see the numbers for a client with broad shoulders"),
    ),
    "Save and open": (
        "saves picture, numbers and set-up, and loads them again",
        ("put the picture into a hand-out", "get the numbers into a table", "go on with a set-up from last week"),
    ),
    "the small print": (
        "says how far off a number may be",
        ("find out how far off a torque may be", "read in words what the pale strips show"),
    ),
}
HELP = (  # what somebody wants, what to do
    ("sees still pictures only, and no panel", "press Run everything, at the top left"),
    ("wants to see the Python behind a number", "press Show the code, in the bar at the top"),
    ("stands at a projector for 45 minutes and needs a plan", "start with --lecture and choose a run sheet"),
    ("wants to give a chapter to a class on paper", "run the package's handout command"),
    ("does not know what a word means", "look it up in the glossary at the end of chapter 0"),
    ("has a client with very broad shoulders and wants the numbers to fit", "put the measures in under Lifter"),
    ("has no mouse", "press Tab for the next control, and the arrow keys to move it"),
)
ASKS = {  # chapter -> what a client asks, as the table in 0.3 has it
    "01": "How do I get a wider back?",
    "02": "It's only five kilos. Why does it feel like so much?",
    "03": "How wide should I hold the bar?",
    "04": "I row for my whole back. Why do I only feel the back of my shoulders?",
    "05": "At the top or at the bottom: where does my lat pull best?",
    "06": "Squeeze your shoulder blades! What does that do?",
    "07": "Which muscle does this pull train, and which one stops me first?",
    "09": "I read that rows beat pulldowns for the lat. Should we change my plan?",
    "10": "What do I do this week?",
    "a1": "Close handles for the lat, a wide row for the rear deltoid. Is that true?",
    "a2": "How strong am I, and how would you know?",
}
REWORDED = ASKS | {  # the same in other words, where the table's would give the title away
    "01": "How long until people can see that I train my back?",
    "03": "My hands are 57 cm apart. Is that far for me?",
    "04": "When I lean back, is that still the same exercise for my shoulders?",
    "06": "‘Back and down!’ they always say to me. What does that do?",
    "a2": "What is the most I could pull, and how would you know?",
}
MARKS = {  # mark -> what it means
    "read": "found in the published text, or computed from the data set itself",
    "derived": "worked out by arithmetic from published values",
    "from memory": "good enough to start from, but no proof",
    "none": "common practice or our own choice, no source",
}
GOT = (  # its mark, how somebody got a number
    ("read", "The paper prints the value. You copied it from the page."),
    ("read", "The survey's records are open. You computed the mean from them."),
    ("read", "A textbook has it in a table. The table is in front of you."),
    ("derived", "Two papers print one length each. You subtracted one from the other."),
    ("derived", "A paper prints a mass, another one a share. You multiplied them."),
    ("from memory", "You learned it in your training. You have no text at hand."),
    ("from memory", "You once read it in a paper. You no longer have the paper."),
    ("none", "Coaches have always done it that way. Nobody has published a reason."),
    ("none", "You picked a round value yourself, just to have one for the sum."),
)
KNOWN = {  # a row of data/facts.csv -> what it is
    "forearm_mass": "the forearm's share of body mass",
    "gh_below_acromion": "how far the shoulder joint lies below the bony top of the shoulder",
    "bar_radius": "half the thickness of a bar",
    "tape_reading": "how far off a tape may read",
}
PULLS = {0: "straight up", 90: "straight ahead"}
SIGNS = (  # what a client says, the health question of data/health_questions.csv that it is about, yes or no
    ("My shoulder hurts when I lift the arm.", "shoulder", True),
    ("It hurts at night when I lie on that shoulder.", "shoulder", True),
    ("My elbow hurts when I hold the bar.", "arm", True),
    ("Two fingers go numb when I hang.", "numbness", True),
    ("I have pins and needles in my hand again and again.", "numbness", True),
    ("My shoulder came out once, years ago. It went back by itself.", "dislocation", True),
    ("I had an operation on this shoulder.", "surgery", True),
    ("My shoulders do not hurt. The muscles are tired after the last set.", "shoulder", False),
    ("Nothing hurts. My back muscles tire towards the end of a set.", "shoulder", False),
    ("I am new here. Nothing hurts, but my muscles tire quickly.", "shoulder", False),
)
STOP, GO = "stop, and send the client to a licensed clinician", "go on with the plan, in small steps as before"
BREAKS = (  # what a coach must not say, and why
    ("The panel's largest load for you is {kg} kg. So we begin there.", "A largest load is no load to try."),
    ("Only {kg} N m with this grip, so we can train with the numb hand.", "Numbness means stop."),
    ("The torque is the same on both sides, so your shoulder is healthy.", "The workbook is not for diagnosis."),
    ("Let the bar go up quickly after each of the {reps} reps.", "Control the weight on the way back."),
    ("Your doctor has doubts, but the panel shows that {kg} kg is safe.", "No number overrules a clinician."),
    ("Behind the neck is harmless. The torque is not larger there.", "Little is known about its risk."),
    ("You managed {reps} reps, so next time we go up by {kg} kg.", "Go up in small steps."),
)  # fmt: skip
KEEPS = (  # what a coach may say
    "The panel shows a larger load than yours. We don't try it.",
    "The numbers are about average people. How do you feel with it?",
    "You dislocated it years ago? Then a clinician has to see it first.",
    "Your muscles are tired after the set. That alone is no warning sign.",
    "The torque is small here, but it hurts. So we stop.",
    "Little is known about pulls behind the neck. We stay in front.",
    "You could lift more, but your range gets short. So we stay at this load.",
    "The load is light, but let it up slowly all the same.",
)


@template("00.panel", section="0.2", model=False)
def which_control(chance):
    (name,) = people(chance, 1)
    right = chance.one_of(tuple(CONTROLS))
    wish = chance.one_of(CONTROLS[right][1])
    others = chance.some([part for part in CONTROLS if part != right], 3)
    options = chance.shuffled((right, *others))
    work = Working()
    work.say(f"“{right}” {CONTROLS[right][0]}.")
    slips = tuple(Slip("wrong place", letter_of(options, one), 0, f"“{one}” {CONTROLS[one][0]}.") for one in others)
    question = (f"{name} has a panel open and wants to {wish}. Which part of the panel does {name} need?",)
    hint = "What does each of the four do?"
    return Item(question, Choice(options, letter_of(options, right)), hint, work, slips)


def _kept_and_now(chance):
    """A grip that is kept and a narrower one: lifter, pulls, torques [N m]; whole numbers tell the share well enough."""
    while True:
        _, lifter, shoulders = person(chance)
        kept, now = chance.one_of(((1.8, 1.4), (1.8, 1.6), (2.0, 1.5), (1.6, 1.3), (2.0, 1.4), (1.7, 1.4)))
        load = chance.number(30, 60, 5)
        pulls = [held_pull("front pulldown", grip_ratio=one, load_kg=load, trunk_lean=0.0) for one in (kept, now)]
        before, after = (
            tape_law(pull.force(lifter), pull.hand_offset(lifter), pull.line_offset(lifter), pull.pull_angle)
            for pull in pulls
        )
        if abs(round(after[0]) / round(before[0]) - after[0] / before[0]) < 0.008:
            return lifter, shoulders, load, pulls, (before, after)


@template("00.panel", "03.wider", section="0.2")
def what_is_left_of_the_kept_one(chance):
    (name,) = people(chance, 1)
    lifter, shoulders, load, (kept, now), (before, after) = _kept_and_now(chance)
    said = f"{set_up_change_words(lifter, now, kept)}: {torque_change_words(after, before)}."
    work = Working()
    first, last = (round(float(torque[0])) for torque in (before, after))
    work.say(f"The grey outline is the grip that was kept: {first} N m of adduction. Now it is {last} N m.")
    left = work.line("What is left", f"{last} / {first} × 100", "%", 0)
    narrower = 100 * now.grip_ratio / kept.grip_ratio
    told = "That is how much of the grip is left. Adduction counts from the shoulder joint, so it falls faster."
    slips = (
        Slip("upside down", 100 * first / last, 2),
        Slip("change for rest", 100 - left, 2),
        Slip("share for per cent", left / 100, 2),
        Slip("straight proportion", narrower, 2, told),
    )
    question = (
        f"A client's shoulders measure {shoulders} cm, and the load is {load} kg. {name} presses Keep this one "
        "and moves the slider. The bold sentence above the picture now says:",
        f"“{said}”",
        "How much of the adduction is left, in per cent?",
    )
    ask = Number(100 * float(after[0] / before[0]), "%", 15, 90, share=0.02, within=2.0, digits=0)
    return Item(question, ask, "Which of the numbers belongs to the grey outline?", work, slips)


@template("00.panel", "00.signs", section="0.6")
def say_it_with_its_doubt(chance):
    (name,) = people(chance, 1)
    load, a = chance.number(20, 60, 5), chance.number(9, 15, 0.5)
    key = float(tape_law(load / 2 * GRAVITY, 0.0, a / 100, 0.0)[1])
    doubt = float(tape_law_margin(load / 2 * GRAVITY, 0.0)[1])
    exact = f"exactly {written(key, 2)} N m"
    right, tight, twice = (
        f"about {written(value)} N m, give or take {by}"
        for value, by in ((key, written(doubt)), (key, written(doubt / 10, 1)), (2 * key, written(2 * doubt)))
    )
    options = chance.shuffled((right, exact, tight, twice))
    work = Working()
    torque = work.line("Extension", f"{load} kg / 2 × {GRAVITY} N/kg × {a / 100:.3f} m", "N m", 1)
    both = work.line("Both errors together", "√(1.0² + 0.75²)", "cm", 2)
    work.line("Give or take", f"{load} kg / 2 × {GRAVITY} N/kg × {both / 100:.4f} m", "N m", 1)
    work.say(f"So do not say {torque}. Say “{right}”.")
    told = "No tape is so exact. With 1 cm and 7.5 mm of error the torque may be ten times as far off as this."
    slips = (
        Slip("doubt misjudged", letter_of(options, tight), 3, told),
        Slip("whole load", letter_of(options, twice), 1),
        Slip("too exact", letter_of(options, exact), 4),
    )
    question = (
        f"Somebody sits upright and pulls {load} kg down with both hands. {name} measures that the line of pull runs "
        f"{a} cm in front of the shoulder joint. The tape may be 1 cm off, and the joint may lie 7.5 mm from where we "
        "think. Together they count as the root of the sum of their squares.",
        f"What should {name} say about the extension that the load asks of each shoulder?",
    )
    ask = Choice(options, letter_of(options, right))
    return Item(question, ask, "Half the load times 9.81 N/kg is the pull. What do you multiply it by?", work, slips)


@template("00.ways", section="0.3", model=False)
def which_chapter_answers(chance):
    (name,) = people(chance, 1)
    number = chance.one_of(tuple(ASKS))
    titles = chapters()
    others = chance.some([one for one in ASKS if one != number], 3)
    options = chance.shuffled([titles[one] for one in (number, *others)])
    work = Working()
    work.say(f"Open “{titles[number]}”. In the table of 0.3 its client asks: “{ASKS[number]}”")
    slips = tuple(
        Slip("wrong place", letter_of(options, titles[one]), 1, f"In that chapter the client asks: “{ASKS[one]}”")
        for one in others
    )
    question = (f"{name}, a client, asks: “{REWORDED[number]}” Which chapter do you open first?",)
    ask = Choice(options, letter_of(options, titles[number]))
    return Item(question, ask, "What is the question about? Look for the thing, not for a word in it.", work, slips)


@template("00.ways", section="0.3", model=False)
def order_of_a_way(chance):
    (name,) = people(chance, 1)
    titles = chapters()
    middle = sorted(chance.some(("03", "04", "05", "06", "07"), 2))
    way = ("02", *middle, "01", chance.one_of(("09", "10")))
    shown = chance.shuffled(way)
    key, counted = ("".join(letter_of(shown, one) for one in order) for order in (way, sorted(way)))
    work = Working()
    work.say("For an exam you begin with chapter 2. Then come 3 to 7, and after those 1, 9 and 10.")
    work.say("Do every exercise before you open its solution.")
    slips = (
        Slip("order turned round", key[::-1], 1),
        Slip("wrong place", counted, 1, "That is the order of the numbers. For an exam chapter 1 comes after 3 to 7."),
    )
    question = (f"{name} is studying for an exam. In which order should {name} work through these chapters?",)
    ask = Order(tuple(titles[one] for one in shown), key, "first chapter first")
    return Item(question, ask, "Which chapter does section 0.3 give to students to start with?", work, slips)


@template("00.ways", "00.panel", section="0.3", model=False)
def what_to_do_first(chance):
    (name,) = people(chance, 1)
    (met, right), *others = chance.some(HELP, 4)
    options = chance.shuffled((right, *(does for _, does in others)))
    work = Working()
    work.say(f"Tell {name} to {right}.")
    slips = tuple(
        Slip("wrong place", letter_of(options, does), 1, f"That is for somebody who {wants}.") for wants, does in others
    )
    question = (f"{name} {met}. What do you tell {name} to do?",)
    hint = "What would each of the four do for somebody?"
    return Item(question, Choice(options, letter_of(options, right)), hint, work, slips)


@template("00.signs", section="0.5", model=False)
def where_a_torque_turns_the_hand(chance):
    name, raised = chance.one_of(AXES), chance.number(60, 90, 5)
    size = chance.number(4, 30, 1) * chance.one_of((1, -1))
    picture, letters = turning_arm(chance, name, raised)
    right, wrong = ("plus", "minus") if size > 0 else ("minus", "plus")
    words = {mark.letter: mark.words for mark in picture.marks}[letters[right]]
    turns = words.removeprefix("where the hand comes when ")
    work = Working()
    work.say(f"{movement(name, 1).capitalize()} is plus, {movement(name, -1)} is minus.")
    work.say(
        f"So {written(size)} N m is {movement(name, size)}. {turns[0].upper()}{turns[1:]}, "
        f"and the hand goes to {letters[right]}."
    )
    along = "A torque turns the arm about the shoulder. It does not pull along the arm."
    slips = (
        Slip("wrong sign", letters[wrong], 2, "That is the other way round. Look again at which way is plus."),
        Slip("force for torque", letters["out"], 2, along),
        Slip("wrong place", letters["middle"], 2, "The whole arm turns, and the hand with it."),
    )
    question = (
        f"A right arm {'points to the front' if name == 'horizontal_abduction' else 'is raised'}. A panel gives "
        f"{written(size)} N m of “{movement(name, 1)}” for its shoulder. Suppose that nothing else turns the arm. "
        "To which of the places does the hand go?",
    )
    return Item(
        question, Pick("ABCD", letters[right]), "Which way is plus in the sketches of 0.5?", work, slips, picture
    )


def _turned_round(options, answers, told):
    """The slips of those who turn one torque round or both; ``told`` says of each torque how it comes about."""
    both = "Both are turned round. The shoulder does the opposite of what the cable does to the arm."
    slips = []
    for one in options:
        wrong = [answer != right for answer, right in zip(one.split(" and "), answers, strict=True)]
        if any(wrong):
            line = wrong.index(True) + 1
            slips.append(Slip("wrong sign", letter_of(options, one), line, both if all(wrong) else told[line - 1]))
    return tuple(slips)


@template("00.signs", "03.both torques", section="0.5")
def name_both_torques(chance):
    angle = chance.one_of((0, 90))
    force, w = chance.number(100, 240, 10), chance.number(6, 14, 1)
    out, front = chance.one_of((1, -1)), chance.one_of((1, 1, -1))
    a = chance.number(9, 24, 1) if front > 0 else chance.number(3, 8, 1)
    asked = tape_law(force, out * w / 100, front * a / 100, np.radians(angle))
    side = AXES[0 if angle == 0 else 2]
    turns, raises = movement(side, asked[AXES.index(side)]), movement("extension", asked[1])
    pairs = [(one, two) for one in ("extension", OPPOSITE["extension"]) for two in (movement(side, 1), OPPOSITE[side])]
    options = chance.shuffled([f"{one} and {two}" for one, two in pairs])
    where = ("in front of" if front > 0 else "behind") if angle == 0 else ("below" if front > 0 else "above")
    work = Working()
    beside = "outside" if out > 0 else "inside"
    ways = (movement("extension", -asked[1]), movement(side, -asked[AXES.index(side)]))
    told = [
        f"The line runs {place} the joint, so the cable turns the arm towards {way}. The shoulder answers with {answer}."
        for place, way, answer in zip((where, beside), ways, (raises, turns), strict=True)
    ]
    for line in told:
        work.say(line)
    question = (
        f"A cable pulls a hand {PULLS[angle]} with {force} N. Its line runs {a} cm {where} the shoulder joint and "
        f"{w} cm {beside} it. Which two torques does it ask of the shoulder?",
    )
    ask, slips = (
        Choice(options, letter_of(options, f"{raises} and {turns}")),
        _turned_round(options, (raises, turns), told),
    )
    return Item(question, ask, "Which way does the cable move the arm?", work, slips)


@template("00.signs", section="0.6", model=False)
def which_mark(chance):
    if chance.one_of((True, False)):
        right, told = chance.one_of(GOT)
        question = (f"You write a number down. {told} Which mark does it get?",)
        options, key = chance.shuffled(tuple(MARKS)), right
        said = {mark: f"“{mark}” means: {meaning}." for mark, meaning in MARKS.items()}
    else:
        known = constant(chance.one_of(tuple(KNOWN)))
        right = {"R": "read", "D": "derived", "none": "none"}.get(known.mark, "from memory")
        told = f"The workbook has a number for {KNOWN[known.name]}."
        question = (f"{told} Its mark is “{right}”. What does that tell you?",)
        said = {meaning: f"That would be the mark “{mark}”." for mark, meaning in MARKS.items()}
        options, key = chance.shuffled(tuple(MARKS.values())), MARKS[right]
    work = Working()
    for mark, meaning in MARKS.items():
        work.say(f"“{mark}” means: {meaning}.")
    line = list(MARKS).index(right) + 1
    slips = tuple(Slip("mark misread", letter_of(options, one), line, said[one]) for one in options if one != key)
    return Item(question, Choice(options, letter_of(options, key)), "Where did the number come from?", work, slips)


def _extension_lines(load, a, slip=""):
    work = Working()
    hand = f"{load} kg" if slip == "whole load" else f"{load} kg / 2"
    mass = work.line("On each hand", hand, "kg", 1)
    force = mass if slip == "mass for force" else work.line("Pull", f"{mass:g} kg × {GRAVITY} N/kg", "N", 1)
    if slip == "mass for force":
        work.say(f"Pull: {mass:g} N")
    work.line("Extension", f"{force:g} N × {a} m" if slip == "cm for m" else f"{force:g} N × {a / 100:.3f} m", "N m", 1)
    return work


@template("00.signs", "02.line", section="0.4")
def find_the_slip_in_extension(chance):
    (name,) = people(chance, 1)
    load, a = chance.number(20, 60, 5), chance.number(9, 15, 0.5)
    slip, line = chance.one_of((("whole load", 1), ("mass for force", 2), ("cm for m", 3)))
    right, wrong = (_extension_lines(load, a, one) for one in ("", slip))
    question = (
        f"Somebody sits upright and pulls {load} kg down with both hands. The line of pull runs {a} cm in front of the "
        f"shoulder joint. {name} works out how much extension the load asks of each shoulder, without the arm's own "
        "weight.",
    )
    return find_the_slip(question, wrong, right, line, slip)


@template("00.caution", section="0.7", model=False)
def is_it_a_warning_sign(chance):
    (name,) = people(chance, 1)
    said, kind, warns = chance.one_of(SIGNS)
    asked = next(one for one in questions() if one.name == kind)
    lighter = f"go on, but with only {chance.number(10, 30, 2.5):g} kg and a narrower grip"
    options = chance.shuffled((STOP, GO, lighter, "go on for now, and look for the cause of it in a panel"))
    sign, tired = "a clinician has to look at that first", "the tiredness of a muscle after a set is no warning sign"
    reasons = chance.shuffled((sign, tired, "a panel shows little torque there, so it can do no harm"))
    right, why = (STOP, sign) if warns else (GO, tired)
    work = Working()
    work.say(
        "Section 0.7 says to stop at pain, numbness, a past dislocation or surgery. "
        f"The health question on this: “{asked.words}”"
    )
    work.say(f"What counts: {asked.means}.")
    work.say(f"So here the answer is {'yes' if warns else 'no'}: {right}.")
    work.say("No number in a panel overrules a clinician.")
    slips = [Slip("proof from nowhere", f"*{'123'[place]}", 4) for place, one in enumerate(reasons) if "panel" in one]
    if warns:
        slips += [Slip("warning not heeded", f"{letter_of(options, one)}*", 3) for one in options if one != STOP]
    question = (f"{name}, a client, says: “{said}” What do you do, and why?",)
    ask = Reasoned(options, reasons, f"{letter_of(options, right)}{'123'[reasons.index(why)]}")
    return Item(question, ask, "Section 0.7 names four signs. Is this one of them?", work, tuple(slips))


@template("00.caution", section="0.7", model=False)
def which_sentence_breaks_a_rule(chance):
    (name,) = people(chance, 1)
    told, why = chance.one_of(BREAKS)
    wrong = told.format(kg=chance.number(10, 30, 5), reps=chance.number(5, 12, 1))
    options = chance.shuffled((wrong, *chance.some(KEEPS, 3)))
    work = Working()
    work.say(f"This one breaks a rule: “{wrong}”")
    work.say(f"{why} The other three keep to the rules of section 0.7.")
    question = (f"{name} coaches with a panel open. Which of these sentences breaks a rule of section 0.7?",)
    ask = Choice(options, letter_of(options, wrong))
    return Item(question, ask, "What does each sentence put first: a number, or the person?", work)
