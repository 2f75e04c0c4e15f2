"""Recorded panels in a real browser, from a file and without a network: each state is the live panel's, by mouse, key and link."""

import os
import random
from dataclasses import replace

import pytest

from shoulder_model.checkout import HOME
from shoulder_model.handout.page import whole_page
from shoulder_model.handout.panel_page import of_chapter
from shoulder_model.recorded import fragment, grids
from shoulder_model.recorded.grids import KINDS, Varied
from shoulder_model.recorded.recorder import record
from shoulder_model.recorded.set_up import SetUp
from tests.own.recorded.small import SMALL

from .accessibility import faults
from .lab import play_a_step, reader, wait
from .recorded_page import GO, SEEN, differing, open_page, write_page

TRIES = int(os.environ.get("SHOULDER_MODEL_TRIES", "48"))  # states of all panels together
LETTERS = """() => Math.min(...[...document.querySelectorAll('body, body *')].filter(one =>
  one.getClientRects().length && [...one.childNodes].some(part => part.nodeType === 3 && part.data.trim())
  && !one.closest('.still, script, style, noscript, .pull-heard')).map(one => {
    const matrix = one.closest('svg') ? one.getScreenCTM() : null;
    return parseFloat(getComputedStyle(one).fontSize) * (matrix ? Math.hypot(matrix.a, matrix.b) : 1);
  }))"""
AT_ONCE = """() => {
  [...document.querySelectorAll('button')].find(one => one.textContent === 'Show me').click();
  const range = document.querySelector('.pull-slider.main .range');
  range.stepUp();
  range.dispatchEvent(new Event('input', { bubbles: true }));
}"""
GRIP = (Varied("arm_weight", "own", 1), Varied("along", "along", 50), Varied("grip_ratio", "grip", 0.35))


@pytest.fixture(scope="module")
def small():
    """Every kind of panel with a small grid; the grip panel's has the named stops."""
    patch = pytest.MonkeyPatch()
    for kind in KINDS:
        patch.setitem(grids.KINDS, kind, replace(KINDS[kind], grid=GRIP if kind == "grip" else SMALL[kind]))
    yield patch
    patch.undo()


@pytest.fixture(scope="module")
def asked(small, tmp_path_factory):
    """The grip page as its chapter has it, with the guess."""
    chapter = of_chapter("grip", HOME)
    set_up = SetUp.of(chapter.panel)
    return write_page(tmp_path_factory.mktemp("asked"), "grip", record(set_up, processes=1), set_up, chapter)


@pytest.fixture
def context(browser):
    made = reader(browser, offline=True, reduced_motion="reduce")
    yield made
    made.close()


@pytest.fixture
def page(context, asked):
    """The grip page, its guess made."""
    shown = open_page(context, asked)
    shown.get_by_role("button", name="Show me").click()
    return shown


def narrow(page):
    """Whether the picture is the one for a narrow page."""
    return page.locator(".pull-picture.narrow").count() > 0


