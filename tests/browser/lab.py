"""A JupyterLab as a reader gets it, and a page in it to work on."""

import json
import os
import re
import shutil
import signal
import socket
import subprocess
import sys
import tempfile
import time
import urllib.request
from pathlib import Path

from shoulder_model.lab.launch import HOME, environment, lab_arguments, trust, write_settings

TOKEN = "for-the-tests-only"
BROWSER = os.environ.get("CHROMIUM", "/usr/bin/chromium")
FLAGS = [
    "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking",
    "--disable-component-update", "--disable-sync",
]  # fmt: skip
PATIENCE = 90  # seconds, for a loaded machine


class Lab:
    """The server, started with the launcher's own arguments on a copy of the workbook."""

    def __init__(self, lecture=False):
        self.folder = tempfile.TemporaryDirectory(prefix="workbook-", ignore_cleanup_errors=True)
        home, state = Path(self.folder.name), Path(self.folder.name) / ".lab"
        for room in ("workbook", "figures"):
            shutil.copytree(HOME / room, home / room, ignore=shutil.ignore_patterns(".*", "__pycache__"))
        write_settings(state, lecture)
        trust(home, state)
        with socket.socket() as probe:
            probe.bind(("127.0.0.1", 0))
            self.port = probe.getsockname()[1]
        self.address = f"http://127.0.0.1:{self.port}"
        given = lab_arguments(home, state, port=self.port, browser=False, lecture=lecture)
        line = [sys.executable, "-m", "jupyterlab", *given, f"--IdentityProvider.token={TOKEN}"]
        self.log = open(home / "log", "w")
        where = os.environ | environment(state) | {"PYTHONPATH": str(HOME)}
        self.server = subprocess.Popen(
            line, env=where, cwd=home, stdout=self.log, stderr=self.log, start_new_session=True
        )
        try:
            wait(self._answers, "the server to answer")
        except AssertionError as error:
            self.stop()
            raise RuntimeError("JupyterLab did not start") from error

    def _answers(self):
        assert self.server.poll() is None, Path(self.log.name).read_text()
        return self.get("/api") is not None

    def request(self, path, method="GET"):
        """One request with the token; the answer's text, or None while nobody listens."""
        request = urllib.request.Request(
            f"{self.address}{path}", method=method, headers={"Authorization": f"token {TOKEN}"}
        )
        try:
            with urllib.request.urlopen(request, timeout=10) as reply:
                return reply.read().decode()
        except OSError:
            return None

    def get(self, path):
        """A request's answer from JSON."""
        text = self.request(path)
        return None if text is None else json.loads(text)

    def stop(self):
        """End the server and every kernel."""
        if self.server.poll() is None:
            os.killpg(self.server.pid, signal.SIGTERM)
            self.server.wait(30)
        self.log.close()
        self.folder.cleanup()


def wait(done, what):
    """Wait until ``done()`` holds."""
    end = time.monotonic() + PATIENCE
    while not done():
        assert time.monotonic() < end, f"waited {PATIENCE} s for {what}"
        time.sleep(0.05)


