"""Key press to changed picture in the real page: ``python tests/benchmarks/browser_speed.py [chapter]``. Figures, not tests."""

import statistics
import sys
from pathlib import Path

from playwright.sync_api import sync_playwright

sys.path.insert(0, str(Path(__file__).parents[2]))
from tests.browser.lab import BROWSER, FLAGS, Chapter, Lab, PanelPage

WATCH = """which => {
  const label = () => document.querySelectorAll('.jp-OutputArea svg[role="img"]')[which].getAttribute('aria-label');
  window.keys = []; window.pictures = []; let seen = label();
  document.addEventListener('keydown', () => window.keys.push(performance.now()), true);
  const look = () => {
    const now = label();
    if (now !== seen) { seen = now; window.pictures.push(performance.now()); }
    requestAnimationFrame(look);
  };
  requestAnimationFrame(look);
}"""


def single_presses(page, count=60):
    """Times from a key to the next painted picture, one key at a time. [ms]"""
    taken = []
    page.keyboard.press("Home")  # room for ten steps up
    page.wait_for_timeout(500)
    for i in range(count):
        page.evaluate("() => { window.keys.length = window.pictures.length = 0; }")
        page.keyboard.press("ArrowRight" if i % 20 < 10 else "ArrowLeft")
        page.wait_for_function("window.pictures.length > 0", timeout=5000)
        page.wait_for_timeout(200)
        taken.append(page.evaluate("() => window.pictures[0] - window.keys[0]"))
    return sorted(taken)


def burst(page, slider, count=30):
    """A second of keys: pictures drawn, and time from the last key to the last picture. [ms]"""
    slider.focus()
    page.keyboard.press("Home")
    page.wait_for_timeout(500)
    page.evaluate("() => { window.keys.length = window.pictures.length = 0; }")
    page.evaluate(
        """async count => { const at = document.activeElement;
        for (let i = 0; i < count; i++) {
          at.dispatchEvent(new KeyboardEvent('keydown', { key: 'ArrowRight', code: 'ArrowRight', keyCode: 39, bubbles: true }));
          await new Promise(done => setTimeout(done, 1000 / count)); } }""",
        count,
    )
    page.wait_for_timeout(1500)
    return page.evaluate("() => [window.pictures.length, window.pictures.at(-1) - window.keys.at(-1)]")


def measure(chapter):
    """Print the figures of a chapter's first panel."""
    page = chapter.page
    panel = PanelPage(chapter)
    page.evaluate(WATCH, 0)
    slider = panel.sliders()[0]
    slider.focus()
    taken = single_presses(page)
    print(
        f"key to picture, {len(taken)} presses: median {statistics.median(taken):.0f} ms (wanted: under 40), ", end=""
    )
    print(f"95th percentile {taken[int(0.95 * len(taken))]:.0f} ms (wanted: under 80)")
    for _ in range(3):
        pictures, last = burst(page, slider)
        print(f"30 keys in one second: {pictures} pictures, last value stands after {last:.0f} ms (wanted: within 150)")


def main():
    lab = Lab()
    try:
        with sync_playwright() as driver:
            browser = driver.chromium.launch(executable_path=BROWSER, args=FLAGS)
            chapter = Chapter(lab, browser, sys.argv[1] if len(sys.argv) > 1 else "03_grip_width")
            chapter.run_everything()
            measure(chapter)
            browser.close()
    finally:
        lab.stop()


if __name__ == "__main__":
    main()
