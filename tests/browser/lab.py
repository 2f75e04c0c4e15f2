"""A JupyterLab as a reader gets it, and a page in it to work on."""

import contextlib
import json
import os
import re
import signal
import socket
import subprocess
import sys
import tempfile
import time
import urllib.request
from pathlib import Path

import nbformat
import psutil

from shoulder_model.checkout import HOME
from shoulder_model.lab.places import lay_out

START = """import sys
from pathlib import Path
from shoulder_model.lab.launch import start
start(Path.cwd(), Path(".lab").absolute(), port=int(sys.argv[1]), browser=False, lecture=next(iter(sys.argv[2:]), None))
"""
PLAIN = ("Open this address: ", "To stop, press Ctrl+C in this window.")
BROWSER = os.environ.get("CHROMIUM", "/usr/bin/chromium")
FLAGS = [
    "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking",
    "--disable-component-update", "--disable-sync", "--host-resolver-rules=MAP workbook.example 127.0.0.1",
]  # fmt: skip
PATIENCE = 90  # seconds, for a loaded machine
HOMES = (  # chapters with a panel, a kind each
    "01_width_and_thickness",
    "02_one_arm_one_plane",
    "03_grip_width",
    "04_from_pulldown_to_row",
    "05_where_the_lat_pulls",
    "06_shoulder_blades",
    "07_who_does_the_work",
    "08_people_differ",
    "09_reading_the_evidence",
    "10_from_numbers_to_a_session",
)
PLAY = """([main, patience]) => new Promise((done, failed) => {
  const range = main.querySelector('.range'), button = main.querySelector('.play'), from = range.value, start = performance.now();
  button.click();
  const look = () => {
    if (performance.now() - start > patience) return void failed(new Error('it does not play'));
    if (range.value === from) return void setTimeout(look, 10);
    const now = { from: Number(from), to: Number(range.value), after: performance.now() - start, label: button.textContent };
    if (now.label === 'Pause') button.click();
    done(now);
  };
  look();
})"""
SLIDERS = "all => all.map(one => [one.getAttribute('aria-label'), Number(one.querySelector('.range').value)])"
OUTSIDE = """root => {
  const view = document.querySelector('.jp-WindowedPanel-outer').getBoundingClientRect();
  const parts = root.querySelectorAll('.pull-panel :is(button, input, select, label, .verdict, .small, .bands, .layers, .layers text)');
  const out = [];
  for (const part of parts) {
    const box = part.getBoundingClientRect();
    if (!box.width || !box.height) continue;
    if (box.top < view.top - 2 || box.bottom > view.bottom + 2 || box.left < view.left - 2 || box.right > view.right + 2)
      out.push(part.textContent || part.className || part.nodeName);
  }
  return out;
}"""


