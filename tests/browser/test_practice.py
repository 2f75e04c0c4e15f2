"""Practice as a student has it, by keyboard alone: an evening, a whole mock exam, the page of what is weak."""

import re

import pytest

from shoulder_model.practice.bank import make
from shoulder_model.practice.record import Record

from .accessibility import faults
from .lab import Chapter, stands_at_section, wait

pytestmark = pytest.mark.browser
ASKED = re.compile(r"shoulders measure (\d+) cm.*The grip should be ([\d.]+) ×")


class Panel:
    """The practice panel in its page, worked with the keyboard."""

    def __init__(self, chapter):
        self.page = chapter.page
        self.root = self.page.locator(".practice").first
        self.root.wait_for()
        self.root.scroll_into_view_if_needed()

    @property
    def title(self):
        return self.root.locator("h2").inner_text()

    @property
    def text(self):
        return self.root.inner_text()

    def heard(self):
        """What a screen reader is told."""
        return self.page.locator(".practice-heard").first.inner_text()

    def focused(self):
        """The words or the name of what has the keyboard."""
        return self.page.evaluate(
            "() => document.activeElement.getAttribute('aria-label') || document.activeElement.innerText || ''"
        )

    def tab_to(self, words, most=120):
        """Press Tab until something with these words has the keyboard, then Enter."""
        for _ in range(most):
            if self.focused().partition("\n")[0] == words:
                self.page.keyboard.press("Enter")
                return
            self.page.keyboard.press("Tab")
        raise AssertionError(f"no way by Tab to {words!r}")

    def becomes(self, words):
        wait(lambda: self.root.locator("h2").count() and self.title.startswith(words), f"{words!r}, not {self.title!r}")

    def kind(self):
        """Which kind of answer is asked for."""
        if self.root.locator('input[type="text"]').count():
            return "number"
        if self.root.locator("ol.order").count():
            return "order"
        if self.root.locator('input[type="checkbox"]').count():
            return "pick two"
        return "reasoned" if self.root.locator("fieldset").count() == 2 else "choice"

    def read_again(self):
        """Follow the link of an answer to the section that it comes from, and see it at the top of a page of its own."""
        link = self.root.locator(".verdict a").last
        number = link.inner_text().removeprefix("section ").partition(",")[0]
        with self.page.context.expect_page() as told:
            link.click()
        wait(lambda: stands_at_section(told.value, number), f"section {number} at the top of the page")
        told.value.close()

    def answer_by_keyboard(self):
        """Give some answer and press Enter."""
        kind, keys = self.kind(), self.page.keyboard
        first = self.root.locator("fieldset input, input[type=text], ol.order li").first
        for _ in range(40):
            if first.evaluate(
                "one => one === document.activeElement || (one.name && one.name === document.activeElement.name)"
            ):
                break
            keys.press("Tab")
        if kind == "number":
            keys.type("1")
        elif kind == "order":
            keys.press("ArrowDown")
        else:
            keys.press("Space")
            if kind == "pick two":
                keys.press("Tab")
                keys.press("Space")
            if kind == "reasoned":
                keys.press("Tab")
                keys.press("Space")
        keys.press("Enter")


@pytest.fixture(scope="module")
def chapter(lab, browser):
    """Chapter 11 in a page, once for all tests."""
    opened = Chapter(lab, browser, "11_practice")
    yield opened
    opened.close()


@pytest.fixture
def practice(chapter, lab):
    """A new panel with an empty record."""
    Record(lab.practice).erase()
    chapter.run_everything()
    yield Panel(chapter)
    assert chapter.errors == [] and chapter.failed_cells == []


def test_an_evening_by_keyboard(practice, lab):
    practice.root.locator("h2").focus()
    practice.tab_to("Today's set")
    seen = 0
    while True:
        wait(lambda: practice.title.startswith(("Question", "That was")), "a question")
        if practice.title.startswith("That was"):
            break
        seen += 1
        assert practice.title == f"Question {seen} of {practice.title.split()[-1]}"
        wait(lambda: practice.focused() == practice.title, "the keyboard at the question")
        practice.answer_by_keyboard()
        practice.root.locator(".verdict").wait_for()
        assert faults(practice.page, ".practice") == []
        wait(practice.heard, "what a screen reader is told")
        if practice.root.locator(".verdict.right").count() == 0:
            practice.tab_to("Show me")
        wait(lambda: practice.focused() == "Next", "the keyboard at Next")
        assert practice.root.locator(".verdict ol.lines li").count() >= 1 and "Read again: " in practice.text
        practice.page.keyboard.press("Enter")
        wait(lambda: not practice.root.locator(".verdict").count(), "the next one")
    answers = Record(lab.practice).answers()
    assert len(answers) == seen and len({answer.template for answer in answers}) == 6
    assert "right at the first try." in practice.text
    practice.tab_to("Back to the start")
    practice.becomes("What do you want to practise?")
    practice.tab_to("What is weak")
    practice.becomes("What is weak")
    assert practice.root.locator("figure svg").count() == 1 and practice.root.locator("tbody tr").count() >= 3
    assert faults(practice.page, ".practice") == []
    practice.page.set_viewport_size({"width": 640, "height": 720})
    view = practice.root.evaluate("one => [one.scrollWidth, one.clientWidth]")
    practice.page.set_viewport_size({"width": 1280, "height": 720})
    assert view[0] <= view[1] + 1, "wider than a narrow page"


