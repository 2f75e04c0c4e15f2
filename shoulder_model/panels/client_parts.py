"""Parts of the session panel: health questions, wishes in their order, what is preferred, loads that are known."""

import ipywidgets as w

from ..inputs import InputError
from ..printed import markup
from ..week import Known, candidates, families, questions, steps
from ..week.health import ANSWERS, LIMITS, before_any_week
from ..week.wish_names import WISHES
from ..words import listed
from .group_name import GroupName
from .panel import TEXT, WRAP, OptionalNumber, button, dropdown, own_wrap

OPEN = "not answered"


def tick(words, on=False):
    """A tick box as wide as its words."""
    return w.Checkbox(on, description=words, indent=False, layout=w.Layout(width="auto", margin="0 0.9em 0 0"))


def ticks(head, boxes):
    """A row of tick boxes after a heading."""
    return w.HBox([GroupName(head, shown=True), *boxes], layout=WRAP)


def line(words):
    """A line of text, ``words`` taken as they are."""
    return w.HTML(f'<span style="{TEXT}">{markup(words)}</span>')


class HealthAsk(w.VBox):
    """The health questions, each to be answered; when all are and nothing needs a clinician they fold to one line.

    ``changed()`` is called after every answer. ``with_cleared`` tells whether the text and the limits are in sight.
    """

    def __init__(self, answers, cleared, limits, changed):
        self.boxes = {}
        rows = [self._row(one) for one in questions()]
        self.cleared = w.Text(
            description="Cleared by whom, with which limits", continuous_update=False,
            style={"description_width": "initial"}, layout=w.Layout(width="40em"),
        )  # fmt: skip
        self.limits = {name: tick(name) for name in LIMITS}
        head = w.HTML(
            f'<div style="{TEXT}"><b>Health first.</b> Answer each question. “Cleared” means: a clinician has said what is '
            "allowed, and you write it down. These questions do not replace those that your facility or local rules ask.</div>"
        )
        self.limit_row = ticks("Limits:", self.limits.values())
        self.limit_row.layout = own_wrap()
        self.asking = w.VBox([head, *rows, self.cleared, self.limit_row])
        self.told, self.again = line(""), button("", self._unfold, "show or hide the health questions and the answers")
        self.folded = w.HBox([self.told, self.again], layout=own_wrap())
        super().__init__([self.asking, self.folded], layout=w.Layout(width="100%"))
        self.changed, self.is_open = changed, False
        self.put(answers, cleared, limits)
        for box in self.boxes.values():
            box.observe(lambda _: self._answer(), "value")
        for box in (self.cleared, *self.limits.values()):
            box.observe(lambda _: self.changed(), "value")

    def _row(self, one):
        """One question with its box."""
        box = w.Dropdown(
            options=[OPEN, *ANSWERS],
            description=one.name,
            layout=w.Layout(width="19.5em", flex="0 0 auto"),
            style={"description_width": "9.5em"},
        )
        told = f'<div style="{TEXT}line-height:1.25"><b>{markup(one.words)}</b> {markup(one.means)}.</div>'
        words = w.HTML(told, layout=w.Layout(flex="1 1 30em"))
        self.boxes[one.name] = box
        return w.HBox([box, words], layout=w.Layout(width="100%", align_items="center"))

    def _answer(self):
        self.is_open = False
        self.changed()

    def put(self, answers, cleared, limits):
        """Show answers, the text and the limits."""
        for name, box in self.boxes.items():
            box.value = answers.get(name) or OPEN
        self.cleared.value = cleared
        for name, box in self.limits.items():
            box.value = name in limits

    @property
    def answers(self):
        """Question -> answer, None where there is none yet."""
        return {name: None if box.value == OPEN else box.value for name, box in self.boxes.items()}

    @property
    def holds(self):
        """Names of the limits that are ticked."""
        return tuple(name for name, box in self.limits.items() if box.value)

    @property
    def is_done(self):
        """Whether nothing here stands in the way of a week."""
        answers = self.answers
        written = "cleared" not in answers.values() or bool(self.cleared.value.strip())
        return written and before_any_week(answers) is None

    def _unfold(self):
        self.is_open = not self.is_open
        self.changed()

    def fold(self, kept):
        """Show the questions, or where ``kept`` is a text that line in their place."""
        with_cleared = "cleared" in self.answers.values() or bool(self.cleared.value or self.holds)
        for part in (self.cleared, self.limit_row):
            part.layout.display = "flex" if with_cleared else "none"
        self.told.value = f'<span style="{TEXT}">{markup(kept)}</span>'
        self.again.description = "Hide the answers" if self.is_open else "See the answers"
        self.asking.layout.display = "none" if kept and not self.is_open else "flex"
        self.folded.layout.display = "flex" if kept else "none"


