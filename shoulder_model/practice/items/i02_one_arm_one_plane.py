"""Items of chapter 2: a load's line and who holds it, a muscle's force, the arm's own weight, a bent elbow."""

from functools import cache

import numpy as np

from ...mechanics import held_weight, joint_force, needed_torque, tension_to_hold
from ...people import Lifter
from ...sources import fact
from ...words import written
from ..asks import Choice, Number, Order, Pick, Reasoned, letter_of, letters_by
from ..bank import template
from ..find_slip import find_the_slip
from ..gym import GRAVITY, MEN, WOMEN, people
from ..item import Item
from ..pictures.arm_and_back import held_arm, held_places
from ..pictures.marks import line_between
from ..slips import Slip
from ..working import Working

POSTURES = (  # words, upper arm from hanging, elbow from straight; degrees
    ("straight arm, level", 90, 0),
    ("straight arm, 60° from hanging", 60, 0),
    ("straight arm, 45° from hanging", 45, 0),
    ("straight arm, 30° from hanging", 30, 0),
    ("straight arm, hanging", 0, 0),
    ("upper arm level, elbow at a right angle", 90, 90),
    ("upper arm level, elbow bent by 135°", 90, 135),
    ("upper arm hanging, elbow at a right angle", 0, 90),
    ("upper arm at 45°, elbow bent by 45°", 45, 45),
    ("upper arm at 45°, elbow bent by 135°", 45, 135),
)
STRAIGHT, CLOSE = "straight arm, level", "elbow bent, load close to the body"
OVER = "upper arm level, elbow bent past a right angle"
CLIENTS = (  # who, what is best
    ("wants to load the front of the shoulder and has only a light dumbbell", STRAIGHT),
    ("raises a small dumbbell in front and wants more torque at the shoulder", STRAIGHT),
    ("carries boxes all day, with shoulders that tire", CLOSE),
    ("carries a tray at work, with shoulders that tire before the arms do", CLOSE),
    ("wants to load the triceps with a dumbbell, and has a safe grip", OVER),
    ("wants to work the extensors of the elbow with a light dumbbell, and has a safe grip", OVER),
)
WHY = {
    STRAIGHT: "the load's line runs furthest from the shoulder there",
    CLOSE: "the load's line then runs close to the shoulder",
    OVER: "the load's line then passes the elbow on the shoulder's side",
}
ZERO = "At 0° the arm hangs and nothing is left. That is the sine."
AHEAD, DOWN = np.array([1.0, 0.0, 0.0]), np.array([0.0, -1.0, 0.0])


@cache
def _lifter(sex, upper, forearm, mass=None):
    measures = {"acromion_radiale": upper / 100 + fact("gh_below_acromion")}
    measures["elbow_grip"] = forearm / 100 + fact("elbow_back_to_axis")
    return Lifter.from_measures(sex, **measures, **({"mass": mass} if mass else {}))


def _arm(chance, weighed=False):
    """Somebody with an arm in whole centimetres: name, lifter, upper arm and forearm [cm], mass [kg] or None."""
    sex = chance.one_of(("women", "men"))
    upper = chance.number(26, 29, 1) if sex == "women" else chance.number(28, 31, 1)
    forearm = upper + chance.number(2, 4, 1)
    mass = chance.number(55, 75, 10) if sex == "women" else chance.number(70, 100, 10)
    mass = mass if weighed else None
    return chance.one_of(WOMEN if sex == "women" else MEN), _lifter(sex, upper, forearm, mass), upper, forearm, mass


def _held(lifter, load, raised, bent, **more):
    """The model's held weight; angles in degrees, the arm weightless unless told otherwise."""
    return held_weight(lifter, load, np.radians(raised), np.radians(bent), **({"arm_weight": False} | more))


@template("02.line", section="2.1")
def torque_of_a_straight_arm(chance):
    name, lifter, upper, forearm, _ = _arm(chance)
    load, raised, reach = chance.number(1, 6, 1), chance.number(25, 80, 5), upper + forearm
    work = Working()
    away = work.line("From the shoulder to the load's line", f"{reach} cm × sin {raised}°", "cm", 1)
    force = work.line("Weight", f"{load} kg × {GRAVITY} N/kg", "N", 1)
    torque = work.line("Torque", f"{force} N × {away / 100:.3f} m", "N m", 1)
    slips = (
        Slip("sine for cosine", force * reach / 100 * np.cos(np.radians(raised)), 1, ZERO),
        Slip("distance to the hand", force * reach / 100, 1),
        Slip("degrees for radians", force * reach / 100 * np.sin(raised), 1),
        Slip("mass for force", torque / GRAVITY, 2),
        Slip("cm for m", 100 * torque, 3),
    )
    question = (
        f"{name} holds {load} kg on a straight arm that is raised {raised}° forward from hanging. From the shoulder "
        f"joint to the grip it is {reach} cm. How large is the torque that the shoulder has to hold? "
        "(Take 9.81 N/kg. Leave out the arm's own weight.)",
    )
    key = float(_held(lifter, load, raised, 0).shoulder_flexion)
    ask = Number(key, "N m", 2, 45, within=0.1)
    return Item(
        question, ask, "The load pulls straight down. How far in front of the shoulder does its line run?", work, slips
    )


