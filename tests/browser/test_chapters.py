"""Every chapter as a reader meets it: opened, not run; run; guessed; with the code shown."""

from pathlib import Path

import nbformat
import pytest

from shoulder_model.lab.trust import trust

from .accessibility import of_chapter
from .lab import HOMES, Chapter, open_and_run, reader, stands_at_section

pytestmark = pytest.mark.browser
CHAPTERS = sorted(path.stem for path in (Path(__file__).parents[2] / "workbook").glob("*.ipynb"))
FIRST_PANEL = "03_grip_width"


@pytest.mark.parametrize("name", [name for name in CHAPTERS if name not in HOMES])
def test_chapter_opens_and_runs(name, open_chapter):
    """Those with a panel are opened in test_panels.py."""
    chapter = open_chapter(name)
    open_and_run(chapter)
    assert of_chapter(chapter.page) == {}


def test_a_guess_opens_its_answer_and_no_other(open_chapter):
    chapter = open_chapter(FIRST_PANEL)
    chapter.run_everything()
    page = chapter.page
    assert page.locator(".pull-picture").first.is_hidden()
    page.get_by_role("button", name="That is my guess").first.click()
    page.get_by_text("Pick one first.").wait_for()
    assert chapter.open_folds == 0
    page.get_by_label("more of everything").check()
    page.get_by_role("button", name="That is my guess").first.click()
    page.get_by_text("Not quite:").wait_for()
    page.locator(".pull-picture").first.wait_for(state="visible")
    chapter.becomes(lambda: chapter.open_folds == 1, "the answer to open")
    page.get_by_label("the same as before, plus something new").check()
    page.get_by_role("button", name="That is my guess").first.click()
    page.get_by_text("✓ Yes:").wait_for()
    page.get_by_role("button", name="Show me").nth(1).click()
    chapter.becomes(lambda: chapter.open_folds > 1, "the second answer to open")
    assert page.locator("details[open] summary", has_text="Solution").count() == 0


def test_a_guess_is_made_by_keyboard_alone(open_chapter):
    chapter = open_chapter(FIRST_PANEL)
    chapter.run_everything()
    page = chapter.page
    page.get_by_role("radio").first.focus()
    page.keyboard.press("Space")
    for _ in range(8):
        page.keyboard.press("Tab")
        if page.evaluate("() => document.activeElement.textContent") == "That is my guess":
            break
    page.keyboard.press("Enter")
    page.locator(".pull-picture").first.wait_for(state="visible")


def test_run_everything_waits_for_a_kernel_that_is_slow_to_start(lab, browser):
    startup = Path(lab.folder.name, ".lab", "ipython", "profile_default", "startup")
    startup.mkdir(parents=True, exist_ok=True)
    slow = startup / "00_slow.py"  # as slow as it takes the reader to see that it is starting
    slow.write_text(f"import os, time\nwhile os.path.exists({str(slow)!r}): time.sleep(0.1)")
    try:
        chapter = Chapter(lab, browser, "02_one_arm_one_plane", patient=False)
        chapter.press("Run everything")
        chapter.page.locator(".jp-Toolbar").get_by_text("Starting …", exact=True).wait_for()
    finally:
        slow.unlink()
    chapter.page.locator(".jp-Toolbar").get_by_text("Run everything", exact=True).wait_for()
    chapter.page.get_by_role("button", name="Show me").first.wait_for()
    assert chapter.errors == []
    chapter.close()


def test_the_button_says_that_it_runs_and_the_page_how_it_ended(lab, browser):
    chapter = Chapter(lab, browser, lab.add("long", "from time import sleep\nsleep(600)", "1"))
    bar = chapter.page.locator(".jp-Toolbar")
    chapter.press("Run everything")
    running = bar.get_by_role("button", name="Running …", exact=True)
    running.wait_for()
    assert running.is_disabled() or running.get_attribute("aria-disabled") == "true"
    chapter.kill_kernel()
    bar.get_by_text("Run everything", exact=True).wait_for()
    assert chapter.page.get_by_role("status").get_by_text("It stopped: a cell failed, or Python ended.").count() == 1
    chapter.close()


def test_an_address_with_a_section_opens_the_chapter_there_and_stays(lab, browser):
    chapter = Chapter(lab, browser, "03_grip_width", section="3.5")
    chapter.becomes(lambda: stands_at_section(chapter.page, "3.5"), "the section at the top")
    chapter.run_everything()
    assert chapter.failed_cells == [] and chapter.errors == []
    chapter.becomes(lambda: stands_at_section(chapter.page, "3.5"), "the section at the top, with all panels above it")
    chapter.page.mouse.move(600, 400)
    chapter.page.mouse.wheel(0, -600)
    chapter.becomes(lambda: not stands_at_section(chapter.page, "3.5"), "the reader to go away")
    chapter.close()


def test_the_glossary_opens_at_its_heading_and_back_leads_to_the_chapter(lab, browser):
    chapter = Chapter(lab, browser, "01_width_and_thickness")
    term = chapter.page.locator('.jp-MarkdownOutput a[href*="00_start.ipynb"][href$="#Glossary"]:visible').last
    term.scroll_into_view_if_needed()
    before = chapter.scrolled
    for _ in range(2):  # the second time it is open already
        term.click()
        chapter.becomes(lambda: stands_at_section(chapter.page, "Glossary"), "the glossary at the top")
        chapter.becomes(lambda: chapter.page.url.endswith("/00_start.ipynb"), "its address")
        chapter.page.go_back()
        chapter.becomes(term.is_visible, "the chapter again")
        assert abs(chapter.scrolled - before) < 5 and before > 100
    assert chapter.errors == []
    lab.end_kernel("workbook/00_start.ipynb")
    chapter.close()


def test_a_foreign_notebook_does_not_run_what_it_has_saved(lab, browser):
    harm = nbformat.v4.new_output("display_data", {"text/html": "<p>seen</p><img src=x onerror='window.harm = 1'>"})
    cells = [nbformat.v4.new_code_cell("1", outputs=[harm])]
    foreign = nbformat.v4.new_notebook(cells=cells, metadata={"kernelspec": {"display_name": "P", "name": "python3"}})
    nbformat.write(foreign, Path(lab.folder.name) / "workbook" / "foreign.ipynb")
    trust(Path(lab.folder.name), Path(lab.folder.name) / ".lab" / "jupyter")  # as the next start does
    chapter = Chapter(lab, browser, "foreign")
    chapter.page.get_by_text("seen", exact=True).wait_for()
    assert chapter.page.evaluate("() => window.harm") is None
    chapter.close()


def test_the_code_is_shown_hidden_and_remembered(lab, browser):
    context = reader(browser)
    chapter = Chapter(lab, browser, "00_start", context=context)
    assert chapter.code_in_sight == 0
    chapter.press("Show the code")
    chapter.becomes(lambda: chapter.code_in_sight > 3, "the code to show")
    chapter.end()
    again = Chapter(lab, browser, "02_one_arm_one_plane", context=context)
    again.becomes(lambda: again.code_in_sight > 3, "the next chapter to show it too")
    again.press("Hide the code")
    again.becomes(lambda: again.code_in_sight == 0, "the code to go")
    again.close()
