"""The bands of the panels for pulls: of the torques all along the rep."""

import numpy as np

from ..repetition import rep
from ..words import LEAST_SHOWN
from .band_words import among
from .bands import Question, Who, people_like


class PullBands:
    """Bands of a panel's torques; `panel.Panel` says what the methods are for."""

    def ask(self, state):
        options = {"points": len(state.rep.point), "muscles": False, "work": False, "arm_weight": state.arm_weight}

        def torque(who, drawn):
            return rep(who.lifter, drawn.pull(state.pull), **options)[self.quantity].values

        key = tuple(sorted(state.measures.items())), state.pull, state.arm_weight
        return Question(key, torque, Who(state.lifter), people_like(state.measures), *self.counts)

    def draw_bands(self, state, answers):
        ends = [np.stack(band, axis=-1)[state.point] for band in answers.bands]
        ends = [np.where(np.abs(end).max(axis=-1, keepdims=True) < LEAST_SHOWN, np.nan, end) for end in ends]
        self.curves.show_bands(getattr(state.pull, self.field) * self.per_si, *ends)

    def say_bands(self, state, answers, kept, its):
        who = among(state.measures)
        if kept is None or not self.change_words(state, kept):
            which = int(np.argmax(np.abs(state.torque)))
            swapped = bool(state.torque[which] < 0)
            words = f" N m of {self.sides[which][int(swapped)]}"
            return self.both_bands(who, *answers.at(state.point, which), words, swapped=swapped)
        which = int(np.argmax(np.abs(state.torque - kept.torque)))
        same = state.measures == kept.measures
        ends = answers.change(its, (state.point, which), (kept.point, which), same_people=same)
        return self.both_bands(who, *ends, " N m", change_of=self.sides[which][0])

    def band_columns(self, state, answers):
        named = {}
        for kind, band in zip(("people", "not known"), answers.bands, strict=True):
            for end, values in band._asdict().items():
                named |= {f"{sides[0]} torque {kind} {end} [N m]": values[:, i] for i, sides in enumerate(self.sides)}
        return named
