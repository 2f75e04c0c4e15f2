"""Items of chapter 9: effect sizes by hand with their intervals, and forest plots of invented and published results."""

from functools import cache
from itertools import pairwise

from ...evidence import ASSUMED, NARROW, difference_within, grade, t_quantile
from ...evidence.effect_size import Z95
from ...words import counted, written
from ..asks import Choice, Number, Order, Pick, letter_of
from ..bank import template
from ..find_slip import find_the_slip
from ..item import Item
from ..pictures.forest import forest
from ..pictures.trials import CLEAR, drawn_published, forest_to_pick, invented_trial, rows_of_forest
from ..slips import Slip
from ..working import Working

SD = 10  # % MVIC, of the invented trials that are drawn
GROUPS = (8, 10, 12, 15, 20, 30, 40)  # people in them


def _pulls(chance):
    """Two invented pulls: means, SD and people."""
    second = chance.number(20, 36, 1)
    return second + chance.number(4, 9, 1), second, chance.number(7, 12, 1), chance.number(7, 12, 1)


def _told_pulls(first, second, sd, count):
    return (
        f"In an invented trial the same {count} people do two pulls. "
        f"Pull A reads {first} % MVIC, SD {sd}. Pull B reads {second} % MVIC, SD {sd}."
    )


FACTOR = "For n people the factor for small groups is 1 − 3 / (4n − 5)."


def _g_lines(first, second, sd, count, slip=""):
    """The lines of g by hand, with one slip in it or none."""
    work = Working()
    gap = work.line("Difference", f"{first} − {second}", "", 0)
    divided = f"{gap:.0f} / {sd}²" if slip == "variance for spread" else f"{gap:.0f} / {sd}"
    d = work.line("Counted in SDs", divided, "SD", 3)
    people_of = f"4 × {count} + 5" if slip == "added for taken off" else f"4 × {count} − 5"
    factor = work.line("Factor for a small group", f"1 − 3 / ({people_of})", "", 3)
    turned = f"{d} / {factor}" if slip == "divided for multiplied" else f"{d} × {factor}"
    work.line("g", turned, "SD", 2)
    return work


@template("09.effect size", section="9.3")
def g_by_hand(chance):
    first, second, sd, count = _pulls(chance)
    work = _g_lines(first, second, sd, count)
    d, factor = work[1].value, work[2].value
    slips = (
        Slip("spread forgotten", first - second, 2),
        Slip("variance for spread", (first - second) / sd**2 * factor, 2),
        Slip("small groups forgotten", d, 4),
        Slip("divided for multiplied", d / factor, 4, "The factor makes the number smaller: multiply by it."),
    )
    question = (
        _told_pulls(first, second, sd, count),
        f"{FACTOR} What is g of A over B?",
    )
    key = float(difference_within(first, second, sd, sd, count, ASSUMED).value)
    ask = Number(key, "SD", 0.2, 1.3, share=0.02, within=0.01, digits=2)
    return Item(question, ask, "Count the difference in SDs first. Then use the factor.", work, slips)


@template("09.effect size", section="9.3")
def find_the_slip_in_g(chance):
    first, second, sd, count = _pulls(chance)
    slip, line = chance.one_of((("variance for spread", 2), ("added for taken off", 3), ("divided for multiplied", 4)))
    right, wrong = (_g_lines(first, second, sd, count, one) for one in ("", slip))
    question = (_told_pulls(first, second, sd, count), "A classmate works out g of A over B.")
    return find_the_slip(question, wrong, right, line, slip, FACTOR)


@template("09.effect size", section="9.3")
def upper_end_of_an_interval(chance):
    first, second, sd, count = _pulls(chance)
    r, size = chance.one_of((0.3, 0.7)), round(t_quantile(count - 1), 2)
    g = difference_within(first, second, sd, sd, count, r)
    work = Working()
    d = work.line("d", f"({first} − {second}) / {sd}", "SD", 3)
    factor = work.line("Factor", f"1 − 3 / (4 × {count} − 5)", "", 3)
    variance = work.line("Variance of d", f"(1 / {count} + {d}² / (2 × {count})) × 2 × (1 − {r})", "", 4)
    error = work.line("Standard error of g", f"{factor} × √({variance})", "SD", 3)
    value = work.line("g", f"{d} × {factor}", "SD", 3)
    high = work.line("Upper end", f"{value} + {size} × {error}", "SD", 2)
    slips = (
        Slip("root forgotten", value + size * factor * variance, 4),
        Slip("large group's factor", value + Z95 * error, 6),
        Slip("one standard error", value + error, 6),
        Slip("wrong end", 2 * value - high, 6),
    )
    question = (
        _told_pulls(first, second, sd, count),
        f"d is the difference in SDs. Its variance is (1/n + d²/2n) × 2 (1 − r), and the correlation r is {r}. "
        f"{FACTOR} For {count} people the 95 % interval is g ± {size} standard errors.",
        "What is the upper end of the interval of g?",
    )
    ask = Number(float(g.interval[1]), "SD", 0.3, 3, share=0.01, within=0.02, digits=2)
    return Item(
        question, ask, "The standard error of g is the factor times the root of the variance of d.", work, slips
    )