class Lab:
    """The launcher's own server on a copy of the workbook; ``lecture`` as the command line has it."""

    def __init__(self, lecture=None):
        self.folder = tempfile.TemporaryDirectory(prefix="workbook-", ignore_cleanup_errors=True)
        home, self.token = Path(self.folder.name), ""
        lay_out(home, HOME)
        with socket.socket() as probe:
            probe.bind(("127.0.0.1", 0))
            self.port = probe.getsockname()[1]
        self.address = f"http://127.0.0.1:{self.port}"
        line = [sys.executable, "-c", START, str(self.port), *([] if lecture is None else [lecture])]
        self.log = open(home / "log", "w")
        self.practice = home / "practice" / "practice.sqlite"
        own = {"PYTHONPATH": str(HOME), "SHOULDER_MODEL_PRACTICE": str(self.practice.parent)}
        self.server = subprocess.Popen(
            line, env=os.environ | own, cwd=home, stdout=self.log, stderr=self.log, start_new_session=True
        )
        try:
            wait(self._answers, "the server to answer")
        except AssertionError as error:
            self.stop()
            raise RuntimeError("JupyterLab did not start") from error

    @property
    def printed(self):
        """What the server has printed so far."""
        return Path(self.log.name).read_text()

    @property
    def noise(self):
        """Lines of it that are not meant for a reader."""
        return [line for line in self.printed.splitlines() if not line.startswith(PLAIN)]

    def _answers(self):
        assert self.server.poll() is None, self.printed
        said = re.search(r"^Open this address: http\S+\?token=(\w+)$", self.printed, re.MULTILINE)
        self.token = said[1] if said else ""
        return self.token and self.get("/api") is not None

    def request(self, path, method="GET"):
        """One request with the token; the answer's text, or None while nobody listens."""
        request = urllib.request.Request(
            f"{self.address}{path}", method=method, headers={"Authorization": f"token {self.token}"}
        )
        try:
            with urllib.request.urlopen(request, timeout=PATIENCE) as reply:
                return reply.read().decode()
        except OSError:
            return None

    def get(self, path):
        """A request's answer from JSON."""
        text = self.request(path)
        return None if text is None else json.loads(text)

    def add(self, name, *sources):
        """Put a notebook of these cells beside the chapters; returns its name."""
        cells = [nbformat.v4.new_code_cell(source, metadata={"jupyter": {"source_hidden": True}}) for source in sources]
        notebook = nbformat.v4.new_notebook(
            cells=cells, metadata={"kernelspec": {"display_name": "Python 3", "name": "python3"}}
        )
        nbformat.write(notebook, Path(self.folder.name) / "workbook" / f"{name}.ipynb")
        return name

    def end_kernel(self, path):
        """End the kernel of the notebook at ``path``."""
        for session in self.get("/api/sessions") or []:
            if session["path"] == path:
                self.request(f"/api/sessions/{session['id']}", method="DELETE")

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

    def __init__(self, lab, browser, name, width=1280, height=720, context=None, patient=True, section=""):
        self.lab, self.path = lab, f"workbook/{name}.ipynb"
        if context is None:
            context = reader(browser, width, height)
        self.page = context.new_page()
        self.errors, self.outside = [], []
        self.page.on("pageerror", lambda error: self.errors.append(str(error)))
        self.page.on("console", lambda line: self.errors.append(line.text) if line.type == "error" else None)
        self.page.on("request", self._note_outside)
        self.page.goto(f"{lab.address}/doc/tree/{self.path}?token={lab.token}{section and f'#{section}'}")
        self.page.wait_for_selector(".jp-Notebook .jp-Cell")
        if patient:
            wait(self.kernel_is_connected, "the kernel")  # the toolbar says idle before the kernel listens

    def _note_outside(self, request):
        if not request.url.startswith((self.lab.address, f"ws://127.0.0.1:{self.lab.port}", "data:", "blob:")):
            self.outside.append(request.url)

    def _kernels(self):
        return [session["kernel"] for session in self.lab.get("/api/sessions") or [] if session["path"] == self.path]

    def kernel_is_connected(self):
        """Whether a kernel answers and has a page; not to be asked once a kernel was killed.

        The server may then count no page for good, although kernel and page work.
        """
        return any(kernel["execution_state"] == "idle" and kernel["connections"] for kernel in self._kernels())

    def kill_kernel(self):
        """Kill the chapter's kernel as a full memory would, and wait for the one that takes its place."""
        (kernel,) = self._kernels()
        (old,) = self._processes(kernel["id"])
        old.kill()
        wait(lambda: any(one.pid != old.pid for one in self._processes(kernel["id"])), "another kernel")

    def _processes(self, kernel):
        """Processes of a kernel by its id."""
        found = []
        for process in psutil.Process(self.lab.server.pid).children(recursive=True):
            with contextlib.suppress(psutil.Error):
                if kernel in " ".join(process.cmdline()):
                    found.append(process)
        return found

    def run_everything(self):
        """Press the toolbar's button and wait until every cell has run, or one has failed.

        A stored notebook shows execution counts before anything has run, so they are wiped from the page first.
        """
        self.page.wait_for_selector(".jp-Notebook .jp-Cell")
        prompts = self.page.locator(".jp-Notebook .jp-CodeCell .jp-InputPrompt")
        prompts.evaluate_all("all => all.forEach(one => { one.textContent = ''; })")
        if not run_everything(self.page):
            wait(lambda: self.failed_cells, "the cell that failed")
            return
        shown, counted = self._cells_with_a_count(), prompts.filter(has_text=re.compile(r"^\[\d+\]:$"))
        wait(lambda: counted.count() == shown, f"{shown} cells to have a number")

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

    @property
    def code_in_sight(self):
        """How many code cells show their code."""
        inputs = self.page.locator(".jp-CodeCell .jp-InputArea-editor").all()
        return sum(one.is_visible() for one in inputs)

    @property
    def open_folds(self):
        """How many folded answers stand open."""
        return self.page.locator(".jp-Notebook details[open]").count()

    @property
    def scrolled(self):
        """How far the page is scrolled. [pixels]"""
        return self.page.locator(".jp-WindowedPanel-outer").first.evaluate("one => one.scrollTop")

    def press(self, words):
        """Press a button of the toolbar."""
        self.page.locator(".jp-Toolbar").get_by_text(words, exact=True).first.click()

    def becomes(self, done, what):
        """Wait until ``done()`` holds."""
        wait(done, what)

    def close(self):
        """Leave the page with all that it remembers, and end its kernel."""
        self.end()
        self.page.context.close()

    def end(self):
        """Leave the page and end its kernel."""
        self.page.close()
        self.lab.end_kernel(self.path)


