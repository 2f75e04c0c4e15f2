"""The panel "my lifter": what a few tape readings tell of one person, and how far each answer spreads."""

from dataclasses import dataclass
from math import inf

import ipywidgets as w
import numpy as np

from ..draw.standing_view import AnswerStrips, BestGrips, MeasureStrips
from ..inputs import InputError
from ..mechanics import pulls
from ..muscles import expected_strength
from ..people import SEXES, Lifter, expected_measures, percentile
from ..spread import GRIPS, Standing, band_of, standing
from ..spread.by_grip import ASKED, DRAWS, EVERYBODY, PEOPLE, SEED, over_grips, people_alike
from ..tables import number_rows
from .band_words import among
from .bands import Question, Who, some_of
from .panel import PROJECTED_HEIGHT, WRAP, MeasureBoxes, Panel, Sheet, dropdown
from .saved import MEASURES, read_values, values_text
from .slider import slider

PULLS = ("front pulldown", "pull-up", "chest-supported row", "bent-over row", "inverted row", "seated row wide")
NAMES = ("lat's share", "mid-back's share", "largest load", "shoulder torque")  # of `ASKED`
UNITS = (" %", " %", " kg", " N m")
FACTORS = (100.0, 100.0, 1.0, 1.0)
HARDLY = 0.5  # of the unit that is shown, from one grip to another: no reason to choose
ROOM = 1.5  # a scale holds so many times this person's most, and everybody
CRITERIA = dict(zip(("most lat", "most mid-back", "largest load", "least shoulder torque"), ASKED, strict=True))
ROWS = (  # of the picture: measure, its words
    ("stature", "stature"), ("mass", "mass"), ("biacromial", "biacromial"),
    ("acromion_radiale", "upper arm"), ("radiale_stylion", "forearm"), ("chest_depth", "chest depth"),
)  # fmt: skip
CAUTION = (
    "A largest load compares grips; it is no load to try. Start light. If it hurts, stop and see a licensed clinician."
)


class AllBoxes(MeasureBoxes):
    """Boxes for every measure of a `Lifter`, by its fields' names. [m], mass [kg]"""

    SHOWN = (
        *MeasureBoxes.SHOWN,
        ("acromion_radiale", "upper arm [cm]", 12.5, 100.0),
        ("radiale_stylion", "forearm [cm]", 12, 100.0),
        ("elbow_grip", "elbow to grip [cm]", 14, 100.0),
        ("hand", "hand [cm]", 11, 100.0),
        ("chest_breadth", "chest breadth [cm]", 14.5, 100.0),
        ("chest_depth", "chest depth [cm]", 13.5, 100.0),
        ("waist_circumference", "waist tape [cm]", 13, 100.0),
    )


@dataclass(frozen=True)
class MyState:
    """Controls, readings [m, kg], expected measures (mean and SD) given the readings and without any, and the `Standing` without its bands."""

    values: dict
    measured: dict
    expected: dict
    everybody: dict
    found: Standing

    @property
    def at(self):
        """Place of the grip among `GRIPS`, a whole number."""
        return GRIPS.index(self.values["grip"])

    @property
    def asked(self):
        """Which of `ASKED` says what is best, a whole number."""
        return ASKED.index(CRITERIA[self.values["criterion"]])

    def of(self, name):
        """An answer at this grip, and all of everybody, in the unit that is shown."""
        factor = FACTORS[ASKED.index(name)]
        return factor * float(self.found.value[name][self.at]), factor * self.found.everybody[name][:, self.at]


