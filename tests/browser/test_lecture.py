"""The lecture as a tutor gives it: by keyboard, with hands, forward and back, over a kernel that stops; nothing off the screen."""

import csv
import json
import re
from pathlib import Path

import psutil
import pytest

from shoulder_model.lecture import read_run_sheet

from .accessibility import faults
from .lab import Lab, reader, wait

pytestmark = pytest.mark.browser
SHORT, LONG = "row_or_pulldown_45", "who_does_the_work_90"
LETTERS = 24  # pixels of 720: 18 points on a slide 13.33 inches wide
MEASURE = """([root, least]) => {
  const screen = root.getBoundingClientRect(), zoom = screen.width / 1280, out = [], small = [];
  const holders = ".lecture-body, .lecture-panel, .lecture-head, .lecture-foot";
  const texts = document.createTreeWalker(root, NodeFilter.SHOW_TEXT);
  for (let node = texts.nextNode(); node; node = texts.nextNode()) {
    const parent = node.parentElement;
    if (!node.textContent.trim() || parent.closest(".spoken, style, option, .lecture-door input, title")) continue;
    const range = document.createRange();
    range.selectNodeContents(node);
    const box = range.getBoundingClientRect();
    if (!box.width || !box.height || getComputedStyle(parent).visibility === "hidden") continue;
    const svg = parent.closest("svg"), holder = (parent.closest(".lecture-said") ?? parent).closest(holders + ", .lecture-said")?.getBoundingClientRect() ?? screen;
    const room = { left: Math.max(holder.left, screen.left), right: Math.min(holder.right, screen.right),
                   top: Math.max(holder.top, screen.top), bottom: Math.min(holder.bottom, screen.bottom) };
    if (box.left < room.left - 2 || box.right > room.right + 2 || box.top < room.top - 2 || box.bottom > room.bottom + 2)
      out.push([node.textContent.trim().slice(0, 60), ...[box.left, box.top, box.right, box.bottom].map(Math.round)].join(" "));
    const size = parseFloat(getComputedStyle(parent).fontSize);
    const drawn = svg ? size * svg.getBoundingClientRect().width / svg.viewBox.baseVal.width : size * zoom;
    if (/\\p{L}/u.test(node.textContent) && drawn < least * zoom - 0.3) small.push(`${node.textContent.trim().slice(0, 60)} ${(drawn / zoom).toFixed(1)}`);
  }
  for (const part of root.querySelectorAll("button, input, select, .pull-picture .layers, svg.picture")) {
    const box = part.getBoundingClientRect();
    if (!box.width || !box.height || part.closest(".file-door")) continue;
    if (box.left < screen.left - 2 || box.right > screen.right + 2 || box.top < screen.top - 2 || box.bottom > screen.bottom + 2)
      out.push(part.className.baseVal ?? part.className ?? part.nodeName);
  }
  return { out, small };
}"""


