"""Items of chapter 6: centimetres from the blade, torque about the SC joint, holding and moving in joules. Cues: `i06_cues`."""

from functools import cache

import numpy as np

from ...mechanics import girdle_at, pulls, rep_mechanics, sc_joint
from ...sources import fact
from ...words import written
from ..asks import Number, Order, Pick, letters_by
from ..bank import template
from ..choosing import apart, one_of_these
from ..find_slip import find_the_slip
from ..gym import GRAVITY, people, person
from ..item import Item
from ..pictures.girdle_and_spans import row_from_above
from ..pictures.marks import line_between
from ..slips import Slip
from ..working import Working

SC_CM = round(100 * fact("sc_from_midline"), 1)
RADIAN = round(float(np.degrees(1)), 1)  # degrees, as on paper
TOLD_SC = f"The SC joint lies {SC_CM} cm from the midline."
PLAIN = "Take 9.81 N/kg and leave out the arm's own weight."


@cache
def _mechanics(lifter, name, ratio, points, changed):
    """A pull without the arm's weight; the torque stays the same along the rep, so two points do for it."""
    return rep_mechanics(lifter, pulls[name].change(grip_ratio=ratio, **dict(changed)), points, arm_weight=False)


def _asked(lifter, name, load, ratio, **changed):
    """Torques that a load asks of each girdle: to hold back, to hold down. [N m]"""
    return load * _mechanics(lifter, name, ratio, 2, tuple(changed.items())).cases.per_kg.girdle[-1]


def _grip(chance, shoulders, low=1.4, high=1.9):
    """An even number of centimetres, so many times the shoulders."""
    return 2 * round(chance.number(low, high, 0.1) * shoulders / 2)


@template("06.centimetres", section="6.2")
def how_far_the_shoulder_goes_back(chance):
    name, lifter, _ = person(chance)
    forward, _, right = sc_joint(lifter)
    radius, turn = 100 * np.hypot(forward, right), chance.number(20, 45, 5)
    straight_out = -np.arctan2(forward, -right)
    reach, end = (girdle_at(lifter, straight_out + more, 0.0).gh[0] for more in (0.0, np.radians(turn)))
    work = Working()
    told = f"{radius:.1f} cm"
    work.say("The collarbone starts straight out to the side, so the shoulder goes back by radius × sine.")
    way = work.line("Distance back", f"{told} × sin {turn}°", "cm", 1)
    along = "That is the way along the circle. Straight back it is radius × sine."
    slips = (
        Slip(
            "sine for cosine", radius * np.cos(np.radians(turn)), 2, "From straight out, the way back takes the sine."
        ),
        Slip("degrees for radians", radius * np.sin(turn), 2),
        Slip("whole grip", 2 * way, 2, "Each shoulder goes back by this much. Do not double it."),
        Slip("wrong length", radius * np.radians(turn), 2, along),
    )
    question = (
        f"{name}'s shoulder joint is {told} from the SC joint. At full reach in a row the collarbone points straight "
        f"out to the side. At the end it has turned back by {turn}°. How far back does the shoulder go?",
    )
    ask = Number(float(100 * (reach - end)), "cm", 4, 15, within=0.2)
    return Item(question, ask, "The shoulder travels on a circle about the SC joint.", work, apart(slips, ask))


@template("06.centimetres", section="6.1")
def share_that_the_blade_gives(chance):
    name, lifter, _ = person(chance)
    pull, ratio = chance.one_of(("front pulldown", "seated row wide")), chance.one_of((1.2, 1.5, 1.8))
    path = _mechanics(lifter, pull, ratio, 2, ()).path
    ways = (place[-1] - place[0] for place in (path.hand + path.girdle.gh, path.girdle.gh))
    whole, carried = (round(100 * float(way @ -path.along), 1) for way in ways)
    rest = whole - carried
    work = Working()
    blade = work.line("The blade", f"{whole:.1f} cm − {rest:.1f} cm", "cm", 1)
    work.line("The blade's share", f"{blade} / {whole:.1f} × 100", "%", 0)
    slips = (
        Slip("upside down", 100 * whole / carried, 2, "The blade's part belongs on top, the whole way below."),
        Slip("wrong length", 100 * carried / rest, 2, "Divide by the whole way, not by the rest of it."),
        Slip("wrong joint", 100 * rest / whole, 2, "This is what upper arm and elbow give together."),
    )
    question = (
        f"{name} does a {pull.replace('seated row wide', 'wide row')} and lets the shoulder blade travel. "
        f"The bar travels {whole:.1f} cm. Upper arm and elbow give {rest:.1f} cm of that, and the blade gives the rest. "
        "What share of the way does the blade give, in per cent?",
    )
    ask = Number(100 * carried / whole, "%", 5, 40, within=0.7, digits=0)
    return Item(question, ask, "Find the blade's own centimetres first.", work, slips)


