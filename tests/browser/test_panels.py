"""The panels in the real page: keyboard, words, keep, save, open. Numbers are checked in tests/own."""

import json

import pytest

from .accessibility import of_chapter
from .lab import HOMES, Chapter, PanelPage, open_and_run, play_a_step

pytestmark = pytest.mark.browser


@pytest.fixture(scope="module", params=HOMES)
def panel(request, lab, browser):
    """The first panel of each chapter that has one, after the chapter was opened and run as all others are."""
    chapter = Chapter(lab, browser, request.param)
    open_and_run(chapter)
    yield PanelPage(chapter)
    assert chapter.errors == [] and chapter.outside == []
    chapter.close()


def readout(slider):
    """The number in a slider's box."""
    box = slider.locator("xpath=ancestor::*[contains(@class, 'pull-slider')]").locator(".number")
    return float(box.input_value().replace("−", "-"))


def goes_to(stop):
    """The number in a stop's name, as "hanging: 0 °"."""
    return float(stop.get_attribute("aria-label").rpartition(": ")[2].split()[0].replace("−", "-"))


def test_every_slider_goes_to_both_ends_and_back_by_keyboard(panel):
    for slider in panel.sliders():
        start, words = readout(slider), panel.at_rest().words
        slider.focus()
        ends = {}
        at_end = abs(start - float(slider.get_attribute("max"))) < 1e-9
        for key in ("Home", "End") if at_end else ("End", "Home"):
            before = panel.picture, panel.words
            panel.page.keyboard.press(key)
            panel.becomes(lambda p, was=before: p.picture != was[0], f"the picture to follow {key}")
            panel.becomes(lambda p, was=before: p.words != was[1], "the words to follow")
            panel.becomes(lambda p: p.verdict and p.verdict in p.words, "the sentence above to say the same")
            ends[key] = readout(slider)
            assert panel.trouble == "" and str(readout(slider)).rstrip("0").rstrip(".") in spoken(slider)
        assert ends["End"] > ends["Home"]
        panel.page.keyboard.press("Home")
        for _ in range(400):
            if readout(slider) >= start - 1e-9:
                break
            panel.page.keyboard.press("ArrowRight")
        panel.becomes(lambda p, was=words: p.words == was, "the first words to come back")


def spoken(slider):
    """What a screen reader says of a slider: its name and its value in words."""
    assert slider.get_attribute("aria-label")
    return slider.get_attribute("aria-valuetext").replace("−", "-")


def test_the_whole_panel_stands_on_one_screen_and_lines_have_round_ends(panel):
    assert panel.off_screen() == []
    caps = panel.root.locator(".layers > svg path[stroke-linecap='round']").evaluate_all(
        "all => all.slice(0, 40).map(one => getComputedStyle(one).strokeLinecap)"
    )
    assert caps and set(caps) == {"round"}
    leaks = "() => [...document.querySelectorAll('.jp-Notebook style')].filter(one => /^\\s*\\*\\s*\\{/.test(one.textContent)).length"
    assert panel.page.evaluate(leaks) == 0


def test_the_still_picture_is_gone_while_the_panel_lives(panel):
    """The one just below; a later answer may show the panel as it stood elsewhere."""
    panel.page.evaluate("() => document.querySelectorAll('.jp-Notebook details').forEach(one => { one.open = true; })")
    below = """one => {
      let cell = one.closest('.jp-Cell'), seen = 0;
      for (let i = 0; i < 4 && (cell = cell.nextElementSibling); i++)
        for (const image of cell.querySelectorAll("img[src*='_panel.svg']")) seen += image.getBoundingClientRect().height > 0;
      return seen;
    }"""
    panel.becomes(lambda p: p.root.locator(".pull-picture").first.evaluate(below) == 0, "the still picture to go")


def test_play_moves_the_main_slider_and_back_to_start_brings_it_home(panel):
    main = panel.root.locator(".pull-slider.main")
    if not main.count():
        pytest.skip("this panel has no main slider")
    slider, words = main.locator(".range"), panel.at_rest().words
    start, play = readout(slider), main.get_by_role("button", name="Play")
    assert play.count() == 1
    step = play_a_step(main)
    assert step["label"] == "Pause" and step["from"] == start and play.count() == 1
    panel.becomes(lambda p: p.words != words, "the words to follow")
    paused = panel.at_rest().words
    assert abs(readout(slider) - step["to"]) < 1e-9, "it goes on after Pause"
    stops = main.locator(".stop").all()
    far = next(one for one in stops if abs(goes_to(one) - step["to"]) > 1e-9)
    far.click()
    panel.becomes(lambda p: p.words != paused, "the stop to be reached")
    assert abs(readout(slider) - goes_to(far)) < 1e-9
    main.get_by_role("button", name="Back to start").click()
    panel.becomes(lambda p: p.words == words, "the start to come back")
    assert readout(slider) == start
    box = main.locator(".number")
    step, top = (float(slider.get_attribute(name)) for name in ("step", "max"))
    elsewhere = start + (10 if start + 10 * step <= top else -10) * step
    box.fill(str(round(elsewhere, 4)).replace(".", ","))
    box.press("Enter")
    panel.becomes(lambda p: p.words != words, "the typed number, with a comma, to be taken")
    main.get_by_role("button", name="Back to start").click()
    panel.becomes(lambda p: p.words == words, "the start to come back")


