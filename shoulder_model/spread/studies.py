"""A study: a crowd over pulls, grips, leans, points and draws of what is not known, in one call.

    plan ──blocks──> answers_of, here or in other processes ──in their order──> arrays, or counts ──> Dataset
                                                                                  └──> file

Blocks come back in their order whoever worked them out, so what is in memory or in the file is always the first so many.
"""

from dataclasses import replace

import numpy as np
import xarray as xr

from ..inputs import Allowed, InputError, checked_call, choice, choices, flag, number, scalar, thing, whole
from ..mechanics import Pull
from ..mechanics import pulls as catalogue
from ..mechanics.pull import ALLOWED, a_pull
from ..people import Crowd, Lifter
from ..people.lifter import SEED
from ..repetition import options_of
from ..repetition.rep_and_sweep import crowd_of, one_value_each
from .answers import GRIP, answer_called, answer_names
from .kept import Arrays, Counts
from .plan import STRENGTHS, Plan, answers_of, need_of, rows_of, tails_of
from .tally import Tally
from .workers import WORKERS, bar_of, in_order, workers_of

KEEPS = ("arrays", "summary")
QUANTILES = (0.05, 0.25, 0.5, 0.75, 0.95)
DRAWS = Allowed(0, 100_000, "draws", "0 leaves the tables as they stand")
MEMORY = Allowed(1.0, 1e6, "MB", "give the working memory in megabytes")
ROWS = Allowed(1, 10_000_000, "people", "leave it out, and memory decides")


@checked_call
def study(
    crowd, pulls, *, grip_ratio=None, trunk_lean=None, answers=("lat_share", "mid_back_share", "whole_rep_load_kg"), draws=0,
    seed=0, points=21, strength="drawn", anchored=True, keep="arrays", quantiles=QUANTILES, file=None, memory_mb=500.0, rows=None,
    workers=1, executor=None, progress=True, **options,
):  # fmt: skip
    """Answers for a crowd over pulls, grips, leans and draws of what is not known.

    Parameters
    ----------
    crowd : people.Crowd or people.Lifter
        A `Crowd` takes no memory before it is asked for; a `Lifter` is one person or arrays.
    pulls : sequence
        Pulls (`mechanics.Pull`) or their names in the catalogue; one alone will do.
    grip_ratio : array_like, shape (n,), optional
        Grips over shoulder breadth; without it the pull's own.
    trunk_lean : array_like, shape (n,), optional
        From upright, backward positive. [rad]
    answers : sequence of str
        What is asked: variables of `repetition.rep`, and the answers of `answers.COACH` with their best grips.
    draws : int
        How many draws of what is not known, beside the tables as they stand.
    seed : int
        Of draws, and of the strengths of a `Lifter`; a `Crowd` has its own.
    points : int
        Along each rep.
    strength : "drawn" or "expected"
        Each person's own, about what is expected of sex and mass, or that expected one.
    anchored : bool
        As of `drawn.Drawn.strength`.
    keep : "arrays" or "summary"
        Every answer, or quantiles over the people from counts (`tally`), which takes no more memory for more people.
    quantiles : sequence of float
        Of a summary, shares 0 to 1.
    file : path-like, optional
        A Zarr folder. The same call goes on where an earlier one stopped.
    memory_mb : float
        What blocks that are worked on at once may take; arrays that are kept come on top. [MB]
    rows : int, optional
        People in a block; without it memory decides. It changes no bit of the answers.
    workers : int
        Processes; 1 works in this one.
    executor : optional
        Who works instead: a ``concurrent.futures`` executor, or a client of a Dask cluster.
    progress : bool
        Whether a bar shows how far it is.
    **options
        As for `repetition.rep`.

    Returns
    -------
    xarray.Dataset
        Arrays: dims draw, pull, lifter, then those of the fields and of the answer; draw 0 is the tables as they stand; NaN where
        a set-up is out of reach. Summaries: dim quantile in place of lifter, and for each answer ``..._missing``, how many people
        have none, and ``..._counts`` that `merged` can add up. Units in each variable's attributes.

    Raises
    ------
    InputError
        What is not of its kind or in its range; memory that not even one person's block fits in; a file of another study.

    Notes
    -----
    The same seed gives the same bits whatever the blocks, workers and machine of one kind; a processor of another kind may
    round differently. Ctrl+C keeps all finished blocks of a study with a file; a killed one loses at most the last
    seconds and comes to the same bits.

    >>> women = study(Crowd(50, "women", 1), "front pulldown", grip_ratio=[1.0, 1.5], answers=["whole_rep_load_kg"], points=5,
    ...     progress=False)
    >>> dict(women.whole_rep_load_kg.sizes)
    {'draw': 1, 'pull': 1, 'lifter': 50, 'grip_ratio': 2}
    """
    keep, workers, progress = (
        choice("keep", keep, KEEPS),
        whole("workers", workers, WORKERS),
        flag("progress", progress),
    )
    made = {"answers": answers, "draws": draws, "seed": seed, "strength": strength, "anchored": anchored}
    plan = _plan(crowd, pulls, {GRIP: grip_ratio, "trunk_lean": trunk_lean}, options | {"points": points}, **made)
    memory = scalar("memory_mb", memory_mb, MEMORY)
    most = rows_of(need_of(plan.answers), plan.a_person, plan.people, memory, workers)
    plan = replace(plan, rows=most if rows is None else whole("rows", rows, ROWS))
    kept = (Counts if keep == "summary" else Arrays)(plan, file, quantiles)
    with workers_of(workers, executor) as works:
        _go(kept, works, progress)
    return kept.dataset()


