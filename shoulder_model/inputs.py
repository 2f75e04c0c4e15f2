"""What may go in: one function for each kind of value a caller gives, one wording for every refusal.

    number, scalar   numbers, one number            flag    True or False
    whole            a count                        choice  a name out of a list
    text             words                          thing   a value of one of our classes
    vectors          components on the last axis    several, choices  lists of things, of names
    fitting          arrays that have to broadcast  mapping  a dict
    checked_call     names and count of the arguments

Each returns the value as the model uses it, or raises `InputError`: one line with the field, what was given, what may be
given and what to do. A truth value is no number, a number in quotes is no number, and nothing that was masked is read.
"""

import inspect
import reprlib
from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal
from difflib import get_close_matches
from functools import wraps
from itertools import islice
from numbers import Real
from types import FunctionType, MappingProxyType
from unicodedata import category

import numpy as np

LONGEST_ECHO = 60  # letters of a wrong value that are said back
LONGEST_LIST = 110  # letters of a list of names
NOT_ON_A_LINE = ("Cc", "Cs", "Zl", "Zp")  # Unicode: controls, halves of letters, ends of lines
MOST_LISTED = 10_000  # things in a list
TOO_LONG = 1e7  # from here on digits are no help in any unit
MOST_NUMBERS, DEEPEST = 20_000_000, 20  # in one array; of lists in lists
FLOAT = np.dtype(float)
_REPR = reprlib.Repr()
_REPR.maxstring = _REPR.maxother = _REPR.maxlong = LONGEST_ECHO


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
    value = float(value)  # an overflow is no warning
    if unit == "rad" and not abs(value) >= TOO_LONG:
        return f"{np.degrees(value):.1f}° ({value:.3f} rad)"
    if unit == "m" and not abs(value) >= TOO_LONG:
        return f"{100 * value:.1f} cm"
    return f"{value:.4g} {unit}".rstrip()


def echo(value):
    """A wrong ``value`` of any kind as it is said back: text on one line, `LONGEST_ECHO` letters at most.

    >>> echo("a" * 1000), echo([1, "b"]), echo(10**5000)
    ("'aaaaaaaaaaaaaaaaaaaaaaaaaaa...aaaaaaaaaaaaaaaaaaaaaaaaaaaa'", "[1, 'b']", 'a value of type int')
    """
    try:
        said = " ".join("".join(c if c.isprintable() else " " for c in _REPR.repr(value)).split())
    except Exception:  # whatever a stranger's __repr__ does
        said = ""
    if not said:
        said = f"a value of type {type(value).__name__}"
    return said if len(said) <= LONGEST_ECHO else f"{said[: LONGEST_ECHO - 1]}…"


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
    if type(value) is float and allowed.low <= value <= allowed.high:
        return value
    plain = type(value) is np.ndarray and value.dtype is FLOAT and value.size <= MOST_NUMBERS
    array = value if plain else _numbers(field, value, allowed.unit)
    if array.size and allowed.low <= array.min() and array.max() <= allowed.high:  # neither holds with a NaN
        return float(array) if array.ndim == 0 else array
    if not array.size:
        raise InputError(field, f"{field} is empty; give at least one number")
    bad = array[~((array >= allowed.low) & (array <= allowed.high))].flat[0]
    limits = f"{shown(allowed.low, allowed.unit)} to {shown(allowed.high, allowed.unit)}"
    raise InputError(field, f"{field} = {shown(bad, allowed.unit)} is outside {limits}: {allowed.advice or 'check it'}")


