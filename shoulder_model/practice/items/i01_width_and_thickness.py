"""Items of chapter 1: muscles of the back, what training changes, what a centimetre does to an outline, slow growth."""

import re
from functools import cache

from ...people import SEXES, means, ratio_change, side_layer, waist_worth
from ...tables import read_table
from ..asks import Choice, Number, Order, Pick, Reasoned, letter_of, letters_by
from ..bank import template
from ..find_slip import find_the_slip
from ..gym import people, person
from ..item import Item
from ..pictures.arm_and_back import back_from_behind
from ..slips import Slip
from ..working import Working

MUSCLES = {  # muscle -> where it runs, what it does, how it shows
    "lat": ("from lower spine and pelvis to the upper arm", "pulls the arm down and back and turns it in", "width"),
    "teres major": ("from the lower tip of the blade to the upper arm", "pulls the arm down together with the lat", "width"),
    "rear deltoid": ("from the ridge of the blade to the upper arm", "takes an arm that points ahead out to the side",
                     "width and depth"),
    "infraspinatus": ("from the back of the blade to the head of the upper arm", "turns the arm out", "thickness"),
    "trapezius": ("from skull and spine to collarbone and blade", "moves the blade up, back or down", "thickness"),
    "rhomboids": ("from the spine to the inner edge of the blade", "pulls the blade back and up", "thickness"),
    "erectors": ("along the spine", "holds the trunk upright", "thickness"),
}  # fmt: skip
ALIKE = ("lat", "teres major")  # they move the arm the same way
PLURAL = ("rhomboids", "erectors")
LAT_CM, PROGRAMME_WEEKS = (1, 1.5, 2, 2.5, 3), (8, 10, 12)  # as the chapter has them, from memory, weak
MAY_SAY = (
    "I know of no trial that measured how fast a back gets bigger.",
    "Nobody can promise where on your back the muscle grows, or by when.",
    "For the back we have to borrow a number from other muscles.",
    "Nobody can say whether pulldowns or rows build the bigger lat.",
    "Strength can change soon, muscle slowly. The frame stays.",
    "Pulldowns made untrained men's elbow flexors {flexors} % thicker.",
    "In other muscles each extra set a week came with {gain} % more.",
)
CLAIMED, DENIED = "proof from nowhere", "read past it"
MUST_NOT = (  # what must not be said, what is wrong with it, the slip
    ("Pulldowns made untrained men's lats {flexors} % thicker in ten weeks.",
     "Their elbow flexors got that much thicker. Nobody measured the lats.", CLAIMED),
    ("Trials show that pulldowns build a bigger lat than rows do.", "We know of no trial that measured that.", CLAIMED),
    ("With {sets} sets of wide pulldowns a week the frame gets wider too.",
     "Training does not widen the frame of an adult.", "frame trained"),
    ("A centimetre of lat takes {weeks} weeks if you train it right.",
     "Our estimate runs from under a year to 25 years.", CLAIMED),
    ("Each extra set a week adds {gain} % to the muscles of your back.",
     "That number is borrowed from other muscles.", CLAIMED),
    ("Your beginner's pace will go on for as long as you add sets.", "A beginner's pace does not last.", CLAIMED),
    ("Nobody has ever measured how a muscle grows with extra sets.",
     "Fifteen studies did, only not on the back.", DENIED),
    ("I know of no trial that measured any muscle after pulldowns.",
     "One trial measured the elbow flexors after ten weeks of pulldowns.", DENIED),
    ("Nothing that you train can change how broad your shoulders are.",
     "The frame stays, but muscle can add to what lies on it.", DENIED),
)  # fmt: skip
CLIENTS = (  # who, what is best, the reason
    (
        "wants width and thickness, and nothing hurts",
        "a pulldown or pull-up, and a row as well",
        "coaches commonly do both, and we know of no study that measured which builds more back",
    ),
    (
        "wants to see progress from month to month, and would rather not be measured",
        "a record of load, repetitions and control",
        "strength changes sooner than muscle, and a record shows what somebody can do",
    ),
    (
        "asks for a measurement and is at ease with it",
        "a tape, at the same place and time of day",
        "a tape is for somebody who asks for it and is not upset by it",
    ),
    (
        "measures the waist daily and is upset each time",
        "no tape, and a talk with a doctor or a dietitian",
        "measuring stops when it upsets a client, and somebody who can help takes over",
    ),
    (
        "wants a diet plan from you to make the waist smaller",
        "no tape, and a talk with a doctor or a dietitian",
        "advice on losing weight belongs to licensed professionals",
    ),
)


