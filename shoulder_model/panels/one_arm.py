"""The one-arm panel: a weight held still, the forearm cut free, and both joint torques over the lift."""

from dataclasses import dataclass, replace

import ipywidgets as w
import numpy as np

from ..draw.free_body import FreeBody
from ..draw.look import BLUE, VERMILLION
from ..draw.side_views import HeldView
from ..draw.torque_curves import TorqueCurves
from ..mechanics import HeldWeight, held_weight
from ..people import ELBOW_LIMIT, SEXES, Lifter
from ..sources import fact
from ..tables import number_rows
from ..words import torque_change_words
from .band_words import among
from .bands import PEOPLE, Question, Who, people_like
from .panel import PROJECTED_HEIGHT, WRAP, Panel, Sheet, dropdown
from .saved import read_values, values_text
from .slider import slider

LOOKS = {"shoulder": (BLUE, "-", "o", "shoulder flexors"), "elbow": (VERMILLION, "--", "s", "elbow flexors")}
SIDES = {
    "shoulder": ("shoulder flexion", "shoulder extension"),
    "elbow": ("elbow flexion", "elbow extension"),
}  # words for a positive torque and for a negative one
ALL_GIVEN = "All else is given: load, angles and the muscle's arm."
ELEVATIONS = np.arange(0.0, 121.0, 5.0)  # degrees


@dataclass(frozen=True)
class HoldState:
    """One held weight and what it asks."""

    lifter: Lifter
    values: dict
    arm_weight: bool
    held: HeldWeight