class Chapter:
    """One chapter in a fresh page: open it, run it, look at it."""

    def __init__(self, lab, browser, name, width=1280, height=720):
        self.lab, self.path = lab, f"workbook/{name}.ipynb"
        self.page = browser.new_context(viewport={"width": width, "height": height}, accept_downloads=True).new_page()
        self.errors, self.outside = [], []
        self.page.on("pageerror", lambda error: self.errors.append(str(error)))
        self.page.on("console", lambda line: self.errors.append(line.text) if line.type == "error" else None)
        self.page.on("request", self._note_outside)
        self.page.goto(f"{lab.address}/doc/tree/{self.path}?token={TOKEN}")
        self.page.wait_for_selector(".jp-Notebook .jp-Cell", timeout=1000 * PATIENCE)
        wait(self._kernel_is_connected, "the kernel")  # the toolbar says idle before the kernel listens

    def _note_outside(self, request):
        if not request.url.startswith((self.lab.address, f"ws://127.0.0.1:{self.lab.port}", "data:", "blob:")):
            self.outside.append(request.url)

    def _kernels(self):
        return [session["kernel"] for session in self.lab.get("/api/sessions") or [] if session["path"] == self.path]

    def _kernel_is_connected(self):
        return any(kernel["execution_state"] == "idle" and kernel["connections"] for kernel in self._kernels())

    def run_everything(self):
        """Press the toolbar's button and wait until every cell has run, or one has failed.

        A stored notebook shows execution counts before anything has run, so they are wiped from the page first.
        The kernel's last activity proves nothing: the page asks for its widgets about a second after opening.
        """
        prompts = self.page.locator(".jp-Notebook .jp-CodeCell .jp-InputPrompt")
        prompts.evaluate_all("all => all.forEach(one => { one.textContent = ''; })")
        shown, quiet, end = self._cells_with_a_count(), 0, time.monotonic() + PATIENCE
        self.page.get_by_text("Run everything", exact=True).first.click()
        while quiet < 4:  # a folded cell at the end shows no count: four looks in a row at a kernel at rest
            counts = [text for text in prompts.all_text_contents() if re.fullmatch(r"\[\d+\]:", text)]
            at_rest = (len(counts) == shown or self.failed_cells) and self._kernel_is_connected()
            quiet = quiet + 1 if at_rest else 0
            assert time.monotonic() < end, f"{len(counts)} of {shown} cells ran"
            time.sleep(0.15)

    def _cells_with_a_count(self):
        """How many cells show a count once they have run: those with code in them that are not folded."""
        cells = self.lab.get(f"/api/contents/{self.path}")["content"]["cells"]
        code = [cell for cell in cells if cell["cell_type"] == "code" and cell["source"].strip()]
        return sum(not cell["metadata"].get("jupyter", {}).get("source_hidden") for cell in code)

    @property
    def failed_cells(self):
        """Texts of cells that ended in an error."""
        return self.page.locator(
            '.jp-OutputArea-output[data-mime-type="application/vnd.jupyter.stderr"], .jp-RenderedText[data-mime-type="application/vnd.jupyter.error"]'
        ).all_text_contents()

    def close(self):
        """Leave the page and end its kernel."""
        self.page.context.close()
        for session in self.lab.get("/api/sessions") or []:
            if session["path"] == self.path:
                self.lab.request(f"/api/sessions/{session['id']}", method="DELETE")


class PanelPage:
    """One panel of a chapter that has been run."""

    def __init__(self, chapter, which=0):
        self.page = chapter.page
        pictures = self.page.locator('.jp-OutputArea svg[role="img"]')
        self.root = self.page.locator(".jp-OutputArea-output", has=self.page.locator('svg[role="img"]')).nth(which)
        pictures.nth(which).wait_for(timeout=1000 * PATIENCE)
        self.root.scroll_into_view_if_needed()

    @property
    def words(self):
        """What the picture says to a screen reader."""
        return self.root.locator('svg[role="img"]').get_attribute("aria-label")

    @property
    def picture(self):
        """The moving layer, as it stands in the page."""
        return self.root.locator('svg[role="img"]').inner_html()

    @property
    def sentences(self):
        """The lines of words under the picture, difference included."""
        return self.root.locator('[role="status"]').all_text_contents()

    @property
    def trouble(self):
        """The line about a refused input, or nothing."""
        return "".join(self.root.locator('[role="alert"]').all_text_contents())

    def sliders(self):
        """Handles of all sliders."""
        return self.root.locator(".noUi-handle").all()

    def press(self, words):
        """Press the button with these words on it."""
        self.root.get_by_role("button", name=words, exact=True).click()

    def becomes(self, done, what):
        """Wait until ``done(self)`` holds."""
        wait(lambda: done(self), what)

    def at_rest(self):
        """The panel, once its picture has not changed for half a second."""
        seen, since = self.picture, time.monotonic()
        end = since + PATIENCE
        while time.monotonic() - since < 0.5:
            assert time.monotonic() < end, "the picture never came to rest"
            time.sleep(0.05)
            if (now := self.picture) != seen:
                seen, since = now, time.monotonic()
        return self