def _runs(name):
    return f"The {name} {'run' if name in PLURAL else 'runs'} {MUSCLES[name][0]}."


def _moves(name):
    verb, rest = MUSCLES[name][1].split(" ", 1)
    return f"The {name} {verb.removesuffix('s') if name in PLURAL else verb} {rest}."


@cache
def _gain():
    """More muscle for each extra set a week, by a programme's end [%]; J Sports Sci 2017;35(11):1073-1082, read."""
    row = next(row for row in read_table("evidence.csv") if row["condition"] == "each extra weekly set")
    return float(re.search(r"\+([\d.]+)% size", row["note"])[1])


@cache
def _flexors():
    """How much thicker elbow flexors got with ten weeks of pulldowns [%]; Asian J Sports Med 2015;6(2):e24057, read."""
    rows = read_table("evidence.csv")
    return next(float(row["mean"]) for row in rows if row["condition"].startswith("pulldown only, 10 wk, elbow"))


@template("01.muscles", section="1.2", model=False)
def muscle_from_its_place(chance):
    right = chance.one_of(tuple(MUSCLES))
    by_run = chance.one_of((True, False))
    left_out = ALIKE if not by_run and right in ALIKE else ()
    others = chance.some([name for name in MUSCLES if name != right and name not in left_out], 3)
    options = chance.shuffled((right, *others))
    run, moves, shows = MUSCLES[right]
    work, told = Working(), _runs if by_run else _moves
    work.say(told(right))
    work.say(f"From the outside it shows mostly as {shows}.")
    slips = tuple(Slip("wrong muscle", letter_of(options, one), 1, told(one)) for one in others)
    question = (f"One muscle of the back {f'runs {run}' if by_run else moves}. Which of these is it?",)
    hint = "Put a finger on one end, then on the other." if by_run else "Does it move the arm, the blade or the trunk?"
    return Item(question, Choice(options, letter_of(options, right)), hint, work, slips)


@template("01.muscles", section="1.2", model=False)
def point_at_a_muscle(chance):
    picture, letters = back_from_behind(chance)
    right = chance.one_of(tuple(MUSCLES))
    by_name = right in ALIKE or chance.one_of((True, False))
    asked = f"the {right}" if by_name else f"the muscle that {MUSCLES[right][1]}"
    work = Working()
    work.say(_runs(right))
    if not by_name:
        work.say(_moves(right))
    work.say(f"So it is {letters[right]}.")
    slips = tuple(
        Slip("wrong muscle", letter, 1, f"That letter points at the {name}.")
        for name, letter in letters.items()
        if name != right
    )
    question = (
        "You see a back from behind (our own drawing). The right half shows the surface, and the left half what lies "
        f"underneath. Which letter points at {asked}?",
    )
    ask = Pick("ABCDEFG", letters[right])
    return Item(question, ask, "Say first where the muscle begins and where it ends.", work, slips, picture)


