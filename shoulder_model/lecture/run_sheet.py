"""Run sheets: the plan of a lecture, step by step, in a small TOML file that a tutor writes with any editor.

What is wrong with a sheet is said in one line: file, line, what is wrong, what to do. Nothing in a sheet is run or formatted,
and only ``saved`` names a file, in the sheet's own folder.
"""

import tomllib
from dataclasses import dataclass
from difflib import get_close_matches
from functools import cache
from pathlib import Path

from ..checkout import HOME
from ..inputs import InputError
from ..lesson import titles
from ..mechanics import pulls
from ..people import SEXES, Lifter
from .controls import PANELS, PULLED, PanelOf, known_controls, refusal
from .toml_text import Places, Wrong, file_text, hidden, is_number, one_line, tables

SHEETS, TEMPLATE = Path(__file__).parent / "sheets", "template.toml"
LONGEST, MOST_STEPS, LONGEST_ERROR = 480, 60, 300  # minutes; steps; characters
SIGNS = {  # how long a text may be
    "audience": 120, "name": 40, "say": 500, "ask": 220, "reveal": 320, "note": 400, "reply": 160,
}  # fmt: skip
SHEET_TITLE, STEP_TITLE, ANSWER = 70, 60, 90
SHOWS = ("section", "figure", "panel")
SHEET_KEYS = ("title", "minutes", "audience", "lifter", "step")
LIFTER_KEYS = ("name", "sex", "stature_cm", "mass_kg", "biacromial_cm")
STEP_KEYS = ("title", "minutes", "say", "ask", "answers", "reveal", "note", "quiz", *SHOWS)
ANSWER_KEYS = ("say", "reply", "right")
PANEL_KEYS = ("kind", "pull", "start", "keep", "then", "sliders", "saved")
IN_ONE_SI = {"stature_cm": ("stature", 100.0), "mass_kg": ("mass", 1.0), "biacromial_cm": ("biacromial", 100.0)}


class RunSheetError(InputError):
    """A run sheet that cannot be used; its text is one line: file, line, what is wrong, what to do."""


@dataclass(frozen=True)
class Answer:
    """One of the answers to a question: what it ``say`` s (str), the ``reply`` to it (str), whether it is ``right``."""

    say: str
    reply: str = ""
    right: bool = False


@dataclass(frozen=True)
class SectionOf:
    """A chapter's section: names of both (str), the section by its number or title."""

    chapter: str
    section: str


@dataclass(frozen=True)
class FigureOf:
    """One of the project's figures, by its ``name`` (str)."""

    name: str


@dataclass(frozen=True)
class Step:
    """One step of a lecture; texts are str, empty where there is none, and ``minutes`` a float.

    ``answers`` is a tuple of `Answer`, and ``shows`` a `SectionOf`, a `FigureOf`, a `PanelOf` or None.
    """

    title: str
    minutes: float
    say: str = ""
    ask: str = ""
    answers: tuple = ()
    reveal: str = ""
    note: str = ""
    quiz: bool = False
    shows: object = None


@dataclass(frozen=True)
class RunSheet:
    """The plan of a lecture.

    ``lifter`` is whose body the panels show: a dict with ``name``, ``sex`` and the measures in SI units by the names of
    `Lifter`, or None. ``steps`` is a tuple of `Step`. ``name`` (str) is what `read_run_sheet` reads it by.
    """

    title: str
    minutes: float
    audience: str
    lifter: dict | None
    steps: tuple
    name: str = ""


def sheets():
    """The run sheets that come with the package: name -> title and minutes in words, a dict."""
    found = sorted(path for path in SHEETS.glob("*.toml") if path.name != TEMPLATE)
    read = {path.stem: tomllib.loads(path.read_text(encoding="utf-8")) for path in found}
    return {name: f"{sheet['title']} ({sheet['minutes']:g} minutes)" for name, sheet in read.items()}


def write_template(path):
    """Write a run sheet with every key explained, as text, to ``path`` (path-like).

    Raises
    ------
    InputError
        There is one already, which stays as it is; or it cannot be written there.
    """
    try:
        with Path(path).open("x", encoding="utf-8") as file:
            file.write((SHEETS / TEMPLATE).read_text(encoding="utf-8"))
    except FileExistsError:
        raise InputError(
            "path", f"{one_line(path, 150)} is there already and stays as it is; give another name"
        ) from None
    except (OSError, ValueError) as error:
        said = getattr(error, "strerror", None) or "its name cannot be used"
        raise InputError(
            "path", f"{one_line(path, 150)} cannot be written ({said}); give another name or folder"
        ) from None


