"""The planner as a coach uses it: fourteen invented clients from the first question to the printed page, and back with a log."""

import csv
import io
import json
from pathlib import Path

import pytest

from .lab import Chapter, wait

pytestmark = pytest.mark.browser
QUESTIONS = ("shoulder", "arm", "chest or fainting", "numbness", "dislocation", "surgery", "pregnancy", "low back")
CLIENTS = (  # name, answers that are not "no", who cleared, and what else is set; None: no week is to be had
    ("Ines", {}, "", {"stature [cm]": "171", "mass [kg]": "66", "biacromial [cm]": "37,8"}, True),
    ("Tomas", {}, "", {"Experience": "novice", "only": ("bands", "dumbbells", "sturdy table")}, True),
    ("Lea", {}, "", {"Pull-ups in a row": 2, "only": ("pull-up bar",)}, True),
    ("Marek", {"shoulder": "yes"}, "", {}, None),
    ("Pia", {"low back": "yes"}, "", {"Experience": "advanced", "Days a week": 5}, True),
    ("Ole", {"dislocation": "cleared"}, "surgeon: nothing overhead", {"limit": "nothing overhead"}, True),
    ("Rosa", {"pregnancy": "yes"}, "", {}, None),
    ("Jan", {"chest or fainting": "yes", "numbness": "yes"}, "", {}, None),
    ("Mira", {}, "", {"Days a week": 1, "Experience": "novice"}, True),
    ("Kofi", {}, "", {"Days a week": 6, "Experience": "advanced", "Pull-ups in a row": 15}, True),
    ("Ana", {}, "", {"only": ("dumbbells",), "Experience": "novice"}, True),
    ("Bruno", {}, "", {"only": ("pulldown",)}, True),
    ("Yuki", {"arm": "cleared"}, "physiotherapist: no hanging", {"limit": "no hanging"}, True),
    ("Sven", {}, "", {"only": ()}, None),
)


class Planner:
    """The panel in its page."""

    def __init__(self, chapter):
        self.chapter, self.page = chapter, chapter.page
        self.root = self.page.locator(".pull-panel").first

    @property
    def verdict(self):
        return self.root.locator(".verdict").inner_text()

    @property
    def trouble(self):
        return self.root.locator(".trouble").inner_text()

    def button(self, words):
        return self.root.get_by_role("button", name=words, exact=True)

    def choose(self, label, value):
        self.root.get_by_label(label, exact=True).first.select_option(value)

    def write(self, label, value):
        box = self.root.get_by_label(label, exact=True).first
        box.fill(value)
        box.press("Enter")

    def slide(self, name, value):
        box = (
            self.root.get_by_role("slider", name=name)
            .locator("xpath=ancestor::*[contains(@class, 'pull-slider')]")
            .locator(".number")
        )
        box.fill(str(value))
        box.press("Enter")

    def fold(self, words, shown):
        """Show or hide one of the rows of more controls."""
        toggle = self.button(words)
        if ("mod-active" in toggle.get_attribute("class")) is not shown:
            toggle.click()

    def tick(self, label, on=True):
        self.root.get_by_label(label, exact=True).first.set_checked(on)

    def answer(self, answers):
        for name in QUESTIONS:
            self.choose(name, answers.get(name, "no"))

    def settle(self, words="", without=""):
        wait(lambda: self.chapter.kernel_is_connected(), "the kernel to rest")
        wait(
            lambda: words in self.verdict and (not without or without not in self.verdict),
            f"the verdict to say {words!r}",
        )

    def download(self, words):
        """What a button of "Save and open" hands over, as bytes."""
        with self.page.expect_download() as told:
            self.button(words).click()
        return Path(told.value.path()).read_bytes()


@pytest.fixture(scope="module")
def planner(lab, browser):
    name = lab.add("planner", "from shoulder_model.panels import SessionPanel\nSessionPanel()")
    chapter = Chapter(lab, browser, name)
    chapter.run_everything()
    chapter.page.wait_for_selector(".pull-panel .verdict")
    yield Planner(chapter)
    assert chapter.errors == [] and chapter.outside == []
    chapter.close()


def set_up(planner, settings):
    """Everything about a client that is not health."""
    for name, value in settings.items():
        if name == "Experience":
            planner.choose(name, value)
        elif name.endswith("]"):
            planner.write(name, value)
        elif name == "only":
            planner.fold("Equipment", True)
            labels = planner.root.locator(".widget-checkbox:visible label")
            wait(labels.count, "the equipment to show")
            for box in labels.all():
                words = box.inner_text().strip("\u200b ")
                if words:
                    box.locator("input").set_checked(words in value)
            planner.fold("Equipment", False)
        elif name != "limit":
            planner.slide(name, value)


