"""The bands of the work panel: of what each muscle group does, and of the largest loads, with people's strength drawn too."""

from functools import lru_cache

import numpy as np

from ..draw.muscle_bands import SHORT
from ..mechanics import pulls
from ..muscles import MUSCLES, expected_strength, reference_body
from ..repetition import GROUP_MUSCLES, one_repetition_maximum, rep
from ..repetition.strength import REFERENCE
from ..spread import drawn_strength
from .band_words import among
from .bands import PEOPLE, SEED, Question, Who, people_like, some_of

GROUPED = {
    SHORT.get(name, name): members for name, members in GROUP_MUSCLES.items()
}  # a bar each, as a coach means them
SINGLE = {name: (name,) for name in MUSCLES}  # a bar each, by name
ROUNDS, ANCHOR_POINTS = 2, 21  # of scaling a crowd's strength to a known lift; along that pull
KNOWN = f"known {REFERENCE}"


def group_effort(activation, shown):
    """What share of its strength each of the groups ``shown`` uses, by name; its muscles are weighed by their size."""
    return dict(zip(shown, efforts(activation, shown).tolist(), strict=True))


def efforts(activation, shown, body=None):
    """The same of ``activation`` (..., muscle) in a body, the reference one without it, as an array (..., group)."""
    size = (body or reference_body()).cross_section
    rows = [[MUSCLES.index(muscle) for muscle in members] for members in shown.values()]
    return np.stack([np.average(activation[..., row], axis=-1, weights=size[row]) for row in rows], axis=-1)


@lru_cache(maxsize=64)
def _holding(measures, kg, first, last):
    """The `Strength` with which people of some measures (pairs), ``first`` up to ``last``, hold the known lift of ``kg``; ratios (n,)."""
    crowd = people_like(measures)(slice(first, last)).lifter
    strength = expected_strength(crowd)
    for _ in range(ROUNDS):
        held = rep(crowd, pulls[REFERENCE], points=ANCHOR_POINTS, strength=strength).whole_rep_load_kg.values
        change = kg / held
        strength = strength.times(change, change, change, "")
    return strength


class WorkBands:
    """Bands of efforts and loads; `panel.Panel` says what the methods are for."""

    counts = 100, 30  # it takes longest

    def ask(self, state):
        shown, crowd = SINGLE if len(state.bars) == len(SINGLE) else GROUPED, people_like(state.measures)
        measures = tuple(sorted(state.measures.items()))
        options = {name: value for name, value in state.options.items() if name != "strength"}
        options["points"] = len(state.largest)
        kg = None if state.known[0] is None else one_repetition_maximum(*(known or 1 for known in state.known)).value
        drawn_of = None if kg else drawn_strength(crowd(slice(0, PEOPLE)).lifter, SEED)

        def some(rows):
            strong = _holding(measures, kg, rows.start, rows.stop) if kg else some_of(drawn_of, rows)
            return Who(crowd(rows).lifter, strong)

        def effort_and_load(who, drawn):
            strength = drawn.strength(who.strength, who.lifter.sex)
            found = rep(who.lifter, drawn.pull(state.pull), strength=strength, **options, **drawn.options)
            largest, whole = found.largest_load_kg.values, found.whole_rep_load_kg.values
            loads = np.stack([largest, np.broadcast_to(whole[..., None], largest.shape)], axis=-1)
            return np.concatenate([efforts(found.activation.values, shown, drawn.body), loads], axis=-1)

        key = measures, state.pull, tuple(state.options.items()), len(shown)
        return Question(key, effort_and_load, Who(state.lifter, state.strength), some, *self.counts)

    def draw_bands(self, state, answers):
        people, unknown = (np.stack(band, axis=-1)[state.point] for band in answers.bands)
        if state.held:
            self.bars.show_bands(people[:-2], unknown[:-2])
        self.curves.show_bands(100 * state.along, people[-2:-1], unknown[-2:-1])

    def say_bands(self, state, answers, kept, its):
        who = among(state.measures) + (f" with that {KNOWN}" if state.known[0] is not None else "")
        if kept is None or not self.change_words(state, kept):
            return self.both_bands(f"{who} the whole rep holds", *answers.at(0, -1), " kg")
        same = (state.measures, state.known) == (kept.measures, kept.known)
        ends = answers.change(its, (0, -1), (0, -1), same_people=same)
        return self.both_bands(who, *ends, " kg", change_of="what the whole rep holds")

    def band_columns(self, state, answers):
        named = {}
        for kind, band in zip(("people", "not known"), answers.bands, strict=True):
            for end, values in band._asdict().items():
                named[f"largest load {kind} {end} [kg]"] = values[:, -2]
                shares = zip(state.bars, 100 * values[:, :-2].T, strict=True)
                named |= {f"{name} {kind} {end} [% of strength]": share for name, share in shares}
        return named
