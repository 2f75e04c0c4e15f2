"""The lecture's panel without a page: steps and what they show, where it stands, a protocol saved and opened."""

import json
import os
import re
import shutil
import time

import pytest

from shoulder_model.checkout import HOME
from shoulder_model.inputs import InputError
from shoulder_model.lecture import LecturePanel, read_run_sheet
from shoulder_model.lecture.check import check, plan_lines
from shoulder_model.lecture.panel import FORGOTTEN, lecture_name
from shoulder_model.lecture.screens import Stagehand
from shoulder_model.lecture.sheet_parts import SectionOf

SHEET = """
title = "Two steps"
minutes = 10
[[step]]
title = "A panel"
minutes = 4
say = "Read <b>this</b> & [that](https://example.org)."
ask = "Wider?"
answers = [ { say = "more", reply = "Yes.", right = true }, { say = "<i>less</i>" } ]
reveal = "**More.**"
[step.panel]
kind = "grip"
start = { "Grip" = 1.0 }
keep = true
then = { "Grip" = 2.0 }
[[step]]
title = "A section and its guesses"
minutes = 3
section = "00_start 0.1"
[[step]]
title = "Words"
minutes = 2
say = "The end."
reveal = "Really."
"""


@pytest.fixture(scope="module")
def sheet(tmp_path_factory):
    path = tmp_path_factory.mktemp("sheets") / "two.toml"
    path.write_text(SHEET, encoding="utf-8")
    return str(path)


@pytest.fixture
def panel(sheet, tmp_path):
    return LecturePanel(sheet, tmp_path, at_once=True)


def kinds(step):
    return [screen["kind"] for screen in step.screens]


def test_the_question_comes_before_what_answers_it(panel):
    first, second, third = panel.steps
    assert kinds(first) == ["ask", "panel", "answer"] and kinds(third) == ["text", "text"]
    assert kinds(second)[0] == "text" and kinds(second).index("ask") < kinds(second).index("answer")
    assert all(step.ready for step in panel.steps) and len(panel.holder.children) == 1
    ask, _, answer = first.screens
    assert (ask["question"], ask["answers"]) == ("Wider?", ["more", "<i>less</i>"])
    assert (answer["right"], answer["replies"]) == (0, ["Yes.", ""]) and answer["ask"] == ask["name"]
    live = panel.holder.children[0].children[0]
    assert live.sliders["grip_ratio"].value == 2.0 and live.kept.pull.grip_ratio == 1.0


def test_what_a_tutor_wrote_is_shown_and_not_used(panel):
    html = panel.steps[0].screens[0]["html"]
    assert "&lt;b&gt;this" in html and "<a" not in html and "https:" not in html
    assert "<strong>More.</strong>" in panel.steps[0].screens[-1]["html"]


def test_a_chapters_section_has_its_own_guess_and_no_code(panel):
    screens = panel.steps[1].screens
    ask = next(screen for screen in screens if screen["kind"] == "ask")
    answer = next(screen for screen in screens if screen["kind"] == "answer")
    assert ask["answers"][answer["right"]] == "Ana" and sorted(ask["answers"]) == [
        "Ana",
        "Ana and Dov",
        "all three",
        "nobody",
    ]
    text = " ".join(screen.get("html", "") for screen in screens)
    assert "63 cm over 35 cm" in text and "grips[" not in text and "#Notes" not in text


def test_a_section_brings_the_sources_that_it_points_at():
    *told, last = Stagehand().make(SectionOf("03_grip_width", "3.8"), None)
    pointed = set(re.findall(r"\[(\d+)\]", " ".join(screen["html"] for screen in told)))
    assert pointed and set(re.findall(r"<p>\[(\d+)\] ", last["html"])) == pointed
    assert re.search(r"\d{4};\d+", last["html"])


def test_before_anything_is_made_the_first_screens_are_there(sheet):
    class NotYet(LecturePanel):
        def _make_steps(self, sheet, hand):
            return iter(())

    waiting = NotYet(sheet, at_once=True)
    assert [step.ready for step in waiting.steps] == [False, False, True]
    assert kinds(waiting.steps[0]) == ["ask", "wait", "answer"] and kinds(waiting.steps[1]) == ["wait"]


def stands(panel, **more):
    """Tell the panel what the page tells it."""
    votes = {"step 1": [3, 8]}
    panel._answer(
        {"kind": "state", "state": {"at": [1, 0, 0], "votes": votes, "minutes": {"step 1": 2}, "started": 1} | more}
    )


def test_a_kernel_that_starts_again_knows_where_the_lecture_was(panel, sheet, tmp_path):
    stands(panel, date="2026-03-02")
    again = LecturePanel(sheet, tmp_path, at_once=True)
    assert again.progress["at"] == [1, 0, 0] and again.hands.votes == {"step 1": [3, 8]}
    kept = next(tmp_path.glob("*.json"))
    for old in (
        json.dumps(json.loads(kept.read_text()) | {"saved": time.time() - FORGOTTEN - 1}),
        json.dumps(json.loads(kept.read_text()) | {"edition": "another"}),
        "not json", "[]", "{}",
    ):  # fmt: skip
        kept.write_text(old)
        assert LecturePanel(sheet, tmp_path, at_once=True).progress == {}


