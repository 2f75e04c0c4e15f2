"""The work panel: who works how hard, what gives out first, and the largest load."""

from dataclasses import dataclass, fields
from functools import lru_cache

import numpy as np

from ..axes import JOINTS
from ..draw.effort_bars import FULL, EffortBars
from ..draw.lifter_views import FrontView, SideView
from ..draw.look import BLACK
from ..draw.polygon_view import PolygonView
from ..draw.torque_curves import TorqueCurves
from ..inputs import InputError, choice, number
from ..mechanics import pulls
from ..mechanics.pull import HAND_TURNS
from ..muscles import LAT, MUSCLES, drive, expected_strength, leverage, reference_body
from ..repetition import from_repetition_maximum, torque_polygon, weakest_point
from ..repetition.balance import BALANCES
from ..repetition.repetition_maximum import REPETITIONS
from ..repetition.strength import LOAD, REFERENCE
from ..tables import columns_text
from ..words import end_words, listed, pull_words, written
from .panel import OptionalNumber, dropdown, slider
from .pull_panel import POINTS, PullPanel, PullState, grip_slider, lean_slider

SHOWN = {  # bar -> muscles
    "latissimus dorsi": LAT,
    "teres major": ("teres major",),
    "pectoralis major": ("pectoralis major clavicular", "pectoralis major sternal", "pectoralis major costal"),
    "rear deltoid": ("deltoid posterior",),
    "other deltoid": ("deltoid anterior", "deltoid middle"),
    "infraspinatus": ("infraspinatus", "teres minor"),
    "other cuff": ("subscapularis", "supraspinatus", "coracobrachialis"),
    "biceps": ("biceps brachii",),
    "brachialis": ("brachialis", "brachioradialis"),
    "triceps": ("triceps long head", "triceps short heads"),
    "trapezius, upper": ("trapezius upper",),
    "trapezius, middle": ("trapezius middle",),
    "trapezius, lower": ("trapezius lower",),
    "rhomboids": ("rhomboids",),
    "serratus, pec minor": ("serratus anterior", "pectoralis minor"),
}
HANDS = {  # words -> hold, side force
    "separate handles": ("handles", "zero"),
    "a bar, pulled straight": ("bar", "zero"),
    "a bar, grip friction helps": ("bar", "grip"),
    "a bar, any side force": ("bar", "free"),
}
LARGEST_LOOK = {"largest": (BLACK, "-", "o", "here")}
PLACES = 100 * np.linspace(0.0, 1.0, POINTS)
BEST = f"best {REFERENCE}"


@dataclass(frozen=True)
class WorkState(PullState):
    """A set-up with what the work adds: options, groups' effort (bar,), the torque polygon."""

    options: dict
    strength: object
    known: tuple
    effort: np.ndarray
    full: np.ndarray
    polygon: object

    @property
    def largest(self):
        """The largest load along the rep (point,). [kg]"""
        return self.rep.largest_load_kg.values


@lru_cache(maxsize=64)
def _known_strength(lifter, kg, repetitions):
    return from_repetition_maximum(lifter, pulls[REFERENCE], kg, repetitions)


