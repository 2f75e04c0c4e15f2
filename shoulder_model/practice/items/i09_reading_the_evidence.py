"""Items of chapter 9: four questions for a trial, one client's reading, a plan that stays or changes."""

from functools import cache
from math import comb

from ...evidence import ASSUMED, grade, minimal_detectable_change, power_of
from ...evidence.effect_size import Z95
from ...tables import read_table
from ...words import listed
from ..asks import Choice, Number, Reasoned, letter_of
from ..bank import template
from ..gym import people
from ..item import Item
from ..pictures.forest import forest
from ..pictures.trials import drawn_published, invented_trial, published
from ..slips import Slip
from ..working import Working

SD = 10  # % MVIC, of the invented trials
Z = round(Z95, 2)  # what the chapter writes for 95 %


CLAIMS = {  # grade -> what may be said
    "something else": "no claim: something else may have made the difference",
    "hint": "a hint, no more: more with {side}",
    "sure": "fairly sure: more with {side}",
    "none seen": "no claim: no difference was seen, and none is ruled out",
}
LOADS = {"one": "One load was used for all of them", "each": "A new load was found for each of them"}
MARKED = {"first": "more with {one.first}", "second": "more with {one.second}", "none": "no difference"}


@cache
def _graded(trials, correlation):
    """The grade of some published results, a frozen set, at an assumed correlation."""
    return grade(trials, correlation)


@template("09.four questions", "09.change a plan", "04.trials", section="9.2")
def what_published_rings_allow(chance):
    fair = [one for one in published() if not any(trial.doubts for trial in one.trials)]
    group, trials, rows, correlation, words = drawn_published(chance, chance.one_of((fair, published())))
    found = _graded(frozenset(trials), correlation)
    doubts = sorted({doubt for one in trials for doubt in one.doubts})
    side = group.second if found.side == "second" else group.first
    claim = {name: text.format(side=side) for name, text in CLAIMS.items()}
    options = chance.shuffled(claim.values())
    tests = "; ".join(f"{row[0]}, {MARKED[one.higher].format(one=one)}" for row, one in zip(rows, trials, strict=True))
    work = Working()
    work.say(
        f"{LOADS[trials[0].held]}. "
        f"What else may have made the difference: {listed(doubts) if doubts else 'nothing that we know of'}."
    )
    work.say("A result counts only where nothing else changed. A test's p-value alone is a hint at most.")
    work.say(f"So: {claim[found.name]}. The dots are the same {trials[0].who} each time, not {len(trials)} trials.")
    same = f"These are {len(trials)} results of the same {trials[0].who}. That is no reason to be fairly sure."
    slips = [Slip("dots for trials", letter_of(options, claim["sure"]), 3, same)]
    if found.name == "something else":
        slips += [Slip("else forgotten", letter_of(options, claim[key]), 1) for key in ("hint", "none seen")]
    also = sorted({part for one in trials for part in one.also_changed.split("; ") if part})
    changed = f" These also changed or were not stated: {listed(also)}." if also else " No other change is known."
    question = (
        f"{words} A dot is g, and its bar is the 95 % interval. Right of zero {group.first} had more.",
        f"{LOADS[trials[0].held]}.{changed} The trial's own tests say: {tests}.",
        "By this workbook's rule, what may you conclude from all of it together?",
    )
    picture = forest(rows, group.first, group.second)
    hint = "Ask what was held constant before you look at the dots."
    return Item(question, Choice(options, letter_of(options, claim[found.name])), hint, work, tuple(slips), picture)


QUESTIONS = {
    "who": "who was in it, and how many",
    "what": "what was measured, and scaled to what",
    "constant": "what was held constant, and what else changed",
    "kind": "whether the result is a difference, an order or a p-value",
}
REPORTS = {
    "who": ("Ten women who train", "Twelve men who lift", "Twenty beginners", "Fifteen men and nine women"),
    "what": (
        "the lat's EMG was read through the skin, in % MVIC",
        "the rear deltoid's EMG was read through the skin, in % MVIC",
        "the largest load for ten repetitions was found, in kg",
    ),
    "constant": (
        "the hands stayed the same, and a load was found for each grip",
        "nothing but the grip changed, with one load for all grips",
        "the grip changed and the palms were turned, at a relative load",
    ),
    "kind": (
        "the paper prints both means with their SDs",
        "the paper says only that wide was more than narrow",
        "the paper prints p = 0.03 and nothing else",
    ),
}