def _numbers(field, value, unit):
    """A ``value`` as a float array, if it holds real numbers and nothing else; ``unit`` is for the refusal."""
    try:
        plain = not isinstance(value, (list, tuple)) or not any(map(_is_no_number, _leaves(value)))
        raw = np.asarray(value) if plain else None
        if plain and raw.size > MOST_NUMBERS:
            raise InputError(field, f"{field} has {raw.size:.3g} values; give at most {MOST_NUMBERS:,}")
        plain = plain and not np.ma.is_masked(value) and not isinstance(value, (bytearray, memoryview))
        if plain and raw.dtype.kind == "O":
            plain = raw.size and all(isinstance(one, (Real, Decimal)) and not _is_no_number(one) for one in raw.flat)
        if plain and raw.dtype.kind in "iufO":
            return raw.astype(float, copy=False)
    except InputError:
        raise
    except Exception:  # ragged, too large for a float, or whatever a stranger's __array__ does
        pass
    wanted = f"give one in {unit}" if unit else "give one"
    raise InputError(field, f"{field} = {echo(value)} is not a number; {wanted}{_hint(value)}")


def _is_no_number(one):
    """Whether numpy would make a number of ``one`` that is none: 1 of True, NaN of what is masked."""
    return isinstance(one, (bool, np.bool_, np.ma.MaskedArray))


def _leaves(value, depth=1):
    """Every element of nested lists and tuples."""
    for one in value:
        if isinstance(one, (list, tuple)) and depth < DEEPEST:
            yield from _leaves(one, depth + 1)
        else:
            yield one


def _hint(value):
    """What to do about a ``value`` that was meant as a number."""
    if isinstance(value, np.ma.MaskedArray):
        return ", without masked values"
    if type(value) is int:
        return " that a float can hold"
    if isinstance(value, (str, bytes)):
        try:
            float(value)
        except (ValueError, OverflowError):
            return ""
        return ", without the quotes"
    return ""


def scalar(field, value, allowed):
    """Like `number` of ``field``, ``value`` and ``allowed``, in the same unit, but refuses more than a single value."""
    value = number(field, value, allowed)
    if type(value) is not float:
        raise InputError(field, f"{field} has shape {value.shape}; give one number")
    return value


def vectors(field, value, allowed, length=3):
    """Like `number` of ``field``, ``value`` and ``allowed``, in the same unit, but with ``length`` components on the last axis."""
    value = number(field, value, allowed)
    if np.shape(value)[-1:] != (length,):
        raise InputError(field, f"{field} has shape {np.shape(value)}; give {length} numbers on the last axis")
    return value


def whole(field, value, allowed):
    """A count: ``value`` as int, for ``field``, inside ``allowed``, in its unit. 3.0 is a count, 2.9 and True are none."""
    count = scalar(field, value, allowed)
    if count != int(count):
        raise InputError(field, f"{field} = {count:g} is not a whole number; give a count")
    return int(count)


def flag(field, value):
    """Whether ``value`` is True, for ``field``; raises `InputError` for anything but Python's or numpy's bool."""
    if isinstance(value, (bool, np.bool_)):
        return bool(value)
    raise InputError(field, f"{field} = {echo(value)} is neither True nor False; give one of the two, without quotes")


def text(field, value, longest=200):
    """Words: ``value`` as str, for ``field``, on one line of at most ``longest`` letters (a count), or `InputError`."""
    if not isinstance(value, str):
        raise InputError(field, f"{field} = {echo(value)} is not text; give words in quotes")
    if len(value) > longest or any(category(letter) in NOT_ON_A_LINE for letter in value):
        raise InputError(field, f"{field} = {echo(value)} is not one line of at most {longest} letters")
    return value


def names_text(names):
    """A list of ``names`` in words, cut where it gets too long to read."""
    names, said = [name if name[:1].isalnum() else repr(name) for name in names], []
    while names and len(", ".join([*said, names[0]])) <= LONGEST_LIST:
        said.append(names.pop(0))
    return ", ".join(said) + (f" and {len(names)} more" if names else "")


def choice(field, value, names):
    """Return ``value`` if it is one of ``names``; otherwise raise `UnknownName` for ``field`` with the nearest of them."""
    if isinstance(value, str) and value in names:
        return value
    near = get_close_matches(value[:LONGEST_ECHO].lower(), names, n=3, cutoff=0.4) if isinstance(value, str) else ()
    hint = f"nearest: {', '.join(near)}" if near else f"choose from: {names_text(names)}"
    raise UnknownName(field, f"{field} {echo(value)} is not known; {hint}")