@template("09.effect size", section="9.3")
def what_a_correlation_does(chance):
    first, second, sd, count = _pulls(chance)
    before, after = chance.some((0.2, 0.3, 0.5, 0.7, 0.8), 2)
    one, other = (difference_within(first, second, sd, sd, count, r) for r in (before, after))
    wide, then = (float(g.interval[1] - g.interval[0]) for g in (one, other))
    said = ("the interval shrinks, g stays", "the interval grows, g stays")
    options = chance.shuffled((*said, "g grows, the interval stays", "g shrinks, the interval stays"))
    right = said[0] if then < wide else said[1]
    work = Working()
    for r, g, width in ((before, one, wide), (after, other, then)):
        work.say(f"Correlation {r}: g {written(g.value, 2)}, interval {written(width, 2)} SD from end to end.")
    work.say(
        "g comes from the means, the SDs and the number of people. "
        "The correlation only says how much alike people's own differences are."
    )
    turned = said[1] if right == said[0] else said[0]
    slips = (
        Slip("wrong way of the interval", letter_of(options, turned), 2),
        *(Slip("correlation moves g", letter_of(options, option), 3) for option in options if option not in said),
    )
    question = (
        _told_pulls(first, second, sd, count),
        f"You assumed a correlation of {before}. Then you learn that it was {after}. "
        "What happens to g and its interval?",
    )
    return Item(
        question, Choice(options, letter_of(options, right)), "Does the formula of g use the correlation?", work, slips
    )


@template("09.effect size", section="9.3")
def order_intervals_by_length(chance):
    gap, sd = chance.number(3, 8, 1), chance.number(8, 14, 1)
    pairs = [(count, chance.one_of((0.3, 0.7))) for count in chance.some((8, 12, 20, 40, 90), 4)]
    by_people = sorted(range(4), key=lambda place: -pairs[place][0])
    if by_people == sorted(range(4), key=lambda place: (1 - pairs[place][1]) / pairs[place][0]):
        return order_intervals_by_length(chance)
    ends = [difference_within(30 + gap, 30, sd, sd, count, r).interval for count, r in pairs]
    widths = [float(high - low) for low, high in ends]
    ranked = sorted(range(4), key=widths.__getitem__)
    if ranked == by_people or any(widths[b] < 1.12 * widths[a] for a, b in pairwise(ranked)):
        return order_intervals_by_length(chance)
    things = tuple(f"{count} people, correlation {r}" for count, r in pairs)
    work = Working()
    for place in ranked:
        work.say(f"{things[place]}: {written(widths[place], 2)} SD from end to end.")
    work.say("More people make the mean surer. A high correlation does too: people's own differences are much alike.")
    work.say("The interval grows about as the root of (1 − r) / n.")
    key = "".join("abcd"[place] for place in ranked)
    question = (
        f"Four invented trials find the same difference, {gap} % MVIC with an SD of {sd}. "
        "In each one, the same people did both pulls. Put the intervals of g in order of length.",
    )
    ask = Order(things, key, "shortest interval first")
    hint = "Compare (1 − r) / n, where n is the number of people and r the correlation."
    counted_alone = "".join("abcd"[place] for place in by_people)
    words = "Fewer people with a higher correlation can give a shorter interval."
    slips = (Slip("order turned round", key[::-1], 5), Slip("people counted", counted_alone, 6, words))
    return Item(question, ask, hint, work, slips)


@cache
def _invented(size, gap):
    """An invented fair trial of so many people: its row of a forest plot [SD] and the name of its grade."""
    trial = invented_trial(counted(size, "person", "people"), size, (30 + gap, 30), SD, ASSUMED)
    ((_, value, low, high),) = rows_of_forest([trial], [trial.study])
    return (trial.study, value, low, high), grade([trial]).name


@cache
def _by_grade(size):
    """By grade, rows of trials of so many people whose intervals can be told from zero by eye."""
    found = {}
    for gap in range(-4, 12):
        row, name = _invented(size, gap)
        if min(abs(row[2]), abs(row[3])) > CLEAR and abs(row[3] - row[2] - NARROW) > CLEAR and name in SAID:
            found.setdefault(name, []).append(row)
    return found


def _drawn(chance, wanted):
    """Rows of one trial of the ``wanted`` grade, the first, and of two others, all of different sizes."""
    first = chance.one_of([size for size in GROUPS if wanted in _by_grade(size)])
    sizes = (first, *chance.some([size for size in GROUPS if size != first], 2))
    names = (wanted, *(chance.one_of(tuple(_by_grade(size))) for size in sizes[1:]))
    return [chance.one_of(_by_grade(size)[name]) for size, name in zip(sizes, names, strict=True)]