@template("02.line", section="2.1")
def which_line_is_the_moment_arm(chance):
    joint, other = chance.one_of((("shoulder", "elbow"), ("elbow", "shoulder")))
    places = None
    while places is None:
        _, _, upper, forearm, _ = _arm(chance)
        places = held_places(upper, forearm, chance.number(20, 70, 5), chance.number(0, 125, 5))
    picture, letters = held_arm(chance, places, chance.number(2, 12, 1))

    def join(one, two):
        return line_between(letters, one, two)

    work = Working()
    work.say("The load pulls straight down, along the dashed line.")
    work.say(f"Its moment arm about the {joint} goes from that joint straight across to the line, at a right angle.")
    work.say(f"That is the line from {letters[joint]} to {letters[f'level with {joint}']}.")
    slips = (
        Slip("distance to the hand", join(joint, "hand"), 2),
        Slip("wrong joint", join(other, f"level with {other}"), 2),
        Slip("wrong length", join("shoulder", "elbow"), 2, "That is the upper arm. Its length is no moment arm here."),
    )
    question = (
        f"Somebody holds a weight still. Which two places do you join to get its moment arm about the {joint}? "
        f"(Multiplied by the weight it gives the torque at the {joint}.)",
    )
    ask = Pick("ABCDE", join(joint, f"level with {joint}"))
    return Item(question, ask, "Where does the dashed line come closest to the joint?", work, slips, picture)


@template("02.line", section="2.3")
def who_holds_the_elbow(chance):
    name, lifter, _, _, _ = _arm(chance)
    raised = chance.one_of((45, 60, 75, 90, 105, 120))
    bent = chance.one_of([one for one in (30, 45, 60, 75, 90, 105, 120, 135) if raised + one not in (165, 195)])
    torque = float(_held(lifter, 5, raised, bent).elbow_flexion_torque)
    held = {"its flexors": torque > 0.5, "its extensors": torque < -0.5, "no muscle at all": abs(torque) <= 0.5}
    right = max(held, key=held.get)
    options = chance.shuffled(tuple(held))
    side = {"its flexors": "in front of", "its extensors": "behind", "no muscle at all": "through"}[right]
    work = Working()
    work.line("The forearm from hanging", f"{raised} + {bent}", "°", 0)
    where = f"A plumb line from the dumbbell passes {side} the elbow here."
    work.say("Below 180° the dumbbell is in front of the elbow, at 180° straight above it, and beyond 180° behind it.")
    last = "no muscle has to hold the elbow" if right.startswith("no") else f"{right} have to hold the elbow"
    work.say(f"{where} So {last}.")
    slips = tuple(Slip("wrong side", letter_of(options, one), 2, where) for one in options if one != right)
    question = (
        f"{name} holds a dumbbell still. The upper arm is raised {raised}° forward from hanging, and the elbow is bent by "
        f"{bent}°. Leave out the arm's own weight. Which muscles have to hold the elbow?",
    )
    ask = Choice(options, letter_of(options, right))
    return Item(question, ask, "On which side of the elbow does the load's line pass?", work, slips)


@template("02.line", "02.bent elbow", section="2.5")
def order_postures_by_torque(chance):
    name, lifter, upper, forearm, _ = _arm(chance)
    load, gap = chance.number(1, 5, 1), 0.0
    torques = _held(lifter, load, *np.transpose([place[1:] for place in POSTURES])).shoulder_flexion
    while gap < 0.1:  # of the largest; nearer ones cannot be told apart
        rows = chance.some(range(len(POSTURES)), 4)
        asked = torques[list(rows)]
        gap = np.diff(np.sort(asked)).min() / asked.max()
    postures = [POSTURES[row] for row in rows]
    key = letters_by(asked)
    work = Working()
    for _, (words, raised, bent) in sorted(zip(asked, postures, strict=True)):
        work.line(words, f"{upper} cm × sin {raised}° + {forearm} cm × sin {raised + bent}°", "cm", 1)
    work.say("That is how far in front of the shoulder the load hangs. The torque is the weight times this distance.")
    question = (
        f"{name} holds {load} kg in front of the body in four postures. It is {upper} cm from the shoulder to the elbow "
        f"and {forearm} cm from there to the grip. Leave out the arm's own weight. "
        "Put the postures in order of the torque at the shoulder. (Angles of the upper arm count from hanging.)",
    )
    ask = Order(tuple(words for words, _, _ in postures), key, "least torque first")
    slips = (Slip("order turned round", key[::-1], 5),)
    return Item(question, ask, "Sketch each one, with a plumb line from the hand.", work, slips)


