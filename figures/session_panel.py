"""The session panel at its start: a week for an invented client."""

from shoulder_model.panels import SessionPanel

PANEL = SessionPanel("women", "intermediate", stature=1.71, mass=66.0, biacromial=0.378)
WORDS = f"Three days as columns with the pulls of each, beside bars of weekly sets. {PANEL.words}"


def stage():
    """The panel's own picture."""
    return PANEL.stage
