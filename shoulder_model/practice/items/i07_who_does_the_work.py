"""Items of chapter 7: spans of shares, and sharing one torque by least effort. More of it: `i07_limits`, `i07_palms`."""

from functools import cache
from itertools import combinations, product

import numpy as np

from ...muscles import MUSCLES as ALL_MUSCLES
from ...muscles import (
    cross_sections,
    fibre_length,
    force_length_factor,
    moment_arm,
    muscle_length,
    shoulder_muscles,
)
from ...sharing import least_effort
from ...sources import fact
from ...week.spans import span_of
from ...words import written
from ..asks import Number, Order, Pick, letters_by
from ..bank import template
from ..choosing import apart, one_of_these, sentences
from ..find_slip import find_the_slip
from ..item import Item
from ..pictures.girdle_and_spans import spans_to_read
from ..slips import Slip
from ..working import Working

IN_SPANS = (  # pulls whose stored spans are asked about
    "front pulldown at shoulder width", "front pulldown at 1.5 ×", "front pulldown at 2 ×", "close-grip pulldown",
    "straight-arm pulldown", "chin-up", "pull-up at 1.5 ×", "seated row close", "seated row at shoulder width",
    "chest-supported row", "bent-over row", "inverted row",
)  # fmt: skip
CLEAR, MOST = 2, 25  # per cent between two spans, or of overlap, that an eye can read; right end of the axis
WHOSE = "Each span covers the model's two opinions, forty random bodies, women and men, weak and strong."


@cache
def _span(name, group):
    """A stored span in whole per cent."""
    return tuple(round(100 * end) for end in span_of(name, group))


def _gap(one, other):
    """Per cent between two spans; negative where they overlap."""
    return max(one[0], other[0]) - min(one[1], other[1])


@cache
def _fours(group):
    """Four pulls of which just two can be told apart, and which two; all clear to the eye."""
    found = []
    for four in combinations(IN_SPANS, 4):
        gaps = {pair: _gap(*(_span(name, group) for name in pair)) for pair in combinations(four, 2)}
        apart = [pair for pair, gap in gaps.items() if gap > 0]
        if len(apart) == 1 and all(abs(gap) >= CLEAR for gap in gaps.values()):
            found.append((four, apart[0]))
    return tuple(found)


@template("07.table", section="7.2")
def which_two_can_you_tell_apart(chance):
    group = chance.one_of(("lat", "mid-back"))
    four, apart = chance.one_of(_fours(group))
    rows = [(letter, name, *_span(name, group)) for letter, name in zip("ABCD", chance.shuffled(four), strict=True)]
    letters = {name: letter for letter, name, _, _ in rows}
    key = "".join(sorted(letters[name] for name in apart))
    work = Working()
    for letter, _, low, high in rows:
        work.say(f"{letter}: {low} to {high} %")
    work.say(f"Only {key[0]} and {key[1]} leave a gap between them. All other pairs overlap.")
    slips = tuple(
        Slip("overlap overlooked", f"{one[0]}{other[0]}", 5, f"{one[0]} and {other[0]} overlap, so there may be no difference.")
        for one, other in combinations(rows, 2) if f"{one[0]}{other[0]}" != key
    )  # fmt: skip
    question = (
        f"The bars show the {group}'s share of the active muscle (effort × cross-section) in four pulls. {WHOSE}",
        "For which two pulls can you trust the difference? Pick both.",
    )
    picture = spans_to_read(rows, MOST, f"{group}'s share of the active muscle")
    return Item(question, Pick("ABCD", key), "Look for two bars with a gap between them.", work, slips, picture)


@cache
def _overlapping(group):
    """Two pulls whose spans overlap by a part that is neither nothing nor all."""
    pairs = [(one, other, _span(one, group), _span(other, group)) for one, other in combinations(IN_SPANS, 2)]
    return tuple(
        (one, other) for one, other, (a, b), (c, d) in pairs
        if 3 <= min(b, d) - max(a, c) and abs(a - c) >= 2 and abs(b - d) >= 2 and (a - c) * (b - d) > 0
    )  # fmt: skip