@template("02.muscle force", section="2.2")
def pull_of_the_elbow_flexors(chance):
    name, lifter, upper, forearm, _ = _arm(chance)
    load, lever = chance.number(2, 12, 1), chance.one_of((3, 3.5, 4, 4.5, 5))
    work = Working()
    force = work.line("Weight", f"{load} kg × {GRAVITY} N/kg", "N", 1)
    torque = work.line("Torque at the elbow", f"{force} N × {forearm / 100:.2f} m", "N m", 2)
    pull = work.line("Pull", f"{torque} N m / {lever / 100:.3f} m", "N", 0)
    slips = (
        Slip("mass for force", pull / GRAVITY, 1),
        Slip("wrong joint", pull * (upper + forearm) / forearm, 2, "The elbow needs the distance from the elbow."),
        Slip(
            "upside down", force * lever / forearm, 3, "The two levers are swapped. A short lever needs a large force."
        ),
        Slip("load arm for muscle arm", force, 3),
        Slip("cm for m", torque / lever, 3),
    )
    question = (
        f"{name} lets the upper arm hang and holds {load} kg with the forearm level. From the elbow to the grip it is "
        f"{forearm} cm. The elbow flexors pull along a line {lever} cm from the joint. How hard do they pull? "
        "(Take 9.81 N/kg. Leave out the forearm's own weight.)",
    )
    key = float(_held(lifter, load, 0, 90, muscle_arm=lever / 100).tension)
    return Item(question, Number(key, "N", 80, 1600, digits=0), "Torque first, then the muscle's lever.", work, slips)


@template("02.muscle force", "02.arm weight", section="2.4")
def press_on_a_level_forearm(chance):
    (name,), own, load = people(chance, 1), chance.number(14, 26, 1), chance.number(20, 90, 5)
    centre, grip = chance.number(13, 17, 1), chance.number(30, 38, 1)
    lever = chance.one_of((3, 3.5, 4, 4.5, 5))
    work = Working()
    torque = work.line("Torque", f"{own} N × {centre / 100:.2f} m + {load} N × {grip / 100:.2f} m", "N m", 2)
    pull = work.line("Muscle", f"{torque} N m / {lever / 100:.3f} m", "N", 0)
    work.line("Joint", f"{pull:.0f} N − {own} N − {load} N", "N", 0)
    slips = (
        Slip("added for taken off", pull + own + load, 3),
        Slip("arm's weight forgotten", load * grip / lever - load, 1, "The forearm's own weight was left out."),
        Slip("one factor forgotten", pull, 3, "This is the muscle's pull. Take both weights off it."),
        Slip("force for torque", own + load, 1, "This is the weight alone. The muscle has to balance its torque."),
    )
    question = (
        f"{name} holds a forearm level. The forearm weighs {own} N, and its centre is {centre} cm from the elbow. The "
        f"hand holds {load} N, {grip} cm from the elbow. A single muscle pulls straight up, {lever} cm from the elbow. "
        "How hard does the upper arm press down on the forearm?",
    )
    weights = [own * DOWN, load * DOWN]
    held = needed_torque([centre / 100 * AHEAD, grip / 100 * AHEAD], weights)[2]
    key = float(-joint_force(weights, tension_to_hold(held, lever / 100), -DOWN)[1])
    ask = Number(key, "N", 60, 1300, share=0.02, digits=0)
    return Item(
        question,
        ask,
        "Find the muscle's pull first. Then up and down have to cancel.",
        work,
        slips,
    )


def _pull_lines(load, upper, forearm, lever, slip=""):
    """The elbow flexors' pull, with one slip in it or none."""
    work = Working()
    factor = "" if slip == "mass for force" else f" × {GRAVITY} N/kg"
    force = work.line("Weight", f"{load} kg{factor}", "N", 1)
    arm = upper + forearm if slip == "wrong joint" else forearm
    metres = f"{arm}" if slip == "cm for m" else f"{arm / 100:.2f}"
    torque = work.line("Torque at the elbow", f"{force} N × {metres} m", "N m", 2)
    divisor = forearm if slip == "load arm for muscle arm" else lever
    work.line("Pull", f"{torque} N m / {divisor / 100:.3f} m", "N", 0)
    return work


