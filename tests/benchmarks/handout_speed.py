"""How long hand-outs take: ``python tests/benchmarks/handout_speed.py [--all] [chapter ...]``. Figures, not tests.

For each chapter: reading it, again for a projector, both pages, both PDFs, and how long a browser takes to spread a group over
slides. With ``--all``, everything at once as the command makes it.
"""

import contextlib
import io
import os
import sys
import tempfile
import time
from pathlib import Path

from shoulder_model.handout.command import HOME, chapters, for_projector, main
from shoulder_model.handout.paper import paper_of
from shoulder_model.handout.pdf import browser, print_pdf
from shoulder_model.handout.reading import reading_page
from shoulder_model.handout.render import glossary_of
from shoulder_model.handout.slides import slides_page
from shoulder_model.handout.work_sheet import work_sheet
from shoulder_model.lesson import read_chapter

FIGURES = (HOME / "figures" / "projector", HOME / "figures")
TIMED = """
const spreadTimes = [], spreadAll = intoScreens;
intoScreens = (...given) => {
  const start = performance.now();
  spreadAll(...given);
  spreadTimes.push(performance.now() - start);
};
"""


class Clock:
    """Times since the last call, by name."""

    def __init__(self):
        self.last, self.taken = time.perf_counter(), {}

    def __call__(self, name):
        now = time.perf_counter()
        self.taken[name], self.last = now - self.last, now


def one_chapter(name, folder, glossary):
    """Print the times of each step of one chapter."""
    path, clock = HOME / "workbook" / f"{name}.ipynb", Clock()
    chapter = read_chapter(path)
    clock("read")
    large = for_projector(chapter, path)
    clock("for a projector")
    pages = {"reading": reading_page(paper_of(chapter), FIGURES[1:], glossary)}
    clock("page")
    pages["slides"] = slides_page(paper_of(large), FIGURES, glossary)
    clock("slides")
    for kind, html in pages.items():
        (folder / f"{kind}.html").write_text(html, encoding="utf-8")
        print_pdf(folder / f"{kind}.html", folder / f"{kind}.pdf")
        clock(f"{kind} PDF")
    times = ", ".join(f"{step} {seconds:.1f}" for step, seconds in clock.taken.items())
    size = max(len(html.encode()) for html in pages.values())
    print(f"{name}: {times} s; {size / 1e6:.2f} MB; {spread_words(folder / 'slides.html')}", flush=True)


def spread_words(page):
    """How long the groups of the slides at ``page`` take to be spread, in words."""
    with contextlib.suppress(ImportError):
        from playwright.sync_api import sync_playwright

        html = page.read_text(encoding="utf-8")
        timed = page.with_name("timed.html")
        mark = "// Spreads each group of the deck"
        timed.write_text(html.replace(mark, TIMED + mark, 1), encoding="utf-8")
        with sync_playwright() as driver:
            program = driver.chromium.launch(executable_path=browser(), args=["--no-sandbox"])
            shown = program.new_page(viewport={"width": 1280, "height": 728})
            shown.goto(timed.as_uri())
            shown.wait_for_selector("#deck.ready")
            taken = sorted(shown.evaluate("spreadTimes"))
            program.close()
        return f"{len(taken)} groups spread in {taken[len(taken) // 2]:.1f} ms each, at most {taken[-1]:.0f} ms"
    return "no playwright to time the slides with"


def everything(folder):
    """Print how long all of it takes at once, in seconds on the clock and of both processors."""
    before, start = sum(os.times()[:4]), time.perf_counter()
    with contextlib.redirect_stdout(io.StringIO()) as printed:
        main(["all", "--to", str(folder)])
    files = len(printed.getvalue().splitlines())
    taken, worked = time.perf_counter() - start, sum(os.times()[:4]) - before
    print(f"everything: {files} files in {taken:.0f} s ({worked:.0f} s of processor time)")


if __name__ == "__main__":
    wanted = [name for name in sys.argv[1:] if name != "--all"]
    with tempfile.TemporaryDirectory() as made:
        if not wanted and "--all" not in sys.argv:
            wanted = chapters()
        begin = time.perf_counter()
        work_sheet()
        print(f"work sheet {time.perf_counter() - begin:.1f} s")
        for one in wanted:
            one_chapter(one, Path(made), glossary_of(HOME / "workbook"))
        if "--all" in sys.argv:
            everything(Path(made))