@pytest.mark.browser
@pytest.mark.parametrize("kind", KINDS)
def test_the_page_shows_each_state_as_the_live_panel_does(kind, small, context, tmp_path):
    set_up = SetUp.of(KINDS[kind].make())
    made = record(set_up, processes=1)
    page = open_page(context, write_page(tmp_path, kind, made, set_up))
    tries = random.Random(kind).sample(range(made.grid.size), min(made.grid.size, TRIES // 6))
    for layout, width in (("wide", 1280), ("narrow", 640)):
        page.set_viewport_size({"width": width, "height": 720})
        wait(lambda is_narrow=layout == "narrow": narrow(page) == is_narrow, "the other layout")
        assert differing(page, made, set_up, tries[layout == "wide" :: 2], layout) == []
    assert page.errors == []


@pytest.mark.browser
def test_nothing_is_asked_for_nothing_scrolls_sideways_and_axe_finds_nothing(page, asked):
    for width in (1280, 640, 360):
        page.set_viewport_size({"width": width, "height": 720})
        wait(lambda is_narrow=width < 760: narrow(page) == is_narrow, "the other layout")
        assert page.evaluate("document.documentElement.scrollWidth") <= width
        print(f"{width} pixels wide: the smallest letters are {page.evaluate(LETTERS):.1f} pixels high")
        assert faults(page, "body") == []
    assert [one for one in page.asked if not one.startswith("data:")] == [asked.as_uri()] and page.errors == []
    assert page.get_by_text("stop, and see a licensed clinician").count() == 1
    assert "licence: MIT" in page.locator("footer").inner_text()


@pytest.mark.browser
def test_the_panel_waits_for_a_guess_made_with_keys_alone(context, asked):
    page = open_page(context, asked)
    assert not page.locator(".recorded").is_visible()
    assert page.get_by_role("radiogroup").count() == 1 and faults(page, "body") == []
    page.get_by_role("button", name="That is my guess").press("Enter")
    verdict = page.locator('.guess-verdict[role="status"]')
    assert verdict.inner_text() == "Pick one first." and not page.locator(".recorded").is_visible()
    page.get_by_role("radio").first.press("Space")
    page.keyboard.press("ArrowDown")
    page.keyboard.press("Enter")
    assert verdict.inner_text()[0] in "✓✗" and page.locator(".recorded").is_visible()


@pytest.mark.browser
def test_a_key_moves_verdict_picture_and_address_and_the_address_brings_it_back(page, context, asked):
    before, entries = page.evaluate(SEEN), page.evaluate("history.length")
    page.get_by_role("slider", name="Grip, × shoulders").focus()
    page.keyboard.press("ArrowRight")
    after = page.evaluate(SEEN)
    assert after[1]["verdict"] != before[1]["verdict"] and after[0] != before[0]
    wait(lambda: "grip=1.35" in page.evaluate("location.hash"), "the address to follow")
    assert page.evaluate("history.length") == entries
    other = context.new_page()
    other.goto(page.evaluate("location.href"))
    other.wait_for_selector(".recorded.moves", state="attached")
    assert other.evaluate(SEEN) == after
    for wrong in (
        "#grip=1.36",
        "#grip=x",
        "#width=1",
        "#grip=",
        "#%E0%A4%A",
        "#grip=1.35&along=50&more=1",
        "#answer-3",
    ):
        page.evaluate(GO, wrong)
        assert page.evaluate(SEEN) == after, wrong


@pytest.mark.browser
def test_a_move_right_after_opening_is_told_to_a_screen_reader(context, asked):
    page = open_page(context, asked)
    page.evaluate(AT_ONCE)
    heard = page.locator(".pull-heard")
    wait(lambda: heard.text_content() == page.evaluate(SEEN)[1]["verdict"], "the move to be told")
    assert "grip 1.35" in page.evaluate(SEEN)[1]["words"]


@pytest.mark.browser
def test_typed_numbers_snap_stops_and_ticks_work_and_play_takes_few_steps_for_those_who_want_less_motion(page):
    number = page.get_by_role("textbox", name="Grip, × shoulders: type the number")
    number.fill("1,4")
    number.press("Enter")
    assert number.input_value() == "1.35" and "grip 1.35" in page.evaluate(SEEN)[1]["words"]
    number.fill("much")
    number.press("Enter")
    assert "is not a number" in page.locator(".unread").first.inner_text()
    assert page.get_by_role("button", name="shoulders: 1.00").count() == 1
    assert page.locator(".stop").all_inner_texts() == ["close", "shoulders"], "a stop that is not recorded is no button"
    words = page.evaluate(SEEN)[1]["words"]
    page.get_by_label("arm's own weight").check()
    assert page.evaluate(SEEN)[1]["words"] != words
    page.get_by_role("button", name="Back to start").click()
    assert number.input_value() == "1.00"
    step = play_a_step(page.locator(".pull-slider.main"))
    assert step["to"] == 1.35 and step["after"] > 1000, "one quarter of the way in 1.5 s"


@pytest.mark.browser
def test_the_link_is_copied_or_shown(page):
    page.evaluate("() => { navigator.clipboard.writeText = async text => { window.copied = text; }; }")
    page.get_by_role("button", name="Copy link to this").click()
    wait(lambda: page.locator(".copied").inner_text() == "The link is copied.", "the link to be copied")
    assert page.evaluate("window.copied").endswith("#own=false&along=50&grip=1")
    page.evaluate("() => { navigator.clipboard.writeText = () => Promise.reject(); }")
    page.get_by_role("button", name="Copy link to this").click()
    link = page.get_by_role("textbox", name="Link to this")
    link.wait_for()
    assert link.input_value() == page.evaluate("window.copied")
    assert page.evaluate("getSelection().toString() || document.activeElement.value") == link.input_value()


@pytest.mark.browser
def test_print_has_the_state_as_it_is_shown_in_the_wide_picture(page, tmp_path):
    page.set_viewport_size({"width": 640, "height": 720})
    wait(lambda: narrow(page), "the narrow picture")
    page.evaluate(GO, "#grip=1.35")
    before = page.locator(".layers > svg").get_attribute("viewBox")
    page.evaluate("dispatchEvent(new Event('beforeprint'))")
    wide = page.locator(".layers > svg").get_attribute("viewBox")
    assert wide != before and "grip 1.35" in page.evaluate(SEEN)[1]["words"]
    page.evaluate("dispatchEvent(new Event('afterprint'))")
    assert page.locator(".layers > svg").get_attribute("viewBox") == before
    page.pdf(path=tmp_path / "page.pdf")
    assert (tmp_path / "page.pdf").stat().st_size > 10_000


@pytest.mark.browser
def test_two_panels_on_a_page_leave_each_other_alone(small, context, tmp_path):
    pieces = []
    for number, kind in enumerate(("one-arm", "lat")):
        set_up = SetUp.of(KINDS[kind].make())
        pieces.append(fragment.fragment(record(set_up, processes=1), set_up.panel(), "<svg></svg>", number))
    html = whole_page(
        "Two", "".join(one.html for one in pieces), fragment.style(), fragment.script("in_text"), offline=True
    )
    (tmp_path / "two.html").write_text(html, encoding="utf-8")
    page = context.new_page()
    page.goto((tmp_path / "two.html").as_uri())
    page.wait_for_selector(".recorded.moves >> nth=1")
    ids = page.evaluate("[...document.querySelectorAll('[id]')].map(one => one.id)")
    assert len(ids) > 4 and len(set(ids)) == len(ids)
    pictures, sliders = page.locator(".layers > svg"), page.locator(".pull-slider.main .range")
    shown = [one.inner_html() for one in pictures.all()]
    for moved in (0, 1):
        sliders.nth(moved).press("ArrowRight")
        before = shown
        wait(lambda which=moved, was=before: pictures.nth(which).inner_html() != was[which], "the picture to move")
        shown = [one.inner_html() for one in pictures.all()]
        assert shown[1 - moved] == before[1 - moved]
