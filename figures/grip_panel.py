"""The grip panel at its start, two thirds down a front pulldown."""

from shoulder_model.panels import GripPanel

PANEL = GripPanel("front pulldown")
PANEL.along.value = 65
WORDS = f"A lifter from the front and the side beside torque against grip ratio. {PANEL.words}"


def stage():
    """The panel's own picture."""
    return PANEL.stage
