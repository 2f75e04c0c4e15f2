"""Items of chapter 10: a first load from a remembered set, what a log says of each pull, the next load, pain."""

from functools import cache

from ...repetition.repetition_maximum import one_repetition_maximum, share_of_maximum
from ...training import Entry, verdicts
from ...week import FittedPull, Known, Row, all_no, candidates, first_load, liftable, next_load, rules, steps
from ...week.health import after_pain
from ...week.load_words import range_words
from ...words import counted, written
from ..asks import Choice, Number, Order, Reasoned, letter_of
from ..bank import template
from ..gym import people
from ..item import Item
from ..slips import Slip
from ..working import Working

NAMED = "w (1 + r/30)"  # the one of the seven equations that the chapter works out by hand


@cache
def _by_name():
    return {one.name: one for one in candidates()}


REMEMBERED = (
    "front pulldown at 1.5 ×",
    "front pulldown at shoulder width",
    "close-grip pulldown",
    "underhand pulldown",
)


@template("10.first load", section="10.8")
def a_first_load_by_hand(chance):
    (name,) = people(chance, 1)
    level, pull = chance.one_of(("novice", "intermediate")), chance.one_of(REMEMBERED)
    rule = rules(level)
    load, done = chance.number(20, 80, 2.5), chance.number(6, 12, 1)
    low, left = rule.repetitions_low, rule.repetitions_left_high
    work = Working()
    wanted = work.line("Repetitions that have to be possible", f"{low} + {left}", "", 0)
    most = work.line("Maximum", f"{load:g} kg × (1 + {done} / 30)", "kg", 1)
    work.line("First load", f"{most} kg / (1 + {wanted:.0f} / 30)", "kg", 1)
    work.say("The seven equations disagree, so the page shows a range. Start at its low end.")
    slips = (
        Slip("left forgotten", most / (1 + low / 30), 1),
        Slip("maximum for a load", most, 3),
        Slip("multiplied for divided", most * (1 + wanted / 30), 3, "A set needs less than the maximum: divide."),
        Slip("numbers swapped", load * (1 + wanted / 30) / (1 + done / 30), 2, f"Use the {done} that were done first."),
    )
    question = (
        f"{name} remembers a normal set of the {pull}: {load:g} kg, {counted(done, 'time')}. "
        f"In the first week a set of {low} should end with {left} left.",
        "One equation says: maximum = load × (1 + repetitions/30). Which first load does it give?",
    )
    key = one_repetition_maximum(load, done).each[NAMED] * share_of_maximum(low + left).each[NAMED]
    ask = Number(key, "kg", 12, 95, share=0.01)
    return Item(question, ask, "Count the repetitions that are left as well.", work, slips)


@template("10.first load", section="10.8")
def a_range_on_the_stack(chance):
    (name,) = people(chance, 1)
    pull, kg = chance.one_of(REMEMBERED), chance.one_of((2.5, 5, 10))
    load, done = kg * chance.number(round(20 / kg), round(70 / kg), 1), chance.number(7, 12, 1)
    rule = rules("intermediate")
    wanted = rule.repetitions_low + rule.repetitions_left_high
    step = steps()["pulldown"].every(kg)
    low, high = liftable(float(load), done, wanted)
    found = first_load(_by_name()[pull], rule, (Known(pull, load, done),), given={"pulldown": kg})
    right = range_words(None, found.low_kg, found.high_kg)
    up, wide = (step.up(low), step.up(high)), (step.down(low), step.up(high))
    raised, widened = (range_words(None, *ends) for ends in (up, wide))
    options = chance.shuffled((right, raised, widened, f"{written(low, 1)}–{written(high, 1)} kg"))
    work = Working()
    for words, end, on_step in (("low", low, found.low_kg), ("high", high, found.high_kg)):
        work.say(f"The {words} end, {written(end, 1)} kg, rounds down to {on_step:g} kg on the stack.")
    work.say(f"So {right} goes on the page. Start at the low end.")
    slips = (
        Slip("rounded up", letter_of(options, raised), 1),
        Slip("rounded up", letter_of(options, widened), 2),
        Slip("no such step", letter_of(options, f"{written(low, 1)}–{written(high, 1)} kg"), 1),
    )
    question = (
        f"{name} remembers {load:g} kg, {counted(done, 'time')}, in the {pull}. "
        f"For {wanted} repetitions the seven equations say "
        f"{written(low, 1)} to {written(high, 1)} kg. The stack goes up in steps of {kg:g} kg, from {kg:g} kg.",
        "Which first load goes on the page?",
    )
    hint = "Nothing is rounded towards a heavier load."
    return Item(question, Choice(options, letter_of(options, right)), hint, work, slips)


