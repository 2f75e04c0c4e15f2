"""The evidence panel: what trials found for a question and a muscle, and what they can be asked together."""

from dataclasses import dataclass

import ipywidgets as w

from ..draw.forest import ACROSS, Forest, key_words
from ..draw.forest_lines import forest_trials, summary_trial
from ..draw.look import at_phone, at_projector
from ..evidence import (
    ASSUMED,
    HELD,
    RULE,
    SIDES,
    Summary,
    cautions,
    choose,
    comparison_rows,
    comparisons,
    difference_words,
    example_rows,
    muscles,
    pooled,
    read_trials,
    template_rows,
    together,
    unseen,
)
from ..inputs import Allowed, InputError, whole
from ..json_file import begins_with_brace
from ..words import counted, listed
from .panel import MIME, WRAP, Panel, Sheet, dropdown, one_at_a_time
from .saved import read_values, values_text
from .slider import slider

SWITCHES = {
    "one_change_only": "only one thing changed",
    "mvic_only": "scaled to MVIC only",
    "trained_only": "trained lifters only",
}

NO_GROWTH = "EMG in one session is not growth; averages of small groups, not one person."
TABLES = {  # kind of file -> words on the button, name of the file, its rows
    "template": ("Save a blank trial table", "my_trial.csv", template_rows),
    "example": ("Save an invented trial", "invented_trial.csv", example_rows),
}


@dataclass(frozen=True)
class EvidenceState:
    """The controls' values, the results they let through, what was left out, the pooled number or None."""

    values: dict
    shown: tuple
    left_out: dict
    summary: Summary | None


