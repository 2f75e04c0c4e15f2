"""What a study has so far, in memory or in its file: every answer, or counts of them."""

import time
from abc import ABC, abstractmethod
from dataclasses import replace

import numpy as np
import xarray as xr

from ..inputs import InputError, scalar
from ..repetition.rep_and_sweep import COORDS
from .answers import BEST, GRIP, answer_called
from .bands import SHARE
from .fingerprint import fingerprint
from .study_file import StudyFile
from .tally import BINS, Tally, histograms

MOST_KEPT = 4e9  # bytes of arrays or counts in memory
EVERY = 5.0  # s between two times that counts are kept in the file


class Kept(ABC):
    """What a study has so far, and where it is put; blocks come in their order."""

    def __init__(self, plan, file, shapes, chunks, dims, keep):
        self.file = None if file is None else StudyFile(file, plan, keep, shapes, chunks, dims)
        self.plan = plan if self.file is None else replace(plan, rows=self.file.rows)
        self.complete = 0 if self.file is None else self.file.complete

    @abstractmethod
    def put(self, block, answers):
        """Keep ``answers`` (dict by name) of a ``block`` where they belong."""

    @abstractmethod
    def note(self):
        """Say in the file, if there is one, how many blocks, a whole number, are complete."""

    @abstractmethod
    def variables(self):
        """The dataset's variables by name, in their units."""

    def take(self, block, answers):
        """Keep the ``answers`` (dict by name) of the next ``block``."""
        self.put(block, answers)
        self.complete += 1
        self.note()

    def dims(self, name):
        """Names of the fields' dims of the answer ``name`` (text), and of its own."""
        answer, fields = answer_called(name), [field for field, _ in self.plan.fields]
        return [field for field in fields if not (answer.over_grips and field == GRIP)], self.tails[name][0]

    def sizes(self, name):
        """Sizes of both for the answer ``name`` (text), whole numbers."""
        fields, _ = self.dims(name)
        values = dict(self.plan.fields)
        return tuple(len(values[field]) for field in fields), self.tails[name][1]

    def coords(self):
        """Coordinates of all dims, names and numbers in the units of the fields."""
        plan = self.plan
        found = {"draw": np.arange(plan.draws + 1), "pull": [pull.name for pull in plan.pulls]}
        return found | {name: list(values) for name, values in plan.fields}

    def dataset(self):
        """The answers that are complete, labelled, with their units."""
        attrs = {
            "model": fingerprint(),
            "seed": self.plan.seed,
            "strength": self.plan.strength,
            "people": self.plan.people,
        }
        made = xr.Dataset(self.variables(), self.coords(), attrs)
        here = {dim: values for dim, values in COORDS.items() if dim in made.dims}
        return made.assign_coords(here)


class Arrays(Kept):
    """Every answer."""

    def __init__(self, plan, file, quantiles):
        self.plan, self.tails = plan, _tails(plan)
        shapes = {
            name: (plan.draws + 1, len(plan.pulls), plan.people, *sum(self.sizes(name), ())) for name in plan.answers
        }
        chunks = {name: (1, 1, min(plan.rows, shape[2]), *shape[3:]) for name, shape in shapes.items()}
        dims = {name: ("draw", "pull", "lifter", *sum(map(tuple, self.dims(name)), ())) for name in plan.answers}
        super().__init__(plan, file, shapes, chunks, dims, "arrays")
        if self.file is None:
            _need_room(shapes, 8, "give file, or keep = 'summary'")
            self.values = {name: np.full(shape, np.nan) for name, shape in shapes.items()}

    def put(self, block, answers):
        """Put ``answers`` (dict by name) of a ``block`` into the arrays or the file."""
        where = block.draw, block.pull, slice(block.start, block.stop)
        for name, values in answers.items():
            if self.file:
                self.file.put(name, where, values)
            else:
                self.values[name][where] = values

    def note(self):
        """Say in the file how many blocks, a whole number, are there."""
        if self.file:
            self.file.count_blocks(self.complete)

    def close(self):
        """Nothing is left to be kept, in whole numbers of blocks."""

    def variables(self):
        """Arrays by name, in their units; those of a file are read when somebody looks at them."""
        found, there = {}, self.file.opened() if self.file else self.values
        for name in self.plan.answers:
            fields, own = self.dims(name)
            dims, values = ("draw", "pull", "lifter", *fields, *own), there[name]
            found[name] = xr.Variable(dims, getattr(values, "variable", values), {"units": answer_called(name).unit})
        return found


