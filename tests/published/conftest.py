"""Every check against the outside leaves a row: what is printed and what the model gives, as the test itself has them."""

import json
import os
from pathlib import Path

import numpy as np
import pytest

from shoulder_model.register import HEADS, outside_checks

from . import beside

HOME = Path(__file__).parent
WRITE = "SHOULDER_MODEL_OUTSIDE_CHECKS"  # the file that rows are added to; else they are held against the stored table
SAME = 0.01  # a stored number may be so much off, as a share: other computers round otherwise
STALE = "the stored table of outside checks is stale: run python -m shoulder_model.recipes.outside_checks"
ROWS = pytest.StashKey[list]()


def shown(value):
    """A number, several, or words as the table has them."""
    if isinstance(value, str):
        return value
    if np.ndim(value):
        return " / ".join(shown(one) for one in value)
    return f"{float(value):.4g}".replace("-", "−")


def off(printed, model):
    """How far the model, one number or a span, lies from the printed number, as a share of it; "" where that has no sense."""
    if isinstance(printed, str) or isinstance(model, str) or np.ndim(printed) or not printed:
        return ""
    low, high = np.min(model), np.max(model)
    return f"{max(low - printed, printed - high, 0.0) / abs(printed):.2f}"


class Outside:
    """Collects the rows of one test."""

    def __init__(self, item):
        self.item, self.rows = item, []

    def __call__(self, printed, model, unit="", *, spread="", what="", source="", holds=None):
        """One pair: the ``printed`` number (or words) with its spread, and what the model gives; ``what`` of several it is."""
        name = self.item.originalname
        words = name.removeprefix("test_").replace("_", " ")
        case = getattr(self.item, "callspec", None)
        said = " ".join([words, *([f"[{case.id}]"] if case else []), *([f"({what})"] if what else [])])
        found = source or "; ".join(one.replace("II (", "II, ") for one in beside.sources(self.item.path, name))
        topic = self.item.path.stem.removeprefix("test_").replace("_", " ")
        found = found or "cannot be located" * (holds is not None)
        row = (
            topic,
            said,
            shown(printed),
            f"± {shown(spread)}" if spread else "",
            unit,
            shown(model),
            off(printed, model),
            found,
        )
        self.rows.append([row, holds])

    def undecided(self, printed, model, unit="", *, holds, **more):
        """The same of a printed number that is from memory or cannot be located: shown, and counted for nothing."""
        self(printed, model, unit, holds=bool(holds), **more)


@pytest.fixture
def outside(request):
    """See `Outside`."""
    found = Outside(request.node)
    request.node.stash[ROWS] = found.rows
    return found


def is_check(item):
    """Whether a test holds the model against the outside."""
    marks = {mark.name for mark in item.iter_markers()}
    return "published" in marks and "identity" not in marks


def finished(item, missed, why):
    """The rows of a test as the table has them."""
    rows = []
    for (*row, distance, source), holds in item.stash.get(ROWS, []):
        good = not missed if holds is None else holds
        counts = "yes" if holds is None else "no"
        rows.append(
            [*row, "holds" if good else "misses", "" if good else distance, counts, source, why if missed else ""]
        )
    return rows


@pytest.hookimpl(wrapper=True, tryfirst=True)
def pytest_runtest_makereport(item, call):
    """Write the rows of a finished check, or hold them against the stored ones."""
    report = yield
    if call.when != "call" or HOME not in item.path.parents or report.outcome == "failed" or not is_check(item):
        return report
    missed = hasattr(report, "wasxfail")
    rows = finished(item, missed, getattr(report, "wasxfail", ""))
    trouble = "" if rows else f"{item.name} leaves no row: call outside(printed, model)"
    if not all(row[HEADS.index("source")] for row in rows):
        trouble = f"{item.name} names no source beside it"
    if os.environ.get(WRITE):
        with open(os.environ[WRITE], "a", encoding="utf-8") as file:
            file.writelines(f"{json.dumps(row)}\n" for row in rows)
    else:
        trouble = trouble or stale(rows)
    if trouble:
        report.outcome, report.longrepr = "failed", trouble
        if missed:
            del report.wasxfail
    return report


def stale(rows):
    """What differs from the stored table, in words, or nothing."""
    stored = {tuple(row[:2]): row for row in outside_checks_as_lists()}
    for row in rows:
        there = stored.get(tuple(row[:2]))
        if there is None or not all(same(*pair) for pair in zip(row, there, strict=True)):
            return f"{STALE}\n{dict(zip(HEADS, row, strict=True))}\nstored: {there}"
    return ""


def outside_checks_as_lists():
    """The stored table, row by row."""
    return [[getattr(row, head) for head in HEADS] for row in outside_checks()]


def same(one, other):
    """Whether two cells are the same, numbers nearly."""
    if one == other:
        return True
    pairs = list(zip(one.split(" "), other.split(" "), strict=False))
    if len(one.split(" ")) != len(other.split(" ")):
        return False
    for mine, theirs in pairs:
        try:
            a, b = (float(part.replace("−", "-")) for part in (mine, theirs))
        except ValueError:
            if mine != theirs:
                return False
            continue
        if abs(a - b) > SAME * max(abs(a), abs(b)) + 0.011:
            return False
    return True
