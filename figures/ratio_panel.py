"""The ratio panel with tissue off each side of the waist: about 5 cm of tape."""

from shoulder_model.panels import RatioPanel


def panel():
    """The panel with the shoulders as measured and a smaller waist."""
    made = RatioPanel()
    made.sliders["off_cm"].value = 1.5
    return made


WORDS = (
    "A body from behind with two tapes, as measured in grey and with a layer at the sides, beside a bell curve of the survey's "
    f"people with both ratios. {panel().words}"
)


def stage():
    """The panel's own picture."""
    return panel().stage
