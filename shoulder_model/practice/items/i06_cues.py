"""Items of chapter 6, continued: what to answer, which cue to give, what a lift takes from the blade, what is sure."""

import numpy as np

from ...muscles import upward_rotation
from ..asks import Number
from ..bank import template
from ..choosing import one_of_these, sentences, with_a_reason
from ..gym import person
from ..item import Item
from ..slips import Slip
from ..working import Working

STAYS = "The line of pull stays where it is, and so does the SC joint. So the torque stays too."
FEELS = (  # what a client says, the right answer, and wrong ones with their slip
    (
        "At the end of the wide row my mid-back has most to hold.",
        "The torque stays the same. Your muscles are shorter there and can give less.",
        (
            ("The torque grows there, because your elbows go further and further back.", "wrong length", STAYS),
            ("The torque falls towards the end, and there your muscles are at their strongest.", "wrong length", STAYS),
            ("The load on the stack grows towards the end of the row.", "rule of thumb", "The stack weighs the same all the way."),
        ),
    ),
    (
        "I keep my blades back through the whole row, so my mid-back does more work.",
        "No: you hold the same torque, but a blade that stays still does no work.",
        (
            ("Yes: holding the blades back all the way takes more joules than letting them go.", "holding for work", ""),
            ("Yes: the torque is larger as long as you hold the blades back.", "wrong length", STAYS),
            ("No: with the blades held back, the load asks no torque of them.", "holding for work", "It asks for the same torque."),
        ),
    ),
    (
        "The blade moves just as far in the close row, so it does the same work there.",
        "No: there the line of pull passes close to the SC joint, so the torque is small.",
        (
            ("Yes: the same load and the same way of the shoulder make the same work in any row.", "way of another point", ""),
            ("No: in the close row the blade hardly moves.", "wrong length", "It moves just as far. It is the torque that is small."),
            ("Yes, and if you squeeze hard it does even more.", "lever for force", "The load gives you little to squeeze against."),
        ),
    ),
    (
        "With wide hands my mid-back has more to hold, because my shoulders travel further.",
        "More to hold, yes, but because the line of pull passes further from the SC joint.",
        (
            ("Yes: the further the shoulders travel, the larger the torque.", "way of another point",
             "They travel just as far with close hands. Travel does not enter into the torque."),
            ("No: it is the same load, so it is the same torque.", "one part alone", "The distance from the SC joint counts too."),
            ("No: with wide hands you have less to hold, because the bar does not travel as far.", "wrong length",
             "Wider hands mean more distance from the SC joint, so more torque."),
        ),
    ),
    (
        "I lean back in the pulldown. So I only have to hold my blades down.",
        "No: if you lean back, you have to hold them back as well as down.",
        (
            ("Yes: in a pulldown the load only ever asks you to hold them down.", "name for cause",
             "The pull angle counts, not the name. With a lean there is a part to hold back."),
            ("No: once you lean back, you only have to hold them back.", "sine for cosine",
             "Down is still there. At a pull angle of 45° the two are equal."),
            ("No: if you lean back, the load asks nothing of the blades.", "wrong length",
             "The line of pull still passes the SC joint at a distance."),
        ),
    ),
)  # fmt: skip
NO_TRIAL = (
    "a trial showed that this builds a thicker back",
    "proof from nowhere",
    "No trial that the chapter cites measured that.",
)
CUES = (  # who, what to do, wrong things to do, the reason, a wrong reason
    (
        "hangs from the pull-up bar, and a trainee calls “shoulders down!”",
        "let the blades go up, then bring them down with the pull",
        (("keep the blades pulled down, in the hang and all the way up", "name for cause", "Overhead the blades belong up."),
         ("let the blades go up, and leave them up all the way to the top", "name for cause", "They come down with the pull.")),
        "about a third of raising the arm comes from the blade",
        ("with the blades held down the lat has nothing to do in a pull-up", "muscle forgotten",
         "The lat pulls the arm down and holds the girdle down too."),
    ),
    (
        "squeezes hard in a close row and wants the mid-back to work",
        "row with wide hands and let the blades travel",
        (("keep the close row and squeeze harder at the end of it", "lever for force",
          "A close line of pull gives little to squeeze against."),
         ("keep the close row and hold the blades still all the way", "holding for work",
          "Held still they do no work, and the torque is small.")),
        "the line of pull then passes further from the SC joint",
        ("the shoulder travels further in a wide row than in a close one", "wrong length", "It travels just as far in both."),
    ),
    (
        "keeps the blades packed in the front pulldown, and the bar stops short of the chest",
        "let the blades go up at the top and bring them down with the pull",
        (("keep them packed, and bend the wrists to bring the bar to the chest", "caution skipped",
          "Do not force the last centimetres."),
         ("keep them packed, and take more weight so that it pulls the arms up", "caution skipped",
          "More weight brings no centimetres.")),
        "the blade gives about 9 cm of the pull there",
        ("stiff shoulders have to be stretched before the bar can touch", "name for cause",
         "Nothing is stiff. A part of the movement is left out."),
    ),
    (
        "wants the mid-back to move the load, and holds the blades back all through a wide row",
        "let the blades go forward, slowly, and bring them back",
        (("hold them back, and squeeze as hard as you can at the end", "holding for work", ""),
         ("hold them back, and put more weight on the stack", "holding for work", "")),
        "a blade that is held still does no work by turning the girdle",
        ("the load asks for more torque if the blade travels than if it is held", "wrong length", "The torque is the same in both."),
    ),
)  # fmt: skip
SURE_OF_BLADES = (  # what one may say of it
    "I know the directions of these muscles better than their centimetres.",
    "The blade gives something between 5 and 13 cm of the pull.",
    "A blade held still and a blade that travels are both good exercise.",
    "The lat has the longest lever to hold your shoulder girdle down.",
    "Squeeze if it helps you feel the muscles. A wide grip does more.",
)
NOT_SURE_OF_BLADES = (
    ("The upper trapezius has next to nothing to do in a row.", "model for measurement",
     "So the model says, because its ribs bear that load. In trials of rows it worked at under 8 % to over 60 %."),
    ("The blade gives 10.9 cm of a row, whoever does it.", "one number for a span",
     "We chose the blade's angles. It can be anything from 5 to 13 cm."),
    ("Researchers have measured that the blade moves late in these pulls.", "proof from nowhere",
     "We know of nobody who measured when the blade moves in these pulls."),
    ("Keep your blades down overhead too. It protects the shoulder.", "proof from nowhere",
     "The chapter has no such proof. A third of raising the arm comes from the blade."),
    ("Draw your blades back, and the lat is switched off. A trial showed it.", "proof from nowhere",
     "In the trial the lat's mean was higher with the blades drawn back (Dyn Med 2004;3:4)."),
    ("Squeeze hard, and a close row loads the mid-back as much as a wide one.", "lever for force",
     "The line of pull passes close to the SC joint, so the load gives you little to squeeze against."),
)  # fmt: skip


