"""The panel for pulls: a lifter in two views beside shoulder torque against one swept field."""

import contextlib
from dataclasses import dataclass
from functools import lru_cache

import ipywidgets as w
import numpy as np

from ..axes import AXES, movement
from ..draw.facing_views import FrontView
from ..draw.look import by_sheet, page_or_projector
from ..draw.scene import scene_of
from ..draw.side_views import SideView
from ..draw.torque_curves import TorqueCurves
from ..inputs import Allowed, InputError, choice, number
from ..mechanics import Pull, pulls, tape_law, tape_law_margin
from ..people import SEXES, Lifter
from ..repetition import rep, sweep
from ..words import (
    by_hand_words,
    caution_words,
    end_words,
    pull_words,
    set_up_change_words,
    tape_words,
    torque_change_words,
    torque_words,
)
from .panel import PROJECTED_HEIGHT, WRAP, MeasureBoxes, OptionalNumber, Panel, Sheet, dropdown
from .pull_bands import PullBands
from .saved import read_setup, rep_table, setup_text
from .slider import slider

UNITS = {
    "grip_ratio": 1.0,
    "touch_forward": 100.0,
    "touch_up": 100.0,
    "load_kg": 1.0,
}  # surface units in one SI unit; others are angles
TRAVELS = {"held": 0.0, "travels": 1.0}  # words for the shoulder blade -> girdle_travel
POINTS = 41  # along a rep
CURVE_POINTS = 21  # along each rep of a curve


def grip_slider(**look):
    """The hands' distance, from close handles to more than twice the shoulders; `slider` says how it may look."""
    stops = {"close": 0.3, "shoulders": 1.0, "1.5 ×": 1.5, "wide": 2.0}
    return slider("Grip [× shoulders]", 1.5, 0.3, 2.2, 0.05, stops=stops, **look)


def lean_slider(start=0, **look):
    """The trunk's lean, from bent over to lying back; `slider` says how it may look."""
    stops = {"bent over": -60, "upright": 0} | page_or_projector({"30° back": 30}, {}) | {"lying back": 60}
    return slider("Trunk lean [° back]", start, -90, 90, 1, stops=stops, **look)


@lru_cache(maxsize=16)
def rep_of(lifter, pull, **options):
    """`rep`, kept for a while: a slider along the rep asks for the same one again."""
    return rep(lifter, pull, **options)


@lru_cache(maxsize=16)
def _curves(lifter, pull, field, values, quantity, components, arm_weight):
    """A torque all along the rep over a swept field, (x, point, component), kept for a while; NaN out of reach. [N m]"""

    def torque(some):
        shown = {"points": CURVE_POINTS, "arm_weight": arm_weight, "muscles": False}
        return sweep(lifter, pull, **shown, **{field: some})[quantity].values

    try:
        return torque(values)
    except InputError:
        within_reach = np.full((len(values), CURVE_POINTS, components), np.nan)
        for i in range(len(values)):
            with contextlib.suppress(InputError):
                within_reach[i] = torque(values[i : i + 1])[0]
        return within_reach


@dataclass(frozen=True)
class PullState:
    """One set-up with its rep and the values at the chosen point of it."""

    measures: dict
    lifter: Lifter
    pull: Pull
    along: float
    arm_weight: bool
    rep: object
    torque: np.ndarray
    margin: np.ndarray

    @property
    def point(self):
        """Index along the rep."""
        return round(self.along * (POINTS - 1))

    @property
    def tape(self):
        """Pull on one hand [N], w and a where the shoulder stands [m], pull angle [rad]."""
        w, a = (float(length.values[self.point]) for length in (self.rep.hand_offset, self.rep.line_offset))
        return float(self.rep.force), w, a, self.pull.pull_angle

    @property
    def load_torque(self):
        """The load's part of the shoulder's torque (3,), or None where it is all of it. [N m]"""
        return tape_law(*self.tape) if self.arm_weight else None