@template("01.muscles", section="1.2", model=False)
def width_or_thickness(chance):
    (name,) = people(chance, 1)
    sought = chance.one_of(("width", "thickness"))
    right = chance.one_of([one for one, (_, _, shows) in MUSCLES.items() if shows.startswith(sought)])
    unlike = {"width": "thickness", "thickness": "width"}[sought]  # the rear deltoid shows both ways
    others = chance.some([one for one, (_, _, shows) in MUSCLES.items() if shows == unlike], 3)
    options = chance.shuffled((right, *others))
    view = {"width": "from behind", "thickness": "from the side"}
    work = Working()
    for one in (right, *others):
        work.say(f"{_runs(one)} That shows mostly as {MUSCLES[one][2]}.")
    slips = tuple(
        Slip("width for thickness", letter_of(options, one), place, f"{_runs(one)} That shows mostly as {unlike}.")
        for place, one in enumerate(others, 2)
    )
    question = (f"{name} looks at a back {view[sought]}. Which of these muscles shows as {sought}?",)
    hint = "Where does the muscle lie: at the side of the back, on the blade, or along the spine?"
    return Item(question, Choice(options, letter_of(options, right)), hint, work, slips)


@template("01.can and cannot", section="1.1", model=False)
def share_of_the_frame(chance):
    name, _, frame = person(chance)
    whole = frame + chance.number(6, 11, 0.5)
    work = Working()
    share = work.line("Frame over breadth", f"{frame} cm / {whole} cm × 100", "%", 0)
    work.say("That part is the frame. Training does not widen it in an adult. It can change what lies on it.")
    slips = (
        Slip("upside down", 100 * whole / frame, 1),
        Slip("frame trained", 100 - share, 2, "That part is muscle, fat and skin. Training can change it."),
        Slip("share for per cent", frame / whole, 1),
    )
    question = (
        f"{name} is {whole} cm broad from the outside of one shoulder to the outside of the other. The bony edges are "
        f"{frame} cm apart. How many per cent of that breadth can training not change?",
    )
    ask = Number(100 * frame / whole, "%", 70, 92, share=0.01, digits=0)
    return Item(question, ask, "Of the two lengths, which one is bone?", work, slips)


def _tapes(chance):
    """Shoulders' and waist's tape of somebody. [cm]"""
    return chance.number(100, 118, 0.5), chance.number(80, 98, 0.5)


@template("01.outline", section="1.3")
def ratio_after_a_change(chance):
    (name,) = people(chance, 1)
    shoulders, waist = _tapes(chance)
    more, less = chance.number(0.5, 2, 0.5), chance.number(2, 8, 0.5)
    work = Working()
    upper = work.line("Shoulders after", f"{shoulders} cm + {more} cm", "cm", 1)
    lower = work.line("Waist after", f"{waist} cm − {less} cm", "cm", 1)
    work.line("Ratio after", f"{upper} / {lower}", "", 3)
    work.say("The ratio describes an outline. It says nothing about health, fitness or worth.")
    slips = (
        Slip("added for taken off", upper / (waist + less), 2),
        Slip("upside down", lower / upper, 3),
        Slip("one change forgotten", upper / waist, 2, "Here only the shoulders changed. The waist changes too."),
        Slip("one change forgotten", shoulders / lower, 1, "Here only the waist changed. The shoulders change too."),
    )
    question = (
        f"{name}'s tape reads {shoulders} cm round both shoulders and {waist} cm round the waist. "
        f"Suppose the shoulders gain {more} cm and the waist loses {less} cm. "
        "What is the ratio then? Give three digits after the point.",
    )
    key = shoulders / waist + float(ratio_change(shoulders / 100, waist / 100, more / 100, -less / 100))
    ask = Number(key, "", 1.0, 1.8, share=0.001, within=0.002, digits=3)
    return Item(question, ask, "Change each tape, then divide once.", work, slips)


