"""The session panel: health first, then a client in and the nearest week of pulls out, with the reason for each."""

from dataclasses import dataclass
from functools import lru_cache

import ipywidgets as w
import numpy as np

from ..document.html import PAPERS
from ..draw.look import at_phone, at_projector
from ..draw.week import DayList, SetBars, WeekView
from ..inputs import InputError
from ..people import SEXES, Lifter
from ..printed import markup
from ..tables import number_rows
from ..training.log import blank_rows
from ..week import COUNTED, GROUPS, Client, Plan, all_no, by_pull, equipment, fitted_pulls, plan_week
from ..week.record import client_of, read_records, record_of
from ..week.rules import EXPERIENCE
from ..week.words import CAUTIONS, HONEST, asked_words, health_words, pull_line
from ..week_page.csv_text import page_rows
from ..week_page.html import page_html, table_html
from ..week_page.pdf import page_pdf
from ..words import listed, written
from .client_book import ClientBook
from .client_parts import HealthAsk, KnownLoads, PullChoice, StepBoxes, WishOrder, line, tick, ticks
from .log_return import LogReturn
from .panel import PROJECTED_HEIGHT, TEXT, WRAP, MeasureBoxes, Panel, Sheet, dropdown, own_wrap
from .slider import slider

PAGES = {  # kind of file -> button, MIME type
    "html": ("Page HTML", "text/html"),
    "pdf": ("Page PDF", "application/pdf"),
    "week.csv": ("Week as table", "text/csv"),
    "log.csv": ("Blank log", "text/csv"),
}
TABLE_STYLE = (
    "<style>.week-table table{border-collapse:collapse;width:99.5%;font-size:0.93em;line-height:1.35}"
    ".week-table th,.week-table td{border:1px solid #8a8a8a;padding:.25em .4em;text-align:left;vertical-align:top}"
    ".week-table thead th{background:#ece6df;color:#000}</style>"
)
ASKED = "Health questions asked and answered."
NO_WEEK = "week: there is none to save; answer the health questions, or mend the entry that is named"

_week = lru_cache(maxsize=256)(plan_week)  # a slider taken back gives its week at once


@dataclass(frozen=True)
class SessionState:
    """One client with what was measured, and the answer."""

    measures: dict
    client: Client
    answer: object


