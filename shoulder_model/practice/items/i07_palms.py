"""Items of chapter 7, continued: palms away or palms to the face, and how far to trust the model."""

from functools import cache

from ...mechanics import pulls
from ...muscles import drive, pull_band
from ...people import Lifter
from ...repetition import rep
from ...sources import constant, fact
from ...words import written
from ..asks import Number
from ..bank import template
from ..choosing import apart, one_of_these, sentences
from ..gym import person
from ..item import Item
from ..slips import Slip
from ..working import Working

OPINIONS = ("plane", "all axes")
HANDS = {"pronated": "palm away", "supinated": "palm to the face"}
DRIVE = {turn: round(100 * fact(f"elbow_drive_{turn}")) for turn in ("neutral", *HANDS)}
PULLED = {turn: constant(f"elbow_pull_{turn}").value for turn in ("neutral", *HANDS)}  # N, eleven men


@template("07.palms", section="7.5")
def newtons_with_another_hand(chance):
    name, _, _ = person(chance)
    turn, neutral = chance.one_of(tuple(HANDS)), chance.number(120, 300, 10)
    left = pull_band(turn)[0]
    work = Working()
    kept = work.line("Share that the eleven men kept", f"{PULLED[turn]} N / {PULLED['neutral']} N", "", 3)
    pull = work.line("The same share here", f"{kept} × {neutral} N", "N", 0)
    slips = (
        Slip("upside down", neutral / left, 1, "The hand neutral is the whole, so it belongs below."),
        Slip(
            "added for product",
            neutral - PULLED["neutral"] + PULLED[turn],
            1,
            "Take the same share, not the same newtons.",
        ),
        Slip("wrong length", neutral - pull, 2, "That is what is lost, not what is left."),
    )
    question = (
        f"Eleven men bent the elbow against a strap (Physiol Rep 2018;6:e13560). They pulled {PULLED['neutral']} N with "
        f"the hand neutral and {PULLED[turn]} N with it {turn} ({HANDS[turn]}).",
        f"{name} pulls {neutral} N with a neutral hand. How hard would {name} pull with the hand {turn}, keeping the same "
        "share as these men?",
    )
    ask = Number(float(left * neutral), "N", 50, 280, digits=0)
    return Item(question, ask, "What share of the neutral pull did the men keep?", work, apart(slips, ask))


@template("07.palms", section="7.5")
def leverage_that_is_left(chance):
    name, _, _ = person(chance)
    neutral, kept = chance.number(150, 300, 10), chance.number(0.38, 0.58, 0.02)
    pronated = 2 * round(kept * neutral / 2)
    work = Working()
    pull = work.line("Pull that is left", f"{pronated} N / {neutral} N", "", 3)
    driven = work.line("Drive that is left", f"{DRIVE['pronated']} / {DRIVE['neutral']}", "", 3)
    work.line("Leverage that is left", f"{pull} / {driven}", "", 2)
    slips = (
        Slip("factor forgotten", pull, 3, "That is what is left of the pull: drive and leverage together."),
        Slip("one part alone", driven, 2, "That is what is left of the drive. Leverage is the rest of the pull."),
        Slip("upside down", pull * driven, 3, "Pull = drive × leverage, so divide by the drive."),
    )
    question = (
        f"{name} bends the elbow against a strap, with {neutral} N when the hand is neutral and {pronated} N with the palm "
        f"away. Take the drive from the trial (Physiol Rep 2018;6:e13560): {DRIVE['neutral']} % with a neutral hand, "
        f"{DRIVE['pronated']} % with the palm away.",
        "Pull is drive × leverage. What share of the neutral hand's leverage is left? (1 is all of it.)",
    )
    ask = Number(float(pronated / neutral / drive("pronated")), "", 0.4, 0.9, digits=2)
    return Item(
        question, ask, "First work out what is left of the pull and what is left of the drive.", work, apart(slips, ask)
    )


