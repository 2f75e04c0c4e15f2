"""Checks the tables of a run sheet, one after the other, and makes its parts."""

from functools import cache

from ..checkout import chapter_path
from ..inputs import InputError
from ..lesson import titles
from ..mechanics import pulls
from ..people import SEXES, Lifter
from ..toml_file import Places, Wrong, file_text
from .controls import PANELS, PULLED, PanelOf, known_controls, refusal
from .sheet_parts import Answer, FigureOf, RunSheet, SectionOf, Step
from .sheet_table import Table, near

LONGEST, MOST_STEPS = 480, 60  # minutes; steps
CHARACTERS = {  # how long a text may be
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


@cache
def _titles(path):
    """Titles of a chapter's sections, read once."""
    return titles(path)


class Reader:
    """Checks the tables of one sheet and makes its parts; where something is wrong it raises `toml_file.Wrong` with the line.

    Parameters
    ----------
    text : str
        Of the file.
    folder : path
        Where the set-ups lie that it names as saved.
    home : path
        The checkout.
    """

    def __init__(self, text, folder, home):
        self.places, self.folder, self.home = Places(text), folder, home

    def sheet(self, given, name):
        """The `sheet_parts.RunSheet` of the tables ``given`` (dict); it is read by ``name`` (str)."""
        at = Table(self.places, "", 0, "")
        at.keys(given, SHEET_KEYS)
        title, minutes = at.line_of_text(given, "title", SHEET_TITLE), at.minutes(given, LONGEST)
        audience = at.line_of_text(given, "audience", CHARACTERS["audience"], needed=False)
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
        at = Table(self.places, "lifter", 0, "the lifter")
        at.table(given, "lifter", "give it below a line [lifter]")
        at.keys(given, LIFTER_KEYS)
        person = {"name": at.line_of_text(given, "name", CHARACTERS["name"], needed=False)}
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
        at = Table(self.places, "step", i, f"step {i + 1}")
        at.keys(given, STEP_KEYS)
        texts = {key: at.text(given, key, CHARACTERS[key]) for key in ("say", "reveal", "note")}
        texts["ask"] = at.line_of_text(given, "ask", CHARACTERS["ask"], needed=False)
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
        reply = at.line_of_text(given, "reply", CHARACTERS["reply"], needed=False)
        return Answer(at.line_of_text(given, "say", ANSWER), reply, at.switch(given, "right"))

    def _section(self, given, at, lifter):
        chapter, _, section = at.line_of_text(given, "section", 150).partition(" ")
        chapters = sorted(path.stem for path in (self.home / "workbook").glob("*.ipynb"))
        if chapter not in chapters:
            at.wrong("section", f"no chapter {chapter!r}; {near(chapter, chapters)}")
        known = _titles(chapter_path(self.home, chapter))
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
