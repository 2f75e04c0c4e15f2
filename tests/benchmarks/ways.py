"""What each way to the workbook takes, in one run: ``python tests/benchmarks/ways.py [--write]``. Figures, not tests.

Builds the site, installs the package into a fresh environment, and opens chapter 03 in Chromium in each way: bytes until the first
panel, seconds, memory, the time from a key to the changed picture. ``--write`` puts the figures into the start pages.
"""

import json
import platform
import shutil
import statistics
import subprocess
import sys
import tempfile
import time
from pathlib import Path

import psutil
from playwright.sync_api import sync_playwright

sys.path.insert(0, str(Path(__file__).parents[2]))
from shoulder_model.handout import start_page
from shoulder_model.handout.command import main as handout
from tests.benchmarks.browser_speed import WATCH, single_presses
from tests.benchmarks.recorded_panels import key_times
from tests.browser.lab import BROWSER, FLAGS, HOME, Chapter, Lab, PanelPage
from tests.browser.site import Server, SitePage, built

CHAPTER = "03_grip_width"
TARGET = Path(start_page.__file__).with_name("measured.json")
FOUND = {}


def note(name, value, digits=0):
    FOUND[name] = f"{value:,.{digits}f}"
    print(f"{name:22s} {FOUND[name]}", flush=True)


def megabytes_of(folder):
    return sum(path.lstat().st_size for path in folder.rglob("*") if path.is_file() and not path.is_symlink()) / 1e6


def keys_of(page):
    page.evaluate(WATCH)
    PanelPage(type("Shown", (), {"page": page})).sliders()[0].focus()
    return statistics.median(single_presses(page))


def until_panel(chapter, start):
    """Seconds from ``start`` to the first panel's picture, its guess answered at once."""
    chapter.page.get_by_role("button", name="Run everything", exact=True).first.click()
    PanelPage(chapter)
    return time.monotonic() - start


def pages(folder, browser):
    handout([CHAPTER, "--reading", "--no-pdf", "--to", str(folder / "still")])
    handout([CHAPTER, "--reading", "--no-pdf", "--moving", "--to", str(folder / "moving")])
    handout(["panel", "grip", "--to", str(folder)])
    note("chapter MB", (folder / "still" / f"{CHAPTER}.html").stat().st_size / 1e6, 1)
    note("moving MB", (folder / "moving" / f"{CHAPTER}.html").stat().st_size / 1e6, 1)
    panel = folder / "panel_grip.html"
    note("panel MB", panel.stat().st_size / 1e6, 1)
    page = browser.new_page()
    page.goto(panel.as_uri())
    if page.locator("button.show").count():
        page.locator("button.show").click()
    note("panel key ms", statistics.median(key_times(page)))
    page.close()


def site(folder, browser):
    start = time.monotonic()
    made = built(folder / "public", print)
    print(f"the site: {time.monotonic() - start:.0f} s, with what was fetched and compiled before")
    note("site MB", made.bytes / 1e6)
    server, context = Server(made.folder), browser.new_context(viewport={"width": 1280, "height": 720})
    start = time.monotonic()
    chapter = SitePage(context, server.address(), CHAPTER)
    note("site readable s", time.monotonic() - start)
    note("site first s", until_panel(chapter, start))
    note("site cold MB", server.http.sent / 1e6)
    note("site memory MB", largest_page())
    note("site key ms", keys_of(chapter.page))
    chapter.page.wait_for_timeout(3000)
    chapter.page.close()
    start, before = time.monotonic(), server.http.sent
    chapter = SitePage(context, server.address(), CHAPTER)
    note("site later s", until_panel(chapter, start))
    note("site again MB", (server.http.sent - before) / 1e6)
    context.close()
    server.stop()


def largest_page():
    """Memory of the largest process of the browser. [MB]"""
    processes = [one for one in psutil.Process().children(recursive=True) if "type=renderer" in " ".join(one.cmdline())]
    return max(one.memory_info().rss for one in processes) / 1e6


def installed(folder, browser):
    shutil.copytree(HOME, folder / "checkout", ignore=shutil.ignore_patterns(".*", "__pycache__"))
    for name in (".hatch_build.py",):
        shutil.copyfile(HOME / name, folder / "checkout" / name)
    start = time.monotonic()
    subprocess.run([sys.executable, "-m", "venv", folder / "venv"], check=True)
    line = [folder / "venv" / "bin" / "python", "-m", "pip", "install", "-q", "-e", folder / "checkout"]
    subprocess.run(line, check=True, capture_output=True)
    note("installed install s", time.monotonic() - start)
    note("installed MB", megabytes_of(folder / "venv") + megabytes_of(folder / "checkout"))
    start = time.monotonic()
    lab = Lab()
    chapter = Chapter(lab, browser, CHAPTER)
    note("installed first s", until_panel(chapter, start))
    server = psutil.Process(lab.server.pid)
    note("hub person MB", sum(one.memory_info().rss for one in (server, *server.children(recursive=True))) / 1e6)
    note("installed key ms", keys_of(chapter.page))
    chapter.close()
    lab.stop()


def main():
    with tempfile.TemporaryDirectory() as temporary, sync_playwright() as driver:
        browser = driver.chromium.launch(executable_path=BROWSER, args=FLAGS)
        for way in (pages, site, installed):
            folder = Path(temporary, way.__name__)
            folder.mkdir()
            way(folder, browser)
        browser.close()
    how = (
        f"Measured on a {platform.machine()} machine with {psutil.cpu_count()} processor cores and no graphics card, in Chromium {time.strftime('%Y-%m')}, "
        "chapter 3, all on one machine: add the time that your network takes."
    )
    if "--write" in sys.argv:
        TARGET.write_text(json.dumps({"how": how, "values": FOUND}, indent=1) + "\n", encoding="utf-8")
        print(f"{TARGET} is written")


if __name__ == "__main__":
    main()
