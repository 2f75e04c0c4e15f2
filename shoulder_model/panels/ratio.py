"""The ratio panel: what a layer at each side of the shoulders, or off each side of the waist, does to their ratio."""

import contextlib
from dataclasses import dataclass

import ipywidgets as w
import numpy as np

from ..draw.outline_view import CHEST, Build, OutlineView
from ..draw.survey_spread import SurveySpread
from ..inputs import InputError, number
from ..people import SEXES, SIDES_GAIN, means, percentile, ratio_change, side_layer, survey_quantity
from ..people.silhouette import LENGTH
from ..sources import fact
from ..tables import number_rows
from ..words import written
from .panel import PROJECTED_HEIGHT, WRAP, OptionalNumber, Panel, Sheet, dropdown
from .saved import read_values, values_text
from .slider import slider

TAPES = {"shoulders": "shoulder", "chest": "chest"}  # words of the upper tape -> the survey's
NEUTRAL = "A ratio describes an outline, not health, fitness or worth."


@dataclass(frozen=True)
class RatioState:
    """Two tapes as measured and as they would be. [m]; ratios without unit, places in people of 100."""

    values: dict
    means: tuple  # the survey's, upper and waist
    tapes: tuple  # the same as measured
    layers: tuple  # on the upper tape, off the waist's
    before: float
    alone: tuple  # what the muscle alone adds to the ratio, and the waist alone
    now: float
    survey: tuple  # mean and SD of the ratio
    doubt: float  # of a reading that is off

    @property
    def new_tapes(self):
        """Both tapes with their layers. [m]"""
        return self.tapes[0] + self.layers[0], self.tapes[1] - self.layers[1]

    def place(self, ratio):
        """Of how many of 100 people a ``ratio`` is larger than theirs."""
        return percentile(ratio, *self.survey)


