"""Items of chapter 8: who is average, what a tape leaves open, people and what is not known, what may be promised."""

from math import sqrt

from ...people import SEXES, expected_measures
from ..asks import Number
from ..bank import template
from ..choosing import apart, one_of_these, sentences
from ..gym import people
from ..item import Item
from ..slips import Slip
from ..working import Working

WORDS = {
    "biacromial": "shoulder breadth", "acromion_radiale": "length of the upper arm", "radiale_stylion": "length of the forearm",
    "chest_breadth": "breadth of the chest", "hand": "length of the hand",
}  # fmt: skip
CAUTION = "Start light, and stop if it hurts."


@template("08.average", section="8.1", model=False)
def average_in_several_measures(chance):
    share, count = chance.number(18, 40, 1), chance.one_of((2, 3))
    words = {2: "both", 3: "all three"}[count]
    work = Working()
    work.say("Measures that have nothing to do with each other: multiply the shares.")
    total = work.line(f"Share of people average in {words}", " × ".join([f"{share / 100:.2f}"] * count), "", 4)
    work.line("In per cent", f"{total} × 100", "%", 1)
    slips = (
        Slip("added for product", share * count, 2, "Each measure leaves a share of those who are left: multiply."),
        Slip("one factor forgotten", share ** (count - 1) / 100 ** (count - 2), 2),
        Slip("share for per cent", (share / 100) ** count, 3),
    )
    ask = Number(100 * (share / 100) ** count, "%", 0.4, 17, share=0.03, within=0.05)
    question = (
        f"In each of {count} invented measures, {share} % of people are average. "
        "The measures have nothing to do with each other.",
        f"How many per cent of people are average in {words}?",
    )
    return Item(
        question, ask, "Ask which share of those who are left is average in the next one.", work, apart(slips, ask)
    )


@template("08.average", section="8.1", model=False)
def average_people_in_a_club(chance):
    members, share = chance.number(200, 800, 50), chance.number(20, 40, 2)
    work = Working()
    first = work.line("Average in stature", f"{members} × {share / 100:.2f}", "", 1)
    work.line("Of these average in mass too", f"{first} × {share / 100:.2f}", "", 1)
    slips = (
        Slip("one factor forgotten", first, 2, "That is how many are average in one measure."),
        Slip("added for product", 2 * first, 2, "Nobody gets more average by a second measure: multiply."),
    )
    ask = Number(members * (share / 100) ** 2, "", 7, 130, share=0.03, within=0.5)
    question = (
        f"An invented club has {members} members. {share} in 100 are average in stature, and as many in mass. "
        "Let us say the two have nothing to do with each other.",
        "About how many members are average in both?",
    )
    return Item(question, ask, "Count those who are average in stature first.", work, apart(slips, ask))


@template("08.average", section="8.1", model=False)
def said_of_the_average(chance):
    name = people(chance, 1)[0]
    return sentences(
        chance,
        f"{name} reads that “the average lifter” does something in a pull. Which sentence holds?",
        (
            "Hardly anybody is average in stature, mass and shoulders at once.",
            f"{name} can use the same lever rule, with lengths of {name}'s own.",
            "Each measure that you add leaves fewer people who are average in all of them.",
            "A number for the average lifter may miss most real lifters.",
        ),
        (
            ("Most people are average in most measures at once.", "added for product", "Only about 2 in 100 men are, in three."),
            ("A person of average stature has average shoulders.", "one number for a span", "Stature leaves most of the spread."),
            ("The rule of levers holds for the average lifter only.", "model trusted too little", "It holds for all; lengths differ."),
            (f"What is best on average is proved to be best for {name}.", "group for one person", "An average tells of a group."),
            ("With enough measures everybody is average.", "order turned round", "With more measures, fewer people are."),
        ),
        "Think of three measures at once.",
    )  # fmt: skip


def _survey_pair(chance):
    """Sex, a measure, its SD before a reading of stature and after it [cm], and their correlation."""
    sex, name = chance.one_of(SEXES), chance.one_of(tuple(WORDS))
    sd = 100 * expected_measures(sex)[name][1]
    left = 100 * expected_measures(sex, stature=expected_measures(sex)["stature"][0])[name][1]
    return sex, name, sd, left, sqrt(1 - (left / sd) ** 2)


@template("08.tape", section="8.2")
def spread_that_a_tape_leaves(chance):
    sex, name, sd, left, r = _survey_pair(chance)
    work = Working()
    open_part = work.line("What is left of the square", f"1 − {r:.2f}²", "", 4)
    work.line("SD that is left", f"{sd:.2f} cm × √({open_part})", "cm", 2)
    slips = (
        Slip("root forgotten", sd * (1 - r**2), 2),
        Slip("square forgotten", sd * sqrt(1 - r), 1),
        Slip("change for rest", sd * r, 1, "That is the part that stature explains. Take what is left."),
    )
    ask = Number(left, "cm", 0.3, 3.0, share=0.03, within=0.02, digits=2)
    question = (
        f"In the survey's {sex} the {WORDS[name]} has an SD of {sd:.2f} cm. Its correlation with stature is {r:.2f}.",
        "You read somebody's stature. What SD is left?",
    )
    return Item(question, ask, "SD left = SD × √(1 − r²).", work, apart(slips, ask))