@template("07.table", section="7.2")
def points_of_overlap(chance):
    group, pair = chance.one_of([(group, pair) for group in ("lat", "mid-back") for pair in _overlapping(group)])
    one, other = chance.shuffled(pair)
    rows = [("", name, *_span(name, group)) for name in (one, other)]
    (_, _, a, b), (_, _, c, d) = rows
    work = Working()
    for _, name, low, high in rows:
        work.say(f"{name.capitalize()}: {low} to {high} %")
    first, last = max(a, c), min(b, d)
    overlap = work.line(f"Both cover {first} to {last} %", f"{last} − {first}", "points", 0)
    work.say("They overlap, so you do not trust a difference between these two.")
    slips = (
        Slip("span misread", max(b, d) - min(a, c), 3, "That is how far the two reach together."),
        Slip("wrong length", b - a, 3, "That is the width of the upper span."),
        Slip("wrong length", d - c, 3, "That is the width of the lower span."),
    )
    question = (
        f"The bars show the {group}'s share of the active muscle (effort × cross-section) in two pulls. {WHOSE}",
        "Read the ends to the nearest per cent. By how many percentage points do the two spans overlap?",
    )
    picture = spans_to_read(rows, MOST, f"{group}'s share of the active muscle")
    ask = Number(overlap, "points", 2, 20, within=1.0, digits=0)
    return Item(question, ask, "Find the part of the axis that both bars cover.", work, apart(slips, ask), picture)


GROUPS = {"lat": "latissimus dorsi", "teres major": "teres major", "rear deltoid": "deltoid posterior",
          "biceps": "biceps brachii", "middle trapezius": "trapezius middle"}  # fmt: skip
SIZE = dict(zip(ALL_MUSCLES, cross_sections()[0], strict=True))
AREA = {
    words: round(float(sum(SIZE[one] for one in SIZE if one.startswith(name))), 1) for words, name in GROUPS.items()
}


def _the(muscle):
    """A muscle as one speaks of it: teres major goes without an article."""
    return muscle if muscle == "teres major" else f"the {muscle}"


@cache
def _two_efforts(same):
    """Two muscles and their efforts in per cent, clear of a tie; whether the one that works hardest does most too."""
    found = []
    for (one, area), (other, size) in combinations(AREA.items(), 2):
        for first, second in product(range(20, 61, 4), repeat=2):
            more = first * area / (second * size)
            if max(more, 1 / more) > 1.1 and first != second and ((more > 1) == (first > second)) == same:
                found.append({one: first, other: second})
    return tuple(found)


@template("07.table", "07.sharing", section="7.1")
def works_hardest_or_does_most(chance):
    drawn = chance.one_of(_two_efforts(chance.one_of((True, False))))
    efforts = {name: drawn[name] for name in chance.shuffled(drawn)}
    (one, other), active = efforts, {name: efforts[name] / 100 * AREA[name] for name in efforts}
    work = Working()
    for name in efforts:
        work.line(f"Active {name}", f"{efforts[name]} / 100 × {AREA[name]} cm²", "cm²", 1)
    hardest, most = (max(of, key=of.get) for of in (efforts, active))
    second = (
        "It has more active muscle too."
        if hardest == most
        else f"{_the(most)[0].upper()}{_the(most)[1:]} has more active muscle."
    )
    work.say(f"{_the(hardest)[0].upper()}{_the(hardest)[1:]} uses more of its own strength. {second}")
    told = {pair: f"{_the(pair[0])} works hardest and {_the(pair[1])} does most" for pair in product(efforts, repeat=2)}
    told |= {(name, name): f"{_the(name)} works hardest and does most" for name in efforts}
    words = "Effort is a part of the muscle's own strength. Effort × cross-section is how much it does."
    wrong = [(text, "size forgotten", words) for pair, text in told.items() if pair != (hardest, most)]
    ask, slips = one_of_these(chance, told[hardest, most], wrong, 3)
    question = (
        f"Somewhere in a pull {_the(one)} works at {efforts[one]} % of its strength and {_the(other)} at "
        f"{efforts[other]} %. "
        f"The cross-sections are {AREA[one]} and {AREA[other]} cm². Which works hardest, and which does most?",
    )
    return Item(question, ask, "These are two questions. The second one needs the size.", work, slips)


