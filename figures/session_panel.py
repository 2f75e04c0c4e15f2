"""The session panel at its start: a week for an invented client."""

from shoulder_model.panels import SessionPanel
from shoulder_model.week import all_no


def panel():
    """The panel with an invented client."""
    return SessionPanel(
        "women", "intermediate", health=all_no(), name="Ines", stature=1.71, mass=66.0, biacromial=0.378
    )


WORDS = f"Three days as columns with the pulls of each, beside bars of weekly sets. {panel().words}"


def stage():
    """The panel's own picture."""
    return panel().stage