class Counts(Kept):
    """Counts of each answer, over all people."""

    def __init__(self, plan, file, quantiles):
        histograms()
        self.quantiles = [scalar("quantiles", share, SHARE) for share in quantiles]
        self.plan, self.tails, self.kept_at = plan, _tails(plan), time.monotonic()
        self.cells = {name: int(np.prod(sum(self.sizes(name), ()) or (1,))) for name in plan.answers}
        slabs = (plan.draws + 1) * len(plan.pulls)
        shapes = {name: (slabs * cells, BINS + 3) for name, cells in self.cells.items()}
        chunks = {name: (cells, BINS + 3) for name, cells in self.cells.items()}
        _need_room(shapes, 8, "ask fewer answers, grips or leans, or ones without points")
        super().__init__(plan, file, shapes, chunks, {name: ("cell", "bin") for name in shapes}, "summary")
        self.tallies = {name: self._tally(name, slabs * cells) for name, cells in self.cells.items()}

    def _tally(self, name, cells):
        tally = Tally.empty(cells, answer_called(name).grain)
        if self.file and self.complete:
            counts = self.file.read_counts(name)
            tally.counts, tally.missing = np.ascontiguousarray(counts[:, :-1]), counts[:, -1].copy()
        return tally

    def put(self, block, answers):
        """Count ``answers`` (dict by name) of a ``block``."""
        slab = block.draw * len(self.plan.pulls) + block.pull
        for name, values in answers.items():
            here = slice(slab * self.cells[name], (slab + 1) * self.cells[name])
            self.tallies[name].part(here).add(values.reshape(len(values), -1))

    def note(self):
        """Keep the counts, whole numbers, now and then."""
        if time.monotonic() - self.kept_at > EVERY:
            self.close()

    def close(self):
        """Keep the counts, whole numbers."""
        if self.file and self.complete > self.file.complete:
            counts = {name: np.column_stack([tally.counts, tally.missing]) for name, tally in self.tallies.items()}
            self.file.keep_counts(counts, self.complete)
        self.kept_at = time.monotonic()

    def variables(self):
        """Quantiles by name, in their units, with the counts they come from and how many people have no answer."""
        found, lead = {}, (self.plan.draws + 1, len(self.plan.pulls))
        for name, tally in self.tallies.items():
            (fields, own), (of_fields, of_own) = self.dims(name), self.sizes(name)
            dims, shape = ("draw", "pull", *fields, *own), (*lead, *of_fields, *of_own)
            unit = {"units": answer_called(name).unit}
            found[name] = ((*dims, "quantile"), tally.quantiles(self.quantiles).reshape(*shape, -1), unit)
            found[f"{name}_missing"] = (dims, tally.missing.reshape(shape))
            found[f"{name}_counts"] = ((*dims, "bin"), tally.counts.reshape(*shape, -1))
        return found

    def coords(self):
        """Coordinates of all dims, names and numbers in the units of the fields."""
        return super().coords() | {"quantile": self.quantiles}


def _need_room(shapes, each, advice):
    """Refuse to keep more than `MOST_KEPT` in memory."""
    needed = each * sum(int(np.prod(shape, dtype=float)) for shape in shapes.values())
    if needed > MOST_KEPT:
        raise InputError("answers", f"answers: they would take {needed / 1e9:.0f} GB in memory; {advice}")


def _tails(plan):
    """Dims and sizes of each answer behind people and fields, by name."""
    tails = dict(plan.tails)
    return {name: tails[name.removeprefix(BEST)] for name in plan.answers}
