"""The evidence panel at its start: row or pulldown, latissimus dorsi."""

from shoulder_model.panels import EvidencePanel


def panel():
    """The panel as it starts."""
    return EvidencePanel()


WORDS = (
    "Results of published trials, one a line, those of one trial under its name: a ring with a capped bar where means and "
    "standard deviations were read, a cross where no difference was seen, an arrow where only an order or a p-value was "
    f"printed; grey where something else differs too. {panel().words}"
)


def stage():
    """The panel's own picture."""
    return panel().stage