@template("02.muscle force", section="2.2")
def find_the_slip_in_a_pull(chance):
    name, _, upper, forearm, _ = _arm(chance)
    load, lever = chance.number(2, 12, 1), chance.one_of((3, 3.5, 4, 4.5, 5))
    made = (("mass for force", 1), ("wrong joint", 2), ("cm for m", 2), ("load arm for muscle arm", 3))
    slip, line = chance.one_of(made)
    right, wrong = (_pull_lines(load, upper, forearm, lever, one) for one in ("", slip))
    question = (
        f"A client holds {load} kg with the upper arm hanging and the forearm level. The upper arm is {upper} cm long, "
        f"and from the elbow to the grip it is {forearm} cm. The elbow flexors pull {lever} cm from the elbow. {name} "
        "works out how hard they pull, without the forearm's own weight.",
    )
    return find_the_slip(question, wrong, right, line, slip)


@template("02.arm weight", section="2.6")
def torque_of_an_empty_arm(chance):
    name, lifter, upper, forearm, mass = _arm(chance, weighed=True)
    shares = fact("upper_arm_mass"), fact("forearm_and_hand_mass")
    first = round(fact("upper_arm_centre") * upper, 1)
    second = round(upper + 100 * fact("forearm_and_hand_centre") * float(lifter.radiale_stylion), 1)
    work = Working()
    weights = [work.line(words, f"{mass} kg × {share} × {GRAVITY} N/kg", "N", 1)
               for words, share in zip(("Upper arm", "Forearm and hand"), shares, strict=True)]  # fmt: skip
    total = f"{weights[0]} N × {first / 100:.3f} m + {weights[1]} N × {second / 100:.3f} m"
    torque = work.line("Torque", total, "N m", 1)
    from_elbow = (weights[0] * first + weights[1] * (second - upper)) / 100
    slips = (
        Slip("wrong joint", from_elbow, 3, "Count the forearm's centre from the shoulder."),
        Slip("wrong length", sum(weights) * (upper + forearm) / 100, 3, "Each part pulls down at its own centre."),
        Slip("mass for force", torque / GRAVITY, 1),
        Slip("cm for m", 100 * torque, 3),
        Slip("one change forgotten", weights[0] * first / 100, 2, "Forearm and hand weigh something too."),
    )
    question = (
        f"{name} weighs {mass} kg and holds the empty arm straight and level. The upper arm, {upper} cm long, makes up "
        f"{100 * shares[0]:.1f} % of the mass, with its centre {first} cm from the shoulder. Forearm and hand make up "
        f"{100 * shares[1]:.1f} %, with their centre {second} cm from the shoulder. "
        "How large is the torque that the shoulder has to hold? (Take 9.81 N/kg.)",
    )
    ask = Number(float(_held(lifter, 0, 90, 0, arm_weight=True).shoulder_flexion), "N m", 5, 18, within=0.15)
    return Item(question, ask, "Two weights, each at its own distance from the shoulder.", work, slips)


@template("02.arm weight", section="2.6")
def share_of_the_arm_itself(chance):
    name, lifter, upper, forearm, _ = _arm(chance, weighed=True)
    load, reach = chance.number(1, 8, 1), upper + forearm
    empty = float(_held(lifter, 0, 90, 0, arm_weight=True).shoulder_flexion)
    whole = float(_held(lifter, load, 90, 0, arm_weight=True).shoulder_flexion)
    own = round(empty, 1)
    work = Working()
    torque = work.line("From the dumbbell", f"{load} kg × {GRAVITY} N/kg × {reach / 100:.2f} m", "N m", 1)
    both = work.line("Together", f"{torque} N m + {own} N m", "N m", 1)
    share = work.line("The arm's share", f"{own} / {both} × 100", "%", 0)
    slips = (
        Slip("change for rest", 100 - share, 3, "That is the dumbbell's share. The arm's is what is left."),
        Slip("unlike compared", 100 * own / torque, 2, "That compares the arm with the dumbbell. Compare with both."),
        Slip("share for per cent", own / both, 3),
    )
    question = (
        f"{name} holds {load} kg on a straight, level arm, {reach} cm from shoulder joint to grip. The empty arm alone "
        f"asks the shoulder for {own} N m. How much of the whole torque comes from the arm itself, in per cent? "
        "(Take 9.81 N/kg.)",
    )
    ask = Number(100 * empty / whole, "%", 10, 75, share=0.02, within=1.0, digits=0)
    return Item(question, ask, "What makes up the whole torque?", work, slips)


