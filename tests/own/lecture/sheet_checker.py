"""What a run sheet that was read has to obey, checked without the reader's own code: the limits stand here once more."""

import math
import unicodedata

from shoulder_model.checkout import HOME
from shoulder_model.lecture.controls import PANELS, PanelOf
from shoulder_model.lecture.sheet_parts import FigureOf, SectionOf


def text_obeys(text, most, needed=False, lines=False):
    """A text of at most ``most`` characters without anything that cannot be seen."""
    assert isinstance(text, str) and len(text) <= most and (text or not needed) and text == text.strip()
    for character in text:
        assert unicodedata.category(character) != "Cc" or (lines and character in "\n\t"), repr(character)
        assert unicodedata.bidirectional(character) not in (
            "LRE",
            "RLE",
            "LRO",
            "RLO",
            "PDF",
            "LRI",
            "RLI",
            "FSI",
            "PDI",
        ), repr(character)


def minutes_obey(minutes, most):
    assert type(minutes) is float and math.isfinite(minutes) and 0 < minutes <= most


def obeys(sheet):
    """Assert that a `RunSheet` is within all limits."""
    text_obeys(sheet.title, 70, needed=True)
    text_obeys(sheet.audience, 120)
    minutes_obey(sheet.minutes, 480)
    assert sum(step.minutes for step in sheet.steps) <= sheet.minutes * (1 + 1e-6) and 1 <= len(sheet.steps) <= 60
    if sheet.lifter is not None:
        assert sheet.lifter["sex"] in ("men", "women") and set(sheet.lifter) <= {
            "name",
            "sex",
            "stature",
            "mass",
            "biacromial",
        }
        text_obeys(sheet.lifter["name"], 40)
        assert 1.0 < sheet.lifter.get("stature", 1.7) < 2.4 and 20 < sheet.lifter.get("mass", 70) < 250
    for step in sheet.steps:
        step_obeys(step)


def step_obeys(step):
    text_obeys(step.title, 60, needed=True)
    minutes_obey(step.minutes, 480)
    for text, most in ((step.say, 500), (step.reveal, 320), (step.note, 400)):
        text_obeys(text, most, lines=True)
    text_obeys(step.ask, 220)
    assert type(step.quiz) is bool and (2 <= len(step.answers) <= 5 if step.ask else not step.answers)
    for answer in step.answers:
        text_obeys(answer.say, 90, needed=True)
        text_obeys(answer.reply, 160)
        assert type(answer.right) is bool
    assert sum(answer.right for answer in step.answers) in ((1,) if step.quiz else (0, 1))
    assert step.shows or step.say or step.ask or step.reveal
    assert step.shows is None or isinstance(step.shows, (SectionOf, FigureOf, PanelOf))
    if isinstance(step.shows, SectionOf):
        assert (HOME / "workbook" / f"{step.shows.chapter}.ipynb").is_file() and step.shows.section
    if isinstance(step.shows, FigureOf):
        assert (HOME / "figures" / f"{step.shows.name}.svg").is_file()
    if isinstance(step.shows, PanelOf):
        panel_obeys(step.shows)


def panel_obeys(shows):
    assert shows.kind in PANELS and type(shows.keep) is bool and len(shows.sliders) <= 1
    assert not (shows.saved and (shows.pull or shows.start)) and not (shows.then and not shows.keep)
    for values in (shows.start, shows.then):
        for value in values.values():
            assert type(value) in (bool, str, float, int) and (isinstance(value, str) or math.isfinite(value))
