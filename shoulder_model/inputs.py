"""Input checks: one function for every number a caller gives, one wording for every refusal."""

from dataclasses import dataclass
from difflib import get_close_matches

import numpy as np

LONGEST_ECHO = 60  # letters of a wrong value that are said back


class InputError(ValueError):
    """A value the model cannot use; ``field`` names it, the text says what to do."""

    def __init__(self, field, text):
        super().__init__(text)
        self.field = field


class UnknownName(InputError, KeyError):
    """A name that is not in a list; the text gives the nearest ones."""

    __str__ = Exception.__str__


@dataclass(frozen=True)
class Allowed:
    """Range of one numeric field: limits in ``unit``, and what to do outside them."""

    low: float
    high: float
    unit: str = ""
    advice: str = ""


def shown(value, unit):
    """A ``value`` with its ``unit`` as a reader expects it: degrees beside radians, centimetres for lengths."""
    if unit == "rad":
        return f"{np.degrees(value):.1f}° ({value:.3f} rad)"
    if unit == "m":
        return f"{100 * value:.1f} cm"
    return f"{value:.4g} {unit}".rstrip()


def number(field, value, allowed):
    """Return ``value`` as float (or float array) if every element is finite and inside ``allowed``.

    Parameters
    ----------
    field : str
        The value's name, as the caller knows it.
    value : float or array_like
        In the unit of ``allowed``.
    allowed : Allowed

    Raises
    ------
    InputError
        Names the field, its value with the unit, the range, and what to do.
    """
    try:
        array = np.asarray(value, dtype=float)
    except (TypeError, ValueError, OverflowError):
        raise InputError(
            field,
            f"{field} = {repr(value)[:LONGEST_ECHO]} is not a number; give one{f' in {allowed.unit}' if allowed.unit else ''}",
        ) from None
    inside = (array >= allowed.low) & (array <= allowed.high)  # NaN is never inside
    if not inside.all():
        bad = array[~inside].flat[0]
        limits = f"{shown(allowed.low, allowed.unit)} to {shown(allowed.high, allowed.unit)}"
        raise InputError(
            field, f"{field} = {shown(bad, allowed.unit)} is outside {limits}: {allowed.advice or 'check it'}"
        )
    return float(array) if array.ndim == 0 else array


def scalar(field, value, allowed):
    """Like `number` of ``field``, ``value`` and ``allowed``, in the same unit, but refuses more than a single value."""
    value = number(field, value, allowed)
    if np.ndim(value):
        raise InputError(field, f"{field} has shape {np.shape(value)}; give one number")
    return value


def choice(field, value, names):
    """Return ``value`` if it is one of ``names``; otherwise raise `UnknownName` for ``field`` with the nearest of them."""
    if isinstance(value, str) and value in names:
        return value
    near = get_close_matches(str(value).lower(), names, n=3, cutoff=0.4)
    hint = f"nearest: {', '.join(near)}" if near else f"choose from: {', '.join(names)}"
    raise UnknownName(field, f"{field} {value!r} is not known; {hint}")