def read_run_sheet(name, home=HOME):
    """A run sheet.

    Parameters
    ----------
    name : str or path-like
        Of one that comes with the package, as `sheets` has it, or the path of a file.
    home : path-like
        The folder with the workbook and the figures.

    Returns
    -------
    RunSheet

    Raises
    ------
    RunSheetError
        One line: file, line, what is wrong, what to do.
    """
    path = SHEETS / f"{name}.toml" if str(name) in (*sheets(), "template") else Path(str(name))
    if not path.suffix and not path.exists():
        known = ", ".join(sheets())
        raise RunSheetError(
            "name", one_line(f"no run sheet {str(name)!r}: give a .toml file, or one of {known}", LONGEST_ERROR)
        )
    try:
        text = file_text(path)
    except Wrong as wrong:
        raise _said(path.name, wrong) from None
    return parse_run_sheet(text, path.parent, home, path.name, str(name))


def parse_run_sheet(text, folder, home=HOME, file="run sheet", name=""):
    """A run sheet from its text.

    Parameters
    ----------
    text : str
    folder : path-like
        Where the set-ups lie that it names as saved.
    home : path-like
        The folder with the workbook and the figures.
    file : str
        What to call it where something is wrong.
    name : str
        What `read_run_sheet` reads it by.

    Returns
    -------
    RunSheet

    Raises
    ------
    RunSheetError
        As `read_run_sheet`.
    """
    try:
        text = text.removeprefix("\ufeff")
        return _Reader(text, Path(folder), Path(home)).sheet(tables(text), name)
    except Wrong as wrong:
        raise _said(file, wrong) from None


def _said(file, wrong):
    """What is wrong as the error that callers get."""
    return RunSheetError(
        wrong.field, one_line(f"{one_line(file, 60)}, line {wrong.line}: {wrong.words}", LONGEST_ERROR)
    )


@cache
def _titles(path):
    """Titles of a chapter's sections, read once."""
    return titles(path)


def _near(name, known):
    """A hint at the nearest of the names ``known``."""
    near = get_close_matches(str(name).lower(), known, n=2, cutoff=0.4)
    return f"nearest: {', '.join(near)}" if near else f"known: {', '.join(known)}"


