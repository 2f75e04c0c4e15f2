"""The evidence panel at its start: row or pulldown, latissimus dorsi."""

from shoulder_model.panels import EvidencePanel


def panel():
    """The panel as it starts."""
    return EvidencePanel()


WORDS = (
    "Results of published trials, one a line: a square with its interval where means and standard deviations were read, an arrow "
    f"without a number where only an order or a p-value was. {panel().words}"
)


def stage():
    """The panel's own picture."""
    return panel().stage