OTHERS = (
    "chest-supported row",
    "supported one-arm row",
    "seated row close",
    "band row",
    "table row",
    "pull-up with help",
)


@template("10.first load", section="10.8", model=False)
def the_load_of_another_pull(chance):
    (name,) = people(chance, 1)
    level, known, other = chance.one_of(("novice", "intermediate")), chance.one_of(REMEMBERED), chance.one_of(OTHERS)
    load, done = chance.number(20, 60, 5), chance.number(8, 12, 1)
    rule = rules(level)
    right = first_load(_by_name()[other], rule, (Known(known, load, done),)).words
    ends = f"a set of {rule.repetitions_low} ends with {rule.repetitions_left_high} left"
    same = f"{load} kg, as in the {known}, as long as {ends}"
    half = f"{load / 2:g} kg, half of the {known}; more if {ends}"
    test = f"test the maximum first, then work out the load with which {ends}"
    options = chance.shuffled((right, same, half, test))
    work = Working()
    work.say("A load says nothing about another pull.")
    work.say(f"For the {other}: {right}.")
    work.say("Ask for a normal set. Never test a maximum.")
    slips = (
        Slip("load of another pull", letter_of(options, same), 1),
        Slip("load of another pull", letter_of(options, half), 1),
        Slip("maximum tested", letter_of(options, test), 3),
    )
    question = (
        f"{name} is at the {level} level and remembers {load} kg, {done} times, in the {known}. "
        f"The week also has the {other}.",
        f"What do you write for the {other}?",
    )
    hint = "Ask what a load in one pull says about another pull."
    return Item(question, Choice(options, letter_of(options, right)), hint, work, slips)


def _row(pull, repetitions):
    """A row of a week with what `verdicts` reads of it."""
    return Row(1, "Monday", FittedPull(_by_name()[pull], None, 0.0, None, 0.0, {}, True), 2, repetitions, {}, "")


FAIR = f"{100 * rules('novice').load_step_low:.0f} to {100 * rules('novice').load_step_high:.0f} %"
DO = {
    "stop": "stop this pull; a clinician first",
    "change": "change the grip or the pull",
    "add": f"add {FAIR}",
    "ease": "take some load off",
    "keep": "keep the load; one repetition more",
}
ASKED = {"stop": "Any pain", "change": f"Comfort under {rules('novice').comfort_low:g} twice running"}
LOGGED = ("front pulldown at 1.5 ×", "close-grip pulldown", "chest-supported row", "supported one-arm row")


def _why(rule):
    low, high = rule.repetitions_low, rule.repetitions_high
    return {
        "stop": "there was pain, and pain comes before everything else",
        "change": f"comfort was under {rule.comfort_low:g} twice running",
        "add": f"over {high} in the last set, twice running",
        "ease": f"under {low} in the last set, twice running",
        "keep": "none of the other lines of the table fits",
    }


def _logged(chance, rule, wanted):
    """Two sessions with the ``wanted`` verdict in words, which lines of the table fit, which fit once."""
    low, high = rule.repetitions_low, rule.repetitions_high
    pull = chance.one_of(LOGGED)
    load = chance.number(*((20, 60, 5) if "pulldown" in pull else (8, 30, 2)))
    reps = [chance.one_of((low - 2, low - 1, low + 1, high - 2, high + 1, high + 2)) for _ in range(2)]
    comfort = [chance.one_of((3, 4, 6, 7, 8)) for _ in range(2)]
    pain = [0, chance.one_of((0, 0, 1, 3))]
    fits = {
        "stop": any(pain),
        "change": max(comfort) < rule.comfort_low,
        "add": min(reps) > high,
        "ease": max(reps) < low,
        "keep": True,
    }
    if next(kind for kind, true in fits.items() if true) != wanted:
        return _logged(chance, rule, wanted)
    sets = [Entry(pull, 3, load, reps[k], pain=pain[k], comfort=comfort[k], day=k + 1) for k in range(2)]
    (found,) = verdicts(sets, (_row(pull, (low, high)),), rule)
    told = (
        f"{pull[0].upper()}{pull[1:]}, last sets of two sessions at {load} kg: {reps[0]} and {reps[1]} repetitions. "
        f"Comfort was {comfort[0]} and {comfort[1]} of 10, and pain {pain[0]} and {pain[1]} of 10."
    )
    once = {"change": min(comfort) < rule.comfort_low, "add": max(reps) > high, "ease": min(reps) < low}
    if found.kind != wanted:
        raise ValueError(f"the package says {found.kind} where the table says {wanted}: {told}")
    return told, fits, [kind for kind, true in once.items() if true and not fits[kind]]


