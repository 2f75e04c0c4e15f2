"""The workbook without installation: built from the registries, served as plain files, run in the page.

Without the registries, npm or Chromium these are skipped and say what is missing; ``SHOULDER_MODEL_NEEDS_SITE=1`` makes that a failure.
"""

import json
import os
import time

import pytest

from shoulder_model.checkout import chapters
from shoulder_model.site.download import Missing

from .accessibility import faults
from .lab import PanelPage, reader, stands_at_section, wait
from .site import CELLS, ELSEWHERE, NEEDED, NOTEBOOK, Server, SitePage, built, said, stored
from .test_practice import Panel

pytestmark = pytest.mark.browser
WHOLE = (
    os.environ.get("SHOULDER_MODEL_SITE") == "whole"
)  # each chapter in a page of its own, as a reader has it: minutes more
RUN = """async (source) => {
  const kernel = window.jupyterapp.shell.currentWidget.sessionContext.session.kernel, outputs = [];
  const asked = kernel.requestExecute({ code: source, stop_on_error: true });
  asked.onIOPub = ({ header, content }) => {
    const kind = header.msg_type;
    if (kind === 'stream') outputs.push({ output_type: kind, text: content.text });
    if (kind === 'error') outputs.push({ output_type: kind, evalue: content.evalue });
    if (kind === 'execute_result' || kind === 'display_data') outputs.push({ output_type: kind, data: content.data });
    if (kind === 'clear_output') outputs.length = 0;
  };
  await asked.done;
  return outputs;
}"""
FORGET = "%reset -f"


@pytest.fixture(scope="module")
def site(browser, tmp_path_factory):
    try:
        return built(tmp_path_factory.mktemp("site") / "public").folder
    except Missing as error:
        (pytest.fail if NEEDED else pytest.skip)(str(error))


@pytest.fixture(scope="module")
def server(site):
    one = Server(site)
    yield one
    one.stop()


@pytest.fixture
def context(browser):
    """One reader's browser, with a store of its own."""
    one = reader(browser)
    yield one
    one.close()


@pytest.fixture(scope="module")
def kernel(browser, server):
    """A page whose kernel runs one chapter after the other."""
    context = reader(browser)
    chapter = SitePage(context, server.address(), "a3_numbers_and_sources")
    wait(lambda: "being started" not in chapter.lines, "the kernel")
    yield chapter
    assert chapter.hosts == {f"127.0.0.1:{server.port}"}
    context.close()


@pytest.mark.parametrize("name", chapters())
def test_every_cell_of_a_chapter_says_what_is_stored(name, kernel, site, server, context):
    if WHOLE:
        chapter = SitePage(context, server.address(), name)
        chapter.run_everything()
        assert chapter.failures == [] and chapter.errors == []
        given = {source: said(outputs) for source, outputs in chapter.page.evaluate(CELLS)}
    else:
        given = {}
        cells = json.loads((site / "files" / "workbook" / f"{name}.ipynb").read_text(encoding="utf-8"))["cells"]
        kernel.page.evaluate(RUN, FORGET)
        for source in (cell["source"] for cell in cells if cell["cell_type"] == "code"):
            outputs = kernel.page.evaluate(RUN, source)
            assert [one["evalue"] for one in outputs if one["output_type"] == "error"] == [], source
            given[source] = said(outputs)
    kept = stored(name)
    assert kept and {source: given[source] for source in kept} == kept


def test_a_panel_moves_and_its_set_up_comes_back_also_without_a_network(site, context):
    server = Server(site)
    try:
        chapter = SitePage(context, server.address(), "03_grip_width")
        assert "Python is being started" in chapter.lines
        chapter.run_everything()
        assert chapter.failures == [] and "being started" not in chapter.lines
        panel = PanelPage(chapter).at_rest()
        first = panel.verdict
        slider = panel.sliders()[0]
        slider.focus()
        for _ in range(6):
            slider.press("ArrowRight")
        panel.becomes(lambda one: one.verdict != first, "another verdict")
        moved = panel.at_rest().words
        panel.press("Save and open")
        with chapter.page.expect_download() as saved:
            panel.press("Save JSON")
        slider.press("Home")
        panel.becomes(lambda one: one.words != moved, "another place")
        panel.root.locator('input[type="file"]').first.set_input_files(saved.value.path())
        panel.becomes(lambda one: one.words == moved, "the saved set-up")
        assert chapter.hosts == {f"127.0.0.1:{server.port}"} and chapter.errors == []
        chapter.page.wait_for_timeout(1500)  # what is kept for later is written behind the page's back
    finally:
        server.stop()
    chapter.open(server.address(), "03_grip_width")  # nobody is there any more
    chapter.run_everything()
    assert chapter.failures == []
    assert PanelPage(chapter).at_rest().verdict == first