class _Reader:
    """Checks the tables of one sheet and makes its parts; where something is wrong it raises `Wrong` with the line."""

    def __init__(self, text, folder, home):
        self.places, self.folder, self.home = Places(text), folder, home

    def sheet(self, given, name):
        at = _At(self.places, "", 0, "")
        at.keys(given, SHEET_KEYS)
        title, minutes = at.line_of_text(given, "title", SHEET_TITLE), at.minutes(given, LONGEST)
        audience = at.line_of_text(given, "audience", SIGNS["audience"], needed=False)
        lifter = self._lifter(given["lifter"]) if "lifter" in given else None
        steps = given.get("step")
        if (
            not isinstance(steps, list)
            or not 1 <= len(steps) <= MOST_STEPS
            or not all(isinstance(s, dict) for s in steps)
        ):
            at.wrong("step", f"give 1 to {MOST_STEPS} steps, each below a line [[step]]")
        made = tuple(self._step(step, i, lifter) for i, step in enumerate(steps))
        total = sum(step.minutes for step in made)
        if total > minutes * (1 + 1e-9):
            at.wrong(
                "minutes", f"the steps take {total:g} minutes, the sheet has {minutes:g}; shorten steps or give it more"
            )
        return RunSheet(title, minutes, audience, lifter, made, name)

    def _lifter(self, given):
        at = _At(self.places, "lifter", 0, "the lifter")
        at.table(given, "lifter", "give it below a line [lifter]")
        at.keys(given, LIFTER_KEYS)
        person = {"name": at.line_of_text(given, "name", SIGNS["name"], needed=False)}
        person["sex"] = at.one_of(given, "sex", SEXES)
        for key, (name, in_one) in IN_ONE_SI.items():
            if key in given:
                person[name] = round(at.number(given, key) / in_one, 9)  # 0.372 and not 0.37200000000000005
        try:
            Lifter.from_measures(**{name: value for name, value in person.items() if name != "name"})
        except InputError as error:
            key = next((key for key, (name, _) in IN_ONE_SI.items() if name == error.field), "stature_cm")
            at.wrong(key, str(error))
        return person

    def _step(self, given, i, lifter):
        at = _At(self.places, "step", i, f"step {i + 1}")
        at.keys(given, STEP_KEYS)
        texts = {key: at.text(given, key, SIGNS[key]) for key in ("say", "reveal", "note")}
        texts["ask"] = at.line_of_text(given, "ask", SIGNS["ask"], needed=False)
        title, minutes = at.line_of_text(given, "title", STEP_TITLE), at.minutes(given, LONGEST)
        quiz = at.switch(given, "quiz")
        answers = self._answers(given, at)
        if quiz and not any(answer.right for answer in answers):
            at.wrong("quiz", "belongs to the exit quiz; give it ask and answers, one with right = true", " ")
        shown = [key for key in SHOWS if key in given]
        if len(shown) > 1:
            at.wrong(shown[1], f"shows {' and '.join(shown)}; keep one of them", " ")
        if not shown and not (texts["say"] or texts["ask"] or texts["reveal"]):
            at.wrong("", "shows nothing; give say, ask, section, figure or a [step.panel]", " ")
        shows = getattr(self, f"_{shown[0]}")(given, at, lifter) if shown else None
        return Step(title, minutes, answers=answers, quiz=quiz, shows=shows, **texts)

    def _answers(self, given, at):
        if "answers" not in given:
            if "ask" in given:
                at.wrong("ask", "asks without answers; give 2 to 5 answers, or put the question into say", " ")
            return ()
        many = given["answers"]
        if not isinstance(many, list) or not all(isinstance(one, dict) for one in many):
            at.wrong("answers", 'answers look like answers = [ { say = "...", reply = "..." }, ... ]')
        if "ask" not in given:
            at.wrong("answers", "has answers without a question; give ask", " ")
        if not 2 <= len(many) <= 5:
            at.wrong("answers", f"has {len(many)} answer{'s' * (len(many) != 1)}; give 2 to 5", " ")
        made = tuple(self._answer(one, at.entry(j)) for j, one in enumerate(many))
        if sum(answer.right for answer in made) > 1:
            at.wrong("answers", "has more than one right answer; mark one, or none if it asks for an opinion", " ")
        if len({answer.say for answer in made}) < len(made):
            at.wrong("answers", "has the same answer twice; keep one of them", " ")
        return made

    @staticmethod
    def _answer(given, at):
        at.keys(given, ANSWER_KEYS)
        reply = at.line_of_text(given, "reply", SIGNS["reply"], needed=False)
        return Answer(at.line_of_text(given, "say", ANSWER), reply, at.switch(given, "right"))

    def _section(self, given, at, lifter):
        chapter, _, section = at.line_of_text(given, "section", 150).partition(" ")
        chapters = sorted(path.stem for path in (self.home / "workbook").glob("*.ipynb"))
        if chapter not in chapters:
            at.wrong("section", f"no chapter {chapter!r}; {_near(chapter, chapters)}")
        known = _titles(self.home / "workbook" / f"{chapter}.ipynb")
        section = section.strip()
        if not any(section in (title, title.partition(" ")[0]) for title in known):
            at.wrong("section", f"{chapter} has no section {section!r}; it begins with {known[0]!r}")
        return SectionOf(chapter, section)

    def _figure(self, given, at, lifter):
        names = sorted(path.stem for path in (self.home / "figures").glob("*.svg"))
        return FigureOf(at.one_of(given, "figure", names, "figure"))

    def _panel(self, given, at, lifter):
        panel = given["panel"]
        at.table(panel, "panel", "give it below a line [step.panel]")
        at.keys(panel, PANEL_KEYS)
        kind = at.one_of(panel, "kind", tuple(PANELS), "panel")
        if "pull" in panel and kind not in PULLED:
            at.wrong("pull", f"the {kind} panel takes no pull; leave it out")
        if "saved" in panel and ("pull" in panel or "start" in panel):
            at.wrong("saved", "has saved beside pull or start; a saved set-up stands in their place", " ")
        if "then" in panel and not at.switch(panel, "keep"):
            at.wrong("then", "has then without keep; give keep = true", " ")
        pull = at.one_of(panel, "pull", tuple(pulls)) if "pull" in panel else ""
        start, then = (at.values(panel, key, known_controls(kind)) for key in ("start", "then"))
        if pull and "Pull" in start:
            at.wrong("start", "has the pull twice; keep pull = ... and leave Pull out of start", " ")
        sliders, saved = at.sliders(panel, known_controls(kind)), self._saved(panel, at)
        made = PanelOf(kind, pull, start, at.switch(panel, "keep"), then, sliders, saved)
        where, words = refusal(made, lifter)
        if words:
            at.wrong(where if where in panel else "kind", words)
        return made

    def _saved(self, panel, at):
        """The text of the set-up that lies beside the sheet."""
        if "saved" not in panel:
            return ""
        name = at.line_of_text(panel, "saved", 120)
        if any(character in name for character in "/\\:") or name.startswith("."):
            at.wrong("saved", "give the plain name of a file beside the run sheet, without a folder")
        path = self.folder / name
        try:
            if path.resolve().parent != self.folder.resolve():
                at.wrong("saved", f"{name} leads to another folder; put the file itself beside the run sheet")
            return file_text(path)
        except Wrong as wrong:
            if wrong.field == "saved":
                raise
            at.wrong("saved", f"{name}: {wrong.words}")


