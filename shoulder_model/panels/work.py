"""The work panel: how much of its strength each muscle uses, what gives out first, and the largest load with its span."""

from dataclasses import dataclass, fields
from functools import lru_cache

import numpy as np

from ..axes import JOINTS
from ..draw.effort_bars import EffortBars
from ..draw.lifter_views import FrontView, SideView
from ..draw.look import BLACK
from ..draw.polygon_view import PolygonView
from ..draw.torque_curves import TorqueCurves
from ..inputs import choice, number
from ..mechanics import pulls
from ..mechanics.pull import HAND_TURNS
from ..muscles import LAT, MUSCLES, drive, expected_strength, leverage, reference_body
from ..repetition import first_counted, from_repetition_maximum, load_span, torque_polygon, weakest_point
from ..repetition.balance import BALANCES
from ..repetition.repetition_maximum import REPETITIONS
from ..repetition.strength import LOAD, REFERENCE
from ..tables import columns_text
from ..words import end_words, listed, pull_words, written
from .panel import OptionalNumber, dropdown, slider
from .pull_panel import POINTS, PullPanel, PullState, grip_slider, lean_slider, rep_of

GROUPS = {  # bar -> muscles, as a coach means them
    "lat": LAT,
    "teres major": ("teres major",),
    "rear deltoid": ("deltoid posterior",),
    "upper trapezius": ("trapezius upper",),
    "middle trapezius": ("trapezius middle",),
    "lower trapezius": ("trapezius lower",),
    "rhomboids": ("rhomboids",),
    "biceps": ("biceps brachii",),
    "brachialis": ("brachialis", "brachioradialis"),
    "infraspinatus": ("infraspinatus",),
    "other rotator cuff": ("teres minor", "subscapularis", "supraspinatus"),
    "pectoralis major": ("pectoralis major clavicular", "pectoralis major sternal", "pectoralis major costal"),
    "front, side deltoid": ("deltoid anterior", "deltoid middle"),
    "triceps": ("triceps long head", "triceps short heads"),
    "serratus, pec minor": ("serratus anterior", "pectoralis minor"),
}
GROUPED = {name for members in GROUPS.values() for name in members}
SHOWN = GROUPS | {name: (name,) for name in MUSCLES if name not in GROUPED}  # the rest by name
NAMES = {members[0]: words for words, members in SHOWN.items() if len(members) == 1}  # muscles with a bar of their own
HANDS = {"a bar": "bar", "separate handles": "handles"}  # words -> hold
OPENS = {  # of a load's span -> words
    "balance": "the balance (in the plane of pull or about all axes)",
    "counted part": "how much of the start of the rep counts",
    "strength": "how strong the lifter is",
}
LARGEST_LOOK = {"largest": (BLACK, "-", "o", "here")}
PLACES = 100 * np.linspace(0.0, 1.0, POINTS)
HEADROOM = 1.3  # above the largest load of the counted part, in the curve
BEST = f"best {REFERENCE}"
BALANCED = {"plane": "if balanced in the plane", "all axes": "if balanced about all axes"}


@dataclass(frozen=True)
class WorkState(PullState):
    """A set-up with who supplies it: options, groups' effort (bar,) in both balances, the load's span, the polygon."""

    options: dict
    known: tuple
    effort: np.ndarray
    other_effort: np.ndarray
    other_balance: str
    span: object
    polygon: object

    @property
    def strength(self):
        """How strong the lifter is, and how well that is known."""
        return self.options["strength"]

    @property
    def largest(self):
        """The largest load along the rep (point,), NaN where not even the arm is held. [kg]"""
        return self.rep.largest_load_kg.values

    @property
    def held(self):
        """Whether the load is held here."""
        return bool(np.isfinite(self.largest[self.point])) and not self.too_much

    @property
    def too_much(self):
        """What share of the load cannot be held here."""
        return float(self.rep.shortfall.values[self.point])


@lru_cache(maxsize=64)
def _known_strength(lifter, kg, repetitions):
    return from_repetition_maximum(lifter, pulls[REFERENCE], kg, repetitions)


@lru_cache(maxsize=64)
def _span(lifter, pull, **options):
    return load_span(lifter, pull, points=POINTS, **options)


def _group_effort(rep, point):
    """What share of its strength each bar's group uses (bar,), its muscles weighed by their size."""
    activation, size = rep.activation.values[point], reference_body().cross_section
    which = ([MUSCLES.index(name) for name in members] for members in SHOWN.values())
    return np.array([np.average(activation[rows], weights=size[rows]) for rows in which])