def run_everything(page, patience=PATIENCE):
    """Press "Run everything" on a ``page`` and wait, ``patience`` seconds at most, until it says how that ended; whether all has run."""
    page.locator(".jp-Toolbar").get_by_text("Run everything", exact=True).first.click()
    heard = page.locator(".workbook-heard")
    heard.filter(has_not_text="…").filter(has_text=".").wait_for(state="attached", timeout=1000 * patience)
    return heard.text_content() == "Everything has run."


def stands_at_section(page, words):
    """Whether a section's heading stands at the top of a ``page``; ``words`` are its number ("3.3") or all of it."""
    heading = page.locator(".jp-MarkdownOutput :is(h2, h3):visible").filter(
        has_text=re.compile(rf"^{re.escape(words)}( |\u00b6)")
    )
    box = heading.bounding_box() if heading.count() else None
    return box is not None and 0 <= box["y"] < 200


def reader(browser, width=1280, height=720, **more):
    """A reader's browser with a store of its own, ``width`` × ``height`` pixels, as patient as the tests are.

    ``more`` goes to Playwright's ``new_context``.
    """
    context = browser.new_context(viewport={"width": width, "height": height}, accept_downloads=True, **more)
    context.set_default_timeout(1000 * PATIENCE)
    return context


def play_a_step(slider):
    """Press Play, and Pause after the first step, both in the page: it plays for seconds, and a busy machine is slower.

    Returns where the slider stood (``from``), where it went (``to``), ``after`` how many milliseconds, and what the button
    was called by then (``label``).
    """
    return slider.page.evaluate(PLAY, [slider.element_handle(), 1000 * PATIENCE])


def open_and_run(chapter):
    """What has to hold for every ``chapter`` when a reader opens it, and after "Run everything"."""
    page, before = chapter.page, chapter.lab.noise  # a kernel that another test has killed is told of
    assert page.locator(".jp-Dialog").count() == 0
    assert "Run everything" in page.locator(".jp-Notebook").inner_text()[:1500]
    assert chapter.code_in_sight == 0 and chapter.open_folds == 0
    chapter.run_everything()
    assert chapter.failed_cells == []
    assert chapter.scrolled < 5, "the reader is taken away from the start"
    assert chapter.code_in_sight == 0 and chapter.open_folds == 0, "an answer stands open before it is asked for"
    assert page.locator(".jp-Dialog").count() == 0
    pictures = page.locator(".jp-MarkdownOutput img")
    assert pictures.count() > 0
    assert pictures.evaluate_all("all => all.filter(one => !one.naturalWidth).length") == 0
    assert chapter.outside == []
    assert chapter.errors == []
    assert chapter.lab.noise == before


