"""Results in words: what a coach would say, with the number and how sure it is."""

import numpy as np

from .axes import AXES, movement
from .inputs import Allowed, InputError, checked_call, flag, scalar, vectors, whole
from .sources import constant, fact

ANY = Allowed(-1e15, 1e15, "", "give a plain number")
DIGITS = Allowed(0, 12, "digits", "count those behind the point")
LEAST_SHOWN = 0.5  # N m; less than this rounds to nothing
LEAST_TURN_DEG = 0.5  # of the elbow past the ribs; the same
LEAST_SHORT_CM = 0.5  # before the touch point; the same
WIDE_UNDERHAND = 1.2  # × biacromial; common practice, no source


@checked_call
def written(value, digits=0, *, sign=False):
    """A number as text for a sentence: a true minus sign, and none on a value that rounds to zero.

    Parameters
    ----------
    value : float
    digits : int
        Behind the point.
    sign : bool
        True writes a plus too, as for a change; a change of nothing has no sign.

    Raises
    ------
    InputError
        What is not one finite number, no count of digits up to 12, a ``sign`` that is neither True nor False.

    >>> written(-12.34, 1), written(-0.2), written(12.34, 1, sign=True), written(0.2, sign=True)
    ('−12.3', '0', '+12.3', '0')
    """
    value, digits, sign = scalar("value", value, ANY), whole("digits", digits, DIGITS), flag("sign", sign)
    rounded = round(value, digits) + 0.0
    return f"{rounded:{'+' if sign and rounded else ''}.{digits}f}".replace("-", "−")


def with_margin(value, margin, digits=0):
    """A number with its margin as text; a margin that rounds to nothing is not written.

    Parameters
    ----------
    value, margin : float
        In any unit.
    digits : int
        Behind the point, of both.

    >>> with_margin(15.7, 1.8), with_margin(9.1, 0.3)
    ('16 ± 2', '9')
    """
    doubt = written(margin, digits)
    return written(value, digits) if float(doubt) == 0 else f"{written(value, digits)} ± {doubt}"


def counted(count, thing, things=None):
    """A count with its noun: "1 trial", "3 trials", "2 people".

    Parameters
    ----------
    count : int or float
    thing, things : str
        One of them, and several where an s is not enough.

    >>> counted(1, "pull-up"), counted(0, "pull-up"), counted(2, "person", "people")
    ('1 pull-up', '0 pull-ups', '2 people')
    """
    return f"{count:g} {thing if count == 1 else things or f'{thing}s'}"


def listed(parts):
    """``parts`` in words, as in a sentence: "a, b and c".

    >>> listed(["a", "b", "c"])
    'a, b and c'
    """
    return parts[0] if len(parts) == 1 else f"{', '.join(parts[:-1])} and {parts[-1]}"


def _largest_first(torque):
    """Order of the components by size; those that differ by rounding only keep theirs."""
    return np.argsort(-np.round(np.abs(torque), 6), kind="stable")


def _torque(field, value, components=3):
    """The components of one torque."""
    value = vectors(field, value, ANY, components)
    if value.ndim > 1:
        raise InputError(field, f"{field} has shape {value.shape}; give the {components} components of one torque")
    return value


@checked_call
def torque_words(torque, load=None):
    """Components of ``torque`` (3,) [N m] by the movement they make, largest first, each split where the arm weighs.

    Parameters
    ----------
    torque : array_like, shape (3,)
        What the shoulder supplies. [N m]
    load : array_like, shape (3,), optional
        The load's part of it; the rest is the arm's own weight. None: nothing is split. [N m]

    Raises
    ------
    InputError
        What are not three finite numbers.

    >>> torque_words([12.2, -3.4, 0.1])
    '12 N m of adduction and 3 N m of flexion'
    >>> torque_words([11.0, 12.2, 0.0], [14.0, 16.2, 0.0])
    '12 N m of extension (16 from the load, 4 less by the arm) and 11 N m of adduction (14 from the load, 3 less by the arm)'
    """
    torque, parts = _torque("torque", torque), []
    load = None if load is None else _torque("load", load)
    for i in _largest_first(torque):
        if abs(torque[i]) >= LEAST_SHOWN:
            split = "" if load is None else _split_words(AXES[i], torque[i], load[i])
            parts.append(f"{abs(torque[i]):.0f} N m of {movement(AXES[i], torque[i])}{split}")
    return listed(parts) if parts else "next to no torque"


def _split_words(axis, whole, load):
    """What of one component the load asks for and what the arm's weight changes, in brackets."""
    side = np.sign(whole)
    whole, load = round(side * whole), round(side * load)
    if load == whole:
        return ""
    if load < 0:
        return f" (the load alone: {-load} of {movement(axis, -side)})"
    return f" ({load} from the load, {abs(whole - load)} {'more' if whole > load else 'less'} by the arm)"


