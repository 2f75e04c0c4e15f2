"""The trunk panel at its start, two thirds into a wide seated row."""

from shoulder_model.panels import TrunkPanel

PANEL = TrunkPanel("seated row wide")
PANEL.along.value = 65
WORDS = f"A lifter from the front and the side beside torque against trunk lean. {PANEL.words}"


def stage():
    """The panel's own picture."""
    return PANEL.stage
