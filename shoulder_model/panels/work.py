"""The work panel: how much of its strength each muscle group uses, which joint sets the limit, the largest load and its span."""

from dataclasses import dataclass, fields, replace
from functools import lru_cache

import ipywidgets as w
import numpy as np

from ..axes import JOINTS
from ..draw.effort_bars import EffortBars
from ..draw.facing_views import BackView
from ..draw.look import BLACK, GROUP_LOOK
from ..draw.muscle_bands import GROUP_OF, NAMED
from ..draw.scene import scene_of
from ..draw.side_views import SideView
from ..draw.torque_curves import TorqueCurves
from ..inputs import number
from ..mechanics import pulls
from ..mechanics.pull import HAND_TURNS
from ..muscles import MUSCLES, drive, expected_strength, leverage
from ..repetition import (
    GROUP_MUSCLES,
    activation_at,
    first_counted,
    from_repetition_maximum,
    load_span,
    weakest_point,
)
from ..repetition.balance import BALANCES
from ..repetition.strength import LOAD, REFERENCE
from ..tables import number_rows
from ..words import caution_words, end_words, listed
from .panel import PROJECTED_HEIGHT, OptionalNumber, Sheet, dropdown
from .pull_panel import POINTS, PullPanel, PullState, grip_slider, lean_slider
from .slider import slider
from .work_bands import GROUPED, KNOWN, SINGLE, WorkBands, group_effort

HANDS = {"a bar": "bar", "separate handles": "handles"}  # words -> hold
OPENS = {  # of a load's span -> words
    "balance": "the balance (in the plane of pull or about all axes)",
    "counted part": "how much of the start of the rep counts",
    "strength": "how strong the lifter is",
}
LARGEST_LOOK = {"largest": (BLACK, "-", "o", "")}
PLACES = 100 * np.linspace(0.0, 1.0, POINTS)
ALONE = 2 / 3  # share in the limit from which on one joint is named alone
HEADROOM = 1.3  # above the largest load of the counted part, in the curve
NO_TRY = "A largest load compares set-ups; it is no load to try. Start light."
NO_ANSWER = "Above the largest load the grey bars are no answer; at that load they can jump."
BALANCED = {"plane": "if balanced in the plane", "all axes": "if balanced about all axes"}


@dataclass(frozen=True)
class WorkState(PullState):
    """A set-up with who supplies it: options, effort of the bars (name -> share) in both balances."""

    options: dict
    known: tuple
    bars: dict
    other_bars: dict
    other_balance: str

    @property
    def span(self):
        """How far the largest load of the whole rep is open, the same whatever load is on now. [kg]"""
        return _span(self.lifter, self.pull.change(load_kg=pulls[self.pull.name].load_kg), **self.options)

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