@template("09.four questions", section="9.2", model=False)
def which_question_is_left_open(chance):
    left = chance.one_of(tuple(QUESTIONS))
    parts = {name: chance.one_of(texts) for name, texts in REPORTS.items()}
    head = parts["who"] if left != "who" else "Some people"
    told_parts = [parts[name] for name in ("what", "constant", "kind") if name != left]
    options = chance.shuffled(QUESTIONS.values())
    work = Working()
    for name, words in QUESTIONS.items():
        said = "the report does not say" if name == left else parts[name]
        work.say(f"{words[0].upper()}{words[1:]}: {said[0].lower()}{said[1:]}.")
    line = tuple(QUESTIONS).index(left) + 1
    slips = tuple(
        Slip("read past it", letter_of(options, words), line, "The report tells you that. Look for what it leaves out.")
        for name, words in QUESTIONS.items()
        if name != left
    )
    sentences = " ".join(f"{part[0].upper()}{part[1:]}." for part in told_parts)
    question = (
        f"A report (invented): “{head} did pulldowns with two grips. {sentences}”",
        "Which of the four questions does the report not answer?",
    )
    return Item(
        question,
        Choice(options, letter_of(options, QUESTIONS[left])),
        "Go through the four questions one by one.",
        work,
        slips,
    )


DESIGNS = (  # what is held and what else changed as Comparison has it, in words, and what that means
    ("each", "", "the same hands, and a new load found for each width", "only the width changes, and effort is equal"),
    ("one", "", "the same hands, and 30 kg for everybody at both widths",
     "with one load for both, the sets are not equally hard"),
    ("each", "hand turn", "palms turned in the narrow grip, and a new load found for each width",
     "the turn of the palms may have made the difference"),
    ("not stated", "", "the same hands, and loads that the paper does not state",
     "nobody knows how hard each width was"),
    ("each", "trunk lean", "leaning back in the wide grip only, and a new load found for each width",
     "leaning back may have made the difference"),
)  # fmt: skip


@template("09.four questions", "09.change a plan", section="9.6")
def a_fair_trial(chance):
    sizes = chance.some((10, 12, 14, 16, 24, 30, 36), 4)
    designs = chance.shuffled((DESIGNS[0], *chance.some(DESIGNS[1:], 3)))
    trials = [
        invented_trial("one", count, (36, 30), SD, ASSUMED, held=held, also_changed=also)
        for count, (held, also, _, _) in zip(sizes, designs, strict=True)
    ]
    options = tuple(f"{count} people, {words}" for count, (_, _, words, _) in zip(sizes, designs, strict=True))
    right = next(place for place, trial in enumerate(trials) if not trial.doubts)
    many = max((place for place in range(4) if place != right), key=sizes.__getitem__)
    work = Working()
    for letter, design in zip("abcd", designs, strict=True):
        work.say(f"{letter}: {design[3]}.")
    work.say("More people make an interval shorter. They do not make a comparison fair.")
    names = [
        "people counted" if place == many and sizes[many] > sizes[right] else "else forgotten" for place in range(4)
    ]
    slips = [
        Slip(names[place], "abcd"[place], place + 1, f"{designs[place][3].capitalize()}.")
        for place in range(4)
        if place != right
    ]
    question = (
        "A coach asks: “Same hands, another width, equally hard: does the lat show more EMG?”",
        "Which of these invented trials can answer that?",
    )
    hint = "Check two things in each: what changes, and how the load was chosen."
    return Item(question, Choice(options, "abcd"[right]), hint, work, tuple(slips))


@cache
def _errors():
    """The lowest and the highest published error of one reading, and the journal. [% MVIC]"""
    row = next(row for row in read_table("evidence.csv") if (row["study_id"], row["outcome"]) == ("nzjp2018a", "SEM"))
    return tuple(float(end) for end in row["mean"].split("-")), row["citation"]


@template("09.one client", section="9.7")
def how_far_apart_two_readings_must_be(chance):
    (name,) = people(chance, 1)
    error = chance.number(5, 20, 0.5)
    work = Working()
    both = work.line("Error of a difference between two readings", f"√(2) × {error:g} %", "%", 2)
    work.line("Only one pair in twenty is further apart than", f"{Z} × {both} %", "%", 1)
    slips = (
        Slip("one reading's error", Z * error, 1),
        Slip("one standard error", both, 2, f"This is the error of a difference. Multiply it by {Z}."),
        Slip("added for root", Z * 2 * error, 1, "Two errors seldom add up in full: multiply one by √2, not by 2."),
    )
    question = (
        f"{name} reads the lat's EMG twice in the same pull. "
        f"The standard error of measurement of one reading is {error:g} % MVIC.",
        "Which gap between two readings does error alone pass only one time in twenty? "
        f"Take {Z} for one time in twenty, and answer in % MVIC.",
    )
    ask = Number(float(minimal_detectable_change(error)), "%", 12, 60, share=0.02)
    return Item(question, ask, "A difference carries the error of both readings.", work, slips)


