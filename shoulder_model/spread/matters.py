"""What matters: which uncertain input moves an answer how much, by variance.

Of the variance V of an answer, over people and over what is not known,

    first index of x    V(E[answer | x]) / V           what would go away, on average, if x were known
    total index of x    E[V(answer | all but x)] / V   what would stay, on average, if only x were not known

Their difference is what x does together with others. Inputs that belong together (a person's measures) are one input, so
correlations inside it do no harm. A set of inputs has indices too: "people" and "not known" are the register's two kinds.

The design has 2 n independent cases, and for each set those of the first half with that set's values from the second half.
`scipy.stats.sobol_indices` makes the indices of it (the estimators of Comput Phys Commun 2010;181:259-270, from memory) and,
by resampling, their intervals.
"""

from dataclasses import dataclass

import numpy as np
import xarray as xr

from ..inputs import Allowed, InputError, checked_call, choices, flag, number, thing, whole
from ..mechanics import Pull
from ..mechanics.pull import ALLOWED
from ..people import MEASURES, Crowd, Lifter
from ..people.lifter import SEED
from ..repetition import ManyReps, options_of
from ..repetition.rep_and_sweep import one_value_each
from .answers import BEST, GRIP, answer_called, answer_names, best_of
from .drawn import NOT_KNOWN, draw
from .people import STREAM, strength_of
from .uncertain import KINDS, LEVEL, names_of
from .workers import bar_of, in_order, workers_of

CASES = Allowed(8, 2**16, "", "give a power of 2, such as 256")
FIRST, SECOND = "first half", "second half"
SETS = {name: (name,) for name in names_of()} | {
    kind: names_of(kind) for kind in KINDS
}  # name -> inputs that are exchanged
RESAMPLED = 500


def number_of(case, design, name, n):
    """Which value of the input ``name`` a ``case`` (0 to ``n``, whole numbers) takes in a ``design``, one of `SETS` or a half: a number."""
    second = design == SECOND or name in SETS.get(design, (design,))
    return case + n if second else case


def indices(answers, sets):
    """First and total indices with their intervals.

    Parameters
    ----------
    answers : ndarray, shape (2 + set, n, answer)
        Of the first half, the second half, and the first half with each set's values from the second; n a power of 2. Each
        answer in its own unit.
    sets : sequence of str

    Returns
    -------
    xarray.Dataset, dims input, answer, end
        ``first``, ``total`` without unit, ``first_band``, ``total_band`` (end: low, high) that hold them in 90 of 100 resamplings.
    """
    from scipy.stats import sobol_indices

    first, second, *swapped = (part.T for part in answers)
    swapped, n = np.stack(swapped), first.shape[1]

    def both(cases):
        """First and total indices (2, set, answer) of some cases."""
        found = sobol_indices(func={"f_A": first[:, cases], "f_B": second[:, cases], "f_AB": swapped[..., cases]}, n=n)
        return np.stack([np.reshape(one, (len(first), -1)).T for one in (found.first_order, found.total_order)])

    again = np.random.default_rng(0).integers(0, n, (RESAMPLED, n))
    low_and_high = np.percentile([both(cases) for cases in again], [50 * (1 - LEVEL), 50 * (1 + LEVEL)], axis=0)
    made = {}
    for name, values, ends in zip(("first", "total"), both(slice(None)), np.moveaxis(low_and_high, 0, -1), strict=True):
        made[name] = (("input", "answer"), values)
        made[f"{name}_band"] = (("input", "answer", "end"), ends)
    return xr.Dataset(made, {"input": list(sets), "end": ["low", "high"]})


@checked_call
def what_matters(
    crowd,
    pull,
    *,
    answers=("lat_share", "mid_back_share", "whole_rep_load_kg"),
    grip_ratio=None,
    n=256,
    seed=0,
    points=11,
    anchored=True,
    workers=1,
    executor=None,
    progress=True,
    **options,
):
    """Which uncertain input moves the answers of a pull how much.

    Parameters
    ----------
    crowd : people.Crowd
        Whose people count; its ``n`` does not matter. With measures that all share, what they leave open.
    pull : mechanics.Pull
    answers : sequence of str
        Of `answers.COACH`, and their best grips.
    grip_ratio : array_like, shape (n,), optional
        Grips for best ones, with the pull's own, which other answers take.
    n : int
        Cases, a power of 2.
    seed : int
    points : int
        Along each rep.
    anchored : bool
        As of `drawn.Drawn.strength`.
    workers, executor, progress
        As of `studies.study`: a whole number, an executor, a flag.
    **options
        As for `repetition.rep`.

    Returns
    -------
    xarray.Dataset, dims input, answer, end
        Of `indices`, inputs and both kinds; and of each answer ``mean``, ``sd``, ``low`` and ``high`` (5th and 95th percentile), in
        its unit; ``narrower`` (input, answer), by which share its standard deviation would fall if that input were known.

    Raises
    ------
    InputError
        What is not of its kind or in its range; a set-up out of reach of somebody.
    """
    asked = _asked(
        crowd, pull, answers, grip_ratio, n, seed=seed, anchored=anchored, options=options | {"points": points}
    )
    cases = np.empty((asked.n, 2 + len(SETS), len(asked.answers)))
    with workers_of(workers, executor) as works, bar_of(asked.n, 0, "cases", flag("progress", progress)) as bar:
        for case, found in in_order(_case, asked, range(asked.n), works):
            cases[case] = found
            bar.update()
    if not np.isfinite(cases).all():
        raise InputError("pull", "pull: somebody cannot reach or hold it; take a nearer grip")
    return _told(indices(np.moveaxis(cases, 1, 0), SETS), cases[:, 0], asked.answers)