class OneArmPanel(Panel):
    """Load, upper-arm elevation, elbow flexion and the flexors' moment arm."""

    counts = PEOPLE, 0
    page = Sheet(
        4.0,
        {"side": [0.005, 0.02, 0.315, 0.9], "body": [0.33, 0.02, 0.26, 0.9], "curves": [0.665, 0.145, 0.315, 0.68]},
        {"x": "upper arm from hanging, forward [°]", "y": "torque to hold still [N m]"},
    )
    projected = Sheet(
        PROJECTED_HEIGHT,
        {
            "side": [0.004, 0.013, 0.172, 0.885],
            "body": [0.184, 0.013, 0.320, 0.885],
            "curves": [0.594, 0.215, 0.386, 0.555],
        },
        {"x": "upper arm [° forward]", "y": "torque [N m]"},
    )
    phone = Sheet.phone(
        424, {"side": [1, 192, 114, 214], "body": [119, 192, 186, 214], "curves": [46, 33, 248, 122]}, projected.labels
    )

    def __init__(self, sex="men"):
        figure = self.make_figure()
        self.sex = dropdown("Lifter", SEXES, sex, 9.1)
        self.arm_weight = w.Checkbox(
            True, description="arm's own weight", indent=False, layout=w.Layout(width="11.2em")
        )
        self.sliders = {
            "elevation_deg": slider(
                "Upper arm [° forward]", 0, 0, 120, 1, stops={"hanging": 0, "straight ahead": 90}, main=True
            ),
            "load_kg": slider("Load [kg]", 5, 0, 30, 0.5),
            "elbow_flexion_deg": slider("Elbow [° bent]", 90, 0, round(float(np.degrees(ELBOW_LIMIT))), 1),
            "muscle_arm_cm": slider("Muscle arm [cm]", 4, 1.5, 8, 0.1),
        }
        main, *others = self.sliders.values()
        rows = [w.HBox([main]), w.HBox([self.sex, self.arm_weight, *others], layout=WRAP)]
        super().__init__("one-arm-panel", figure, rows)
        self.follow(self.sex, self.arm_weight, *self.sliders.values())

    def make_views(self, figure):
        """The lifter, the forearm cut free, and the curves."""
        self.side = HeldView(self.sheet.axes(figure, "side"))
        self.body = FreeBody(self.sheet.axes(figure, "body"))
        axes, labels = self.sheet.axes(figure, "curves"), self.sheet.labels
        self.curves = TorqueCurves(axes, labels["x"], ELEVATIONS[[0, -1]], labels["y"], LOOKS, digits=1, strip="tape")
        self.ghosts = (self.side, self.body, self.curves)

    def read(self):
        lifter = Lifter.average(self.sex.value)
        values = {name: control.place for name, control in self.sliders.items()}
        return HoldState(lifter, values, self.arm_weight.value, self._hold(lifter, values, values["elevation_deg"]))

    def _hold(self, lifter, values, elevation_deg, arm_weight=None):
        return held_weight(
            lifter,
            values["load_kg"],
            np.radians(elevation_deg),
            np.radians(values["elbow_flexion_deg"]),
            muscle_arm=values["muscle_arm_cm"] / 100,
            arm_weight=self.arm_weight.value if arm_weight is None else arm_weight,
        )

    def draw(self, state):
        self.side.show(state.lifter, state.held)
        self.body.show(state.held, state.values["muscle_arm_cm"] / 100)
        many = self._hold(state.lifter, state.values, ELEVATIONS)
        torque = np.stack([many.shoulder_flexion, many.elbow_flexion_torque], axis=-1)
        x_now = state.values["elevation_deg"]
        self.curves.show(ELEVATIONS, torque, many.margin, x_now, self._torques(state), state.held.margin)

    def ask(self, state):
        elevations = np.r_[ELEVATIONS, state.values["elevation_deg"]]

        def torque(who, _):
            crowd = {name: value[:, None] for name, value in vars(who.lifter).items() if np.ndim(value)}
            held = self._hold(replace(who.lifter, **crowd), state.values, elevations, state.arm_weight)
            return np.stack([held.shoulder_flexion, held.elbow_flexion_torque], axis=-1)

        key = state.lifter.sex, state.arm_weight, tuple(state.values.items())
        return Question(key, torque, Who(state.lifter), people_like({"sex": state.lifter.sex}), *self.counts)

    def draw_bands(self, state, answers):
        self.curves.show_bands(state.values["elevation_deg"], np.stack(answers.bands[0], axis=-1)[-1], None)

    def say_bands(self, state, answers, kept, its):
        who, now = among({"sex": state.lifter.sex}), self._torques(state)
        if kept is None or (kept.values, kept.lifter) == (state.values, state.lifter):
            which = int(np.argmax(np.abs(now)))
            swapped = bool(now[which] < 0)
            words = f" N m of {SIDES[list(LOOKS)[which]][int(swapped)]}"
            told = self.both_bands(who, *answers.at(-1, which), words, 1, swapped=swapped)
        else:
            which = int(np.argmax(np.abs(now - self._torques(kept))))
            same = state.lifter == kept.lifter
            ends = answers.change(its, (-1, which), (-1, which), same_people=same)
            told = self.both_bands(who, *ends, " N m", 1, change_of=SIDES[list(LOOKS)[which]][0]) if same else ""
        return f"{told} {ALL_GIVEN}".strip()

    def band_columns(self, state, answers):
        named = {}
        for end, values in answers.bands[0]._asdict().items():
            named |= {f"{sides[0]} torque people {end} [N m]": values[:-1, i] for i, sides in enumerate(SIDES.values())}
        return named

    @staticmethod
    def _torques(state):
        return np.array([state.held.shoulder_flexion, state.held.elbow_flexion_torque])

    def set_up(self, state):
        v = state.values
        return f"{v['load_kg']:g} kg in the hand, upper arm {v['elevation_deg']:.0f}° forward, elbow {v['elbow_flexion_deg']:.0f}° bent"

    def verdict(self, state):
        held = state.held
        muscle = "flexors" if held.elbow_flexion_torque >= 0 else "extensors"
        times = f", {held.tension / -held.forces[0][1]:.1f} times the load" if held.forces[0][1] else ""
        return (
            f"The shoulder holds {torque(held.shoulder_flexion)}, the elbow {torque(held.elbow_flexion_torque)}: the elbow "
            f"{muscle} pull with {held.tension:.0f} N{times}."
        )

    def small(self, state):
        held, (from_shoulder, from_elbow) = state.held, 100 * state.held.load_distance
        tape = f"load ± {100 * fact('tape_reading'):.0f} cm"
        doubt = f"{tape}, two published arm centres" if state.arm_weight else tape
        return (
            f"The load hangs {abs(from_shoulder):.0f} cm {ahead(from_shoulder)} the shoulder and {abs(from_elbow):.0f} cm "
            f"{ahead(from_elbow)} the elbow; the muscle's moment arm is {state.values['muscle_arm_cm']:.1f} cm; the joint takes "
            f"{np.linalg.norm(held.joint_force):.0f} N. Accurate to about ± {held.margin.max():.1f} N m ({doubt})."
        )

    def brief(self, state):
        return f"Accurate to about ± {state.held.margin.max():.1f} N m."

    def compare(self, state, kept):
        force, was = round(float(state.held.tension)), round(float(kept.held.tension))
        torques = torque_change_words(self._torques(state), self._torques(kept), SIDES)
        pull = f"{force} N as before" if force == was else f"{force} N instead of {was}"
        return f"Against the kept one: {torques}; the elbow muscle pulls with {pull}."

    def table(self, state):
        many = self._hold(state.lifter, state.values, ELEVATIONS)
        return number_rows(
            {
                "upper arm [deg]": ELEVATIONS,
                "shoulder flexion torque [N m]": many.shoulder_flexion,
                "elbow flexion torque [N m]": many.elbow_flexion_torque,
                "elbow muscle force [N]": many.tension,
                "elbow joint force [N]": np.linalg.norm(many.joint_force, axis=-1),
            }
        )

    def setup(self, state):
        return values_text(
            self.name,
            {"sex": state.lifter.sex, "arm_weight": state.arm_weight, **state.values, "bands": self.bands.is_on},
        )

    def checked(self, content):
        limits = {name: (control.min, control.max) for name, control in self.sliders.items()}
        allowed = {"sex": SEXES, "arm_weight": bool, **limits, "bands": bool}
        values = read_values(self.name, content, allowed, ("bands",))
        self._hold(Lifter.average(values["sex"]), values, values["elevation_deg"], values["arm_weight"])
        return values

    def put(self, checked):
        values = checked
        self.sex.value, self.arm_weight.value = values["sex"], values["arm_weight"]
        for name, control in self.sliders.items():
            control.value = values[name]
        self.bands.switch.value = values.get("bands", self.bands.start)


def ahead(distance):
    """Which side of a joint the load hangs on."""
    return "in front of" if distance >= 0 else "behind"


def torque(value):
    """A flexion torque in words; negative is extension."""
    return f"{abs(value):.1f} N m of {'flexion' if value >= 0 else 'extension'}"