class WorkPanel(PullPanel):
    """Load, grip, lean and place in the rep; hand turn, bar or handles, balance; a known lift, if any.

    The known lift is the front pulldown as the catalogue has it, so that changing the set-up does not change how
    strong the lifter is.
    """

    name, start = "work-panel", "front pulldown"
    shows_muscles = shows_work = True
    height = 4.5

    def make_views(self, figure):
        self.front = FrontView(figure.add_axes([0.004, 0.02, 0.2, 0.9]))
        self.side = SideView(figure.add_axes([0.208, 0.02, 0.265, 0.9]))
        self.bars = EffortBars(figure.add_axes([0.602, 0.125, 0.122, 0.8]), list(SHOWN))
        self.polygon = PolygonView(figure.add_axes([0.79, 0.6, 0.195, 0.325]))
        axes = figure.add_axes([0.79, 0.125, 0.195, 0.25])
        self.curves = TorqueCurves(axes, "along the rep [%]", (0, 100), "largest load [kg]", LARGEST_LOOK, unit="kg")
        self.ghosts = (self.front, self.side, self.bars, self.polygon, self.curves)

    def field_sliders(self):
        return {
            "load_kg": slider("Load [kg on the bar]", 40, 0, 200, 1),
            "grip_ratio": grip_slider(),
            "trunk_lean": lean_slider(),
        }

    def make_controls(self, pull, sex, measured):
        super().make_controls(pull, sex, measured)
        self.turn = dropdown("Hand", HAND_TURNS, HAND_TURNS[0], 10.5)
        self.hands = dropdown("Hands on", HANDS, next(iter(HANDS)), 18.5)
        self.balance = dropdown("Balanced", BALANCES, BALANCES[0], 11)
        self.known_kg = OptionalNumber(f"Best {REFERENCE} [kg]", BEST, "17em")
        self.known_repetitions = OptionalNumber("for repetitions", "known_repetitions", "10.5em")
        self.known_repetitions.placeholder = "1"

    def control_rows(self):
        first = [self.pull_choice, self.turn, self.hands, self.balance, self.known_kg, self.known_repetitions]
        second = [self.sex, *self.measures.values(), self.arm_weight]
        load, grip, lean = self.sliders.values()
        return [first, second, [load, self.along], [grip, lean]]

    def put_pull(self, pull):
        super().put_pull(pull)
        with self.quiet():
            self.turn.value = pull.hand_turn
            bar = pull.hold == "bar" and pull.hands == 2
            self.hands.value = "a bar, pulled straight" if bar else "separate handles"

    def pull_of_controls(self):
        hold, _ = HANDS[self.hands.value]
        pull = super().pull_of_controls().change(hand_turn=self.turn.value)
        return pull if hold == self.base.hold else pull.change(hold=hold)

    def rep_options(self, lifter, pull):
        options = {"balance": self.balance.value, "side_force": HANDS[self.hands.value][1]}
        kg, repetitions = self.known_kg.number, self.known_repetitions.number
        if kg is None:
            strength = expected_strength(lifter)
        else:
            kg = number(BEST, kg, LOAD)
            strength = _known_strength(lifter, kg, 1 if repetitions is None else repetitions)
        return options | {"strength": strength}

    def read(self):
        plain = super().read()
        activation, size = plain.rep.activation.values[plain.point], reference_body().cross_section
        which = [[MUSCLES.index(name) for name in members] for members in SHOWN.values()]
        effort = np.array([np.average(activation[rows], weights=size[rows]) for rows in which])
        full = np.array([activation[rows].max() > FULL for rows in which])
        options = self.rep_options(plain.lifter, plain.pull)
        polygon = torque_polygon(
            plain.lifter, plain.pull, plain.rep, plain.point, arm_weight=plain.arm_weight, **options
        )
        strength, known = options.pop("strength"), (self.known_kg.number, self.known_repetitions.number)
        of_pull = {field.name: getattr(plain, field.name) for field in fields(PullState)}
        return WorkState(
            **of_pull, options=options, strength=strength, known=known, effort=effort, full=full, polygon=polygon
        )

    def draw(self, state):
        self.move_views(state)
        self.bars.show(state.effort, state.full)
        largest, kg, point = state.largest, float(state.pull.mass_on_bar(state.lifter)), state.point
        moved = self.polygon.show(state.polygon, kg, largest[point])
        shown, now = np.minimum(largest, 400.0), largest[point : point + 1]
        margin, now_margin = self._margin(state, shown), self._margin(state, now)
        also = self.curves.show(PLACES, shown[:, None], margin[:, None], PLACES[point], now, now_margin)
        return also or moved

    @staticmethod
    def _margin(state, kg):
        """Half of the band that the lifter's strength leaves open; the load goes with it, the arm's weight aside. [kg]"""
        strength = state.strength
        return kg * (strength.high - strength.low) / (2 * strength.factor)

    def describe(self, state):
        rep = state.rep
        kg, largest = float(state.pull.mass_on_bar(state.lifter)), state.largest[state.point]
        order = np.argsort(-state.effort)[:3]
        names = list(SHOWN)
        work = listed([f"{names[i]} ({100 * state.effort[i]:.0f} %)" for i in order])
        low, high = state.strength.low / state.strength.factor, state.strength.high / state.strength.factor
        weakest = weakest_point(rep)
        whole = float(rep.whole_rep_load_kg)
        parts = [
            f"{pull_words(state.lifter, state.pull).capitalize()}, {self._hand(state.pull.hand_turn)}, {self.hands.value}, "
            f"{100 * state.along:.0f} % of the way: hardest at work are {work}.",
            f"This posture holds up to {largest:.0f} kg ({low * largest:.0f} to {high * largest:.0f}); {self._limit(rep, state.point)}."
            if np.isfinite(largest)
            else "This posture cannot hold even the arm.",
            f"The whole rep holds up to {whole:.0f} kg ({low * whole:.0f} to {high * whole:.0f}), weakest at "
            f"{PLACES[weakest]:.0f} % of the way.",
            f"Strength is known from {state.strength.known_from}.",
        ]
        short = float(rep.shortfall.values[state.point])
        if short > 0:
            parts.insert(1, f"{kg:.0f} kg cannot be held here: {100 * short:.0f} % of the torque is missing.")
        return " ".join([*parts, end_words(rep)])

    @staticmethod
    def _hand(turn):
        """The hand's turn, and what it leaves of the elbow flexors' pull: will and lever apart."""
        if turn == "neutral":
            return "hand neutral"
        left = f"{100 * drive(turn):.0f} % of the neutral hand's drive and {100 * leverage(turn):.0f} % of its leverage"
        return f"hand {turn} (elbow flexors have {left})"

    @staticmethod
    def _limit(rep, point):
        """Which joint stops the load, and the muscles that add most to it."""
        joint = JOINTS[int(np.argmax(rep.gives_out.values[point]))]
        adds = rep.adds_kg.values[point]
        best = [i for i in np.argsort(-adds)[:3] if adds[i] > 0.05 * adds.sum()]
        return f"the {joint} gives out first, with {listed([MUSCLES[i] for i in best])} at full strength"

    def compare(self, state, kept):
        change = state.effort - kept.effort
        order = np.argsort(-np.abs(change))[:3]
        names = list(SHOWN)
        parts = [f"{written(100 * change[i], sign=True)} % {names[i]}" for i in order]
        load = written(float(state.rep.whole_rep_load_kg - kept.rep.whole_rep_load_kg), sign=True)
        return (
            f"Against the one you kept ({pull_words(kept.lifter, kept.pull)}): {listed(parts)}; the largest load of the "
            f"whole rep changes by {load} kg."
        )

    def table(self, state):
        rep = state.rep
        columns = {
            "rep [%]": PLACES,
            "largest load [kg]": np.nan_to_num(state.largest),
            "torque missing [%]": 100 * rep.shortfall.values,
        }
        columns |= {
            f"{joint} torque share in the limit [N m/N m]": rep.gives_out.sel(joint=joint).values
            for joint in rep.joint.values
        }
        columns |= {f"{name} [% of strength]": 100 * rep.activation.sel(muscle=name).values for name in MUSCLES}
        return columns_text(columns)

    def view_of(self, state):
        known = dict(zip(("known_kg", "known_repetitions"), state.known, strict=True))
        return {"hands": self.hands.value, "balance": state.options["balance"]} | known

    def checked_view(self, view, pull):
        usual = next(words for words, (hold, _) in HANDS.items() if hold == pull.hold)
        hands = choice("hands", view.get("hands", usual), tuple(HANDS))
        if HANDS[hands][0] != pull.hold:
            raise InputError("hands", f"hands: {hands} does not go with {pull.hold}; save the set-up again")
        known = view.get("known_kg"), view.get("known_repetitions")
        for name, value, allowed in zip(("known_kg", "known_repetitions"), known, (LOAD, REPETITIONS), strict=True):
            if value is not None:
                number(name, value, allowed)
        return {"hands": hands, "balance": choice("balance", view.get("balance", "plane"), BALANCES), "known": known}

    def put_view(self, view):
        self.hands.value, self.balance.value = view["hands"], view["balance"]
        self.known_kg.put(view["known"][0])
        self.known_repetitions.put(view["known"][1])
