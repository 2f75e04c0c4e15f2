"""The one-arm panel with 5 kg in a half-raised arm."""

from shoulder_model.panels import OneArmPanel

PANEL = OneArmPanel()
PANEL.sliders["elevation_deg"].value = 45
PANEL.sliders["elbow_flexion_deg"].value = 60
WORDS = f"A lifter holding a weight, the forearm cut free, and both joint torques. {PANEL.words}"


def stage():
    """The panel's own picture."""
    return PANEL.stage
