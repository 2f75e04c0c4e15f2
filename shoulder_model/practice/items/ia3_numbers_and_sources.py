"""Items of appendix a3: where numbers come from, what a mark allows, and what was checked against the outside."""

from ...register import find, outside_checks
from ...sources import MARKS, NOT_LOCATED, constant
from ...tables import read_table
from ...words import written
from ..asks import Number, Order, letters_by
from ..bank import template
from ..choosing import apart, one_of_these, sentences
from ..item import Item
from ..slips import Slip
from ..working import Working

TOLD = {  # a row of data/facts.csv -> what it is
    "upper_arm_mass": "the upper arm's share of body mass",
    "gh_below_acromion": "how far the shoulder joint lies below the bony top of the shoulder",
    "elbow_flexion_limit_deg": "how far an elbow bends",
    "pulldown_1rm_of_mass_men": "what men pull down once, over their body mass",
    "isometric_adduction": "how hard young adults draw a raised arm down",
    "elbow_pull_neutral": "how hard men bend the elbow with a neutral hand",
    "grip_friction": "how well a hand holds a bar sideways",
    "sc_from_midline": "how far the inner end of the collarbone lies from the midline",
    "specific_tension": "how hard one square centimetre of muscle pulls",
    "tape_reading": "how far off a tape may read",
    "bar_radius": "half the thickness of a bar",
}
RANGED = [name for name in TOLD if constant(name).low < constant(name).value < constant(name).high]
SEARCHES = (  # words typed, a row that they find
    ("rear deltoid fibre", "deltoid posterior: fibre"),
    ("lat fibre", "latissimus dorsi middle: fibre"),
    ("Winter upper arm mass", "upper arm mass"),
    ("novice repetitions low", "repetitions low, novice"),
    ("front pulldown grip catalogue", "front pulldown: grip ratio"),
    ("bar powerlifting", "bar radius"),
    ("adduction young adults", "isometric adduction"),
)


def _with_unit(known, number):
    """A number as text with the unit of a constant."""
    return f"{number} {known.unit.replace('deg', 'degrees')}".strip()


@template("a3.look up", section="a3.2", model=False)
def which_row_a_search_finds(chance):
    typed, right = chance.one_of(SEARCHES)
    names = {number.name for number in find(typed)}
    others = chance.some([row for _, row in SEARCHES if row not in names], 3)
    wrong = [(row, "mark misread", "Its row does not have all the words.") for row in others]
    ask, slips = one_of_these(chance, right, wrong, 1)
    work = Working()
    work.say("The search shows a row only where all words stand, in any order.")
    work.say(f"“{typed}” finds: {right}.")
    question = (f"You type “{typed}” into the search box of the numbers. Which row do you get?",)
    return Item(question, ask, "Every word has to stand in the row.", work, slips)


@template("a3.look up", "a3.marks", section="a3.2", model=False)
def how_a_number_is_known(chance):
    known = constant(chance.one_of(tuple(TOLD)))
    options = [words for mark, words in MARKS.items() if mark != known.mark]
    right = MARKS[known.mark]
    wrong = [(words, "mark misread", "Read the source again.") for words in chance.some(options, 3)]
    ask, slips = one_of_these(chance, right, wrong, 1)
    work = Working()
    work.say(f"The row has the mark {known.mark}: {right}.")
    question = (
        f"You look up {TOLD[known.name]}. The row says: {_with_unit(known, f'{known.value:g}')}.",
        f"Its source is: “{known.source.replace('+-', '±')}”.",
        "How is this number known?",
    )
    return Item(question, ask, "Who printed it, and could you find the page?", work, slips)


@template("a3.look up", section="a3.2")
def how_far_a_range_reaches(chance):
    known = constant(chance.one_of(tuple(RANGED)))
    up = chance.place(2) == 1
    end, way = (known.high, "above") if up else (known.low, "below")
    work = Working()
    total = f"{known.high:g} − {known.value:g}" if up else f"{known.value:g} − {known.low:g}"
    gap = work.line("Distance to that end", total, "", 4)
    share = work.line("As a share of the value", f"100 × {gap:g} / {known.value:g}", "%", 1)
    other = 100 * abs((known.low if up else known.high) - known.value) / known.value
    ask = Number(100 * abs(end - known.value) / known.value, "%", 0.5, 120, within=0.3)
    slips = (
        Slip("wrong end", other, 1),
        Slip("whole range", 100 * (known.high - known.low) / known.value, 1),
        Slip("divided by the end", share * known.value / end, 2),
    )
    question = (
        f"A row of the register: {TOLD[known.name]}, {_with_unit(known, f'{known.value:g}')}, range {known.low:g} to {known.high:g}.",
        f"How far does the range reach {way} the value, in per cent of the value?",
    )
    return Item(question, ask, "Take the distance to that end first.", work, apart(slips, ask))