class WishOrder(w.VBox):
    """Wishes with a tick, the dearest on top, and buttons to move them."""

    def __init__(self, wishes, changed):
        super().__init__(layout=w.Layout(width="100%"))
        self.changed = lambda: None
        self.ticks = {name: tick(f"{name}: {WISHES[name][0]}") for name in WISHES}
        self.ups = [button("▲", lambda place=place: self.move(place), "") for place in range(len(WISHES))]
        self.ups[0].disabled = True
        self.children = [w.HBox([up], layout=WRAP) for up in self.ups]
        self.put(wishes)
        self.changed = changed
        for box in self.ticks.values():
            box.observe(lambda _: self.changed(), "value")

    def put(self, wishes):
        """Show the order; those that are not wished stand below, unticked."""
        self.order = [*wishes, *(name for name in WISHES if name not in wishes)]
        for name, box in self.ticks.items():
            box.value = name in wishes
        self._show()

    @property
    def wishes(self):
        """Names of those ticked, the dearest first, a tuple."""
        return tuple(name for name in self.order if self.ticks[name].value)

    def _show(self):
        for name, up, row in zip(self.order, self.ups, self.children, strict=True):
            up.tooltip = f"{name}: one place up"
            row.children = [up, self.ticks[name]]

    def move(self, place):
        """Move the wish at ``place`` (int, from 0) one place up."""
        if place:
            self.order[place - 1], self.order[place] = self.order[place], self.order[place - 1]
        self._show()
        self.changed()


class PullChoice(w.VBox):
    """Pulls that are preferred or left out: choose one, then say which."""

    def __init__(self, prefer, leave_out, changed):
        names = list(dict.fromkeys(name for one in candidates() for name in (one.family, one.name)))
        assert set(names) >= set(families())
        self.pull = dropdown("Pull", names, names[0], 26)
        self.changed, self.told = changed, line("")
        acts = (
            button("Prefer it", lambda: self._act("prefer"), "this pull is to be in the week"),
            button("Leave it out", lambda: self._act("leave out"), "this pull is not to be in the week"),
            button("Neither", lambda: self._act(""), "take it off both lists"),
        )
        super().__init__([w.HBox([self.pull, *acts], layout=WRAP), self.told])
        self.put(prefer, leave_out)

    def put(self, prefer, leave_out):
        """Show what is preferred and what is left out, names."""
        self.prefer, self.leave_out = tuple(prefer), tuple(leave_out)
        parts = [
            f"{head}: {listed(list(names))}."
            for head, names in (("Preferred", prefer), ("Left out", leave_out))
            if names
        ]
        self.told.value = (
            f'<span style="{TEXT}">{markup(" ".join(parts) or "None is preferred, none left out.")}</span>'
        )

    def _act(self, what):
        name = self.pull.value
        prefer, out = ([one for one in names if one != name] for names in (self.prefer, self.leave_out))
        self.put([*prefer, name] if what == "prefer" else prefer, [*out, name] if what == "leave out" else out)
        self.changed()


class KnownLoads(w.VBox):
    """Loads that the client has lifted, each with its repetitions."""

    def __init__(self, known, carried, changed, refuse):
        self.pull = dropdown("Known load of", [one.name for one in candidates() if not one.own_load], None, 27)
        self.pull.value = self.pull.options[0]
        self.load, self.count = (
            OptionalNumber("[kg]", "load_kg", "9em"),
            OptionalNumber("repetitions", "repetitions", "11em"),
        )
        self.changed, self.refuse, self.told = changed, refuse, line("")
        acts = (
            button("Add", self._add, "use this load for a first load of the same pull"),
            button("Clear", self._clear, "forget all known loads"),
        )
        super().__init__([w.HBox([self.pull, self.load, self.count, *acts], layout=WRAP), self.told])
        self.put(known, carried)

    def first(self, names):
        """List the pulls called ``names`` before the others; the choice stays, unless it was not in the week."""
        every, now = [one.name for one in candidates() if not one.own_load], self.pull.value
        listed_first = [name for name in names if name in every]
        order = [*listed_first, *(name for name in every if name not in listed_first)]
        if order != list(self.pull.options):
            self.pull.options = order
            self.pull.value = now if now in listed_first or not listed_first else order[0]

    def put(self, known, carried):
        """Show some `week.Known`, and what the last log gave, some `week.load.Carried`."""
        self.known, self.carried = tuple(known), tuple(carried)
        words = [f"{one.pull}: {one.load_kg:g} kg for {one.repetitions:g}" for one in self.known]
        told = (
            f"{'; '.join(words)}."
            if words
            else "None yet. A normal set that you have written down will do; do not test a maximum."
        )
        told += f" From the last log: {'; '.join(f'{one.pull}: {one.words}' for one in carried)}." if carried else ""
        self.told.value = f'<span style="{TEXT}">{markup(told)}</span>'

    def _add(self):
        try:
            kg, count = self.load.number, self.count.number
            if kg is None or count is None:
                raise InputError("known", "known load: give the load in kg and how many repetitions it was lifted for")
            one = Known(self.pull.value, kg, count)
        except InputError as error:
            self.refuse(str(error))
            return
        known, carried = ([other for other in loads if other.pull != one.pull] for loads in (self.known, self.carried))
        self.put([*known, one], carried)
        self.changed()

    def _clear(self):
        self.put((), ())
        self.changed()


class StepBoxes(dict):
    """Boxes for the smallest step of load of each piece of equipment; a blank one is the usual step, shown in grey."""

    def __init__(self, given):
        super().__init__((name, OptionalNumber(f"{name} [kg]", "steps", "13em")) for name in steps())
        for name, box in self.items():
            box.placeholder = f"{steps()[name].step_kg:g}"
        self.put(given)

    def put(self, given):
        """Show some steps, a dict of equipment -> kg; the others are blank."""
        for name, box in self.items():
            box.put(given.get(name))

    @property
    def given(self):
        """What was typed: dict of equipment -> kg."""
        return {name: box.number for name, box in self.items() if box.number is not None}