class _At:
    """Takes values out of one table and says what is wrong with them, and where."""

    def __init__(self, places, table, item, whose, entry=None):
        self.places, self.table_name, self.item, self.whose, self.which = places, table, item, whose, entry

    def entry(self, j):
        """The same for an answer of this step."""
        return _At(self.places, self.table_name, self.item, f"answer {j + 1} of {self.whose}", j)

    def wrong(self, key, words, joint=": "):
        """Raise what is wrong with a key; ``joint`` stands between whose it is and the words."""
        on = {"key": key} if self.which is None else {"key": "answers", "entry": self.which}
        said = f"{self.whose}{joint}{words}" if self.whose else words
        raise Wrong(self.places.line(self.table_name, self.item, **on), said, key or "step")

    def keys(self, given, known):
        for key in given:
            if key not in known:
                self.wrong(key, f"unknown key {one_line(key, 40)!r}; {_near(key, known)}")

    def table(self, given, key, advice):
        if not isinstance(given, dict):
            self.wrong(key, f"{key} is no table; {advice}")

    def text(self, given, key, most):
        """A text that may have several lines; empty where the key is left out."""
        if key not in given:
            return ""
        value = given[key]
        if not isinstance(value, str):
            self.wrong(key, f"{key} is a text; put it in quotes")
        value = value.strip()
        if not value:
            self.wrong(key, f"{key} is empty; write something or leave the key out")
        if len(value) > most:
            self.wrong(key, f"{key} has {len(value)} characters; give at most {most}")
        if any(map(hidden, value)):
            self.wrong(key, f"{key} has a character that cannot be seen; type the text anew instead of pasting it")
        return value

    def line_of_text(self, given, key, most, needed=True):
        """A text of one line."""
        if needed and key not in given:
            self.wrong("", f'{key} is missing; give {key} = "..."')
        value = self.text(given, key, most)
        if "\n" in value or "\t" in value:
            self.wrong(key, f"{key} has several lines or tabs; write it as one line")
        return value

    def one_of(self, given, key, known, called=""):
        value = self.line_of_text(given, key, 80)
        if value not in known:
            self.wrong(key, f"no {called or key} {value!r}; {_near(value, known)}")
        return value

    def number(self, given, key):
        value = given[key]
        if not is_number(value):
            self.wrong(key, f"{key} is a number without quotes, such as 5 or 2.5")
        return float(value)

    def minutes(self, given, most):
        if "minutes" not in given:
            self.wrong("", "minutes is missing; give minutes = 5, for example")
        value = self.number(given, "minutes")
        if not 0 < value <= most:
            self.wrong("minutes", f"minutes = {value:g}; give more than 0, at most {most}")
        return value

    def switch(self, given, key):
        value = given.get(key, False)
        if not isinstance(value, bool):
            self.wrong(key, f"{key} is true or false, without quotes")
        return value

    def values(self, given, key, known):
        """Controls' values by their words without the unit, checked one by one."""
        if key not in given:
            return {}
        self.table(given[key], key, f'write {key} = {{ "Grip" = 1.5, "Load" = 30 }}')
        made = {}
        for words, value in given[key].items():
            name = self._control(key, words, known)
            try:
                made[name] = known[name].checked(name, value)
            except InputError as error:
                self.wrong(key, str(error))
        return made

    def _control(self, key, words, known):
        """A control's name as the panel has it."""
        name = str(words).partition(" [")[0]
        if name not in known:
            self.wrong(key, f"this panel has no {name!r}; {_near(name, tuple(known))}")
        return name

    def sliders(self, given, known):
        names = given.get("sliders", [])
        if not isinstance(names, list) or not all(isinstance(name, str) for name in names) or len(names) > 1:
            self.wrong("sliders", 'sliders names one more slider: sliders = ["Trunk lean"]')
        return tuple(
            self._control("sliders", name, {n: takes for n, takes in known.items() if takes.slider}) for name in names
        )