@template("a3.marks", section="a3.3", model=False)
def order_by_how_well_known(chance):
    marks = ("R", "D", "MM", "none") if chance.place(2) else ("R", "D", "ML", "none")
    stories = {
        "R": ("You copied it from the paper's table.", "You computed it from the survey's own records."),
        "D": ("You divided two printed values.", "You took one printed length from another."),
        "MM": ("You remember it from a course, and fairly well.", "A colleague quoted it by heart, with the journal."),
        "ML": ("You remember it from a course, and not well.", "A colleague thinks it was about that."),
        "none": ("Every gym does it like that.", "You chose a round number."),
    }
    told = chance.shuffled([(mark, chance.one_of(stories[mark])) for mark in marks])
    things = tuple(story for _, story in told)
    key = letters_by([marks.index(mark) for mark, _ in told])
    work = Working()
    for mark in marks:
        work.say(f"{MARKS[mark][0].upper()}{MARKS[mark][1:]}: “{dict(told)[mark]}”")
    question = ("Four numbers, and how you got them. Put them in order of how well they are known.",)
    ask = Order(things, key, "best known first")
    slips = (Slip("order turned round", key[::-1], 1),)
    return Item(question, ask, "Printed, worked out, remembered, or nobody's?", work, slips)


WHERE = (
    "From a book of tables",
    "From a colleague's list",
    "From an old course",
    "From a page on the web",
    "From a poster",
)
NOT_DECIDE = (
    ("read as “about {x}” in a text that names no paper", "U"),
    ("remembered as {x} from a course", "MM"),
    ("remembered as about {x}, with doubts", "ML"),
)


@template("a3.marks", section="a3.3", model=False)
def what_a_number_may_do(chance):
    x, (story, mark) = chance.number(10, 90, 5), chance.one_of(NOT_DECIDE)
    start = chance.one_of(WHERE)
    right = "stand in the model as a default with its mark, and decide nothing"
    wrong = (
        ("decide whether the model passes a check", "proof from nowhere", "Nobody can look it up."),
        ("be left without a mark, because the model runs", "mark misread", "Every number has a mark."),
        ("be called read, because you are sure of it", "mark misread", "Read means: read in a text that can be found."),
    )
    ask, slips = one_of_these(chance, right, wrong, 2)
    work = Working()
    work.say(f"This one is {MARKS[mark]}.")
    work.say("Such a number may be a start. It decides no check, no direction, no rule and no pooled result.")
    question = (f"{start}: a muscle's lever in millimetres, {story.format(x=x)}. What may this number do?",)
    return Item(question, ask, "Could a reader find the page?", work, slips)


@template("a3.marks", "a3.look up", section="a3.3", model=False)
def which_citation_can_be_found(chance):
    rows = read_table("evidence.csv")
    lost = sorted({row["citation"] for row in rows if row["mark"] == NOT_LOCATED})
    full = sorted({row["citation"] for row in rows if row["doi"] and ";" in row["citation"] and ":" in row["citation"]})
    right = chance.one_of(tuple(full))
    wrong = [(one, "proof from nowhere", "No journal with year, volume and pages.") for one in chance.some(lost, 3)]
    ask, slips = one_of_these(chance, right, wrong, 1)
    work = Working()
    work.say("Journal, year, volume and pages are enough to find a paper.")
    work.say(f"So: {right}.")
    question = ("Four citations. With which one can a reader find the paper?",)
    return Item(question, ask, "What would you type into a library's catalogue?", work, slips)


