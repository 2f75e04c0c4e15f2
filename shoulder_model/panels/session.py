"""The session panel: a client in, a week of pulls out, with the reason for each; or why there is none."""

from dataclasses import dataclass
from functools import lru_cache

import ipywidgets as w
import numpy as np

from ..draw.look import at_projector
from ..draw.week import SetBars, WeekView
from ..mechanics import pulls
from ..people import SEXES, Lifter
from ..tables import columns_text
from ..week import COUNTED, GROUPS, HEALTH, Client, Plan, Referral, equipment, fitted_pulls, log_sheet, plan_week, rules
from ..week.candidates import BEHIND
from ..week.page import page_csv, page_html, table_html
from ..week.page_pdf import page_pdf
from ..week.rules import EXPERIENCE
from ..week.wishes import counts_by_name
from ..week.words import CAUTIONS, HONEST, asked_words
from ..words import listed, written
from .panel import PROJECTED_HEIGHT, TEXT, WRAP, MeasureBoxes, Panel, Sheet, dropdown
from .saved import read_values, values_text
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

_week = lru_cache(maxsize=256)(plan_week)  # a slider taken back gives its week at once


@dataclass(frozen=True)
class SessionState:
    """One client and the answer."""

    measures: dict
    client: Client
    answer: object


def tick(words, on=False):
    """A tick box as wide as its words."""
    return w.Checkbox(on, description=words, indent=False, layout=w.Layout(width="auto", margin="0 0.9em 0 0"))


def ticks(head, boxes):
    """A row of tick boxes after a heading."""
    return w.HBox([w.HTML(f'<b style="{TEXT}margin-right:0.7em">{head}</b>'), *boxes], layout=WRAP)


