"""The trunk panel at its start, two thirds into a wide seated row."""

from shoulder_model.panels import TrunkPanel


def panel():
    """The panel, two thirds of the way."""
    made = TrunkPanel("seated row wide")
    made.along.value = 65
    return made


WORDS = f"A lifter from the front and the side beside torque against trunk lean. {panel().words}"


def stage():
    """The panel's own picture."""
    return panel().stage