def test_keep_one_and_read_the_difference(panel):
    panel.press("Drop the kept one")
    panel.at_rest()
    panel.press("Keep this one")
    slider = panel.sliders()[0]
    slider.focus()
    for key in ("Home", "End"):  # it may stand at one of them
        panel.page.keyboard.press(key)
    told = panel.at_rest().verdict
    panel.press("Drop the kept one")
    panel.becomes(lambda p: p.verdict != told, "the difference to go")


def test_save_everything_and_open_the_set_up_again(panel, tmp_path):
    panel.press("Save and open")
    kinds = {"SVG": b"<?xml", "PNG": b"\x89PNG", "CSV": b"\xef\xbb\xbf", "JSON": b"{"}
    for kind, start in kinds.items():
        with panel.page.expect_download() as caught:
            several = kind == "JSON" and panel.root.get_by_role("button", name="Save the clients").count()
            panel.press("Save the clients" if several else f"Save {kind}")
        caught.value.save_as(tmp_path / caught.value.suggested_filename)
        content = (tmp_path / caught.value.suggested_filename).read_bytes()
        assert content.startswith(start) and len(content) > 200, kind
        assert caught.value.suggested_filename.endswith(f"panel.{kind.lower()}")
    (saved,) = tmp_path.glob("*.json")
    words = panel.at_rest().words
    move_away(panel, words)
    panel.root.locator('input[type="file"]').last.set_input_files(saved)
    panel.becomes(lambda p: p.words == words, "the saved set-up to come back")
    move_away(panel, words)
    drop(panel, saved)
    panel.becomes(lambda p: p.words == words, "the dropped set-up to come back")
    path = panel.root.get_by_placeholder("or its path, then Enter")
    path.fill(f"'{saved}'")
    for _ in range(2):  # the same path opens again
        move_away(panel, words)
        path.press("Enter")
        panel.becomes(lambda p: p.words == words, "the set-up to come back by its path")
    path.fill("/dev/zero")
    path.press("Enter")
    panel.becomes(lambda p: "a folder or a device" in p.trouble, "the plain line about the path")


def move_away(panel, words):
    """Move the first slider, so that the panel says something else than ``words``."""
    panel.sliders()[0].focus()
    for key in ("Home", "ArrowRight"):  # it may stand at its end
        panel.page.keyboard.press(key)
    panel.becomes(lambda p: p.words != words, "the set-up to change")
    panel.at_rest()  # a page holds moves back while the kernel is busy, but not what opens a file


def drop(panel, path):
    """Drop a file on the panel's door, as a reader's hand would."""
    files = panel.page.evaluate_handle(
        "text => { const moved = new DataTransfer(); moved.items.add(new File([text], 'set-up.json')); return moved; }",
        path.read_text(),
    )
    door = panel.root.locator(".file-door").last  # the planner has one for logs, too
    for event in ("dragover", "drop"):
        door.dispatch_event(event, {"dataTransfer": files})


def test_a_wrong_file_is_one_plain_line_and_the_picture_stays(panel, tmp_path):
    picture = panel.at_rest().picture
    (tmp_path / "wrong.json").write_text(json.dumps({"kind": "shopping list"}))
    drop(panel, tmp_path / "wrong.json")
    panel.becomes(lambda p: "was not saved by these panels" in p.trouble, "the plain line")
    assert panel.picture == picture
    panel.sliders()[0].focus()
    for key in ("Home", "ArrowRight"):  # it may stand at its end
        panel.page.keyboard.press(key)
    panel.becomes(lambda p: p.trouble == "", "the line to go")


def test_a_picture_shown_ahead_is_the_one_that_the_model_draws(panel):
    """Slow steps are shown before the kernel answers, fast ones are not; a typed number never is."""
    slider = panel.sliders()[0]
    slider.focus()
    panel.page.keyboard.press("Home")
    panel.at_rest()
    for key, rest in (
        ("ArrowRight", 300),
        ("ArrowRight", 300),
        ("ArrowRight", 0),
        ("ArrowLeft", 0),
        ("ArrowLeft", 300),
    ):
        panel.page.keyboard.press(key)
        panel.page.wait_for_timeout(rest)
    reached, stepped = readout(slider), (panel.at_rest().elements, panel.words)
    box = slider.locator("xpath=ancestor::*[contains(@class, 'pull-slider')]").locator(".number")
    for value in (float(slider.get_attribute("max")), reached):
        before = panel.picture
        box.fill(str(value))
        box.press("Enter")
        panel.becomes(lambda p, was=before: p.picture != was, "the typed number to be taken")
    panel.at_rest()
    assert (panel.elements, panel.words) == stepped


def test_moved_as_fast_as_a_hand_can_the_last_value_stands(panel):
    slider = panel.sliders()[0]
    slider.focus()
    panel.page.keyboard.press("Home")
    for _ in range(30):
        panel.page.keyboard.press("ArrowRight", delay=0)
    settled = panel.at_rest().words
    panel.page.keyboard.press("ArrowLeft")
    panel.becomes(lambda p: p.words != settled, "one step back")
    panel.page.keyboard.press("ArrowRight")
    panel.becomes(lambda p: p.words == settled, "the same words for the same value")
    assert panel.trouble == ""


def test_axe_finds_no_serious_fault_in_either_theme(panel):
    """The last one: it opens every answer of the chapter, and leaves it dark."""
    assert of_chapter(panel.page) == {}