class SessionPanel(Panel):
    """Client, goal, equipment, what to leave out, health ticks.

    Parameters
    ----------
    sex : "men" or "women"
    experience : "novice", "intermediate" or "advanced"
    **measured : float
        ``stature``, ``mass``, ``biacromial`` of the client, as far as measured. [m], [kg]
    """

    page = Sheet(4.0, {"week": [0.003, 0.01, 0.637, 0.98], "sets": [0.752, 0.14, 0.24, 0.76]})
    projected = Sheet(PROJECTED_HEIGHT, {"week": [0.003, 0.01, 0.994, 0.98]})

    def __init__(self, sex="women", experience="intermediate", **measured):
        figure = self.make_figure()
        self._make_controls(sex, experience, measured)
        self.week_table = w.HTML(layout=w.Layout(width="100%"))
        super().__init__("session-panel", figure, self._rows(), self._folded_rows())
        self.follow(
            self.sex, self.experience, self.limit_low_back, self.behind_neck, self.wide_grip,
            *self.measures.values(), *self.sliders.values(),
            *self.there.values(), *self.left_out.values(), *self.health.values(),
        )  # fmt: skip

    def make_views(self, figure):
        """The week, and where there is room its sets as bars."""
        self.view = WeekView(self.sheet.axes(figure, "week"))
        self.bars = SetBars(self.sheet.axes(figure, "sets")) if "sets" in self.sheet.places else None
        self.ghosts = tuple(filter(None, (self.view, self.bars)))

    def _make_controls(self, sex, experience, measured):
        self.sex = dropdown("Client", SEXES, sex, 9.1)
        self.experience = dropdown("Experience", EXPERIENCE, experience, 14)
        self.measures = MeasureBoxes(measured)
        self.sliders = {
            "goal": slider("Goal [% mid-back, the rest lat]", 50, 0, 100, 10),
            "days": slider("Days a week", 3, 2, 5, 1, main=at_projector()),
            "own_weight_repetitions": slider("Pull-ups in a row", 0, 0, 20, 1),
        }
        self.limit_low_back = tick("spare the low back")
        self.behind_neck = tick("allow behind-the-neck pulls")
        self.wide_grip = tick("allow pulldowns wider than 1.5 ×")
        self.limits = {
            "limit_low_back": self.limit_low_back,
            "wide_grip": self.wide_grip,
            "behind_neck": self.behind_neck,
        }
        self.there = {piece: tick(piece, True) for piece in equipment()}
        self.left_out = {name: tick(name) for name in pulls if name != BEHIND}
        self.health = {name: tick(name) for name in HEALTH}

    def _rows(self):
        return [
            w.HBox([self.sex, *self.measures.values(), self.experience], layout=WRAP),
            w.HBox([*self.sliders.values()], layout=WRAP),
            ticks("Health, now or ever:", self.health.values()),
        ]

    def _folded_rows(self):
        return {
            "Equipment": [ticks("There is:", self.there.values())],
            "Leave out, limits": [
                ticks("Leave out:", self.left_out.values()),
                ticks("Limits:", [self.limit_low_back, self.wide_grip, self.behind_neck]),
            ],
            "The week in full": [self.week_table],
        }

    def files(self):
        return {kind: words for kind, (words, _) in PAGES.items()} | super().files()

    def read(self):
        measures, _ = self.measures.read(self.sex.value)
        values = self._values(measures)
        client = self._client(values)
        return SessionState(measures, client, _week(client))

    def _values(self, measures):
        """The controls' values as a set-up stores them; a measure left blank is 0."""
        boxes = dict(self.limits)
        boxes |= {f"has {name}": box for name, box in self.there.items()}
        boxes |= {f"without {name}": box for name, box in self.left_out.items()} | self.health
        return (
            {"sex": self.sex.value, "experience": self.experience.value}
            | {name: measures.get(name, 0.0) for name in self.measures}
            | {name: control.place for name, control in self.sliders.items()}
            | {name: box.value for name, box in boxes.items()}
        )

    def _client(self, values):
        """The client that ``values`` describe; raises `InputError`."""
        measures = {name: values[name] for name in self.measures if values[name]}
        return Client(
            Lifter.from_measures(values["sex"], **measures),
            values["experience"],
            days=values["days"],
            goal=values["goal"] / 100,
            equipment=tuple(name for name in self.there if values[f"has {name}"]),
            leave_out=tuple(name for name in self.left_out if values[f"without {name}"]),
            limit_low_back=bool(values["limit_low_back"]),
            health=tuple(name for name in self.health if values[name]),
            own_weight_repetitions=values["own_weight_repetitions"],
            behind_neck=bool(values["behind_neck"]),
            wide_grip=bool(values["wide_grip"]),
        )

    def draw(self, state):
        self.view.show(state.client, state.answer)
        if self.bars:
            self.bars.show(state.answer)

    def tell(self, state):
        self.week_table.value = self._table_words(state.answer)

    @staticmethod
    def _table_words(answer):
        """The table under the picture with what belongs beside it; nothing where there is no week."""
        told = [CAUTIONS]
        if isinstance(answer, Plan):
            told = [*answer.notes, HONEST, CAUTIONS]
        table = table_html(answer) if isinstance(answer, Plan) else ""
        lines = "".join(f"<p>{line}</p>" for line in told)
        return f'{TABLE_STYLE}<div class="week-table" style="{TEXT}">{table}{lines}</div>'

    def set_up(self, state):
        return asked_words(state.client)

    def verdict(self, state):
        answer = state.answer
        return answer.verdict if isinstance(answer, Plan) else answer.sentence

    def small(self, state):
        answer = state.answer
        if not isinstance(answer, Plan):
            return CAUTIONS
        halves = [(high - low) / 2 for row in answer.rows for _, low, high in row.fitted.shares.values()]
        spread = f"The muscle shares spread by about ± {100 * max(halves):.0f} points."
        return f"{answer.counting} {spread} {CAUTIONS}"

    def brief(self, state):
        return "Start light. Pain, numbness, a past dislocation or surgery: see a licensed clinician."

    def compare(self, state, kept):
        now, was = state.answer, kept.answer
        if not (isinstance(now, Plan) and isinstance(was, Plan)):
            return f"Against the kept one: {_kind(was)} then, {_kind(now)} now."
        change = {name: now.sets[name] - was.sets[name] for name in COUNTED}
        sets = [f"{written(more, 1, sign=True)} sets for the {name}" for name, more in change.items() if more]
        names, before = (dict.fromkeys(row.name for row in answer.rows) for answer in (now, was))
        new, gone = ([name for name in some if name not in other] for some, other in ((names, before), (before, names)))
        pulls_words = [f"new: {listed(new)}" if new else "", f"gone: {listed(gone)}" if gone else ""]
        told = "; ".join(part for part in pulls_words if part) or "the same pulls"
        return f"Against the kept one: {listed(sets) if sets else 'as many sets'}; {told}."

    def table(self, state):
        """Every candidate's numbers; the first column counts the rows of data/week_pulls.csv that can be done."""
        if isinstance(state.answer, Referral):
            return columns_text({"no plan": []})
        fitted = fitted_pulls(state.client.lifter)
        counts = counts_by_name(fitted, rules(state.client.experience))
        planned = state.answer.rows if isinstance(state.answer, Plan) else ()
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
            columns[f"{axis} torque per 10 kg [N m]"] = [one.torque_per_10_kg[place] for one in fitted]
        columns |= {f"a set counts for the {group}": counts[group] for group in COUNTED}
        columns["sets in this week"] = [sum(row.sets for row in planned if row.name == one.name) for one in fitted]
        return columns_text(columns)

    def content(self, kind):
        """The bytes of one kind of file: the page's, or those of every panel."""
        answer = self.state.answer
        if kind == "html":
            return page_html(answer).encode()
        if kind == "pdf":
            return page_pdf(answer)
        if kind == "week.csv":
            return page_csv(answer).encode()
        if kind == "log.csv":
            return (log_sheet(answer) if isinstance(answer, Plan) else page_csv(answer)).encode()
        return super().content(kind)

    def save(self, kind):
        """Hand one file to the browser's downloads."""
        if kind in PAGES:
            self.door.save(f"{self.name}.{kind}", self.content(kind), PAGES[kind][1])
        else:
            super().save(kind)

    def setup(self, state):
        return values_text(self.name, self._values(state.measures))

    def apply(self, text):
        flags = {name: (False, True) for name, value in self._values({}).items() if isinstance(value, bool)}
        limits = {name: (control.min, control.max) for name, control in self.sliders.items()}
        measured = dict.fromkeys(self.measures, (0.0, 1000.0))
        allowed = {"sex": SEXES, "experience": EXPERIENCE} | measured | limits | flags
        values = read_values(self.name, text, allowed)
        self._client(values)  # refused before anything moves
        self.sex.value, self.experience.value = values["sex"], values["experience"]
        self.measures.put({name: values[name] or None for name in self.measures})
        for name, control in self.sliders.items():
            control.value = values[name]
        for prefix, boxes in (("", self.limits), ("has ", self.there), ("without ", self.left_out), ("", self.health)):
            for name, box in boxes.items():
                box.value = bool(values[f"{prefix}{name}"])


def _kind(answer):
    """What an answer is, in a word."""
    return {"Plan": "a week", "Clash": "wishes that clash", "Referral": "a referral"}[type(answer).__name__]