@template("01.outline", section="1.4")
def worth_of_a_waist_centimetre(chance):
    (name,) = people(chance, 1)
    shoulders, waist = _tapes(chance)
    less = chance.number(1.5, 4, 0.5)
    work = Working()
    ratio = work.line("Ratio", f"{shoulders} cm / {waist} cm", "", 3)
    work.line("To match it", f"{less} cm × {ratio}", "cm", 2)
    slips = (
        Slip("one for one", less, 2),
        Slip("upside down", less * waist / shoulders, 1),
        Slip("one factor forgotten", ratio, 2, f"That matches 1 cm of waist. Here it is {less} cm."),
    )
    question = (
        f"{name}'s tape reads {shoulders} cm round the shoulders and {waist} cm round the waist. A friend has the same "
        f"shoulders, and a waist that is {less} cm smaller. How much more shoulder tape would give {name} the friend's "
        f"ratio? (Use the rule in one line, with the ratio that {name} has now.)",
    )
    ask = Number(less * float(waist_worth(shoulders / 100, waist / 100)), "cm", 1, 7, share=0.02, digits=2)
    return Item(question, ask, "How much shoulder is 1 cm of waist worth?", work, slips)


def _layer_and_tape(chance):
    """A layer on both sides and a step of both tapes, far enough apart: sex, layer, what it does to a tape, step. [cm]"""
    while True:
        sex, thick, step = chance.one_of(SEXES), chance.one_of((0.5, 1, 1.5)), chance.number(1, 6, 1)
        layer = 100 * float(side_layer(sex, thick / 100))
        if not 0.82 < layer / step < 1.25:
            return sex, thick, layer, step


def _changes_worked_out(things, changes, chest, waist):
    """What each change adds to chest over waist, line by line; lengths in cm."""
    work = Working()
    for thing in things:
        more, less = changes[thing]
        upper, lower = f"({chest} + {more})" if more else f"{chest}", f"({waist} − {less})" if less else f"{waist}"
        work.line(thing, f"{upper} / {lower} − {chest} / {waist}", "", 3)
    work.say("Compare tape with tape, or sides with sides. The ratio is above 1, so the waist counts a little more.")
    return work


@template("01.outline", section="1.5")
def order_four_changes(chance):
    sex, thick, layer, step = _layer_and_tape(chance)
    chest, waist = (round(100 * mean, 1) for mean in means(sex, "chest_circumference", "waist_circumference"))
    by = round(layer, 1)
    changes = {
        f"{step} cm more on the chest's tape": (step, 0.0),
        f"{step} cm less on the waist's tape": (0.0, step),
        f"{thick} cm of muscle on each side of the chest": (by, 0.0),
        f"{thick} cm off each side of the waist": (0.0, by),
    }
    things = chance.shuffled(tuple(changes))
    grows = [
        float(ratio_change(chest / 100, waist / 100, more / 100, -less / 100))
        for more, less in map(changes.get, things)
    ]
    key = letters_by(grows)
    work = _changes_worked_out([thing for _, thing in sorted(zip(grows, things, strict=True))], changes, chest, waist)
    question = (
        f"The survey's average {'man' if sex == 'men' else 'woman'} measures {chest} cm round the chest and {waist} cm "
        f"round the waist. A layer of {thick} cm on both sides changes either tape by {by} cm. "
        "Put these four changes in order of how much each one adds to the ratio of chest to waist.",
    )
    said = "Compare tape with tape and sides with sides: in each pair the waist leads by a little."
    slips = (
        Slip("order turned round", key[::-1]),
        Slip("one for one", key[1] + key[0] + key[3] + key[2], 5, said),
        Slip("unlike compared", key[2] + key[3] + key[0] + key[1], 5),
    )
    return Item(question, Order(things, key, "least first"), "Turn all four into tape first.", work, slips)


def _ratio_lines(shoulders, waist, off_shoulders, off_waist, slip=""):
    """How much a ratio changes, with one slip in it or none."""
    work = Working()
    first = f"{waist} / {shoulders}" if slip == "upside down" else f"{shoulders} / {waist}"
    before = work.line("Ratio before", first, "", 3)
    if slip == "one change forgotten":
        work.say(f"Shoulders after: {shoulders} cm")
        upper = shoulders
    else:
        upper = work.line("Shoulders after", f"{shoulders} cm − {off_shoulders} cm", "cm", 1)
    sign = "+" if slip == "added for taken off" else "−"
    lower = work.line("Waist after", f"{waist} cm {sign} {off_waist} cm", "cm", 1)
    after = work.line("Ratio after", f"{upper} / {lower}", "", 3)
    work.line("It changes by", f"{after:.3f} − {before:.3f}", "", 3)
    return work


