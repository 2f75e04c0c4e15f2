"""Results in words: what a coach would say, with the number and how sure it is."""

import numpy as np

from .statics import AXES

POSITIVE = dict(zip(AXES, ("adduction", "extension", "horizontal abduction"), strict=True))
NEGATIVE = dict(zip(AXES, ("abduction", "flexion", "horizontal adduction"), strict=True))
SHOWN = 0.5  # N m; less than this rounds to nothing


def listed(parts):
    """Parts in a sentence: "a, b and c".

    >>> listed(["a", "b", "c"])
    'a, b and c'
    """
    return parts[0] if len(parts) == 1 else f"{', '.join(parts[:-1])} and {parts[-1]}"


def _largest_first(torque):
    """Order of the components by size; those that differ by rounding only keep theirs."""
    return np.argsort(-np.round(np.abs(torque), 6), kind="stable")


def torque_words(torque):
    """Components (3,) [N m] by the movement they make, largest first.

    >>> torque_words([12.2, -3.4, 0.1])
    '12 N m of adduction and 3 N m of flexion'
    """
    parts = [
        f"{abs(torque[i]):.0f} N m of {(POSITIVE if torque[i] > 0 else NEGATIVE)[AXES[i]]}"
        for i in _largest_first(torque)
        if abs(torque[i]) >= SHOWN
    ]
    return listed(parts) if parts else "next to no torque"


def signed_change(value, digits=0):
    """A change with its sign, a real minus, and no sign on nothing.

    >>> signed_change(-0.2), signed_change(12.34, 1), signed_change(-3.0)
    ('0', '+12.3', '−3')
    """
    rounded = round(float(value), digits) + 0.0
    return f"{rounded:+.{digits}f}".replace("-", "−") if rounded else f"{0:.{digits}f}"


def main_work(torque):
    """Which component leads, in words.

    >>> main_work([20.0, 2.0, 0.0]), main_work([20.0, 19.0, 0.0])
    ('mostly adduction', 'adduction and extension in about equal parts')
    """
    order = _largest_first(torque)
    names = [(POSITIVE if torque[i] > 0 else NEGATIVE)[AXES[i]] for i in order]
    first, second = np.abs(torque)[order[:2]]
    if first < SHOWN:
        return "no work to speak of"
    if second > 0.8 * first:
        return f"{names[0]} and {names[1]} in about equal parts"
    return f"mostly {names[0]}"


def difference_words(now, kept):
    """How the torques ``now`` (3,) differ from those ``kept`` (3,). [N m]

    >>> difference_words([20.0, 25.0, 0.0], [8.0, 25.1, 0.0])
    '12 N m more adduction, the same extension and the same horizontal abduction'
    """
    parts = []
    for axis, change in zip(AXES, np.subtract(now, kept), strict=True):
        size = f"{abs(change):.0f} N m {'more' if change > 0 else 'less'}" if abs(change) >= SHOWN else "the same"
        parts.append(f"{size} {POSITIVE[axis]}")
    return listed(parts)


def lean_words(lean):
    """Trunk lean [rad] in words.

    >>> lean_words(0.2618), lean_words(-1.0472)
    ('trunk 15° back', 'trunk 60° forward')
    """
    degrees = round(float(np.degrees(lean)))
    return "trunk upright" if degrees == 0 else f"trunk {abs(degrees)}° {'back' if degrees > 0 else 'forward'}"


def pull_words(lifter, pull):
    """A set-up in a few words: pull, load, grip in both units, lean."""
    grip = f"grip {pull.grip_ratio:.2f} × ({100 * pull.grip_ratio * lifter.biacromial:.0f} cm)"
    angle = f"pull angle {np.degrees(pull.pull_angle):.0f}°"
    cue = round(float(np.degrees(pull.elbow_cue)))
    elbows = f", elbows {abs(cue)}° {'out' if cue > 0 else 'in'}" if cue else ""
    return f"{pull.name}, {pull.mass_on_bar(lifter):.0f} kg, {grip}, {lean_words(pull.trunk_lean)} ({angle}){elbows}"


def end_words(rep):
    """How a rep of one lifter ended."""
    if bool(rep.touched):
        return "The rep ends at the touch point."
    short = 100 * float(rep.short_of_touch)
    return (
        f"The rep ends with the elbow fully bent (143°), {short:.0f} cm before the touch point: the model's shoulder "
        "stays put, a real one gives way."
    )
