"""The panel "my lifter" with a man of whom three measures are known."""

from shoulder_model.panels import MyLifterPanel


def panel():
    """The panel of chapter 8 after its last tape reading."""
    return MyLifterPanel(sex="men", stature=1.78, mass=82.0, biacromial=0.43)


WORDS = (
    "Three parts: rows of measures with a dot where a tape was read and a bar where a measure is expected; rows of answers, each with a "
    f"band of people and a hatched one of what is not known; columns that count for how many people each grip is best. {panel().words}"
)


def stage():
    """The panel's own picture."""
    return panel().stage