@template("09.effect size", "09.change a plan", section="9.3")
def which_interval_misses_zero(chance):
    largest = asked = 0
    while largest == asked:
        sizes, asked = chance.some(GROUPS, 4), chance.place(4)
        clear = [name for name in ("sure", "likely") if name in _by_grade(sizes[asked])]
        names = [chance.one_of(clear or ["none seen"]) if place == asked else "none seen" for place in range(4)]
        rows = [chance.one_of(_by_grade(size)[name]) for size, name in zip(sizes, names, strict=True)]
        largest = max(range(4), key=lambda place: abs(rows[place][1])) if clear else asked
    picture, letters = forest_to_pick(rows, "pull A", "pull B")
    right = letters[asked]
    work = Working()
    for letter, (name, value, low, high) in zip(letters, rows, strict=True):
        work.say(f"{letter}, {name}: {written(value, 2)}, from {written(low, 2)} to {written(high, 2)} SD.")
    work.say(f"Only the interval of {right} misses zero. “No difference” fits these data badly.")
    work.say(f"{letters[largest]} has the largest difference, but its interval contains zero.")
    slips = [Slip("size for sureness", letters[largest], 6)]
    slips += [Slip("zero inside", letter, 5) for letter in letters if letter not in (right, letters[largest])]
    question = (
        "Four invented trials compare the lat's EMG in pull A and pull B. Only the pull changed. "
        "A dot is g, and its bar is the 95 % interval. Right of zero pull A had more.",
        "In which trial does “no difference” fit the data badly?",
    )
    return Item(question, Pick(letters, right), "Look at the ends of the bars.", work, tuple(slips), picture)


SAID = {
    "sure": "fairly sure: more with pull {side}",
    "likely": "likely more with pull {side}, but by how much is open",
    "none seen": "no claim: no difference was seen, and none is ruled out",
}


MISREAD = {  # grade -> the slips that it invites: name, what is then said, own words
    "sure": (
        ("length forgotten", "likely", "The bar is {length} SD long. That is narrow, so you may be fairly sure."),
    ),
    "likely": (("length forgotten", "sure", "The bar is {length} SD long. That is too long to be fairly sure."),),
    "none seen": (("zero inside", "sure", ""), ("zero inside", "likely", "")),
}


@template("09.effect size", "09.change a plan", section="9.3")
def what_one_line_allows(chance):
    found = chance.one_of(tuple(SAID))
    name, value, low, high = (drawn := _drawn(chance, found))[0]
    rows = chance.shuffled(drawn)
    side = "A" if value > 0 else "B"
    words = {key: text.format(side=side) for key, text in SAID.items()}
    same = "fairly sure: the two pulls are the same"
    options = chance.shuffled((*words.values(), same))
    right = words[found]
    work = Working()
    length = written(high - low, 2)
    work.say(f"{name}: from {written(low, 2)} to {written(high, 2)} SD. That is {length} SD from end to end.")
    zero = "contains" if found == "none seen" else "misses"
    work.say(f"The interval {zero} zero. By the rule, narrow means {NARROW:g} SD or less.")
    work.say(f"So: {right}.")
    slips = [Slip("no proof of no difference", letter_of(options, same), 2)]
    for slip, key, told in MISREAD[found]:
        slips.append(Slip(slip, letter_of(options, words[key]), 2, told.format(length=length)))
    question = (
        "Three invented trials changed nothing but the pull, and found a load for each one. "
        "A dot is g, and its bar is the 95 % interval. Right of zero pull A had more.",
        f"By this workbook's rule, what may you conclude from the trial with {name} alone?",
    )
    hint = "Look for zero first, then at the length of the bar."
    ask, picture = Choice(options, letter_of(options, right)), forest(rows, "pull A", "pull B")
    return Item(question, ask, hint, work, tuple(slips), picture)


COUNTS = ("none of them", "one of them", "two of them", "three of them", "four of them")


@template("09.effect size", "04.trials", section="9.3")
def rings_of_a_published_trial(chance):
    group, _, rows, correlation, words = drawn_published(chance)
    options = COUNTS[: len(rows) + 1]
    inside = [low < 0 < high for _, _, low, high in rows]
    order = chance.shuffled(options)
    work = Working()
    for (name, value, low, high), zero in zip(rows, inside, strict=True):
        said = "contains zero" if zero else "misses zero"
        work.say(f"{name}: {written(value, 2)}, from {written(low, 2)} to {written(high, 2)} SD, {said}.")
    work.say(f"So zero lies inside {COUNTS[sum(inside)]}. With another correlation the dots stay and the bars change.")
    missed = len(rows) - sum(inside)
    slips = ()
    if missed != sum(inside):
        slips = (Slip("zero outside for inside", letter_of(order, COUNTS[missed]), len(rows) + 1),)
    question = (
        words,
        f"A dot is g, and its bar is the 95 % interval. Right of zero {group.first} had more. "
        f"The paper prints no correlation, so {correlation} is assumed.",
        "How many of these intervals contain zero?",
    )
    ask = Choice(order, letter_of(order, COUNTS[sum(inside)]))
    picture = forest(rows, group.first, group.second)
    return Item(question, ask, "Follow the dashed line at zero from top to bottom.", work, slips, picture)
