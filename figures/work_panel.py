"""The work panel at its start, halfway through a front pulldown."""

from shoulder_model.panels import WorkPanel


def panel():
    """The panel as it starts."""
    return WorkPanel()


WORDS = (
    "A lifter from behind and from the side with bands along the muscles, as wide as their force, bars of how much of its "
    f"strength each group of muscles uses, and the largest load along the rep. {panel().words}"
)


def stage():
    """The panel's own picture."""
    return panel().stage