@template("01.outline", section="1.3")
def find_the_slip_in_a_ratio(chance):
    (name,) = people(chance, 1)
    shoulders, waist = _tapes(chance)
    off_shoulders, off_waist = chance.number(1, 3, 0.5), chance.number(3, 8, 0.5)
    slip, line = chance.one_of((("upside down", 1), ("one change forgotten", 2), ("added for taken off", 3)))
    right, wrong = (_ratio_lines(shoulders, waist, off_shoulders, off_waist, one) for one in ("", slip))
    question = (
        f"{name} works out by how much a ratio of shoulders to waist changes. At first the tape reads {shoulders} cm "
        f"round the shoulders and {waist} cm round the waist. Then the shoulders lose {off_shoulders} cm, and the waist "
        f"loses {off_waist} cm.",
    )
    return find_the_slip(question, wrong, right, line, slip)


@template("01.growth", section="1.6")
def thicker_by_the_end(chance):
    (name,) = people(chance, 1)
    sets, thick, weeks = chance.number(5, 20, 1), chance.one_of(LAT_CM), chance.one_of(PROGRAMME_WEEKS)
    work = Working()
    percent = work.line("Growth", f"{sets} × {_gain()} %", "%", 2)
    grown = work.line("On the lat", f"{percent} / 100 × {thick * 10:g} mm", "mm", 2)
    work.say("This is borrowed from other muscles. We know of nobody who measured it on a back.")
    slips = (
        Slip("one factor forgotten", _gain() / 100 * thick * 10, 1, f"This is for one set. There are {sets}."),
        Slip("per cent for share", 100 * grown, 2),
        Slip("cm for mm", grown / 10, 2),
    )
    question = (
        f"{name} does {sets} extra sets a week in a programme of {weeks} weeks. Suppose the lat is {thick} cm thick. "
        f"Borrow a number from other muscles: each extra set a week came with {_gain()} % more muscle by the end "
        "(J Sports Sci 2017;35(11):1073-1082). By how many millimetres does the lat get thicker, if all growth is in "
        "thickness?",
    )
    key = sets * _gain() / 100 * thick * 10
    return Item(question, Number(key, "mm", 0.1, 3, digits=2), "Per cent first, then millimetres.", work, slips)


@template("01.growth", "01.can and cannot", section="1.6")
def years_for_a_centimetre(chance):
    (name,) = people(chance, 1)
    thick, sets, weeks = chance.one_of(LAT_CM), chance.number(5, 20, 1), chance.one_of(PROGRAMME_WEEKS)
    gain = round(thick * 10 * sets * _gain() / 100, 2)
    work = Working()
    count = work.line("Programmes for 1 cm", f"10 mm / {gain} mm", "", 1)
    years = work.line("Years", f"{count} × {weeks} weeks / 52", "years", 1)
    work.say("Do not count on it. A beginner's pace does not last, and we know of nobody who measured a back.")
    slips = (
        Slip("cm for mm", years / 10, 1),
        Slip("one factor forgotten", count, 2, "This is how many programmes it takes. Turn them into years."),
        Slip("upside down", gain / 10 * weeks / 52, 1),
    )
    question = (
        f"{name} asks how long it takes to make a lat 1 cm thicker. By a number borrowed from other muscles, a programme "
        f"of {weeks} weeks adds {gain} mm. Suppose every programme adds the same, and each one starts when the last one "
        "ends. How many years is that? (Count 52 weeks a year.)",
    )
    ask = Number(10 / gain * weeks / 52, "years", 0.5, 13, share=0.04, within=0.06)
    return Item(question, ask, "Find out first how many programmes it takes.", work, slips)