class EvidencePanel(Panel):
    """Question, muscle, what was held constant, smallest trial, assumed correlation; a reader's own trial joins by its table.

    Parameters
    ----------
    question, muscle : str
        One of ``evidence.SIDES`` and of ``evidence.muscles(question)``.
    trials : tuple of evidence.Comparison, optional
        Other results than the workbook's own.
    """

    page = Sheet(4.6, {"forest": [0.437, 0.19, 0.262, 0.755]}, {"x": "standardised difference g [SD between people]"})
    projected = Sheet(3.6, {"forest": [0.435, 0.19, 0.28, 0.715]}, {"x": "difference g [SD between people]"})
    phone = Sheet.phone(574, {"forest": [10, 122, 288, 430]}, projected.labels)

    def __init__(self, question="row or pulldown", muscle="latissimus dorsi", trials=None):
        self.trials = comparisons() if trials is None else tuple(trials)
        figure = self.make_figure()
        self.question = dropdown("Question", self._questions(), question, 21)
        self.muscle = dropdown("Muscle", muscles(question, self.trials), muscle, 17)
        self.held = dropdown("Load", HELD, "any load", 18)
        self.switches = {
            name: w.Checkbox(False, description=words, indent=False, layout=w.Layout(width="14em", flex="0 0 auto"))
            for name, words in SWITCHES.items()
        }
        self.sliders = {
            "correlation": slider("Correlation between conditions (assumed)", ASSUMED, 0, 0.9, 0.05),
            "minimum_n": slider("Smallest trial [people]", 0, 0, 30, 1, main=at_projector()),
        }
        rows = [
            w.HBox([self.question, self.muscle, self.held], layout=WRAP),
            w.HBox([*self.switches.values()], layout=WRAP),
            w.HBox([*self.sliders.values()], layout=WRAP),
        ]
        super().__init__("evidence-panel", figure, rows)
        self.door.words = ("Open a set-up or a trial table: drop it here or ", ".json,.csv")
        self.question.observe(lambda change: self._other_question(change["new"]), "value")
        self.follow(self.muscle, self.held, *self.switches.values(), *self.sliders.values())

    def make_views(self, figure):
        """The lines of results, and where there is room what their marks mean."""
        axes, x = self.sheet.axes(figure, "forest"), self.sheet.labels["x"]
        if at_projector():
            self.forest = Forest(axes, x, left=-1.5, right=1.04, brief=40)
        elif at_phone():
            self.forest = Forest(axes, x, left=0.0, stacked=True)
            key_words(axes, left=-0.02, below=-0.09, across=ACROSS)
        else:
            self.forest = Forest(axes, x)
            key_words(axes)
        self.ghosts = (self.forest,)

    def _questions(self):
        """The questions that some trial asks."""
        return tuple(name for name in SIDES if muscles(name, self.trials))

    def open_text(self, content, name=""):
        """Take the controls to a saved set-up, or let a filled-in trial table join the results; what is neither is refused."""
        if begins_with_brace(content):
            super().open_text(content, name)
        else:
            self._join(content, name)

    @one_at_a_time
    def _join(self, content, name):
        """Show the results of a reader's own trial beside the others; one of the same name takes its place."""
        try:
            own = read_trials(content, name or "trial table")
        except InputError as error:
            self.refuse(str(error))
            return
        names = {row.study for row in own}
        self.trials = (*(row for row in self.trials if row.study not in names), *own)
        with self.quiet():
            self.question.options = self._questions()
            self.question.value = own[0].question
            self.muscle.options = muscles(own[0].question, self.trials)
            self.muscle.value = own[0].muscle
        self.update()

    def files(self):
        return {kind: words for kind, (words, _, _) in TABLES.items()} | super().files()

    def save(self, kind):
        if kind in TABLES:
            _, name, rows = TABLES[kind]
            self.door.save(name, self.csv(rows()), MIME["csv"])
        else:
            super().save(kind)

    def _other_question(self, question):
        """Offer the muscles of this question; keep the muscle where it has some."""
        with self.quiet():
            names, now = muscles(question, self.trials), self.muscle.value
            self.muscle.options = names
            self.muscle.value = now if now in names else names[0]
        self.update()

    def read(self):
        values = {"question": self.question.value, "muscle": self.muscle.value, "held": self.held.value}
        values |= {name: control.value for name, control in self.switches.items()}
        values |= {name: control.place for name, control in self.sliders.items()}
        asked = [row for row in self.trials if (row.question, row.muscle) == (values["question"], values["muscle"])]
        filters = {name: values[name] for name in ("held", *SWITCHES, "minimum_n")}
        shown, left_out = choose(asked, **filters)
        try:
            summary = pooled(shown, values["correlation"])
        except InputError:
            summary = None  # `difference_words` says why
        return EvidenceState(values, shown, left_out, summary)

    def draw(self, state):
        trials = forest_trials(state.shown, state.values["correlation"])
        trials += [summary_trial(state.summary)] if state.summary else []
        return self.forest.show(trials, [f"more with {side}" for side in SIDES[state.values["question"]]])

    def set_up(self, state):
        return f"{state.values['question'].capitalize()}, {state.values['muscle']}"

    def verdict(self, state):
        said = together(state.shown, state.values["question"], state.values["correlation"])
        return f"{_counts(state.shown).capitalize()}. {said}"

    def small(self, state):
        v, shown = state.values, state.shown
        out = [f"{count} ({reason})" for reason, count in state.left_out.items()]
        parts = [
            unseen(shown, v["correlation"]),
            f"Left out: {listed(out)}." if out else "",
            cautions(shown),
            difference_words(shown, v["correlation"]) if shown else "",
            RULE,
            _no_growth(shown),
        ]
        return " ".join(part for part in parts if part)

    def brief(self, state):
        parts = [
            _no_growth(state.shown),
            "Grey: something else differs too." if any(row.doubts for row in state.shown) else "",
            "Arrow: a direction without a number." if any(row.kind != "difference" for row in state.shown) else "",
        ]
        return " ".join(part for part in parts if part)

    def compare(self, state, kept):
        v = kept.values
        said = [together(each.shown, each.values["question"], each.values["correlation"]) for each in (state, kept)]
        same = state.shown == kept.shown
        if self.on_projector and not same:
            return f"{_counts(state.shown).capitalize()} instead of {_counts(kept.shown)}. {said[0]}"
        parts = ["the same results" if same else f"{_counts(state.shown)} instead of {_counts(kept.shown)}"]
        wider = _mean_width(state) - _mean_width(kept)
        if abs(wider) >= 0.005:
            parts.append(f"intervals {abs(wider):.2f} SD {'wider' if wider > 0 else 'narrower'} on average")
        parts.append("the same conclusion." if said[0] == said[1] else f"there it was: {said[1]}")
        about = f"{v['question']}, {v['muscle']}, correlation {v['correlation']:.2f}"
        return f"Against the kept one ({about}): {'; '.join(parts)}"

    def table(self, state):
        return comparison_rows(state.shown, state.values["correlation"])

    def setup(self, state):
        return values_text(self.name, state.values)

    def checked(self, content):
        limits = {name: (control.min, control.max) for name, control in self.sliders.items()}
        allowed = {"question": self.question.options, "held": tuple(HELD), **dict.fromkeys(SWITCHES, bool)}
        everywhere = tuple({row.muscle: None for row in self.trials})
        values = read_values(self.name, content, allowed | {"muscle": everywhere} | limits)
        values["minimum_n"] = whole("minimum_n", values["minimum_n"], Allowed(*limits["minimum_n"], "people"))
        names = muscles(values["question"], self.trials)
        if values["muscle"] not in names:
            raise InputError(
                "muscle",
                f"muscle: no trial of {values['question']} looked at {values['muscle']}; choose from: {', '.join(names)}",
            )
        return values

    def put(self, checked):
        values = checked
        self.question.value = values["question"]
        self.muscle.options = muscles(values["question"], self.trials)
        self.muscle.value, self.held.value = values["muscle"], values["held"]
        for name, control in self.switches.items():
            control.value = values[name]
        for name, control in self.sliders.items():
            control.value = values[name]


def _no_growth(rows):
    """That a signal is not growth, where one was measured."""
    return NO_GROWTH if any(row.normalised != "a load" for row in rows) else ""


def _counts(rows):
    """ "3 results of 2 trials"."""
    return f"{counted(len(rows), 'result')} of {counted(len({row.study for row in rows}), 'trial')}"


def _mean_width(state):
    """Of the intervals shown; no number where there are none."""
    effects = [row.effect(state.values["correlation"]) for row in state.shown if row.kind == "difference"]
    return (
        sum(float(effect.interval[1] - effect.interval[0]) for effect in effects) / len(effects)
        if effects
        else float("nan")
    )
