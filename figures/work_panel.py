"""The work panel at its start, halfway through a front pulldown."""

from shoulder_model.panels import WorkPanel

PANEL = WorkPanel()
WORDS = (
    "A lifter from the front and the side, bars of how much of its strength each muscle uses, the polygon of what shoulder "
    f"and elbow can supply with the load's ray, and the largest load along the rep. {PANEL.words}"
)


def stage():
    """The panel's own picture."""
    return PANEL.stage
