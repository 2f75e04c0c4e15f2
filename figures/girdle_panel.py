"""The girdle panel at its start, halfway through a wide seated row."""

from shoulder_model.panels import GirdlePanel

PANEL = GirdlePanel()
WORDS = f"A lifter from the front, what eight muscles could do at the shoulder girdle, and what the pull asks. {PANEL.words}"


def stage():
    """The panel's own picture."""
    return PANEL.stage