@template("06.hold or move", "06.holders", section="6.4", model=False)
def what_do_you_answer(chance):
    name, _, _ = person(chance)
    said, right, wrong = chance.one_of(FEELS)
    work = Working()
    work.say(right)
    work.say("What the load asks is the pull times the distance of its line from the SC joint.")
    work.say("Work is torque × turn. A blade that is held still does none.")
    ask, slips = one_of_these(chance, right, wrong)
    hint = "Tell apart what the load asks, how far the blade goes, and the work."
    return Item((f"{name} says: “{said}” What do you answer?",), ask, hint, work, slips)


@template("06.cues", "06.hold or move", section="6.7", model=False)
def a_cue_for_a_client(chance):
    name, _, _ = person(chance)
    who, right, wrong, reason, other = chance.one_of(CUES)
    ask, slips = with_a_reason(chance, right, wrong, reason, (other, NO_TRIAL))
    work = Working()
    work.say(f"{right[0].upper()}{right[1:]}: {reason}.")
    work.say("How sure is that? The directions are fairly sure, the exact numbers are not.")
    work.say(
        "Start light. Pain, numbness, or a blade that has started to stick out: stop, and see a licensed clinician."
    )
    question = (f"{name} {who}. Nothing hurts. What do you say, and why?",)
    return Item(question, ask, "Ask what the blade does in this pull, and what the load asks of it.", work, slips)


@template("06.cues", "06.centimetres", section="6.6")
def what_the_blade_gives_overhead(chance):
    plane, words = chance.one_of(((0, "out to the side"), (40, "in the plane of the blade"), (90, "to the front")))
    low, high = chance.one_of(((30, 120), (30, 90), (45, 120), (60, 120), (30, 105), (45, 105)))
    first, last = np.round(np.degrees(upward_rotation(np.radians([low, high]), np.radians(plane))), 1)
    lift = high - low
    work = Working()
    blade = work.line("The blade turns", f"{last:.1f} − {first:.1f}", "°", 1)
    work.line("The arm is lifted", f"{high} − {low}", "°", 0)
    work.line("The blade's share", f"{blade} / {lift} × 100", "%", 0)
    slips = (
        Slip("upside down", 100 * lift / blade, 3, "The blade's turn belongs on top, the lift below."),
        Slip("wrong length", 100 * blade / high, 2, f"The lift begins at {low}°, not at 0°."),
        Slip("wrong joint", 100 - 100 * blade / lift, 3, "That is the share of the shoulder joint."),
        Slip("share for per cent", blade / lift, 3),
    )
    question = (
        f"An arm is lifted {words}, from {low}° to {high}°. Pins in the bone showed how far the blade is then turned up "
        f"(J Bone Joint Surg Am 2009;91:378): {first:.1f}° at the start and {last:.1f}° at the end.",
        "How many per cent of the lift come from the blade, and would be lost if it stayed down?",
    )
    ask = Number(float(100 * (last - first) / lift), "%", 15, 60, share=0.04, within=0.7, digits=0)
    return Item(question, ask, "Compare how far the blade turns with how far the arm is lifted.", work, slips)


@template("06.cues", "06.centimetres", section="6.7", model=False)
def what_may_you_say_of_the_blade(chance):
    name, _, _ = person(chance)
    question = f"{name} asks what the shoulder blade does in a pull. Which of these may you say?"
    hint = "Ask what was measured, what was chosen, and what is from memory."
    return sentences(chance, question, SURE_OF_BLADES, NOT_SURE_OF_BLADES, hint)
