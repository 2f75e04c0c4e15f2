"""The catalogue of pulls: what a gym calls them, and how each is set up.

It stands in ``data/pulls.csv``: common practice, no source; where the shoulder blade goes stands in
``data/girdle_travel.csv``, by kind of pull, with its sources. A pull of your own is one row there, or `Pull.change` of one.
"""

from collections.abc import Mapping

import numpy as np

from ..inputs import choice
from ..sources import fact
from ..tables import read_table
from .pull import Pull

GIRDLE_ANGLES = ("reach_retraction", "reach_elevation", "end_retraction", "end_elevation")
TRAVEL = {row["girdle"]: row for row in read_table("girdle_travel.csv")}


class Catalogue(Mapping):
    """Pulls by name; an unknown name raises a `ValueError` with the nearest ones."""

    def __init__(self, entries):
        self._entries = {pull.name: pull for pull in entries}

    def __getitem__(self, name):
        return self._entries[choice("pull", name, tuple(self._entries))]

    def __iter__(self):
        return iter(self._entries)

    def __len__(self):
        return len(self._entries)


def _pull(row):
    """One row of the table, texts, as a `Pull`."""
    angles = ("room_angle", "trunk_lean", "held_elbow_flexion")
    texts = ("name", "touch", "hand_turn", "hold", "load_from", "path")
    travel = TRAVEL[row["girdle"]]
    return Pull(
        **{name: row[name] for name in texts},
        **{name: float(np.radians(float(row[f"{name}_deg"]))) for name in angles},
        grip_ratio=float(row["grip_ratio"]),
        load_kg=float(row["load_kg"]) if row["load_kg"] else None,
        hands=int(row["hands"]),
        body_share=fact(row["body_share"]) if row["body_share"] else 1.0,
        **{name: float(np.radians(float(travel[f"{name}_deg"]))) for name in GIRDLE_ANGLES},
        girdle_lead=float(travel["girdle_lead"]),
    )


pulls = Catalogue(_pull(row) for row in read_table("pulls.csv"))