class MyLifterPanel(Panel):
    """Tape readings, a pull, a grip and what is wanted of it.

    Parameters
    ----------
    pull : str
        One of the pulls that can be held at these grips.
    sex : "men" or "women"
    **measured : float
        Readings at the start, by the names of `Lifter`'s fields. [m], mass [kg]
    """

    page = Sheet(
        4.0,
        {
            "measures": [0.012, 0.1, 0.26, 0.8],
            "answers": [0.315, 0.03, 0.405, 0.87],
            "best": [0.765, 0.1, 0.225, 0.8],
        },
    )
    projected = Sheet(PROJECTED_HEIGHT, {"answers": [0.012, 0.02, 0.575, 0.83], "best": [0.635, 0.14, 0.355, 0.7]})
    bands_first, counts = True, (PEOPLE, DRAWS)
    phone = Sheet.phone(700, {"answers": [8, 418, 290, 252], "best": [8, 258, 290, 126], "measures": [8, 26, 290, 194]})

    def __init__(self, pull="front pulldown", sex="women", **measured):
        figure = self.make_figure()
        self.sex, self.pull_choice = dropdown("Sex", SEXES, sex, 9), dropdown("Pull", PULLS, pull, 15.5)
        self.criterion = dropdown("Best means", CRITERIA, next(iter(CRITERIA)), 18)
        self.boxes = AllBoxes(measured)
        low, high = GRIPS[0], GRIPS[-1]
        self.sliders = {
            "grip": slider(
                "Grip [× biacromial]",
                1.5,
                low,
                high,
                GRIPS[1] - low,
                stops={"1 ×": 1, "1.5 ×": 1.5, "2 ×": 2},
                main=True,
            )
        }
        first, more = list(self.boxes.values())[:3], list(self.boxes.values())[3:]
        rows = [
            w.HBox([*self.sliders.values()]),
            w.HBox([self.sex, *first, self.pull_choice, self.criterion], layout=WRAP),
        ]
        super().__init__("my-lifter-panel", figure, rows, {"More tape readings": [w.HBox(more, layout=WRAP)]})
        self.follow(*self.sliders.values(), self.sex, self.pull_choice, self.criterion, *self.boxes.values())
        self.settle(inf)

    def make_views(self, figure):
        """Strips of measures where there is room, strips of answers, and the best grips."""
        has = "measures" in self.sheet.places
        self.measures = MeasureStrips(self.sheet.axes(figure, "measures"), len(ROWS)) if has else None
        self.answers = AnswerStrips(self.sheet.axes(figure, "answers"), NAMES)
        self.best = BestGrips(self.sheet.axes(figure, "best"), GRIPS)
        self.ghosts = tuple(filter(None, (self.measures, self.answers, self.best)))

    def read(self):
        measured, _ = self.boxes.read(self.sex.value)
        return self._state(self._values(), measured)

    def _values(self):
        grips = np.array(GRIPS)
        grip = float(grips[np.abs(grips - self.sliders["grip"].place).argmin()])
        return {"sex": self.sex.value, "pull": self.pull_choice.value, "criterion": self.criterion.value, "grip": grip}

    @staticmethod
    def _state(values, measured):
        sex = values["sex"]
        found = standing(pulls[values["pull"]], sex, bands=False, **measured)
        return MyState(values, measured, expected_measures(sex, **measured), expected_measures(sex), found)

    def draw(self, state):
        if self.measures:
            places, spreads, texts = zip(*(_measure_row(state, *row) for row in ROWS), strict=True)
            self.measures.show(places, spreads, texts)
        values, crowd = zip(*(state.of(name) for name in ASKED), strict=True)
        everybody = [band_of(one) for one in crowd]
        texts = [self._answer_words(k, state) for k in range(len(ASKED))]
        self.answers.show(values, everybody, [_most(state, k) for k in range(len(ASKED))], texts)
        self.best.show(*state.found.best_for(CRITERIA[state.values["criterion"]]), state.values["grip"])

    def _answer_words(self, k, state):
        value, crowd = state.of(ASKED[k])
        place = "" if self.on_projector else f"; {_below(value, crowd)} in 100 have less"
        return f"{NAMES[k]} {value:.0f}{UNITS[k]}{place}"

    def set_up(self, state):
        v = state.values
        read = [f"{dict(_words())[name]} {_shown(name, value)}" for name, value in state.measured.items()]
        return f"{v['pull'].capitalize()}, grip {v['grip']:.2f} ×, {v['sex']}, {', '.join(read) or 'nothing measured'}, best means {v['criterion']}"

    def verdict(self, state):
        k = state.asked
        start = f"{NAMES[k].capitalize()} at {state.values['grip']:.2f} ×: {state.of(ASKED[k])[0]:.0f}{UNITS[k]}."
        if self.hardly_changes(state):
            return f"{start} From {GRIPS[0]:g} to {GRIPS[-1]:g} × it hardly changes."
        shares, own = state.found.best_for(ASKED[k])
        likes = round(100 * shares[GRIPS.index(own)])
        return f"{start} {own:g} × is best for this person, and for {likes} in 100 {state.values['sex']}."

    @staticmethod
    def hardly_changes(state):
        """Whether the grip makes no difference worth a choice."""
        return bool(np.ptp(FACTORS[state.asked] * state.found.value[ASKED[state.asked]]) < HARDLY)

    def ask(self, state):
        sex, measured = state.values["sex"], state.measured
        pull, person = pulls[state.values["pull"]], Lifter.from_measures(sex, **measured)
        known = sex, tuple(sorted(measured.items()))

        def crowd(rows):
            return Who(*(some_of(one, rows) for one in people_alike(*known)))

        def answer(who, drawn):
            return over_grips(who.lifter, pull, drawn, who.strength)

        return Question((*known, pull), answer, Who(person, expected_strength(person)), crowd, *self.counts, SEED)

    def draw_bands(self, state, answers):
        ends = [np.stack(band, axis=-1)[:, state.at] * np.array(FACTORS)[:, None] for band in answers.bands]
        self.answers.show_bands(*ends)

    def say_bands(self, state, answers, kept, its):
        k, here = state.asked, (state.asked, state.at)
        who = among({"sex": state.values["sex"]} | state.measured)
        if kept is not None:
            ends = answers.change(its, here, (k, kept.at), same_people=same_person(state, kept))
            return self.both_bands(who, *(_scaled(end, k) for end in ends), UNITS[k], change_of=NAMES[k])
        told = self.both_bands(who, *(_scaled(end, k) for end in answers.at(*here)), UNITS[k])
        if self.hardly_changes(state):
            return told
        own, sure = state.found.best_for(ASKED[k])[1], state.found.with_bands(answers.people, answers.unknown).sure
        return f"{told} {own:g} × stays the best in {sure[ASKED[k]]} of {self.counts[1]} draws of that."

    def small(self, state):
        return (
            f"Bands hold 9 of 10: of {PEOPLE} drawn people with these measures, and of {DRAWS} draws of what is not known, so "
            f"their ends are rough. {EVERYBODY} {state.values['sex']} of the survey stand for everybody: a count is off by up to 10. "
            f"Shares are at half the largest load, torque at the pull's own load. To compare two grips, keep one: the bands are then those of the change. Ties go to the narrower grip. {CAUTION}"
        )

    def brief(self, state):
        return f"Bands hold 9 of 10; their ends are rough. {CAUTION}"

    def compare(self, state, kept):
        k = state.asked
        now, was = (one.of(ASKED[k])[0] for one in (state, kept))
        its = [] if same_person(state, kept) else ["another person"]
        its += [] if state.values["pull"] == kept.values["pull"] else [kept.values["pull"]]
        its = ", ".join([*its, f"{kept.values['grip']:.2f} ×"])
        return f"{NAMES[k].capitalize()}: {now:.0f}{UNITS[k]} against {was:.0f}{UNITS[k]} in the kept one ({its})."

    def table(self, state):
        columns = {"grip [x biacromial]": np.array(GRIPS)}
        for name, words, unit, factor in zip(ASKED, NAMES, UNITS, FACTORS, strict=True):
            columns[f"{words} [{unit.strip()}]"] = factor * state.found.value[name]
            columns[f"{CRITERION_OF[name]}: best for [in 100]"] = 100 * state.found.best_for(name)[0]
        return number_rows(columns)

    def band_columns(self, state, answers):
        named = {}
        for kind, band in zip(("people", "not known"), answers.bands, strict=True):
            for end, values in band._asdict().items():
                for k, (words, unit) in enumerate(zip(NAMES, UNITS, strict=True)):
                    named[f"{words} {kind} {end} [{unit.strip()}]"] = FACTORS[k] * values[k]
        return named

    def setup(self, state):
        return values_text(self.name, state.values | {name: state.measured.get(name, 0.0) for name in MEASURES})

    def checked(self, content):
        choices = {"sex": SEXES, "pull": PULLS, "criterion": tuple(CRITERIA), "grip": (GRIPS[0], GRIPS[-1])}
        values = read_values(self.name, content, choices | dict.fromkeys(MEASURES, (0.0, 500.0)))
        if values["grip"] not in GRIPS:
            raise InputError(
                "grip", f"grip = {values['grip']:g}: choose one of {', '.join(f'{grip:g}' for grip in GRIPS)}"
            )
        measured = {name: values[name] for name in MEASURES if values[name]}
        Lifter.from_measures(values["sex"], **measured)
        return {name: values[name] for name in choices}, measured

    def put(self, checked):
        values, measured = checked
        self.sex.value, self.pull_choice.value = values["sex"], values["pull"]
        self.criterion.value, self.sliders["grip"].value = values["criterion"], values["grip"]
        self.boxes.put(measured)