STANDS = (  # orders of the table that stand
    "The mid-back does more of the work in a wide row than in a front pulldown.",
    "The mid-back does more of the work in a chest-supported row than in a pull-up.",
    "The lat does more of the work in a front pulldown than in a wide row.",
    "The lat does more of the work in a front pulldown than in a chest-supported row.",
    "The lat does more of the work in a front pulldown than in a bent-over row.",
    "The elbow flexors do more of the work in a chin-up than in a front pulldown.",
)
STANDS_NOT = (
    ("The lat does more of the work in a front pulldown than in a 45° row.", "overlap overlooked",
     "The spans of front pulldown and 45° row overlap almost completely."),
    ("The lat does more of the work in a front pulldown at 2 × than at 1 ×.", "overlap overlooked",
     "For other grip widths the spans overlap."),
    ("The lat does more of the work in a front pulldown leaning back than upright.", "overlap overlooked",
     "With more lean the spans overlap."),
    ("The mid-back does more of the work in a wide row with elbows out than with elbows in.", "overlap overlooked",
     "With the elbows in or out the spans overlap."),
    ("The lat grows more from a front pulldown than from a chest-supported row.", "model for measurement",
     "The table says which muscles do the work. It does not say whether they grow."),
    ("The lat does more of the work in a front pulldown than in a one-arm row.", "overlap overlooked",
     "The spans of front pulldown and one-arm row overlap."),
    ("The lat does more of the work in a front pulldown than in an inverted row.", "overlap overlooked",
     "The spans of front pulldown and inverted row overlap."),
)  # fmt: skip


@template("07.table", section="7.2", model=False)
def which_order_stands(chance):
    question = "A colleague reads four sentences off the table of shares in chapter 7. Which one can you trust?"
    return sentences(chance, question, STANDS, STANDS_NOT, "For which one do the spans of the two pulls not overlap?")


THREE = {"middle lat": "latissimus dorsi middle", "teres major": "teres major", "rear deltoid": "deltoid posterior"}


@cache
def _three(raised):
    """Torque [N m] of the three at full effort, the arm raised by some degrees to the side."""
    names, angle = shoulder_muscles(), np.radians(raised)
    fibres = fibre_length(np.array([muscle_length(name, angle, 0.0) for name in names]))
    factor = dict(zip(names, force_length_factor(fibres), strict=True))
    force = np.array([SIZE[name] * fact("specific_tension") * factor[name] for name in THREE.values()])
    return force * [float(moment_arm(name, angle, 0.0, "adduction")) for name in THREE.values()]


def _efforts(full, torque, areas):
    """Efforts that share a torque, 0 to 1. [N m], [N m], [cm²]"""
    return least_effort(np.array(full)[None, None, :], np.array([[torque]], float), weight=np.array(areas)).activation[
        0
    ]


@template("07.sharing", section="7.3")
def torque_of_one_of_three(chance):
    raised, torque, asked = chance.one_of((30, 45, 60, 75, 90)), chance.number(3, 8, 0.5), chance.place(3)
    full = _three(raised)
    areas = np.array([SIZE[name] for name in THREE.values()])
    name, b = tuple(THREE)[asked], [round(float(one), 2) for one in full]
    work = Working()
    shares = [work.line(f"{words[0].upper()}{words[1:]}, b/A", f"{one} / {area}", "", 2)
              for words, one, area in zip(THREE, b, areas, strict=True)]  # fmt: skip
    total = work.line(
        "Sum of b × b/A", " + ".join(f"{one} × {share}" for one, share in zip(b, shares, strict=True)), "", 2
    )
    effort = work.line(f"Effort of {_the(name)}", f"{torque} × {shares[asked]} / {total}", "", 3)
    work.line(f"Torque of {_the(name)}", f"{effort} × {b[asked]}", "N m", 2)
    slips = (
        Slip("even shares", torque / 3, 5),
        Slip("size forgotten", torque * b[asked] ** 2 / sum(one**2 for one in b), 1),
        Slip("lever forgotten", torque * b[asked] / sum(b), 4, _TWICE),
        Slip("factor forgotten", effort, 6, "This is the effort. Times b it is the torque."),
    )
    question = (
        f"The arm is raised {raised}° to the side and pulls down. At full effort (b) the middle lat makes {b[0]} N m, "
        f"teres major {b[1]} N m and the rear deltoid {b[2]} N m. "
        f"Their sizes (A) are {areas[0]:.1f}, {areas[1]:.1f} and {areas[2]:.1f} cm².",
        f"The three share {torque} N m by least effort. How much torque does {_the(name)} give?",
    )
    ask = Number(float(_efforts(full, torque, areas)[asked] * full[asked]), "N m", 0.2, 6, share=0.03, digits=2)
    return Item(question, ask, "With least effort, a muscle's effort is in proportion to b/A.", work, apart(slips, ask))


_TWICE = "This shares in proportion to b. The lever counts twice: in the effort, and in the torque from that effort."


