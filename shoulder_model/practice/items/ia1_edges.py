"""Items of appendix a1, continued: where the model ends and what it leaves out."""

from functools import cache

import numpy as np

from ...mechanics import pulls
from ...muscles import moment_arm
from ...people import Lifter
from ...repetition import rep
from ...sources import fact
from ...words import written
from ..asks import Number
from ..bank import template
from ..choosing import one_of_these, with_a_reason
from ..gym import GRAVITY, held_pull, person
from ..item import Item
from ..slips import Slip
from ..working import Working

MUSCLES = {
    "the middle lat": "latissimus dorsi middle",
    "teres major": "teres major",
    "the rear deltoid": "deltoid posterior",
}


@cache
def _fits(pull, muscle):
    """The model's fit of a muscle along a catalogue pull, (41,); average man."""
    one = rep(Lifter.average("men"), pulls[pull], points=41, arm_weight=False, work=False)
    asked, gives = one.shoulder_torque.values, one.muscle_moment_arm.sel(muscle=MUSCLES[muscle]).values
    return np.sum(asked * gives, axis=1) / np.linalg.norm(asked, axis=1) / np.linalg.norm(gives, axis=1)


LEFT_OUT = (  # what the model leaves out, what that would change
    ("the muscles that turn the shoulder blade up", "the shares of serratus and trapezius"),
    ("the lifter's own bones", "the levers in millimetres"),
    ("a bar that goes round the chin", "w and a along the rep"),
    ("stretched muscles and ligaments at the shoulder", "the torque at both ends of the range"),
    ("muscles that work against each other, and fatigue", "the effort of single muscles"),
    ("the head and the other arm", "where the bar can go, and what twists the trunk"),
    ("speed", "what is asked at the start and at the end of a fast rep"),
)
IN_IT = (
    "a shoulder blade that travels",
    "hands that turn",
    "hands that push sideways on one bar",
    "an elbow that goes round the ribs",
)


@template("a1.edges", section="a1.4", model=False)
def what_the_model_leaves_out(chance):
    out, changes = chance.one_of(LEFT_OUT)
    if chance.place(2):
        others = chance.some([pair for pair in LEFT_OUT if pair[0] != out], 3)
        right, wrong = (
            changes,
            [(other, "wrong place", f"That goes with something else: {what}.") for what, other in others],
        )
        question = (f"The model leaves out {out}. What does that affect most directly?",)
    else:
        right = out
        wrong = [(one, "model trusted too little", "The model has this.") for one in chance.some(IN_IT, 3)]
        question = ("Which of these does the model leave out?",)
    ask, slips = one_of_these(chance, right, wrong)
    work = Working()
    work.say(f"The model leaves out {out}. That affects {changes}.")
    work.say("How far the blade travels is our choice, but it travels. Hands turn and push sideways on one bar.")
    work.say("The elbow goes round the ribs.")
    return Item(question, ask, "The model knows bones, muscles, a bar and slow reps.", work, slips)


MEASURED = round(fact("rear_deltoid_measured_to"))  # degrees
SURE = (
    "back, and measurements agree",
    "back in the model, but we found no measurement there",
    "up in the model, but do not trust that",
    "up, and measurements agree",
)


@template("a1.edges", section="a1.3")
def rear_deltoid_at_a_height(chance):
    name, _, _ = person(chance)
    height = chance.one_of(chance.one_of((tuple(range(20, 121, 10)), (125, 130), (140, 145, 150, 155, 160, 165, 170))))
    lever = 1000 * moment_arm(MUSCLES["the rear deltoid"], np.radians(height), np.pi / 2, "extension")
    right = SURE[0 if height <= MEASURED else 1] if lever > 0 else SURE[2]
    way = "back" if lever > 0 else "up"
    told = {
        SURE[0]: ("model trusted too far", f"We found nothing measured above {MEASURED}°."),
        SURE[1]: ("model trusted too little", f"Measurements go up to {MEASURED}°."),
    }
    wrong = [
        (one, *(told[one] if one in told and lever > 0 else ("wrong direction", f"At this height the model has it pull {way}.")))
        for one in SURE if one != right
    ]  # fmt: skip
    ask, slips = one_of_these(chance, right, wrong, 1)
    work = Working()
    work.say(
        f"In the model it pulls the arm {way} here. Measurements go up to {MEASURED}°, and there it pulls the arm back."
    )
    work.say("Above about 130° the model's single thread slips past the middle of the joint. A real muscle is a sheet.")
    question = (
        f"{name} raises the arm {height}° in front (90° is straight ahead). Which way does the rear deltoid pull it, and "
        "how sure is that?",
    )
    return Item(question, ask, "How high did the measurements go?", work, slips)