@template("10.log", "10.health", section="10.9")
def a_verdict_on_a_log(chance):
    (name,) = people(chance, 1)
    level, wanted = chance.one_of(("novice", "intermediate")), chance.one_of(tuple(DO))
    rule = rules(level)
    told, fits, once = _logged(chance, rule, wanted)
    why = _why(rule)
    options, reasons = chance.shuffled(DO.values()), chance.shuffled(why.values())
    sign = {kind: f"{letter_of(options, DO[kind])}{reasons.index(why[kind]) + 1}" for kind in DO}
    work = Working()
    work.say("Read the table from the top and stop at the first line that fits.")
    kinds = tuple(DO)
    for kind in kinds[: kinds.index(wanted)]:
        work.say(f"{ASKED.get(kind) or why[kind].capitalize()}? No.")
    caution = " With pain or numbness: stop, and see a licensed clinician." if wanted == "stop" else ""
    work.say(f"So {DO[wanted]}: {why[wanted]}.{caution}")
    later = [kind for kind in kinds[kinds.index(wanted) + 1 : -1] if fits[kind]]
    slips = [Slip("later line first", sign[kind], len(work)) for kind in later]
    if wanted != "stop":
        slips += [Slip("once for twice", sign[kind], min(kinds.index(kind) + 2, len(work))) for kind in once]
    else:
        others = [letter_of(options, DO[kind]) for kind in kinds[1:]]
        slips += [Slip("warning not heeded", f"{letter}*", len(work)) for letter in others]
    question = (
        f"{name} is at the {level} level, with sets of {rule.repetitions_low} to {rule.repetitions_high} repetitions.",
        f"The log says: {told} What do you do, and why?",
    )
    hint = "Read the table of verdicts from the top: pain, comfort, repetitions."
    return Item(question, Reasoned(options, reasons, sign[wanted]), hint, work, tuple(slips))


@template("10.log", section="10.9", model=False)
def the_order_of_reading_a_log(chance):
    (name,) = people(chance, 1)
    rule = rules(chance.one_of(("novice", "intermediate")))
    kinds = chance.shuffled(("stop", "change", chance.one_of(("add", "ease")), "keep"))
    why = {**_why(rule), "stop": "any pain at all", "keep": "anything else"}
    things = tuple(f"{why[kind]}: {DO[kind]}" for kind in kinds)
    key = "".join("abcd"[place] for place in sorted(range(4), key=lambda place: tuple(DO).index(kinds[place])))
    work = Working()
    for sign in key:
        work.say(f"{things['abcd'.index(sign)][0].upper()}{things['abcd'.index(sign)][1:]}.")
    work.say("Health comes before comfort, comfort before load. What is left over stays as it is.")
    slips = (Slip("order turned round", key[::-1], 5),)
    question = (f"You read {name}'s log, pull by pull. In which order do you check these four lines?",)
    return Item(
        question,
        Order(things, key, "the line that you check first"),
        "Ask which matters most: load, comfort or health.",
        work,
        slips,
    )


@template("10.log", section="10.9")
def the_next_step_in_per_cent(chance):
    (name,) = people(chance, 1)
    equipment, pull = chance.one_of((("pulldown", "pulldown"), ("dumbbells", "one-arm row")))
    step = steps()[equipment].step_kg
    load = step * chance.number(3, 14, 1)
    rule = rules("novice")
    work = Working()
    more = work.line("More", f"{load + step:g} kg − {load:g} kg", "kg", 0)
    share = work.line("In per cent of the load so far", f"100 × {more:.0f} kg / {load:g} kg", "%", 1)
    most = 100 * rule.load_step_high
    work.say(f"{most:.0f} % is the most in one step, so this is {'too large' if share > most else 'a fair step'}.")
    slips = (
        Slip("share for per cent", step / load, 2),
        Slip(
            "change for rest", 100 * (load + step) / load, 1, "This is all of the new load. Take the old one off first."
        ),
        Slip("wrong base", 100 * step / (load + step), 2, "Divide by the load so far, not by the new one."),
        Slip("upside down", 100 * load / step, 2),
    )
    question = (
        f"{name} did more than {rule.repetitions_high} repetitions in the last set, twice running. "
        f"That was the {pull} with {load:g} kg, and the next step is {load + step:g} kg.",
        "By how many per cent does the load go up?",
    )
    ask = Number(100 * step / load, "%", 6, 40, share=0.01, within=0.1)
    return Item(question, ask, "Compare the extra kilograms with the load so far.", work, slips)


LOADED = (  # equipment, pull, what is put on top, present loads [steps]: too light for it, for it, for a whole step
    ("pulldown", "front pulldown at 1.5 ×", "a small plate", ((2, 2), (3, 9), (13, 19))),
    ("dumbbells", "supported one-arm row", "a small magnet", ((2, 2), (3, 9), (13, 19))),
)


