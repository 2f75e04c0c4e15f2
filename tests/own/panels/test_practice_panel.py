"""The practice panel between its page and the desk. What the desk does: practice/test_desk."""

import json

import pytest

from shoulder_model.panels import PracticePanel
from shoulder_model.panels.keeper import Keeper
from shoulder_model.practice.desk import Desk
from shoulder_model.practice.record import Record


@pytest.fixture
def panel(tmp_path):
    return PracticePanel(Desk(Record(tmp_path / "practice.sqlite")))


def test_what_the_page_sends_reaches_the_desk_and_comes_back_as_a_view(panel):
    assert panel.page.view["screen"] == "home"
    panel.act({"do": "chapter", "value": "03"})
    assert panel.page.view["title"].startswith("Question 1 of") and panel.page.view is not panel.desk
    panel.act({"do": "show"})
    assert panel.page.view["verdict"]["over"]
    json.dumps(panel.page.view)


@pytest.mark.parametrize(
    "content", [{}, {"do": "dance"}, {"do": "answer"}, {"do": "answer", "word": 1}, {"do": "go", "place": "x"}, {"do": "chapter", "value": None}]
)  # fmt: skip
def test_what_makes_no_sense_changes_nothing(panel, content):
    panel.act({"do": "chapter", "value": "03"})
    before = panel.page.view
    panel.act(content)
    assert panel.page.view == before


def test_the_record_goes_to_the_downloads(panel, monkeypatch):
    sent = []
    monkeypatch.setattr(panel.door, "save", lambda *what: sent.append(what))
    panel.act({"do": "today"})
    panel.act({"do": "show"})
    panel.act({"do": "export"})
    ((name, content, mime),) = sent
    assert (name, mime) == ("my-practice.csv", "text/csv") and content.count(b"\n") == 2


def test_a_saved_record_comes_in_by_the_door_which_stands_on_its_page_only(panel, tmp_path):
    other = Desk(Record(tmp_path / "other" / "practice.sqlite"))
    other.act("today")
    other.act("show")
    assert panel.door.layout.display == "none"
    panel.act({"do": "progress"})
    assert panel.door.layout.display is None
    panel.door.receive("x.csv", other.record.export())
    assert panel.page.view["lines"][0].startswith("1 answer taken over")
    panel.act({"do": "home"})
    assert panel.door.layout.display == "none"


def test_a_record_that_the_page_keeps_comes_in_before_anything_can_be_done(monkeypatch):
    panel, sent = PracticePanel(keep="page"), []
    (keeper,) = [one for one in panel.children if isinstance(one, Keeper)]
    monkeypatch.setattr(keeper.shelf, "say", sent.append)
    panel.act({"do": "chapter", "value": "03"})
    assert panel.page.view["title"] == "Fetching your record …" and panel.door.layout.display == "none"
    nothing = {"kind": "rows", "page": "p", "entries": [], "more": False, "version": 0, "aside": 0, "again": "all"}
    keeper._handle_custom_msg(nothing, [])
    assert panel.page.view["screen"] == "home"
    panel.act({"do": "chapter", "value": "03"})
    panel.act({"do": "show"})
    ((step,), (uid, entry)) = sent, sent[0]["rows"][0]
    assert step["kind"] == "add" and uid in entry and json.dumps(step)
    question = panel.page.view
    keeper._handle_custom_msg({"kind": "kept", "step": step["step"], "version": 1}, [])
    assert panel.page.view == question
    assert panel.desk.record.waiting == 0


def test_a_record_in_a_file_has_no_keeper(panel):
    assert not any(isinstance(one, Keeper) for one in panel.children)
