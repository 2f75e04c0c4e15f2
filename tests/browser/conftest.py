"""One server and one browser for all browser tests; skipped, or failed, where there is no Chromium."""

import os
from pathlib import Path

import pytest

from .lab import BROWSER, FLAGS, Chapter, Lab

NEEDED = os.environ.get("SHOULDER_MODEL_NEEDS_BROWSER") == "1"


@pytest.fixture(scope="session")
def browser():
    give_up = pytest.fail if NEEDED else pytest.skip
    if not Path(BROWSER).exists():
        give_up(f"no Chromium at {BROWSER}; set CHROMIUM to its path")
    try:
        from playwright.sync_api import sync_playwright
    except ImportError:
        give_up("playwright is not installed: pip install -e '.[test]'")
    with sync_playwright() as driver:
        chromium = driver.chromium.launch(executable_path=BROWSER, args=FLAGS)
        yield chromium
        chromium.close()


@pytest.fixture(scope="session")
def lab(browser):
    server = Lab()
    yield server
    server.stop()


@pytest.fixture
def open_chapter(lab, browser):
    """Opens a chapter in a fresh page, and closes it after the test."""
    opened = []

    def open_one(name, **size):
        opened.append(Chapter(lab, browser, name, **size))
        return opened[-1]

    yield open_one
    for chapter in opened:
        chapter.close()