@template("01.growth", section="1.6")
def weigh_an_advertisement(chance):
    (name,) = people(chance, 1)
    promised, thick = chance.one_of((0.5, 1, 1.5, 2)), chance.one_of(LAT_CM)
    sets, weeks = chance.number(6, 20, 2), chance.one_of(PROGRAMME_WEEKS)
    work = Working()
    growth = work.line("Promised", f"{promised} cm / {thick} cm × 100", "%", 1)
    borrowed = work.line("Borrowed from other muscles", f"{sets} × {_gain()} %", "%", 2)
    work.line("How many times as much", f"{growth} / {borrowed}", "times", 1)
    slips = (
        Slip("upside down", borrowed / growth, 3),
        Slip("one factor forgotten", growth / _gain(), 2, f"This is against one set. There are {sets}."),
        Slip("per cent for share", promised / thick / borrowed, 1, "One growth is in per cent, the other is a share."),
    )
    question = (
        f"{name} reads an advertisement (invented): “{promised} cm of lat on each side in {weeks} weeks.” "
        f"Suppose the lat is {thick} cm thick, and {sets} extra sets a week are done. A number borrowed from other "
        f"muscles says {_gain()} % more muscle in that time for each of these sets. How many times as much growth does "
        "the advertisement promise?",
    )
    key = 100 * promised / thick / (sets * _gain())
    return Item(question, Number(key, "times", 1.5, 100), "Write both as growth in per cent.", work, slips)


@template("01.growth", "01.can and cannot", section="1.6", model=False)
def what_may_you_say(chance):
    (name,) = people(chance, 1)
    drawn = {"sets": chance.number(8, 20, 2), "weeks": chance.number(8, 20, 2)}
    numbers = {"flexors": f"{_flexors():.1f}", "gain": _gain(), **drawn}
    right = chance.one_of(MAY_SAY).format(**numbers)
    wrong = [(told.format(**numbers), why, slip) for told, why, slip in chance.some(MUST_NOT, 3)]
    options = chance.shuffled((right, *(told for told, _, _ in wrong)))
    work = Working()
    work.say(f"You may say: “{right}”")
    for told, why, _ in wrong:
        work.say(f"Not: “{told}” {why}")
    slips = tuple(Slip(slip, letter_of(options, told), place, why) for place, (told, why, slip) in enumerate(wrong, 2))
    question = (f"{name} asks how a back grows. Which of these sentences may a coach say?",)
    ask = Choice(options, letter_of(options, right))
    return Item(question, ask, "Ask of each one: has anybody measured it, and on which muscle?", work, slips)


@template("01.can and cannot", "00.caution", section="1.7", model=False)
def a_tape_or_something_else(chance):
    (name,) = people(chance, 1)
    who, best, why = chance.one_of(CLIENTS)
    options = chance.shuffled(tuple(dict.fromkeys(choice for _, choice, _ in CLIENTS)))
    others = chance.some([reason for _, choice, reason in CLIENTS if choice != best], 2)
    proved = "a trial showed that it adds the most muscle to a back"
    reasons = chance.shuffled((why, proved, *others))
    work = Working()
    work.say(f"{best[0].upper()}{best[1:]}: {why}.")
    work.say("A trial proves nothing here: we know of none that measured how much back muscle an exercise adds.")
    slips = [Slip("proof from nowhere", f"*{'1234'[reasons.index(proved)]}", 2)]
    if best.startswith("no tape"):
        slips += [Slip("warning not heeded", f"{letter_of(options, one)}*", 1) for one in options if one != best]
    question = (f"{name} {who}. What do you offer, and why?",)
    ask = Reasoned(options, reasons, f"{letter_of(options, best)}{'1234'[reasons.index(why)]}")
    return Item(question, ask, "What does this client ask for, and is that good for this client?", work, tuple(slips))