def filled(blank, repetitions):
    """A blank log as a phone or a spreadsheet fills it in: semicolons, decimal commas, some cells left out."""
    head, *rows = csv.reader(io.StringIO(blank.decode("utf-8-sig")))
    store = io.StringIO()
    sheet = csv.writer(store, delimiter=";")
    sheet.writerow(head)
    for week in (0, 1):
        for row in rows:
            cells = dict(zip(head, row, strict=True))
            done = {
                "date": f"{7 * week + int(cells['day']):02d}.05.2031",
                "load [kg]": "17,5",
                "repetitions": repetitions,
            }
            sheet.writerow((cells | done | {"pain 0-10": "0", "comfort 0-10": "8" if week else ""}).values())
    return store.getvalue().encode("cp1252")


def test_fourteen_clients_from_the_first_question_to_the_page_and_back_with_a_log(planner, tmp_path):
    for place, (name, answers, cleared, settings, planned) in enumerate(CLIENTS):
        if place:
            planner.button("New client").click()
            planner.settle("Health first")
        wait(lambda: not planner.root.locator(".layers").is_visible(), "the last client's picture to go")
        assert not planner.button("Save and open").is_visible()
        planner.write("Name", name)
        planner.answer(answers)
        if cleared:
            wait(lambda: "who cleared" in planner.trouble, "the panel to ask who cleared")
            planner.write("Cleared by whom, with which limits", cleared)
            planner.tick(settings["limit"])
        if {"yes"} & {answer for question, answer in answers.items() if question != "low back"}:
            planner.settle("No week now")
            assert "clinician" in planner.verdict and not planner.root.locator(".layers").is_visible()
            assert not planner.button("Save and open").is_visible()
            continue
        planner.settle("Weekly sets")
        set_up(planner, settings)
        planner.settle("Weekly sets" if planned else "No pull of this workbook")
        if not planned:
            assert not planner.root.locator(".layers").is_visible()
            continue
        wait(lambda: planner.root.locator(".layers").is_visible(), "the picture")
        assert planner.trouble == ""
        planner.fold("Save and open", True)
        page = planner.download("Page HTML").decode()
        assert name in page and page.index("not for diagnosis") < page.index("<table") and "pain" in page
        assert not cleared or cleared in page
        assert planner.download("Page PDF").startswith(b"%PDF")
        (tmp_path / f"{name}.html").write_text(page, encoding="utf-8")
        blank = planner.download("Blank log")
        planner.fold("Save and open", False)
        planner.fold("The log", True)
        log = tmp_path / f"{name}.csv"
        log.write_bytes(filled(blank, 9 if place % 2 else 14))
        planner.root.locator('.file-door input[accept=".csv,.txt"]').set_input_files(log)
        wait(lambda: planner.root.locator(".week-table td:visible").count() > 0, "the verdicts")
        assert planner.trouble == ""
        planner.button("Make the next block").click()
        wait(lambda: planner.button("Make the next block").is_disabled(), "the next block")
        planner.settle("Weekly sets")
        planner.fold("The log", False)
    _saved_and_opened(planner, tmp_path)
    _printed(planner, tmp_path)


def _saved_and_opened(planner, tmp_path):
    """All fourteen in one file, opened again in the same panel."""
    planner.choose("Client", "Ines")
    planner.settle("Weekly sets")
    words = planner.verdict
    planner.fold("Save and open", True)
    saved = planner.download("Save the clients")
    assert [one["name"] for one in json.loads(saved)["clients"]] == [client[0] for client in CLIENTS]
    planner.choose("Client", "Kofi")
    planner.settle("Weekly sets", without=words)
    (tmp_path / "clients.json").write_bytes(saved)
    planner.root.locator('.file-door input[accept=".json"]').set_input_files(tmp_path / "clients.json")
    planner.settle(words)
    planner.fold("Save and open", False)


def _printed(planner, tmp_path):
    """Every page on both papers: nothing is wider than the paper, and every line of the table is there."""
    for path in sorted(tmp_path.glob("*.html")):
        page = planner.page.context.new_page()
        page.goto(path.as_uri())
        page.emulate_media(media="print")
        for wide in (703, 725):  # pixels of 186 and 192 mm, A4 and Letter less 12 mm on either side
            page.set_viewport_size({"width": wide, "height": 1000})
            assert page.evaluate("document.documentElement.scrollWidth") <= wide, path.name
            cut = "all => all.filter(one => one.scrollWidth > one.clientWidth + 1).map(one => one.innerText)"
            assert page.locator("td, th").evaluate_all(cut) == [], path.name
        page.close()