class WorkPanel(WorkBands, PullPanel):
    """Load, grip, lean and place in the rep; hand turn, bar or handles, balance; a known lift, if any.

    The known lift is the front pulldown as the catalogue has it, so that changing the set-up does not change how
    strong the lifter is.
    """

    name, start = "work-panel", "front pulldown"
    picture_first = True  # the span of the load takes as long as the picture
    shows_muscles = shows_work = arm_weighs = True
    blade_start = "travels"
    page = Sheet(
        4.0,
        {
            "back": [0.003, 0.01, 0.215, 0.93],
            "side": [0.222, 0.01, 0.28, 0.93],
            "bars": [0.628, 0.135, 0.085, 0.775],
            "curves": [0.828, 0.145, 0.16, 0.7],
        },
    )
    projected = Sheet(
        PROJECTED_HEIGHT,
        {
            "back": [0.004, 0.013, 0.206, 0.885],
            "bars": [0.432, 0.013, 0.125, 0.885],
            "curves": [0.708, 0.215, 0.265, 0.645],
        },
    )
    phone = Sheet.phone(524, {"back": [1, 206, 112, 300], "bars": [226, 206, 46, 300], "curves": [46, 33, 248, 112]})

    def make_views(self, figure):
        self.back = BackView(self.sheet.axes(figure, "back"), bands=True)
        self.side = SideView(self.sheet.axes(figure, "side"), bands=True) if "side" in self.sheet.places else None
        self.bars = EffortBars(self.sheet.axes(figure, "bars"), len(SINGLE))
        axes = self.sheet.axes(figure, "curves")
        self.curves = TorqueCurves(
            axes, "along the rep [%]", (0, 100), "largest load [kg]", LARGEST_LOOK, unit="kg", below=0,
            nothing="not even the arm", strip="strength",
        )  # fmt: skip
        self.ghosts = tuple(filter(None, (self.back, self.side, self.bars, self.curves)))

    def move_views(self, state):
        scene = scene_of(state.lifter, state.pull, state.rep, state.point, bands=True)
        if self.side:  # where there is one view only, the bars' colours name the muscles
            scene = replace(scene, named=tuple(self._hardest(state)))
            self.side.show(scene)
        self.back.show(scene)

    def field_sliders(self):
        return {
            "grip_ratio": grip_slider(main=True),
            "load_kg": slider("Load [kg on the bar]", 40, 0, 200, 1),
            "trunk_lean": lean_slider(),
        }

    def make_controls(self, pull, sex, measured):
        super().make_controls(pull, sex, measured)
        self.turn = dropdown("Hand", HAND_TURNS, HAND_TURNS[0], 10.5)
        self.hands = dropdown("Hands on", HANDS, next(iter(HANDS)), 14)
        self.balance = dropdown("Balanced", BALANCES, BALANCES[0], 11)
        self.known_kg = OptionalNumber(f"Known {REFERENCE} [kg]", KNOWN, "18em")
        self.known_repetitions = OptionalNumber("for repetitions", "known_repetitions", "10.5em")
        self.known_repetitions.placeholder = "1"
        self.every_muscle = w.Checkbox(
            False, description="every muscle", indent=False, layout=w.Layout(width="9em", flex="0 0 auto")
        )

    def control_rows(self):
        main, *others = self.sliders.values()
        return [[self.pull_choice, self.turn, self.hands, self.blade, self.every_muscle], [main], [*others, self.along]]

    def folded_rows(self):
        person = [self.sex, *self.measures.values(), self.known_kg, self.known_repetitions]
        return {"Lifter": [person], "Model": [[self.balance, self.arm_weight]]}

    def put_pull(self, pull):
        super().put_pull(pull)
        with self.quiet():
            self.turn.value = pull.hand_turn
            self.hands.value = next(words for words, hold in HANDS.items() if hold == pull.hold)

    def pull_of_controls(self):
        return super().pull_of_controls().change(hand_turn=self.turn.value, hold=HANDS[self.hands.value])

    def rep_options(self, lifter, pull):
        return self._options(lifter, self.balance.value, self.known_kg.number, self.known_repetitions.number)

    def saved_options(self, lifter, view):
        known = view.get("known_kg"), view.get("known_repetitions")
        return self._options(lifter, view.get("balance", BALANCES[0]), *known)

    @staticmethod
    def _options(lifter, balance, kg, repetitions):
        """How the load is balanced, and how strong the lifter is."""
        if kg is None:
            strength = expected_strength(lifter)
        else:
            kg = number(KNOWN, kg, LOAD)
            strength = _known_strength(lifter, kg, 1 if repetitions is None else repetitions)
        return {"balance": balance, "strength": strength}

    def read(self):
        plain, shown = super().read(), self._groups()
        lifter, pull = plain.lifter, plain.pull
        options = self.rep_options(lifter, pull) | {"arm_weight": plain.arm_weight}
        other = next(name for name in BALANCES if name != options["balance"])
        there = activation_at(lifter, pull, plain.rep, plain.point, **options | {"balance": other})
        return WorkState(
            **{field.name: getattr(plain, field.name) for field in fields(PullState)},
            options=options,
            known=(self.known_kg.number, self.known_repetitions.number),
            bars=group_effort(plain.rep.activation.values[plain.point], shown),
            other_bars=group_effort(there, shown),
            other_balance=other,
        )

    def draw(self, state):
        self.move_views(state)
        effort, other = (np.array([*bars.values()]) for bars in (state.bars, state.other_bars))
        colours = [GROUP_LOOK[GROUP_OF[members[0]]] for members in self._groups().values()]
        self.bars.show([*state.bars], colours, effort, other, BALANCED[state.other_balance], held=state.held)
        largest, point = state.largest, state.point
        shown, now = self._on_paper(largest), largest[point : point + 1]
        margin, now_margin = self._margin(state, shown), self._margin(state, now)
        self.curves.show(PLACES, shown[:, None], margin[:, None], PLACES[point], now, now_margin)

    @staticmethod
    def _hardest(state):
        """The muscle groups that use the largest shares of their strength, as many as a picture names."""
        effort = group_effort(state.rep.activation.values[state.point], GROUP_MUSCLES)
        return sorted(effort, key=lambda group: -effort[group])[:NAMED]

    def _groups(self):
        """The bars: groups of muscles, or every muscle by name."""
        return SINGLE if self.every_muscle.value else GROUPED

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

    def set_up(self, state):
        return f"{super().set_up(state)}, hand {state.pull.hand_turn}, {self.hands.value}"

    def verdict(self, state):
        if not np.isfinite(state.largest[state.point]):
            here = "Here the model cannot hold up even the arm."
        elif state.too_much:
            kg, limit = float(state.pull.mass_on_bar(state.lifter)), float(state.largest[state.point])
            digits = next(digits for digits in (0, 1, 2) if digits == 2 or round(kg, digits) > round(limit, digits))
            here = f"{kg:.{digits}f} kg cannot be held here: this posture holds up to {limit:.{digits}f} kg."
        else:
            order = sorted(state.bars, key=lambda name: -state.bars[name])[:NAMED]
            here = f"Working hardest: {listed([f'{name} {100 * state.bars[name]:.0f} %' for name in order])}."
        return f"{here} {self._span_words(state)[0]}"

    @staticmethod
    def _span_words(state):
        """The largest load of the whole rep with its span, for the verdict; and what opens that most, for the small print."""
        span = state.span
        if not np.isfinite(span.value):
            return "The whole rep cannot be held.", ""
        if not np.isfinite([span.low, span.high]).all():
            return (
                f"The whole rep holds up to {span.value:.0f} kg.",
                "No span can be given: with another balance, start of the rep or strength the model cannot hold up even "
                "the arm.",
            )
        widest = max(OPENS, key=lambda name: np.ptp(span.by[name]))
        return (
            f"The whole rep holds up to {span.value:.0f} kg ({span.low:.0f} to {span.high:.0f}).",
            f"Most of the span comes from {OPENS[widest]}.",
        )

    def small(self, state):
        lines = [
            self._limit(state),
            "" if state.held else NO_ANSWER,
            self._span_words(state)[1],
            self._hand(state.pull.hand_turn),
            f"Strength is estimated from {state.strength.known_from}.",
            end_words(state.rep),
            NO_TRY,
            caution_words(state.pull),
        ]
        return " ".join(line for line in lines if line)

    @staticmethod
    def accuracy(state):
        return NO_TRY if state.held else f"{NO_TRY} {NO_ANSWER}"

    @staticmethod
    def _limit(state):
        """Where the rep is weakest, and which joint sets the limit there."""
        rep, point = state.rep, weakest_point(state.rep)
        if not np.isfinite(state.largest[point]):
            return f"At {PLACES[point]:.0f} % of the way the model cannot hold up even the arm."
        shares = rep.gives_out.values[point]
        first, second = (JOINTS[i] for i in np.argsort(-shares)[:2])
        if shares.max() < ALONE:
            return f"Weakest at {PLACES[point]:.0f} % of the way: {first} and {second} set the limit together."
        return f"Weakest at {PLACES[point]:.0f} % of the way: the {first} sets the limit."

    @staticmethod
    def _hand(turn):
        """What the hand's turn leaves of the elbow flexors' pull: will and lever apart."""
        if turn == "neutral":
            return ""
        will, lever = 100 * drive(turn), 100 * leverage(turn)
        return f"A {turn} hand keeps {will:.0f} % of the neutral hand's drive at the elbow and {lever:.0f} % of its leverage."

    def compare(self, state, kept):
        change = self.change_words(state, kept)
        if not change:
            return self.verdict(state)
        if not state.held:
            return f"{change}: {self.verdict(state)}"
        both = [name for name in state.bars if name in kept.bars]
        moved = {name: round(100 * state.bars[name]) - round(100 * kept.bars[name]) for name in both}
        order = [name for name in sorted(both, key=lambda name: -abs(moved[name])) if moved[name]][
            : 2 if self.on_projector else 3
        ]
        parts = [
            f"{name} {'up' if moved[name] > 0 else 'down'} from {100 * kept.bars[name]:.0f} to {100 * state.bars[name]:.0f} %"
            for name in order
        ]
        told = ", ".join(parts) if parts else "no muscle group works harder or less hard"
        return f"{change}: {told}; {_load_change(state.span.value, kept.span.value)}."

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
        return number_rows(columns)

    def view_of(self, state):
        known = dict(zip(("known_kg", "known_repetitions"), state.known, strict=True))
        return {"balance": state.options["balance"], "every_muscle": len(state.bars) == len(SINGLE)} | known

    def put_view(self, view):
        self.balance.value = view.get("balance", BALANCES[0])
        self.known_kg.put(view.get("known_kg"))
        self.known_repetitions.put(view.get("known_repetitions"))
        self.every_muscle.value = view.get("every_muscle", False)


def _load_change(now, kept):
    """What becomes of the whole rep's largest load. [kg]"""
    if not np.isfinite(now - kept):
        return "one of the two cannot hold up even the arm all the way"
    now, kept = round(float(now)), round(float(kept))
    return (
        f"the whole rep holds {now} kg as before" if now == kept else f"the whole rep holds {now} kg instead of {kept}"
    )