def _plan(crowd, asked, fields, options, *, answers, draws, seed, strength, anchored):
    """The checked `Plan`, in blocks of one person."""
    if not isinstance(crowd, Crowd):
        crowd_of(thing("crowd", crowd, Lifter, "sm.Crowd(1000, 'men', seed=1)"))
    names = tuple(choices("answers", [answers] if isinstance(answers, str) else answers, answer_names()))
    given = {
        name: tuple(np.atleast_1d(number(name, values, ALLOWED[name])).ravel().tolist())
        for name, values in fields.items()
        if values is not None
    }
    if GRIP not in given and any(answer_called(name).over_grips for name in names):
        raise InputError("answers", "answers: the best grip needs several grips; give grip_ratio a list")
    options_of(options)
    plan = Plan(
        crowd, _pulls(asked), tuple(given.items()), names, whole("draws", draws, DRAWS), whole("seed", seed, SEED),
        choice("strength", strength, STRENGTHS), flag("anchored", anchored), tuple(sorted(options.items())), 1,
    )  # fmt: skip
    return replace(plan, tails=tails_of(plan))


def _pulls(asked):
    """Pulls of names and pulls, a tuple."""
    listed = [asked] if isinstance(asked, (str, Pull)) else list(asked) if isinstance(asked, (list, tuple)) else [asked]
    found = tuple(catalogue[one] if isinstance(one, str) else a_pull(one) for one in listed)
    for one in found:
        one_value_each(one)
    if not found:
        raise InputError("pulls", "pulls is empty; give at least one pull")
    return found


def _go(kept, works, progress):
    """Work out what is missing, block by block; whatever stops it, what is finished is kept."""
    plan = kept.plan
    done = sum((block.stop - block.start) * plan.a_person for block in plan.blocks[: kept.complete])
    with bar_of(plan.postures, done, "postures", progress) as bar:
        try:
            for block, answers in in_order(answers_of, plan, plan.blocks[kept.complete :], works):
                kept.take(block, answers)
                bar.update((block.stop - block.start) * plan.a_person)
        finally:
            kept.close()


@checked_call
def merged(*summaries):
    """Summaries of studies that differ in their people only, as one: a Dataset with units as theirs.

    Parameters
    ----------
    *summaries : xarray.Dataset
        Of `study` with ``keep="summary"``.

    Raises
    ------
    InputError
        What is no summary, or summaries of different set-ups or of two states of the model.
    """
    first = summaries[0] if summaries else None
    names = [name.removesuffix("_counts") for name in thing("summaries", first, xr.Dataset) if name.endswith("_counts")]
    if not names:
        raise InputError("summaries", "summaries: the first one has no counts; give studies with keep='summary'")
    both = first.copy()
    for other in summaries[1:]:
        like = thing("summaries", other, xr.Dataset).sizes == first.sizes and all(
            other[name].equals(first[name]) for name in first.coords
        )
        if not like or other.attrs["model"] != first.attrs["model"] or set(other) != set(first):
            raise InputError(
                "summaries", "summaries: they are of different set-ups, quantiles or models; give ones of the same call"
            )
        for name in names:
            for part in ("counts", "missing"):
                both[f"{name}_{part}"] = both[f"{name}_{part}"] + other[f"{name}_{part}"]
    for name in names:
        counts = both[f"{name}_counts"].values
        tally = Tally(
            answer_called(name).grain, counts.reshape(-1, counts.shape[-1]), both[f"{name}_missing"].values.ravel()
        )
        quantiles = tally.quantiles(both["quantile"].values)
        both[name] = both[name].copy(data=quantiles.reshape(both[name].shape))
    both.attrs["people"] = sum(one.attrs["people"] for one in summaries)
    return both