@template("02.bent elbow", section="2.5")
def what_bending_does(chance):
    name, lifter, _, forearm, _ = _arm(chance)
    load, change = chance.number(2, 8, 1), None
    while change is None or 0.002 < abs(change) < 0.03:  # m; in between nobody could tell
        raised = chance.one_of((0, 30, 45, 60, 90))
        first, last = sorted(chance.some((0, 30, 45, 60, 90, 120), 2))
        near, far = (_held(lifter, load, raised, bent) for bent in (first, last))
        change = float(far.load_distance[0] - near.load_distance[0])
    right = "it stays" if abs(change) < 0.002 else "it rises" if change > 0 else "it falls"
    options = chance.shuffled(("it falls", "it stays", "it rises"))
    work = Working()
    for bent in (first, last):
        words = f"Forearm's part of the distance, elbow {f'bent by {bent}°' if bent else 'straight'}"
        work.line(words, f"{forearm} cm × sin {raised + bent}°", "cm", 1)
    work.say("The upper arm's part does not change. So the whole distance changes as the forearm's part does.")
    work.say(f"The torque is the weight times that distance: {right}.")
    told = f"The forearm's part goes from {written(work[0].value, 1)} to {written(work[1].value, 1)} cm."
    easier = f"Bending the elbow helps only if it brings the load closer. {told}"
    named = {"it falls": ("rule of thumb", easier)}
    wrong = [(letter_of(options, one), *named.get(one, ("wrong direction", told))) for one in options if one != right]
    slips = tuple(Slip(slip, letter, 2, said) for letter, slip, said in wrong)
    upper = {0: "hangs", 90: "is level"}.get(raised, f"stays {raised}° forward from hanging")
    start = "straight" if first == 0 else f"{first}°"
    question = (
        f"{name} holds {load} kg in front. The upper arm {upper}. The elbow goes from {start} to {last}° of bend. "
        "Leave out the arm's own weight. What happens to the torque at the shoulder?",
    )
    ask = Choice(options, letter_of(options, right))
    return Item(question, ask, "Does the dumbbell come closer, or does it go further out in front?", work, slips)


@template("02.bent elbow", section="2.5")
def elbow_bend_that_is_hardest(chance):
    name, lifter, _, _, _ = _arm(chance)
    raised = chance.number(10, 75, 5)
    bends = np.radians(np.arange(0, 144))
    torque = held_weight(lifter, 5.0, np.radians(raised), bends, arm_weight=False).shoulder_flexion
    key = float(np.degrees(bends[torque.argmax()]))
    work = Working()
    carried = chance.one_of(("tray", "dumbbell", "plate", "box"))
    work.say(f"The {carried} is furthest out in front when the forearm is level, which is 90° from hanging.")
    work.line("Elbow bend", f"90 − {raised}", "°", 0)
    slips = (
        Slip("rule of thumb", 90, 1, "A right angle makes the forearm level only if the upper arm hangs."),
        Slip("change for rest", raised, 2, "That is the upper arm's angle. The elbow adds what is missing to 90°."),
        Slip("added for taken off", 90 + raised, 2),
    )
    question = (
        f"{name} holds a {carried} in front. The upper arm stays {raised}° forward from hanging. The elbow starts "
        "straight and then bends. At how many degrees of bend does the load ask most of the shoulder?",
    )
    ask = Number(key, "°", 10, 85, share=0.01, within=1.5, digits=0)
    return Item(question, ask, "How does the forearm lie when the hand is furthest out?", work, slips)


@template("02.bent elbow", "02.line", section="2.9", model=False)
def a_posture_for_a_client(chance):
    (name,) = people(chance, 1)
    who, best = chance.one_of(CLIENTS)
    rule = "a bent elbow is always easier on the shoulder"
    options = chance.shuffled((*WHY, "straight arm, halfway down"))
    reasons = chance.shuffled((*WHY.values(), rule))
    work = Working()
    work.say(f"{best[0].upper()}{best[1:]}: {WHY[best]}.")
    work.say("Just bending the elbow may make it worse. It helps the shoulder only if it brings the load closer.")
    work.say("Start light, move slowly, stand firmly. With pain: stop, and see a licensed clinician.")
    slips = (Slip("rule of thumb", f"*{'1234'[reasons.index(rule)]}", 2),)
    question = (f"{name} {who}. Nothing hurts. Which posture do you recommend, and why?",)
    ask = Reasoned(options, reasons, f"{letter_of(options, best)}{'1234'[reasons.index(WHY[best])]}")
    return Item(question, ask, "Where should the load's line pass?", work, slips)
