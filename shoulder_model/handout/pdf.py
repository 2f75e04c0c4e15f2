"""A page as PDF, printed by a browser that is already there; without one there is no PDF, and no error."""

import os
import shutil
import subprocess
import sys
import tempfile
from pathlib import Path

NAMES = (
    "chromium", "chromium-browser", "google-chrome", "google-chrome-stable", "chrome", "microsoft-edge", "msedge",
    "brave-browser",
)  # fmt: skip
PLACES = (
    "/Applications/Google Chrome.app/Contents/MacOS/Google Chrome",
    "/Applications/Chromium.app/Contents/MacOS/Chromium",
    "/Applications/Microsoft Edge.app/Contents/MacOS/Microsoft Edge",
)
WINDOWS = tuple(rf"{maker}\Application\{name}.exe" for maker, name in (
    (r"Google\Chrome", "chrome"), (r"Microsoft\Edge", "msedge"), ("Chromium", "chrome"),
))  # fmt: skip
PATIENCE = 120  # seconds


def browser():
    """Path of a browser of Chromium's family as text, or None: ``CHROMIUM`` first, then the path, then the usual places."""
    chosen = os.environ.get("CHROMIUM")
    if chosen:
        return shutil.which(chosen)
    folders = [os.environ.get(name) for name in ("ProgramFiles", "ProgramFiles(x86)", "LocalAppData")]
    places = [*PLACES, *(os.path.join(folder, end) for folder in folders if folder for end in WINDOWS)]
    found = [shutil.which(name) for name in NAMES] + [place for place in places if os.path.isfile(place)]
    return next((path for path in found if path), None)


def print_pdf(html_path, pdf_path):
    """Print the page at ``html_path`` (path) into the file ``pdf_path`` (path); returns whether it is there now.

    The browser has a profile of its own for that one page, thrown away afterwards.
    """
    program = browser()
    if program is None:
        return False
    html_path, pdf_path = Path(html_path).resolve(), Path(pdf_path).resolve()
    pdf_path.unlink(missing_ok=True)
    with tempfile.TemporaryDirectory(prefix="handout-", ignore_cleanup_errors=True) as profile:
        line = [
            program, "--headless", "--disable-gpu", "--disable-extensions", "--disable-background-networking",
            "--disable-component-update", "--disable-sync", "--no-first-run", "--no-default-browser-check",
            f"--user-data-dir={profile}", "--no-pdf-header-footer", f"--print-to-pdf={pdf_path}", html_path.as_uri(),
        ]  # fmt: skip
        if sys.platform != "win32" and os.geteuid() == 0:
            line.insert(1, "--no-sandbox")
        try:
            subprocess.run(line, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, timeout=PATIENCE, check=True)
        except (OSError, subprocess.SubprocessError):
            pdf_path.unlink(missing_ok=True)
    return pdf_path.is_file() and pdf_path.stat().st_size > 0