class RatioPanel(Panel):
    """Two tapes, muscle at each side of the upper one, tissue off each side of the waist.

    Parameters
    ----------
    sex : "men" or "women"
        Whose means stand in for a blank tape.
    tape : "shoulders" or "chest"
        The upper tape.
    """

    page = Sheet(
        4.0,
        {"outline": [0.005, 0.02, 0.495, 0.9], "spread": [0.55, 0.155, 0.43, 0.66]},
        {"x": "ratio of the two tapes, the survey's people"},
    )
    projected = Sheet(
        PROJECTED_HEIGHT,
        {"outline": [0.004, 0.013, 0.51, 0.885], "spread": [0.55, 0.235, 0.43, 0.49]},
        {"x": "ratio, the survey's people"},
    )
    phone = Sheet.phone(408, {"outline": [1, 198, 304, 192], "spread": [10, 33, 286, 116]}, page.labels)

    def __init__(self, sex="men", tape="shoulders"):
        figure = self.make_figure()
        self.sex = dropdown("Compared with", SEXES, sex, 14)
        self.tape = dropdown("Tape round", TAPES, tape, 13)
        self.boxes = {
            "upper_cm": OptionalNumber("Upper tape [cm]", "upper", "14em", 100.0),
            "waist_cm": OptionalNumber("Waist tape [cm]", "waist", "14em", 100.0),
        }
        stops = {"none": 0, "1 cm": 1, "2 cm": 2, "3 cm": 3}
        self.sliders = {
            "muscle_cm": slider("Muscle at each side [cm]", 0, 0, 4, 0.1, stops=stops, main=True),
            "off_cm": slider("Off each side of the waist [cm]", 0, 0, 4, 0.1),
        }
        main, other = self.sliders.values()
        chosen = (self.sex, self.tape, *self.boxes.values())
        super().__init__("ratio-panel", figure, [w.HBox([main]), w.HBox([*chosen, other], layout=WRAP)])
        self.follow(*chosen, *self.sliders.values())

    def make_views(self, figure):
        """The outline with both tapes, and the survey's people."""
        self.outline = OutlineView(self.sheet.axes(figure, "outline"))
        self.spread = SurveySpread(self.sheet.axes(figure, "spread"), self.sheet.labels["x"])
        self.ghosts = (self.outline, self.spread)

    def read(self):
        values = {"sex": self.sex.value, "tape": self.tape.value}
        for name, box in self.boxes.items():
            values[name] = 0.0 if box.number is None else round(100 * number(box.field, box.number, LENGTH), 9)
        return self._state(values | {name: control.place for name, control in self.sliders.items()})

    @staticmethod
    def _state(values):
        """The state of these control values; a tape of 0 is a blank one."""
        sex, part = values["sex"], TAPES[values["tape"]]
        expected = tuple(means(sex, f"{part}_circumference", "waist_circumference"))
        tapes = tuple(
            number(name, values[f"{name}_cm"] / 100, LENGTH) if values[f"{name}_cm"] else mean
            for name, mean in zip(("upper", "waist"), expected, strict=True)
        )
        on, off = (side_layer(sex, values[name] / 100) for name in ("muscle_cm", "off_cm"))
        before = tapes[0] / tapes[1]
        alone = ratio_change(*tapes, on), ratio_change(*tapes, 0.0, -off)
        survey = survey_quantity(sex, f"{part}_to_waist_circumference")
        now = before + ratio_change(*tapes, on, -off)
        doubt = ratio_change(tapes[0] + on, tapes[1] - off, 0.0, -fact("tape_reading"))
        return RatioState(values, expected, tapes, (on, off), before, alone, now, survey, doubt)

    def draw(self, state):
        v, (was, is_now) = state.values, (np.multiply(100, each) for each in (state.tapes, state.new_tapes))
        names = (f"round the {v['tape']}", "round the waist")
        read = [f"{a:.1f} cm" if a == b else f"{a:.1f} → {b:.1f} cm" for a, b in zip(was, is_now, strict=True)]
        self.outline.show(
            build_of(state), v["tape"], v["muscle_cm"] / 100, v["off_cm"] / 100, [*zip(names, read, strict=True)]
        )
        said = [f"{ratio:.2f}, above {_of_100(state, ratio)}" for ratio in (state.before, state.now)]
        self.spread.show(*state.survey, state.before, state.now, (f"measured {said[0]}", f"now {said[1]}"))

    def tell(self, state):
        """Blank boxes show the survey's means."""
        for box, mean in zip(self.boxes.values(), state.means, strict=True):
            box.placeholder = f"≈ {100 * mean:.1f}"

    def set_up(self, state):
        v, (upper, waist) = state.values, (100 * tape for tape in state.tapes)
        changes = [
            f", {v['muscle_cm']:.1f} cm of muscle at each side of the {v['tape']}" if v["muscle_cm"] else "",
            f", {v['off_cm']:.1f} cm off each side of the waist" if v["off_cm"] else "",
        ]
        return f"{v['tape'].capitalize()} {upper:.1f} cm, waist {waist:.1f} cm{''.join(changes)}"

    def verdict(self, state):
        if not any(state.layers):
            return f"The ratio is {state.before:.2f}, larger than that of {_of_100(state, state.now)} in the survey."
        parts = [
            f"{name} alone adds {more:.3f}" for name, more in zip(("the muscle", "the waist"), state.alone, strict=True)
        ]
        apart = f"; {', '.join(parts)}" if all(state.layers) else ""
        return (
            f"The ratio {state.before:.2f} becomes {state.now:.2f}, larger than that of {_of_100(state, state.now)} in the survey "
            f"(before: {state.place(state.before):.0f}){apart}."
        )

    def small(self, state):
        (upper, waist), (on, off) = (np.multiply(100, each) for each in (state.tapes, state.layers))
        above = f"({upper:.1f} + {on:.1f})" if on else f"{upper:.1f}"
        below = f"({waist:.1f} − {off:.1f})" if off else f"{waist:.1f}"
        return (
            f"By hand: {above} / {below} = {state.now:.2f}. {_sides()} A reading {100 * fact('tape_reading'):.0f} cm off changes the ratio by about "
            f"{state.doubt:.2f}. {NEUTRAL} If measuring or eating upsets you or a client, stop, "
            "and talk to a doctor or a dietitian."
        )

    def brief(self, state):
        return f"{_sides()} {NEUTRAL} If it upsets you, stop."

    def compare(self, state, kept):
        which = [f"{each.values['tape']} / waist" for each in (state, kept)]
        if which[0] != which[1]:
            return f"{which[0].capitalize()} is {state.now:.2f}; the kept one is another ratio, {which[1]}: {kept.now:.2f}."
        people = kept.values["sex"] if kept.values["sex"] != state.values["sex"] else ""
        was = f"{kept.place(kept.now):.0f} {people}".strip()
        return (
            f"The ratio is {state.now:.2f} against {kept.now:.2f} in the kept one ({written(state.now - kept.now, 3, sign=True)}), "
            f"larger than that of {_of_100(state, state.now)} against {was}."
        )

    def table(self, state):
        low, high, step = (getattr(self.sliders["muscle_cm"], name) for name in ("min", "max", "step"))
        muscle = np.arange(low, high + step / 2, step)
        states = [*_possible(self._state, (state.values | {"muscle_cm": cm} for cm in muscle))]
        muscle = np.array([each.values["muscle_cm"] for each in states])
        upper, waist = 100 * np.transpose([each.new_tapes for each in states])
        return number_rows(
            {
                "muscle at each side [mm]": 10 * muscle,
                f"{state.values['tape']} tape [cm]": upper,
                "waist tape [cm]": waist,
                "ratio": np.array([each.now for each in states]),
                "larger than of 100 in the survey": np.array([each.place(each.now) for each in states]),
            }
        )

    def setup(self, state):
        return values_text(self.name, state.values)

    def checked(self, content):
        limits = {name: (control.min, control.max) for name, control in self.sliders.items()}
        tapes = dict.fromkeys(self.boxes, (0.0, 100 * LENGTH.high))
        values = read_values(self.name, content, {"sex": SEXES, "tape": tuple(TAPES)} | tapes | limits)
        self._state(values)
        return values

    def put(self, checked):
        values = checked
        self.sex.value, self.tape.value = values["sex"], values["tape"]
        for name, box in self.boxes.items():
            box.put(values[name] / 100 or None)
        for name, control in self.sliders.items():
            control.value = values[name]


def _possible(state_of, all_values):
    """The states of ``all_values`` that the model does not refuse."""
    for values in all_values:
        with contextlib.suppress(InputError):
            yield state_of(values)


def build_of(state):
    """The survey's mean breadths, in step with the tapes of a `RatioState`, as an outline to draw."""
    shoulders, waist, stature = means(state.values["sex"], "bideltoid_breadth", "waist_breadth", "stature")
    half = {"shoulders": shoulders / 2, "chest": CHEST * shoulders / 2, "waist": waist / 2}
    for part, tape, mean in zip((state.values["tape"], "waist"), state.tapes, state.means, strict=True):
        half[part] *= tape / mean
    return Build(**half, stature=stature)


def _of_100(state, ratio):
    """ "46 in 100 men": those with a smaller ratio."""
    return f"{state.place(ratio):.0f} in 100 {state.values['sex']}"


def _sides():
    """What a layer at both sides does to a tape, from a round outline to a flat one."""
    low, high = SIDES_GAIN
    return f"1 cm at each side changes a tape by {low:.1f} cm on a round outline, up to {high:.0f} cm on a flat one."