@template("07.sharing", section="7.8")
def when_the_first_one_is_full(chance):
    strong, weak = chance.one_of([(a, b) for a, b in product(range(4, 13), range(2, 10)) if 1.3 * b < a < 3.5 * b])
    effort = _efforts([strong, weak], 1.0, [1.0, 1.0])[0]
    work = Working()
    work.say("The sizes are equal, so they cancel: effort = torque × b / (sum of b²).")
    total = work.line("Sum of b²", f"{strong}² + {weak}²", "", 0)
    work.say(f"The stronger one works harder. It is full when torque × {strong} / {total:.0f} = 1.")
    work.line("So the torque is then", f"{total:.0f} / {strong}", "N m", 1)
    slips = (
        Slip("muscle forgotten", strong, 3, "By then the other one gives some torque too."),
        Slip("more than there is", strong + weak, 3, "At that torque both are full."),
        Slip(
            "upside down",
            strong / (strong**2 + weak**2),
            4,
            "This is the effort for 1 N m. Ask how much torque makes it 1.",
        ),
    )
    question = (
        f"Two muscles of equal size can make {strong} and {weak} N m at full effort. They share a torque by least "
        "effort, and the torque slowly grows. How large is it when the first of the two is full?",
    )
    ask = Number(float(1 / effort), "N m", 3, 25)
    return Item(question, ask, "Which one works harder? Write down its effort and set it to 1.", work, slips)


@template("07.sharing", section="7.3")
def order_muscles_by_effort(chance):
    sizes, full = chance.some((2, 3, 4, 5, 6, 8, 10), 4), chance.some((2.0, 3.0, 4.5, 6.0, 7.5, 9.0, 12.0), 4)
    efforts = _efforts(full, 1.0, sizes)
    things = tuple(f"{size} cm², {written(b, 1)} N m" for size, b in zip(sizes, full, strict=True))
    if min(np.diff(np.sort(efforts)) / np.sort(efforts)[1:]) < 0.05:
        things = (things[0],) * 4  # too close to tell: drawn again
    order, by_torque = (letters_by(of) for of in (efforts, full))
    work = Working()
    for place in np.argsort(efforts):
        work.line(f"{sizes[place]} cm² and {full[place]} N m, b/A", f"{full[place]} / {sizes[place]}", "", 2)
    slips = [Slip("order turned round", order[::-1])]
    if by_torque not in (order, order[::-1]):
        slips.append(Slip("size forgotten", by_torque))
    question = (
        "Four invented muscles share one torque by least effort, and none of them is full. You know the size of each "
        "and its torque at full effort. Put them in order of effort.",
    )
    ask = Order(things, order, "lowest effort first")
    return Item(question, ask, "With least effort, effort is in proportion to b/A.", work, tuple(slips))


def _sharing_lines(b, areas, torque, slip=""):
    """Two muscles share a torque, with one slip in it or none."""
    work = Working()
    fraction = f"{areas[0]} / {b[0]}" if slip == "upside down" else f"{b[0]} / {areas[0]}"
    share = work.line("Muscle 1, b/A", fraction, "", 2)
    other = work.line("Muscle 2, b/A", f"{b[1]} / {areas[1]}", "", 2)
    parts = f"{b[0]}² + {b[1]}²" if slip == "size forgotten" else f"{b[0]} × {share} + {b[1]} × {other}"
    total = work.line("Sum of b × b/A", parts, "", 2)
    effort = work.line(
        "Effort of muscle 1", f"{'' if slip == 'factor forgotten' else f'{torque} × '}{share} / {total}", "", 3
    )
    work.line("Torque of muscle 1", f"{effort} × {b[0]}", "N m", 2)
    return work


@template("07.sharing", section="7.3")
def find_the_slip_in_sharing(chance):
    b, areas, torque = chance.some((3, 4, 6, 8), 2), chance.some((2, 5, 7), 2), chance.number(2, 5, 0.5)
    slip, line = chance.one_of((("upside down", 1), ("size forgotten", 3), ("factor forgotten", 4)))
    right, wrong = (_sharing_lines(b, areas, torque, one) for one in ("", slip))
    question = (
        f"Two muscles share {torque} N m by least effort. At full effort they make b = {b[0]} and {b[1]} N m. "
        f"Their sizes are A = {areas[0]} and {areas[1]} cm². A classmate works out how much torque muscle 1 gives.",
    )
    return find_the_slip(question, wrong, right, line, slip)