class PullPanel(PullBands, Panel):
    """Pull, load, lifter, rep position, arm weight, shoulder blade; a panel of its own adds sliders for fields of `Pull`.

    It names itself, the swept ``field``, the curves' ``x_label`` (``x_brief`` for a projector) and ``x_values``, and the pull to
    ``start`` with, and may have these hooks beside those of `Panel`:

    - ``field_sliders()``: sliders by field of `Pull`, in surface units
    - ``make_controls(pull, sex, measured)``, ``control_rows()``, ``folded_rows()``: more controls, and how they stand
    - ``make_views(figure)``, ``move_views(state)``: another picture beside the curves
    - ``margin(force, pull_angle)``: how sure the curves' quantity is
    - ``put_pull(pull)``, ``pull_of_controls()``: a pull into the controls, and back
    - ``rep_options(lifter, pull)``: options of `rep`
    - ``view_of(state)``, ``saved_options(lifter, view)``, ``put_view(view)``: what else a saved set-up holds

    Parameters
    ----------
    pull : str, optional
        Name in the catalogue to start with.
    sex : "men" or "women"
    **measured : float
        ``stature``, ``mass``, ``biacromial`` of the lifter, as far as measured. [m], [kg]
    """

    name = field = x_label = x_brief = start = ""
    x_values = np.empty(0)  # in surface units
    per_si = 1.0  # surface units of the swept field

    quantity = "shoulder_torque"  # variable of the rep that the curves show
    sides = tuple((movement(axis, 1), movement(axis, -1)) for axis in AXES)  # its components, above and below zero
    shows_muscles = False  # whether the picture needs the muscles of the rep
    shows_work = False  # whether it needs who does the work
    arm_weighs = False  # at first; without it the torque is the load's alone, as by hand
    blade_start = "held"  # where the blade is at first; it stays so when another pull is chosen
    page = Sheet(
        4.0,
        {
            "front": [0.003, 0.01, 0.215, 0.93],
            "side": [0.222, 0.01, 0.28, 0.93],
            "curves": [0.572, 0.145, 0.413, 0.62],
        },
        {"y": "shoulder torque, one side [N m]"},
    )
    projected = Sheet(
        PROJECTED_HEIGHT,
        {
            "front": [0.004, 0.013, 0.194, 0.885],
            "side": [0.206, 0.013, 0.302, 0.885],
            "curves": [0.599, 0.215, 0.389, 0.475],
        },
        {"y": "torque [N m]"},
    )
    phone = Sheet.phone(
        424,
        {"front": [1, 204, 116, 202], "side": [122, 204, 183, 202], "curves": [46, 33, 248, 122]},
        {"y": "torque [N m]"},
    )

    def __init__(self, pull=None, sex="men", **measured):
        figure = self.make_figure()
        self.base = pulls[self.start if pull is None else pull]
        self.make_controls(self.base.name, sex, measured)
        rows, folded = self.control_rows(), self.folded_rows()
        boxes = [w.HBox(row, layout=WRAP if len(row) > 1 else w.Layout(width="100%")) for row in rows]
        hidden = {words: [w.HBox(row, layout=WRAP) for row in some] for words, some in folded.items()}
        super().__init__(self.name, figure, boxes, hidden)
        self.put_pull(self.base)
        self.pull_choice.observe(self._new_pull, "value")
        self.follow(*(control for some in (rows, *folded.values()) for row in some for control in row))

    def control_rows(self):
        """Controls in sight, row by row: choices, the main slider, the other sliders."""
        main, *others = self.sliders.values()
        return [[self.pull_choice, self.load, self.blade, self.arm_weight], [main], [*others, self.along]]

    def folded_rows(self):
        """Controls that are hidden at first, by what their button says."""
        return {"Lifter": [[self.sex, *self.measures.values()]]}

    def make_views(self, figure):
        """Axes and artists of the picture; sets ``ghosts`` and ``curves``."""
        self.front = FrontView(self.sheet.axes(figure, "front"))
        self.side = SideView(self.sheet.axes(figure, "side"))
        self.curves = self.make_curves(figure)
        self.ghosts = (self.front, self.side, self.curves)

    def make_curves(self, figure, **look):
        """The curves over the swept field; `TorqueCurves` says how they may ``look``."""
        axes, x = self.sheet.axes(figure, "curves"), by_sheet(self.x_label, *[self.x_brief or self.x_label] * 2)
        return TorqueCurves(axes, x, self.x_values[[0, -1]], self.sheet.labels["y"], strip="tape", **look)

    def move_views(self, state):
        """Take everything but the curves to ``state``."""
        scene = scene_of(state.lifter, state.pull, state.rep, state.point)
        self.front.show(scene)
        self.side.show(scene)

    @staticmethod
    def margin(force, pull_angle):
        """How far tape and joint centre let the torques of a ``force`` [N] at a ``pull_angle`` [rad] move, (..., component). [N m]"""
        return tape_law_margin(force, pull_angle)

    def make_controls(self, pull, sex, measured):
        """The controls, at a pull's name, a sex and what was measured."""
        self.pull_choice = dropdown("Pull", pulls, pull, 15.8)
        self.load = OptionalNumber("Load [kg]", "load_kg", "9.9em")
        self.sex = dropdown("Lifter", SEXES, sex, 9.1)
        self.measures = MeasureBoxes(measured)
        self.along = slider("Along the rep [%]", 50, 0, 100, 5)
        self.arm_weight = w.Checkbox(
            self.arm_weighs, description="arm's own weight", indent=False, layout=w.Layout(width="11.2em")
        )
        self.blade = dropdown("Shoulder blade", TRAVELS, self.blade_start, 14.5)
        self.sliders = self.field_sliders()

    def _new_pull(self, change):
        """Another pull of the catalogue brings its own defaults."""
        if not self.is_quiet:
            self.base = pulls[change["new"]]
            self.put_pull(self.base)

    def put_pull(self, pull):
        """Controls at the values of ``pull``."""
        with self.quiet():
            self.load.put(pull.load_kg)
            self.load.placeholder = "own body" if pull.load_from == "body" else f"{pulls[pull.name].load_kg:g}"
            for field, control in self.sliders.items():
                control.value = round(self._shown(field, pull) / control.step) * control.step
                control.start = control.value

    def _shown(self, field, pull, sex=None):
        """A field in surface units; one that is left to the body is that of the survey's mean lifter of this ``sex``."""
        value = getattr(pull, field)
        if value is None:
            lifter = Lifter.average(sex or self.sex.value)
            forward, up = pull.touch_point(lifter)
            value = {"touch_forward": forward, "touch_up": up, "load_kg": pull.mass_on_bar(lifter)}[field]
        return value * UNITS.get(field, np.degrees(1.0))

    def pull_of_controls(self):
        """The base pull with the controls' values; a slider left where the base has it changes nothing."""
        load = self.load.number
        fields = {"load_kg": pulls[self.base.name].load_kg if load is None else load}
        fields["girdle_travel"] = TRAVELS[self.blade.value]
        for field, control in self.sliders.items():
            if abs(control.place - self._shown(field, self.base)) > 0.51 * control.step:
                fields[field] = control.place / UNITS.get(field, np.degrees(1.0))
        return self.base.change(**fields)

    def read(self):
        measures, lifter = self.measures.read(self.sex.value)
        pull = self.pull_of_controls()
        if "grip_ratio" in self.sliders:
            self.sliders["grip_ratio"].also = [100 * lifter.biacromial, "cm apart"]
        result = self._rep(lifter, pull, self.arm_weight.value, self.rep_options(lifter, pull))
        along = self.along.place / 100
        torque = result[self.quantity].values[round(along * (POINTS - 1))]
        margin = self.margin(float(result.force), pull.pull_angle)
        measures = {"sex": self.sex.value, **measures}
        return PullState(measures, lifter, pull, along, self.arm_weight.value, result, torque, margin)

    def _rep(self, lifter, pull, arm_weight, options):
        """The rep that the panel shows."""
        shown = {"points": POINTS, "muscles": self.shows_muscles, "work": self.shows_work}
        return rep_of(lifter, pull, arm_weight=arm_weight, **shown, **options)

    def rep_options(self, lifter, pull):
        """Options of `rep` beyond those of every panel."""
        return {}

    def draw(self, state):
        self.move_views(state)
        x = self.x_values
        torque = self._curve(state)
        swept = state.pull.change(**{self.field: x / self.per_si})
        margin = np.broadcast_to(self.margin(float(state.rep.force), swept.pull_angle), torque.shape)
        x_now = getattr(state.pull, self.field) * self.per_si
        self.curves.show(x, torque, margin, x_now, state.torque, state.margin)

    def _curve(self, state):
        """The curves' torque at this point of the rep over the swept field, (x, component); NaN out of reach."""
        values = tuple(self.x_values / self.per_si)
        pull = state.pull.change(**{self.field: values[0]})  # where the swept field stands now changes nothing
        shown = self.quantity, len(state.torque), state.arm_weight
        along = _curves(state.lifter, pull, self.field, values, *shown)
        return along[:, round(state.along * (CURVE_POINTS - 1))]

    def set_up(self, state):
        return f"{pull_words(state.lifter, state.pull).capitalize()}, {100 * state.along:.0f} % of the way"

    def verdict(self, state):
        load = None if self.on_projector else state.load_torque
        return f"Each shoulder must supply {torque_words(state.torque, load)}."

    def small(self, state):
        lines = [
            f"By hand: {by_hand_words(*state.tape)}.",
            f"Accurate to about ± {state.margin.max():.0f} N m ({tape_words()}).",
            end_words(state.rep),
            caution_words(state.pull),
        ]
        return " ".join(line for line in lines if line)

    def brief(self, state):
        return " ".join(line for line in (self.accuracy(state), caution_words(state.pull)) if line)

    @staticmethod
    def accuracy(state):
        """How sure the torques are, in a few words."""
        return f"Accurate to about ± {state.margin.max():.0f} N m."

    def compare(self, state, kept):
        change = self.change_words(state, kept)
        return f"{change}: {torque_change_words(state.torque, kept.torque)}." if change else self.verdict(state)

    @staticmethod
    def change_words(state, kept):
        """What is different from the kept set-up, in a few words that begin a sentence; empty where nothing is."""
        later = round(100 * (state.along - kept.along))
        parts = [
            "another lifter" if state.lifter != kept.lifter else "",
            set_up_change_words(state.lifter, state.pull, kept.pull),
            f"{abs(later)} % {'later' if later > 0 else 'earlier'} in the rep" if later else "",
            f"{'with' if state.arm_weight else 'without'} the arm's own weight"
            if state.arm_weight != kept.arm_weight
            else "",
        ]
        said = ", ".join(part for part in parts if part)
        return f"{said[0].upper()}{said[1:]}" if said else ""

    def table(self, state):
        return rep_table(rep(state.lifter, state.pull, points=POINTS, arm_weight=state.arm_weight, work=False))

    def setup(self, state):
        view = {"along": state.along, "arm_weight": state.arm_weight, "bands": self.bands.is_on} | self.view_of(state)
        return setup_text(state.measures, state.pull, view)

    def view_of(self, state):
        """What else the set-up keeps of this panel, by names of `saved.VIEW`; `put_view` brings it back."""
        return {}

    def saved_options(self, lifter, view):
        """What `rep_options` will be with a saved ``view`` (dict) in the controls; raises `InputError`."""
        return {}

    def put_view(self, view):
        """Controls to a checked view."""

    def checked(self, content):
        measures, pull, view = read_setup(content)
        for name in set(measures) - {"sex"}:
            choice("measure", name, tuple(self.measures))
        lifter = Lifter.from_measures(**measures)
        for field, control in self.sliders.items():
            ends = Allowed(control.min, control.max, "", "this panel's slider ends there")
            number(field, self._shown(field, pull, measures["sex"]), ends)
        _blade_of(pull)
        view = {"along": 0.5, "arm_weight": True} | view
        self._rep(lifter, pull, view["arm_weight"], self.saved_options(lifter, view))
        return measures, pull, view

    def put(self, checked):
        measures, pull, view = checked
        self.sex.value = measures["sex"]
        self.measures.put({name: value for name, value in measures.items() if name != "sex"})
        self.pull_choice.value = pull.name
        self.base = pull
        self.put_pull(pull)
        self.blade.value = _blade_of(pull)
        self.along.value = round(100 * view["along"], 9)
        self.arm_weight.value = view["arm_weight"]
        self.bands.switch.value = view.get("bands", self.bands.start)
        self.put_view(view)


def _blade_of(pull):
    """The word for a pull's travelling shoulder blade; a travel that the drop-down does not have is refused."""
    for words, travel in TRAVELS.items():
        if pull.girdle_travel == travel:
            return words
    raise InputError(
        "girdle_travel",
        f"girdle_travel = {pull.girdle_travel:g} is neither 0 nor 1: a panel holds the shoulder blade (0) or lets it travel "
        "as usual (1)",
    )