class Lecture:
    """The lecture's page in a browser."""

    def __init__(self, lab, browser, width=1280, height=720):
        self.lab = lab
        self.page = reader(browser, width, height).new_page()
        self.errors = []
        self.page.on("pageerror", lambda error: self.errors.append(str(error)))
        self.page.goto(f"{lab.address}/doc/tree/shoulder_model/lecture/lecture.ipynb?token={lab.token}")
        self.page.wait_for_selector(".lecture.open h1")

    def press(self, *keys):
        for key in keys:
            self.page.keyboard.press(key)

    def settle(self):
        """Wait until what this screen shows has been made."""
        wait(lambda: "still being made" not in self.words, "this step to be made")
        if self.page.locator(".lecture-panel.shown").count():
            self.page.locator('.lecture-panel.shown svg[role="img"] *').first.wait_for(state="attached")

    @property
    def words(self):
        """All that stands in the middle of the screen."""
        return self.page.locator(".lecture-body").inner_text() + " ".join(
            self.page.locator(".lecture-panel.shown .verdict").all_inner_texts()
        )

    @property
    def title(self):
        return self.page.locator(".lecture-head h2").inner_text()

    @property
    def clock(self):
        return self.page.locator(".lecture-clock").inner_text()

    @property
    def where(self):
        return self.page.locator(".lecture-where").inner_text()

    @property
    def asks(self):
        """How many answers take hands now."""
        return self.page.locator(".lecture-body .hands").count()

    @property
    def at_the_end(self):
        return self.page.locator(".lecture-end").count() == 1

    def resize(self, width, height):
        """Another size of the page, in pixels, once it is laid out."""
        self.page.set_viewport_size({"width": width, "height": height})
        self.page.evaluate("() => new Promise(done => requestAnimationFrame(() => requestAnimationFrame(done)))")

    def measure(self):
        """Texts off the screen, and letters that are too small, as they stand now."""
        return self.page.evaluate(f"least => ({MEASURE})([document.querySelector('.lecture'), least])", LETTERS)

    def kept(self):
        """Whether the kernel has kept what the page knows of where the lecture stands."""
        seen = json.loads(self.page.evaluate("sessionStorage.getItem('workbook-lecture')"))
        files = Path(self.lab.folder.name, ".lab", "lecture").glob("*.json")
        return seen["state"] in [json.loads(one.read_text(encoding="utf-8"))["progress"] for one in files]

    def kernel(self):
        """The kernel's process."""
        kernels = [
            one
            for one in psutil.Process(self.lab.server.pid).children(recursive=True)
            if "ipykernel" in " ".join(one.cmdline())
        ]
        return kernels[0]

    def stop_the_kernel(self):
        """Kill it; the page goes on meanwhile, and a new one takes its place."""
        self.page.wait_for_timeout(400)
        self.page.evaluate("document.querySelector('.lecture').dataset.old = 'yes'")
        self.kernel().kill()
        self.press("PageDown", "PageUp")
        self.page.wait_for_selector(".lecture.open:not([data-old]) .lecture-where")
        wait(lambda: self.page.locator(".lecture.open").count() == 1 and self.where, "the lecture to go on")

    def close(self):
        self.page.context.close()
        for session in self.lab.get("/api/sessions") or []:
            self.lab.request(f"/api/sessions/{session['id']}", method="DELETE")


@pytest.fixture(scope="module")
def short(browser):
    server = Lab(lecture=SHORT)
    yield server
    server.stop()


@pytest.fixture(scope="module")
def long(browser):
    server = Lab(lecture=LONG)
    yield server
    server.stop()


def count_hands(lecture, votes):
    """Type a number of hands for each answer in sight, by its letter."""
    for letter, count in zip("abcde", votes, strict=False):
        lecture.press(letter, *str(count), "Enter")


def test_a_lecture_by_keyboard_with_hands_back_a_skip_and_a_kernel_that_stops(short, browser, tmp_path):
    sheet, lecture = read_run_sheet(SHORT), Lecture(short, browser)
    asked, stopped, skipped, titles = 0, False, None, []
    assert sheet.title in lecture.words and lecture.clock == ""
    while not lecture.at_the_end:
        lecture.press("PageDown")
        titles += [lecture.title] if lecture.title not in titles else []
        if lecture.asks:
            asked += 1
            count_hands(lecture, range(asked, asked + lecture.asks))
            typed = lecture.page.locator(".hands input").evaluate_all("all => all.map(one => one.value)")
            assert typed == [str(asked + place) for place in range(lecture.asks)]
        if asked == 2 and not stopped:  # back and forward again: the hands are still there
            here = lecture.where, lecture.title
            lecture.press("PageUp", "PageUp", "PageDown", "PageDown")
            assert (lecture.where, lecture.title) == here
            lecture.stop_the_kernel()
            stopped = True
            assert (lecture.where, lecture.title) == here
            lecture.settle()
        elif asked == 3 and skipped is None:
            skipped = lecture.title
            lecture.press("s")
            assert lecture.title != skipped
    assert stopped and [title.removeprefix("Exit quiz: ") for title in titles[:-1]] == [
        step.title for step in sheet.steps
    ]
    assert re.search(r"\d+ of \d+ right", lecture.words)
    assert lecture.errors == []
    check_protocol(lecture, sheet, tmp_path)
    lecture.close()