DIFFER = {  # what differs: what is told of the second client if there is less, and if there is more, of it; what changes
    "turn": ("the mark goes back only 5 cm", "the mark goes back 13 cm", "way and joules"),
    "grip": ("the hands are closer together", "the hands are further apart", "torque and joules"),
    "load": ("there is less weight on the stack", "there is more weight on the stack", "torque and joules"),
}
PATTERNS = {  # what changes -> which of way, torque and joules, in words of an option
    "way and joules": "way and joules are {}, the torque is the same",
    "torque and joules": "torque and joules are {}, the way is the same",
    "all": "way, torque and joules are all {}",
    "joules": "only the joules are {}, way and torque are the same",
}
WHY_NOT = {  # what differs, the pattern taken -> slip, what to say
    ("turn", "torque and joules"): ("way of another point", "The film shows the way. It is not the same."),
    ("turn", "all"): ("wrong length", "The torque is the pull times its distance from the SC joint. It has no way in it."),
    ("turn", "joules"): ("way of another point", "The film shows the way. It is not the same."),
    ("grip", "way and joules"): ("wrong length", "The line of pull now runs at another distance from the SC joint."),
    ("grip", "all"): ("way of another point", "The two marks go back equally far. So the way is the same."),
    ("grip", "joules"): ("wrong length", "The line of pull now runs at another distance from the SC joint."),
    ("load", "way and joules"): ("force for torque", "The torque is the pull times a distance. The pull has changed."),
    ("load", "all"): ("way of another point", "The two marks go back equally far. So the way is the same."),
    ("load", "joules"): ("force for torque", "The torque is the pull times a distance. The pull has changed."),
}  # fmt: skip


@template("06.centimetres", "06.hold or move", section="6.8", model=False)
def two_clients_filmed_from_above(chance):
    (one, other), differs, more = people(chance, 2), chance.one_of(tuple(DIFFER)), chance.place(2)
    told, pattern = DIFFER[differs][more], DIFFER[differs][2]
    amount = ("smaller", "larger")[more]
    wrong = [(PATTERNS[key].format(amount), *WHY_NOT[differs, key]) for key in PATTERNS if key != pattern]
    ask, slips = one_of_these(chance, PATTERNS[pattern].format(amount), wrong)
    work = Working()
    work.say("The way is what the film shows. Load and grip do not change it.")
    work.say(
        "The torque is the pull times its distance from the SC joint. How far the blade travels does not change it."
    )
    work.say("Work is torque × turn. So the joules change with either of them.")
    work.say(f"For {other}: {PATTERNS[pattern].format(amount)}.")
    question = (
        f"You mark the corner of the shoulder and film two clients of the same build in a wide row, from above. "
        f"{one}'s mark goes back 11 cm from full reach to the end. For {other}, {told}. All else is the same.",
        f"Compare the way that the blade gives, the torque that holds it back and the joules. What is true of {other}?",
    )
    return Item(question, ask, "Ask of each of the three whether a way or a turn is in it.", work, slips)


def _torque_lines(load, grip, part="", slip="", shoulders=0):
    """The solution by hand, with one slip in it or none; ``part`` is what the pull angle leaves, as " × sin 45°"."""
    work = Working()
    shared = f"{load} kg" if slip == "whole load" else f"{load} kg / 2"
    force = work.line("Pull on one hand", f"{shared} × {GRAVITY} N/kg", "N", 1)
    off = {"midline for joint": "", "wrong joint": f" − {shoulders} cm / 2"}.get(slip, f" − {SC_CM} cm")
    arm = work.line("SC joint to the line of pull", f"{grip} cm / 2{off}", "cm", 1)
    arm = f"{arm} m" if slip == "cm for m" else f"{arm / 100:.3f} m"
    return work, work.line("Torque", f"{force} N × {arm}{part}", "N m", 1)