def test_a_sheet_that_was_changed_begins_anew(panel, sheet, tmp_path):
    stands(panel)
    changed = tmp_path / "two.toml"
    changed.write_text(SHEET.replace("Wider?", "Narrower?"), encoding="utf-8")
    shutil.copy(next(tmp_path.glob("*.json")), LecturePanel(str(changed), tmp_path, at_once=True)._file)
    assert LecturePanel(str(changed), tmp_path, at_once=True).progress == {}
    changed.write_text(SHEET, encoding="utf-8")
    assert LecturePanel(str(changed), tmp_path, at_once=True).progress["votes"] == {"step 1": [3, 8]}


def test_a_full_disk_does_not_stop_the_lecture(panel, monkeypatch):
    monkeypatch.setattr("pathlib.Path.write_text", lambda *_, **__: (_ for _ in ()).throw(OSError(28, "no space left")))
    stands(panel)
    assert panel.hands.votes == {"step 1": [3, 8]}


def test_a_protocol_is_saved_and_opened(panel):
    stands(panel, date="2026-03-02")
    saved = panel.protocol
    assert "Two steps,2026-03-02,2,A panel,Wider?,more,yes,3" in saved
    stands(panel, votes={}, minutes={})
    panel.open_protocol(saved)
    assert panel.progress["votes"] == {"step 1": [3, 8]} and panel.hands.date == "2026-03-02"
    told = []
    panel.deck.send = told.append
    panel.open_protocol("nonsense")
    assert told[0]["kind"] == "said" and "\n" not in told[0]["text"]
    assert panel.progress["votes"] == {"step 1": [3, 8]}


def test_without_a_name_the_page_offers_what_there_is(tmp_path):
    panel, told = LecturePanel(state=tmp_path), []
    panel.deck.send = told.append
    panel._answer({"kind": "ready"})
    names = [name for name, _ in told[0]["offered"]]
    assert names[:2] == ["row_or_pulldown_45", "who_does_the_work_90"] and "03_grip_width" in names
    panel._answer({"kind": "choose", "name": str(tmp_path / "none.toml")})
    assert "none.toml" in told[-1]["text"] and panel.name is None
    panel.at_once = True
    panel._answer({"kind": "choose", "name": "a1_out_of_the_plane"})
    assert panel.title == "a1 Out of the plane" and told[-1]["kind"] == "lecture"
    assert all(step.ready for step in panel.steps) and len(panel.steps) > 3


def test_a_chapter_keeps_its_title_and_places_while_it_is_made():
    class NotYet(LecturePanel):
        def _run_chapter(self, name):
            return iter(())

    waiting, made = NotYet("a1_out_of_the_plane", at_once=True), LecturePanel("a1_out_of_the_plane", at_once=True)
    assert [step.title for step in waiting.steps] == [step.title for step in made.steps]
    assert (waiting.title, waiting.edition) == (made.title, made.edition) and not waiting.steps[1].ready
    assert all(step.screens for step in made.steps)


def test_a_chapter_that_does_not_run_is_said(monkeypatch):
    monkeypatch.setattr(Stagehand, "chapter", lambda *_: 1 / 0)
    (only,) = LecturePanel("a1_out_of_the_plane", at_once=True).steps
    assert "cannot be shown: ZeroDivisionError" in only.screens[0]["html"]


def test_the_launcher_names_the_lecture_from_any_folder(sheet, monkeypatch, tmp_path):
    monkeypatch.chdir(os.path.dirname(sheet))
    assert lecture_name("two.toml") == sheet
    assert (
        lecture_name("03_grip_width") == "03_grip_width" and lecture_name("row_or_pulldown_45") == "row_or_pulldown_45"
    )
    with pytest.raises(InputError, match="no run sheet 'nothing'"):
        lecture_name("nothing")


def test_a_step_that_fails_is_said_and_the_others_stand(sheet, monkeypatch):
    from shoulder_model.lecture import screens

    monkeypatch.setattr(screens, "make_panel", lambda *_: 1 / 0)
    panel = LecturePanel(sheet, at_once=True)
    assert "cannot be shown: ZeroDivisionError: division by zero" in panel.steps[0].screens[1]["html"]
    assert kinds(panel.steps[1]).count("ask") == 1


def test_the_check_makes_every_step_and_says_the_plan(sheet):
    said = []
    assert check(sheet, said.append)
    assert (
        any(re.search(r"^ +4\.0 +3\.0 min  A section and its guesses", line) for line in said) and said[-1] == "Ready."
    )
    assert list(plan_lines(read_run_sheet(sheet)))[-1].endswith("1 of 10 minutes to spare")
    assert str(HOME / "workbook") in said[0]