def test_a_slip_is_named_and_a_second_try_is_there(practice, lab):
    practice.root.get_by_label("A chapter", exact=True).select_option("03")
    practice.root.get_by_role("button", name="Start: A chapter").click()
    for _ in range(12):
        wait(lambda: practice.title.startswith("Question"), "a question")
        if ASKED.search(practice.text):
            break
        practice.root.get_by_role("button", name="Show me").click()
        practice.root.get_by_role("button", name="Next").click()
        wait(lambda: not practice.root.locator(".verdict").count(), "the next one")
    shoulders, ratio = map(float, ASKED.search(practice.text).groups())
    box = practice.root.locator('input[type="text"]')
    box.fill("wide")
    box.press("Enter")
    wait(
        lambda: (
            practice.root.locator("p.trouble").first.inner_text()
            or practice.root.locator(".trouble:not(:empty)").count()
        ),
        "a plain line",
    )
    practice.root.locator('input[type="text"]').fill(f"{shoulders + ratio * shoulders:.0f} cm")
    practice.root.locator('input[type="text"]').press("Enter")
    wait(lambda: practice.root.locator(".verdict.wrong").count(), "a verdict")
    assert "Try again, or press Show me." in practice.text and "Answer:" not in practice.text
    practice.root.locator('input[type="text"]').fill(f"{ratio * shoulders / 100:.3f} m".replace(".", ","))
    practice.root.locator('input[type="text"]').press("Enter")
    wait(lambda: practice.root.locator(".verdict.right").count(), "a verdict")
    assert "Your first answer is the one that counts." in practice.text and "Answer:" in practice.text
    last = Record(lab.practice).answers()[-1]
    assert (last.score, last.slip, last.template) == (0.0, "shoulders added", "grip in centimetres")
    assert make(last.template, last.seed).question[0] in practice.text


def test_a_whole_mock_exam_by_keyboard(practice, lab):
    practice.root.locator("h2").focus()
    practice.tab_to("Mock exam")
    practice.becomes("Mock exam")
    assert "nobody's official exam" in practice.text
    practice.tab_to("Start the clock")
    for place in range(1, 41):
        wait(lambda place=place: practice.title == f"Question {place} of 40", f"question {place}")
        assert (
            practice.root.locator(".verdict").count() == 0
            and practice.root.get_by_role("button", name="Hint").count() == 0
        )
        if place <= 38:
            practice.answer_by_keyboard()
        elif place == 39:
            practice.tab_to("Next")
    assert re.fullmatch(r"\d\d:\d\d left", practice.root.locator(".clock").inner_text())
    practice.root.locator("h2").focus()
    practice.page.keyboard.press("Shift+Tab")
    practice.tab_to("Hand in")
    practice.becomes("Hand in?")
    assert "2 questions are still open." in practice.text
    practice.tab_to("Hand in")
    practice.becomes("The result")
    assert practice.root.locator("tbody tr").count() > 12 and "official" in practice.text
    answers = Record(lab.practice).answers()
    assert len(answers) == 40 and len({answer.exam for answer in answers}) == 1


def test_read_again_opens_the_section(practice, lab):
    practice.root.get_by_label("A chapter", exact=True).select_option("06")
    practice.root.get_by_role("button", name="Start: A chapter").click()
    practice.root.get_by_role("button", name="Show me").click()
    practice.root.locator(".verdict").wait_for()
    practice.read_again()
    lab.end_kernel("workbook/06_shoulder_blades.ipynb")


def test_the_record_is_saved_and_erased(practice, lab):
    practice.root.get_by_role("button", name="Today's set").click()
    practice.becomes("Question 1")
    practice.root.get_by_role("button", name="Show me").click()
    practice.root.get_by_role("button", name="Stop here").click()
    practice.becomes("What do you want")
    practice.root.get_by_role("button", name="What is weak").click()
    practice.becomes("What is weak")
    with practice.page.expect_download() as saved:
        practice.root.get_by_role("button", name="Save my record (CSV)").click()
    assert saved.value.suggested_filename == "my-practice.csv"
    practice.root.get_by_role("button", name="Erase my record").click()
    practice.becomes("Erase your record?")
    assert len(Record(lab.practice).answers()) == 1
    practice.root.get_by_role("button", name="Erase all").click()
    practice.becomes("What do you want")
    assert Record(lab.practice).answers() == ()


def test_an_exam_goes_on_after_the_kernel_was_killed(practice, chapter, lab):
    practice.root.get_by_role("button", name="Mock exam").click()
    practice.root.get_by_role("button", name="Start the clock").click()
    practice.becomes("Question 1 of 40")
    practice.root.locator("h2").focus()
    practice.answer_by_keyboard()
    practice.becomes("Question 2 of 40")
    chapter.kill_kernel()
    chapter.page.reload()
    chapter.run_everything()
    panel = Panel(chapter)
    assert "one is open" in panel.text
    panel.root.get_by_role("button", name="Mock exam").click()
    panel.root.get_by_role("button", name="Go on").click()
    panel.becomes("Question 2 of 40")
    assert panel.root.locator(".dots .done").count() == 1
    chapter.errors.clear()  # the page says that its kernel has died