def thing(field, value, kind, write=""):
    """Return ``value`` if it is of the class ``kind``, otherwise raise `InputError` for ``field``.

    Parameters
    ----------
    field : str
    value : anything
    kind : type
    write : str
        How to come by one, with ``{}`` for a name that was given in its place.
    """
    if issubclass(type(value), kind):
        return value
    must = f"{field} must be {'an' if kind.__name__[0] in 'AEIOU' else 'a'} {kind.__name__}"
    said = echo(value)
    if isinstance(value, str) and "{}" in write:
        raise InputError(field, f"{must}; you gave the name {said}: write {write.format(said)}")
    raise InputError(field, f"{must}; you gave {said}" + (f": write {write.replace('{}', '...')}" if write else ""))


def several(field, value, kind, write=""):
    """A tuple of what ``value`` lists, each of the class ``kind``; else `InputError` for ``field``, with how to ``write`` one in words."""
    return tuple(thing(field, one, kind, write) for one in _listed(field, value))


def choices(field, value, names):
    """A tuple of what ``value`` lists, each once and one of ``names``; else `InputError` for ``field``."""
    return tuple(dict.fromkeys(choice(field, one, names) for one in _listed(field, value)))


def _listed(field, value):
    """What is in a list, tuple, set or the like."""
    if not isinstance(value, (str, bytes, Mapping)):
        try:
            listed = list(islice(value, MOST_LISTED + 1))
        except Exception:  # whatever a stranger's __iter__ does
            listed = [None] * (MOST_LISTED + 1)
        if len(listed) <= MOST_LISTED:
            return listed
    raise InputError(field, f"{field} = {echo(value)} is no list; give a list, at most {MOST_LISTED:,} long")


def mapping(field, value, of):
    """Return ``value`` if it is a dict, for ``field``; ``of`` says in words from what to what. Else `InputError`."""
    if isinstance(value, (dict, MappingProxyType)):
        return value
    raise InputError(field, f"{field} = {echo(value)} is no dict; give one from {of}")


def fitting(**values):
    """Refuse ``values``, numbers or arrays by field in any units, whose shapes do not broadcast; returns the common shape."""
    shapes = {field: np.shape(value) for field, value in values.items()}
    if not any(shapes.values()):
        return ()
    try:
        return np.broadcast_shapes(*shapes.values())
    except ValueError:
        said = ", ".join(f"{field} {shape}" for field, shape in shapes.items() if shape)
        field = next(field for field, shape in shapes.items() if shape)
        raise InputError(field, f"shapes do not go together: {said[:150]}; give as many of each, or one") from None


def checked_call(function):
    """A ``function`` or class whose wrong, missing and surplus arguments are refused by name, with the nearest names.

    It looks at the arguments only after Python could not take them, so a right call costs next to nothing.
    """
    if inspect.isclass(function):
        function.__init__ = checked_call(function.__init__)
        return function
    refuse = _refuse_call

    def call(*args, **named):
        try:
            return function(*args, **named)
        except TypeError:
            refuse(function, args, named)
            raise

    # with the function's own globals, so that doctest finds it in its own module
    same = FunctionType(call.__code__, function.__globals__, function.__name__, None, call.__closure__)
    return wraps(function)(same)


def _refuse_call(function, args, named):
    """Raise `InputError` where ``function`` cannot be called so; return where it can."""
    signature = inspect.signature(function)
    try:
        signature.bind(*args, **named)
        return
    except TypeError:
        pass
    taken = [name for name in signature.parameters if name not in ("self", "cls")]
    called = function.__qualname__.removesuffix(".__init__")
    for name in named:
        choice("argument", name, taken)
    try:
        signature.bind_partial(*args, **named)
    except TypeError:
        field = taken[-1] if taken else called
        said = f"{called} has too many values, or one twice; it takes {names_text(taken) or 'none'}"
        raise InputError(field, said) from None
    given = set(signature.bind_partial(*args, **named).arguments)
    field = next(n for n, p in signature.parameters.items() if p.default is p.empty and n not in given)
    raise InputError(field, f"{field} is missing; {called} takes {names_text(taken)}")