def _torque_slips(load, grip, shoulders, part=1.0):
    """What slips make of the torque. [N m]"""
    force = load / 2 * GRAVITY * part
    arm = grip / 200 - SC_CM / 100
    return (
        Slip("whole load", 2 * force * arm, 1),
        Slip("mass for force", force * arm / GRAVITY, 1),
        Slip(
            "wrong joint", force * (grip - shoulders) / 200, 2, "The girdle turns about the SC joint, not the shoulder."
        ),
        Slip("whole grip", force * (grip - SC_CM) / 100, 2),
        Slip("cm for m", 100 * force * arm, 3),
    )


@template("06.holders", section="6.3")
def torque_that_holds_the_girdle(chance):
    name, lifter, shoulders = person(chance)
    ahead = chance.one_of((True, False))
    load, grip = chance.number(20, 60, 5), _grip(chance, shoulders)
    changed = {} if ahead else {"trunk_lean": 0.0}
    pull = "seated row wide" if ahead else "front pulldown"
    torque = _asked(lifter, pull, load, grip / shoulders, **changed)
    work, _ = _torque_lines(load, grip)
    where = "rows sitting upright, with the cable straight ahead" if ahead else "sits upright and does a front pulldown"
    question = (
        f"{name} {where}. There are {load} kg on the stack, and the hands are {grip} cm apart. "
        f"The shoulders measure {shoulders} cm. {TOLD_SC}",
        f"How much torque does it take on each side to hold the blade {'back' if ahead else 'down'}? {PLAIN}",
    )
    ask = Number(float(torque[0 if ahead else 1]), "N m", 15, 120)
    hint = "The hand is half the grip from the midline. The girdle turns about a joint a little to the side of it."
    return Item(question, ask, hint, work, _torque_slips(load, grip, shoulders))


@template("06.holders", "04.three directions", section="6.3")
def back_and_down_from_a_slope(chance):
    name, lifter, shoulders = person(chance)
    angle, back = chance.one_of((25, 30, 35, 40, 50, 55, 60, 65)), chance.one_of((True, False))
    load, grip = chance.number(20, 50, 5), _grip(chance, shoulders)
    torque = _asked(lifter, "seated row wide", load, grip / shoulders, room_angle=np.radians(angle))
    work, _ = _torque_lines(load, grip, f" × {'sin' if back else 'cos'} {angle}°")
    part, other = (np.sin(np.radians(angle)), np.cos(np.radians(angle)))[:: 1 if back else -1]
    slips = (
        *(one for one in _torque_slips(load, grip, shoulders, part) if one.name in ("whole load", "wrong joint")),
        Slip("sine for cosine", _torque_slips(load, grip, shoulders, other)[0].answer / 2, 3, _WHICH),
        Slip("factor forgotten", _torque_slips(load, grip, shoulders)[0].answer / 2, 3, "The pull angle was left out."),
    )
    question = (
        f"{name} rows sitting upright, and the cable comes down at a slope. The pull angle is {angle}° "
        "(0° is overhead, 90° is straight ahead). "
        f"The load is {load} kg. The hands are {grip} cm apart, and the shoulders measure {shoulders} cm. {TOLD_SC}",
        f"How much torque does it take on each side to hold the blade {'back' if back else 'down'}? {PLAIN}",
    )
    ask = Number(float(torque[0 if back else 1]), "N m", 8, 90)
    return Item(
        question,
        ask,
        "A pull from ahead asks you to hold the blade back, one from overhead to hold it down.",
        work,
        slips,
    )


_WHICH = "From overhead, at 0°, there is only down. So down takes the cosine and back the sine."


@template("06.holders", section="6.3")
def which_line_is_the_girdles_lever(chance):
    _, _, shoulders = person(chance)
    picture, letters = row_from_above(chance, shoulders, _grip(chance, shoulders, 1.6))
    work = Working()
    work.say("Collarbone, blade and arm turn together about the SC joint.")
    work.say("What counts is how far the line of pull passes from that joint, at a right angle to the line.")
    work.say(f"That is the line from {' to '.join(line_between(letters, 'sc', 'level'))}.")

    def join(one, other):
        return line_between(letters, one, other)

    slips = (
        Slip("wrong joint", join("shoulder", "beside"), 1, "The girdle turns about the SC joint, not the shoulder."),
        Slip("midline for joint", join("middle", "hand"), 2),
        Slip("distance to the hand", join("sc", "hand"), 2),
        Slip("distance to the hand", join("shoulder", "hand"), 2),
        Slip("way of another point", join("sc", "shoulder"), 2, "That is the collarbone. The pull acts on the hand."),
    )
    question = (
        "You see the right half of a wide row from above. You want the torque that it takes to hold the blade back. "
        "Which two places do you join to get the distance that you multiply by the pull?",
    )
    hint = "Find the joint about which the whole girdle turns."
    return Item(question, Pick("ABCDEFG", join("sc", "level")), hint, work, slips, picture)