@cache
def _kept(name, grip):
    """Part of the neutral hand's largest load that is left with palms away, for each opinion."""

    def kg(turn, opinion):
        pull = pulls[name].change(grip_ratio=grip, hand_turn=turn)
        return float(rep(Lifter.average("men"), pull, balance=opinion).whole_rep_load_kg)

    return tuple(kg("pronated", opinion) / kg("neutral", opinion) for opinion in OPINIONS)


HAND_PULLS = (("front pulldown", 1.0), ("front pulldown", 1.5), ("chin-up", 1.0), ("chin-up", 1.5))
MUCH = 0.1  # a loss that the model sees
NEITHER = (
    ("Palms away make the pull stronger, by both opinions.", "upside down", "A share below 1 means a weaker pull."),
    (
        "The hand does not matter in any pull. A trial showed it.",
        "proof from nowhere",
        "In the trial the elbow's pull fell by over half.",
    ),
)


@template("07.palms", "07.limit", section="7.5")
def what_the_model_says_of_palms(chance):
    name, _, _ = person(chance)
    pull, grip = chance.one_of(HAND_PULLS)
    left = _kept(pull, grip)
    low, high = (written(end, 2) for end in sorted(left))
    costs = f"Palms away cost strength here: {low} to {high} of the neutral load is left."
    unsure = "The model cannot decide it: by one opinion the hand does not matter here."
    right = costs if all(part < 1 - MUCH for part in left) else unsure
    other = (unsure if right == costs else costs, "one opinion heard", "Look at both opinions, not at one.")
    ask, slips = one_of_these(chance, right, (other, *NEITHER), 1)
    work = Working()
    work.say(f"Left of the neutral load: {written(left[0], 2)} in the plane, {written(left[1], 2)} about all axes.")
    work.say("If both say that much is lost, say it with its span. If one says that hardly anything is lost, say so.")
    question = (
        f"{name} asks whether palms away cost strength in a {pull} at {grip} ×. You look at the model's average man. "
        f"With palms away he keeps {written(left[0], 2)} of the neutral hand's largest load by the first opinion, in the "
        f"plane. By the second, about all axes, he keeps {written(left[1], 2)}. What do you answer?",
    )
    return Item(question, ask, "Do the two opinions say the same?", work, slips)


SAY_OF_TRUST = (  # what one may say after the chapter
    "With your palms away the elbow loses more than half of its pull.",
    "That a longer lever makes a muscle work harder is our assumption.",
    "Where its two opinions differ, the model does not know.",
    "Your largest load has a wide span until your strength is known.",
)
SAY_NOT_OF_TRUST = (
    ("Your largest load in a pull-up is about the same as in a pulldown.", "model for measurement",
     "So the model says. People lifted more in the pull-up: men 1.25 times, women 1.33 times as much."),
    ("Going from 1.5 to 2 × costs about a fifth of your largest load.", "model for measurement",
     "So the model says, 80 and 65 kg. Men pulled 80.0 and 77.3 kg for six repetitions."),
    ("The mid-back is idle in a pulldown, from the top to the chest.", "model for measurement",
     "The model says 0 %. Electrodes showed 20.5 to 22.7 % of a maximal contraction."),
    ("The side deltoid does almost half of a wide row. Trials showed it.", "proof from nowhere",
     "The model says 45 % of the largest load at the end. No trial that the chapter cites tested that."),
    ("The model counts fatigue, so it knows where your set will fail.", "model for measurement",
     "Speed and fatigue are left out."),
    ("With your palms away the elbow loses leverage and nothing else.", "factor forgotten",
     "The drive falls too: 0.74 of it is left, and 0.63 of the leverage."),
)  # fmt: skip


@template("07.palms", "a2.misses", section="7.6", model=False)
def how_far_to_trust_all_this(chance):
    name, _, _ = person(chance)
    question = f"{name} asks about strength and what the model says of it. Which of these may you say?"
    hint = "What did people do, where the model was compared with them?"
    return sentences(chance, question, SAY_OF_TRUST, SAY_NOT_OF_TRUST, hint)
