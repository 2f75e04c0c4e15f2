"""Key press to changed picture, and to the bands, in the real page: ``python tests/benchmarks/browser_speed.py [chapter ...]``. Figures, not tests."""

import statistics
import sys
import time
from pathlib import Path

from playwright.sync_api import sync_playwright

sys.path.insert(0, str(Path(__file__).parents[2]))
from tests.browser.lab import BROWSER, FLAGS, HOMES, Chapter, Lab, PanelPage

WATCH = """() => {
  window.keys = []; window.pictures = []; window.bands = [];
  document.addEventListener('keydown', () => window.keys.push(performance.now()), true);
  const layer = [...document.querySelectorAll('.jp-OutputArea svg[role="img"]')].find(one => one.getBoundingClientRect().width);
  const box = layer.closest('.pull-picture');
  let changed = false, before = box.dataset.bands;
  new MutationObserver(() => {
    if (!changed) requestAnimationFrame(() => {
      changed = false;
      const came = box.dataset.bands === 'there' && before === 'awaited'; // bands of a picture that stands there already
      before = box.dataset.bands;
      (came ? window.bands : window.pictures).push(performance.now());
    });
    changed = true;
  }).observe(layer.parentElement, { subtree: true, childList: true, attributes: true, attributeFilter: ['d'] });
}"""


def single_presses(page, slider, count=60):
    """Times from a key to the next painted picture, one key at a time. [ms]"""
    taken = []
    low, high, step = (float(slider.get_attribute(name)) for name in ("min", "max", "step"))
    way = min(10, round((high - low) / step))
    page.keyboard.press("Home")  # room for ten steps up
    page.wait_for_timeout(500)
    for i in range(count):
        page.evaluate("() => { window.keys.length = window.pictures.length = 0; }")
        page.keyboard.press("ArrowRight" if i % (2 * way) < way else "ArrowLeft")
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
    start = time.perf_counter()
    for i in range(count):
        page.keyboard.press("ArrowRight")
        time.sleep(max(0.0, start + (i + 1) / count - time.perf_counter()))
    page.wait_for_timeout(1500)
    return page.evaluate("() => [window.pictures.length, window.pictures.at(-1) - window.keys.at(-1)]")


def to_bands(page, slider, count=8):
    """Times from a key after which nothing moves to the painted bands. [ms]"""
    slider.focus()
    page.keyboard.press("Home")
    taken = []
    for _ in range(count):
        page.evaluate("() => { window.keys.length = window.bands.length = 0; }")
        page.keyboard.press("ArrowRight")
        page.wait_for_function("window.bands.length > 0", timeout=30000)
        taken.append(page.evaluate("() => window.bands[0] - window.keys[0]"))
    return sorted(taken)


def measure(chapter):
    """Print the figures of a chapter's first panel."""
    page = chapter.page
    panel = PanelPage(chapter)
    page.evaluate(WATCH)
    slider = panel.sliders()[0]
    slider.focus()
    taken = single_presses(page, slider)
    middle, late = statistics.median(taken), taken[int(0.95 * len(taken))]
    print(f"{chapter.path}: key to picture, {len(taken)} presses: median {middle:.0f} ms (wanted: under 30), ", end="")
    print(f"95th percentile {late:.0f} ms (wanted: under 60)")
    bursts = [burst(page, slider) for _ in range(3)]
    drawn, last = (", ".join(f"{one[i]:.0f}" for one in bursts) for i in (0, 1))
    print(f"   30 keys in a second, three times: {drawn} pictures; the last value stands after {last} ms", flush=True)
    if panel.root.get_by_role("checkbox", name="Bands").count():  # they are awaited after each move
        bands = to_bands(page, slider)
        print(
            f"   key to bands, of which 300 wait: median {statistics.median(bands):.0f} ms, longest {bands[-1]:.0f} ms",
            flush=True,
        )


def main():
    lab = Lab()
    try:
        with sync_playwright() as driver:
            browser = driver.chromium.launch(executable_path=BROWSER, args=FLAGS)
            for name in sys.argv[1:] or HOMES:
                chapter = Chapter(lab, browser, name)
                chapter.run_everything()
                measure(chapter)
                chapter.close()
            browser.close()
    finally:
        lab.stop()


if __name__ == "__main__":
    main()
