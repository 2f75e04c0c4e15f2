"""Results in words: what a coach would say, with the number and how sure it is."""

import numpy as np

from .axes import AXES, movement
from .sources import constant, fact

LEAST_SHOWN = 0.5  # N m; less than this rounds to nothing
LEAST_TURN_DEG = 0.5  # of the elbow past the ribs; the same
LEAST_SHORT_CM = 0.5  # before the touch point; the same


def written(value, digits=0, *, sign=False):
    """A number as text for a sentence: a true minus sign, and none on a value that rounds to zero.

    Parameters
    ----------
    value : float
    digits : int
        Behind the point.
    sign : bool
        True writes a plus too, as for a change; a change of nothing has no sign.

    >>> written(-12.34, 1), written(-0.2), written(12.34, 1, sign=True), written(0.2, sign=True)
    ('−12.3', '0', '+12.3', '0')
    """
    rounded = round(float(value), digits) + 0.0
    return f"{rounded:{'+' if sign and rounded else ''}.{digits}f}".replace("-", "−")


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


def torque_words(torque):
    """Components of ``torque`` (3,) [N m] by the movement they make, largest first.

    >>> torque_words([12.2, -3.4, 0.1])
    '12 N m of adduction and 3 N m of flexion'
    """
    parts = [
        f"{abs(torque[i]):.0f} N m of {movement(AXES[i], torque[i])}"
        for i in _largest_first(torque)
        if abs(torque[i]) >= LEAST_SHOWN
    ]
    return listed(parts) if parts else "next to no torque"


def leading_words(torque):
    """Which component of ``torque`` (3,) [N m] leads, in words.

    >>> leading_words([20.0, 2.0, 0.0]), leading_words([20.0, 19.0, 0.0])
    ('mostly adduction', 'adduction and extension in about equal parts')
    """
    order = _largest_first(torque)
    names = [movement(AXES[i], torque[i]) for i in order]
    first, second = np.abs(torque)[order[:2]]
    if first < LEAST_SHOWN:
        return "next to no torque"
    if second > 0.8 * first:
        return f"{names[0]} and {names[1]} in about equal parts"
    return f"mostly {names[0]}"


def torque_change_words(now, kept):
    """How the torques ``now`` (3,) differ from those ``kept`` (3,). [N m]

    >>> torque_change_words([20.0, 25.0, 0.0], [8.0, 25.1, 0.0])
    '12 N m more adduction, the same extension and the same horizontal abduction'
    """
    parts = []
    for axis, change in zip(AXES, np.subtract(now, kept), strict=True):
        size = f"{abs(change):.0f} N m {'more' if change > 0 else 'less'}" if abs(change) >= LEAST_SHOWN else "the same"
        parts.append(f"{size} {movement(axis, 1)}")
    return listed(parts)


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
    """What the tape's margin is made of, in words: "tape ± 1 cm, joint centre ± 7 mm"."""
    return f"tape ± {100 * fact('tape_reading'):.0f} cm, joint centre ± {1000 * fact('gh_side_margin'):.0f} mm"


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
        f"The rep ends with the elbow fully bent ({fact('elbow_flexion_limit_deg'):.0f}°), {way} before the touch point: "
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
