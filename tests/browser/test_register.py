"""The search box of appendix a3, by keyboard alone."""

import os

import pytest

from shoulder_model.register import find

from .lab import open_and_run, wait

pytestmark = pytest.mark.browser


def test_a_coach_searches_the_numbers_by_keyboard(open_chapter):
    chapter = open_chapter("a3_numbers_and_sources")
    open_and_run(chapter)
    page = chapter.page
    box = page.get_by_role("searchbox", name="Search the numbers")
    status, rows = page.locator(".register [role=status]"), page.locator(".register tbody tr")
    box.scroll_into_view_if_needed()
    assert rows.first.get_by_role("rowheader").inner_text() == "upper arm mass"
    node = status.element_handle()
    box.focus()
    page.keyboard.press("Control+A")
    page.keyboard.type("rear deltoid fibre", delay=20)
    wait(lambda: "deltoid posterior: fibre" in " ".join(rows.all_inner_texts()), "the row to be found")
    assert status.inner_text().startswith(f"{len(find('rear deltoid fibre'))} numbers of")
    assert node.evaluate("node => node.isConnected"), "a screen reader hears only the place it knows"
    if os.environ.get("REGISTER_PICTURE"):
        page.screenshot(path=os.environ["REGISTER_PICTURE"])
    page.keyboard.press("Tab")
    assert page.evaluate("() => document.activeElement.getAttribute('aria-label')") == "Numbers found"
    box.fill("<b>no such number</b>")
    wait(lambda: status.inner_text().startswith("No number has all"), "the words for nothing found")
    assert rows.count() == 0 and page.locator(".register b").count() == 0
