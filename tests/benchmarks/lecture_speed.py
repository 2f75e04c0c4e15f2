"""How long a lecture takes to open, to make its panels, and to step: ``python tests/benchmarks/lecture_speed.py [run sheet]``."""

import statistics
import sys
import time
from pathlib import Path

from playwright.sync_api import sync_playwright

sys.path.insert(0, str(Path(__file__).parents[2]))
from tests.browser.lab import BROWSER, FLAGS, Lab
from tests.browser.test_lecture import Lecture

# From the key to the second picture after it: the screen has been laid out and painted by then.
STEP = """() => new Promise(done => {
  const begun = performance.now();
  const root = document.querySelector('.lecture');
  root.dispatchEvent(new KeyboardEvent('keydown', { key: 'PageDown', bubbles: true, cancelable: true }));
  requestAnimationFrame(() => requestAnimationFrame(() => done(performance.now() - begun)));
})"""


def main(name):
    """Open the run sheet, wait until all is made, step through it."""
    lab = Lab(lecture=name)
    try:
        with sync_playwright() as driver:
            browser = driver.chromium.launch(executable_path=BROWSER, args=FLAGS)
            begun = time.perf_counter()
            lecture = Lecture(lab, browser)
            print(f"first screen after {time.perf_counter() - begun:.1f} s")
            times = []
            while not lecture.at_the_end:
                lecture.settle()
                times.append(lecture.page.evaluate(STEP))
            print(f"last panel made after {time.perf_counter() - begun:.1f} s at the latest")
            times.sort()
            print(f"{len(times)} steps: median {statistics.median(times):.0f} ms, 95 % within {times[int(0.95 * len(times))]:.0f} ms, "
                  f"slowest {times[-1]:.0f} ms")  # fmt: skip
    finally:
        lab.stop()


if __name__ == "__main__":
    main(*(sys.argv[1:] or ["row_or_pulldown_45"]))
