"""The work panel at its start, halfway through a front pulldown."""

from shoulder_model.panels import WorkPanel

PANEL = WorkPanel()
WORDS = (
    "A lifter from behind and from the side with bands along the muscles, as wide as their force, bars of how much of its "
    f"strength each group of muscles uses, and the largest load along the rep. {PANEL.words}"
)


def stage():
    """The panel's own picture."""
    return PANEL.stage