@template("08.tape", section="8.2", model=False)
def share_of_the_spread_left(chance):
    r = chance.number(0.3, 0.95, 0.05)
    work = Working()
    open_part = work.line("What is left of the square", f"1 − {r:.2f}²", "", 4)
    work.line("Share of the SD that is left", f"√({open_part}) × 100", "%", 1)
    slips = (
        Slip("root forgotten", 100 * (1 - r**2), 2),
        Slip("change for rest", 100 * r, 1, "That is r in per cent. Ask what is left."),
        Slip("square forgotten", 100 * sqrt(1 - r), 1),
        Slip("share for per cent", sqrt(1 - r**2), 2),
    )
    ask = Number(100 * sqrt(1 - r**2), "%", 25, 98, share=0.02)
    name, pair = people(chance, 1)[0], chance.one_of(("forearm and hand", "stature and foot", "chest and waist"))
    question = (
        f"{name} measures {pair} of many clients. The correlation is r = {r:.2f}.",
        "After one of the two is read, how many per cent of the other's SD are left?",
    )
    return Item(question, ask, "Take r² off 1, then the root.", work, apart(slips, ask))


@template("08.tape", section="8.2", model=False)
def tape_that_narrows_most(chance):
    low, middle = chance.number(0.1, 0.3, 0.05), chance.number(0.4, 0.55, 0.05)
    high = -chance.number(0.65, 0.85, 0.05)
    names = chance.some(("stature", "the chest", "the forearm", "the foot", "the waist"), 3)
    told = [
        f"{name} r = {str(f'{value:.2f}').replace('-', '−')}"
        for name, value in zip(names, (low, middle, high), strict=True)
    ]
    options = [f"a reading of {name}" for name in names]
    wrong = (
        (options[0], "order turned round", "The weakest correlation narrows least."),
        (options[1], "wrong sign", "The sign only says which way it goes. Square it."),
    )
    ask, slips = one_of_these(chance, options[2], wrong, 2)
    work = Working()
    work.say("What is left is SD × √(1 − r²), so only the size of r counts.")
    work.say(f"The largest r without its sign is that of {names[2]}.")
    question = (
        f"An invented measure goes together with three others: {', '.join(chance.shuffled(told))}.",
        "Which reading makes its spread smallest?",
    )
    return Item(question, ask, "Square each r.", work, slips)


BANDS = ("the band of people", "the band of what is not known")
NEWS = (
    ("reads the client's shoulder breadth with a tape", 0), ("reads the length of the client's forearm", 0),
    ("hears what load the client moved in a usual set of eight", 0), ("weighs the client", 0),
    ("reads a new study that measured where the lat starts in 300 people", 1),
    ("reads a new study of muscle sizes in trained lifters", 1),
    ("reads a new study of how the shoulder blade travels in pulldowns", 1),
    ("reads a new study of how long the fibres of the back muscles are", 1),
)  # fmt: skip


@template("08.two spreads", section="8.3", model=False)
def band_that_gets_narrower(chance):
    (news, which), name = chance.one_of(NEWS), people(chance, 1)[0]
    why = ("It tells about this one client.", "It tells about what nobody had measured.")[which]
    wrong = (
        (BANDS[1 - which], "unlike compared", why),
        ("both, by the same share", "unlike compared", "The two have different causes."),
        ("neither, a band never changes", "model trusted too little", "What is learned makes a band narrower."),
    )
    ask, slips = one_of_these(chance, BANDS[which], wrong, 1)
    work = Working()
    work.say(why)
    work.say(f"So {BANDS[which]} gets narrower.")
    question = (
        f"{name} coaches a client and {news}.",
        "Which band around the client's answer gets narrower above all?",
    )
    return Item(question, ask, "Does it tell about one person, or about something that nobody knew?", work, slips)


@template("08.two spreads", section="8.3", model=False)
def what_would_help_most(chance):
    middle, narrow, wide = chance.number(14, 30, 1), chance.number(1, 2, 1), chance.number(5, 9, 1)
    which = chance.one_of((0, 1))
    half = (wide, narrow) if which == 0 else (narrow, wide)
    rights = ("more tape readings, or a set that was done anyway", "research that measures what nobody has measured")
    wrong = (
        (rights[1 - which], "unlike compared", "Go to the wider band first."),
        ("a maximum test today", "maximum tested", "No maximum is ever tested for this."),
        ("one more decimal", "too exact", "More digits do not tell more."),
    )
    ask, slips = one_of_these(chance, rights[which], wrong, 2)
    work = Working()
    work.say(f"The bands are {2 * half[0]} and {2 * half[1]} wide: {BANDS[which]} is the wider one.")
    work.say(f"So what helps most is {rights[which]}.")
    ends = [f"{middle - one} to {middle + one}" for one in half]
    question = (
        f"An answer is {middle} kg. People who share the client's measures: {ends[0]} kg. Not known: {ends[1]} kg.",
        "What would make the answer surer?",
    )
    return Item(question, ask, "Which band is wider, and what makes that one narrower?", work, slips)