CRITERION_OF = {name: words for words, name in CRITERIA.items()}


def same_person(one, other):
    """Whether two `MyState` have the same sex and readings."""
    return (one.measured, one.values["sex"]) == (other.measured, other.values["sex"])


def _words():
    return [(name, box_words.partition(" [")[0]) for name, box_words, _, _ in AllBoxes.SHOWN]


def _shown(name, value):
    return f"{value:.0f} kg" if name == "mass" else f"{100 * value:.1f} cm"


def _below(value, crowd):
    """How many of 100 in the ``crowd`` have less."""
    return round(100 * float(np.mean(crowd < value)))


def _measure_row(state, name, words):
    """Place and spread of a measure in everybody's standard deviations, and its words."""
    (mean, sd), (here, left) = state.everybody[name], state.expected[name]
    give = "" if name in state.measured else f" ± {_shown(name, left).split()[0]}"
    place = f"{percentile(here, mean, sd):.0f} in 100 have less"
    text = f"{words} {_shown(name, here).replace(' ', give + ' ')}"
    alone = name in state.measured
    return (
        (here - mean) / sd,
        0.0 if alone else left / sd,
        f"{text}; {place if alone else f'SD of all {_shown(name, sd)}'}",
    )


def _most(state, k):
    """The end of one answer's scale, which begins with nothing, for every grip."""
    everybody, own = state.found.everybody[ASKED[k]], state.found.value[ASKED[k]]
    return max(FACTORS[k] * float(max(np.nanmax(everybody), ROOM * np.nanmax(own))), 1e-3)


def _scaled(ends, k):
    """Ends of a band in the unit that is shown, or None."""
    return ends and tuple(FACTORS[k] * end for end in ends)
