"""The one-arm panel with 5 kg in a half-raised arm."""

from shoulder_model.panels import OneArmPanel


def panel():
    """The panel with the arm half raised."""
    made = OneArmPanel()
    made.sliders["elevation_deg"].value = 45
    made.sliders["elbow_flexion_deg"].value = 60
    return made


WORDS = f"A lifter holding a weight, the forearm cut free, and both joint torques. {panel().words}"


def stage():
    """The panel's own picture."""
    return panel().stage
