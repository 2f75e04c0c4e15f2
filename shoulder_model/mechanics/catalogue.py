"""The catalogue of pulls: what a gym calls them, and how each is set up.

All set-ups are common practice, no source; shares of body mass stand in ``data/facts.csv``. A pull of your own is
one entry here, or `Pull.change` of one.
"""

from collections.abc import Mapping

import numpy as np

from ..inputs import choice
from ..sources import fact
from .pull import Pull


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


UP, AHEAD, DOWN = 0.0, np.pi / 2, np.pi


def _deg(degrees):
    return float(np.radians(degrees))


pulls = Catalogue(
    [
        Pull("front pulldown", UP, "upper chest", grip_ratio=1.5, trunk_lean=_deg(15)),
        Pull("behind-the-neck pulldown", UP, "behind the neck", grip_ratio=1.7),
        Pull(
            "close-grip pulldown",
            UP,
            "upper chest",
            grip_ratio=0.3,
            trunk_lean=_deg(20),
            hand_turn="neutral",
        ),
        Pull(
            "straight-arm pulldown",
            _deg(20),
            "thigh",
            trunk_lean=_deg(-20),
            load_kg=20.0,
            path="arc",
            held_elbow_flexion=_deg(15),
        ),
        Pull(
            "pull-up",
            UP,
            "under the chin",
            grip_ratio=1.5,
            trunk_lean=_deg(10),
            load_from="body",
            load_kg=None,
        ),
        Pull(
            "chin-up",
            UP,
            "under the chin",
            trunk_lean=_deg(10),
            hand_turn="supinated",
            load_from="body",
            load_kg=None,
        ),
        Pull("seated row close", AHEAD, "lower ribs", grip_ratio=0.3, hand_turn="neutral"),
        Pull("seated row wide", AHEAD, "mid chest", grip_ratio=1.8),
        Pull(
            "chest-supported row",
            DOWN,
            "lower ribs",
            grip_ratio=1.3,
            trunk_lean=_deg(-45),
            hand_turn="neutral",
            hold="handles",
            load_from="weight",
        ),
        Pull("bent-over row", DOWN, "lower ribs", grip_ratio=1.3, trunk_lean=_deg(-60), load_from="weight"),
        Pull(
            "inverted row",
            UP,
            "lower chest",
            grip_ratio=1.5,
            trunk_lean=_deg(60),
            load_from="body",
            load_kg=None,
            body_share=fact("inverted_row_body_share"),
        ),
        Pull(
            "one-arm row",
            DOWN,
            "lower ribs",
            trunk_lean=_deg(-75),
            hand_turn="neutral",
            hold="handles",
            load_from="weight",
            load_kg=20.0,
            hands=1,
        ),
    ]
)
