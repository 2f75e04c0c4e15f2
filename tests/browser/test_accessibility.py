"""For those who read with a screen reader, by keyboard or with large letters; and a chapter whose kernel has gone.

Chapters with all their panels are looked at by axe-core where they are open already: test_chapters.py, test_panels.py.
"""

import pytest

from shoulder_model.document.html import document_html
from shoulder_model.draw.look import SMALL
from shoulder_model.homework.sheets import key_document, sheet_document
from shoulder_model.people import Lifter
from shoulder_model.week import Client, all_no, plan_week
from shoulder_model.week_page.html import page_html
from tests.own.homework.invented import homework

from .accessibility import faults
from .lab import Chapter, PanelPage, play_a_step, wait

pytestmark = pytest.mark.browser
SMALL_CHAPTER = (
    "import shoulder_model.panels as panels\n"
    "panels.Guess('How far?', 3.0, 'Because.', unit='cm', then=panels.GripPanel())",
    "panels.Guess('Which?', 'this one', 'Because.', choices=['this one', 'that one'])",
)
NARROW, PHONE = {"width": 640, "height": 720}, {"width": 360, "height": 740}
LETTERS = """() => {
  const texts = [...document.querySelectorAll('.pull-picture .layers svg text')].filter(one => one.textContent.trim());
  const scale = one => Math.hypot(one.getScreenCTM().a, one.getScreenCTM().b);
  return Math.min(...texts.map(one => parseFloat(getComputedStyle(one).fontSize) * scale(one)));
}"""
SIDEWAYS = """() => [...document.querySelectorAll('.jp-WindowedPanel-outer, .pull-panel, .pull-picture, .layers')]
  .filter(one => one.scrollWidth > one.clientWidth + 1).map(one => `${one.className}: ${one.scrollWidth} in ${one.clientWidth}`)"""
LOW = """() => [...document.querySelectorAll('.pull-panel :is(button, select, input:not([type=checkbox])), .pull-panel label')]
  .map(one => [one.textContent || one.type, one.getBoundingClientRect()])
  .filter(([, box]) => box.width && (box.height < 23.9 || box.left < 0 || box.right > innerWidth)).map(([name]) => name)"""
SIX_STEPS_DOWN = """one => {
  for (let step = 0; step < 6; step++) { one.stepDown(); one.dispatchEvent(new Event('input', { bubbles: true })); }
}"""
BARS = ".jp-SideBar:not(.lm-mod-hidden)"


def printed():
    """Printed pages that no other browser test opens, as HTML: test_handouts.py has the hand-outs."""
    assignment, _ = homework()
    student = assignment.students[0]
    given = (assignment.title, student, assignment.sheet_ids[0], assignment.items(student))
    client = Client(Lifter.average("women"), "novice", 2, health=all_no())
    return {
        "homework": document_html(sheet_document(*given)),
        "key": document_html(key_document(*given)),
        "week": page_html(plan_week(client)),
    }


def test_printed_pages(browser, tmp_path):
    page = browser.new_page(viewport={"width": 1280, "height": 900})
    found = {}
    for name, html in printed().items():
        (tmp_path / "page.html").write_text(html, encoding="utf-8")
        page.goto((tmp_path / "page.html").as_uri())
        found[name] = faults(page, "body")
    page.close()
    assert {name: some for name, some in found.items() if some} == {}


@pytest.fixture(scope="module")
def small(lab, browser):
    """A chapter of two guesses, one with a panel, in a page."""
    chapter = Chapter(lab, browser, lab.add("two_guesses", *SMALL_CHAPTER))
    chapter.run_everything()
    yield chapter
    chapter.close()


def test_controls_say_what_they_are_and_numbers_with_a_comma_are_read(small):
    page, panel = small.page, PanelPage(small)
    page.get_by_role("textbox", name="Your guess in cm").wait_for()
    assert (
        page.get_by_role("group", name="How far?").count()
        == page.get_by_role("radiogroup", name="Your guess").count()
        == 1
    )
    assert (
        page.get_by_role("group", name="Panel: grip").count() == page.get_by_role("radio", name="this one").count() == 1
    )
    slider, box = panel.sliders()[0], page.get_by_role("textbox", name="Grip, × shoulders: type the number")
    box.fill("1,75")
    box.press("Enter")
    panel.becomes(
        lambda p: slider.get_attribute("aria-valuetext") == "1.75 × shoulders, 73 cm apart", "1,75 to be read"
    )
    box.fill("wide")
    box.press("Enter")
    page.get_by_text("“wide” is not a number.").wait_for()
    assert box.input_value() == "1.75"


