"""A study's file: a Zarr folder that holds what was worked out so far, so that a study goes on where it stopped.

Blocks are kept in their order. A number says how many are in the file; it is written after what it counts, so a block that a
power cut tore is worked out again. Counts of a summary are written to two places by turns, each with its own number: the
place that was being written when the power went is older than the other, and is not used.
"""

import json
from dataclasses import asdict
from pathlib import Path

import numpy as np
import xarray as xr

from ..inputs import InputError
from ..people import Crowd
from .fingerprint import fingerprint

VERSION = 1
COMPLETE = "complete"  # array: how many blocks are in the file
PLACES = ("counts_a", "counts_b")


def zarr():
    """The library for the file; `InputError` in words that say how to get it."""
    try:
        import zarr
    except ImportError:
        raise InputError("file", "file needs zarr; install it with: pip install 'shoulder-model[study]'") from None
    return zarr


def described(plan, keep):
    """Everything that decides a study's numbers, as a dict of plain values; ``plan`` a `plan.Plan`, ``keep`` "arrays" or "summary"."""
    crowd = plan.crowd
    people = (
        asdict(crowd)
        if isinstance(crowd, Crowd)
        else {name: np.asarray(value).tolist() for name, value in vars(crowd).items()}
    )
    return json.loads(json.dumps({
        "version": VERSION, "model": fingerprint(), "keep": keep, "people": people, "pulls": [asdict(pull) for pull in plan.pulls],
        "fields": plan.fields, "answers": plan.answers, "draws": plan.draws, "seed": plan.seed, "strength": plan.strength,
        "anchored": plan.anchored, "options": plan.options,
    }))  # fmt: skip


class StudyFile:
    """The file of one study.

    Parameters
    ----------
    path : path-like
        A folder of this name is made, or opened if it is one of this very study.
    plan : Plan
    keep : "arrays" or "summary"
    shapes : dict
        Answer -> shape of the whole array, or of all counts, in whole numbers.
    chunks : dict
        Answer -> shape of what one block writes.
    dims : dict
        Answer -> names of its dims, so that xarray opens the file too.

    Raises
    ------
    InputError
        The folder holds something else, or a study that differs; says in what.
    """

    def __init__(self, path, plan, keep, shapes, chunks, dims):
        self.path, self.keep = Path(path), keep
        wanted = described(plan, keep)
        if self.path.exists() and any(self.path.iterdir() if self.path.is_dir() else [self.path]):
            self.group = self._opened(wanted)
        else:
            self.group = self._made(wanted, plan, shapes, chunks, dims)
        self.rows = int(self.group.attrs["rows"])

    def _opened(self, wanted):
        try:
            group = zarr().open_group(str(self.path), mode="r+")
            there = dict(group.attrs["study"])
        except InputError:
            raise
        except Exception:
            raise InputError(
                "file", f"file: {self.path.name} holds something else than a study; give another name"
            ) from None
        for name, value in wanted.items():
            if there.get(name) != value:
                of_model = "the model has changed since" if name == "model" else f"it has other {name}"
                raise InputError("file", f"file: {self.path.name} is of another study, {of_model}; give another name")
        return group

    def _made(self, wanted, plan, shapes, chunks, dims):
        group = zarr().open_group(str(self.path), mode="w")
        for name, shape in shapes.items():
            of_counts = self.keep == "summary"
            for place in PLACES if of_counts else ("",):
                made = {"shape": shape, "chunks": chunks[name], "dtype": "i8" if of_counts else "f8"}
                made["dimension_names"] = dims[name]
                group.create_array(f"{place}/{name}" if place else name, fill_value=0 if of_counts else np.nan, **made)
        for place in PLACES if self.keep == "summary" else ("",):
            group.create_array(
                f"{place}/{COMPLETE}" if place else COMPLETE,
                shape=(1,),
                dtype="i8",
                fill_value=0,
                dimension_names=("of",),
            )
        for name, values in plan.fields:
            made = group.create_array(name, shape=(len(values),), dtype="f8", dimension_names=(name,))
            made[:] = np.array(values)
        group.attrs["rows"] = plan.rows
        group.attrs["study"] = wanted  # last: a folder without it is not opened
        return group

    def opened(self):
        """The file as a `xarray.Dataset` that reads what somebody looks at; units as the study's."""
        return xr.open_zarr(self.path, chunks=None, consolidated=False)

    @property
    def complete(self):
        """How many blocks are in the file, a whole number."""
        return max(self._number(place) for place in (PLACES if self.keep == "summary" else ("",)))

    def _number(self, place):
        return int(self.group[f"{place}/{COMPLETE}" if place else COMPLETE][0])

    def put(self, name, where, values):
        """Write a block's ``values`` of the answer ``name`` (text), in its unit, at the index ``where``."""
        self.group[name][where] = values

    def count_blocks(self, number):
        """Say that ``number`` blocks, a whole number, are in the file."""
        self.group[COMPLETE][0] = number

    def read_counts(self, name):
        """The counts of the answer ``name`` (text) as they were last kept, whole numbers."""
        return self.group[f"{self._newest()}/{name}"][:]

    def _newest(self):
        return max(PLACES, key=self._number)

    def keep_counts(self, counts, number):
        """Write ``counts`` (dict of name -> array) of the first ``number`` blocks, whole numbers, beside the older ones."""
        place = min(PLACES, key=self._number)
        self.group[f"{place}/{COMPLETE}"][0] = 0
        for name, array in counts.items():
            self.group[f"{place}/{name}"][:] = array
        self.group[f"{place}/{COMPLETE}"][0] = number