def save_protocol(lecture, path):
    """Save the protocol as a reader does; returns its text."""
    with lecture.page.expect_download() as download:
        lecture.page.get_by_role("button", name="Save the protocol").click()
    download.value.save_as(path)
    return path.read_text(encoding="utf-8")


def to_the_end(lecture):
    """By the list of steps to the last one, and on."""
    lecture.press("o")
    lecture.page.locator(".steps button").last.click()
    while not lecture.at_the_end:
        lecture.press("PageDown")


def check_protocol(lecture, sheet, folder):
    """Save the protocol, forget everything, open it again, and save the same once more."""
    saved = save_protocol(lecture, folder / "class.csv")
    rows = list(csv.DictReader(saved.splitlines()))
    questions = [step.ask for step in sheet.steps if step.ask]
    assert {row["question"] for row in rows} <= set(questions)
    assert len({row["question"] for row in rows}) >= len(questions) - 1
    assert [row["votes"] for row in rows[:2]] == ["1", "2"] and all(row["minute"].isdigit() for row in rows[:2])
    lecture.page.get_by_role("button", name="Begin anew").click()
    lecture.page.get_by_role("button", name="Hands and clock will be forgotten").click()
    wait(lambda: sheet.title in lecture.words, "the first screen")
    to_the_end(lecture)
    assert "No hands were counted." in lecture.words
    (folder / "older.csv").write_text(re.sub(r"\d{4}-\d\d-\d\d", "2025-11-03", saved), encoding="utf-8")
    lecture.page.locator(".lecture-door input").set_input_files(folder / "older.csv")
    wait(lambda: sheet.title in lecture.words, "the protocol to open")
    to_the_end(lecture)
    assert re.search(r"\d+ of \d+ right", lecture.words) and lecture.clock == ""
    assert save_protocol(lecture, folder / "again.csv") == (folder / "older.csv").read_text(encoding="utf-8")


def test_nothing_is_off_the_screen_and_letters_are_large(long, browser):
    """Every screen of a run sheet at both sizes of a projector, and with the tutor's note over it."""
    lecture, wrong, screens = Lecture(long, browser), [], 0
    while True:
        lecture.settle()
        found = [lecture.measure()]
        lecture.press("n")
        found.append(lecture.measure())
        lecture.press("n")
        lecture.resize(1920, 1080)
        found.append(lecture.measure())
        lecture.resize(1280, 720)
        screens += 1
        wrong += [
            (lecture.title, lecture.where, *one["out"], *one["small"]) for one in found if one["out"] or one["small"]
        ]
        if lecture.at_the_end:
            break
        lecture.press("PageDown")
    assert wrong == [] and lecture.errors == []
    assert screens > len(read_run_sheet(LONG).steps)
    lecture.close()


def test_leaving_and_coming_back(short, browser):
    lecture = Lecture(short, browser)
    for _ in range(4):
        assert faults(lecture.page, ".lecture.open") == []
        lecture.press("PageDown")
        lecture.settle()
    lecture.press("Escape")
    assert lecture.page.locator(".lecture.open").count() == 0
    lecture.page.get_by_role("button", name="Back to the lecture").click()
    assert lecture.page.locator(".lecture.open").count() == 1
    before = lecture.lab.get("/api/contents/shoulder_model/lecture/lecture.ipynb")["content"]
    lecture.press("d", "d", "x", "a", "b")  # keys that would change the notebook
    lecture.page.wait_for_timeout(200)
    assert lecture.lab.get("/api/contents/shoulder_model/lecture/lecture.ipynb")["content"] == before
    assert lecture.page.locator(".jp-Notebook .jp-Cell").count() == 1
    lecture.close()


def test_another_page_is_asked_whether_to_go_on(short, browser):
    lecture = Lecture(short, browser)
    lecture.press(*["PageDown"] * 4)
    here = lecture.where, lecture.title
    wait(lecture.kept, "the kernel, which still makes panels, to keep where the lecture stands")
    lecture.close()
    again = Lecture(short, browser)
    assert "It was left at step" in again.words and again.clock == ""
    again.press("g")
    assert (again.where, again.title) == here and again.clock
    again.close()
