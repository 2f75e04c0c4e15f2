"""The lat panel at its start: the middle part of latissimus dorsi in abduction."""

from shoulder_model.panels import LatPanel


def panel():
    """The panel as it starts."""
    return LatPanel()


WORDS = f"A raised arm from behind and from the side with one muscle's line, its moment arms and its length. {panel().words}"


def stage():
    """The panel's own picture."""
    return panel().stage