def test_a_practice_evening_over_plain_http_is_there_the_next_time(server, context):
    """From another machine, as from a tutor's laptop: to the page this is no secure place, so there is no keeper."""

    def practice():
        chapter = SitePage(context, server.address(ELSEWHERE), "11_practice")
        assert chapter.page.evaluate("() => window.isSecureContext") is False
        chapter.run_everything()
        assert chapter.failures == [] and chapter.errors == []
        assert chapter.hosts == {f"{ELSEWHERE}:{server.port}"}
        return chapter, Panel(chapter)

    chapter, panel = practice()
    assert "in this browser" in panel.text
    panel.root.get_by_role("button", name="Today's set").click()
    for _ in range(2):
        wait(lambda: panel.title.startswith("Question") and panel.focused() == panel.title, "a question")
        panel.answer_by_keyboard()
        panel.root.locator(".verdict").wait_for()
        if panel.root.locator(".verdict.right").count() == 0:
            panel.root.get_by_role("button", name="Show me").click()
        panel.read_again()
        panel.root.get_by_role("button", name="Next").click()
        wait(lambda: not panel.root.locator(".verdict").count(), "the next one")
    chapter.page.close()
    chapter, panel = practice()
    panel.root.get_by_role("button", name="What is weak").click()
    with chapter.page.expect_download() as saved:
        panel.root.get_by_role("button", name="Save").first.click()
    table = saved.value.path().read_bytes()
    assert len(table.decode("utf-8-sig").splitlines()) == 3
    door = chapter.page.locator('.jp-OutputArea input[type="file"]').last
    door.set_input_files({"name": "mine.csv", "mimeType": "text/csv", "buffer": table})
    wait(lambda: "0 answers taken over, 2 were here already." in panel.text, "the table that comes back")


def test_a_chapter_leads_to_others_each_in_a_tab_of_its_own(server, context):
    chapter = SitePage(context, server.address(), "00_start")

    def follow(page, words, **how):
        with context.expect_page() as told:
            page.locator(".jp-MarkdownOutput a:visible").get_by_text(words).first.click(**how)
        told.value.wait_for_selector(".site-lines")
        return told.value

    width = follow(chapter.page, "1 Width and thickness")
    width.get_by_role("heading", name="1 Width and thickness").wait_for()
    for how in ({}, {}, {"modifiers": ["Control"]}, {"button": "middle"}):  # a link once used is as good as a new one
        glossary = follow(width, "biacromial breadth", **how)
        wait(lambda page=glossary: stands_at_section(page, "Glossary"), "the glossary at the top")
        glossary.close()
    assert chapter.errors == [] and chapter.page.url.endswith("00_start.ipynb")


def test_a_newer_edition_is_not_hidden_by_a_copy_that_was_changed(site, server, context):
    name, mine, newer = "a1_out_of_the_plane", "Words of my own.", "Words of the new edition."
    long_ago = time.time() - 1e6  # so a browser does not ask for it again by itself
    os.utime(site / "files" / "workbook" / f"{name}.ipynb", (long_ago, long_ago))
    chapter = SitePage(context, server.address(), name)
    chapter.page.evaluate(
        f"words => {{ {NOTEBOOK}.content.widgets[1].model.sharedModel.setSource(words); return {NOTEBOOK}.context.save(); }}",
        mine,
    )
    path, editions = site / "files" / "workbook" / f"{name}.ipynb", site / "api" / "editions.json"
    before = path.read_text(encoding="utf-8"), editions.read_text(encoding="utf-8")
    try:
        notebook, table = json.loads(before[0]), json.loads(before[1])
        chapter.open(server.address(), name)
        chapter.page.wait_for_timeout(1000)
        assert "newer edition" not in chapter.lines and chapter.page.get_by_text(mine).count()
        notebook["metadata"]["edition"] = table[name] = "another"
        notebook["cells"][1]["source"] = newer
        path.write_text(json.dumps(notebook), encoding="utf-8")
        editions.write_text(json.dumps(table), encoding="utf-8")
        chapter.open(server.address(), name)
        wait(lambda: "there is a newer edition" in chapter.lines, "the offer")
        assert chapter.page.get_by_text(mine).count()
        assert faults(chapter.page, ".site-lines") == []
        chapter.page.get_by_role("button", name="Open the new edition, keep mine beside it").click()
        wait(lambda: chapter.page.get_by_text(newer).count(), "the new edition")
        assert chapter.page.get_by_text(mine).count() == 0
        chapter.page.goto(chapter.page.get_by_role("link", name="my copy").get_attribute("href"))
        wait(lambda: chapter.page.get_by_text(mine).count(), "the copy")
    finally:
        path.write_text(before[0], encoding="utf-8")
        editions.write_text(before[1], encoding="utf-8")


def test_the_start_page_leads_to_every_chapter(server, context):
    page = context.new_page()
    outside = []
    page.on("request", lambda request: outside.append(request.url))
    page.goto(f"{server.address()}/index.html")
    links = page.get_by_role("link", name="Open", exact=True)
    found = links.evaluate_all("all => all.map(one => new URL(one.href).search)")
    assert [one.removeprefix("?path=workbook/").removesuffix(".ipynb") for one in found] == chapters()
    assert outside == [f"{server.address()}/index.html"]
    assert faults(page, "body") == []
    for width in (1280, 360):
        page.set_viewport_size({"width": width, "height": 720})
        assert page.evaluate("() => document.documentElement.scrollWidth <= innerWidth")