@template("a3.outside", section="a3.4", model=False)
def how_far_off_a_check_is(chance):
    printed = chance.number(50, 150, 5)
    high = printed - chance.number(8, 30, 2)
    low = high - chance.number(5, 20, 1)
    work = Working()
    gap = work.line("From the nearer end to the printed value", f"{printed} − {high}", "kg", 0)
    share = work.line("As a share of the printed value", f"100 × {gap:g} / {printed}", "%", 1)
    ask = Number(100 * (printed - high) / printed, "%", 3, 65, within=0.3)
    slips = (
        Slip("wrong end", 100 * (printed - low) / printed, 1),
        Slip("divided by the end", share * printed / high, 2),
    )
    question = (
        f"An invented check: people held {printed} kg, the model's span is {low} to {high} kg.",
        "How far off is the model, in per cent of the printed value? Take the nearer end of the span.",
    )
    return Item(question, ask, "The span ends below the printed value.", work, apart(slips, ask))


@template("a3.outside", section="a3.4", model=False)
def how_many_standard_deviations_off(chance):
    mean, sd = chance.number(800, 1400, 20), chance.number(100, 240, 20)
    model = mean - round(sd * chance.number(0.6, 2.9, 0.1) / 10) * 10
    work = Working()
    gap = work.line("Difference", f"{mean} − {model}", "N", 0)
    work.line("Counted in standard deviations", f"{gap:g} / {sd}", "SD", 2)
    ask = Number((mean - model) / sd, "SD", 0.3, 3.5, within=0.03, digits=2)
    slips = (
        Slip("spread forgotten", float(mean - model), 2),
        Slip("variance for spread", (mean - model) / sd**2, 2),
        Slip("mean for spread", (mean - model) / mean, 2),
    )
    question = (
        f"An invented check: people push with {mean} ± {sd} N (mean ± standard deviation). The model says {model} N.",
        "How many standard deviations is the model off?",
    )
    return Item(question, ask, "Divide the difference by the spread between people.", work, apart(slips, ask))


HOLDS = (
    "A check that holds says that the model can be right there, not that it is.",
    "A miss that is known and written down tells you where not to trust the model.",
    "Muscle paths were fitted to published signs, so those checks say that all signs hold at once.",
    "A survey's mean that comes back unchanged shows that the table was copied rightly.",
)
FAILS = (
    ("Every check counts the same, wherever its number comes from.", "proof from nowhere", "A number from memory counts for nothing."),
    ("A model with a miss is of no use at all.", "model trusted too little", "A miss is about one thing; the others hold."),
    ("A model that passes its checks is right everywhere.", "model trusted too far", "It is checked where somebody measured."),
    ("A check that misses is best taken out of the list.", "proof from nowhere", "Then nobody sees where the model is wrong."),
    ("When a check misses, change the printed number.", "proof from nowhere", "The printed number is what people measured."),
)  # fmt: skip


@template("a3.outside", section="a3.4", model=False)
def what_a_check_says(chance):
    hint = "Ask what was measured, and what was fitted to it."
    topic = chance.one_of(tuple(dict.fromkeys(one.topic for one in outside_checks() if one.counts == "yes")))
    question = f"The table of outside checks has rows about {topic}. Which sentence about such a table is right?"
    return sentences(chance, question, HOLDS, FAILS, hint)


@template("a3.outside", section="a3.4")
def printed_against_model(chance):
    checks = [one for one in outside_checks() if one.off and one.counts == "yes"]
    one = chance.one_of(tuple(checks))
    off = 100 * float(one.off)
    size = "less than a tenth" if off < 10 else "a tenth to a quarter" if off <= 25 else "more than a quarter"
    sizes = ("less than a tenth", "a tenth to a quarter", "more than a quarter", "it does not miss")
    wrong = [
        (other, "model trusted too far" if other == sizes[3] else "size misread", "")
        for other in sizes
        if other != size
    ]
    ask, slips = one_of_these(chance, size, wrong, 2)
    work = Working()
    work.say(
        f"Printed {one.printed} {one.unit}; the model gives {one.model} {one.unit}.".replace(" ;", ";").replace(
            " .", "."
        )
    )
    work.say(f"From the nearer end that is {written(off, 0)} % of the printed value.")
    asked = f"Printed: {one.printed} {one.unit}".strip()
    gives = f"model: {one.model} {one.unit}".strip()
    question = (f"A row of the outside checks ({one.source}). {asked}; {gives}.", "By how much does the model miss?")
    return Item(question, ask, "Compare the nearest of the model's numbers with the printed one.", work, slips)
