"""The girdle panel: what a pull asks of the shoulder blade, where the blade goes, and who could supply it."""

from functools import lru_cache

import numpy as np

from ..draw.lifter_views import FrontView
from ..draw.look import GIRDLE_LOOK
from ..draw.scene import scene_of
from ..draw.supply_bars import SupplyBars
from ..draw.top_view import TopView
from ..draw.torque_curves import TorqueCurves
from ..mechanics import girdle_margin
from ..muscles import girdle_muscles
from ..repetition import work_done
from ..words import blade_words, end_words, listed, pull_words, sc_tape_words, written
from .grip import GripPanel
from .pull_panel import POINTS, grip_slider, lean_slider

NAMES = {  # muscle -> its bar, where its own name is long
    "latissimus dorsi middle": "lat, middle part",
    "pectoralis major sternal": "pec major, sternal",
}
SHOWN = (*girdle_muscles(), *NAMES)
WORDS = {"retraction": ("hold the blade back", "hold it forward"), "depression": ("hold it down", "hold it up")}
ANY_LOAD = 10.0  # kg; the bar's way does not hang on it


@lru_cache(maxsize=64)
def _ways(lifter, pull):
    """How far the travelling blade carries the bar in a rep, and its whole way. [m]"""
    way = work_done(lifter, pull.change(load_kg=ANY_LOAD), points=POINTS, muscles=False, work=False).way
    return float(way.sel(joint="girdle")), float(way.sum())


class GirdlePanel(GripPanel):
    """Retraction and depression torque against the grip; the muscles' arms about the SC joint beside it."""

    name, quantity, shows_muscles, start = "girdle-panel", "girdle_torque", True, "seated row wide"
    blade_start = "travels"
    margin = staticmethod(girdle_margin)

    def field_sliders(self):
        return {
            "grip_ratio": grip_slider(),
            "trunk_lean": lean_slider(),
        }

    def make_views(self, figure):
        self.front = FrontView(figure.add_axes([0.003, 0.02, 0.205, 0.9]))
        self.top = TopView(figure.add_axes([0.213, 0.02, 0.205, 0.9]))
        names = [NAMES.get(name, name) for name in SHOWN]
        self.bars = SupplyBars(figure.add_axes([0.548, 0.145, 0.135, 0.76]), names)
        axes = figure.add_axes([0.752, 0.145, 0.238, 0.575])
        label = "girdle torque, one side [N m]"
        self.curves = TorqueCurves(axes, "grip ratio", self.x_values[[0, -1]], label, GIRDLE_LOOK)
        self.ghosts = (self.front, self.top, self.bars, self.curves)

    def move_views(self, state):
        scene = scene_of(state.lifter, state.pull, state.rep, state.point)
        self.front.show(scene)
        self.top.show(scene)
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
            f"needs {listed(parts)}; {best} has the best lever for this combination. {self._blade(state)} "
            f"Accurate to about ± {state.margin.max():.0f} N m ({sc_tape_words()}); the muscles' landmarks are from memory: "
            f"signs and order only. {end_words(state.rep)}"
        )

    @staticmethod
    def _blade(state):
        """Where the blade stands, and how far it carries the bar."""
        if not state.pull.girdle_travel:
            return "The shoulder blade is held at rest: it carries the bar nowhere."
        carried, whole = _ways(state.lifter, state.pull)
        place = blade_words(state.rep.gh_centre.values[state.point])
        way = f"{100 * carried:.0f} of its {100 * whole:.0f} cm"
        return f"The shoulder stands {place}; over the rep the blade carries the bar {way}."

    def compare(self, state, kept):
        change = state.torque - kept.torque
        parts = [f"{written(value, sign=True)} N m {axis}" for axis, value in zip(GIRDLE_LOOK, change, strict=True)]
        return f"Against the one you kept ({pull_words(kept.lifter, kept.pull)}): {listed(parts)}."