@template("09.one client", section="9.11")
def readings_before_a_gap_counts(chance):
    (name,) = people(chance, 1)
    error, gap = chance.number(6, 14, 1), chance.number(6, 14, 1)
    rare = float(minimal_detectable_change(error))
    work = Working()
    printed = work.line("One pair must lie further apart than", f"{Z} × √(2) × {error}", "", 2)
    times = work.line("Readings of each", f"({printed} / {gap})²", "", 1)
    work.say(f"Rounded up that is {-int(-times // 1)} each. Error shrinks with the root of the number of readings.")
    slips = (
        Slip("square forgotten", rare / gap, 2),
        Slip("one reading's error", (Z * error / gap) ** 2, 1),
        Slip("upside down", (gap / rare) ** 2, 2),
    )
    question = (
        f"{name} sees a gap of {gap} % MVIC between two grips. "
        f"The standard error of measurement of one reading is {error} % MVIC.",
        "How many readings of each grip does it take before error alone gives such a gap only one time in twenty? "
        f"Take {Z}. Give one digit after the point, before you round up.",
    )
    ask = Number((rare / gap) ** 2, "", 2, 30, share=0.03, within=0.06)
    return Item(question, ask, "Half the error takes four times as many readings.", work, slips)


GAPS = {  # where a gap lies -> what to say of it
    "the gap is smaller than what the lowest error makes": "nothing has been shown yet",
    "the gap lies between what the two errors make": "it depends on the error, so read again",
    "the gap is larger than what the highest error makes": "error alone seldom makes so much",
}


@template("09.one client", section="9.7")
def is_it_a_change(chance):
    (name,) = people(chance, 1)
    (least, most), journal = _errors()
    low, high = (float(minimal_detectable_change(error)) for error in (least, most))
    places = ((8, int(low) - 4), (int(low) + 5, int(high) - 4), (int(high) + 5, 66))
    gap = chance.number(*chance.one_of(places), 1)
    first = chance.number(12, 25, 1)
    facts = tuple(GAPS)
    place = 0 if gap < low else 1 if gap < high else 2
    options, reasons = (
        chance.shuffled(GAPS.values()),
        chance.shuffled((*facts, "a trial found the same gap in a group")),
    )
    key = letter_of(options, GAPS[facts[place]]) + "1234"[reasons.index(facts[place])]
    work = Working()
    for words, error in (("lowest", least), ("highest", most)):
        work.line(f"What the {words} error makes one time in twenty", f"{Z} × √(2) × {error}", "% MVIC", 0)
    work.say(f"The gap is {gap} % MVIC: {facts[place]}. So {GAPS[facts[place]]}.")
    work.say("A group's mean has a smaller error. It says nothing about one person's gap.")
    group = "1234"[reasons.index("a trial found the same gap in a group")]
    words = f"Error alone makes {low:.0f} to {high:.0f} % MVIC one time in twenty. The gap is {gap}."
    slips = [Slip("group for one person", f"*{group}", 4)]
    slips += [Slip("span misread", f"{letter}*", 3, words) for letter in "abc" if letter != key[0]]
    question = (
        f"{name} reads the lat's EMG once with each of two grips: {first + gap} and {first} % MVIC.",
        f"Published errors of one reading reach from {least} to {most} % MVIC ({journal}). "
        "Go by the gap that error alone makes only one time in twenty. What do you say, and why?",
    )
    hint = f"Work out both ends: {Z} × √2 × the error."
    return Item(question, Reasoned(options, reasons, key), hint, work, tuple(slips))


ARTICLE = (  # if yes, if not, and what follows if not
    ("The people were new to training, like {name}", "The people had trained for years, and {name} is new",
     "the people were not like {name}, so it may not hold"),
    ("A new load was found for each grip", "All grips had the same load",
     "with one load for all, the weaker set-up looks better"),
    ("Nothing but the width changed", "The palms were turned as well",
     "two things changed, so nobody knows what made the difference"),
    ("It prints a difference, and its interval misses zero", "It prints an order and a p-value, and no means",
     "without an interval you know the direction at most"),
    ("It measured the largest load, and {name} wants strength", "It measured EMG, and {name} wants growth",
     "the trial did not measure what {name} wants"),
    ("Two other trials agree", "Two other trials found the opposite", "the other trials do not agree"),
)  # fmt: skip
ALL_YES, LIKES, PROVED = (
    "all six questions get a yes",
    "{name} likes the other grip better",
    "p is under 0.05, so it is proven",
)
CHANGE, KEEP = "change to the other grip", "leave the plan alone"


