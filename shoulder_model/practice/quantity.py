"""A number with its unit, as people type it: 12,5 Nm; −3.2 cm; 40 lb; 1.234,5 N.

Units are turned into each other by pint, a unit library, which is loaded only where another unit than the asked one stands.
"""

import re
from dataclasses import dataclass
from functools import cache

from ..inputs import InputError

LONGEST, LONGEST_UNIT = 60, 20  # letters
ALIASES = {  # how units are typed, without blanks, dots and case -> how pint writes them
    "nm": "N*m", "newtonmetre": "N*m", "newtonmetres": "N*m", "newtonmeter": "N*m", "newtonmeters": "N*m",
    "ncm": "N*cm", "lbft": "lbf*foot", "ftlb": "lbf*foot", "ftlbs": "lbf*foot", "lbin": "lbf*inch", "inlb": "lbf*inch", "kgm": "kg*m", "kgcm": "kg*cm", "knm": "kN*m",
    "n": "N", "newton": "N", "newtons": "N", "kn": "kN",
    "kg": "kg", "kgs": "kg", "kilo": "kg", "kilos": "kg", "kilogram": "kg", "kilograms": "kg", "g": "g", "lb": "lb", "lbs": "lb",
    "pounds": "lb", "kp": "kgf", "kgf": "kgf",
    "cm": "cm", "centimetre": "cm", "centimetres": "cm", "centimeters": "cm", "cms": "cm", "m": "m", "metre": "m", "metres": "m", "meters": "m",
    "mm": "mm", "mms": "mm", "in": "inch", "inch": "inch", "inches": "inch", '"': "inch", "ft": "foot",
    "°": "deg", "º": "deg", "deg": "deg", "degs": "deg", "degree": "deg", "degrees": "deg", "rad": "rad", "radians": "rad",
    "j": "J", "joule": "J", "joules": "J", "kj": "kJ",
    "%": "percent", "%mvic": "percent", "%mvc": "percent", "percent": "percent", "percentage": "percent", "×": "", "x": "", "times": "", "": "",
    "cm2": "cm**2", "cm²": "cm**2", "n/cm2": "N/cm**2", "n/cm²": "N/cm**2",
    "s": "s", "sec": "s", "seconds": "s", "min": "min", "minutes": "min",
}  # fmt: skip
NUMBER = re.compile(r"[+-]?(\d{1,3}(?:[ '’\u00a0\u202f]\d{3})+|\d+)?([.,]\d+)*(e[+-]?\d{1,2})?", re.IGNORECASE)
GROUPED = re.compile(r"[+-]?\d{1,3}(?:(,\d{3})+(\.\d+)?|(\.\d{3})+(,\d+)?)")
DASHES = str.maketrans({"−": "-", "–": "-", "—": "-", "‐": "-", "‑": "-"})
KINDS = {  # dimension, as pint writes it -> what it measures
    "[mass]": "a mass", "[length]": "a length", "[mass] * [length] / [time] ** 2": "a force",
    "[mass] * [length] ** 2 / [time] ** 2": "a torque or an energy", "dimensionless": "a plain number or an angle",
}  # fmt: skip


@dataclass(frozen=True)
class Quantity:
    """A number as read: ``value`` in the unit that was asked, and how the unit was ``given`` in a word: "same", "none", "turned" or "wrong".

    A "wrong" unit measures something else; ``value`` is then the bare number and ``kind`` (text) what the unit measures.
    """

    value: float
    given: str
    kind: str = ""


@cache
def _registry():
    import pint

    return pint.UnitRegistry()


def read_quantity(text, unit):
    """The `Quantity` in a ``text``, as somebody typed it; ``unit`` (text) is what is asked: N m, N, kg, cm, °, %, × or "" for none.

    Raises
    ------
    InputError
        There is no number in it, or its unit is not known.
    """
    typed = " ".join(str(text).translate(DASHES).split())[: LONGEST + 1]
    if len(typed) > LONGEST:
        raise InputError("answer", "answer: too long; type one number with its unit")
    typed = re.sub(r"^([+-]) (?=\d)", r"\1", re.sub(r"^(about|≈|~|=)\s*", "", typed, flags=re.IGNORECASE))
    found = NUMBER.match(typed)
    if not found or not any(map(str.isdigit, found[0])):
        raise InputError(
            "answer", f"answer: type a number{f' in {unit}' if unit not in ('', '×') else ''}, for example 12.5"
        )
    return _in_unit(_number(found[0]), typed[found.end() :].strip(), unit)


def _number(digits):
    """The value of digits with a decimal point or comma, and marks between thousands."""
    digits = re.sub(r"[ '’\u00a0\u202f]", "", digits)
    signs = [sign for sign in digits if sign in ".,"]
    if len(signs) > 1:  # marks between thousands, and perhaps a decimal sign of the other kind at the end
        if not GROUPED.fullmatch(digits):
            raise InputError("answer", "answer: type one number, for example 12.5")
        digits = digits.replace(signs[0], "")
    return float(digits.replace(",", "."))


def _in_unit(value, typed, unit):
    """A value with the unit that was typed, in the one that is asked; a unit that is no measure, as sets, is only compared."""
    name, asked = _unit_name(typed), _unit_name(unit)
    if not typed:
        return Quantity(value, "none" if unit else "same")
    if name == asked and (name is not None or typed.casefold().rstrip("s.") == unit.casefold().rstrip("s")):
        return Quantity(value, "same")
    if name is None:
        known = f"{typed[:LONGEST_UNIT]!r} is no unit that is known here"
        raise InputError("answer", f"answer: {known}; type {unit or 'a plain number'}")
    return _turned(value, name, asked)


def _turned(value, name, asked):
    from pint import DimensionalityError

    typed = _registry().Quantity(value, name or "dimensionless")
    try:
        if asked is not None:
            return Quantity(float(typed.to(asked or "dimensionless").magnitude), "turned")
    except DimensionalityError:
        pass
    return Quantity(value, "wrong", KINDS.get(str(typed.dimensionality), "something else"))


def _unit_name(typed):
    """How pint writes a unit that somebody typed, or None for one that is not known."""
    bare = re.sub(r"[\s.·*⋅]", "", typed).casefold()
    return ALIASES.get(bare)