@cache
def _next(equipment, load):
    """The next load after 13 repetitions, on the steps of the equipment. [kg]"""
    return next_load(load, rules("novice"), steps()[equipment], done=13).low_kg


@template("10.log", "10.first load", section="10.9")
def the_next_load(chance):
    (name,) = people(chance, 1)
    equipment, pull, top, ranges = chance.one_of(LOADED)
    step, rule = steps()[equipment], rules("novice")
    load = step.step_kg * chance.number(*chance.one_of(ranges), 1)
    best, one, two = _next(equipment, load), load + step.step_kg, load + 2 * step.step_kg
    plate = load + step.add_on_kg
    said = {one: f"go up to {one:g} kg", two: f"go up to {two:g} kg", plate: f"add {top}: {plate:g} kg"}
    said[load] = f"stay on {load:g} kg, and do more repetitions or sets"
    options = chance.shuffled(said.values())
    right = said[best]
    work = Working()
    low = work.line("At least", f"{1 + rule.load_step_low:.2f} × {load:g} kg", "kg", 2)
    high = work.line("At most", f"{1 + rule.load_step_high:.2f} × {load:g} kg", "kg", 2)
    work.say(f"Within reach: {plate:g} kg with {top}, {one:g} kg, {two:g} kg.")
    fair = "No step is" if best == load else f"{best:g} kg is"
    work.say(f"{fair} between {low:g} and {high:g} kg. So {right}.")
    more = {kg: f"{kg:g} kg is {100 * (kg / load - 1):.1f} % more. A fair step is {FAIR}." for kg in (plate, one, two)}
    off = [kg for kg in more if not low <= kg <= high]
    slips = [Slip("unfair step", letter_of(options, said[kg]), 2 if kg > high else 1, more[kg]) for kg in off]
    if best > load:
        slips.append(Slip("load not added", letter_of(options, said[load]), 1))
    question = (
        f"{name}'s log has 13 and 13 repetitions in the {pull} at {load:g} kg, with comfort 8 and no pain. "
        f"The load goes up in steps of {step.step_kg:g} kg, and there is {top} of {step.add_on_kg:g} kg.",
        f"A fair step is {FAIR}. What do you write for the next session?",
    )
    ask = Choice(options, letter_of(options, right))
    return Item(question, ask, "Work out both ends of a fair step.", work, tuple(slips))


SEEN = {  # whether a clinician has cleared it -> what is told, and what is answered
    True: (
        "Since then a physiotherapist has looked at it and written down what is allowed.",
        "“cleared” to the question about the shoulder and no to the rest",
    ),
    False: ("Nobody has looked at it yet.", "no to all eight questions"),
}


UNSEEN = {  # whether a clinician has cleared it -> the slip of the other answer, and what is said to it
    True: (
        "health question misread",
        "A clinician has cleared it and has written down the limits. So there is a week.",
    ),
    False: ("judged by the coach", "No clinician has seen it yet, so nothing is cleared."),
}


@template("10.log", "10.health", section="10.9", model=False)
def pain_in_a_log(chance):
    (name,) = people(chance, 1)
    pull, pain, set_number = chance.one_of(LOGGED), chance.number(1, 4, 1), chance.number(1, 4, 1)
    cleared = bool(chance.place(2))
    health = all_no() | ({"shoulder": "cleared"} if cleared else {})
    week = after_pain((pull,), health) is None
    said = {
        True: "a new week that keeps to what the clinician wrote down",
        False: f"no new week until a clinician has cleared {name}",
    }
    light, other = f"a new week with less load in the {pull}", "a new week as before, since pain that low is normal"
    options = chance.shuffled((*said.values(), light, other))
    work = Working()
    work.say(f"Pain {pain} of 10 is pain. The {pull} stops, and a licensed clinician comes first.")
    work.say("Then “no” to all questions is not enough. Only “cleared” is, with the limits written down.")
    work.say(f"So: {said[week]}. Sudden pain, or pain that stays: an emergency department today.")
    slips = [Slip("tested with a load", letter_of(options, one), 1) for one in (light, other)]
    slips.append(Slip(UNSEEN[cleared][0], letter_of(options, said[not week]), 3, UNSEEN[cleared][1]))
    note, answers = SEEN[cleared]
    question = (
        f"In {name}'s log, set {set_number} of the {pull} has pain {pain} of 10, in the shoulder. All else is good.",
        f"{note} {name} now answers {answers}.",
        "What do you plan?",
    )
    ask = Choice(options, letter_of(options, said[week]))
    return Item(question, ask, "Pain comes before everything else.", work, tuple(slips))
