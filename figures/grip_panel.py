"""The grip panel at its start, two thirds down a front pulldown."""

from shoulder_model.panels import GripPanel


def panel():
    """The panel, two thirds of the way."""
    made = GripPanel("front pulldown")
    made.along.value = 65
    return made


WORDS = f"A lifter from the front and the side beside torque against grip ratio. {panel().words}"


def stage():
    """The panel's own picture."""
    return panel().stage
