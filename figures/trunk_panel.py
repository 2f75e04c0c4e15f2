"""The trunk panel at its start, two thirds down a front pulldown."""

from shoulder_model.panels import TrunkPanel

PANEL = TrunkPanel("front pulldown")
PANEL.along.value = 65
WORDS = f"A lifter from the front and the side beside torque against trunk lean. {PANEL.words}"


def stage():
    """The panel's own picture."""
    return PANEL.stage
