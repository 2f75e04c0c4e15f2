"""The bands in the real page: they come once nothing moves, and never stand beside another value."""

import pytest

from .accessibility import of_chapter
from .lab import Chapter, PanelPage

pytestmark = pytest.mark.browser
KEY = "not known"  # words in the picture while bands are there
WATCH = """() => {
  const box = document.querySelector('.pull-picture'), layer = box.querySelector('svg[role="img"]');
  window.seen = []; window.pressed = 0;
  document.addEventListener('keydown', () => { window.pressed = performance.now(); }, true);
  function look(now) {
    window.seen.push({ since: now - window.pressed, verdict: box.querySelector('.verdict').textContent,
      told: box.querySelector('.bands').textContent !== '', drawn: layer.textContent.includes('not known') });
    requestAnimationFrame(look);
  }
  requestAnimationFrame(look);
}"""


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
    return "what nobody has measured leaves" in bands(panel) and KEY in panel.picture and not panel.bands_awaited


@pytest.mark.parametrize("which", [0, 1], ids=["grip", "work"])
def test_bands_come_once_the_controls_are_still_and_go_with_a_move(chapter, which):
    panel = PanelPage(chapter, which)
    panel.becomes(there, "the bands to come")
    first, verdict = bands(panel), panel.verdict
    assert panel.words.endswith(first)
    height = panel.root.locator(".bands").bounding_box()["height"]
    slider = panel.sliders()[0]
    slider.focus()
    panel.page.keyboard.press("ArrowRight")
    panel.becomes(lambda p: p.verdict != verdict or bands(p) == "", "the move")
    assert bands(panel) == "" and KEY not in panel.picture
    assert panel.root.locator(".bands").bounding_box()["height"] == pytest.approx(height, abs=1)  # nothing jumps
    panel.becomes(there, "the bands of the new value")
    heard = panel.root.locator(".pull-heard")
    panel.becomes(lambda p: heard.inner_text() == f"{p.verdict} {bands(p)}", "the screen reader to be told of both")
    panel.page.keyboard.press("ArrowLeft")
    panel.becomes(lambda p: p.verdict == verdict and there(p), "the first ones to come back")
    assert bands(panel) == first


def test_moved_fast_the_bands_of_another_value_never_stand_there(chapter):
    panel, page = PanelPage(chapter), chapter.page
    panel.becomes(there, "the bands to come")
    before = panel.verdict
    page.evaluate(WATCH)
    slider = panel.sliders()[0]
    slider.focus()
    for key in ["ArrowRight"] * 8 + ["ArrowLeft"] * 5 + ["ArrowRight"] * 3:
        page.keyboard.press(key)
        page.wait_for_timeout(60)
    panel.becomes(there, "the bands of the last value")
    last = panel.at_rest().verdict
    seen = page.evaluate("() => window.seen")
    moving = [one for one in seen if one["verdict"] not in (before, last)]
    assert len(moving) > 5 and last != before
    assert not any(one["told"] or one["drawn"] for one in moving)
    early = [one for one in seen if one["verdict"] == last and one["since"] < 250]
    assert not any(one["told"] or one["drawn"] for one in early)


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