def test_one_line_tells_a_screen_reader_when_a_move_has_settled(small):
    panel = PanelPage(small)
    heard = panel.root.locator(".pull-heard")
    heard.evaluate(
        "one => { one.kept = true; window.told = 0; new MutationObserver(() => window.told++).observe(one, { childList: true }); }"
    )
    panel.sliders()[0].evaluate(SIX_STEPS_DOWN)
    panel.at_rest()
    panel.becomes(lambda p: heard.text_content() == p.above, "the line to say what stands above the picture")
    assert heard.evaluate("one => one.kept") and panel.page.evaluate("() => window.told") <= 2
    assert panel.root.get_by_role("status").count() == 2  # the guess's and the panel's


def test_folded_controls_come_next_by_tab(small):
    panel = PanelPage(small)
    panel.root.get_by_role("button", name="Lifter", exact=True).focus()
    panel.page.keyboard.press("Space")
    panel.root.locator("select").filter(visible=True).filter(has_text="women").first.wait_for()
    panel.page.keyboard.press("Tab")
    assert panel.page.evaluate("() => document.activeElement.nodeName + document.activeElement.value") == "SELECTmen"


def test_on_a_narrow_page_letters_grow_and_nothing_is_cut(small):
    """As at 200 % zoom on a screen 1280 pixels wide."""
    page, panel = small.page, PanelPage(small)
    words = panel.at_rest().words
    page.set_viewport_size(NARROW)
    try:
        wait(lambda: page.evaluate(LETTERS) >= 11.5, "large letters")
        assert panel.at_rest().words == words
        slider, picture = panel.sliders()[0], panel.picture
        slider.focus()
        page.keyboard.press("ArrowLeft")
        panel.becomes(lambda p: p.picture != picture, "the picture to move")
        assert page.evaluate(SIDEWAYS) == []
    finally:
        page.set_viewport_size({"width": 1280, "height": 720})
    wait(lambda: not page.locator(".pull-picture.narrow").count(), "the wide page's picture")
    assert page.evaluate(LETTERS) > SMALL


def test_on_a_phone_nothing_scrolls_sideways_and_letters_and_controls_are_large(small):
    page, panel = small.page, PanelPage(small)
    assert page.locator(BARS).count() == 2
    page.set_viewport_size(PHONE)
    try:
        wait(
            lambda: page.locator(".pull-picture").first.evaluate("one => one.clientWidth") >= 322, "the side bars to go"
        )
        wait(lambda: page.evaluate(LETTERS) >= 10.5, "letters of a phone")
        panel.press("Lifter")
        assert (page.evaluate(SIDEWAYS), page.evaluate(LOW)) == ([], [])
        panel.press("Lifter")
    finally:
        page.set_viewport_size({"width": 1280, "height": 720})
    wait(lambda: page.locator(BARS).count() == 2, "the side bars to come back")
    wait(lambda: not page.locator(".pull-picture.narrow").count(), "the wide page's picture")


def test_less_motion_means_steps(small):
    page, panel = small.page, PanelPage(small)
    page.emulate_media(reduced_motion="reduce")
    slider = panel.sliders()[0]
    slider.focus()
    page.keyboard.press("Home")
    panel.at_rest()
    step = play_a_step(panel.root.locator(".pull-slider.main"))
    assert step["from"] == 0.3 and step["to"] > 0.7 and step["after"] > 1000, "it sweeps"
    page.emulate_media(reduced_motion="no-preference")


def test_panels_without_a_kernel_keep_their_last_picture(small, lab):
    page, panel = small.page, PanelPage(small)
    panel.sliders()[0].focus()
    page.keyboard.press("End")
    verdict = panel.at_rest().verdict
    content = f"/api/contents/{small.path}"

    def is_saved():
        page.locator('[data-command="docmanager:save"]').first.click()
        page.wait_for_timeout(500)
        return "last_picture" in lab.get(content)["content"]["cells"][0]["metadata"]

    wait(is_saved, "the picture to be saved")
    lines = page.locator(".asleep-line")
    said = [f"{words} is asleep. Press Run everything to wake it." for words in ("This panel", "This guess")]
    small.kill_kernel()
    wait(lambda: lines.all_text_contents() == said, "one line for each")
    assert panel.verdict == verdict and panel.root.locator(".pull-picture").is_visible()
    page.locator(".jp-Dialog .jp-mod-accept").click()
    lab.end_kernel(small.path)
    page.on("dialog", lambda dialog: dialog.accept())
    page.reload()
    wait(lambda: lines.all_text_contents() == said, "one line for each in the chapter opened again")
    assert (
        page.get_by_text(verdict).is_visible()
        and page.locator("img.asleep-picture").evaluate("one => one.naturalWidth") > 500
    )
    shown = page.locator(".jp-Notebook").inner_text()
    assert "model not found" not in shown and "Loading widget" not in shown
    wait(small.kernel_is_connected, "a new kernel")
    small.run_everything()
    wait(lambda: not lines.count(), "everything to be awake")