RATIOS = (0.3, 1.2, 1.5, 1.8)  # grips of the four rows


@template("06.holders", section="6.3")
def order_rows_by_what_the_girdle_holds(chance):
    name, lifter, shoulders = person(chance)
    rows = tuple(zip(chance.some((15, 20, 25, 30, 35, 40, 50), 4), chance.shuffled(RATIOS), strict=True))
    grips = [round(ratio * shoulders) for _, ratio in rows]
    asked = [
        float(_asked(lifter, "seated row wide", load, grip / shoulders)[0])
        for (load, _), grip in zip(rows, grips, strict=True)
    ]
    things = tuple(f"{load} kg, hands {grip} cm apart" for (load, _), grip in zip(rows, grips, strict=True))
    if min(np.diff(sorted(asked)) / np.sort(asked)[1:]) < 0.06:
        things = (things[0],) * 4  # too close to tell: drawn again
    work = Working()
    for place in np.argsort(asked):
        load, grip = rows[place][0], grips[place]
        total = f"{load} kg / 2 × {GRAVITY} N/kg × ({grip} cm / 2 − {SC_CM} cm) / 100"
        work.line(f"{load} kg, {grip} cm", total, "N m")
    order, by_load, by_grip = (letters_by(of) for of in (asked, *zip(*rows, strict=True)))
    slips = [Slip("order turned round", order[::-1])]
    for wrong, words in ((by_load, "The load alone does not decide. So does the distance from the SC joint to the line of pull."),
                         (by_grip, "The grip alone does not decide. The load counts just as much.")):  # fmt: skip
        if wrong not in (order, order[::-1]):
            slips.append(Slip("one part alone", wrong, 0, words))
    question = (
        f"{name} rows in four ways, each time with the cable straight ahead and the load on both hands. {TOLD_SC} "
        "Put the rows in order of the torque that it takes on each side to hold the blade back.",
    )
    hint = "Two things count: the load, and how far its line of pull passes from the SC joint."
    return Item(question, Order(things, order, "least torque first"), hint, work, tuple(slips))


@template("06.holders", section="6.3")
def find_the_slip_in_a_girdle_torque(chance):
    name, _, shoulders = person(chance)
    load, grip = chance.number(20, 60, 5), _grip(chance, shoulders)
    slip, line = chance.one_of((("whole load", 1), ("midline for joint", 2), ("wrong joint", 2), ("cm for m", 3)))
    right, wrong = (_torque_lines(load, grip, "", one, shoulders)[0] for one in ("", slip))
    question = (
        f"{name} rows {load} kg with both hands and with the cable straight ahead. The hands are {grip} cm apart, "
        f"and the shoulders measure {shoulders} cm. {TOLD_SC}",
        "A classmate works out the torque that it takes on each side to hold the blade back.",
    )
    return find_the_slip(question, wrong, right, line, slip)


def _joule_lines(load, grip, turn):
    """Torque, turn and work by hand."""
    work, torque = _torque_lines(load, grip)
    radians = work.line("Turn in radians", f"{turn} / {RADIAN}", "", 3)
    work.line("Work by turning the girdle", f"{torque} N m × {radians}", "J", 1)
    return work


def _wide_row_work(lifter, load, grip, shoulders, turn):
    """What the girdle's muscles do against the load while the collarbone turns back by some degrees. [J]"""
    half = np.radians(turn) / 2
    turns = (("reach_retraction", -half), ("end_retraction", half))
    mechanics = _mechanics(lifter, "seated row wide", grip / shoulders, 11, turns)
    return float(load * (mechanics.cases.per_kg.girdle * mechanics.turns.girdle)[:, 0].sum())


