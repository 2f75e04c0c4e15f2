"""Loads in a coach's words: a range with its hand, how to find a first load, what to do when the next step is too large."""

from math import ceil

from ..repetition.repetition_maximum import REPETITIONS
from ..words import counted

PLACE = {  # how the load of a way of loading is said
    "stack": "{} on the stack",
    "barbell": "{} with the bar",
    "dumbbells": "{} in each hand",
    "dumbbell": "a dumbbell of {}",
    "added": "{} added",
}
HARDER = {  # what makes the same pull harder where no load is chosen
    "band": "a thicker band, or further from the anchor",
    "help": "a thinner band, or less help from the feet",
    "lowering": "a slower way down",
    "lean": "feet further forward, the body flatter",
    "body": "one more set",
}
EASIER = {
    "band": "a thinner band, or closer to the anchor",
    "help": "a thicker band, or more help from the feet",
    "lowering": "fewer in a set, each still under control",
    "lean": "feet further back, the body steeper",
    "body": "fewer in a set",
}
WARM_UP = {  # where no load is chosen; by repetitions of the light and of the heavy warm-up set
    "band": "{light} with a thinner band, or closer to the anchor",
    "help": "{light} with plenty of help",
    "lowering": "{heavy} with the feet on the box",
    "lean": "{light} standing steeper",
    "body": "{heavy} with help from the feet",
    "added": "{heavy} without added load",
}


def range_words(candidate, low_kg, high_kg):
    """A load from ``low_kg`` to ``high_kg`` [kg] in words, with its place for a ``candidate`` (None: without).

    >>> range_words(None, 30.0, 35.0), range_words(None, 7.5, 7.5)
    ('30–35 kg', '7.5 kg')
    """
    said = f"{low_kg:g} kg" if low_kg == high_kg else f"{low_kg:g}–{high_kg:g} kg"
    return PLACE[candidate.loading].format(said) if candidate else said


def found_by(candidate, rules, step, pull_ups):
    """How to find the first load of a ``candidate`` in words, under some ``rules``; no load is invented.

    ``step`` is a `load.Step` or None; ``pull_ups`` how many clean ones in a row, repetitions.
    """
    low, left = rules.repetitions_low, rules.repetitions_left_high
    ends = f"until a set of {low} ends with {left} left"
    if candidate.loading == "added":
        return f"own body first, then add {step.smallest_kg:g} kg at a time {ends}"
    if step is not None:
        return f"start light, add between sets {ends}; write it down"
    if candidate.loading == "body":
        return _own_body(candidate, rules, pull_ups)
    return {
        "band": f"a thin band first; then thicker, or further from the anchor, {ends}",
        "help": f"plenty of help from a band or the feet; then less, {ends}",
        "lowering": f"climb up, take {rules.lowering_s:g} seconds or more down; end the set when the way down gets fast",
        "lean": f"steep first; then feet further forward {ends}",
    }.get(candidate.loading, f"start easy, make it harder between sets {ends}")


def _own_body(candidate, rules, pull_ups):
    """Repetitions of a first set with the own body, from the clean pull-ups in a row where the pull is one."""
    left = rules.repetitions_left_high
    if not candidate.pull_ups or pull_ups <= left:
        return f"own body; end every set with {left} left"
    most = min(max(pull_ups - left, rules.repetitions_low), rules.repetitions_high)
    if most >= pull_ups:
        return f"own body; end every set with {left} left"
    return f"own body, {most} in a set: {pull_ups} in a row, less {pull_ups - most} left"


def too_large_lines(load_kg, next_kg, needed, add_on_kg, done, rules):
    """What to do where the next load of the equipment is too much, a tuple of lines in words.

    Parameters
    ----------
    load_kg, next_kg : float
        The present load and the next one. [kg]
    needed : tuple of float
        Repetitions (low, high) at the present load, as `load.repetitions_needed` gives them.
    add_on_kg : float or None
        The present load with a small plate on top, where that is a fair step. [kg]
    done : int
        Repetitions of the last set with the present load.
    rules : rules.Rules
    """
    more = 100 * (next_kg / load_kg - 1)
    plate = (
        f"Put a small plate on top: {add_on_kg:g} kg." if add_on_kg else "Put a small plate on top, if there is one."
    )
    lines = (
        f"The next load, {next_kg:g} kg, is {more:.3g} % more; {100 * rules.load_step_high:.0f} % is the most in one step.",
        plate,
        f"{_more_repetitions(load_kg, next_kg, needed[0], done, rules.repetitions_low)}.",
        f"Lower more slowly, {rules.lowering_s:g} seconds, or do {counted(1, 'more set')}.",
    )
    return lines if add_on_kg else (lines[0], lines[2], lines[1], lines[3])


def _more_repetitions(load_kg, next_kg, needed, done, wanted):
    """How many repetitions at the present load bring the next one into reach, by the lowest of the equations."""
    least = ceil(needed)
    if least > REPETITIONS.high:
        beyond = f"take more than {REPETITIONS.high:g} at {load_kg:g} kg, and the equations end there"
        return f"First more repetitions: {wanted} at {next_kg:g} kg {beyond}"
    if done >= least:
        reach = f"With {done} done, {wanted} at {next_kg:g} kg are in reach by some of the equations, not by all"
        return f"{reach}: try one set with it, the others at {load_kg:g} kg"
    return f"First more repetitions: {wanted} at {next_kg:g} kg take {least} or more at {load_kg:g} kg by the equations"
