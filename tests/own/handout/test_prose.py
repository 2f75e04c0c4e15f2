"""What is left out of a chapter on paper, and what stays."""

import pytest

from shoulder_model.handout.prose import for_paper, labels, works_the_page
from shoulder_model.panels import GripPanel

CONTROLS = {"grip", "play", "keep this one", "lifter"}


def stays(markdown):
    return for_paper(markdown, CONTROLS)[0]


@pytest.mark.parametrize(
    "gone",
    [
        "**First press *Run everything*, at the top left.** Before that you see still pictures only.",
        "[Back to the start](00_start.ipynb) · before: [2 One](02_one.ipynb)",
        "Next: [4 Two](04_two.ipynb). There the line turns.",
        "Start it with `python -m shoulder_model`. That is all.",
        "Move *Grip* to 2. Then look again.",
        "Try it in the panel above. Move *Grip*, and press *Play*.",
        "The cell below does the same with symbols.",
    ],
)
def test_what_needs_the_page_goes(gone):
    assert stays(gone) == "" and works_the_page(gone, CONTROLS)


@pytest.mark.parametrize(
    "kept",
    [
        "The *grip* is what counts.",
        "Use it only to compare set-ups. The panel names a largest load.",
        "| you are | then |\n|---|---|\n| a tutor | open the panel above |",
        "> Press *Play*.",
        "![Move *Grip*](../figures/x.svg)",
        "**Caution.** Start light.",
        "Next to the joint lies the bone.",
    ],
)
def test_what_makes_sense_on_paper_stays(kept):
    assert stays(kept) == kept and not works_the_page(kept, CONTROLS)


def test_a_sentence_goes_and_its_neighbours_stay():
    assert stays("Her hands stay. Guess first, then try *Grip* in the panel above.") == "Her hands stay."
    assert stays("Move *Grip* again. Both lengths run from the joint.") == "Both lengths run from the joint."
    assert stays("One. Move *Grip*. It turns. Press *Play*. Two.") == "One. Two."


def test_list_items_go_whole_and_with_the_last_the_line_above():
    assert stays("- **Lifter** takes measures. So it goes.\n- **How exact?** Read on.") == "- **How exact?** Read on."
    assert stays("Try three things:\n\n1. Press *Play*.\n2. Move *Grip*.") == ""


def test_what_describes_a_panel_goes_with_its_picture():
    text = "A panel opens when you guess. It shows Runa. Move *Grip* to 2. What changes?"
    assert for_paper(text, CONTROLS) == ("", "It shows Runa.")


def test_controls_are_read_off_the_panels():
    names = labels([GripPanel()])
    assert {"grip", "elbow cue", "arm's own weight", "keep this one", "save and open", "lifter", "play"} <= names