@template("06.hold or move", "06.holders", section="6.3")
def joules_of_the_girdle(chance):
    name, lifter, shoulders = person(chance)
    load, grip, turn = chance.number(20, 60, 5), _grip(chance, shoulders, 1.2, 1.8), chance.number(20, 40, 5)
    work = _joule_lines(load, grip, turn)
    joules = work[-1].value
    forward, _, right = sc_joint(lifter)
    way = 2 * float(np.hypot(forward, right)) * np.sin(np.radians(turn) / 2)
    slips = (
        Slip("way of another point", load / 2 * GRAVITY * way, 5, _NOT_THE_SHOULDER),
        Slip("turn in degrees", joules * RADIAN, 4),
        Slip("whole load", 2 * joules, 1),
        Slip("force for torque", joules / (grip / 2 - SC_CM) * 100, 3, _TORQUE_FIRST),
    )
    question = (
        f"{name} does a wide row with {load} kg on both hands, {grip} cm apart. {TOLD_SC} "
        f"The blades travel, so that each collarbone turns back by {turn}°. A radian is {RADIAN}°.",
        f"How much work does each side do in one rep by turning the girdle? {PLAIN}",
    )
    ask = Number(_wide_row_work(lifter, load, grip, shoulders, turn), "J", 4, 80)
    return Item(question, ask, "Work is torque × turn, with the turn in radians.", work, slips)


_NOT_THE_SHOULDER = (
    "The pull acts on the hand, not on the shoulder. Multiply the torque about the SC joint by the turn."
)
_TORQUE_FIRST = "This is the pull times the turn. First multiply the pull by its distance from the SC joint."


SAME_TORQUE = "The line of pull passes the SC joint at the same distance, so the torque stays."
SECOND = {  # what is different in the second row -> what is told, what becomes of the joules and of the torque
    "held": ("the blades are held still all the way", "Nothing turns, so the girdle does no work.", SAME_TORQUE),
    "half the turn": ("the collarbone turns back by half as much", "Work is torque × turn, and the turn is halved.", SAME_TORQUE),
    "half the load": ("half the load is on the stack", "Work is torque × turn, and the torque is halved.",
                      "Torque is pull times distance, and the pull is halved."),
}  # fmt: skip


def _work_and_torque(work, torque):
    return f"{written(abs(work))} J and {written(torque)} N m"


def _of_the_girdle(lifter, load, grip, shoulders, turn):
    """Work of a wide row [J] and torque [N m] on one side, for a load [kg], a grip and shoulders [cm] and a turn [°]."""
    torque = _asked(lifter, "seated row wide", load, grip / shoulders)[0]
    return _wide_row_work(lifter, load, grip, shoulders, turn), float(torque)


@template("06.hold or move", section="6.4")
def what_travelling_blades_change(chance):
    name, lifter, shoulders = person(chance)
    load, grip, turn = chance.number(20, 60, 10), _grip(chance, shoulders), chance.one_of((30, 35, 40))
    second = chance.one_of(tuple(SECOND))
    told, of_work, of_torque = SECOND[second]
    kg, degrees = {"held": (load, 0), "half the turn": (load, turn / 2), "half the load": (load / 2, turn)}[second]
    joules, torque = _of_the_girdle(lifter, load, grip, shoulders, turn)
    then = _of_the_girdle(lifter, kg, grip, shoulders, degrees)
    not_then = torque if kg < load else torque * degrees / turn  # the torque that goes the wrong way with the work
    wrong = (
        (_work_and_torque(joules, then[1]), "holding for work", of_work),
        (_work_and_torque(then[0], not_then), "wrong length", of_torque),
        (_work_and_torque(joules, not_then), "holding for work", f"{of_work} {of_torque}"),
    )
    ask, slips = one_of_these(chance, _work_and_torque(*then), wrong)
    work = Working()
    for words in (of_work, of_torque, f"So it is {_work_and_torque(*then)}."):
        work.say(words)
    question = (
        f"{name} does a wide row with {load} kg. The collarbone turns back by {turn}°. On each side it takes "
        f"{written(torque)} N m to hold the blade back, and turning the girdle takes {written(joules)} J in one rep.",
        f"In a second row {told}. All else is the same. How much work and how much torque does it take now?",
    )
    return Item(question, ask, "What has changed: the pull, its distance from the SC joint, or the turn?", work, slips)
