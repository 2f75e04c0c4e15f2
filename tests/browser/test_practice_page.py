"""Practice whose record the page keeps in the browser: pages and kernels come and go, two tabs, a browser that keeps nothing."""

import pytest

from shoulder_model.practice.page_shelf import REFUSED

from .accessibility import faults
from .lab import Chapter, reader, wait
from .test_practice import Panel

pytestmark = pytest.mark.browser
CELL = "from shoulder_model.panels import PracticePanel\nPracticePanel(keep='page')"
HOME = "What do you want to practise?"
KEPT = """() => new Promise((good, bad) => {
  const request = indexedDB.open("shoulder-model-practice");
  request.onerror = () => bad(request.error);
  request.onsuccess = () => {
    const base = request.result;
    if (!base.objectStoreNames.length) { base.close(); good([]); return; }
    const all = base.transaction("answers").objectStore("answers").getAll();
    all.onsuccess = () => { base.close(); good(all.result.map((entry) => entry.text)); };
  };
})"""
SPOIL = """() => new Promise((good) => {
  indexedDB.open("shoulder-model-practice").onsuccess = (event) => {
    const base = event.target.result, step = base.transaction("answers", "readwrite"), store = step.objectStore("answers");
    store.openCursor().onsuccess = (found) => { const one = found.target.result; one.update({ ...one.value, text: one.value.text.slice(0, 40) }); };
    step.oncomplete = () => { base.close(); good(); };
  };
})"""
REFUSE = "IDBFactory.prototype.open = () => { throw new DOMException('no', 'SecurityError'); };"
FULL = """() => { window.whole = IDBObjectStore.prototype.add;
  IDBObjectStore.prototype.add = () => { throw new DOMException('no', 'QuotaExceededError'); }; }"""
ROOM = "() => { IDBObjectStore.prototype.add = window.whole; }"
SLOW = """() => { const open = IDBFactory.prototype.open;
  IDBFactory.prototype.open = function (...more) {
    IDBFactory.prototype.open = open;
    const until = Date.now() + 1600, request = open.apply(this, more), hear = { };
    Object.defineProperty(request, "onsuccess", { set(good) {
      request.addEventListener("success", () => setTimeout(good, until - Date.now()));
    } });
    return request;
  }; }"""


@pytest.fixture(scope="module")
def notebooks(lab):
    """Two notebooks; their kernels run on from test to test."""
    names = [lab.add(f"kept_by_the_page_{number}", CELL) for number in range(2)]
    yield names
    for session in lab.get("/api/sessions"):
        if any(name in session["path"] for name in names):
            lab.request(f"/api/sessions/{session['id']}", method="DELETE")


@pytest.fixture
def context(browser):
    """One reader's browser, with a store of its own."""
    one = reader(browser)
    yield one
    one.close()


@pytest.fixture
def tab(lab, browser, context, notebooks):
    """Opens a notebook in a tab of that browser and runs it."""
    opened = []

    def without_errors(chapter):
        assert chapter.errors == [] and chapter.failed_cells == []

    def open_one(which=0):
        chapter = Chapter(lab, browser, notebooks[which], context=context)
        chapter.run_everything()
        opened.append(chapter)
        panel = Panel(chapter)
        panel.becomes(HOME)
        panel.kept = lambda: chapter.page.evaluate(KEPT)
        panel.line = lambda: panel.page.locator(".practice-kept").inner_text()
        panel.end = lambda: (without_errors(opened.pop(opened.index(chapter))), chapter.end())
        panel.press = lambda words: panel.root.get_by_role("button", name=words).first.click()
        return panel

    yield open_one
    for chapter in opened:
        without_errors(chapter)


def show(panel, questions):
    """Answer so many questions of a set with "Show me", and go back to the start."""
    panel.press("Today's set")
    for number in range(1, questions + 1):
        panel.becomes(f"Question {number} of")
        panel.press("Show me")
        panel.root.locator(".verdict").wait_for()
        panel.press("Next" if number < questions else "Stop here")
    panel.becomes(HOME)


def test_the_record_outlives_its_page_and_kernel_and_is_shared_by_tabs(tab):
    panel = tab()
    assert "Your answers stay in this browser, on this computer. Save them now and then." in panel.text
    late_and_without_room(panel)
    panel.page.evaluate(SPOIL)
    panel.end()
    panel = tab()
    assert "1 answer in this browser cannot be read any more. It was set aside; all others are whole." in panel.text
    wait(lambda: len(panel.kept()) == 2, "what was damaged to be set aside")
    panel.press("What is weak")
    panel.becomes("What is weak")
    assert (
        "keeps your record for this site: 2 answers, about 1 kB. 1 entry that cannot be read is set aside."
        in panel.text
    )
    assert faults(panel.page, ".practice") == []
    other = tab(1)
    show(other, 1)
    wait(lambda: "3 answers" in panel.text, "the other tab's answer")
    out_and_in_again(panel, other)


def late_and_without_room(panel):
    """Three answers: one that the browser takes its time with, one that finds no room, one after which there is room again."""
    panel.page.evaluate(SLOW)
    show(panel, 1)
    wait(lambda: "not kept yet" in panel.line(), "the line about a late answer")
    wait(lambda: panel.line() == "" and len(panel.kept()) == 1, "the answer to be kept after all")
    panel.page.evaluate(FULL)
    show(panel, 1)
    wait(lambda: "the browser has no room left" in panel.line(), "the line about a full browser")
    assert len(panel.kept()) == 1
    panel.page.evaluate(ROOM)
    show(panel, 1)
    wait(lambda: panel.line() == "" and len(panel.kept()) == 3, "what was not kept to be kept")


def out_and_in_again(panel, other):
    """Save the three answers, erase them, which the other tab hears of, and take them over from the table."""
    with panel.page.expect_download() as saved:
        panel.press("Save my record")
    before, table = sorted(panel.kept()), saved.value.path()
    panel.press("Erase my record")
    panel.becomes("Erase your record?")
    assert "This erases 3 answers in this browser." in panel.text
    panel.press("Erase all")
    wait(lambda: panel.kept() == [], "an empty store")
    wait(lambda: "nothing yet" in other.text, "the other tab to hear of it")
    panel.press("What is weak")
    panel.becomes("What is weak")
    panel.page.locator(".file-door input").set_input_files(table)
    wait(lambda: "3 answers taken over, 0 were here already." in panel.text, "what was taken over")
    wait(lambda: sorted(panel.kept()) == before, "the same answers in the browser")


def test_a_browser_that_refuses_says_so_and_practice_goes_on(context, tab):
    context.add_init_script(REFUSE)
    panel = tab(1)
    assert REFUSED in panel.text and "stay in this browser" not in panel.text
    show(panel, 1)
    assert REFUSED in panel.text and panel.line() == ""
    panel.press("What is weak")
    panel.becomes("What is weak")
    with panel.page.expect_download() as saved:
        panel.press("Save my record")
    assert saved.value.path().read_bytes().count(b"\n") == 2