@checked_call
def torque_change_words(now, kept, names=None, unit="N m"):
    """How the torques ``now``, or their levers, differ from those ``kept``, in whole numbers of ``unit``.

    Parameters
    ----------
    now, kept : array_like, shape (component,)
        Of either sign. [unit]
    names : dict, optional
        Component -> words for a positive value and for a negative one; those of the shoulder's `axes.AXES` without it.
    unit : str

    Raises
    ------
    InputError
        What is no list of finite numbers, one a component.

    >>> torque_change_words([14.0, 16.0, 0.0], [0.0, 16.1, 0.0])
    'extension unchanged at 16, adduction up from 0 to 14 N m'
    >>> torque_change_words([14.0, 16.0, 0.0], [-19.0, 20.0, 0.0])
    'extension down from 20 to 16 N m, 14 N m of adduction instead of 19 of abduction'
    """
    names = {axis: (movement(axis, 1), movement(axis, -1)) for axis in AXES} if names is None else names
    now, kept = _torque("now", now, len(names)), _torque("kept", kept, len(names))
    rows = zip(names.values(), np.round(now), np.round(kept), strict=True)
    rows = sorted(rows, key=lambda row: -min(abs(row[1]), abs(row[2])))  # what stays comes first
    parts = [_change_words(sides, new, old, unit) for sides, new, old in rows if new or old]
    if not parts:
        return "next to nothing in both"
    if all(part.endswith(f" {unit}") for part in parts):
        parts[:-1] = [part.removesuffix(f" {unit}") for part in parts[:-1]]  # said once, at the end
    return ", ".join(parts)


def _change_words(sides, new, old, unit):
    """One component before and after, in whole numbers; ``sides`` names it above and below zero."""
    if new * old < 0:
        return f"{abs(new):.0f} {unit} of {sides[int(new < 0)]} instead of {abs(old):.0f} of {sides[int(old < 0)]}"
    name, size, was = sides[int((new or old) < 0)], abs(new), abs(old)
    if size == was:
        return f"{name} unchanged at {size:.0f} {unit}"
    return f"{name} {'up' if size > was else 'down'} from {was:.0f} to {size:.0f} {unit}"


def by_hand_words(force, w, a, pull_angle):
    """The tape law as it is done by hand: pull times tape length, for each component that is not nothing.

    Parameters
    ----------
    force : float
        Pull on one hand. [N]
    w, a : float
        Hand offset and line offset. [m]
    pull_angle : float
        0 overhead, 90° ahead, in the trunk. [rad]

    >>> by_hand_words(147.1, 0.093, 0.107, 0.0)
    '147 N × 10.7 cm (a) = 15.7 N m of extension, 147 N × 9.3 cm (w) = 13.7 N m of adduction'
    """
    degrees = round(float(np.degrees(pull_angle)))
    parts = [("extension", a, "a", 1.0, "")]
    for axis, ratio, name in (
        ("adduction", np.cos(pull_angle), "cos"), ("horizontal_abduction", np.sin(pull_angle), "sin"),
    ):  # fmt: skip
        turned = "" if abs(abs(ratio) - 1) < 1e-9 else f" × {name} {written(degrees)}°"
        parts.append((axis, w, "w", ratio, turned))
    lines = []
    for axis, length, letter, ratio, turned in parts:
        torque = force * length * ratio
        if abs(torque) >= LEAST_SHOWN:
            side = movement(axis, torque)
            lines.append(
                f"{force:.0f} N × {abs(100 * length):.1f} cm ({letter}){turned} = {abs(torque):.1f} N m of {side}"
            )
    return ", ".join(lines) if lines else "the line of pull runs through the shoulder"


def set_up_change_words(lifter, pull, kept):
    """What a ``pull`` has that the ``kept`` one had not, both of the ``lifter``, in a few words; empty where they are the same.

    >>> from shoulder_model import Lifter, pulls
    >>> front = pulls["front pulldown"]
    >>> set_up_change_words(Lifter.average("men"), front.change(grip_ratio=2.0), front)
    'wider by 21 cm'
    """
    if pull.name != kept.name:
        return f"{pull.name} instead of {kept.name}"
    wider = round(float(100 * (pull.grip_ratio - kept.grip_ratio) * lifter.biacromial))
    lean = round(float(np.degrees(pull.trunk_lean - kept.trunk_lean)))
    cue = round(float(np.degrees(pull.elbow_cue - kept.elbow_cue)))
    heavier = float(pull.mass_on_bar(lifter) - kept.mass_on_bar(lifter))
    up = round(100 * float(pull.touch_point(lifter)[1] - kept.touch_point(lifter)[1]))
    parts = [
        f"{'wider' if wider > 0 else 'narrower'} by {abs(wider)} cm" if wider else "",
        f"leaning {abs(lean)}° further {'back' if lean > 0 else 'forward'}" if lean else "",
        f"elbows {abs(cue)}° further {'out' if cue > 0 else 'in'}" if cue else "",
        f"{abs(heavier):.0f} kg {'heavier' if heavier > 0 else 'lighter'}" if abs(heavier) >= 0.5 else "",
        f"touching {abs(up)} cm {'higher' if up > 0 else 'lower'}" if up else "",
        f"hand {pull.hand_turn}" if pull.hand_turn != kept.hand_turn else "",
        f"shoulder blade {'travelling' if pull.girdle_travel else 'held'}"
        if pull.girdle_travel != kept.girdle_travel
        else "",
        f"on {'a bar' if pull.hold == 'bar' else 'separate handles'}" if pull.hold != kept.hold else "",
    ]
    said = [part for part in parts if part]
    return listed(said) if said else ""


