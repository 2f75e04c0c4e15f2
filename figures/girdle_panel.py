"""The girdle panel at its start, halfway through a wide seated row."""

from shoulder_model.panels import GirdlePanel
from shoulder_model.panels.girdle import SHOWN


def panel():
    """The panel as it starts."""
    return GirdlePanel()


WORDS = (
    f"A lifter from the front and from above, what {len(SHOWN)} muscles could do at the shoulder girdle, and what the pull "
    f"asks. {panel().words}"
)


def stage():
    """The panel's own picture."""
    return panel().stage
