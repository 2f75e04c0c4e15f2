"""Panels with a grid of few states in place of the grid of a page."""

from dataclasses import replace

from shoulder_model.recorded import grids
from shoulder_model.recorded.grids import KINDS, Varied

ARM, HALVES = Varied("arm_weight", "own", 1), Varied("along", "along", 50)
SMALL = {
    "grip": (ARM, HALVES, Varied("grip_ratio", "grip", 0.6)),
    "trunk": (HALVES, Varied("trunk_lean", "lean", 60)),
    "one-arm": (ARM, Varied("muscle_arm_cm", "muscle", 3), Varied("elevation_deg", "raised", 40)),
    "lat": (Varied("muscle", "muscle", 1), Varied("elevation_deg", "raised", 75)),
    "girdle": (Varied("blade", "blade", 1), HALVES, Varied("grip_ratio", "grip", 0.9)),
    "work": (Varied("turn", "hand", 1), HALVES, Varied("grip_ratio", "grip", 0.9)),
}  # fmt: skip


def small_grid(monkeypatch, kind):
    """Give the ``kind`` of panel its small grid."""
    monkeypatch.setitem(grids.KINDS, kind, replace(KINDS[kind], grid=SMALL[kind]))