ONE_THREAD = "with the arm overhead one thread is a poor stand-in for a broad muscle"
SHORT_LEVER = "at the end of this row the lat's lever is under 1 cm, so a fit there means little"
NOTHING_SHOWS = "Nothing shows that."
POOR = (  # reasons that hold for no pull
    ("the muscle is longest there, and so the model is surest", "proof from nowhere", NOTHING_SHOWS),
    ("a mean of two values is always safer than one of them", "proof from nowhere", NOTHING_SHOWS),
)
NOT_HERE = {
    ONE_THREAD: "In a row the arm is never overhead.",
    SHORT_LEVER: "This pull is not a row.",
}


def _two_fits(chance):
    """A pull and a muscle, points (of 41) to quote and not to quote, and why."""
    if chance.place(3) == 0:
        return "seated row close", "the middle lat", chance.one_of((2, 4, 6, 8, 10)), 40, SHORT_LEVER
    pull, muscle = chance.one_of(("chin-up", "pull-up", "front pulldown")), chance.one_of(tuple(MUSCLES))
    return pull, muscle, chance.one_of((18, 20, 22, 24)), 0, ONE_THREAD


@template("a1.edges", "a1.direction", section="a1.3")
def which_fit_to_quote(chance):
    name, _, _ = person(chance)
    pull, muscle, good, poor, why = _two_fits(chance)
    fits = {point: float(_fits(pull, muscle)[point]) for point in sorted((good, poor))}
    where = {0: "at the very start", 40: "at the very end"}
    where |= {good: f"after {2.5 * good:g} % of the way"}
    said = {point: f"{written(fit, 2)}, {where[point]}" for point, fit in fits.items()}
    doubt = (
        "At the start the arm is overhead. Even the sign may be wrong."
        if poor == 0
        else "There the lever is very short."
    )
    wrong = ((said[poor], "model trusted too far", doubt),
             (f"{written(sum(fits.values()) / 2, 2)}, the mean of these two values", "model trusted too far",
              "The mean holds the doubtful value too."))  # fmt: skip
    other = next(one for one in NOT_HERE if one != why)
    reasons = ((other, "wrong place", NOT_HERE[other]), *POOR)
    ask, slips = with_a_reason(chance, said[good], wrong, why, reasons)
    work = Working()
    work.say(f"{why[0].upper()}{why[1:]}.")
    work.say(f"So quote {said[good]}. A mean would mix the doubtful value in.")
    (one, first), (two, second) = fits.items()
    question = (
        f"In a {'close row' if poor else pull} the model's fit of {muscle} is {written(first, 2)} {where[one]} "
        f"and {written(second, 2)} {where[two]}. Which one do you quote to {name}, and why?",
    )
    hint = "Where is the arm at the two points, and how long is the muscle's lever there?"
    return Item(question, ask, hint, work, slips)


@template("a1.edges", "03.both torques", section="a1.4")
def bar_round_the_chin(chance):
    name, _, _ = person(chance)
    load, shift = chance.number(20, 70, 5), chance.number(1, 5, 0.5)
    work = Working()
    force = work.line("Pull on one hand", f"{load} kg / 2 × {GRAVITY} N/kg", "N", 1)
    torque = work.line("Times the change of a", f"{force} N × {shift / 100:.3f} m", "N m", 1)
    slips = (
        Slip("whole load", 2 * torque, 1),
        Slip("mass for force", torque / GRAVITY, 1),
        Slip("cm for m", 100 * torque, 2),
    )
    question = (
        f"{name} does a pulldown with {load} kg on both hands. The model lets the bar run straight down. "
        f"{name}'s bar goes round the chin. There the line offset a (how far in front of the shoulder joint the line of "
        f"pull runs) is {shift:g} cm longer.",
        f"How much more extension does the load ask of each shoulder there? Take {GRAVITY} N/kg.",
    )
    key = float(held_pull("front pulldown", load_kg=load).force(Lifter.average("men"))) * shift / 100
    ask = Number(key, "N m", 0.9, 20, within=0.06)
    return Item(question, ask, "The extension torque is the pull on one hand times a.", work, slips)