def _asked(crowd, pull, answers, grip_ratio, n, *, seed, anchored, options):
    """The checked question."""
    names = tuple(choices("answers", [answers] if isinstance(answers, str) else answers, answer_names()))
    n, crowd = whole("n", n, CASES), thing("crowd", crowd, Crowd, "sm.Crowd(1000, 'men', seed=1)")
    if n & (n - 1):
        raise InputError("n", f"n = {n} is no power of 2; give 256 or 512")
    one_value_each(pull)
    grips = () if grip_ratio is None else np.atleast_1d(number(GRIP, grip_ratio, ALLOWED[GRIP])).ravel().tolist()
    if not grips and any(answer_called(name).over_grips for name in names):
        raise InputError("answers", "answers: the best grip needs several grips; give grip_ratio a list")
    options_of(options)
    people = Crowd(2 * n, crowd.sex, crowd.seed, crowd.measured)
    kept = tuple(sorted({*grips, pull.grip_ratio})), n, whole("seed", seed, SEED)
    return _Asked(people, pull, names, *kept, tuple(sorted(options.items())), flag("anchored", anchored))


def _told(found, answers, names):
    """The indices with what the answers (case, answer) are."""
    low, high = np.percentile(answers, [50 * (1 - LEVEL), 50 * (1 + LEVEL)], axis=0)
    of = {"mean": answers.mean(axis=0), "sd": answers.std(axis=0, ddof=1), "low": low, "high": high}
    found = found.assign({name: ("answer", values) for name, values in of.items()})
    narrower = 1.0 - np.sqrt(1.0 - np.clip(found["first"], 0.0, 1.0))
    return found.assign(narrower=narrower).assign_coords(
        answer=list(names), unit=("answer", [answer_called(name).unit for name in names])
    )


@dataclass(frozen=True)
class _Asked:
    """What all cases share; goes to other processes."""

    people: Crowd
    pull: Pull
    answers: tuple
    grips: tuple
    n: int
    seed: int
    options: tuple
    anchored: bool

    def draw_of(self, case, design):
        """What is not known in one case of a design."""
        drawn = draw(self.seed, case)
        for name in NOT_KNOWN:
            number = number_of(case, design, name, self.n)
            drawn = drawn if number == case else drawn.with_input(name, draw(self.seed, number))
        return drawn

    def person_of(self, case, design):
        """The person of one case of a design, and the deviate of their strength."""
        body, strong = (number_of(case, design, name, self.n) for name in names_of("people"))
        lifters = self.people.lifters(slice(body, body + 1))
        one = Lifter(lifters.sex, **{name: float(getattr(lifters, name)[0]) for name in MEASURES})
        return one, float(self.people.deviates(slice(strong, strong + 1), STREAM)[0])


def _case(asked, case):
    """Answers (2 + set, answer) of one case in all designs, each in its unit."""
    return np.array([_answers(asked, case, design) for design in (FIRST, SECOND, *SETS)])


def _answers(asked, case, design):
    drawn, (person, deviate) = asked.draw_of(case, design), asked.person_of(case, design)
    strength = drawn.strength(strength_of(person, deviate), person.sex, asked.anchored)
    options = options_of(dict(asked.options) | drawn.options | {"strength": strength})
    pull = drawn.pull(asked.pull)
    try:
        reps = ManyReps(person, pull, options, {GRIP: np.array(asked.grips)})
        return [_answer(name, reps, asked.grips, pull.grip_ratio) for name in asked.answers]
    except InputError:
        return [np.nan] * len(asked.answers)


def _answer(name, reps, grips, own):
    """One answer: the best grip, or that at the pull's ``own`` grip."""
    values = answer_called(name).of(reps)[1]
    return float(best_of(name, values, grips, 0) if name.startswith(BEST) else values[grips.index(own)])