class SessionPanel(Panel):
    """Health questions; then client, goal, equipment, wishes, known loads, log.

    Parameters
    ----------
    sex : "men" or "women"
    experience : "novice", "intermediate" or "advanced"
    health : dict of question -> answer, optional
        Of a client who has been asked already; without it the questions stand open and there is no week.
    name : str
        As it is to stand on the page.
    **measured : float
        ``stature``, ``mass``, ``biacromial`` of the client, as far as measured. [m], [kg]
    """

    page = Sheet(4.0, {"week": [0.003, 0.01, 0.637, 0.98], "sets": [0.752, 0.14, 0.24, 0.76]})
    projected = Sheet(PROJECTED_HEIGHT, {"week": [0.003, 0.01, 0.994, 0.98]})
    phone = Sheet.phone(624, {"week": [1, 214, 304, 408], "sets": [104, 33, 194, 158]})

    def __init__(self, sex="women", experience="intermediate", *, health=None, name="", **measured):
        figure = self.make_figure()
        answers = health if health is not None else (all_no() if at_projector() else {})
        start = Client(Lifter.from_measures(sex, **measured), experience, days=3, health=answers, name=name)
        self.book = ClientBook(record_of(start, measured), self._put)
        self._make_controls(start, measured)
        self.week_table = w.HTML(layout=w.Layout(width="100%"))
        super().__init__("session-panel", figure, self._rows(), self._folded_rows())
        self.follow(
            self.sex, self.experience, self.behind_neck, self.wide_grip, self.client_name,
            *self.measures.values(), *self.sliders.values(), *self.there.values(), *self.steps.values(),
        )  # fmt: skip

    def make_views(self, figure):
        """The week, and where there is room its sets as bars."""
        self.view = (DayList if at_phone() else WeekView)(self.sheet.axes(figure, "week"))
        self.bars = SetBars(self.sheet.axes(figure, "sets")) if "sets" in self.sheet.places else None
        self.ghosts = tuple(filter(None, (self.view, self.bars)))

    def _make_controls(self, client, measured):
        self.health = HealthAsk(client.health, client.cleared, client.limits, self.update)
        self.sex = dropdown("Sex", SEXES, client.lifter.sex, 9.1)
        self.experience = dropdown("Experience", EXPERIENCE, client.experience, 14)
        self.measures = MeasureBoxes(measured)
        self.client_name = w.Text(
            client.name, description="Name", continuous_update=False, style={"description_width": "initial"},
            layout=w.Layout(width="12em"),
        )  # fmt: skip
        self.sliders = {
            "goal": slider("Goal [% mid-back, the rest lat]", 100 * client.goal, 0, 100, 10),
            "days": slider("Days a week", client.days, 1, 6, 1, main=at_projector()),
            "own_weight_repetitions": slider("Pull-ups in a row", client.own_weight_repetitions, 0, 30, 1),
        }
        self.behind_neck, self.wide_grip = tick("allow behind-the-neck pulls"), tick("allow pulldowns wider than 1.5 ×")
        self.there = {piece: tick(piece, piece in client.equipment) for piece in equipment()}
        self.steps = StepBoxes(client.steps)
        self.wishes = WishOrder(client.wishes, self.update)
        self.choice = PullChoice(client.prefer, client.leave_out, self.update)
        self.known = KnownLoads(client.known, client.carried, self.update, self.refuse)
        self.log_return, self.hurt = LogReturn(self), client.hurt
        self.paper = dropdown("Paper", PAPERS, PAPERS[0], 9)

    def _rows(self):
        self.planner = (
            w.HBox([self.sex, *self.measures.values(), self.experience], layout=own_wrap()),
            w.HBox([*self.sliders.values()], layout=own_wrap()),
        )
        return [w.HBox([self.book, self.client_name], layout=WRAP), self.health, *self.planner]

    def _folded_rows(self):
        return {
            "Equipment": [ticks("There is:", self.there.values()), ticks("Smallest step:", self.steps.values())],
            "Pulls": [self.choice, ticks("Allowed:", [self.wide_grip, self.behind_neck])],
            "Wishes": [line("The first weighs most: one step short of it counts as two of the next."), self.wishes],
            "Loads": [self.known],
            "The log": [self.log_return],
            "The week in full": [self.week_table],
        }

    def _save_rows(self):
        return [*super()._save_rows(), w.HBox([self.paper], layout=WRAP)]

    def files(self):
        return {kind: words for kind, (words, _) in PAGES.items()} | super().files() | {"json": "Save the clients"}

    def read(self):
        measures, lifter = self.measures.read(self.sex.value)
        client = Client(
            lifter,
            self.experience.value,
            days=self.sliders["days"].place,
            goal=self.sliders["goal"].place / 100,
            health=self.health.answers,
            cleared=self.health.cleared.value,
            limits=self.health.holds,
            equipment=tuple(piece for piece, box in self.there.items() if box.value),
            leave_out=self.choice.leave_out,
            prefer=self.choice.prefer,
            own_weight_repetitions=self.sliders["own_weight_repetitions"].place,
            behind_neck=self.behind_neck.value,
            wide_grip=self.wide_grip.value,
            wishes=self.wishes.wishes,
            known=self.known.known,
            carried=self.known.carried,
            steps=self.steps.given,
            hurt=self.hurt,
            name=self.client_name.value,
        )
        return SessionState(measures, client, _week(client))

    def draw(self, state):
        if state is None:
            return
        self.view.show(state.client, state.answer)
        if self.bars:
            self.bars.show(state.answer)

    def tell(self, state):
        self.book.keep(record_of(state.client, state.measures))
        self._show_parts(state.answer)
        self.week_table.value = self._table_words(state.answer)
        self.log_return.follow(state)
        if isinstance(state.answer, Plan):
            self.known.first([row.name for row, _ in by_pull(state.answer)])

    def wrong_entry(self):
        """No week stays on the screen, and nothing can be saved, while an entry is wrong."""
        self.state = None
        self.picture.said = self.picture.said | {"verdict": "", "small": "", "words": ""}
        self.picture.say()
        self._show_parts(None)
        self.week_table.value = ""

    def _show_parts(self, answer):
        """What is in sight: the questions while there is no week for them, else the planner with its picture."""
        planned, asked = isinstance(answer, Plan), self.health.is_done
        self.health.fold(health_words(answer.client) if planned else ASKED if asked else "")
        for part in (*self.planner, self.buttons):
            part.layout.display = None if planned or asked else "none"
        (self.remove_class if planned else self.add_class)("no-week")
        self.keep_button.disabled = not planned

    @staticmethod
    def _table_words(answer):
        """The table under the picture with what belongs beside it; nothing where there is no week."""
        if not isinstance(answer, Plan):
            return ""
        lines = "".join(f"<p>{markup(words)}</p>" for words in (*CAUTIONS, *answer.notes, HONEST))
        why = "".join(f"<li>{markup(pull_line(row))}</li>" for row, _ in by_pull(answer))
        return f'{TABLE_STYLE}<div class="week-table" style="{TEXT}">{lines}{table_html(answer)}<ul>{why}</ul></div>'

    def set_up(self, state):
        return asked_words(state.client)

    def verdict(self, state):
        answer = state.answer
        return answer.verdict if isinstance(answer, Plan) else "\n".join(answer.lines)

    def small(self, state):
        answer = state.answer
        if not isinstance(answer, Plan):
            return ""
        return " ".join([*(answer.short or [answer.counting]), CAUTIONS[1]])

    def brief(self, state):
        return "Health questions come first. Start light. Pain or numbness: stop, and see a licensed clinician."

    def compare(self, state, kept):
        now, was = state.answer, kept.answer
        if not isinstance(now, Plan):
            return "\n".join(now.lines)
        change = {name: now.sets[name] - was.sets[name] for name in COUNTED}
        sets = [f"{written(more, 1, sign=True)} sets for the {name}" for name, more in change.items() if more]
        names, before = (dict.fromkeys(row.name for row in answer.rows) for answer in (now, was))
        new, gone = ([name for name in some if name not in other] for some, other in ((names, before), (before, names)))
        pulls_words = [f"new: {listed(new)}" if new else "", f"gone: {listed(gone)}" if gone else ""]
        told = "; ".join(part for part in pulls_words if part) or "the same pulls"
        missed = f" Misses: {'; '.join(now.misses)}." if now.misses else ""
        return f"Against the kept one: {listed(sets) if sets else 'as many sets'}; {told}.{missed}"

    def table(self, state):
        """The numbers of every pull that could have been chosen; the first column counts them."""
        answer, fitted = state.answer, fitted_pulls(state.client.lifter, state.answer.candidates)
        columns = {
            "row": np.arange(1, len(fitted) + 1),
            "grip [cm]": [one.grip_cm for one in fitted],
            "grip ratio": [one.pull.grip_ratio for one in fitted],
            "trunk lean [deg]": [np.degrees(one.pull.trunk_lean) for one in fitted],
        }
        for group in GROUPS:
            for place, end in enumerate(("", " low", " high")):
                columns[f"{group} share{end} [%]"] = [100 * one.shares[group][place] for one in fitted]
        for place, axis in enumerate(("adduction", "extension", "horizontal abduction")):
            columns[f"{axis} torque for 10 kg a hand [N m]"] = [one.torque_per_hand[place] for one in fitted]
        for group in COUNTED:
            columns[f"a set counts for the {group}"] = [one.counts(answer.rules)[group] for one in fitted]
        columns["sets in this week"] = [sum(row.sets for row in answer.rows if row.name == one.name) for one in fitted]
        return number_rows(columns)

    def content(self, kind):
        """The bytes of one kind of file; `InputError` where there is no week."""
        if kind == "json":
            return self.book.text.encode()
        answer = None if self.state is None else self.state.answer
        if not isinstance(answer, Plan):
            raise InputError("week", NO_WEEK)
        shown = answer if self.kept is None else (self.kept.answer, answer)
        if kind == "html":
            return page_html(shown, paper=self.paper.value).encode()
        if kind == "pdf":
            return page_pdf(shown, paper=self.paper.value)
        if kind == "week.csv":
            return self.csv(page_rows(answer))
        if kind == "log.csv":
            return self.csv(blank_rows(answer))
        return super().content(kind)

    def save(self, kind):
        """Hand one file to the browser's downloads; where there is no week, one line says so."""
        try:
            if kind in PAGES:
                self.door.save(f"{self.name}.{kind}", self.content(kind), PAGES[kind][1])
            else:
                super().save(kind)
        except InputError as error:
            self.refuse(str(error))

    def put_client(self, client):
        """Show a changed ``client`` (`week.Client`) in place of the present one."""
        measures, shown = self.measures.read(self.sex.value)
        if client.lifter != shown:
            measures = {name: getattr(client.lifter, name) for name in self.measures}
        self._put(record_of(client, measures))

    def setup(self, state):
        return self.book.text

    def checked(self, content):
        records, shown = read_records(content)
        for place, record in enumerate(records, 1):
            most = self.sliders["own_weight_repetitions"].max
            if record.get("own_weight_repetitions", 0) > most:
                why = f"own_weight_repetitions is over {most:g}, where this panel's slider ends"
                raise InputError("own_weight_repetitions", f"client {place}: {why}")
        return records, shown

    def put(self, checked):
        self._controls_to(self.book.take(*checked))

    def _put(self, record):
        """Show a client's record, and forget what was kept of another."""
        with self.quiet():
            self._controls_to(record)
        self.kept = None
        for artist in self.ghosts:
            artist.drop()
        self.update()

    def _controls_to(self, record):
        """Take every control to a record that has been checked."""
        client = client_of(record)
        self.hurt = client.hurt
        self.measures.put(record.get("measures", {}))
        for control, value in (
            (self.sex, client.lifter.sex), (self.experience, client.experience), (self.client_name, client.name),
            (self.behind_neck, client.behind_neck), (self.wide_grip, client.wide_grip),
            (self.sliders["goal"], round(100 * client.goal, 9)), (self.sliders["days"], client.days),
            (self.sliders["own_weight_repetitions"], client.own_weight_repetitions),
            *((box, piece in client.equipment) for piece, box in self.there.items()),
        ):  # fmt: skip
            control.value = value
        self.steps.put(client.steps)
        self.health.put(client.health, client.cleared, client.limits)
        self.wishes.put(client.wishes)
        self.choice.put(client.prefer, client.leave_out)
        self.known.put(client.known, client.carried)
