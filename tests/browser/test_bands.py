"""The bands in the real page: they come once nothing moves, and never stand beside another value."""

import time

import pytest

from .accessibility import of_chapter
from .lab import PATIENCE, Chapter, PanelPage

pytestmark = pytest.mark.browser
KEY = "not known"  # words in the picture while bands are there
WATCH = """which => {
  const box = document.querySelectorAll('.pull-picture')[which], layer = box.querySelector('svg[role="img"]');
  const bands = box.querySelector('.bands'), verdict = () => box.querySelector('.verdict').textContent;
  let pressed = 0, before = verdict();
  const seen = window.seen = [];
  document.addEventListener('keydown', () => { pressed = performance.now(); before = verdict(); }, true);
  function look(now) {
    if (seen !== window.seen) return;
    seen.push({ since: now - pressed, verdict: verdict(), moved: verdict() !== before, height: bands.getBoundingClientRect().height,
      told: bands.textContent !== '', drawn: layer.textContent.includes('not known') });
    requestAnimationFrame(look);
  }
  requestAnimationFrame(look);
}"""
ASKED = """() => {
  const box = document.querySelector('.pull-picture'), send = WebSocket.prototype.send, asked = window.asked = [];
  let pressed = 0, awaited = 0;
  document.addEventListener('keydown', () => { pressed = performance.now(); awaited += box.dataset.bands === 'awaited'; }, true);
  WebSocket.prototype.send = function (data) {
    const text = typeof data === 'string' ? data : new TextDecoder().decode(data);
    if (text.includes('"settled"')) asked.push({ since: performance.now() - pressed, awaited });
    return send.call(this, data);
  };
}"""
STILL = 250  # ms; the page waits 300 without a move


def seen(page):
    """Every frame that was shown since the page is watched: what stood there, and how long after the last key [ms]."""
    return page.evaluate("() => window.seen")


@pytest.fixture(scope="module")
def notebook(lab):
    """Two panels in a notebook of their own."""
    code = "from shoulder_model.panels import GripPanel, WorkPanel\nGripPanel(sex='women', stature=1.68)"
    return lab.add("bands", code, "WorkPanel()")


@pytest.fixture(scope="module", params=[1280, 390], ids=["laptop", "phone"])
def chapter(request, lab, browser, notebook):
    """The notebook, run, on a laptop or on a phone."""
    opened = Chapter(lab, browser, notebook, width=request.param, height=720 if request.param > 400 else 844)
    opened.run_everything()
    yield opened
    assert opened.errors == [] and opened.outside == []
    opened.close()


def bands(panel):
    """The sentence about the bands."""
    return panel.root.locator(".bands").inner_text()


def there(panel):
    """Whether bands are told and drawn."""
    return "what nobody has measured" in bands(panel) and KEY in panel.picture and not panel.bands_awaited


@pytest.mark.parametrize("which", [0, 1], ids=["grip", "work"])
def test_bands_come_once_the_controls_are_still_and_go_with_a_move(chapter, which):
    panel = PanelPage(chapter, which)
    panel.becomes(there, "the bands to come")
    first, verdict = bands(panel), panel.verdict
    assert panel.words.endswith(first)
    slider = panel.sliders()[0]
    slider.focus()
    panel.page.evaluate(WATCH, which)
    panel.page.keyboard.press("ArrowRight")
    panel.becomes(lambda p: p.verdict != verdict and there(p), "the bands of the new value")
    frames = seen(panel.page)
    moved = [one for one in frames if one["moved"]]
    assert not any(one["told"] or one["drawn"] for one in moved if one["since"] < STILL)
    assert not moved[0]["told"] and not moved[0]["drawn"] and moved[-1]["told"] and moved[-1]["drawn"]
    heights = [one["height"] for one in frames]
    assert max(heights) - min(heights) < 1  # nothing jumps
    heard = panel.root.locator(".pull-heard")
    panel.becomes(lambda p: heard.inner_text() == f"{p.verdict} {bands(p)}", "the screen reader to be told of both")
    panel.page.keyboard.press("ArrowLeft")
    panel.becomes(lambda p: p.verdict == verdict and there(p), "the first ones to come back")
    assert bands(panel) == first


def test_moved_fast_the_bands_of_another_value_never_stand_there(chapter):
    panel, page = PanelPage(chapter), chapter.page
    panel.becomes(there, "the bands to come")
    before = panel.verdict
    page.evaluate(WATCH, 0)
    slider = panel.sliders()[0]
    slider.focus()
    end = time.monotonic() + PATIENCE
    while len({one["verdict"] for one in seen(page)}) < 6:  # a busy kernel answers for some of the values only
        assert time.monotonic() < end, "the panel never followed"
        for key in ["ArrowRight"] * 8 + ["ArrowLeft"] * 5 + ["ArrowRight"] * 3:
            page.keyboard.press(key)
            page.wait_for_timeout(60)
    panel.becomes(there, "the bands of the last value")
    assert panel.at_rest().verdict != before
    assert not any(one["told"] or one["drawn"] for one in seen(page) if one["moved"] and one["since"] < STILL)


def test_a_move_in_the_midst_of_their_work_stops_it_until_the_controls_are_still(chapter):
    """Also where an answer to what was asked before the move comes in after it: else the next picture waits for the bands."""
    panel, page = PanelPage(chapter), chapter.page
    slider = panel.sliders()[0]
    slider.focus()
    page.keyboard.press("End")
    for which in (0, 1):  # the other panel asks for nothing more
        PanelPage(chapter, which).becomes(there, "the bands to come")
    page.evaluate(ASKED)
    for _ in range(5):
        page.keyboard.press("ArrowLeft")
        count = page.evaluate("() => window.asked.length")
        panel.becomes(lambda p, was=count: p.page.evaluate("() => window.asked.length") > was, "the next piece of work")
    panel.becomes(there, "the bands to come")
    asked = page.evaluate("() => window.asked")
    assert asked[-1]["awaited"] > 2, "no move came in the midst of their work"
    assert min(one["since"] for one in asked) > STILL


def test_the_switch_takes_them_away_and_brings_them_back(chapter):
    panel = PanelPage(chapter)
    panel.becomes(there, "the bands to come")
    switch = panel.root.get_by_role("checkbox", name="Bands")
    assert switch.is_checked() and "9 of 10" in panel.root.locator("[title*='bands that hold']").first.get_attribute(
        "title"
    )
    switch.click()
    panel.becomes(lambda p: bands(p) == "" and KEY not in p.picture, "the bands to go")
    verdict = panel.verdict
    panel.sliders()[0].focus()
    panel.page.keyboard.press("ArrowRight")
    panel.becomes(lambda p: p.verdict != verdict, "the move")
    panel.page.wait_for_timeout(900)
    assert bands(panel) == "" and KEY not in panel.picture
    switch.click()
    panel.becomes(there, "the bands to come back")
    assert of_chapter(panel.page) == {}