@template("08.two spreads", section="8.3", model=False)
def said_of_two_spreads(chance):
    name = people(chance, 1)[0]
    return sentences(
        chance,
        f"{name} sees two bands around an answer, one of people and one of what is not known. Which sentence holds?",
        (
            "Neither band holds the other, so say both.",
            "A tape can narrow the band of people, and leave the other as it is.",
            "With all tape readings taken, the answer can still be open.",
            "People of one size still differ in strength.",
        ),
        (
            ("The wider band holds the narrower one, so say that.", "unlike compared", "They have different causes."),
            ("A better tape narrows both bands alike.", "unlike compared", "No tape reaches what nobody has measured."),
            ("What is not known is different for tall people only.", "proof from nowhere", "It is open for everybody."),
            ("The middle of a band is the true answer.", "one number for a span", "Say from where to where."),
            ("If the band of people is narrow, the answer is sure.", "span misread", "Look at the other band too."),
        ),
        "Ask where each band comes from.",
    )  # fmt: skip


@template("08.promise", section="8.4", model=False)
def difference_against_people(chance):
    low, gap, sd = chance.number(50, 90, 1), chance.number(1, 6, 1), chance.number(7, 14, 1)
    work = Working()
    apart_by = work.line("Difference of the means", f"{low + gap} kg − {low} kg", "kg", 0)
    work.line("Counted in SDs between people", f"{apart_by:.0f} kg / {sd} kg", "SD", 2)
    slips = (
        Slip("spread forgotten", gap, 2),
        Slip("upside down", sd / gap, 2),
        Slip("mean for spread", gap / low, 2),
        Slip("variance for spread", gap / sd**2, 2),
    )
    ask = Number(gap / sd, "SD", 0.05, 0.9, share=0.03, within=0.006, digits=2)
    question = (
        f"In an invented trial people pull {low + gap} kg with grip A on average, and {low} kg with grip B. "
        f"The SD between people is {sd} kg.",
        "How many SDs between people lie between the grips?",
    )
    return Item(
        question, ask, "Divide what lies between the grips by what lies between people.", work, apart(slips, ask)
    )


@template("08.promise", section="8.5", model=False)
def people_for_whom_the_average_misleads(chance):
    best, other = chance.number(20, 48, 1), chance.number(25, 50, 1)
    name, (wide, narrow) = people(chance, 1)[0], chance.one_of(((2, 1), (1.75, 1.25), (1.5, 1)))
    work = Working()
    work.say(f"On average {wide} × is best. It is best for {best} in 100.")
    work.line("Better served by another grip", f"100 − {best}", "%", 0)
    slips = (
        Slip("change for rest", best, 2, "For these it is the best grip. Count the others."),
        Slip("only the addition", other, 2, f"There are more grips than {narrow} ×."),
    )
    ask = Number(100 - best, "%", 50, 82, share=0.01, digits=0)
    question = (
        f"{name} tries five grips on 100 drawn lifters. On average {wide} × does best. It is best for {best} of them, "
        f"{narrow} × is best for {other}, and other grips for the rest.",
        f"How many per cent of them does a grip other than {wide} × serve better?",
    )
    return Item(
        question, ask, "Count everybody for whom the average's best grip is not the best.", work, apart(slips, ask)
    )


@template("08.promise", "08.average", section="8.7", model=False)
def what_may_be_promised(chance):
    name = people(chance, 1)[0]
    return sentences(
        chance,
        f"{name} asks: “Which grip is best for my lat?” Two grips differ by less than their bands are wide. What may a coach say?",
        (
            f"“I can't tell these two apart for you. Take the one that feels good.” {CAUTION}",
            f"“Your lever follows from your own shoulders. Which grip is best for your lat, I don't know.” {CAUTION}",
            f"“On average they hardly differ, and people differ more. Let us try both, light.” {CAUTION}",
        ),
        (
            ("“The one with the higher mean will grow your lat more.”", "proof from nowhere", "Nobody has shown that."),
            ("“What is best on average is best for you.”", "group for one person", "An average is about a group."),
            ("“The one with the larger number, to the decimal.”", "too exact", "The bands are wider than that."),
            ("“Your tape readings settle it.”", "model trusted too far", "No tape reaches what is not known."),
            ("“Test your maximum with both, then we know.”", "maximum tested", "No maximum is tested for this."),
        ),
        "Promise what the bands allow, and no more.",
    )  # fmt: skip
