"""Both bands of an answer in one sentence."""

import numpy as np

from ..words import written

ALIKE = 1.15  # times as wide; what differs less is about as much
NOT_MEASURED = "what nobody has measured"


def among(measures):
    """Whom the people's band is about: "women of these measures"."""
    return f"{measures['sex']} of these measures" if len(measures) > 1 else measures["sex"]


def band_words(who, people, unknown, words, digits=0, *, swapped=False, change_of="", brief=False):
    """Both bands in one sentence, and which of them is the wider one.

    Parameters
    ----------
    who : str
        Whom the people are.
    people, unknown : tuple of two floats
        Ends; None where there is no such band. [unit]
    words : str
        Unit and name of what it is about.
    digits : int
        Behind the point.
    swapped : bool
        True for a value that is told as the size of a negative one.
    change_of : str
        What changes, where the bands are of a change.
    brief : bool
        True leaves no more than a projector has room for.
    """
    people, unknown = (_ends(band, swapped=swapped) for band in (people, unknown))
    parts = [f"among {who} {_range(people, digits)}{words}"] if people else []
    words = "" if people else words
    if people and unknown and not brief and _is_one(unknown, digits):
        parts.append(f"{NOT_MEASURED} hardly moves it")
    elif unknown:
        left_by = "not known:" if brief else f"{NOT_MEASURED} leaves"
        wider = _wider(people, unknown, digits) if people and not brief else ""
        parts.append(f"{left_by} {_range(unknown, digits)}{words}{wider}")
    if not parts:
        return "Too few people of these measures reach for a band."
    said = "; ".join(parts)
    if change_of:
        is_open = unknown and unknown[0] < 0 < unknown[1]
        of = "" if brief else f" of {change_of}"
        said = f"change{of}: {said}{': its direction is open' if is_open else ''}"
    said += "."
    return said[0].upper() + said[1:]


def _ends(band, *, swapped):
    if band is None or not np.isfinite(band).all():
        return None
    return (-band[1], -band[0]) if swapped else tuple(band)


def _range(band, digits):
    low, high = (written(float(end), digits) for end in band)
    return low if _is_one(band, digits) else f"{low} to {high}"


def _is_one(band, digits):
    """Whether both ends are written as one number."""
    return written(float(band[0]), digits) == written(float(band[1]), digits)


def _wider(people, unknown, digits):
    """Whether the second is the wider one, as far as their written ends tell."""
    if np.ptp(np.round(people, digits)) == np.ptp(np.round(unknown, digits)):
        return ", about as much"
    people, unknown = (high - low for low, high in (people, unknown))
    if unknown > ALIKE * people:
        return ", the larger part"
    return ", the smaller part" if people > ALIKE * unknown else ", about as much"
