"""The girdle panel: what a pull asks of the shoulder blade, and who could supply it."""

import numpy as np

from ..draw.lifter_views import FrontView
from ..draw.look import GIRDLE_LOOK
from ..draw.scene import scene_of
from ..draw.supply_bars import SupplyBars
from ..draw.torque_curves import TorqueCurves
from ..mechanics import girdle_margin
from ..muscles import girdle_muscles
from ..words import end_words, listed, pull_words, sc_tape_words, written
from .grip import GripPanel
from .pull_panel import grip_slider, lean_slider

SHOWN = (*girdle_muscles(), "latissimus dorsi middle", "pectoralis major sternal")
WORDS = {"retraction": ("hold the blade back", "hold it forward"), "depression": ("hold it down", "hold it up")}


class GirdlePanel(GripPanel):
    """Retraction and depression torque against the grip; the muscles' arms about the SC joint beside it."""

    name, quantity, shows_muscles, start = "girdle-panel", "girdle_torque", True, "seated row wide"
    margin = staticmethod(girdle_margin)

    def field_sliders(self):
        return {
            "grip_ratio": grip_slider(),
            "trunk_lean": lean_slider(),
        }

    def make_views(self, figure):
        self.front = FrontView(figure.add_axes([0.005, 0.02, 0.235, 0.9]))
        self.bars = SupplyBars(figure.add_axes([0.415, 0.145, 0.22, 0.76]), SHOWN)
        axes = figure.add_axes([0.705, 0.145, 0.285, 0.575])
        label = "girdle torque, one side [N m]"
        self.curves = TorqueCurves(axes, self.x_label, self.x_values[[0, -1]], label, GIRDLE_LOOK)
        self.ghosts = (self.front, self.bars, self.curves)

    def move_views(self, state):
        self.front.show(scene_of(state.lifter, state.pull, state.rep, state.point))
        arms = state.rep.girdle_moment_arm.isel(point=state.point).sel(muscle=list(SHOWN)).values
        self.bars.show(1000 * arms)

    def describe(self, state):
        parts = [
            f"{abs(value):.0f} N m to {WORDS[axis][int(value < 0)]}"
            for axis, value in zip(GIRDLE_LOOK, state.torque, strict=True)
        ]
        arms = state.rep.girdle_moment_arm.isel(point=state.point).sel(muscle=list(SHOWN)).values @ state.torque
        best = SHOWN[int(np.argmax(arms))]
        return (
            f"{pull_words(state.lifter, state.pull).capitalize()}, {100 * state.along:.0f} % of the way: each shoulder girdle "
            f"is asked for {listed(parts)}. The best lever for that mix has {best}. Sure to about ± {state.margin.max():.0f} N m "
            f"({sc_tape_words()}); the muscles' landmarks are from memory: signs and order only. {end_words(state.rep)}"
        )

    def compare(self, state, kept):
        change = state.torque - kept.torque
        parts = [f"{written(value, sign=True)} N m {axis}" for axis, value in zip(GIRDLE_LOOK, change, strict=True)]
        return f"Against the one you kept ({pull_words(kept.lifter, kept.pull)}): {listed(parts)}."