@template("09.change a plan", "09.four questions", section="9.9", model=False)
def a_reason_to_change_the_plan(chance):
    (name,) = people(chance, 1)
    all_yes, liked = len(ARTICLE), len(ARTICLE) + 1  # none fails; one fails, but the client likes the other grip
    fails = chance.one_of((*range(len(ARTICLE)), all_yes, all_yes, liked, liked))
    likes = fails == liked
    no = chance.place(len(ARTICLE)) if likes else fails
    said = [part[place == no].format(name=name) for place, part in enumerate(ARTICLE)]
    others = chance.some([part[2] for place, part in enumerate(ARTICLE) if place != no], 2)
    why = LIKES if likes else ALL_YES if no == len(ARTICLE) else ARTICLE[no][2]
    texts = {text: text.format(name=name) for text in (why, *others, PROVED)}
    options = chance.shuffled((CHANGE, KEEP, "do both, with twice the sets"))
    reasons = chance.shuffled(tuple(texts.values()))
    best = CHANGE if likes or why == ALL_YES else KEEP
    key = letter_of(options, best) + "1234"[reasons.index(texts[why])]
    work = Working()
    work.say(f"Here {texts[why]}.")
    work.say("Change a plan if all six answers are yes, or if the client likes the other pull better.")
    work.say(f"So {best}. Otherwise go by comfort, control and progress.")
    proved = "1234"[reasons.index(PROVED)]
    more = f" {name} has tried both grips and likes the other one better." if likes else ""
    slips = [Slip("proof from nowhere", f"*{proved}", 2, "A p-value proves nothing about this client.")]
    told = f"Here {texts[why]}. So {best}."
    slips += [Slip("read past it", f"{letter}*", 1, told) for letter in "abc" if letter != key[0]]
    question = (
        f"{name} trains with a wide grip and brings an article (invented): a narrower grip did better, p = 0.02.",
        f"{'. '.join(said)}.{more} Do you change the plan, and why?",
    )
    return Item(
        question, Reasoned(options, reasons, key), "Go through the six questions of the table.", work, tuple(slips)
    )


def _most_find_it(share, trials):
    """How often most of so many trials find it, if each does with this probability."""
    return sum(comb(trials, k) * share**k * (1 - share) ** (trials - k) for k in range(trials // 2 + 1, trials + 1))


@template("09.change a plan", "09.effect size", section="9.4")
def the_vote_of_many_trials(chance):
    count, size = chance.one_of(chance.one_of(((8, 10, 12, 15), (40, 60)))), chance.one_of((0.3, 0.4, 0.5, 0.6))
    share = float(power_of(count, size))
    if 0.4 < share < 0.6 or share > 0.85:
        return the_vote_of_many_trials(chance)
    few, many = chance.one_of(((3, 15), (5, 25), (5, 45), (9, 45)))
    rates = [_most_find_it(share, trials) for trials in (few, many)]
    options = chance.shuffled(("it falls", "it stays the same", "it rises"))
    right = "it rises" if rates[1] > rates[0] else "it falls"
    work = Working()
    work.say(f"One such trial finds it {100 * share:.0f} times in 100: {'more' if share > 0.5 else 'less'} than half.")
    for trials, rate in zip((few, many), rates, strict=True):
        often = "less than 1 %" if rate < 0.01 else f"{100 * rate:.0f} %"
        work.say(f"Most of {trials} trials find it {often} of the time.")
    work.say("A vote throws the numbers away. Put all the numbers together instead.")
    does, outcome = ("finds", "find") if share > 0.5 else ("misses", "miss")
    words = f"Each trial {does} it more often than not. With more such trials it is surer that most {outcome} it."
    slips = [Slip("votes counted", letter, 3, words) for letter in "abc" if letter != letter_of(options, right)]
    question = (
        f"The true difference is {size} SD (of the differences). "
        f"A trial with {count} people finds it {100 * share:.0f} times in 100 (p under 0.05).",
        f"Somebody calls a difference real if most trials find it. With {many} such trials instead of {few}, "
        "what happens to the chance that most of them find it?",
    )
    hint = "Think of a coin that shows heads less or more than half of the time."
    return Item(question, Choice(options, letter_of(options, right)), hint, work, tuple(slips))
