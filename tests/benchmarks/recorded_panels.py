"""Recorded panels as their pages have them: ``python tests/benchmarks/recorded_panels.py [kind ...]``. Figures, not tests.

For each panel: states, seconds to record and to pack, the page's size, the time from a key to the changed picture in Chromium,
and how many of 300 random states (in both layouts) are not what the live panel shows.
"""

import random
import sys
import tempfile
import time
from pathlib import Path

import numpy as np
from playwright.sync_api import sync_playwright

from shoulder_model.recorded.grids import KINDS
from shoulder_model.recorded.recorder import record
from shoulder_model.recorded.set_up import SetUp
from tests.browser.lab import BROWSER, FLAGS
from tests.browser.recorded_page import differing, open_page, write_page

STATES, KEYS = 300, 60
TIMES = """() => {
  window.taken = [];
  let start = 0;
  addEventListener('keydown', () => { start = performance.now(); }, true);
  new MutationObserver(() => {
    if (!start) return;
    const begun = start;
    start = 0;
    requestAnimationFrame(() => window.taken.push(performance.now() - begun));
  }).observe(document.querySelector('.recorded .layers > svg'), { attributes: true, subtree: true, characterData: true, childList: true });
}"""


def key_times(page):
    """Milliseconds from a key on the main slider to the frame that shows it."""
    page.evaluate(TIMES)
    page.locator(".pull-slider.main .range").focus()
    for number in range(KEYS):
        page.keyboard.press("ArrowLeft" if number // 12 % 2 else "ArrowRight")
        page.wait_for_timeout(60)
    return page.evaluate("window.taken")


def one_panel(kind, folder, browser):
    """Record, write, open and compare one panel; prints its line."""
    set_up = SetUp.of(KINDS[kind].make())
    start = time.perf_counter()
    made = record(set_up)
    recorded = time.perf_counter() - start
    path = write_page(folder, kind, made, set_up)
    packed = time.perf_counter() - start - recorded
    page = open_page(browser.new_context(viewport={"width": 1280, "height": 720}, offline=True), path)
    taken = key_times(page)
    wrong = 0
    sample = random.Random(kind).sample(range(made.grid.size), min(STATES, made.grid.size))
    for layout, width in (("wide", 1280), ("narrow", 640)):
        page.set_viewport_size({"width": width, "height": 720})
        page.wait_for_timeout(300)
        half = sorted(sample[layout == "wide" :: 2])
        wrong += len(differing(page, made, set_up, half, layout))
    median, slow = np.percentile(taken, [50, 95])
    print(
        f"{kind:8s}{made.grid.size:6d} states {recorded:6.1f} s to record {packed:5.1f} s to pack "
        f"{path.stat().st_size / 1e6:5.2f} MB   key to picture {median:4.0f} ms, 95 % {slow:4.0f} ms ({len(taken)} keys)   "
        f"{wrong} of {len(sample)} states differ from the live panel, {len(page.errors)} errors on the page",
        flush=True,
    )
    page.context.close()


def main(kinds):
    with tempfile.TemporaryDirectory() as folder, sync_playwright() as driver:
        browser = driver.chromium.launch(executable_path=BROWSER, args=FLAGS)
        for kind in kinds:
            one_panel(kind, Path(folder), browser)
        browser.close()


if __name__ == "__main__":
    main(sys.argv[1:] or KINDS)