class PanelPage:
    """One panel of a chapter that has been run."""

    def __init__(self, chapter, which=0):
        self.page = chapter.page
        pictures = self.page.locator('.jp-OutputArea svg[role="img"]')
        self.root = self.page.locator(".jp-OutputArea-output", has=self.page.locator('svg[role="img"]')).nth(which)
        wait(lambda: self._shows(pictures.nth(which)), "the panel to show")
        self.root.scroll_into_view_if_needed()

    def _shows(self, picture):
        """Whether a picture is on the page; a panel may wait for a guess, so every "Show me" is pressed until it is."""
        if picture.count() and picture.is_visible():
            return True
        for guess in self.page.get_by_role("button", name="Show me", exact=True).all():
            guess.click()
        return False

    @property
    def words(self):
        """What the picture says to a screen reader."""
        return self.root.locator('svg[role="img"]').get_attribute("aria-label")

    @property
    def picture(self):
        """The moving layer, as it stands in the page."""
        return self.root.locator('svg[role="img"]').inner_html()

    @property
    def elements(self):
        """The moving layer's elements with their attributes in the order of the alphabet."""
        return self.root.locator('svg[role="img"] *').evaluate_all(
            "all => all.map(one => [one.nodeName, one.textContent, ...one.getAttributeNames().sort().map(name => [name, one.getAttribute(name)])])"
        )

    @property
    def verdict(self):
        """The sentence above the picture."""
        return self.root.locator(".verdict").inner_text()

    @property
    def above(self):
        """That sentence, and the one about the bands."""
        return f"{self.verdict} {self.root.locator('.pull-picture .bands').inner_text()}".strip()

    def off_screen(self):
        """Parts of the panel that do not stand on the screen with the rest, once it is scrolled to, by their words."""
        for _ in range(5):  # pictures further up may still be coming in
            self.root.locator(".pull-picture").first.evaluate(
                "one => one.closest('.pull-panel').scrollIntoView({ block: 'start' })"
            )
            self.page.wait_for_timeout(200)
            if not (outside := self.root.evaluate(OUTSIDE)):
                break
        return outside

    @property
    def trouble(self):
        """The line about a refused input, or nothing."""
        return "".join(self.root.locator('[role="alert"]').all_text_contents())

    @property
    def bands_awaited(self):
        """Whether the bands are still being worked out."""
        return self.root.locator('.pull-picture[data-bands="awaited"]').count() > 0

    def sliders(self):
        """Handles of all sliders."""
        return self.root.locator(".pull-slider .range").all()

    def press(self, words):
        """Press the button with these words on it."""
        self.root.get_by_role("button", name=words, exact=True).click()

    def becomes(self, done, what):
        """Wait until ``done(self)`` holds."""
        wait(lambda: done(self), what)

    @property
    def behind(self):
        """Whether a slider stands where the kernel's answer has not come yet."""
        shown = json.loads(self.root.locator(".pull-picture").first.get_attribute("data-at") or "{}")
        stand = dict(self.root.locator(".pull-slider").evaluate_all(SLIDERS))
        return any(stand[name] != value for name, value in shown.items() if name in stand)

    def at_rest(self):
        """The panel, once it answers for where its sliders stand, has not changed for half a second and has its bands."""
        seen, since = self.picture, time.monotonic()
        end = since + PATIENCE
        while time.monotonic() - since < 0.5:
            assert time.monotonic() < end, "the picture never came to rest"
            time.sleep(0.05)
            if (now := self.picture) != seen or self.behind or self.bands_awaited:
                seen, since = now, time.monotonic()
        return self
