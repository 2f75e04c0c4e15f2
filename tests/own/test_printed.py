"""Names that would steer a page, a picture or a table, wherever somebody may give one: they print as names."""

import re
from xml.etree import ElementTree

import pytest

from shoulder_model.document.html import document_html
from shoulder_model.document.parts import Box, Document, Entry, Fields, Heading, Line, Numbered, Points, Question, Table
from shoulder_model.document.pdf import document_pdf
from shoulder_model.document.scene import Label, Scene
from shoulder_model.evidence import example_trial
from shoulder_model.homework.class_list import read_class
from shoulder_model.lecture.screens import sheet_step
from shoulder_model.lecture.sheet_parts import Answer
from shoulder_model.lecture.sheet_parts import Step as SheetStep
from shoulder_model.panels import EvidencePanel, SessionPanel
from shoulder_model.printed import markup, plain, unsteered
from shoulder_model.week import all_no
from tests.own.document.papers import pages, read, squeezed

HOSTILE = (
    "$x_{$",
    "a$b$c",
    r"\frac{",
    "<b>&amp;\"'</p>",
    "<script>1</script>",
    "{nb} {0}",
    "%s%n",
    "אבי & Ann",
    "=1+1",
)
STEERING = ("a\nb", "a\u202eb\u2066c", "x\x1b[2Jy", "\u200fa\u200e")


@pytest.mark.parametrize("name", HOSTILE + STEERING)
def test_every_part_of_a_document_prints_a_name_as_a_name(name):
    table = Table((name, "b"), ((name, name),), (30, 30))
    question = Question(name, (name,), ((name, ((name, name),)),), None, name, name)
    parts = (
        Fields(((name, name),)), Heading(name), Line(name), Line(name, strong=True), Points((name,)), Box(name, (name,)),
        Entry(name, ((name, name),)), Numbered(name, (name,)), table, question,
    )  # fmt: skip
    document = Document(name, parts, name)
    html = document_html(document)
    texts = read(html).texts
    assert sum(text == unsteered(name) for text in texts) >= 20
    assert not re.search("[\u202e\u2066\u200e\u200f\x1b]", html)
    printed = squeezed("".join(pages(document_pdf(document))))
    if plain(name).isascii():  # writing from the right stands the other way round in a PDF
        assert printed.count(squeezed(plain(name))) >= 20
    picture = ElementTree.fromstring(Scene(name, 50.0, (Label(1, 1, name),)).svg("x"))
    assert unsteered(name) in "".join(picture.itertext()) and picture.get("aria-label") == unsteered(name)


def test_labels_of_an_own_trial_stand_in_the_picture_as_they_are():
    panel = EvidencePanel()
    for name in HOSTILE:
        quoted = name.replace('"', '""')
        panel.open_text(example_trial().replace("2.0 ×", f'"{quoted}"').encode())
        assert panel.picture.said["trouble"] == ""
        for svg in (panel.content("svg").decode(), panel.overlay):
            assert name in "".join(ElementTree.fromstring(svg).itertext()), name
    assert panel.content("png").startswith(b"\x89PNG")


def test_a_clients_name_stands_in_the_planner_as_a_name():
    panel, fresh = SessionPanel(health=all_no()), SessionPanel()
    for name in HOSTILE + STEERING:
        panel.client_name.value = panel.health.cleared.value = name
        assert [label for label, _ in panel.book.who.options] == [plain(name)]
        for html in (panel.week_table.value, panel.health.told.value):
            assert "<script>" not in html and not re.search("[\u202e\u2066\x1b]", html)
        fresh.open_text(panel.content("json"))
        assert fresh.client_name.value == name and fresh.content("json") == panel.content("json")


@pytest.mark.parametrize("name", [name for name in HOSTILE + STEERING if "\x1b" not in name])  # that one is no table
def test_a_name_in_a_class_list_is_read_as_it_prints(name):
    quoted = name.replace('"', '""')
    (student,) = read_class(f'id,name\n1,"{quoted}"\n')
    assert student.name == plain(name)


@pytest.mark.parametrize("name", HOSTILE)
def test_answers_of_a_lecture_stay_text(name):
    step = SheetStep("Step", 2.0, say=name, ask=name, answers=(Answer(name, name, True), Answer("other", "", False)))
    for screen in sheet_step(step, 0, None, ()).screens:
        assert "<script>" not in screen.get("html", "") and "<b>&amp;" not in screen.get("html", "")
        if screen["kind"] == "ask":
            assert screen["question"] == name and screen["answers"][0] == name  # the page sets them as text


def test_markup_is_for_attributes_too():
    assert markup("\"'<&>") == "&quot;&#x27;&lt;&amp;&gt;"