class WorkPanel(PullPanel):
    """Load, grip, lean and place in the rep; hand turn, bar or handles, balance; a known lift, if any.

    The known lift is the front pulldown as the catalogue has it, so that changing the set-up does not change how
    strong the lifter is.
    """

    name, start = "work-panel", "front pulldown"
    shows_muscles = shows_work = True
    blade_start = "travels"

    def make_views(self, figure):
        self.front = FrontView(figure.add_axes([0.004, 0.02, 0.197, 0.9]))
        self.side = SideView(figure.add_axes([0.205, 0.02, 0.262, 0.9]))
        self.bars = EffortBars(figure.add_axes([0.602, 0.125, 0.092, 0.8]), list(SHOWN))
        self.polygon = PolygonView(figure.add_axes([0.802, 0.6, 0.183, 0.325]))
        axes = figure.add_axes([0.802, 0.125, 0.183, 0.25])
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
        self.hands = dropdown("Hands on", HANDS, next(iter(HANDS)), 14)
        self.balance = dropdown("Balanced", BALANCES, BALANCES[0], 11)
        self.known_kg = OptionalNumber(f"Best {REFERENCE} [kg]", BEST, "17em")
        self.known_repetitions = OptionalNumber("for repetitions", "known_repetitions", "10.5em")
        self.known_repetitions.placeholder = "1"

    def control_rows(self):
        first = [self.pull_choice, self.turn, self.hands, self.balance, self.known_kg, self.known_repetitions]
        second = [self.sex, *self.measures.values(), self.arm_weight, self.blade]
        load, grip, lean = self.sliders.values()
        return [first, second, [load, self.along], [grip, lean]]

    def put_pull(self, pull):
        super().put_pull(pull)
        with self.quiet():
            self.turn.value = pull.hand_turn
            self.hands.value = next(words for words, hold in HANDS.items() if hold == pull.hold)

    def pull_of_controls(self):
        return super().pull_of_controls().change(hand_turn=self.turn.value, hold=HANDS[self.hands.value])

    def rep_options(self, lifter, pull):
        kg, repetitions = self.known_kg.number, self.known_repetitions.number
        if kg is None:
            strength = expected_strength(lifter)
        else:
            kg = number(BEST, kg, LOAD)
            strength = _known_strength(lifter, kg, 1 if repetitions is None else repetitions)
        return {"balance": self.balance.value, "strength": strength}

    def read(self):
        plain = super().read()
        lifter, pull = plain.lifter, plain.pull
        options = self.rep_options(lifter, pull) | {"arm_weight": plain.arm_weight}
        other = next(name for name in BALANCES if name != options["balance"])
        other_rep = rep_of(lifter, pull, points=POINTS, **options | {"balance": other})
        return WorkState(
            **{field.name: getattr(plain, field.name) for field in fields(PullState)},
            options=options,
            known=(self.known_kg.number, self.known_repetitions.number),
            effort=_group_effort(plain.rep, plain.point),
            other_effort=_group_effort(other_rep, plain.point),
            other_balance=other,
            span=_span(lifter, pull.change(load_kg=None), **options),
            polygon=torque_polygon(lifter, pull, plain.rep, plain.point, **options),
        )

    def draw(self, state):
        self.move_views(state)
        self.bars.show(state.effort, state.other_effort, BALANCED[state.other_balance], held=state.held)
        largest, kg, point = state.largest, float(state.pull.mass_on_bar(state.lifter)), state.point
        moved = self.polygon.show(state.polygon, kg, largest[point])
        shown, now = self._on_paper(largest), largest[point : point + 1]
        margin, now_margin = self._margin(state, shown), self._margin(state, now)
        also = self.curves.show(PLACES, shown[:, None], margin[:, None], PLACES[point], now, now_margin)
        return also or moved

    @staticmethod
    def _on_paper(largest):
        """The curve (point,) without what the straight arm holds, which would flatten all the rest. [kg]"""
        counted = largest[first_counted(POINTS) :]
        return np.where(largest <= HEADROOM * np.max(counted, initial=0.0, where=np.isfinite(counted)), largest, np.nan)

    @staticmethod
    def _margin(state, kg):
        """Half of the band that the lifter's strength leaves open; the load goes with it, the arm's weight aside. [kg]"""
        strength = state.strength
        return kg * (strength.high - strength.low) / (2 * strength.factor)

    def describe(self, state):
        set_up = f"{pull_words(state.lifter, state.pull).capitalize()}, {self._hand(state.pull.hand_turn)}, {self.hands.value}"
        parts = [
            f"{set_up}, {100 * state.along:.0f} % of the way. {self._effort(state)}",
            self._whole_rep(state),
            f"Strength is estimated from {state.strength.known_from}.",
            end_words(state.rep),
        ]
        return " ".join(parts)

    def _effort(self, state):
        """Who is closest to the limit here, or by how much the load is beyond it; and what the limit is."""
        largest = state.largest[state.point]
        if not np.isfinite(largest):
            return "Here the model cannot hold up even the arm."
        limit = f"up to {largest:.0f} kg; {self._limit(state.rep, state.point)}"
        if state.too_much:
            kg, much = float(state.pull.mass_on_bar(state.lifter)), 100 * state.too_much
            share = f"{much:.0f} %" if much >= 1 else "less than 1 %"
            return f"{kg:.0f} kg cannot be held here: {share} too much. This posture holds {limit}."
        names, order = list(SHOWN), np.argsort(-state.effort)[:3]
        closest = listed([f"{names[i]} ({100 * state.effort[i]:.0f} %)" for i in order])
        return f"Closest to their limit: {closest}. This posture holds {limit}."

    @staticmethod
    def _whole_rep(state):
        """The largest load of the whole rep, its span, and what opens that most."""
        span, place = state.span, f"{PLACES[weakest_point(state.rep)]:.0f} % of the way"
        if not np.isfinite(span.value):
            return f"The whole rep cannot be held: at {place} the model cannot hold up even the arm."
        whole = f"The whole rep holds {span.value:.0f} kg"
        if not np.isfinite([span.low, span.high]).all():
            return (
                f"{whole}, weakest at {place}; no span can be given, because with another balance, start of the rep or "
                "strength the model cannot hold up even the arm."
            )
        widest = max(OPENS, key=lambda name: np.ptp(span.by[name]))
        ends = f"({span.low:.0f} to {span.high:.0f})"
        return f"{whole} {ends}, weakest at {place}; most of that span comes from {OPENS[widest]}."

    @staticmethod
    def _hand(turn):
        """The hand's turn, and what it leaves of the elbow flexors' pull: will and lever apart."""
        if turn == "neutral":
            return "hand neutral"
        will, lever = 100 * drive(turn), 100 * leverage(turn)
        return f"hand {turn} ({will:.0f} % of the neutral hand's drive at the elbow, {lever:.0f} % of its leverage)"

    @staticmethod
    def _limit(rep, point):
        """Which joint stops the load, and the muscles that add most to it."""
        joint = JOINTS[int(np.argmax(rep.gives_out.values[point]))]
        adds = rep.adds_kg.values[point]
        best = [i for i in np.argsort(-adds)[:3] if adds[i] > 0.05 * adds.sum()]
        return f"the {joint} gives out first, with {listed([NAMES.get(MUSCLES[i], MUSCLES[i]) for i in best])} at full strength"

    def compare(self, state, kept):
        change = state.effort - kept.effort
        order = np.argsort(-np.abs(change))[:3]
        names = list(SHOWN)
        parts = [f"{written(100 * change[i], sign=True)} % {names[i]}" for i in order]
        load = state.span.value - kept.span.value
        whole = (
            f"the largest load of the whole rep changes by {written(load, sign=True)} kg"
            if np.isfinite(load)
            else "one of the two cannot hold up even the arm all the way"
        )
        return f"Against the one you kept ({pull_words(kept.lifter, kept.pull)}): {listed(parts)}; {whole}."

    def table(self, state):
        rep = state.rep
        columns = {
            "rep [%]": PLACES,
            "largest load [kg]": state.largest,
            "load too much [%]": 100 * rep.shortfall.values,
        }
        columns |= {
            f"{joint} torque share in the limit [N m/N m]": rep.gives_out.sel(joint=joint).values
            for joint in rep.joint.values
        }
        columns |= {f"{name} [% of strength]": 100 * rep.activation.sel(muscle=name).values for name in MUSCLES}
        return columns_text(columns)

    def view_of(self, state):
        known = dict(zip(("known_kg", "known_repetitions"), state.known, strict=True))
        return {"balance": state.options["balance"]} | known

    def checked_view(self, view, pull):
        known = view.get("known_kg"), view.get("known_repetitions")
        for name, value, allowed in zip(("known_kg", "known_repetitions"), known, (LOAD, REPETITIONS), strict=True):
            if value is not None:
                number(name, value, allowed)
        return {"balance": choice("balance", view.get("balance", "plane"), BALANCES), "known": known}

    def put_view(self, view):
        self.balance.value = view["balance"]
        self.known_kg.put(view["known"][0])
        self.known_repetitions.put(view["known"][1])
