"""The girdle panel: what a pull asks of the shoulder blade, where the blade goes, and who could supply it."""

import numpy as np

from ..draw.facing_views import FrontView
from ..draw.look import GIRDLE_LOOK
from ..draw.scene import scene_of
from ..draw.supply_bars import SupplyBars
from ..draw.top_view import TopView
from ..mechanics import girdle_margin
from ..muscles import girdle_muscles
from ..repetition import carried_way
from ..words import (
    LEAST_SHOWN,
    blade_words,
    caution_words,
    end_words,
    listed,
    sc_tape_words,
    torque_change_words,
)
from .grip import GripPanel
from .panel import PROJECTED_HEIGHT, Sheet
from .pull_panel import grip_slider, lean_slider

NAMES = {  # muscle -> what a coach calls it
    "trapezius upper": "upper trapezius",
    "trapezius middle": "middle trapezius",
    "trapezius lower": "lower trapezius",
    "latissimus dorsi middle": "middle lat",
    "pectoralis major sternal": "lower pec major",
}
SHOWN = (*girdle_muscles(), "latissimus dorsi middle", "pectoralis major sternal")
SIDES = {"retraction": ("back", "forward"), "depression": ("down", "up")}
WORDS_OF = {"retraction": ("retraction", "protraction"), "depression": ("depression", "elevation")}


class GirdlePanel(GripPanel):
    """Retraction and depression torque against the grip; the muscles' arms about the SC joint beside it."""

    name, quantity, shows_muscles, start = "girdle-panel", "girdle_torque", True, "seated row wide"
    sides = tuple(WORDS_OF.values())
    x_label = "grip ratio"
    arm_weighs, blade_start = True, "travels"
    page = Sheet(
        4.0,
        {
            "front": [0.003, 0.02, 0.205, 0.9],
            "top": [0.213, 0.02, 0.205, 0.9],
            "bars": [0.548, 0.145, 0.135, 0.76],
            "curves": [0.752, 0.145, 0.238, 0.575],
        },
        {"y": "girdle torque, one side [N m]"},
    )
    projected = Sheet(
        PROJECTED_HEIGHT,
        {
            "front": [0.004, 0.013, 0.218, 0.885],
            "top": [0.230, 0.013, 0.218, 0.885],
            "curves": [0.540, 0.215, 0.448, 0.565],
        },
        {"y": "torque [N m]"},
    )
    phone = Sheet.phone(
        560,
        {
            "front": [1, 364, 150, 178],
            "top": [155, 364, 150, 178],
            "bars": [112, 208, 186, 135],
            "curves": [46, 33, 248, 104],
        },
        {"y": "torque [N m]"},
    )
    margin = staticmethod(girdle_margin)

    def field_sliders(self):
        return {
            "grip_ratio": grip_slider(main=True),
            "trunk_lean": lean_slider(),
        }

    def make_views(self, figure):
        self.front = FrontView(self.sheet.axes(figure, "front"))
        self.top = TopView(self.sheet.axes(figure, "top"))
        names = [NAMES.get(name, name) for name in SHOWN]
        self.bars = SupplyBars(self.sheet.axes(figure, "bars"), names) if "bars" in self.sheet.places else None
        self.curves = self.make_curves(figure, looks=GIRDLE_LOOK)
        self.ghosts = tuple(filter(None, (self.front, self.top, self.bars, self.curves)))

    def move_views(self, state):
        scene = scene_of(state.lifter, state.pull, state.rep, state.point)
        self.front.show(scene)
        self.top.show(scene)
        if self.bars:
            self.bars.show(1000 * state.rep.girdle_moment_arm.isel(point=state.point).sel(muscle=list(SHOWN)).values)

    def verdict(self, state):
        parts = [
            f"{SIDES[axis][int(value < 0)]} with {abs(value):.0f} N m"
            for axis, value in zip(GIRDLE_LOOK, state.torque, strict=True)
            if abs(value) >= LEAST_SHOWN
        ]
        if not parts:
            return "The pull asks next to nothing of the shoulder girdle."
        arms = state.rep.girdle_moment_arm.isel(point=state.point).sel(muscle=list(SHOWN)).values @ state.torque
        best = NAMES.get(name := SHOWN[int(np.argmax(arms))], name)
        return f"Each shoulder girdle must hold the blade {listed(parts)}. The {best} has the best lever for this."

    def small(self, state):
        lines = [
            self._blade(state),
            f"Accurate to about ± {state.margin.max():.0f} N m ({sc_tape_words()}); the muscles' landmarks are from memory: "
            "signs and order only.",
            end_words(state.rep),
            caution_words(state.pull),
        ]
        return " ".join(line for line in lines if line)

    @staticmethod
    def _blade(state):
        """Where the blade stands, and how far it carries the bar."""
        if not state.pull.girdle_travel:
            return "The shoulder blade is held at rest: it carries the bar nowhere."
        carried, whole = carried_way(state.rep, state.pull)
        place = blade_words(state.rep.gh_centre.values[state.point])
        way = f"{100 * carried:.0f} of its {100 * whole:.0f} cm"
        return f"The shoulder stands {place}; over the rep the blade carries the bar {way}."

    def compare(self, state, kept):
        change = self.change_words(state, kept)
        if not change:
            return self.verdict(state)
        torque = torque_change_words(state.torque, kept.torque, WORDS_OF)
        return f"{change}: {torque}."
