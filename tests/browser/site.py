"""The workbook as a site, served to a page as any web server would."""

import functools
import json
import os
import threading
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path

import nbformat

from shoulder_model.checkout import HOME
from shoulder_model.site.build import Order, build
from shoulder_model.site.command import store_folder
from shoulder_model.site.distribution import Registries
from shoulder_model.site.download import Store

from .lab import run_everything, wait

NEEDED = os.environ.get("SHOULDER_MODEL_NEEDS_SITE") == "1"
ELSEWHERE = "workbook.example"  # a name that the browser of the tests takes for this machine: no secure place to a page
NOTEBOOK = "window.jupyterapp.shell.currentWidget"
CELLS = f"""() => {NOTEBOOK}.content.widgets.filter(one => one.model.type === 'code')
  .map(one => [one.model.sharedModel.source, one.model.outputs.toJSON()])"""
SLOWLY = 240  # seconds, for Python that is compiled for a browser and fetched first


def built(folder, say=lambda words: None):
    """A site in ``folder``, from the registries; `download.Missing` where they have not all parts."""
    store = Store(store_folder())
    return build(Path(folder), Order(HOME, Registries(store), store, panels=False), say)


class Handler(SimpleHTTPRequestHandler):
    """Files as they lie there, but for one setting: the tests look at cells and kernel through the application, which a reader's page hides."""

    def log_message(self, *words):
        """Say nothing."""

    def copyfile(self, source, outputfile):
        content = source.read()
        self.server.sent += len(content)
        outputfile.write(content)

    def do_GET(self):
        if self.path != "/jupyter-lite.json":
            return super().do_GET()
        settings = json.loads((Path(self.directory) / "jupyter-lite.json").read_text(encoding="utf-8"))
        settings["jupyter-config-data"]["exposeAppInBrowser"] = True
        content = json.dumps(settings).encode()
        self.send_response(200)
        self.send_header("Content-Type", "application/json")
        self.send_header("Content-Length", str(len(content)))
        self.end_headers()
        self.wfile.write(content)


class Server:
    """A plain web server for a ``folder``, until it is stopped."""

    def __init__(self, folder):
        self.http = ThreadingHTTPServer(("127.0.0.1", 0), functools.partial(Handler, directory=str(folder)))
        self.http.sent, self.port = 0, self.http.server_address[1]  # bytes of files that were given out
        self.thread = threading.Thread(target=self.http.serve_forever, daemon=True)
        self.thread.start()

    def address(self, host="127.0.0.1"):
        return f"http://{host}:{self.port}"

    def stop(self):
        self.http.shutdown()
        self.http.server_close()


class SitePage:
    """A chapter of a site in a page of its own."""

    def __init__(self, context, address, name):
        self.page, self.hosts, self.errors = context.new_page(), set(), []
        self.page.on("request", lambda request: self._note(request.url))
        self.page.on("pageerror", lambda error: self.errors.append(str(error)))
        self.open(address, name)

    def open(self, address, name):
        self.page.goto(f"{address}/notebooks/index.html?path=workbook/{name}.ipynb")
        self.page.wait_for_selector(".site-lines")

    def _note(self, url):
        if url.startswith(("http:", "https:", "ws:")):
            self.hosts.add(url.split("/")[2])

    def run_everything(self):
        """Press the button and wait until every cell has run, or one has failed."""
        if not run_everything(self.page, SLOWLY):
            assert self.failures, "it stopped, and no cell says why"
            return
        counts = self.page.evaluate(
            f"() => {NOTEBOOK}.content.widgets.filter(one => one.model.type === 'code').map(one => one.model.executionCount)"
        )
        assert all(counts)

    @property
    def failures(self):
        """What cells that failed say."""
        outputs = (one for _, some in self.page.evaluate(CELLS) for one in some)
        return [one["evalue"] for one in outputs if one["output_type"] == "error"]

    @property
    def lines(self):
        """What stands above the chapter."""
        return self.page.locator(".site-lines").inner_text()

    def becomes(self, done, what):
        wait(done, what)


def stored(name):
    """Code of each cell of a chapter whose output is kept -> its text."""
    notebook = nbformat.read(HOME / "workbook" / f"{name}.ipynb", as_version=4)
    return {cell.source: said(cell.outputs) for cell in notebook.cells if cell.cell_type == "code" and cell.outputs}


def said(outputs):
    """The text of outputs, one after the other; of an error what it says."""
    return "".join(
        one["text"] if one["output_type"] == "stream" else one.get("evalue") or one["data"].get("text/plain", "")
        for one in outputs
    )