def caution_words(pull):
    """What to mind with a ``pull`` (`mechanics.Pull`), in words; empty where the usual care is enough.

    That behind-the-neck training goes with signs of an unstable shoulder: J Strength Cond Res 2013;27(5):1333-1339, 123
    lifters against 36 controls, self-report. The rest is common practice, no source.
    """
    lines = []
    if pull.touch == "behind the neck":
        lines.append(
            "Behind the neck: lifters who do it had more signs of an unstable shoulder (123 lifters, J Strength Cond Res "
            "2013;27:1333; not proven to be the cause). Prefer the front."
        )
    if pull.load_from == "body" and pull.room_angle == 0 and abs(pull.trunk_lean) < np.pi / 4:
        lines.append("Hanging: step up to the bar and down again; do not drop into straight arms.")
    if pull.hand_turn == "supinated" and pull.hold == "bar" and pull.grip_ratio > WIDE_UNDERHAND:
        lines.append("A wide underhand grip on a straight bar twists wrist and elbow: come closer or use handles.")
    return " ".join(lines)


def lean_words(lean):
    """A trunk ``lean`` [rad] in words.

    >>> lean_words(0.2618), lean_words(-1.0472)
    ('trunk 15° back', 'trunk 60° forward')
    """
    degrees = round(float(np.degrees(lean)))
    return "trunk upright" if degrees == 0 else f"trunk {abs(degrees)}° {'back' if degrees > 0 else 'forward'}"


def pull_words(lifter, pull):
    """A set-up in a few words: pull, load, grip in both units, lean; a cue and a held shoulder blade if there are any.

    Parameters
    ----------
    lifter : people.Lifter
        One lifter.
    pull : mechanics.Pull
    """
    grip = f"grip {pull.grip_ratio:.2f} × ({100 * pull.grip_ratio * lifter.biacromial:.0f} cm)"
    angle = f"pull angle {written(np.degrees(pull.pull_angle))}°"
    cue = round(float(np.degrees(pull.elbow_cue)))
    elbows = f", elbows {abs(cue)}° {'out' if cue > 0 else 'in'}" if cue else ""
    held = "" if pull.girdle_travel else ", shoulder blade held"
    return (
        f"{pull.name}, {pull.mass_on_bar(lifter):.0f} kg, {grip}, {lean_words(pull.trunk_lean)} ({angle}){elbows}{held}"
    )


def tape_words():
    """What the tape's margin is made of, in words: "tape ± 1 cm, joint centre about ± 7 mm"."""
    return f"tape ± {100 * fact('tape_reading'):.0f} cm, joint centre about ± {1000 * fact('gh_side_margin'):.0f} mm"


def sc_tape_words():
    """The same margin for torques about the sternoclavicular joint, in words: "tape ± 1 cm, joint ± 5 mm"."""
    joint = constant("sc_from_midline").half_range
    return f"tape ± {100 * fact('tape_reading'):.0f} cm, joint ± {1000 * joint:.0f} mm"


def end_words(rep):
    """How a rep of one lifter ended, in words, and by how much the elbow had to clear the ribs.

    Parameters
    ----------
    rep : xarray.Dataset
        Of `repetition.rep`.
    """
    turn = float(np.degrees(rep.elbow_past_ribs.values.max()))
    ribs = f" The elbow is turned out by up to {turn:.0f}° to clear the ribs." if turn > LEAST_TURN_DEG else ""
    if bool(rep.touched):
        return f"The rep ends at the touch point.{ribs}"
    short = 100 * float(rep.short_of_touch)
    way = f"{short:.0f} cm" if short >= LEAST_SHORT_CM else "less than 1 cm"
    held = not rep.gh_centre.values.any()
    blade = "the shoulder blade is held here; one that travels lets the bar come closer"
    why = blade if held else "the elbow bends no further"
    return (
        f"The rep ends with the elbow fully bent ({fact('elbow_flexion_limit_deg'):.0f}°), {way} short of the touch point: "
        f"{why}.{ribs}"
    )


def blade_words(gh):
    """Where the shoulder blade has carried the GH centre ``gh`` (3,), from where it rests [m], in words.

    >>> blade_words([-0.059, -0.016, -0.03]), blade_words([0.0, 0.0, 0.0])
    ('6 cm back and 2 cm down from rest', 'where it rests')
    """
    ways = zip(np.round(100 * np.asarray(gh, float)[:2]), (("forward", "back"), ("up", "down")), strict=True)
    parts = [f"{abs(way):.0f} cm {words[int(way < 0)]}" for way, words in ways if way]
    return f"{listed(parts)} from rest" if parts else "where it rests"
